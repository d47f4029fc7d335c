//! What a border that has begun keeps of what the plan asks: its band, and numbers of repeats.

use super::border::KeptBorder;
use crate::error::{Error, StitchedFault};
use crate::plan::ask::PlanSpec;
use crate::plan::asked::{Asked, BorderAsked};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::lay::SideWidths;
use crate::plan::lay::layout::{FIELD_NAME, Layout};
use crate::plan::lay::place::Side;
use crate::plan::stitched::{PartPlace, Stitched, StitchedBorder};

/// Depths that differ by less, in millimetres, are one.
const SAME_MM: f64 = 1e-6;

/// What is kept of each border, with what there is to report.
pub(in crate::plan) type Kept = (Vec<Option<KeptBorder>>, Vec<Finding>);

/// Keeps the borders that have begun: their bands stay as deep as they are, sides that have begun
/// keep their numbers of repeats, and what is stitched is carried to where it lies now.
pub(in crate::plan) fn keep(
    spec: &PlanSpec,
    stitched: &Stitched,
    asked: &mut Asked,
    layouts: &mut [Layout],
) -> Result<Kept, Error> {
    let begun = {
        let borders = stitched.borders.iter();
        let apart = |name: &str| {
            let round = layouts.iter().any(|at| at.name == name && at.is_round());
            round || (spec.blocks.is_some() && name == FIELD_NAME)
        };
        // Blocks and round borders are kept where they are filled.
        let begun = borders.filter(|border| border.has_begun() && !apart(&border.name));
        begun.collect::<Vec<_>>()
    };
    let gone = |border: &&StitchedBorder| !layouts.iter().any(|at| at.name == border.name);
    if let Some(border) = begun.iter().copied().find(gone) {
        return Err(StitchedFault::BorderGone {
            border: border.name.clone(),
            borders: layouts.iter().map(|layout| layout.name.clone()).collect(),
        }
        .into());
    }
    let mut findings = Vec::new();
    let mut depths: Vec<f64> = Vec::new();
    let mut kept = vec![None; layouts.len()];
    for border in begun {
        let at = layouts.iter().position(|at| at.name == border.name);
        let Some(index) = at else { continue };
        let mut keep_one = || {
            layouts[index] = in_old_band(border, &layouts[index])?;
            let layout = &layouts[index];
            depths.push(layout.depth());
            let style = spec.borders[index].corner.style;
            kept[index] = Some(KeptBorder::new(border, layout, style)?);
            let numbers = keep_numbers(border, &mut asked.borders[index]);
            findings.push(what_is_kept(border, index, layout));
            findings.extend(numbers);
            Ok(())
        };
        keep_one().map_err(|e: Error| e.in_element(format!("borders[{index}]")))?;
    }
    let apart = depths
        .iter()
        .any(|depth| (depth - depths[0]).abs() > SAME_MM);
    if asked.shared_depth && apart {
        return Err(Error::from(StitchedFault::DepthsApart { depths }).in_element("shared_depth"));
    }
    Ok((kept, findings))
}

/// The border with its band as deep, and as far from the seam, as when it was begun.
fn in_old_band(border: &StitchedBorder, layout: &Layout) -> Result<Layout, Error> {
    let sides = layout.band.sides();
    if border.widths.len() != sides || border.seam.len() != sides {
        return Err(StitchedFault::OtherSides {
            border: border.name.clone(),
            stitched: border.seam.len(),
            asked: sides,
        }
        .into());
    }
    let mut widths = Vec::with_capacity(sides);
    let pairs = border.widths.iter().zip(&layout.widths);
    for (side, (old, new)) in Side::all(sides).zip(pairs) {
        if old.width == new.width {
            widths.push(*old);
            continue;
        }
        let taken = old.width - old.edge_gap;
        if new.width < taken {
            return Err(Error::from(StitchedFault::BandTooDeep {
                border: border.name.clone(),
                side: side.to_string(),
                taken,
                width: new.width,
            })
            .in_element("width"));
        }
        widths.push(SideWidths {
            width: new.width,
            seam_gap: old.seam_gap,
            edge_gap: new.width - taken,
        });
    }
    layout.with_widths(widths)
}

/// Fixes the numbers of repeats of sides that have begun, and the depth.
fn keep_numbers(border: &StitchedBorder, asked: &mut BorderAsked) -> Vec<Finding> {
    asked.slack = 0.0;
    let count = asked.side.counts.len();
    let begun: Vec<Option<usize>> = Side::all(count)
        .map(|side| {
            let place = PartPlace::Side {
                side,
                meets: [true; 2],
            };
            let part = border.part(&place)?;
            (!part.stretches.is_empty()).then_some(part.line.ends.len())
        })
        .collect();
    let mut findings = Vec::new();
    for side in Side::all(count) {
        let at = side.index();
        let fixed = asked.side.counts[at].fixed;
        if let Some(repeats) = begun[at] {
            if let Some(given) = fixed.filter(|&given| given != repeats) {
                let kind = FindingKind::NumberKept {
                    repeats,
                    asked: given,
                };
                findings.push(Finding::warning(kind).on_side(asked.index, side));
            }
            asked.side.counts[at].fixed = Some(repeats);
        } else if asked.side.alike && fixed.is_none() {
            // A side that has not begun goes with the one across from it that has.
            asked.side.counts[at].fixed = begun[(at + count / 2) % count];
        }
    }
    // Two sides across from each other that were begun with different numbers can't be alike.
    let across = |at: usize| begun[at].zip(begun[(at + count / 2) % count]);
    let differ = (0..count)
        .filter_map(across)
        .any(|(one, other)| one != other);
    asked.side.alike &= !differ;
    findings
}

/// What is kept of a border, as one note.
fn what_is_kept(border: &StitchedBorder, index: usize, layout: &Layout) -> Finding {
    let begun = border
        .parts
        .iter()
        .filter(|part| !part.stretches.is_empty());
    let (mut corners, mut sides, mut length) = (Vec::new(), 0, 0.0);
    for part in begun {
        length += part.length();
        match part.place {
            PartPlace::Corner { place, .. } if !corners.contains(&place) => corners.push(place),
            PartPlace::Side { .. } => sides += 1,
            _ => {}
        }
    }
    let kind = FindingKind::Kept {
        corners: corners.len(),
        sides,
        length,
    };
    let at = layout.band.outer.corners()[0];
    Finding::note(kind).on_border(index).at(at)
}
