//! A plan as it is stitched: passes, runs and their parts, with stitches, time and thread.

use super::minutes::FrameTime;
use crate::motif::Motif;
use crate::order::Loading;
use crate::plan::finding::Finding;
use crate::plan::marks::Mark;
use crate::plan::solved::Solved;
use crate::stitch::job::{Job, JobOptions};
use crate::transform::Transform;

/// A part of a piece in a run.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct RunPart {
    /// The number of the piece.
    pub piece: usize,
    /// Of a side, the repeats that it covers, counted from 1, the first and the last; `None` for a
    /// piece that is whole or cut inside a motif.
    pub repeats: Option<[usize; 2]>,
    /// Of a piece of several repeats, from where to where counted in repeats, each by its length:
    /// 2.25 is a quarter of the third. The lesser first.
    pub in_repeats: Option<[f64; 2]>,
    /// From where to where on the piece, as shares of its length from its start, the lesser first.
    pub between: [f64; 2],
    /// True when it is stitched against the direction of the piece.
    pub reversed: bool,
}

/// What is stitched without a thread cut.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PlannedRun {
    /// The number of the pass, from 0, over all loadings.
    pub pass: usize,
    /// The parts of pieces in order.
    pub parts: Vec<RunPart>,
    /// The line on the cloth, in millimetres, in the order of stitching.
    pub motif: Motif,
    /// True when it ends where it starts.
    pub closed: bool,
}

/// One pass: what is stitched before the quilt is advanced.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PlannedPass {
    /// How the quilt lies.
    pub loading: Loading,
    /// How far the window's upper edge lies below the upper edge of the quilt as loaded.
    pub top: f64,
    /// The height of the window.
    pub reach: f64,
    /// The map from the cloth to the machine, whose origin is where the window's upper edge meets
    /// the left edge of the quilt as loaded; x to the right, y down.
    pub to_machine: Transform,
    /// Places to put the needle on before it is stitched, so that it can be laid on the cloth as
    /// it lies, clockwise from the upper left; their letters are A, B and so on.
    pub marks: Vec<Mark>,
    /// The numbers of its runs.
    pub runs: std::ops::Range<usize>,
    /// The time for it: its runs, the advance to it from the pass before and its marks; loading the
    /// quilt counts for the whole alone.
    pub time: FrameTime,
}

/// A solved plan as it is stitched; lengths in millimetres, times in seconds.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Stitching {
    /// The machine's throat, of which windows are what its reserve and the roll leave; `None` when
    /// all of the quilt is within reach.
    pub throat: Option<f64>,
    /// The passes in order.
    pub passes: Vec<PlannedPass>,
    /// The runs in order, each one thread cut.
    pub runs: Vec<PlannedRun>,
    /// The number of thread cuts that no order in as few passes comes below, given the places where
    /// pieces may be divided.
    pub least_cuts: usize,
    /// The way from run to run without stitching.
    pub travel: f64,
    /// No order of these runs travels less; equal to `travel` where that is proven the least.
    pub least_travel: f64,
    /// How far the quilt is rolled on the frame from pass to pass, on and back together.
    pub rolled: f64,
    /// The runs as stitched, with time and thread.
    pub job: Job,
    /// How they are stitched.
    pub options: JobOptions,
    /// The time for all of it, by what it goes to.
    pub time: FrameTime,
    /// What there is to report of stitches, lines and passes, the most severe first.
    pub findings: Vec<Finding>,
}

impl Stitching {
    /// The findings of the plan and of its stitching, in the order of `result.json`.
    pub fn all_findings<'a>(&'a self, solved: &'a Solved) -> impl Iterator<Item = &'a Finding> {
        solved.findings.iter().chain(&self.findings)
    }

    /// The time for all of it, in minutes.
    #[must_use]
    pub fn minutes(&self) -> f64 {
        self.time.minutes()
    }

    /// The place of each piece of the solved plan in the order of stitching, from 1; 0 for a piece
    /// that is in no run. A piece that is stitched in several parts has the place of its first;
    /// pieces that are wholly stitched already come first of all.
    #[must_use]
    pub fn piece_numbers(&self, solved: &Solved) -> Vec<usize> {
        let mut numbers = vec![0; solved.pieces.len()];
        let mut next = 1;
        for (piece, number) in solved.pieces.iter().zip(&mut numbers) {
            if piece.is_stitched() {
                *number = next;
                next += 1;
            }
        }
        for part in self.runs.iter().flat_map(|run| &run.parts) {
            if let Some(number @ 0) = numbers.get_mut(part.piece) {
                *number = next;
                next += 1;
            }
        }
        numbers
    }
}
