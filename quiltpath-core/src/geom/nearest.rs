//! Of points in groups, the one nearest to a place that is of another group.
//!
//! Method: a tree that halves the points by x and y in turn; a half is passed over where all of it
//! is of the group itself, or is farther away than what is found. Guarantee: no point of another
//! group is nearer. Failure cases: none; without another group there is none.
//!
//! Source: J. L. Bentley, "Multidimensional binary search trees used for associative searching"
//! (1975).

use super::point::Point;

/// Points of several groups.
pub(crate) struct Groups<'a> {
    points: &'a [Point],
    /// The numbers of the points; the middle of a range parts it.
    order: Vec<u32>,
    /// For each range, by its middle: the group of all its points, or [`MIXED`].
    common: Vec<u32>,
    group: Vec<u32>,
}

const MIXED: u32 = u32::MAX;

impl<'a> Groups<'a> {
    /// Points, all of one group at first.
    ///
    /// # Complexity
    ///
    /// O(n log n).
    pub(crate) fn new(points: &'a [Point]) -> Self {
        let mut order: Vec<u32> = (0..points.len() as u32).collect();
        part(points, &mut order, 0);
        Self {
            points,
            common: vec![0; points.len()],
            group: vec![0; points.len()],
            order,
        }
    }

    /// Gives each point another group.
    pub(crate) fn regroup(&mut self, group: impl Fn(usize) -> usize) {
        self.group = (0..self.points.len()).map(|at| group(at) as u32).collect();
        self.summed(0, self.order.len());
    }

    fn summed(&mut self, from: usize, to: usize) -> Option<u32> {
        if from >= to {
            return None;
        }
        let middle = (from + to) / 2;
        let own = self.group[self.order[middle] as usize];
        let halves = [self.summed(from, middle), self.summed(middle + 1, to)];
        let all = halves.into_iter().flatten().all(|half| half == own);
        self.common[middle] = if all { own } else { MIXED };
        Some(self.common[middle])
    }

    /// The number of the point nearest to that of this number that is of another group.
    ///
    /// # Complexity
    ///
    /// O(log n) for points that are spread evenly.
    pub(crate) fn nearest_other(&self, of: usize) -> Option<usize> {
        let mut best = (f64::INFINITY, None);
        self.search(of, (0, self.order.len()), 0, &mut best);
        best.1
    }

    /// The numbers of the points of other groups that are nearest to that of this number, nearest
    /// first, `most` at the most.
    ///
    /// # Complexity
    ///
    /// O(most · log n) for points that are spread evenly.
    pub(crate) fn nearest_others(&self, of: usize, most: usize) -> Vec<usize> {
        let mut found: Vec<(f64, usize)> = Vec::with_capacity(most + 1);
        self.gather(of, (0, self.order.len()), 0, most, &mut found);
        found.into_iter().map(|(_, at)| at).collect()
    }

    fn gather(
        &self,
        of: usize,
        (from, to): (usize, usize),
        axis: usize,
        most: usize,
        found: &mut Vec<(f64, usize)>,
    ) {
        if from >= to {
            return;
        }
        let middle = (from + to) / 2;
        if self.common[middle] == self.group[of] {
            return;
        }
        let (at, own) = (self.order[middle] as usize, self.points[of]);
        let full = |found: &[(f64, usize)]| match found.len() < most {
            true => f64::INFINITY,
            false => found.last().map_or(0.0, |last| last.0),
        };
        if self.group[at] != self.group[of] {
            let square = (self.points[at] - own).norm_squared();
            if square < full(found) {
                let place = found.partition_point(|other| other.0 <= square);
                found.insert(place, (square, at));
                found.truncate(most);
            }
        }
        let off = own[axis] - self.points[at][axis];
        let halves = [(from, middle), (middle + 1, to)];
        let [near, far] = if off <= 0.0 {
            halves
        } else {
            [halves[1], halves[0]]
        };
        self.gather(of, near, 1 - axis, most, found);
        if off * off < full(found) {
            self.gather(of, far, 1 - axis, most, found);
        }
    }

    fn search(
        &self,
        of: usize,
        (from, to): (usize, usize),
        axis: usize,
        best: &mut (f64, Option<usize>),
    ) {
        if from >= to {
            return;
        }
        let middle = (from + to) / 2;
        if self.common[middle] == self.group[of] {
            return;
        }
        let (at, own) = (self.order[middle] as usize, self.points[of]);
        if self.group[at] != self.group[of] {
            let square = (self.points[at] - own).norm_squared();
            if square < best.0 {
                *best = (square, Some(at));
            }
        }
        let off = own[axis] - self.points[at][axis];
        let halves = [(from, middle), (middle + 1, to)];
        let [near, far] = if off <= 0.0 {
            halves
        } else {
            [halves[1], halves[0]]
        };
        self.search(of, near, 1 - axis, best);
        if off * off < best.0 {
            self.search(of, far, 1 - axis, best);
        }
    }
}

fn part(points: &[Point], order: &mut [u32], axis: usize) {
    if order.len() < 2 {
        return;
    }
    let middle = order.len() / 2;
    order.select_nth_unstable_by(middle, |&a, &b| {
        points[a as usize][axis].total_cmp(&points[b as usize][axis])
    });
    let (low, high) = order.split_at_mut(middle);
    part(points, low, 1 - axis);
    part(points, &mut high[1..], 1 - axis);
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn no_other_point_is_nearer(
            places in prop::collection::vec((0..9i32, 0..9i32, 0..4usize), 1..60),
        ) {
            let points: Vec<Point> = places.iter().map(|&(x, y, _)| Point::new(x.into(), y.into())).collect();
            let mut groups = Groups::new(&points);
            groups.regroup(|at| places[at].2);
            for of in 0..points.len() {
                let far = |at: usize| (points[at] - points[of]).norm();
                let others = (0..points.len()).filter(|&at| places[at].2 != places[of].2);
                let least = others.map(far).fold(f64::INFINITY, f64::min);
                let mut all: Vec<f64> = (0..points.len())
                    .filter(|&at| places[at].2 != places[of].2)
                    .map(far)
                    .collect();
                all.sort_by(f64::total_cmp);
                all.truncate(5);
                let found: Vec<f64> = groups.nearest_others(of, 5).into_iter().map(far).collect();
                prop_assert_eq!(found, all);
                match groups.nearest_other(of) {
                    Some(at) => prop_assert!(places[at].2 != places[of].2 && far(at) == least),
                    None => prop_assert_eq!(least, f64::INFINITY),
                }
            }
        }
    }
}
