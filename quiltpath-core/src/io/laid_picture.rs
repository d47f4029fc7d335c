//! The picture of a laid pass: planned against laid, differences drawn ten times as large.
//!
//! A shift and a turn of the whole pass say nothing about the cloth, since the zero may be
//! anywhere: the planned pass is first brought onto the laid one by the rigid motion that fits best
//! (least squares; the turn is that of the sum of outer products, W. Kabsch, 1976, from memory).

use maud::{Markup, PreEscaped, html};

use super::canvas::Canvas;
use super::look;
use super::pass_figure::window;
use super::signs::{label, ring};
use crate::align::ClothMap;
use crate::error::Error;
use crate::frame::{LaidPass, MarkReading};
use crate::geom::{Bounds, Point, Vector};
use crate::plan::{Solved, Stitching, check_whole};

/// How many times as large differences are drawn.
pub const TIMES: f64 = 10.0;

/// Letters along the longer side.
const LETTERS: f64 = 60.0;

/// What is free round the window, in letters.
const MARGIN: f64 = 5.0;

/// A rigid motion and its inverse.
struct Rigid {
    from: Point,
    to: Point,
    turn: nalgebra::Rotation2<f64>,
}

impl Rigid {
    /// The one that brings these points nearest to where a map takes them.
    fn of(points: &[Point], map: &ClothMap) -> Self {
        let count = points.len().max(1) as f64;
        let middle = |points: &mut dyn Iterator<Item = Point>| {
            Point::from(points.map(|point| point.coords).sum::<Vector>() / count)
        };
        let from = middle(&mut points.iter().copied());
        let to = middle(&mut points.iter().map(|&point| map.map(point)));
        let (mut along, mut across) = (0.0, 0.0);
        for &point in points {
            let (before, after) = (point - from, map.map(point) - to);
            along += before.dot(&after);
            across += before.perp(&after);
        }
        let turn = nalgebra::Rotation2::new(across.atan2(along));
        Self { from, to, turn }
    }

    fn back(&self, point: Point) -> Point {
        self.from + self.turn.inverse() * (point - self.to)
    }
}

/// Writes the picture of a laid pass as a self-contained SVG.
///
/// # Errors
///
/// A plan error when the plan, its stitching and the laid pass don't go together.
///
/// # Complexity
///
/// O(points).
pub fn write_laid_picture(
    solved: &Solved,
    stitching: &Stitching,
    (laid, readings): (&LaidPass, &[(String, MarkReading)]),
) -> Result<String, Error> {
    check_whole(solved, Some(stitching))?;
    let Some(pass) = stitching.passes.get(laid.pass) else {
        return Err(crate::error::PlanFault::NotThere {
            what: "pass",
            number: laid.pass,
            count: stitching.passes.len(),
        }
        .into());
    };
    let map = &laid.aligned.map;
    let planned = |point: Point| pass.to_machine.apply(point);
    let lines: Vec<Vec<Point>> = (laid.runs.iter())
        .map(|run| {
            run.planned
                .motif
                .points()
                .iter()
                .map(|&point| planned(point))
                .collect()
        })
        .collect();
    let all: usize = lines.iter().map(Vec::len).sum();
    let some = lines
        .iter()
        .flatten()
        .copied()
        .step_by(all.div_ceil(400).max(1));
    let rigid = Rigid::of(&some.collect::<Vec<_>>(), map);
    let larger = |point: Point, there: Point| point + (rigid.back(there) - point) * TIMES;
    let window = window(solved, stitching, pass);
    let canvas = Canvas::over(window, LETTERS);
    let em = canvas.em;
    let margin = canvas.grid(MARGIN * em);
    let [w, h] = [window.width(), window.height()].map(|mm| canvas.grid(mm));
    let (wide, high) = (w + 2 * margin, h + 2 * margin);
    let number = laid.pass + 1;
    let row = |at: f64| h + margin - canvas.grid((3.4 - 1.5 * at) * em);
    let drawn = html! {
        svg xmlns="http://www.w3.org/2000/svg" width="960" role="img"
            viewBox=(format!("{} {} {wide} {high}", -margin, -margin)) {
            title { "Pass " (number) " as planned and as laid" }
            style { (PreEscaped(format!(
                "{}text{{font-size:{}px}}", look::plain(wide as f64 / 960.0), canvas.grid(em)
            ))) }
            rect fill="#fdfbf5" x=(-margin) y=(-margin) width=(wide) height=(high) {}
            rect.window x="0" y="0" width=(w) height=(h) {}
            @for line in &lines {
                path.seam d=(canvas.line(line)) {}
            }
            @for line in &lines {
                @let laid: Vec<Point> = line.iter().map(|&point| larger(point, map.map(point))).collect();
                path class="line side" d=(canvas.line(&laid)) {}
            }
            @for (letter, reading) in readings {
                (sign(&canvas, window, letter, planned(reading.mark.point), |point| larger(point, reading.read)))
            }
            text x="0" y=(row(0.0)) { "Grey: as planned. Dark: as laid, differences drawn ten times as large." }
            text x="0" y=(row(1.0)) { "Rings: marks as planned. Crosses: as read, ten times as far away." }
        }
    };
    let mut out = drawn.into_string();
    out.push('\n');
    Ok(out)
}

/// A mark as planned and as read.
fn sign(
    canvas: &Canvas,
    window: Bounds,
    letter: &str,
    at: Point,
    read: impl Fn(Point) -> Point,
) -> Markup {
    let em = canvas.em;
    let there = read(at);
    let way = (window.centre() - at).map(|way| 1.3 * em * way.signum());
    let arm = 0.4 * em;
    html! {
        (canvas.segment("travel", at, there))
        (ring(canvas, at, 0.4 * em))
        (canvas.segment("tick", there - Vector::new(arm, arm), there + Vector::new(arm, arm)))
        (canvas.segment("tick", there - Vector::new(arm, -arm), there + Vector::new(arm, -arm)))
        (label(canvas, at + way, letter))
    }
}
