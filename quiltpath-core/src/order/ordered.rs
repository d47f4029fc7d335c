//! The stitching in order: loadings, passes, and runs without a thread cut.

use super::loading::Loading;
use crate::transform::Transform;
use crate::trim::Exactness;

/// All the stitching in order.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Ordered {
    /// The sweeps of the loadings that have anything to stitch, in order.
    pub loadings: Vec<Loaded>,
    /// The atoms that are deeper than any window and so in no pass, by number.
    pub too_deep: Vec<usize>,
}

/// What is stitched in one sweep while the quilt lies in one way.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Loaded {
    /// How the quilt lies.
    pub loading: Loading,
    /// True when its passes go back up the quilt, after others that went down.
    pub back: bool,
    /// The passes, in order; none is empty.
    pub passes: Vec<Pass>,
    /// As many atoms as the fewest passes, no two of which fit into one window: why fewer passes
    /// are not enough.
    pub apart: Vec<usize>,
    /// The number of runs; each is one thread cut.
    pub cuts: usize,
    /// No choice of windows in as many passes takes fewer cuts; equal to `cuts` where that is
    /// proven the least.
    pub least_cuts: usize,
    /// The fewest runs found with one more pass and with two more; equal to `cuts` where more
    /// passes save none.
    pub cuts_with_more: [usize; 2],
    /// The length of the jumps between runs, as the machine moves: advancing the quilt moves the
    /// cloth under it. None is counted to the first run, unless it goes back up: then from the last
    /// run before it.
    pub travel: f64,
    /// Whether the travel is the least possible for these runs.
    pub exactness: Exactness,
}

/// What is stitched before the quilt is advanced.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Pass {
    /// How far the window's upper edge lies below the upper edge of the quilt as loaded.
    pub top: f64,
    /// How far its lower edge lies further down: what the throat reaches from there.
    pub reach: f64,
    /// The map from the cloth to the machine: the origin is where the window's upper edge meets the
    /// left edge of the quilt's box as loaded; x to the right, y down.
    pub to_machine: Transform,
    /// The map from the machine back to the cloth.
    pub to_cloth: Transform,
    /// The runs in order.
    pub runs: Vec<Run>,
}

/// What is stitched without a thread cut.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Run {
    /// The atoms in order; each starts where the one before ends.
    pub steps: Vec<RunStep>,
    /// True when it ends where it starts.
    pub closed: bool,
}

/// An atom in a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct RunStep {
    /// The number of the atom.
    pub atom: usize,
    /// Whether it is stitched from its end to its start.
    pub reversed: bool,
}

impl Ordered {
    /// The number of passes of all loadings.
    #[must_use]
    pub fn passes(&self) -> usize {
        self.loadings.iter().map(|loaded| loaded.passes.len()).sum()
    }

    /// The number of runs of all loadings; each is one thread cut.
    #[must_use]
    pub fn cuts(&self) -> usize {
        self.loadings.iter().map(|loaded| loaded.cuts).sum()
    }

    /// What no choice of so few passes can bring the thread cuts below.
    #[must_use]
    pub fn least_cuts(&self) -> usize {
        self.loadings.iter().map(|loaded| loaded.least_cuts).sum()
    }

    /// What no order of these runs can bring the travel below.
    #[must_use]
    pub fn least_travel(&self) -> f64 {
        let least = |loaded: &Loaded| match loaded.exactness {
            Exactness::Exact => loaded.travel,
            Exactness::Bound { lower, .. } => lower,
        };
        self.loadings.iter().map(least).sum()
    }

    /// The length of the jumps between runs.
    #[must_use]
    pub fn travel(&self) -> f64 {
        self.loadings.iter().map(|loaded| loaded.travel).sum()
    }

    /// The fewest thread cuts found with one more pass and with two more, in whichever loading.
    #[must_use]
    pub fn cuts_with_more(&self) -> [usize; 2] {
        let saved =
            |loaded: &Loaded, more: usize| loaded.cuts.saturating_sub(loaded.cuts_with_more[more]);
        let most = |more: usize| {
            self.loadings
                .iter()
                .map(move |loaded| saved(loaded, more))
                .max()
        };
        let (one, two) = (most(0).unwrap_or(0), most(1).unwrap_or(0));
        // Two more: both in one, or one in each of two.
        let mut each: Vec<usize> = self
            .loadings
            .iter()
            .map(|loaded| saved(loaded, 0))
            .collect();
        each.sort_unstable_by_key(|&saved| std::cmp::Reverse(saved));
        let each = each.into_iter().take(2).fold(0, usize::saturating_add);
        [one, two.max(each)].map(|saved| self.cuts().saturating_sub(saved))
    }
}
