//! The repeats of one side: eased where the plan asks for it, chained along the side's way, and what
//! is to be said about them.
//!
//! How stiff a repeat is along its length is found once for a border; the map that puts a side's
//! stretch into the stems is made for each side, since each has a stretch of its own.

use std::borrow::Cow;

use super::findings::{Finding, counted, ease_limited};
use super::pieces::SideDetail;
use super::place::Side;
use super::ring::{Solver, Work};
use super::run::SideRun;
use crate::chain::{Chain, ChainOptions, MAX_POINTS, Repeat};
use crate::error::{Error, FitFault};
use crate::fit::{Ease, EaseLimits, EaseReport, Stiffness};

/// A turn where a repeat meets its mirror image is told from this many degrees on: our own choice.
const TOLD_KINK_DEGREES: f64 = 10.0;

impl Solver {
    /// Refuses a side that would make too many points with those that are filled.
    fn check_room(&self, repeats: usize, repeat: &Repeat) -> Result<(), Error> {
        let here = repeats as f64 * (repeat.points().len() as f64 + 1.0);
        let (count, limit) = (self.side_points as f64 + here, MAX_POINTS);
        match count > limit as f64 {
            true => Err(FitFault::TooManyInAll { count, limit }.into()),
            false => Ok(()),
        }
    }

    /// Chains the repeats of a side along its way, and tells what is to be said about them.
    pub(super) fn fill(
        &mut self,
        work: &Work<'_>,
        side: Side,
        run: &SideRun,
        repeat: &Repeat,
    ) -> Result<(Chain, SideDetail), Error> {
        let in_side = |e: Error| e.in_element(format!("side, {}", side.name()));
        let span = run.span();
        let fit = self.fit(work, side, run, repeat)?;
        let (repeat, ease) = self
            .eased(run.depth(), fit.chosen.stretch, repeat)
            .map_err(in_side)?;
        let options = ChainOptions {
            repeats: fit.chosen.repeats,
            alternate: work.border.pattern(),
            ends: work.ends(),
            join_tolerance: self.tolerances.join,
            flattening: self.tolerances.flattening,
        };
        self.check_room(options.repeats, &repeat).map_err(in_side)?;
        let chain = run.chain(&repeat, &options).map_err(in_side)?;
        self.side_points += chain.motif.points().len();
        self.draw_lines(work.layout, side, run);
        let at = Some(chain.motif.start().point);
        let name = format!("{}-side-{}", work.layout.name, side.name());
        if chain.levelled > self.tolerances.join {
            self.findings.push(Finding::note(
                "levelled",
                at,
                format!(
                    "{name}: ends at different heights are brought together by shearing repeats by up to {}",
                    self.unit.readable(chain.levelled)
                ),
            ));
        }
        if chain.links > 0 {
            self.findings.push(Finding::note(
                "repeats_linked",
                at,
                format!(
                    "{name}: {} stitched between repeats that end at another height than they start",
                    counted(chain.links, "straight link")
                ),
            ));
        }
        self.tell_repeats(&name, &chain, ease.as_ref());
        let across = run.depth() / repeat.drawn_depth();
        let detail = SideDetail {
            side,
            fit,
            span,
            pitch: span / fit.chosen.repeats as f64,
            scale: [fit.chosen.stretch * across, across],
            levelled: chain.levelled,
            links: chain.links,
            ease,
        };
        Ok((chain, detail))
    }

    /// Finds out where a border's repeat may be stretched, when its sides are to be eased.
    pub(super) fn prepare_ease(&mut self, work: &Work<'_>, repeat: &Repeat) -> Result<(), Error> {
        let wanted = work.border.side.ease == Some(true);
        let stiffness = || Stiffness::of(repeat.points(), repeat.pitch(1.0));
        self.stiffness = wanted.then(stiffness).transpose()?;
        Ok(())
    }

    /// The repeat as it is to be chained with this stretch in a band of this depth, and what easing
    /// it comes to.
    fn eased<'a>(
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
    fn tell_repeats(&mut self, side: &str, chain: &Chain, ease: Option<&EaseReport>) {
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
