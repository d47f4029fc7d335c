//! The first page of a template: how to print it, squares to measure, how the sheets lie.

use maud::{Markup, html};

use super::cloth::ClothLineKind;
use super::ink::{Mm, WORD, line, name, row_name};
use super::piece::Piece;
use super::tiling::{Grid, OVERLAP_MM, Tile};
use crate::geom::{Point, Polyline, Vector};
use crate::io::fraction::set;
use crate::io::html::shortened;
use crate::io::words::{counted, line_both};
use crate::units::Unit;

/// The box that the overview fits into, in millimetres.
const OVERVIEW: [f64; 2] = [84.0, 78.0];

/// Points of the overview that are closer than this are one, in millimetres.
const COARSE: f64 = 0.1;

pub(super) fn page(piece: &Piece<'_>, grid: &Grid, tiles: &[Tile]) -> Markup {
    html! {
        header {
            h1 { (shortened(piece.name, 60)) ": paper template" }
            p {
                "True size " (set(&piece.readable_size())) ", on " (counted(tiles.len(), "sheet")) " of "
                (grid.sheet.paper.name()) " paper, " (turned(grid)) "."
            }
        }
        div.cover {
            div {
                (steps(piece, grid, tiles))
                (caution())
            }
            div {
                (squares())
                (measures(piece))
                @if tiles.len() > 1 { (overview(piece, grid, tiles)) }
            }
        }
    }
}

fn turned(grid: &Grid) -> &'static str {
    if grid.sheet.sideways {
        "sideways"
    } else {
        "upright"
    }
}

fn steps(piece: &Piece<'_>, grid: &Grid, tiles: &[Tile]) -> Markup {
    html! {
        h2 { "How to print and lay it" }
        ol {
            li {
                "Print at 100 % (actual size) on " (grid.sheet.paper.name()) " paper, " (turned(grid))
                ", on one side. Don't fit to page, don't shrink."
            }
            li {
                "Print this page first and measure the squares. If they are off, change the "
                "printer's settings and print it again."
            }
            @if tiles.len() > 1 {
                li {
                    "Print the sheets. Neighbours share a strip of " (set(&Unit::In.readable(OVERLAP_MM)))
                    " (" (OVERLAP_MM) " mm) with a line in its middle."
                }
                li {
                    "Cut each sheet on its thin dashed lines, right and below. Lay the cut on the line "
                    "of the next sheet, so that the halves of the round marks meet, and tape it down."
                }
            } @else {
                li { "Print the sheet." }
            }
            li {
                "Measure the dashed box round the piece: it has to be " (set(&piece.readable_size()))
                ". Short lines mark the middle of each side."
            }
            @if !piece.cloth.is_empty() { li { (laid(piece)) } }
        }
        p {
            "The ring with the arrow is where the line starts and which way it runs; the "
            "square is where it ends. The open arrow on each sheet shows the way there."
        }
    }
}

/// How paper is laid to the cloth by the edge and the seams on it.
fn laid(piece: &Piece<'_>) -> Markup {
    let mut kinds: Vec<ClothLineKind> = Vec::new();
    for (kind, _) in &piece.cloth {
        if !kinds.contains(kind) {
            kinds.push(*kind);
        }
    }
    html! {
        "Lay the paper to the cloth by the lines beside the piece: "
        @for (at, kind) in kinds.iter().enumerate() {
            @if at > 0 { " and " }
            svg.key role="img" aria-label="this line" width="21mm" height="1mm" viewBox="0 0 21 1" {
                path class=(kind.class()) d="M0,.5H21" {}
            }
            " the " (kind.words())
        }
        ". Measure them on the cloth first; cloth gives."
    }
}

fn caution() -> Markup {
    html! {
        h2 { "Before you stitch" }
        p {
            "A template shows where the line lies; it is no reason to skip the trial run. Stop the "
            "machine before you lay paper on the cloth or reach in. Take paper, pins and tape away, "
            "then trace the path without stitching, and stay at the machine while it runs. The "
            "machine's manual comes first."
        }
    }
}

