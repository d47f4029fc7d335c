//! What the measurements share: inputs made by rule, and our own works on them.

pub mod asked;
pub mod inputs;
pub mod report;
pub mod works;
