//! One sash filled with repeats, and its ends brought to the lines that join on to it.

use super::sashes::SashBand;
use crate::chain::{Across, ChainOptions, Repeat, Terminal, chain_repeats};
use crate::error::Error;
use crate::fit::Stiffness;
use crate::geom::{ConvexPolygon, Point};
use crate::motif::Motif;
use crate::plan::asked::SideAsked;
use crate::plan::chained;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::piece::{PieceLine, SashDetail};
use crate::plan::tolerances::Tolerances;
use crate::warp::Strip;

/// A sash filled.
#[derive(Debug)]
pub(in crate::plan) struct Sash {
    pub(in crate::plan) line: PieceLine,
    pub(in crate::plan) detail: SashDetail,
    pub(in crate::plan) scale: [f64; 2],
    pub(in crate::plan) along: [f64; 2],
    pub(in crate::plan) found: Vec<Finding>,
}

/// Fills a sash.
///
/// # Errors
///
/// As [`chain_repeats`], and where a repeat can't be eased.
///
/// # Complexity
///
/// O(points written).
pub(in crate::plan) fn fill_sash(
    asked: &SideAsked,
    repeat: &Repeat,
    stiffness: Option<&Stiffness>,
    band: &SashBand,
    tolerances: Tolerances,
) -> Result<Sash, Error> {
    let (strip, fit) = (&band.strip, band.fit);
    let depth = strip.depth();
    let tolerance = tolerances.flattening / depth;
    let (used, ease) = chained::eased(repeat, stiffness, fit.chosen.stretch, tolerance)?;
    let options = ChainOptions {
        repeats: fit.chosen.repeats,
        alternate: asked.pattern,
        ends: asked.ends,
        join_tolerance: tolerances.join,
        flattening: tolerances.flattening,
    };
    let terminal = |end: usize| {
        let across = band.joints[end].map(|joint| Across::Near(strip.locate(joint.point).1));
        Terminal::new(band.along[end]).with_across(across.unwrap_or_default())
    };
    let chain = chain_repeats(&used, strip, [terminal(0), terminal(1)], &options)?;
    let span = band.along[1] - band.along[0];
    let across = depth / repeat.drawn_depth();
    let mut found = chained::noted((chain.levelled, chain.links), ease, tolerances.join);
    let detail = SashDetail {
        fit,
        span,
        pitch: span / fit.chosen.repeats as f64,
        levelled: chain.levelled,
        kink_degrees: chain.kink_degrees.max(chain.repeat_kink_degrees),
        links: chain.links,
        ease,
    };
    let line = PieceLine::new(chain.motif, chain.ends);
    let (line, linked) = to_joints(line, band, tolerances.join)?;
    found.extend(linked.map(|length| Finding::warning(FindingKind::Linked { length })));
    Ok(Sash {
        line,
        detail,
        scale: [fit.chosen.stretch * across, across],
        along: band.along,
        found,
    })
}

/// The same line gone on with to what joins on to it, where it couldn't be levelled to that, with
/// the longest link.
fn to_joints(
    line: PieceLine,
    band: &SashBand,
    join: f64,
) -> Result<(PieceLine, Option<f64>), Error> {
    let ends = [line.motif.start(), line.motif.end()];
    let gap = |end: usize| {
        let joint = band.joints[end]?.point;
        let length = (joint - ends[end].point).norm();
        (length > join).then_some((joint, length))
    };
    let gaps = [gap(0), gap(1)];
    let longest = gaps
        .iter()
        .flatten()
        .map(|(_, length)| *length)
        .reduce(f64::max);
    if longest.is_none() {
        return Ok((line, None));
    }
    let PieceLine { motif, mut ends } = line;
    let mut links = motif.links().to_vec();
    let mut points: Vec<Point> = Vec::with_capacity(motif.points().len() + 2);
    if let Some((joint, _)) = gaps[0] {
        points.push(joint);
        let later = ends.iter_mut().chain(&mut links);
        later.for_each(|index| *index += 1);
        links.insert(0, 0);
    }
    points.extend(motif.points());
    if let Some((joint, _)) = gaps[1] {
        links.push(points.len() - 1);
        points.push(joint);
        if let Some(last) = ends.last_mut() {
            *last = points.len() - 1;
        }
    }
    let motif = Motif::from_points(motif.name(), points)?.with_links(links);
    Ok((PieceLine::new(motif, ends), longest))
}

impl Sash {
    /// The same sash travelled backwards.
    pub(in crate::plan) fn reversed(self) -> Self {
        let last = self.line.motif.points().len() - 1;
        let inner = self.line.ends.iter().rev().skip(1).map(|end| last - end);
        let ends = inner.chain([last]).collect();
        Self {
            line: PieceLine::new(self.line.motif.reversed(), ends),
            ..self
        }
    }

    /// What of the band it may take.
    pub(in crate::plan) fn within(&self, strip: &Strip) -> Result<ConvexPolygon, Error> {
        let [from, to] = self.along;
        let corners = [(from, 1.0), (to, 1.0), (to, 0.0), (from, 0.0)];
        ConvexPolygon::new(corners.map(|(s, t)| strip.place(s, t)).to_vec())
    }
}
