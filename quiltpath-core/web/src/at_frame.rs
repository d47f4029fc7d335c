//! What the worksheet does at the frame, as text: passes, readings, ticks, what is left of a run.

use quiltpath_core::Error;
use quiltpath_core::align::ReadingDoubt;
use quiltpath_core::error::DataFault;
use quiltpath_core::frame::{
    BACK_MM, FARTHEST_MM, LaidFindingKind, Laying, MarkReading, Progress, STRANDS_MM, Stop,
    Stopped, judge, rest_of, stitched_length, strands_at, taped,
};
use quiltpath_core::geom::Point;
use quiltpath_core::io::laid_picture::write_laid_picture;
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::io::readings::TypedReading;
use quiltpath_core::io::view::pass_views;
use quiltpath_core::io::words;
use quiltpath_core::plan::{MotifRequest, Side, Solved, Stitching};
use quiltpath_core::strokes::Drawing;
use quiltpath_core::units::{Length, Unit};
use quiltpath_core::worksheet::files::progress_anew;
use quiltpath_core::worksheet::{
    AtFrame, MachineLines, Worksheet, keep_readings, laid_files, laid_folder,
};
use serde::Deserialize;
use serde_json::{Value, json};

use crate::desk::{Desk, format};

/// A reading as she wrote it.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    /// The letter or the name of the mark.
    mark: String,
    x: String,
    y: String,
}

/// A taped length as she wrote it.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Tape {
    /// The number of the border, from 0.
    #[serde(default)]
    border: usize,
    /// The name of the side.
    side: String,
    length: String,
}

/// What a pass is laid by.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct Readings {
    readings: Vec<Written>,
    tape: Vec<Tape>,
}

/// Where a run stopped.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct Stopping {
    /// The machine's x and y.
    at: Option<[String; 2]>,
    /// After how much of its line.
    after: Option<String>,
    /// After how many of its stitches.
    stitch: Option<usize>,
    /// After how many minutes.
    minutes: Option<f64>,
    /// How much earlier to begin.
    back: Option<String>,
}

/// What the parts of a pass are made of.
struct Ready<'a> {
    sheet: &'a Worksheet,
    solved: &'a Solved,
    stitching: &'a Stitching,
    progress: Progress,
}

impl Ready<'_> {
    fn frame(&self) -> AtFrame<'_> {
        AtFrame::new(self.sheet.plan(), self.solved, self.stitching)
    }

    fn load(&self) -> impl FnMut(&MotifRequest) -> Result<Drawing, Error> {
        |asked| self.sheet.drawing(asked)
    }

    fn says(&self, mm: f64) -> String {
        self.solved.unit.readable(mm)
    }
}

fn read<T: for<'a> Deserialize<'a>>(json: &str) -> Result<T, Error> {
    serde_json::from_str(json).map_err(|error| {
        DataFault::Syntax {
            reason: error.to_string(),
        }
        .into()
    })
}

fn mm(text: &str, bare: Unit) -> Result<f64, Error> {
    let length: Length = text.parse()?;
    Ok(length.value * length.unit.unwrap_or(bare).in_mm())
}

