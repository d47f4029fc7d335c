//! The pieces of a solved plan in `result.json`.

use serde::{Deserialize, Serialize};

use super::made::Made;
use crate::fit;
use crate::geom::Point;
use crate::io::numbers::{Lie, degrees, in_unit, length_in_unit, point_in_unit};
use crate::plan::{self, CornerDetail, FieldDetail, PieceKind, SideDetail};
use crate::units::Unit;

/// A piece: a corner, the repeats of a side, or a link.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Piece {
    /// The number in the order of stitching, from 1.
    pub number: usize,
    /// The name, which is also the end of its files' names.
    pub name: String,
    /// `corner`, `side` or `link`; `ring` of a border without corners; in the field of blocks
    /// `block`, `sash`, `cornerstone`, `side_triangle` or `corner_triangle`.
    pub kind: String,
    /// The name of its border.
    pub border: String,
    /// The side of the border that it runs along or, a link, is next to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<String>,
    /// The corner of the border that it fills.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub corner: Option<String>,
    /// The place in the field of blocks that it fills, such as `block r3 c2`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// In the field of blocks, the turn from the drawing to the cloth, positive clockwise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turn_degrees: Option<f64>,
    /// In the field of blocks, whether left and right of the drawing are changed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mirrored: Option<bool>,
    /// Of a side or a sash, the number of repeats.
    pub repeats: Option<usize>,
    /// Of a border along a scalloped edge, the number of scallops, each with as many repeats.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub scallops: Option<usize>,
    /// The depth of the band that it lies in; of a corner, that of the side that begins there.
    pub depth: f64,
    /// Of a side, the length along the band divided by the one that keeps the motif's proportions.
    pub stretch: Option<f64>,
    /// Of a corner, the interior angle of the border there.
    pub angle_degrees: Option<f64>,
    /// The factors from the drawing to the cloth: of a side along and across the band, of a corner
    /// across its upright and its level leg.
    pub scale: Option<[f64; 2]>,
    /// Of a corner, how it came about.
    pub made: Option<Made>,
    /// Of a side, the length along the band between the corners.
    pub span: Option<f64>,
    /// Of a side, how far one repeat leads along, under the key `advance`.
    #[serde(rename = "advance")]
    pub pitch: Option<f64>,
    /// Of a side, the sharpest turn where one repeat ends and the next starts, mirrored or not;
    /// none in results that were written before they had it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kink_degrees: Option<f64>,
    /// Of a side, what lies in its middle, between two groups of as many repeats each.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub middle: Option<Middle>,
    /// Of a side, what easing its repeats comes to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ease: Option<Ease>,
    /// Of a side, the numbers of repeats to choose from: the next fewer, the chosen, the next more.
    pub choices: Vec<Choice>,
    /// The width and the height of the box that holds it.
    pub size: [f64; 2],
    /// Where its line starts.
    pub start: [f64; 2],
    /// The direction of travel there: 0 to the right, 90 down, above -180 and up to 180.
    pub start_degrees: f64,
    /// How far its start lies from the inner seam of its border, negative beyond it.
    pub start_from_seam: f64,
    /// How far its start lies from the outer edge of its border's fabric, negative beyond it.
    pub start_from_edge: f64,
    /// Where its line ends.
    pub end: [f64; 2],
    /// The direction of travel there.
    pub end_degrees: f64,
    /// How far its end lies from the inner seam.
    pub end_from_seam: f64,
    /// How far its end lies from the outer edge.
    pub end_from_edge: f64,
    /// The length of its line.
    pub length: f64,
    /// The stretches of its line that are stitched already, as shares of its length from its start;
    /// left out where there is none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stitched: Vec<[f64; 2]>,
    /// The points of its line, from its start to its end.
    pub points: Vec<[f64; 2]>,
}

/// What lies in the middle of a side.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Middle {
    /// The length of the centre motif; 0 where there is none.
    pub centre: f64,
    /// The length of the spacer between the repeats, or of each on either side of the centre motif;
    /// 0 where there is none.
    pub spacer: f64,
}

