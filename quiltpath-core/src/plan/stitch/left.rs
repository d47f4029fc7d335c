//! What of the pieces is left to stitch: all of them, or the open stretches of those that have
//! begun.

use std::borrow::Cow;

use super::along::{in_repeats, reached};
use super::data::{PlannedRun, RunPart};
use crate::error::Error;
use crate::geom::measure::part_between;
use crate::geom::{Point, unit_vector};
use crate::motif::Motif;
use crate::plan::piece::Piece;
use crate::plan::solved::Solved;

/// Lengths that differ by less, in millimetres, are the same.
const SAME_MM: f64 = 1e-6;

/// A stretch of a piece that is left.
pub(super) struct Left<'a> {
    /// The number of the piece.
    pub(super) piece: usize,
    pub(super) motif: Cow<'a, Motif>,
    /// The indices of its points where repeats end.
    pub(super) ends: Cow<'a, [usize]>,
    /// The length of the piece before it.
    pub(super) before: f64,
    /// How many repeats of the piece end before it or where it starts.
    pub(super) repeats_before: usize,
    /// Whether it starts where a repeat does.
    pub(super) starts_whole: bool,
    /// Whether it reaches the start and the end of the piece.
    reaches: [bool; 2],
}

/// What is left of a plan, in the order of its pieces.
pub(super) struct AllLeft<'a>(pub(super) Vec<Left<'a>>);

impl<'a> AllLeft<'a> {
    pub(super) fn of(solved: &'a Solved) -> Result<Self, Error> {
        let mut left = Vec::with_capacity(solved.pieces.len());
        for (number, piece) in solved.pieces.iter().enumerate() {
            if piece.has_begun() {
                left.extend(open(number, piece)?);
            } else {
                left.push(whole(number, piece));
            }
        }
        Ok(Self(left))
    }

    /// The stretch that reaches the start of a piece, or its end.
    pub(super) fn at_end(&self, piece: usize, end: usize) -> Option<usize> {
        let there = |left: &Left<'_>| left.piece == piece && left.reaches[end];
        self.0.iter().position(there)
    }

    /// Any stretch of a piece.
    pub(super) fn any(&self, piece: usize) -> Option<usize> {
        self.0.iter().position(|left| left.piece == piece)
    }
}

fn whole(number: usize, piece: &Piece) -> Left<'_> {
    let line = piece.line();
    Left {
        piece: number,
        motif: Cow::Borrowed(&line.motif),
        ends: Cow::Borrowed(&line.ends),
        before: 0.0,
        repeats_before: 0,
        starts_whole: true,
        reaches: [true; 2],
    }
}

/// The open stretches of a piece that has begun.
fn open(number: usize, piece: &Piece) -> Result<Vec<Left<'_>>, Error> {
    let line = piece.line();
    let points = line.motif.points();
    let reached = reached(points);
    let length = reached[points.len() - 1];
    let starts = std::iter::once(0.0).chain(piece.stitched.iter().map(|done| done[1]));
    let ends = piece.stitched.iter().map(|done| done[0]);
    let gaps = starts.zip(ends.chain([1.0]));
    let gaps = gaps.map(|(from, to)| [from * length, to * length]);
    gaps.filter(|[from, to]| to - from > SAME_MM)
        .map(|between| part(number, piece, &reached, between))
        .collect()
}

/// The part of a piece between two lengths along it.
fn part<'a>(
    number: usize,
    piece: &'a Piece,
    reached: &[f64],
    [from, to]: [f64; 2],
) -> Result<Left<'a>, Error> {
    let line = piece.line();
    let points = line.motif.points();
    let last = points.len() - 1;
    // The first point behind the start, and the last one before the end.
    let first_inside = reached.partition_point(|&reach| reach <= from + SAME_MM);
    let after_inside = reached.partition_point(|&reach| reach < to - SAME_MM);
    let at = |length: f64, next: usize| -> Point {
        let near = |index: &usize| (reached[*index] - length).abs() <= SAME_MM;
        let around = [next.saturating_sub(1), next.min(last)];
        if let Some(index) = around.into_iter().find(near) {
            return points[index];
        }
        let [low, high] = [points[next - 1], points[next]];
        let share = (length - reached[next - 1]) / (reached[next] - reached[next - 1]);
        low + (high - low) * share
    };
    let mut own = vec![at(from, first_inside)];
    own.extend(&points[first_inside..after_inside]);
    own.push(at(to, after_inside));
    let count = own.len();
    let index = |point: usize| (point - first_inside + 1).min(count - 1);
    let ends = (line.ends.iter().copied())
        .filter(|&end| reached[end] > from + SAME_MM && reached[end] <= to + SAME_MM)
        .map(index)
        .collect();
    let before = |end: &&usize| reached[**end] <= from + SAME_MM;
    let repeats_before = line.ends.iter().filter(before).count();
    let starts_whole =
        from <= SAME_MM || (line.ends.iter()).any(|&end| (reached[end] - from).abs() <= SAME_MM);
    let reaches = [from <= SAME_MM, to >= reached[last] - SAME_MM];
    let directions = [
        match reaches[0] {
            true => line.motif.start().direction,
            false => unit_vector(own[1] - own[0]),
        },
        match reaches[1] {
            true => line.motif.end().direction,
            false => unit_vector(own[count - 1] - own[count - 2]),
        },
    ];
    let links = (line.motif.links().iter().copied())
        .filter(|&link| link + 1 >= first_inside && link < after_inside)
        .map(|link| (link + 1).saturating_sub(first_inside))
        .collect();
    let motif = Motif::from_points(line.motif.name(), own)?
        .with_directions(directions)
        .with_links(links);
    Ok(Left {
        piece: number,
        motif: Cow::Owned(motif),
        ends: Cow::Owned(ends),
        before: from,
        repeats_before,
        starts_whole,
        reaches,
    })
}

/// What is stitched already, as runs of its own that were stitched before the first pass.
pub(super) fn stitched_runs(solved: &Solved) -> Result<Vec<PlannedRun>, Error> {
    let mut runs = Vec::new();
    for (number, piece) in solved.pieces.iter().enumerate() {
        if !piece.has_begun() {
            continue;
        }
        let line = piece.line();
        let reached = reached(line.motif.points());
        let length = reached[reached.len() - 1];
        for &between in &piece.stitched {
            let in_repeats = |share: f64| in_repeats(&reached, &line.ends, share * length);
            let part = RunPart {
                piece: number,
                repeats: None,
                in_repeats: (line.ends.len() > 1).then(|| between.map(in_repeats)),
                between,
                reversed: false,
            };
            let points = part_between(line.motif.points(), between);
            runs.push(PlannedRun {
                pass: 0,
                parts: vec![part],
                motif: Motif::from_points(line.motif.name(), points)?,
                closed: false,
            });
        }
    }
    Ok(runs)
}
