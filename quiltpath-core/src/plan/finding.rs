//! What a solved plan has to report: notes, warnings and errors, each with its data and its places.

mod data;
mod kind;

pub use data::{Finding, Severity};
pub use kind::{FindingKind, OddMeasure};
