//! Vertices with bulges to curves.
//!
//! The bulge of a segment is the tangent of a quarter of its angle, positive where it turns left (y
//! up), by the published DXF reference. An arc is halved until a piece turns no more than half a
//! radian; then it is one cubic with the tangents of the arc at its ends, whose handles are (4/3)
//! tan(angle/4) radii long. In terms of the chord and the bulge b they are (1 + b²)/3 chords, the
//! middle of an arc lies b/2 chords off the middle of its chord, and half of an arc has the bulge b
//! / (1 + √(1 + b²)). No centre and no radius is needed, so that flat arcs keep all digits.
//!
//! Guarantee: ends of pieces lie on the arc to rounding; between them a cubic is off by at most
//! (4/27) sin⁶(angle/4) / cos²(angle/4) of the radius (kurbo's and others' well-known bound for
//! this cubic), here 6e-7, which a test measures. A bulge that is not finite is refused before.

use kurbo::{Point, Vec2};

use crate::io::pen::Pen;

/// The bulge of half a radian: tan(1/8).
const FLAT: f64 = 0.125_655_136_575_130_96;

/// A corner of a polyline, with the bulge of the segment that starts there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Vertex {
    pub(super) at: Point,
    pub(super) bulge: f64,
}

/// Draws a polyline.
pub(super) fn draw(vertices: &[Vertex], closed: bool, pen: &mut Pen) {
    let (Some(first), Some(last)) = (vertices.first(), vertices.last()) else {
        return;
    };
    pen.move_to(first.at);
    for pair in vertices.windows(2) {
        segment(pair[0].at, pair[1].at, pair[0].bulge, pen);
    }
    if closed {
        if last.bulge != 0.0 && vertices.len() > 1 {
            segment(last.at, first.at, last.bulge, pen);
        }
        pen.close();
    }
}

fn segment(from: Point, to: Point, bulge: f64, pen: &mut Pen) {
    if bulge == 0.0 {
        return pen.line_to(to);
    }
    let chord = to - from;
    let right = Vec2::new(chord.y, -chord.x);
    if bulge.abs() > FLAT {
        let middle = from.midpoint(to) + right * (bulge / 2.0);
        let half = bulge / (1.0 + bulge.hypot(1.0));
        segment(from, middle, half, pen);
        return segment(middle, to, half, pen);
    }
    let along = chord * ((1.0 - bulge * bulge) / 3.0);
    let aside = right * (2.0 * bulge / 3.0);
    pen.curve_to(from + along + aside, to - along + aside, to);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::transform::Transform;
    use kurbo::{BezPath, ParamCurve};
    use proptest::prelude::*;

    fn drawn(vertices: &[(f64, f64, f64)], closed: bool) -> BezPath {
        let vertices: Vec<_> = vertices
            .iter()
            .map(|&(x, y, bulge)| Vertex {
                at: Point::new(x, y),
                bulge,
            })
            .collect();
        let mut pen = Pen::new(&Transform::identity());
        draw(&vertices, closed, &mut pen);
        pen.finish().expect("within the limits")
    }

    #[test]
    fn straight_polylines_are_their_corners() {
        let corners = [(0.0, 0.0, 0.0), (4.0, 0.0, 0.0), (4.0, 3.0, 0.0)];
        assert_eq!(drawn(&corners, false).to_svg(), "M0,0 L4,0 L4,3");
        assert_eq!(drawn(&corners, true).to_svg(), "M0,0 L4,0 L4,3 Z");
        assert_eq!(drawn(&corners[..1], true).to_svg(), "");
        assert_eq!(drawn(&[], true).to_svg(), "");
    }

    #[test]
    fn two_half_turns_are_a_circle() {
        // A bulge of 1 is half a circle, turning left: from (1, 0) by (0, 1) to (-1, 0).
        let path = drawn(&[(1.0, 0.0, 1.0), (-1.0, 0.0, 1.0)], true);
        for (at, segment) in path.segments().enumerate() {
            for t in 0..=8 {
                let point = segment.eval(f64::from(t) / 8.0);
                assert!((point.to_vec2().hypot() - 1.0).abs() < 1e-6, "{point}");
                assert!(at >= 8 || point.y >= -1e-9, "{point}");
            }
        }
    }

    proptest! {
        #[test]
        fn arcs_lie_on_their_circle(bulge in prop_oneof![-20.0..20.0f64, -1e-3..1e-3f64], x in 0.1..90.0f64, y in -90.0..90.0f64) {
            prop_assume!(bulge.abs() > 1e-6);
            let path = drawn(&[(3.0, 4.0, bulge), (x, y, 0.0)], false);
            let (from, to) = (Point::new(3.0, 4.0), Point::new(x, y));
            // Elementary: the angle is 4 atan b, the radius half the chord over the sine of half of
            // it.
            let angle = 4.0 * bulge.atan();
            let radius = (to - from).hypot() / (2.0 * (angle / 2.0).sin());
            let chord = (to - from).normalize();
            let left = Vec2::new(-chord.y, chord.x);
            let centre = from.midpoint(to) + left * (radius * (angle / 2.0).cos());
            let segments: Vec<_> = path.segments().collect();
            prop_assert_eq!(segments[segments.len() - 1].end(), to);
            for segment in &segments {
                for t in 0..=8 {
                    let off = (segment.eval(f64::from(t) / 8.0).distance(centre) - radius.abs()) / radius;
                    prop_assert!(off.abs() < 7e-7, "{off}");
                }
            }
        }
    }
}
