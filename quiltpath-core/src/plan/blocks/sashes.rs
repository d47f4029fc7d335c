//! The sashes of a field: their bands at a depth, where they end, and how many repeats each has.
//!
//! Problem: sashes of the same length are to have the same number of repeats, whether their ends
//! join on to cornerstones or not, and all sashes the one depth that stretches the worst of them
//! least.
//! Method: sashes that are alike (as long, joined alike, of one design) are one side of a depth
//! group, sides of one nominal length are tied, and `fit::ring` finds depth and numbers. The span
//! of a sash is a straight line in the depth, since a cornerstone's design grows with it, and is
//! read off at two depths.
//! Guarantee: that of `fit::ring`, exact.
//! Failure: no room for a repeat; numbers that the plan does not allow.

use super::asked::BlocksAsked;
use super::design::{Design, Laid};
use super::pairs::{Passes, Way};
use crate::error::Error;
use crate::fit::{
    Count, DepthGroup, DepthRange, RingSide, SpanFit, StretchLimit, fit_ring, fit_span,
};
use crate::geom::{ConvexPolygon, Vector};
use crate::motif::{End, Motif};
use crate::plan::asked::SideAsked;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::lay::field::{FieldKind, FieldPlace, FieldSpot};
use crate::plan::lay::place::Side;
use crate::plan::repeats::Repeats;
use crate::warp::Strip;

/// Lengths that differ by less are one, in millimetres.
const SAME_MM: f64 = 1e-6;

/// Read off at another depth that is so much shallower where there is no slack, as a share.
const NEARBY: f64 = 0.01;

/// An end of a sash that a cornerstone's line joins on to: the number of the cornerstone, and
/// whether the line ends there rather than starts.
pub(in crate::plan) type Joined = (usize, bool);

/// The sashes of a field and the cornerstones that their lines pass through.
#[derive(Debug)]
pub(in crate::plan) struct Sashes<'a> {
    pub(in crate::plan) asked: &'a SideAsked,
    pub(in crate::plan) repeats: &'a Repeats,
    pub(in crate::plan) spots: Vec<&'a FieldSpot>,
    /// What of each may be stitched.
    pub(in crate::plan) usable: Vec<ConvexPolygon>,
    /// What joins on to each at its start and its end.
    pub(in crate::plan) joined: Vec<[Option<Joined>; 2]>,
    pub(in crate::plan) crossings: Vec<Crossing<'a>>,
    /// The depth that the seam gaps leave.
    pub(in crate::plan) depth: f64,
    slack: f64,
}

/// A cornerstone whose line joins sashes.
#[derive(Debug)]
pub(in crate::plan) struct Crossing<'a> {
    pub(in crate::plan) spot: &'a FieldSpot,
    pub(in crate::plan) usable: ConvexPolygon,
    pub(in crate::plan) design: &'a Design,
    /// By how many quarters the design is turned.
    pub(in crate::plan) quarters: u8,
    /// Whether its line is travelled backwards.
    pub(in crate::plan) reversed: bool,
    /// The ways that its line starts and ends towards, as far as there is a sash.
    pub(in crate::plan) ways: Vec<Way>,
}

impl Crossing<'_> {
    /// The cornerstone's design where the band is so much shallower.
    pub(in crate::plan) fn laid(&self, shallower: f64) -> Result<Laid, Error> {
        let usable = shrunk(&self.usable, shallower)?;
        let laid = self
            .design
            .laid(FieldKind::Cornerstone, &usable, (self.quarters, false))?;
        Ok(match self.reversed {
            true => Laid {
                lines: laid.lines.into_iter().map(Motif::reversed).collect(),
                ..laid
            },
            false => laid,
        })
    }
}

/// The sides of its box that the line of a cornerstone starts and ends on, as ways from the middle;
/// `None` where it doesn't pass through.
pub(in crate::plan) fn passes(design: &Design) -> Option<([Way; 2], Passes)> {
    // As near to the box as the ends of a repeat have to be.
    const NEAR: f64 = 0.02;
    let [line] = design.lines.as_slice() else {
        return None;
    };
    let bounds = design.bounds;
    let way = |end: End| {
        let point = end.point;
        let off = [
            (point.y - bounds.min.y) / bounds.height(),
            (bounds.max.x - point.x) / bounds.width(),
            (bounds.max.y - point.y) / bounds.height(),
            (point.x - bounds.min.x) / bounds.width(),
        ];
        let nearest = (0..4).min_by(|&one, &other| off[one].total_cmp(&off[other]))?;
        (off[nearest] <= NEAR).then_some(nearest)
    };
    let ways = [way(line.start())?, way(line.end())?];
    match (ways[1] + 4 - ways[0]) % 4 {
        0 => None,
        2 => Some((ways, Passes::Straight)),
        _ => Some((ways, Passes::Turning)),
    }
}

