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

/// The spans of the sides of a border that are stitched, clockwise from the first.
pub(in crate::plan) fn spans(
    border: &BorderAsked,
    layout: &Layout,
    corners: &Corners,
    flattening: f64,
) -> Result<Vec<SideSpan>, Error> {
    let span = |side| span(border, layout, corners, flattening, side);
    let stitched = layout.sides().filter(|side| border.has_side(side.index()));
    stitched.map(span).collect()
}

/// The span of one side of a border.
pub(in crate::plan) fn span(
    border: &BorderAsked,
    layout: &Layout,
    corners: &Corners,
    flattening: f64,
    side: Side,
) -> Result<SideSpan, Error> {
    let at = side.index();
    let joints = [
        corners.joints(at).map(|joints| joints[1]),
        corners
            .joints(layout.band.edge.after(at))
            .map(|joints| joints[0]),
    ];
    let own = by_itself(border, layout, side);
    let lines = [0, 1].map(|end| joints[end].map_or(own[end], |joint: Joint| joint.line));
    SideSpan::new(layout, side, lines, joints, flattening)
}

/// The lines that a side ends on where no corner joins on to it: at the edge where the side beside
/// it stays plain.
fn by_itself(border: &BorderAsked, layout: &Layout, side: Side) -> [CrossLine; 2] {
    let band = &layout.band;
    let runs_through = match border.corner {
        CornerAsked::Butted { first_runs } => side.index().is_multiple_of(2) == first_runs,
        _ => false,
    };
    let gap = border.corner_gap.unwrap_or(layout.seam_gap);
    let (first, last) = (side.index(), band.edge.after(side.index()));
    let line = |corner: usize, neighbour: usize| {
        let runs_through = runs_through || !border.has_side(neighbour);
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
    for side in layout.sides() {
        let span = spans.iter().find(|span| span.side == side);
        let straight = [&layout.band.outer, &layout.band.inner];
        for (which, (sides, straight)) in lines.iter_mut().zip(straight).enumerate() {
            let at = side.index();
            let corners = straight.corners();
            let (first, last) = (corners[at], corners[straight.after(at)]);
            let along = straight.direction(at);
            let room = (last - first).dot(&along);
            let between = |point: &Point| {
                let at = (point - first).dot(&along);
                at > 0.0 && at < room
            };
            let wavy = span.and_then(|span| span.outline.as_ref());
            let wavy = wavy.into_iter().flat_map(|lines| &lines[which]);
            let wavy = wavy.copied().filter(between);
            sides.push([first].into_iter().chain(wavy).chain([last]).collect());
        }
    }
    lines.map(closed)
}
