//! What sides, sashes and round borders have in common that are chained of repeats: easing them,
//! and what there is to report.

use std::borrow::Cow;

use super::finding::{Finding, FindingKind};
use super::practice::ease_is_limited;
use super::repeats::Repeats;
use crate::chain::Repeat;
use crate::error::Error;
use crate::fit::{Ease, EaseLimits, EaseReport, SpanFit, Stiffness};

/// How stiff each design is along its length; none unless the plan asks for ease.
pub(in crate::plan) fn stiffness(repeats: &Repeats, ease: bool) -> Result<Vec<Stiffness>, Error> {
    let designs = repeats.designs().iter().filter(|_| ease);
    let stiffness = designs.map(|repeat| Stiffness::of(repeat.points(), repeat.pitch(1.0)));
    stiffness.collect()
}

/// A repeat as it is to be chained with this stretch, its points kept to within a tolerance across
/// the band, and what easing it comes to; as it is where nothing is known of its stiffness.
pub(in crate::plan) fn eased<'a>(
    repeat: &'a Repeat,
    stiffness: Option<&Stiffness>,
    stretch: f64,
    tolerance: f64,
) -> Result<(Cow<'a, Repeat>, Option<EaseReport>), Error> {
    let Some(stiffness) = stiffness else {
        return Ok((Cow::Borrowed(repeat), None));
    };
    let ease = Ease::new(stiffness, stretch, &EaseLimits::default())?;
    let eased = repeat.eased(&ease, tolerance);
    Ok((Cow::Owned(eased), Some(*ease.report())))
}

/// What there is to note of a chain by how far it is levelled and how many links it has: levelling
/// beyond what ends may be apart that meet, links, and stems that can't take the stretch.
pub(in crate::plan) fn noted(
    (by, links): (f64, usize),
    ease: Option<EaseReport>,
    join: f64,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    if by > join {
        findings.push(Finding::note(FindingKind::Levelled { by }));
    }
    if links > 0 {
        findings.push(Finding::note(FindingKind::RepeatsLinked { links }));
    }
    if let Some(report) = ease.filter(ease_is_limited) {
        findings.push(Finding::note(FindingKind::EaseLimited { report }));
    }
    findings
}

/// That repeats are stretched beyond a limit, given as a fraction either way.
pub(in crate::plan) fn beyond(fit: &SpanFit, limit: f64) -> Option<FindingKind> {
    let stretch = fit.chosen.stretch;
    let other = if stretch > 1.0 { fit.more } else { fit.fewer };
    ((stretch - 1.0).abs() > limit).then_some(FindingKind::Stretch {
        repeats: fit.chosen.repeats,
        stretch,
        limit,
        instead: other.map(|choice| (choice.repeats, choice.stretch)),
    })
}
