//! The first page of a template: how to print it, squares to measure, how the sheets lie.

use super::Piece;
use super::ink::{Mm, line, name, put, row_name};
use super::tiling::{Grid, OVERLAP_MM, Tile};
use crate::geom::{Point, Polyline};
use crate::io::html::{safe, shortened};
use crate::plan::findings::counted;
use crate::units::Unit;

/// The box that the overview fits into, in millimetres.
const OVERVIEW: [f64; 2] = [84.0, 78.0];

/// Points of the overview that are closer than this are one, in millimetres.
const COARSE: f64 = 0.1;

pub(super) fn write(out: &mut String, piece: &Piece<'_>, grid: &Grid, tiles: &[Tile]) {
    put(
        out,
        format_args!(
            "<header>\n<h1>{}: paper template</h1>\n<p>True size {}, on {} of {} paper, {}.</p>\n</header>\n\
             <div class=\"cover\">\n<div>\n",
            safe(&shortened(piece.name, 60)),
            piece.readable_size(),
            counted(tiles.len(), "sheet"),
            grid.sheet.paper.name(),
            turned(grid),
        ),
    );
    steps(out, piece, grid, tiles);
    caution(out);
    out.push_str("</div>\n<div>\n");
    squares(out);
    measures(out, piece);
    if tiles.len() > 1 {
        overview(out, piece, grid, tiles);
    }
    out.push_str("</div>\n</div>\n");
}

fn turned(grid: &Grid) -> &'static str {
    if grid.sheet.sideways {
        "sideways"
    } else {
        "upright"
    }
}

fn steps(out: &mut String, piece: &Piece<'_>, grid: &Grid, tiles: &[Tile]) {
    put(
        out,
        format_args!(
            "<h2>How to print and lay it</h2>\n<ol>\n\
             <li>Print at 100 % (actual size) on {} paper, {}, on one side. Don't fit to page, \
             don't shrink.</li>\n\
             <li>Print this page first and measure the squares. If they are off, change the \
             printer's settings and print it again.</li>\n",
            grid.sheet.paper.name(),
            turned(grid),
        ),
    );
    if tiles.len() > 1 {
        put(
            out,
            format_args!(
                "<li>Print the sheets. Neighbours share a strip of {} ({OVERLAP_MM} mm) with a seam in \
                 its middle.</li>\n\
                 <li>Cut each sheet on its dashed seams, right and below. Lay the cut edge on the \
                 seam of the next sheet, so that the halves of the round marks meet, and tape it \
                 down.</li>\n",
                Unit::In.readable(OVERLAP_MM),
            ),
        );
    } else {
        out.push_str("<li>Print the sheet.</li>\n");
    }
    put(
        out,
        format_args!(
            "<li>Measure the dashed box round the piece: it has to be {}. Short lines mark the \
             middle of each side.</li>\n</ol>\n\
             <p>The ring with the arrow is where the line starts and which way it runs; the \
             square is where it ends. The open arrow on each sheet shows the way there.</p>\n",
            piece.readable_size(),
        ),
    );
}

fn caution(out: &mut String) {
    out.push_str(
        "<h2>Before you stitch</h2>\n\
         <p>A template shows where the line lies; it is no reason to skip the trial run. Stop the \
         machine before you lay paper on the cloth or reach in. Take paper, pins and tape away, \
         then trace the path without stitching, and stay at the machine while it runs. The \
         machine's manual comes first.</p>\n",
    );
}

fn squares(out: &mut String) {
    out.push_str(
        "<h2>Squares to measure</h2>\n\
         <p>On paper, from line to line; a screen shows them at any size.</p>\n\
         <svg role=\"img\" aria-label=\"Two squares: 1 inch and 25 millimetres a side\" \
         width=\"58mm\" height=\"27mm\" viewBox=\"0 0 58 27\">\n\
         <rect class=\"fine\" x=\".5\" y=\".5\" width=\"25.4\" height=\"25.4\"/>\
         <text class=\"text middle\" x=\"13.2\" y=\"14.3\">1 in</text>\n\
         <rect class=\"fine\" x=\"32\" y=\".5\" width=\"25\" height=\"25\"/>\
         <text class=\"text middle\" x=\"44.5\" y=\"14.3\">25 mm</text>\n</svg>\n",
    );
}

fn measures(out: &mut String, piece: &Piece<'_>) {
    out.push_str(
        "<h2>Measures of the piece</h2>\n<table>\n\
         <tr><th scope=\"col\">unit</th><th scope=\"col\">width</th><th scope=\"col\">height</th></tr>\n",
    );
    let size = [piece.size.x, piece.size.y];
    let rows = [
        ("1/16 in", size.map(|mm| Unit::In.readable(mm))),
        ("in", size.map(|mm| format!("{:.4}", mm / Unit::In.in_mm()))),
        ("mm", size.map(|mm| format!("{mm:.3}"))),
    ];
    for (unit, [width, height]) in rows {
        put(
            out,
            format_args!(
                "<tr><th scope=\"row\">{unit}</th><td>{width}</td><td>{height}</td></tr>\n"
            ),
        );
    }
    let length: f64 = piece.lines.iter().map(Polyline::length).sum();
    put(
        out,
        format_args!(
            "</table>\n<p>{} of line.</p>\n",
            piece.unit.readable(length)
        ),
    );
}

fn overview(out: &mut String, piece: &Piece<'_>, grid: &Grid, tiles: &[Tile]) {
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
    put(
        out,
        format_args!(
            "<h2>How the sheets lie</h2>\n<p>{rows}; {columns}.{}</p>\n\
             <svg role=\"img\" aria-label=\"The sheets laid together, with the line of the piece on them\" \
             width=\"{width}mm\" height=\"{height}mm\" viewBox=\"-.5 -.5 {width} {height}\">\n",
            match grid.rows * grid.columns - tiles.len() {
                0 => "",
                _ => " Places without a name need no sheet: no line comes there.",
            }
        ),
    );
    for tile in tiles {
        let cell = grid.cell(tile.row, tile.column);
        let (min, max) = (to(cell.min), to(cell.max));
        put(
            out,
            format_args!(
                "<rect class=\"fine over\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n",
                Mm(min.x),
                Mm(min.y),
                Mm(max.x - min.x),
                Mm(max.y - min.y)
            ),
        );
    }
    for piece_line in &piece.lines {
        let coarse = |value: f64| (value / COARSE).round() * COARSE;
        let points = piece_line.points().iter().map(|&p| to(p).map(coarse));
        line(out, "line thin", &points.collect::<Vec<_>>());
    }
    for tile in tiles {
        let cell = grid.cell(tile.row, tile.column);
        let (min, max) = (to(cell.min), to(cell.max));
        let high = (0.35 * (max - min).min()).min(6.0);
        let at = nalgebra::center(&min, &max);
        put(
            out,
            format_args!(
                "<text class=\"word middle\" font-size=\"{}\" x=\"{}\" y=\"{}\">{}</text>\n",
                Mm(high),
                Mm(at.x),
                Mm(at.y + 0.35 * high),
                name(tile.row, tile.column)
            ),
        );
    }
    out.push_str("</svg>\n");
}
