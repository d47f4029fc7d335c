//! One border at one depth of its band: its corners placed, its spans measured.

use super::asked::BorderAsked;
use super::corners::{Corners, Prepared, place};
use super::finding::Finding;
use super::kept::{KeptBorder, hold};
use super::lay::layout::Layout;
use super::repeats::Repeats;
use super::spans::{SideSpan, spans};
use super::tolerances::Tolerances;
use crate::error::Error;

/// One border on its way through the plan: what is asked, where it lies, what goes on it.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) struct Border<'a> {
    pub(in crate::plan) asked: &'a BorderAsked,
    /// Where it lies at the full depth that its gaps leave.
    pub(in crate::plan) layout: &'a Layout,
    pub(in crate::plan) prepared: &'a Prepared,
    pub(in crate::plan) repeats: &'a Repeats,
    pub(in crate::plan) tolerances: Tolerances,
    /// Which of the equally good cuts its mitres take.
    pub(in crate::plan) cut: usize,
    /// What of it is stitched, when it has begun.
    pub(in crate::plan) kept: Option<&'a KeptBorder>,
}

/// A border at one depth.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Laid {
    pub(in crate::plan) layout: Layout,
    pub(in crate::plan) corners: Corners,
    pub(in crate::plan) spans: Vec<SideSpan>,
}

/// Lays a border out on a layout of its own, or the same at another depth.
///
/// # Complexity
///
/// O(points of the corners).
pub(in crate::plan) fn lay(
    border: &Border<'_>,
    layout: Layout,
) -> Result<(Laid, Vec<Finding>), Error> {
    let (asked, tolerances) = (border.asked, border.tolerances);
    let (corners, mut findings) = place(
        asked,
        &layout,
        border.prepared,
        (border.repeats, border.cut),
        tolerances,
    )?;
    let corners = match border.kept {
        Some(kept) => {
            let (held, found) = hold(corners, (asked.index, &layout), kept, tolerances.join)?;
            findings.extend(found);
            held
        }
        None => corners,
    };
    let spans = spans(asked, &layout, &corners, tolerances.flattening)?;
    let laid = Laid {
        layout,
        corners,
        spans,
    };
    Ok((laid, findings))
}
