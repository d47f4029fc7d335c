//! Placed pieces divided into atoms, where a pass may end without harm.
//!
//! Problem: a side is to be cut between its repeats, a corner not at all, unless one of these is
//! deeper than every window; then it has to be cut inside the motif, as seldom as possible. Method:
//! a piece is divided where its copies end. A copy that fits the window at its own top in only one
//! of the two loadings goes there; one that is too deep in both is followed from its start and cut
//! where it would no longer fit, and so on. Guarantee: each atom fits the window at its top, and
//! what doesn't fit that one fits none (`throat`). A part of what fits fits, too, so a cut that is
//! made as late as possible leaves the least for the atoms after it, and the cuts inside a copy are
//! as few as can be. Which pieces had to be cut like that is reported. Failure: copies that end
//! nowhere on the line, or out of order.

use super::atom::{Atom, AtomEnd, MAX_ATOMS, Sweep};
use super::loading::{Loading, Loadings};
use super::options::OrderOptions;
use super::ordered::RunStep;
use crate::error::{Error, StitchFault};
use crate::geom::{Bounds, Point};
use crate::motif::Motif;

/// A piece as placed on the cloth.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Placed<'a> {
    /// Its line.
    pub motif: &'a Motif,
    /// The indices of the points where its copies end, as in
    /// [`Chain::ends`](crate::chain::Chain::ends); none for a piece that is whole.
    pub ends: &'a [usize],
    /// The number of the piece whose loading it shares, if it has none of its own: for a link the
    /// side or the corner next to it.
    pub with: Option<usize>,
    /// The number of another piece whose loading is as good, if there is one.
    pub or_with: Option<usize>,
}

impl<'a> Placed<'a> {
    /// A piece that is whole, in the loading that its own box asks for.
    #[must_use]
    pub fn new(motif: &'a Motif) -> Self {
        Self {
            motif,
            ends: &[],
            with: None,
            or_with: None,
        }
    }

    /// The same piece, made of copies that end at the points of these indices.
    #[must_use]
    pub fn with_ends(mut self, ends: &'a [usize]) -> Self {
        self.ends = ends;
        self
    }

    /// The same piece in the loading of the piece of this number.
    #[must_use]
    pub fn with_loading_of(mut self, piece: usize) -> Self {
        self.with = Some(piece);
        self
    }

    /// The same piece in the loading of one of the pieces of these numbers: for a link those that
    /// it lies between.
    #[must_use]
    pub fn with_loading_of_either(mut self, pieces: [usize; 2]) -> Self {
        [self.with, self.or_with] = pieces.map(Some);
        self
    }
}

/// A place on a line of points.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Place {
    /// The index of the point at or before it.
    pub point: usize,
    /// The share of the way from there to the next point, at least 0 and below 1.
    pub share: f64,
}

impl Place {
    fn on(point: usize) -> Self {
        Self { point, share: 0.0 }
    }

    /// The point there; beyond the line's end that end.
    fn of(self, points: &[Point]) -> Point {
        let here = points[self.point.min(points.len() - 1)];
        match points.get(self.point.saturating_add(1)) {
            Some(next) if self.share > 0.0 => here + (next - here) * self.share,
            _ => here,
        }
    }
}

/// The part of a piece that an atom is.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Stretch {
    /// The number of the piece.
    pub piece: usize,
    /// Where it starts on the piece's line.
    pub from: Place,
    /// Where it ends.
    pub to: Place,
}

/// Pieces divided into atoms.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Divided {
    /// The atoms, those of each piece in the order of its line.
    pub atoms: Vec<Atom>,
    /// What each atom is made of.
    pub stretches: Vec<Stretch>,
    /// The joins between atoms: those inside pieces, and what [`Divided::join`] adds.
    pub joins: Vec<[AtomEnd; 2]>,
    /// The pieces that no window takes between two ends of copies, by number; they are cut inside
    /// the motif.
    pub deep: Vec<usize>,
    /// The first atom of each piece, and the number of atoms at the end.
    first: Vec<usize>,
}

