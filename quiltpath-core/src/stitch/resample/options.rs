//! How a path becomes stitches, and the ranges of those numbers.

use crate::error::{Error, positive};
use crate::units::Unit;

/// What is accepted where a number has no unit of its own.
const ABOVE_0: &str = "a number above 0";

/// The default turn above which a point of the path is a cusp, in degrees.
const CUSP_DEGREES: f64 = 30.0;

/// How a path becomes stitches; lengths in the unit of the path.
///
/// ```
/// use quiltpath_core::{stitch::resample::StitchOptions, units::Unit};
///
/// let options = StitchOptions::per_inch(10.0, Unit::Mm)?;
/// assert_eq!(options.target, 2.54);
/// assert_eq!(options.minimum, 2.54 / 4.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct StitchOptions {
    /// The length of a stitch on a straight line, above 0; on curves stitches are shorter.
    pub target: f64,
    /// The shortest stitch; above 0 and at most target/√2.
    pub minimum: f64,
    /// How far the path may lie from the stitch that stands for it; above 0.
    pub chord_error: f64,
    /// The turn above which a point is a cusp, in degrees: from 0 to below 180.
    ///
    /// The path has to turn by more than this at the point itself, and also between arms of the
    /// minimum's length before and after it, so that jitter and tiny links are no cusps.
    pub cusp_degrees: f64,
}

impl StitchOptions {
    /// Stitches of this length, a quarter of it the shortest, a tenth of it the chord error, and
    /// cusps from 30 degrees on.
    ///
    /// The shares are our own choice: at 10 stitches per inch 0.6 mm and 0.25 mm. The numbers are
    /// checked where they are used.
    #[must_use]
    pub fn new(target: f64) -> Self {
        Self {
            target,
            minimum: target / 4.0,
            chord_error: target / 10.0,
            cusp_degrees: CUSP_DEGREES,
        }
    }

    /// So many stitches per inch, for a path in this unit; the rest as [`StitchOptions::new`].
    ///
    /// Common practice is 10 to 12.
    ///
    /// # Errors
    ///
    /// A geometry error when the number is not above 0 or not finite.
    pub fn per_inch(stitches: f64, unit: Unit) -> Result<Self, Error> {
        positive("the number of stitches per inch", stitches, ABOVE_0)?;
        Ok(Self::new(Unit::In.in_mm() / unit.in_mm() / stitches))
    }

    /// The same options with another shortest stitch.
    #[must_use]
    pub fn with_minimum(mut self, minimum: f64) -> Self {
        self.minimum = minimum;
        self
    }

    /// The same options with another chord error.
    #[must_use]
    pub fn with_chord_error(mut self, chord_error: f64) -> Self {
        self.chord_error = chord_error;
        self
    }

    /// The same options with another turn above which a point is a cusp, in degrees.
    #[must_use]
    pub fn with_cusp_degrees(mut self, cusp_degrees: f64) -> Self {
        self.cusp_degrees = cusp_degrees;
        self
    }

    pub(in crate::stitch) fn check(&self) -> Result<(), Error> {
        positive("the target stitch", self.target, ABOVE_0)?;
        positive("the minimum stitch", self.minimum, ABOVE_0)?;
        positive("the chord error", self.chord_error, ABOVE_0)?;
        // An SPI that makes the bound itself shall not fail by rounding.
        let most = self.target * std::f64::consts::FRAC_1_SQRT_2 * (1.0 + 1e-12);
        if self.minimum > most {
            let accepted = "at most 0.7071 times the target stitch, so that every length can be parted into stitches";
            return Err(Error::bad_number(
                "the minimum stitch",
                self.minimum,
                accepted,
            ));
        }
        if !(0.0..180.0).contains(&self.cusp_degrees) {
            let accepted = "0 degrees or more, below 180";
            return Err(Error::bad_number(
                "the turn of a cusp",
                self.cusp_degrees,
                accepted,
            ));
        }
        Ok(())
    }
}

impl Default for StitchOptions {
    /// 10 stitches per inch, which is common practice, for a path in millimetres.
    fn default() -> Self {
        Self::new(Unit::In.in_mm() / 10.0)
    }
}
