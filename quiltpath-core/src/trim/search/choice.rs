//! A choice of ends for the path, and what it adds at the least: O(1) for each.
//!
//! Places on the ring change the parity of their nodes, which flips the arcs between them; sums
//! along the ring give what the flipped pattern asks for, and the bound follows (`postman`).

use crate::trim::postman::{Flip, Pattern};

/// An end of the path, or of a thread cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum End {
    /// This vertex.
    At(usize),
    /// The first or the second place that is searched for.
    Searched(usize),
}

/// The ends of the path and of its thread cuts, up to the places that are searched for.
pub(crate) struct Case {
    /// How many places are searched for: 0, 1 or 2.
    pub(crate) searched: usize,
    pub(crate) ends: [End; 2],
    pub(crate) cuts: Vec<[End; 2]>,
}

/// A place where the path may end.
#[derive(Debug, Clone, Copy)]
pub(super) struct Candidate {
    pub(super) vertex: usize,
    /// The node whose parity changes when the path ends there.
    pub(super) node: usize,
    /// What isn't stitched back over when the path ends there.
    pub(super) spared: Option<usize>,
    /// What it adds: less than 0 when something is spared.
    pub(super) adds: f64,
}

/// The places chosen, as many as are searched for.
pub(super) type Places = [Option<Candidate>; 2];

/// Places chosen, and what they add at the least.
#[derive(Debug, Clone, Copy)]
pub(super) struct Choice {
    pub(super) places: Places,
    pub(super) flip: Flip,
    /// What parity asks for: arcs, stubs, pieces stitched over.
    pub(super) parity: f64,
    pub(super) bound: f64,
}

/// One case with fixed pieces stitched over: what all its choices share.
pub(super) struct Scope<'p> {
    pub(super) case: usize,
    pub(super) doubled: &'p [bool],
    pub(super) pattern: &'p Pattern,
    /// The length of the pieces stitched over.
    pub(super) over: f64,
    /// No set of arcs that connects the pieces is shorter.
    pub(super) spanning: f64,
}

impl Scope<'_> {
    /// What these places add at the least; `other` is the bit of the parity.
    pub(super) fn choice(&self, places: Places, other: bool) -> Choice {
        let (from, to) = match places {
            [None, None] => (0, 0),
            // Without a second place the arcs are flipped up to where the ring is cut open.
            [Some(place), None] | [None, Some(place)] => (place.node, self.pattern.len()),
            [Some(a), Some(b)] => (a.node.min(b.node), a.node.max(b.node)),
        };
        let toggles = if from == to {
            0.0
        } else {
            let toggled = |place: &Candidate| self.pattern.toggled(place.node);
            places.iter().flatten().map(toggled).sum()
        };
        let adds: f64 = places.iter().flatten().map(|place| place.adds).sum();
        let flip = Flip { from, to, other };
        self.with(places, flip, self.over + adds + toggles)
    }

    /// What these flips add at the least, `rest` being what isn't arcs or stubs.
    pub(super) fn with(&self, places: Places, flip: Flip, rest: f64) -> Choice {
        let rest = rest + self.pattern.stubs();
        let length = self.pattern.length(flip);
        Choice {
            places,
            flip,
            parity: length + rest,
            bound: length.max(2.0 * self.spanning - length) + rest,
        }
    }

    /// Good pairs to start from, and a bound for all pairs: for each second place the first place
    /// with which parity asks for least.
    pub(super) fn seeds(&self, candidates: &[Candidate]) -> (Vec<Choice>, f64) {
        let last = candidates[candidates.len() - 1];
        let mut seeds = Vec::new();
        for bit in [false, true] {
            let pair = |first, second| self.choice([Some(first), Some(second)], bit);
            let mut first = candidates[0];
            let mut best: Option<Choice> = None;
            for &second in &candidates[1..] {
                let choice = pair(first, second);
                if best.is_none_or(|best| choice.parity < best.parity) {
                    best = Some(choice);
                }
                // A first place that is better with one second place is so with all others.
                if pair(second, last).parity < pair(first, last).parity {
                    first = second;
                }
            }
            seeds.extend(best);
        }
        let parity = seeds.iter().map(|seed| seed.parity);
        let parity = parity.fold(f64::INFINITY, f64::min);
        let toggles = (0..self.pattern.len()).map(|node| self.pattern.toggled(node));
        let toggle = toggles.fold(0.0, f64::min);
        let spared: f64 = candidates.iter().map(|candidate| candidate.adds).sum();
        let connected = self.spanning + self.over + self.pattern.stubs() + 2.0 * toggle + spared;
        (seeds, parity.max(connected))
    }
}