/// A polygon with each side moved inwards by half of this.
fn shrunk(usable: &ConvexPolygon, shallower: f64) -> Result<ConvexPolygon, Error> {
    match shallower > 0.0 {
        true => usable.inset(&vec![shallower / 2.0; usable.sides()]),
        false => Ok(usable.clone()),
    }
}

/// What was chosen for the sashes.
#[derive(Debug)]
pub(in crate::plan) struct SashesChosen {
    /// The line of each crossing.
    pub(in crate::plan) crossings: Vec<Laid>,
    /// The band of each sash, where it starts and ends along it, and its repeats.
    pub(in crate::plan) bands: Vec<SashBand>,
    pub(in crate::plan) findings: Vec<Finding>,
}

/// The band of a sash.
#[derive(Debug, Clone)]
pub(in crate::plan) struct SashBand {
    pub(in crate::plan) strip: Strip,
    pub(in crate::plan) along: [f64; 2],
    /// Where the lines that join on to it end or start.
    pub(in crate::plan) joints: [Option<End>; 2],
    pub(in crate::plan) fit: SpanFit,
}

/// A sash at a depth, before its number of repeats is known.
struct Measured {
    strip: Strip,
    along: [f64; 2],
    joints: [Option<End>; 2],
}

impl<'a> Sashes<'a> {
    pub(in crate::plan) fn new(
        blocks: &'a BlocksAsked,
        (asked, repeats): (&'a SideAsked, &'a Repeats),
        crossings: Vec<Crossing<'a>>,
    ) -> Result<Self, Error> {
        let spots: Vec<&FieldSpot> = blocks
            .of_kind(FieldKind::Sash)
            .filter(|spot| repeats.number(side(spot.place)).is_some())
            .collect();
        let number = |place: FieldPlace| spots.binary_search_by_key(&place, |spot| spot.place);
        let mut joined = vec![[None, None]; spots.len()];
        for (at, crossing) in crossings.iter().enumerate() {
            for (end, &way) in crossing.ways.iter().enumerate() {
                if let Ok(sash) = number(super::pairs::sash_of(crossing.spot.place, way)) {
                    // Up and to the left of a cornerstone it is the end of the sash.
                    let last = matches!(way, 0 | 3);
                    joined[sash][usize::from(last)] = Some((at, end == 1));
                }
            }
        }
        let usable = spots.iter().map(|spot| blocks.usable(spot));
        Ok(Self {
            asked,
            repeats,
            usable: usable.collect::<Result<_, _>>()?,
            spots,
            joined,
            crossings,
            depth: blocks.measures.sash - 2.0 * blocks.seam_gap,
            slack: blocks.slack,
        })
    }

    /// Chooses the depth and the numbers of repeats.
    ///
    /// # Errors
    ///
    /// A fit error where a repeat doesn't fit in, as [`fit_ring`]; a plan error when nothing is
    /// left of a place.
    pub(in crate::plan) fn choose(&self, border: usize) -> Result<SashesChosen, Error> {
        let lines = |shallower: f64| {
            let lines = self
                .crossings
                .iter()
                .map(|crossing| crossing.laid(shallower));
            lines.collect::<Result<Vec<Laid>, Error>>()
        };
        let (deep_lines, step) = (lines(0.0)?, self.step());
        let shallow_lines = lines(step)?;
        let measured = |lines: &[Laid], shallower: f64| {
            let sashes = 0..self.spots.len();
            sashes
                .map(|at| self.measured(at, lines, shallower))
                .collect::<Result<Vec<_>, _>>()
        };
        let deep = measured(&deep_lines, 0.0)?;
        let shallow = measured(&shallow_lines, step)?;
        let mut classes: Vec<Class> = Vec::new();
        let mut class_of = Vec::with_capacity(deep.len());
        let mut lengths: Vec<(f64, usize, Count)> = Vec::new();
        for (at, (one, two)) in deep.iter().zip(&shallow).enumerate() {
            let class = self.class(at, [one, two], &mut lengths)?;
            let known = classes.iter().position(|known| known.is_as(&class));
            class_of.push(known.unwrap_or(classes.len()));
            if known.is_none() {
                classes.push(class);
            }
        }
        let sides: Vec<RingSide> = classes.iter().map(|class| class.side).collect();
        let depths = DepthRange {
            min: self.depth - self.slack,
            ..DepthRange::fixed(self.depth)
        };
        let limit = StretchLimit::either_way(self.asked.max_stretch);
        let group = DepthGroup::new(depths, sides).with_limit(limit);
        let fit = fit_ring(&group)?;
        let mut findings = Vec::new();
        if self.slack > 0.0 {
            let full = DepthRange::fixed(self.depth);
            let full = fit_ring(&DepthGroup {
                depth: full,
                ..group.clone()
            })?;
            let kind = FindingKind::DepthChosen {
                depth: fit.depth,
                given_up: self.depth - fit.depth,
                worst: fit.worst,
                worst_at_full: full.worst,
            };
            let first = self.usable[0].corner(0);
            findings.push(Finding::note(kind).on_border(border).at(first));
        }
        let shallower = self.depth - fit.depth;
        let crossings = lines(shallower)?;
        let bands = measured(&crossings, shallower)?;
        let bands = bands.into_iter().enumerate().map(|(at, band)| {
            let repeats = fit.sides[class_of[at]].repeats;
            let place = self.spots[at].place;
            let span = band.along[1] - band.along[0];
            let pitch = self.repeats.of(side(place))?.pitch(band.strip.depth());
            let count = self.count(place).with_fixed(repeats);
            let fit = fit_span(span, pitch, &count).map_err(|e| e.in_element(place.to_string()))?;
            let Measured {
                strip,
                along,
                joints,
            } = band;
            Ok(SashBand {
                strip,
                along,
                joints,
                fit,
            })
        });
        Ok(SashesChosen {
            bands: bands.collect::<Result<_, Error>>()?,
            crossings,
            findings,
        })
    }

