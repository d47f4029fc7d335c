//! What `usvg` reads from a drawing, as curves in pixels, to hold ours against.

use kurbo::{BezPath, ParamCurve, PathEl, Point};
use usvg::tiny_skia_path::PathSegment;

/// The visible paths that `usvg` finds, in pixels, in the order of drawing; without those whose
/// stroke has one of these colours.
///
/// It keeps what is painted with an opacity of 0, which nobody sees; that is left out here.
pub(crate) fn peer_paths(svg: &str, but: &[[u8; 3]]) -> Vec<BezPath> {
    fn collect(group: &usvg::Group, but: &[[u8; 3]], found: &mut Vec<BezPath>) {
        if group.opacity().get() == 0.0 {
            return;
        }
        for node in group.children() {
            match node {
                usvg::Node::Group(inner) => collect(inner, but, found),
                usvg::Node::Path(path) if is_seen(path) && !has_colour(path, but) => {
                    let data = path.data().clone().transform(path.abs_transform());
                    found.push(from_peer(&data.expect("a finite transform")));
                }
                _ => {}
            }
        }
    }
    let tree = usvg::Tree::from_str(svg, &usvg::Options::default())
        .unwrap_or_else(|e| panic!("{e}\n{svg}"));
    let mut found = Vec::new();
    collect(tree.root(), but, &mut found);
    found
}

fn is_seen(path: &usvg::Path) -> bool {
    let filled = path.fill().is_some_and(|fill| fill.opacity().get() > 0.0);
    let stroked = path
        .stroke()
        .is_some_and(|stroke| stroke.opacity().get() > 0.0);
    path.is_visible() && (filled || stroked)
}

fn has_colour(path: &usvg::Path, colours: &[[u8; 3]]) -> bool {
    path.stroke().is_some_and(|stroke| match stroke.paint() {
        usvg::Paint::Color(c) => colours.contains(&[c.red, c.green, c.blue]),
        _ => false,
    })
}

fn from_peer(data: &usvg::tiny_skia_path::Path) -> BezPath {
    let at = |p: usvg::tiny_skia_path::Point| Point::new(p.x.into(), p.y.into());
    data.segments()
        .map(|segment| match segment {
            PathSegment::MoveTo(p) => PathEl::MoveTo(at(p)),
            PathSegment::LineTo(p) => PathEl::LineTo(at(p)),
            PathSegment::QuadTo(a, p) => PathEl::QuadTo(at(a), at(p)),
            PathSegment::CubicTo(a, b, p) => PathEl::CurveTo(at(a), at(b), at(p)),
            PathSegment::Close => PathEl::ClosePath,
        })
        .collect()
}

/// Points at even parts of the length, from start to end.
pub(crate) fn walk(path: &BezPath) -> Vec<Point> {
    const STEPS: usize = 64;
    let mut points: Vec<Point> = Vec::new();
    for segment in path.segments() {
        points.extend((0..=200).map(|step| segment.eval(f64::from(step) / 200.0)));
    }
    let mut along = vec![0.0];
    for pair in points.windows(2) {
        along.push(along[along.len() - 1] + pair[0].distance(pair[1]));
    }
    let total = along[along.len() - 1];
    (0..=STEPS)
        .map(|step| {
            let wanted = total * step as f64 / STEPS as f64;
            let after = along
                .partition_point(|&a| a < wanted)
                .clamp(1, points.len() - 1);
            let size = along[after] - along[after - 1];
            let part = if size > 0.0 {
                (wanted - along[after - 1]) / size
            } else {
                1.0
            };
            points[after - 1].lerp(points[after], part)
        })
        .collect()
}
