//! DXF in, as curves, as lines, as a motif; out again and in again.

use quiltpath_core::geom::Point;
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::dxf_read::{read_dxf, read_dxf_layers};
use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
use quiltpath_core::strokes::{Gaps, OneLineOptions};
use quiltpath_core::units::Unit;

use super::dice::{finite, told};

/// Larger drawings are read but not made to lines: they take long by right.
const MOST_SIZE_MM: f64 = 1e5;
const MOST_SEGMENTS: usize = 20_000;

pub(super) fn dxf(data: &[u8]) {
    let drawing = match read_dxf(data, None) {
        Ok(drawing) => drawing,
        Err(error) => return told(&error),
    };
    assert!(!drawing.paths.is_empty());
    let Some(bounds) = drawing.bounds() else {
        return;
    };
    finite(&[bounds.min, bounds.max]);
    // Each layer that is drawn can be chosen, and holds no more than the whole.
    let layer = drawing.paths[0].layer.clone();
    let one = read_dxf_layers(data, Some(Unit::In), &[layer]).expect("a layer that is drawn");
    assert!(one.paths.len() <= drawing.paths.len());
    let segments: usize = (drawing.paths.iter())
        .map(|drawn| drawn.path.elements().len())
        .sum();
    let far = |point: Point| point.coords.amax() > MOST_SIZE_MM;
    if far(bounds.min) || far(bounds.max) || segments > MOST_SEGMENTS {
        return;
    }
    let drawing = drawing.into_drawing("m");
    let options = OneLineOptions::default();
    let lines = drawing.fewest_lines(&options);
    for line in &lines.expect("coordinates were checked") {
        finite(line.points());
    }
    let _ = drawing.one_line(&options.with_gaps(Gaps::Link));
    round_trip(data);
}

/// What goes out as DXF comes in again, as many lines with their ends to the step of the format.
fn round_trip(data: &[u8]) {
    let options = ReadOptions::default().with_unit(Some(Unit::Mm));
    let read = |bytes: &[u8]| LineDrawing::read("a.dxf", bytes, &options);
    let Ok(list) = read(data).and_then(|drawing| drawing.paths(&options)) else {
        return;
    };
    // A line that is shorter than a step of the format is none when it comes back.
    let long = |points: &[Point]| points.iter().any(|point| (point - points[0]).amax() > 3e-4);
    if !list.paths.iter().all(|path| long(&path.points)) {
        return;
    }
    let text = write_lines(&list, LineFormat::Dxf, &LineOptions::default());
    let text = text.expect("lines that were read");
    let back = read(text.as_bytes()).and_then(|drawing| drawing.paths(&options));
    let back = back.expect("own output");
    assert_eq!(list.paths.len(), back.paths.len());
    for (before, after) in list.paths.iter().zip(&back.paths) {
        let ends = |points: &[Point]| [points[0], points[points.len() - 1]];
        for (a, b) in ends(&before.points).iter().zip(ends(&after.points)) {
            assert!((a - b).amax() <= 1e-4 + 1e-9 * a.coords.amax(), "{a} {b}");
        }
    }
}
