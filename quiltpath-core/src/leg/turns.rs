//! The turns that may lay a drawing square: those that lay an edge of its hull along an axis.
//!
//! Problem: an L drawn at an angle has to be turned before its legs can be read, and a square one
//! must not be. Method: the wave of a leg touches the leg's outer line at several crests, so that
//! line is an edge of the convex hull; the longest edges and the directions at the two ends are
//! tried. A turn is **flush** when long edges of the hull lie along both axes after it, so along
//! the outer lines of both legs, which chance rarely does. Most drawings are square, so another
//! turn has to be the clearly better one: flush, and better by its score (the share of the empty
//! corner, times how near the ends lie to the open ends); or, without such evidence, likelier by
//! far, counting how equally deep its legs are besides.
//!
//! Guarantee: none proven; on the random Ls of the tests none that is square is turned. Failure
//! cases: crests that don't reach the outer line alike give edges that are a little off, and a leg
//! that touches its outer line once gives none: a turn is then found roughly, or not taken. Where
//! both ways are likely, the other one is a doubt.

use std::f64::consts::{FRAC_PI_2, PI};

use super::reading::{MIN_SHARE, RIVAL_RATIO, View};
use super::shape::LegShape;
use crate::geom::{Bounds, BoxCorner, Point, Vector};
use crate::motif::Motif;
use crate::transform::Transform;

/// Turns nearer to 0 than this, in radians, are 0; turns nearer to each other are the same.
const SAME_TURN: f64 = 1e-5;

/// How far edges may lie off the axes, in radians, for a turn to be flush.
const FLUSH: f64 = 1e-4;

/// The same for drawings by hand, whose crests don't reach the outer line alike.
const ROUGHLY_FLUSH: f64 = 3e-3;

/// The same for keeping a drawing as it is.
const SQUARE_ENOUGH: f64 = 1e-2;

/// The part of the box's side that the edges along it must cover for a flush turn.
const FLUSH_PART: f64 = 0.4;

/// How many edges of the hull are tried, the longest first.
const EDGES_TRIED: usize = 12;

/// A flush turn scores at least this many times as high as the drawing as it is; up to here two
/// crests that aren't quite alike tilt a square one.
const TURNED: f64 = 1.0003;

/// The same for a turn that is roughly flush. Of 6,000 random square Ls some are so by chance and
/// score up to 1.1 times as high; turned by 5 degrees or more, nearly all score 1.12 times as high.
const ROUGHLY_TURNED: f64 = 1.12;

/// How many times likelier a turn must be that the hull gives no evidence for. Of 6,000 random
/// square Ls the worst is 1.4 times as likely after a turn.
const LIKELIER_BY_FAR: f64 = 1.6;

/// A turn that is so many times likelier, and isn't taken, is a doubt.
const DOUBTFUL: f64 = 1.3;

/// The convex hull of a drawing: its corners clockwise as seen, the first repeated at the end.
struct Hull {
    corners: Vec<Point>,
}

impl Hull {
    /// The hull of these points; corners that hardly turn are left out.
    ///
    /// # Complexity
    ///
    /// O(n log n).
    fn of(points: &[Point]) -> Self {
        let mut sorted = points.to_vec();
        sorted.sort_unstable_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
        let least_turn = 1e-14 * Bounds::of_nonempty(points).size().norm_squared();
        let mut corners: Vec<Point> = Vec::new();
        let mut add = |point: Point, floor: usize| {
            while let [.., a, b] = corners[floor..] {
                if (b - a).perp(&(point - b)) > least_turn {
                    break;
                }
                corners.pop();
            }
            corners.push(point);
            corners.len()
        };
        let mut count = 0;
        for point in &sorted {
            count = add(*point, 0);
        }
        for point in sorted.iter().rev().skip(1) {
            add(*point, count - 1);
        }
        Self { corners }
    }

    fn edges(&self) -> impl Iterator<Item = Vector> {
        self.corners.windows(2).map(|pair| pair[1] - pair[0])
    }

