//! Corners that are ready placed on a layout: sized, slanted or made from the repeat at its depth.

use super::block::Block;
use super::drawn::{self, is_mirrored};
use super::made::{self, Source};
use super::placed::{CornerPiece, Corners};
use super::prepare::Prepared;
use crate::corner::Arrangement;
use crate::error::{Error, PlanFault};
use crate::plan::asked::{BorderAsked, CornerAsked};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::CornerPlace;
use crate::plan::piece::CornerDetail;
use crate::plan::repeats::Repeats;
use crate::plan::tolerances::Tolerances;

#[cfg(test)]
thread_local! {
    /// How many times this thread has placed the corners of a border.
    pub(in crate::plan) static PLACED: std::cell::Cell<usize> = const { std::cell::Cell::new(0) };
}

/// Places the corners of a border at the depth of a layout; mitres take the given one of their
/// equally good cuts.
pub(in crate::plan) fn place(
    border: &BorderAsked,
    layout: &Layout,
    prepared: &Prepared,
    (repeats, cut): (&Repeats, usize),
    tolerances: Tolerances,
) -> Result<(Corners, Vec<Finding>), Error> {
    #[cfg(test)]
    PLACED.set(PLACED.get() + 1);
    let source = Source {
        border,
        repeats,
        tolerances,
        cut,
    };
    let placed = match border.corner {
        CornerAsked::Mitred {
            legs,
            smooth,
            extra,
        } => made::from_repeat((border, layout), |site, place| {
            source.mitred((legs, smooth, extra), site, place)
        }),
        CornerAsked::Bent { legs, radius } => made::from_repeat((border, layout), |site, place| {
            source.bent((legs, radius), site, place)
        }),
        _ => place_fixed(border, layout, prepared),
    };
    placed.map_err(|e| e.in_element("corner"))
}

/// Places corners that are no matter of the repeat.
pub(in crate::plan) fn place_fixed(
    border: &BorderAsked,
    layout: &Layout,
    prepared: &Prepared,
) -> Result<(Corners, Vec<Finding>), Error> {
    let at = (border, layout);
    let (corners, mut findings) = match (&border.corner, prepared) {
        (CornerAsked::Leg { arrangement, .. }, Prepared::Leg { motif, shape }) => {
            drawn::leg(at, *arrangement, motif, shape)
        }
        (CornerAsked::Trimmed { arrangement, .. }, Prepared::Cut(cut)) => {
            drawn::trimmed(at, *arrangement, cut)
        }
        (CornerAsked::Block { arrangement, .. }, Prepared::Block(block)) => {
            let gap = border.corner_gap.unwrap_or(layout.seam_gap);
            blocks(at, gap, *arrangement, block).map(|corners| (corners, Vec::new()))
        }
        _ => Ok((Corners::apart(Vec::new()), Vec::new())),
    }?;
    findings.extend(alike(border, layout));
    Ok((corners, findings))
}

/// The two neighbours that are alike where mirrored corners can't alternate all round.
fn alike(border: &BorderAsked, layout: &Layout) -> Option<Finding> {
    let (CornerAsked::Leg { arrangement, .. }
    | CornerAsked::Trimmed { arrangement, .. }
    | CornerAsked::Block { arrangement, .. }) = border.corner
    else {
        return None;
    };
    let places: Vec<CornerPlace> = layout.corner_sites().map(|(place, _)| place).collect();
    let corners = places.len();
    let all = border.corners.iter().all(|corner| *corner);
    if arrangement != Arrangement::Mirrored || corners.is_multiple_of(2) || !all {
        return None;
    }
    let alike = [*places.last()?, *places.first()?];
    let found = Finding::note(FindingKind::CornersAlike { corners, alike });
    let at = layout.band.outer.corner(corners - 1);
    Some(found.on_corner(border.index, alike[0]).at(at))
}

/// A block in every corner, between the outer lines and the gap from the seams.
fn blocks(
    (border, layout): (&BorderAsked, &Layout),
    gap: f64,
    arrangement: Arrangement,
    block: &Block,
) -> Result<Corners, Error> {
    let sites = layout.corner_sites();
    let sites = sites.filter(|(place, _)| border.has_corner(*place));
    let placed = sites.map(|(place, site)| {
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
        let mirrored = is_mirrored(border, arrangement, place);
        let (lines, scale) = block.place(&site, room, mirrored)?;
        let detail = CornerDetail {
            position: place,
            angle_degrees: site.angle_degrees(),
            scale: [scale; 2],
            made: block.made(),
        };
        let lines = lines.into_iter();
        let pieces = lines.map(move |motif| CornerPiece::new(motif, detail.clone()));
        Ok(pieces)
    });
    let placed: Result<Vec<_>, Error> = placed.collect();
    placed
        .map(|corners| corners.into_iter().flatten().collect())
        .map_err(|e: Error| e.in_element(block.name()))
        .map(Corners::apart)
}
