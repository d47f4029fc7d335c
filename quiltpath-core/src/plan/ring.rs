//! One border solved: corners placed, sides filled between them, pieces and joins in order.

use super::corners::{Corners, corners};
use super::findings::{Finding, counted};
use super::frame::{Frame, Side};
use super::pieces::{CornerDetail, Join, Piece, PieceKind, SideDetail};
use super::solve::Tolerances;
use super::spec::{BorderSpec, SideSpec};
use crate::chain::{Chain, ChainOptions, Ends, Repeat, Terminal, chain_repeats};
use crate::error::{Error, PlanFault};
use crate::fit::{Choice, Count};
use crate::geom::Point;
use crate::motif::Motif;
use crate::units::Unit;

/// One border of a plan: what is asked and where it lies.
pub(super) struct Work<'a> {
    pub(super) index: usize,
    pub(super) border: &'a BorderSpec,
    pub(super) frame: &'a Frame,
    /// The numbers of repeats, where they were chosen for the whole ring.
    pub(super) chosen: Option<[usize; 4]>,
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
        let count = count(&self.border.side, side);
        Count {
            fixed: self
                .chosen
                .map(|chosen| chosen[side as usize])
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
            None => Ok(self.frame.seam_gap),
        }
    }
}

/// Solves borders one by one and gathers their pieces.
pub(super) struct Solver {
    pub(super) unit: Unit,
    pub(super) tolerances: Tolerances,
    pub(super) findings: Vec<Finding>,
    pieces: Vec<Piece>,
    joins: Vec<Join>,
}

impl Solver {
    pub(super) fn new(unit: Unit, tolerances: Tolerances) -> Self {
        Self {
            unit,
            tolerances,
            findings: Vec::new(),
            pieces: Vec::new(),
            joins: Vec::new(),
        }
    }

    /// The pieces and joins; what was found goes to the end of `findings`.
    pub(super) fn finish(self, findings: &mut Vec<Finding>) -> (Vec<Piece>, Vec<Join>) {
        findings.extend(self.findings);
        (self.pieces, self.joins)
    }

    /// Solves a border; where its depth was chosen, the frame at that depth.
    pub(super) fn border(
        &mut self,
        work: &Work<'_>,
        corner: Option<&Motif>,
        side: &Motif,
        max_stretch: f64,
    ) -> Result<Option<Frame>, Error> {
        let repeat =
            Repeat::new(side).map_err(|e| e.in_element(side.name()).in_element("side.motif"))?;
        if repeat.is_backwards() {
            self.findings.push(Finding::note(
                "backwards",
                None,
                format!(
                    "{}: drawn from right to left, so it is travelled backwards",
                    side.name()
                ),
            ));
        }
        let chosen = self.choose(work, corner, &repeat)?;
        let work = match &chosen {
            Some(chosen) => &Work {
                frame: &chosen.frame,
                chosen: Some(chosen.repeats),
                ..*work
            },
            None => work,
        };
        let first = self.pieces.len();
        match corners(self, work, corner, &repeat).map_err(|e| e.in_element("corner"))? {
            Corners::Joined(corners) => self.closed_ring(work, &corners, &repeat)?,
            Corners::Apart(corners) => self.separate_sides(work, corners, &repeat)?,
        }
        let choices: Vec<Choice> = self.pieces[first..]
            .iter()
            .filter_map(|piece| match &piece.kind {
                PieceKind::Side(detail) => Some(detail.fit.chosen),
                _ => None,
            })
            .collect();
        self.tell_ways_out(work, corner, &repeat, &choices, max_stretch)?;
        Ok(chosen.map(|chosen| chosen.frame))
    }

