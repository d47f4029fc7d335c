//! Points of lines that no stitch can keep.

use crate::plan::finding::{Finding, FindingKind};
use crate::plan::solved::Solved;
use crate::plan::stitch::PlannedRun;
use crate::stitch::job::Job;
use crate::stitch::resample::Miss;

/// Looks for points that stitches leave out or cut short, run by run.
pub(in crate::plan) fn stitches(solved: &Solved, job: &Job, runs: &[PlannedRun]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (run, line) in runs.iter().zip(&job.lines) {
        let report = &line.stitches.report;
        for (misses, sharp) in [(&report.dropped, true), (&report.strayed, false)] {
            let far = |a: &&Miss, b: &&Miss| b.distance.total_cmp(&a.distance);
            let mut misses: Vec<&Miss> = misses.iter().collect();
            misses.sort_by(far);
            let Some(worst) = misses.first() else {
                continue;
            };
            let mut finding = Finding::note(FindingKind::ShortStitches {
                count: misses.len(),
                sharp,
                by: worst.distance,
            });
            finding.places = misses.iter().map(|miss| miss.at).collect();
            findings.push(match run.parts.first() {
                Some(part) => finding.on_piece(part.piece, &solved.pieces[part.piece]),
                None => finding,
            });
        }
    }
    findings
}
