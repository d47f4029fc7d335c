//! The awkward numbers, and calls that note what panics.

use std::panic::{AssertUnwindSafe, catch_unwind};

use quiltpath_core::units::Unit;

pub(crate) const NUMBERS: [f64; 15] = [
    0.0,
    -0.0,
    0.5,
    1.0,
    -3.0,
    90.0,
    1e-9,
    5e-324,
    1e9,
    1e18,
    1e300,
    f64::MAX,
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
];

pub(crate) const COUNTS: [usize; 9] = [
    0,
    1,
    2,
    3,
    7,
    100_000,
    u32::MAX as usize,
    usize::MAX / 2 + 1,
    usize::MAX,
];

/// The calls that panicked.
#[derive(Default)]
pub(crate) struct Panics(Vec<String>);

impl Panics {
    pub(crate) fn call<T>(&mut self, what: impl FnOnce() -> String, work: impl FnOnce() -> T) {
        if catch_unwind(AssertUnwindSafe(work)).is_err() {
            self.0.push(what());
        }
    }

    /// Calls with every number.
    pub(crate) fn one(&mut self, what: &str, mut work: impl FnMut(f64)) {
        for a in NUMBERS {
            self.call(|| format!("{what} {a}"), || work(a));
        }
    }

    /// Calls with every pair of numbers.
    pub(crate) fn two(&mut self, what: &str, mut work: impl FnMut(f64, f64)) {
        for a in NUMBERS {
            for b in NUMBERS {
                self.call(|| format!("{what} {a} {b}"), || work(a, b));
            }
        }
    }

    /// Calls with every number of things.
    pub(crate) fn count(&mut self, what: &str, mut work: impl FnMut(usize)) {
        for a in COUNTS {
            self.call(|| format!("{what} {a}"), || work(a));
        }
    }

    pub(crate) fn none(self) {
        assert!(self.0.is_empty(), "panics:\n{}", self.0.join("\n"));
    }
}

/// An error's message is written too, as that is work with the same numbers.
pub(crate) fn told<T>(result: Result<T, quiltpath_core::Error>) -> Option<T> {
    result
        .map_err(|error| error.in_unit(Unit::In).to_string())
        .ok()
}
