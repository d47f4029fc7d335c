//! The pieces on the sheet: for each a small picture, its numbers and a box to tick.

use std::collections::HashMap;

use maud::{Markup, html};

use super::page::{Page, ends, facts, way, whole};
use super::passes::covered;
use super::thumb::thumb;
use crate::fit::Choice;
use crate::io::canvas::Canvas;
use crate::io::fraction::number;
use crate::io::numbers::{Lie, Limits, in_unit, length_in_unit};
use crate::io::words::{counted, line_both, percent};
use crate::motif::End;
use crate::plan::{
    CornerDetail, CornerMade, FieldDetail, FieldKind, MiddleDetail, Piece, PieceKind, SideDetail,
};
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
                @for alike in groups(page) {
                    @let index = alike[0];
                    @let piece = &solved.pieces[index];
                    (card(page, &alike, &limits[piece.border].lie(piece), &runs, &scale))
                }
            }
        }
    }
}

/// The pieces in the order of stitching, those of the field of blocks that are alike together.
fn groups(page: &Page<'_>) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    let mut known: HashMap<Alike, usize> = HashMap::new();
    for index in page.in_order() {
        match Alike::of(&page.solved.pieces[index]) {
            None => groups.push(vec![index]),
            Some(alike) => match known.get(&alike) {
                Some(&group) => groups[group].push(index),
                None => {
                    known.insert(alike, groups.len());
                    groups.push(vec![index]);
                }
            },
        }
    }
    groups
}

/// What pieces have in common that share a card: measures in steps of a thousandth of a millimetre.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
struct Alike {
    kind: FieldKind,
    turn: i64,
    mirrored: bool,
    length: i64,
    size: [i64; 2],
    repeats: usize,
    begun: bool,
}

