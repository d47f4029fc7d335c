//! Lines that leave the band: off the quilt, under the binding, over a seam.
//!
//! Between straight lines the check is `check::bands`, exact also where a segment cuts across a
//! corner. A wavy band is no convex outline; there the points of a line are looked at, against the
//! lines of the border as drawn within the flattening tolerance.

use crate::check::{Leaves, Outlines, beyond};
use crate::error::Error;
use crate::geom::region::Region;
use crate::geom::stretches::Stretches;
use crate::geom::{ConvexPolygon, Point};
use crate::plan::finding::{Finding, FindingKind, Severity};
use crate::plan::lay::SideWidths;
use crate::plan::lay::layout::Layout;
use crate::plan::piece::Piece;
use crate::plan::practice::BINDING_MM;
use crate::trim::Sides;

/// What nobody sees on the cloth is no finding: a line may pass an outline by up to 0.1 mm.
const LEAST_MM: f64 = 0.1;

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

/// Looks for lines outside the band, by 0.1 mm or more.
///
/// # Complexity
///
/// O(points); along a wavy band each point looks at the parts of the two lines in its row, and
/// where it may be the farthest out at about twice the root of their number.
pub(in crate::plan) fn outside(
    pieces: &[Piece],
    layouts: &[Layout],
    flattening: f64,
) -> Result<Vec<Finding>, Error> {
    let mut findings = Vec::new();
    let borders = layouts.iter().enumerate();
    for (index, layout) in borders.filter(|(_, layout)| !layout.is_field()) {
        let numbered = pieces.iter().enumerate();
        let (numbers, own): (Vec<usize>, Vec<&Piece>) =
            numbered.filter(|(_, piece)| piece.border == index).unzip();
        let faults = if layout.is_wavy() {
            along_waves(&own, layout, index == 0, LEAST_MM.max(flattening))?
        } else {
            between_lines(&own, layout, index == 0)?
        };
        findings.extend(faults.iter().map(|(piece, fault)| {
            finding(numbers[*piece], own[*piece], layout, index == 0, fault)
        }));
    }
    Ok(findings)
}

