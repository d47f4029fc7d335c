//! Lines of the cloth beside a piece: where the raw edge and the seams run that paper is laid to.
//!
//! Problem: a sheet is laid on the cloth by what can be seen there, so it has to show the nearest
//! stretch of each seam and edge, and no more of them than that, for more would take more paper.
//! Method: of each line the sides whose distance from the piece's box is about the least are near.
//! The box grows until it holds where they pass the box's corners; then lines are cut to it.
//! Failure case: a line farther off than [`REACH`] is not shown.

use super::tiling::ROOM;
use crate::error::Error;
use crate::geom::measure::share_on_segment;
use crate::geom::region::Region;
use crate::geom::{Bounds, BoxCorner, Point, Polyline, Vector};
use crate::trim::inside;

/// How far from the piece a line of the cloth may lie that is shown, in millimetres: about 4 in.
const REACH: f64 = 100.0;

/// Sides of a line are as near as the nearest up to this, in millimetres, and half as much again.
const AS_NEAR: f64 = 6.0;

/// What a line of the cloth is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum ClothLineKind {
    /// The raw edge of the quilt.
    RawEdge,
    /// The seam to the border outside.
    OuterSeam,
    /// The seam to what lies inside of the border.
    InnerSeam,
}

impl ClothLineKind {
    /// What it is called on the sheets.
    pub(super) fn words(self) -> &'static str {
        match self {
            Self::RawEdge => "raw edge",
            Self::OuterSeam => "outer seam",
            Self::InnerSeam => "inner seam",
        }
    }

    pub(super) fn class(self) -> &'static str {
        match self {
            Self::RawEdge => "edge",
            Self::OuterSeam | Self::InnerSeam => "seam",
        }
    }
}

/// A closed line of the cloth that a template shows, as far as it runs beside the piece.
#[derive(Debug, Clone, PartialEq)]
pub struct ClothLine {
    /// What it is.
    pub kind: ClothLineKind,
    /// Its corners in order, the first not repeated, where the piece's lines have their points.
    pub corners: Vec<Point>,
}

/// Stretches of lines of the cloth, each with what it is.
pub(super) type Stretches = Vec<(ClothLineKind, Polyline)>;

/// The stretches of these lines that run beside a piece, and the box that holds it and them; all in
/// millimetres.
pub(super) fn beside(piece: Bounds, lines: &[ClothLine]) -> Result<(Stretches, Bounds), Error> {
    let near: Vec<(&ClothLine, Bounds)> = lines
        .iter()
        .filter_map(|line| Some((line, grown(piece, &line.corners)?)))
        .collect();
    let shown = near.iter().fold(piece, |all, (_, one)| all.union(one));
    let room = Vector::repeat(ROOM);
    let region = Region::rectangle(Bounds {
        min: shown.min - room,
        max: shown.max + room,
    })?;
    let mut stretches = Vec::new();
    for (line, _) in near {
        let closed = line.corners.iter().chain(line.corners.first());
        let line_of = Polyline::new(closed.copied().collect())?;
        let found = inside(&line_of, &region, 0.0)?.pieces;
        stretches.extend(found.into_iter().map(|piece| (line.kind, piece.line)));
    }
    Ok((stretches, shown))
}

/// The box grown to hold the sides of a closed line that are nearest to it; `None` where all are
/// far.
fn grown(piece: Bounds, corners: &[Point]) -> Option<Bounds> {
    let after = corners.iter().cycle().skip(1);
    let sides: Vec<[Point; 2]> = corners.iter().zip(after).map(|(a, b)| [*a, *b]).collect();
    let off = |side: &[Point; 2]| distance(piece, *side);
    let least = sides.iter().map(off).fold(f64::INFINITY, f64::min);
    if least > REACH {
        return None;
    }
    let near = sides
        .iter()
        .filter(|side| off(side) <= 1.5 * least + AS_NEAR);
    let points = near.flat_map(|side| {
        BoxCorner::ALL.map(|corner| {
            let share = share_on_segment(corner.of(piece), *side);
            side[0] + (side[1] - side[0]) * share
        })
    });
    Some(points.fold(piece, |all, point| {
        all.union(&Bounds {
            min: point,
            max: point,
        })
    }))
}

