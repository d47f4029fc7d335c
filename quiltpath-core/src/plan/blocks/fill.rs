//! The pieces of a field: blocks, triangles and cornerstones by themselves, and sashes in lines
//! through the cornerstones that join them.
//!
//! Guarantee: pieces of a line follow each other in the list, and where they join they meet within
//! the join tolerance or by a link.

use super::asked::BlocksAsked;
use super::design::{Design, Laid};
use super::drawings::FieldDrawings;
use super::lines::{Node, lines};
use super::pairs::pairs;
use super::sash::{Sash, fill_sash};
use super::sashes::{Crossing, SashBand, Sashes, passes, side};
use super::triangles::Cuts;
use crate::chain::MAX_POINTS;
use crate::error::{Error, FitFault};
use crate::fit::Choice;
use crate::geom::ConvexPolygon;
use crate::motif::Motif;
use crate::plan::chained;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::lay::field::{FieldKind, FieldPlace, FieldSpot, Setting, Slot};
use crate::plan::piece::{FieldDetail, Join, Piece, PieceLine};
use crate::plan::tolerances::Tolerances;
use crate::trim::TrimReport;

/// The field as it is stitched, its pieces numbered from 0.
#[derive(Debug, Default)]
pub(in crate::plan) struct FilledField {
    pub(in crate::plan) pieces: Vec<Piece>,
    pub(in crate::plan) joins: Vec<Join>,
    pub(in crate::plan) findings: Vec<Finding>,
}

/// Fills a field; `border` is the number that its pieces go by, `points` how many points the sides
/// of the borders have.
///
/// # Errors
///
/// A fit error where a repeat doesn't fit a sash, or there would be too many points; the errors of
/// cutting and transforming drawings.
///
/// # Complexity
///
/// O(points written).
pub(in crate::plan) fn fill_field(
    blocks: &BlocksAsked,
    drawings: &FieldDrawings,
    border: usize,
    tolerances: Tolerances,
    points: usize,
) -> Result<FilledField, Error> {
    let mut filling = Filling {
        blocks,
        border,
        tolerances,
        points,
        filled: FilledField::default(),
    };
    if let Some(design) = &drawings.block {
        for spot in blocks.of_kind(FieldKind::Block) {
            let usable = blocks.usable(spot)?;
            let laid = design.laid(FieldKind::Block, &usable, filling.lie(spot.place))?;
            filling.add(spot, &usable, laid, Vec::new())?;
        }
    }
    filling.sashes(drawings)?;
    filling.triangles(drawings)?;
    Ok(filling.filled)
}

/// A field on its way to be filled.
struct Filling<'a> {
    blocks: &'a BlocksAsked,
    border: usize,
    tolerances: Tolerances,
    points: usize,
    filled: FilledField,
}

