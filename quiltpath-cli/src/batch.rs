//! One command over many records: a folder's drawings, or the lines of JSON Lines.
//!
//! Records are worked on by a pool of threads; results, messages and errors come in the order of
//! the records. A bad record is reported and left out, and the command ends with exit code 1.

mod draw;
mod each;
mod pool;
mod progress;
mod records;

pub(crate) use draw::draw;
pub(crate) use each::{Many, each};
pub(crate) use pool::Sink;
pub(crate) use records::{Input, Lines, Record};