/// What easing the repeats of a side comes to.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Ease {
    /// How round loops stay: 1 as drawn.
    pub roundness: f64,
    /// The share of the stretch that the stems can't take.
    pub unabsorbed: f64,
    /// The least and the greatest stretch that the stems could take.
    pub takes: [f64; 2],
}

/// A number of repeats with the stretch that it takes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Choice {
    /// The number of repeats.
    pub repeats: usize,
    /// Their stretch, as a factor.
    pub stretch: f64,
}

impl Piece {
    /// The data of a piece of this border with this number.
    pub(super) fn of(
        piece: &plan::Piece,
        number: usize,
        border: &str,
        lie: &Lie,
        unit: Unit,
    ) -> Self {
        let length = |mm: f64| in_unit(mm, unit);
        let pair = |point: Point| point_in_unit(point, unit);
        let [start, end] = [piece.start(), piece.end()];
        let data = Self {
            number,
            name: piece.name.clone(),
            kind: piece.kind.name().to_owned(),
            border: border.to_owned(),
            side: None,
            corner: None,
            place: None,
            turn_degrees: None,
            mirrored: None,
            repeats: None,
            scallops: None,
            depth: length(piece.depth),
            stretch: None,
            angle_degrees: None,
            scale: None,
            made: None,
            span: None,
            pitch: None,
            kink_degrees: None,
            middle: None,
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
            stitched: piece.stitched.clone(),
            points: piece.points().map(pair).collect(),
        };
        let data = Self {
            kink_degrees: piece.kind.kink_degrees(),
            ..data
        };
        match &piece.kind {
            PieceKind::Corner(corner) => data.with_corner(corner, unit),
            PieceKind::Side(side) => data.with_side(side, unit),
            PieceKind::Link(side) => Self {
                side: Some(side.name().to_owned()),
                ..data
            },
            PieceKind::Field(field) => data.with_field(field, unit),
            PieceKind::Ring(ring) => Self {
                scale: Some(ring.scale),
                scallops: Some(ring.scallops).filter(|scallops| *scallops > 0),
                ..data.with_repeats(ring.fit, [ring.span, ring.pitch], ring.ease, unit)
            },
        }
    }

    fn with_corner(self, corner: &CornerDetail, unit: Unit) -> Self {
        Self {
            corner: Some(corner.position.name().to_owned()),
            angle_degrees: Some(corner.angle_degrees),
            scale: Some(corner.scale),
            made: Some(Made::of(&corner.made, |mm| in_unit(mm, unit))),
            ..self
        }
    }

    fn with_field(self, field: &FieldDetail, unit: Unit) -> Self {
        let data = match &field.sash {
            Some(sash) => self.with_repeats(sash.fit, [sash.span, sash.pitch], sash.ease, unit),
            None => self,
        };
        Self {
            place: Some(field.place.to_string()),
            scale: Some(field.scale),
            turn_degrees: Some(field.turn_degrees),
            mirrored: Some(field.mirrored),
            ..data
        }
    }

    fn with_side(self, side: &SideDetail, unit: Unit) -> Self {
        let data = self.with_repeats(side.fit, [side.span, side.pitch], side.ease, unit);
        Self {
            side: Some(side.side.name().to_owned()),
            scale: Some(side.scale),
            middle: side.middle.map(|middle| Middle {
                centre: in_unit(middle.centre, unit),
                spacer: in_unit(middle.spacer, unit),
            }),
            ..data
        }
    }

    fn with_repeats(
        self,
        fit: fit::SpanFit,
        [span, pitch]: [f64; 2],
        ease: Option<fit::EaseReport>,
        unit: Unit,
    ) -> Self {
        let choice = |choice: fit::Choice| Choice {
            repeats: choice.repeats,
            stretch: choice.stretch,
        };
        let all = [fit.fewer, Some(fit.chosen), fit.more];
        Self {
            repeats: Some(fit.chosen.repeats),
            stretch: Some(fit.chosen.stretch),
            span: Some(in_unit(span, unit)),
            pitch: Some(in_unit(pitch, unit)),
            ease: ease.map(|ease| Ease {
                roundness: ease.roundness(),
                unabsorbed: ease.unabsorbed,
                takes: ease.takes,
            }),
            choices: all.into_iter().flatten().map(choice).collect(),
            ..self
        }
    }
}
