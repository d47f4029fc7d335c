//! The drawings of the blocks within the borders, and of what lies between them.

use super::borders::by_side;
use super::known::{How, Known, MotifRequest};
use super::purpose::Purpose;
use crate::error::Error;
use crate::plan::ask::{BlocksSpec, DesignSpec, SideSpec, given_ends};
use crate::plan::blocks::{BlocksAsked, Design, FieldDrawings, cut_price};
use crate::plan::lay::field::FieldKind;
use crate::plan::lay::place::Side;
use crate::plan::repeats::Repeats;
use crate::units::Unit;

/// Loads the drawings of a field.
pub(super) fn of_field(
    known: &mut Known<'_, '_>,
    spec: &BlocksSpec,
    asked: &BlocksAsked,
    unit: Unit,
) -> Result<FieldDrawings, Error> {
    let mut design = |given: Option<&DesignSpec>, kind, key: &str| match given {
        Some(given) => design(known, given, asked, (kind, unit))
            .map(Some)
            .map_err(|e| e.in_element(key)),
        None => Ok(None),
    };
    let cornerstone = spec
        .sashing
        .as_ref()
        .and_then(|sashing| sashing.cornerstone.as_ref());
    let triangles = spec.triangles.as_ref();
    let side_triangle = triangles.and_then(|both| both.side.as_ref());
    let corner_triangle = triangles.and_then(|both| both.corner.as_ref());
    Ok(FieldDrawings {
        block: design(spec.block.as_ref(), FieldKind::Block, "block")?,
        cornerstone: design(cornerstone, FieldKind::Cornerstone, "sashing.cornerstone")?,
        side_triangle: design(side_triangle, FieldKind::SideTriangle, "triangles.side")?,
        corner_triangle: design(
            corner_triangle,
            FieldKind::CornerTriangle,
            "triangles.corner",
        )?,
        sashes: match &spec.sashing {
            Some(sashing) => sashes(known, &sashing.side, asked, unit)
                .map_err(|e| e.in_element("sashing.side"))?,
            None => None,
        },
    })
}

/// The lines of one design, for the largest place of its kind.
fn design(
    known: &mut Known<'_, '_>,
    given: &DesignSpec,
    asked: &BlocksAsked,
    (kind, unit): (FieldKind, Unit),
) -> Result<Design, Error> {
    let sizes = asked.of_kind(kind).map(|spot| {
        let (first, second) = (spot.corners[0], spot.corners[1]);
        (second - first).norm()
    });
    let size = sizes.fold(0.0, f64::max) - 2.0 * asked.seam_gap;
    let size = if size > 0.0 { size } else { 1.0 };
    let cut = match kind {
        FieldKind::Cornerstone => f64::INFINITY,
        _ => cut_price(given, unit)?,
    };
    let how: How = (given.strokes.gaps(false), [None, None]);
    let request = MotifRequest {
        name: given.motif.clone(),
        layers: given.layers.clone(),
    };
    let lines = known.lines(request, how, Purpose::Block(cut), size);
    Design::new(lines.map_err(|e| e.in_element("motif"))?.to_vec())
}

/// The repeats of the sashes, where they have some.
fn sashes(
    known: &mut Known<'_, '_>,
    side: &SideSpec,
    asked: &BlocksAsked,
    unit: Unit,
) -> Result<Option<Repeats>, Error> {
    if side.motif.is_none() {
        return Ok(None);
    }
    let ends = given_ends(side.start.as_ref(), side.end.as_ref(), unit)?;
    let depth = asked.measures.sash - 2.0 * asked.seam_gap;
    let how: How = (side.strokes.gaps(side.link_gaps), ends);
    let sides = Side::pair().into_iter();
    by_side(known, (side, "motif"), sides, (how, depth), |_| Ok(())).map(Some)
}
