//! The numbers of repeats that sides may have, each with one repeat drawn at its stretch.
//!
//! The little drawing is the first repeat of the side as it lies on the cloth, brought into the
//! band and drawn out along it to the other stretch. Where the plan eases repeats, it is the eased
//! repeat of the number chosen that is drawn out.

use maud::Render;
use serde::Serialize;

use super::length::LengthSaid;
use crate::geom::Point;
use crate::io::canvas::Line;
use crate::plan::{PieceKind, SideChoices, Solved};

/// A little drawing's band is so many steps deep.
const STEPS: f64 = 100.0;

/// Opposite sides are shown as one where they differ by no more, in millimetres: what a person
/// reads alike.
const ALIKE: f64 = 0.5;

/// A side with the numbers of repeats that it may have.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct SideView {
    /// The number of the border, from 0.
    pub border: usize,
    /// The number of the side, clockwise from the first, from 0.
    pub side: usize,
    /// The name of the side, such as `top`.
    pub name: String,
    /// The name of the piece that fills it.
    pub piece: String,
    /// The length that repeats fill.
    pub span: LengthSaid,
    /// How far from 1 a stretch may be.
    pub limit: f64,
    /// The number that it has.
    pub chosen: usize,
    /// The allowed number with the least stretch.
    pub best: usize,
    /// Whether the plan gives the number.
    pub given: bool,
    /// Whether it is stitched in part, so that its number stays.
    pub begun: bool,
    /// The numbers to choose from, rising.
    pub choices: Vec<ChoiceView>,
}

/// A number of repeats with one repeat drawn at its stretch.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct ChoiceView {
    /// The number.
    pub repeats: usize,
    /// The stretch.
    pub stretch: f64,
    /// Whether the stretch is within the plan's limit.
    pub within: bool,
    /// The width of one repeat where its band is 100 deep.
    pub width: f64,
    /// One repeat as SVG path data, in a band that is 100 deep, y down from the outer line.
    pub path: String,
}

/// Sides that are shown as one: a side by itself, or opposite ones that are alike.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[non_exhaustive]
pub struct SideGroup {
    /// The number of the border, from 0.
    pub border: usize,
    /// The sides, by their places among all of the view.
    pub sides: Vec<usize>,
    /// Their names, such as `Top and bottom`.
    pub title: String,
}

impl SideView {
    pub(super) fn of(side: &SideChoices, solved: &Solved) -> Self {
        let piece = &solved.pieces[side.piece];
        let repeat = first_repeat(side, solved);
        let choices = side.choices.iter().map(|choice| {
            let longer = choice.stretch / repeat.stretch;
            let points: Vec<Point> = (repeat.points.iter())
                .map(|point| Point::new(point.x * longer, point.y))
                .collect();
            let mut path = String::new();
            Line::on(1.0, &points).render_to(&mut path);
            ChoiceView {
                repeats: choice.repeats,
                stretch: choice.stretch,
                within: choice.within,
                width: (repeat.pitch * longer).round(),
                path,
            }
        });
        Self {
            border: side.border,
            side: side.side.index(),
            name: side.side.name().to_owned(),
            piece: piece.name.clone(),
            span: LengthSaid::of(side.span, solved.unit),
            limit: side.limit,
            chosen: side.chosen,
            best: side.best,
            given: side.given,
            begun: side.begun,
            choices: choices.collect(),
        }
    }
}

/// A repeat in a band that is [`STEPS`] deep.
struct Repeat {
    points: Vec<Point>,
    pitch: f64,
    stretch: f64,
}

fn first_repeat(side: &SideChoices, solved: &Solved) -> Repeat {
    let piece = &solved.pieces[side.piece];
    let strip = solved.layouts[side.border].strip(side.side);
    let scale = STEPS / side.depth;
    let line = piece.line();
    let last = line.ends.first().copied().unwrap_or_default();
    let points = &line.motif.points()[..=last];
    let from = points.first().map_or(0.0, |&first| strip.locate(first).0);
    let in_band = |&point: &Point| {
        let (along, across) = strip.locate(point);
        Point::new((along - from) * scale, STEPS * (1.0 - across))
    };
    let (stretch, pitch) = match &piece.kind {
        PieceKind::Side(detail) => (detail.fit.chosen.stretch, detail.pitch),
        _ => (1.0, 0.0),
    };
    Repeat {
        points: points.iter().map(in_band).collect(),
        pitch: pitch * scale,
        stretch,
    }
}

impl SideGroup {
    pub(super) fn all(sides: &[SideChoices], solved: &Solved) -> Vec<Self> {
        let mut groups: Vec<Self> = Vec::new();
        for (at, side) in sides.iter().enumerate() {
            if groups.iter().any(|group| group.sides.contains(&at)) {
                continue;
            }
            let count = side.side.count();
            let opposite = (at + 1..sides.len()).filter(|&other| {
                let other = &sides[other];
                let across = count % 2 == 0 && other.side.index() == side.side.index() + count / 2;
                across
                    && other.border == side.border
                    && other.chosen == side.chosen
                    && [other.given, other.begun] == [side.given, side.begun]
                    && (other.span - side.span).abs() <= ALIKE
            });
            let members: Vec<usize> = [at].into_iter().chain(opposite).collect();
            groups.push(Self {
                border: side.border,
                title: title(&members, sides, solved),
                sides: members,
            });
        }
        groups
    }
}

fn title(members: &[usize], sides: &[SideChoices], solved: &Solved) -> String {
    let names = members.iter().map(|&at| sides[at].side.name());
    let names = names.collect::<Vec<_>>().join(" and ");
    let named = match solved.quilt.outline.sides() {
        4 => names,
        _ if members.len() > 1 => format!("sides {names}"),
        _ => format!("side {names}"),
    };
    let (first, rest) = named.split_at(named.len().min(1));
    format!("{}{rest}", first.to_uppercase())
}
