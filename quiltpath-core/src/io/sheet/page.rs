//! What a placement sheet is made from, and how its numbers, places and directions are written.

use std::fmt;

use maud::{Markup, html};

use crate::error::Error;
use crate::frame::{BobbinChanges, NeedleUp, bobbin_changes, check_pass};
use crate::geom::{Point, Vector};
use crate::io::fraction::number;
use crate::io::numbers::{in_unit, numbers, point_in_unit};
use crate::io::words::line_both;
use crate::motif::{End, Motif};
use crate::plan::{Finding, Fnv, Solved, Stitching, step_of};
use crate::units::Unit;

/// What a sheet shows.
pub(super) struct Page<'a> {
    pub(super) solved: &'a Solved,
    pub(super) stitching: &'a Stitching,
    /// The number of each piece, in the order of stitching.
    pub(super) numbers: Vec<usize>,
    pub(super) bobbins: BobbinChanges,
    /// The needle-up check of each pass.
    pub(super) checks: Vec<NeedleUp>,
}

impl<'a> Page<'a> {
    pub(super) fn of(solved: &'a Solved, stitching: &'a Stitching) -> Result<Self, Error> {
        let passes = 0..stitching.passes.len();
        let checks = passes.map(|pass| check_pass(solved, stitching, pass));
        Ok(Self {
            solved,
            stitching,
            numbers: numbers(solved, Some(stitching)),
            bobbins: bobbin_changes(solved, stitching)?,
            checks: checks.collect::<Result<_, Error>>()?,
        })
    }

    /// What tells this plan from others: a sum of its pieces' names and lines.
    pub(super) fn mark(&self) -> String {
        let mut sum = Fnv::new();
        for (piece, number) in self.solved.pieces.iter().zip(&self.numbers) {
            let line = piece.motif();
            let ends = [line.start().point, line.end().point];
            let numbers = ends
                .iter()
                .flat_map(|end| [end.x, end.y])
                .chain([line.length()]);
            sum.bytes(piece.name.as_bytes());
            // As wide on every platform.
            sum.bytes(&(*number as u64).to_le_bytes());
            for number in numbers {
                sum.bytes(&step_of(number * 100.0).to_le_bytes());
            }
        }
        format!("{:016x}", sum.0)
    }

    /// The findings in the order of `result.json`.
    pub(super) fn findings(&self) -> impl Iterator<Item = &'a Finding> {
        self.stitching.all_findings(self.solved)
    }

    /// The pieces in the order of stitching, by their places in the list.
    pub(super) fn in_order(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.numbers.len()).collect();
        order.sort_by_key(|&piece| self.numbers[piece]);
        order
    }

    /// True when the first part of a piece is stitched against the direction of its line.
    pub(super) fn reversed(&self, piece: usize) -> bool {
        let mut parts = self.stitching.runs.iter().flat_map(|run| &run.parts);
        let first = parts.find(|part| part.piece == piece);
        first.is_some_and(|part| part.reversed)
    }

    pub(super) fn unit(&self) -> Unit {
        self.solved.unit
    }

    /// A length as people read it, with the number that stands at `key` in `result.json`.
    pub(super) fn length(&self, key: &str, mm: f64) -> Markup {
        number(key, in_unit(mm, self.unit()), &self.unit().readable(mm))
    }

    /// The length of a line, likewise.
    pub(super) fn line(&self, key: &str, mm: f64) -> Markup {
        let unit = self.unit();
        number(key, in_unit(mm, unit), &line_both(unit, mm))
    }

    /// Both numbers of a place, with the keys of the point's two.
    pub(super) fn place(&self, key: &str, point: Point) -> Markup {
        let exact = point_in_unit(point, self.unit());
        let [x, y] = [(0, point.x), (1, point.y)].map(|(axis, mm)| {
            let readable = self.unit().readable(mm);
            number(&format!("{key}.{axis}"), exact[axis], &readable)
        });
        html! { (x) " across, " (y) " down" }
    }

    /// Width and height, with the keys of the two.
    pub(super) fn size(&self, key: &str, size: [f64; 2]) -> Markup {
        let [width, height] = [0, 1].map(|axis| self.length(&format!("{key}.{axis}"), size[axis]));
        html! { (width) " x " (height) }
    }
}

/// The two ends of a line as it is stitched, with their directions of travel.
pub(super) fn ends(motif: &Motif, reversed: bool) -> [End; 2] {
    let [start, end] = [motif.start(), motif.end()];
    let turned = |end: End| End {
        direction: -end.direction,
        ..end
    };
    if reversed {
        [turned(end), turned(start)]
    } else {
        [start, end]
    }
}

/// A whole number, which is its own words.
pub(super) fn whole(key: &str, value: impl fmt::Display) -> Markup {
    number(key, &value, &value.to_string())
}

/// A table of facts: what, and its value.
pub(super) fn facts(class: &str, rows: Vec<(&str, Markup)>) -> Markup {
    html! {
        dl class=(class) {
            @for (what, value) in rows { div { dt { (what) } dd { (value) } } }
        }
    }
}

/// Where a direction leads, in words: x to the right, y down.
pub(super) fn way(direction: Vector) -> &'static str {
    const WAYS: [&str; 8] = [
        "to the right",
        "down to the right",
        "down",
        "down to the left",
        "to the left",
        "up to the left",
        "up",
        "up to the right",
    ];
    let eighths = direction.y.atan2(direction.x) / std::f64::consts::FRAC_PI_4;
    WAYS[(eighths.round() as i64).rem_euclid(8) as usize]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn directions_are_named_in_eighths_of_a_turn() {
        for (x, y, wanted) in [
            (1.0, 0.1, "to the right"),
            (1.0, 1.0, "down to the right"),
            (0.1, 1.0, "down"),
            (-1.0, -0.1, "to the left"),
            (-1.0, 0.1, "to the left"),
            (0.0, -1.0, "up"),
            (1.0, -1.0, "up to the right"),
        ] {
            assert_eq!(way(Vector::new(x, y)), wanted);
        }
    }
}
