//! Measures on drawings of a quilt: its sides, where they join the corners, bands and gaps.
//!
//! Outside the quilt each side has a row of measures for each border, the innermost border's
//! nearest to the quilt: from the corner of the border's edge to the first join, to the last one,
//! and to the next corner. Where borders are nested a row begins and ends at its own border and
//! names it. Beyond the rows stands the whole length. Bands and gaps stand inside the quilt, at the
//! end of a line that crosses the border. Borders inside of the first [`MOST_ROWS`] have no row.

use maud::{Markup, html};

use super::canvas::Canvas;
use super::html::shortened;
use super::signs::{dimension, fraction};
use crate::geom::{Bounds, Point, Vector};
use crate::plan::{FieldKind, Layout, PieceKind, Solved};

/// How far outside the quilt the first row of measures is drawn, in letters.
const FIRST: f64 = 1.1;

/// From row to row of measures, in letters.
const APART: f64 = 1.8;

/// Room for the words of the last row, in letters.
const LAST: f64 = 1.5;

/// From line to line of words, in letters.
const LINE: f64 = 1.25;

/// Lengths that differ by less than this read alike, in millimetres.
const ALIKE: f64 = 0.5;

/// The most borders, from the outermost, that have a row of measures.
const MOST_ROWS: usize = 6;

/// How many rows of measures there are for borders.
fn rows(solved: &Solved) -> usize {
    solved.borders().len().min(MOST_ROWS)
}

/// How far outside the quilt the whole length of a side is drawn, in letters.
fn beyond(solved: &Solved) -> f64 {
    FIRST + APART * rows(solved) as f64
}

/// Room for the measures round a quilt, in letters.
pub(super) fn room(solved: &Solved) -> f64 {
    beyond(solved) + LAST
}

pub(super) fn measures(canvas: &Canvas, solved: &Solved) -> Markup {
    html! {
        @if let Some(outermost) = solved.borders().first() {
            g.measures {
                @for side in 0..outermost.band.sides() {
                    @for border in 0..rows(solved) { (joins(canvas, solved, border, side)) }
                    @if whole_is_drawn(outermost, side) { (whole(canvas, solved, outermost, side)) }
                }
                (depths(canvas, solved))
            }
        }
    }
}

/// The corners of a side's edge, its direction and the way out of the quilt.
fn edge(layout: &Layout, side: usize) -> ([Point; 2], Vector, Vector) {
    let edge = &layout.band.edge;
    let ends = [edge.corners()[side], edge.corners()[edge.after(side)]];
    let along = edge.direction(side);
    (ends, along, Vector::new(along.y, -along.x))
}

fn long(layout: &Layout, side: usize) -> f64 {
    let ([from, to], _, _) = edge(layout, side);
    (to - from).norm()
}

/// Of two opposite sides of equal length only one has a measure.
fn whole_is_drawn(layout: &Layout, side: usize) -> bool {
    let alike = |one: usize| (long(layout, one) - long(layout, (one + 2) % 4)).abs() < ALIKE;
    layout.band.sides() != 4 || side == 0 || side == 3 || !alike(side)
}

fn whole(canvas: &Canvas, solved: &Solved, layout: &Layout, side: usize) -> Markup {
    let (ends, _, out) = edge(layout, side);
    let words = solved.unit.readable(long(layout, side));
    dimension(canvas, ends, out * (beyond(solved) * canvas.em), &[&words])
}

/// From the corner of a border's edge to the first join, to the last one, and to the next corner.
fn joins(canvas: &Canvas, solved: &Solved, border: usize, side: usize) -> Markup {
    let layout = &solved.layouts[border];
    let em = canvas.em;
    let (ends, along, out) = edge(layout, side);
    let on_side = solved.pieces.iter().filter(|piece| {
        let PieceKind::Side(detail) = &piece.kind else {
            return false;
        };
        piece.border == border && detail.side.index() == side
    });
    let reach = on_side.flat_map(|piece| {
        let joins = [piece.motif().start().point, piece.motif().end().point];
        joins.map(|join| (join - ends[0]).dot(&along))
    });
    let [first, last] = reach.fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], at| {
        [least.min(at), most.max(at)]
    });
    // The way out of the quilt, to the row of this border.
    let (whole, ..) = edge(&solved.layouts[0], side);
    let inside = ends.map(|end| (whole[0] - end).dot(&out));
    let row = (rows(solved) - 1 - border) as f64;
    let off = out * (inside[0].max(inside[1]) + (FIRST + APART * row) * em);
    let at = |reach: f64| ends[0] + along * reach;
    let steps = [0.0, first, last, long(layout, side)];
    html! {
        @if first < last {
            @for (step, part) in steps.windows(2).zip(0..) {
                @let reach = step[1] - step[0];
                @if reach > 0.4 * em {
                    @let words = solved.unit.readable(reach);
                    @let named = format!("{}: {words}", shortened(&layout.name, 24));
                    @let nested = part == 1 && solved.borders().len() > 1;
                    @let all = [named.as_str(), words.as_str()];
                    (dimension(canvas, [at(step[0]), at(step[1])], off, if nested { &all } else { &all[1..] }))
                }
            }
        }
    }
}

