//! Solves a plan: places the corners, fits the repeats between them, joins all to paths.
//!
//! Each border is solved by itself. Corners are sized by their legs and placed; the span of a
//! side is the way from the end of one corner to the start of the next, so joins close by
//! construction. What the quilter should know is reported as findings, never mended in silence.

use std::collections::HashMap;

use super::findings::{self, Finding, Severity};
use super::frame::{Frame, Side, frames};
use super::order::{Path, paths};
use super::pieces::{CornerDetail, Join, Piece, PieceKind, SideDetail};
use super::spec::{BorderSpec, CornerSpec, CornerStyle, PlanSpec, SideSpec, ThroughSpec};
use crate::chain::{Chain, ChainOptions, Repeat, Terminal, chain_repeats};
use crate::corner::{SizedCorner, size_corner};
use crate::error::{Error, GeometryFault, PlanFault};
use crate::fit::{Count, fit_span};
use crate::geom::BoxCorner;
use crate::geom::flatten::DEFAULT_TOLERANCE_MM;
use crate::leg::{LegSaid, choose_leg};
use crate::motif::{DEFAULT_JOIN_MM, Gaps, Joined, Motif};
use crate::units::Unit;

/// The stretch, in percent either way, beyond which a side is reported: our own default.
pub const DEFAULT_MAX_STRETCH_PERCENT: f64 = 10.0;

/// A motif that a plan names, as the solver asks its caller for it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct MotifRequest {
    /// The name as it stands in the plan, usually a path relative to the plan's file.
    pub name: String,
    /// What to do about lines that don't meet.
    pub gaps: Gaps,
}

/// How drawings are to be read for a plan, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerances {
    /// How far a curve may lie from its chords.
    pub flattening: f64,
    /// How close ends are that meet.
    pub join: f64,
}

/// A solved plan. All lengths in millimetres, the origin at the quilt's top left raw edge corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// The title, when the plan has one.
    pub title: Option<String>,
    /// The unit that the plan asked to be answered in.
    pub unit: Unit,
    /// The width and the height of the quilt.
    pub quilt: [f64; 2],
    /// The borders from the outermost to the innermost.
    pub frames: Vec<Frame>,
    /// The pieces in the order of stitching.
    pub pieces: Vec<Piece>,
    /// Where pieces follow each other.
    pub joins: Vec<Join>,
    /// The lines that are stitched without a thread cut.
    pub paths: Vec<Path>,
    /// What there is to say, the most severe first.
    pub findings: Vec<Finding>,
    /// The stretch, as a fraction either way, beyond which a side is reported.
    pub max_stretch: f64,
}

impl Solved {
    /// The length of all pieces together.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.pieces.iter().map(|piece| piece.motif.length()).sum()
    }

    /// How many times the thread is cut: once for each path, since each has a start and an end.
    #[must_use]
    pub fn thread_cuts(&self) -> usize {
        self.paths.len()
    }

    /// The greatest severity among the findings, when there are any.
    #[must_use]
    pub fn worst(&self) -> Option<Severity> {
        self.findings.iter().map(|finding| finding.severity).max()
    }
}

impl PlanSpec {
    /// The tolerances that the plan asks for, or the defaults.
    ///
    /// # Errors
    ///
    /// A plan error when one is not above 0.
    pub fn tolerances(&self) -> Result<Tolerances, Error> {
        let read = |length: &Option<super::spec::LengthSpec>, key: &str, default| match length {
            Some(length) => length
                .positive_mm(self.unit.into(), &format!("the {}", key.replace('_', " ")))
                .map_err(|e| e.in_element(key)),
            None => Ok(default),
        };
        Ok(Tolerances {
            flattening: read(&self.flattening, "flattening", DEFAULT_TOLERANCE_MM)?,
            join: read(&self.join_tolerance, "join_tolerance", DEFAULT_JOIN_MM)?,
        })
    }
}

