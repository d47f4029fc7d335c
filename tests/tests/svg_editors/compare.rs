//! Strokes held against those of `usvg`: how many, their ends, box, length, and points along them.

use kurbo::{Affine, BezPath, ParamCurve, ParamCurveArclen, PathEl, Point, Shape, Vec2};
use quiltpath_core::io::svg_read::SvgDrawing;

use super::drawing::{DOT, MARKER};
use super::peer::{peer_paths, walk};

const PX_PER_MM: f64 = 96.0 / 25.4;

/// `usvg` draws arcs and circles within this share of their size.
const ARC: f64 = 3e-4;

/// Holds a drawing against what `usvg` makes of its text; how many strokes are the same, or what
/// is not.
pub(crate) fn same(ours: &SvgDrawing, text: &str) -> Result<usize, String> {
    let theirs = peer_paths(text, &[MARKER, DOT]);
    if ours.paths.len() != theirs.len() {
        return Err(format!("{} paths for {}", ours.paths.len(), theirs.len()));
    }
    let origin = start(&theirs[0]).to_vec2();
    let map = Affine::translate(origin) * Affine::scale(PX_PER_MM);
    let mut strokes = 0;
    for (our, their) in ours.paths.iter().zip(&theirs) {
        let (ours, theirs) = (subpaths(&(map * &our.path)), subpaths(their));
        if ours.len() != theirs.len() {
            let (ours, theirs) = (ours.len(), theirs.len());
            return Err(format!("{}: {ours} strokes for {theirs}", our.id));
        }
        for (a, b) in ours.iter().zip(&theirs) {
            differ(a, b, origin).map_err(|fault| format!("{}: {fault}", our.id))?;
            strokes += 1;
        }
    }
    Ok(strokes)
}

/// Says what is not the same of two strokes.
fn differ(a: &BezPath, b: &BezPath, origin: Vec2) -> Result<(), String> {
    let (box_a, box_b) = (a.bounding_box(), b.bounding_box());
    let far = [box_b.x0, box_b.y0, box_b.x1, box_b.y1, origin.x, origin.y]
        .into_iter()
        .fold(0.0, |far: f64, value| far.max(value.abs()));
    // Numbers of f32 have seven digits, and a few transforms lie between them.
    let allowed = ARC * (box_b.width() + box_b.height()) + 4e-6 * far + 1e-4;
    let off = |a: Point, b: Point| a.distance(b) > allowed;
    let (length_a, length_b) = (length(a), length(b));
    for (what, [end_a, end_b]) in [("start", [a, b].map(start)), ("end", [a, b].map(end))] {
        if off(end_a, end_b) {
            return Err(format!("{what} {end_a} for {end_b}"));
        }
    }
    if off(box_a.origin(), box_b.origin())
        || (box_a.max_x() - box_b.max_x()).abs() > allowed
        || (box_a.max_y() - box_b.max_y()).abs() > allowed
    {
        return Err(format!("box {box_a} for {box_b}"));
    }
    if (length_a - length_b).abs() > allowed + 1e-3 * length_b {
        return Err(format!("length {length_a} for {length_b}"));
    }
    let turns = 1e-3 * length_b + allowed;
    for (a, b) in walk(a).into_iter().zip(walk(b)) {
        if a.distance(b) > turns {
            return Err(format!("point {a} for {b}"));
        }
    }
    Ok(())
}

fn start(path: &BezPath) -> Point {
    path.segments().next().expect("a segment").start()
}

fn end(path: &BezPath) -> Point {
    path.segments().last().expect("a segment").end()
}

/// The strokes of a path that have a length.
fn subpaths(path: &BezPath) -> Vec<BezPath> {
    let mut all: Vec<Vec<PathEl>> = Vec::new();
    for element in path.elements() {
        match element {
            PathEl::MoveTo(_) => all.push(vec![*element]),
            _ => all.last_mut().expect("a move first").push(*element),
        }
    }
    let strokes = all.into_iter().map(BezPath::from_vec);
    strokes.filter(|stroke| length(stroke) > 1e-5).collect()
}

fn length(stroke: &BezPath) -> f64 {
    let segments = stroke.segments();
    segments.map(|segment| segment.arclen(1e-6)).sum()
}
