//! Signs on drawings of a quilt: starts, ends, ways, numbers and measures. Shape speaks first.
//!
//! A ring is the start of a thread, a square its end, a ring within a square both; an arrow is the
//! way; a diamond is where the bobbin is changed; slash ticks end dimension lines. The picture and
//! the sheet draw them alike, from the same runs.

use maud::{Markup, html};

use super::canvas::Canvas;
use crate::frame::BobbinChanges;
use crate::geom::measure::part_between;
use crate::geom::{Point, Vector};
use crate::motif::{End, Motif};
use crate::plan::{Piece, PieceKind, Solved, Stitching};

/// The lines that are stitched without a cut: the runs, or without them the paths of the plan.
pub(super) fn threads<'a>(
    solved: &'a Solved,
    stitching: Option<&'a Stitching>,
) -> Vec<(&'a Motif, bool)> {
    match stitching {
        Some(stitching) => {
            let runs = stitching.runs.iter();
            runs.map(|run| (&run.motif, run.closed)).collect()
        }
        None => {
            let paths = solved.paths.iter();
            paths.map(|path| (&path.motif, path.closed)).collect()
        }
    }
}

/// Where a thread starts and ends, and which way it sets out.
pub(super) fn thread_ends(canvas: &Canvas, line: &Motif, closed: bool) -> Markup {
    let (start, end) = (line.start(), line.end());
    let em = canvas.em;
    html! {
        (arrow(canvas, &start, 0.45, 0.8))
        @if closed || (start.point - end.point).norm() < 0.5 * em {
            (square(canvas, start.point, 0.55 * em))
            (ring(canvas, start.point, 0.3 * em))
        } @else {
            (square(canvas, end.point, 0.32 * em))
            (ring(canvas, start.point, 0.36 * em))
        }
    }
}

/// A ring: the start of a thread.
pub(super) fn ring(canvas: &Canvas, at: Point, radius: f64) -> Markup {
    html! { circle.first cx=(canvas.grid(at.x)) cy=(canvas.grid(at.y)) r=(canvas.grid(radius)) {} }
}

/// A square: the end of a thread.
pub(super) fn square(canvas: &Canvas, at: Point, half: f64) -> Markup {
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    canvas.outline("last", &corners.map(|(x, y)| at + Vector::new(x, y) * half))
}

/// A solid arrow head of so many letters, so many letters ahead of this end.
pub(super) fn arrow(canvas: &Canvas, end: &End, off: f64, letters: f64) -> Markup {
    let unit = end.direction * canvas.em;
    let from = end.point + unit * off;
    let ahead = unit * letters;
    let aside = Vector::new(-ahead.y, ahead.x) * 0.4;
    canvas.outline("way", &[from + ahead, from + aside, from - aside])
}

/// What of a piece is stitched already, drawn quietly over its line.
pub(super) fn stitched(canvas: &Canvas, piece: &Piece) -> Markup {
    let stretches = piece.stitched.iter();
    let all = stretches.map(|&between| part_between(piece.motif().points(), between));
    html! {
        @for points in all {
            path class="under" d=(canvas.line(&points)) {}
            path class="dim" d=(canvas.line(&points)) {}
        }
    }
}

/// The number of each piece in its place on the band, clear of where threads start and end.
pub(super) fn piece_numbers(
    canvas: &Canvas,
    solved: &Solved,
    numbers: &[usize],
    threads: &[(&Motif, bool)],
) -> Markup {
    let em = canvas.em;
    let ends = |line: &&Motif| [line.start().point, line.end().point];
    let taken: Vec<Point> = threads.iter().flat_map(|(line, _)| ends(line)).collect();
    html! {
        @for (piece, number) in solved.pieces.iter().zip(numbers) {
            @let at = match &piece.kind {
                PieceKind::Link(_) => beside(piece.motif(), em),
                kind => canvas.number_place(&solved.layouts[piece.border], kind, piece.border, &taken),
            };
            (label(canvas, at, &number.to_string()))
        }
    }
}

/// Letters on a plate of paper, so that lines behind them don't disturb.
pub(super) fn label(canvas: &Canvas, at: Point, words: &str) -> Markup {
    let em = canvas.em;
    let wide = em * (0.5 + 0.52 * words.chars().count() as f64);
    let (x, y) = (at.x - wide / 2.0, at.y - 0.55 * em);
    html! {
        rect.plate x=(canvas.grid(x)) y=(canvas.grid(y)) rx=(canvas.grid(0.3 * em))
            width=(canvas.grid(wide)) height=(canvas.grid(1.1 * em)) {}
        text.number x=(canvas.grid(at.x)) y=(canvas.grid(at.y + 0.34 * em)) { (words) }
    }
}

/// Where bobbins are changed: a diamond, with its number beside it.
pub(super) fn bobbin_changes(canvas: &Canvas, changes: &BobbinChanges) -> Markup {
    let middle = canvas.bounds.centre();
    html! {
        @for (change, number) in changes.changes.iter().zip(1..) {
            @let at = change.place.at;
            // Towards the middle of the quilt, where the number doesn't fall off the picture.
            @let aside = Vector::new((middle.x - at.x).signum() * 1.5, 0.0) * canvas.em;
            (label(canvas, at + aside, &format!("B{number}")))
            (diamond(canvas, at, 0.5 * canvas.em))
        }
    }
}

