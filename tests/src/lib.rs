//! What the whole-job tests share: the project's own drawings.

pub mod draw;
pub mod fills;
