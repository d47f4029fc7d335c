//! The corners of one border, made in the style that is asked for and placed where two sides meet.

mod drawn;
mod made;

use self::drawn::Block;
use super::findings::Finding;
use super::pieces::{CornerDetail, CornerMade};
use super::place::CornerPlace;
use super::ring::{Solver, Work};
use super::spec::{CornerSpec, CornerStyle, LengthSpec};
use crate::chain::Repeat;
use crate::corner::{Arrangement, CornerSite, SizedCorner};
use crate::error::{Error, PlanFault};
use crate::motif::Motif;
use crate::warp::CrossLine;

/// Interior angles that differ by less, in degrees, get the same corner.
const SAME_ANGLE: f64 = 1e-9;

/// A corner on the cloth.
#[derive(Debug, Clone)]
pub(super) struct PlacedCorner {
    pub(super) motif: Motif,
    pub(super) detail: CornerDetail,
    /// The lines on which the sides before and after it end, where they join on to it.
    pub(super) lines: [CrossLine; 2],
}

/// The corners of one border, clockwise from the first.
#[derive(Debug, Clone)]
pub(super) enum Corners {
    /// Corners that the sides between them join on to.
    Joined(Vec<PlacedCorner>),
    /// Corners, or none, that stand by themselves.
    Apart(Vec<PlacedCorner>),
}

/// Whether corners come out differently for another repeat.
pub(super) fn depend_on_repeat(spec: &CornerSpec) -> bool {
    matches!(spec.style, CornerStyle::Mitred | CornerStyle::Bent) || spec.trim.is_some()
}

/// The corners of a border whose style has no use for the repeat.
pub(super) fn fixed_corners(
    solver: &mut Solver,
    work: &Work<'_>,
    drawn: Option<&Motif>,
) -> Result<Corners, Error> {
    match (work.border.corner.style, drawn) {
        (CornerStyle::Leg, Some(motif)) => {
            let (sized, how) =
                drawn::leg(solver, work, motif).map_err(|e| e.in_element(motif.name()))?;
            Ok(Corners::Joined(slanted(solver, work, &sized, &how)?))
        }
        (CornerStyle::Block, Some(motif)) => {
            let blocks = blocks(solver, work, motif).map_err(|e| e.in_element(motif.name()))?;
            Ok(Corners::Apart(blocks))
        }
        _ => Ok(Corners::Apart(Vec::new())),
    }
}

/// Makes and places the corners of a border; `drawn` is the corner's motif, where its style has one.
pub(super) fn corners(
    solver: &mut Solver,
    work: &Work<'_>,
    drawn: Option<&Motif>,
    repeat: &Repeat,
) -> Result<Corners, Error> {
    let spec = &work.border.corner;
    match (spec.style, drawn, &spec.trim) {
        (CornerStyle::Leg, Some(motif), Some(trim)) => {
            let (sized, how) = drawn::trimmed(solver, work, motif, trim, repeat)
                .map_err(|e| e.in_element(motif.name()))?;
            Ok(Corners::Joined(slanted(solver, work, &sized, &how)?))
        }
        (CornerStyle::Mitred | CornerStyle::Bent, ..) => {
            Ok(Corners::Joined(from_repeat(solver, work, repeat)?))
        }
        _ => fixed_corners(solver, work, drawn),
    }
}

/// The corners of a border with where they lie.
fn sites(work: &Work<'_>) -> impl Iterator<Item = (CornerPlace, CornerSite)> {
    let band = &work.layout.band;
    CornerPlace::all(band.sides()).map(|place| (place, band.corner(place.index())))
}

/// Whether the drawing is mirrored at a corner.
fn is_mirrored(work: &Work<'_>, place: CornerPlace) -> bool {
    let arrangement = work.border.corner.arrangement;
    let arrangement: Arrangement = arrangement.map_or_else(Default::default, Into::into);
    arrangement == Arrangement::Mirrored && place.index() % 2 == 1
}

