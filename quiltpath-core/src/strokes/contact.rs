//! Where strokes meet: ends that touch, lines that cross, stretches that are drawn on top of one
//! another.
//!
//! Problem: find each place where two lines, or two stretches of one, come within the join
//! tolerance, and what it is. Method: of each pair of segments that come so near, the part of the
//! later one within the tolerance of the earlier; parts that go on into one another are one
//! contact. In a contact an end meets the other line where it is nearest to it, a crossing is where
//! the lines cross, and else they touch where they are nearest. A stretch of 20 tolerances or more
//! that stays within a fifth of the tolerance is drawn twice. Guarantee: each contact is found
//! once, with at least one place. Failure cases: spots that hold too many segments to go through
//! (`crowded`).

use std::collections::HashMap;

use crate::geom::Point;
use crate::geom::lines::Lines;
use crate::geom::measure::share_on_segment;
use crate::geom::near::{Crowded, near_pairs};
use crate::graph::{root, unite};

/// Stretches within this share of the join tolerance lie on top of one another.
const SAME: f64 = 0.2;

/// Stretches on top of one another that are shorter than this many tolerances only touch.
const LONG: f64 = 20.0;

/// Places of one line that are nearer along it than this many tolerances don't meet.
const APART: f64 = 8.0;

/// Two lines, or two stretches of one, that come near each other. Places are distances along.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Contact {
    /// The line of the earlier segments and that of the later ones.
    pub(super) lines: [u32; 2],
    /// The places, on the earlier and on the later line, that are one.
    pub(super) meets: Vec<[f64; 2]>,
    /// The stretch of the later line that lies on the earlier one.
    pub(super) over: Option<[f64; 2]>,
}

/// All contacts of these lines, and the spots that were not gone through.
pub(super) fn contacts(lines: &Lines, join: f64) -> (Vec<Contact>, Vec<Crowded>) {
    let near = near_pairs(lines, join, APART * join);
    let wide: Vec<Part> = near
        .pairs
        .iter()
        .filter_map(|&pair| Part::of(lines, pair, join))
        .collect();
    let same = near
        .pairs
        .iter()
        .filter_map(|&pair| Part::of(lines, pair, SAME * join));
    let same: Vec<Part> = same.collect();
    let mut found = Vec::new();
    let mut over: HashMap<[u32; 2], Vec<[f64; 2]>> = HashMap::new();
    for group in groups(lines, &same) {
        let (first, last) = ends_of(&same, &group);
        let stretch = [first.along[0], last.along[1]];
        if stretch[1] - stretch[0] < LONG * join {
            continue;
        }
        let of = [lines.line(first.pair[0]), lines.line(first.pair[1])];
        over.entry(of).or_default().push(stretch);
        found.push(Contact {
            lines: of,
            meets: vec![[first.on[0], stretch[0]], [last.on[1], stretch[1]]],
            over: Some(stretch),
        });
    }
    for group in groups(lines, &wide) {
        let of =
            [wide[group[0]].pair[0], wide[group[0]].pair[1]].map(|segment| lines.line(segment));
        let mut meets = meets(lines, &wide, &group, join);
        let covered = over.get(&of).map_or(&[][..], Vec::as_slice);
        meets.retain(|&[_, later]| {
            covered
                .iter()
                .all(|&[from, to]| later < from - join || later > to + join)
        });
        if !meets.is_empty() {
            found.push(Contact {
                lines: of,
                meets,
                over: None,
            });
        }
    }
    (found, near.crowded)
}

/// The part of a later segment that lies near an earlier one.
#[derive(Debug, Clone, Copy)]
struct Part {
    /// The earlier and the later segment.
    pair: [u32; 2],
    /// Where on the later line it starts and ends.
    along: [f64; 2],
    /// The places on the earlier line that are nearest to those.
    on: [f64; 2],
    /// How far the lines are apart where they are nearest, and where that is on both.
    least: (f64, [f64; 2]),
    crosses: bool,
}

