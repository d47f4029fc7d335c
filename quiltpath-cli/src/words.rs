//! Counts and stretches as people read them.
//!
//! The library has the same two for its own sentences and keeps them to itself: English plurals are
//! no part of its interface.

/// A count with its noun: `1 repeat`, `5 repeats`.
pub(crate) fn counted(count: usize, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}

/// A stretch factor: `+2.3 %`.
pub(crate) fn percent(stretch: f64) -> String {
    let value = ((stretch - 1.0) * 1000.0).round() / 10.0 + 0.0;
    format!("{value:+.1} %")
}
