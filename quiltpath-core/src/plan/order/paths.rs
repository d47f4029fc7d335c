//! The order of stitching: which pieces follow each other without a thread cut.

use crate::error::Error;
use crate::geom::Point;
use crate::motif::Motif;
use crate::plan::piece::{Join, Piece};

/// Ends of a closed join, in millimetres, differ by rounding at most; one point stands for both.
const SAME: f64 = 1e-9;

/// Pieces that are stitched without a thread cut, as one line.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Path {
    /// The number of the border, from the outermost, from 0.
    pub border: usize,
    /// The numbers of the pieces in the order of stitching.
    pub pieces: Vec<usize>,
    /// True when the line ends where it starts.
    pub closed: bool,
    /// The whole line, in millimetres.
    pub motif: Motif,
}

/// Chains pieces into the paths that are stitched without a cut.
///
/// A path goes on from one piece to the next where a join leads there and its gap is within
/// `tolerance`; it is closed when such a join leads from its last piece to its first. Each join
/// leads from one of these pieces to the next one in the list, or back to the first piece of its
/// border: solving makes no others, and `check_whole` refuses them where a solved plan comes from
/// outside. A piece by itself is closed when its own ends meet within `tolerance`, as those of a
/// block may.
///
/// # Errors
///
/// A geometry error when a piece has no length, which placed pieces have.
///
/// # Complexity
///
/// O(points).
pub(in crate::plan) fn paths(
    pieces: &[Piece],
    joins: &[Join],
    tolerance: f64,
) -> Result<Vec<Path>, Error> {
    let mut next = vec![None; pieces.len()];
    let mut has_previous = vec![false; pieces.len()];
    for join in joins.iter().filter(|join| join.gap <= tolerance) {
        next[join.from] = Some(join.to);
        has_previous[join.to] = true;
    }
    let mut seen = vec![false; pieces.len()];
    let mut paths = Vec::new();
    // A closed ring has no first piece of its own; it opens at its earliest one.
    let heads = (0..pieces.len()).filter(|&piece| !has_previous[piece]);
    for head in heads.chain(0..pieces.len()) {
        if seen[head] {
            continue;
        }
        let mut run = Vec::new();
        let mut at = Some(head);
        while let Some(piece) = at.filter(|&piece| !seen[piece]) {
            seen[piece] = true;
            run.push(piece);
            at = next[piece];
        }
        let joined_to_itself = at == Some(head);
        let motif = joined(pieces, &run, joined_to_itself)?;
        let apart = (motif.end().point - motif.start().point).norm();
        paths.push(Path {
            border: pieces[head].border,
            closed: joined_to_itself || (run.len() == 1 && apart <= tolerance),
            motif,
            pieces: run,
        });
    }
    paths.sort_by_key(|path| path.pieces[0]);
    Ok(paths)
}

/// The pieces as one line; a closed line ends on its very start.
fn joined(pieces: &[Piece], run: &[usize], closed: bool) -> Result<Motif, Error> {
    let total = run
        .iter()
        .map(|&at| pieces[at].motif().points().len())
        .sum();
    let mut points: Vec<Point> = Vec::with_capacity(total);
    for &at in run {
        let piece = pieces[at].motif().points();
        let shared = points
            .last()
            .is_some_and(|last| (last - piece[0]).norm() < SAME);
        points.extend(&piece[usize::from(shared)..]);
    }
    if closed {
        let start = points[0];
        match points.last_mut() {
            Some(end) if (*end - start).norm() < SAME => *end = start,
            _ => points.push(start),
        }
    }
    let (first, last) = (pieces[run[0]].motif(), pieces[run[run.len() - 1]].motif());
    let directions = [first.start().direction, last.end().direction];
    Ok(Motif::from_points(first.name(), points)?.with_directions(directions))
}