impl Part {
    fn of(lines: &Lines, (earlier, later): (u32, u32), radius: f64) -> Option<Self> {
        let (one, other) = (lines.ends(earlier), lines.ends(later));
        let within = stretch_within(one, other, radius)?;
        let at = |segment: u32, share: f64| {
            let [from, to] = lines.reach(segment);
            match share {
                1.0 => to,
                _ => from + (to - from) * share,
            }
        };
        let on = within.map(|share| {
            let point = other[0] + (other[1] - other[0]) * share;
            at(earlier, share_on_segment(point, one))
        });
        let (least, [a, b], crosses) = nearest(one, other);
        Some(Self {
            pair: [earlier, later],
            along: within.map(|share| at(later, share)),
            on,
            least: (least, [at(earlier, a), at(later, b)]),
            crosses,
        })
    }
}

/// The parts of one contact each, by their numbers.
fn groups(lines: &Lines, parts: &[Part]) -> Vec<Vec<usize>> {
    let at: HashMap<[u32; 2], usize> = parts
        .iter()
        .enumerate()
        .map(|(index, part)| (part.pair, index))
        .collect();
    let mut sets: Vec<usize> = (0..parts.len()).collect();
    let goes_on = |segment: u32| lines.has_segment(segment + 1);
    for (index, part) in parts.iter().enumerate() {
        let [earlier, later] = part.pair;
        if goes_on(later)
            && let Some(&next) = at.get(&[earlier, later + 1])
            && part.along[1] >= lines.reach(later)[1]
            && parts[next].along[0] <= lines.reach(later + 1)[0]
        {
            unite(&mut sets, [index, next]);
        }
        if goes_on(earlier)
            && let Some(&next) = at.get(&[earlier + 1, later])
            && part.along[0].max(parts[next].along[0]) <= part.along[1].min(parts[next].along[1])
        {
            unite(&mut sets, [index, next]);
        }
    }
    let mut groups: Vec<Vec<usize>> = vec![Vec::new(); parts.len()];
    for index in 0..parts.len() {
        groups[root(&mut sets, index)].push(index);
    }
    groups.retain(|group| !group.is_empty());
    groups
}

/// The parts with the first and the last place on the later line.
fn ends_of<'a>(parts: &'a [Part], group: &[usize]) -> (&'a Part, &'a Part) {
    let of = || group.iter().map(|&index| &parts[index]);
    let first = of().min_by(|a, b| a.along[0].total_cmp(&b.along[0]));
    let last = of().max_by(|a, b| a.along[1].total_cmp(&b.along[1]));
    (
        first.unwrap_or(&parts[group[0]]),
        last.unwrap_or(&parts[group[0]]),
    )
}

/// The places of a contact that are one.
fn meets(lines: &Lines, parts: &[Part], group: &[usize], join: f64) -> Vec<[f64; 2]> {
    let of = || group.iter().map(|&index| &parts[index]);
    let (first, last) = ends_of(parts, group);
    let mut meets: Vec<[f64; 2]> = Vec::new();
    let earlier_ends = [first, last].map(|part| part.pair[0]);
    let snapped = |on: f64| {
        let ends = earlier_ends.map(|segment| lines.bounds_along(segment));
        let mut ends = ends.iter().flatten();
        ends.find(|&&end| (end - on).abs() <= join)
            .copied()
            .unwrap_or(on)
    };
    for (part, side) in [(first, 0), (last, 1)] {
        let end = lines.bounds_along(part.pair[1])[side];
        if part.along[side] == end {
            meets.push([snapped(part.on[side]), end]);
        }
    }
    // An end of the earlier line that lies at the later one.
    let mut ends: Vec<(f64, [f64; 2])> = Vec::new();
    for part in of() {
        let segment = lines.ends(part.pair[0]);
        let other = lines.ends(part.pair[1]);
        let reach = lines.reach(part.pair[0]);
        for side in 0..2 {
            if reach[side] != lines.bounds_along(part.pair[0])[side] {
                continue;
            }
            let share = share_on_segment(segment[side], other);
            let [from, to] = lines.reach(part.pair[1]);
            let far = (segment[side] - (other[0] + (other[1] - other[0]) * share)).norm();
            if far <= join {
                ends.push((far, [reach[side], from + (to - from) * share]));
            }
        }
    }
    ends.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (_, meet) in ends {
        if meets.iter().all(|known| known[0] != meet[0]) {
            meets.push(meet);
        }
    }
    let by_ends = meets.len();
    for part in of().filter(|part| part.crosses) {
        let [a, b] = part.least.1;
        let known = |meet: &[f64; 2]| {
            (meet[1] - b).abs() <= 2.0 * join && (meet[0] - a).abs() <= 2.0 * join
        };
        if !meets.iter().any(known) {
            meets.push([a, b]);
        }
    }
    if by_ends == 0 && meets.is_empty() {
        let least = of().min_by(|a, b| a.least.0.total_cmp(&b.least.0));
        meets.extend(least.map(|part| part.least.1));
    }
    meets
}

