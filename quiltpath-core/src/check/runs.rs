//! The runs along which two stretches of line stay within a distance of each other.
//!
//! Problem: of all pairs of places (s, t) on lines, s before t in the order of stitching, that
//! are within a distance, which belong together? Method: every pair of near segments gives a convex
//! set of pairs (`cell`); two sets are joined where they share a place between a segment and the
//! next one. What is joined is a run: one can walk along both stretches at once, to and fro, and
//! stay within the distance. Its parts are all s and all t of it.
//! Guarantee: exactly the connected components, up to rounding, as comparing all sets with all
//! gives (held against it in tests), less those of crowded squares. A plain crossing at the angle
//! θ is a run of 2 d / sin θ on both lines, so that crossings differ from lines side by side by
//! their length alone. Failure: none.

mod left_out;

use super::cell::{Cell, Shape};
use super::found::LinePart;
use crate::geom::Point;
use crate::geom::lines::Lines;
use left_out::LeftOut;

pub(super) use left_out::Taken;

/// A run as it is gathered.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Component {
    /// The first and the last segment of either part.
    pub(super) segments: [[u32; 2]; 2],
    /// From where to where along its line either part goes.
    pub(super) reach: [[f64; 2]; 2],
    /// The least distance between the two.
    pub(super) nearest: f64,
    /// The place on the first part where it is.
    pub(super) at: Point,
    /// The least distance from one part to the other along their line, with its end on the first.
    pub(super) gap: (f64, f64),
    /// The segments on which it starts and ends.
    pub(super) gap_segments: [u32; 2],
    /// True when it is joined to the pairs (s, s).
    pub(super) diagonal: bool,
}

/// Which pairs of places count.
pub(super) struct Rule<'a> {
    pub(super) distance: f64,
    /// The least and the greatest distance along the line between places of one line.
    pub(super) gap: [f64; 2],
    /// What is left out, in the order of the first segments.
    pub(super) taken: &'a [Taken],
}

/// All runs among these pairs of segments, which are in order, the smaller number first.
///
/// # Complexity
///
/// O(pairs + segments that runs left out reach), but for those that overlap.
pub(super) fn runs(lines: &Lines, pairs: &[(u32, u32)], rule: &Rule<'_>) -> Vec<Component> {
    let mut sets = Sets::default();
    let (mut above, mut row) = (Vec::<Entry>::new(), Vec::<Entry>::new());
    let mut left_out = LeftOut::new(rule.taken);
    let mut current = None;
    for &(first, second) in pairs {
        if current != Some(first) {
            (above, row) = (row, above);
            row.clear();
            let follows =
                first > 0 && current == Some(first - 1) && lines.same_line(first, first - 1);
            if !follows {
                above.clear();
            }
            current = Some(first);
            left_out.first(first);
        }
        for &x in left_out.ranges(lines, first, second) {
            let cell = Cell::new(lines, [first, second], x, rule.gap);
            let Some(shape) = cell.shape(rule.distance) else {
                continue;
            };
            let [start, end] = shape.at_ends_of_q;
            let mut component = component(lines, [first, second], &shape);
            // The next segment but one is joined to the pairs (s, s) by the segment between.
            let beside = second == first + 2 && lines.same_line(first, second);
            component.diagonal = beside && (start.is_some() || shape.at_ends_of_p[1]);
            let follows = second > 0 && lines.same_line(second, second - 1);
            let before = row
                .iter()
                .rev()
                .take_while(|entry| entry.second + 1 >= second);
            let before = before
                .filter(|entry| follows && entry.second + 1 == second && overlap(entry.end, start));
            let from = above.partition_point(|entry| entry.second < second);
            let over = above[from..]
                .iter()
                .take_while(|entry| entry.second == second);
            let over = over.filter(|entry| entry.goes_on && shape.at_ends_of_p[0]);
            let set = sets.add(component, before.chain(over).map(|entry| entry.set));
            row.push(Entry {
                second,
                set,
                end,
                goes_on: shape.at_ends_of_p[1],
            });
        }
    }
    sets.roots()
}

