//! A way for the drawings of a border to lie, and what it comes to.

use super::ask::{BorderSpec, CornerLie, SideLie};
use crate::chain::Alternate;
use crate::corner::Arrangement;

/// A step of levelling, in millimetres: 1/16 in.
const LEVEL_MM: f64 = 25.4 / 16.0;

/// A step of a turn, in degrees.
const TURN_DEGREES: f64 = 5.0;

/// A step of stretch: a percent.
const STRETCH: f64 = 0.01;

/// How the drawings of a border lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Way {
    /// How the repeat lies.
    pub side: SideLie,
    /// How the corner lies.
    pub corner: CornerLie,
    /// How the corners are arranged.
    pub arrangement: Arrangement,
    /// Which repeats are mirrored.
    pub alternate: Alternate,
}

/// What a way comes to.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct WayCost {
    /// How many links are stitched, between repeats and where sides meet corners.
    pub links: usize,
    /// The most that an end is moved across the band by levelling, in millimetres.
    pub levelled: f64,
    /// The sharpest turn where lines meet, in degrees from 0 to 180.
    pub kink_degrees: f64,
    /// How far the worst stretch is from 1, as a share.
    pub stretch: f64,
}

impl WayCost {
    /// Counts a line in, by its links, the most that it is levelled, its sharpest turn and its
    /// stretch.
    pub(in crate::plan) fn add(
        &mut self,
        (links, levelled, turn): (usize, f64, f64),
        stretch: f64,
    ) {
        self.links += links;
        self.levelled = self.levelled.max(levelled);
        self.kink_degrees = self.kink_degrees.max(turn);
        self.stretch = self.stretch.max((stretch - 1.0).abs());
    }

    /// The same in steps that can be felt, what counts most first.
    #[must_use]
    pub fn steps(&self) -> [usize; 4] {
        let steps = |value: f64, step: f64| (value / step).round() as usize;
        [
            self.links,
            steps(self.levelled, LEVEL_MM),
            steps(self.kink_degrees, TURN_DEGREES),
            steps(self.stretch, STRETCH),
        ]
    }
}

impl Way {
    /// The way of a border as its plan has it.
    #[must_use]
    pub fn of(border: &BorderSpec) -> Self {
        Self {
            side: border.side.lie,
            corner: border.corner.lie,
            arrangement: border.corner.arrangement.unwrap_or_default(),
            alternate: border.side.alternate,
        }
    }
}

/// The best way for the drawings of a border to lie, beside the way that its plan has.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct BestWay {
    /// The way as the plan has it.
    pub drawn: Way,
    /// The best.
    pub way: Way,
    /// What both come to, the plan's first.
    pub costs: [WayCost; 2],
}
