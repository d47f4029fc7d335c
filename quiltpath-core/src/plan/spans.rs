//! The span of each side of a border: the band from the end of one corner to the start of the next.

mod report;
mod sides;
mod span;

pub(in crate::plan) use report::report;
pub(in crate::plan) use sides::{outlines, span, spans};
pub(in crate::plan) use span::SideSpan;
