//! Which sweep of which loading takes the passes beyond the fewest.

use super::ordered::Loaded;

/// How many more passes each gets of those allowed, so that they save the most thread cuts; none
/// that saves nothing.
pub(super) fn shares(loadings: &[Loaded], allowed: usize) -> Vec<usize> {
    let saved = |at: usize, more: usize| {
        let loaded = &loadings[at];
        let with = more.checked_sub(1).map(|k| loaded.cuts_with_more[k]);
        loaded.cuts - with.unwrap_or(loaded.cuts)
    };
    let mut all = vec![Vec::new()];
    for _ in loadings {
        let longer = |shares: Vec<usize>| {
            let left = allowed - shares.iter().sum::<usize>();
            (0..=left).map(move |more| [shares.as_slice(), &[more]].concat())
        };
        all = all.into_iter().flat_map(longer).collect();
    }
    let worth = |shares: &Vec<usize>| {
        let each = shares.iter().enumerate();
        let all: usize = each.map(|(at, &more)| saved(at, more)).sum();
        (all, std::cmp::Reverse(shares.iter().sum::<usize>()))
    };
    all.into_iter().max_by_key(worth).unwrap_or_default()
}
