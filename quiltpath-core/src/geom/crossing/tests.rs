//! Self-crossings held against all pairs, and known curves.

use super::*;
use crate::geom::Vector;
use crate::transform::Transform;
use proptest::prelude::*;
use std::f64::consts::TAU;

fn line(points: &[(f64, f64)]) -> Vec<Point> {
    points.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

fn count(points: &[(f64, f64)]) -> usize {
    self_crossings(line(points)).len()
}

/// A closed curve of this many segments, from its angle.
fn curve(segments: u32, at: impl Fn(f64) -> (f64, f64)) -> Vec<Point> {
    let mut points: Vec<(f64, f64)> = (0..segments)
        .map(|step| at(TAU * f64::from(step) / f64::from(segments)))
        .collect();
    points.push(points[0]);
    line(&points)
}

/// All pairs of segments, by solving for the meeting of their lines.
fn all_pairs(points: &[Point]) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    for first in 0..points.len() - 1 {
        for second in first + 2..points.len() - 1 {
            let (a, c) = (points[first], points[second]);
            let (p, q) = (points[first + 1] - a, points[second + 1] - c);
            let t = (c - a).perp(&q) / p.perp(&q);
            let s = (c - a).perp(&p) / p.perp(&q);
            if (0.0..1.0).contains(&t) && (0.0..1.0).contains(&s) {
                found.push((first, second));
            }
        }
    }
    found
}

/// The places alone, in an order of their own.
fn places(crossings: &[Crossing], back: impl Fn(Point) -> Point) -> Vec<Point> {
    let rounded = |p: Point| (p * 1e6).map(f64::round);
    let mut places: Vec<Point> = crossings.iter().map(|c| rounded(back(c.point))).collect();
    places.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    places.iter().map(|p| p + Vector::zeros()).collect()
}

#[test]
fn touches_ends_and_doubled_stretches_are_no_crossings() {
    // A touch of a corner on a straight stretch, and a passage through a corner of it.
    let base = [(0.0, 0.0), (2.0, 0.0), (4.0, 0.0), (4.0, 3.0), (3.0, 3.0)];
    let with = |more: &[(f64, f64)]| count(&[&base[..], more].concat());
    assert_eq!(with(&[(3.0, 0.0), (1.0, 3.0)]), 0);
    assert_eq!(with(&[(3.0, -1.0), (1.0, -1.0)]), 1);
    assert_eq!(with(&[(2.0, 0.0), (1.0, 3.0)]), 0);
    assert_eq!(with(&[(2.0, 0.0), (1.0, -3.0)]), 1);
    assert_eq!(with(&[(2.0, 0.0)]), 0);
    assert_eq!(with(&[(3.0, 0.0), (1.0, 0.0), (1.0, -3.0)]), 0);
    // A stem that is travelled back, and a closed line.
    assert_eq!(
        count(&[(0.0, 0.0), (1.0, 0.0), (2.0, 1.0), (1.0, 0.0), (0.0, 0.0)]),
        0
    );
    assert_eq!(count(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 0.0)]), 0);
    assert_eq!(count(&[]), 0);
    assert_eq!(count(&[(1.0, 1.0); 9]), 0);
    assert_eq!(
        count(&[(f64::NAN, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)]),
        0
    );
}

#[test]
fn a_passage_through_the_closing_point_is_a_crossing() {
    let eight = line(&[
        (0.0, 0.0),
        (1.0, 1.0),
        (2.0, 0.0),
        (1.0, -1.0),
        (0.0, 0.0),
        (-1.0, 1.0),
        (-2.0, 0.0),
        (-1.0, -1.0),
        (0.0, 0.0),
    ]);
    let crossings = self_crossings(&eight);
    assert_eq!(crossings.len(), 1);
    assert_eq!((crossings[0].first, crossings[0].second), (0, 4));
    assert_eq!(crossings[0].point, Point::origin());
}

#[test]
fn repeated_points_keep_the_numbers_of_the_segments() {
    let bow = line(&[
        (0.0, 0.0),
        (0.0, 0.0),
        (2.0, 2.0),
        (2.0, 0.0),
        (2.0, 0.0),
        (0.0, 2.0),
    ]);
    let crossings = self_crossings(&bow);
    assert_eq!((crossings[0].first, crossings[0].second), (1, 4));
}

