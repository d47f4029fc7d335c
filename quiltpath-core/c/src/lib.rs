//! The C interface of `quiltpath-core`: a plan as JSON in, its result as JSON out.
//!
//! `include/quiltpath.h` is what C sees, with who owns what; `abi` has the functions, `text` the
//! strings that cross the boundary, `motifs` the drawings of a plan, and `job` the work, in which
//! nothing is unsafe. It is a crate of its own so that `quiltpath-core` keeps
//! `#![forbid(unsafe_code)]`, and nobody who embeds it from Rust builds a shared library.
//!
//! Guarantee: no panic crosses the boundary; null pointers and bytes that aren't UTF-8 give a
//! status and a message. Pointers that are neither null nor what the header asks for can't be
//! noticed. Nothing is kept between calls, so any number of threads may call at once.

pub mod abi;
mod job;
mod motifs;
mod text;
