//! Paper to draw a motif on, as one page to print at true size.
//!
//! All places come from `raster::Blank`, by which the picture of the page is read again. What is
//! printed within the band is pale blue, too pale to be taken for ink; marks and code are black,
//! and words stand outside the marks.

use maud::{Markup, html};

use super::ink::Mm;
use crate::error::{Error, PaperFault};
use crate::geom::Point;
use crate::io::html::{self, Head};
use crate::io::paper::{Paper, Sheet};
use crate::raster::{Blank, BlankKind, CELL_MM, CELLS, MARK_MM, RING_MM, cell_middle, cell_share};
use crate::units::Unit;

/// Pale enough to stay paper: an eighth darker than white in grey, while ink is a fifth darker or
/// more.
const PALE: &str = "#cfe4f7";

/// Room above and below the middles of the marks, for half a mark and words, and beside them.
const ABOVE_MM: f64 = 10.0;
const BELOW_MM: f64 = 17.5;
const BESIDE_MM: f64 = 5.0;

const STYLE: &str = "\
@media print{main>header{display:none}}
figure{margin:0}figure svg{background:#fff}
";

/// Writes a page to draw this motif on at the end of `out`, as one HTML page that loads nothing;
/// gives how its paper lies.
///
/// ```
/// use quiltpath_core::io::{paper::Paper, template::write_blank};
/// use quiltpath_core::{raster::{Blank, BlankKind}, units::Unit};
///
/// let blank = Blank::new(BlankKind::Repeat, 127.0, 203.2)?;
/// let mut page = String::new();
/// let sheet = write_blank(&mut page, Unit::In, &blank, Paper::Letter)?;
/// assert!(sheet.sideways && page.contains("5 in deep"));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A paper error when the motif doesn't fit on one sheet; then nothing is written.
pub fn write_blank(
    out: &mut String,
    unit: Unit,
    blank: &Blank,
    paper: Paper,
) -> Result<Sheet, Error> {
    let [width, height] = blank.marks_apart();
    let whole = [width + 2.0 * BESIDE_MM, ABOVE_MM + height + BELOW_MM];
    let ways = [false, true].map(|sideways| Sheet::new(paper, sideways));
    let room = |sheet: &Sheet| {
        let [width, height] = sheet.inside_mm();
        // The last millimetre keeps rounding from making a second page.
        [width, height - 1.0]
    };
    let fits = |sheet: &&Sheet| {
        room(sheet)
            .iter()
            .zip(whole)
            .all(|(room, takes)| takes <= *room)
    };
    let Some(&sheet) = ways.iter().find(fits) else {
        let size = blank.size();
        let about = [whole[0] - size[0], whole[1] - size[1]];
        let accepted = ways.each_ref().map(|sheet| {
            let [wide, high] = room(sheet);
            [wide - about[0], high - about[1]]
        });
        return Err(PaperFault::BlankTooLarge {
            size,
            paper: paper.name(),
            accepted,
        }
        .into());
    };
    let size = |mm: f64| unit.readable(mm);
    let long = match blank.kind() {
        BlankKind::Repeat => format!("{} long", size(blank.length_mm())),
        BlankKind::Corner => format!("{} wide and high", size(blank.length_mm())),
    };
    let deep = size(blank.depth_mm());
    let title = format!("{}: {deep} deep, {long}", blank.kind().name());
    let head = Head {
        title: &title,
        sheet: Some(sheet),
        script: None,
        style: STYLE,
    };
    let body = html! {
        main {
            header {
                h1 { "Paper to draw a " (blank.kind().name()) " on" }
                p { "Print this page at 100 %, not fitted to the paper. Draw in the band with a dark pen, then photograph or scan the sheet with all four marks on it." }
            }
            figure { (drawing(blank, whole, &title)) }
        }
    };
    out.push_str(&html::page(&head, &body));
    Ok(sheet)
}

fn drawing(blank: &Blank, [width, height]: [f64; 2], title: &str) -> Markup {
    let [left, top] = [-BESIDE_MM, -ABOVE_MM];
    let below = height + top;
    // No line is longer than the narrowest paper is wide between its marks.
    let words = [
        "Print at 100 %. Draw in the band with a dark pen.",
        "Pale blue: the band, and where the line comes in and goes out.",
        match blank.kind() {
            BlankKind::Repeat => "The ring is at the top left. The outer edge is at the top.",
            BlankKind::Corner => "The ring is at the top left. The outer edges: top and right.",
        },
    ];
    html! {
        svg role="img" aria-label="The band to draw in, with four marks around it"
            xmlns="http://www.w3.org/2000/svg" width={ (Mm(width)) "mm" } height={ (Mm(height)) "mm" }
            viewBox={ (Mm(left)) " " (Mm(top)) " " (Mm(width)) " " (Mm(height)) } {
            (guides(blank))
            (marks(blank))
            (code(blank))
            text x="7" y="-6" font-size="3.6" fill="#222" { (title) }
            g font-size="3.2" fill="#333" {
                @for (line, words) in words.into_iter().enumerate() {
                    text x="-4" y=(Mm(below - 10.0 + 4.2 * line as f64)) { (words) }
                }
            }
        }
    }
}

fn guides(blank: &Blank) -> Markup {
    let [from, to] = blank.ports();
    html! {
        g fill="none" stroke=(PALE) stroke-width="0.35" {
            path d={ (data(&blank.outline())) "Z" } {}
            path d=(data(&blank.way())) stroke-dasharray="3 2" {}
            @for port in [from, to] {
                circle cx=(Mm(port.x)) cy=(Mm(port.y)) r="1.6" {}
            }
        }
    }
}

fn marks(blank: &Blank) -> Markup {
    let [ring, squares @ ..] = blank.marks();
    let [outer, inner] = RING_MM;
    let (radius, wide) = ((outer + inner) / 4.0, (outer - inner) / 2.0);
    let half = MARK_MM / 2.0;
    html! {
        circle cx=(Mm(ring.x)) cy=(Mm(ring.y)) r=(radius) fill="none" stroke="#000" stroke-width=(wide) {}
        g fill="#000" {
            @for square in squares {
                rect x=(Mm(square.x - half)) y=(Mm(square.y - half)) width=(MARK_MM) height=(MARK_MM) {}
            }
        }
    }
}

fn code(blank: &Blank) -> Markup {
    let [width, height] = blank.marks_apart();
    let cells = blank.code();
    // Black cells side by side are one bar, without hair lines between them.
    let mut bars: Vec<[usize; 2]> = Vec::new();
    for cell in (0..CELLS).filter(|&cell| cells[cell]) {
        match bars.last_mut() {
            Some(bar) if bar[1] == cell => bar[1] += 1,
            _ => bars.push([cell, cell + 1]),
        }
    }
    let at = |cell: usize| (cell_middle(cell) - cell_share() / 2.0) * width;
    html! {
        g fill="#000" {
            @for [from, to] in bars {
                rect x=(Mm(at(from))) y=(Mm(height - CELL_MM / 2.0)) width=(Mm(at(to) - at(from))) height=(CELL_MM) {}
            }
        }
    }
}

fn data(points: &[Point]) -> String {
    let each = points.iter().enumerate().map(|(at, point)| {
        let command = if at == 0 { 'M' } else { 'L' };
        format!("{command}{} {}", point.x, point.y)
    });
    each.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_fits_no_sheet_is_refused_with_what_does() {
        let mut page = String::new();
        let wide = Blank::new(BlankKind::Repeat, 127.0, 300.0).expect("a blank");
        let error = write_blank(&mut page, Unit::In, &wide, Paper::Letter).expect_err("too wide");
        assert!(page.is_empty() && error.is_paper());
        let words = error.in_unit(Unit::In).to_string();
        assert!(
            words.contains("11 13/16 in") && words.contains("9 "),
            "{words}"
        );
        for (paper, kind, depth, length) in [
            (Paper::Letter, BlankKind::Repeat, 127.0, 203.2),
            (Paper::A4, BlankKind::Corner, 60.0, 150.0),
            (Paper::A4, BlankKind::Repeat, 20.0, 60.0),
        ] {
            let blank = Blank::new(kind, depth, length).expect("a blank");
            let mut page = String::new();
            write_blank(&mut page, Unit::Mm, &blank, paper).expect("it fits");
            assert!(page.contains("<circle") && page.ends_with("</html>\n"));
        }
    }
}
