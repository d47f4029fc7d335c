//! Lines of the field that leave what may be stitched of their place.
//!
//! The check is `check::beyond`, exact, for each piece against the polygon of its own place.

use crate::check::{Outlines, beyond};
use crate::error::Error;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::piece::{Piece, PieceKind};

/// What nobody sees on the cloth is no finding: a line may pass an outline by up to 0.1 mm.
const LEAST_MM: f64 = 0.1;

/// Looks for pieces outside their places, by 0.1 mm or more; `gap` is what is kept free within the
/// seams.
///
/// # Complexity
///
/// O(points).
pub(in crate::plan) fn outside_places(pieces: &[Piece], gap: f64) -> Result<Vec<Finding>, Error> {
    let mut findings = Vec::new();
    for (number, piece) in pieces.iter().enumerate() {
        let PieceKind::Field(detail) = &piece.kind else {
            continue;
        };
        let outlines = Outlines {
            outer: std::slice::from_ref(&detail.within),
            inner: &[],
        };
        let found = beyond(&[piece.motif().points()], &outlines, LEAST_MM)?;
        findings.extend(found.into_iter().map(|found| {
            let (by, over_seam) = (found.distance, found.distance > gap);
            let kind = FindingKind::OutsidePlace { by, over_seam };
            let finding = match over_seam {
                true => Finding::error(kind),
                false => Finding::warning(kind),
            };
            finding.on_piece(number, piece).at(found.at)
        }));
    }
    Ok(findings)
}
