//! One border or one side of a solved plan solved anew, all other pieces kept as they are.
//!
//! Problem: what is stitched stays, while a number, a drawing or a length of the rest changes.
//! Method: a border walks the street by itself, on the quilt as it was solved; a side is filled
//! between the ends of the corners that lie there. Guarantee: the other pieces, and the joins
//! between them, are the same bit for bit; a side joined to its corners meets them as before.
//! Failure: a part that the plan or the solution doesn't have, and whatever a border can't be
//! solved for.

use super::ask::PlanSpec;
use super::asked::{Asked, asked};
use super::check::{checked, is_checked, name_pieces};
use super::choose::{Chosen, choose_depth, counts, cut_best, fits, ways_out};
use super::corners::{CornerPiece, Corners, prepare};
use super::drawings::{Load, MotifRequest, border_drawings};
use super::fill::{Named, fill, followed, stiffness, stitched};
use super::finding::{Finding, FindingKind};
use super::joint::Joint;
use super::laid::Border;
use super::lay::layout::{Layout, layouts};
use super::lay::place::{CornerPlace, Side};
use super::order::paths;
use super::piece::{CornerMade, Join, Piece, PieceKind};
use super::solve::{in_ways, solve};
use super::solved::Solved;
use super::spans::{report, span};
use super::whole::check_whole;
use crate::corner::CornerSite;
use crate::error::{Error, PlanFault, StitchedFault};
use crate::strokes::Drawing;

/// The part of a solved plan that is solved anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Part {
    /// A border, by its number from the outermost, from 0.
    Border(usize),
    /// One side of a border.
    Side(usize, Side),
}

impl Part {
    fn border(self) -> usize {
        match self {
            Self::Border(border) | Self::Side(border, _) => border,
        }
    }

    fn holds(self, piece: &Piece) -> bool {
        piece.border == self.border()
            && match (self, &piece.kind) {
                (Self::Border(_), _) => true,
                (Self::Side(_, side), PieceKind::Side(detail)) => detail.side == side,
                (Self::Side(_, side), PieceKind::Link(of)) => *of == side,
                (
                    Self::Side(..),
                    PieceKind::Corner(_) | PieceKind::Field(_) | PieceKind::Ring(_),
                ) => false,
            }
    }

    /// Whether a finding of the plan before is about what is solved anew.
    fn concerns(self, finding: &Finding) -> bool {
        finding.border == Some(self.border())
            && match self {
                Self::Border(_) => true,
                Self::Side(_, side) => {
                    finding.side == Some(side)
                        || matches!(finding.kind, FindingKind::WaysOut { .. })
                }
            }
    }
}

/// What was solved anew.
struct Renewed {
    pieces: Vec<Piece>,
    layout: Option<Layout>,
    findings: Vec<Finding>,
}

/// Solves one border or one side of a plan anew and keeps all other pieces as they are, bit for
/// bit.
///
/// The plan may ask for something else than before on that part: other drawings, other numbers of
/// repeats, other gaps of that border. The quilt is the one that was solved. A border that shares
/// its depth with others keeps it. `load` gives the drawings of that border, as in
/// [`super::solve()`].
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::plan::spec::{BorderSpec, BySide, CornerSpec, CornerStyle, NamedSides, QuiltSpec, SideSpec, UnitSpec};
/// use quiltpath_core::plan::{Part, PlanSpec, Side, solve, solve_anew};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let border = BorderSpec::new(6.0, CornerSpec::new(CornerStyle::Open), SideSpec::new("wave"));
/// let mut plan = PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(40.0, 60.0)).with_borders([border]);
/// let before = solve(&plan, wave)?;
/// // One repeat more on the right side, whatever it was.
/// let mut sides = NamedSides::default();
/// sides.right = Some(6);
/// plan.borders[0].side.repeats = Some(BySide::Named(sides));
/// let after = solve_anew(&plan, &before, Part::Side(0, Side::RIGHT), wave)?;
/// assert_eq!(after.pieces[0], before.pieces[0]);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`super::solve()`]; a plan error when the plan or the solution doesn't have that part, or
/// when something was taken out of the solution; a stitched error when the part has begun.
///
/// # Complexity
///
/// O(points of the solution).
pub fn solve_anew(
    spec: &PlanSpec,
    solved: &Solved,
    part: Part,
    mut load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>,
) -> Result<Solved, Error> {
    let mut anew = || {
        check_whole(solved, None)?;
        let begun = solved
            .pieces
            .iter()
            .find(|piece| part.holds(piece) && piece.has_begun());
        if let Some(piece) = begun {
            let piece = piece.name.clone();
            return Err(StitchedFault::Begun { piece }.into());
        }
        if spec.blocks.is_some() || solved.quilt.round.is_some() {
            // Blocks lie in what the borders leave, round borders in one another.
            return solve(spec, &mut load);
        }
        let spec = &in_ways(spec, &mut load)?;
        let asked = asked(spec, solved.quilt.outline.sides())?;
        let renewed = renew(spec, &asked, solved, part, &mut load)
            .map_err(|e| e.in_element(format!("borders[{}]", part.border())))?;
        put(&asked, solved, part, renewed)
    };
    anew().map_err(|e| e.in_unit(spec.unit.into()))
}

