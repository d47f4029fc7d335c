//! The spans of all sides of a border, between its corners or by themselves.

use super::span::SideSpan;
use crate::error::Error;
use crate::geom::{Point, Vector};
use crate::plan::asked::{BorderAsked, CornerAsked};
use crate::plan::corners::Corners;
use crate::plan::joint::Joint;
use crate::plan::lay::layout::Layout;
use crate::plan::lay::meet::closed;
use crate::plan::lay::place::Side;
use crate::warp::CrossLine;

/// The spans of a border's sides, clockwise from the first.
pub(in crate::plan) fn spans(
    border: &BorderAsked,
    layout: &Layout,
    corners: &Corners,
    flattening: f64,
) -> Result<Vec<SideSpan>, Error> {
    let span = |side| span(border, layout, corners, flattening, side);
    layout.sides().map(span).collect()
}

/// The span of one side of a border.
pub(in crate::plan) fn span(
    border: &BorderAsked,
    layout: &Layout,
    corners: &Corners,
    flattening: f64,
    side: Side,
) -> Result<SideSpan, Error> {
    match &corners.joints {
        Some(joints) => {
            let joints = around(joints, side);
            let lines = joints.map(|joint| joint.line);
            SideSpan::new(layout, side, lines, Some(joints), flattening)
        }
        None => {
            let lines = by_itself(border, layout, side);
            SideSpan::new(layout, side, lines, None, flattening)
        }
    }
}

/// The joints at the start and at the end of a side.
fn around(joints: &[[Joint; 2]], side: Side) -> [Joint; 2] {
    let next = (side.index() + 1) % joints.len();
    [joints[side.index()][1], joints[next][0]]
}

/// The lines that a side ends on whose corners stand by themselves.
fn by_itself(border: &BorderAsked, layout: &Layout, side: Side) -> [CrossLine; 2] {
    let band = &layout.band;
    let runs_through = match border.corner {
        CornerAsked::Butted { first_runs } => side.index().is_multiple_of(2) == first_runs,
        _ => false,
    };
    let gap = border.corner_gap.unwrap_or(layout.seam_gap);
    let (first, last) = (side.index(), band.edge.after(side.index()));
    let line = |corner: usize, neighbour: usize| {
        let direction = band.edge.direction(neighbour);
        let inwards = Vector::new(-direction.y, direction.x);
        let through = if runs_through {
            band.outer.corners()[corner]
        } else {
            band.seam.corners()[corner] + inwards * gap
        };
        CrossLine { through, direction }
    };
    [line(first, band.edge.before(first)), line(last, last)]
}

/// The outer and the inner line of a border's band as it runs on the cloth, waves and all.
///
/// A side that reaches past a corner, as one that runs through does, counts between the corners
/// alone, or its line would cross that of the side beside it.
pub(in crate::plan) fn outlines(layout: &Layout, spans: &[SideSpan]) -> [Vec<Point>; 2] {
    let mut lines = [Vec::new(), Vec::new()];
    for span in spans {
        let straight = [&layout.band.outer, &layout.band.inner];
        for (which, (sides, straight)) in lines.iter_mut().zip(straight).enumerate() {
            let at = span.side.index();
            let corners = straight.corners();
            let (first, last) = (corners[at], corners[straight.after(at)]);
            let along = straight.direction(at);
            let room = (last - first).dot(&along);
            let between = |point: &Point| {
                let at = (point - first).dot(&along);
                at > 0.0 && at < room
            };
            let wavy = span.outline.iter().flat_map(|lines| &lines[which]);
            let wavy = wavy.copied().filter(between);
            sides.push([first].into_iter().chain(wavy).chain([last]).collect());
        }
    }
    lines.map(closed)
}
