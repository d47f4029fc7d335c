//! The picture of a plan without measures, numbers and the machine's signs: cloth and lines alone,
//! for a page that shows several plans.

use maud::{Markup, html};

use super::lines::lines;
use crate::error::Error;
use crate::io::canvas::Canvas;
use crate::plan::{Solved, check_whole};

/// The longer side of the quilt is so many pixels long where the picture is as large as meant.
const LONG: f64 = 420.0;

/// The letters that nothing is written in; the grid doesn't depend on them.
const LETTERS: f64 = 46.0;

/// Room round the quilt for half of a line, in pixels.
const MARGIN: f64 = 2.0;

/// The quilt with its lines, as an `svg` in a page that has the signs of [`crate::io::look`].
pub(in crate::io) fn bare_picture(solved: &Solved, label: &str) -> Result<Markup, Error> {
    check_whole(solved, None)?;
    let canvas = Canvas::of(solved, LETTERS);
    let (bounds, step) = (canvas.bounds, canvas.step);
    let pixel = bounds.width().max(bounds.height()) / LONG;
    let margin = MARGIN * pixel;
    let [x, y] = [bounds.min.x, bounds.min.y].map(|mm| canvas.grid(mm - margin));
    let [w, h] = [bounds.width(), bounds.height()].map(|mm| canvas.grid(mm + 2.0 * margin));
    Ok(html! {
        svg.bare role="img" aria-label=(label) viewBox=(format!("{x} {y} {w} {h}"))
            style=(format!("--px:{:.1}", pixel / step)) {
            (canvas.cloth(solved))
            @for (_, line) in lines(&canvas, solved, false) { (line) }
        }
    })
}
