//! Gaps in lines, bridged along their tangents.
//!
//! Problem: a pen that skips, a fold, or a faint stretch leaves two ends that face each other.
//! Method: pairs of free ends within the limit that lead towards each other, found by a grid; the
//! pair with the least distance and turn goes first, one to one. The gap is filled by a cubic curve
//! with the directions of both ends. Guarantee: every bridge is reported, no end is used twice;
//! O(ends) where few are near each other. Failure: of several ends that could be meant the
//! likeliest is taken, and the place is in doubt.

use std::collections::HashMap;

use super::net::{Edge, EdgeEnd, Net};
use crate::geom::{Point, Vector};

/// What was found about a gap.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Gaps {
    /// From tip to tip, those that were filled.
    pub(super) filled: Vec<[Point; 2]>,
    /// Filled, though another end was nearly as likely.
    pub(super) unsure: Vec<Point>,
    /// Ends that face each other across less than twice the limit.
    pub(super) open: Vec<[Point; 2]>,
}

struct Tip {
    end: EdgeEnd,
    point: Point,
    /// Outwards.
    along: Vector,
    length: f64,
}

struct Pair {
    cost: f64,
    tips: [usize; 2],
    distance: f64,
}

/// The net with gaps of up to `limit` from tip to tip filled.
pub(super) fn bridged(net: &Net, pen: f64, limit: f64) -> (Net, Gaps) {
    let tips = tips(net, pen);
    let mut pairs = pairs(&tips, pen, limit);
    pairs.sort_by(|one, other| one.cost.total_cmp(&other.cost));
    let mut taken = vec![None; tips.len()];
    let mut gaps = Gaps {
        filled: Vec::new(),
        unsure: Vec::new(),
        open: Vec::new(),
    };
    let mut out = net.clone();
    for pair in &pairs {
        let [one, other] = pair.tips;
        let ends = pair.tips.map(|tip| tips[tip].point);
        let before = pair.tips.into_iter().filter_map(|tip| taken[tip]);
        if let Some(least) = before.reduce(f64::min) {
            if pair.cost < 1.5 * least && pair.distance <= limit {
                gaps.unsure.push(nalgebra::center(&ends[0], &ends[1]));
            }
            continue;
        }
        if pair.distance > limit {
            gaps.open.push(ends);
            continue;
        }
        for tip in pair.tips {
            taken[tip] = Some(pair.cost);
        }
        gaps.filled.push(ends);
        out.edges.push(Edge {
            ends: pair.tips.map(|tip| {
                let (at, side) = tips[tip].end;
                net.edges[at].ends[side]
            }),
            points: curve(&tips[one], &tips[other]),
        });
    }
    (out.joined_through(), gaps)
}

/// All free ends.
fn tips(net: &Net, pen: f64) -> Vec<Tip> {
    let around = net.around();
    let free = around.iter().filter(|ends| ends.len() == 1);
    let tip = |ends: &Vec<EdgeEnd>| {
        let end = ends[0];
        let (_, along) = net.heading(end, 0.0, 2.0 * pen)?;
        Some(Tip {
            end,
            point: net.points_from(end).next()?,
            along: -along,
            length: net.length(end.0),
        })
    };
    free.filter_map(tip).collect()
}

/// Tips that face each other, within twice the limit.
fn pairs(tips: &[Tip], pen: f64, limit: f64) -> Vec<Pair> {
    // Ends at one place in great number are no gaps; each looks at so many others.
    const MOST: usize = 32;
    let reach = 2.0 * limit;
    if reach.is_nan() || reach <= 0.0 {
        return Vec::new();
    }
    let cell = |point: Point| [point.x, point.y].map(|at| (at / reach).floor() as i64);
    let mut grid: HashMap<[i64; 2], Vec<usize>> = HashMap::new();
    let mut pairs = Vec::new();
    for (at, tip) in tips.iter().enumerate() {
        let [x, y] = cell(tip.point);
        let about = (-1..=1)
            .flat_map(|dy| (-1..=1).map(move |dx| [x.saturating_add(dx), y.saturating_add(dy)]));
        let near = about.filter_map(|cell| grid.get(&cell)).flatten();
        pairs.extend(near.take(MOST).filter_map(|&other| {
            facing([&tips[other], tip], pen, reach).map(|(cost, distance)| Pair {
                cost,
                tips: [other, at],
                distance,
            })
        }));
        grid.entry([x, y]).or_default().push(at);
    }
    pairs
}

