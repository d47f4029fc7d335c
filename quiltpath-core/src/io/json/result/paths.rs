//! Joins of pieces, and the lines that they make, in `result.json`.

use serde::{Deserialize, Serialize};

use crate::io::numbers::{in_unit, point_in_unit};
use crate::plan::{self, Solved};

/// Where one piece ends and the next starts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Join {
    /// The name of the piece that ends.
    pub from: String,
    /// The name of the piece that starts.
    pub to: String,
    /// The distance between the two ends.
    pub gap: f64,
    /// The turn between the two directions of travel, from 0 to 180.
    pub kink_degrees: f64,
}

/// A line that is stitched without a thread cut.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Path {
    /// The name of its border.
    pub border: String,
    /// The names of its pieces in order.
    pub pieces: Vec<String>,
    /// True when it ends where it starts.
    pub closed: bool,
    /// Where it starts.
    pub start: [f64; 2],
    /// Where it ends.
    pub end: [f64; 2],
    /// Its length.
    pub length: f64,
}

impl Join {
    pub(super) fn of(join: &plan::Join, solved: &Solved) -> Self {
        let name = |piece: usize| solved.pieces[piece].name.clone();
        Self {
            from: name(join.from),
            to: name(join.to),
            gap: in_unit(join.gap, solved.unit),
            kink_degrees: join.kink_degrees,
        }
    }
}

impl Path {
    pub(super) fn of(path: &plan::Path, solved: &Solved) -> Self {
        let unit = solved.unit;
        let name = |&piece: &usize| solved.pieces[piece].name.clone();
        Self {
            border: solved.layouts[path.border].name.clone(),
            pieces: path.pieces.iter().map(name).collect(),
            closed: path.closed,
            start: point_in_unit(path.motif.start().point, unit),
            end: point_in_unit(path.motif.end().point, unit),
            length: in_unit(path.motif.length(), unit),
        }
    }
}
