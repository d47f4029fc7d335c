//! A small picture of one piece on the sheet, as it lies on the quilt, with its start and its end.

use maud::{Markup, html};

use super::page::ends;
use crate::geom::{Bounds, Point, Vector};
use crate::io::canvas::{Canvas, kind_of};
use crate::plan::Piece;

/// The frame of a small picture, in CSS pixels.
const FRAME: [f64; 2] = [260.0, 150.0];

/// Lines are so much thinner than on the large picture.
const THIN: f64 = 0.6;

/// A piece so many times as high as wide is turned.
const TURNED_FROM: f64 = 1.5;

/// White round a small picture, for its marks, in CSS pixels.
const MARGIN: f64 = 12.0;

pub(super) fn thumb(number: usize, piece: &Piece, reversed: bool, scale: &Canvas) -> Markup {
    let grid = |mm: f64| scale.grid(mm) as f64;
    let whole = |value: f64| format!("{value:.0}");
    let bounds = Bounds::of_nonempty(piece.motif().points());
    let size = [bounds.width(), bounds.height()].map(grid);
    // What is much higher than wide lies along the card, its top to the left.
    let turned = size[1] > TURNED_FROM * size[0];
    let [w, h] = if turned { [size[1], size[0]] } else { size };
    // How many steps of the grid a pixel is; small links stay small.
    let room = FRAME.map(|side| side - 2.0 * MARGIN);
    let pixel = (w / room[0]).max(h / room[1]).max(1.0);
    let margin = MARGIN * pixel;
    let [left, top] = [bounds.min.x, bounds.min.y].map(grid);
    // (x, y) lies at (y, -x) after a quarter turn against the clock.
    let [x, y] = match turned {
        true => [top - margin, -left - h - margin],
        false => [left - margin, top - margin],
    };
    let (wide, high) = (w + 2.0 * margin, h + 2.0 * margin);
    let ends = ends(piece.motif(), reversed);
    let [start, end] = ends.map(|end| Point::new(grid(end.point.x), grid(end.point.y)));
    let closed = (start - end).norm() < 8.0 * pixel;
    let ahead = ends[0].direction * (9.0 * pixel);
    let aside = Vector::new(-ahead.y, ahead.x);
    let tip = start + 1.2 * ahead;
    let (left, right) = (start + 0.4 * (ahead + aside), start + 0.4 * (ahead - aside));
    let arrow = format!(
        "M{:.0} {:.0}L{:.0} {:.0} {:.0} {:.0}Z",
        tip.x, tip.y, left.x, left.y, right.x, right.y
    );
    html! {
        svg.thumb role="img" aria-label={ (piece.name) ": " (kind_of(&piece.kind)) @if turned { ", turned" } }
            viewBox=(format!("{x:.0} {y:.0} {wide:.0} {high:.0}"))
            width=(whole(wide / pixel)) height=(whole(high / pixel)) style=(format!("--px:{:.2}", THIN * pixel)) {
            g transform=[turned.then_some("rotate(-90)")] {
                use href={ "#line." (number) } {}
                path.way d=(arrow) {}
                @let half = if closed { 7.0 } else { 4.0 };
                rect.last x=(whole(end.x - half * pixel)) y=(whole(end.y - half * pixel))
                    width=(whole(2.0 * half * pixel)) height=(whole(2.0 * half * pixel)) {}
                circle.first cx=(whole(start.x)) cy=(whole(start.y)) r=(whole(4.0 * pixel)) {}
            }
        }
        @if turned { p.turned { "Turned: its top lies to the left." } }
    }
}