/// Divides placed pieces into atoms that the windows of a frame can take.
///
/// All in one unit, x to the right, y down. A piece that is not divided is one atom.
///
/// ```
/// use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::order::{Loadings, OrderOptions, Placed, divide};
///
/// // A side of three copies that runs down, 10 each.
/// let points = (0..7).map(|k| Point::new(f64::from(k % 2), 5.0 * f64::from(k)));
/// let side = Motif::from_points("side", points.collect())?;
/// let pieces = [Placed::new(&side).with_ends(&[2, 4, 6])];
/// let quilt = side.bounds();
/// let divided = divide(&pieces, &OrderOptions::new(12.0, quilt), Loadings::Once)?;
/// assert_eq!((divided.atoms.len(), divided.joins.len()), (3, 2));
/// assert!(divided.deep.is_empty());
/// // A throat of 8 does not take a copy; each is cut once.
/// let divided = divide(&pieces, &OrderOptions::new(8.0, quilt), Loadings::Once)?;
/// assert_eq!((divided.atoms.len(), divided.deep), (6, vec![0]));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the throat is not a length above 0, its reserve is below 0 or the quilt is
/// no box; a stitch error when the reserve leaves nothing of the throat. A stitch error that names
/// the piece when the roll leaves nothing of the throat where it ends, when its ends are no rising
/// indices of its points, when it shares the loading of a piece that is not there, or when there
/// would be more than 10 000 atoms.
///
/// # Complexity
///
/// O(points).
pub fn divide(
    pieces: &[Placed],
    frame: &OrderOptions,
    loadings: Loadings,
) -> Result<Divided, Error> {
    frame.check()?;
    let mut divided = Divided {
        atoms: Vec::new(),
        stretches: Vec::new(),
        joins: Vec::new(),
        deep: Vec::new(),
        first: vec![0],
    };
    for (number, piece) in pieces.iter().enumerate() {
        divided.add(pieces, number, frame, loadings).map_err(|e| {
            e.in_element(piece.motif.name())
                .in_element(format!("piece {number}"))
        })?;
    }
    Ok(divided)
}

impl Divided {
    /// Joins the end of one piece to the start of another, or to its own.
    ///
    /// # Errors
    ///
    /// A stitch error when there is no piece of one of these numbers.
    pub fn join(&mut self, from: usize, to: usize) -> Result<(), Error> {
        let count = self.first.len() - 1;
        for piece in [from, to] {
            if piece >= count {
                return Err(StitchFault::NoSuchPiece { piece, count }.into());
            }
        }
        let (last, next) = (self.first[from + 1] - 1, self.first[to]);
        self.joins.push([AtomEnd::End(last), AtomEnd::Start(next)]);
        Ok(())
    }

    /// The points of a run in the order of stitching, on the cloth; `pieces` are those divided.
    ///
    /// A point equal to the one before it is left out. Atoms that are not there are skipped.
    ///
    /// # Complexity
    ///
    /// O(points of these atoms).
    #[must_use]
    pub fn line(&self, pieces: &[Placed], steps: &[RunStep]) -> Vec<Point> {
        let mut line: Vec<Point> = Vec::new();
        for step in steps {
            let Some(&Stretch { piece, from, to }) = self.stretches.get(step.atom) else {
                continue;
            };
            let Some(points) = pieces.get(piece).map(|piece| piece.motif.points()) else {
                continue;
            };
            let first = line.len();
            line.push(from.of(points));
            let inner = [from, to].map(|place| place.point.saturating_add(1));
            line.extend(points.iter().take(inner[1]).skip(inner[0]));
            line.push(to.of(points));
            if step.reversed {
                line[first..].reverse();
            }
        }
        line.dedup();
        line
    }

