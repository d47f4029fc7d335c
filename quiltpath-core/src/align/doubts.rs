//! Readings that are likely to be mistakes.
//!
//! Problem: one mark misread, or two exchanged, bends the map, and its own error looks small
//! because it draws the map to itself. Method: the error of leaving one out, of all readings but
//! one: where it falls to less than 1/1.8 without a reading, that reading was wrong. In the same
//! way for two that are exchanged. Failure: fewer than six readings can't tell; two mistakes hide
//! each other; what is off by no more than three times its noise is none.

use super::course::{BENDS_FROM, Others, fitted, others, without};
use super::reading::Reading;

/// By how much the error has to fall.
const FALLS: f64 = 1.8;

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
    let &(at, error, off) = alone;
    (falls(error) > FALLS && off > 3.0 * marks[at].noise).then(|| ReadingDoubt::Misread {
        mark: marks[at].mark.clone(),
        factor: falls(error),
        off,
    })
}

/// The error of leaving one out, of the five that are left of six: of their affine map.
fn five(marks: &[Reading], gone: usize) -> f64 {
    let left = others(&without(marks, gone));
    let squares = left.iter().map(|others| others.off.norm_squared());
    (squares.sum::<f64>() / left.len() as f64).sqrt()
}
