//! The drawings of a field, made ready.

use super::design::Design;
use crate::plan::repeats::Repeats;

/// The drawings of a field; what the plan gives none for is `None`.
#[derive(Debug, Clone, Default)]
pub(in crate::plan) struct FieldDrawings {
    pub(in crate::plan) block: Option<Design>,
    pub(in crate::plan) cornerstone: Option<Design>,
    pub(in crate::plan) side_triangle: Option<Design>,
    pub(in crate::plan) corner_triangle: Option<Design>,
    /// Those of sashes that run across, and of those that run up and down.
    pub(in crate::plan) sashes: Option<Repeats>,
}
