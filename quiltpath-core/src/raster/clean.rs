//! What is no drawing of lines: dark things about the paper, specks, writing, a picture too dark.
//!
//! Problem: to keep the ink of a drawing and nothing else, before anything is thinned. Method: by
//! parts that hang together. The pen is as wide as the middle of all ridges of parts that aren't
//! small; a part at the picture's edge that is far thicker is what lies about the paper; a part no
//! larger than a dot of the pen is a speck. What is left is refused when too much of the picture is
//! dark, or when it is many small signs of about one size and nothing larger. Failure: dots that
//! are meant are specks here; the report counts them.

use super::blobs::{Blob, Blobs};
use super::ink::Mask;
use super::thickness::{is_ridge, middle_thickness, thickness};
use crate::error::{Error, ScanFault};

/// More than this share of a picture is dark in no drawing of lines, filled leaves and all.
const DARKEST: f64 = 0.25;

pub(super) fn too_dark(share: f64) -> Error {
    let limit = DARKEST;
    ScanFault::TooDark { share, limit }.into()
}

/// The width of the pen in pixels, from the parts that are large enough to be lines.
pub(super) fn pen(mask: &Mask, blobs: &Blobs, left: &[bool], far: &[u8]) -> Option<f64> {
    let parts = || blobs.blobs.iter().zip(left).filter(|(_, left)| **left);
    let free = |blob: &Blob| !blob.touches_edge(mask);
    let largest = parts()
        .filter(|(blob, _)| free(blob))
        .map(|(blob, _)| blob.diagonal());
    let largest = largest.fold(0.0, f64::max);
    let counts = |blob: usize| {
        let part = &blobs.blobs[blob];
        left[blob] && (largest == 0.0 || (free(part) && part.diagonal() >= 0.1 * largest))
    };
    let mut ridges = Vec::new();
    blobs.each_pixel(mask.width, |blob, at| {
        if counts(blob) && mask.cells[at] != 0 && is_ridge(far, mask.width, at) {
            ridges.push(far[at]);
        }
    });
    middle_thickness(ridges.into_iter())
}

/// Takes out dark shapes that reach the picture's edge and are far thicker than the pen: what lies
/// about the paper. Gives how many there were.
pub(super) fn drop_edges(
    mask: &mut Mask,
    blobs: &Blobs,
    left: &mut [bool],
    far: &[u8],
    pen: f64,
) -> usize {
    let mut thickest = vec![0; blobs.blobs.len()];
    blobs.each_pixel(mask.width, |blob, at| {
        thickest[blob] = far[at].max(thickest[blob])
    });
    let mut edges = 0;
    let gone: Vec<bool> = blobs
        .blobs
        .iter()
        .zip(&thickest)
        .zip(left.iter_mut())
        .map(|((blob, &far), left)| {
            let gone = *left && blob.touches_edge(mask) && thickness(far) > 4.0 * pen.max(2.0);
            *left &= !gone;
            edges += usize::from(gone);
            gone
        })
        .collect();
    if edges > 0 {
        blobs.erase(mask, |blob| gone[blob]);
    }
    edges
}

/// Takes out what is no larger than a dot of the pen; gives how many there were.
pub(super) fn drop_specks(mask: &mut Mask, blobs: &Blobs, left: &mut [bool], pen: f64) -> usize {
    let mut specks = 0;
    let gone: Vec<bool> = blobs
        .blobs
        .iter()
        .zip(left.iter_mut())
        .map(|(blob, left)| {
            let small =
                blob.area < (1.5 * pen * pen).max(5.0) && blob.diagonal() < (3.0 * pen).max(4.5);
            let gone = *left && small;
            *left &= !gone;
            specks += usize::from(gone);
            gone
        })
        .collect();
    if specks > 0 {
        blobs.erase(mask, |blob| gone[blob]);
    }
    specks
}

pub(super) fn refuse_what_is_no_drawing(
    mask: &Mask,
    blobs: &Blobs,
    left: &[bool],
    specks: usize,
    pen: f64,
    edges: bool,
) -> Result<(), Error> {
    let parts: Vec<_> = blobs
        .blobs
        .iter()
        .zip(left)
        .filter(|(_, left)| **left)
        .map(|(blob, _)| blob)
        .collect();
    let area: f64 = parts.iter().map(|blob| blob.area).sum();
    let share = area / mask.cells.len() as f64;
    if share > DARKEST {
        return Err(too_dark(share));
    }
    if parts.is_empty() {
        return Err(match edges {
            true => too_dark(1.0),
            false => ScanFault::NoLine { specks }.into(),
        });
    }
    let mut sizes: Vec<f64> = parts.iter().map(|blob| blob.diagonal()).collect();
    sizes.sort_by(f64::total_cmp);
    let (middle, largest) = (sizes[sizes.len() / 2], sizes[sizes.len() - 1]);
    if sizes.len() >= 150 && middle < 15.0 * pen && largest < 60.0 * pen {
        return Err(ScanFault::LooksLikeText { signs: sizes.len() }.into());
    }
    Ok(())
}
