//! SVG in, as curves, as lines, as a motif; out again and in again.

use quiltpath_core::geom::{Bounds, Point};
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::json::{PointList, PointPath};
use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
use quiltpath_core::io::svg_read::{SvgDrawing, read_svg};
use quiltpath_core::io::svg_write::WriteOptions;
use quiltpath_core::strokes::{Gaps, OneLineOptions};

use super::dice::{finite, told};

/// Larger drawings are read but not made to lines: they take long by right.
const MOST_SIZE_MM: f64 = 1e5;
const MOST_SEGMENTS: usize = 20_000;

pub(super) fn svg(data: &[u8]) {
    let drawing = match read_svg(data) {
        Ok(drawing) => drawing,
        Err(error) => return told(&error),
    };
    assert!(!drawing.paths.is_empty());
    let Some(bounds) = drawing.bounds() else {
        return;
    };
    finite(&[bounds.min, bounds.max]);
    if too_large(&drawing, &bounds) {
        return;
    }
    let drawing = drawing.into_drawing("m");
    let options = OneLineOptions::default();
    let lines = drawing.fewest_lines(&options);
    for line in &lines.expect("coordinates were checked") {
        finite(line.points());
        let ink = line.bounds();
        let room = 0.011 + 1e-9 * MOST_SIZE_MM;
        let corners = [ink.min - bounds.min, bounds.max - ink.max];
        assert!(
            corners.iter().all(|off| off.min() >= -room),
            "{ink:?} {bounds:?}"
        );
    }
    let _ = drawing.one_line(&options.with_gaps(Gaps::Link));
    round_trip(data);
}

fn too_large(drawing: &SvgDrawing, bounds: &Bounds) -> bool {
    let segments: usize = (drawing.paths.iter())
        .map(|drawn| drawn.path.elements().len())
        .sum();
    let far = |point: Point| point.coords.amax() > MOST_SIZE_MM;
    far(bounds.min) || far(bounds.max) || segments > MOST_SEGMENTS
}

/// What goes out as lines comes in again as the same lines, to the step of the format.
fn round_trip(data: &[u8]) {
    let options = ReadOptions::default();
    let read = |bytes: &[u8]| LineDrawing::read("a.svg", bytes, &options);
    let Ok(list) = read(data).and_then(|drawing| drawing.paths(&options)) else {
        return;
    };
    // A line that is shorter than a step of the format is none when it comes back.
    let long = |path: &PointPath| {
        Bounds::of(&path.points).is_some_and(|bounds| bounds.size().amax() > 3e-4)
    };
    if !list.paths.iter().all(long) {
        return;
    }
    for &format in LineFormat::ALL {
        let text = write_lines(&list, format, &LineOptions::default());
        let text = text.expect("lines that were read");
        if format == LineFormat::Svg {
            same_lines(&list, &read(text.as_bytes()).expect("own output"));
        }
    }
    let smooth = WriteOptions::default().with_smooth(Some(0.05));
    let options = LineOptions::default().with_svg(smooth);
    let text = write_lines(&list, LineFormat::Svg, &options).expect("lines that were read");
    read_svg(text.as_bytes()).expect("own output");
}

fn same_lines(list: &PointList, back: &LineDrawing) {
    let back = back
        .clone()
        .answer_in(list.unit)
        .paths(&ReadOptions::default())
        .expect("lines");
    assert_eq!(list.paths.len(), back.paths.len());
    for (before, after) in list.paths.iter().zip(&back.paths) {
        let ends = |points: &[Point]| [points[0], points[points.len() - 1]];
        for (a, b) in ends(&before.points).iter().zip(ends(&after.points)) {
            assert!((a - b).amax() <= 1e-4 + 1e-9 * a.coords.amax(), "{a} {b}");
        }
    }
}
