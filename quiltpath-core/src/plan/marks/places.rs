//! The places on the cloth that may become marks: corners, and places along seams and raw edges.

use super::mark::{AlongLine, Mark, MarkKind, MarkLine};
use crate::geom::measure::share_on_segment;
use crate::geom::{ConvexPolygon, Point};
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::{CornerPlace, Side};
use crate::units::Unit;

/// How far apart places along a line are: 8 in or 200 mm, and halved for lower windows.
fn step(unit: Unit, reach: f64) -> f64 {
    let (mut step, least) = match unit {
        Unit::In | Unit::Ft => (8.0 * 25.4, 25.4),
        _ => (200.0, 25.0),
    };
    while step > reach / 2.0 && step > least {
        step /= 2.0;
    }
    step
}

/// The places in a window of this height.
pub(super) fn places(
    layouts: &[Layout],
    unit: Unit,
    reach: f64,
    within: impl Fn(Point) -> bool,
) -> Vec<Mark> {
    let step = step(unit, reach);
    let mut marks = Vec::new();
    for (index, layout) in layouts.iter().enumerate() {
        let seam = (&layout.band.seam, &layout.lines.seam, MarkLine::Seam(index));
        let edge = (&layout.band.edge, &layout.lines.edge, MarkLine::RawEdge);
        let at_edge = index == 0 && !layout.is_field();
        let scallops = layout
            .round
            .as_ref()
            .and_then(|edge| edge.scallops.as_ref());
        if let Some(scallops) = scallops {
            let cusps = scallops.cusps().iter().enumerate();
            marks.extend(cusps.map(|(number, &point)| Mark::new(MarkKind::Cusp { number }, point)));
        }
        let at_edge = at_edge && scallops.is_none();
        let lines = [seam].into_iter().chain(at_edge.then_some(edge));
        for (straight, line, which) in lines {
            match layout.is_round() {
                // Nothing to measure along, and no corner to find.
                true => marks.extend(
                    Side::all(straight.sides())
                        .map(|side| mark_along((straight, line), which, side, AlongLine::Middle)),
                ),
                false => along((straight, line), which, step, &mut marks),
            }
        }
    }
    marks.retain(|mark| within(mark.point));
    marks
}

fn along(
    (straight, line): (&ConvexPolygon, &[Point]),
    which: MarkLine,
    step: f64,
    marks: &mut Vec<Mark>,
) {
    let corners = straight.corners();
    let places = CornerPlace::all(corners.len());
    marks.extend(places.zip(corners).map(|(corner, &point)| {
        let line = which;
        Mark::new(MarkKind::Corner { line, corner }, point)
    }));
    for side in Side::all(corners.len()) {
        let length = straight.side_length(side.index());
        let mut add = |at| marks.push(mark_along((straight, line), which, side, at));
        add(AlongLine::Middle);
        for number in 1.. {
            let distance = step * f64::from(number);
            if distance > length - step / 2.0 {
                break;
            }
            if (distance - length / 2.0).abs() > step / 4.0 {
                add(AlongLine::From(distance));
            }
        }
    }
}

/// A place along a side of a line.
pub(super) fn mark_along(
    (straight, line): (&ConvexPolygon, &[Point]),
    which: MarkLine,
    side: Side,
    at: AlongLine,
) -> Mark {
    let from = straight.corners()[side.index()];
    let distance = match at {
        AlongLine::Middle => straight.side_length(side.index()) / 2.0,
        AlongLine::From(distance) => distance,
    };
    let point = on_line(line, from + straight.direction(side.index()) * distance);
    let line = which;
    Mark::new(MarkKind::Along { line, side, at }, point)
}

/// The place of a line as it runs on the cloth next to one between its straight corners.
fn on_line(line: &[Point], point: Point) -> Point {
    let pairs = line.iter().zip(line.iter().cycle().skip(1));
    let places = pairs.map(|(&from, &to)| {
        let at = from + (to - from) * share_on_segment(point, [from, to]);
        (at, (at - point).norm())
    });
    let nearest = places.min_by(|one, other| one.1.total_cmp(&other.1));
    nearest.map_or(point, |(at, _)| at)
}
