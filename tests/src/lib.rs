//! What the tests and measurements share: the project's own drawings, inputs made by rule.

pub mod draw;
pub mod fills;
pub mod speed;
