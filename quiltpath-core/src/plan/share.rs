//! One depth for the bands of all borders of a plan, so that their repeats are equally large.
//!
//! The depth is chosen like that of one border, all sides of all borders together: the group's
//! objective is the worst stretch over the whole quilt.

use super::choose::Chosen;
use super::findings::Finding;
use super::layout::Layout;
use super::ring::{Solver, Work};
use crate::chain::Repeat;
use crate::error::{Error, PlanFault};
use crate::fit::{DepthGroup, DepthRange, fit_ring};
use crate::motif::Motif;

/// A border to be given the shared depth: its work, its corner drawing and its repeat.
pub(super) struct Sharing<'a> {
    pub(super) work: Work<'a>,
    pub(super) corner: Option<&'a Motif>,
    pub(super) repeat: &'a Repeat,
}

impl Solver {
    /// Chooses one depth for all borders, and the numbers of repeats at it.
    pub(super) fn choose_shared(&mut self, borders: &[Sharing<'_>]) -> Result<Vec<Chosen>, Error> {
        let mut range: Option<DepthRange> = None;
        let mut sides = Vec::new();
        let mut ties = 0;
        for border in borders {
            let in_border = |e: Error| e.in_element(format!("borders[{}]", border.work.index));
            let slack = self.slack(&border.work).map_err(in_border)?;
            let group = self
                .group(&border.work, border.corner, border.repeat, slack)
                .map_err(in_border)?;
            range = Some(match range {
                None => group.depth,
                Some(range) => DepthRange {
                    min: range.min.max(group.depth.min),
                    max: range.max.min(group.depth.max),
                    preferred: range.preferred.min(group.depth.preferred),
                },
            });
            let tied = group.sides.iter().filter_map(|side| side.tie).max();
            sides.extend(group.sides.into_iter().map(|mut side| {
                side.tie = side.tie.map(|tie| tie + ties);
                side
            }));
            ties += tied.map_or(0, |tie| tie + 1);
        }
        let Some(depth) = range else {
            return Ok(Vec::new());
        };
        // A border may be as deep as another up to rounding only.
        let rounding = 1e-9 * depth.max;
        if depth.min > depth.max + rounding {
            let depths = borders.iter().map(|border| border.work.layout.depth());
            return Err(Error::from(PlanFault::NoSharedDepth {
                depths: depths.collect(),
                missing: depth.min - depth.max,
            })
            .in_element("shared_depth"));
        }
        let depth = DepthRange {
            min: depth.min.min(depth.max),
            ..depth
        };
        let fit = fit_ring(&DepthGroup { depth, sides })?;
        let mut counts = fit.sides.iter().map(|choice| choice.repeats);
        let chosen = borders
            .iter()
            .map(|border| {
                let layout: &Layout = border.work.layout;
                let share = (fit.depth / layout.depth()).min(1.0);
                Ok(Chosen {
                    layout: layout.at_share(share)?,
                    repeats: counts.by_ref().take(layout.band.sides()).collect(),
                })
            })
            .collect::<Result<Vec<_>, Error>>()?;
        self.findings.push(Finding::note(
            "depth_shared",
            borders
                .first()
                .map(|border| border.work.layout.band.outer.corners()[0]),
            format!(
                "all bands are made {} deep, so that repeats are equally large; no side is stretched by more than {:.1} %",
                self.unit.readable(fit.depth),
                (fit.worst - 1.0) * 100.0
            ),
        ));
        Ok(chosen)
    }
}
