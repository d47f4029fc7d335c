//! One pass as the machine sees it: its window, its runs, its marks and where lines start and end;
//! and in little, the whole quilt with its window.
//!
//! Drawn in the machine's coordinates, x to the right and y down from the window's upper left; a
//! quilt that is loaded turned is drawn turned. What lies outside the window is cut off.

use maud::{Markup, html};

use super::canvas::Canvas;
use super::signs::{arrow, label, ring, square};
use crate::frame::pass_window;
use crate::geom::{Bounds, Point, Vector};
use crate::motif::{End, Motif};
use crate::plan::{PlannedPass, Solved, Stitching, mark_letter};

/// How wide and how high the figure is on paper at most, as the style sheet has it, and how high
/// its letters are there, in millimetres: 13 points, and 9 where a page is narrower.
const PAPER: [f64; 2] = [180.0, 80.0];
const LETTER: f64 = 4.7;

/// A pixel on a page of the usual width, in steps of the drawing.
const PIXEL: i64 = 8;

/// What is free round the window, in letters.
const MARGIN: f64 = 1.6;

/// The window of a pass as far as there is quilt in it.
pub(super) fn window(solved: &Solved, stitching: &Stitching, pass: &PlannedPass) -> Bounds {
    let quilt = solved.bounds();
    let all = (pass.to_machine.apply(quilt.max) - pass.to_machine.apply(quilt.min))
        .y
        .abs();
    let mut window = pass_window(solved, stitching, pass);
    let high = window.max.y.min(all - pass.top);
    window.max.y = if high > 0.0 { high } else { all };
    window
}

/// How many letters the longer side of a window is long, so that they can be read on paper.
fn letters(window: Bounds) -> f64 {
    let room = PAPER.map(|side| side - 2.0 * MARGIN * LETTER);
    let scale = (room[0] / window.width()).min(room[1] / window.height());
    window.width().max(window.height()) * scale / LETTER
}

/// Draws a pass, given by its number from 0.
pub(super) fn figure(solved: &Solved, stitching: &Stitching, number: usize) -> Markup {
    let pass = &stitching.passes[number];
    let window = window(solved, stitching, pass);
    let canvas = Canvas::over(window, letters(window));
    let em = canvas.em;
    let map = |points: &[Point]| -> Vec<Point> {
        points
            .iter()
            .map(|&point| pass.to_machine.apply(point))
            .collect()
    };
    let margin = canvas.grid(MARGIN * em);
    let [w, h] = [window.width(), window.height()].map(|mm| canvas.grid(mm));
    let clip = format!("pass.{}.window", number + 1);
    let runs: Vec<(usize, Vec<Point>, [End; 2], bool)> = (pass.runs.clone())
        .map(|index| {
            let run = &stitching.runs[index];
            let ends = |motif: &Motif| {
                [motif.start(), motif.end()].map(|end| End {
                    point: pass.to_machine.apply(end.point),
                    direction: pass.to_machine.apply_vector(end.direction),
                })
            };
            (index, map(run.motif.points()), ends(&run.motif), run.closed)
        })
        .collect();
    html! {
        svg.seen viewBox=(format!("{} {} {} {}", -margin, -margin, w + 2 * margin, h + 2 * margin))
            width=(w) height=(h) style=(format!("--em:{}px;--px:{PIXEL}", canvas.grid(em)))
            role="img" aria-label={ "Pass " (number + 1) " as the machine sees it" } {
            clipPath id=(clip) {
                rect x=(-margin) y=(-margin) width=(w + 2 * margin) height=(h + 2 * margin) {}
            }
            g clip-path={ "url(#" (clip) ")" } {
                @for layout in solved.borders() {
                    (canvas.outline("border", &map(&layout.lines.edge)))
                    (canvas.outline("cloth", &map(&layout.lines.seam)))
                }
                @for spot in solved.field().iter().flat_map(|field| &field.spots) {
                    (canvas.outline("seam", &map(&spot.corners)))
                }
                @for layout in solved.borders() {
                    (canvas.outline("seam", &map(&layout.lines.edge)))
                    (canvas.outline("seam", &map(&layout.lines.seam)))
                }
                rect.window x="0" y="0" width=(w) height=(h) {}
                @for pair in runs.windows(2) {
                    (canvas.segment("travel", pair[0].2[1].point, pair[1].2[0].point))
                }
                @for (_, points, _, _) in &runs {
                    path class="line side" d=(canvas.line(points)) {}
                }
                @for (index, _, [start, end], closed) in &runs {
                    (arrow(&canvas, start, 0.45, 0.8))
                    @if *closed {
                        (square(&canvas, start.point, 0.55 * em))
                    } @else {
                        (square(&canvas, end.point, 0.32 * em))
                    }
                    (ring(&canvas, start.point, 0.33 * em))
                    (label(&canvas, beside(start, window, em), &(index + 1).to_string()))
                }
                @for (at, mark) in pass.marks.iter().enumerate() {
                    (cross(&canvas, pass.to_machine.apply(mark.point), window, &mark_letter(at)))
                }
            }
        }
    }
}

