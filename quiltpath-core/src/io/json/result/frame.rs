//! What is done at the frame besides stitching, in `result.json`: needle-up checks, bobbins.

use serde::{Deserialize, Serialize};

use crate::error::Error;
use crate::frame::{self, ChangeAt, LimitKind, Reach, There};
use crate::io::numbers::{in_unit, point_in_unit};
use crate::plan::{Solved, Stitching};

/// Where a bobbin is to be changed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct BobbinChange {
    /// The number of the pass, from 1.
    pub pass: usize,
    /// The number of the run, from 1, over all passes.
    pub run: usize,
    /// The length of the run's line up to there.
    pub length: f64,
    /// Where it is on the cloth.
    pub at: [f64; 2],
    /// Why there: `run_start`, `join`, `cusp`, `crossing`, or `line` for nowhere better.
    pub why: String,
    /// Where the bobbin would run out; none where it would suffice to the end.
    pub empty: Option<RunsOut>,
}

/// Where a bobbin would run out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct RunsOut {
    /// The number of the run, from 1, over all passes.
    pub run: usize,
    /// The length of the run's line up to there.
    pub length: f64,
    /// Where it is on the cloth.
    pub at: [f64; 2],
}

/// One stop of a needle-up check.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct CheckStop {
    /// Where it is on the machine.
    pub at: [f64; 2],
    /// What lies there.
    pub there: Vec<CheckedThere>,
}

/// What lies at a stop of a needle-up check.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct CheckedThere {
    /// `start`, `end`, `near_seam`, `near_edge`, `leftmost`, `rightmost`, `topmost`, `bottommost`,
    /// `inner_limit` or `outer_limit`.
    pub what: String,
    /// The name of the border whose line that is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub border: Option<String>,
    /// The side of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<String>,
    /// How far the seam or the edge is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub distance: Option<f64>,
}

impl BobbinChange {
    /// The changes that are listed, and how many more there are.
    pub(super) fn all(solved: &Solved, stitching: &Stitching) -> Result<(Vec<Self>, usize), Error> {
        let found = frame::bobbin_changes(solved, stitching)?;
        let place = |place: frame::RunPlace| RunsOut {
            run: place.run + 1,
            length: in_unit(place.length, solved.unit),
            at: point_in_unit(place.at, solved.unit),
        };
        let changes = found.changes.iter().map(|change| {
            let RunsOut { run, length, at } = place(change.place);
            Self {
                pass: stitching.runs[change.place.run].pass + 1,
                run,
                length,
                at,
                why: why(change.why).to_owned(),
                empty: change.empty.map(place),
            }
        });
        Ok((changes.collect(), found.more))
    }
}

fn why(why: ChangeAt) -> &'static str {
    match why {
        ChangeAt::RunStart => "run_start",
        ChangeAt::Join => "join",
        ChangeAt::Cusp => "cusp",
        ChangeAt::Crossing => "crossing",
        ChangeAt::Line => "line",
    }
}

impl CheckStop {
    /// The stops of the check of a pass.
    pub(super) fn all(
        solved: &Solved,
        stitching: &Stitching,
        pass: usize,
    ) -> Result<Vec<Self>, Error> {
        let check = frame::check_pass(solved, stitching, pass)?;
        let stops = check.stops.iter().map(|stop| Self {
            at: point_in_unit(stop.at, solved.unit),
            there: (stop.there.iter())
                .map(|there| CheckedThere::of(there, solved))
                .collect(),
        });
        Ok(stops.collect())
    }
}

impl CheckedThere {
    fn of(there: &There, solved: &Solved) -> Self {
        let bare = |what: &str| Self {
            what: what.to_owned(),
            border: None,
            side: None,
            distance: None,
        };
        match there {
            There::Start => bare("start"),
            There::End => bare("end"),
            There::Reach(reach) => bare(match reach {
                Reach::Left => "leftmost",
                Reach::Right => "rightmost",
                Reach::Top => "topmost",
                Reach::Bottom => "bottommost",
            }),
            There::Near {
                kind,
                border,
                side,
                distance,
            } => Self {
                border: Some(solved.layouts[*border].name.clone()),
                side: Some(side.name().to_owned()),
                distance: Some(in_unit(*distance, solved.unit)),
                ..bare(line(*kind))
            },
            There::Limit { kind, border, side } => Self {
                border: Some(solved.layouts[*border].name.clone()),
                side: Some(side.name().to_owned()),
                ..bare(line(*kind))
            },
        }
    }
}

fn line(kind: LimitKind) -> &'static str {
    match kind {
        LimitKind::Seam => "near_seam",
        LimitKind::Edge => "near_edge",
        LimitKind::Inner => "inner_limit",
        LimitKind::Outer => "outer_limit",
    }
}
