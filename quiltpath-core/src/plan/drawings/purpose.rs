//! What a drawing is for: what it is sized by, and where its line starts and ends.

use crate::leg::{LegGiven, rough_legs};
use crate::plan::asked::CornerAsked;
use crate::strokes::{Drawing, LineEnds};

/// What a drawing is for, and so what it is sized by and where its line starts and ends.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) enum Purpose<'a> {
    /// A repeat, sized by its height.
    Repeat,
    /// An L, sized by the less deep of its legs.
    Legs(&'a LegGiven),
    /// What is cut to an L whose legs are so deep, in millimetres.
    Cut(f64),
    /// A block, sized by its larger extent, whose thread may be cut at this price.
    Block(f64),
}

impl Purpose<'_> {
    /// What the corner drawing of a border is for.
    pub(in crate::plan) fn corner(asked: &CornerAsked) -> Purpose<'_> {
        match asked {
            CornerAsked::Leg { given, .. } => Purpose::Legs(given),
            CornerAsked::Trimmed { cut, .. } => Purpose::Cut(cut.leg_depth),
            CornerAsked::Block { cut, .. } => Purpose::Block(*cut),
            _ => Purpose::Block(f64::INFINITY),
        }
    }

    /// How many times as large a drawing becomes that is to be so deep, and where its line starts
    /// and ends; 1 where it has no size, which is refused later.
    pub(in crate::plan) fn of(self, drawing: &Drawing, depth: f64) -> (f64, LineEnds) {
        let size = drawing.bounds().map(|bounds| bounds.size());
        let (size, ends) = match self {
            Self::Repeat => (size.map(|size| size.y), LineEnds::Across),
            Self::Legs(given) => match rough_legs(drawing, given) {
                Some(legs) => (
                    Some(legs.depth_horizontal.min(legs.depth_vertical)),
                    LineEnds::Legs(legs),
                ),
                None => (size.map(|size| size.min()), LineEnds::Free),
            },
            Self::Cut(depth) => (Some(depth), LineEnds::Free),
            Self::Block(_) => (size.map(|size| size.max()), LineEnds::Free),
        };
        let factor = depth / size.unwrap_or(depth);
        match factor > 0.0 && factor.is_finite() {
            true => (factor, ends),
            false => (1.0, ends),
        }
    }

    /// The same for a band of this depth where that is known, or else as large as it is drawn.
    pub(in crate::plan) fn sized(self, drawing: &Drawing, depth: Option<f64>) -> (f64, LineEnds) {
        let (factor, ends) = self.of(drawing, depth.unwrap_or(1.0));
        (depth.map_or(1.0, |_| factor), ends)
    }

    /// How much line a thread cut counts for on the cloth, where the thread may be cut.
    pub(in crate::plan) fn cut(self) -> Option<f64> {
        match self {
            Self::Block(cut) if cut.is_finite() => Some(cut),
            _ => None,
        }
    }
}
