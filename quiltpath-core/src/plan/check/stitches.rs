//! Points of lines that no stitch can keep.

use std::collections::HashMap;

use super::along::Along;
use crate::geom::Point;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::solved::Solved;
use crate::plan::stitch::PlannedRun;
use crate::stitch::job::Job;
use crate::stitch::resample::Miss;

/// Up to this far, in millimetres, a point counts as stitched: a millionth, which is above what
/// rounding moves points on any quilt, and far below what a needle can place.
const STITCHED_MM: f64 = 1e-6;

/// Looks for points that stitches leave out or cut short, farther than rounding explains: those of
/// one piece in a run are one finding, the worst first.
pub(in crate::plan) fn stitches(solved: &Solved, job: &Job, runs: &[PlannedRun]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (run, line) in runs.iter().zip(&job.lines) {
        let report = &line.stitches.report;
        for (misses, sharp) in [(&report.dropped, true), (&report.strayed, false)] {
            let misses = misses.iter().filter(|miss| miss.distance > STITCHED_MM);
            let misses: Vec<Miss> = misses.copied().collect();
            for (piece, mut misses) in by_piece(solved, run, &misses) {
                misses.sort_by(|a, b| b.distance.total_cmp(&a.distance));
                let kind = FindingKind::ShortStitches {
                    count: misses.len(),
                    sharp,
                    by: misses[0].distance,
                };
                let mut finding = Finding::note(kind).on_piece(piece, &solved.pieces[piece]);
                finding.places = misses.iter().map(|miss| miss.at).collect();
                findings.push(finding);
            }
        }
    }
    findings
}

/// The misses of a run by the piece that they are on, in the order of the run.
fn by_piece(solved: &Solved, run: &PlannedRun, misses: &[Miss]) -> Vec<(usize, Vec<Miss>)> {
    let mut groups: Vec<(usize, Vec<Miss>)> = Vec::new();
    if misses.is_empty() {
        return groups;
    }
    let along = Along::new(run.parts.iter().map(|part| {
        let share = part.between[1] - part.between[0];
        (share * solved.pieces[part.piece].length(), part.piece)
    }));
    // Misses are points of the line, though not always in its order.
    let key = |point: Point| [point.x.to_bits(), point.y.to_bits()];
    let mut places: HashMap<[u64; 2], Option<usize>> =
        misses.iter().map(|miss| (key(miss.at), None)).collect();
    let mut so_far = 0.0;
    let mut before = run.motif.points()[0];
    for &point in run.motif.points() {
        so_far += (point - before).norm();
        before = point;
        if let Some(place) = places.get_mut(&key(point)) {
            *place = place.or_else(|| along.at(so_far));
        }
    }
    let first = run.parts.first().map_or(0, |part| part.piece);
    for miss in misses {
        let piece = places
            .get(&key(miss.at))
            .copied()
            .flatten()
            .unwrap_or(first);
        match groups.iter_mut().find(|(known, _)| *known == piece) {
            Some((_, misses)) => misses.push(*miss),
            None => groups.push((piece, vec![*miss])),
        }
    }
    groups
}
