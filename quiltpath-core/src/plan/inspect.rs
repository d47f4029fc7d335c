//! What stitching the lines of a plan would come to: thread build-up, small loops, lost points.
//!
//! The checks themselves are floors lower (`check`, `stitch`); here their places get the names of
//! pieces, the plan's unit and a way out. Each kind tells the worst place of every piece, and counts
//! the others: a fault of a motif is there in each of its repeats.

use super::findings::{Finding, Severity, counted};
use super::pieces::Piece;
use super::solve::Solved;
use super::stitching::PlannedRun;
use crate::check::{CheckReport, Found, Limits};
use crate::geom::Point;
use crate::stitch::job::Job;
use crate::units::Unit;

/// Tells what the checks of a plan's paths have found, and what its stitches and joins lack.
pub(super) fn tell(
    solved: &Solved,
    report: &CheckReport,
    job: &Job,
    runs: &[PlannedRun],
    limits: &Limits,
) -> Vec<Finding> {
    let names: Vec<Named<'_>> = solved
        .paths
        .iter()
        .map(|path| Named::new(path.pieces.iter().map(|&piece| &solved.pieces[piece])))
        .collect();
    let unit = solved.unit;
    let mut findings = Vec::new();
    let mut tell = Teller {
        unit,
        findings: &mut findings,
    };
    tell.all(Severity::Warning, "lines_close", &report.close, |run| {
        let [one, other] = [&run.parts[0], &run.parts[1]];
        let (a, b) = (names[one.line].at(one.from), names[other.line].at(other.from));
        let name = if a == b { a.to_owned() } else { format!("{a} and {b}") };
        let told = format!(
            "lines run {} apart over {}, closer than {} over {} or more, so thread builds up; draw them farther apart, or let the line be stitched over itself",
            fine(unit, run.nearest),
            unit.readable(run.length),
            fine(unit, limits.close.distance),
            unit.readable(limits.close.length)
        );
        (name, run.at, told)
    });
    tell.all(Severity::Note, "stitched_twice", &report.twice, |run| {
        let border = solved.paths[run.parts[0].line].border;
        let told = format!(
            "{} of line is stitched over a second time; leave it if it is drawn so",
            unit.readable(run.length)
        );
        (solved.layouts[border].name.clone(), run.at, told)
    });
    tell.all(Severity::Warning, "dense", &report.density, |dense| {
        let line = dense.lines.first().map_or(0, |(line, _)| *line);
        let name = near(&solved.pieces, &solved.paths[line].pieces, dense.at);
        let told = format!(
            "{} of line in a square of {}, more than {}; enlarge the design, or leave out some of its detail",
            unit.readable(dense.length),
            unit.readable(limits.density.side),
            unit.readable(limits.density.length)
        );
        (name.to_owned(), dense.at, told)
    });
    tell.all(Severity::Warning, "small_loop", &report.loops, |small| {
        let name = names[small.part.line].at(small.part.from);
        let told = format!(
            "a loop of {} is smaller than two stitches ({}), so it is stitched as a knot; enlarge it, leave it out, or take shorter stitches",
            fine(unit, small.length),
            fine(unit, limits.loops.length)
        );
        (name.to_owned(), small.at, told)
    });
    stitches(&mut tell, job, runs, solved);
    joins(&mut tell, solved);
    findings
}

/// Tells points of lines that no stitch can keep.
fn stitches(tell: &mut Teller<'_>, job: &Job, runs: &[PlannedRun], solved: &Solved) {
    let unit = tell.unit;
    for (run, line) in runs.iter().zip(&job.lines) {
        let report = &line.stitches.report;
        let name = run
            .parts
            .first()
            .map_or("", |part| solved.pieces[part.piece].name.as_str());
        let missed = [
            (&report.dropped, "sharp point", "is left out"),
            (&report.strayed, "place", "is cut short"),
        ];
        for (misses, what, how) in missed {
            let far = |miss: &&crate::stitch::resample::Miss| miss.distance;
            let Some(worst) = misses.iter().max_by(|a, b| far(a).total_cmp(&far(b))) else {
                continue;
            };
            tell.findings.push(Finding::note(
                "short_stitches",
                Some(worst.at),
                format!(
                    "{name}: {} {how} by up to {}, since a stitch there would be shorter than the minimum; give a smaller \"minimum\" or more stitches per inch if it shows",
                    counted(misses.len(), what),
                    fine(unit, worst.distance)
                ),
            ));
        }
    }
}

