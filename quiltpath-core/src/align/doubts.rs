//! Readings that are likely to be mistakes.
//!
//! Problem: one mark misread, or two exchanged, bends the map, and its own error looks small
//! because it draws the map to itself. Method: the error of leaving one out, of all readings but
//! one: where it falls to less than 1/1.8 without a reading (1/1.7 of ten and more), that reading
//! was wrong. In the same way for two that are exchanged, and for all readings from one on that are
//! off by the same, which is what a zero does that was set anew between two readings. Failure:
//! fewer than six readings can't tell; two mistakes hide each other; what is off by no more than
//! three times its noise is none.

use super::course::{BENDS_FROM, Others, fitted, others, without};
use super::line::{middle, weight};
use super::reading::Reading;
use crate::geom::Vector;
use nalgebra::Matrix2;

/// By how much the error has to fall.
const FALLS: f64 = 1.8;

/// By how much it has to fall where there are ten readings or more, whose error is known better.
const FALLS_OF_MANY: f64 = 1.7;

/// By how much the error has to fall for a zero that was set anew: two more numbers are fitted.
const FALLS_FAR: f64 = 5.0;

/// A reading that is likely to be a mistake.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum ReadingDoubt {
    /// This mark was misread: without it the others agree this many times as well.
    Misread {
        /// The mark.
        mark: String,
        /// How many times as well.
        factor: f64,
        /// How far it is from where the others have it.
        off: f64,
    },
    /// The zero was set anew before this mark was read: with all from there on moved back, all
    /// agree this many times as well.
    ZeroMoved {
        /// The first mark that was read by the new zero, by the order of the readings.
        mark: String,
        /// How far the zero moved.
        by: f64,
        /// How many times as well.
        factor: f64,
    },
    /// These marks were exchanged: the other way round all agree this many times as well.
    Exchanged {
        /// The marks.
        marks: [String; 2],
        /// How many times as well.
        factor: f64,
    },
}

/// What is most likely to be a mistake, `all` being the error of leaving one out.
pub(super) fn doubt(marks: &[Reading], all: f64, others: &[Others]) -> Option<ReadingDoubt> {
    if marks.len() < BENDS_FROM || all == 0.0 {
        return None;
    }
    let left = others.iter().enumerate().map(|(at, others)| {
        let error = match marks.len() > BENDS_FROM {
            true => others.error,
            false => five(marks, at),
        };
        (at, error, others.off.norm())
    });
    let mut left: Vec<(usize, f64, f64)> = left.collect();
    let falls = |error: f64| all / error.max(1e-12 * all);
    // The ones that are farthest off are tried the other way round.
    left.sort_by(|a, b| b.2.total_cmp(&a.2));
    let exchanged = left.iter().take(4).flat_map(|&(one, _, _)| {
        (0..marks.len())
            .filter(move |&other| other != one)
            .map(move |other| [one, other])
    });
    let exchanged = exchanged.map(|[one, other]| {
        let mut changed = marks.to_vec();
        (changed[one].read, changed[other].read) = (marks[other].read, marks[one].read);
        (fitted(&changed).1, [one, other])
    });
    let exchanged = exchanged.min_by(|a, b| a.0.total_cmp(&b.0));
    let alone = left.iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
    // Two that are exchanged spoil the rest when either alone is left out.
    if let Some((error, [one, other])) = exchanged
        && falls(error) > FALLS
        && error < alone.1 / FALLS
    {
        let marks = [one.min(other), one.max(other)].map(|at| marks[at].mark.clone());
        let factor = falls(error);
        return Some(ReadingDoubt::Exchanged { marks, factor });
    }
    if let Some((error, at, by)) = zero_moved(marks)
        && falls(error) > FALLS_FAR
        && error < alone.1 / FALLS
        && by > 3.0 * marks[at].noise
    {
        let (mark, factor) = (marks[at].mark.clone(), falls(error));
        return Some(ReadingDoubt::ZeroMoved { mark, by, factor });
    }
    let &(at, error, off) = alone;
    let least = if marks.len() < 10 {
        FALLS
    } else {
        FALLS_OF_MANY
    };
    (falls(error) > least && off > 3.0 * marks[at].noise).then(|| ReadingDoubt::Misread {
        mark: marks[at].mark.clone(),
        factor: falls(error),
        off,
    })
}

/// The least error with a zero that was set anew before a mark, of which there are two or more on
/// either side, the mark and how far the zero moved.
fn zero_moved(marks: &[Reading]) -> Option<(f64, usize, f64)> {
    let moved = (2..marks.len() - 1).filter_map(|at| {
        let by = shift_from(marks, at)?;
        let mut changed = marks.to_vec();
        changed[at..].iter_mut().for_each(|mark| mark.read -= by);
        Some((fitted(&changed).1, at, by.norm()))
    });
    moved.min_by(|one, other| one.0.total_cmp(&other.0))
}

/// The shift between the marks before one and those from there on, turn and stretch being the
/// same, by least squares.
fn shift_from(marks: &[Reading], at: usize) -> Option<Vector> {
    let groups = [&marks[..at], &marks[at..]];
    let middles = groups.map(middle);
    let (mut square, mut both) = (Matrix2::zeros(), Matrix2::zeros());
    for (group, (from, to, _)) in groups.iter().zip(&middles) {
        for mark in *group {
            let (was, is) = (mark.planned - from, mark.read - to);
            square += weight(mark) * was * was.transpose();
            both += weight(mark) * is * was.transpose();
        }
    }
    let change = both * square.try_inverse()?;
    let [before, after] = middles.map(|(from, to, _)| to.coords - change * from.coords);
    Some(after - before).filter(|by| by.iter().all(|value| value.is_finite()))
}

/// The error of leaving one out, of the five that are left of six: of their affine map.
fn five(marks: &[Reading], gone: usize) -> f64 {
    let left = others(&without(marks, gone));
    let squares = left.iter().map(|others| others.off.norm_squared());
    (squares.sum::<f64>() / left.len() as f64).sqrt()
}
