//! The plane that an entity is drawn in, by its direction of extrusion.
//!
//! Coordinates of arcs, circles, polylines with bulges and inserted blocks are in a system of their
//! own, whose z axis is the extrusion and whose x and y axes follow from it by the arbitrary axis
//! algorithm of the published DXF reference: x is Y × z where z is within 1/64 of the world's Z,
//! and Z × z elsewhere; y is z × x. Seen from above, which drops the world's z, a plane is an
//! affine map. The usual extrusion is (0, 0, 1), which changes nothing; (0, 0, -1) mirrors x. Any
//! other is a drawing tilted out of the page, which is exact as a view from above, and not what its
//! author draws on paper, so that it is noted.

use super::pairs::Record;
use crate::error::Error;
use crate::transform::Transform;

/// How far from upright, as a sine, an extrusion is still taken as upright.
const UPRIGHT: f64 = 1e-9;

/// A plane by its axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Plane {
    x: [f64; 3],
    y: [f64; 3],
    z: [f64; 3],
}

impl Plane {
    /// The plane that the groups 210, 220 and 230 of an entity give.
    pub(super) fn of(record: &Record<'_>) -> Result<Self, Error> {
        let [x, y, z] = record.numbers([210, 220, 230])?;
        Ok(match (x, y, z) {
            (None, None, None) => Self::new([0.0, 0.0, 1.0]),
            _ => Self::new([x, y, z].map(Option::unwrap_or_default)),
        })
    }

    /// The plane with this extrusion; one without length is taken as upright.
    fn new(extrusion: [f64; 3]) -> Self {
        const NEAR: f64 = 1.0 / 64.0;
        let mut z = unit(extrusion).unwrap_or([0.0, 0.0, 1.0]);
        if z[0].hypot(z[1]) < UPRIGHT {
            z = [0.0, 0.0, z[2].signum()];
        }
        let upright = z[0].abs() < NEAR && z[1].abs() < NEAR;
        let world = if upright {
            [0.0, 1.0, 0.0]
        } else {
            [0.0, 0.0, 1.0]
        };
        let x = unit(cross(world, z)).unwrap_or([1.0, 0.0, 0.0]);
        Self {
            x,
            y: cross(z, x),
            z,
        }
    }

    pub(super) fn is_tilted(&self) -> bool {
        self.z[0] != 0.0 || self.z[1] != 0.0
    }

    /// The z axis.
    pub(super) fn normal(&self) -> [f64; 3] {
        self.z
    }

    /// The view from above of what lies this high in the plane's own system.
    pub(super) fn seen(&self, height: f64) -> Transform {
        let Self { x, y, z } = self;
        Transform::new([
            x[0] + 0.0,
            x[1] + 0.0,
            y[0] + 0.0,
            y[1] + 0.0,
            z[0] * height,
            z[1] * height,
        ])
    }
}

pub(super) fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

/// The vector with the length 1; `None` where it has none.
fn unit(vector: [f64; 3]) -> Option<[f64; 3]> {
    let largest = vector
        .iter()
        .fold(0.0, |most: f64, part| most.max(part.abs()));
    if largest == 0.0 || !largest.is_finite() {
        return None;
    }
    // Scaled first, since squares of huge or tiny parts are beyond all numbers.
    let scaled = vector.map(|part| part / largest);
    let length = scaled.iter().map(|part| part * part).sum::<f64>().sqrt();
    Some(scaled.map(|part| part / length))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;

    #[test]
    fn an_extrusion_downwards_mirrors_x() {
        let up = Plane::new([0.0, 0.0, 2.0]);
        assert!(!up.is_tilted());
        assert_eq!(up.seen(7.0), Transform::identity());
        let down = Plane::new([0.0, 0.0, -1e-300]);
        assert!(!down.is_tilted());
        assert_eq!(down.seen(7.0), Transform::scale(-1.0, 1.0));
        assert_eq!(Plane::new([0.0; 3]), up);
    }

    #[test]
    fn a_tilted_plane_is_seen_from_above() {
        // By hand: with z = (1, 0, 0), x is Z × z = (0, 1, 0) and y is z × x = (0, 0, 1).
        let wall = Plane::new([1e200, 0.0, 0.0]);
        assert!(wall.is_tilted());
        let seen = wall.seen(5.0).apply(Point::new(3.0, 4.0));
        assert_eq!(seen, Point::new(5.0, 3.0));
        // z = (0, -0.6, 0.8): x = Z × z = (1, 0, 0), y = z × x = (0, 0.8, 0.6).
        let slope = Plane::new([0.0, -3.0, 4.0]);
        let seen = slope.seen(0.0).apply(Point::new(1.0, 10.0));
        assert!((seen - Point::new(1.0, 8.0)).norm() < 1e-12);
    }
}
