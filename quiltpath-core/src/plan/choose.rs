//! A border's depth and numbers of repeats, chosen together so that the worst side is stretched
//! least; and what else would do where even that is too much.
//!
//! Corners grow in proportion to the depth, so the span of a side is a straight line in the depth;
//! it is read off at two depths. The choice itself is `fit::ring`'s, exact but for bent corners of
//! a given radius and for wavy sides, whose spans are no straight lines; there the sides are still
//! filled exactly.

use super::corners::corners;
use super::findings::{Finding, counted, percent};
use super::layout::Layout;
use super::place::Side;
use super::ring::{Solver, Work};
use super::spans::Rated;
use crate::chain::Repeat;
use crate::error::{Error, PlanFault};
use crate::fit::{
    Alternative, Choice, DepthGroup, DepthRange, GroupFit, RingSide, StretchLimit, alternatives,
    fit_ring,
};
use crate::motif::Motif;

/// What was chosen for a border.
pub(super) struct Chosen {
    /// The layout at the depth chosen.
    pub(super) layout: Layout,
    /// The number of repeats of each side.
    pub(super) repeats: Vec<usize>,
}

impl Solver {
    /// Chooses depth and repeats where the plan leaves them open to the border; `None` where it does
    /// not.
    pub(super) fn choose(
        &mut self,
        work: &Work<'_>,
        drawn: Option<&Motif>,
        repeat: &Repeat,
    ) -> Result<Option<Chosen>, Error> {
        let slack = self.slack(work)?;
        if slack == 0.0 && !alike(work)? {
            return Ok(None);
        }
        let most = work.layout.depth();
        let group = self.group(work, drawn, repeat, slack)?;
        let fit = fit_ring(&group)?;
        let layout = work.layout.at_share(fit.depth / most)?;
        self.tell_depth(work, &group, &fit, slack)?;
        Ok(Some(Chosen {
            layout,
            repeats: fit.sides.iter().map(|choice| choice.repeats).collect(),
        }))
    }

    /// By how much a border's band may be shallower.
    pub(super) fn slack(&self, work: &Work<'_>) -> Result<f64, Error> {
        let Some(length) = &work.border.slack else {
            return Ok(0.0);
        };
        let slack = length
            .gap_mm(self.unit, "the slack")
            .map_err(|e| e.in_element("slack"))?;
        let depth = work.layout.depth();
        if slack >= depth {
            return Err(Error::from(PlanFault::SlackTooWide { slack, depth }).in_element("slack"));
        }
        Ok(slack)
    }

    /// The sides of a border as straight lines in the depth of the deepest; the others keep their
    /// shares of it.
    pub(super) fn group(
        &mut self,
        work: &Work<'_>,
        drawn: Option<&Motif>,
        repeat: &Repeat,
        slack: f64,
    ) -> Result<DepthGroup, Error> {
        let most = work.layout.depth();
        // Any other depth does to read a straight line off; a nearby one keeps corners apart.
        let other = most - if slack > 0.0 { slack } else { 0.01 * most };
        let deep = self.rated(work, work.layout, drawn, repeat)?;
        let shallow = self.rated(work, &work.layout.at_share(other / most)?, drawn, repeat)?;
        let alike = alike(work)?;
        let legs = if work.border.corner.style.joins() {
            2
        } else {
            0
        };
        let depths = work.layout.depths();
        let sides = deep
            .iter()
            .zip(&shallow)
            .enumerate()
            .map(|(at, (one, two))| {
                let per_depth = (one.span - two.span) / (most - other);
                RingSide {
                    fixed: one.span - per_depth * most,
                    per_depth,
                    pitch: repeat.pitch(depths[at] / most),
                    count: work.count(one.side),
                    tie: alike.then_some(at % (depths.len() / 2).max(1)),
                    ring: work.index,
                    legs,
                }
            });
        Ok(DepthGroup {
            depth: DepthRange {
                min: most - slack,
                preferred: most,
                max: most,
            },
            sides: sides.collect(),
        })
    }

    /// The sides at the depth of this layout; what is found on the way was found already.
    fn rated(
        &mut self,
        work: &Work<'_>,
        layout: &Layout,
        drawn: Option<&Motif>,
        repeat: &Repeat,
    ) -> Result<Vec<Rated>, Error> {
        let work = Work { layout, ..*work };
        let known = self.findings.len();
        let corners = corners(self, &work, drawn, repeat).map_err(|e| e.in_element("corner"));
        self.findings.truncate(known);
        self.rate(&work, &corners?, repeat)
    }