    /// Corners at the four corners, sides between them, one closed ring.
    fn closed_ring(
        &mut self,
        work: &Work<'_>,
        corners: &[(Motif, CornerDetail)],
        repeat: &Repeat,
    ) -> Result<(), Error> {
        let first = self.pieces.len();
        for (number, side) in Side::ALL.into_iter().enumerate() {
            let (corner, detail) = &corners[number];
            let next = &corners[(number + 1) % corners.len()].0;
            let ports = [corner.end().point, next.start().point];
            let terminals = self.between(work, side, ports)?;
            self.warn_if_close([corner, next], work.frame, side);
            let (chain, side_detail) = self.fill(work, side, terminals, repeat)?;
            let (start, end) = (chain.motif.start().point, chain.motif.end().point);
            let place = detail.position.name();
            self.push(
                work,
                place,
                corner.clone(),
                PieceKind::Corner(detail.clone()),
            );
            self.link(work, side, "start", [ports[0], start])?;
            self.push(work, side.name(), chain.motif, PieceKind::Side(side_detail));
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
        self.push(work, &place, link, PieceKind::Link(side));
        self.findings.push(Finding::warning(
            "linked",
            Some(from),
            format!(
                "{}-side-{}: the repeat and the corner meet the band {} apart, so a straight link is stitched between them; use motifs that start at the same height",
                work.frame.name,
                side.name(),
                self.unit.readable(size)
            ),
        ));
        Ok(())
    }

    pub(super) fn overlap(&self, side: Side, corners: f64, room: f64) -> Error {
        Error::from(PlanFault::CornersOverlap {
            side: side.name().to_owned(),
            corners: self.unit.readable(corners),
            room: self.unit.readable(room),
        })
        .in_element("corner")
    }

    /// Warns when two corners leave room for the border but run past each other.
    fn warn_if_close(&mut self, [corner, next]: [&Motif; 2], frame: &Frame, side: Side) {
        let (one, two) = (corner.bounds(), next.bounds());
        let apart = match side {
            Side::Top => two.min.x - one.max.x,
            Side::Right => two.min.y - one.max.y,
            Side::Bottom => one.min.x - two.max.x,
            Side::Left => one.min.y - two.max.y,
        };
        if apart < 0.0 {
            self.findings.push(Finding::warning(
                "corners_close",
                Some(corner.end().point),
                format!(
                    "{}: the corners at the {} side run past each other by {}; use a shorter corner motif or a narrower border",
                    frame.name,
                    side.name(),
                    self.unit.readable(-apart)
                ),
            ));
        }
    }

    /// Sides that don't meet: corner squares empty or with a block, or two sides running through.
    fn separate_sides(
        &mut self,
        work: &Work<'_>,
        corners: Vec<(Motif, CornerDetail)>,
        repeat: &Repeat,
    ) -> Result<(), Error> {
        let mut corners = corners.into_iter();
        for side in Side::ALL {
            if let Some((motif, detail)) = corners.next() {
                let place = detail.position.name();
                self.push(work, place, motif, PieceKind::Corner(detail));
            }
            let terminals = self.by_itself(work, side)?;
            let (chain, detail) = self.fill(work, side, terminals, repeat)?;
            self.push(work, side.name(), chain.motif, PieceKind::Side(detail));
        }
        Ok(())
    }

    fn fill(
        &mut self,
        work: &Work<'_>,
        side: Side,
        terminals: [Terminal; 2],
        repeat: &Repeat,
    ) -> Result<(Chain, SideDetail), Error> {
        let spec = &work.border.side;
        let in_side = |e: Error| e.in_element(format!("side, {}", side.name()));
        let span = terminals[1].along - terminals[0].along;
        let fit = self.fit(work, side, terminals, repeat)?;
        let options = ChainOptions {
            repeats: fit.chosen.repeats,
            alternate: spec.alternate.map_or_else(Default::default, Into::into),
            ends: work.ends(),
            join_tolerance: self.tolerances.join,
            flattening: self.tolerances.flattening,
        };
        let chain =
            chain_repeats(repeat, &work.frame.strip(side), terminals, &options).map_err(in_side)?;
        let at = Some(chain.motif.start().point);
        let name = format!("{}-side-{}", work.frame.name, side.name());
        if chain.levelled > self.tolerances.join {
            self.findings.push(Finding::note(
                "levelled",
                at,
                format!(
                    "{name}: ends at different heights are brought together by shearing repeats by up to {}",
                    self.unit.readable(chain.levelled)
                ),
            ));
        }
        if chain.links > 0 {
            self.findings.push(Finding::note(
                "repeats_linked",
                at,
                format!(
                    "{name}: {} stitched between repeats that end at another height than they start",
                    counted(chain.links, "straight link")
                ),
            ));
        }
        let detail = SideDetail {
            side,
            fit,
            span,
            advance: span / fit.chosen.repeats as f64,
            levelled: chain.levelled,
            links: chain.links,
        };
        Ok((chain, detail))
    }

    fn push(&mut self, work: &Work<'_>, place: &str, motif: Motif, kind: PieceKind) {
        let border = file_safe(&work.frame.name);
        let name = format!("{border}-{}-{}", kind.name(), place.replace('_', "-"));
        self.pieces.push(Piece {
            motif: motif.renamed(name.clone()),
            name,
            kind,
            border: work.index,
            depth: work.frame.depth(),
        });
    }
}

/// The name with everything but letters, digits, `-` and `_` changed to `-`.
fn file_safe(name: &str) -> String {
    let safe = |c: char| {
        if c.is_alphanumeric() || c == '_' {
            c
        } else {
            '-'
        }
    };
    name.chars().map(safe).collect()
}

fn count(spec: &SideSpec, side: Side) -> Count {
    let fixed = spec.repeats.as_ref().and_then(|repeats| match side {
        Side::Top => repeats.top,
        Side::Right => repeats.right,
        Side::Bottom => repeats.bottom,
        Side::Left => repeats.left,
    });
    Count {
        every: spec.every.unwrap_or(1),
        parity: spec.parity.map_or_else(Default::default, Into::into),
        fixed,
    }
}
