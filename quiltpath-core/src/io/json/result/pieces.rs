//! The pieces of a solved plan in `result.json`.

use serde::Serialize;

use crate::fit::Choice;
use crate::geom::Point;
use crate::io::numbers::{Lie, degrees, in_unit, length_in_unit, point_in_unit};
use crate::plan::{CornerMade, Piece, PieceKind};
use crate::units::Unit;

/// A piece as `result.json` has it.
#[derive(Serialize)]
pub(super) struct PieceData<'a> {
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
    /// The pitch; the key keeps its first name.
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

/// The data of a piece of this border with this number.
pub(super) fn piece_data<'a>(
    piece: &'a Piece,
    (number, border): (usize, &'a str),
    lie: &Lie,
    unit: Unit,
) -> PieceData<'a> {
    let length = |mm: f64| in_unit(mm, unit);
    let pair = |point: Point| point_in_unit(point, unit);
    let [start, end] = [piece.motif().start(), piece.motif().end()];
    let mut data = PieceData {
        number,
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
        length: length_in_unit(piece.motif(), unit),
        points: Converted(piece.motif().points(), unit),
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
            data.advance = Some(length(side.pitch));
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