/// Tells joins that are open, or where the line turns.
fn joins(tell: &mut Teller<'_>, solved: &Solved) {
    for join in &solved.joins {
        let [from, to] = [join.from, join.to].map(|piece| &solved.pieces[piece]);
        let at = Some(from.motif.end().point);
        if join.gap > solved.join_tolerance {
            tell.findings.push(Finding::error(
                "join_open",
                at,
                format!(
                    "{} ends {} from where {} starts, more than {}; give a larger \"join_tolerance\" if that is close enough",
                    from.name,
                    fine(tell.unit, join.gap),
                    to.name,
                    fine(tell.unit, solved.join_tolerance)
                ),
            ));
        }
        if join.kink_degrees > TOLD_KINK_DEGREES {
            tell.findings.push(Finding::note(
                "join_kink",
                at,
                format!(
                    "the line turns by {:.0} degrees, more than {TOLD_KINK_DEGREES:.0}, where {} ends and {} starts; draw both ends in one direction for a smooth join",
                    join.kink_degrees, from.name, to.name
                ),
            ));
        }
    }
}

/// A turn at a join is told from this many degrees on: our own choice.
const TOLD_KINK_DEGREES: f64 = 20.0;

/// Puts places into findings, those of one name together.
struct Teller<'a> {
    unit: Unit,
    findings: &'a mut Vec<Finding>,
}

impl Teller<'_> {
    fn all<T>(
        &mut self,
        severity: Severity,
        code: &'static str,
        found: &Found<T>,
        tell: impl Fn(&T) -> (String, Point, String),
    ) {
        let mut told: Vec<(String, Point, String, usize)> = Vec::new();
        for place in &found.places {
            let (name, at, message) = tell(place);
            match told.iter_mut().find(|(known, ..)| *known == name) {
                Some((.., count)) => *count += 1,
                None => told.push((name, at, message, 0)),
            }
        }
        for (name, at, message, more) in told {
            let more = match more {
                0 => String::new(),
                more => format!(" (and {}, none worse)", counted(more, "more place")),
            };
            let message = format!("{name}: {message}{more}");
            self.findings
                .push(Finding::new(severity, code, Some(at), message));
        }
        if found.left_out > 0 {
            let message = format!(
                "{} besides, none of them worse",
                counted(found.left_out, "place")
            );
            self.findings
                .push(Finding::new(severity, code, None, message));
        }
        if let Some(spot) = found.crowded.first() {
            self.findings.push(Finding::warning(
                "crowded",
                Some(spot.at),
                format!(
                    "{} where lines are so thick that they were not all compared; look at the picture there",
                    counted(found.crowded.len(), "spot")
                ),
            ));
        }
    }
}

/// The pieces of a path by the distance along it.
struct Named<'a> {
    ends: Vec<(f64, &'a str)>,
}

impl<'a> Named<'a> {
    fn new(pieces: impl Iterator<Item = &'a Piece>) -> Self {
        let mut along = 0.0;
        let ends = pieces.map(|piece| {
            along += piece.motif.length();
            (along, piece.name.as_str())
        });
        Self {
            ends: ends.collect(),
        }
    }

    /// The piece at a distance along the path.
    fn at(&self, along: f64) -> &'a str {
        let index = self.ends.partition_point(|(end, _)| *end < along);
        self.ends
            .get(index)
            .or_else(|| self.ends.last())
            .map_or("", |(_, name)| name)
    }
}

/// The piece of a path that comes nearest to a point.
fn near<'p>(pieces: &'p [Piece], path: &[usize], at: Point) -> &'p str {
    let distance = |piece: &Piece| {
        let points = piece.motif.points().iter();
        points
            .map(|point| (point - at).norm_squared())
            .fold(f64::INFINITY, f64::min)
    };
    path.iter()
        .map(|&piece| &pieces[piece])
        .min_by(|a, b| distance(a).total_cmp(&distance(b)))
        .map_or("", |piece| piece.name.as_str())
}

/// A small length: the readable one, and the exact one where rounding hides it.
fn fine(unit: Unit, mm: f64) -> String {
    format!("{} ({mm:.2} mm)", unit.readable(mm))
}