    fn add(
        &mut self,
        pieces: &[Placed],
        number: usize,
        frame: &OrderOptions,
        loadings: Loadings,
    ) -> Result<(), Error> {
        let Placed {
            motif,
            ends,
            with,
            or_with,
        } = pieces[number];
        let last = motif.points().len() - 1;
        let rising = ends.windows(2).all(|pair| pair[0] < pair[1]);
        let within = ends.first() != Some(&0) && ends.last().is_none_or(|&end| end <= last);
        if !(rising && within) {
            return Err(StitchFault::EndsAstray { last }.into());
        }
        let like = |piece: usize| match pieces.get(piece) {
            Some(_) if loadings == Loadings::Once => Ok(Loading::Upright),
            Some(like) => Ok(Loading::of(&like.motif.bounds())),
            None => {
                let count = pieces.len();
                Err(Error::from(StitchFault::NoSuchPiece { piece, count }))
            }
        };
        let preferred = like(with.unwrap_or(number))?;
        let bottom = frame.below_top(preferred, &motif.bounds())[1];
        frame.throat.check_at(bottom)?;
        let either = or_with.map(like).transpose()? == Some(preferred.other());
        let whole = Some(&last).filter(|&last| ends.last() != Some(last));
        let before = self.atoms.len();
        let mut from = 0;
        for &to in ends.iter().chain(whole) {
            let points = &motif.points()[from..=to];
            let bounds = Bounds::of_nonempty(points);
            let takes = |loading: Loading| frame.takes(loading, &bounds);
            let places = [from, to].map(Place::on);
            if takes(preferred) {
                self.push(motif, number, places, bounds, preferred)?;
            } else if loadings == Loadings::Twice && takes(preferred.other()) {
                self.push(motif, number, places, bounds, preferred.other())?;
            } else {
                self.cut(motif, number, [from, to], frame, preferred)?;
            }
            from = to;
        }
        for atom in &mut self.atoms[before..] {
            atom.either = either;
        }
        for atom in before + 1..self.atoms.len() {
            self.joins
                .push([AtomEnd::End(atom - 1), AtomEnd::Start(atom)]);
        }
        self.first.push(self.atoms.len());
        Ok(())
    }

    /// Cuts what lies between two points of a piece wherever the window ends.
    fn cut(
        &mut self,
        motif: &Motif,
        piece: usize,
        [first, last]: [usize; 2],
        frame: &OrderOptions,
        loading: Loading,
    ) -> Result<(), Error> {
        if self.deep.last() != Some(&piece) {
            self.deep.push(piece);
        }
        let points = motif.points();
        let mut from = Place::on(first);
        let mut bounds = Bounds::of_nonempty(&points[first..=first]);
        let mut point = first;
        while point < last {
            let [here, next] = [points[point], points[point + 1]];
            let taken = bounds.union(&Bounds::of_nonempty(&[next]));
            if frame.takes(loading, &taken) {
                bounds = taken;
                point += 1;
                continue;
            }
            let [least, greatest] = frame.below_top(loading, &bounds);
            let [y, goal] = [here, next]
                .map(|point| frame.below_top(loading, &Bounds::of_nonempty(&[point]))[0]);
            let limit = if goal > greatest {
                least + frame.throat.reach(least)
            } else {
                frame.throat.top_reaching(greatest)
            };
            let share = (limit - y) / (goal - y);
            let to = if share < 1.0 {
                let share = share.max(0.0);
                Place { point, share }
            } else {
                point += 1;
                Place::on(point)
            };
            let cut = to.of(points);
            bounds = bounds.union(&Bounds::of_nonempty(&[cut]));
            self.push(motif, piece, [from, to], bounds, loading)?;
            (from, bounds) = (to, Bounds { min: cut, max: cut });
        }
        let to = Place::on(last);
        if from != to {
            self.push(motif, piece, [from, to], bounds, loading)?;
        }
        Ok(())
    }

    fn push(
        &mut self,
        motif: &Motif,
        piece: usize,
        [from, to]: [Place; 2],
        bounds: Bounds,
        loading: Loading,
    ) -> Result<(), Error> {
        if self.atoms.len() == MAX_ATOMS {
            let limit = MAX_ATOMS;
            return Err(StitchFault::TooManyAtoms { limit }.into());
        }
        self.atoms.push(Atom {
            start: from.of(motif.points()),
            end: to.of(motif.points()),
            bounds,
            loading,
            either: false,
            sweep: Sweep::First,
        });
        self.stretches.push(Stretch { piece, from, to });
        Ok(())
    }
}

#[cfg(test)]
mod tests;
