//! Lengths and counts of the whole in `result.json`.

use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize};
use serde_json::{Map, Value};

use crate::io::numbers::in_unit;
use crate::plan::{FrameTime, Solved, Stitching};

/// Lengths and counts of the whole.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct Totals {
    /// The length of all pieces together.
    pub length: f64,
    /// How much of it is stitched already, of a plan that was solved round what is; 0 in results
    /// that were written before they had it.
    pub stitched: f64,
    /// The number of pieces.
    pub pieces: usize,
    /// How many times the thread is cut.
    pub thread_cuts: usize,
    /// What the stitching takes, where it is known: keys beside the others.
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    pub stitching: Option<StitchingTotals>,
}

/// What the stitching of the whole takes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct StitchingTotals {
    /// The number of thread cuts that no order in as few passes comes below.
    pub least_thread_cuts: usize,
    /// The number of passes.
    pub passes: usize,
    /// The way from run to run without stitching.
    pub travel: f64,
    /// No order of these runs travels less.
    pub least_travel: f64,
    /// How far the quilt is rolled from pass to pass, on and back together.
    pub rolled: f64,
    /// The number of stitches.
    pub stitches: usize,
    /// The length of the shortest stitch between tie-offs.
    pub shortest_stitch: Option<f64>,
    /// The length of the longest stitch.
    pub longest_stitch: Option<f64>,
    /// The time for all of it, in minutes.
    pub minutes: f64,
    /// What these minutes go to.
    pub minutes_of: MinutesOf,
    /// The length of needle thread.
    pub needle_thread: f64,
    /// The length of bobbin thread.
    pub bobbin_thread: f64,
    /// The number of spools, where the length on one is known.
    pub spools: Option<u64>,
    /// The number of bobbins, where the length on one is known.
    pub bobbins: Option<u64>,
}

/// Minutes by what they go to; together they are all.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[non_exhaustive]
pub struct MinutesOf {
    /// Moving along the lines.
    pub stitching: f64,
    /// Starts, tie-offs and cuts.
    pub starts: f64,
    /// Advancing the quilt from pass to pass.
    pub advancing: f64,
    /// Touching the marks of each pass.
    pub readings: f64,
    /// Loading the quilt on the frame.
    pub loading: f64,
}

impl Totals {
    pub(in crate::io) fn of(solved: &Solved, stitching: Option<&Stitching>) -> Self {
        Self {
            length: in_unit(solved.length(), solved.unit),
            stitched: in_unit(solved.stitched_length(), solved.unit),
            pieces: solved.pieces.len(),
            thread_cuts: stitching.map_or(solved.thread_cuts(), |stitching| stitching.runs.len()),
            stitching: stitching.map(|stitching| StitchingTotals::of(solved, stitching)),
        }
    }
}

impl<'de> Deserialize<'de> for Totals {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        struct Keys {
            length: f64,
            #[serde(default)]
            stitched: f64,
            pieces: usize,
            thread_cuts: usize,
            #[serde(flatten)]
            more: Map<String, Value>,
        }

        // By itself `flatten` would take a wrong value among the keys of the stitching for none.
        let keys = Keys::deserialize(deserializer)?;
        let stitching = keys.more.contains_key("stitches").then_some(keys.more);
        Ok(Self {
            length: keys.length,
            stitched: keys.stitched,
            pieces: keys.pieces,
            thread_cuts: keys.thread_cuts,
            stitching: stitching
                .map(|keys| StitchingTotals::deserialize(Value::Object(keys)))
                .transpose()
                .map_err(D::Error::custom)?,
        })
    }
}

impl MinutesOf {
    pub(super) fn of(time: &FrameTime) -> Self {
        let minutes = |seconds: f64| seconds / 60.0;
        Self {
            stitching: minutes(time.stitching),
            starts: minutes(time.starts),
            advancing: minutes(time.advancing),
            readings: minutes(time.readings),
            loading: minutes(time.loading),
        }
    }
}

impl StitchingTotals {
    fn of(solved: &Solved, stitching: &Stitching) -> Self {
        let length = |mm: f64| in_unit(mm, solved.unit);
        let report = stitching.job.report();
        let need = &stitching.job.thread;
        Self {
            least_thread_cuts: stitching.least_cuts,
            passes: stitching.passes.len(),
            travel: length(stitching.travel),
            least_travel: length(stitching.least_travel),
            rolled: length(stitching.rolled),
            stitches: stitching.job.count(),
            shortest_stitch: report.as_ref().map(|report| length(report.shortest)),
            longest_stitch: report.as_ref().map(|report| length(report.longest)),
            minutes: stitching.minutes(),
            minutes_of: MinutesOf::of(&stitching.time),
            needle_thread: length(need.thread.needle),
            bobbin_thread: length(need.thread.bobbin),
            spools: need.spools,
            bobbins: need.bobbins,
        }
    }
}