/// The whole quilt with the window of a pass, given by its number from 0.
pub(super) fn small(solved: &Solved, stitching: &Stitching, index: usize) -> Markup {
    let pass = &stitching.passes[index];
    let quilt = solved.bounds();
    let window = window(solved, stitching, pass);
    let at = |x: f64, y: f64| pass.to_machine.apply(Point::new(x, y));
    let (one, other) = (at(quilt.min.x, quilt.min.y), at(quilt.max.x, quilt.max.y));
    let (low, high) = (one.inf(&other), one.sup(&other));
    let [x, y, w, h] = [low.x, low.y, high.x - low.x, high.y - low.y].map(|mm| mm.round());
    let pixel = (w.max(h) / 80.0).max(1.0);
    let seam = solved.layouts.last().map(|layout| {
        let corners = layout
            .lines
            .seam
            .iter()
            .map(|&point| pass.to_machine.apply(point));
        let words = corners.map(|point| format!("{:.0} {:.0}", point.x, point.y));
        words.collect::<Vec<_>>().join(" ")
    });
    html! {
        svg.small viewBox=(format!("{x} {y} {w} {h}")) width=(format!("{:.0}", w / pixel))
            height=(format!("{:.0}", h / pixel)) style=(format!("--px:{pixel:.1}"))
            role="img" aria-label={ "Pass " (index + 1) } {
            rect.border x=(x) y=(y) width=(w) height=(h) {}
            @if let Some(seam) = seam { polygon.cloth points=(seam) {} }
            rect.window x="0" y="0" width=(format!("{:.0}", window.width()))
                height=(format!("{:.0}", window.height())) {}
        }
    }
}

/// Where the number of a run stands: aside of its start, inside the window.
fn beside(start: &End, window: Bounds, em: f64) -> Point {
    let aside = Vector::new(-start.direction.y, start.direction.x) * (1.3 * em);
    let inside = |point: Point| {
        let (low, high) = (window.min, window.max);
        (low.x..=high.x).contains(&point.x) && (low.y..=high.y).contains(&point.y)
    };
    match inside(start.point + aside) {
        true => start.point + aside,
        false => start.point - aside,
    }
}

/// A mark: a cross in a ring, its letter towards the middle of the window.
fn cross(canvas: &Canvas, at: Point, window: Bounds, letter: &str) -> Markup {
    let arm = 0.8 * canvas.em;
    let middle = window.centre();
    let way = Vector::new((middle.x - at.x).signum(), (middle.y - at.y).signum());
    let words = at + way * (1.25 * canvas.em);
    html! {
        (ring(canvas, at, 0.55 * canvas.em))
        (canvas.segment("tick", at - Vector::new(arm, 0.0), at + Vector::new(arm, 0.0)))
        (canvas.segment("tick", at - Vector::new(0.0, arm), at + Vector::new(0.0, arm)))
        (label(canvas, words, letter))
    }
}
