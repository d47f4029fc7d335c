//! Thread for a stitched line: lockstitch, ISO 4915 stitch type 301.
//!
//! Per length of seam, needle and bobbin thread together take C = 2 + 2·T·S, where T is the
//! thickness of the layers and S the stitches per the same unit of length: each of the two
//! threads runs along the seam once and through the layers once for each stitch. Half of it is
//! needle thread and half bobbin thread. Published formula: textilecalculations.com, "Calculate
//! amount of sewing thread consumption".

use crate::error::{Error, GeometryFault};

/// The thread that a seam takes, in the unit of its length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thread {
    /// Needle thread.
    pub needle: f64,
    /// Bobbin thread.
    pub bobbin: f64,
}

impl Thread {
    /// Needle and bobbin thread together.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.needle + self.bobbin
    }
}

/// The thread for a seam of this length through layers of this thickness.
///
/// `length` and `thickness` in one unit, `density` in stitches per that unit. Tails, tie-offs and
/// waste are not in it.
///
/// ```
/// use quiltpath_core::stitch::estimate::lockstitch_thread;
///
/// // 220 cm of seam, 4 stitches per cm, layers 0.625 mm thick: the ratio is 2.5.
/// let thread = lockstitch_thread(220.0, 0.0625, 4.0)?;
/// assert_eq!(thread.total(), 550.0);
/// assert_eq!(thread.needle, thread.bobbin);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a number is below 0 or not finite.
pub fn lockstitch_thread(length: f64, thickness: f64, density: f64) -> Result<Thread, Error> {
    let numbers = [
        ("the length of the seam", length),
        ("the thickness of the layers", thickness),
        ("the number of stitches", density),
    ];
    for (what, value) in numbers {
        if !(value >= 0.0 && value.is_finite()) {
            let accepted = "0 or more";
            return Err(GeometryFault::BadNumber {
                what,
                value,
                accepted,
            }
            .into());
        }
    }
    let half = length * (1.0 + thickness * density);
    Ok(Thread {
        needle: half,
        bobbin: half,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_below_zero_is_refused() {
        assert!(lockstitch_thread(-1.0, 0.1, 10.0).is_err());
        assert!(lockstitch_thread(1.0, f64::NAN, 10.0).is_err());
        let error = lockstitch_thread(1.0, 0.1, f64::INFINITY).expect_err("infinite");
        assert!(
            error
                .to_string()
                .contains("the number of stitches is inf; give 0 or more")
        );
    }
}
