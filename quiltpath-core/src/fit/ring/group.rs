//! The sides that share a depth, the depths they may take, and what a fit of them comes to.

use super::limit::StretchLimit;
use crate::fit::span::{Choice, Count};

/// The depths that a group of rings may take.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DepthRange {
    /// The least depth, above 0.
    pub min: f64,
    /// The depth to be near to when several are equally good.
    pub preferred: f64,
    /// The greatest depth; equal to `min` when the depth is given.
    pub max: f64,
}

impl DepthRange {
    /// The depths from `min` to `max`; the middle is preferred.
    #[must_use]
    pub fn new(min: f64, max: f64) -> Self {
        let preferred = f64::midpoint(min, max);
        Self {
            min,
            preferred,
            max,
        }
    }

    /// This depth and no other.
    #[must_use]
    pub fn fixed(depth: f64) -> Self {
        Self::new(depth, depth)
    }

    /// The same range, this depth being preferred.
    #[must_use]
    pub fn with_preferred(mut self, preferred: f64) -> Self {
        self.preferred = preferred;
        self
    }
}

/// One side of a ring: how much room its repeats have, by depth.
///
/// The span is `fixed + per_depth * depth`. A side of length a + b·d between corners that take
/// f + c·d of it (both ends together) has `fixed` a − f and `per_depth` b − c.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct RingSide {
    /// The part of the span that does not change with the depth; above 0.
    pub fixed: f64,
    /// How much the span grows for each unit of depth; below 0 when corners grow with the depth.
    pub per_depth: f64,
    /// How far one repeat leads along for each unit of depth; above 0.
    pub pitch: f64,
    /// How much deeper than the shared depth the side's own band is, as on a side whose seam was
    /// sewn on waves; 0 by default, below 0 for a shallower band.
    pub deeper: f64,
    /// The allowed numbers of repeats.
    pub count: Count,
    /// Sides of a group with the same number here get the same number of repeats.
    pub tie: Option<usize>,
    /// The ring that the side belongs to: its corners are the same drawing.
    pub ring: usize,
    /// How many corner legs bound the span: 0, 1 or 2.
    pub legs: u8,
}

impl RingSide {
    /// A side by itself, with the span `fixed + per_depth * depth`: any number of repeats, of the
    /// first ring, no legs.
    #[must_use]
    pub fn new(fixed: f64, per_depth: f64, pitch: f64) -> Self {
        Self {
            fixed,
            per_depth,
            pitch,
            deeper: 0.0,
            count: Count::default(),
            tie: None,
            ring: 0,
            legs: 0,
        }
    }

    /// A side of constant length between two corners that reach `reach` · depth along it in all.
    #[must_use]
    pub fn between_corners(length: f64, reach: f64, pitch: f64) -> Self {
        Self::new(length, -reach, pitch).with_legs(2)
    }

    /// The same side, its own band so much deeper than the shared depth.
    #[must_use]
    pub fn with_deeper(mut self, deeper: f64) -> Self {
        self.deeper = deeper;
        self
    }

    /// The same side, with these numbers of repeats allowed.
    #[must_use]
    pub fn with_count(mut self, count: Count) -> Self {
        self.count = count;
        self
    }

    /// The same side, tied to the other sides with this number; `None` for a side by itself.
    #[must_use]
    pub fn with_tie(mut self, tie: impl Into<Option<usize>>) -> Self {
        self.tie = tie.into();
        self
    }

    /// The same side, of this ring.
    #[must_use]
    pub fn with_ring(mut self, ring: usize) -> Self {
        self.ring = ring;
        self
    }

    /// The same side, bounded by so many corner legs.
    #[must_use]
    pub fn with_legs(mut self, legs: u8) -> Self {
        self.legs = legs;
        self
    }

    /// The span that repeats have to fill at this depth.
    #[must_use]
    pub fn span(&self, depth: f64) -> f64 {
        self.fixed + self.per_depth * depth
    }

    /// How far one repeat leads along at its proportions, at this shared depth.
    #[must_use]
    pub fn pitch_at(&self, depth: f64) -> f64 {
        self.pitch * (depth + self.deeper)
    }

    /// The span divided by the pitch of one repeat at its proportions.
    #[must_use]
    pub fn ratio(&self, depth: f64) -> f64 {
        self.span(depth) / self.pitch_at(depth)
    }
}

/// Sides, of one ring or of several, that share one depth.
///
/// Rings of different depths that are scaled together share a depth as well: count each ring's
/// `per_depth` and `pitch` for one unit of the common scale.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct DepthGroup {
    /// The depths that the group may take.
    pub depth: DepthRange,
    /// The sides, in any order.
    pub sides: Vec<RingSide>,
    /// The stretch that numbers and depths are to keep where any do; none by default.
    pub limit: Option<StretchLimit>,
}

impl DepthGroup {
    /// These sides, in any order, with a depth from this range.
    #[must_use]
    pub fn new(depth: DepthRange, sides: Vec<RingSide>) -> Self {
        Self {
            depth,
            sides,
            limit: None,
        }
    }

    /// The same group with [`limit`](Self::limit).
    #[must_use]
    pub fn with_limit(mut self, limit: StretchLimit) -> Self {
        self.limit = Some(limit);
        self
    }
}

/// The best depth of a group, with the number of repeats and the stretch of each side.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct GroupFit {
    /// The depth.
    pub depth: f64,
    /// One for each side, in the order given.
    pub sides: Vec<Choice>,
    /// The greatest stretch either way, as a factor from 1 up: 1.25 for a side at 1.25 or at 0.8.
    pub worst: f64,
}