fn renew(
    spec: &PlanSpec,
    asked: &Asked,
    solved: &Solved,
    part: Part,
    load: &mut Load<'_>,
) -> Result<Renewed, Error> {
    let number = part.border();
    let there = spec.borders.get(number).zip(solved.layouts.get(number));
    let Some((border, layout)) = there else {
        return Err(PlanFault::NotThere {
            what: "border",
            number,
            count: spec.borders.len().min(solved.layouts.len()),
        }
        .into());
    };
    let asked_here = &asked.borders[number];
    let (drawings, mut findings) = border_drawings(
        border,
        (asked_here, spec.unit.into(), asked.tolerances),
        layouts(spec, &solved.quilt)?[number].depth(),
        load,
    )?;
    findings.extend(drawings.backwards(number));
    let (prepared, found) = prepare(asked_here, &drawings.corner, Some(&drawings.repeats))
        .map_err(|e| e.in_element("corner"))?;
    findings.extend(found);
    let laid_out = match part {
        Part::Border(_) if !asked.shared_depth => {
            let mut layouts = layouts(spec, &solved.quilt)?;
            layouts.swap_remove(number)
        }
        _ => layout.clone(),
    };
    let border = Border {
        asked: asked_here,
        layout: &laid_out,
        prepared: &prepared,
        repeats: &drawings.repeats,
        tolerances: asked.tolerances,
        cut: 0,
        kept: None,
    };
    let others = solved.pieces.iter().filter(|piece| !part.holds(piece));
    let points = others
        .filter(|piece| matches!(piece.kind, PieceKind::Side(_)))
        .map(|piece| piece.points().count())
        .sum();
    match part {
        Part::Border(_) => whole_border(asked, &border, points, findings),
        Part::Side(_, side) => one_side(&border, solved, side, points),
    }
}

fn whole_border(
    asked: &Asked,
    border: &Border<'_>,
    points: usize,
    mut findings: Vec<Finding>,
) -> Result<Renewed, Error> {
    let (border, full) = cut_best(border)?;
    let border = &border;
    let (chosen, found) = match asked.shared_depth {
        true => {
            let counts = counts(border, &full.0.spans)?;
            (
                Chosen {
                    laid: full.0,
                    counts,
                },
                full.1,
            )
        }
        false => choose_depth(border, full)?,
    };
    findings.extend(found);
    let fits = chosen.fits(border)?;
    let ways = ways_out(border, &chosen, &fits, asked.max_stretch)?;
    let (filled, found) = fill(border, chosen.laid, &fits, points)?;
    findings.extend(found.into_iter().chain(ways));
    Ok(Renewed {
        pieces: filled.pieces,
        layout: Some(filled.layout),
        findings,
    })
}

fn one_side(
    border: &Border<'_>,
    solved: &Solved,
    side: Side,
    points: usize,
) -> Result<Renewed, Error> {
    let (index, layout) = (border.asked.index, border.layout);
    if side.count() != layout.band.sides() || side.index() >= layout.band.sides() {
        return Err(PlanFault::NotThere {
            what: "side",
            number: side.index(),
            count: layout.band.sides(),
        }
        .into());
    }
    let corners = corners_of(border, solved)?;
    let flattening = border.tolerances.flattening;
    let span = span(border.asked, layout, &corners, flattening, side)?;
    let spans = std::slice::from_ref(&span);
    let most = border.asked.side.max_stretch;
    let fits = fits(spans, &counts(border, spans)?, border.repeats, most)?;
    let mut findings = report((index, layout), &corners, &span);
    let stiffness = stiffness(border)?;
    let (filled, found) = stitched(border, &span, fits[0], &stiffness, points)?;
    findings.extend(found);
    Ok(Renewed {
        pieces: Named::new(index, layout).side(filled),
        layout: None,
        findings,
    })
}

