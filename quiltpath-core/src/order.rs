//! The order of stitching on a frame: passes, runs without a thread cut, and travel between them.
//!
//! Problem: a frame rolls the quilt along y; the full width is within reach, but only a window of
//! the throat's height along y, less what the roll of the stitched part takes of it (`throat`), and
//! the quilt is only advanced. Atoms, the parts of the stitching that are not to be divided, are
//! put into passes, joined to runs, and the runs put in order. Method, each given what came before:
//! 1. the least number of passes, with a witness, over all places where windows may begin
//!    (`passes`);
//! 2. the fewest thread cuts over all choices of that many windows, or of as many more as asked for
//!    (`windows`): each run is a start/end pair, so one thread cut; then the window of each atom
//!    and the runs (`cuts`, `runs`);
//! 3. the least travel from run to run (`travel`), for up to eight choices of windows with the
//!    fewest cuts, of which the one with the least is taken.
//!
//! With two loadings all of this is done for each (`loading`), with two sweeps for each of them
//! (`sweeps`), and atoms that may be stitched in either loading go where that takes the fewest
//! passes, then cuts, then travel (`either`). Placed pieces become atoms in `divide`. Guarantee: 1
//! is exact. 2 is exact for chains and rings unless the search had to drop ways, and where more
//! than two ends meet while there are few choices; else the report has a lower bound. 3 is exact
//! for the runs of a choice up to a number of them for each pass, and else has a bound too; windows
//! elsewhere with as few cuts, and other atoms in the same number of runs, might travel less.
//! Failure: an atom deeper than every window is in no pass; it is reported.

mod atom;
mod cuts;
mod divide;
mod either;
mod load;
mod loading;
mod options;
mod ordered;
mod passes;
mod runs;
mod shares;
mod sweeps;
#[cfg(test)]
mod tests;
mod throat;
mod travel;
mod windows;

pub use atom::{Atom, AtomEnd, Sweep};
pub use divide::{Divided, Place, Placed, Stretch, divide};
pub use loading::{Loading, Loadings};
pub use options::{MORE_PASSES, OrderOptions};
pub use ordered::{Loaded, Ordered, Pass, Run, RunStep};
pub use throat::{Roll, Throat};

use crate::error::{Error, StitchFault};
use crate::geom::Bounds;
use crate::geom::polyline::check_points;
use crate::graph::unite;
use atom::MAX_ATOMS;
use either::chosen_loadings;
use load::{Frame, Group};
use shares::shares;
use sweeps::back_up;

/// Puts atoms into the fewest passes, with few thread cuts and little travel.
///
/// A join means that two ends lie in one place, so that stitching goes on from one to the other
/// either way; joins hang together: two ends joined to a third are joined. Ends that are in one
/// place without a join count as apart. An atom fits into a window when it is no deeper than what
/// the throat reaches from there, up to a billionth of it.
///
/// ```
/// use quiltpath_core::geom::{Bounds, Point};
/// use quiltpath_core::order::{Atom, AtomEnd::{End, Start}, OrderOptions, order};
///
/// // Three lines down the quilt, 10 long each and joined; the throat is 25.
/// let line = |y: f64| {
///     let (start, end) = (Point::new(5.0, y), Point::new(5.0, y + 10.0));
///     Atom::new(start, end, Bounds { min: start, max: end })
/// };
/// let atoms = [line(0.0), line(10.0), line(20.0)];
/// let joins = [[End(0), Start(1)], [End(1), Start(2)]];
/// let quilt = Bounds { min: Point::new(0.0, 0.0), max: Point::new(40.0, 30.0) };
/// let ordered = order(&atoms, &joins, &OrderOptions::new(25.0, quilt))?;
/// let loaded = &ordered.loadings[0];
/// assert_eq!(loaded.passes.len(), 2);
/// // The first window takes two of the lines as one run.
/// assert_eq!(loaded.passes[0].runs[0].steps.len(), 2);
/// assert_eq!((ordered.cuts(), ordered.least_cuts()), (2, 2));
/// // The second starts at the third line, 20 down.
/// let seen = loaded.passes[1].to_machine.apply(atoms[2].start);
/// assert_eq!(seen, Point::new(5.0, 0.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the throat is not a length above 0, its reserve is below 0 or a coordinate
/// is none; a stitch error when the reserve leaves nothing of the throat, when there are more than
/// 10 000 atoms or a join names one that is not there.
///
/// # Complexity
///
/// O(n log n) for the passes and for chains; on a ring times the atoms of one window; for thread
/// cuts where three ends meet up to a million steps, for travel up to 2^24 a pass, or the squares
/// of its runs' openings.
pub fn order(
    atoms: &[Atom],
    joins: &[[AtomEnd; 2]],
    options: &OrderOptions,
) -> Result<Ordered, Error> {
    check(atoms, joins, options)?;
    let mut joined: Vec<usize> = (0..2 * atoms.len()).collect();
    for join in joins {
        unite(&mut joined, join.map(AtomEnd::number));
    }
    let mut frame = Frame {
        atoms,
        joined,
        options,
    };
    let loadings = chosen_loadings(&mut frame);
    let mut too_deep = Vec::new();
    let mut groups = frame.groups(&loadings);
    for group in &mut groups {
        let (fit, deep): (Vec<usize>, Vec<usize>) =
            (group.atoms.iter()).partition(|&&atom| frame.takes(group.loading, atom));
        too_deep.extend(deep);
        group.atoms = fit;
    }
    groups.retain(|group| !group.atoms.is_empty());
    too_deep.sort_unstable();
    let mut load = |group: &Group, more| frame.load(group.loading, &group.atoms, more);
    let mut sweeps: Vec<Loaded> = groups.iter().map(|group| load(group, 0)).collect();
    let most = options.more_passes.min(MORE_PASSES);
    for (at, more) in shares(&sweeps, most).into_iter().enumerate() {
        if more > 0 {
            sweeps[at] = load(&groups[at], more);
        }
    }
    let mut loadings: Vec<Loaded> = Vec::with_capacity(sweeps.len());
    for (group, loaded) in groups.iter().zip(sweeps) {
        let loaded = match loadings.last_mut() {
            Some(before) if before.loading == group.loading && group.sweep == Sweep::Second => {
                back_up(before, loaded, atoms, options)
            }
            _ => loaded,
        };
        loadings.push(loaded);
    }
    Ok(Ordered { loadings, too_deep })
}

fn check(atoms: &[Atom], joins: &[[AtomEnd; 2]], options: &OrderOptions) -> Result<(), Error> {
    options.check()?;
    let count = atoms.len();
    if count > MAX_ATOMS {
        let limit = MAX_ATOMS;
        return Err(StitchFault::TooManyAtoms { limit }.into());
    }
    let corners = |bounds: &Bounds| [bounds.min, bounds.max];
    for (number, atom) in atoms.iter().enumerate() {
        let [min, max] = corners(&atom.bounds);
        check_points(&[atom.start, atom.end, min, max])
            .map_err(|e| e.in_element(format!("atom {number}")))?;
    }
    for (number, join) in joins.iter().enumerate() {
        if let Some(end) = join.iter().find(|end| end.atom() >= count) {
            let atom = end.atom();
            return Err(Error::from(StitchFault::NoSuchAtom { atom, count })
                .in_element(format!("join {number}")));
        }
    }
    Ok(())
}
