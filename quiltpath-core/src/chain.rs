//! Repeats chained into one path along a strip, their ends brought together.
//!
//! Problem: copies of a repeat, each stretched along, have to start where the one before ended,
//! the first where a corner ended and the last where a corner starts, though the ends as drawn
//! may lie at different offsets across the band.
//! Method (`Ends::Level`): the offset t in [0, 1] of each copy is mapped by the blend
//! (1 − u)·A(t) + u·B(t), u the fraction along the copy. A and B are the projective maps
//! t / (t + c(1 − t)) that keep both lines of the band in place and bring the drawn offset of the
//! start (of the end) to the wanted one. This is a shear that grows with u and dies out at the
//! lines of the band: smooth, monotone across, and no ink can leave the band by it.
//! Where c would leave [1/3, 3], or for `Ends::Link`, a short straight link across the band is
//! stitched instead.
//! Guarantee: every copy starts exactly where the one before ended; offsets stay within [0, 1].

mod alternate;
mod level;
mod options;
mod path;
mod repeat;

pub use alternate::Alternate;
pub use options::{Across, ChainOptions, Ends, Terminal};
pub(crate) use path::MAX_POINTS;
pub use repeat::Repeat;

use std::ops::Range;

use level::{Level, targets};
use path::Path;

use crate::error::{Error, FitFault, not_negative};
use crate::geom::Point;
use crate::geom::flatten::check_tolerance;
use crate::motif::Motif;
use crate::warp::BandMap;

/// Repeats chained into one path.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Chain {
    /// The path, on the cloth.
    pub motif: Motif,
    /// The offset across at which the path starts and ends.
    pub across: [f64; 2],
    /// The largest change of an end's offset by levelling, in lengths across the band.
    pub levelled: f64,
    /// How many links are stitched: between copies, and to offsets that the ends have to be
    /// [at](Across::At).
    pub links: usize,
    /// The sharpest turn of the line where a copy meets its mirror image, in degrees from 0 to 180;
    /// none is counted where they are linked.
    pub kink_degrees: f64,
    /// The sharpest turn where a copy meets one that is no mirror image of it, in degrees from 0 to
    /// 180; none is counted where they are linked.
    pub repeat_kink_degrees: f64,
    /// The index in the path of the last point of each copy; a link belongs to the copy after it,
    /// one at the end of the path to the last copy.
    pub ends: Vec<usize>,
}

/// Fills the stretch of a band between two terminals with copies of the repeat.
///
/// Distances along in the strip's unit; the copies share the room equally.
///
/// ```
/// use quiltpath_core::{chain::*, geom::{Point, Vector}, motif::Motif, warp::Strip};
///
/// let hill = Motif::from_points("hill", vec![
///     Point::new(0.0, 1.0), Point::new(1.0, 0.0), Point::new(2.0, 1.0),
/// ])?;
/// let strip = Strip::level(1.0)?;
/// let ends = [0.0, 9.0].map(Terminal::new);
/// let chain = chain_repeats(&Repeat::new(&hill)?, &strip, ends, &ChainOptions::new(4))?;
/// assert_eq!(chain.motif.points().len(), 9);
/// assert_eq!(chain.motif.end().point, Point::new(9.0, 1.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A fit error when the room along is not above 0, the number of repeats is 0 or odd where it has
/// to be even, or the path would have more than 10 million points; a geometry error when an offset
/// that an end has to be at is not from 0 to 1, the join tolerance is below 0, or the flattening
/// tolerance is needed and not above 0.
///
/// # Complexity
///
/// O(points written), on a straight strip with one allocation.
pub fn chain_repeats<B: BandMap + ?Sized>(
    repeat: &Repeat,
    band: &B,
    terminals: [Terminal; 2],
    options: &ChainOptions,
) -> Result<Chain, Error> {
    chain_copies(repeat, band, terminals, options, 0..options.repeats)
}

