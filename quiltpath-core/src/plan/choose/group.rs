//! The sides of a border as straight lines in the depth of its band.
//!
//! Corners grow in proportion to the depth, so the span of a side is a straight line in the depth;
//! it is read off at two depths, and so is the depth of the side's own band, which on a wavy side
//! is another than that of the corners. That is exact but for bent corners of a given radius and
//! for wavy sides at other depths than the two, whose spans are no straight lines; there numbers
//! are chosen once more at the depth that was found, and the sides are filled exactly.

use crate::error::Error;
use crate::fit::{Count, DepthGroup, DepthRange, RingSide, StretchLimit};
use crate::plan::laid::{Border, Laid};
use crate::plan::spans::SideSpan;

/// By what share of itself a span that grows as its repeats do is made to grow less.
const CONSTANT: f64 = 1e-6;

/// How far below its depth a band is laid out a second time where it may not be shallower: any
/// other depth does to read a straight line off, and a nearby one keeps corners apart.
const NEARBY: f64 = 0.01;

/// A side's own band is as deep as the border's where they differ by a smaller share than this.
const STRAIGHT: f64 = 1e-9;

/// The other depth at which a border is laid out, as a share of this one.
pub(super) fn other_share(depth: f64, slack: f64) -> f64 {
    let other = depth - if slack > 0.0 { slack } else { NEARBY * depth };
    other / depth
}

/// Which sides a side has its number of repeats in common with.
pub(super) fn tie(border: &Border<'_>, side: usize) -> Option<usize> {
    let opposite = (border.layout.band.sides() / 2).max(1);
    border.asked.side.alike.then_some(side % opposite)
}

/// The stretch that repeats of a border are to keep.
pub(super) fn limit(border: &Border<'_>) -> StretchLimit {
    StretchLimit::either_way(border.asked.side.max_stretch)
}

/// The sides of a border, read off at the depth of `deep` and at that of `shallow`; the depth is
/// that of the deepest side, of which the others keep their shares.
pub(super) fn group(
    border: &Border<'_>,
    [deep, shallow]: [&Laid; 2],
    counts: &[Count],
    slack: f64,
) -> Result<DepthGroup, Error> {
    let most = deep.layout.depth();
    let other = most - if slack > 0.0 { slack } else { NEARBY * most };
    let asked = border.asked;
    let pairs = deep.spans.iter().zip(&shallow.spans).zip(counts);
    let sides = pairs.map(|((one, two), &allowed)| {
        let room = |span: &SideSpan| border.repeats.room(span.side, span.size(), allowed.fixed);
        let (long, short) = (room(one)?, room(two)?);
        let mut per_depth = (long - short) / (most - other);
        // Repeats beside a spacer that takes the rest keep their proportions at any depth, and a
        // ring's sides are to have fewer of them the deeper they are.
        if border.repeats.keep_proportions(one.side) {
            per_depth -= CONSTANT * long / most;
        }
        // The side's own depth is share · (depth + deeper).
        let [own, lower] = [one, two].map(|span| span.depth());
        let slope = (own - lower) / (most - other);
        let deeper = own / slope - most;
        let straight = deeper.abs() <= STRAIGHT * most || !deeper.is_finite();
        let (share, deeper) = match straight {
            true => (own / most, 0.0),
            false => (slope, deeper),
        };
        Ok(RingSide {
            fixed: long - per_depth * most,
            per_depth,
            pitch: border.repeats.of(one.side)?.pitch(share),
            deeper,
            count: allowed,
            tie: tie(border, one.side.index()),
            ring: asked.index,
            legs: one
                .ends
                .iter()
                .map(|end| u8::from(end.joint.is_some()))
                .sum(),
        })
    });
    let sides = sides.collect::<Result<_, Error>>()?;
    let depth = DepthRange {
        min: most - slack,
        preferred: most,
        max: most,
    };
    Ok(DepthGroup::new(depth, sides).with_limit(limit(border)))
}