/// A diamond: change the bobbin.
pub(super) fn diamond(canvas: &Canvas, at: Point, half: f64) -> Markup {
    let corners = [(-1.0, 0.0), (0.0, -1.0), (1.0, 0.0), (0.0, 1.0)];
    canvas.outline(
        "bobbin",
        &corners.map(|(x, y)| at + Vector::new(x, y) * half),
    )
}

/// Where the number of a link stands: beside its middle.
fn beside(line: &Motif, em: f64) -> Point {
    let [start, end] = [line.start(), line.end()];
    let aside = Vector::new(-start.direction.y, start.direction.x) * (0.8 * em);
    nalgebra::center(&start.point, &end.point) + aside
}

/// A dimension line from one point to another, moved aside by `off`, with the first of these words
/// that there is room for; of the last, the unit goes before all of it does.
pub(super) fn dimension(
    canvas: &Canvas,
    [from, to]: [Point; 2],
    off: Vector,
    words: &[&str],
) -> Markup {
    let em = canvas.em;
    let [a, b] = [from + off, to + off];
    let long = (b - a).norm();
    let along = if long > 0.0 {
        (b - a) / long
    } else {
        Vector::x()
    };
    let slash = (along + Vector::new(-along.y, along.x)) * (0.3 * em);
    // Words are read from below or from the right.
    let mut degrees = along.y.atan2(along.x).to_degrees();
    if !(-90.01..89.99).contains(&degrees) {
        degrees += 180.0;
    }
    let middle = nalgebra::center(&a, &b);
    let bare = words.last().and_then(|words| words.rsplit_once(' '));
    let mut all = words.iter().copied().chain(bare.map(|(number, _)| number));
    let words = all.find(|words| em * (0.4 + wide(words, canvas.figure)) < long);
    // Words stand on the outer side of the line, above or below it as they are read.
    let (sin, cos) = degrees.to_radians().sin_cos();
    let above = off.dot(&Vector::new(sin, -cos)) >= 0.0;
    let base = if above { -0.3 } else { 0.95 };
    let line = |class: &str, from: Point, to: Point| canvas.segment(class, from, to);
    html! {
        (line("dim", a, b))
        @for end in [a, b] { (line("tick", end - slash, end + slash)) }
        @if let Some(words) = words {
            text.measure transform={
                "translate(" (canvas.grid(middle.x)) " " (canvas.grid(middle.y)) ") rotate("
                (format!("{degrees:.2}")) ") translate(0 " (canvas.grid(base * em)) ")"
            } { (fraction(words)) }
        }
    }
}

/// About how wide words are, in letters, with figures of fractions of this size.
fn wide(words: &str, figure: f64) -> f64 {
    let of = |part: &str| match part.contains('/') {
        true => 0.55 * figure * part.len() as f64,
        false => 0.22 + 0.5 * part.chars().count() as f64,
    };
    words.split(' ').map(of).sum()
}

/// Words with fractions in raised and lowered figures.
///
/// The steps up and down are those of letters of the full size, whatever size a style gives to the
/// figures.
pub(super) fn fraction(words: &str) -> Markup {
    let parts: Vec<&str> = words.split(' ').collect();
    html! {
        @for (at, part) in parts.iter().enumerate() {
            @match split(part) {
                Some([above, below, after]) => {
                    @if at > 0 { "\u{2009}" }
                    tspan dy="-.27em" { tspan.fig font-size=".68em" { (above) } }
                    tspan dy=".27em" { "\u{2044}" }
                    tspan dy=".07em" { tspan.fig font-size=".68em" { (below) } }
                    // Back to the line of the words.
                    tspan dy="-.07em" { "\u{200a}" (after) }
                }
                None => { @if at > 0 { " " } (part) }
            }
        }
    }
}

/// The figures of a fraction, and what follows them in the word.
fn split(word: &str) -> Option<[&str; 3]> {
    let (above, rest) = word.split_once('/')?;
    let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
    let (below, after) = rest.split_at(digits);
    let whole = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let ends = !after.starts_with(char::is_alphanumeric);
    (whole(above) && whole(below) && ends).then_some([above, below, after])
}

/// A triangle: look before stitching.
pub(super) fn triangle(canvas: &Canvas, at: Point) -> Markup {
    let corners = [(0.0, -0.75), (0.75, 0.55), (-0.75, 0.55)];
    let corners = corners.map(|(x, y)| at + Vector::new(x, y) * canvas.em);
    canvas.outline("mark", &corners)
}

/// A pin with its number: a triangle to look at, or a circle to know.
#[cfg(feature = "json")]
pub(super) fn pin(canvas: &Canvas, at: Point, number: usize, look: bool) -> Markup {
    let em = canvas.em;
    let corners = [(0.0, -1.3), (1.25, 0.85), (-1.25, 0.85)];
    let corners = corners.map(|(x, y)| at + Vector::new(x, y) * em);
    let low = if look { 0.6 } else { 0.34 };
    html! {
        @if look { (canvas.outline("mark", &corners)) }
        @else { circle.know cx=(canvas.grid(at.x)) cy=(canvas.grid(at.y)) r=(canvas.grid(0.95 * em)) {} }
        text.number x=(canvas.grid(at.x)) y=(canvas.grid(at.y + low * em)) { (number) }
    }
}
