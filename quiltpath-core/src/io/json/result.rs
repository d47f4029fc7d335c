//! A solved plan as `result.json`: all numbers, in the unit that the plan asked for.

mod passes;

use serde::Serialize;

use self::passes::{PassData, StitchingTotals};
use super::points::to_text;
use crate::fit::Choice;
use crate::geom::Point;
use crate::io::numbers::{self, Lie, Limits, degrees, in_unit, length_in_unit, point_in_unit};
use crate::plan::{CornerMade, Piece, PieceKind, Quilt, Solved, Stitching};
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
struct PieceData<'a> {
    number: usize,
    name: &'a str,
    kind: &'a str,
    border: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    side: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    corner: Option<&'a str>,
    repeats: Option<usize>,
    depth: f64,
    stretch: Option<f64>,
    angle_degrees: Option<f64>,
    scale: Option<[f64; 2]>,
    made: Option<MadeData>,
    span: Option<f64>,
    advance: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ease: Option<EaseData>,
    choices: Vec<ChoiceData>,
    size: [f64; 2],
    start: [f64; 2],
    start_degrees: f64,
    start_from_seam: f64,
    start_from_edge: f64,
    end: [f64; 2],
    end_degrees: f64,
    end_from_seam: f64,
    end_from_edge: f64,
    length: f64,
    points: Converted<'a>,
}

/// Points of millimetres that are written in this unit.
struct Converted<'a>(&'a [Point], Unit);

impl Serialize for Converted<'_> {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.iter().map(|&point| point_in_unit(point, self.1)))
    }
}

#[derive(Serialize)]
#[serde(tag = "how", rename_all = "snake_case")]
enum MadeData {
    Drawn,
    Trimmed {
        added_length: f64,
        added_share: f64,
        links: usize,
        restitched_length: f64,
        lost_length: f64,
        least_added: f64,
    },
    Block {
        turn_degrees: f64,
    },
    Mitred {
        kink_degrees: f64,
        crossings: usize,
        lost_length: f64,
        linked_length: f64,
    },
    Bent {
        repeats: usize,
        radius: f64,
        arc_depth: f64,
        length_change: f64,
    },
}

#[derive(Serialize)]
struct EaseData {
    roundness: f64,
    unabsorbed: f64,
    takes: [f64; 2],
}

#[derive(Serialize)]
struct ChoiceData {
    repeats: usize,
    stretch: f64,
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
struct FindingData<'a> {
    severity: &'a str,
    code: &'a str,
    message: &'a str,
    at: Option<[f64; 2]>,
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
/// The keys are listed in the README under "result.json"; lengths are in the plan's unit, rounded
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
    let limits: Vec<Limits> = solved.frames.iter().map(Limits::of).collect();
    let border = |index: usize| solved.frames[index].name.as_str();
    let name = |index: usize| solved.pieces[index].name.as_str();
    let polygon = |corners: &[Point]| corners.iter().copied().map(pair).collect();
    to_text(&ResultData {
        title: solved.title.as_deref(),
        unit: solved.unit.symbol(),
        quilt: quilt_data(&solved.quilt, unit),
        bands: solved
            .frames
            .iter()
            .map(|frame| BandData {
                border: &frame.name,
                depth: length(frame.depth()),
                depths: frame.depths().into_iter().map(length).collect(),
                inner: polygon(&frame.lines.inner),
                outer: polygon(&frame.lines.outer),
            })
            .collect(),
        pieces: solved
            .pieces
            .iter()
            .zip(numbers::numbers(solved, stitching))
            .map(|(piece, number)| {
                let lie = limits[piece.border].lie(piece);
                let data = piece_data(piece, border(piece.border), &lie, unit);
                PieceData { number, ..data }
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
            .map(|finding| FindingData {
                severity: finding.severity.name(),
                code: finding.code,
                message: &finding.message,
                at: finding.at.map(pair),
            })
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

fn piece_data<'a>(piece: &'a Piece, border: &'a str, lie: &Lie, unit: Unit) -> PieceData<'a> {
    let length = |mm: f64| in_unit(mm, unit);
    let pair = |point: Point| point_in_unit(point, unit);
    let [start, end] = [piece.motif.start(), piece.motif.end()];
    let mut data = PieceData {
        number: 0,
        name: &piece.name,
        kind: piece.kind.name(),
        border,
        side: None,
        corner: None,
        repeats: None,
        depth: length(piece.depth),
        stretch: None,
        angle_degrees: None,
        scale: None,
        made: None,
        span: None,
        advance: None,
        ease: None,
        choices: Vec::new(),
        size: lie.size.map(length),
        start: pair(start.point),
        start_degrees: degrees(start.direction),
        start_from_seam: length(lie.from_seam[0]),
        start_from_edge: length(lie.from_edge[0]),
        end: pair(end.point),
        end_degrees: degrees(end.direction),
        end_from_seam: length(lie.from_seam[1]),
        end_from_edge: length(lie.from_edge[1]),
        length: length_in_unit(&piece.motif, unit),
        points: Converted(piece.motif.points(), unit),
    };
    match &piece.kind {
        PieceKind::Corner(corner) => {
            data.corner = Some(corner.position.name());
            data.angle_degrees = Some(corner.angle_degrees);
            data.scale = Some(corner.scale);
            data.made = Some(made_data(&corner.made, length));
        }
        PieceKind::Side(side) => {
            let fit = &side.fit;
            data.side = Some(side.side.name());
            data.repeats = Some(fit.chosen.repeats);
            data.stretch = Some(fit.chosen.stretch);
            data.scale = Some(side.scale);
            data.span = Some(length(side.span));
            data.advance = Some(length(side.advance));
            data.ease = side.ease.map(|ease| EaseData {
                roundness: ease.roundness(),
                unabsorbed: ease.unabsorbed,
                takes: ease.takes,
            });
            let choice = |choice: Choice| ChoiceData {
                repeats: choice.repeats,
                stretch: choice.stretch,
            };
            let all = [fit.fewer, Some(fit.chosen), fit.more];
            data.choices = all.into_iter().flatten().map(choice).collect();
        }
        PieceKind::Link(side) => data.side = Some(side.name()),
    }
    data
}

fn made_data(made: &CornerMade, length: impl Fn(f64) -> f64) -> MadeData {
    match *made {
        CornerMade::Drawn => MadeData::Drawn,
        CornerMade::Trimmed {
            added_length,
            added_share,
            links,
            restitched_length,
            lost_length,
            least_added,
        } => MadeData::Trimmed {
            added_length: length(added_length),
            added_share,
            links,
            restitched_length: length(restitched_length),
            lost_length: length(lost_length),
            least_added: length(least_added),
        },
        CornerMade::Block { turn_degrees } => MadeData::Block { turn_degrees },
        CornerMade::Mitred {
            kink_degrees,
            crossings,
            lost_length,
            linked_length,
        } => MadeData::Mitred {
            kink_degrees,
            crossings,
            lost_length: length(lost_length),
            linked_length: length(linked_length),
        },
        CornerMade::Bent {
            repeats,
            radius,
            arc_depth,
            length_change,
        } => MadeData::Bent {
            repeats,
            radius: length(radius),
            arc_depth: length(arc_depth),
            length_change,
        },
    }
}
