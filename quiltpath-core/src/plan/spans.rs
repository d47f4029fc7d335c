//! The span of each side of a border, and how a repeat would fill it.

use super::corners::Corners;
use super::frame::Side;
use super::ring::{Solver, Work};
use super::spec::{CornerStyle, ThroughSpec};
use crate::chain::{Alternate, Repeat, Terminal};
use crate::error::Error;
use crate::fit::{SpanFit, fit_span};
use crate::geom::Point;

/// How one side would be filled with a repeat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rated {
    /// The number of the border, from the outermost, from 0.
    pub border: usize,
    /// The side.
    pub side: Side,
    /// The number of repeats and their stretch, with the neighbours.
    pub fit: SpanFit,
    /// The length along the band that they have to fill, in millimetres.
    pub span: f64,
    /// How far apart across the band a corner's end and the repeat's end lie, at most, in
    /// millimetres; 0 where a side stands by itself.
    pub step: f64,
}

impl Solver {
    /// The way along a side from one corner's end to the next one's start.
    pub(super) fn between(
        &self,
        work: &Work<'_>,
        side: Side,
        ports: [Point; 2],
    ) -> Result<[Terminal; 2], Error> {
        let strip = work.frame.strip(side);
        let terminals = ports.map(|port| {
            let (along, across) = strip.locate(port);
            Terminal {
                along,
                across: Some(across),
            }
        });
        let room = work.frame.side_length(side);
        let span = terminals[1].along - terminals[0].along;
        if span <= 1e-9 * room {
            return Err(self.overlap(side, room - span, room));
        }
        Ok(terminals)
    }

    /// The way along a side whose corners stand by themselves.
    pub(super) fn by_itself(&self, work: &Work<'_>, side: Side) -> Result<[Terminal; 2], Error> {
        let frame = work.frame;
        let corner = &work.border.corner;
        let runs_through = corner.style == CornerStyle::Butted
            && match corner.through.unwrap_or_default() {
                ThroughSpec::TopBottom => matches!(side, Side::Top | Side::Bottom),
                ThroughSpec::LeftRight => matches!(side, Side::Left | Side::Right),
            };
        let inset = if runs_through {
            0.0
        } else {
            frame.seam.min.x - frame.outer.min.x + work.corner_gap(self.unit)?
        };
        let room = frame.side_length(side);
        if room - 2.0 * inset <= 0.0 {
            return Err(self.overlap(side, 2.0 * inset, room));
        }
        Ok([inset, room - inset].map(|along| Terminal {
            along,
            across: None,
        }))
    }

    /// How each side would be filled with a repeat, without filling it.
    pub(super) fn rate(
        &self,
        work: &Work<'_>,
        corners: &Corners,
        repeat: &Repeat,
    ) -> Result<Vec<Rated>, Error> {
        let mut rated = Vec::with_capacity(4);
        for (number, side) in Side::ALL.into_iter().enumerate() {
            let terminals = match corners {
                Corners::Joined(corners) => {
                    let next = &corners[(number + 1) % corners.len()].0;
                    let ports = [corners[number].0.end().point, next.start().point];
                    self.between(work, side, ports)?
                }
                Corners::Apart(_) => self.by_itself(work, side)?,
            };
            let drawn = repeat.offsets(Alternate::None);
            let step = terminals.iter().zip(drawn).filter_map(|(terminal, drawn)| {
                terminal.across.map(|across| (across - drawn).abs())
            });
            rated.push(Rated {
                border: work.index,
                side,
                fit: self.fit(work, side, terminals, repeat)?,
                span: terminals[1].along - terminals[0].along,
                step: step.fold(0.0, f64::max) * work.frame.depth(),
            });
        }
        Ok(rated)
    }

    pub(super) fn fit(
        &self,
        work: &Work<'_>,
        side: Side,
        terminals: [Terminal; 2],
        repeat: &Repeat,
    ) -> Result<SpanFit, Error> {
        let span = terminals[1].along - terminals[0].along;
        let advance = repeat.advance(work.frame.depth());
        fit_span(span, advance, &work.count(side))
            .map_err(|e| e.in_element(format!("side, {}", side.name())))
    }
}
