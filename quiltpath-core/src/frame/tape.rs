//! A taped length in place of a corner that is out of reach.
//!
//! A side that is longer than the reach of a pass can't be touched at both ends at once. The way
//! from its stitched end, along the side, to the level of the seam corner ahead can be taped; it is
//! taken as a reading of that place, in the direction in which the side lies by the other readings.

use super::lay::{MarkReading, parts_of, pass_map, planned_pass};
use crate::error::{AlignFault, Error, positive};
use crate::geom::Vector;
use crate::plan::{Mark, MarkKind, MarkedPiece, Side, Solved, Stitching};

/// The reading that a taped length along a side stands for, beside those of marks; lengths in
/// millimetres.
///
/// # Errors
///
/// An align error when no reading is of an end that is stitched on that side, from which it goes on
/// in this pass; a geometry error for a length that is not above 0.
pub fn taped(
    solved: &Solved,
    stitching: &Stitching,
    (pass, readings): (usize, &[MarkReading]),
    (border, side): (usize, Side),
    length: f64,
) -> Result<MarkReading, Error> {
    let planned = planned_pass(stitching, pass)?;
    positive("the taped length", length, "a length above 0")?;
    let fault = || {
        Error::from(AlignFault::NoStitchedEnd {
            side: side.to_string(),
        })
    };
    let of_side = |mark: &Mark| match mark.kind {
        MarkKind::LineEnd(end) if end.border == border && end.stitched => {
            (end.piece == MarkedPiece::Side(side)).then_some(end.at)
        }
        _ => None,
    };
    let from = readings
        .iter()
        .find_map(|one| Some((one, of_side(&one.mark)?)));
    let (from, at) = from.ok_or_else(fault)?;
    let layout = solved.layouts.get(border).ok_or_else(fault)?;
    // On from the stitched end: towards the end of the side, or back towards its start.
    let mut ahead = None;
    for part in parts_of(stitching, planned) {
        let piece = &solved.pieces[part.piece];
        let here =
            piece.border == border && MarkedPiece::of(&piece.kind) == MarkedPiece::Side(side);
        if let (true, Some([low, high])) = (here, part.in_repeats) {
            if (low - at).abs() < 1e-6 {
                ahead = Some(true);
            } else if (high - at).abs() < 1e-6 {
                ahead = Some(false);
            }
        }
    }
    let ahead = ahead.ok_or_else(fault)?;
    let seam = &layout.band.seam;
    let index = if ahead {
        seam.after(side.index())
    } else {
        side.index()
    };
    let way = seam.direction(side.index()) * if ahead { 1.0 } else { -1.0 };
    let reach = (seam.corner(index) - from.mark.point).dot(&way);
    let map = pass_map(stitching, pass, readings)?.map;
    let there = planned.to_machine.apply(from.mark.point);
    let on_machine: Vector = map.change(there) * planned.to_machine.apply_vector(way);
    let mark = Mark::taped(from.mark.point + way * reach);
    let read = from.read + on_machine.normalize() * length;
    Ok(MarkReading::new(
        format!("tape along the {side}"),
        mark,
        read,
    ))
}