/// The distance of a segment from a box, 0 where it enters.
fn distance(piece: Bounds, [from, to]: [Point; 2]) -> f64 {
    let outside = |point: Point| {
        let off = (piece.min - point).sup(&(point - piece.max));
        off.sup(&Vector::zeros()).norm()
    };
    // The distance from a convex region is convex along the segment: thirds close in on the least.
    let at = |share: f64| outside(from + (to - from) * share);
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let third = (high - low) / 3.0;
        if at(low + third) <= at(high - third) {
            high -= third;
        } else {
            low += third;
        }
    }
    at((low + high) / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(kind: ClothLineKind, from: f64, to: [f64; 2]) -> ClothLine {
        let corners = [(from, from), (to[0], from), (to[0], to[1]), (from, to[1])];
        let corners = corners.map(|(x, y)| Point::new(x, y)).to_vec();
        ClothLine { kind, corners }
    }

    fn bounds(min: [f64; 2], max: [f64; 2]) -> Bounds {
        Bounds {
            min: min.into(),
            max: max.into(),
        }
    }

    /// A quilt of 1600 x 2000 mm with a border of 150, gaps of 12 at the edge and 6 at the seam.
    fn cloth() -> [ClothLine; 2] {
        [
            line(ClothLineKind::RawEdge, 0.0, [1600.0, 2000.0]),
            line(ClothLineKind::InnerSeam, 150.0, [1450.0, 1850.0]),
        ]
    }

    #[test]
    fn a_side_has_the_edge_on_one_hand_and_the_seam_on_the_other() {
        let (found, shown) = beside(bounds([350.0, 12.0], [1250.0, 144.0]), &cloth()).expect("cut");
        assert_eq!(shown, bounds([350.0, 0.0], [1250.0, 150.0]));
        let kinds: Vec<_> = found.iter().map(|(kind, _)| *kind).collect();
        assert_eq!(kinds, [ClothLineKind::RawEdge, ClothLineKind::InnerSeam]);
        for ((_, line), y) in found.iter().zip([0.0, 150.0]) {
            assert!(line.points().iter().all(|point| (point.y - y).abs() < 1e-9));
            assert!((line.length() - (900.0 + 2.0 * ROOM)).abs() < 1e-9);
        }
    }

    #[test]
    fn a_corner_has_both_edges_and_the_corner_of_the_seam() {
        // An L reaches along both legs, a block ends before the seam.
        for (far, seam) in [(350.0, 2.0 * (350.0 + ROOM - 150.0)), (144.0, 2.0 * ROOM)] {
            let piece = bounds([12.0, 12.0], [far, far]);
            let (found, shown) = beside(piece, &cloth()).expect("cut");
            assert_eq!(shown.min, Point::origin());
            assert_eq!(
                shown.max,
                Point::new(f64::max(far, 150.0), f64::max(far, 150.0))
            );
            let length = |wanted: ClothLineKind| -> f64 {
                let of = found.iter().filter(|(kind, _)| *kind == wanted);
                of.map(|(_, line)| line.length()).sum()
            };
            assert!(
                (length(ClothLineKind::InnerSeam) - seam).abs() < 1e-9,
                "{found:?}"
            );
            let edges = 2.0 * (shown.max.x + ROOM);
            assert!(
                (length(ClothLineKind::RawEdge) - edges).abs() < 1e-9,
                "{found:?}"
            );
        }
    }

    #[test]
    fn a_leaning_edge_is_shown_for_the_whole_length_of_the_piece() {
        let mut leaning = cloth();
        leaning[0].corners[1].y = -28.0;
        let piece = bounds([350.0, 12.0], [1250.0, 144.0]);
        let (found, shown) = beside(piece, &leaning).expect("cut");
        assert!(shown.min.y < -28.0 * 1250.0 / 1600.0 + 0.1, "{shown:?}");
        assert!(found[0].1.bounds().max.x > 1250.0 && found[0].1.bounds().min.x < 350.0);
    }

    #[test]
    fn what_is_far_from_the_piece_is_not_shown() {
        let piece = bounds([600.0, 600.0], [900.0, 900.0]);
        let (found, shown) = beside(piece, &cloth()).expect("cut");
        assert!(found.is_empty());
        assert_eq!(shown, piece);
    }
}
