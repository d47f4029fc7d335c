//! Pins on the picture: where there is something to look at, by the number of its kind.
//!
//! A triangle says look before stitching, a circle that it is good to know. Each kind has one pin,
//! at its worst place; small dots at all of its places stand ready to be shown. Pins that would
//! cover each other are set side by side.

use maud::html;

use super::found::{FoundKind, FoundLine};
use crate::geom::{Point, Vector};
use crate::io::canvas::Canvas;
use crate::io::picture::PicturePart;
use crate::io::signs;
use crate::plan::Solved;

/// From pin to pin, in letters.
const APART: f64 = 2.1;

/// The pins of all kinds of findings that have a place, those to look at and those to know.
pub(super) fn pins(
    solved: &Solved,
    [look, know]: [&[FoundKind]; 2],
    letters: f64,
) -> Vec<PicturePart> {
    let canvas = Canvas::of(solved, letters);
    let mut taken: Vec<Point> = Vec::new();
    let kinds = look.iter().zip(std::iter::repeat(true));
    let kinds = kinds.chain(know.iter().zip(std::iter::repeat(false)));
    let pins = kinds.filter_map(|(kind, look)| {
        let lines = kind.lines.iter();
        let places: Vec<Point> = lines.flat_map(|line| mm(line, solved)).collect();
        let at = clear(&canvas, *places.first()?, &taken);
        taken.push(at);
        let class = if look { "pin look" } else { "pin know" };
        let markup = html! {
            g class=(class) data-number=(kind.number) {
                path.every d=(dots(&canvas, &places)) {}
                (signs::pin(&canvas, at, kind.number, look))
            }
        };
        Some(PicturePart::new(&format!("pin {}", kind.number), markup))
    });
    pins.collect()
}

/// The places of a line in millimetres.
fn mm(line: &FoundLine, solved: &Solved) -> impl Iterator<Item = Point> {
    let unit = solved.unit.in_mm();
    line.places
        .iter()
        .map(move |&[x, y]| Point::new(x * unit, y * unit))
}

/// A place for a pin that is clear of the others: its own, or the nearest free one in a row beside
/// it, towards the middle of the quilt.
fn clear(canvas: &Canvas, at: Point, taken: &[Point]) -> Point {
    let apart = APART * canvas.em;
    let inwards = (canvas.bounds.centre().x - at.x).signum();
    let free = |place: &Point| {
        taken
            .iter()
            .all(|other| (other - place).norm() >= 0.95 * apart)
    };
    let row = (0..=taken.len()).map(|step| at + Vector::new(inwards * apart * step as f64, 0.0));
    row.into_iter().find(free).unwrap_or(at)
}

/// Places as path data of lines without length, which a round line cap makes dots.
fn dots(canvas: &Canvas, places: &[Point]) -> String {
    let dot = |place: &Point| format!("M{} {}h0", canvas.grid(place.x), canvas.grid(place.y));
    places.iter().map(dot).collect()
}
