//! Which repeat fits a plan best: how far each would have to be stretched, without stitching it.
//!
//! Corners that don't depend on the repeat are made once; a candidate costs one pass over its
//! points. The rating of a candidate is the stretch farthest from 1 over all sides of all borders, by
//! its logarithm.

use super::choose::Chosen;
use super::corners::{Corners, corners, depend_on_repeat, fixed_corners};
use super::layout::{Layout, layouts};
use super::quilt::Quilt;
use super::ring::{Solver, Work};
use super::share::Sharing;
use super::solve::{Loader, MotifRequest, Tolerances};
use super::spans::Rated;
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
    layouts: Vec<Layout>,
    tolerances: Tolerances,
    corners: Vec<Prepared>,
}

/// The corners of one border, or what they will be made of.
#[derive(Debug, Clone)]
enum Prepared {
    Made(Corners),
    ByRepeat(Option<Motif>),
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
        let unit = Unit::from(spec.unit);
        let (layouts, tolerances) = (layouts(spec, &Quilt::of(spec)?)?, spec.tolerances()?);
        let mut loader = Loader::new(&mut load, unit);
        let mut corners = Vec::with_capacity(layouts.len());
        for (index, (border, layout)) in spec.borders.iter().zip(&layouts).enumerate() {
            let work = Work {
                index,
                border,
                layout,
                chosen: None,
            };
            let mut prepare = || {
                border
                    .side
                    .check(layout.band.sides())
                    .map_err(|e| e.in_element("side"))?;
                let drawn = loader.corner(&border.corner)?;
                if depend_on_repeat(&border.corner)
                    || border.slack.is_some()
                    || spec.shared_depth == Some(true)
                    || border.side.opposite_alike.is_some()
                {
                    return Ok(Prepared::ByRepeat(drawn));
                }
                let mut solver = Solver::new(unit, tolerances);
                let made = fixed_corners(&mut solver, &work, drawn.as_ref());
                made.map(Prepared::Made).map_err(|e| e.in_element("corner"))
            };
            let prepared = prepare()
                .map_err(|e: Error| e.in_element(format!("borders[{index}]")).in_unit(unit));
            corners.push(prepared?);
        }
        Ok(Self {
            spec: spec.clone(),
            layouts,
            tolerances,
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
        self.rated(motif)
            .map_err(|e| e.in_unit(self.spec.unit.into()))
    }

    fn rated(&self, motif: &Motif) -> Result<Rating, Error> {
        let repeat = Repeat::new(motif)?;
        let mut solver = Solver::new(Unit::from(self.spec.unit), self.tolerances);
        let mut sides = Vec::with_capacity(4 * self.layouts.len());
        let mut shared = self.shared(&mut solver, &repeat)?.into_iter();
        for (index, work) in self.works().enumerate() {
            sides.extend(match &self.corners[index] {
                Prepared::Made(corners) => solver.rate(&work, corners, &repeat)?,
                Prepared::ByRepeat(drawn) => {
                    let drawn = drawn.as_ref();
                    let chosen = match shared.next() {
                        Some(chosen) => Some(chosen),
                        None => solver.choose(&work, drawn, &repeat)?,
                    };
                    let work = match &chosen {
                        Some(chosen) => Work {
                            layout: &chosen.layout,
                            chosen: Some(&chosen.repeats),
                            ..work
                        },
                        None => work,
                    };
                    let corners = corners(&mut solver, &work, drawn, &repeat)
                        .map_err(|e| e.in_element("corner"))?;
                    solver.rate(&work, &corners, &repeat)?
                }
            });
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

    fn works(&self) -> impl Iterator<Item = Work<'_>> {
        let borders = self.spec.borders.iter().zip(&self.layouts);
        borders.enumerate().map(|(index, (border, layout))| Work {
            index,
            border,
            layout,
            chosen: None,
        })
    }

    /// What is chosen for all borders together, where they share one depth.
    fn shared(&self, solver: &mut Solver, repeat: &Repeat) -> Result<Vec<Chosen>, Error> {
        if self.spec.shared_depth != Some(true) {
            return Ok(Vec::new());
        }
        let sharing: Vec<Sharing<'_>> = self
            .works()
            .zip(&self.corners)
            .map(|(work, prepared)| Sharing {
                work,
                corner: match prepared {
                    Prepared::ByRepeat(drawn) => drawn.as_ref(),
                    Prepared::Made(_) => None,
                },
                repeat,
            })
            .collect();
        solver.choose_shared(&sharing)
    }
}
