//! A side that has begun: what is kept of it as it lies, and every open stretch between filled
//! anew with the repeats that are left there.
//!
//! Method: an open stretch is chained along the side's own band from where the kept repeat before
//! it ends to where the next one starts, in the phase of the pattern and with an ease of its own.
//! Guarantee: the line goes on from kept ends exactly; its repeats are as many as there were.
//! Failure: no room between kept ends.

use super::middle::{chain_around, middle_copy};
use super::side::{FilledSide, check_room, eased, found, room};
use crate::chain::{Chain, ChainOptions};
use crate::error::{Error, StitchedFault};
use crate::fit::{EaseReport, SpanFit, Stiffness};
use crate::geom::{Point, Vector};
use crate::motif::Motif;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::kept::KeptSide;
use crate::plan::laid::Border;
use crate::plan::piece::{PieceLine, SideDetail};
use crate::plan::spans::SideSpan;

/// A stretch is that of the whole side when it differs by no more than rounding.
const ROUNDING: f64 = 1e-12;

/// Fills a side that has begun; `points` is how many points the sides before it have.
///
/// # Complexity
///
/// O(points written).
pub(in crate::plan) fn fill_kept(
    border: &Border<'_>,
    span: &SideSpan,
    fit: SpanFit,
    stiffness: &[Stiffness],
    points: usize,
    kept: &KeptSide,
) -> Result<(FilledSide, Vec<Finding>), Error> {
    let in_side = |e: Error| e.in_element(format!("side, {}", span.side.name()));
    let repeat = border.repeats.of(span.side)?;
    check_room(points, kept.open(), repeat).map_err(in_side)?;
    let mut line = Line::default();
    let mut open: Vec<Open> = Vec::new();
    let (mut done, mut last) = (0, None);
    for at in 0..=kept.blocks.len() {
        let next = kept.blocks.get(at);
        let until = next.map_or(kept.repeats, |block| block.repeats.start);
        if until > done {
            let inner = [last, next.map(|block| block.points[0])];
            let filled = fill_open(
                border,
                span,
                (fit, kept.repeats),
                stiffness,
                done..until,
                inner,
            )
            .map_err(in_side)?;
            line.add_chain(&filled.chain, inner, border.tolerances.join);
            open.push(filled);
        }
        if let Some(block) = next {
            let reached = line.length();
            let stretches = block.stretches.iter();
            line.stretches
                .extend(stretches.map(|stretch| stretch.map(|at| reached + at)));
            line.add(&block.points, &block.ends, &block.links, block.directions);
            (done, last) = (block.repeats.end, block.points.last().copied());
        }
    }
    let across = span.depth() / repeat.drawn_depth();
    let most = |of: fn(&Chain) -> f64| open.iter().map(|open| of(&open.chain)).fold(0.0, f64::max);
    let beyond = |open: &&Open| (open.stretch - 1.0).abs();
    let worst = open
        .iter()
        .max_by(|one, other| beyond(one).total_cmp(&beyond(other)));
    let kinks = [
        most(|chain| chain.kink_degrees),
        most(|chain| chain.repeat_kink_degrees),
    ];
    let room = room(border, span, &fit).map_err(in_side)?;
    let middle = border.repeats.middle(span.side);
    let detail = SideDetail {
        side: span.side,
        fit,
        span: span.length(),
        pitch: room / kept.repeats as f64,
        scale: [fit.chosen.stretch * across, across],
        middle: middle.map(|middle| middle.detail(span.length(), span.depth(), room)),
        levelled: most(|chain| chain.levelled),
        links: open.iter().map(|open| open.chain.links).sum::<usize>() + line.more_links,
        kink_degrees: kinks[0].max(kinks[1]),
        ease: worst.and_then(|open| open.ease),
    };
    let start = line.points[0];
    let mut findings = found(border, &detail, kinks, start);
    let limit = border.asked.side.max_stretch;
    if let Some(worst) = worst.filter(|open| (open.stretch - 1.0).abs() > limit) {
        let kind = FindingKind::RestStretched {
            repeats: worst.repeats,
            stretch: worst.stretch,
            limit,
        };
        let finding = Finding::warning(kind).on_side(border.asked.index, span.side);
        findings.push(finding.at(worst.chain.motif.start().point));
    }
    let stretches = match open.is_empty() {
        true => kept.stretches.clone(),
        false => line.shares(),
    };
    let side = FilledSide {
        line: line.piece_line(repeat.name())?,
        detail,
        stretches,
    };
    Ok((side, findings))
}

/// An open stretch, filled.
struct Open {
    chain: Chain,
    repeats: usize,
    stretch: f64,
    ease: Option<EaseReport>,
}