/// Solves a plan; `load` gives the motifs, in millimetres, that the plan names.
///
/// Each motif is asked for once.
///
/// # Errors
///
/// The loader's errors as they are; a plan error with the key at fault when a length, a border
/// or a gap can't be, or corners overlap; a leg error when a corner drawing is no L; a fit error
/// when a repeat can't be chained.
///
/// # Complexity
///
/// O(points of the motifs and of the result).
pub fn solve(
    spec: &PlanSpec,
    mut load: impl FnMut(&MotifRequest) -> Result<Joined, Error>,
) -> Result<Solved, Error> {
    let unit = Unit::from(spec.unit);
    let percent = spec
        .max_stretch_percent
        .unwrap_or(DEFAULT_MAX_STRETCH_PERCENT);
    if !(percent > 0.0 && percent.is_finite()) {
        return Err(Error::from(GeometryFault::BadNumber {
            what: "the greatest stretch",
            value: percent,
            accepted: "a percentage above 0, for example 10",
        })
        .in_element("max_stretch_percent"));
    }
    let tolerances = spec.tolerances()?;
    let frames = frames(spec)?;
    let mut solver = Solver {
        unit,
        join: tolerances.join,
        pieces: Vec::new(),
        joins: Vec::new(),
        findings: Vec::new(),
    };
    let mut motifs: HashMap<MotifRequest, Motif> = HashMap::new();
    for (index, (border, frame)) in spec.borders.iter().zip(&frames).enumerate() {
        let mut get = |name: &str, link: Option<bool>| -> Result<Motif, Error> {
            let request = MotifRequest {
                name: name.to_owned(),
                gaps: if link == Some(true) {
                    Gaps::Link
                } else {
                    Gaps::Refuse
                },
            };
            if let Some(motif) = motifs.get(&request) {
                return Ok(motif.clone());
            }
            let joined = load(&request)?;
            solver.findings.extend(linked_drawing(name, &joined, unit));
            motifs.insert(request, joined.motif.clone());
            Ok(joined.motif)
        };
        let mut prepare = || -> Result<(Option<Motif>, Motif), Error> {
            check_keys(&border.corner).map_err(|e| e.in_element("corner"))?;
            let corner = match (border.corner.style, &border.corner.motif) {
                (CornerStyle::Leg, Some(name)) => Some(
                    get(name, border.corner.link_gaps).map_err(|e| e.in_element("corner.motif"))?,
                ),
                _ => None,
            };
            let side = get(&border.side.motif, border.side.link_gaps)
                .map_err(|e| e.in_element("side.motif"))?;
            Ok((corner, side))
        };
        let (corner, side) = prepare().map_err(|e| e.in_element(format!("borders[{index}]")))?;
        solver
            .border(index, border, frame, corner.as_ref(), &side)
            .map_err(|e| e.in_element(format!("borders[{index}]")))?;
    }
    let Solver {
        pieces,
        joins,
        mut findings,
        ..
    } = solver;
    findings.extend(findings::stretched(&pieces, percent / 100.0));
    findings.extend(findings::outside(&pieces, &frames, unit)?);
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    Ok(Solved {
        title: spec.title.clone(),
        unit,
        quilt: [frames[0].edge.max.x, frames[0].edge.max.y],
        paths: paths(&pieces, &joins, tolerances.join)?,
        frames,
        pieces,
        joins,
        findings,
        max_stretch: percent / 100.0,
    })
}

/// Refuses keys of the corner that its style has no use for, and asks for those it needs.
fn check_keys(corner: &CornerSpec) -> Result<(), Error> {
    let leg = corner.style == CornerStyle::Leg;
    if leg && corner.motif.is_none() {
        return Err(PlanFault::Missing {
            what: "\"motif\"".to_owned(),
            why: "the corner style leg needs a drawing of the corner".to_owned(),
        }
        .into());
    }
    let given = [
        ("motif", corner.motif.is_some(), leg),
        ("arrangement", corner.arrangement.is_some(), leg),
        ("leg", corner.leg.is_some(), leg),
        ("link_gaps", corner.link_gaps.is_some(), leg),
        ("gap", corner.gap.is_some(), !leg),
        (
            "through",
            corner.through.is_some(),
            corner.style == CornerStyle::Butted,
        ),
    ];
    let style = match corner.style {
        CornerStyle::Leg => "leg",
        CornerStyle::Open => "open",
        CornerStyle::Butted => "butted",
    };
    match given.iter().find(|(_, given, used)| *given && !used) {
        Some((key, ..)) => Err(PlanFault::NotUsed {
            what: format!("\"{key}\""),
            why: format!("the corner style is {style}"),
        }
        .into()),
        None => Ok(()),
    }
}

fn linked_drawing(name: &str, joined: &Joined, unit: Unit) -> Option<Finding> {
    let total: f64 = joined.links.iter().map(|link| link.size()).sum();
    (!joined.links.is_empty()).then(|| {
        Finding::note(
            "drawing_linked",
            None,
            format!(
                "{name}: {} gaps of the drawing are linked by straight lines of {} in all",
                joined.links.len(),
                unit.readable(total)
            ),
        )
    })
}

struct Solver {
    unit: Unit,
    join: f64,
    pieces: Vec<Piece>,
    joins: Vec<Join>,
    findings: Vec<Finding>,
}

