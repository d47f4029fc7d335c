//! Two jobs at once, where the feature `parallel` is on and the machine has threads to give.

#[cfg(all(feature = "parallel", not(target_arch = "wasm32")))]
pub(crate) use rayon::join;

/// What both jobs give, done one after the other.
#[cfg(not(all(feature = "parallel", not(target_arch = "wasm32"))))]
pub(crate) fn join<A, B>(first: impl FnOnce() -> A, second: impl FnOnce() -> B) -> (A, B) {
    (first(), second())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_give_what_they_make() {
        let words = ["near", "far"];
        let (one, other) = join(|| words[0].len(), || words[1].to_owned());
        assert_eq!((one, other.as_str()), (4, "far"));
    }

    #[test]
    #[should_panic(expected = "the second job")]
    fn a_panic_of_either_is_the_callers() {
        join(|| 1, || -> u8 { panic!("the second job") });
    }
}