/// What is kept free and what may be stitched, in the words of each border.
pub(super) fn words_of(solved: &Solved, layout: &Layout, side: usize) -> Vec<String> {
    if layout.is_field() {
        return field_words(layout);
    }
    let widths = layout.widths[side % layout.widths.len()];
    let say = |mm: f64, what: &str| format!("{} {what}", solved.unit.readable(mm));
    vec![
        say(widths.edge_gap, "free at the edge"),
        say(layout.band.depth(side), "band to stitch in"),
        say(widths.seam_gap, "free at the seam"),
    ]
}

/// How many places of each kind the field of blocks has.
fn field_words(layout: &Layout) -> Vec<String> {
    let kinds = [
        (FieldKind::Block, "block", "blocks"),
        (FieldKind::Sash, "sash", "sashes"),
        (FieldKind::Cornerstone, "cornerstone", "cornerstones"),
        (FieldKind::SideTriangle, "side triangle", "side triangles"),
        (
            FieldKind::CornerTriangle,
            "corner triangle",
            "corner triangles",
        ),
    ];
    let words = kinds.into_iter().filter_map(|(kind, one, many)| {
        let spots = layout.spots.iter();
        let count = spots.filter(|spot| spot.place.kind == kind).count();
        let name = if count == 1 { one } else { many };
        (count > 0).then(|| format!("{count} {name}"))
    });
    words.collect()
}

/// A line across each border from the side that lies most to the left, and its measures inside.
fn depths(canvas: &Canvas, solved: &Solved) -> Markup {
    let em = canvas.em;
    let straight = |layout: &Layout| layout.lines.edge.len() == layout.band.sides();
    let inner = solved.borders().last().and_then(|layout| {
        let corners = layout.band.seam.corners();
        (!corners.is_empty()).then(|| Bounds::of_nonempty(corners))
    });
    let high = 4.0 * LINE * em;
    let side = solved.borders().first().map_or(0, |layout| {
        // Of two that lean alike, the upper one leaves room for words below its measures.
        let left = |side: &usize| {
            let (_, along, out) = edge(layout, *side);
            0.01 * along.x - out.x
        };
        let sides = 0..layout.band.sides();
        sides
            .max_by(|a, b| left(a).total_cmp(&left(b)))
            .unwrap_or(0)
    });
    let leans = |layout: &Layout| edge(layout, side).1.x.abs() > 0.1;
    let leaning = solved.borders().first().is_some_and(leans);
    // Inside lie the blocks, where there are some.
    let free = solved.field().is_none();
    let fits = free
        && inner.is_some_and(|inner| {
            let wide = if leaning { 20.0 } else { 13.0 };
            inner.width() > wide * em
                && inner.height() > high * (solved.borders().len() as f64 + 1.0)
        });
    // Where words begin: beside an upright side near its foot, beside a leaning one at its middle.
    let begin = |inner: Bounds, at: f64| {
        if !leaning {
            return [inner.min.x + em, inner.max.y - em - high * at];
        }
        let layout = &solved.borders()[solved.borders().len() - 1];
        let seam = &layout.band.seam;
        let (from, to) = (seam.corners()[side], seam.corners()[seam.after(side)]);
        let middle = nalgebra::center(&from, &to);
        let y = middle.y + high * (at - 0.5 * (solved.borders().len() as f64 + 1.0));
        let slope = (to.x - from.x) / (to.y - from.y);
        [middle.x + slope * (y - em - middle.y) + em, y]
    };
    html! {
        @if let Some(inner) = inner.filter(|_| fits) {
            @for (layout, at) in solved.borders().iter().zip(1..) {
                @if straight(layout) && layout.widths[side % layout.widths.len()].width > 0.0 {
                    (depth(canvas, solved, layout, side, begin(inner, f64::from(at))))
                }
            }
        }
    }
}

fn depth(
    canvas: &Canvas,
    solved: &Solved,
    layout: &Layout,
    side: usize,
    [x, y]: [f64; 2],
) -> Markup {
    let em = canvas.em;
    let (ends, along, out) = edge(layout, side);
    let widths = layout.widths[side % layout.widths.len()];
    // The place of the side from which a line across the border ends at this height.
    let reach = if along.y.abs() > 0.5 {
        (y + out.y * widths.width - ends[0].y) / along.y
    } else {
        0.0
    };
    let at = ends[0] + along * reach;
    let steps = [
        0.0,
        widths.edge_gap,
        widths.width - widths.seam_gap,
        widths.width,
    ];
    let places = steps.map(|step| at - out * step);
    let slash = (along + out) * (0.25 * em);
    let words = words_of(solved, layout, side);
    html! {
        @if along.y.abs() > 0.5 {
            (canvas.segment("dim", places[0], places[3]))
            (canvas.segment("dim", places[3], Point::new(x, places[3].y)))
            @for place in places { (canvas.segment("tick", place - slash, place + slash)) }
            @for (line, row) in words.iter().zip(0..) {
                text.say x=(canvas.grid(x + 0.3 * em))
                    y=(canvas.grid(places[3].y + em * (0.3 + LINE * f64::from(row)))) { (fraction(line)) }
            }
        }
    }
}