impl Filling<'_> {
    /// How the design of blocks lies in this place.
    fn lie(&self, place: FieldPlace) -> (u8, bool) {
        let twice = |slot: Slot| match slot {
            Slot::In(number) => 2 * number - 1,
            Slot::After(number) => 2 * number,
            Slot::All => 0,
        };
        let (row, column) = (twice(place.row), twice(place.column));
        match self.blocks.measures.setting {
            Setting::Straight => self.blocks.lie.at(row / 2, column / 2),
            Setting::OnPoint => {
                // Blocks that share a side differ by one in one of these; the second is kept above
                // 0 by an even number.
                let apart = 2 * self.blocks.measures.widths.len();
                let (falling, rising) = ((row + column) / 2, (row + 2 * apart - column) / 2);
                self.blocks.lie.at(falling, rising)
            }
        }
    }

    /// Refuses more points than a plan may have.
    fn count(&mut self, more: usize) -> Result<(), Error> {
        self.points = self.points.saturating_add(more);
        match self.points > MAX_POINTS {
            true => {
                let (count, limit) = (self.points as f64, MAX_POINTS);
                Err(FitFault::TooManyInAll { count, limit }.into())
            }
            false => Ok(()),
        }
    }

    /// Adds a design by itself: a piece for each of its lines.
    fn add(
        &mut self,
        spot: &FieldSpot,
        within: &ConvexPolygon,
        laid: Laid,
        reports: Vec<TrimReport>,
    ) -> Result<(), Error> {
        let mut reports = reports.into_iter();
        for (number, line) in (1..).zip(laid.lines) {
            self.count(line.points().len())?;
            let detail = FieldDetail {
                place: spot.place,
                seams: spot.corners.clone(),
                scale: [laid.scale, laid.scale],
                turn_degrees: laid.turn_degrees,
                mirrored: laid.mirrored,
                trimmed: reports.next(),
                sash: None,
                within: within.clone(),
            };
            let line = PieceLine::whole(line);
            let piece = Piece::of_field(self.border, number, across(within), detail, line);
            self.filled.pieces.push(piece);
        }
        Ok(())
    }

    /// Adds cornerstones by themselves, and sashes with the cornerstones that join them.
    fn sashes(&mut self, drawings: &FieldDrawings) -> Result<(), Error> {
        let blocks = self.blocks;
        let corners: Vec<&FieldSpot> = blocks.of_kind(FieldKind::Cornerstone).collect();
        let cornerstone = drawings.cornerstone.as_ref();
        let stitched = blocks.sashes.as_ref().zip(drawings.sashes.as_ref());
        let through = cornerstone.and_then(|design| Some((design, passes(design)?)));
        let crossings = match (through, stitched) {
            (Some((design, (ways, passes))), Some((_, repeats))) => {
                let places: Vec<FieldPlace> = corners.iter().map(|spot| spot.place).collect();
                let sashes = blocks.of_kind(FieldKind::Sash).map(|spot| spot.place);
                let sashes: Vec<FieldPlace> = sashes
                    .filter(|&sash| repeats.number(side(sash)).is_some())
                    .collect();
                let chosen = pairs(&places, &sashes, passes);
                let crossings = corners.iter().zip(chosen);
                let crossings =
                    crossings.map(|(spot, chosen)| crossing(blocks, spot, design, (ways, chosen)));
                crossings.collect::<Result<Vec<_>, Error>>()?
            }
            _ => {
                if let Some(design) = cornerstone {
                    for spot in &corners {
                        self.alone(spot, design)?;
                    }
                }
                Vec::new()
            }
        };
        let Some(stitched) = stitched else {
            return Ok(());
        };
        let (apart, crossings): (Vec<_>, Vec<_>) = crossings
            .into_iter()
            .partition(|crossing| crossing.ways.is_empty());
        for crossing in apart {
            self.alone(crossing.spot, crossing.design)?;
        }
        let sashes = Sashes::new(blocks, stitched, crossings)?;
        if sashes.spots.is_empty() {
            return Ok(());
        }
        let chosen = sashes.choose(self.border)?;
        let repeats = sashes.repeats;
        let stiffness = chained::stiffness(repeats, sashes.asked.ease)?;
        let mut filled: Vec<Option<Sash>> = Vec::with_capacity(chosen.bands.len());
        for (at, band) in chosen.bands.iter().enumerate() {
            let place = sashes.spots[at].place;
            let repeat = repeats.of(side(place))?;
            let points = repeat.points().len().saturating_add(1);
            self.count(points.saturating_mul(band.fit.chosen.repeats))?;
            let stiff = repeats
                .number(side(place))
                .and_then(|number| stiffness.get(number));
            let sash = fill_sash(sashes.asked, repeat, stiff, band, self.tolerances);
            filled.push(Some(sash.map_err(|e| e.in_element(place.to_string()))?));
        }
        self.filled.findings.extend(chosen.findings);
        self.stretched(&sashes, &chosen.bands);
        let mut crossed: Vec<Option<Laid>> = chosen.crossings.into_iter().map(Some).collect();
        for line in lines(&sashes) {
            let first = self.filled.pieces.len();
            for &(node, reversed) in &line.nodes {
                let piece = match node {
                    Node::Sash(at) => {
                        let Some(sash) = filled[at].take() else {
                            continue;
                        };
                        let sash = if reversed { sash.reversed() } else { sash };
                        self.sash(sashes.spots[at], sash, &chosen.bands[at].strip)?
                    }
                    Node::Crossing(at) => {
                        let Some(laid) = crossed[at].take() else {
                            continue;
                        };
                        self.crossing(&sashes.crossings[at], laid, reversed)?
                    }
                };
                self.filled.pieces.push(piece);
            }
            let last = self.filled.pieces.len();
            let pieces = &self.filled.pieces;
            let join = |from: usize, to: usize| {
                Join::new([from, to], &pieces[from].end(), &pieces[to].start())
            };
            let along = (first..last).zip(first + 1..last);
            let mut joins: Vec<Join> = along.map(|(from, to)| join(from, to)).collect();
            if line.closed {
                joins.push(join(last - 1, first));
            }
            self.filled.joins.extend(joins);
        }
        Ok(())
    }

    /// Reports sashes that are stretched by more than the plan allows, those alike together.
    fn stretched(&mut self, sashes: &Sashes<'_>, bands: &[SashBand]) {
        let limit = sashes.asked.max_stretch;
        let mut found: Vec<Finding> = Vec::new();
        for band in bands {
            let Some(kind) = chained::beyond(&band.fit, limit) else {
                continue;
            };
            let Choice {
                repeats, stretch, ..
            } = band.fit.chosen;
            let at = band.strip.place((band.along[0] + band.along[1]) / 2.0, 0.5);
            let alike = |known: &&mut Finding| match known.kind {
                FindingKind::Stretch {
                    repeats: number,
                    stretch: known,
                    ..
                } => number == repeats && (known - stretch).abs() < 1e-6,
                _ => false,
            };
            match found.iter_mut().find(alike) {
                Some(known) => known.places.push(at),
                None => found.push(Finding::warning(kind).on_border(self.border).at(at)),
            }
        }
        self.filled.findings.extend(found);
    }

    /// Adds a cornerstone that joins nothing.
    fn alone(&mut self, spot: &FieldSpot, design: &Design) -> Result<(), Error> {
        let usable = self.blocks.usable(spot)?;
        let laid = design.laid(FieldKind::Cornerstone, &usable, (0, false))?;
        self.add(spot, &usable, laid, Vec::new())
    }

    /// The piece of a sash.
    fn sash(
        &mut self,
        spot: &FieldSpot,
        sash: Sash,
        strip: &crate::warp::Strip,
    ) -> Result<Piece, Error> {
        let number = self.filled.pieces.len();
        let within = sash.within(strip)?;
        let detail = FieldDetail {
            place: spot.place,
            seams: spot.corners.clone(),
            scale: sash.scale,
            turn_degrees: if spot.place.runs_across() { 0.0 } else { 90.0 },
            mirrored: false,
            trimmed: None,
            sash: Some(sash.detail),
            within,
        };
        let kinds = sash.found.into_iter();
        let piece = Piece::of_field(self.border, 1, strip.depth(), detail, sash.line);
        let here = piece.start().point;
        let findings = kinds.map(|finding| finding.on_piece(number, &piece).at(here));
        self.filled.findings.extend(findings);
        Ok(piece)
    }

    /// The piece of a cornerstone that joins sashes.
    fn crossing(
        &mut self,
        crossing: &Crossing<'_>,
        laid: Laid,
        reversed: bool,
    ) -> Result<Piece, Error> {
        let [line] =
            <[Motif; 1]>::try_from(laid.lines).map_err(|_| crate::error::MotifFault::Nothing)?;
        let line = if reversed { line.reversed() } else { line };
        self.count(line.points().len())?;
        let detail = FieldDetail {
            place: crossing.spot.place,
            seams: crossing.spot.corners.clone(),
            scale: [laid.scale, laid.scale],
            turn_degrees: laid.turn_degrees,
            mirrored: false,
            trimmed: None,
            sash: None,
            within: crossing.usable.clone(),
        };
        let line = PieceLine::whole(line);
        Ok(Piece::of_field(
            self.border,
            1,
            across(&crossing.usable),
            detail,
            line,
        ))
    }

    /// Adds the triangles at the edge.
    fn triangles(&mut self, drawings: &FieldDrawings) -> Result<(), Error> {
        let blocks = self.blocks;
        if blocks.plain_triangles {
            return Ok(());
        }
        let mut cuts = Cuts::default();
        let mut added = 0.0;
        for (kind, own) in [
            (FieldKind::SideTriangle, &drawings.side_triangle),
            (FieldKind::CornerTriangle, &drawings.corner_triangle),
        ] {
            for spot in blocks.of_kind(kind) {
                let usable = blocks.usable(spot)?;
                match (own, &drawings.block) {
                    (Some(design), _) => {
                        let laid = design.laid(kind, &usable, (0, false))?;
                        self.add(spot, &usable, laid, Vec::new())?;
                    }
                    (None, Some(design)) => {
                        let lie = self.lie(spot.place);
                        let cut = cuts
                            .cut(blocks, design, spot, lie)
                            .map_err(|e| e.in_element(spot.place.to_string()))?;
                        if let Some(cut) = cut {
                            added += cut
                                .reports
                                .iter()
                                .map(|cost| cost.added_length)
                                .sum::<f64>();
                            self.add(spot, &usable, cut.laid, cut.reports)?;
                        }
                    }
                    (None, None) => {}
                }
            }
        }
        if added > 0.0 {
            let kind = FindingKind::TrianglesCut { added };
            self.filled
                .findings
                .push(Finding::note(kind).on_border(self.border));
        }
        Ok(())
    }
}

/// A cornerstone turned so that its line leads from one of its sashes to the other.
fn crossing<'a>(
    blocks: &BlocksAsked,
    spot: &'a FieldSpot,
    design: &'a Design,
    (drawn, ways): ([usize; 2], Vec<usize>),
) -> Result<Crossing<'a>, Error> {
    let turn = |from: usize, to: usize| u8::try_from((to + 4 - from) % 4).unwrap_or(0);
    let (quarters, reversed) = match ways.as_slice() {
        [one, other] => {
            let same = turn(drawn[0], drawn[1]) == turn(*one, *other);
            match same {
                true => (turn(drawn[0], *one), false),
                false => (turn(drawn[1], *one), true),
            }
        }
        [one] => (turn(drawn[0], *one), false),
        _ => (0, false),
    };
    Ok(Crossing {
        spot,
        usable: blocks.usable(spot)?,
        design,
        quarters,
        reversed,
        ways,
    })
}

/// How deep a place is, across from its first side.
fn across(usable: &ConvexPolygon) -> f64 {
    let (first, along) = (usable.corner(0), usable.direction(0));
    let corners = usable.corners().iter();
    corners
        .map(|corner| along.perp(&(corner - first)))
        .fold(0.0, f64::max)
}
