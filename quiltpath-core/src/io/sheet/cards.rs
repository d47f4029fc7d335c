//! The pieces on the sheet: for each a small picture, its numbers and a box to tick.

use maud::{Markup, html};

use super::page::{Page, ends, facts, way, whole};
use super::passes::covered;
use super::thumb::thumb;
use crate::io::canvas::Canvas;
use crate::io::fraction::number;
use crate::io::numbers::{Lie, Limits, in_unit, length_in_unit};
use crate::io::words::{counted, line_both, percent};
use crate::motif::End;
use crate::plan::{CornerDetail, CornerMade, Piece, PieceKind, SideDetail};
use crate::units::{Length, Unit};

/// The keys of a line's two ends.
const ENDS: [&str; 2] = ["start", "end"];

pub(super) fn section(page: &Page<'_>) -> Markup {
    let solved = page.solved;
    let limits: Vec<Limits> = solved.layouts.iter().map(Limits::of).collect();
    let runs = runs_by_piece(page);
    let scale = Canvas::of(solved, 1.0);
    html! {
        section aria-labelledby="the.pieces" {
            h2 id="the.pieces" { "Pieces" }
            p {
                "In the order of stitching; the files in the folder " code { "pieces" } " have the same "
                "numbers. "
                @if solved.pieces.iter().any(Piece::is_stitched) {
                    "Those that are stitched already come first, ticked. "
                }
                "The ring is the start, the square the end, and a ring in a square both."
            }
            div.keep hidden {
                button type="button" data-save { "Save the ticks" }
                label.file { "Read ticks" input.unseen type="file" accept=".json,application/json" data-read; }
                span.soft role="status" data-answer { "Ticks are kept in this browser." }
            }
            ol.cards {
                @for index in page.in_order() {
                    @let piece = &solved.pieces[index];
                    (card(page, index, &limits[piece.border].lie(piece), &runs[index], &scale))
                }
            }
        }
    }
}

/// Of each piece, where it is stitched.
fn runs_by_piece(page: &Page<'_>) -> Vec<Vec<Markup>> {
    let mut found = vec![Vec::new(); page.solved.pieces.len()];
    for (run, index) in page.stitching.runs.iter().zip(1..) {
        for part in &run.parts {
            let ends = page.solved.pieces[part.piece].line().ends.len();
            found[part.piece].push(html! {
                a href={ "#run." (index) } { "run " (index) } " of pass " (run.pass + 1) (covered(part, ends))
                @if part.reversed { ", against the direction of its file" }
            });
        }
    }
    found
}

fn card(page: &Page<'_>, index: usize, lie: &Lie, runs: &[Markup], scale: &Canvas) -> Markup {
    let piece = &page.solved.pieces[index];
    let (number_of, reversed) = (page.numbers[index], page.reversed(index));
    let key = |rest: &str| format!("pieces.{index}.{rest}");
    let mut rows: Vec<(&str, Markup)> = Vec::new();
    match &piece.kind {
        PieceKind::Corner(corner) => corner_rows(&key, corner, &mut rows),
        PieceKind::Side(side) => side_rows(page, &key, side, &mut rows),
        PieceKind::Link(_) => rows.push(("What", html! { "a straight link" })),
    }
    let edge = match piece.border {
        0 => "raw edge",
        _ => "outer seam",
    };
    rows.push(("Size", page.size(&key("size"), lie.size)));
    let line = length_in_unit(piece.motif(), page.unit());
    let words = line_both(page.unit(), line * page.unit().in_mm());
    rows.push(("Line", number(&key("length"), line, &words)));
    let [start, end] = ends(piece.motif(), reversed);
    // Keys are those of the piece's line, which may be stitched from its end.
    let (first, last) = if reversed { (1, 0) } else { (0, 1) };
    rows.push(("Start", end_of(page, &key(ENDS[first]), &start)));
    let from = |what: &str, mm: f64, line: &str| {
        off(
            page,
            &key(&format!("{}_from_{what}", ENDS[first])),
            mm,
            line,
        )
    };
    let seam_and_edge = html! {
        (from("seam", lie.from_seam[first], "seam")) ", " (from("edge", lie.from_edge[first], edge))
    };
    rows.push(("Start lies", seam_and_edge));
    rows.push(("End", end_of(page, &key(ENDS[last]), &end)));
    let (done, begun) = (piece.is_stitched(), piece.has_begun());
    let stitched_in = html! {
        @if done { "stitched already" } @else if begun { (begun_by(piece)) ", the rest in " }
        @for (at, run) in runs.iter().enumerate() { @if at > 0 { "; " } (run) }
    };
    rows.push(("Stitched in", stitched_in));
    html! {
        li.card id={ "piece." (number_of) } data-piece=(number_of) {
            div.top {
                h3 {
                    span.no { (number_of) } " " a href={ "#at." (number_of) } { (piece.name) }
                }
                label.tick {
                    input type="checkbox" checked[done] aria-label={ (number_of) ", " (piece.name) ", is stitched" };
                    " done"
                }
            }
            (thumb(number_of, piece, reversed, scale))
            (facts("facts", rows))
        }
    }
}

