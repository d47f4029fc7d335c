//! What the tests and measurements share: the project's own drawings, inputs made by rule.

pub mod draw;
pub mod ell;
pub mod ells;
pub mod fills;
pub mod fuzz;
pub mod speed;

/// How many cases a property takes: the usual number, or what the variable `PROPTEST_CASES` asks
/// for.
#[must_use]
pub fn cases(usual: u32) -> u32 {
    let asked = std::env::var("PROPTEST_CASES").ok();
    asked.and_then(|text| text.parse().ok()).unwrap_or(usual)
}