/// Fills the stretch between two terminals with some of the copies of a path, counted from 0, as
/// they would follow those before them: the number that the options have is that of the whole path.
///
/// # Errors
///
/// As [`chain_repeats`].
pub(crate) fn chain_copies<B: BandMap + ?Sized>(
    repeat: &Repeat,
    band: &B,
    terminals: [Terminal; 2],
    options: &ChainOptions,
    copies: Range<usize>,
) -> Result<Chain, Error> {
    let room = terminals[1].along - terminals[0].along;
    if !(room > 0.0 && room.is_finite()) {
        return Err(FitFault::SpanNotPositive { span: room }.into());
    }
    let number = copies.len();
    if number == 0 {
        return Err(FitFault::NoRepeats.into());
    }
    options.alternate.check(options.repeats)?;
    let count = (repeat.points().len() as f64 + 1.0) * number as f64;
    if count > MAX_POINTS as f64 {
        let limit = MAX_POINTS;
        return Err(FitFault::TooManyPoints { count, limit }.into());
    }
    for terminal in &terminals {
        terminal.check()?;
    }
    not_negative(
        "the join tolerance",
        options.join_tolerance,
        "0 or a length above 0",
    )?;
    if !band.is_affine() {
        check_tolerance(options.flattening)?;
    }
    let mirror = |copy: usize| {
        options
            .alternate
            .of_copy(copies.start + copy, options.repeats)
    };
    let offsets: Vec<[f64; 2]> = (0..number)
        .map(|copy| repeat.offsets(mirror(copy)))
        .collect();
    let tolerance = options.join_tolerance / band.depth();
    let targets = targets(&offsets, terminals, options.ends, tolerance);

    let mut path = Path::new(band, options.flattening, count as usize + 2);
    let step = room / number as f64;
    let mut levelled: f64 = 0.0;
    let mut across = [targets[0][0], targets[targets.len() - 1][1]];
    let mut links = 0;
    if let Across::At(wanted) = terminals[0].across
        && wanted != across[0]
    {
        links += usize::from(path.link(terminals[0].along, [wanted, across[0]]));
        across[0] = wanted;
    }
    let (mut kink, mut repeat_kink): (f64, f64) = (0.0, 0.0);
    let mut ends = Vec::with_capacity(number);
    for (copy, (drawn, wanted)) in offsets.iter().zip(&targets).enumerate() {
        for (drawn, wanted) in drawn.iter().zip(wanted) {
            levelled = levelled.max((drawn - wanted).abs());
        }
        let linked = copy > 0 && targets[copy - 1][1] != wanted[0];
        links += usize::from(linked);
        let from = terminals[0].along + step * copy as f64;
        let to = if copy + 1 == number {
            terminals[1].along
        } else {
            terminals[0].along + step * (copy + 1) as f64
        };
        let maps = [0, 1].map(|end| Level::new(drawn[end], wanted[end]));
        path.add(repeat, mirror(copy), [from, to], maps, *wanted)?;
        ends.push(path.points.len() - 1);
        if copy > 0 && !linked {
            let kink = match mirror(copy) == mirror(copy - 1) {
                true => &mut repeat_kink,
                false => &mut kink,
            };
            *kink = kink.max(path.turn);
        }
    }
    if let Across::At(wanted) = terminals[1].across
        && wanted != across[1]
    {
        links += usize::from(path.link(terminals[1].along, [across[1], wanted]));
        across[1] = wanted;
        ends[number - 1] = path.points.len() - 1;
    }
    leave_out_repeated(&path.points, &mut ends);
    leave_out_repeated(&path.points, &mut path.links);
    let motif = Motif::from_points(repeat.name(), path.points)?
        .with_directions(path.directions)
        .with_links(path.links);
    Ok(Chain {
        motif,
        across,
        levelled: levelled * band.depth(),
        links,
        kink_degrees: kink.to_degrees(),
        repeat_kink_degrees: repeat_kink.to_degrees(),
        ends,
    })
}

/// Counts rising indices anew as if points equal to the one before them were not there.
fn leave_out_repeated(points: &[Point], indices: &mut [usize]) {
    let (mut at, mut repeated) = (0, 0);
    for index in indices {
        let pairs = points[at..=*index].windows(2);
        repeated += pairs.filter(|pair| pair[0] == pair[1]).count();
        at = *index;
        *index -= repeated;
    }
}

#[cfg(test)]
mod tests;
