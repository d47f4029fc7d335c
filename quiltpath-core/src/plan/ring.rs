//! One border solved: corners placed, sides filled between them, pieces and joins in order.

use super::choose::Chosen;
use super::corners::{Corners, PlacedCorner, corners};
use super::findings::{Finding, counted};
use super::layout::Layout;
use super::pieces::{Join, Piece, PieceKind};
use super::place::Side;
use super::run::SideRun;
use super::solve::{Drawings, Tolerances};
use super::spans::around;
use super::spec::BorderSpec;
use crate::chain::{Ends, Repeat};
use crate::error::{Error, PlanFault};
use crate::fit::{Choice, Count, Stiffness};
use crate::geom::Point;
use crate::motif::Motif;
use crate::units::Unit;

/// One border of a plan: what is asked and where it lies.
#[derive(Clone, Copy)]
pub(super) struct Work<'a> {
    pub(super) index: usize,
    pub(super) border: &'a BorderSpec,
    pub(super) layout: &'a Layout,
    /// The numbers of repeats, where they were chosen for the whole ring.
    pub(super) chosen: Option<&'a [usize]>,
}

impl Work<'_> {
    pub(super) fn ends(&self) -> Ends {
        self.border
            .side
            .ends
            .map_or_else(Default::default, Into::into)
    }

    /// The numbers of repeats that are allowed on a side.
    pub(super) fn count(&self, side: Side) -> Count {
        let count = self.border.count(side);
        Count {
            fixed: self
                .chosen
                .map(|chosen| chosen[side.index()])
                .or(count.fixed),
            ..count
        }
    }

    /// What is kept free between a side's end and the corner square.
    pub(super) fn corner_gap(&self, unit: Unit) -> Result<f64, Error> {
        match &self.border.corner.gap {
            Some(gap) => gap
                .gap_mm(unit, "the corner's gap")
                .map_err(|e| e.in_element("corner.gap")),
            None => Ok(self.layout.seam_gap),
        }
    }
}

/// Solves borders one by one and gathers their pieces.
pub(super) struct Solver {
    pub(super) unit: Unit,
    pub(super) tolerances: Tolerances,
    pub(super) findings: Vec<Finding>,
    /// Of the border at work, when its sides are to be eased.
    pub(super) stiffness: Option<Stiffness>,
    pieces: Vec<Piece>,
    /// Of all sides that are filled.
    pub(super) side_points: usize,
    joins: Vec<Join>,
    /// The outer and the inner line of the border that is being solved.
    lines: [Vec<Point>; 2],
}

impl Solver {
    pub(super) fn new(unit: Unit, tolerances: Tolerances) -> Self {
        Self {
            unit,
            tolerances,
            findings: Vec::new(),
            stiffness: None,
            pieces: Vec::new(),
            side_points: 0,
            joins: Vec::new(),
            lines: Default::default(),
        }
    }

    /// The pieces and joins; what was found goes to the end of `findings`.
    pub(super) fn finish(self, findings: &mut Vec<Finding>) -> (Vec<Piece>, Vec<Join>) {
        findings.extend(self.findings);
        (self.pieces, self.joins)
    }

    /// Solves a border; returns its layout as it was used.
    pub(super) fn border(
        &mut self,
        work: &Work<'_>,
        drawings: &Drawings,
        shared: Option<Chosen>,
        max_stretch: f64,
    ) -> Result<Layout, Error> {
        let (corner, repeat) = (drawings.corner.as_ref(), &drawings.repeat);
        if repeat.is_backwards() {
            self.findings.push(Finding::note(
                "backwards",
                None,
                format!(
                    "{}: drawn from right to left, so it is travelled backwards",
                    repeat.name()
                ),
            ));
        }
        self.prepare_ease(work, repeat)?;
        let chosen = match shared {
            Some(chosen) => Some(chosen),
            None => self.choose(work, corner, repeat)?,
        };
        let work = match &chosen {
            Some(chosen) => &Work {
                layout: &chosen.layout,
                chosen: Some(&chosen.repeats),
                ..*work
            },
            None => work,
        };
        let first = self.pieces.len();
        self.lines = Default::default();
        match corners(self, work, corner, repeat).map_err(|e| e.in_element("corner"))? {
            Corners::Joined(corners) => self.closed_ring(work, &corners, repeat)?,
            Corners::Apart(corners) => self.separate_sides(work, corners, repeat)?,
        }
        let choices: Vec<Choice> = self.pieces[first..]
            .iter()
            .filter_map(|piece| match &piece.kind {
                PieceKind::Side(detail) => Some(detail.fit.chosen),
                _ => None,
            })
            .collect();
        self.tell_ways_out(work, corner, repeat, &choices, max_stretch)?;
        let mut layout = work.layout.clone();
        let [outer, inner] = std::mem::take(&mut self.lines);
        (layout.lines.outer, layout.lines.inner) = (outer, inner);
        Ok(layout)
    }

