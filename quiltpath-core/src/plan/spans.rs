//! The span of each side of a border, and how a repeat would fill it.

use super::corners::{Corners, PlacedCorner};
use super::place::Side;
use super::ring::{Solver, Work};
use super::run::SideRun;
use super::spec::{CornerStyle, ThroughSpec};
use crate::chain::Repeat;
use crate::error::{Error, PlanFault};
use crate::fit::{SpanFit, fit_span};
use crate::geom::Vector;
use crate::warp::CrossLine;

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
        corners: &[PlacedCorner],
    ) -> Result<SideRun, Error> {
        let (corner, next) = around(corners, side);
        let lines = [corner.lines[1], next.lines[0]];
        let ports = [corner.motif.end().point, next.motif.start().point];
        self.run(work, side, lines, Some(ports))
    }

    /// The way along a side whose corners stand by themselves.
    pub(super) fn by_itself(&self, work: &Work<'_>, side: Side) -> Result<SideRun, Error> {
        let band = &work.layout.band;
        let corner = &work.border.corner;
        let runs_through = corner.style == CornerStyle::Butted && {
            if side.count() % 2 == 1 {
                let what = "the corner style butted";
                let count = side.count();
                return Err(PlanFault::OddSides { what, count }.into());
            }
            let even = side.index().is_multiple_of(2);
            match corner.through.unwrap_or_default() {
                ThroughSpec::TopBottom => even,
                ThroughSpec::LeftRight => !even,
            }
        };
        let gap = work.corner_gap(self.unit)?;
        let (first, last) = (side.index(), band.edge.after(side.index()));
        let line = |corner: usize, neighbour: usize| {
            let direction = band.edge.direction(neighbour);
            let inwards = Vector::new(-direction.y, direction.x);
            let through = if runs_through {
                band.outer.corners()[corner]
            } else {
                band.seam.corners()[corner] + inwards * gap
            };
            CrossLine { through, direction }
        };
        let lines = [line(first, band.edge.before(first)), line(last, last)];
        self.run(work, side, lines, None)
    }

    /// How each side would be filled with a repeat, without filling it.
    pub(super) fn rate(
        &self,
        work: &Work<'_>,
        corners: &Corners,
        repeat: &Repeat,
    ) -> Result<Vec<Rated>, Error> {
        let mut rated = Vec::with_capacity(work.layout.band.sides());
        for side in work.layout.sides() {
            let run = match corners {
                Corners::Joined(corners) => self.between(work, side, corners)?,
                Corners::Apart(_) => self.by_itself(work, side)?,
            };
            let fit = self.fit(work, side, &run, repeat)?;
            let drawn = repeat.chain_offsets(work.border.pattern(), fit.chosen.repeats);
            let step = run
                .terminals
                .iter()
                .zip(drawn)
                .filter_map(|(end, drawn)| end.across.map(|across| (across - drawn).abs()));
            rated.push(Rated {
                border: work.index,
                side,
                fit,
                span: run.span(),
                step: step.fold(0.0, f64::max) * run.depth(),
            });
        }
        Ok(rated)
    }

    pub(super) fn fit(
        &self,
        work: &Work<'_>,
        side: Side,
        run: &SideRun,
        repeat: &Repeat,
    ) -> Result<SpanFit, Error> {
        fit_span(run.span(), repeat.pitch(run.depth()), &work.count(side))
            .map_err(|e| e.in_element(format!("side, {}", side.name())))
    }
}

/// The corners before and after a side.
pub(super) fn around(corners: &[PlacedCorner], side: Side) -> (&PlacedCorner, &PlacedCorner) {
    let next = (side.index() + 1) % corners.len();
    (&corners[side.index()], &corners[next])
}
