//! A drawing cut to a region and joined again, in one call.

use super::clip::{DEFAULT_SLIVER_MM, clip};
use super::options::RouteOptions;
use super::route::route;
use super::routed::{RoutedPath, TrimReport};
use crate::error::Error;
use crate::geom::region::Region;
use crate::motif::Motif;

/// How to cut a drawing and join it again.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct TrimOptions {
    /// Pieces shorter than this are dropped; 0.5 by default, for drawings in millimetres.
    pub sliver: f64,
    /// How to join the pieces.
    pub route: RouteOptions,
}

impl TrimOptions {
    /// The same options, pieces shorter than this being dropped.
    #[must_use]
    pub fn with_sliver(mut self, length: f64) -> Self {
        self.sliver = length;
        self
    }

    /// The same options with this way to join the pieces.
    #[must_use]
    pub fn with_route(mut self, route: RouteOptions) -> Self {
        self.route = route;
        self
    }
}

impl Default for TrimOptions {
    fn default() -> Self {
        Self {
            sliver: DEFAULT_SLIVER_MM,
            route: RouteOptions::default(),
        }
    }
}

/// A drawing cut to a region and joined again.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Trimmed {
    /// One continuous motif, or several in the order of stitching where the thread is cut; the
    /// first keeps the drawing's name, the others add their number.
    pub motifs: Vec<Motif>,
    /// The same paths with what each stretch of them is.
    pub paths: Vec<RoutedPath>,
    /// What cutting and joining cost.
    pub report: TrimReport,
}

/// Cuts a drawing to a region and joins what is left to one continuous motif, or to several when
/// thread cuts are needed.
///
/// A drawing that lies inside comes back as it is, unless a start or an end is prescribed.
///
/// ```
/// use quiltpath_core::geom::{BoxCorner, Point};
/// use quiltpath_core::leg::{LegName, l_region, leg_end};
/// use quiltpath_core::motif::Motif;
/// use quiltpath_core::trim::{RouteOptions, Terminals, TrimOptions, trim_to_region};
///
/// // A block design of loops, cut to an L that runs from leg end to leg end.
/// let block = Motif::from_points("loops", (0..400).map(|i| {
///     let (sin, cos) = (f64::from(i) * 0.1).sin_cos();
///     let (row, column) = (f64::from(i / 20 % 10), f64::from(i / 200));
///     Point::new(25.0 + 9.0 * row + 20.0 * cos, 45.0 + 30.0 * column + 20.0 * sin)
/// }).collect())?;
/// let l = l_region(BoxCorner::TopLeft, 110.0, 110.0, 45.0)?;
/// let end = |leg| leg_end(BoxCorner::TopLeft, 110.0, 110.0, 45.0, leg, 0.5);
/// let terminals = Terminals::default()
///     .with_start(end(LegName::Vertical)?)
///     .with_end(end(LegName::Horizontal)?);
/// let route = RouteOptions::default().with_terminals(terminals).with_restitch(true);
/// let options = TrimOptions::default().with_route(route);
/// let trimmed = trim_to_region(&block, &l, &options)?;
/// assert_eq!(trimmed.motifs.len(), 1);
/// assert_eq!(trimmed.motifs[0].start().point, Point::new(22.5, 110.0));
/// assert_eq!(trimmed.motifs[0].end().point, Point::new(110.0, 22.5));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`clip`] and [`route`].
///
/// # Complexity
///
/// That of [`clip`] and [`route`].
pub fn trim_to_region(
    motif: &Motif,
    region: &Region,
    options: &TrimOptions,
) -> Result<Trimmed, Error> {
    let clipped = clip(motif.line(), region, options.sliver)?;
    let routed = route(&clipped.pieces, region, &options.route)?;
    let motifs = routed
        .paths
        .iter()
        .enumerate()
        .map(|(index, path)| {
            if path.line == *motif.line() {
                return motif.clone();
            }
            let name = match index {
                0 => motif.name().to_owned(),
                _ => format!("{} {}", motif.name(), index + 1),
            };
            Motif::new(name, path.line.clone())
        })
        .collect();
    Ok(Trimmed {
        motifs,
        paths: routed.paths,
        report: TrimReport {
            slivers: clipped.slivers,
            lost_length: clipped.lost_length,
            ..routed.report
        },
    })
}
