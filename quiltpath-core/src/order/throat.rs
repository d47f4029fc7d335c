//! How much of the quilt is within reach, by where the window begins: the roll grows.
//!
//! Problem: what has been stitched is wound on a bar that stands in the throat, so the window gets
//! lower the further down the quilt it begins. Method: cloth of length L and thickness t on a bar
//! of radius r lies on a roll of radius R whose cross-section has the area of the bar's and the
//! cloth's together, π R² = π r² + L t. With k = t/π the roll has grown by R − r = k L/(R + r),
//! which loses no digits however thin the cloth. The window that begins at w, where L = w is wound,
//! reaches throat − 2 · reserve − (R(w) − r). The way back, from a lower edge b to the window that
//! just reaches it: with G = b − (throat − 2 · reserve), w = G + (s − r) where
//! s = k/2 + √((r − k/2)² + k G), from the square completed in s² − k s = r² + k (G − r); above the
//! quilt's edge nothing is wound and w = G.
//! Guarantee: both are closed forms, one the inverse of the other. The lower edge w + reach(w)
//! never rises as w grows: R'(w) = k/(2 R) is at most 1 where k ≤ 2 r, that is, while the cloth is
//! no thicker than the bar is round; a thicker one is refused. So what doesn't fit the window that
//! begins at its own top fits none, and every part of what fits does too.
//! Failure: cloth wound loosely lies on a thicker roll than that.

use std::f64::consts::PI;

use crate::error::{Error, StitchFault, not_negative, positive};

/// The bar that the stitched part of the quilt is wound on, and how thick that lies, in the unit of
/// the atoms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Roll {
    /// The radius of the bar.
    bar: f64,
    /// The thickness of the quilt on the roll.
    thickness: f64,
}

impl Roll {
    /// A bar of this diameter, and a quilt that lies so thick on it, both in the unit of the atoms.
    ///
    /// ```
    /// use quiltpath_core::order::Roll;
    ///
    /// // 20 in of cloth, a fifth of an inch thick, on a bar of 2 in.
    /// let roll = Roll::new(2.0, 0.2)?;
    /// let area = std::f64::consts::PI * (roll.radius(20.0).powi(2) - 1.0);
    /// assert!((area - 20.0 * 0.2).abs() < 1e-12);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A geometry error when one of them is not a length above 0; a stitch error when the quilt is
    /// thicker than the bar is round.
    pub fn new(bar_diameter: f64, thickness: f64) -> Result<Self, Error> {
        positive(
            "the bar's diameter",
            bar_diameter,
            "a length above 0, for example 2 in",
        )?;
        positive(
            "the thickness on the roll",
            thickness,
            "a length above 0, for example 1/5 in",
        )?;
        let most = PI * bar_diameter;
        if thickness > most {
            return Err(StitchFault::RollTooThick { thickness, most }.into());
        }
        Ok(Self {
            bar: bar_diameter / 2.0,
            thickness,
        })
    }

    /// The radius of the roll with so much of the quilt on it; the bar's with none or less.
    #[must_use]
    pub fn radius(&self, length: f64) -> f64 {
        (self.bar.powi(2) + self.area(length)).sqrt()
    }

    /// By how much its radius is more than the bar's.
    #[must_use]
    pub fn growth(&self, length: f64) -> f64 {
        self.area(length) / (self.radius(length) + self.bar)
    }

    /// The area of the cloth's cross-section, divided by π.
    fn area(&self, length: f64) -> f64 {
        self.thickness / PI * length.max(0.0)
    }

    /// By how much it has grown where what is wound is this growth longer than `short`.
    fn growth_beyond(&self, short: f64) -> f64 {
        let rest = self.bar - self.thickness / PI / 2.0;
        match self.area(short) {
            0.0 => 0.0,
            area => area / ((rest * rest + area).sqrt() + rest),
        }
    }
}

/// What the machine's throat lets the needle reach, in the unit of the atoms.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Throat {
    /// From top to bottom, with nothing on the roll.
    pub height: f64,
    /// What is kept free at the upper edge, and at the lower one; 0 by default.
    pub reserve: f64,
    /// What stands in the throat, if that is known.
    pub roll: Option<Roll>,
}

impl Throat {
    /// A throat of this height that nothing is kept free of and no roll stands in.
    #[must_use]
    pub fn new(height: f64) -> Self {
        Self {
            height,
            reserve: 0.0,
            roll: None,
        }
    }

    /// The same throat with so much kept free at either edge.
    #[must_use]
    pub fn with_reserve(mut self, reserve: f64) -> Self {
        self.reserve = reserve;
        self
    }

    /// The same throat with a roll in it.
    #[must_use]
    pub fn with_roll(mut self, roll: Option<Roll>) -> Self {
        self.roll = roll;
        self
    }

    /// The height of the window that begins so far below the quilt's upper edge as loaded; 0 or
    /// less where nothing is left.
    ///
    /// ```
    /// use quiltpath_core::order::{Roll, Throat};
    ///
    /// let throat = Throat::new(16.0).with_reserve(0.5);
    /// assert_eq!(throat.reach(90.0), 15.0);
    /// // 90 in, a fifth of an inch thick, on a bar of 2 in: a roll of 2.594 in radius.
    /// let throat = throat.with_roll(Some(Roll::new(2.0, 0.2)?));
    /// assert!((throat.reach(90.0) - (15.0 - 1.594)).abs() < 1e-3);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    #[must_use]
    pub fn reach(&self, top: f64) -> f64 {
        self.free() - self.roll.map_or(0.0, |roll| roll.growth(top))
    }

