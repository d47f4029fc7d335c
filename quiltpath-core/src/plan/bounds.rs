//! Lines that leave the band: over the raw edge, under the binding, over a seam.
//!
//! A point outside the band lies beyond its outer or inside its inner line; how far tells what it
//! meets there: the gap is passed first, then the seam allowance of the binding (1/4 in, common
//! practice) or the seam itself.

use super::findings::Finding;
use super::frame::Frame;
use super::pieces::Piece;
use crate::error::Error;
use crate::geom::Point;
use crate::geom::region::Region;
use crate::units::Unit;

/// 1e-6 in: what the joins and the bands are held to.
const ROUNDING_MM: f64 = 2.54e-5;

/// The seam allowance of the binding: common practice, 1/4 in.
const BINDING_MM: f64 = 6.35;

/// The lines that a border's pieces may meet.
struct Limits {
    outer: Region,
    inner: Region,
    edge: Region,
    seam: Region,
    at_raw_edge: bool,
    rounding: f64,
}

impl Limits {
    fn of(frame: &Frame, index: usize, flattening: f64) -> Result<Self, Error> {
        let region = |line: &[Point]| Region::new(line.to_vec());
        let lines = &frame.lines;
        Ok(Self {
            outer: region(&lines.outer)?,
            inner: region(&lines.inner)?,
            edge: region(&lines.edge)?,
            seam: region(&lines.seam)?,
            at_raw_edge: index == 0,
            // The lines of a wavy band are drawn within the flattening tolerance.
            rounding: ROUNDING_MM + if frame.is_wavy() { flattening } else { 0.0 },
        })
    }
}

/// The farthest point of a line beyond a line of its band.
type Farthest = Option<(f64, Point)>;

fn farther(farthest: Farthest, distance: f64, point: Point) -> Farthest {
    match farthest {
        Some((known, _)) if known >= distance => farthest,
        _ => Some((distance, point)),
    }
}

/// Looks for points outside the band, farther than rounding explains.
///
/// # Complexity
///
/// O(points).
pub(super) fn outside(
    pieces: &[Piece],
    frames: &[Frame],
    unit: Unit,
    flattening: f64,
) -> Result<Vec<Finding>, Error> {
    let limits = frames
        .iter()
        .enumerate()
        .map(|(index, frame)| Limits::of(frame, index, flattening))
        .collect::<Result<Vec<_>, _>>()?;
    let mut findings = Vec::new();
    for piece in pieces {
        let limits = &limits[piece.border];
        let (mut outwards, mut inwards): (Farthest, Farthest) = (None, None);
        for &point in piece.motif.points() {
            if !limits.outer.contains(point) {
                let distance = limits.outer.distance_to_boundary(point);
                outwards = farther(outwards, distance, point);
            } else if limits.inner.contains(point) {
                let distance = limits.inner.distance_to_boundary(point);
                inwards = farther(inwards, distance, point);
            }
        }
        let found = |farthest: Farthest| farthest.filter(|(by, _)| *by > limits.rounding);
        if let Some((by, at)) = found(outwards) {
            findings.push(over_outer(piece, limits, unit, by, at));
        }
        if let Some((by, at)) = found(inwards) {
            findings.push(over_inner(piece, limits, unit, by, at));
        }
    }
    Ok(findings)
}

const MEND: &str =
    "draw the motif without ink beyond its ends, give a wider gap, or make the border wider";

fn over_outer(piece: &Piece, limits: &Limits, unit: Unit, by: f64, at: Point) -> Finding {
    let name = &piece.name;
    let to_edge = limits.edge.distance_to_boundary(at);
    if !limits.edge.contains(at) {
        let over = |edge: &str| {
            let far = exact(unit, to_edge);
            format!("{name}: the line runs over the {edge} by up to {far}; {MEND}")
        };
        return if limits.at_raw_edge {
            Finding::error("off_the_quilt", Some(at), over("raw edge"))
        } else {
            Finding::error("over_seam", Some(at), over("seam to the border outside it"))
        };
    }
    if limits.at_raw_edge && to_edge < BINDING_MM {
        let message = format!(
            "{name}: the line comes within {} of the raw edge, where the binding's seam allowance of {} covers it; {MEND}",
            exact(unit, to_edge),
            unit.readable(BINDING_MM)
        );
        return Finding::error("under_binding", Some(at), message);
    }
    leaves(piece, unit, by, at)
}

fn over_inner(piece: &Piece, limits: &Limits, unit: Unit, by: f64, at: Point) -> Finding {
    if limits.seam.contains(at) {
        let message = format!(
            "{}: the line runs over the seam by up to {}; {MEND}",
            piece.name,
            exact(unit, limits.seam.distance_to_boundary(at))
        );
        return Finding::error("over_seam", Some(at), message);
    }
    leaves(piece, unit, by, at)
}

fn leaves(piece: &Piece, unit: Unit, by: f64, at: Point) -> Finding {
    let message = format!(
        "{}: the line leaves the band by up to {}; {MEND}",
        piece.name,
        exact(unit, by)
    );
    Finding::error("outside_band", Some(at), message)
}

fn exact(unit: Unit, mm: f64) -> String {
    format!("{} ({mm:.4} mm)", unit.readable(mm))
}