/// The shares of the segment from `b[0]` to `b[1]` between which it lies within `radius` of
/// another.
///
/// What lies near a segment is convex: a strip along it and a disc at either end.
fn stretch_within(a: [Point; 2], b: [Point; 2], radius: f64) -> Option<[f64; 2]> {
    let (step, own, from) = (b[1] - b[0], a[1] - a[0], b[0] - a[0]);
    let mut range: Option<[f64; 2]> = None;
    let mut add = |[low, high]: [f64; 2]| {
        let (low, high) = (low.max(0.0), high.min(1.0));
        if low <= high {
            range = Some(range.map_or([low, high], |[l, h]| [l.min(low), h.max(high)]));
        }
    };
    let square = step.norm_squared();
    for centre in a {
        let off = b[0] - centre;
        let (half, rest) = (off.dot(&step), off.norm_squared() - radius * radius);
        let root = half * half - square * rest;
        if root >= 0.0 {
            add([
                (-half - root.sqrt()) / square,
                (-half + root.sqrt()) / square,
            ]);
        }
    }
    let length = own.norm_squared();
    let reach = radius * length.sqrt();
    let along = between(from.dot(&own), step.dot(&own), [0.0, length]);
    let across = between(from.perp(&own), step.perp(&own), [-reach, reach]);
    if let (Some(along), Some(across)) = (along, across) {
        add([along[0].max(across[0]), along[1].min(across[1])]);
    }
    range
}

/// The shares t at which `at + t * step` lies between two values.
fn between(at: f64, step: f64, [low, high]: [f64; 2]) -> Option<[f64; 2]> {
    if step == 0.0 {
        return (low <= at && at <= high).then_some([0.0, 1.0]);
    }
    let (one, other) = ((low - at) / step, (high - at) / step);
    Some([one.min(other), one.max(other)])
}

/// How far two segments are apart, the shares of both where that is, and whether they cross there.
fn nearest(a: [Point; 2], b: [Point; 2]) -> (f64, [f64; 2], bool) {
    let (own, step, from) = (a[1] - a[0], b[1] - b[0], b[0] - a[0]);
    let turn = own.perp(&step);
    if turn != 0.0 {
        let (s, t) = (from.perp(&step) / turn, from.perp(&own) / turn);
        if (0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t) {
            return (0.0, [s, t], true);
        }
    }
    let ends = [
        [0.0, share_on_segment(a[0], b)],
        [1.0, share_on_segment(a[1], b)],
        [share_on_segment(b[0], a), 0.0],
        [share_on_segment(b[1], a), 1.0],
    ];
    let far = |&[s, t]: &[f64; 2]| (from + step * t - own * s).norm();
    let best = ends.into_iter().min_by(|a, b| far(a).total_cmp(&far(b)));
    let best = best.unwrap_or_default();
    (far(&best), best, false)
}
