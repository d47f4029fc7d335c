//! The repeats of one side: eased where the plan asks for it, and what is to be said about them.
//!
//! How stiff a repeat is along its length is found once for a border; the map that puts a side's
//! stretch into the stems is made for each side, since each has a stretch of its own.

use std::borrow::Cow;

use super::findings::{Finding, ease_limited};
use super::ring::{Solver, Work};
use crate::chain::{Chain, Repeat};
use crate::error::Error;
use crate::fit::{Ease, EaseLimits, EaseReport, Stiffness};

/// A turn where a repeat meets its mirror image is told from this many degrees on: our own choice.
const TOLD_KINK_DEGREES: f64 = 10.0;

impl Solver {
    /// Finds out where a border's repeat may be stretched, when its sides are to be eased.
    pub(super) fn prepare_ease(&mut self, work: &Work<'_>, repeat: &Repeat) -> Result<(), Error> {
        let wanted = work.border.side.ease == Some(true);
        let stiffness = || Stiffness::of(repeat.points(), repeat.advance(1.0));
        self.stiffness = wanted.then(stiffness).transpose()?;
        Ok(())
    }

    /// The repeat as it is to be chained with this stretch in a band of this depth, and what easing
    /// it comes to.
    pub(super) fn eased<'a>(
        &self,
        depth: f64,
        stretch: f64,
        repeat: &'a Repeat,
    ) -> Result<(Cow<'a, Repeat>, Option<EaseReport>), Error> {
        let Some(stiffness) = &self.stiffness else {
            return Ok((Cow::Borrowed(repeat), None));
        };
        let ease = Ease::new(stiffness, stretch, &EaseLimits::default())?;
        let tolerance = self.tolerances.flattening / depth;
        let eased = repeat.eased(&ease, tolerance);
        Ok((Cow::Owned(eased), Some(*ease.report())))
    }

    /// Tells where easing could not do what it is for, and where a repeat meets its mirror image
    /// with a turn.
    pub(super) fn tell_repeats(&mut self, side: &str, chain: &Chain, ease: Option<&EaseReport>) {
        let at = Some(chain.motif.start().point);
        if let Some(limited) = ease.and_then(ease_limited) {
            let message = format!("{side}: {limited}");
            self.findings
                .push(Finding::note("ease_limited", at, message));
        }
        if chain.kink_degrees > TOLD_KINK_DEGREES {
            self.findings.push(Finding::note(
                "mirror_kink",
                at,
                format!(
                    "{side}: the line turns by {:.0} degrees where a repeat meets its mirror image; draw the repeat level at its ends for a smooth turn, or leave it as a point",
                    chain.kink_degrees
                ),
            ));
        }
    }
}
