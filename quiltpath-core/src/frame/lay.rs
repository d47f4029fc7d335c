//! A pass laid on the cloth as it lies: its runs by the map of its readings.

use super::line::{DEFAULT_CHORD_MM, laid_line};
use crate::align::{Aligned, ClothMap, Reading, Strain, align, align_exactly};
use crate::error::{AlignFault, Error, PlanFault};
use crate::geom::{Bounds, Point};
use crate::motif::Motif;
use crate::plan::{Mark, PlannedPass, PlannedRun, RunPart, Solved, Stitching};

/// No cloth is stretched or pressed together by more than this on a frame: a quarter, our own
/// choice, far beyond any.
const MOST_STRETCH: f64 = 1.25;

/// A reading of a mark of a pass.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct MarkReading {
    /// The name of the mark; readings of one name are of one mark.
    pub name: String,
    /// The mark.
    pub mark: Mark,
    /// Where the machine says that the needle is, in millimetres, x to the right and y down.
    pub read: Point,
}

impl MarkReading {
    /// A reading of a mark.
    #[must_use]
    pub fn new(name: impl Into<String>, mark: Mark, read: Point) -> Self {
        let name = name.into();
        Self { name, mark, read }
    }

    /// The reading for a pass, its mark where the plan expects it on the machine.
    fn for_pass(&self, pass: &PlannedPass) -> Reading {
        let planned = pass.to_machine.apply(self.mark.point);
        let reading = Reading::new(self.name.clone(), planned, self.read);
        let reading = reading.with_noise(self.mark.noise());
        match self.mark.is_met() {
            true => reading.exactly(),
            false => reading,
        }
    }
}

/// A run of a pass, laid.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct LaidRun {
    /// The number of the run, from 0.
    pub number: usize,
    /// The run on the quilt, as it is laid: where a side was solved again, not as it was planned.
    pub planned: PlannedRun,
    /// The line on the machine, in millimetres, x to the right and y down.
    pub motif: Motif,
}

/// A pass laid on the cloth as it lies.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct LaidPass {
    /// The number of the pass, from 0.
    pub pass: usize,
    /// The map from where the plan expects things on the machine to where they are, and how each
    /// reading fits.
    pub aligned: Aligned,
    /// The same map with every reading met: where the cloth was touched.
    pub touched: ClothMap,
    /// What the map does over the lines of the pass.
    pub strain: Strain,
    /// The runs in order.
    pub runs: Vec<LaidRun>,
}

/// The map of a pass by its readings, before its runs are laid.
///
/// # Errors
///
/// A plan error when the stitching has no such pass; an align error as for [`align`].
pub fn pass_map(
    stitching: &Stitching,
    pass: usize,
    readings: &[MarkReading],
) -> Result<Aligned, Error> {
    let planned = planned_pass(stitching, pass)?;
    let readings: Vec<Reading> = readings.iter().map(|one| one.for_pass(planned)).collect();
    align(&readings)
}

pub(super) fn planned_pass(stitching: &Stitching, pass: usize) -> Result<&PlannedPass, Error> {
    let fault = PlanFault::NotThere {
        what: "pass",
        number: pass,
        count: stitching.passes.len(),
    };
    stitching.passes.get(pass).ok_or_else(|| fault.into())
}

