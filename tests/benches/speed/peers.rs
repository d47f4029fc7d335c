//! What other libraries do at the same works.

use std::hint::black_box;

use geo::{BooleanOps, LineString, MultiLineString, Polygon};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::float::clip::FloatClip;
use i_overlay::string::clip::ClipRule;
use kurbo::{BezPath, PathEl, Rect, Shape};
use lyon_algorithms::walk::{RegularPattern, WalkerEvent, walk_along_path};
use lyon_path::geom::{CubicBezierSegment, point};
use quiltpath_core::geom::Point;
use quiltpath_tests::speed::inputs::l;
use quiltpath_tests::speed::works::{Run, TOLERANCE, on_threads, run};

/// kurbo's parser of path data; no XML, no positions in errors.
pub(crate) fn kurbo_parser(data: String) -> Run {
    run(move || BezPath::from_svg(black_box(&data)).expect("a path"))
}

/// svgtypes' parser of path data, its segments kept.
pub(crate) fn svgtypes(data: String) -> Run {
    run(move || {
        let parser = svgtypes::PathParser::from(black_box(data.as_str()));
        let segments: Result<Vec<_>, _> = parser.collect();
        segments.expect("a path")
    })
}

/// The XML read by roxmltree, the path data by kurbo.
pub(crate) fn roxmltree_kurbo(svg: String) -> Run {
    run(move || read_with_kurbo(black_box(&svg)))
}

fn read_with_kurbo(svg: &str) -> Vec<BezPath> {
    let document = roxmltree::Document::parse(svg).expect("XML");
    (document.descendants())
        .filter_map(|node| node.attribute("d"))
        .map(|data| BezPath::from_svg(data).expect("a path"))
        .collect()
}

/// A renderer's tree, f32.
pub(crate) fn usvg(svg: String) -> Run {
    run(move || read_with_usvg(black_box(&svg)))
}

fn read_with_usvg(svg: &str) -> usvg::Tree {
    usvg::Tree::from_str(svg, &usvg::Options::default()).expect("an SVG")
}

/// The boxes of files by roxmltree and kurbo, transforms and units skipped.
pub(crate) fn roxmltree_kurbo_boxes(files: Vec<String>, threads: usize) -> Run {
    let box_of = |file: &str| -> Rect {
        let paths = read_with_kurbo(file);
        let boxes = paths.iter().map(Shape::bounding_box);
        boxes.reduce(|a, b| a.union(b)).expect("a path")
    };
    run(move || on_threads(black_box(&files), threads, box_of))
}

/// The boxes of files by usvg, f32.
pub(crate) fn usvg_boxes(files: Vec<String>, threads: usize) -> Run {
    let box_of = |file: &str| read_with_usvg(file).root().bounding_box();
    run(move || on_threads(black_box(&files), threads, box_of))
}

/// lyon's flattening in f64 of the same path, into one buffer that is used again.
pub(crate) fn lyon_flatten(path: BezPath) -> Run {
    let at = |p: kurbo::Point| point(p.x, p.y);
    let mut points = Vec::new();
    run(move || {
        points.clear();
        let mut from = point(0.0, 0.0);
        for element in black_box(&path).elements() {
            match *element {
                PathEl::MoveTo(p) => {
                    from = at(p);
                    points.push(from);
                }
                PathEl::CurveTo(a, b, p) => {
                    let (ctrl1, ctrl2, to) = (at(a), at(b), at(p));
                    let curve = CubicBezierSegment {
                        from,
                        ctrl1,
                        ctrl2,
                        to,
                    };
                    curve.for_each_flattened(TOLERANCE, &mut |line| points.push(line.to));
                    from = to;
                }
                _ => {}
            }
        }
        points.len()
    })
}

/// kurbo's flattening, into one buffer that is used again.
pub(crate) fn kurbo_flatten(path: BezPath) -> Run {
    let mut points = Vec::new();
    run(move || {
        points.clear();
        kurbo::flatten(black_box(&path).iter(), TOLERANCE, |element| {
            if let PathEl::MoveTo(p) | PathEl::LineTo(p) = element {
                points.push(p);
            }
        });
        points.len()
    })
}

