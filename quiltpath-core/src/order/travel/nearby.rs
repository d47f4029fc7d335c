//! Many runs in one pass: a good order, and a length that none goes below.
//!
//! Problem: as in `travel`, for a pass with more runs than a table over sets can hold.
//! Method: always go on to the nearest run; then turn stretches of the order round and move up to
//! three runs elsewhere, as long as that shortens the way; then exchange two stretches next to each
//! other by chance, by a rule that always gives the same, and shorten again, keeping the best; then
//! choose the best openings for that order (a shortest path from run to run); all over again while
//! it helps. The exchange is what turning and moving can't undo step by step (O. Martin, S. W. Otto
//! and E. W. Felten, "Large-step Markov chains for the traveling salesman problem", 1991; from
//! memory).
//! Guarantee: the openings are the best for the order found, not the order itself. Any order is a
//! tree on the runs, so the least spanning tree of the shortest ways between runs is a lower
//! bound. Failure: none; the work is limited by `MOVES`.

use super::openings::Openings;
use super::solved::{Before, Finish, Solved, from_before};
use crate::geom::Point;

/// How many changes of the order are looked at in one pass: 4 million.
const MOVES: usize = 1 << 22;

/// How many runs are moved elsewhere together.
const MOVED: usize = 3;

/// How many exchanges in a row may not help, for each run: 60.
const EXCHANGES: usize = 60;

/// How much longer than the best an order may be from which exchanges go on: 3 %.
const WORSE: f64 = 1.03;

/// A good order of the runs, starting from any of the ways that the pass before ends.
///
/// # Complexity
///
/// O(runs · openings + [`MOVES`]), and the squares of the openings of one run.
pub(super) fn any_order(openings: &Openings, before: &[Finish]) -> Solved {
    let mut order = nearest(openings, before);
    let mut solved = layers(openings, &order, before);
    let mut moves = MOVES;
    while let Some(best) = solved
        .finishes
        .iter()
        .min_by(|a, b| a.travel.total_cmp(&b.travel))
    {
        let (mut sequence, finish) = solved.trace(best.place);
        let start = before.get(finish).map(|finish| finish.at);
        improve(openings, &mut sequence, start, &mut moves);
        exchange(openings, &mut sequence, start, &mut moves);
        order.clear();
        order.extend(sequence.iter().map(|&opening| openings.all[opening].run));
        let next = layers(openings, &order, before);
        // Rounding must not keep it going round.
        if least(&next) >= best.travel * (1.0 - 1e-12) {
            break;
        }
        solved = next;
    }
    solved
}

fn least(solved: &Solved) -> f64 {
    let travels = solved.finishes.iter().map(|finish| finish.travel);
    travels.fold(f64::INFINITY, f64::min)
}

/// The runs in the order in which each is nearest to the end of the one before.
fn nearest(openings: &Openings, before: &[Finish]) -> Vec<usize> {
    let mut done = vec![false; openings.runs()];
    let mut order = Vec::with_capacity(done.len());
    let mut at: Option<Point> = None;
    for _ in 0..openings.runs() {
        let away = |opening: usize| {
            let entry = openings.all[opening].entry;
            at.map_or_else(|| from_before(before, entry).0, |at| (entry - at).norm())
        };
        let left = (0..openings.all.len()).filter(|&opening| !done[openings.all[opening].run]);
        let next = left.map(|opening| (away(opening), opening));
        let Some((_, next)) = next.min_by(|a, b| a.0.total_cmp(&b.0)) else {
            break;
        };
        let next = openings.all[next];
        done[next.run] = true;
        order.push(next.run);
        at = Some(next.exit);
    }
    order
}

/// The best openings for runs in a fixed order.
fn layers(openings: &Openings, order: &[usize], before: &[Finish]) -> Solved {
    let mut table = Vec::new();
    let mut travel: Vec<f64> = Vec::new();
    let mut layer = 0..0;
    for &run in order {
        let first = table.len();
        for opening in openings.of_run(run) {
            let entry = openings.all[opening].entry;
            let ways = layer.clone().map(|place: usize| {
                let (earlier, _): (usize, Before) = table[place];
                let jump = (entry - openings.all[earlier].exit).norm();
                (travel[place] + jump, Before::Place(place))
            });
            let best = ways.min_by(|a, b| a.0.total_cmp(&b.0));
            let (length, from) = best.unwrap_or_else(|| from_before(before, entry));
            travel.push(length);
            table.push((opening, from));
        }
        layer = first..table.len();
    }
    let finish = |place: usize| Finish {
        at: openings.all[table[place].0].exit,
        travel: travel[place],
        place,
    };
    Solved {
        finishes: layer.map(finish).collect(),
        exact: order.len() < 2,
        table,
    }
}

/// The same run the other way, opened at the same place.
fn mirrored(openings: &Openings, opening: usize) -> usize {
    let own = openings.all[opening];
    let other = |&other: &usize| {
        let other = openings.all.get(other);
        other.is_some_and(|other| other.run == own.run && other.at == own.at)
    };
    let [before, after] = [opening.wrapping_sub(1), opening + 1];
    let next = if own.reversed { before } else { after };
    Some(next).filter(other).unwrap_or(opening)
}

