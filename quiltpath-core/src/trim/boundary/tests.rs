//! Nodes whose positions are the same up to rounding: where the ring starts, and at corners.

use super::*;
use crate::geom::Polyline;

/// Straight pieces from place to place on the boundary of a region with these corners.
fn ring(corners: &[(f64, f64)], ends: &[[f64; 2]], inset: f64) -> Boundary {
    let corners = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    let region = Region::new(corners).expect("a region");
    let boundary = Perimeter::of(&region);
    let piece = |[start, end]: &[f64; 2]| ClippedPiece {
        line: Polyline::new([*start, *end].map(|at| boundary.point_at(at)).to_vec())
            .expect("a line"),
        start: EndOn::Boundary(*start),
        end: EndOn::Boundary(*end),
    };
    let pieces: Vec<ClippedPiece> = ends.iter().map(piece).collect();
    Boundary::of(&pieces, &region, Terminals::default(), inset).expect("a ring")
}

const SQUARE: [(f64, f64); 4] = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)];

/// The corner that juts in is 20 along.
const L: [(f64, f64); 6] = [
    (0.0, 0.0),
    (10.0, 0.0),
    (10.0, 4.0),
    (4.0, 4.0),
    (4.0, 10.0),
    (0.0, 10.0),
];

#[test]
fn ends_in_one_place_are_one_node_where_the_ring_starts_too() {
    for at in [0.0, 12.5] {
        let near = (at - 2e-11_f64).rem_euclid(40.0);
        let ring = ring(&SQUARE, &[[at, 20.0], [25.0, near]], 0.0);
        assert_eq!(ring.nodes.len(), 3, "{at}");
        assert_eq!(ring.edges[0].ends[0], ring.edges[1].ends[1]);
        assert!((ring.arcs.iter().sum::<f64>() - 40.0).abs() < 1e-9);
    }
    // One end by itself is a node, and so are two that are farther apart.
    assert_eq!(ring(&SQUARE, &[[0.0, 20.0]], 0.0).nodes.len(), 2);
    let apart = ring(&SQUARE, &[[0.0, 20.0], [25.0, 40.0 - 1e-9]], 0.0);
    assert_eq!(apart.nodes.len(), 4);
}

#[test]
fn both_sides_of_a_corner_are_linked_to_the_corner_of_the_track() {
    let off = 1e-9;
    let ring = ring(&L, &[[20.0 - off, 5.0], [20.0 + off, 35.0]], 1.0);
    let [before, after] = [0, 1].map(|edge| ring.edges[edge].ends[0]);
    assert_ne!(before, after);
    for way in [Way::Onward, Way::Back] {
        let corner = Point::new(3.0, 3.0);
        let points = ring.link_points(before, after, way);
        assert!((points[1] - corner).norm() < 1e-12, "{points:?}");
    }
    // Out to the track and back, without a step along it.
    let length = ring.link_length(before, after, Way::Onward);
    assert!((length - 8.0_f64.sqrt()).abs() < 1e-8, "{length}");
}
