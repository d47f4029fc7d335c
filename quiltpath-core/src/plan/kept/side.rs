//! A side that has begun: its repeats in blocks that are kept and stretches that are open.

use std::ops::Range;

use super::motion::Motion;
use crate::error::{Error, StitchedFault};
use crate::geom::{Point, Vector};
use crate::plan::stitched::StitchedPart;

/// Stitched stretches that are shorter, in millimetres, begin no repeat.
const BEGUN_MM: f64 = 1e-6;

/// Repeats that follow each other and are kept, where they lie now.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Block {
    /// Which repeats they are, from 0.
    pub(in crate::plan) repeats: Range<usize>,
    pub(in crate::plan) points: Vec<Point>,
    /// The indices of the points where its repeats end.
    pub(in crate::plan) ends: Vec<usize>,
    /// The segments that are links, by the index of their first point.
    pub(in crate::plan) links: Vec<usize>,
    /// The directions of travel at its ends.
    pub(in crate::plan) directions: [Vector; 2],
    /// From where to where it is stitched, as lengths along it.
    pub(in crate::plan) stretches: Vec<[f64; 2]>,
}

/// What is kept of a side.
#[derive(Debug, Clone)]
pub(in crate::plan) struct KeptSide {
    /// The number of repeats, kept ones and others.
    pub(in crate::plan) repeats: usize,
    /// At least one, in the order of travel.
    pub(in crate::plan) blocks: Vec<Block>,
    /// The stretches of the whole line that are stitched, as shares of its length as it was.
    pub(in crate::plan) stretches: Vec<[f64; 2]>,
    /// Whether its ends lay on the ends of corners.
    meets: [bool; 2],
}

impl KeptSide {
    /// What is kept of a side; for each end the motion of the corner there and that of the side
    /// itself, and whether that corner has begun.
    pub(super) fn new(
        part: &StitchedPart,
        meets: [bool; 2],
        ways: [(Motion, Motion); 2],
        held: [bool; 2],
    ) -> Result<Self, Error> {
        let motif = &part.line.motif;
        let points = motif.points();
        let mut reached = vec![0.0];
        for pair in points.windows(2) {
            reached.push(reached[reached.len() - 1] + (pair[1] - pair[0]).norm());
        }
        let length = reached[points.len() - 1];
        let stitched = part.stretches.iter();
        let stitched: Vec<[f64; 2]> = stitched
            .map(|stretch| stretch.map(|share| share * length))
            .collect();
        let ends = &part.line.ends;
        let repeats = ends.len();
        let first_of = |repeat: usize| repeat.checked_sub(1).map_or(0, |before| ends[before]);
        let kept: Vec<bool> = (0..repeats)
            .map(|repeat| {
                let [low, high] = [first_of(repeat), ends[repeat]].map(|point| reached[point]);
                let begun = |&[from, to]: &[f64; 2]| to.min(high) - from.max(low) > BEGUN_MM;
                stitched.iter().any(begun)
            })
            .collect();
        let open = kept.iter().filter(|kept| !**kept).count();
        if open == repeats {
            return Err(StitchedFault::Malformed {
                reason: "no repeat of the side is stitched; give the stretches as they were written",
            }
            .into());
        }
        // Each end goes where its corner takes it, turned as the side is.
        let [first, last] = [(0, motif.start()), (1, motif.end())].map(|(end, at)| {
            let (corner, side) = &ways[end];
            corner.turning_like(side, at.point)
        });
        let mut blocks = Vec::new();
        let mut open_before = 0;
        let mut at = 0;
        while at < repeats {
            if !kept[at] {
                open_before += 1;
                at += 1;
                continue;
            }
            let end = (at..repeats).find(|&next| !kept[next]).unwrap_or(repeats);
            let share = match (open, held) {
                // Nothing is left to take up a change: it goes where its begun corners are.
                (0, [true, _]) => 0.0,
                (0, [false, true]) => 1.0,
                (0, _) => 0.5,
                _ => f64::from(open_before as u32) / f64::from(open as u32),
            };
            let motion = first.towards(&last, share);
            let [low, high] = [first_of(at), ends[end - 1]];
            let here = &points[low..=high];
            let own = |index: &usize| (low..=high).contains(index);
            let step = |from: usize| crate::geom::unit_vector(points[from + 1] - points[from]);
            let directions = [
                if low == 0 {
                    motif.start().direction
                } else {
                    step(low)
                },
                if high + 1 == points.len() {
                    motif.end().direction
                } else {
                    step(high - 1)
                },
            ];
            blocks.push(Block {
                repeats: at..end,
                points: here.iter().map(|&point| motion.point(point)).collect(),
                ends: ends[at..end].iter().map(|stop| stop - low).collect(),
                links: (motif.links().iter().copied())
                    .filter(|link| own(link) && own(&(link + 1)))
                    .map(|link| link - low)
                    .collect(),
                directions: directions.map(|direction| motion.vector(direction)),
                stretches: (stitched.iter())
                    .map(|&[from, to]| {
                        [from, to].map(|at| at.clamp(reached[low], reached[high]) - reached[low])
                    })
                    .filter(|[from, to]| to - from > BEGUN_MM)
                    .collect(),
            });
            at = end;
        }
        Ok(Self {
            repeats,
            blocks,
            stretches: part.stretches.clone(),
            meets,
        })
    }

    /// How many repeats are open.
    pub(in crate::plan) fn open(&self) -> usize {
        let kept: usize = self.blocks.iter().map(|block| block.repeats.len()).sum();
        self.repeats - kept
    }

    /// Where its start is, when that is kept, or its end.
    pub(in crate::plan) fn kept_end(&self, last: bool) -> Option<Point> {
        match last {
            false => {
                let block = self.blocks.first()?;
                (block.repeats.start == 0).then(|| block.points[0])
            }
            true => {
                let block = self.blocks.last()?;
                let end = block.points[block.points.len() - 1];
                (block.repeats.end == self.repeats).then_some(end)
            }
        }
    }

    /// Whether its start, or its end, is stitched.
    pub(in crate::plan) fn is_stitched_at(&self, last: bool) -> bool {
        is_stitched_at(&self.stretches, last)
    }

    /// Whether its start, or its end, lay on the end of a corner.
    pub(in crate::plan) fn met(&self, last: bool) -> bool {
        self.meets[usize::from(last)]
    }
}

/// Whether stretches, as shares of a line, reach its start, or its end.
pub(super) fn is_stitched_at(stretches: &[[f64; 2]], last: bool) -> bool {
    match last {
        false => stretches.first().is_some_and(|first| first[0] == 0.0),
        true => stretches.last().is_some_and(|last| last[1] == 1.0),
    }
}