/// How much of a piece is stitched already.
fn begun_by(piece: &Piece) -> String {
    let share: f64 = piece.stitched.iter().map(|[from, to]| to - from).sum();
    match (share * 100.0).round() {
        // What is left is more than nothing.
        100.0 => "nearly all stitched already".to_owned(),
        whole => format!("{whole} % stitched already"),
    }
}

/// A place and the direction of travel there.
fn end_of(page: &Page<'_>, key: &str, end: &End) -> Markup {
    html! { (page.place(key, end.point)) "; runs " (way(end.direction)) }
}

/// How far from a line, on which side of it.
fn off(page: &Page<'_>, key: &str, mm: f64, line: &str) -> Markup {
    let side = if mm < 0.0 { "beyond" } else { "from" };
    let words = page.unit().readable(mm.abs());
    html! { (number(key, in_unit(mm, page.unit()), &words)) " " (side) " the " (line) }
}

fn side_rows(
    page: &Page<'_>,
    key: &dyn Fn(&str) -> String,
    side: &SideDetail,
    rows: &mut Vec<(&str, Markup)>,
) {
    let chosen = side.fit.chosen;
    let repeats = html! {
        (whole(&key("repeats"), chosen.repeats)) " of "
        @if !adds_up(page.unit(), chosen.repeats, side.pitch, side.span) { "about " }
        (page.length(&key("advance"), side.pitch))
        ", in " (page.length(&key("span"), side.span))
    };
    let stretch = number(&key("stretch"), chosen.stretch, &percent(chosen.stretch));
    rows.push(("Repeats", repeats));
    rows.push(("Stretch", stretch));
    let scale = html! { (factors(key, side.scale)) ", along and across" };
    rows.push(("Scale", scale));
}

/// True when so many of one length make the other, both as they are printed.
fn adds_up(unit: Unit, count: usize, one: f64, all: f64) -> bool {
    let printed = |mm: f64| {
        let length = unit.readable(mm).parse::<Length>();
        length.map_or(f64::NAN, |length| length.value)
    };
    (count as f64 * printed(one) - printed(all)).abs() < 1e-9
}

fn corner_rows(
    key: &dyn Fn(&str) -> String,
    corner: &CornerDetail,
    rows: &mut Vec<(&str, Markup)>,
) {
    let angle = corner.angle_degrees;
    let square = (angle - 90.0).abs() < 0.005;
    let what = match &corner.made {
        CornerMade::Drawn => "as drawn".to_owned(),
        CornerMade::Trimmed { links, .. } => {
            format!("cut to an L, {}", counted(*links, "link"))
        }
        CornerMade::Block { turn_degrees } => {
            format!("a block, turned by {turn_degrees:.0} degrees")
        }
        CornerMade::Mitred { .. } => "the repeat, mitred".to_owned(),
        CornerMade::Bent { repeats, .. } => {
            format!("{} on an arc", counted(*repeats, "repeat"))
        }
    };
    rows.push(("Corner", html! { (what) }));
    if !square {
        let words = format!("{angle:.2} degrees");
        rows.push(("Angle", number(&key("angle_degrees"), angle, &words)));
    }
    rows.push(("Scale", factors(key, corner.scale)));
}

/// Two factors in percent.
fn factors(key: &dyn Fn(&str) -> String, scale: [f64; 2]) -> Markup {
    let [first, second] = [0, 1].map(|at| {
        let words = format!("{:.1} %", scale[at] * 100.0);
        number(&key(&format!("scale.{at}")), scale[at], &words)
    });
    html! { (first) " x " (second) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_product_that_is_not_right_as_printed_is_about_so() {
        let inch = |value: f64| value * 25.4;
        // 5 x 7 7/16 is 37 3/16, not the 37 1/4 that 5 x 7.45 is.
        assert!(!adds_up(Unit::In, 5, inch(7.45), inch(37.25)));
        assert!(adds_up(Unit::In, 5, inch(7.5), inch(37.5)));
        assert!(adds_up(Unit::Mm, 7, 190.5, 1333.5));
        assert!(!adds_up(Unit::Cm, 7, 190.6, 1334.2));
    }
}