/// Shortens the way by turning stretches round and by moving runs, while that helps.
pub(super) fn improve(
    openings: &Openings,
    sequence: &mut [usize],
    start: Option<Point>,
    moves: &mut usize,
) {
    let count = sequence.len();
    let mut helped = true;
    while helped {
        helped = false;
        for i in 0..count {
            for j in i..count {
                if *moves == 0 {
                    return;
                }
                *moves -= 1;
                let way = Way {
                    openings,
                    sequence,
                    start,
                };
                if way.turning(i, j) < -way.rounding() {
                    turn(openings, &mut sequence[i..=j]);
                    helped = true;
                }
            }
        }
        for size in 1..=MOVED.min(count) {
            for i in 0..=count - size {
                for to in (0..=count - size).filter(|&to| to != i) {
                    if *moves == 0 {
                        return;
                    }
                    *moves -= 1;
                    let way = Way {
                        openings,
                        sequence,
                        start,
                    };
                    let [plain, turned] = way.moving(i, size, to);
                    if plain.min(turned) < -way.rounding() {
                        if turned < plain {
                            turn(openings, &mut sequence[i..i + size]);
                        }
                        if to > i {
                            sequence[i..to + size].rotate_left(size);
                        } else {
                            sequence[to..i + size].rotate_right(size);
                        }
                        helped = true;
                    }
                }
            }
        }
    }
}

/// Shortens the way by exchanging stretches that are next to each other, and improving that.
fn exchange(
    openings: &Openings,
    sequence: &mut Vec<usize>,
    start: Option<Point>,
    moves: &mut usize,
) {
    let count = sequence.len();
    if count < 4 {
        return;
    }
    let length = |sequence: &[usize]| {
        let way = Way {
            openings,
            sequence,
            start,
        };
        (way.length(), way.rounding())
    };
    let mut best = length(sequence).0;
    // A linear congruential generator modulo 2^64 with Knuth's multiplier, from memory.
    let mut seed = 1u64;
    let mut chance = |below: usize| {
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) as usize % below
    };
    let mut at = sequence.clone();
    let mut failed = 0;
    while failed < EXCHANGES * count && *moves > 0 {
        let mut cuts = [0; 3].map(|_: usize| chance(count + 1));
        cuts.sort_unstable();
        let [from, middle, to] = cuts;
        let mut trial = at.clone();
        trial[from..to].rotate_left(middle - from);
        if chance(2) == 0 {
            turn(openings, &mut trial[from..middle]);
        }
        improve(openings, &mut trial, start, moves);
        let (shorter, rounding) = length(&trial);
        failed += 1;
        if shorter < best - rounding {
            (*sequence, best, failed) = (trial.clone(), shorter, 0);
        }
        // Better orders may lie beyond somewhat worse ones.
        if failed % (4 * count) == 0 {
            at.clone_from(sequence);
        } else if shorter < WORSE * best {
            at = trial;
        }
    }
}

pub(super) fn turn(openings: &Openings, stretch: &mut [usize]) {
    stretch.reverse();
    for opening in stretch {
        *opening = mirrored(openings, *opening);
    }
}

/// Openings in order, and where the machine stands before the first.
struct Way<'a> {
    openings: &'a Openings,
    sequence: &'a [usize],
    start: Option<Point>,
}

impl Way<'_> {
    fn entry(&self, at: usize) -> Option<Point> {
        let opening = self.sequence.get(at)?;
        Some(self.openings.all[*opening].entry)
    }

    /// Where the machine is before the run at this position.
    fn exit_before(&self, at: usize) -> Option<Point> {
        let Some(last) = at.checked_sub(1) else {
            return self.start;
        };
        Some(self.openings.all[self.sequence[last]].exit)
    }

    /// What is too little to be a gain: sums of lengths this large are off by it.
    fn rounding(&self) -> f64 {
        let far = self.entry(0).map_or(0.0, |point| point.coords.norm());
        1e-12 * (1.0 + far)
    }

    fn length(&self) -> f64 {
        let jumps = (0..self.sequence.len()).map(|at| jump(self.exit_before(at), self.entry(at)));
        jumps.sum()
    }

    /// What the way grows by when the runs from i to j are turned round.
    fn turning(&self, i: usize, j: usize) -> f64 {
        let (before, after) = (self.exit_before(i), self.entry(j + 1));
        let (entry, exit) = (self.entry(i), self.exit_before(j + 1));
        jump(before, exit) + jump(entry, after) - jump(before, entry) - jump(exit, after)
    }

    /// What the way grows by when `size` runs from i are moved so that they start at `to`, as they
    /// are and turned round.
    fn moving(&self, i: usize, size: usize, to: usize) -> [f64; 2] {
        let (entry, exit) = (self.entry(i), self.exit_before(i + size));
        let (before, after) = (self.exit_before(i), self.entry(i + size));
        let gone = jump(before, after) - jump(before, entry) - jump(exit, after);
        let gap = if to > i { to + size } else { to };
        let (left, right) = (self.exit_before(gap), self.entry(gap));
        let plain = jump(left, entry) + jump(exit, right) - jump(left, right);
        let turned = jump(left, exit) + jump(entry, right) - jump(left, right);
        [gone + plain, gone + turned]
    }
}

/// The way from one place to another; none before a free start or after the end.
fn jump(from: Option<Point>, to: Option<Point>) -> f64 {
    match (from, to) {
        (Some(from), Some(to)) => (to - from).norm(),
        _ => 0.0,
    }
}

/// The length of the least tree of shortest ways that connects the runs of a pass.
///
/// # Complexity
///
/// O(openings²).
pub(super) fn tree(openings: &Openings) -> f64 {
    let runs = openings.runs();
    let mut away = vec![f64::INFINITY; runs];
    let mut left: Vec<usize> = (1..runs).collect();
    let (mut at, mut length) = (0, 0.0);
    while !left.is_empty() {
        for &run in &left {
            for from in &openings.all[openings.of_run(at)] {
                for to in &openings.all[openings.of_run(run)] {
                    away[run] = away[run].min((to.entry - from.exit).norm());
                }
            }
        }
        let nearest = (0..left.len()).min_by(|&a, &b| away[left[a]].total_cmp(&away[left[b]]));
        at = left.swap_remove(nearest.unwrap_or(0));
        length += away[at];
    }
    length
}
