//! Selectors of style sheets: Selectors Level 4, as far as drawing programs and people use them.
//!
//! Types, ids, classes, attributes, the four combinators, places among siblings, `:root`, `:empty`,
//! `:not()`, `:is()` and `:where()`. What depends on a pointer or on text never matches. Anything
//! else is no selector, so that its rule is reported.

mod matching;
mod reading;
#[cfg(test)]
mod tests;

pub(super) use matching::{Budget, Key, Selector};
