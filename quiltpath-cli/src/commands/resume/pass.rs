//! The lines of a pass as the machine has them: as laid, or as planned where nothing was read.

use quiltpath_core::frame::{Laying, planned_length};
use quiltpath_core::geom::Point;
use quiltpath_core::io::YAxis;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::{Origin, mark_letter};
use quiltpath_core::units::Unit;

use crate::failure::Failure;
use crate::laying::{lay, marks, readings};
use crate::plan_folder::PlanFolder;

/// The lines of a pass on the machine, in millimetres, x to the right and y down.
pub(super) struct Lines {
    pub(super) motifs: Vec<Motif>,
    laying: Option<Laying>,
    /// The unit of the pass's files.
    pub(super) unit: Unit,
    /// Which way y points in its moves.
    pub(super) y: YAxis,
}

impl Lines {
    pub(super) fn of(
        folder: &PlanFolder,
        pass: usize,
        origin: Option<&Origin>,
    ) -> Result<Self, Failure> {
        let given = readings(folder, pass)?;
        let mut lines = match given.is_empty() {
            true => Self::planned(folder, pass)?,
            false => {
                let laying = lay(folder, pass, &given)?;
                let motifs = laying.laid.runs.iter().map(|run| run.motif.clone());
                Self {
                    motifs: motifs.collect(),
                    unit: folder.source.spec.machine_axes().unit,
                    y: folder.machine_y(),
                    laying: Some(laying),
                }
            }
        };
        let Some(origin) = origin else {
            return Ok(lines);
        };
        let known: Vec<(String, Point)> = match &lines.laying {
            Some(_) => {
                let named = marks(folder, pass)?;
                let letter = |name: &str| {
                    let own = named.iter().find(|(_, own, _)| own == name);
                    own.and_then(|(letter, _, _)| letter.clone())
                };
                let read = given.iter();
                read.filter_map(|one| Some((letter(&one.name)?, one.read)))
                    .collect()
            }
            None => {
                let planned = &folder.stitching.passes[pass];
                let marks = planned.marks.iter().enumerate();
                let at = |point| planned.to_machine.apply(point);
                marks
                    .map(|(number, mark)| (mark_letter(number), at(mark.point)))
                    .collect()
            }
        };
        let window = match &lines.laying {
            Some(laying) => laying.laid.aligned.map.map(Point::origin()),
            None => Point::origin(),
        };
        let shift = origin.shift(&lines.motifs, Some(window), &known)?;
        for motif in &mut lines.motifs {
            *motif = motif.transformed(&shift)?;
        }
        Ok(lines)
    }

    /// As the plan's own files have them.
    fn planned(folder: &PlanFolder, pass: usize) -> Result<Self, Failure> {
        let planned = &folder.stitching.passes[pass];
        let runs = folder.stitching.runs[planned.runs.clone()].iter();
        let motifs = runs.map(|run| run.motif.transformed(&planned.to_machine));
        Ok(Self {
            motifs: motifs.collect::<Result<_, quiltpath_core::Error>>()?,
            laying: None,
            unit: folder.solved.unit,
            y: YAxis::default(),
        })
    }

    /// How much of a run as planned lies before this length of it here.
    pub(super) fn planned_length(
        &self,
        folder: &PlanFolder,
        run: usize,
        length: f64,
    ) -> Result<f64, Failure> {
        let Some(laying) = &self.laying else {
            return Ok(length);
        };
        let laid = &laying.laid;
        let found = planned_length(&folder.stitching, laid, &laid.runs[run], length);
        found.map_err(Failure::Data)
    }
}
