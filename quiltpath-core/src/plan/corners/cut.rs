//! A drawing cut to an L that starts and ends at the height of the repeat, whatever the depth.

use crate::chain::Repeat;
use crate::error::{Error, PlanFault};
use crate::geom::{Bounds, Point};
use crate::leg::{LegShape, l_region, leg_end};
use crate::motif::Motif;
use crate::plan::asked::{CutAsked, SideAsked};
use crate::transform::Transform;
use crate::trim::{RouteOptions, Terminals, TrimOptions, TrimReport, trim_to_region};

#[cfg(test)]
thread_local! {
    /// How many drawings this thread has cut.
    pub(in crate::plan) static CUTS: std::cell::Cell<usize> = const { std::cell::Cell::new(0) };
}

/// A drawing cut to an L, in the size of the drawing.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Cut {
    /// The name of the drawing.
    pub(super) drawing: String,
    pub(super) line: Motif,
    pub(super) shape: LegShape,
    pub(super) report: TrimReport,
}

/// The offsets across at which a side starts and ends, before its number of repeats is known.
fn offsets(side: &SideAsked, repeat: &Repeat) -> [f64; 2] {
    match side.pattern {
        pattern if pattern.is_centred() => repeat.chain_offsets(pattern, 2),
        _ => repeat.offsets(None),
    }
}

pub(super) fn cut(
    side: &SideAsked,
    asked: &CutAsked,
    motif: &Motif,
    repeat: &Repeat,
) -> Result<Cut, Error> {
    #[cfg(test)]
    CUTS.set(CUTS.get() + 1);
    let bounds = motif.bounds();
    let (elbow, depth) = (asked.elbow, asked.leg_depth);
    let width = asked.width.unwrap_or(bounds.width());
    let height = asked.height.unwrap_or(bounds.height());
    let [entering, leaving] = elbow.legs_clockwise();
    let [start, end] = offsets(side, repeat);
    let port = |leg, across| leg_end(elbow, width, height, depth, leg, across);
    let options = TrimOptions {
        route: RouteOptions {
            order: asked.order,
            terminals: Terminals {
                start: Some(port(entering, end)?),
                end: Some(port(leaving, start)?),
            },
            restitch: true,
            max_link: None,
            inset: asked.inset,
        },
        ..TrimOptions::default()
    };
    // The L lies at the origin, so the drawing is moved under it, elbow to elbow.
    let l = Bounds {
        min: Point::origin(),
        max: Point::new(width, height),
    };
    let moved = motif.transformed(&Transform::carry(elbow.of(bounds), elbow.of(l)))?;
    let region = l_region(elbow, width, height, depth)?;
    let cut = trim_to_region(&moved, &region, &options)?;
    let paths = cut.motifs.len();
    let Ok([line]) = <[Motif; 1]>::try_from(cut.motifs) else {
        return Err(PlanFault::TrimmedApart { paths }.into());
    };
    Ok(Cut {
        drawing: motif.name().to_owned(),
        line,
        shape: LegShape {
            elbow,
            turn_degrees: 0.0,
            bounds: l,
            depth_horizontal: depth,
            depth_vertical: depth,
            outer_depth_horizontal: depth,
            outer_depth_vertical: depth,
            starts_on: entering,
            start_distance: 0.0,
            end_distance: 0.0,
            share: (width - depth) * (height - depth) / (width * height),
            doubts: Vec::new(),
        },
        report: cut.report,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chain::{Alternate, Ends};
    use crate::geom::BoxCorner;
    use crate::trim::JoinOrder;

    /// A zigzag over a block of 9 by 6, cut to an L 2 deep.
    #[test]
    fn the_shape_of_what_was_cut_is_that_of_its_l() {
        let motif = |name, points: &[(f64, f64)]| {
            let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
            Motif::from_points(name, points).expect("a motif")
        };
        let zigzag: Vec<(f64, f64)> = (0..19)
            .map(|k| (f64::from(k) / 2.0, f64::from(k % 2) * 6.0))
            .collect();
        let hill = motif("hill", &[(0.0, 1.0), (1.0, 0.0), (2.0, 1.0)]);
        let side = SideAsked {
            max_stretch: 0.1,
            pattern: Alternate::None,
            ends: Ends::Level,
            ease: false,
            alike: false,
            counts: Vec::new(),
            spacers: Vec::new(),
        };
        let asked = CutAsked {
            leg_depth: 2.0,
            width: None,
            height: None,
            inset: 0.0,
            elbow: BoxCorner::TopLeft,
            order: JoinOrder::Free,
        };
        let repeat = Repeat::new(&hill).expect("a repeat");
        let cut = cut(&side, &asked, &motif("zigzag", &zigzag), &repeat).expect("an L");
        let l = l_region(asked.elbow, 9.0, 6.0, 2.0).expect("an L");
        let held = |&point: &Point| l.contains(point) || l.distance_to_boundary(point) < 1e-9;
        assert!(cut.line.points().iter().all(held));
        // The empty corner is what the L leaves of the block.
        assert!((cut.shape.share - (1.0 - l.area() / 54.0)).abs() < 1e-12);
    }
}