/// A star polygon of n points that skips to the k-th has n (k - 1) crossings; a Lissajous
/// curve of coprime a and b in general position has 2 a b - a - b; a hypotrochoid that goes
/// q times round with p lobes, its pen near the rim, has p (q - 1), as its star polygon has.
#[test]
fn known_curves_have_their_known_counts() {
    for (n, k) in [(5, 2), (7, 2), (7, 3), (11, 5)] {
        let star: Vec<Point> = (0..=n)
            .map(|step| f64::from(step * k % n) * TAU / f64::from(n))
            .map(|angle| Point::new(angle.cos(), angle.sin()))
            .collect();
        assert_eq!(self_crossings(&star).len(), (n * (k - 1)) as usize);
    }
    for (a, b) in [(1.0, 2.0), (2.0, 3.0), (3.0, 4.0), (5.0, 7.0)] {
        let knot = curve(5000, |t| ((a * t).sin(), (b * t + 0.3).sin()));
        assert_eq!(self_crossings(&knot).len() as f64, 2.0 * a * b - a - b);
    }
    // A ring of radius 7, a wheel of radius 3 and one of radius 2.
    for (wheel, expected) in [(3.0, 14), (2.0, 7)] {
        let spirograph = curve(20_000, |t| {
            let turn = wheel * t;
            let arm = 7.0 - wheel;
            let angle = arm / wheel * turn;
            let pen = 0.9 * wheel;
            (
                arm * turn.cos() + pen * angle.cos(),
                arm * turn.sin() - pen * angle.sin(),
            )
        });
        assert_eq!(self_crossings(&spirograph).len(), expected);
    }
}

proptest! {
    #[test]
    fn all_pairs_agree(points in prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 4..90), flat in 0..7i32) {
        let points: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x, y * 10f64.powi(-flat))).collect();
        let found = self_crossings(&points);
        let mut pairs: Vec<_> = found.iter().map(|c| (c.first, c.second)).collect();
        for pair in found.windows(2) {
            prop_assert!(pair[0].first <= pair[1].first);
            if pair[0].first == pair[1].first {
                let start = points[pair[0].first];
                prop_assert!((pair[0].point - start).norm() <= (pair[1].point - start).norm() + 1e-12);
            }
        }
        pairs.sort_unstable();
        prop_assert_eq!(pairs, all_pairs(&points));
    }

    #[test]
    fn long_and_tiny_segments_mix(steps in prop::collection::vec((-1.0..1.0f64, -1.0..1.0f64, 0..4i32), 20..200)) {
        let mut points = vec![Point::origin()];
        for (x, y, size) in steps {
            let last = points[points.len() - 1];
            points.push(last + Vector::new(x, y) * 0.01f64.powi(size));
        }
        let mut pairs: Vec<_> = self_crossings(&points).iter().map(|c| (c.first, c.second)).collect();
        pairs.sort_unstable();
        prop_assert_eq!(pairs, all_pairs(&points));
    }

    /// On whole numbers every sign is certain, so that nothing excuses a difference.
    #[test]
    fn neither_direction_nor_turns_nor_vertices_matter(
        points in prop::collection::vec((-3..4i32, -3..4i32), 4..40), parts in 2..5usize,
    ) {
        let points: Vec<Point> = points.iter().map(|&(x, y)| Point::new(f64::from(60 * x), f64::from(60 * y))).collect();
        let expected = places(&self_crossings(&points), |p| p);

        let reversed: Vec<Point> = points.iter().rev().copied().collect();
        prop_assert_eq!(&places(&self_crossings(&reversed), |p| p), &expected);

        let quarter = Transform::rotate_degrees(90.0);
        let mut turned = points.clone();
        quarter.apply_all(&mut turned);
        let back = quarter.inverse().expect("rigid");
        prop_assert_eq!(&places(&self_crossings(&turned), |p| back.apply(p)), &expected);

        let mut fine = vec![points[0]];
        for pair in points.windows(2) {
            fine.extend((1..=parts).map(|part| pair[0] + (pair[1] - pair[0]) * part as f64 / parts as f64));
        }
        prop_assert_eq!(&places(&self_crossings(&fine), |p| p), &expected);
    }
}
