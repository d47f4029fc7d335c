//! A border fitted to the span between two corners; run from the top of the repository.
#![allow(clippy::print_stdout)]

use quiltpath_core::chain::{ChainOptions, Repeat, Terminal, chain_repeats};
use quiltpath_core::fit::{Count, fit_span};
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::motif::Motif;
use quiltpath_core::units::Unit;
use quiltpath_core::warp::Strip;

/// Fits the demo's border to a span, in a band of this depth; both in inches.
pub fn side(span: f64, depth: f64) -> Result<Motif, Box<dyn std::error::Error>> {
    let file = "fixtures/demo/border.svg";
    let options = ReadOptions::default();
    let drawing = LineDrawing::read(file, &std::fs::read(file)?, &options)?;
    // Tolerances hold on the cloth, and the band tells how large the drawing becomes there.
    let height = drawing
        .bounds(Unit::In)
        .map_or(depth, |bounds| bounds.height());
    let reading = options.clone().enlarged(depth / height);
    let repeat = Repeat::new(&drawing.motif(Unit::In, &reading)?.motif)?;

    let fit = fit_span(span, repeat.pitch(depth), &Count::default())?;
    println!("{} repeats", fit.chosen.repeats);
    println!("stretched by {:+.1} %", (fit.chosen.stretch - 1.0) * 100.0);

    // The band from left to right: its inner line at y = depth, its outer line at y = 0.
    let band = Strip::level(depth)?;
    let ends = [0.0, span].map(Terminal::new);
    let [_, join] = options.on_cloth(Unit::In);
    let chaining = ChainOptions::new(fit.chosen.repeats).with_join_tolerance(join);
    let side = chain_repeats(&repeat, &band, ends, &chaining)?;
    Ok(side.motif)
}

/// A span of 51 1/2 in in a band 5 1/4 in deep.
pub fn main() -> Result<(), Box<dyn std::error::Error>> {
    println!("{:.1} in of line", side(51.5, 5.25)?.length());
    Ok(())
}
