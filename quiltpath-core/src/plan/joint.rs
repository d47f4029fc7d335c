//! Where a side joins on to a corner, measured once when the corner is placed and carried from
//! there.

use crate::motif::{End, Motif};
use crate::warp::CrossLine;

/// One end of a corner's line, where a side ends or begins.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) struct Joint {
    /// The line across the band on which the side ends.
    pub(in crate::plan) line: CrossLine,
    /// Where the corner's line starts or ends, and which way it runs there.
    pub(in crate::plan) end: End,
}

impl Joint {
    /// The joints of the sides before and after a corner that end on these lines.
    pub(in crate::plan) fn of(corner: &Motif, lines: [CrossLine; 2]) -> [Self; 2] {
        let ends = [corner.start(), corner.end()];
        [0, 1].map(|at| Self {
            line: lines[at],
            end: ends[at],
        })
    }
}