    fn tell_depth(
        &mut self,
        work: &Work<'_>,
        group: &DepthGroup,
        fit: &GroupFit,
        slack: f64,
    ) -> Result<(), Error> {
        if slack == 0.0 {
            return Ok(());
        }
        let full = fit_ring(&DepthGroup {
            depth: DepthRange::fixed(group.depth.max),
            sides: group.sides.clone(),
        })?;
        let percent = |worst: f64| format!("{:.1} %", (worst - 1.0) * 100.0);
        self.findings.push(Finding::note(
            "depth_chosen",
            Some(work.layout.band.outer.corners()[0]),
            format!(
                "{}: the band is made {} deep, {} less than the gaps leave, so that no side is stretched by more than {} (at the full depth: {})",
                work.layout.name,
                self.unit.readable(fit.depth),
                self.unit.readable(group.depth.max - fit.depth),
                percent(fit.worst),
                percent(full.worst)
            ),
        ));
        Ok(())
    }

    /// What else would keep the stretch of a border's sides within the limit, as one note.
    pub(super) fn tell_ways_out(
        &mut self,
        work: &Work<'_>,
        drawn: Option<&Motif>,
        repeat: &Repeat,
        choices: &[Choice],
        limit: f64,
    ) -> Result<(), Error> {
        let within = |choice: &Choice| (choice.stretch - 1.0).abs() <= limit;
        if choices.iter().all(within) || limit >= 1.0 {
            return Ok(());
        }
        let group = self.group(work, drawn, repeat, 0.0)?;
        let worst = choices
            .iter()
            .map(|choice| choice.stretch.max(1.0 / choice.stretch))
            .fold(1.0, f64::max);
        let fit = GroupFit {
            depth: work.layout.depth(),
            sides: choices.to_vec(),
            worst,
        };
        let ways = alternatives(&group, &fit, StretchLimit::either_way(limit))?;
        let sides: Vec<Side> = work.layout.sides().collect();
        let told: Vec<String> = ways.iter().map(|way| self.way(way, &sides)).collect();
        if !told.is_empty() {
            self.findings.push(Finding::note(
                "ways_out",
                Some(work.layout.band.outer.corners()[0]),
                format!(
                    "{}: ways to bring the stretch within {:.1} %: {}",
                    work.layout.name,
                    limit * 100.0,
                    told.join("; or ")
                ),
            ));
        }
        Ok(())
    }

    fn way(&self, way: &Alternative, sides: &[Side]) -> String {
        let readable = |mm: f64| self.unit.readable(mm);
        match way {
            Alternative::Depth(fit) => format!(
                "a band {} deep, with {} repeats",
                readable(fit.depth),
                numbers(fit)
            ),
            Alternative::Counts(fit) => format!(
                "other numbers of repeats than the plan allows, {}, stretched by {:.1} % at most",
                numbers(fit),
                (fit.worst - 1.0) * 100.0
            ),
            Alternative::Ease { sides: eased } => {
                let eased: Vec<String> = eased
                    .iter()
                    .map(|(at, stretch)| format!("{} on the {}", percent(*stretch), sides[*at]))
                    .collect();
                format!(
                    "\"ease\" in \"side\", which leaves the stretch to the stems ({})",
                    eased.join(", ")
                )
            }
            Alternative::LongerLeg { extra, .. } => {
                format!("corner legs {} longer each", readable(*extra))
            }
            Alternative::Spacers { sides: spaced } => {
                let spacers = spaced.iter().map(|(at, length, choice)| {
                    format!(
                        "{} on the {} with {} ({})",
                        readable(*length),
                        sides[*at],
                        counted(choice.repeats, "repeat"),
                        percent(choice.stretch)
                    )
                });
                let spacers: Vec<String> = spacers.collect();
                format!("a plain spacer in the middle: {}", spacers.join(", "))
            }
        }
    }
}

/// Whether opposite sides are to get the same number of repeats.
fn alike(work: &Work<'_>) -> Result<bool, Error> {
    let alike = work.border.side.opposite_alike == Some(true);
    let count = work.layout.band.sides();
    if alike && count % 2 == 1 {
        let what = "opposite_alike";
        let fault = PlanFault::OddSides { what, count };
        return Err(Error::from(fault).in_element("side.opposite_alike"));
    }
    Ok(alike)
}

fn numbers(fit: &GroupFit) -> String {
    let numbers: Vec<String> = fit
        .sides
        .iter()
        .map(|choice| choice.repeats.to_string())
        .collect();
    numbers.join(", ")
}
