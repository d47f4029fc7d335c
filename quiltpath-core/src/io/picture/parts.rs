//! The picture in parts, each with a key, in the order of drawing.
//!
//! Problem: a page shows a plan while it is changed, many times a second, and a browser takes long
//! to read a picture anew. Method: the picture is a list of parts; the key of a part says what it
//! shows (a piece by its name), so a page that keeps the parts by their keys replaces only those
//! whose markup differs. Guarantee: the parts one after the other are all that the picture draws,
//! to the byte; no key comes twice.

use maud::{Markup, html};

use super::legend::{Legend, ROW};
use super::lines::lines;
use super::title::Title;
use crate::error::Error;
use crate::frame::bobbin_changes;
use crate::geom::{Bounds, Point};
use crate::io::canvas::Canvas;
use crate::io::measures::{self, measures};
use crate::io::numbers::numbers;
use crate::io::signs::{self, thread_ends, threads};
use crate::io::svg_write::xml_text;
use crate::io::words;
use crate::plan::{Finding, Severity, Solved, Stitching, check_whole};

/// The width of the picture in pixels.
const WIDE: f64 = 960.0;

/// A part of the picture of a plan.
#[derive(Debug, Clone, PartialEq, Eq)]
#[cfg_attr(feature = "json", derive(serde::Serialize))]
#[non_exhaustive]
pub struct PicturePart {
    /// What it shows: `cloth`, `measures`, `piece NAME`, `link NAME`, `twice NAME`,
    /// `stitched NAME`, `numbers`, `ends`, `bobbins`, `marks`, and `back`, `title`, `legend`.
    pub key: String,
    /// SVG elements.
    pub markup: String,
}

impl PicturePart {
    pub(in crate::io) fn new(key: &str, markup: Markup) -> Self {
        Self {
            key: key.to_owned(),
            markup: markup.into_string(),
        }
    }
}

/// The picture of a plan in parts. Coordinates are whole steps of a grid, y down.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize))]
#[non_exhaustive]
pub struct PictureParts {
    /// The `viewBox` of the whole picture: x, y, width and height.
    pub view: [i64; 4],
    /// The `viewBox` of the quilt with its measures alone, without title and legend.
    pub quilt: [i64; 4],
    /// How long a step of the grid is, in millimetres.
    pub step: f64,
    /// How high letters are, in steps.
    pub letters: i64,
    /// How large a pixel is where the picture is 960 px wide, in steps; for `--px` in the styles of
    /// signs.
    pub pixel: f64,
    /// The parts in the order of drawing.
    pub parts: Vec<PicturePart>,
}

/// The picture of a solved plan in parts, as [`write_picture`](super::write_picture()) puts them
/// together; letters are so high that the longer side of the quilt is `letters` of them.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::io::{json::read_plan, picture::picture_parts};
/// use quiltpath_core::plan::solve;
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = |height: u32| read_plan(format!(r#"{{"unit": "in",
///     "quilt": {{"width": 40, "height": {height}}},
///     "borders": [{{"width": 6, "corner": {{"style": "open"}}, "side": {{"motif": "wave"}}}}]
/// }}"#).as_bytes());
/// let before = picture_parts(&solve(&plan(60)?, wave)?, None, 46.0)?;
/// let after = picture_parts(&solve(&plan(60)?, wave)?, None, 46.0)?;
/// let changed = before.parts.iter().zip(&after.parts).filter(|(old, new)| old != new);
/// assert_eq!(changed.count(), 0);
/// assert!(after.parts.iter().any(|part| part.key == "piece border-side-top"));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`write_picture`](super::write_picture()).
///
/// # Complexity
///
/// O(points).
pub fn picture_parts(
    solved: &Solved,
    stitching: Option<&Stitching>,
    letters: f64,
) -> Result<PictureParts, Error> {
    check_whole(solved, stitching)?;
    let canvas = Canvas::of(solved, letters);
    let em = canvas.em;
    let Bounds { min, max } = canvas.bounds;
    let margin = measures::room(solved) * em;
    let row = canvas.bounds.width() + 2.0 * (margin - em);
    let title = Title::of(solved.title.as_deref(), row / em);
    let threads = threads(solved, stitching);
    let bobbins = stitching.map(|stitching| bobbin_changes(solved, stitching));
    let bobbins = bobbins.transpose()?.unwrap_or_default();
    let below = Legend::of(solved, stitching, &bobbins, row / em);
    let box_with = |head: f64, foot: f64| {
        let [x, y] = [min.x - margin, min.y - margin - head].map(|mm| canvas.grid(mm));
        let w = canvas.grid(canvas.bounds.width() + 2.0 * margin);
        [x, y, w, canvas.grid(max.y + margin + foot) - y]
    };
    let view = box_with(title.height() * em, below.rows() * ROW * em);
    let [x, y, w, h] = view;
    let left = min.x - margin + em;
    let mut parts = Vec::with_capacity(3 * solved.pieces.len() + 12);
    let mut put = |key: &str, markup: Markup| {
        let part = PicturePart::new(key, markup);
        if !part.markup.is_empty() {
            parts.push(part);
        }
    };
    put(
        "back",
        html! { rect class="back" x=(x) y=(y) width=(w) height=(h) {} },
    );
    put("title", title.draw(&canvas, [canvas.grid(left), y]));
    put("cloth", canvas.cloth(solved));
    put("measures", measures(&canvas, solved));
    for (key, markup) in lines(&canvas, solved, true) {
        put(&key, markup);
    }
    put(
        "numbers",
        signs::piece_numbers(&canvas, solved, &numbers(solved, stitching), &threads),
    );
    put(
        "ends",
        html! { @for (line, closed) in &threads { (thread_ends(&canvas, line, *closed)) } },
    );
    put("bobbins", signs::bobbin_changes(&canvas, &bobbins));
    put(
        "marks",
        html! { @for finding in &solved.findings { (mark(&canvas, solved, finding)) } },
    );
    put(
        "legend",
        below.draw(&canvas, Point::new(left, max.y + margin)),
    );
    Ok(PictureParts {
        view,
        quilt: box_with(0.0, 0.0),
        step: canvas.step,
        letters: canvas.grid(em),
        pixel: w as f64 / WIDE,
        parts,
    })
}

/// A triangle at the place of a warning or an error.
fn mark(canvas: &Canvas, solved: &Solved, finding: &Finding) -> Markup {
    let at = finding
        .place()
        .filter(|_| finding.severity > Severity::Note);
    html! {
        @if let Some(at) = at {
            g {
                (signs::triangle(canvas, at))
                title { (xml_text(&words::finding(finding, solved))) }
            }
        }
    }
}
