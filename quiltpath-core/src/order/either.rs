//! Atoms that may be stitched in either loading: in which of the two each is.
//!
//! Problem: a short line between a side that lies across in one loading and a corner that is
//! stitched in the other belongs to neither more than to the other; in the wrong one it takes a
//! pass of its own. Method: all choices of loadings where there are at most eight such atoms, and
//! else one atom after the other is changed while that takes fewer passes; then one after the other
//! is changed while that takes fewer cuts or less travel in as few passes. Guarantee: the fewest
//! passes for up to eight such atoms. Failure: cuts and travel are no worse than with the loadings
//! preferred, in as few passes, but need not be the least.

use super::load::Frame;
use super::loading::Loading;

/// The most atoms for which all choices of loadings are tried: 8, 256 choices.
const ALL_TRIED: usize = 8;

/// The loading of each atom.
pub(super) fn chosen_loadings(frame: &mut Frame<'_>) -> Vec<Loading> {
    let mut loadings: Vec<Loading> = frame.atoms.iter().map(|atom| atom.loading).collect();
    let free: Vec<usize> = (0..loadings.len())
        .filter(|&atom| frame.atoms[atom].either)
        .filter(|&atom| frame.takes(loadings[atom].other(), atom))
        .collect();
    if free.is_empty() {
        return loadings;
    }
    let mut fewest = passes(frame, &loadings);
    if free.len() <= ALL_TRIED {
        let preferred = loadings.clone();
        for choice in 1..1usize << free.len() {
            let mut trial = preferred.clone();
            for (k, &atom) in free.iter().enumerate() {
                if choice >> k & 1 == 1 {
                    trial[atom] = trial[atom].other();
                }
            }
            better(frame, &mut loadings, trial, &mut fewest, passes);
        }
    } else {
        one_by_one(frame, &free, &mut loadings, &mut fewest, passes);
    }
    let mut least = work(frame, &loadings);
    one_by_one(frame, &free, &mut loadings, &mut least, work);
    loadings
}

