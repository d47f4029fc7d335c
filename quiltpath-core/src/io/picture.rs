//! The picture of a solved plan: quilt, borders, bands, every piece in its place and its measures,
//! as SVG.
//!
//! It is made of parts, each with a key that stays the same while the plan is changed, so that a
//! page which shows the picture replaces only the parts that differ.

mod bare;
mod legend;
mod lines;
mod parts;
mod title;

pub(in crate::io) use bare::bare_picture;
pub use parts::{PicturePart, PictureParts, picture_parts};

use maud::{PreEscaped, html};

use super::look;
use super::svg_write::xml_text;
use crate::error::Error;
use crate::plan::{Solved, Stitching};
use title::TITLE;

/// The longer side of the quilt is so many letters high.
const LETTERS: f64 = 46.0;

/// Writes the picture of a solved plan as a self-contained SVG, 960 px wide.
///
/// Pieces are `<path>` elements with their name as `id` and a `<title>`; a legend stands below.
/// With the stitching pieces are numbered in its order, and threads start and end where its runs
/// do; without it pieces are numbered as listed, and each path is a thread.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::io::{json::read_plan, picture::write_picture};
/// use quiltpath_core::plan::solve;
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let svg = write_picture(&solve(&plan, wave)?, None)?;
/// assert!(svg.contains(r#"id="border-side-top""#));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A plan error when the solved plan or its stitching refers to a border, a piece or a run that is
/// not there, as none does that [`crate::plan::solve()`] returns.
///
/// # Complexity
///
/// O(points).
pub fn write_picture(solved: &Solved, stitching: Option<&Stitching>) -> Result<String, Error> {
    let PictureParts {
        view: [x, y, w, h],
        letters,
        pixel,
        parts,
        ..
    } = picture_parts(solved, stitching, LETTERS)?;
    let title = solved.title.as_deref().map(xml_text);
    let [width, height] =
        [solved.bounds().width(), solved.bounds().height()].map(|mm| solved.unit.readable(mm));
    let large = (TITLE * letters as f64).round();
    let style = format!(
        "\n.back{{fill:#fdfbf5}}\n{}text{{font-size:{letters}px}}.head{{font-size:{large}px}}\n",
        look::plain(pixel)
    );
    let picture = html! {
        svg xmlns="http://www.w3.org/2000/svg" width="960" viewBox=(format!("{x} {y} {w} {h}")) role="img" {
            title { (title.as_deref().unwrap_or("Quilt plan")) }
            desc { "A quilt of " (width) " by " (height) " with its borders and the line to be stitched on them." }
            style { (PreEscaped(style)) }
            @for part in &parts { (PreEscaped(&part.markup)) }
        }
    };
    let mut out = picture.into_string();
    out.push('\n');
    Ok(out)
}

#[cfg(test)]
mod tests;
