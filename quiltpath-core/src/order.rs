//! The order of stitching on a frame: passes, runs without a thread cut, and travel between them.
//!
//! Problem: a frame rolls the quilt along y; the full width is within reach, but only a window of
//! the throat's height along y, and the quilt is only advanced. Atoms, the parts of the stitching
//! that are not to be divided, are put into passes, joined to runs, and the runs put in order.
//! Method, one after the other, each given what came before:
//! 1. the least number of passes, with a witness (`passes`);
//! 2. the fewest thread cuts with these windows: each run is a start/end pair, so one thread cut
//!    (`cuts`, `runs`);
//! 3. the least travel from run to run (`travel`).
//!
//! With two loadings all of this is done for each (`loading`). Placed pieces become atoms in `divide`.
//! Guarantee: 1 is exact; 2 is exact for chains and rings, and else the report has a lower bound; 3
//! is exact up to a number of runs for each pass, and else has one too. Windows lie as low as they
//! can; windows elsewhere might need fewer cuts.
//! Failure: an atom deeper than the throat is in no pass; it is reported.

mod atom;
mod cuts;
mod divide;
mod loading;
mod ordered;
mod passes;
mod runs;
#[cfg(test)]
mod tests;
mod travel;

pub use atom::{Atom, AtomEnd};
pub use divide::{Divided, Place, Placed, Stretch, divide};
pub use loading::{Loading, Loadings};
pub use ordered::{Loaded, Ordered, Pass, Run, RunStep};

use crate::error::{Error, StitchFault};
use crate::geom::Bounds;
use crate::geom::polyline::check_points;
use crate::graph::{root, unite};
use atom::MAX_ATOMS;
use passes::check_throat;

/// The frame and the quilt on it, in the unit of the atoms.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct OrderOptions {
    /// How much of the quilt can be stitched before it is advanced.
    pub throat: f64,
    /// The box of the quilt on the cloth; the machine's coordinates start at its left edge.
    pub quilt: Bounds,
}

impl OrderOptions {
    /// A frame that takes so much of the quilt before it is advanced, and the quilt's box.
    ///
    /// The numbers are checked where they are used.
    #[must_use]
    pub fn new(throat: f64, quilt: Bounds) -> Self {
        Self { throat, quilt }
    }
}

/// Puts atoms into the fewest passes, with few thread cuts and little travel.
///
/// A join means that two ends lie in one place, so that stitching goes on from one to the other
/// either way; joins hang together: two ends joined to a third are joined. Ends that are in one
/// place without a join count as apart. An atom fits into a window when it is no deeper than the
/// throat, up to a billionth of it.
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
/// A geometry error when the throat is not a length above 0 or a coordinate is none; a stitch
/// error when there are more than 10 000 atoms or a join names one that is not there.
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
    let mut parent: Vec<usize> = (0..2 * atoms.len()).collect();
    for join in joins {
        unite(&mut parent, join.map(AtomEnd::number));
    }
    let mut too_deep = Vec::new();
    let mut loadings = Vec::new();
    for loading in Loading::ALL {
        let (fit, deep): (Vec<usize>, Vec<usize>) = (0..atoms.len())
            .filter(|&atom| atoms[atom].loading == loading)
            .partition(|&atom| passes::fits(loading.span(&atoms[atom].bounds), options.throat));
        too_deep.extend(deep);
        if !fit.is_empty() {
            loadings.push(load(loading, &fit, atoms, &mut parent, options));
        }
    }
    too_deep.sort_unstable();
    Ok(Ordered { loadings, too_deep })
}

/// One loading; `chosen` are the atoms stitched in it.
fn load(
    loading: Loading,
    chosen: &[usize],
    atoms: &[Atom],
    parent: &mut [usize],
    options: &OrderOptions,
) -> Loaded {
    let upper = loading.span(&options.quilt)[0];
    let spans: Vec<[f64; 2]> = chosen
        .iter()
        .map(|&atom| loading.span(&atoms[atom].bounds).map(|y| y - upper))
        .collect();
    let windows = passes::fewest_windows(&spans, options.throat);

    let mut number = vec![usize::MAX; parent.len()];
    let mut vertices = 0;
    let mut vertex = |end: usize| {
        let place = root(parent, end);
        if number[place] == usize::MAX {
            number[place] = vertices;
            vertices += 1;
        }
        number[place]
    };
    let ends: Vec<[usize; 2]> = chosen
        .iter()
        .map(|&atom| [vertex(2 * atom), vertex(2 * atom + 1)])
        .collect();
    let assigned = cuts::assign(&ends, vertices, &windows.reach);

    let mut members: Vec<Vec<usize>> = vec![Vec::new(); windows.tops.len()];
    for (atom, &window) in assigned.window.iter().enumerate() {
        members[window].push(atom);
    }
    let mut scratch = vec![0; vertices];
    let mut runs: Vec<Vec<Run>> = members
        .iter()
        .map(|atoms| runs::runs(atoms, &ends, &mut scratch))
        .collect();
    let [loaded, _] = loading.machine(&options.quilt, 0.0);
    let travel = travel::order_runs(&mut runs, &windows.tops, |atom| {
        let atom = &atoms[chosen[atom]];
        [atom.start, atom.end].map(|point| loaded.apply(point))
    });

    let cuts = runs.iter().map(Vec::len).sum();
    let passes = runs.into_iter().zip(&windows.tops).map(|(mut runs, &top)| {
        for step in runs.iter_mut().flat_map(|run| &mut run.steps) {
            step.atom = chosen[step.atom];
        }
        let [to_machine, to_cloth] = loading.machine(&options.quilt, top);
        Pass {
            top,
            to_machine,
            to_cloth,
            runs,
        }
    });
    Loaded {
        loading,
        passes: passes.collect(),
        apart: windows.apart.iter().map(|&atom| chosen[atom]).collect(),
        cuts,
        least_cuts: assigned.least,
        travel: travel.length,
        exactness: travel.exactness,
    }
}

fn check(atoms: &[Atom], joins: &[[AtomEnd; 2]], options: &OrderOptions) -> Result<(), Error> {
    check_throat(options.throat)?;
    let count = atoms.len();
    if count > MAX_ATOMS {
        let limit = MAX_ATOMS;
        return Err(StitchFault::TooManyAtoms { limit }.into());
    }
    let corners = |bounds: &Bounds| [bounds.min, bounds.max];
    check_points(&corners(&options.quilt)).map_err(|e| e.in_element("the quilt"))?;
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
