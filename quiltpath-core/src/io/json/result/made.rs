//! How a corner came about, in `result.json`.

use serde::{Deserialize, Serialize};

use crate::plan::CornerMade;

/// How a corner came about, with the numbers that go with it; lengths as on the cloth.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "how", rename_all = "snake_case")]
#[non_exhaustive]
pub enum Made {
    /// An L as it was drawn.
    Drawn,
    /// A drawing cut to an L and joined again.
    Trimmed {
        /// The length of the links and of what is stitched over.
        added_length: f64,
        /// That length divided by the length of the drawing's own line.
        added_share: f64,
        /// The number of links.
        links: usize,
        /// The length that is stitched over a second time.
        restitched_length: f64,
        /// The length that was dropped as slivers.
        lost_length: f64,
        /// No way of joining adds less than this; null where that isn't known.
        least_added: Option<f64>,
    },
    /// A block in the corner square.
    Block {
        /// The turn from the drawing to the cloth, clockwise.
        turn_degrees: f64,
    },
    /// The repeat, cut on the diagonal and mirrored.
    Mitred {
        /// The turn of the line at the diagonal.
        kink_degrees: f64,
        /// How often the line meets the diagonal.
        crossings: usize,
        /// The length of line that was dropped.
        lost_length: f64,
        /// The length of the links along the diagonal.
        linked_length: f64,
    },
    /// Whole repeats carried round on an arc.
    Bent {
        /// The number of repeats.
        repeats: usize,
        /// The radius of the middle of the band on the arc.
        radius: f64,
        /// The depth of the band on the arc.
        arc_depth: f64,
        /// By how much lengths along the arc change at most, as a share.
        length_change: f64,
    },
}

impl Made {
    pub(super) fn of(made: &CornerMade, length: impl Fn(f64) -> f64) -> Self {
        match *made {
            CornerMade::Drawn => Self::Drawn,
            CornerMade::Trimmed {
                added_length,
                added_share,
                links,
                restitched_length,
                lost_length,
                least_added,
            } => Self::Trimmed {
                added_length: length(added_length),
                added_share,
                links,
                restitched_length: length(restitched_length),
                lost_length: length(lost_length),
                least_added: least_added.map(&length),
            },
            CornerMade::Block { turn_degrees } => Self::Block { turn_degrees },
            CornerMade::Mitred {
                kink_degrees,
                crossings,
                lost_length,
                linked_length,
            } => Self::Mitred {
                kink_degrees,
                crossings,
                lost_length: length(lost_length),
                linked_length: length(linked_length),
            },
            CornerMade::Bent {
                repeats,
                radius,
                arc_depth,
                length_change,
            } => Self::Bent {
                repeats,
                radius: length(radius),
                arc_depth: length(arc_depth),
                length_change,
            },
        }
    }
}