impl Solver {
    fn border(
        &mut self,
        index: usize,
        border: &BorderSpec,
        frame: &Frame,
        corner: Option<&Motif>,
        side: &Motif,
    ) -> Result<(), Error> {
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
        match corner {
            Some(corner) => self.leg_ring(index, border, frame, corner, &repeat),
            None => self.separate_sides(index, border, frame, &repeat),
        }
    }

    /// Corners at the four corners, sides between them, one closed ring.
    fn leg_ring(
        &mut self,
        index: usize,
        border: &BorderSpec,
        frame: &Frame,
        motif: &Motif,
        repeat: &Repeat,
    ) -> Result<(), Error> {
        let sized = self
            .sized_corner(&border.corner, frame, motif)
            .map_err(|e| e.in_element(motif.name()).in_element("corner"))?;
        let arrangement = border
            .corner
            .arrangement
            .map_or_else(Default::default, Into::into);
        let mut corners = Vec::with_capacity(4);
        for position in BoxCorner::ALL {
            corners.push(sized.place(position, frame.outer, arrangement)?);
        }
        let first = self.pieces.len();
        for (number, side) in Side::ALL.into_iter().enumerate() {
            let strip = frame.strip(side);
            let ports = [corners[number].end(), corners[(number + 1) % 4].start()];
            let located = ports.map(|port| strip.locate(port.point));
            let terminals = located.map(|(along, across)| Terminal {
                along,
                across: Some(across),
            });
            let room = frame.side_length(side);
            let span = located[1].0 - located[0].0;
            if span <= 1e-9 * room {
                return Err(Error::from(PlanFault::CornersOverlap {
                    side: side.name().to_owned(),
                    corners: self.unit.readable(room - span),
                    room: self.unit.readable(room),
                })
                .in_element("corner"));
            }
            self.warn_if_close(&corners, number, frame, side);
            let (chain, detail) = self.fill(border, frame, side, terminals, repeat)?;
            let position = BoxCorner::ALL[number];
            self.push(
                frame,
                index,
                position.name(),
                corners[number].clone(),
                PieceKind::Corner(CornerDetail {
                    position,
                    scale: sized.scale,
                }),
            );
            for end in [0, 1] {
                let line_end = [chain.motif.start(), chain.motif.end()][end];
                let way = [
                    (ports[0].point, line_end.point),
                    (line_end.point, ports[1].point),
                ][end];
                let size = (way.1 - way.0).norm();
                if end == 1 {
                    self.push(
                        frame,
                        index,
                        side.name(),
                        chain.motif.clone(),
                        PieceKind::Side(detail),
                    );
                }
                if size > self.join {
                    let name = format!("{}-{}", side.name(), ["start", "end"][end]);
                    let link = Motif::from_points("link", vec![way.0, way.1])?;
                    self.push(frame, index, &name, link, PieceKind::Link(side));
                    self.findings.push(Finding::warning(
                        "linked",
                        Some(way.0),
                        format!(
                            "{}-side-{}: the repeat and the corner meet the band {} apart, so a straight link is stitched between them; use motifs that start at the same height",
                            frame.name,
                            side.name(),
                            self.unit.readable(size)
                        ),
                    ));
                }
            }
        }
        let last = self.pieces.len() - 1;
        for at in first..=last {
            let to = if at == last { first } else { at + 1 };
            self.joins.push(Join::between(&self.pieces, at, to));
        }
        Ok(())
    }

    fn sized_corner(
        &mut self,
        spec: &CornerSpec,
        frame: &Frame,
        motif: &Motif,
    ) -> Result<SizedCorner, Error> {
        let said = match &spec.leg {
            None => LegSaid::default(),
            Some(leg) => {
                let depth = |length: &Option<super::spec::LengthSpec>, what: &str| {
                    length
                        .as_ref()
                        .map(|l| l.positive_mm(self.unit, what))
                        .transpose()
                };
                LegSaid {
                    elbow: leg.elbow.map(Into::into),
                    depth_horizontal: depth(&leg.horizontal_depth, "the horizontal leg's depth")?,
                    depth_vertical: depth(&leg.vertical_depth, "the vertical leg's depth")?,
                    turn_degrees: leg.turn_degrees,
                }
            }
        };
        let leg = choose_leg(motif, &said)?;
        for doubt in &leg.notes {
            self.findings.push(Finding::warning(
                "leg_unclear",
                None,
                format!(
                    "{}: {doubt}; if the legs are wrong, say them under \"leg\"",
                    motif.name()
                ),
            ));
        }
        let sized = size_corner(motif, &leg, frame.depth())?;
        // Below half a percent nobody sees it, and drawings are seldom truer.
        if sized.unevenness() > 1.005 {
            self.findings.push(Finding::warning(
                "corner_uneven",
                Some(frame.outer.min),
                format!(
                    "{}: its legs are not equally deep, so it is stretched one way by {} to fit the band with both; draw legs of the same depth",
                    motif.name(),
                    findings::percent(sized.unevenness())
                ),
            ));
        }
        Ok(sized)
    }

