//! Passes, runs and totals of stitching in `result.json`.

use serde::Serialize;

use crate::geom::Point;
use crate::io::numbers::{in_unit, point_in_unit};
use crate::plan::{Solved, Stitching};
use crate::units::Unit;

#[derive(Serialize)]
pub(super) struct PassData<'a> {
    number: usize,
    loading: &'static str,
    top: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    bottom: Option<f64>,
    /// x' = a x + c y + e, y' = b x + d y + f, from the cloth to the machine.
    to_machine: [f64; 6],
    runs: Vec<RunData<'a>>,
}

#[derive(Serialize)]
struct RunData<'a> {
    number: usize,
    border: &'a str,
    parts: Vec<PartData<'a>>,
    closed: bool,
    start: [f64; 2],
    end: [f64; 2],
    start_on_machine: [f64; 2],
    end_on_machine: [f64; 2],
    length: f64,
    stitches: usize,
}

#[derive(Serialize)]
struct PartData<'a> {
    piece: &'a str,
    repeats: Option<[usize; 2]>,
    reversed: bool,
}

#[derive(Serialize)]
pub(super) struct StitchingTotals {
    least_thread_cuts: usize,
    passes: usize,
    travel: f64,
    stitches: usize,
    shortest_stitch: Option<f64>,
    longest_stitch: Option<f64>,
    minutes: f64,
    needle_thread: f64,
    bobbin_thread: f64,
    spools: Option<u64>,
    bobbins: Option<u64>,
}

pub(super) fn passes<'a>(solved: &'a Solved, stitching: &'a Stitching) -> Vec<PassData<'a>> {
    let unit = solved.unit;
    let length = |mm: f64| in_unit(mm, unit);
    let pair = |point: Point| point_in_unit(point, unit);
    stitching
        .passes
        .iter()
        .enumerate()
        .map(|(index, pass)| {
            let [a, b, c, d, e, f] = pass.to_machine.coefficients();
            let runs = pass.runs.clone().map(|number| {
                let run = &stitching.runs[number];
                let ends = [run.motif.start().point, run.motif.end().point];
                RunData {
                    number: number + 1,
                    border: run.motif.name(),
                    parts: run
                        .parts
                        .iter()
                        .map(|part| PartData {
                            piece: &solved.pieces[part.piece].name,
                            repeats: part.repeats,
                            reversed: part.reversed,
                        })
                        .collect(),
                    closed: run.closed,
                    start: pair(ends[0]),
                    end: pair(ends[1]),
                    start_on_machine: pair(pass.to_machine.apply(ends[0])),
                    end_on_machine: pair(pass.to_machine.apply(ends[1])),
                    length: length(run.motif.length()),
                    stitches: stitching.job.lines[number].count(),
                }
            });
            PassData {
                number: index + 1,
                loading: pass.loading.name(),
                top: length(pass.top),
                bottom: stitching.throat.map(|throat| length(pass.top + throat)),
                to_machine: [a, b, c, d, length(e), length(f)],
                runs: runs.collect(),
            }
        })
        .collect()
}

impl StitchingTotals {
    pub(super) fn of(stitching: &Stitching, unit: Unit) -> Self {
        let length = |mm: f64| in_unit(mm, unit);
        let report = stitching.job.report();
        let need = &stitching.job.thread;
        Self {
            least_thread_cuts: stitching.least_cuts,
            passes: stitching.passes.len(),
            travel: length(stitching.travel),
            stitches: stitching.job.count(),
            shortest_stitch: report.as_ref().map(|report| length(report.shortest)),
            longest_stitch: report.as_ref().map(|report| length(report.longest)),
            minutes: stitching.minutes(),
            needle_thread: length(need.thread.needle),
            bobbin_thread: length(need.thread.bobbin),
            spools: need.spools,
            bobbins: need.bobbins,
        }
    }
}
