//! Windows chosen one after the other downwards, with what each covers.

use super::lines::{Cover, Lines, Stretch, add, has};
use crate::order::passes::Places;

/// How many units are looked at before ways are dropped, 2^24, and before the search ends, 2^26.
const WORK: [usize; 2] = [1 << 24, 1 << 26];

/// The most ways that are followed side by side: 1024, and 8 once the work is done.
const WAYS: [usize; 2] = [1024, 8];

/// The most stretches of one window that may be left for another: 8.
const LEFT: usize = 8;

/// The most choices of windows that are returned: 8.
const CHOICES: usize = 8;

/// Windows with the fewest runs.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::order) struct Choice {
    /// The places of the windows, each choice by itself; none when no choice within the limit was
    /// found.
    pub(in crate::order) windows: Vec<Vec<usize>>,
    /// The runs that each of these takes, strands counted apart.
    pub(in crate::order) runs: usize,
    /// No choice takes fewer; more than any found or asked for when there is none.
    pub(in crate::order) least: usize,
}

/// A way to place the first windows.
struct Way {
    /// The number of places down to the last window.
    at: usize,
    runs: usize,
    /// These runs, and the fewest that are still to come.
    least: usize,
    before: usize,
    cover: Cover,
}

/// Windows, at most as many as asked for, with the fewest runs, at most `limit`.
///
/// # Complexity
///
/// Up to 2^26 looks at units.
pub(in crate::order) fn choose(
    lines: &Lines,
    places: &Places,
    windows: usize,
    limit: usize,
) -> Choice {
    let mut search = Search {
        lines,
        places,
        windows,
        best: limit,
        dropped: usize::MAX,
        work: 0,
        found: Vec::new(),
    };
    let cover = lines.nothing();
    let least = lines.single + lines.least(0, &cover);
    let first = Way {
        at: 0,
        runs: lines.single,
        least,
        before: 0,
        cover,
    };
    if lines.reach.len() * places.tops.len() > WORK[0] {
        search.dropped = least;
    } else if least <= limit {
        search.run(first);
    }
    let least = if search.found.is_empty() {
        limit.saturating_add(1)
    } else {
        search.best
    };
    Choice {
        windows: search.found,
        runs: search.best,
        least: least.min(search.dropped),
    }
}

struct Search<'a> {
    lines: &'a Lines,
    places: &'a Places,
    windows: usize,
    /// The fewest runs found, at first the most that are wanted.
    best: usize,
    /// The least bound of the ways that were not followed.
    dropped: usize,
    work: usize,
    found: Vec<Vec<usize>>,
}

impl Search<'_> {
    fn run(&mut self, first: Way) {
        let places = self.places.tops.len();
        let stretches: Vec<Vec<Stretch>> = (0..places)
            .map(|place| self.lines.stretches(place))
            .collect();
        let mut layers = vec![vec![first]];
        for window in 1..=self.windows {
            let mut next = Vec::new();
            for (before, way) in layers[window - 1].iter().enumerate() {
                if self.work > WORK[1] {
                    self.dropped = self.dropped.min(way.least);
                    continue;
                }
                let last = self.last_place(way);
                let end = last.map_or(places, |last| last + 1);
                for (place, stretches) in stretches.iter().enumerate().take(end).skip(way.at) {
                    if window + self.places.need(place + 1) <= self.windows {
                        self.follow(way, before, place, stretches, &mut next);
                    }
                }
            }
            let mut on = Vec::new();
            for way in next {
                if way.least > self.best {
                    continue;
                }
                let done = self.places.need(way.at) == 0 && self.lines.all_done(&way.cover);
                if !done {
                    on.push(way);
                } else if way.runs < self.best || self.found.len() < CHOICES {
                    if way.runs < self.best {
                        self.best = way.runs;
                        self.found.clear();
                    }
                    self.found.push(traced(&layers, &way));
                }
            }
            if on.is_empty() || window == self.windows {
                break;
            }
            layers.push(self.thinned(on));
        }
        self.found.sort();
        self.found.dedup();
    }

    /// The last place where the next window can begin.
    fn last_place(&self, way: &Way) -> Option<usize> {
        let reach = self.lines.reach.iter().enumerate();
        let left = reach.filter(|(unit, _)| !has(&way.cover, *unit));
        let last = left.map(|(_, reach)| reach.last);
        last.chain(self.places.next(way.at)).min()
    }

    /// Adds the ways on with a window at this place: each stretch is stitched in it, or left when
    /// it can be stitched later.
    fn follow(
        &mut self,
        way: &Way,
        before: usize,
        place: usize,
        stretches: &[Stretch],
        next: &mut Vec<Way>,
    ) {
        let mut cover = way.cover.clone();
        let mut runs = way.runs;
        let mut open = Vec::new();
        for &stretch in stretches {
            self.work += 1;
            let left = || (self.lines.units(stretch)).filter(|&unit| !has(&way.cover, unit));
            if left().next().is_none() {
                continue;
            }
            let mut with = cover.clone();
            self.lines
                .units(stretch)
                .for_each(|unit| add(&mut with, unit));
            let must = left().any(|unit| self.lines.reach[unit].last == place);
            // What is left of the line takes a run, now or later. A line that starts and ends in
            // one window has two stretches there, each by itself.
            if must || self.lines.is_done(stretch.line, &with) {
                (cover, runs) = (with, runs + 1);
            } else {
                open.push(stretch);
            }
        }
        if open.len() > LEFT {
            self.dropped = self.dropped.min(way.least);
        }
        for stretch in open.split_off(open.len().min(LEFT)) {
            self.lines
                .units(stretch)
                .for_each(|unit| add(&mut cover, unit));
            runs += 1;
        }
        for taken in 0..1usize << open.len() {
            let mut cover = cover.clone();
            let mut runs = runs;
            for (k, stretch) in open.iter().enumerate() {
                if taken >> k & 1 == 1 {
                    self.lines
                        .units(*stretch)
                        .for_each(|unit| add(&mut cover, unit));
                    runs += 1;
                }
            }
            self.work += self.lines.reach.len();
            let least = runs + self.lines.least(place + 1, &cover);
            if least <= self.best {
                next.push(Way {
                    at: place + 1,
                    runs,
                    least,
                    before,
                    cover,
                });
            }
        }
    }

    /// The ways that no other takes the place of, as many as there is room for.
    fn thinned(&mut self, mut ways: Vec<Way>) -> Vec<Way> {
        ways.sort_by_key(|way| (way.least, way.at, way.runs));
        let mut kept: Vec<Way> = Vec::new();
        let most = WAYS[usize::from(self.work > WORK[0])];
        for way in ways {
            let within = |other: &Way| {
                let covers = |(mine, its): (&u64, &u64)| mine & !its == 0;
                other.at == way.at
                    && other.runs <= way.runs
                    && way.cover.iter().zip(&other.cover).all(covers)
            };
            if kept.iter().any(within) {
                continue;
            }
            if kept.len() == most {
                self.dropped = self.dropped.min(way.least);
                break;
            }
            kept.push(way);
        }
        kept
    }
}

/// The places of the windows of a way.
fn traced(layers: &[Vec<Way>], way: &Way) -> Vec<usize> {
    let mut windows = vec![way.at - 1];
    let mut before = way.before;
    for layer in layers[1..].iter().rev() {
        windows.push(layer[before].at - 1);
        before = layer[before].before;
    }
    windows.reverse();
    windows
}
