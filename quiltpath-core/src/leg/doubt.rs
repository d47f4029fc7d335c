//! What can be doubtful about a reading, as data; the words are made in `io::words`.

use super::name::LegName;
use crate::geom::BoxCorner;

/// A reason to look at a reading before it is used. Lengths are in the unit of the drawing, shares
/// are parts of 1.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum LegDoubt {
    /// Another turn of the drawing suits it nearly as well, or one was taken that suits it better
    /// than none, for which its outline gives no clear evidence.
    OtherTurn {
        /// The turn taken that lays the legs along the axes, in degrees, positive clockwise.
        degrees: f64,
        /// The depths of the horizontal and of the vertical leg after it.
        depths: [f64; 2],
        /// The other turn; 0 where the drawing may be square.
        other_degrees: f64,
        /// The depths of the legs after that.
        other_depths: [f64; 2],
    },
    /// The legs may meet at another corner of the box.
    RivalElbow {
        /// The corner taken.
        elbow: BoxCorner,
        /// The other corner.
        rival: BoxCorner,
        /// The area of the empty corner across from the one taken, as a share of the box.
        share: f64,
        /// The area of the empty corner across from the other, as a share of the box.
        rival_share: f64,
    },
    /// The legs are not equally deep, and one measures deeper near the elbow than farther out, so
    /// that something there seems to reach into the empty corner.
    ShallowerOutside {
        /// The leg.
        leg: LegName,
        /// Its depth.
        depth: f64,
        /// Its depth, measured on its outer half alone.
        outer_depth: f64,
    },
    /// The line doesn't run from one leg's open end to the other's.
    PortsElsewhere {
        /// The leg that it starts on; it ends on the other.
        starts_on: LegName,
        /// How far the start lies from its leg's open end, as a share of that leg's free length.
        start_share: f64,
        /// How far the end lies from its leg's open end, as a share of that leg's free length.
        end_share: f64,
    },
}