/// Distances that differ by no more than this are one.
const SAME: f64 = 1e-9;

fn component(lines: &Lines, segments: [u32; 2], shape: &Shape) -> Component {
    let starts = segments.map(|segment| lines.reach(segment)[0]);
    let (nearest, x) = shape.nearest;
    Component {
        segments: segments.map(|segment| [segment; 2]),
        reach: [
            shape.x.map(|x| starts[0] + x),
            shape.y.map(|y| starts[1] + y),
        ],
        nearest,
        at: lines.point(segments[0], starts[0] + x),
        gap: (starts[1] - starts[0] + shape.gap.0, starts[0] + shape.gap.1),
        gap_segments: segments,
        diagonal: false,
    }
}

fn overlap(one: Option<[f64; 2]>, other: Option<[f64; 2]>) -> bool {
    matches!((one, other), (Some([a, b]), Some([c, d])) if a <= d && c <= b)
}

/// A set of the row that is gone through, or of the one above it.
struct Entry {
    second: u32,
    set: u32,
    /// Where on the first segment the set reaches the end of the second one.
    end: Option<[f64; 2]>,
    /// True when it reaches the end of the first segment.
    goes_on: bool,
}

/// Disjoint sets with what is known of each.
#[derive(Default)]
struct Sets {
    parents: Vec<u32>,
    components: Vec<Component>,
}

impl Sets {
    /// The set of this and of all that it is joined to: a new one only when there is none.
    fn add(&mut self, component: Component, joined: impl Iterator<Item = u32>) -> u32 {
        let mut set = None;
        for other in joined {
            set = Some(set.map_or(other, |set| self.join(set, other)));
        }
        if let Some(set) = set {
            let root = self.root(set);
            self.components[root as usize].absorb(component);
            return root;
        }
        self.parents.push(self.parents.len() as u32);
        self.components.push(component);
        self.parents.len() as u32 - 1
    }

    fn root(&mut self, mut set: u32) -> u32 {
        while self.parents[set as usize] != set {
            let over = self.parents[self.parents[set as usize] as usize];
            self.parents[set as usize] = over;
            set = over;
        }
        set
    }

    fn join(&mut self, one: u32, other: u32) -> u32 {
        let (one, other) = (self.root(one), self.root(other));
        // The older one stays the root, so that runs come in the order of stitching.
        let (keep, gone) = (one.min(other), one.max(other));
        if keep != gone {
            self.parents[gone as usize] = keep;
            let gone = self.components[gone as usize].clone();
            self.components[keep as usize].absorb(gone);
        }
        keep
    }

    fn roots(self) -> Vec<Component> {
        let roots = self
            .parents
            .iter()
            .zip(0..)
            .map(|(parent, set)| *parent == set);
        roots
            .zip(self.components)
            .filter_map(|(root, component)| root.then_some(component))
            .collect()
    }
}

impl Component {
    fn absorb(&mut self, other: Self) {
        for part in [0, 1] {
            let ([first, last], [low, high]) = (other.segments[part], other.reach[part]);
            let (segments, reach) = (&mut self.segments[part], &mut self.reach[part]);
            *segments = [segments[0].min(first), segments[1].max(last)];
            *reach = [reach[0].min(low), reach[1].max(high)];
        }
        // Lines on top of one another are equally near all along; rounding decides no place.
        if other.nearest < self.nearest - SAME {
            self.at = other.at;
        }
        self.nearest = self.nearest.min(other.nearest);
        if other.gap.0 < self.gap.0 {
            (self.gap, self.gap_segments) = (other.gap, other.gap_segments);
        }
        self.diagonal |= other.diagonal;
    }

    /// The length of the shorter part.
    pub(super) fn length(&self) -> f64 {
        let [first, second] = self.reach.map(|[from, to]| to - from);
        first.min(second)
    }

    /// Both parts, by lines and points as given.
    pub(super) fn parts(&self, lines: &Lines) -> [LinePart; 2] {
        [0, 1].map(|part| LinePart::new(lines, self.segments[part], self.reach[part]))
    }
}

#[cfg(test)]
mod tests;
