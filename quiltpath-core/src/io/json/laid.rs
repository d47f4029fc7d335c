//! A laid pass in numbers, as the report beside its lines has it.

use serde::Serialize;

use super::finite::to_text;
use crate::align::Trend;
use crate::error::Error;
use crate::frame::{Clearance, LaidFinding, LaidPass, Laying, MarkReading};
use crate::geom::Point;
use crate::io::numbers::{in_unit, point_in_unit};
use crate::io::words;

#[derive(Serialize)]
struct Report<'a> {
    pass: usize,
    unit: &'static str,
    map: &'static str,
    turn_degrees: f64,
    stretch: [f64; 2],
    bow: f64,
    readings: Vec<OneReading<'a>>,
    clearances: Vec<OneClearance<'a>>,
    solved_again: Vec<String>,
    findings: Vec<OneFinding>,
    runs: Vec<OneRun>,
}

#[derive(Serialize)]
struct OneReading<'a> {
    letter: &'a str,
    mark: &'a str,
    read: [f64; 2],
    off: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    off_others: Option<f64>,
    leverage: f64,
    stitched: bool,
}

#[derive(Serialize)]
struct OneClearance<'a> {
    border: &'a str,
    seam: f64,
    edge: f64,
}

#[derive(Serialize)]
struct OneFinding {
    severity: &'static str,
    message: String,
}

#[derive(Serialize)]
struct OneRun {
    number: usize,
    start: [f64; 2],
    end: [f64; 2],
}

/// Writes a laid pass in numbers, in the plan's unit: the map and its readings, each with its
/// letter; how near lines come to seam and edge as touched; findings; where runs start and end on
/// the machine, y down.
///
/// # Errors
///
/// A geometry error with the key path of a number that is not finite.
pub fn write_laid(
    laying: &Laying,
    readings: &[(String, MarkReading)],
    (findings, clearances): (&[LaidFinding], &[Clearance]),
) -> Result<String, Error> {
    let (solved, laid) = (&laying.solved, &laying.laid);
    let length = |mm: f64| in_unit(mm, solved.unit);
    let place = |point: Point| point_in_unit(point, solved.unit);
    let reports = readings.iter().filter_map(|(letter, reading)| {
        let mut all = laid.aligned.readings.iter();
        let report = all.find(|report| report.mark == reading.name)?;
        Some(OneReading {
            letter,
            mark: &reading.name,
            read: place(reading.read),
            off: length(report.off.norm()),
            off_others: report.off_others.map(|off| length(off.norm())),
            leverage: report.leverage,
            stitched: reading.mark.is_met(),
        })
    });
    to_text(&Report {
        pass: laid.pass + 1,
        unit: solved.unit.symbol(),
        map: trend(laid),
        turn_degrees: laid.strain.turn_degrees,
        stretch: laid.strain.stretch,
        bow: length(laid.strain.bow),
        readings: reports.collect(),
        clearances: (clearances.iter())
            .filter_map(|near| {
                Some(OneClearance {
                    border: solved.layouts.get(near.border)?.name.as_str(),
                    seam: length(near.seam),
                    edge: length(near.edge),
                })
            })
            .collect(),
        solved_again: (laying.refitted.iter())
            .map(|side| words::refitted(side, solved))
            .collect(),
        findings: (findings.iter())
            .map(|one| OneFinding {
                severity: one.severity.name(),
                message: words::laid(&one.kind, solved),
            })
            .collect(),
        runs: (laid.runs.iter())
            .map(|run| OneRun {
                number: run.number + 1,
                start: place(run.motif.start().point),
                end: place(run.motif.end().point),
            })
            .collect(),
    })
}

fn trend(laid: &LaidPass) -> &'static str {
    match laid.aligned.map.trend() {
        Trend::Shift => "shift",
        Trend::Line => "line",
        Trend::Affine => "affine",
        Trend::Spline => "spline",
    }
}
