//! One depth for the bands of all borders of a plan, so that their repeats are equally large.
//!
//! The depth is chosen like that of one border, all sides of all borders together: the group's
//! objective is the worst stretch over the whole quilt.

use super::cut::Full;
use super::depth::{Chosen, Depths, at_its_depth, fixed, slack};
use super::group::limit;
use crate::error::{Error, PlanFault};
use crate::fit::{DepthGroup, DepthRange, RingSide, fit_ring};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::laid::{Border, Laid};

/// What is known of a border before its depth is chosen.
enum Known {
    /// Its sides over its depth.
    Depths(Depths),
    /// All of it, where its sides stay plain.
    Plain(Box<(Laid, Vec<Finding>)>),
}

impl Known {
    /// What is chosen for a border whose sides stay plain.
    fn plain(self) -> Option<(Chosen, Vec<Finding>)> {
        match self {
            Self::Depths(_) => None,
            Self::Plain(full) => {
                let counts = Vec::new();
                Some((
                    Chosen {
                        laid: full.0,
                        counts,
                    },
                    full.1,
                ))
            }
        }
    }
}

/// Chooses one depth for all borders, and the numbers of repeats at it; each border is given at its
/// full depth with what was found there.
pub(in crate::plan) fn choose_shared(
    borders: Vec<Full<'_>>,
) -> Result<(Vec<Chosen>, Vec<Finding>), Error> {
    let mut range: Option<DepthRange> = None;
    let mut sides: Vec<RingSide> = Vec::new();
    let mut ties = 0;
    let mut known = Vec::with_capacity(borders.len());
    for (border, full) in borders {
        // A border that stays plain along its sides has no repeats to be as large as others.
        if full.0.spans.is_empty() {
            known.push((border, Known::Plain(Box::new(full))));
            continue;
        }
        let read = || {
            let slack = slack(&border)?;
            let depths = Depths::around(&border, full, slack)?;
            let group = depths.group(&border, slack)?;
            Ok::<_, Error>((depths, group))
        };
        let (depths, group) = read().map_err(|e| in_border(e, &border))?;
        known.push((border, Known::Depths(depths)));
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
        let plain = known.into_iter().filter_map(|(_, known)| known.plain());
        let (chosen, findings): (Vec<_>, Vec<_>) = plain.unzip();
        return Ok((chosen, findings.into_iter().flatten().collect()));
    };
    // A border may be as deep as another up to rounding only.
    let rounding = 1e-9 * depth.max;
    if depth.min > depth.max + rounding {
        let sided = known
            .iter()
            .filter(|(_, known)| matches!(known, Known::Depths(_)));
        let depths = sided.map(|(border, _)| border.layout.depth());
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
    // The plan has one limit for all borders.
    let limit = known.first().map(|(border, _)| limit(border));
    let fit = fit_ring(&DepthGroup {
        limit,
        ..DepthGroup::new(depth, sides)
    })?;
    let outermost = known.first().map(|(border, _)| border.layout);
    let kind = FindingKind::DepthShared {
        depth: fit.depth,
        worst: fit.worst,
    };
    let note = outermost.map(|layout| Finding::note(kind).at(layout.band.outer.corners()[0]));
    let mut findings: Vec<Finding> = note.into_iter().collect();
    let mut repeats = fit.sides.iter().map(|choice| choice.repeats);
    let mut chosen = Vec::with_capacity(known.len());
    for (border, depths) in known {
        let depths = match depths {
            Known::Depths(depths) => depths,
            plain => {
                if let Some((plain, found)) = plain.plain() {
                    findings.extend(found);
                    chosen.push(plain);
                }
                continue;
            }
        };
        let share = (fit.depth / border.layout.depth()).min(1.0);
        let mut numbers: Vec<usize> = repeats.by_ref().take(depths.spans()).collect();
        let take = || {
            let (laid, found) = depths.take(&border, share)?;
            if let Some(there) = at_its_depth(&border, &laid)? {
                numbers = there.sides.iter().map(|choice| choice.repeats).collect();
            }
            Ok((laid, found))
        };
        let (laid, found) = take().map_err(|e| in_border(e, &border))?;
        let counts = fixed(&border, &laid.spans, numbers);
        findings.extend(found);
        chosen.push(Chosen { laid, counts });
    }
    Ok((chosen, findings))
}

fn in_border(error: Error, border: &Border<'_>) -> Error {
    error.in_element(format!("borders[{}]", border.asked.index))
}
