//! `quiltpath-core` in JavaScript: motifs and whole plans, and what the worksheet page runs on.
//!
//! A [`Worksheet`] is a plan with its drawings and progress; a [`Motif`] is a line. Objects go in
//! and out as JavaScript has them, with types in `quiltpath.d.ts`; what fails throws an object with
//! what went wrong, where, and what would be accepted ([`fault`]). The work itself is in [`desk`],
//! which knows nothing of JavaScript and is tested on any machine.
//!
//! A panic would be a fault of ours: [`panic::last_panic`] has its message, and the module has to
//! be loaded afresh, since what it was working on may be half done.

pub mod at_frame;
pub mod desk;
pub mod drawn;
pub mod fault;
mod frame;
pub mod motif;
pub mod panic;
pub mod small;
mod types;
pub mod worksheet;

pub use motif::Motif;
pub use worksheet::Worksheet;
