//! Points to smooth curves within a tolerance, corners kept.
//!
//! Problem: few cubics that stay within the tolerance of a line of points, both ways. Method: cut
//! the line at its sharp corners; lay a spline through the points of each run (tangents of the
//! circle through three neighbours); ask `kurbo` for one cubic with the area and the moment of the
//! whole run; check it; else halve the run, down to single chords, which stay as they are. The fit
//! takes constant time thanks to prefix sums, the check O(points of the run), so all takes
//! O(n log n). Guarantee: what has not passed the check is not written.

use kurbo::simplify::SimplifyBezPath;
use kurbo::{BezPath, CubicBez, ParamCurve, fit_to_cubic};

use super::data::Data;
use crate::geom::measure::distance_to_segment;
use crate::geom::{Point, Vector};

/// The turn above which a corner stays sharp, in degrees.
///
/// A curve flattened within 0.01 mm turns by less than this at each point down to a radius of
/// 0.3 mm, which no machine stitches.
const SHARP_DEGREES: f64 = 30.0;

/// Writes path data of curves within the tolerance of these points, at least two.
pub(super) fn write(out: &mut String, points: &[Point], tolerance: f64) {
    let mut data = Data::start(out, points[0]);
    let mut from = 0;
    for to in 1..points.len() {
        if to + 1 == points.len() || is_sharp(&points[to - 1..=to + 1]) {
            run(&mut data, &points[from..=to], tolerance);
            from = to;
        }
    }
    data.finish();
}

fn is_sharp(three: &[Point]) -> bool {
    let (before, after) = (three[1] - three[0], three[2] - three[1]);
    before.angle(&after) > SHARP_DEGREES.to_radians()
}

/// Writes one run without corners.
fn run(data: &mut Data<'_>, points: &[Point], tolerance: f64) {
    if points.len() == 2 {
        data.line(points[1]);
        return;
    }
    let spline = SimplifyBezPath::new(spline(points));
    let fit = Fit {
        spline: &spline,
        points,
        tolerance,
    };
    fit.stretch(data, 0, points.len() - 1);
}

struct Fit<'a> {
    spline: &'a SimplifyBezPath,
    points: &'a [Point],
    tolerance: f64,
}

impl Fit<'_> {
    /// Writes the stretch from one point to another; the depth of halving is log2 of the points.
    fn stretch(&self, data: &mut Data<'_>, from: usize, to: usize) {
        if to - from == 1 {
            data.line(self.points[to]);
            return;
        }
        match self.cubic(from, to) {
            Some(cubic) => data.curve([cubic.p1, cubic.p2, cubic.p3].map(point)),
            None => {
                let middle = usize::midpoint(from, to);
                self.stretch(data, from, middle);
                self.stretch(data, middle, to);
            }
        }
    }

    /// One cubic for the stretch, when one stays within the tolerance.
    fn cubic(&self, from: usize, to: usize) -> Option<CubicBez> {
        let count = (self.points.len() - 1) as f64;
        let range = from as f64 / count..to as f64 / count;
        let (mut cubic, _) = fit_to_cubic(self.spline, range, self.tolerance / 2.0)?;
        let points = &self.points[from..=to];
        (cubic.p0, cubic.p3) = (
            kurbo_point(points[0]),
            kurbo_point(points[points.len() - 1]),
        );
        let samples = 4 * points.len() + 16;
        let curve: Vec<Point> = (0..=samples)
            .map(|index| point(cubic.eval(index as f64 / samples as f64)))
            .collect();
        // A chord over a step h of the parameter is at most h² max|c''| / 8 off the curve.
        let bend = [
            cubic.p0.to_vec2() - 2.0 * cubic.p1.to_vec2() + cubic.p2.to_vec2(),
            cubic.p1.to_vec2() - 2.0 * cubic.p2.to_vec2() + cubic.p3.to_vec2(),
        ];
        let bend = 6.0 * bend[0].hypot().max(bend[1].hypot());
        let sagitta = bend / (8.0 * (samples * samples) as f64);
        let allowed = self.tolerance - sagitta;
        (follows(points, &curve, allowed) && follows(&curve, points, allowed)).then_some(cubic)
    }
}

/// Whether each of these points lies within a distance of the line, going along it in order.
///
/// Looks ahead by one chord at a time, so it may refuse what a search would accept, never the
/// other way round.
fn follows(points: &[Point], line: &[Point], allowed: f64) -> bool {
    let last = line.len() - 2;
    let off = |point: Point, chord: usize| distance_to_segment(point, line[chord], line[chord + 1]);
    let mut chord = 0;
    points.iter().all(|&point| {
        let mut least = off(point, chord);
        while chord < last {
            let next = off(point, chord + 1);
            if next > least {
                break;
            }
            (least, chord) = (next, chord + 1);
        }
        least <= allowed
    })
}

/// A smooth curve through all the points, one cubic for each chord.
fn spline(points: &[Point]) -> BezPath {
    let tangents = tangents(points);
    let mut path = BezPath::with_capacity(points.len());
    path.move_to(kurbo_point(points[0]));
    for (pair, ends) in points.windows(2).zip(tangents.windows(2)) {
        let third = (pair[1] - pair[0]).norm() / 3.0;
        path.curve_to(
            kurbo_point(pair[0] + ends[0] * third),
            kurbo_point(pair[1] - ends[1] * third),
            kurbo_point(pair[1]),
        );
    }
    path
}