    /// Where the window begins that reaches just down to here.
    pub(super) fn top_reaching(&self, bottom: f64) -> f64 {
        let less = bottom - self.free();
        less + self.roll.map_or(0.0, |roll| roll.growth_beyond(less))
    }

    fn free(&self) -> f64 {
        self.height - 2.0 * self.reserve
    }

    /// Refuses a throat that takes nothing.
    pub(super) fn check(&self) -> Result<(), Error> {
        let height = self.height;
        positive("the throat", height, "a length above 0, for example 18 in")?;
        not_negative("the reserve", self.reserve, "0 or more")?;
        self.check_at(0.0)
    }

    /// Refuses a throat of which nothing is left for a window that begins here.
    pub(super) fn check_at(&self, top: f64) -> Result<(), Error> {
        if self.reach(top) > 0.0 {
            return Ok(());
        }
        Err(StitchFault::NothingLeft {
            throat: self.height,
            reserve: self.reserve,
            growth: self.roll.map_or(0.0, |roll| roll.growth(top)),
            wound: top.max(0.0),
        }
        .into())
    }
}

impl From<f64> for Throat {
    /// A throat of this height.
    fn from(height: f64) -> Self {
        Self::new(height)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn roll(bar_diameter: f64, thickness: f64) -> Roll {
        Roll::new(bar_diameter, thickness).expect("a roll")
    }

    /// Whole turns, each as long as the circle in the middle of its layer, summed up.
    #[test]
    fn a_roll_is_as_thick_as_its_turns() {
        for (bar, thickness) in [(2.0, 0.2), (3.0, 0.05), (50.8, 5.0)] {
            let mut length = 0.0;
            for turn in 1..=40 {
                let middle = bar / 2.0 + (f64::from(turn) - 0.5) * thickness;
                length += std::f64::consts::TAU * middle;
                let radius = roll(bar, thickness).radius(length);
                let expected = bar / 2.0 + f64::from(turn) * thickness;
                assert!((radius - expected).abs() < 1e-12 * expected);
                let growth = roll(bar, thickness).growth(length);
                assert!((growth - f64::from(turn) * thickness).abs() < 1e-12 * expected);
            }
        }
        // By hand: 1 + 30 · 0.1 = 4, so a bar of radius 1 lies in a roll of radius 2.
        assert_eq!(roll(2.0, 0.1 * PI).radius(30.0), 2.0);
        assert_eq!(
            (roll(2.0, 0.2).growth(0.0), roll(2.0, 0.2).growth(-9.0)),
            (0.0, 0.0)
        );
        // Cloth as thin as a hair's thousandth has not lost its digits.
        let thin = roll(2.0, 1e-12).growth(PI);
        assert!((thin - 5e-13).abs() < 1e-24, "{thin}");
    }

    #[test]
    fn what_leaves_nothing_is_refused_with_the_numbers() {
        let told = |made: Result<Roll, Error>| made.expect_err("refused").to_string();
        assert!(told(Roll::new(0.0, 1.0)).starts_with("the bar's diameter is 0"));
        assert!(told(Roll::new(1.0, f64::NAN)).starts_with("the thickness on the roll is"));
        assert!(told(Roll::new(1.0, 3.2)).contains("give up to 3.14"));
        assert!(Roll::new(1.0, PI).is_ok());
        let throat = Throat::new(4.0).with_reserve(0.5);
        assert!(throat.check().is_ok());
        for (throat, words) in [
            (Throat::new(0.0), "the throat is 0"),
            (throat.with_reserve(-1.0), "the reserve is -1"),
            (
                throat.with_reserve(2.0),
                "nothing is left of a throat of 4: 2 is kept free",
            ),
        ] {
            let error = throat.check().expect_err(words).to_string();
            assert!(error.starts_with(words), "{error}");
        }
        // A roll of radius 4 on a bar of radius 1 takes all of the 3 that are left.
        let throat = throat.with_roll(Some(roll(2.0, 0.1 * PI)));
        assert!(throat.check_at(149.0).is_ok());
        let error = throat
            .check_at(151.0)
            .expect_err("nothing left")
            .to_string();
        assert!(error.contains("with 151 of the quilt on it"), "{error}");
    }

    proptest! {
        #[test]
        fn the_lower_edge_never_rises_and_leads_back_to_its_window(
            height in 5.0..40.0f64, reserve in 0.0..2.0f64, bar in 0.5..4.0f64, share in 0.0..=1.0f64,
            tops in prop::array::uniform2(-20.0..200.0f64),
        ) {
            let roll = roll(bar, (share * PI * bar).max(1e-9));
            let throat = Throat::new(height).with_reserve(reserve).with_roll(Some(roll));
            let [upper, lower] = if tops[0] < tops[1] { tops } else { [tops[1], tops[0]] };
            let edge = |top: f64| top + throat.reach(top);
            prop_assert!(edge(upper) <= edge(lower) + 1e-12);
            prop_assert!(throat.reach(upper) >= throat.reach(lower));
            let back = throat.top_reaching(edge(upper));
            // Where the cloth is as thick as the bar is round, an edge stays where it is at first.
            prop_assert!((edge(back) - edge(upper)).abs() < 1e-9, "{back} for {upper}");
            if share < 0.9 {
                prop_assert!((back - upper).abs() < 1e-9, "{back} for {upper}");
            }
        }
    }
}
