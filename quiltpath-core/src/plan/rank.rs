//! Which repeat fits a plan best: how far each would have to be stretched, without stitching it.
//!
//! The corners are loaded once; a candidate costs one pass over its points. The rating of a
//! candidate is the stretch farthest from 1 over all sides of all borders, by its logarithm.

use super::frame::{Frame, frames};
use super::ring::{Rated, Solver, Work};
use super::solve::{Loader, MotifRequest, Tolerances};
use super::spec::PlanSpec;
use crate::chain::Repeat;
use crate::error::Error;
use crate::motif::{Joined, Motif};
use crate::units::Unit;

/// A plan made ready to try repeats on all its sides.
///
/// It is `Sync`: threads may rate with one ranker at a time each.
#[derive(Debug, Clone)]
pub struct Ranker {
    spec: PlanSpec,
    frames: Vec<Frame>,
    tolerances: Tolerances,
    corners: Vec<Option<Motif>>,
}

/// How well one repeat fits.
#[derive(Debug, Clone, PartialEq)]
pub struct Rating {
    /// The stretch farthest from 1 over all sides.
    pub worst_stretch: f64,
    /// The sides, border by border.
    pub sides: Vec<Rated>,
}

impl Rating {
    /// How far the worst stretch is from 1: the absolute value of its logarithm.
    #[must_use]
    pub fn cost(&self) -> f64 {
        self.worst_stretch.ln().abs()
    }
}

impl Ranker {
    /// Makes a plan ready; `load` gives the corner motifs that it names, in millimetres. The
    /// repeats that the plan names are not loaded.
    ///
    /// # Errors
    ///
    /// As [`super::solve()`], but for the repeats.
    pub fn new(
        spec: &PlanSpec,
        mut load: impl FnMut(&MotifRequest) -> Result<Joined, Error>,
    ) -> Result<Self, Error> {
        let mut loader = Loader::new(&mut load, spec.unit.into());
        let corners = spec
            .borders
            .iter()
            .enumerate()
            .map(|(index, border)| {
                let loaded = loader.corner(&border.corner);
                loaded.map_err(|e| e.in_element(format!("borders[{index}]")))
            })
            .collect::<Result<_, _>>()?;
        Ok(Self {
            frames: frames(spec)?,
            tolerances: spec.tolerances()?,
            spec: spec.clone(),
            corners,
        })
    }

    /// The tolerances that drawings are to be read with.
    #[must_use]
    pub fn tolerances(&self) -> Tolerances {
        self.tolerances
    }

    /// Rates a repeat, in millimetres, on all sides of the plan.
    ///
    /// # Errors
    ///
    /// A fit error when the motif can't be chained or a span not be filled; a plan error when
    /// corners made from it overlap.
    ///
    /// # Complexity
    ///
    /// O(points of the motif), and of the corners where these are made from it.
    pub fn rate(&self, motif: &Motif) -> Result<Rating, Error> {
        let repeat = Repeat::new(motif)?;
        let mut solver = Solver::new(Unit::from(self.spec.unit), self.tolerances);
        let mut sides = Vec::with_capacity(4 * self.frames.len());
        for (index, (border, frame)) in self.spec.borders.iter().zip(&self.frames).enumerate() {
            let work = Work {
                index,
                border,
                frame,
            };
            sides.extend(solver.rate(&work, self.corners[index].as_ref(), &repeat)?);
        }
        let cost = |stretch: f64| stretch.ln().abs();
        let worst_stretch = sides
            .iter()
            .map(|side| side.fit.chosen.stretch)
            .fold(1.0, |a, b| if cost(b) > cost(a) { b } else { a });
        Ok(Rating {
            worst_stretch,
            sides,
        })
    }
}