    /// True when this turn lays long edges along both sides of the box that results, to within
    /// `slack` radians.
    fn is_flush(&self, degrees: f64, slack: f64) -> bool {
        let mut turned = self.corners.clone();
        Transform::rotate_degrees(degrees).apply_all(&mut turned);
        let bounds = Bounds::of_nonempty(&turned);
        let covered = |axis: f64| -> f64 {
            turned
                .windows(2)
                .map(|pair| pair[1] - pair[0])
                .filter(|edge| {
                    let off = edge.y.atan2(edge.x) - axis;
                    (off - (off / PI).round() * PI).abs() <= slack
                })
                .map(|edge| edge.norm())
                .sum()
        };
        covered(0.0) >= FLUSH_PART * bounds.width()
            && covered(FRAC_PI_2) >= FLUSH_PART * bounds.height()
    }

    /// The turns worth trying besides 0, in degrees from -45 to 45, positive clockwise.
    fn turns(&self, motif: &Motif) -> Vec<f64> {
        let mut edges: Vec<Vector> = self.edges().collect();
        edges.sort_by(|a, b| b.norm_squared().total_cmp(&a.norm_squared()));
        edges.truncate(EDGES_TRIED);
        edges.extend([motif.start().direction, motif.end().direction]);
        let mut turns: Vec<f64> = Vec::new();
        for edge in edges {
            let angle = edge.y.atan2(edge.x);
            let turn = (angle / FRAC_PI_2).round() * FRAC_PI_2 - angle;
            let known = |other: f64| {
                let apart = (turn - other).abs();
                apart.min(FRAC_PI_2 - apart) < SAME_TURN
            };
            if !known(0.0) && !turns.iter().any(|other| known(*other)) {
                turns.push(turn);
            }
        }
        turns.iter().map(|turn| turn.to_degrees()).collect()
    }
}

/// What is no L as it lies has its ends at least so near to the open ends of the legs after a turn.
const AT_OPEN_ENDS: f64 = 0.6;

/// A turn of the drawing with its best reading.
struct Turned {
    view: View,
    shape: LegShape,
    score: f64,
    /// Whether another elbow is as likely, as in a line that runs across its box.
    has_rival: bool,
    /// How near the ends of the line are to the open ends of the legs: 1 there, 0 beyond the legs.
    nearness: f64,
}

impl Turned {
    fn of(points: &[Point], degrees: f64, elbow: Option<BoxCorner>) -> Self {
        let view = View::of(points, degrees);
        let mut readings = view.readings(elbow);
        let next = readings.get(1).map_or(0.0, |next| next.score());
        let best = readings.swap_remove(0);
        Self {
            score: best.score(),
            has_rival: next * RIVAL_RATIO >= best.score(),
            nearness: best.nearness,
            shape: best.shape,
            view,
        }
    }

    fn is_an_l(&self) -> bool {
        self.score >= MIN_SHARE
    }

    /// The score, less where the legs are not equally deep, as those of most drawings are.
    fn likelihood(&self) -> f64 {
        let depths = self.depths();
        let (less, more) = (depths[0].min(depths[1]), depths[0].max(depths[1]));
        match more > 0.0 {
            true => self.score * (less / more).sqrt(),
            false => self.score,
        }
    }

    /// Whether this is so many times likelier than the other; not by its equal legs alone.
    fn is_likelier(&self, times: f64, other: &Self) -> bool {
        self.score >= times.sqrt() * other.score && self.likelihood() >= times * other.likelihood()
    }

    fn depths(&self) -> [f64; 2] {
        [self.shape.depth_horizontal, self.shape.depth_vertical]
    }

    /// The view, with the other turn as one that may be the right one.
    fn but_perhaps(self, other: &Self) -> View {
        View {
            other: Some((other.view.degrees, other.depths())),
            ..self.view
        }
    }
}

