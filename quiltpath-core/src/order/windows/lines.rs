//! Strands as lines of units, each of which some windows reach, and the stretches of a window.

use std::ops::Range;

use crate::order::cuts::Trail;
use crate::order::passes::{Places, Reach};

/// What is covered, a bit for each unit.
pub(super) type Cover = Vec<u64>;

/// A strand: units that follow each other.
#[derive(Debug, Clone, PartialEq)]
struct Line {
    units: Range<usize>,
    closed: bool,
}

/// A stretch of a line that a window reaches and that goes no further either way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    pub(super) line: usize,
    /// The unit where it starts, and how many it has; on a closed line it may go on at the first.
    start: usize,
    count: usize,
}

/// The strands of all atoms.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::order) struct Lines {
    lines: Vec<Line>,
    /// The places from which each unit is reached.
    pub(super) reach: Vec<Reach>,
    /// The number of strands that are one unit: a run each, whatever the windows.
    pub(super) single: usize,
}

impl Lines {
    /// Strands of atoms that are reached from these places.
    pub(in crate::order) fn of<'a>(
        strands: impl Iterator<Item = &'a Trail>,
        places: &Places,
    ) -> Self {
        let mut made = Self {
            lines: Vec::new(),
            reach: Vec::new(),
            single: 0,
        };
        for strand in strands {
            let mut own: Vec<Reach> = strand.atoms.iter().map(|&k| places.reach[k]).collect();
            own.dedup();
            if strand.closed && own.len() > 1 && own.first() == own.last() {
                own.pop();
            }
            if own.len() == 1 {
                made.single += 1;
                continue;
            }
            let first = made.reach.len();
            made.reach.extend(own);
            made.lines.push(Line {
                units: first..made.reach.len(),
                closed: strand.closed,
            });
        }
        made
    }

    pub(super) fn nothing(&self) -> Cover {
        vec![0; self.reach.len().div_ceil(64)]
    }

    /// Whether all units of a line are covered.
    pub(super) fn is_done(&self, line: usize, cover: &Cover) -> bool {
        let mut units = self.lines[line].units.clone();
        units.all(|unit| has(cover, unit))
    }

    /// Whether all units are covered.
    pub(super) fn all_done(&self, cover: &Cover) -> bool {
        (0..self.lines.len()).all(|line| self.is_done(line, cover))
    }

    /// The units of a stretch.
    pub(super) fn units(&self, stretch: Stretch) -> impl Iterator<Item = usize> {
        let Range { start, end } = self.lines[stretch.line].units;
        let (size, first) = (end - start, stretch.start - start);
        (0..stretch.count).map(move |k| start + (first + k) % size)
    }

    /// The stretches that the window at a place reaches.
    pub(super) fn stretches(&self, place: usize) -> Vec<Stretch> {
        let mut found = Vec::new();
        for (line, Line { units, closed }) in self.lines.iter().enumerate() {
            let reached =
                |unit: usize| (self.reach[unit].first..=self.reach[unit].last).contains(&place);
            let size = units.len();
            let gap = units.clone().find(|&unit| !reached(unit));
            let first = match gap {
                Some(gap) if *closed => gap,
                _ => units.start,
            };
            let mut count = 0;
            for k in 0..size {
                let unit = units.start + (first - units.start + k) % size;
                if reached(unit) {
                    count += 1;
                }
                let last = k + 1 == size;
                if count > 0 && (last || !reached(unit)) {
                    let end = k + usize::from(reached(unit));
                    let start = units.start + (first - units.start + end - count) % size;
                    found.push(Stretch { line, start, count });
                    count = 0;
                }
            }
        }
        found
    }

    /// The fewest stretches that cover what is left, from any windows at places from `from` on.
    pub(super) fn least(&self, from: usize, cover: &Cover) -> usize {
        let lines = self.lines.iter();
        lines.map(|line| self.least_of(line, from, cover)).sum()
    }

    fn least_of(&self, line: &Line, from: usize, cover: &Cover) -> usize {
        let units = &line.units;
        let Some(first) = units.clone().find(|&unit| !has(cover, unit)) else {
            return 0;
        };
        let (count, end) = self.greedy(units, first, from, cover);
        if !line.closed || count < 2 {
            return count;
        }
        // Some stretch starts within the first one, or right after it.
        let size = units.len();
        let starts = (first + 1..=end).map(|unit| units.start + (unit - units.start) % size);
        let left = starts.filter(|&unit| !has(cover, unit));
        let counts = left.map(|unit| self.greedy(units, unit, from, cover).0);
        counts.min().unwrap_or(count).min(count)
    }

    /// How many stretches it takes when each goes as far as it can, all round from a unit that is
    /// left, and the unit that the second starts at, counted on beyond the last.
    fn greedy(
        &self,
        units: &Range<usize>,
        first: usize,
        from: usize,
        cover: &Cover,
    ) -> (usize, usize) {
        let size = units.len();
        let (mut count, mut second) = (0, first + size);
        let mut common: Option<Reach> = None;
        // On an open line nothing before the first is left, so going round changes nothing.
        for k in 0..size {
            let unit = units.start + (first - units.start + k) % size;
            let own = Reach {
                first: self.reach[unit].first.max(from),
                ..self.reach[unit]
            };
            let both = common.map(|common| common.and(own));
            common = both.filter(|both| !both.is_none());
            if common.is_none() && !has(cover, unit) {
                count += 1;
                if count == 2 {
                    second = first + k;
                }
                common = Some(own);
            }
        }
        (count, second)
    }
}

/// Whether a unit is covered.
pub(super) fn has(cover: &Cover, unit: usize) -> bool {
    cover[unit / 64] >> (unit % 64) & 1 == 1
}

/// Covers a unit.
pub(super) fn add(cover: &mut Cover, unit: usize) {
    cover[unit / 64] |= 1 << (unit % 64);
}
