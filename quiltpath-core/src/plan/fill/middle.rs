//! Repeats of a side round what lies in its middle, as one path.
//!
//! Problem: the first copies lead up to the middle, the others away from it; between lie a centre,
//! plain spacers, or both. Method: each group is chained by itself, as some of the copies of one
//! path, so that patterns go on; the centre is one copy of a path of its own, levelled to the
//! repeats where it meets them; a spacer is a straight line in the band. Guarantee: the path is
//! connected; what doesn't meet is linked and counted. The middle belongs to the copy after it, as
//! a link does, so that the copies end where they are counted.

use std::ops::Range;

use crate::chain::{Across, Alternate, Chain, ChainOptions, Repeat, Terminal};
use crate::error::Error;
use crate::geom::{Point, Vector, turn_between};
use crate::motif::Motif;
use crate::plan::middle::{Middle, MiddleDetail};
use crate::plan::spans::SideSpan;

/// The number of the copy before which the middle lies.
pub(super) fn middle_copy(total: usize) -> usize {
    total / 2
}

/// Chains some of the copies of a side between two places of it, round its middle; the copies share
/// `room`, and the middle has the rest.
pub(super) fn chain_around(
    span: &SideSpan,
    (repeat, options): (&Repeat, &ChainOptions),
    middle: &Middle,
    (copies, terminals): (Range<usize>, [Terminal; 2]),
    room: f64,
) -> Result<(Chain, MiddleDetail), Error> {
    let at = middle_copy(options.repeats);
    let pitch = room / copies.len() as f64;
    let length = terminals[1].along - terminals[0].along;
    let detail = middle.detail(length, span.depth(), room);
    let [left, right] = [
        terminals[0].along + pitch * (at - copies.start) as f64,
        terminals[1].along - pitch * (copies.end - at) as f64,
    ];
    let group = |own: Range<usize>, ends| span.chain_copies(repeat, options, own, ends);
    let before = (copies.start < at)
        .then(|| group(copies.start..at, [terminals[0], Terminal::new(left)]))
        .transpose()?;
    let after = group(at..copies.end, [Terminal::new(right), terminals[1]])?;
    let first = match &before {
        Some(chain) => chain.across[0],
        None => match terminals[0].across {
            Across::At(across) | Across::Near(across) => across,
            Across::Drawn => after.across[0],
        },
    };
    let mut path = Path {
        span,
        join: options.join_tolerance,
        flattening: options.flattening,
        points: Vec::new(),
        links: Vec::new(),
        directions: None,
        turn: 0.0,
        links_between: 0,
        at: (left, first),
    };
    if let Some(chain) = &before {
        path.add(chain, left);
    }
    let mut chains: Vec<&Chain> = before.iter().collect();
    let centre = match &middle.centre {
        Some(centre) => {
            let apart = detail.spacer > 0.0;
            let meets = |end, across| match apart {
                true => Terminal::new(end),
                false => Terminal::new(end).with_across(Across::Near(across)),
            };
            let (from, to) = (left + detail.spacer, right - detail.spacer);
            let ends = [meets(from, path.at.1), meets(to, after.across[0])];
            let options = ChainOptions {
                repeats: 1,
                alternate: Alternate::None,
                ..*options
            };
            let chain = span.chain_copies(centre, &options, 0..1, ends)?;
            Some((chain, [from, to]))
        }
        None => None,
    };
    if let Some((chain, [from, to])) = &centre {
        path.reach(detail.spacer, (*from, chain.across[0]))?;
        path.add(chain, *to);
        chains.push(chain);
    }
    path.reach(detail.spacer, (right, after.across[0]))?;
    let mut ends = before
        .as_ref()
        .map_or(Vec::new(), |chain| chain.ends.clone());
    let start = path.add(&after, terminals[1].along);
    ends.extend(after.ends.iter().map(|end| end + start));
    chains.push(&after);
    let most = |of: fn(&Chain) -> f64| chains.iter().map(|chain| of(chain)).fold(0.0, f64::max);
    let links = chains.iter().map(|chain| chain.links).sum::<usize>() + path.links_between;
    let (kinks, turn) = (
        [
            most(|chain| chain.kink_degrees),
            most(|chain| chain.repeat_kink_degrees),
        ],
        path.turn.to_degrees(),
    );
    let levelled = most(|chain| chain.levelled);
    let motif = path.motif(repeat.name())?;
    let chain = Chain {
        motif,
        across: [first, after.across[1]],
        levelled,
        links,
        kink_degrees: kinks[0],
        repeat_kink_degrees: kinks[1].max(turn),
        ends,
    };
    Ok((chain, detail))
}

/// A path along a side, as far as it has come.
struct Path<'a> {
    span: &'a SideSpan,
    join: f64,
    flattening: f64,
    points: Vec<Point>,
    /// The segments that are links, by the index of their first point.
    links: Vec<usize>,
    directions: Option<[Vector; 2]>,
    /// The sharpest turn between its parts, in radians.
    turn: f64,
    /// How many links lie between its parts.
    links_between: usize,
    /// Where it has come to: the distance along, the share across.
    at: (f64, f64),
}

impl Path<'_> {
    /// Goes on by a plain spacer to a place of the band, where there is one.
    fn reach(&mut self, spacer: f64, to: (f64, f64)) -> Result<(), Error> {
        if spacer <= 0.0 {
            return Ok(());
        }
        let line = self.span.line([self.at, to], self.flattening)?;
        let last = line.len() - 1;
        let directions = [line[1] - line[0], line[last] - line[last - 1]];
        let skipped = usize::from(!self.points.is_empty());
        self.points.extend(&line[skipped..]);
        self.went_on(directions);
        self.at = to;
        Ok(())
    }

    /// Adds a chain that reaches so far along; returns the number of its first point.
    fn add(&mut self, chain: &Chain, along: f64) -> usize {
        let points = chain.motif.points();
        let [start, end] = [chain.motif.start(), chain.motif.end()].map(|end| end.direction);
        let meets = |last: &Point| (points[0] - last).norm() <= self.join;
        let skipped = usize::from(self.points.last().is_some_and(meets));
        let first = self.points.len() - skipped;
        if skipped == 0 && first > 0 {
            self.links.push(first - 1);
            self.links_between += 1;
            // A link's turns are no turn of one repeat into the next.
            self.directions = self.directions.map(|[first, _]| [first, start]);
        }
        self.points.extend(&points[skipped..]);
        self.links
            .extend(chain.motif.links().iter().map(|link| link + first));
        self.went_on([start, end]);
        self.at = (along, chain.across[1]);
        first
    }

    /// Notes the directions in which the last part starts and ends.
    fn went_on(&mut self, [start, end]: [Vector; 2]) {
        let first = match self.directions {
            Some([first, before]) => {
                self.turn = self.turn.max(turn_between(before, start));
                first
            }
            None => start,
        };
        self.directions = Some([first, end]);
    }

    fn motif(self, name: &str) -> Result<Motif, Error> {
        let motif = Motif::from_points(name, self.points)?;
        let motif = match self.directions {
            Some(directions) => motif.with_directions(directions),
            None => motif,
        };
        Ok(motif.with_links(self.links))
    }
}