fn fill_open(
    border: &Border<'_>,
    span: &SideSpan,
    (fit, total): (SpanFit, usize),
    stiffness: &[Stiffness],
    copies: std::ops::Range<usize>,
    inner: [Option<Point>; 2],
) -> Result<Open, Error> {
    let repeats = copies.len();
    let terminals = span.terminals_at(inner);
    let length = terminals.map_or(0.0, |ends| ends[1].along - ends[0].along);
    let pitch = border.repeats.of(span.side)?.pitch(span.depth());
    let middle = border.repeats.middle(span.side);
    let middle = middle.filter(|_| copies.contains(&middle_copy(total)));
    // What there is for the repeats beside the middle.
    let room = match middle {
        Some(middle) if length > 0.0 => {
            let size = (length, span.depth());
            let room = middle.room(span.side, size, pitch, Some(repeats));
            room.unwrap_or(0.0)
        }
        _ => length,
    };
    let Some(terminals) = terminals.filter(|_| room > 0.0) else {
        return Err(StitchedFault::NoRoom {
            side: span.side.to_string(),
            repeats,
            room,
        }
        .into());
    };
    let own = room / repeats as f64 / pitch;
    let whole = fit.chosen.stretch;
    let stretch = if (own - whole).abs() <= ROUNDING * whole {
        whole
    } else {
        own
    };
    let (repeat, ease) = eased(border, span, stretch, stiffness)?;
    let options = ChainOptions {
        repeats: total,
        alternate: border.asked.side.pattern,
        ends: border.asked.side.ends,
        join_tolerance: border.tolerances.join,
        flattening: border.tolerances.flattening,
    };
    let chain = match middle {
        None => span.chain_copies(&repeat, &options, copies, terminals)?,
        Some(middle) => {
            let all = (copies, terminals);
            chain_around(span, (&repeat, &options), middle, all, room)?.0
        }
    };
    Ok(Open {
        chain,
        repeats,
        stretch,
        ease,
    })
}

/// A side's line as far as it has come.
#[derive(Default)]
struct Line {
    points: Vec<Point>,
    ends: Vec<usize>,
    links: Vec<usize>,
    /// Links to kept ends that a chain could not be levelled to.
    more_links: usize,
    directions: Option<[Vector; 2]>,
    /// What is stitched, as lengths along the line.
    stretches: Vec<[f64; 2]>,
}

impl Line {
    fn length(&self) -> f64 {
        let pairs = self.points.windows(2);
        pairs.map(|pair| (pair[1] - pair[0]).norm()).sum()
    }

    /// Adds an open stretch, its inner ends brought to the kept ones exactly.
    fn add_chain(&mut self, chain: &Chain, inner: [Option<Point>; 2], join: f64) {
        let mut points = chain.motif.points().to_vec();
        let (mut ends, mut links) = (chain.ends.clone(), chain.motif.links().to_vec());
        if let Some(start) = inner[0] {
            if (points[0] - start).norm() <= join {
                points[0] = start;
            } else {
                points.insert(0, start);
                let later = ends.iter_mut().chain(&mut links);
                later.for_each(|index| *index += 1);
                links.insert(0, 0);
                self.more_links += 1;
            }
        }
        if let Some(end) = inner[1] {
            let last = points.len() - 1;
            if (points[last] - end).norm() <= join {
                points[last] = end;
            } else {
                points.push(end);
                links.push(last);
                if let Some(stop) = ends.last_mut() {
                    *stop = last + 1;
                }
                self.more_links += 1;
            }
        }
        let directions = [chain.motif.start(), chain.motif.end()].map(|end| end.direction);
        self.add(&points, &ends, &links, directions);
    }

    /// Adds points with the indices where repeats end and links start; points equal to the one
    /// before them are left out.
    fn add(&mut self, points: &[Point], ends: &[usize], links: &[usize], directions: [Vector; 2]) {
        let placed: Vec<usize> = points
            .iter()
            .map(|point| {
                if self.points.last() != Some(point) {
                    self.points.push(*point);
                }
                self.points.len() - 1
            })
            .collect();
        self.ends.extend(ends.iter().map(|&end| placed[end]));
        let links = links.iter().map(|&link| placed[link]);
        self.links.extend(links);
        self.links.dedup();
        let [start, end] = directions;
        let first = self.directions.map_or(start, |[first, _]| first);
        self.directions = Some([first, end]);
    }

    /// What is stitched as shares of the length.
    fn shares(&self) -> Vec<[f64; 2]> {
        const SAME: f64 = 1e-12;
        let length = self.length();
        let mut shares: Vec<[f64; 2]> = Vec::with_capacity(self.stretches.len());
        for stretch in &self.stretches {
            let [mut from, mut to] = stretch.map(|at| at / length);
            if from <= SAME {
                from = 0.0;
            }
            if to >= 1.0 - SAME {
                to = 1.0;
            }
            match shares.last_mut() {
                Some(last) if from - last[1] <= SAME => last[1] = to,
                _ => shares.push([from, to]),
            }
        }
        shares
    }

    fn piece_line(self, name: &str) -> Result<PieceLine, Error> {
        let motif = Motif::from_points(name, self.points)?;
        let motif = match self.directions {
            Some(directions) => motif.with_directions(directions),
            None => motif,
        };
        Ok(PieceLine::new(motif.with_links(self.links), self.ends))
    }
}