/// The faults of pieces by their number, between straight lines.
fn between_lines(
    pieces: &[&Piece],
    layout: &Layout,
    at_raw_edge: bool,
) -> Result<Vec<(usize, Fault)>, Error> {
    let band = &layout.band;
    let mut outer: Vec<(ConvexPolygon, Passed)> = vec![(band.edge.clone(), Passed::Edge)];
    let mut inset = 0.0;
    if at_raw_edge && let Ok(binding) = band.edge.inset(&vec![BINDING_MM; band.sides()]) {
        outer.push((binding, Passed::Binding));
        inset = BINDING_MM;
    }
    let least = |gap: fn(&SideWidths) -> f64| {
        let sides = layout.widths.iter().filter(|side| side.width > 0.0);
        sides.map(gap).fold(f64::INFINITY, f64::min)
    };
    // A line that another one stands for is left out.
    if least(|side| side.edge_gap) > inset + 2.0 * LEAST_MM {
        outer.push((band.outer.clone(), Passed::Band));
    }
    // Where a side has no border there is no seam to keep from.
    let within = |to: fn(&SideWidths) -> f64| {
        let sides = layout.widths.iter();
        let to = sides.map(|side| match side.width > 0.0 {
            true => to(side),
            false => side.edge_gap.max(inset),
        });
        band.edge.inset(&to.collect::<Vec<f64>>())
    };
    let mut inner = vec![(within(|side| side.width)?, Passed::Seam)];
    if least(|side| side.seam_gap) > 2.0 * LEAST_MM {
        let line = within(|side| side.width - side.seam_gap)?;
        inner.push((line, Passed::Band));
    }
    let (outer, passed_outwards): (Vec<_>, Vec<_>) = outer.into_iter().unzip();
    let (inner, passed_inwards): (Vec<_>, Vec<_>) = inner.into_iter().unzip();
    let lines: Vec<&[Point]> = pieces.iter().map(|piece| piece.motif().points()).collect();
    let outlines = Outlines {
        outer: &outer,
        inner: &inner,
    };
    let found = beyond(&lines, &outlines, LEAST_MM)?;
    let fault = |found: crate::check::Beyond| {
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
    layout: &Layout,
    at_raw_edge: bool,
    tolerance: f64,
) -> Result<Vec<(usize, Fault)>, Error> {
    let region = |line: &[Point]| Region::new(line.to_vec());
    let lines = &layout.lines;
    let (outer, inner) = (region(&lines.outer)?, region(&lines.inner)?);
    let (edge, seam) = (region(&lines.edge)?, region(&lines.seam)?);
    let [mut outer, mut inner] = [&outer, &inner].map(Outline::of);
    let [mut edge, mut seam] = [&edge, &seam].map(Outline::of);
    // Corners lie between straight lines, so they may pass the measured edge inside the band's
    // line.
    let covered = if at_raw_edge { BINDING_MM } else { 0.0 };
    let mut faults = Vec::new();
    for (index, piece) in pieces.iter().enumerate() {
        let points = piece.motif().points();
        let outwards = farthest(points, &mut edge, Leaves::Outwards, tolerance - covered)
            .map(|(by, at)| match by > tolerance {
                true => (Passed::Edge, at, by),
                false => (Passed::Binding, at, covered + by),
            })
            .or_else(|| {
                let (by, at) = farthest(points, &mut outer, Leaves::Outwards, tolerance)?;
                Some((Passed::Band, at, by))
            });
        let inwards = farthest(points, &mut seam, Leaves::Inwards, tolerance)
            .map(|(by, at)| (Passed::Seam, at, by))
            .or_else(|| {
                let (by, at) = farthest(points, &mut inner, Leaves::Inwards, tolerance)?;
                Some((Passed::Band, at, by))
            });
        let found = outwards.into_iter().chain(inwards);
        faults.extend(found.map(|(passed, at, by)| (index, Fault { passed, at, by })));
    }
    Ok(faults)
}

/// A line round the border, laid out to find quickly what lies inside and how far a point is away.
struct Outline {
    sides: Sides,
    line: Stretches,
}

impl Outline {
    fn of(region: &Region) -> Self {
        let mut corners = region.corners().to_vec();
        corners.push(corners[0]);
        Self {
            sides: Sides::of(region),
            line: Stretches::of(corners),
        }
    }

    /// How far beyond the line a point lies that way; below 0 where it lies on the other side.
    fn beyond(&mut self, point: Point, way: Leaves) -> f64 {
        let by = self.line.distance(point);
        let outside = !self.sides.hold(point);
        match (way, outside) {
            (Leaves::Outwards, true) | (Leaves::Inwards, false) => by,
            _ => -by,
        }
    }
}

/// The point that lies farthest beyond a line, with how far; none where no point is farther than
/// `over`, which is below 0 for points that lie before it.
fn farthest(points: &[Point], line: &mut Outline, way: Leaves, over: f64) -> Option<(f64, Point)> {
    let mut worst: Option<(f64, Point)> = None;
    // A step changes the distance from a line by its own length at most, so the distance is taken
    // only where it can be the worst.
    let mut most = f64::INFINITY;
    let mut before = points[0];
    for &point in points {
        most += (point - before).norm();
        before = point;
        let beaten = worst.map_or(over, |(by, _)| by);
        if most <= beaten {
            continue;
        }
        let by = line.beyond(point, way);
        most = by;
        if by > beaten {
            worst = Some((by, point));
        }
    }
    worst
}

fn finding(
    number: usize,
    piece: &Piece,
    layout: &Layout,
    at_raw_edge: bool,
    fault: &Fault,
) -> Finding {
    let by = fault.by;
    let (severity, kind) = match fault.passed {
        Passed::Edge if at_raw_edge => (Severity::Error, FindingKind::OffTheQuilt { by }),
        Passed::Edge => (Severity::Error, FindingKind::OverSeam { by, outer: true }),
        Passed::Seam => (Severity::Error, FindingKind::OverSeam { by, outer: false }),
        Passed::Band => (Severity::Error, FindingKind::OutsideBand { by }),
        Passed::Binding => {
            // A smaller gap was asked for outright where the band itself lies under the binding.
            let asked = layout.widths.iter().any(|side| side.edge_gap < BINDING_MM);
            let covered = BINDING_MM;
            let severity = if asked {
                Severity::Warning
            } else {
                Severity::Error
            };
            (severity, FindingKind::UnderBinding { by, covered })
        }
    };
    Finding::new(severity, kind)
        .on_piece(number, piece)
        .at(fault.at)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Vector;
    use crate::motif::Motif;
    use crate::plan::PlanSpec;
    use crate::plan::lay::{Quilt, Side, layouts};
    use crate::plan::piece::{PieceKind, PieceLine};
    use crate::plan::spec::{BorderSpec, CornerSpec, CornerStyle, QuiltSpec, SideSpec, UnitSpec};
    use proptest::prelude::*;

    /// A ring-shaped line whose distance from the centre goes by the wave.
    fn wavy(radius: f64, wave: &[f64]) -> Region {
        let corners = wave.iter().enumerate().map(|(index, by)| {
            let (sin, cos) = (std::f64::consts::TAU * index as f64 / wave.len() as f64).sin_cos();
            Point::new(cos, sin) * (radius + by)
        });
        Region::new(corners.collect()).expect("a region")
    }

    #[test]
    fn what_nobody_sees_is_no_finding() {
        let quilt = QuiltSpec::rectangle(1000.0, 1000.0);
        let corner = CornerSpec::new(CornerStyle::Open);
        let border = BorderSpec::new(100.0, corner, SideSpec::new("side"));
        let spec = PlanSpec::new(UnitSpec::Mm, quilt).with_borders([border]);
        let layouts = layouts(&spec, &Quilt::of(&spec).expect("a quilt")).expect("layouts");
        let outer = layouts[0].band.outer.corner(0).y;
        for (by, expected) in [(0.05, None), (0.15, Some("outside_band"))] {
            let line = vec![
                Point::new(300.0, outer - by),
                Point::new(600.0, outer + 9.0),
            ];
            let line = PieceLine::whole(Motif::from_points("line", line).expect("a line"));
            let kind = PieceKind::Link(Side::TOP);
            let piece = Piece::new(0, ("border", "top"), 80.0, kind, line);
            let found = outside(&[piece], &layouts, 0.01).expect("checked");
            assert_eq!(found.first().map(Finding::code), expected);
        }
    }

    proptest! {
        #[test]
        fn the_farthest_is_that_of_looking_everywhere(
            waves in prop::collection::vec((0.0..2.0f64, 0.0..2.0f64), 3..60),
            walk in prop::collection::vec((-1.0..1.0f64, -1.0..1.0f64), 2..200),
            start in (-12.0..12.0f64, -12.0..12.0f64),
            over in -1.0..1.0f64,
        ) {
            let (outside, inside): (Vec<f64>, Vec<f64>) = waves.into_iter().unzip();
            let (outer, inner) = (wavy(9.0, &outside), wavy(3.0, &inside));
            let mut at = Point::new(start.0, start.1);
            let points: Vec<Point> = walk.iter().map(|&(x, y)| {
                at += Vector::new(x, y);
                at
            }).collect();
            for (line, way) in [(&outer, Leaves::Outwards), (&inner, Leaves::Inwards)] {
                let found = farthest(&points, &mut Outline::of(line), way, over);
                let beyond = |&point: &Point| {
                    let by = line.distance_to_boundary(point);
                    if line.contains(point) == (way == Leaves::Inwards) { by } else { -by }
                };
                let plain = points.iter().map(beyond).fold(f64::NEG_INFINITY, f64::max);
                prop_assert_eq!(found.is_some(), plain > over);
                if let Some((by, at)) = found {
                    prop_assert!((by - plain).abs() < 1e-12 && (beyond(&at) - by).abs() < 1e-12);
                }
            }
        }
    }
}
