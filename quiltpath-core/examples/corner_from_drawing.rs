//! A corner from a drawing, sized by its legs; run from the top of the repository.
#![allow(clippy::print_stdout)]

use quiltpath_core::corner::{Arrangement, size_corner};
use quiltpath_core::geom::{Bounds, BoxCorner, Point};
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::svg_write::{SvgPath, WriteOptions, write_svg};
use quiltpath_core::io::words;

use quiltpath_core::leg::{LegGiven, choose_leg};
use quiltpath_core::motif::Motif;
use quiltpath_core::units::Unit;

/// Brings the demo's corner to the top right of a band of this depth, within this outer line; all
/// in inches.
pub fn corner(depth: f64, outer: Bounds) -> Result<Motif, Box<dyn std::error::Error>> {
    let file = "fixtures/demo/corner.svg";
    let options = ReadOptions::default();
    let drawing = LineDrawing::read(file, &std::fs::read(file)?, &options)?;
    let motif = drawing.motif(Unit::In, &options)?.motif;

    let leg = choose_leg(&motif, &LegGiven::default())?;
    for doubt in &leg.doubts {
        println!("in doubt: {}", words::leg_doubt(doubt));
    }
    let sized = size_corner(&motif, &leg, depth)?;
    println!("scaled by {:.3} and {:.3}", sized.scale[0], sized.scale[1]);

    Ok(sized.place(BoxCorner::TopRight, outer, Arrangement::Mirrored)?)
}

/// A band 5 1/4 in deep, 1/2 in from the edge of a quilt of 64 1/4 x 80 in.
pub fn main() -> Result<(), Box<dyn std::error::Error>> {
    let outer = Bounds {
        min: Point::new(0.5, 0.5),
        max: Point::new(63.75, 79.5),
    };
    let placed = corner(5.25, outer)?;
    let path = SvgPath::new("top-right", placed.points());
    let mut svg = String::new();
    write_svg(&mut svg, Unit::In, &[path], &WriteOptions::default())?;
    println!("{} bytes of SVG", svg.len());
    Ok(())
}