/// The unit tangents at the points: inside, of the circle through three neighbours; at the ends,
/// the mirror image of the neighbour's over the chord, which again is that circle's.
fn tangents(points: &[Point]) -> Vec<Vector> {
    let chords: Vec<Vector> = points.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let unit = |vector: Vector, fallback: Vector| {
        vector.try_normalize(1e-300).unwrap_or(fallback.normalize())
    };
    let inner = |before: Vector, after: Vector| {
        let weighted =
            before * (after.norm() / before.norm()) + after * (before.norm() / after.norm());
        unit(weighted, before)
    };
    let mirrored = |tangent: Vector, chord: Vector| {
        let along = chord.normalize();
        unit(along * (2.0 * along.dot(&tangent)) - tangent, chord)
    };
    let mut tangents = vec![Vector::zeros()];
    tangents.extend(chords.windows(2).map(|pair| inner(pair[0], pair[1])));
    let last = chords.len() - 1;
    tangents[0] = mirrored(tangents[1], chords[0]);
    tangents.push(mirrored(tangents[last], chords[last]));
    tangents
}

fn point(from: kurbo::Point) -> Point {
    Point::new(from.x, from.y)
}

fn kurbo_point(from: Point) -> kurbo::Point {
    kurbo::Point::new(from.x, from.y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::flatten::flatten;
    use kurbo::PathEl;
    use proptest::prelude::*;

    fn smoothed(points: &[Point], tolerance: f64) -> BezPath {
        let mut out = String::new();
        write(&mut out, points, tolerance);
        BezPath::from_svg(&out).unwrap_or_else(|e| panic!("{out}: {e}"))
    }

    /// The greatest distance of a point of one line to the other line, by trying all chords.
    fn farthest(points: &[Point], line: &[Point]) -> f64 {
        let nearest = |point: &Point| {
            line.windows(2)
                .map(|pair| distance_to_segment(*point, pair[0], pair[1]))
                .fold(f64::INFINITY, f64::min)
        };
        points.iter().map(nearest).fold(0.0, f64::max)
    }

    fn assert_close(points: &[Point], tolerance: f64) -> BezPath {
        let path = smoothed(points, tolerance);
        let flat = flatten(path.iter(), 1e-4).expect("flat").remove(0).points;
        // Numbers are rounded to 1e-4 and flattened within 1e-4.
        let allowed = tolerance + 3e-4;
        assert!(farthest(points, &flat) <= allowed);
        assert!(farthest(&flat, points) <= allowed);
        path
    }

    fn circle(count: usize) -> Vec<Point> {
        (0..=count)
            .map(|step| {
                let (sin, cos) = (step as f64 / count as f64 * std::f64::consts::TAU).sin_cos();
                Point::new(50.0 * cos, 50.0 * sin)
            })
            .collect()
    }

    #[test]
    fn a_circle_becomes_a_few_cubics() {
        let path = assert_close(&circle(200), 0.02);
        assert!(path.elements().len() <= 17, "{}", path.elements().len());
        assert!(
            path.iter()
                .skip(1)
                .all(|e| matches!(e, PathEl::CurveTo(..)))
        );
    }

    #[test]
    fn corners_and_straight_lines_stay() {
        let square =
            [(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)].map(|(x, y)| Point::new(x, y));
        assert_eq!(smoothed(&square, 0.1).to_svg(), "M0,0 L9,0 L9,9 L0,9");
        let mut drop = circle(80);
        drop.insert(0, Point::new(50.0, -90.0));
        let path = assert_close(&drop, 0.06);
        assert!(matches!(path.elements()[1], PathEl::LineTo(_)), "{path:?}");
    }

    #[test]
    fn too_tight_a_tolerance_leaves_the_chords() {
        let rough = circle(24);
        let path = smoothed(&rough, 1e-3);
        assert_eq!(path.elements().len(), rough.len());
        assert!(path.iter().skip(1).all(|e| matches!(e, PathEl::LineTo(_))));
    }

    proptest! {
        #[test]
        fn curves_stay_within_the_tolerance(
            c in prop::collection::vec((-60.0..60.0f64, -60.0..60.0f64), 4..16),
            tolerance in 0.01..0.5f64,
        ) {
            let mut path = BezPath::new();
            path.move_to(c[0]);
            for three in c[1..].chunks_exact(3) {
                path.curve_to(three[0], three[1], three[2]);
            }
            let points = flatten(path.iter(), 0.01).expect("flat").remove(0).points;
            let smooth = assert_close(&points, tolerance);
            prop_assert!(smooth.elements().len() <= points.len());
        }

        #[test]
        fn no_points_make_it_panic(
            c in prop::collection::vec((-3..3i32, -3..3i32), 2..30), tolerance in 1e-6..10.0f64,
        ) {
            let mut points: Vec<Point> = c.iter().map(|&(x, y)| Point::new(x.into(), y.into())).collect();
            points.dedup();
            if points.len() >= 2 {
                assert_close(&points, tolerance);
            }
        }
    }
}