impl Alike {
    /// That of a piece in the field of blocks.
    fn of(piece: &Piece) -> Option<Self> {
        let PieceKind::Field(detail) = &piece.kind else {
            return None;
        };
        let steps = |value: f64| (value * 1000.0).round() as i64;
        let size = piece.bounds().size();
        Some(Self {
            kind: detail.place.kind,
            turn: steps(detail.turn_degrees),
            mirrored: detail.mirrored,
            length: steps(piece.length()),
            size: [steps(size.x), steps(size.y)],
            repeats: detail.sash.map_or(0, |sash| sash.fit.chosen.repeats),
            begun: piece.has_begun(),
        })
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

fn card(
    page: &Page<'_>,
    alike: &[usize],
    lie: &Lie,
    runs: &[Vec<Markup>],
    scale: &Canvas,
) -> Markup {
    let index = alike[0];
    let piece = &page.solved.pieces[index];
    let (number_of, reversed) = (page.numbers[index], page.reversed(index));
    let key = |rest: &str| format!("pieces.{index}.{rest}");
    let mut rows: Vec<(&str, Markup)> = Vec::new();
    match &piece.kind {
        PieceKind::Corner(corner) => corner_rows(&key, corner, &mut rows),
        PieceKind::Side(side) => side_rows(page, &key, side, &mut rows),
        PieceKind::Link(_) => rows.push(("What", html! { "a straight link" })),
        PieceKind::Field(detail) => field_rows(page, &key, detail, &mut rows),
        PieceKind::Ring(ring) => {
            let lengths = [ring.span, ring.pitch];
            repeat_rows(page, &key, ring.fit.chosen, (lengths, 0.0), &mut rows);
            if let Some(each) = ring.fit.chosen.repeats.checked_div(ring.scallops) {
                let words = format!("{each} to each of {}", ring.scallops);
                rows.push((
                    "Scallops",
                    number(&key("scallops"), ring.scallops as f64, &words),
                ));
            }
            rows.push(("Scale", factors(&key, ring.scale)));
        }
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
    let in_field = matches!(piece.kind, PieceKind::Field(_));
    let seam_and_edge = html! {
        (from("seam", lie.from_seam[first], if in_field { "nearest seam" } else { "seam" }))
        @if !in_field { ", " (from("edge", lie.from_edge[first], edge)) }
    };
    rows.push(("Start lies", seam_and_edge));
    rows.push(("End", end_of(page, &key(ENDS[last]), &end)));
    let (done, begun) = (piece.is_stitched(), piece.has_begun());
    let stitched_in = html! {
        @if done { "stitched already" } @else if begun { (begun_by(piece)) ", the rest in " }
        @for (at, run) in runs[index].iter().enumerate() { @if at > 0 { "; " } (run) }
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
            @if alike.len() > 1 { (others(page, &alike[1..], runs)) }
        }
    }
}

/// The other places of a card's design, each with its number and a box to tick.
fn others(page: &Page<'_>, others: &[usize], runs: &[Vec<Markup>]) -> Markup {
    html! {
        p.soft { "The same in " (counted(others.len(), "more place")) ":" }
        ul.alike {
            @for &index in others {
                @let piece = &page.solved.pieces[index];
                @let number_of = page.numbers[index];
                li id={ "piece." (number_of) } data-piece=(number_of) {
                    label.tick {
                        input type="checkbox" checked[piece.is_stitched()] aria-label={ (number_of) ", " (piece.name) ", is stitched" };
                        " " span.no { (number_of) } " "
                    }
                    a href={ "#at." (number_of) } { (called(piece)) }
                    @for run in &runs[index] { ", " (run) }
                }
            }
        }
    }
}

/// What a piece is called among those of its card.
fn called(piece: &Piece) -> String {
    match &piece.kind {
        PieceKind::Field(detail) => detail.place.to_string(),
        _ => piece.name.clone(),
    }
}

fn field_rows(
    page: &Page<'_>,
    key: &dyn Fn(&str) -> String,
    field: &FieldDetail,
    rows: &mut Vec<(&str, Markup)>,
) {
    rows.push(("Place", html! { (field.place) }));
    match &field.sash {
        Some(sash) => {
            let lengths = [sash.span, sash.pitch];
            repeat_rows(page, key, sash.fit.chosen, (lengths, 0.0), rows);
        }
        None => {
            let turn = match (field.turn_degrees.round(), field.mirrored) {
                (0.0, false) => "as drawn".to_owned(),
                (0.0, true) => "mirrored".to_owned(),
                (turn, false) => format!("turned by {turn:.0} degrees"),
                (turn, true) => format!("mirrored, then turned by {turn:.0} degrees"),
            };
            rows.push(("Lies", html! { (turn) }));
        }
    }
    if let Some(cut) = &field.trimmed {
        let added = page.unit().readable(cut.added_length);
        rows.push((
            "Cut",
            html! { "from the block's design, " (added) " added" },
        ));
    }
    rows.push(("Scale", factors(key, field.scale)));
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
    let middle = side.middle.map_or(0.0, |middle| middle.length());
    repeat_rows(
        page,
        key,
        side.fit.chosen,
        ([side.span, side.pitch], middle),
        rows,
    );
    if let Some(middle) = &side.middle {
        rows.push(("In the middle", middle_of(page, key, middle)));
    }
    let scale = html! { (factors(key, side.scale)) ", along and across" };
    rows.push(("Scale", scale));
}

/// What lies between the two groups of a side's repeats.
fn middle_of(page: &Page<'_>, key: &dyn Fn(&str) -> String, middle: &MiddleDetail) -> Markup {
    let centre = html! { "a motif " (page.length(&key("middle.centre"), middle.centre)) " long" };
    let spacer = page.length(&key("middle.spacer"), middle.spacer);
    html! {
        @match (middle.centre > 0.0, middle.spacer > 0.0) {
            (true, false) => { (centre) }
            (true, true) => { (centre) ", " (spacer) " of straight line on either side of it" }
            (false, _) => { (spacer) " of straight line" }
        }
    }
}

/// The number of repeats, how far each leads along the span round what lies in its middle, and the
/// stretch.
fn repeat_rows(
    page: &Page<'_>,
    key: &dyn Fn(&str) -> String,
    chosen: Choice,
    ([span, pitch], middle): ([f64; 2], f64),
    rows: &mut Vec<(&str, Markup)>,
) {
    let repeats = html! {
        (whole(&key("repeats"), chosen.repeats)) " of "
        @if !adds_up(page.unit(), chosen.repeats, pitch, span - middle) { "about " }
        (page.length(&key("advance"), pitch))
        ", in " (page.length(&key("span"), span))
    };
    let stretch = number(&key("stretch"), chosen.stretch, &percent(chosen.stretch));
    rows.push(("Repeats", repeats));
    rows.push(("Stretch", stretch));
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
