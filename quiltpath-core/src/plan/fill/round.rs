//! A border that runs round without a corner: its depth and number of repeats chosen, and filled.
//!
//! Method: the band of a round border is a closed strip about a curve in its middle, which stays
//! where it is when both gaps grow alike; so its length is one number, and depth and repeats are a
//! ring of one side (`fit::ring`). Repeats are chained once round, both ends at one height. Along
//! scallops the depth is the mean one, and the number of repeats a multiple of theirs.
//! Guarantee: a whole number of repeats, for each scallop, too; the line ends on the very point
//! where it starts; the length of the band is that of the curve in its middle.
//! Failure: corner designs, which have nowhere to go; different designs by side; a band so deep
//! that its inner line folds.

use super::ring::Filled;
use super::side::check_room;
use crate::chain::{Across, Alternate, ChainOptions, Ends, Terminal, chain_repeats};
use crate::error::{Error, PlanFault, StitchedFault};
use crate::fit::{DepthGroup, DepthRange, RingSide, SpanFit, StretchLimit, fit_ring, fit_span};
use crate::geom::turn_between;
use crate::motif::Motif;
use crate::plan::chained;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::laid::Border;
use crate::plan::lay::layout::Layout;
use crate::plan::lay::round::RoundStrip;
use crate::plan::piece::{Piece, PieceKind, PieceLine, RingDetail};
use crate::plan::stitched::{PartPlace, StitchedBorder};

/// A turn where a repeat meets another is reported from this many degrees on: our own choice.
const LEAST_KINK_DEGREES: f64 = 20.0;

/// Fills a round border, of which something may be stitched already; `points` is how many points
/// the sides of the borders before it have.
///
/// # Complexity
///
/// O(points written).
pub(in crate::plan) fn fill_round(
    border: &Border<'_>,
    begun: Option<&StitchedBorder>,
    points: usize,
) -> Result<(Filled, Vec<Finding>), Error> {
    let (asked, full) = (border.asked, border.layout);
    let plain = asked.sides.iter().all(|side| !side);
    if plain {
        let filled = Filled::plain(full.clone());
        return Ok((filled, Vec::new()));
    }
    if asked.sides.contains(&false) {
        return Err(Error::from(PlanFault::RoundSides).in_element("side.motif"));
    }
    let repeat = border.repeats.shared("round")?;
    let strip = full.round_strip()?;
    let (depth, length) = (strip.map.depth(), strip.length);
    if asked.slack >= depth {
        let slack = asked.slack;
        return Err(Error::from(PlanFault::SlackTooWide { slack, depth }).in_element("slack"));
    }
    // Copies that differ meet again only after both.
    let mut count = asked.side.counts[0];
    if asked.side.pattern != Alternate::None && count.fixed.is_none() {
        count.every = multiple_of_both(count.every, 2);
    }
    if strip.scallops > 0 {
        let scallops = strip.scallops;
        if let Some(repeats) = count.fixed.filter(|fixed| fixed % scallops != 0) {
            let count = scallops;
            let fault = PlanFault::ScallopRepeats { repeats, count };
            return Err(Error::from(fault).in_element("side.repeats"));
        }
        count.every = multiple_of_both(count.every, scallops);
    }
    let side = RingSide::new(length, 0.0, repeat.pitch(1.0)).with_count(count);
    let depths = DepthRange {
        min: depth - asked.slack,
        ..DepthRange::fixed(depth)
    };
    let limit = StretchLimit::either_way(asked.side.max_stretch);
    let group = DepthGroup::new(depths, vec![side]).with_limit(limit);
    let chosen = fit_ring(&group)?;
    let mut findings = Vec::new();
    let here = strip.map.place(0.0, 0.5);
    if asked.slack > 0.0 {
        let at_full = fit_ring(&DepthGroup {
            depth: DepthRange::fixed(depth),
            ..group
        })?;
        let kind = FindingKind::DepthChosen {
            depth: chosen.depth,
            given_up: depth - chosen.depth,
            worst: chosen.worst,
            worst_at_full: at_full.worst,
        };
        findings.push(Finding::note(kind).on_border(asked.index).at(here));
    }
    let (layout, band) = match chosen.depth < depth {
        true => {
            // By as much as the mean depth shrinks, shrinks the greatest.
            let layout = full.at_share(1.0 - (depth - chosen.depth) / full.depth())?;
            let band = layout.round_strip()?;
            (layout, band)
        }
        false => (full.clone(), strip),
    };
    let pitch = repeat.pitch(band.map.depth());
    let fit = fit_span(
        band.length,
        pitch,
        &count.with_fixed(chosen.sides[0].repeats),
    )?;
    check_room(points, fit.chosen.repeats, repeat)?;
    let (piece, found) = ring(border, &layout, &band, fit)?;
    findings.extend(found);
    let (piece, found) = kept(piece, begun, &layout)?;
    findings.extend(found.map(|kind| Finding::note(kind).on_border(asked.index).at(here)));
    let filled = Filled {
        layout,
        points: piece.motif().points().len(),
        pieces: vec![piece],
        joins: Vec::new(),
    };
    Ok((filled, findings))
}

