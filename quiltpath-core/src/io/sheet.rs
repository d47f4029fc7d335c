//! The placement sheet of a plan: where each piece goes, in which order, and what it all takes.
//!
//! One HTML file that loads nothing. All of it stands in the page itself, so it can be read and
//! printed where scripts are off; the script adds zoom, lights pieces up and plays the order of
//! stitching. The line of each piece is written once, in the picture of the quilt; the small
//! pictures refer to it. Numbers carry the ones of `result.json` with them: `data-key` is the way
//! to a number there, `value` the number itself.

mod cards;
mod check;
mod figure;
mod page;
mod pass_page;
mod passes;
mod thumb;
mod words;

use maud::html;

use self::page::Page;
use super::html::{self, Head, shortened};
use crate::error::Error;
use crate::plan::{Solved, Stitching, check_whole};

const STYLE: &str = include_str!("sheet/sheet.css");

const SCRIPT: &str = include_str!("sheet/sheet.js");

/// Writes the placement sheet of a plan as one HTML page that loads nothing.
///
/// Lengths read in the plan's unit, to the nearest 1/16 in or 0.5 mm, with the exact number beside
/// them in the page's data. It prints on any paper.
///
/// ```
/// use quiltpath_core::io::{json::read_plan, sheet::write_sheet};
/// use quiltpath_core::motif::Motif;
/// use quiltpath_core::plan::{solve, stitch_plan};
/// use quiltpath_core::geom::Point;
///
/// let plan = r#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#;
/// let plan = read_plan(plan.as_bytes())?;
/// let solved = solve(&plan, |_| {
///     let points = [(0, 5), (5, 0), (10, 5), (15, 10), (20, 5)];
///     let points = points.map(|(x, y)| Point::new(f64::from(x), f64::from(y)));
///     Ok(Motif::from_points("wave", points.to_vec())?.into())
/// })?;
/// let page = write_sheet(&solved, &stitch_plan(&plan, &solved)?)?;
/// assert!(page.contains("border-side-top"));
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
pub fn write_sheet(solved: &Solved, stitching: &Stitching) -> Result<String, Error> {
    check_whole(solved, Some(stitching))?;
    let page = Page::of(solved, stitching)?;
    let title = solved.title.as_deref().unwrap_or("Quilt plan");
    let body = html! {
        (words::header(&page, title))
        main data-plan=(page.mark()) {
            div.show { (figure::section(&page)) }
            div.read {
                (words::totals(&page))
                (words::findings(&page))
                (words::cautions())
                (passes::section(&page))
                (cards::section(&page))
            }
        }
    };
    let head = Head {
        title: &format!("{}: placement sheet", shortened(title, 120)),
        sheet: None,
        script: Some(SCRIPT),
        style: STYLE,
    };
    Ok(html::page(&head, &body))
}

#[cfg(all(test, feature = "json"))]
mod tests;
