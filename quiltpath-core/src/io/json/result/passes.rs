//! Passes on the frame and their runs in `result.json`.

use serde::{Deserialize, Serialize};

use super::frame::CheckStop;
use super::totals::MinutesOf;
use crate::error::Error;
use crate::geom::Point;
use crate::io::numbers::{in_unit, point_in_unit};
use crate::io::words;
use crate::plan::{PlannedPass, RunPart, Solved, Stitching, mark_letter};

/// A pass: what is stitched before the quilt is advanced.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Pass {
    /// The number, from 1.
    pub number: usize,
    /// How the quilt lies: `upright` or `turned`.
    pub loading: String,
    /// How far the window's upper edge lies below the upper edge of the quilt as loaded.
    pub top: f64,
    /// The same of its lower edge, where the throat and the roll in it limit it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bottom: Option<f64>,
    /// The map from the cloth to the machine, a to f: x' = a x + c y + e, y' = b x + d y + f.
    pub to_machine: [f64; 6],
    /// Places to put the needle on before it is stitched; none in results that were written before
    /// they had them.
    #[serde(default)]
    pub marks: Vec<PassMark>,
    /// The runs in order.
    pub runs: Vec<Run>,
    /// The time for it, in minutes, without loading the quilt; 0 in results that were written
    /// before passes had it.
    #[serde(default)]
    pub minutes: f64,
    /// What these minutes go to.
    #[serde(default)]
    pub minutes_of: MinutesOf,
    /// The stops of the needle-up check in order.
    #[serde(default)]
    pub needle_up: Vec<CheckStop>,
}

/// A place on the cloth to put the needle on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct PassMark {
    /// The number of the pass and its letter there, such as `3A`.
    pub letter: String,
    /// Its name, which lasts: `seam corner bottom left`, `end of border side left, repeat 4`.
    pub name: String,
    /// Where the plan has it on the cloth.
    pub at: [f64; 2],
    /// Where the plan expects it on the machine.
    pub on_machine: [f64; 2],
    /// Whether it is the end of a line already stitched, which the pass goes on from.
    pub stitched: bool,
}

/// What is stitched without a thread cut.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Run {
    /// The number, from 1, over all passes.
    pub number: usize,
    /// The name of its border, with a number where the border has several.
    pub border: String,
    /// The parts of pieces in order.
    pub parts: Vec<Part>,
    /// True when it ends where it starts.
    pub closed: bool,
    /// Where it starts on the cloth.
    pub start: [f64; 2],
    /// Where it ends on the cloth.
    pub end: [f64; 2],
    /// Where it starts on the machine.
    pub start_on_machine: [f64; 2],
    /// Where it ends on the machine.
    pub end_on_machine: [f64; 2],
    /// The length of its line.
    pub length: f64,
    /// The number of its stitches.
    pub stitches: usize,
}

/// A part of a piece in a run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Part {
    /// The name of the piece.
    pub piece: String,
    /// Of a side, the first and the last repeat that it covers, from 1; `None` for a piece that is
    /// whole or cut inside a motif.
    pub repeats: Option<[usize; 2]>,
    /// Of a piece of several repeats, from where to where counted in repeats, each by its length:
    /// 2.25 is a quarter of the third.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub in_repeats: Option<[f64; 2]>,
    /// From where to where on the piece, as shares of its length from its start.
    #[serde(default)]
    pub between: [f64; 2],
    /// True when it is stitched against the direction of the piece.
    pub reversed: bool,
}

impl Pass {
    pub(super) fn all(solved: &Solved, stitching: &Stitching) -> Result<Vec<Self>, Error> {
        let passes = stitching.passes.iter().zip(1..);
        passes
            .map(|(pass, number)| Self::of(pass, number, solved, stitching))
            .collect()
    }

    fn of(
        pass: &PlannedPass,
        number: usize,
        solved: &Solved,
        stitching: &Stitching,
    ) -> Result<Self, Error> {
        let length = |mm: f64| in_unit(mm, solved.unit);
        let [a, b, c, d, e, f] = pass.to_machine.coefficients();
        let runs = pass.runs.clone();
        Ok(Self {
            number,
            loading: pass.loading.name().to_owned(),
            top: length(pass.top),
            bottom: stitching.throat.map(|_| length(pass.top + pass.reach)),
            to_machine: [a, b, c, d, length(e), length(f)],
            marks: (pass.marks.iter().enumerate())
                .map(|(at, mark)| PassMark {
                    letter: format!("{number}{}", mark_letter(at)),
                    name: words::mark(mark, solved),
                    at: point_in_unit(mark.point, solved.unit),
                    on_machine: point_in_unit(pass.to_machine.apply(mark.point), solved.unit),
                    stitched: mark.is_met(),
                })
                .collect(),
            runs: runs
                .map(|run| Run::of(run, pass, solved, stitching))
                .collect(),
            minutes: pass.time.minutes(),
            minutes_of: MinutesOf::of(&pass.time),
            needle_up: CheckStop::all(solved, stitching, number - 1)?,
        })
    }
}

impl Run {
    fn of(index: usize, pass: &PlannedPass, solved: &Solved, stitching: &Stitching) -> Self {
        let unit = solved.unit;
        let pair = |point: Point| point_in_unit(point, unit);
        let run = &stitching.runs[index];
        let ends = [run.motif.start().point, run.motif.end().point];
        let on_machine = ends.map(|end| pass.to_machine.apply(end));
        Self {
            number: index + 1,
            border: run.motif.name().to_owned(),
            parts: run
                .parts
                .iter()
                .map(|part| Part::of(part, solved))
                .collect(),
            closed: run.closed,
            start: pair(ends[0]),
            end: pair(ends[1]),
            start_on_machine: pair(on_machine[0]),
            end_on_machine: pair(on_machine[1]),
            length: in_unit(run.motif.length(), unit),
            stitches: stitching.job.lines[index].count(),
        }
    }
}

/// A share to 1e-9.
fn share(value: f64) -> f64 {
    (value * 1e9).round() / 1e9 + 0.0
}

impl Part {
    fn of(part: &RunPart, solved: &Solved) -> Self {
        Self {
            piece: solved.pieces[part.piece].name.clone(),
            repeats: part.repeats,
            in_repeats: part.in_repeats.map(|ends| ends.map(share)),
            between: part.between.map(share),
            reversed: part.reversed,
        }
    }
}
