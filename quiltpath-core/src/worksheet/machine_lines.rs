//! The lines of a pass as the machine has them, as laid or as planned where nothing was read, and
//! what is left of one after a stop.

use super::at_frame::AtFrame;
use super::files::PlanFile;
use crate::error::Error;
use crate::frame::{Laying, Progress, planned_length};
use crate::geom::Point;
use crate::io::YAxis;
use crate::io::gcode::GcodeOptions;
use crate::io::json::PointList;
use crate::io::lines::{LineFormat, LineOptions, write_lines};
use crate::io::svg_write::WriteOptions;
use crate::motif::Motif;
use crate::plan::{MotifRequest, Origin, Stitching, mark_letter};
use crate::strokes::Drawing;
use crate::units::Unit;

/// The folder of what is left of runs.
pub const REST: &str = "rest";

/// The lines of a pass on the machine, in millimetres, x to the right and y down.
#[derive(Debug)]
#[non_exhaustive]
pub struct MachineLines {
    /// The line of each run of the pass.
    pub motifs: Vec<Motif>,
    /// The unit of the pass's files.
    pub unit: Unit,
    /// Which way y points in its moves.
    pub y: YAxis,
    /// The pass as laid, where marks of it were read.
    pub laying: Option<Laying>,
}

impl MachineLines {
    /// The lines of a pass, by what the progress holds of it, their zero where it is asked for.
    ///
    /// # Errors
    ///
    /// As [`AtFrame::lay`] and [`Origin::shift`].
    pub fn of(
        frame: &AtFrame<'_>,
        (pass, progress): (usize, &Progress),
        origin: Option<&Origin>,
        load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>,
    ) -> Result<Self, Error> {
        let given = frame.kept_readings(pass, progress)?;
        let mut lines = match given.is_empty() {
            true => Self::planned(frame, pass)?,
            false => {
                let laying = frame.lay(pass, &given, load)?;
                let motifs = laying.laid.runs.iter().map(|run| run.motif.clone());
                Self {
                    motifs: motifs.collect(),
                    unit: frame.machine_unit(),
                    y: frame.machine_y(),
                    laying: Some(laying),
                }
            }
        };
        let Some(origin) = origin else {
            return Ok(lines);
        };
        let known: Vec<(String, Point)> = match &lines.laying {
            Some(_) => {
                let lettered = frame.lettered(pass, &given)?.into_iter();
                lettered.map(|(letter, one)| (letter, one.read)).collect()
            }
            None => {
                let planned = frame.pass(pass)?;
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
    fn planned(frame: &AtFrame<'_>, pass: usize) -> Result<Self, Error> {
        let to_machine = &frame.pass(pass)?.to_machine;
        let runs = frame.runs(pass)?.iter();
        let motifs = runs.map(|run| run.motif.transformed(to_machine));
        Ok(Self {
            motifs: motifs.collect::<Result<_, Error>>()?,
            laying: None,
            unit: frame.solved.unit,
            y: YAxis::default(),
        })
    }

    /// How much of a run as planned lies before this length of it here; the run from 0 within the
    /// pass.
    ///
    /// # Errors
    ///
    /// As [`planned_length`].
    pub fn planned_length(
        &self,
        stitching: &Stitching,
        run: usize,
        length: f64,
    ) -> Result<f64, Error> {
        let Some(laying) = &self.laying else {
            return Ok(length);
        };
        let laid = &laying.laid;
        planned_length(stitching, laid, &laid.runs[run], length)
    }

    /// What is left of a run in this format; pass and run as the sheet numbers them.
    ///
    /// # Errors
    ///
    /// As [`write_lines`].
    pub fn rest_text(
        &self,
        (pass, run): (usize, usize),
        rest: &Motif,
        format: LineFormat,
    ) -> Result<String, Error> {
        let name = format!("{run}-{}-rest", rest.name());
        let list = PointList::of_mm(self.unit, [(rest, name.as_str())]);
        let title = format!("pass {pass}, the rest of run {run}");
        let options = LineOptions::default()
            .with_svg(WriteOptions::default().with_title(Some(&title)))
            .with_gcode(GcodeOptions::default().with_y(self.y));
        write_lines(&list, format, &options)
    }

    /// What is left of a run as files in the folder of the plan, one for each format.
    pub fn rest_files<'a>(
        &'a self,
        (pass, run): (usize, usize),
        rest: &'a Motif,
        formats: &[LineFormat],
    ) -> Vec<PlanFile<'a>> {
        let files = formats.iter().map(|&format| {
            let name = format!("{REST}/{pass:02}-run-{run}.{}", format.name());
            PlanFile::new(name, move || self.rest_text((pass, run), rest, format))
        });
        files.collect()
    }
}
