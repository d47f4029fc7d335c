//! The marks of a pass: places on the cloth that the needle can be put on, chosen by what they say.

mod choose;
mod corners;
mod ends;
mod mark;
mod places;

pub(in crate::plan) use corners::OwnCorner;
pub(in crate::plan) use ends::{StitchedEnds, meets};
pub use mark::{AlongLine, LineEndMark, Mark, MarkKind, MarkLine, MarkedPiece, mark_letter};

use crate::geom::{Bounds, Point};
use crate::plan::lay::layout::Layout;
use crate::plan::stitch::{PlannedPass, PlannedRun};
use crate::units::Unit;
use choose::{Candidate, chosen};
use places::places;

/// Places within this of each other, in millimetres, are one.
const SAME_MM: f64 = 1.0;

/// The most places of a pass's lines that marks are chosen by.
const PLACES: usize = 48;

/// The marks of a pass whose window is so high, the ends of lines already stitched among them, and
/// two or more near each corner that is to be laid by itself.
///
/// # Complexity
///
/// O(points of the borders' lines) and a fixed work for what is chosen.
pub(in crate::plan) fn marks(
    (layouts, unit): (&[Layout], Unit),
    (pass, reach): (&PlannedPass, f64),
    (runs, corners): (&[PlannedRun], &[OwnCorner]),
    earlier: &StitchedEnds,
) -> Vec<Mark> {
    let machine = |point: Point| pass.to_machine.apply(point);
    let mut candidates: Vec<Candidate> = Vec::new();
    for mark in meets(runs, earlier) {
        let at = machine(mark.point);
        candidates.push(Candidate {
            mark,
            at,
            always: true,
        });
    }
    let within = |point: Point| (0.0..=reach).contains(&machine(point).y);
    let mut open = places(layouts, unit, reach, within);
    let near = corners
        .iter()
        .flat_map(|corner| corner.places(layouts, unit));
    for mark in near.filter(|mark| within(mark.point)) {
        if !open
            .iter()
            .any(|other| (other.point - mark.point).norm() < SAME_MM)
        {
            open.push(mark);
        }
    }
    for mark in open {
        let at = machine(mark.point);
        candidates.push(Candidate {
            mark,
            at,
            always: false,
        });
    }
    let lines: Vec<Point> = sampled(runs).map(machine).collect();
    let Some(window) = Bounds::of(&lines) else {
        return Vec::new();
    };
    let mut marks = chosen(candidates, &lines, window, corners);
    // Round the window clockwise from its upper left, as the needle is led from one to the next.
    let middle = window.centre();
    let turn = |mark: &Mark| {
        let away = machine(mark.point) - middle;
        let angle = (away.y / window.height().max(1.0)).atan2(away.x / window.width().max(1.0));
        (angle + 0.75 * std::f64::consts::PI).rem_euclid(std::f64::consts::TAU)
    };
    marks.sort_by(|one, other| turn(one).total_cmp(&turn(other)));
    marks
}

/// Places of the lines, evenly by their points.
fn sampled(runs: &[PlannedRun]) -> impl Iterator<Item = Point> {
    let all: usize = runs.iter().map(|run| run.motif.points().len()).sum();
    let step = all.div_ceil(PLACES).max(1);
    let points = runs
        .iter()
        .flat_map(|run| run.motif.points().iter().copied());
    points.step_by(step)
}
