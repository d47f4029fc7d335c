//! Every choice of a number of windows, where there are few.

use crate::order::passes::Places;

/// Every choice of so many windows or fewer at places that matter; none when there are more than
/// `most`.
pub(in crate::order) fn every(
    places: &Places,
    windows: usize,
    most: usize,
) -> Option<Vec<Vec<usize>>> {
    let mut all = vec![Vec::new()];
    for window in 1..=windows {
        let mut next: Vec<Vec<usize>> = Vec::new();
        for chosen in &all {
            let at = chosen.last().map_or(0, |place| place + 1);
            if places.need(at) == 0 {
                next.push(chosen.clone());
            }
            let Some(last) = places.next(at).or(places.tops.len().checked_sub(1)) else {
                continue;
            };
            for place in at..=last {
                if window + places.need(place + 1) <= windows {
                    next.push([chosen.as_slice(), &[place]].concat());
                }
            }
            if next.len() > most {
                return None;
            }
        }
        all = next;
    }
    Some(all)
}