/// How unlikely it is that these two are one line, and how far they are apart.
fn facing([one, other]: [&Tip; 2], pen: f64, reach: f64) -> Option<(f64, f64)> {
    let gap = other.point - one.point;
    let distance = gap.norm();
    let itself = one.end.0 == other.end.0;
    if distance > reach || (itself && one.length < 3.0 * distance) {
        return None;
    }
    let turns = match gap.try_normalize(1e-9) {
        Some(across) => [one.along.dot(&across), -other.along.dot(&across)],
        None => [1.0; 2],
    };
    // Where the ends nearly touch, which way they look says little.
    let least = if distance < 1.5 * pen { 0.2 } else { 0.77 };
    let straight = -one.along.dot(&other.along);
    if turns[0] < least || turns[1] < least || straight < least {
        return None;
    }
    Some((
        distance * (3.0 - turns[0] - turns[1] + (1.0 - straight)),
        distance,
    ))
}

/// The cubic between two tips, without them.
fn curve(one: &Tip, other: &Tip) -> Vec<Point> {
    const PARTS: u32 = 8;
    let reach = (other.point - one.point).norm() / 3.0;
    let [a, d] = [one.point.coords, other.point.coords];
    let [b, c] = [a + one.along * reach, d + other.along * reach];
    let at = |part: u32| {
        let t = f64::from(part) / f64::from(PARTS);
        let s = 1.0 - t;
        Point::from(
            a * (s * s * s) + b * (3.0 * s * s * t) + c * (3.0 * s * t * t) + d * (t * t * t),
        )
    };
    (1..PARTS).map(at).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn strokes(lines: &[[[f64; 2]; 2]]) -> Net {
        let mut net = Net::default();
        for line in lines {
            let [from, to] = line.map(|[x, y]| Point::new(x, y));
            let start = net.nodes.len();
            net.nodes.extend([from, to]);
            net.edges.push(Edge {
                ends: [start, start + 1],
                points: (1..10)
                    .map(|at| from + (to - from) * (f64::from(at) / 10.0))
                    .collect(),
            });
        }
        net
    }

    #[test]
    fn ends_that_face_each_other_are_one_line() {
        let dashes = strokes(&[
            [[0.0, 0.0], [50.0, 0.0]],
            [[60.0, 1.0], [110.0, 1.0]],
            [[125.0, 1.0], [170.0, 3.0]],
        ]);
        let (line, gaps) = bridged(&dashes, 4.0, 20.0);
        assert_eq!((line.edges.len(), gaps.filled.len()), (1, 2));
        assert!(gaps.unsure.is_empty() && gaps.open.is_empty());
        let (line, gaps) = bridged(&dashes, 4.0, 12.0);
        assert_eq!(
            (line.edges.len(), gaps.filled.len(), gaps.open.len()),
            (2, 1, 1)
        );
        // Side by side, or back to back beside each other: no gap.
        let beside = strokes(&[[[0.0, 0.0], [50.0, 0.0]], [[0.0, 9.0], [50.0, 9.0]]]);
        assert!(bridged(&beside, 4.0, 20.0).1.filled.is_empty());
    }

    #[test]
    fn limits_that_are_none_fill_nothing() {
        let dashes = strokes(&[[[0.5, 0.5], [50.0, 0.5]], [[60.0, 0.5], [110.0, 0.5]]]);
        for limit in [0.0, -4.0, 1e-300, f64::NAN] {
            let (line, gaps) = bridged(&dashes, 4.0, limit);
            assert_eq!((line.edges.len(), gaps.filled.len()), (2, 0), "{limit}");
        }
        assert_eq!(bridged(&dashes, 4.0, f64::INFINITY).1.filled.len(), 1);
    }

    #[test]
    fn of_two_that_are_as_likely_the_place_is_in_doubt() {
        let fork = strokes(&[
            [[0.0, 0.0], [50.0, 0.0]],
            [[60.0, 2.0], [110.0, 6.0]],
            [[60.0, -2.0], [110.0, -6.0]],
        ]);
        let (line, gaps) = bridged(&fork, 4.0, 20.0);
        assert_eq!(
            (line.edges.len(), gaps.filled.len(), gaps.unsure.len()),
            (2, 1, 1)
        );
    }
}
