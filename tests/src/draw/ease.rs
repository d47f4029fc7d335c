//! The picture of easing: the same repeats as drawn, stretched evenly, and stretched in their
//! stems.

use super::{files, flowers};
use quiltpath_core::Error;
use quiltpath_core::chain::{ChainOptions, Repeat, Terminal, chain_repeats};
use quiltpath_core::fit::{Ease, EaseLimits, Stiffness};
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::io::svg_read::read_svg;
use quiltpath_core::strokes::OneLineOptions;
use quiltpath_core::warp::Strip;
use std::fmt::Write;

/// How many repeats a row has.
const REPEATS: usize = 2;
/// The length of a stretched row divided by that of the row as drawn.
const STRETCH: f64 = 1.2;
/// Units of the picture in an inch; lines are drawn to a tenth of one.
const GRID: f64 = 100.0;
/// From one row's band to the next, in inches.
const STEP: f64 = flowers::HEIGHT + 1.1;

/// Draws the three rows below each other, each with its words above it.
pub fn picture() -> Result<String, Error> {
    let (_, text) = files()
        .into_iter()
        .find(|file| file.0 == "motifs/flowers.svg")
        .expect("the flowers are drawn");
    let motif = read_svg(text.as_bytes())?
        .into_drawing("flowers")
        .one_line(&OneLineOptions::default().with_flattening(0.05))?;
    let repeat = Repeat::new(&motif.motif)?;
    let stiffness = Stiffness::of(repeat.points(), repeat.pitch(1.0))?;
    let ease = Ease::new(&stiffness, STRETCH, &EaseLimits::default())?;
    let eased = repeat.eased(&ease, 1e-4);

    let percent = (STRETCH - 1.0) * 100.0;
    let rows = [
        ("as drawn".to_owned(), &repeat, 1.0),
        (
            format!("stretched evenly by {percent:.0} %"),
            &repeat,
            STRETCH,
        ),
        (
            format!("stretched by {percent:.0} % in its stems (ease)"),
            &eased,
            STRETCH,
        ),
    ];
    let whole = flowers::WIDTH * REPEATS as f64;
    let (width, height) = (whole * STRETCH + 1.0, STEP * rows.len() as f64 + 0.3);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"960\" viewBox=\"0 0 {w:.0} {h:.0}\" role=\"img\">\n\
         <title>A repeat stretched evenly, and in its stems</title>\n\
         <style>.back{{fill:#fff}}.band{{fill:#f4efe6}}.line{{fill:none;stroke:#1a1a1a;stroke-width:5;stroke-linejoin:round}}\n\
         text{{font-family:sans-serif;font-size:42px;fill:#1a1a1a}}</style>\n\
         <rect class=\"back\" width=\"{w:.0}\" height=\"{h:.0}\"/>\n",
        w = width * GRID,
        h = height * GRID,
    );
    for (row, (words, repeat, stretch)) in rows.into_iter().enumerate() {
        let top = STEP * row as f64 + 0.9;
        let corner = Point::new(0.5, top + flowers::HEIGHT);
        let strip = Strip::new(
            corner,
            Vector::new(1.0, 0.0),
            Vector::new(0.0, -flowers::HEIGHT),
        )?;
        let terminals = [0.0, whole * stretch].map(Terminal::new);
        let options = ChainOptions::new(REPEATS).with_join_tolerance(1e-3);
        let chain = chain_repeats(repeat, &strip, terminals, &options)?;
        // Writing to a string can't fail.
        let _ = write!(
            out,
            "<text x=\"50\" y=\"{:.0}\">{words}</text>\n<rect class=\"band\" x=\"50\" y=\"{:.0}\" width=\"{:.0}\" height=\"{:.0}\"/>\n<path class=\"line\" d=\"M",
            (top - 0.25) * GRID,
            top * GRID,
            whole * stretch * GRID,
            flowers::HEIGHT * GRID,
        );
        let grid = |value: f64| (value * GRID * 10.0).round() / 10.0;
        let mut points: Vec<_> = (chain.motif.points().iter())
            .map(|point| (grid(point.x), grid(point.y)))
            .collect();
        points.dedup();
        for (x, y) in points {
            let _ = write!(out, "{x} {y} ");
        }
        out.push_str("\"/>\n");
    }
    out.push_str("</svg>\n");
    Ok(out)
}
