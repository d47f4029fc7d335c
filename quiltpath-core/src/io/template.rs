//! A paper template: a piece at true size over as many sheets as it takes, as one page to print.
//!
//! The first page explains how to print, measure and lay the sheets; each sheet shows one tile of
//! the piece, with marks that fall on the same place of the piece on both sheets that share them. A
//! sheet is cut on its right and its lower seam and laid on the next one, so that the halves of the
//! marks meet. Lines are written in steps of 0.01 mm, half a dot at 1200 dots per inch; one
//! millimetre of the piece is one CSS millimetre (CSS Values 4: 1in = 2.54cm = 25.4mm).

mod blank;
mod cloth;
mod cover;
mod ink;
mod leaf;
mod piece;
mod tiling;

use maud::html;

pub use self::blank::write_blank;
pub use self::cloth::{ClothLine, ClothLineKind};
use self::ink::Mm;
use self::piece::Piece;
use super::html::{self, Head, shortened};
use super::paper::{Paper, Sheet};
use crate::error::Error;
use crate::geom::Polyline;
use crate::motif::Motif;
use crate::units::Unit;

const STYLE: &str = "\
.line,.way,.mark{fill:none;stroke:var(--ink);stroke-width:.5;stroke-linejoin:round;stroke-linecap:round}
.bounds{stroke:var(--ink);stroke-width:.2;stroke-dasharray:5 2}.fine{stroke:var(--ink);stroke-width:.2}
.cut{stroke-dasharray:1.5 1.5}.seam,.edge{fill:none;stroke:var(--ink);stroke-width:.4}.edge{stroke-dasharray:9 2.5}.seam{stroke-dasharray:7 1.5 1 1.5}.start,.end{stroke:var(--ink);stroke-width:.7}
.head{fill:var(--ink);stroke:none}.here{fill:var(--ink)}.over{fill:var(--paper)}.thin{stroke-width:.2}
.word{paint-order:stroke;stroke:var(--paper);stroke-width:1}
.big{font-size:8px;font-weight:bold}.text{font-size:3.2px}.small{font-size:3.2px}.middle{text-anchor:middle}.after{text-anchor:end}
table{border-collapse:collapse}th,td{border:1px solid var(--soft);padding:.15em .5em;text-align:right;white-space:nowrap}
th[scope=row]{text-align:left}figure{margin:0}
.key{display:inline-block;vertical-align:middle}
.cover{display:grid;gap:0 2rem;grid-template-columns:repeat(auto-fit,minmax(min(100%,20rem),1fr))}
@media screen{.leaves{display:grid;gap:1.5rem;grid-template-columns:repeat(auto-fill,minmax(min(100%,22rem),1fr))}
.leaf{background:var(--paper);border:1px solid var(--soft);padding:1rem;width:100%}}
@media print{.cover{grid-template-columns:1fr 1fr;gap:0 8mm}.leaf-name,#sheets{display:none}
.leaves figure{break-before:page;break-inside:avoid}}
";

/// How a template came out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Template {
    /// The paper and which way it is turned.
    pub sheet: Sheet,
    /// How many rows of sheets lie below each other.
    pub rows: usize,
    /// How many columns of sheets lie beside each other.
    pub columns: usize,
    /// How many sheets carry a part of the piece; the page with the words comes before them.
    pub sheets: usize,
}

/// Writes a template of these lines at the end of `out`, as one HTML page that loads nothing.
///
/// The lines lie together as one piece, in `unit`, x to the right, y down; each gets a mark at its
/// start, with its direction, and one at its end. The paper is turned whichever way takes fewer
/// sheets; a tile that no line enters gets none. [`write_template_on_cloth`] also shows where the
/// cloth's edge and seams run.
///
/// ```
/// use quiltpath_core::io::{paper::Paper, template::write_template};
/// use quiltpath_core::{geom::Point, motif::Motif, units::Unit};
///
/// let stem = Motif::from_points("stem", vec![Point::new(0.0, 0.0), Point::new(13.5, 4.0)])?;
/// let mut page = String::new();
/// let template = write_template(&mut page, Unit::In, "stem", &[stem], Paper::Letter)?;
/// assert_eq!((template.rows, template.columns, template.sheets), (1, 2, 2));
/// assert!(page.contains("13 1/2 in x 4 in"));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A drawing error without a line, a geometry error that names the line when it goes beyond the
/// coordinates accepted, a paper error when the piece would take more than 400 sheets. Then
/// nothing is written.
///
/// # Complexity
///
/// O(points · (rows + columns)) time; the page has each place of a line once, or up to four times
/// where sheets overlap.
pub fn write_template(
    out: &mut String,
    unit: Unit,
    name: &str,
    lines: &[Motif],
    paper: Paper,
) -> Result<Template, Error> {
    write_template_on_cloth(out, unit, name, lines, &[], paper)
}

/// Writes a template of these lines as [`write_template`] does, with the raw edge and the seams
/// that run beside them, so that the paper can be laid to the cloth.
///
/// `cloth` is in `unit`, in the same place as the lines. What of it lies within about 4 in (100 mm)
/// of the box that holds the lines is shown, as far along as the piece reaches, and named where its
/// name crosses no line.
///
/// ```
/// use quiltpath_core::io::paper::Paper;
/// use quiltpath_core::io::template::{ClothLine, ClothLineKind, write_template_on_cloth};
/// use quiltpath_core::{geom::Point, motif::Motif, units::Unit};
///
/// let stem = Motif::from_points("stem", vec![Point::new(8.0, 3.0), Point::new(15.0, 4.0)])?;
/// let corners = [(0.0, 0.0), (60.0, 0.0), (60.0, 80.0), (0.0, 80.0)];
/// let edge = ClothLine {
///     kind: ClothLineKind::RawEdge,
///     corners: corners.map(|(x, y)| Point::new(x, y)).to_vec(),
/// };
/// let mut page = String::new();
/// write_template_on_cloth(&mut page, Unit::In, "stem", &[stem], &[edge], Paper::Letter)?;
/// assert!(page.contains(">raw edge<"));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`write_template`]; a geometry error for a line of the cloth that has no length.
///
/// # Complexity
///
/// As [`write_template`].
pub fn write_template_on_cloth(
    out: &mut String,
    unit: Unit,
    name: &str,
    lines: &[Motif],
    cloth: &[ClothLine],
    paper: Paper,
) -> Result<Template, Error> {
    let piece = Piece::of(unit, name, lines, cloth)?;
    let stretches: Vec<Polyline> = piece.cloth.iter().map(|(_, line)| line.clone()).collect();
    let (grid, leaves) = tiling::lay(&piece.lines, &stretches, piece.shown, paper, unit)?;
    let title = format!("{}: paper template", shortened(name, 120));
    // The first page stays one page, whatever fonts make of its words.
    let [_, height] = grid.sheet.inside_mm();
    let rule = format!(
        "@media print{{main>header,.cover{{break-inside:avoid}}.page{{height:{}mm;overflow:hidden}}}}\n",
        Mm(height - 1.0)
    );
    let head = Head {
        title: &title,
        sheet: Some(grid.sheet),
        script: None,
        style: &[STYLE, &rule].concat(),
    };
    let body = html! {
        main {
            div.page { (cover::page(&piece, &grid, &leaves)) }
            h2 id="sheets" { "Sheets" }
            div.leaves { (leaf::all(&piece, &grid, &leaves)) }
        }
    };
    out.push_str(&html::page(&head, &body));
    Ok(Template {
        sheet: grid.sheet,
        rows: grid.rows,
        columns: grid.columns,
        sheets: leaves.len(),
    })
}

#[cfg(test)]
mod tests;
