//! Plans side by side, so that one can be chosen: their figures, and a page to show and print.
//!
//! All lengths are in the unit of the first plan, whatever the others ask for: figures in several
//! units can't be compared at a glance. In each row the least is marked. Two figures that read
//! alike count as alike, however they differ further on, and a row of nothing but alikes has no
//! mark.

mod figures;
mod page;
mod rows;

use crate::error::{Error, PlanFault};
use crate::plan::{Solved, Stitching, check_whole};
use crate::units::Unit;

pub use figures::{PlanFigures, WorstKink, WorstStretch};
pub use rows::{ComparedCell, ComparedRow};

/// A page has room for so many beside each other.
const MOST: usize = 6;

/// A plan to compare, solved and stitched.
#[derive(Debug, Clone, Copy)]
pub struct Compared<'a> {
    /// What it is called where it has no title, such as its file.
    pub name: &'a str,
    /// The plan as solved.
    pub solved: &'a Solved,
    /// The same plan brought to the machine.
    pub stitching: &'a Stitching,
}

impl<'a> Compared<'a> {
    /// A plan of this name, solved and stitched.
    #[must_use]
    pub fn new(name: &'a str, solved: &'a Solved, stitching: &'a Stitching) -> Self {
        Self {
            name,
            solved,
            stitching,
        }
    }
}

/// Plans in figures, side by side. Lengths are in `unit`.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Comparison {
    /// The unit of all lengths: that of the first plan.
    pub unit: Unit,
    /// The plans in the order given.
    pub plans: Vec<PlanFigures>,
}

impl Comparison {
    /// The figures as people read them, a row for each kind with a cell for each plan.
    #[must_use]
    pub fn rows(&self) -> Vec<ComparedRow> {
        rows::rows(&self.plans, self.unit)
    }
}

/// Whether so many plans can stand side by side: two to six.
///
/// # Errors
///
/// A plan error for fewer or more.
pub fn check_count(given: usize) -> Result<(), Error> {
    match given {
        2..=MOST => Ok(()),
        _ => Err(PlanFault::PlansToCompare { given, most: MOST }.into()),
    }
}

/// Puts the figures of two to six plans side by side.
///
/// ```
/// use quiltpath_core::io::compare::{Compared, compare};
/// # use quiltpath_core::{geom::Point, io::json::read_plan, motif::Motif};
/// use quiltpath_core::plan::{solve, stitch_plan};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = |style: &str| read_plan(format!(r#"{{"unit": "in", "quilt": {{"width": 40, "height": 60}},
///     "borders": [{{"width": 6, "corner": {{"style": "{style}"}}, "side": {{"motif": "wave"}}}}]
/// }}"#).as_bytes());
/// let (open, bent) = (plan("open")?, plan("bent")?);
/// let (solved, other) = (solve(&open, wave)?, solve(&bent, wave)?);
/// let (stitching, also) = (stitch_plan(&open, &solved)?, stitch_plan(&bent, &other)?);
/// let both = [Compared::new("open", &solved, &stitching), Compared::new("bent", &other, &also)];
/// let compared = compare(&both)?;
/// let cuts = compared.rows().into_iter().find(|row| row.name == "Thread cuts").unwrap();
/// assert_eq!(cuts.cells.iter().map(|cell| cell.words.as_str()).collect::<Vec<_>>(), ["4", "1"]);
/// assert!(!cuts.cells[0].least && cuts.cells[1].least);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A plan error for fewer than two plans or more than six, and when one refers to a border, a piece
/// or a run that is not there, as none does that [`crate::plan::solve()`] returns.
pub fn compare(plans: &[Compared<'_>]) -> Result<Comparison, Error> {
    check_count(plans.len())?;
    let unit = plans[0].solved.unit;
    let figures = plans.iter().map(|plan| {
        check_whole(plan.solved, Some(plan.stitching))?;
        Ok(PlanFigures::of(
            plan.name,
            plan.solved,
            plan.stitching,
            unit,
        ))
    });
    Ok(Comparison {
        unit,
        plans: figures.collect::<Result<_, Error>>()?,
    })
}

/// Writes a page with two to six plans side by side, as one HTML page that loads nothing: title,
/// customer, picture, and the rows of [`Comparison::rows`]. Two or three print on one sheet of
/// paper, sideways.
///
/// # Errors
///
/// As [`compare`].
///
/// # Complexity
///
/// O(points).
pub fn write_comparison(plans: &[Compared<'_>]) -> Result<String, Error> {
    let comparison = compare(plans)?;
    let solved: Vec<&Solved> = plans.iter().map(|plan| plan.solved).collect();
    page::page(
        &comparison.plans,
        &comparison.rows(),
        &solved,
        comparison.unit,
    )
}

#[cfg(all(test, feature = "json"))]
mod tests;
