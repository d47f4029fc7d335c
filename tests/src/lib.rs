//! What the whole-job tests share: the project's own drawings and the places of its files.

pub mod draw;
