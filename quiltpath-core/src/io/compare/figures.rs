//! The figures of one plan that others are compared with.

use crate::io::numbers::in_unit;
use crate::io::words::piece_about;
use crate::plan::{CornerMade, Finding, FindingKind, PieceKind, Severity, Solved, Stitching};
use crate::units::Unit;

/// The figures of a plan. Lengths are in the unit of the comparison; those of stitching are of what
/// is left, where some is stitched already.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PlanFigures {
    /// What it is called where it has no title.
    pub name: String,
    /// The title, when the plan has one.
    pub title: Option<String>,
    /// Who the quilt is for, when the plan says so.
    pub customer: Option<String>,
    /// The width and the height of the quilt overall.
    pub size: [f64; 2],
    /// The time for all of it, in minutes.
    pub minutes: f64,
    /// The length of needle thread.
    pub needle_thread: f64,
    /// The length of bobbin thread.
    pub bobbin_thread: f64,
    /// The number of stitches.
    pub stitches: usize,
    /// How many times the thread is cut.
    pub thread_cuts: usize,
    /// The number of passes on the frame.
    pub passes: usize,
    /// The side whose stretch is farthest from 1; none in a plan without repeats.
    pub worst_stretch: Option<WorstStretch>,
    /// The sharpest turn of the line where pieces or repeats meet, or at a diagonal; none where
    /// nothing meets.
    pub worst_kink: Option<WorstKink>,
    /// How many findings there are of each severity: notes, warnings, errors.
    pub findings: [usize; 3],
    /// The length that is stitched already.
    pub stitched: f64,
}

/// The stretch farthest from 1, and where it is.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct WorstStretch {
    /// The stretch, as a factor: 1 keeps the proportions of the drawing.
    pub stretch: f64,
    /// The side in words, such as `top side`, with its border where there are several.
    pub place: String,
    /// Where it stands in `result.json`, such as `pieces.1.stretch`.
    pub key: String,
}

/// The sharpest turn, and where it is.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct WorstKink {
    /// The turn in degrees, 0 to 180.
    pub degrees: f64,
    /// The place in words, such as `top side to top right corner`.
    pub place: String,
    /// Where it stands in `result.json`, such as `joins.1.kink_degrees`.
    pub key: String,
}

impl PlanFigures {
    pub(super) fn of(name: &str, solved: &Solved, stitching: &Stitching, unit: Unit) -> Self {
        let length = |mm: f64| in_unit(mm, unit);
        let bounds = solved.quilt.bounds();
        let thread = &stitching.job.thread.thread;
        let count = |severity: Severity| {
            let all = stitching.all_findings(solved);
            all.filter(|finding| finding.severity == severity).count()
        };
        Self {
            name: name.to_owned(),
            title: solved.title.clone(),
            customer: solved.customer.clone(),
            size: [length(bounds.width()), length(bounds.height())],
            minutes: stitching.minutes(),
            needle_thread: length(thread.needle),
            bobbin_thread: length(thread.bobbin),
            stitches: stitching.job.count(),
            thread_cuts: stitching.runs.len(),
            passes: stitching.passes.len(),
            worst_stretch: worst_stretch(solved),
            worst_kink: worst_kink(solved, stitching),
            findings: [Severity::Note, Severity::Warning, Severity::Error].map(count),
            stitched: length(solved.stitched_length()),
        }
    }

    /// The length of needle and bobbin thread together.
    #[must_use]
    pub fn thread(&self) -> f64 {
        self.needle_thread + self.bobbin_thread
    }

    /// What people call it: its title, or its name where it has none.
    #[must_use]
    pub fn called(&self) -> &str {
        self.title.as_deref().unwrap_or(&self.name)
    }
}

impl WorstStretch {
    /// How far it is from 1, either way.
    pub(super) fn cost(&self) -> f64 {
        (self.stretch - 1.0).abs()
    }
}

fn worst_stretch(solved: &Solved) -> Option<WorstStretch> {
    let sides = solved.pieces.iter().enumerate();
    let sides = sides.filter_map(|(at, piece)| {
        Some(WorstStretch {
            stretch: piece.kind.fit()?.chosen.stretch,
            place: piece_about(piece, solved),
            key: format!("pieces.{at}.stretch"),
        })
    });
    // Of several that are alike the first: rounding must not decide.
    first_worst(sides, |side| (side.cost() * 1e9).round())
}

/// The sharpest of all turns that a result has: at joins, between repeats, on the diagonal of a
/// corner, and those that only findings tell, as between the repeats of a bent corner.
fn worst_kink(solved: &Solved, stitching: &Stitching) -> Option<WorstKink> {
    let called = |piece: usize| piece_about(&solved.pieces[piece], solved);
    let joins = solved.joins.iter().enumerate().map(|(at, join)| WorstKink {
        degrees: join.kink_degrees,
        place: format!("{} to {}", called(join.from), called(join.to)),
        key: format!("joins.{at}.kink_degrees"),
    });
    let pieces = solved.pieces.iter().enumerate();
    let pieces = pieces.filter_map(|(at, piece)| {
        let several = piece.kind.fit().is_some_and(|fit| fit.chosen.repeats > 1);
        let (degrees, key) = match &piece.kind {
            kind if several => (kind.kink_degrees()?, format!("pieces.{at}.kink_degrees")),
            PieceKind::Corner(corner) => match corner.made {
                CornerMade::Mitred { kink_degrees, .. } => {
                    (kink_degrees, format!("pieces.{at}.made.kink_degrees"))
                }
                _ => return None,
            },
            _ => return None,
        };
        Some(WorstKink {
            degrees,
            place: called(at),
            key,
        })
    });
    let found = stitching.all_findings(solved).enumerate();
    let found = found.filter_map(|(at, finding)| {
        Some(WorstKink {
            degrees: turn(finding)?,
            place: finding.piece.map(called)?,
            key: format!("findings.{at}.data.degrees"),
        })
    });
    first_worst(joins.chain(pieces).chain(found), |kink| {
        (kink.degrees * 1e6).round()
    })
}

/// The turn that a finding tells of.
fn turn(finding: &Finding) -> Option<f64> {
    match finding.kind {
        FindingKind::MitreKink { degrees }
        | FindingKind::RepeatKink { degrees }
        | FindingKind::MirrorKink { degrees }
        | FindingKind::JoinKink { degrees, .. } => Some(degrees),
        _ => None,
    }
}

/// The first of those that are worst.
fn first_worst<T>(all: impl Iterator<Item = T>, cost: impl Fn(&T) -> f64) -> Option<T> {
    all.reduce(|worst, next| match cost(&next) > cost(&worst) {
        true => next,
        false => worst,
    })
}
