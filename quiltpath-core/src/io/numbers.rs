//! The numbers of a solved plan as `result.json` has them and the sheet repeats them.
//!
//! Both take them from here, so they are the same to the last digit.

use crate::geom::region::Region;
use crate::geom::{Bounds, Point, Vector};
use crate::motif::Motif;
use crate::plan::{Layout, Piece, PieceKind, Solved, Stitching};
use crate::units::Unit;

/// A length of millimetres in this unit, rounded to 1e-9 of it.
pub(super) fn in_unit(mm: f64, unit: Unit) -> f64 {
    Unit::Mm.change(mm, unit)
}

/// A point of millimetres in this unit.
pub(super) fn point_in_unit(point: Point, unit: Unit) -> [f64; 2] {
    [in_unit(point.x, unit), in_unit(point.y, unit)]
}

/// The length of a line as written: that of the rounded points.
pub(super) fn length_in_unit(motif: &Motif, unit: Unit) -> f64 {
    let mut points = motif.points().iter().map(|&at| point_in_unit(at, unit));
    let mut from = points.next().unwrap_or_default();
    let step = |to: [f64; 2]| {
        let [x0, y0] = std::mem::replace(&mut from, to);
        Vector::new(to[0] - x0, to[1] - y0).norm()
    };
    points.map(step).sum()
}

/// The direction of travel: 0 to the right, 90 down, above -180 and up to 180; rounded to 1e-6.
#[cfg(feature = "json")]
pub(super) fn degrees(direction: Vector) -> f64 {
    let degrees = direction.y.atan2(direction.x).to_degrees();
    let rounded = (degrees * 1e6).round() / 1e6 + 0.0;
    if rounded == -180.0 { 180.0 } else { rounded }
}

/// The number of each piece, from 1: in the order of stitching where that is known, as listed
/// where it is not.
pub(super) fn numbers(solved: &Solved, stitching: Option<&Stitching>) -> Vec<usize> {
    match stitching {
        Some(stitching) => stitching.piece_numbers(solved),
        None => (1..=solved.pieces.len()).collect(),
    }
}

/// Where a piece lies on the cloth, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Lie {
    /// The width and the height of the box, sides along the axes, that holds its line.
    pub(super) size: [f64; 2],
    /// How far its start and its end lie from the inner seam of its border, negative beyond it.
    pub(super) from_seam: [f64; 2],
    /// How far they lie from the outer edge of its border's fabric, negative beyond it.
    pub(super) from_edge: [f64; 2],
}

/// The seam and the edge of a border, ready to measure from.
pub(super) struct Limits {
    edge: Option<Region>,
    seam: Option<Region>,
}

impl Limits {
    pub(super) fn of(layout: &Layout) -> Self {
        // Lines of a border that was laid out are polygons; one that is none measures nothing.
        let region = |line: &[Point]| Region::new(line.to_vec()).ok();
        Self {
            edge: region(&layout.lines.edge),
            seam: region(&layout.lines.seam),
        }
    }

    /// Where a piece of this border lies.
    ///
    /// # Complexity
    ///
    /// O(points of the piece and of the border's lines).
    pub(super) fn lie(&self, piece: &Piece) -> Lie {
        // What lies in the field of blocks has seams of its own all round.
        let own = match &piece.kind {
            PieceKind::Field(detail) => Region::new(detail.seams.clone()).ok(),
            _ => None,
        };
        let bounds = Bounds::of_nonempty(piece.motif().points());
        let ends = [piece.motif().start().point, piece.motif().end().point];
        let signed = |region: &Option<Region>, inside: f64| {
            ends.map(|end| match region {
                Some(region) if region.contains(end) => inside * region.distance_to_boundary(end),
                Some(region) => 0.0 - inside * region.distance_to_boundary(end),
                None => 0.0,
            })
        };
        Lie {
            size: [bounds.width(), bounds.height()],
            from_seam: match own {
                Some(_) => signed(&own, 1.0),
                None => signed(&self.seam, -1.0),
            },
            from_edge: signed(&self.edge, 1.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(feature = "json")]
    #[test]
    fn directions_count_clockwise_from_the_right() {
        for (x, y, wanted) in [
            (1.0, 0.0, 0.0),
            (0.0, 2.0, 90.0),
            (-1.0, 0.0, 180.0),
            (-1.0, -0.0, 180.0),
            (0.0, -1.0, -90.0),
            (1.0, 1.0, 45.0),
        ] {
            assert_eq!(degrees(crate::geom::Vector::new(x, y)), wanted);
        }
    }

    #[test]
    fn lengths_are_those_of_the_rounded_points() {
        let motif = Motif::from_points(
            "a",
            vec![
                Point::new(0.0, 0.0),
                Point::new(76.2, 101.6),
                Point::new(76.2, 0.0),
            ],
        );
        assert_eq!(length_in_unit(&motif.expect("a line"), Unit::In), 5.0 + 4.0);
    }
}