impl Desk {
    fn ready(&mut self) -> Result<Ready<'_>, Error> {
        self.stitched()?;
        let solved = self.solved.as_ref().ok_or_else(Self::unsolved)?;
        let stitching = self.stitching.as_ref().ok_or_else(Self::unsolved)?;
        let progress = match self.sheet.progress() {
            Some(progress) => progress.clone(),
            None => progress_anew(solved, stitching)?,
        };
        Ok(Ready {
            sheet: &self.sheet,
            solved,
            stitching,
            progress,
        })
    }

    /// Puts down what happened; the plan is the same, so it stays solved.
    fn happened(&mut self, progress: Progress) {
        let before = self.sheet.before().cloned();
        self.sheet.set_progress(before, Some(progress));
    }

    /// The passes as a page shows them, and what was read and where it stopped, as JSON.
    ///
    /// # Errors
    ///
    /// As [`Self::stitched`] and [`pass_views`].
    pub fn passes(&mut self) -> Result<String, Error> {
        let ready = self.ready()?;
        let frame = ready.frame();
        let stitched = &ready.progress.stitched;
        let views = pass_views(frame.plan, (ready.solved, ready.stitching), stitched)?;
        let unit = frame.machine_unit();
        let mut kept = Vec::new();
        for pass in &ready.progress.passes {
            let given = frame.kept_readings(pass.pass, &ready.progress)?;
            let readings: Vec<Value> = (frame.lettered(pass.pass, &given)?.iter())
                .map(|(letter, one)| {
                    let y = if frame.plan.machine_axes().y_up {
                        -one.read.y
                    } else {
                        one.read.y
                    };
                    let [x, y] = [one.read.x, y].map(|mm| mm / unit.in_mm());
                    json!({"letter": letter, "name": one.name, "x": x, "y": y})
                })
                .collect();
            kept.push(json!({"pass": pass.pass + 1, "readings": readings}));
        }
        let stopped = ready.progress.stopped.map(|at| {
            let run = ready.stitching.passes.get(at.pass).map_or(0, |pass| pass.runs.start);
            json!({"pass": at.pass + 1, "run": run + at.run + 1, "after": ready.solved.unit.readable_line(at.length)})
        });
        let answer = json!({
            "unit": unit.symbol(),
            "up": frame.plan.machine_axes().y_up,
            "passes": views,
            "kept": kept,
            "stopped": stopped,
        });
        Ok(answer.to_string())
    }

    /// Lays a pass, counted from 1, by readings as they were written, and keeps them; what that
    /// makes of it, as JSON.
    ///
    /// # Errors
    ///
    /// As [`AtFrame::readings`] and [`AtFrame::lay`]; an align error without a reading. Nothing is
    /// then kept.
    pub fn lay(&mut self, pass: usize, readings: &str) -> Result<String, Error> {
        let ready = self.ready()?;
        let frame = ready.frame();
        let pass = pass.wrapping_sub(1);
        let written: Readings = read(readings)?;
        let typed: Result<Vec<TypedReading>, Error> = (written.readings.iter())
            .map(|one| format!("{}: {}, {}", one.mark, one.x, one.y).parse())
            .collect();
        let mut given = frame.readings(pass, &typed?, frame.machine_unit())?;
        for tape in &written.tape {
            let sides = Side::all(ready.solved.quilt.outline.sides());
            let side = sides.into_iter().find(|side| side.name() == tape.side);
            let side = side.ok_or_else(|| DataFault::UnknownValue {
                value: tape.side.clone(),
                nearest: None,
                accepted: Side::all(ready.solved.quilt.outline.sides())
                    .map(|side| side.name().to_owned())
                    .collect(),
            })?;
            let length = mm(&tape.length, ready.solved.unit)?;
            let (solved, stitching) = (ready.solved, ready.stitching);
            let one = taped(
                solved,
                stitching,
                (pass, &given),
                (tape.border, side),
                length,
            )?;
            given.push(one);
        }
        let laying = frame.lay(pass, &given, ready.load())?;
        let answer = said(&ready, &laying, &given)?;
        let mut progress = ready.progress;
        keep_readings(&mut progress, pass, &given);
        self.happened(progress);
        Ok(answer.to_string())
    }

    /// Forgets the readings of a pass, counted from 1.
    ///
    /// # Errors
    ///
    /// As [`Self::stitched`].
    pub fn forget_readings(&mut self, pass: usize) -> Result<(), Error> {
        let mut progress = self.ready()?.progress;
        keep_readings(&mut progress, pass.wrapping_sub(1), &[]);
        self.happened(progress);
        Ok(())
    }

    /// The files of a pass, counted from 1: as laid by the readings that are kept of it, or as
    /// planned where there are none, given one after the other to `put` by name and bytes.
    ///
    /// # Errors
    ///
    /// As [`AtFrame::lay`] and [`laid_files`]; a data error for a format that there isn't.
    pub fn pass_files(
        &mut self,
        pass: usize,
        formats: &[String],
        mut put: impl FnMut(&str, &[u8]),
    ) -> Result<(), Error> {
        let formats: Result<Vec<LineFormat>, Error> =
            formats.iter().map(|own| format(own)).collect();
        let formats = formats?;
        let ready = self.ready()?;
        let frame = ready.frame();
        let index = pass.wrapping_sub(1);
        frame.pass(index)?;
        let given = frame.kept_readings(index, &ready.progress)?;
        if given.is_empty() {
            let plan = ready.sheet.plan_in_folder();
            let start = [
                format!("passes/{pass:02}-"),
                format!("needle-up/{pass:02}-pass-"),
            ];
            let files = ready
                .sheet
                .files(&plan, (ready.solved, ready.stitching), &formats)?;
            let whole = !files.iter().any(|file| file.name().starts_with(&start[0]));
            for file in files {
                // A quilt that lies whole within reach has its runs in paths.
                let own = start
                    .iter()
                    .any(|start| file.name().starts_with(start.as_str()));
                let ends = formats
                    .iter()
                    .any(|format| file.name().ends_with(&format!(".{}", format.name())));
                if ends && (own || (whole && file.name().starts_with("paths/"))) {
                    put(file.name(), &file.bytes()?);
                }
            }
            return Ok(());
        }
        let laying = frame.lay(index, &given, ready.load())?;
        let lettered = frame.lettered(index, &given)?;
        let (findings, near) = judge(&laying.solved, ready.stitching, &laying.laid)?;
        let judged = (findings.as_slice(), near.as_slice());
        let of = (&laying, lettered.as_slice());
        for file in laid_files(&frame, of, judged, frame.origin(), &formats)? {
            put(
                &format!("{}/{}", laid_folder(index), file.name()),
                &file.bytes()?,
            );
        }
        Ok(())
    }

    /// Takes runs of a pass, both counted from 1, down as stitched, or back.
    ///
    /// # Errors
    ///
    /// As [`AtFrame::tick`]; nothing is then changed.
    pub fn tick(&mut self, pass: usize, runs: &[usize], done: bool) -> Result<(), Error> {
        let ready = self.ready()?;
        let runs: Vec<usize> = runs.iter().map(|run| run.wrapping_sub(1)).collect();
        let mut progress = ready.progress.clone();
        let of = (pass.wrapping_sub(1), runs.as_slice());
        ready.frame().tick(of, done, &mut progress, ready.load())?;
        self.happened(progress);
        Ok(())
    }

    /// What is left of a run that stopped, pass and run counted from 1, as JSON; its files go to
    /// `put`. Where several strands come by the place, they are listed instead.
    ///
    /// # Errors
    ///
    /// As [`strands_at`], [`stitched_length`] and [`rest_of`].
    pub fn resume(
        &mut self,
        (pass, run): (usize, usize),
        stopping: &str,
        formats: &[String],
        mut put: impl FnMut(&str, &[u8]),
    ) -> Result<String, Error> {
        let formats: Result<Vec<LineFormat>, Error> =
            formats.iter().map(|own| format(own)).collect();
        let formats = formats?;
        let ready = self.ready()?;
        let frame = ready.frame();
        let index = pass.wrapping_sub(1);
        let first = frame.pass(index)?.runs.start;
        let known = (index, &ready.progress);
        let lines = MachineLines::of(&frame, known, frame.origin(), ready.load())?;
        let within = run.wrapping_sub(1).wrapping_sub(first);
        let whole = lines.motifs.get(within).ok_or_else(|| {
            Error::from(quiltpath_core::error::PlanFault::NotThere {
                what: "run",
                number: run.wrapping_sub(1),
                count: ready.stitching.runs.len(),
            })
        })?;
        let options = &ready.stitching.options;
        let unit = frame.machine_unit();
        let own: Stopping = read(stopping)?;
        let stitched = if let Some([x, y]) = &own.at {
            let at: Point = frame.from_machine([mm(x, unit)?, mm(y, unit)?]);
            let strands = strands_at(whole, at, STRANDS_MM, FARTHEST_MM)?;
            match strands.as_slice() {
                [one] => one.length,
                several => {
                    let each = several.iter().map(|strand| {
                        json!({
                            "after": format!("{:.3} mm", strand.length),
                            "says": ready.solved.unit.readable_line(strand.length),
                            "off": ready.says(strand.distance),
                        })
                    });
                    return Ok(json!({"strands": each.collect::<Vec<_>>()}).to_string());
                }
            }
        } else {
            let stop = match (&own.after, own.stitch, own.minutes) {
                (Some(after), _, _) => Stop::Length(mm(after, unit)?),
                (_, Some(stitch), _) => Stop::Stitch(stitch),
                (_, _, Some(minutes)) => Stop::Minutes(minutes),
                _ => {
                    let reason = "give the place, or how much is stitched".to_owned();
                    return Err(DataFault::Syntax { reason }.into());
                }
            };
            stitched_length(whole, stop, options)?
        };
        let back = own.back.as_deref().map(|back| mm(back, unit));
        let rest = rest_of(
            whole,
            stitched,
            back.transpose()?.unwrap_or(BACK_MM),
            options,
        )?;
        for file in lines.rest_files((pass, run), &rest.motif, &formats) {
            put(file.name(), &file.bytes()?);
        }
        let planned = lines.planned_length(ready.stitching, within, stitched)?;
        let line_of = |mm: f64| ready.solved.unit.readable_line(mm);
        let answer = json!({
            "stitched": line_of(rest.from + rest.overlap),
            "whole": line_of(rest.whole),
            "back": ready.says(rest.overlap),
            "left": line_of(rest.motif.length()),
            "stitches": rest.job.count(),
            "minutes": rest.job.time.minutes(),
        });
        let mut progress = ready.progress.clone();
        progress.stopped = Some(Stopped::new(index, within, planned));
        self.happened(progress);
        Ok(answer.to_string())
    }
}

