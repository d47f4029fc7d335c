//! A border's depth and numbers of repeats, chosen together so that the worst side is stretched
//! least.
//!
//! The choice itself is `fit::ring`'s. A border is laid out once at each depth that is looked at.

use super::group::{group, limit, other_share, tie};
use super::numbers::fits;
use crate::error::{Error, PlanFault};
use crate::fit::{Count, DepthGroup, DepthRange, GroupFit, RingSide, SpanFit, fit_ring};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::laid::{Border, Laid, lay};
use crate::plan::spans::SideSpan;

/// What was chosen for a border.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Chosen {
    /// The border at the depth chosen.
    pub(in crate::plan) laid: Laid,
    /// The numbers of repeats that each span may have, one alone where it was chosen for the whole
    /// border.
    pub(in crate::plan) counts: Vec<Count>,
}

impl Chosen {
    /// The whole number of repeats that fits each side best.
    pub(in crate::plan) fn fits(&self, border: &Border<'_>) -> Result<Vec<SpanFit>, Error> {
        let most = border.asked.side.max_stretch;
        fits(&self.laid.spans, &self.counts, border.repeats, most)
    }
}

/// A border at the depths that were looked at, each with its share of the full one and what was
/// found there.
pub(super) struct Depths(Vec<(f64, Laid, Vec<Finding>)>);

impl Depths {
    /// A border at its full depth and at the other one from which its spans are read off.
    pub(super) fn around(
        border: &Border<'_>,
        full: (Laid, Vec<Finding>),
        slack: f64,
    ) -> Result<Self, Error> {
        let share = other_share(border.layout.depth(), slack);
        let (shallow, found) = lay(border, border.layout.at_share(share)?)?;
        Ok(Self(vec![(1.0, full.0, full.1), (share, shallow, found)]))
    }

    /// The sides of the border over its depth.
    pub(super) fn group(&self, border: &Border<'_>, slack: f64) -> Result<DepthGroup, Error> {
        let [deep, shallow] = [&self.0[0].1, &self.0[1].1];
        group(
            border,
            [deep, shallow],
            &counts(border, &deep.spans)?,
            slack,
        )
    }

    /// How many of its sides are stitched.
    pub(super) fn spans(&self) -> usize {
        self.0[0].1.spans.len()
    }

    /// The border at this share of its full depth: one that is known, or else laid out there.
    pub(super) fn take(
        self,
        border: &Border<'_>,
        share: f64,
    ) -> Result<(Laid, Vec<Finding>), Error> {
        let known = self.0.into_iter().find(|(known, ..)| *known == share);
        match known {
            Some((_, laid, found)) => Ok((laid, found)),
            None => lay(border, border.layout.at_share(share)?),
        }
    }
}

/// By how much a border's band may be shallower.
pub(super) fn slack(border: &Border<'_>) -> Result<f64, Error> {
    let (slack, depth) = (border.asked.slack, border.layout.depth());
    if slack >= depth {
        return Err(Error::from(PlanFault::SlackTooWide { slack, depth }).in_element("slack"));
    }
    Ok(slack)
}

/// The numbers of repeats that the plan lets spans have.
///
/// # Errors
///
/// A plan error when a side has no room for repeats beside what lies in its middle.
pub(in crate::plan) fn counts(
    border: &Border<'_>,
    spans: &[SideSpan],
) -> Result<Vec<Count>, Error> {
    let asked = &border.asked.side.counts;
    let own = |span: &SideSpan| {
        let allowed = asked[span.side.index()];
        border.repeats.count(span.side, span.size(), allowed)
    };
    let mut counts: Vec<Count> = spans.iter().map(own).collect::<Result<_, Error>>()?;
    // Of sides that go together, each with a number that fills it as drawn, the least fits all.
    for at in 0..spans.len() {
        let tied = |other: &SideSpan| {
            let both = [spans[at].side, other.side].map(|side| tie(border, side.index()));
            spans[at].side == other.side || (both[0].is_some() && both[0] == both[1])
        };
        let both = spans.iter().zip(&counts).filter(|(span, _)| tied(span));
        let least = both.filter_map(|(_, count)| count.fixed).min();
        if asked[spans[at].side.index()].fixed.is_none() && counts[at].fixed.is_some() {
            counts[at].fixed = least;
        }
    }
    Ok(counts)
}

/// The same, fixed to those that were chosen.
pub(super) fn fixed(
    border: &Border<'_>,
    spans: &[SideSpan],
    chosen: impl IntoIterator<Item = usize>,
) -> Vec<Count> {
    let counts = &border.asked.side.counts;
    let fixed = spans.iter().zip(chosen);
    let fixed = fixed.map(|(span, chosen)| counts[span.side.index()].with_fixed(chosen));
    fixed.collect()
}

/// Chooses depth and repeats where the plan leaves them open to the border; `full` is the border at
/// its full depth with what was found there.
pub(in crate::plan) fn choose_depth(
    border: &Border<'_>,
    full: (Laid, Vec<Finding>),
) -> Result<(Chosen, Vec<Finding>), Error> {
    let slack = slack(border)?;
    if full.0.spans.is_empty() || (slack == 0.0 && !border.asked.side.alike) {
        let (laid, found) = full;
        let counts = counts(border, &laid.spans)?;
        return Ok((Chosen { laid, counts }, found));
    }
    let depths = Depths::around(border, full, slack)?;
    let group = depths.group(border, slack)?;
    let fit = fit_ring(&group)?;
    let (laid, found) = depths.take(border, fit.depth / border.layout.depth())?;
    let there = at_its_depth(border, &laid)?;
    let fit = there.unwrap_or(fit);
    let counts = fixed(
        border,
        &laid.spans,
        fit.sides.iter().map(|choice| choice.repeats),
    );
    let mut findings = Vec::new();
    if slack > 0.0 {
        findings.push(depth_chosen(border, &group, &fit)?);
    }
    findings.extend(found);
    Ok((Chosen { laid, counts }, findings))
}

/// The numbers of repeats once more, of a border with wavy sides as it is laid out: between the
/// depths from which these were read off they are no straight lines. `None` where no side is wavy.
pub(super) fn at_its_depth(border: &Border<'_>, laid: &Laid) -> Result<Option<GroupFit>, Error> {
    if !laid.spans.iter().any(SideSpan::is_wavy) {
        return Ok(None);
    }
    let sides = laid.spans.iter().zip(counts(border, &laid.spans)?);
    let sides = sides.map(|(span, count)| {
        let pitch = border.repeats.of(span.side)?.pitch(span.depth());
        let room = border.repeats.room(span.side, span.size(), count.fixed)?;
        Ok(RingSide::new(room, 0.0, pitch)
            .with_count(count)
            .with_tie(tie(border, span.side.index())))
    });
    let sides = sides.collect::<Result<_, Error>>()?;
    let group = DepthGroup::new(DepthRange::fixed(1.0), sides);
    let fit = fit_ring(&group.with_limit(limit(border)))?;
    let depth = laid.layout.depth();
    Ok(Some(GroupFit { depth, ..fit }))
}

fn depth_chosen(border: &Border<'_>, group: &DepthGroup, fit: &GroupFit) -> Result<Finding, Error> {
    let full = fit_ring(&DepthGroup {
        depth: DepthRange::fixed(group.depth.max),
        ..group.clone()
    })?;
    let kind = FindingKind::DepthChosen {
        depth: fit.depth,
        given_up: group.depth.max - fit.depth,
        worst: fit.worst,
        worst_at_full: full.worst,
    };
    Ok(Finding::note(kind)
        .on_border(border.asked.index)
        .at(border.layout.band.outer.corners()[0]))
}
