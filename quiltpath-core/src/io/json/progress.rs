//! How far a quilt is as `progress.json`: what was read and stitched at the frame.
//!
//! Lengths and points in millimetres, x to the right, y **down**; passes, runs, lines of a corner
//! and repeats are counted from 1. Numbers are written in their shortest form that reads back to
//! the same bits, so that a plan is solved round the very points that were stitched. Keys that are
//! not known are passed over.

mod numbers;
mod stitched;

use serde::{Deserialize, Serialize};

use super::fault;
use super::finite::to_text;
use super::kind::{self, Kind};
use super::points::RawPoint;
use crate::error::Error;
use crate::frame::{MarkRead, PassRead, Progress, Stopped};
use numbers::{from_1, length, malformed};
use stitched::BorderFile;

/// What the file of a quilt's progress should hold.
const A_PROGRESS: &str = "a progress such as {\"plan\":\"…\",\"unit\":\"mm\",\"stitched\":[…]}";

#[derive(Serialize, Deserialize)]
pub(super) struct ProgressFile {
    plan: String,
    unit: Millimetres,
    #[serde(default)]
    passes: Vec<PassFile>,
    #[serde(default)]
    stitched: Vec<BorderFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    stopped: Option<StoppedFile>,
    #[serde(default)]
    bobbins: Vec<f64>,
}

/// The one unit that the file has.
#[derive(Clone, Copy, Serialize, Deserialize)]
enum Millimetres {
    #[serde(rename = "mm")]
    Mm,
}

#[derive(Serialize, Deserialize)]
struct PassFile {
    pass: usize,
    readings: Vec<ReadingFile>,
}

#[derive(Serialize, Deserialize)]
struct ReadingFile {
    mark: String,
    planned: RawPoint,
    read: RawPoint,
}

#[derive(Serialize, Deserialize)]
struct StoppedFile {
    pass: usize,
    run: usize,
    length: f64,
}

/// Reads how far a quilt is.
///
/// ```
/// use quiltpath_core::io::json::{read_progress, write_progress};
///
/// let progress = read_progress(br#"{"plan": "af63dc4c8601ec8c", "unit": "mm",
///     "stopped": {"pass": 3, "run": 2, "length": 1234.5}}"#)?;
/// assert_eq!(progress.stopped.map(|at| (at.pass, at.run)), Some((2, 1)));
/// assert_eq!(read_progress(write_progress(&progress)?.as_bytes())?, progress);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A data error with row, column and key path; a stitched or geometry error with the key path when
/// a line is none, or places and stretches don't lie on it.
///
/// # Complexity
///
/// O(bytes).
pub fn read_progress(bytes: &[u8]) -> Result<Progress, Error> {
    let text = fault::utf8(bytes, A_PROGRESS)?;
    let file: ProgressFile = fault::from_str(text)
        .map_err(|error| kind::instead(text, Kind::Progress).unwrap_or(error))?;
    file.progress()
}

/// Writes how far a quilt is; read again it is the same to the bit.
///
/// # Errors
///
/// A geometry error with the key path of a number that is not finite.
pub fn write_progress(progress: &Progress) -> Result<String, Error> {
    to_text(&ProgressFile::of(progress))
}

impl ProgressFile {
    pub(super) fn of(progress: &Progress) -> Self {
        let passes = progress.passes.iter().map(|pass| PassFile {
            pass: pass.pass + 1,
            readings: (pass.readings.iter())
                .map(|reading| ReadingFile {
                    mark: reading.mark.clone(),
                    planned: RawPoint(reading.planned),
                    read: RawPoint(reading.read),
                })
                .collect(),
        });
        Self {
            plan: progress.plan.clone(),
            unit: Millimetres::Mm,
            passes: passes.collect(),
            stitched: (progress.stitched.borders.iter())
                .map(BorderFile::of)
                .collect(),
            stopped: progress.stopped.map(|stopped| StoppedFile {
                pass: stopped.pass + 1,
                run: stopped.run + 1,
                length: stopped.length,
            }),
            bobbins: progress.bobbins.clone(),
        }
    }

    pub(super) fn progress(self) -> Result<Progress, Error> {
        let mut progress = Progress {
            plan: self.plan,
            ..Progress::default()
        };
        for (index, pass) in self.passes.into_iter().enumerate() {
            let number = from_1(pass.pass)
                .map_err(|e| e.in_element("pass").in_element(format!("passes[{index}]")))?;
            let readings = (pass.readings.into_iter())
                .map(|reading| MarkRead::new(reading.mark, reading.planned.0, reading.read.0));
            progress
                .passes
                .push(PassRead::new(number, readings.collect()));
        }
        for (index, border) in self.stitched.into_iter().enumerate() {
            let in_border = |e: Error| e.in_element(format!("stitched[{index}]"));
            let border = border.border().map_err(in_border)?;
            if progress.stitched.border(&border.name).is_some() {
                return Err(in_border(malformed(
                    "a border of this name is there twice; give each border once",
                )));
            }
            progress.stitched.borders.push(border);
        }
        if let Some(at) = self.stopped {
            let stopped = || {
                let pass = from_1(at.pass).map_err(|e| e.in_element("pass"))?;
                let run = from_1(at.run).map_err(|e| e.in_element("run"))?;
                let length = length(at.length).map_err(|e| e.in_element("length"))?;
                Ok(Stopped::new(pass, run, length))
            };
            progress.stopped = Some(stopped().map_err(|e: Error| e.in_element("stopped"))?);
        }
        for (index, bobbin) in self.bobbins.into_iter().enumerate() {
            let bobbin = length(bobbin).map_err(|e| e.in_element(format!("bobbins[{index}]")))?;
            progress.bobbins.push(bobbin);
        }
        Ok(progress)
    }
}

#[cfg(test)]
mod tests;