/// A drawn L, slanted into every corner; it was sized to the depth of the layout.
fn slanted(
    solver: &mut Solver,
    work: &Work<'_>,
    sized: &SizedCorner,
    made: &CornerMade,
) -> Result<Vec<PlacedCorner>, Error> {
    let depth = work.layout.depth();
    let mut longest: Option<(f64, CornerPlace, CornerSite)> = None;
    let placed = sites(work)
        .map(|(place, site)| {
            let mirrored = is_mirrored(work, place);
            let motif = sized
                .place_between(depth, &site, mirrored)
                .map_err(|e| e.in_element(place.to_string()))?;
            let [mut entering, mut leaving] = sized.scale;
            if mirrored {
                std::mem::swap(&mut entering, &mut leaving);
            }
            let sin = site.leaving.perp(&site.entering);
            let [before, after] = site.depths.map(|of| of / depth);
            for along in [before / after, after / before].map(|ratio| ratio / sin) {
                if along > longest.map_or(1.0, |(most, ..)| most) {
                    longest = Some((along, place, site));
                }
            }
            Ok(PlacedCorner {
                lines: site.cross_lines(&motif),
                motif,
                detail: CornerDetail {
                    position: place,
                    angle_degrees: site.angle_degrees(),
                    scale: [entering * before, leaving * after],
                    made: made.clone(),
                },
            })
        })
        .collect::<Result<Vec<_>, Error>>()?;
    if let Some((along, place, site)) = longest.filter(|(along, ..)| *along > 1.0 + SLANT_TOLD) {
        solver.findings.push(Finding::note(
            "corner_slanted",
            Some(site.elbow),
            format!(
                "{}: the corner drawing is slanted into the {place} of {:.1} degrees between bands {} and {} deep, so a leg there is {:.0} % longer for its depth than drawn",
                work.layout.name,
                site.angle_degrees(),
                solver.unit.readable(site.depths[0]),
                solver.unit.readable(site.depths[1]),
                (along - 1.0) * 100.0
            ),
        ));
    }
    Ok(placed)
}

/// A leg that grows by less than this share, for its depth, is not told: our own choice.
const SLANT_TOLD: f64 = 0.05;

/// A block in every corner, between the outer lines and the gap from the seams.
fn blocks(solver: &Solver, work: &Work<'_>, motif: &Motif) -> Result<Vec<PlacedCorner>, Error> {
    let (layout, unit) = (work.layout, solver.unit);
    let gap = work.corner_gap(unit)?;
    let block = Block::new(motif, work.border.corner.on_point == Some(true))?;
    sites(work)
        .map(|(place, site)| {
            let sides = [layout.band.edge.before(place.index()), place.index()];
            let mut room = [0.0; 2];
            for (room, widths) in room.iter_mut().zip(sides.map(|side| &layout.widths[side])) {
                *room = widths.width - widths.edge_gap - gap;
                if *room <= 0.0 {
                    return Err(PlanFault::GapsTooWide {
                        gaps: widths.edge_gap + gap,
                        width: widths.width,
                    }
                    .into());
                }
            }
            let (motif, scale) = block.place(&site, room, is_mirrored(work, place))?;
            Ok(PlacedCorner {
                lines: site.cross_lines(&motif),
                motif,
                detail: CornerDetail {
                    position: place,
                    angle_degrees: site.angle_degrees(),
                    scale: [scale; 2],
                    made: block.made(),
                },
            })
        })
        .collect()
}

/// Corners made from the repeat; passed in its direction, so that each turns.
fn from_repeat(
    solver: &mut Solver,
    work: &Work<'_>,
    repeat: &Repeat,
) -> Result<Vec<PlacedCorner>, Error> {
    let make = match work.border.corner.style {
        CornerStyle::Mitred => made::mitred,
        _ => made::bent,
    };
    let mut known: Vec<(f64, SizedCorner, CornerMade)> = Vec::new();
    sites(work)
        .map(|(place, site)| {
            let degrees = site.angle_degrees();
            let same = |known: &&(f64, SizedCorner, CornerMade)| {
                (known.0 - degrees).abs() < SAME_ANGLE
                    && (site.depths[0] - site.depths[1]).abs() <= SAME_ANGLE
            };
            let (sized, how) = match known.iter().find(same) {
                Some((_, sized, how)) => (sized.clone(), how.clone()),
                None => {
                    let (sized, how) = make(solver, work, repeat, &site, place)?;
                    known.push((degrees, sized.clone(), how.clone()));
                    (sized, how)
                }
            };
            let motif = sized.place_turned(&site)?;
            Ok(PlacedCorner {
                lines: site.square_lines(&motif),
                motif,
                detail: CornerDetail {
                    position: place,
                    angle_degrees: degrees,
                    scale: sized.scale,
                    made: how,
                },
            })
        })
        .collect()
}

/// The length of a key, in millimetres, when it is given.
fn given_mm(
    solver: &Solver,
    length: &Option<LengthSpec>,
    key: &str,
    what: &str,
) -> Result<Option<f64>, Error> {
    length
        .as_ref()
        .map(|length| length.positive_mm(solver.unit, what))
        .transpose()
        .map_err(|e| e.in_element(key))
}