fn squares() -> Markup {
    html! {
        h2 { "Squares to measure" }
        p { "On paper, from line to line; a screen shows them at any size." }
        svg role="img" aria-label="Two squares: 1 inch and 25 millimetres a side"
            width="58mm" height="27mm" viewBox="0 0 58 27" {
            rect.fine x=".5" y=".5" width="25.4" height="25.4" {}
            text class="text middle" x="13.2" y="14.3" { "1 in" }
            rect.fine x="32" y=".5" width="25" height="25" {}
            text class="text middle" x="44.5" y="14.3" { "25 mm" }
        }
    }
}

fn measures(piece: &Piece<'_>) -> Markup {
    let size = [piece.size.x, piece.size.y];
    let rows = [
        ("1/16 in", size.map(|mm| Unit::In.readable(mm))),
        ("in", size.map(|mm| format!("{:.4}", mm / Unit::In.in_mm()))),
        ("mm", size.map(|mm| format!("{mm:.3}"))),
    ];
    let length: f64 = piece.lines.iter().map(Polyline::length).sum();
    html! {
        h2 { "Measures of the piece" }
        table {
            tr { th scope="col" { "unit" } th scope="col" { "width" } th scope="col" { "height" } }
            @for (unit, [width, height]) in rows {
                tr { th scope="row" { (unit) } td { (set(&width)) } td { (set(&height)) } }
            }
        }
        p { (set(&line_both(piece.unit, length))) " of line." }
    }
}

fn overview(piece: &Piece<'_>, grid: &Grid, tiles: &[Tile]) -> Markup {
    let whole = grid.whole();
    let scale = (OVERVIEW[0] / whole.width()).min(OVERVIEW[1] / whole.height());
    let to = |point: Point| Point::from((point - whole.min) * scale);
    let size = to(whole.max);
    let (width, height) = (Mm(size.x + 1.0), Mm(size.y + 1.0));
    let rows = match grid.rows {
        1 => "1 row, A".to_owned(),
        rows => format!("{rows} rows, A to {} from the top", row_name(rows - 1)),
    };
    let columns = match grid.columns {
        1 => "1 column, 1".to_owned(),
        columns => format!("{columns} columns, 1 to {columns} from the left"),
    };
    let cells: Vec<(&Tile, Point, Point)> = tiles
        .iter()
        .map(|tile| {
            let cell = grid.cell(tile.row, tile.column);
            (tile, to(cell.min), to(cell.max))
        })
        .collect();
    html! {
        h2 { "How the sheets lie" }
        p {
            (rows) "; " (columns) "."
            @if tiles.len() < grid.rows * grid.columns {
                " Places without a name need no sheet: no line comes there."
            }
        }
        svg role="img" aria-label="The sheets laid together, with the line of the piece on them"
            width={ (width) "mm" } height={ (height) "mm" } viewBox={ "-.5 -.5 " (width) " " (height) } {
            @for (_, min, max) in &cells {
                rect class="fine over" x=(Mm(min.x)) y=(Mm(min.y)) width=(Mm(max.x - min.x)) height=(Mm(max.y - min.y)) {}
            }
            @for piece_line in &piece.lines { (line("line thin", &coarse(piece_line, to))) }
            @for (tile, min, max) in &cells {
                @let name = name(tile.row, tile.column);
                @let at = nalgebra::center(min, max);
                @if let Some(high) = high(&name, *max - *min) {
                    text class="word middle" font-size=(Mm(high)) x=(Mm(at.x)) y=(Mm(at.y + 0.35 * high)) {
                        (name)
                    }
                }
            }
        }
    }
}

/// How high the name of a sheet is on its place in the overview, in millimetres; none where the
/// place is too small for letters of 9 points.
fn high(name: &str, place: Vector) -> Option<f64> {
    // A letter is about 0.6 as wide as high.
    let room = place.y.min(place.x / (0.6 * name.len() as f64));
    let high = (0.35 * place.min()).clamp(WORD[0], 6.0);
    (high < 0.9 * room).then_some(high)
}

fn coarse(line: &Polyline, to: impl Fn(Point) -> Point) -> Vec<Point> {
    let coarse = |value: f64| (value / COARSE).round() * COARSE;
    let points = line.points().iter().map(|&point| to(point).map(coarse));
    points.collect()
}