/// What there is to say of a laid pass.
fn said(ready: &Ready<'_>, laying: &Laying, given: &[MarkReading]) -> Result<Value, Error> {
    let laid = &laying.laid;
    let frame = ready.frame();
    let lettered = frame.lettered(laid.pass, given)?;
    let (mut findings, near) = judge(&laying.solved, ready.stitching, laid)?;
    findings.extend(laying.findings.iter().cloned());
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    let mut doubted: Vec<&str> = Vec::new();
    for finding in &findings {
        match &finding.kind {
            LaidFindingKind::Reading(ReadingDoubt::Misread { mark, .. }) => doubted.push(mark),
            LaidFindingKind::Reading(ReadingDoubt::Exchanged { marks, .. }) => {
                doubted.extend(marks.iter().map(String::as_str));
            }
            _ => {}
        }
    }
    let readings = lettered.iter().map(|(letter, reading)| {
        let report = laid
            .aligned
            .readings
            .iter()
            .find(|own| own.mark == reading.name);
        let off = report
            .and_then(|report| report.off_others)
            .map(|off| off.norm());
        json!({
            "letter": letter,
            "name": reading.name,
            "off": off.map(|mm| json!({"mm": mm, "says": ready.says(mm)})),
            "met": reading.mark.is_met(),
            "doubted": doubted.contains(&reading.name.as_str()),
        })
    });
    let picture = write_laid_picture(&laying.solved, ready.stitching, (laid, &lettered))?;
    let near = near.iter().map(|near| {
        json!({
            "border": ready.solved.layouts[near.border].name,
            "seam": ready.says(near.seam),
            "edge": ready.says(near.edge),
        })
    });
    let refitted = laying
        .refitted
        .iter()
        .map(|side| words::refitted(side, ready.solved));
    let said = findings.iter().map(|one| {
        json!({
            "severity": one.severity.name(),
            "code": one.kind.code(),
            "says": words::laid(&one.kind, ready.solved),
        })
    });
    Ok(json!({
        "pass": laid.pass + 1,
        "lies": words::lies(&laid.strain, laid.aligned.map.trend(), ready.solved),
        "readings": readings.collect::<Vec<_>>(),
        "findings": said.collect::<Vec<_>>(),
        "near": near.collect::<Vec<_>>(),
        "refitted": refitted.collect::<Vec<_>>(),
        "picture": picture,
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    const QUILT: &str = r#"{"plan": {"unit": "in", "quilt": {"width": 64, "height": 80}, "machine": {"throat": 20},
        "borders": [{"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave.json"}}]},
        "drawings": {"wave.json": "{\"unit\":\"in\",\"points\":[[0,1],[1,0],[3,2],[4,1]]}"}}"#;

    fn json_of(text: &str) -> Value {
        serde_json::from_str(text).expect("JSON")
    }

    fn readings(desk: &mut Desk, count: usize) -> String {
        let passes = json_of(&desk.passes().expect("passes"));
        let marks = passes["passes"][0]["marks"]
            .as_array()
            .expect("marks")
            .clone();
        let written = marks.iter().take(count).map(|mark| {
            let [x, y] = [0, 1].map(|axis| mark["expected"][axis]["value"].to_string());
            json!({"mark": mark["letter"], "x": x, "y": y})
        });
        json!({"readings": written.collect::<Vec<_>>()}).to_string()
    }

    #[test]
    fn a_pass_is_laid_by_what_is_written_and_its_files_follow() {
        let mut desk = Desk::open(QUILT).expect("a quilt");
        let mut planned = Vec::new();
        let svg = ["svg".to_owned()];
        desk.pass_files(1, &svg, |name, _| planned.push(name.to_owned()))
            .expect("files");
        assert_eq!(
            planned,
            ["passes/01-upright.svg", "needle-up/01-pass-upright.svg"]
        );
        assert!(desk.lay(1, r#"{"readings": []}"#).is_err());
        assert!(
            desk.lay(1, r#"{"readings": [{"mark": "Q", "x": "1", "y": "2"}]}"#)
                .is_err()
        );
        let written = readings(&mut desk, 4);
        let laid = json_of(&desk.lay(1, &written).expect("laid"));
        assert_eq!(laid["readings"].as_array().map(Vec::len), Some(4));
        assert!(
            laid["picture"]
                .as_str()
                .expect("a picture")
                .starts_with("<svg")
        );
        assert_eq!(laid["findings"], json!([]));
        let mut files = Vec::new();
        desk.pass_files(1, &svg, |name, _| files.push(name.to_owned()))
            .expect("files");
        assert!(files.contains(&"laid/01/lines.svg".to_owned()), "{files:?}");
        let passes = json_of(&desk.passes().expect("passes"));
        assert_eq!(
            passes["kept"][0]["readings"].as_array().map(Vec::len),
            Some(4)
        );
        desk.forget_readings(1).expect("forgotten");
        assert_eq!(json_of(&desk.passes().expect("passes"))["kept"], json!([]));
    }

    #[test]
    fn runs_are_ticked_and_what_is_left_of_one_goes_on() {
        let mut desk = Desk::open(QUILT).expect("a quilt");
        let stitched = |desk: &mut Desk| {
            let passes = json_of(&desk.passes().expect("passes"));
            passes["passes"][0]["runs"][0]["stitched"]
                .as_bool()
                .expect("a tick")
        };
        assert!(!stitched(&mut desk));
        let mut files = Vec::new();
        let put = |name: &str, _: &[u8]| files.push(name.to_owned());
        let stop = r#"{"after": "10 in", "back": "1"}"#;
        let rest = desk
            .resume((1, 1), stop, &["dxf".to_owned()], put)
            .expect("a rest");
        let rest = json_of(&rest);
        assert_eq!(
            (rest["stitched"].as_str(), rest["back"].as_str()),
            (Some("10 in"), Some("1 in"))
        );
        assert_eq!(files, ["rest/01-run-1.dxf"]);
        let passes = json_of(&desk.passes().expect("passes"));
        assert_eq!(passes["stopped"]["run"], 1);
        assert!(desk.resume((1, 99), stop, &[], |_, _| ()).is_err());
        assert!(desk.resume((1, 1), "{}", &[], |_, _| ()).is_err());
        desk.tick(1, &[1], true).expect("ticked");
        assert!(stitched(&mut desk));
        assert!(json_of(&desk.passes().expect("passes"))["stopped"].is_null());
        assert!(desk.tick(1, &[1], true).is_err());
        desk.tick(1, &[1], false).expect("taken back");
        assert!(!stitched(&mut desk));
    }
}