/// The points copied, which no map can beat.
pub(crate) fn memcpy(points: Vec<Point>) -> Run {
    let mut copy = points.clone();
    run(move || black_box(&mut copy).copy_from_slice(black_box(&points)))
}

/// kurbo's affine map, in place.
pub(crate) fn kurbo_affine(points: &[Point]) -> Run {
    let mut points: Vec<kurbo::Point> = points.iter().map(|p| (p.x, p.y).into()).collect();
    let map = kurbo::Affine::rotate(1f64.to_radians()).then_translate((0.25, -0.25).into());
    run(move || {
        for point in black_box(&mut points) {
            *point = map * *point;
        }
    })
}

/// nalgebra's affine map, in place.
pub(crate) fn nalgebra_affine(mut points: Vec<Point>) -> Run {
    let (sin, cos) = 1f64.to_radians().sin_cos();
    let map = nalgebra::Affine2::from_matrix_unchecked(nalgebra::Matrix3::new(
        cos, -sin, 0.25, sin, cos, -0.25, 0.0, 0.0, 1.0,
    ));
    run(move || {
        for point in black_box(&mut points) {
            *point = map * *point;
        }
    })
}

/// lyon's walk in even steps, f32, along the distance alone: neither cusps nor chords are seen to.
pub(crate) fn lyon_walk(points: &[Point], per_stitch: f64) -> Run {
    let at = |p: &Point| lyon_path::math::point(p.x as f32, p.y as f32);
    let mut builder = lyon_path::Path::builder();
    builder.begin(at(&points[0]));
    for point in &points[1..] {
        builder.line_to(at(point));
    }
    builder.end(false);
    let path = builder.build();
    let room = (points.len() as f64 / per_stitch) as usize + 1;
    run(move || {
        let mut walked = Vec::with_capacity(room);
        let mut pattern = RegularPattern {
            callback: |event: WalkerEvent<'_>| {
                walked.push(event.position);
                true
            },
            interval: per_stitch as f32,
        };
        walk_along_path(black_box(&path).iter(), 0.0, 0.01, &mut pattern);
        walked
    })
}

/// The general polygon clippers that there are, each with its own kind of line.
pub(crate) fn cutters(points: &[Point]) -> Vec<(&'static str, Run)> {
    let l = l();
    let string = |points: &[Point]| LineString::from_iter(points.iter().map(|p| (p.x, p.y)));
    let polygon = Polygon::new(string(l.corners()), Vec::new());
    let lines = MultiLineString(vec![string(points)]);
    let pairs = |points: &[Point]| -> Vec<[f64; 2]> { points.iter().map(|p| [p.x, p.y]).collect() };
    let (line, corners) = (pairs(points), pairs(l.corners()));
    let rule = ClipRule {
        invert: false,
        boundary_included: true,
    };
    let mut cutters = vec![
        ("geo", run(move || polygon.clip(black_box(&lines), false))),
        (
            "i_overlay",
            run(move || black_box(&line).clip_by(&corners, FillRule::NonZero, rule)),
        ),
    ];
    cutters.extend(clipper2(points, l.corners()));
    cutters
}

#[cfg(not(feature = "clipper2"))]
fn clipper2(_: &[Point], _: &[Point]) -> Option<(&'static str, Run)> {
    None
}

/// The open part of the result never leaves the wrapper, so this is time alone.
#[cfg(feature = "clipper2")]
fn clipper2(points: &[Point], corners: &[Point]) -> Option<(&'static str, Run)> {
    use clipper2::Clipper;

    /// A grid of 1e-6 of the unit.
    #[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash)]
    struct Millionth;

    impl clipper2::PointScaler for Millionth {
        const MULTIPLIER: f64 = 1e6;
    }

    let pairs =
        |points: &[Point]| -> Vec<(f64, f64)> { points.iter().map(|p| (p.x, p.y)).collect() };
    let (line, corners) = (pairs(points), pairs(corners));
    let cut = move || {
        Clipper::<_, Millionth>::new()
            .add_open_subject(vec![black_box(&line).clone()])
            .add_clip(vec![corners.clone()])
            .intersect(clipper2::FillRule::NonZero)
            .expect("a result")
    };
    Some(("clipper2", run(cut)))
}
