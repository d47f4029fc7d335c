//! Offsets across a band brought together: which ends meet where, and the map that brings them
//! there.

use super::options::{Across, Ends, Terminal};

/// The strongest levelling: no part of the band is drawn out or pressed together by more than this.
const MAX_LEVEL: f64 = 3.0;

/// The offsets at which each copy shall start and end.
pub(super) fn targets(
    offsets: &[[f64; 2]],
    terminals: [Terminal; 2],
    ends: Ends,
    tolerance: f64,
) -> Vec<[f64; 2]> {
    let mut targets = offsets.to_vec();
    let agree = |first: f64, second: f64, wanted: f64| {
        let near = (first - second).abs() <= tolerance;
        let can = |drawn| Level::new(drawn, wanted).is_mild();
        (near || ends == Ends::Level) && can(first) && can(second)
    };
    let last = offsets.len() - 1;
    for (end, copy) in [(0, 0), (1, last)] {
        if let Across::At(wanted) | Across::Near(wanted) = terminals[end].across
            && agree(offsets[copy][end], wanted, wanted)
        {
            targets[copy][end] = wanted;
        }
    }
    for copy in 1..offsets.len() {
        let (before, after) = (offsets[copy - 1][1], offsets[copy][0]);
        let middle = f64::midpoint(before, after);
        if before != after && agree(before, after, middle) {
            targets[copy - 1][1] = middle;
            targets[copy][0] = middle;
        }
    }
    targets
}

/// The projective map of offsets that keeps 0 and 1 and brings one offset to another.
#[derive(Debug, Clone, Copy)]
pub(super) struct Level {
    c: f64,
}

impl Level {
    pub(super) fn new(drawn: f64, wanted: f64) -> Self {
        if drawn == wanted {
            return Self { c: 1.0 };
        }
        Self {
            c: drawn * (1.0 - wanted) / (wanted * (1.0 - drawn)),
        }
    }

    /// True when the map changes nothing.
    pub(super) fn is_identity(self) -> bool {
        self.c == 1.0
    }

    fn is_mild(self) -> bool {
        (1.0 / MAX_LEVEL..=MAX_LEVEL).contains(&self.c)
    }

    pub(super) fn apply(self, t: f64) -> f64 {
        if self.is_identity() {
            t
        } else {
            (t / (t + self.c * (1.0 - t))).clamp(0.0, 1.0)
        }
    }

    pub(super) fn slope(self, t: f64) -> f64 {
        self.c / (t + self.c * (1.0 - t)).powi(2)
    }
}