/// Changes one atom after the other while that helps.
fn one_by_one<T: PartialOrd>(
    frame: &mut Frame<'_>,
    free: &[usize],
    loadings: &mut Vec<Loading>,
    best: &mut T,
    count: fn(&mut Frame<'_>, &[Loading]) -> T,
) {
    let mut left = 2 * free.len();
    let mut helped = true;
    while helped && left > 0 {
        helped = false;
        for &atom in free.iter().take(left) {
            let mut trial = loadings.clone();
            trial[atom] = trial[atom].other();
            helped |= better(frame, loadings, trial, best, count);
            left -= 1;
        }
    }
}

/// Takes a trial that counts for less.
fn better<T: PartialOrd>(
    frame: &mut Frame<'_>,
    loadings: &mut Vec<Loading>,
    trial: Vec<Loading>,
    best: &mut T,
    count: fn(&mut Frame<'_>, &[Loading]) -> T,
) -> bool {
    let counted = count(frame, &trial);
    let less = counted < *best;
    if less {
        (*loadings, *best) = (trial, counted);
    }
    less
}

/// The atoms of each sweep of each loading that its windows take; none is empty.
fn members(frame: &Frame<'_>, loadings: &[Loading]) -> Vec<(Loading, Vec<usize>)> {
    let groups = frame.groups(loadings).into_iter().map(|group| {
        let fit = |&atom: &usize| frame.takes(group.loading, atom);
        (group.loading, group.atoms.into_iter().filter(fit).collect())
    });
    groups
        .filter(|(_, atoms): &(_, Vec<usize>)| !atoms.is_empty())
        .collect()
}

/// The number of passes.
fn passes(frame: &mut Frame<'_>, loadings: &[Loading]) -> usize {
    let each = members(frame, loadings).into_iter();
    each.map(|(loading, chosen)| frame.windows(loading, &chosen).fewest())
        .sum()
}

/// Passes, thread cuts and travel.
fn work(frame: &mut Frame<'_>, loadings: &[Loading]) -> (usize, usize, f64) {
    let mut work = (0, 0, 0.0);
    for (loading, chosen) in members(frame, loadings) {
        let loaded = frame.load(loading, &chosen, 0);
        work.0 += loaded.passes.len();
        work.1 += loaded.cuts;
        work.2 += loaded.travel;
    }
    work
}

#[cfg(test)]
mod tests {
    use crate::geom::{Bounds, Point};
    use crate::order::{Atom, AtomEnd, Loading, OrderOptions, order};
    use proptest::prelude::*;

    fn atom(x: f64, y: f64, across: f64, down: f64) -> Atom {
        let (min, max) = (Point::new(x, y), Point::new(x + across, y + down));
        Atom::new(min, max, Bounds { min, max })
    }

    /// A corner as deep as the throat, a link below it, and a side that goes on down from there.
    #[test]
    fn a_link_goes_with_the_side_where_it_would_take_a_pass_of_its_own() {
        let atoms = [
            atom(0.0, 0.0, 10.0, 10.0),
            atom(1.0, 10.0, 1.0, 2.5).in_either_loading(),
            atom(2.0, 12.5, 2.0, 40.0).with_loading(Loading::Turned),
        ];
        let joins = [0, 1].map(|k| [AtomEnd::End(k), AtomEnd::Start(k + 1)]);
        let quilt = atom(0.0, 0.0, 60.0, 60.0).bounds;
        let ordered = order(&atoms, &joins, &OrderOptions::new(10.0, quilt)).expect("ordered");
        assert_eq!((ordered.passes(), ordered.cuts()), (2, 2));
        let side = &ordered.loadings[1];
        assert_eq!(
            (side.loading, side.passes[0].runs[0].steps.len()),
            (Loading::Turned, 2)
        );
    }

    proptest! {
        #[test]
        fn no_choice_of_loadings_takes_fewer_passes(
            places in prop::collection::vec((0u8..60, 0u8..60, 1u8..9, 1u8..9, any::<(bool, bool)>()), 1..8),
            chained in any::<u8>(),
        ) {
            let atoms: Vec<Atom> = places
                .iter()
                .map(|&(x, y, across, down, (turned, either))| {
                    let [x, y, across, down] = [x, y, across, down].map(f64::from);
                    let loading = Loading::ALL[usize::from(turned)];
                    let atom = atom(x, y, across, down).with_loading(loading);
                    if either { atom.in_either_loading() } else { atom }
                })
                .collect();
            let joins: Vec<[AtomEnd; 2]> = (1..atoms.len())
                .filter(|k| chained >> k & 1 == 1)
                .map(|k| [AtomEnd::End(k - 1), AtomEnd::Start(k)])
                .collect();
            let quilt = atom(0.0, 0.0, 70.0, 70.0).bounds;
            let options = OrderOptions::new(10.0, quilt);
            let ordered = order(&atoms, &joins, &options).expect("ordered");
            let each: usize = ordered
                .loadings
                .iter()
                .flat_map(|loaded| &loaded.passes)
                .flat_map(|pass| &pass.runs)
                .map(|run| run.steps.len())
                .sum();
            prop_assert_eq!(each, atoms.len());
            let all = (0usize..1 << atoms.len()).filter(|choice| {
                (0..atoms.len()).all(|k| choice >> k & 1 == 0 || atoms[k].either)
            });
            let fixed = |choice: usize| {
                let changed = atoms.iter().enumerate().map(|(k, atom)| {
                    let mut atom = *atom;
                    if choice >> k & 1 == 1 {
                        atom.loading = atom.loading.other();
                    }
                    atom.either = false;
                    atom
                });
                let changed: Vec<Atom> = changed.collect();
                order(&changed, &joins, &options).expect("ordered").passes()
            };
            prop_assert_eq!(ordered.passes(), all.map(fixed).min().expect("a choice"));
        }
    }
}
