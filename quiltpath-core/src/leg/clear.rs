//! Whether a drawing is clearly an L, so a corner and no border repeat.
//!
//! Method: it is read as it lies, unturned. It is an L when its ends lie near the open ends of two
//! legs that are at right angles, and no other corner of its box may be the elbow. Failure: a
//! repeat that climbs at its start and then runs level is an L as well.

use super::analyse::choose_leg;
use super::doubt::LegDoubt;
use super::given::LegGiven;
use crate::motif::Motif;

/// How deep a leg of a clear L is at most, as a part of its box: our own choice.
const DEEPEST: f64 = 2.0 / 3.0;

/// Whether a drawing is clearly an L as it lies: its ends at right angles to each other, its inner
/// corner empty. No border repeat is.
///
/// ```
/// use quiltpath_core::{leg::is_clear_l, motif::Motif};
///
/// let l = Motif::try_from(vec![(0.5, 9.0), (0.0, 4.0), (1.0, 0.0), (5.0, 1.0), (9.0, 0.5)])?;
/// let wave = Motif::try_from(vec![(0.0, 1.0), (1.0, 0.0), (3.0, 2.0), (4.0, 1.0)])?;
/// assert!(is_clear_l(&l) && !is_clear_l(&wave));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Complexity
///
/// O(n log n); linear in practice.
#[must_use]
pub fn is_clear_l(motif: &Motif) -> bool {
    let given = LegGiven::default().with_turn_degrees(0.0);
    choose_leg(motif, &given).is_ok_and(|shape| {
        let elsewhere = |doubt: &LegDoubt| {
            matches!(
                doubt,
                LegDoubt::RivalElbow { .. } | LegDoubt::PortsElsewhere { .. }
            )
        };
        let size = shape.bounds.size();
        shape.depth_horizontal <= DEEPEST * size.y
            && shape.depth_vertical <= DEEPEST * size.x
            && !shape.doubts.iter().any(elsewhere)
    })
}
