//! The picture of a solved plan: quilt, borders, bands and every piece in its place, as SVG.
//!
//! Colours are from a published palette for colour-blind readers (Okabe and Ito, 2008; from
//! memory) and differ in lightness too.

use maud::{Markup, PreEscaped, html};

use super::canvas::{Canvas, kind_of};
use super::numbers::numbers;
use super::svg_write::xml_text;
use crate::error::Error;
use crate::geom::{Bounds, Point, Vector};
use crate::io::words::{self, counted};
use crate::plan::{Finding, PieceKind, Severity, Solved, Stitching, check_whole};

const CORNER: &str = "#0072b2";
const SIDE: &str = "#1a1a1a";
const LINK: &str = "#d55e00";
const START: &str = "#009e73";

/// The longer side of the quilt is so many letters high.
const LETTERS: f64 = 55.0;

/// Writes the picture of a solved plan as a self-contained SVG, 960 px wide.
///
/// Pieces are `<path>` elements with their name as `id` and a `<title>`; a legend stands below. With
/// the stitching pieces are numbered in its order, without it as listed.
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
    check_whole(solved, stitching)?;
    let canvas = Canvas::of(solved, LETTERS);
    let Bounds { min, .. } = canvas.bounds;
    let size = [canvas.bounds.width(), canvas.bounds.height()];
    let margin = 1.5 * canvas.em;
    let [x, y] = [min.x - margin, min.y - margin].map(|mm| canvas.grid(mm));
    let w = canvas.grid(size[0] + 2.0 * margin);
    let h = canvas.grid(size[1] + 2.0 * margin + 3.5 * canvas.em);
    let [width, height] = size.map(|mm| solved.unit.readable(mm));
    let picture = html! {
        svg xmlns="http://www.w3.org/2000/svg" width="960" viewBox=(format!("{x} {y} {w} {h}")) role="img" {
            title { (xml_text(solved.title.as_deref().unwrap_or("Quilt plan"))) }
            desc { "A quilt of " (width) " by " (height) " with its borders and the line to be stitched on them." }
            style { (PreEscaped(style(&canvas))) }
            rect class="back" x=(x) y=(y) width=(w) height=(h) {}
            (canvas.cloth(solved))
            @for piece in &solved.pieces {
                path class=(piece.kind.name()) id=(piece.name) d=(canvas.line(piece.motif().points())) {
                    title { (piece.name) ": " (kind_of(&piece.kind)) }
                }
            }
            (piece_numbers(&canvas, solved, &numbers(solved, stitching)))
            @for path in &solved.paths {
                @let start = path.motif.start();
                (arrow(&canvas, start.point, start.direction))
            }
            @for finding in &solved.findings { (mark(&canvas, solved, finding)) }
            (legend(&canvas, solved))
        }
    };
    let mut out = picture.into_string();
    out.push('\n');
    Ok(out)
}

fn style(canvas: &Canvas) -> String {
    let line = canvas.grid(canvas.em / 18.0).max(1);
    let (seam, dash, em) = (line * 4 / 3, line * 6, canvas.grid(canvas.em));
    format!(
        "\n.back{{fill:#fff}}.cloth{{fill:#f4efe6}}.border{{fill:#e6dcc8}}.seam{{fill:none;stroke:#8a7a5c;stroke-width:{seam}}}\n\
         .band{{fill:none;stroke:#8a7a5c;stroke-width:{seam};stroke-dasharray:{dash} {dash}}}\n\
         .corner,.side,.link{{fill:none;stroke-width:{line};stroke-linejoin:round;stroke-linecap:round}}\n\
         .corner{{stroke:{CORNER}}}.side{{stroke:{SIDE}}}.link{{stroke:{LINK}}}\n\
         .start{{fill:{START}}}.mark{{fill:none;stroke:{LINK};stroke-width:{line}}}\n\
         text{{font-family:sans-serif;font-size:{em}px;fill:#1a1a1a}}.number{{text-anchor:middle;dominant-baseline:central}}\n"
    )
}

/// The number of each piece, in stitching order, just inside its border.
fn piece_numbers(canvas: &Canvas, solved: &Solved, numbers: &[usize]) -> Markup {
    let numbered = solved.pieces.iter().zip(numbers);
    let numbered = numbered.filter(|(piece, _)| !matches!(piece.kind, PieceKind::Link(_)));
    html! {
        @for (piece, number) in numbered {
            @let at = canvas.number_place(&solved.layouts[piece.border].band, &piece.kind);
            text class="number" x=(canvas.grid(at.x)) y=(canvas.grid(at.y)) { (number) }
        }
    }
}

/// A filled arrow head from this point in this direction.
fn arrow(canvas: &Canvas, from: Point, direction: Vector) -> Markup {
    let (ahead, aside) = (
        direction * canvas.em,
        Vector::new(-direction.y, direction.x) * (canvas.em * 0.4),
    );
    let corners =
        [from + ahead, from + aside, from - aside].map(|p| (canvas.grid(p.x), canvas.grid(p.y)));
    let [(a, b), (c, d), (e, f)] = corners;
    html! {
        path class="start" d=(format!("M{a} {b}L{c} {d} {e} {f}Z")) { title { "start" } }
    }
}

/// A ring round the place of a warning or an error.
fn mark(canvas: &Canvas, solved: &Solved, finding: &Finding) -> Markup {
    let at = finding
        .place()
        .filter(|_| finding.severity > Severity::Note);
    html! {
        @if let Some(at) = at {
            circle class="mark" cx=(canvas.grid(at.x)) cy=(canvas.grid(at.y)) r=(canvas.grid(canvas.em)) {
                title { (xml_text(&words::finding(finding, solved))) }
            }
        }
    }
}

fn legend(canvas: &Canvas, solved: &Solved) -> Markup {
    let (em, grid) = (canvas.em, |mm| canvas.grid(mm));
    let (edge, top) = (canvas.bounds.min.x, canvas.bounds.max.y + 2.6 * em);
    let has = |wanted: &str| {
        solved
            .pieces
            .iter()
            .any(|piece| piece.kind.name() == wanted)
    };
    let rows = [
        ("corner", "corner", has("corner")),
        ("side", "side", true),
        ("link", "link", has("link")),
        ("band", "limits of the band", true),
        ("seam", "edge and seam", true),
    ];
    let mut left = edge;
    let shown: Vec<(&str, &str, f64)> = rows
        .into_iter()
        .filter(|(_, _, shown)| *shown)
        .map(|(class, label, _)| {
            let at = left;
            left += em * (3.6 + 0.55 * label.len() as f64);
            (class, label, at)
        })
        .collect();
    html! {
        @for (class, label, left) in shown {
            path class=(class) d=(format!("M{} {}h{}", grid(left), grid(top), grid(2.0 * em))) {}
            text x=(grid(left) + grid(2.4 * em)) y=(grid(top + 0.35 * em)) { (label) }
        }
        (arrow(canvas, Point::new(left, top), Vector::new(1.0, 0.0)))
        text x=(grid(left + 1.4 * em)) y=(grid(top + 0.35 * em)) { "start" }
        text x=(grid(edge)) y=(grid(top + 1.9 * em)) {
            (counted(solved.pieces.len(), "piece")) ", "
            (counted(solved.thread_cuts(), "thread cut")) ", "
            (solved.unit.readable_line(solved.length())) " of line"
        }
    }
}
