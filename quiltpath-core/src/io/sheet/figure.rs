//! The picture of the quilt on the sheet, with what it takes to look at it closely.

use maud::{Markup, html};

use super::page::{Page, ends};
use crate::geom::Point;
use crate::io::canvas::{Canvas, kind_of};
use crate::io::measures::{self, measures, words_of};
use crate::io::signs::{
    arrow, bobbin_changes, piece_numbers, stitched, thread_ends, threads, triangle,
};
use crate::io::{fraction, words};
use crate::plan::{Finding, Piece, Severity, Solved};

/// Letters along the longer side: large enough to read on a phone, small enough for most borders.
const LETTERS: f64 = 30.0;

/// Letters along the picture with all its measures, so that it is legible as wide as A4.
const WHOLE: f64 = 49.0;

/// How high the figures of fractions are on paper, in letters, as the style sheet has it.
const PRINTED_FIGURE: f64 = 0.86;

/// How high the picture is on paper, in millimetres: at least so much, and so much for each letter,
/// with which the figures of fractions, `.fig` in the style sheet, are 9.1 points high.
const PAPER: [f64; 2] = [150.0, 3.74];

/// A pixel on a page of the usual width, in steps of the drawing.
const PIXEL: i64 = 9;

/// The outline of a piece to point at is made of no more points than this.
const AREA_POINTS: usize = 400;

pub(super) fn section(page: &Page<'_>) -> Markup {
    html! {
        section aria-labelledby="the.quilt" {
            h2 id="the.quilt" { "The quilt" }
            (controls())
            figure.quilt {
                (picture(page))
                p.readout aria-hidden="true" hidden {}
                figcaption { (legend(page)) (help()) }
            }
        }
    }
}

fn controls() -> Markup {
    html! {
        div.controls hidden {
            div.group role="group" aria-label="Zoom" {
                button type="button" data-zoom="in" { "Zoom in" }
                button type="button" data-zoom="out" { "Zoom out" }
                button type="button" data-zoom="whole" { "Whole quilt" }
            }
            div.group role="group" aria-label="Order of stitching" {
                button type="button" data-play { "Play" }
                label {
                    "Speed "
                    select data-speed {
                        option value=".5" { "half" }
                        option value="1" selected { "1" }
                        option value="2" { "2" }
                        option value="5" { "5" }
                    }
                }
                label.long {
                    "Order "
                    input type="range" data-order min="0" max="1000" step="1" value="1000";
                }
            }
        }
    }
}

fn help() -> Markup {
    html! {
        details.help hidden {
            summary { "Zoom and keyboard help" }
            p {
                "Drag to move the picture when it is larger than its frame; pinch, or hold Ctrl and "
                "turn the wheel, to zoom. With the picture in focus: arrow keys move it, + and - zoom, "
                "0 shows the whole quilt, the space bar plays and stops. Tab leads from piece to piece."
            }
        }
    }
}

fn picture(page: &Page<'_>) -> Markup {
    let solved = page.solved;
    let room = 2.0 * measures::room(solved);
    let letters = LETTERS.min(WHOLE - room).max(LETTERS / 2.0);
    let mut canvas = Canvas::of(solved, letters);
    canvas.figure = PRINTED_FIGURE;
    let margin = room / 2.0 * canvas.em;
    let high = PAPER[0].max(PAPER[1] * (letters + room)).ceil();
    let bounds = canvas.bounds;
    let [x, y] = [bounds.min.x - margin, bounds.min.y - margin].map(|mm| canvas.grid(mm));
    let [w, h] = [bounds.width(), bounds.height()].map(|mm| canvas.grid(mm + 2.0 * margin));
    let threads = threads(solved, Some(page.stitching));
    let mut order = page.in_order();
    // Where areas overlap, as at nested corners, the inner border's lies on top.
    order.sort_by_key(|&piece| solved.pieces[piece].border);
    html! {
        svg.view viewBox=(format!("{x} {y} {w} {h}")) width=(w) height=(h)
            style=(format!("--em:{}px;--px:{PIXEL};--high:{high}mm", canvas.grid(canvas.em)))
            role="group" tabindex="0" aria-label="Picture of the quilt with its pieces" {
            g.drawing {
                (canvas.cloth(solved))
                g aria-hidden="true" { (measures(&canvas, solved)) }
                @for &index in &order { (piece(page, &canvas, index)) }
                g aria-hidden="true" { @for piece in &solved.pieces { (stitched(&canvas, piece)) } }
                g.playing aria-hidden="true" {}
                g aria-hidden="true" {
                    @for &index in &order {
                        @let [start, _] = ends(solved.pieces[index].motif(), page.reversed(index));
                        (arrow(&canvas, &start, 0.45, 0.8))
                    }
                    (piece_numbers(&canvas, solved, &page.numbers, &threads))
                    @for (line, closed) in &threads {
                        (thread_ends(&canvas, line, *closed))
                    }
                    (bobbin_changes(&canvas, &page.bobbins))
                }
                @for (finding, number) in page.findings().zip(1..) { (mark(&canvas, solved, finding, number)) }
            }
        }
    }
}