    /// Warns when two corners leave room for the border but run past each other.
    fn warn_if_close(&mut self, corners: &[Motif], number: usize, frame: &Frame, side: Side) {
        let (one, two) = (corners[number].bounds(), corners[(number + 1) % 4].bounds());
        let apart = match side {
            Side::Top => two.min.x - one.max.x,
            Side::Right => two.min.y - one.max.y,
            Side::Bottom => one.min.x - two.max.x,
            Side::Left => one.min.y - two.max.y,
        };
        if apart < 0.0 {
            let at = corners[number].end().point;
            self.findings.push(Finding::warning(
                "corners_close",
                Some(at),
                format!(
                    "{}: the corners at the {} side run past each other by {}; use a shorter corner motif or a narrower border",
                    frame.name,
                    side.name(),
                    self.unit.readable(-apart)
                ),
            ));
        }
    }

    /// Four sides that do not meet: the corner squares left open, or two sides running through.
    fn separate_sides(
        &mut self,
        index: usize,
        border: &BorderSpec,
        frame: &Frame,
        repeat: &Repeat,
    ) -> Result<(), Error> {
        let gap = match &border.corner.gap {
            Some(gap) => gap
                .gap_mm(self.unit, "the corner's gap")
                .map_err(|e| e.in_element("corner.gap"))?,
            None => frame.seam_gap,
        };
        let width = frame.seam.min.x - frame.edge.min.x;
        let edge_gap = frame.outer.min.x - frame.edge.min.x;
        for side in Side::ALL {
            let runs_through = border.corner.style == CornerStyle::Butted
                && match border.corner.through.unwrap_or_default() {
                    ThroughSpec::TopBottom => matches!(side, Side::Top | Side::Bottom),
                    ThroughSpec::LeftRight => matches!(side, Side::Left | Side::Right),
                };
            let inset = if runs_through {
                0.0
            } else {
                width + gap - edge_gap
            };
            let room = frame.side_length(side);
            if room - 2.0 * inset <= 0.0 {
                return Err(Error::from(PlanFault::CornersOverlap {
                    side: side.name().to_owned(),
                    corners: self.unit.readable(2.0 * inset),
                    room: self.unit.readable(room),
                })
                .in_element("corner"));
            }
            let terminals = [inset, room - inset].map(|along| Terminal {
                along,
                across: None,
            });
            let (chain, detail) = self.fill(border, frame, side, terminals, repeat)?;
            self.push(
                frame,
                index,
                side.name(),
                chain.motif,
                PieceKind::Side(detail),
            );
        }
        Ok(())
    }

    fn fill(
        &mut self,
        border: &BorderSpec,
        frame: &Frame,
        side: Side,
        terminals: [Terminal; 2],
        repeat: &Repeat,
    ) -> Result<(Chain, SideDetail), Error> {
        let spec = &border.side;
        let span = terminals[1].along - terminals[0].along;
        let advance = repeat.advance(frame.depth());
        let fit = fit_span(span, advance, &count(spec, side))
            .map_err(|e| e.in_element(format!("side, {}", side.name())))?;
        let options = ChainOptions {
            repeats: fit.chosen.repeats,
            alternate: spec.alternate.map_or_else(Default::default, Into::into),
            ends: spec.ends.map_or_else(Default::default, Into::into),
            join_tolerance: self.join,
        };
        let chain = chain_repeats(repeat, &frame.strip(side), terminals, &options)
            .map_err(|e| e.in_element(format!("side, {}", side.name())))?;
        let at = Some(chain.motif.start().point);
        let name = format!("{}-side-{}", frame.name, side.name());
        if chain.levelled > self.join {
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
                format!("{name}: {} straight links are stitched between repeats that end at another height than they start", chain.links),
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

    fn push(&mut self, frame: &Frame, border: usize, place: &str, motif: Motif, kind: PieceKind) {
        let name = format!(
            "{}-{}-{}",
            file_safe(&frame.name),
            kind.name(),
            place.replace('_', "-")
        );
        self.pieces.push(Piece {
            motif: motif.renamed(name.clone()),
            name,
            kind,
            border,
            depth: frame.depth(),
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