/// The corners of a border as they lie in a solved plan.
fn corners_of(border: &Border<'_>, solved: &Solved) -> Result<Corners, Error> {
    let own = solved
        .pieces
        .iter()
        .filter(|piece| piece.border == border.asked.index);
    let pieces: Vec<CornerPiece> = own
        .filter_map(|piece| match &piece.kind {
            PieceKind::Corner(detail) => {
                Some(CornerPiece::new(piece.motif().clone(), detail.clone()))
            }
            _ => None,
        })
        .collect();
    if !border.asked.corner.joins() {
        return Ok(Corners::apart(pieces));
    }
    let sites = border.layout.corner_sites();
    let sites = sites.filter(|(place, _)| border.asked.has_corner(*place));
    let sites: Vec<_> = sites.collect();
    let there =
        |(site, piece): (&(CornerPlace, CornerSite), &CornerPiece)| site.0 == piece.detail.position;
    if pieces.len() != sites.len() || !sites.iter().zip(&pieces).all(there) {
        return Err(PlanFault::NotThere {
            what: "corner",
            number: pieces.len(),
            count: pieces.len(),
        }
        .into());
    }
    let joined = pieces.into_iter().zip(sites).map(|(piece, (_, site))| {
        let lines = match piece.detail.made {
            CornerMade::Mitred { .. } | CornerMade::Bent { .. } => site.square_lines(&piece.motif),
            _ => site.cross_lines(&piece.motif),
        };
        let joints = Joint::of(&piece.motif, lines);
        (piece, joints)
    });
    Ok(Corners::joined(joined.collect()))
}

/// Puts what was solved anew in its place.
fn put(asked: &Asked, solved: &Solved, part: Part, renewed: Renewed) -> Result<Solved, Error> {
    let border = part.border();
    let mut layouts = solved.layouts.clone();
    if let Some(layout) = renewed.layout {
        layouts[border] = layout;
    }
    let mut pieces: Vec<Piece> = Vec::with_capacity(solved.pieces.len());
    let mut numbers = vec![None; solved.pieces.len()];
    let mut renewed_pieces = Some(renewed.pieces);
    for (piece, number) in solved.pieces.iter().zip(&mut numbers) {
        if part.holds(piece) {
            pieces.extend(renewed_pieces.take().into_iter().flatten());
        } else {
            *number = Some(pieces.len());
            pieces.push(piece.clone());
        }
    }
    let joins = joins(asked, solved, border, &pieces, &numbers);
    let kept = solved.findings.iter().filter(|finding| {
        !part.concerns(finding) && !is_checked(finding) && !renewed.findings.contains(finding)
    });
    let kept = kept.map(|finding| Finding {
        piece: finding
            .piece
            .and_then(|piece| numbers.get(piece).copied().flatten()),
        ..finding.clone()
    });
    let mut findings: Vec<Finding> = kept.chain(renewed.findings.clone()).collect();
    name_pieces(&mut findings, &pieces);
    findings.extend(checked(asked, &pieces, &layouts)?);
    findings.sort_by_key(|finding| (std::cmp::Reverse(finding.severity), finding.border));
    Ok(Solved {
        paths: paths(&pieces, &joins, asked.tolerances.join)?,
        layouts,
        pieces,
        joins,
        findings,
        ..solved.clone()
    })
}

/// The joins as they were, and those of the border that was changed.
fn joins(
    asked: &Asked,
    solved: &Solved,
    border: usize,
    pieces: &[Piece],
    numbers: &[Option<usize>],
) -> Vec<Join> {
    let number = |of: usize| numbers.get(of).copied().flatten();
    let others = solved.joins.iter().filter_map(|join| {
        let (from, to) = (number(join.from)?, number(join.to)?);
        (pieces[from].border != border).then_some(Join { from, to, ..*join })
    });
    let mut joins: Vec<Join> = others.collect();
    let own = |piece: &Piece| piece.border == border;
    let first = pieces.iter().position(own).unwrap_or(0);
    let count = pieces[first..]
        .iter()
        .take_while(|piece| own(piece))
        .count();
    let own = followed(&asked.borders[border], &pieces[first..first + count]).into_iter();
    joins.extend(own.map(|join| Join {
        from: join.from + first,
        to: join.to + first,
        ..join
    }));
    joins.sort_by_key(|join| join.from);
    joins
}