/// Lays a pass on the cloth by readings of its marks.
///
/// Lengths in millimetres; x to the right, y down. A laid line is within 0.01 mm of where the map
/// takes the planned one; lines that met still meet.
///
/// ```
/// use quiltpath_core::frame::{MarkReading, lay_pass};
/// use quiltpath_core::geom::{Point, Vector};
/// # use quiltpath_core::motif::Motif;
/// # use quiltpath_core::plan::spec::{BorderSpec, CornerSpec, CornerStyle, QuiltSpec, SideSpec, UnitSpec};
/// # use quiltpath_core::plan::{PlanSpec, solve, stitch_plan};
/// # let border = BorderSpec::new(6.0, CornerSpec::new(CornerStyle::Open), SideSpec::new("wave"));
/// # let plan = PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(40.0, 60.0)).with_borders([border]);
/// # let solved = solve(&plan, |_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # })?;
/// # let stitching = stitch_plan(&plan, &solved)?;
/// let pass = &stitching.passes[0];
/// // The zero was set 3 mm further left than the plan has it.
/// let readings = pass.marks.iter().zip(["A", "B"]).map(|(mark, letter)| {
///     let read = pass.to_machine.apply(mark.point) + Vector::new(3.0, 0.0);
///     MarkReading::new(letter, *mark, read)
/// });
/// let laid = lay_pass(&solved, &stitching, 0, &readings.collect::<Vec<_>>())?;
/// let planned = pass.to_machine.apply(stitching.runs[0].motif.start().point);
/// let start = laid.runs[0].motif.start().point;
/// assert!((start - planned - Vector::new(3.0, 0.0)).norm() < 1e-9);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A plan error when the stitching has no such pass; an align error without readings, for readings
/// of one mark that are too far apart, and where the map folds the cloth.
///
/// # Complexity
///
/// O(points) for few readings.
pub fn lay_pass(
    solved: &Solved,
    stitching: &Stitching,
    pass: usize,
    readings: &[MarkReading],
) -> Result<LaidPass, Error> {
    let planned = planned_pass(stitching, pass)?;
    let runs = stitching.runs[planned.runs.clone()].to_vec();
    let aligned = pass_map(stitching, pass, readings)?;
    lay_runs((solved, stitching), pass, (readings, aligned), runs)
}

/// The parts of pieces that a pass stitches, in order.
pub(super) fn parts_of<'a>(
    stitching: &'a Stitching,
    pass: &PlannedPass,
) -> impl Iterator<Item = &'a RunPart> {
    let runs = stitching.runs[pass.runs.clone()].iter();
    runs.flat_map(|run| &run.parts)
}

/// Lays a pass that has these runs, by readings and the map that they bear.
pub(super) fn lay_runs(
    (solved, stitching): (&Solved, &Stitching),
    pass: usize,
    (readings, aligned): (&[MarkReading], Aligned),
    planned_runs: Vec<PlannedRun>,
) -> Result<LaidPass, Error> {
    let planned = planned_pass(stitching, pass)?;
    let read: Vec<Reading> = readings.iter().map(|one| one.for_pass(planned)).collect();
    let touched = align_exactly(&read)?;
    let mut runs = Vec::with_capacity(planned.runs.len());
    let mut all: Option<Bounds> = None;
    for (number, run) in planned.runs.clone().zip(planned_runs) {
        let motif = run.motif.transformed(&planned.to_machine)?;
        let bounds = motif.bounds();
        all = Some(all.map_or(bounds, |all| all.union(&bounds)));
        let points = laid_line(motif.points(), &aligned.map, DEFAULT_CHORD_MM);
        runs.push(LaidRun {
            number,
            motif: Motif::from_points(motif.name(), points)?,
            planned: run,
        });
    }
    let strain = aligned.map.strain(all.unwrap_or_else(|| solved.bounds()));
    plausible(&strain)?;
    Ok(LaidPass {
        pass,
        strain,
        aligned,
        touched,
        runs,
    })
}

/// Refuses a map that no cloth lies by.
fn plausible(strain: &Strain) -> Result<(), Error> {
    let beyond = |stretch: f64| stretch.max(1.0 / stretch);
    let [least, most] = strain.stretch;
    let stretch = match beyond(least) > beyond(most) {
        true => least,
        false => most,
    };
    if beyond(stretch) > MOST_STRETCH {
        return Err(AlignFault::Stretched { stretch }.into());
    }
    match strain.fold {
        Some(at) => Err(AlignFault::Folds { at: [at.x, at.y] }.into()),
        None => Ok(()),
    }
}
