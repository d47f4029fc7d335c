//! No number makes a public function panic: NaN, infinities, ends of ranges, each in each place.
//!
//! The fuzzed bodies draw mostly plausible numbers. Here every function takes every awkward one.

// What the calls return is checked elsewhere; here they only have to return.
#![allow(unused_must_use, clippy::too_many_lines)]

mod bands;
mod corners;
mod formats;
mod geometry;
mod kinds;
mod panics;
mod repeats;
mod samples;
mod solved;
mod stitching;
