//! Which loading takes the passes beyond the fewest.

use super::ordered::Loaded;

/// How many more passes each loading gets of those allowed, so that they save the most thread cuts;
/// none that saves nothing.
pub(super) fn shares(loadings: &[Loaded], allowed: usize) -> Vec<usize> {
    let saved = |at: usize, more: usize| {
        let loaded = &loadings[at];
        let with = more.checked_sub(1).map(|k| loaded.cuts_with_more[k]);
        loaded.cuts - with.unwrap_or(loaded.cuts)
    };
    let most = |at: usize| if at < loadings.len() { allowed } else { 0 };
    let all = (0..=most(0)).flat_map(|a| (0..=most(1).min(allowed - a)).map(move |b| [a, b]));
    let worth = |&[a, b]: &[usize; 2]| {
        let all: usize = [a, b]
            .into_iter()
            .enumerate()
            .take(loadings.len())
            .map(|(at, more)| saved(at, more))
            .sum();
        (all, std::cmp::Reverse(a + b))
    };
    let best = all.max_by_key(worth).unwrap_or([0, 0]);
    best[..loadings.len()].to_vec()
}
