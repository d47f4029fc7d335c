//! DXF drawings that can't be read.

use std::fmt;

/// What is wrong with a DXF drawing.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum DxfFault {
    /// The file has nothing in it.
    Empty,
    /// The file is in the binary form.
    Binary,
    /// The file doesn't begin as a DXF does.
    NotDxf {
        /// How it begins.
        found: String,
    },
    /// The file ends before its end mark.
    CutOff,
    /// A group code is no whole number.
    BadCode {
        /// What stands in its place.
        found: String,
    },
    /// A number can't be read or accepted.
    BadNumber {
        /// The entity, or the variable of the header.
        entity: String,
        /// The group code.
        code: i32,
        /// The value.
        value: String,
        /// What would be accepted.
        accepted: &'static str,
    },
    /// An entity lacks a number.
    Missing {
        /// The entity.
        entity: String,
        /// The group code.
        code: i32,
    },
    /// A SPLINE can't be drawn.
    BadSpline {
        /// What is wrong with it.
        reason: String,
    },
    /// Nothing is drawn.
    NothingDrawn,
    /// The drawing has no layer of this name.
    NoLayer {
        /// The name.
        name: String,
        /// The names of the layers that there are, at most 20.
        layers: Vec<String>,
    },
    /// A point lies too far out.
    TooFar {
        /// Its coordinate.
        value: f64,
        /// The largest magnitude, in the unit of the file and in millimetres.
        limit: f64,
    },
    /// Blocks are inserted in blocks too deep.
    TooDeep {
        /// The greatest depth.
        limit: usize,
    },
    /// A block is inserted in itself.
    InsertCycle {
        /// Its name.
        block: String,
    },
}

impl fmt::Display for DxfFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(
                f,
                "the file is empty; give an ASCII DXF drawing with at least one line"
            ),
            Self::Binary => write!(
                f,
                "the file is a binary DXF, which is not read; save the drawing as ASCII DXF"
            ),
            Self::NotDxf { found } => write!(
                f,
                "not a readable DXF: it begins with \"{found}\"; an ASCII DXF begins with a row 0 and a row SECTION"
            ),
            Self::CutOff => write!(
                f,
                "not a readable DXF: the file ends before its EOF, so it looks cut off; save the drawing again"
            ),
            Self::BadCode { found } => write!(
                f,
                "not a readable DXF: \"{found}\" stands where a group code is expected, a whole number; save the drawing again as ASCII DXF"
            ),
            Self::BadNumber {
                entity,
                code,
                value,
                accepted,
            } => write!(
                f,
                "group {code} of {entity} is \"{value}\"; give {accepted}"
            ),
            Self::Missing { entity, code } => write!(
                f,
                "{entity} has no group {code}; save the drawing again, or delete it there"
            ),
            Self::BadSpline { reason } => write!(
                f,
                "this SPLINE can't be drawn: {reason}; save the drawing again, or turn it into a polyline there"
            ),
            Self::NothingDrawn => write!(
                f,
                "nothing is drawn; give a drawing with at least one LINE, ARC, CIRCLE, ELLIPSE, LWPOLYLINE, POLYLINE or SPLINE"
            ),
            Self::NoLayer { name, layers } => {
                let names: Vec<_> = layers.iter().map(|one| format!("\"{one}\"")).collect();
                write!(
                    f,
                    "no layer is called \"{name}\"; there are {}",
                    names.join(", ")
                )
            }
            Self::TooFar { value, limit } => write!(
                f,
                "a point lies at {value:.2e}; coordinates may go from -{limit:e} to {limit:e}, in the file's unit and in mm, so check the numbers, the scale of blocks and the unit"
            ),
            Self::TooDeep { limit } => write!(
                f,
                "blocks are inserted in blocks more than {limit} deep; explode some of them and save the drawing again"
            ),
            Self::InsertCycle { block } => write!(
                f,
                "the block \"{block}\" is inserted in itself; remove that INSERT"
            ),
        }
    }
}
