//! What is drawn on sheets: lines in steps of 0.01 mm, marks at ends, names of rows and columns.

use std::fmt;

use super::Piece;
use crate::geom::{Bounds, Point, Vector};
use crate::io::svg_write::data::chords;
use crate::motif::End;
use crate::transform::Transform;

/// The step of what is drawn, in millimetres.
const STEP: f64 = 0.01;

/// Words stay this far from the point that they belong to.
const AWAY: f64 = 5.0;

/// The size of words, and about the width of one character.
const WORD: [f64; 2] = [3.2, 1.8];

/// Millimetres in steps of 0.01, in short.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mm(pub(super) f64);

impl fmt::Display for Mm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        ((self.0 * 100.0).round() / 100.0 + 0.0).fmt(f)
    }
}

/// Text that always succeeds: writing to a string can't fail.
pub(super) fn put(out: &mut String, text: fmt::Arguments<'_>) {
    let _ = fmt::Write::write_fmt(out, text);
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
pub(super) fn line(out: &mut String, class: &str, points: &[Point]) {
    let snapped: Vec<Point> = points
        .iter()
        .map(|point| point.map(|value| (value / STEP).round() * STEP))
        .collect();
    put(out, format_args!("<path class=\"{class}\" d=\""));
    chords(out, &snapped);
    out.push_str("\"/>\n");
}

/// The marks at the ends of all lines that show within these bounds.
pub(super) fn ends(out: &mut String, piece: &Piece<'_>, shown: Bounds) {
    let several = piece.ends.len() > 1;
    for (ends, number) in piece.ends.iter().zip(1..) {
        let number = if several {
            format!(" {number}")
        } else {
            String::new()
        };
        let [start, end] = ends;
        let closed = (start.point - end.point).norm() < 1.5 * AWAY;
        if near(start, shown) {
            start_mark(out, start);
            let words = if closed {
                format!("start{number} and end")
            } else {
                format!("start{number}")
            };
            word(out, piece.bounds(), start.point, -start.direction, &words);
        }
        if near(end, shown) {
            end_mark(out, end);
            if !closed {
                let words = format!("end{number}");
                word(out, piece.bounds(), end.point, end.direction, &words);
            }
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

/// A ring round the start, and an arrow head ahead of it.
fn start_mark(out: &mut String, start: &End) {
    let (ahead, aside) = frame(start);
    let tip = start.point + ahead * 8.0;
    let foot = start.point + ahead * 3.0;
    let [left, right] = [foot - aside * 2.0, foot + aside * 2.0];
    put(
        out,
        format_args!(
            "<circle class=\"start\" cx=\"{}\" cy=\"{}\" r=\"1.8\"/>\
             <path class=\"head\" d=\"M{},{}L{},{} {},{}Z\"/>\n",
            Mm(start.point.x),
            Mm(start.point.y),
            Mm(tip.x),
            Mm(tip.y),
            Mm(left.x),
            Mm(left.y),
            Mm(right.x),
            Mm(right.y)
        ),
    );
}

/// A square round the end, its sides along and across the line.
fn end_mark(out: &mut String, end: &End) {
    let (ahead, aside) = frame(end);
    let (a, b) = (ahead * 2.6, aside * 2.6);
    out.push_str("<path class=\"end\" d=\"");
    for (corner, command) in [a + b, a - b, -a - b, b - a]
        .into_iter()
        .zip("MLLL".chars())
    {
        let at = end.point + corner;
        put(out, format_args!("{command}{},{}", Mm(at.x), Mm(at.y)));
    }
    out.push_str("Z\"/>\n");
}

fn frame(end: &End) -> (Vector, Vector) {
    (
        end.direction,
        Vector::new(-end.direction.y, end.direction.x),
    )
}

/// Words beside a point: on the side asked for, or on another where they stay within the piece.
fn word(out: &mut String, piece: Bounds, at: Point, side: Vector, words: &str) {
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
    put(
        out,
        format_args!(
            "<text class=\"word text\" x=\"{}\" y=\"{}\">{words}</text>\n",
            Mm(from.x),
            Mm(from.y + 0.8 * high)
        ),
    );
}

/// An arrow in the middle of a line, open behind, that shows its direction.
pub(super) fn way(out: &mut String, points: &[Point]) {
    use crate::geom::measure::{length, point_at};
    const LEAST: f64 = 20.0;
    let long = length(points);
    if long < LEAST {
        return;
    }
    let place = |offset: f64| point_at(points, long / 2.0 + offset);
    let (Some(before), Some(at), Some(after)) = (place(-0.5), place(0.0), place(0.5)) else {
        return;
    };
    if let Some(ahead) = (after - before).try_normalize(1e-6) {
        let back = at - ahead * 2.6;
        let aside = Vector::new(-ahead.y, ahead.x) * 1.7;
        line(out, "way", &[back - aside, at, back + aside]);
    }
}

/// A mark that two sheets share: a ring with a cross.
pub(super) fn mark(out: &mut String, at: Point) {
    let (x, y) = (Mm(at.x), Mm(at.y));
    let (left, top) = (Mm(at.x - 4.5), Mm(at.y - 4.5));
    put(
        out,
        format_args!(
            "<circle class=\"fine\" cx=\"{x}\" cy=\"{y}\" r=\"2.5\"/>\
             <path class=\"fine\" d=\"M{left},{y}h9M{x},{top}v9\"/>\n"
        ),
    );
}
