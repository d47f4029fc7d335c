//! What is stitched already, and a plan that it can't be brought together with.

use std::fmt;

use crate::units::Unit;

/// What keeps stitching from being taken down, or a plan from being solved round what is stitched;
/// lengths in millimetres.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum StitchedFault {
    /// A stretch of a piece is stitched already.
    Twice {
        /// The name of the piece.
        piece: String,
        /// From where to where on it, as shares of its length.
        between: [f64; 2],
    },
    /// A stretch is none of the piece: it ends before it starts or lies outside the line.
    NoStretch {
        /// The name of the piece.
        piece: String,
        /// From where to where on it, as shares of its length.
        between: [f64; 2],
    },
    /// A piece that is begun is stitched along another line than the plan has.
    OtherLine {
        /// The name of the piece.
        piece: String,
    },
    /// A border lies elsewhere than where it lay when it was begun.
    OtherPlace {
        /// The name of the border.
        border: String,
    },
    /// A border that has begun is not in the plan.
    BorderGone {
        /// Its name.
        border: String,
        /// The names of the borders that the plan has.
        borders: Vec<String>,
    },
    /// A round border has begun, and the plan has it elsewhere, or of another depth.
    RoundChanged {
        /// Its name.
        border: String,
    },
    /// Blocks have begun, and the plan has them elsewhere, or others.
    BlocksChanged {
        /// A place that has begun.
        piece: String,
    },
    /// A border that has begun has another number of sides.
    OtherSides {
        /// Its name.
        border: String,
        /// The number of sides when it was begun.
        stitched: usize,
        /// The number that the plan has.
        asked: usize,
    },
    /// The corners of a border that has begun are to be of another style.
    OtherCorner {
        /// The name of the border.
        border: String,
        /// The style that is stitched.
        stitched: &'static str,
        /// The style that the plan asks for.
        asked: &'static str,
    },
    /// A border that has begun is too narrow for its band.
    BandTooDeep {
        /// The name of the border.
        border: String,
        /// The side, such as `top side`.
        side: String,
        /// What the band and its seam gap take.
        taken: f64,
        /// The width of the border.
        width: f64,
    },
    /// A part that is to be solved anew by itself has begun.
    Begun {
        /// The name of the piece that has.
        piece: String,
    },
    /// Borders of one depth have begun with several.
    DepthsApart {
        /// The depths.
        depths: Vec<f64>,
    },
    /// There is no room for repeats between what is stitched.
    NoRoom {
        /// The side, such as `top side`.
        side: String,
        /// The number of repeats that are left there.
        repeats: usize,
        /// The room for them; below 0 where what is stitched overlaps.
        room: f64,
    },
    /// What is taken down is not what stitching can be.
    Malformed {
        /// What is wrong and what would be accepted.
        reason: &'static str,
    },
}

impl fmt::Display for StitchedFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Unit::Mm)
    }
}

impl StitchedFault {
    /// The message with lengths in this unit.
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, unit: Unit) -> fmt::Result {
        let readable = |mm: &f64| unit.readable(*mm);
        let percent = |between: &[f64; 2]| {
            let [from, to] = between.map(|share| 100.0 * share);
            format!("from {from:.1} to {to:.1} % of its length")
        };
        match self {
            Self::Twice { piece, between } => write!(
                f,
                "{piece} is stitched already {}; give what is not stitched, or take that back first",
                percent(between)
            ),
            Self::NoStretch { piece, between } => write!(
                f,
                "{} is no stretch of {piece}; give a start before an end, both from 0 to 100 %",
                percent(between)
            ),
            Self::OtherLine { piece } => write!(
                f,
                "{piece} was begun along another line than this plan has; solve the plan round what is stitched, and go on with that"
            ),
            Self::OtherPlace { border } => write!(
                f,
                "the border \"{border}\" lies elsewhere, or is of another depth, than when it was begun; solve the plan round what is stitched, and go on with that"
            ),
            Self::BorderGone { border, borders } => write!(
                f,
                "the border \"{border}\" has begun to be stitched, but the plan has none of that name; give it the name of one of: {}",
                borders.join(", ")
            ),
            Self::RoundChanged { border } => write!(
                f,
                "the border \"{border}\" has begun to be stitched, and the plan would have it otherwise; give it the measures and the design that it had"
            ),
            Self::BlocksChanged { piece } => write!(
                f,
                "{piece} has begun to be stitched, and the plan would have it, or what it joins, otherwise; give the blocks the measures and designs that they had"
            ),
            Self::OtherSides {
                border,
                stitched,
                asked,
            } => write!(
                f,
                "the border \"{border}\" was begun with {stitched} sides, but the plan has {asked}; give a quilt of {stitched} sides"
            ),
            Self::OtherCorner {
                border,
                stitched,
                asked,
            } => write!(
                f,
                "the corners of the border \"{border}\" were begun in the style {stitched}, but the plan asks for {asked}; give {stitched}"
            ),
            Self::BandTooDeep {
                border,
                side,
                taken,
                width,
            } => write!(
                f,
                "the border \"{border}\" is {} wide on the {side}, but what is stitched reaches {} from the seam; measure the width again",
                readable(width),
                readable(taken)
            ),
            Self::Begun { piece } => write!(
                f,
                "{piece} has begun to be stitched, so it can't be solved anew by itself; solve the plan round what is stitched"
            ),
            Self::DepthsApart { depths } => {
                let depths: Vec<String> = depths.iter().map(readable).collect();
                write!(
                    f,
                    "borders were begun {} deep and can't be brought to one depth any more; leave the shared depth out",
                    depths.join(" and ")
                )
            }
            Self::NoRoom {
                side,
                repeats,
                room,
            } => {
                let s = super::words::plural(*repeats);
                write!(
                    f,
                    "{} left between what is stitched on the {side} for {repeats} repeat{s}; measure the sides again",
                    match *room > 0.0 {
                        true => format!("only {} is", readable(room)),
                        false => "no room is".to_owned(),
                    }
                )
            }
            Self::Malformed { reason } => f.write_str(reason),
        }
    }
}
