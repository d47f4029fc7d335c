//! Lines that leave the band: off the quilt, under the binding, over a seam.
//!
//! Between straight lines the check is `check::bands`, exact also where a segment cuts across a
//! corner. A wavy band is no convex outline; there the points of a line are looked at, against the
//! lines of the border as drawn within the flattening tolerance.

use super::findings::{Finding, Severity};
use super::frame::Frame;
use super::pieces::Piece;
use crate::check::bands::{Leaves, Outlines, beyond};
use crate::error::Error;
use crate::geom::region::Region;
use crate::geom::{ConvexPolygon, Point};
use crate::units::Unit;

/// 1e-6 in: what the joins and the bands are held to.
const ROUNDING_MM: f64 = 2.54e-5;

/// The seam allowance of the binding: common practice, 1/4 in.
const BINDING_MM: f64 = 6.35;

/// A line of a border that stitching is not to pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Passed {
    /// The raw edge, or the seam to the border outside.
    Edge,
    /// The line up to which the binding covers the quilt.
    Binding,
    /// The outer or the inner line of the band.
    Band,
    /// The inner seam.
    Seam,
}

/// One fault of a piece: what it passes, where and how far.
struct Fault {
    passed: Passed,
    at: Point,
    by: f64,
}

/// Looks for lines outside the band, farther than rounding explains.
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
    let mut findings = Vec::new();
    for (index, frame) in frames.iter().enumerate() {
        let own: Vec<&Piece> = pieces
            .iter()
            .filter(|piece| piece.border == index)
            .collect();
        let faults = if frame.is_wavy() {
            along_waves(&own, frame, index == 0, ROUNDING_MM + flattening)?
        } else {
            between_lines(&own, frame, index == 0)?
        };
        findings.extend(
            faults
                .iter()
                .map(|(piece, fault)| finding(own[*piece], frame, index == 0, unit, fault)),
        );
    }
    Ok(findings)
}

/// The faults of pieces by their number, between straight lines.
fn between_lines(
    pieces: &[&Piece],
    frame: &Frame,
    at_raw_edge: bool,
) -> Result<Vec<(usize, Fault)>, Error> {
    let band = &frame.band;
    let mut outer: Vec<(ConvexPolygon, Passed)> = vec![(band.edge.clone(), Passed::Edge)];
    let mut inset = 0.0;
    if at_raw_edge && let Ok(binding) = band.edge.inset(&vec![BINDING_MM; band.sides()]) {
        outer.push((binding, Passed::Binding));
        inset = BINDING_MM;
    }
    let least = |gap: fn(&super::outline::SideWidths) -> f64| {
        frame.widths.iter().map(gap).fold(f64::INFINITY, f64::min)
    };
    // A line that another one stands for is left out.
    if least(|side| side.edge_gap) > inset + 2.0 * ROUNDING_MM {
        outer.push((band.outer.clone(), Passed::Band));
    }
    let mut inner = vec![(band.seam.clone(), Passed::Seam)];
    if least(|side| side.seam_gap) > 2.0 * ROUNDING_MM {
        inner.push((band.inner.clone(), Passed::Band));
    }
    let (outer, passed_outwards): (Vec<_>, Vec<_>) = outer.into_iter().unzip();
    let (inner, passed_inwards): (Vec<_>, Vec<_>) = inner.into_iter().unzip();
    let lines: Vec<&[Point]> = pieces.iter().map(|piece| piece.motif.points()).collect();
    let outlines = Outlines {
        outer: &outer,
        inner: &inner,
    };
    let found = beyond(&lines, &outlines, ROUNDING_MM)?;
    let fault = |found: crate::check::bands::Beyond| {
        let passed = match found.way {
            Leaves::Outwards => passed_outwards[found.outline],
            Leaves::Inwards => passed_inwards[found.outline],
        };
        let fault = Fault {
            passed,
            at: found.at,
            by: found.distance,
        };
        (found.line, fault)
    };
    Ok(found.into_iter().map(fault).collect())
}

/// The faults of pieces by their number, where the lines of the border are wavy.
fn along_waves(
    pieces: &[&Piece],
    frame: &Frame,
    at_raw_edge: bool,
    tolerance: f64,
) -> Result<Vec<(usize, Fault)>, Error> {
    let region = |line: &[Point]| Region::new(line.to_vec());
    let lines = &frame.lines;
    let (outer, inner) = (region(&lines.outer)?, region(&lines.inner)?);
    let (edge, seam) = (region(&lines.edge)?, region(&lines.seam)?);
    let mut faults = Vec::new();
    for (index, piece) in pieces.iter().enumerate() {
        let mut worst: [Option<(f64, Point)>; 2] = [None; 2];
        for &point in piece.motif.points() {
            let (way, line) = if !outer.contains(point) {
                (0, &outer)
            } else if inner.contains(point) {
                (1, &inner)
            } else {
                continue;
            };
            let by = line.distance_to_boundary(point);
            if by > tolerance && worst[way].is_none_or(|(most, _)| by > most) {
                worst[way] = Some((by, point));
            }
        }
        let outwards = worst[0].map(|(by, at)| {
            let to_edge = edge.distance_to_boundary(at);
            if !edge.contains(at) {
                (Passed::Edge, at, to_edge)
            } else if at_raw_edge && to_edge < BINDING_MM {
                (Passed::Binding, at, BINDING_MM - to_edge)
            } else {
                (Passed::Band, at, by)
            }
        });
        let inwards = worst[1].map(|(by, at)| {
            if seam.contains(at) {
                (Passed::Seam, at, seam.distance_to_boundary(at))
            } else {
                (Passed::Band, at, by)
            }
        });
        let found = outwards.into_iter().chain(inwards);
        faults.extend(found.map(|(passed, at, by)| (index, Fault { passed, at, by })));
    }
    Ok(faults)
}

const MEND: &str = "draw the motif without ink beyond its ends, choose another corner, give a wider gap, or make the border wider";

fn finding(piece: &Piece, frame: &Frame, at_raw_edge: bool, unit: Unit, fault: &Fault) -> Finding {
    let (name, at) = (&piece.name, Some(fault.at));
    let by = format!("{} ({:.4} mm)", unit.readable(fault.by), fault.by);
    match fault.passed {
        Passed::Edge if at_raw_edge => {
            let message = format!("{name}: the line runs over the raw edge by up to {by}; {MEND}");
            Finding::error("off_the_quilt", at, message)
        }
        Passed::Edge => {
            let message = format!(
                "{name}: the line runs over the seam to the border outside it by up to {by}; {MEND}"
            );
            Finding::error("over_seam", at, message)
        }
        Passed::Seam => {
            let message = format!("{name}: the line runs over the seam by up to {by}; {MEND}");
            Finding::error("over_seam", at, message)
        }
        Passed::Band => {
            let message = format!("{name}: the line leaves the band by up to {by}; {MEND}");
            Finding::error("outside_band", at, message)
        }
        Passed::Binding => {
            let message = format!(
                "{name}: the line runs by up to {by} into the {} along the raw edge that the binding's seam allowance covers; {MEND}",
                unit.readable(BINDING_MM)
            );
            // A smaller gap was asked for outright where the band itself lies under the binding.
            let asked = frame.widths.iter().any(|side| side.edge_gap < BINDING_MM);
            let severity = if asked {
                Severity::Warning
            } else {
                Severity::Error
            };
            Finding::new(severity, "under_binding", at, message)
        }
    }
}
