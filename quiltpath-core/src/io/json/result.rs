//! A solved plan as `result.json`: all numbers, in the unit that the plan asked for.

mod findings;
mod passes;
mod pieces;

use serde::Serialize;

use self::findings::{FindingData, finding_data};
use self::passes::{PassData, StitchingTotals};
use self::pieces::{PieceData, piece_data};
use super::points::to_text;
use crate::geom::Point;
use crate::io::numbers::{self, Limits, in_unit, point_in_unit};
use crate::plan::{Quilt, Solved, Stitching};
use crate::units::Unit;

#[derive(Serialize)]
struct ResultData<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    title: Option<&'a str>,
    unit: &'a str,
    quilt: QuiltData,
    bands: Vec<BandData<'a>>,
    pieces: Vec<PieceData<'a>>,
    joins: Vec<JoinData<'a>>,
    paths: Vec<PathData<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    passes: Option<Vec<PassData<'a>>>,
    findings: Vec<FindingData<'a>>,
    totals: Totals,
}

#[derive(Serialize)]
struct QuiltData {
    width: f64,
    height: f64,
    corners: Vec<[f64; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    measured: Option<MeasuredData>,
}

#[derive(Serialize)]
struct MeasuredData {
    measures: Vec<MeasureData>,
    rms: f64,
    /// For each corner how far it moves when a diagonal changes; null where no quilt is left.
    moves_by_eighth_inch: [Option<f64>; 4],
}

#[derive(Serialize)]
struct MeasureData {
    what: &'static str,
    given: f64,
    found: f64,
}

#[derive(Serialize)]
struct BandData<'a> {
    border: &'a str,
    depth: f64,
    depths: Vec<f64>,
    inner: Vec<[f64; 2]>,
    outer: Vec<[f64; 2]>,
}

#[derive(Serialize)]
struct JoinData<'a> {
    from: &'a str,
    to: &'a str,
    gap: f64,
    kink_degrees: f64,
}

#[derive(Serialize)]
struct PathData<'a> {
    border: &'a str,
    pieces: Vec<&'a str>,
    closed: bool,
    start: [f64; 2],
    end: [f64; 2],
    length: f64,
}

#[derive(Serialize)]
struct Totals {
    length: f64,
    pieces: usize,
    thread_cuts: usize,
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    stitching: Option<StitchingTotals>,
}

/// Writes a solved plan as one JSON object and a line end; with its stitching, passes and totals of
/// stitches, time and thread are in it.
///
/// The keys are listed in the guide's chapter on results; lengths are in the plan's unit, rounded
/// to 1e-9 of it.
///
/// # Complexity
///
/// O(points).
#[must_use]
pub fn write_result(solved: &Solved, stitching: Option<&Stitching>) -> String {
    let unit = solved.unit;
    let length = |mm: f64| in_unit(mm, unit);
    let pair = |point: Point| point_in_unit(point, unit);
    let limits: Vec<Limits> = solved.layouts.iter().map(Limits::of).collect();
    let border = |index: usize| solved.layouts[index].name.as_str();
    let name = |index: usize| solved.pieces[index].name.as_str();
    let polygon = |corners: &[Point]| corners.iter().copied().map(pair).collect();
    to_text(&ResultData {
        title: solved.title.as_deref(),
        unit: solved.unit.symbol(),
        quilt: quilt_data(&solved.quilt, unit),
        bands: solved
            .layouts
            .iter()
            .map(|layout| BandData {
                border: &layout.name,
                depth: length(layout.depth()),
                depths: layout.depths().into_iter().map(length).collect(),
                inner: polygon(&layout.lines.inner),
                outer: polygon(&layout.lines.outer),
            })
            .collect(),
        pieces: solved
            .pieces
            .iter()
            .zip(numbers::numbers(solved, stitching))
            .map(|(piece, number)| {
                let lie = limits[piece.border].lie(piece);
                piece_data(piece, (number, border(piece.border)), &lie, unit)
            })
            .collect(),
        joins: solved
            .joins
            .iter()
            .map(|join| JoinData {
                from: name(join.from),
                to: name(join.to),
                gap: length(join.gap),
                kink_degrees: join.kink_degrees,
            })
            .collect(),
        paths: solved
            .paths
            .iter()
            .map(|path| PathData {
                border: border(path.border),
                pieces: path.pieces.iter().map(|&piece| name(piece)).collect(),
                closed: path.closed,
                start: pair(path.motif.start().point),
                end: pair(path.motif.end().point),
                length: length(path.motif.length()),
            })
            .collect(),
        passes: stitching.map(|stitching| passes::passes(solved, stitching)),
        findings: solved
            .findings
            .iter()
            .chain(stitching.iter().flat_map(|stitching| &stitching.findings))
            .map(|finding| finding_data(finding, solved))
            .collect(),
        totals: Totals {
            length: length(solved.length()),
            pieces: solved.pieces.len(),
            thread_cuts: stitching.map_or(solved.thread_cuts(), |stitching| stitching.runs.len()),
            stitching: stitching.map(|stitching| StitchingTotals::of(stitching, unit)),
        },
    })
}

fn quilt_data(quilt: &Quilt, unit: Unit) -> QuiltData {
    let length = |mm: f64| in_unit(mm, unit);
    let bounds = quilt.bounds();
    let measured = quilt.measured.as_ref().map(|measured| MeasuredData {
        measures: measured
            .residuals
            .iter()
            .map(|residual| MeasureData {
                what: residual.what,
                given: length(residual.given),
                found: length(residual.found),
            })
            .collect(),
        rms: length(measured.rms),
        moves_by_eighth_inch: measured.moves.map(|by| by.is_finite().then(|| length(by))),
    });
    QuiltData {
        width: length(bounds.width()),
        height: length(bounds.height()),
        corners: quilt
            .outline
            .corners()
            .iter()
            .map(|corner| [length(corner.x), length(corner.y)])
            .collect(),
        measured,
    }
}
