//! The placement sheet of a plan: where each piece goes, in which order, and what it all takes.
//!
//! One HTML file that loads nothing. All of it stands in the page itself, so it can be read and
//! printed where scripts are off; the script adds zoom, lights pieces up and plays the order of
//! stitching. The line of each piece is written once, in the picture of the quilt; the small
//! pictures refer to it. Numbers carry the ones of `result.json` with them: `data-key` is the way
//! to a number there, `value` the number itself.

mod cards;
mod figure;
mod passes;
mod words;

use std::fmt;

use super::html::{self, Head};
use super::numbers::{in_unit, numbers, point_in_unit};
use crate::geom::{Point, Vector};
use crate::motif::{End, Motif};
use crate::plan::{Solved, Stitching};
use crate::units::Unit;

const STYLE: &str = include_str!("sheet/sheet.css");

const SCRIPT: &str = include_str!("sheet/sheet.js");

/// Writes the placement sheet of a plan as one HTML page that loads nothing.
///
/// Lengths read in the plan's unit, to the nearest 1/16 in or 0.5 mm, with the exact number beside
/// them in the page's data. It prints on any paper.
///
/// ```
/// use quiltpath_core::io::{json::read_plan, sheet::write_sheet};
/// use quiltpath_core::motif::{Joined, Motif};
/// use quiltpath_core::plan::{solve, stitch_plan};
/// use quiltpath_core::geom::Point;
///
/// let plan = r#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#;
/// let plan = read_plan(plan.as_bytes())?;
/// let solved = solve(&plan, |_| {
///     let points = [(0, 5), (5, 0), (10, 5), (15, 10), (20, 5)];
///     let points = points.map(|(x, y)| Point::new(f64::from(x), f64::from(y)));
///     Ok(Joined {
///         motif: Motif::from_points("wave", points.to_vec())?,
///         links: Vec::new(),
///         reversed: 0,
///     })
/// })?;
/// let page = write_sheet(&solved, &stitch_plan(&plan, &solved)?);
/// assert!(page.contains("border-side-top"));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Complexity
///
/// O(points).
#[must_use]
pub fn write_sheet(solved: &Solved, stitching: &Stitching) -> String {
    let mut page = Page {
        out: String::new(),
        solved,
        stitching,
        numbers: numbers(solved, Some(stitching)),
    };
    let title = solved.title.as_deref().unwrap_or("Quilt plan");
    let head = Head {
        title: &format!("{}: placement sheet", html::shortened(title, 120)),
        sheet: None,
        script: true,
        style: STYLE,
    };
    html::open(&mut page.out, &head);
    page.header(title);
    page.out.push_str("<main>\n<div class=\"show\">\n");
    page.figure();
    page.out.push_str("</div>\n<div class=\"tell\">\n");
    page.totals();
    page.findings();
    page.cautions();
    page.passes();
    page.cards();
    page.out.push_str("</div>\n</main>\n<script>\n");
    page.out.push_str(SCRIPT);
    page.out.push_str("</script>\n");
    html::close(&mut page.out);
    page.out
}

/// The page in the making.
struct Page<'a> {
    out: String,
    solved: &'a Solved,
    stitching: &'a Stitching,
    /// The number of each piece, in the order of stitching.
    numbers: Vec<usize>,
}

impl Page<'_> {
    /// Text that always succeeds: writing to a string can't fail.
    fn put(&mut self, text: fmt::Arguments<'_>) {
        let _ = fmt::Write::write_fmt(&mut self.out, text);
    }

    /// The pieces in the order of stitching, by their places in the list.
    fn in_order(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.numbers.len()).collect();
        order.sort_by_key(|&piece| self.numbers[piece]);
        order
    }

    /// True when the first part of a piece is stitched against the direction of its line.
    fn reversed(&self, piece: usize) -> bool {
        let mut parts = self.stitching.runs.iter().flat_map(|run| &run.parts);
        let first = parts.find(|part| part.piece == piece);
        first.is_some_and(|part| part.reversed)
    }

    fn unit(&self) -> Unit {
        self.solved.unit
    }

    /// A length as people read it, with the number that stands at `key` in `result.json`.
    fn length(&self, key: &str, mm: f64) -> String {
        number(key, in_unit(mm, self.unit()), &self.unit().readable(mm))
    }

    /// Both numbers of a place, with the keys of the point's two.
    fn place(&self, key: &str, point: Point) -> String {
        let exact = point_in_unit(point, self.unit());
        let [x, y] = [(0, point.x), (1, point.y)].map(|(axis, mm)| {
            let readable = self.unit().readable(mm);
            number(&format!("{key}.{axis}"), exact[axis], &readable)
        });
        format!("{x} across, {y} down")
    }

    /// Width and height, with the keys of the two.
    fn size(&self, key: &str, size: [f64; 2]) -> String {
        let [width, height] = [0, 1].map(|axis| self.length(&format!("{key}.{axis}"), size[axis]));
        format!("{width} x {height}")
    }
}

/// The two ends of a line as it is stitched, with their directions of travel.
fn ends(motif: &Motif, reversed: bool) -> [End; 2] {
    let [start, end] = [motif.start(), motif.end()];
    let turned = |end: End| End {
        direction: -end.direction,
        ..end
    };
    if reversed {
        [turned(end), turned(start)]
    } else {
        [start, end]
    }
}

/// A number with its words.
fn number(key: &str, value: impl fmt::Display, words: &str) -> String {
    let words = html::safe(words);
    format!("<data data-key=\"{key}\" value=\"{value}\">{words}</data>")
}

/// Where a direction leads, in words: x to the right, y down.
fn way(direction: Vector) -> &'static str {
    const WAYS: [&str; 8] = [
        "to the right",
        "down to the right",
        "down",
        "down to the left",
        "to the left",
        "up to the left",
        "up",
        "up to the right",
    ];
    let eighths = direction.y.atan2(direction.x) / std::f64::consts::FRAC_PI_4;
    WAYS[(eighths.round() as i64).rem_euclid(8) as usize]
}

#[cfg(all(test, feature = "json"))]
mod tests;
