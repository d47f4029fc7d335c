//! One span: where a side runs, and the band that its repeats are chained along.

use std::ops::Range;

use crate::chain::{Across, Chain, ChainOptions, MAX_POINTS, Repeat, Terminal, chain_copies};
use crate::error::{Error, FitFault, PlanFault};
use crate::geom::Point;
use crate::plan::joint::Joint;
use crate::plan::lay::Waved;
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::Side;
use crate::warp::{BandMap, CrossLine, RuledBand, SplineBand, Strip, subdivide};

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

/// One end of a span.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) struct SpanEnd {
    /// The distance along the band.
    along: f64,
    /// The joint with the corner there, and its offset across; `None` where the side stands by
    /// itself.
    pub(in crate::plan) joint: Option<(Joint, f64)>,
}

/// The way of one side along its band.
#[derive(Debug, Clone)]
pub(in crate::plan) struct SideSpan {
    pub(in crate::plan) side: Side,
    band: SideBand,
    pub(in crate::plan) ends: [SpanEnd; 2],
    /// The outer and the inner line of the band where it is wavy.
    pub(super) outline: Option<[Vec<Point>; 2]>,
    /// How many stations lie within the reach of a corner.
    pub(super) passed_over: usize,
}

impl SideSpan {
    /// The span of a side between two lines across its band, with the corners that join on.
    pub(super) fn new(
        layout: &Layout,
        side: Side,
        lines: [CrossLine; 2],
        joints: [Option<Joint>; 2],
        flattening: f64,
    ) -> Result<Self, Error> {
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
            return Err(Error::from(PlanFault::CornersOverlap {
                side: side.to_string(),
                corners: room - left,
                room,
            })
            .in_element("corner"));
        }
        let widths = &layout.widths[side.index()];
        let (waved, passed_over) = layout
            .waves
            .between(
                &layout.band,
                side,
                widths,
                (ends, joints.map(|joint| joint.is_some())),
            )
            .map_err(|e| e.in_element(side.to_string()).in_element("stations"))?;
        let square = |line: &CrossLine| {
            line.direction.dot(&strip.along()).abs() <= SQUARE * line.direction.norm()
        };
        let (band, along, outline) = match waved {
            Some(waved) => {
                let outline = waved.lines(flattening)?;
                let Waved { curve, along } = waved;
                (SideBand::Waved(curve), along, Some(outline))
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
        let across = |joint: Joint| strip.locate(joint.end.point).1;
        let end = |at: usize| SpanEnd {
            along: along[at],
            joint: joints[at].map(|joint| (joint, across(joint))),
        };
        Ok(Self {
            side,
            band,
            ends: [end(0), end(1)],
            outline,
            passed_over,
        })
    }

    /// Whether the band follows stations.
    pub(in crate::plan) fn is_wavy(&self) -> bool {
        matches!(self.band, SideBand::Waved(_))
    }

    /// The length along the band, on its middle line.
    pub(in crate::plan) fn length(&self) -> f64 {
        self.ends[1].along - self.ends[0].along
    }

    /// The length along the band and its depth.
    pub(in crate::plan) fn size(&self) -> (f64, f64) {
        (self.length(), self.depth())
    }

    /// The depth of the band, its mean where it changes.
    pub(in crate::plan) fn depth(&self) -> f64 {
        match &self.band {
            SideBand::Straight(strip) => strip.depth(),
            SideBand::Slanted(band) => band.depth(),
            SideBand::Waved(band) => band.depth(),
        }
    }

    /// Where repeats start and end along the way: at its own ends, or at points inside it; `None`
    /// where such a point is not on the band.
    pub(in crate::plan) fn terminals_at(&self, inner: [Option<Point>; 2]) -> Option<[Terminal; 2]> {
        let own = self.terminals();
        let at = |end: usize| match inner[end] {
            None => Some(own[end]),
            Some(point) => {
                let (along, across) = match &self.band {
                    SideBand::Straight(strip) => Some(strip.locate(point)),
                    SideBand::Slanted(band) => band.locate(point),
                    SideBand::Waved(band) => band.locate(point),
                }?;
                let across = Across::At(across.clamp(0.0, 1.0));
                Some(Terminal::new(along).with_across(across))
            }
        };
        Some([at(0)?, at(1)?])
    }

    /// Chains some of the copies that the options ask for between two places of the way.
    pub(in crate::plan) fn chain_copies(
        &self,
        repeat: &Repeat,
        options: &ChainOptions,
        copies: Range<usize>,
        terminals: [Terminal; 2],
    ) -> Result<Chain, Error> {
        match &self.band {
            SideBand::Straight(band) => chain_copies(repeat, band, terminals, options, copies),
            SideBand::Slanted(band) => chain_copies(repeat, band, terminals, options, copies),
            SideBand::Waved(band) => chain_copies(repeat, band, terminals, options, copies),
        }
    }

    /// A straight line between two places of the band, given by the distance along and the share
    /// across; on the cloth within a tolerance of its image.
    pub(in crate::plan) fn line(
        &self,
        [from, to]: [(f64, f64); 2],
        flattening: f64,
    ) -> Result<Vec<Point>, Error> {
        match &self.band {
            SideBand::Straight(band) => line_in(band, from, to, flattening),
            SideBand::Slanted(band) => line_in(band, from, to, flattening),
            SideBand::Waved(band) => line_in(band, from, to, flattening),
        }
    }

    /// Its own ends.
    pub(in crate::plan) fn terminals(&self) -> [Terminal; 2] {
        // A side that can't be levelled to a corner is linked with it later, as a join of its own.
        self.ends.map(|end| {
            let across = end.joint.map(|(_, across)| Across::Near(across));
            Terminal::new(end.along).with_across(across.unwrap_or_default())
        })
    }

    /// Chains repeats along the way.
    pub(in crate::plan) fn chain(
        &self,
        repeat: &Repeat,
        options: &ChainOptions,
    ) -> Result<Chain, Error> {
        self.chain_copies(repeat, options, 0..options.repeats, self.terminals())
    }
}

/// A straight line in a band, on the cloth.
fn line_in<B: BandMap>(
    band: &B,
    from: (f64, f64),
    to: (f64, f64),
    flattening: f64,
) -> Result<Vec<Point>, Error> {
    let mut points = vec![band.place(from.0, from.1)];
    if !band.is_affine() {
        let see = |along, across| points.push(band.place(along, across));
        subdivide(band, from, to, flattening, MAX_POINTS, see).map_err(|count| {
            let limit = MAX_POINTS;
            FitFault::TooManyPoints { count, limit }
        })?;
    }
    points.push(band.place(to.0, to.1));
    Ok(points)
}
