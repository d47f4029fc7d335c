//! Where a side runs: the band from the end of one corner to the start of the next.

use super::place::Side;
use super::ring::{Solver, Work};
use crate::chain::{Chain, ChainOptions, Repeat, Terminal, chain_repeats};
use crate::error::Error;
use crate::geom::Point;
use crate::warp::{BandMap, CrossLine, RuledBand, SplineBand, Strip};

/// A line is square to a side when its direction is off by no more than rounding.
const SQUARE: f64 = 1e-12;

/// The band of one side.
#[derive(Debug, Clone)]
enum SideBand {
    /// Straight, its ends square to it.
    Straight(Strip),
    /// Straight, with slanted ends.
    Slanted(RuledBand),
    /// Along a wavy seam or edge.
    Waved(SplineBand),
}

/// The way of one side along its band.
#[derive(Debug, Clone)]
pub(super) struct SideRun {
    band: SideBand,
    pub(super) terminals: [Terminal; 2],
    /// The outer and the inner line of the band where it is wavy.
    pub(super) lines: Option<[Vec<Point>; 2]>,
    /// How many stations lie within the reach of a corner.
    pub(super) passed_over: usize,
}

impl SideRun {
    /// The length along the band, on its middle line.
    pub(super) fn span(&self) -> f64 {
        self.terminals[1].along - self.terminals[0].along
    }

    /// The depth of the band, its mean where it changes.
    pub(super) fn depth(&self) -> f64 {
        match &self.band {
            SideBand::Straight(strip) => strip.depth(),
            SideBand::Slanted(band) => band.depth(),
            SideBand::Waved(band) => band.depth(),
        }
    }

    /// Chains repeats along the way.
    pub(super) fn chain(&self, repeat: &Repeat, options: &ChainOptions) -> Result<Chain, Error> {
        match &self.band {
            SideBand::Straight(strip) => chain_repeats(repeat, strip, self.terminals, options),
            SideBand::Slanted(band) => chain_repeats(repeat, band, self.terminals, options),
            SideBand::Waved(band) => chain_repeats(repeat, band, self.terminals, options),
        }
    }
}

impl Solver {
    /// The way of a side between two lines across its band; `ports` are the points on them where
    /// corners end and start, where they join on.
    pub(super) fn run(
        &self,
        work: &Work<'_>,
        side: Side,
        lines: [CrossLine; 2],
        ports: Option<[Point; 2]>,
    ) -> Result<SideRun, Error> {
        let layout = work.layout;
        let strip = layout.strip(side);
        let ends = [lines[0].ends(&strip)?, lines[1].ends(&strip)?];
        let along = |point: Point| strip.locate(point).0;
        let room = layout.side_length(side);
        let left = [0, 1]
            .map(|line| along(ends[1][line]) - along(ends[0][line]))
            .into_iter()
            .fold(f64::INFINITY, f64::min);
        let enough = left > 1e-9 * room;
        if !enough {
            return Err(self.overlap(side, room - left, room));
        }
        let widths = &layout.widths[side.index()];
        let (waved, passed_over) = layout
            .waves
            .between(&layout.band, side, widths, ends)
            .map_err(|e| e.in_element(side.to_string()).in_element("stations"))?;
        let square = |line: &CrossLine| {
            line.direction.dot(&strip.along()).abs() <= SQUARE * line.direction.norm()
        };
        let (band, along, outline) = match waved {
            Some(waved) => {
                let outline = waved.lines(self.tolerances.flattening)?;
                (SideBand::Waved(waved.curve), waved.along, Some(outline))
            }
            None if lines.iter().all(square) => {
                let along = lines.map(|line| along(line.through));
                (SideBand::Straight(strip), along, None)
            }
            None => {
                let ruled = RuledBand::new(&ends)?;
                let length = ruled.length();
                (SideBand::Slanted(ruled), [0.0, length], None)
            }
        };
        // The band ends on straight lines, so the share across is that of the straight strip.
        let across = ports.map(|ports| ports.map(|port| strip.locate(port).1));
        let terminal = |end: usize| Terminal {
            along: along[end],
            across: across.map(|across| across[end]),
        };
        Ok(SideRun {
            band,
            terminals: [terminal(0), terminal(1)],
            lines: outline,
            passed_over,
        })
    }
}