    fn step(&self) -> f64 {
        match self.slack > 0.0 {
            true => self.slack,
            false => NEARBY * self.depth,
        }
    }

    fn count(&self, place: FieldPlace) -> Count {
        self.asked.counts[side(place).index()]
    }

    /// A sash where the band is so much shallower.
    fn measured(&self, at: usize, lines: &[Laid], shallower: f64) -> Result<Measured, Error> {
        let usable = &self.usable[at];
        let corners = usable.corners();
        let by = shallower / 2.0;
        // Drawn from left to right with the outside up; turned clockwise, from top to bottom.
        let (origin, along, across) = match self.spots[at].place.runs_across() {
            true => {
                let deep = corners[3].y - corners[0].y - shallower;
                let inner = corners[3] - Vector::new(0.0, by);
                (inner, Vector::new(1.0, 0.0), Vector::new(0.0, -deep))
            }
            false => {
                let deep = corners[1].x - corners[0].x - shallower;
                let inner = corners[0] + Vector::new(by, 0.0);
                (inner, Vector::new(0.0, 1.0), Vector::new(deep, 0.0))
            }
        };
        let strip = Strip::new(origin, along, across)?;
        let far = corners[2];
        let mut ends = [0.0, strip.locate(far).0];
        let mut joints = [None, None];
        for (end, joined) in self.joined[at].iter().enumerate() {
            if let Some((crossing, last)) = joined {
                let line = &lines[*crossing].lines[0];
                let joint = if *last { line.end() } else { line.start() };
                ends[end] = strip.locate(joint.point).0;
                joints[end] = Some(joint);
            }
        }
        Ok(Measured {
            strip,
            along: ends,
            joints,
        })
    }

    fn class(
        &self,
        at: usize,
        [one, two]: [&Measured; 2],
        lengths: &mut Vec<(f64, usize, Count)>,
    ) -> Result<Class, Error> {
        let place = self.spots[at].place;
        let side = side(place);
        let number = self.repeats.number(side).unwrap_or(0);
        let span = |sash: &Measured| sash.along[1] - sash.along[0];
        let per_depth = (span(one) - span(two)) / self.step();
        let fixed = span(one) - per_depth * self.depth;
        let corners = &self.spots[at].corners;
        let nominal = match place.runs_across() {
            true => corners[1].x - corners[0].x,
            false => corners[2].y - corners[1].y,
        };
        let count = self.count(place);
        let alike = |(length, design, other): &(f64, usize, Count)| {
            (length - nominal).abs() < SAME_MM && *design == number && *other == count
        };
        let tie = lengths.iter().position(alike).unwrap_or_else(|| {
            lengths.push((nominal, number, count));
            lengths.len() - 1
        });
        let pitch = self.repeats.of(side)?.pitch(1.0);
        let ring = RingSide::new(fixed, per_depth, pitch);
        let legs = one.joints.iter().flatten().count();
        Ok(Class {
            side: ring
                .with_deeper(one.strip.depth() - self.depth)
                .with_count(count)
                .with_tie(tie)
                .with_legs(u8::try_from(legs).unwrap_or(2)),
        })
    }
}

/// Sashes that are alike.
struct Class {
    side: RingSide,
}

impl Class {
    fn is_as(&self, other: &Self) -> bool {
        let (one, two) = (&self.side, &other.side);
        one.tie == two.tie
            && (one.fixed - two.fixed).abs() < SAME_MM
            && (one.per_depth - two.per_depth).abs() < SAME_MM
            && (one.deeper - two.deeper).abs() < SAME_MM
            && one.pitch == two.pitch
    }
}

/// The side by whose number the keys of a sash are read: the first for those that run across, the
/// second for those that run up and down.
pub(in crate::plan) fn side(place: FieldPlace) -> Side {
    let [across, up] = Side::pair();
    if place.runs_across() { across } else { up }
}