/// A piece to point at, with its line.
fn piece(page: &Page<'_>, canvas: &Canvas, index: usize) -> Markup {
    let (piece, number) = (&page.solved.pieces[index], page.numbers[index]);
    let points = piece.motif().points();
    html! {
        a.piece id={ "at." (number) } href={ "#piece." (number) } data-piece=(number)
            aria-label={ (number) ", " (piece.name) } {
            (area(canvas, points))
            path class={ "line " (piece.kind.name()) } id={ "line." (number) } d=(canvas.line(points)) {
                title { (number) ", " (piece.name) ": " (kind_of(&piece.kind)) }
            }
        }
    }
}

fn legend(page: &Page<'_>) -> Markup {
    let has = |wanted: &str| {
        let mut pieces = page.solved.pieces.iter();
        pieces.any(|piece| piece.kind.name() == wanted)
    };
    let threads = threads(page.solved, Some(page.stitching));
    let closed = threads.iter().any(|(_, closed)| *closed);
    let open = threads.iter().any(|(_, closed)| !closed);
    let begun = page.solved.pieces.iter().any(Piece::has_begun);
    const WAVE: &str = "M1 7q6-10 13 0t13 0";
    let triangles = has("side_triangle") || has("corner_triangle");
    let rows = [
        ("line corner", WAVE, "corner", has("corner")),
        ("line side", WAVE, "side", has("side")),
        ("line ring", WAVE, "border", has("ring")),
        ("line block", WAVE, "block", has("block")),
        ("line sash", WAVE, "sash", has("sash")),
        ("line cornerstone", WAVE, "cornerstone", has("cornerstone")),
        ("line side_triangle", WAVE, "triangle", triangles),
        ("line link", "M1 6h26", "link", has("link")),
        ("dim", "M1 6h26", "stitched already", begun),
        ("seam", "M1 6h26", "edge and seam", true),
        (
            "band",
            "M1 6h26",
            "limits of the band",
            !page.solved.borders().is_empty(),
        ),
        ("first", RING, "start of a thread", open),
        ("last", "M9 1h10v10h-10z", "end of a thread", open),
        ("last", BOTH, "start and end of a thread", closed),
        ("way", "M8 1l12 5l-12 5z", "which way", true),
        (
            "last",
            "M8 6l6-6l6 6l-6 6z",
            "change the bobbin",
            !page.bobbins.changes.is_empty(),
        ),
        ("dim", "M4 6h20M1 9l6-6M21 9l6-6", "measure", true),
        (
            "mark",
            "M14 1l6 10h-12z",
            "look before you stitch",
            page.findings().any(is_marked),
        ),
    ];
    html! {
        ul.legend {
            @for (class, data, words, shown) in rows {
                @if shown {
                    li {
                        svg.key viewBox="0 0 28 12" width="28" height="12" aria-hidden="true" {
                            path class=(class) d=(data) {}
                        }
                        " " (words)
                    }
                }
            }
            li { span.key.number { "1" } " piece, in the order of stitching" }
        }
        ul.bands {
            @for layout in &page.solved.layouts {
                li { (layout.name) ": " (fraction::set(&words_of(page.solved, layout, 0).join(", "))) }
            }
        }
    }
}

const RING: &str = "M14 1a5 5 0 1 0 .01 0z";

/// A square with a ring in it.
const BOTH: &str = "M8 0h12v12h-12zM14 2.5a3.5 3.5 0 1 0 .01 0z";

/// What answers to the pointer and lights up: the hull of some of a piece's points.
fn area(canvas: &Canvas, points: &[Point]) -> Markup {
    let step = points.len().div_ceil(AREA_POINTS);
    let some = points.iter().step_by(step).chain(points.last());
    // On the grid before the hull: otherwise the last bit of a sine says with which of two points
    // above each other it begins.
    let on_grid = |at: &Point| {
        let [x, y] = [at.x, at.y].map(|mm| canvas.grid(mm) as f64 * canvas.step);
        Point::new(x, y)
    };
    canvas.outline("area", &hull(some.map(on_grid).collect()))
}

/// The convex hull, by Andrew's monotone chain (1979; from memory).
fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let mut hull: Vec<Point> = Vec::new();
    let mut half = |points: &mut dyn Iterator<Item = Point>| {
        let first = hull.len();
        for point in points {
            while let [.., a, b] = hull[first..] {
                if (b - a).perp(&(point - b)) > 0.0 {
                    break;
                }
                hull.pop();
            }
            hull.push(point);
        }
        hull.pop();
    };
    half(&mut points.iter().copied());
    half(&mut points.iter().rev().copied());
    hull
}

/// True for what has to be looked at and has a place.
fn is_marked(finding: &Finding) -> bool {
    finding.place().is_some() && finding.severity > Severity::Note
}

/// A triangle where a warning or an error has its place, with its number.
fn mark(canvas: &Canvas, solved: &Solved, finding: &Finding, number: usize) -> Markup {
    html! {
        @if let Some(at) = finding.place().filter(|_| is_marked(finding)) {
            a.found id={ "mark." (number) } href={ "#finding." (number) }
                aria-label={ "F" (number) ", " (finding.severity.name()) } {
                (triangle(canvas, at))
                text x=(canvas.grid(at.x + canvas.em)) y=(canvas.grid(at.y)) { "F" (number) }
                title { (words::finding(finding, solved)) }
            }
        }
    }
}