    /// A corner at every corner, sides between them, one closed ring.
    fn closed_ring(
        &mut self,
        work: &Work<'_>,
        corners: &[PlacedCorner],
        repeat: &Repeat,
    ) -> Result<(), Error> {
        let first = self.pieces.len();
        for side in work.layout.sides() {
            let (corner, next) = around(corners, side);
            let ports = [corner.motif.end().point, next.motif.start().point];
            let run = self.between(work, side, corners)?;
            self.warn_if_close([corner, next], work.layout, side);
            let (chain, side_detail) = self.fill(work, side, &run, repeat)?;
            let (start, end) = (chain.motif.start().point, chain.motif.end().point);
            self.push_corner(work, corner.clone());
            self.link(work, side, "start", [ports[0], start])?;
            self.push(
                work,
                side.name(),
                chain.motif,
                Some(chain.ends),
                PieceKind::Side(side_detail),
            );
            self.link(work, side, "end", [end, ports[1]])?;
        }
        let last = self.pieces.len() - 1;
        for at in first..=last {
            let to = if at == last { first } else { at + 1 };
            self.joins.push(Join::between(&self.pieces, at, to));
        }
        Ok(())
    }

    /// A straight link where the repeat and the corner do not meet.
    fn link(
        &mut self,
        work: &Work<'_>,
        side: Side,
        which: &str,
        [from, to]: [Point; 2],
    ) -> Result<(), Error> {
        let size = (to - from).norm();
        if size <= self.tolerances.join {
            return Ok(());
        }
        let place = format!("{}-{which}", side.name());
        let link = Motif::from_points("link", vec![from, to])?;
        self.push(work, &place, link, None, PieceKind::Link(side));
        self.findings.push(Finding::warning(
            "linked",
            Some(from),
            format!(
                "{}-side-{}: the repeat and the corner meet the band {} apart, so a straight link is stitched between them; use motifs that start at the same height",
                work.layout.name,
                side.name(),
                self.unit.readable(size)
            ),
        ));
        Ok(())
    }

    pub(super) fn overlap(&self, side: Side, corners: f64, room: f64) -> Error {
        Error::from(PlanFault::CornersOverlap {
            side: side.to_string(),
            corners,
            room,
        })
        .in_element("corner")
    }

    /// Warns when two corners leave room for the border but run past each other.
    fn warn_if_close(&mut self, corners: [&PlacedCorner; 2], layout: &Layout, side: Side) {
        let strip = layout.strip(side);
        // Ink of the other leg lies beside this band, where slanted corners may lean back.
        let reach = |corner: &PlacedCorner| {
            let in_band = |&(_, t): &(f64, f64)| (-1e-9..=1.0 + 1e-9).contains(&t);
            let points = corner.motif.points().iter();
            points
                .map(|&point| strip.locate(point))
                .filter(in_band)
                .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], (s, _)| {
                    [low.min(s), high.max(s)]
                })
        };
        let [_, last] = reach(corners[0]);
        let [first, _] = reach(corners[1]);
        let past = last - first;
        if past > 0.0 {
            self.findings.push(Finding::warning(
                "corners_close",
                Some(corners[0].motif.end().point),
                format!(
                    "{}: the corners at the {side} run past each other by {}; use a shorter corner motif or a narrower border",
                    layout.name,
                    self.unit.readable(past)
                ),
            ));
        }
    }

    /// Sides that don't meet: corner squares empty or with a block, or two sides running through.
    fn separate_sides(
        &mut self,
        work: &Work<'_>,
        corners: Vec<PlacedCorner>,
        repeat: &Repeat,
    ) -> Result<(), Error> {
        let mut corners = corners.into_iter();
        for side in work.layout.sides() {
            if let Some(corner) = corners.next() {
                self.push_corner(work, corner);
            }
            let run = self.by_itself(work, side)?;
            let (chain, detail) = self.fill(work, side, &run, repeat)?;
            self.push(
                work,
                side.name(),
                chain.motif,
                Some(chain.ends),
                PieceKind::Side(detail),
            );
        }
        Ok(())
    }

    /// Notes where the band of a side runs.
    pub(super) fn draw_lines(&mut self, layout: &Layout, side: Side, run: &SideRun) {
        for (line, straight) in self
            .lines
            .iter_mut()
            .zip([&layout.band.outer, &layout.band.inner])
        {
            line.push(straight.corners()[side.index()]);
        }
        if let Some(wavy) = &run.lines {
            for (line, wavy) in self.lines.iter_mut().zip(wavy) {
                line.extend(wavy);
            }
        }
        if run.passed_over > 0 {
            self.findings.push(Finding::note(
                "stations_in_corner",
                Some(layout.band.outer.corners()[side.index()]),
                format!(
                    "{}: {} of the {side} lie where a corner lies, which is taken as straight",
                    layout.name,
                    counted(run.passed_over, "station")
                ),
            ));
        }
    }

    fn push_corner(&mut self, work: &Work<'_>, corner: PlacedCorner) {
        let place = corner.detail.position.name();
        self.push(
            work,
            place,
            corner.motif,
            None,
            PieceKind::Corner(corner.detail),
        );
    }

    fn push(
        &mut self,
        work: &Work<'_>,
        place: &str,
        motif: Motif,
        ends: Option<Vec<usize>>,
        kind: PieceKind,
    ) {
        let border = work.layout.file_name();
        let name = format!("{border}-{}-{}", kind.name(), place.replace('_', "-"));
        let ends = ends.unwrap_or_else(|| vec![motif.points().len() - 1]);
        let side = match &kind {
            PieceKind::Corner(corner) => corner.position.index(),
            PieceKind::Side(detail) => detail.side.index(),
            PieceKind::Link(side) => side.index(),
        };
        self.pieces.push(Piece {
            motif: motif.renamed(name.clone()),
            name,
            kind,
            ends,
            border: work.index,
            depth: work.layout.band.depth(side),
        });
    }
}