/// The least number that is a multiple of both.
fn multiple_of_both(one: usize, other: usize) -> usize {
    let (mut left, mut right) = (one.max(1), other.max(1));
    while right > 0 {
        (left, right) = (right, left % right);
    }
    one.max(1) / left * other.max(1)
}

/// The piece that runs round.
fn ring(
    border: &Border<'_>,
    layout: &Layout,
    band: &RoundStrip,
    fit: SpanFit,
) -> Result<(Piece, Vec<Finding>), Error> {
    let (asked, tolerances) = (border.asked, border.tolerances);
    let repeat = border.repeats.shared("round")?;
    let depth = band.map.depth();
    let stretch = fit.chosen.stretch;
    let stiffness = chained::stiffness(border.repeats, asked.side.ease)?;
    let tolerance = tolerances.flattening / depth;
    let (used, ease) = chained::eased(repeat, stiffness.first(), stretch, tolerance)?;
    let repeats = fit.chosen.repeats;
    let options = ChainOptions {
        repeats,
        alternate: asked.side.pattern,
        ends: asked.side.ends,
        join_tolerance: tolerances.join,
        flattening: tolerances.flattening,
    };
    // Where it starts is where it ends: at one height.
    let [start, end] = used.chain_offsets(asked.side.pattern, repeats);
    let height = match asked.side.ends {
        Ends::Level => f64::midpoint(start, end),
        Ends::Link => start,
    };
    let terminal = |along| Terminal::new(along).with_across(Across::At(height));
    let ends = [terminal(0.0), terminal(band.length)];
    let chain = chain_repeats(&used, band.map.as_ref(), ends, &options)?;
    let motif = closed(chain.motif)?;
    let mut found = chained::noted((chain.levelled, chain.links), ease, tolerances.join);
    let turn = turn_between(motif.end().direction, motif.start().direction).to_degrees();
    let kinks = [chain.kink_degrees, chain.repeat_kink_degrees, turn];
    let degrees = kinks.into_iter().fold(0.0, f64::max);
    if degrees > LEAST_KINK_DEGREES {
        found.push(Finding::turn(degrees, FindingKind::RepeatKink { degrees }));
    }
    let stretched = chained::beyond(&fit, asked.side.max_stretch);
    found.extend(stretched.map(Finding::warning));
    let across = depth / repeat.drawn_depth();
    let detail = RingDetail {
        fit,
        span: band.length,
        pitch: band.length / repeats as f64,
        scallops: band.scallops,
        scale: [stretch * across, across],
        levelled: chain.levelled,
        kink_degrees: degrees,
        links: chain.links,
        ease,
    };
    let start = motif.start().point;
    let line = PieceLine::new(motif, chain.ends);
    let name = layout.file_name();
    let kind = PieceKind::Ring(detail);
    let piece = Piece::new(asked.index, (&name, "round"), depth, kind, line);
    let here = |finding: Finding| finding.on_border(asked.index).at(start);
    Ok((piece, found.into_iter().map(here).collect()))
}

/// The piece with the line of what is stitched of it.
fn kept(
    piece: Piece,
    begun: Option<&StitchedBorder>,
    layout: &Layout,
) -> Result<(Piece, Option<FindingKind>), Error> {
    const SAME_MM: f64 = 1e-6;
    let Some(begun) = begun.filter(|begun| begun.has_begun()) else {
        return Ok((piece, None));
    };
    let seam = layout.band.seam.corners();
    let near = |one: f64, other: f64| (one - other).abs() <= SAME_MM;
    let same = begun.seam.len() == seam.len()
        && begun
            .seam
            .iter()
            .zip(seam)
            .all(|(one, other)| (one - other).norm() <= SAME_MM)
        && begun.widths.iter().zip(&layout.widths).all(|(one, other)| {
            near(one.seam_gap, other.seam_gap) && near(one.edge_gap, other.edge_gap)
        });
    let part = begun.part(&PartPlace::Ring).filter(|_| same);
    let Some(part) = part else {
        let border = layout.name.clone();
        return Err(StitchedFault::RoundChanged { border }.into());
    };
    let kind = FindingKind::Kept {
        corners: 0,
        sides: 1,
        length: part.length(),
    };
    let piece = piece.with_line(part.line.clone());
    Ok((piece.with_stitched(part.stretches.clone()), Some(kind)))
}

/// The line with its end on its very start.
fn closed(motif: Motif) -> Result<Motif, Error> {
    let directions = [motif.start().direction, motif.end().direction];
    let (name, links) = (motif.name().to_owned(), motif.links().to_vec());
    let mut points = motif.points().to_vec();
    let first = points[0];
    if let Some(last) = points.last_mut() {
        *last = first;
    }
    let motif = Motif::from_points(name, points)?;
    Ok(motif.with_directions(directions).with_links(links))
}