/// The view of the turn under which the drawing is most likely an L.
///
/// The drawing as it is when that is flush; a flush turn; the drawing as it is when that is nearly
/// flush; a turn that is roughly flush; and last a turn that is likelier by far.
pub(super) fn best_turn(motif: &Motif, elbow: Option<BoxCorner>) -> View {
    let points = motif.points();
    let hull = Hull::of(points);
    let square = Turned::of(points, 0.0, elbow);
    if square.is_an_l() && hull.is_flush(0.0, FLUSH) {
        return square.view;
    }
    let turns = hull.turns(motif);
    let best = |slack: f64, accept: &dyn Fn(&Turned) -> bool, by: fn(&Turned) -> f64| {
        turns
            .iter()
            .filter(|degrees| hull.is_flush(**degrees, slack))
            .map(|degrees| Turned::of(points, *degrees, elbow))
            .filter(|turned| turned.is_an_l() && accept(turned))
            .max_by(|a, b| by(a).total_cmp(&by(b)))
    };
    let scores = |turned: &Turned| turned.score;
    let square_score = square.score;
    let at_least = |times: f64| move |turned: &Turned| turned.score >= times * square_score;
    // What is no L as it lies is one by a rough turn only where it can't be read in two ways, and
    // runs from open end to open end.
    let is_no_l = !square.is_an_l();
    let is_sure =
        |turned: &Turned| !(is_no_l && (turned.has_rival || turned.nearness < AT_OPEN_ENDS));
    if let Some(turned) = best(FLUSH, &at_least(TURNED), scores) {
        return turned.view;
    }
    if square.is_an_l() && hull.is_flush(0.0, SQUARE_ENOUGH) {
        return square.view;
    }
    let roughly = at_least(ROUGHLY_TURNED);
    let roughly = |turned: &Turned| is_sure(turned) && roughly(turned);
    if let Some(turned) = best(ROUGHLY_FLUSH, &roughly, scores) {
        return turned.but_perhaps(&square);
    }
    let likelier = |turned: &Turned| is_sure(turned) && turned.is_likelier(DOUBTFUL, &square);
    match best(f64::INFINITY, &likelier, Turned::likelihood) {
        Some(turned) if turned.is_likelier(LIKELIER_BY_FAR, &square) => turned.but_perhaps(&square),
        Some(turned) => square.but_perhaps(&turned),
        None => square.view,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn hull(points: &[(f64, f64)]) -> (Hull, Motif) {
        let points: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        let hull = Hull::of(&points);
        (hull, Motif::from_points("m", points).expect("a line"))
    }

    #[test]
    fn a_square_is_flush_and_has_no_other_turn() {
        let (hull, motif) = hull(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 4.0), (0.0, 4.0)]);
        assert_eq!(hull.edges().count(), 4);
        assert!(hull.is_flush(0.0, FLUSH));
        assert!(hull.turns(&motif).is_empty());
    }

    #[test]
    fn the_diagonal_of_an_l_is_not_flush() {
        let (hull, motif) = hull(&[(0.0, 4.0), (0.0, 0.0), (4.0, 0.0)]);
        assert!(hull.is_flush(0.0, FLUSH));
        assert!(!hull.is_flush(45.0, FLUSH));
        assert_eq!(hull.turns(&motif), [45.0]);
    }

    #[test]
    fn points_in_one_line_have_a_flat_hull() {
        let (hull, motif) = hull(&[(0.0, 0.0), (1.0, 1.0), (3.0, 3.0), (2.0, 2.0)]);
        assert_eq!(hull.edges().count(), 2);
        assert_eq!(hull.turns(&motif).len(), 1);
    }

    proptest! {
        #[test]
        fn all_points_lie_within_the_hull(points in prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 3..40)) {
            let (hull, motif) = hull(&points);
            let points = motif.points();
            let first = points.iter().min_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
            let mut corner = *first.expect("points");
            for edge in hull.edges() {
                for point in points {
                    prop_assert!(edge.perp(&(point - corner)) >= -1e-9);
                }
                corner += edge;
            }
            prop_assert!((corner - first.expect("points")).norm() < 1e-9);
        }
    }
}
