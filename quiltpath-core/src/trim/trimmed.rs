//! A drawing cut to a region and joined again, in one call.

use super::clip::{DEFAULT_SLIVER_MM, clip, inside};
use super::options::RouteOptions;
use super::route::route;
use super::routed::{RoutedPath, TrimReport};
use crate::error::Error;
use crate::geom::Polyline;
use crate::geom::crossing::self_crossings_within;
use crate::geom::region::Region;
use crate::motif::Motif;

/// How many pairs of segments are compared for each point to find out whether a line crosses
/// itself; drawn lines take fewer than a hundred.
const EFFORT: u64 = 200;

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
/// A drawing that lies inside comes back as it is, unless a start or an end is prescribed. A closed
/// one that starts inside and leaves is taken from where it leaves on: a start in the middle of
/// what is kept would cut it in two.
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
    let turned = turned(motif.line(), region)?;
    let line = turned.as_ref().unwrap_or(motif.line());
    let clipped = clip(line, region, options.sliver)?;
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
            crossed: is_crossed(line, region),
            ..routed.report
        },
    })
}

/// A closed line that starts inside and leaves the region, from where it leaves on; else `None`.
fn turned(line: &Polyline, region: &Region) -> Result<Option<Polyline>, Error> {
    let points = line.points();
    let last = points.len() - 1;
    if points[0] != points[last] || !region.contains(points[0]) {
        return Ok(None);
    }
    let pieces = inside(line, region, 0.0)?.pieces;
    let [first, _, ..] = &pieces[..] else {
        return Ok(None);
    };
    // The first piece has the points before the place where it leaves, then that place. Where the
    // line leaves the region at its start, no piece begins there, and none is cut in two.
    let leaves = first.line.end();
    let next = first.line.points().len() - 1;
    if first.line.points()[..next] != points[..next] {
        return Ok(None);
    }
    let mut around = Vec::with_capacity(points.len() + 1);
    around.push(leaves);
    around.extend(&points[next..last]);
    around.extend(&points[..next]);
    around.push(leaves);
    around.dedup();
    Polyline::new(around).map(Some)
}

/// Whether a line crosses itself in a region; also where that takes too long to find out.
fn is_crossed(line: &Polyline, region: &Region) -> bool {
    let effort = EFFORT * line.points().len() as u64;
    match self_crossings_within(line.points(), effort) {
        Some(crossings) => crossings
            .iter()
            .any(|crossing| region.contains(crossing.point)),
        None => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::leg::rectangle;
    use crate::trim::JoinOrder;

    /// A wave round a square of 60, closed, cut to its left half: however it is turned, what is
    /// kept is one piece, and in the drawn order it costs no more than the way along the cut.
    #[test]
    fn a_closed_drawing_keeps_what_its_start_lies_on() {
        let corners = [(0.0, 0.0), (60.0, 0.0), (60.0, 60.0), (0.0, 60.0)];
        let region = rectangle(30.0, 60.0).expect("a region");
        for start in 0..40 {
            let along = f64::from(start) * 6.0;
            let at = |along: f64| {
                let along = along.rem_euclid(240.0);
                let (side, share) = ((along / 60.0) as usize, along % 60.0 / 60.0);
                let (a, b) = (corners[side % 4], corners[(side + 1) % 4]);
                Point::new(a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share)
            };
            let mut points: Vec<Point> = (0..80).map(|k| at(along + 3.0 * f64::from(k))).collect();
            points.push(points[0]);
            let motif = Motif::from_points("square", points).expect("a motif");
            for order in [JoinOrder::Keep, JoinOrder::KeepAndReverse, JoinOrder::Free] {
                let route = RouteOptions::default().with_order(order);
                let options = TrimOptions::default().with_route(route);
                let trimmed = trim_to_region(&motif, &region, &options).expect("trimmed");
                let report = trimmed.report;
                assert!(
                    (report.own_length - 120.0).abs() < 1e-9,
                    "{along}: {report:?}"
                );
                assert!(report.added_length < 1e-9, "{along}: {report:?}");
                assert_eq!((report.slivers, trimmed.motifs.len()), (0, 1), "{along}");
            }
        }
    }

    #[test]
    fn where_lines_cross_nothing_is_claimed_of_the_least() {
        let region = rectangle(10.0, 10.0).expect("a region");
        let at = |points: &[(f64, f64)]| {
            let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
            let motif = Motif::from_points("m", points).expect("a motif");
            let trimmed = trim_to_region(&motif, &region, &TrimOptions::default());
            trimmed.expect("trimmed").report
        };
        let crossed = at(&[(-2.0, 5.0), (12.0, 5.0), (5.0, 12.0), (5.0, -2.0)]);
        assert!(crossed.crossed && crossed.least_added().is_none());
        // The same crossing outside of the region is no matter.
        let apart = at(&[(-2.0, 5.0), (22.0, 5.0), (15.0, 12.0), (15.0, -2.0)]);
        assert_eq!((apart.crossed, apart.least_added()), (false, Some(0.0)));
    }
}
