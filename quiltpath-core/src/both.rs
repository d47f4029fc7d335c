//! Two works side by side, where the machine has a second thread to give.

use std::panic::resume_unwind;
use std::thread::{Builder, scope};

/// What both give, the second made on another thread, or after the first where none can be had.
///
/// A panic of either is that of the caller.
pub(crate) fn both<A, B: Send>(here: impl FnOnce() -> A, beside: impl Fn() -> B + Sync) -> (A, B) {
    scope(|scope| {
        let other = Builder::new().spawn_scoped(scope, &beside);
        let here = here();
        let there = match other {
            Ok(other) => other.join().unwrap_or_else(|panic| resume_unwind(panic)),
            Err(_) => beside(),
        };
        (here, there)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_give_what_they_make() {
        let words = ["near", "far"];
        let (one, other) = both(|| words[0].len(), || words[1].to_owned());
        assert_eq!((one, other.as_str()), (4, "far"));
    }

    #[test]
    #[should_panic(expected = "the other work")]
    fn a_panic_beside_is_the_callers() {
        both(|| 1, || -> u8 { panic!("the other work") });
    }
}
