//! What is drawn on sheets: lines in steps of 0.01 mm, marks at ends, names of rows and columns.

use std::fmt::{self, Write};

use maud::{Markup, Render, html};

use super::piece::Piece;
use crate::geom::{Bounds, Point, Vector};
use crate::io::svg_write::data::chords;
use crate::motif::End;
use crate::transform::Transform;

/// The step of what is drawn, in millimetres.
const STEP: f64 = 0.01;

/// Words stay this far from the point that they belong to.
const AWAY: f64 = 5.0;

/// The size of words, and about the width of one character.
pub(super) const WORD: [f64; 2] = [3.2, 1.8];

/// Millimetres in steps of 0.01, in short.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mm(pub(super) f64);

impl fmt::Display for Mm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        ((self.0 * 100.0).round() / 100.0 + 0.0).fmt(f)
    }
}

impl Render for Mm {
    fn render_to(&self, out: &mut String) {
        // Writing to a string can't fail.
        let _ = write!(out, "{self}");
    }
}

/// The name of a sheet: a letter for its row, a number for its column, both from the top left.
pub(super) fn name(row: usize, column: usize) -> String {
    format!("{}{}", row_name(row), column + 1)
}

/// `A` to `Z`, then `AA`.
pub(super) fn row_name(row: usize) -> String {
    let letter = char::from(b'A' + (row % 26) as u8);
    match row / 26 {
        0 => letter.to_string(),
        more => row_name(more - 1) + &letter.to_string(),
    }
}

/// A line of this class in steps of 0.01 mm.
pub(super) fn line(class: &str, points: &[Point]) -> Markup {
    struct Data(Vec<Point>);

    impl Render for Data {
        fn render_to(&self, out: &mut String) {
            chords(out, &self.0);
        }
    }

    let snap = |point: &Point| point.map(|value| (value / STEP).round() * STEP);
    html! { path class=(class) d=(Data(points.iter().map(snap).collect())) {} }
}

/// The marks at the ends of all lines that show within these bounds.
pub(super) fn ends(piece: &Piece<'_>, shown: Bounds) -> Markup {
    let several = piece.ends.len() > 1;
    html! {
        @for (ends, number) in piece.ends.iter().zip(1..) {
            (ends_of(piece.bounds(), ends, several.then_some(number), shown))
        }
    }
}

fn ends_of(piece: Bounds, [start, end]: &[End; 2], number: Option<usize>, shown: Bounds) -> Markup {
    let number = number.map_or_else(String::new, |number| format!(" {number}"));
    let closed = (start.point - end.point).norm() < 1.5 * AWAY;
    let and_end = if closed { " and end" } else { "" };
    html! {
        @if near(start, shown) {
            (start_mark(start))
            (word(piece, start.point, -start.direction, &format!("start{number}{and_end}")))
        }
        @if near(end, shown) {
            (end_mark(end))
            @if !closed { (word(piece, end.point, end.direction, &format!("end{number}"))) }
        }
    }
}

/// True when a mark here, or its words, would show within the bounds.
fn near(end: &End, shown: Bounds) -> bool {
    const REACH: f64 = 40.0;
    let reach = Vector::repeat(REACH);
    let (min, max) = (shown.min - reach, shown.max + reach);
    end.point.x > min.x && end.point.y > min.y && end.point.x < max.x && end.point.y < max.y
}

/// Path data of a closed line through these points.
fn closed(points: &[Point]) -> String {
    let mut data = String::new();
    for (point, command) in points.iter().zip("MLLL".chars()) {
        data += &format!("{command}{},{}", Mm(point.x), Mm(point.y));
    }
    data + "Z"
}

/// A ring round the start, and an arrow head ahead of it.
fn start_mark(start: &End) -> Markup {
    let (ahead, aside) = frame(start);
    let tip = start.point + ahead * 8.0;
    let foot = start.point + ahead * 3.0;
    let head = closed(&[tip, foot - aside * 2.0, foot + aside * 2.0]);
    html! {
        circle.start cx=(Mm(start.point.x)) cy=(Mm(start.point.y)) r="1.8" {}
        path.head d=(head) {}
    }
}

/// A square round the end, its sides along and across the line.
fn end_mark(end: &End) -> Markup {
    let (ahead, aside) = frame(end);
    let (a, b) = (ahead * 2.6, aside * 2.6);
    let corners = [a + b, a - b, -a - b, b - a].map(|corner| end.point + corner);
    html! { path.end d=(closed(&corners)) {} }
}

fn frame(end: &End) -> (Vector, Vector) {
    (
        end.direction,
        Vector::new(-end.direction.y, end.direction.x),
    )
}

/// Words beside a point: on the side asked for, or on another where they stay within the piece.
fn word(piece: Bounds, at: Point, side: Vector, words: &str) -> Markup {
    let [high, wide] = WORD;
    let width = wide * words.chars().count() as f64;
    let box_at = |side: Vector| {
        let middle = at + side * AWAY;
        // The box stands off on the side of the point that it lies on.
        let left = middle.x - width * (0.5 - 0.5 * side.x);
        let top = middle.y - high * (0.5 - 0.5 * side.y);
        Point::new(left, top)
    };
    let within = |side: &Vector| {
        let from = box_at(*side);
        let to = from + Vector::new(width, high);
        let room = Vector::repeat(AWAY);
        (from - (piece.min - room)).min() >= 0.0 && ((piece.max + room) - to).min() >= 0.0
    };
    let turned = |degrees: f64| Transform::rotate_degrees(degrees).apply_vector(side);
    let mut sides = [0.0, 45.0, -45.0, 90.0, -90.0, 135.0, -135.0]
        .map(turned)
        .into_iter();
    let from = box_at(sides.find(within).unwrap_or(side));
    html! {
        text class="word text" x=(Mm(from.x)) y=(Mm(from.y + 0.8 * high)) { (words) }
    }
}

/// An arrow in the middle of a line, open behind, that shows its direction.
pub(super) fn way(points: &[Point]) -> Option<Markup> {
    use crate::geom::measure::{length, point_at};
    const LEAST: f64 = 20.0;
    let long = length(points);
    if long < LEAST {
        return None;
    }
    let place = |offset: f64| point_at(points, long / 2.0 + offset);
    let (before, at, after) = (place(-0.5)?, place(0.0)?, place(0.5)?);
    let ahead = (after - before).try_normalize(1e-6)?;
    let back = at - ahead * 2.6;
    let aside = Vector::new(-ahead.y, ahead.x) * 1.7;
    Some(line("way", &[back - aside, at, back + aside]))
}

/// A mark that two sheets share: a ring with a cross.
pub(super) fn mark(at: Point) -> Markup {
    let (x, y) = (Mm(at.x), Mm(at.y));
    let (left, top) = (Mm(at.x - 4.5), Mm(at.y - 4.5));
    html! {
        circle.fine cx=(x) cy=(y) r="2.5" {}
        path.fine d={ "M" (left) "," (y) "h9M" (x) "," (top) "v9" } {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_go_on_after_z() {
        let names = [0, 25, 26, 51, 52, 701, 702].map(row_name);
        assert_eq!(names, ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }
}
