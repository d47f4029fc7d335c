//! How the quilt lies on the frame, and what of it is stitched while it lies so.
//!
//! Problem: a frame rolls the quilt along y and reaches only a throat of it, but the full width. A
//! side that runs down the quilt is cut at every advance, unless the quilt is taken off, turned by
//! 90 degrees and loaded again: then that side lies across.
//! Method: a piece that is clearly taller than wide goes into the turned loading; one that is as
//! wide as tall, such as a corner, stays in the first with the sides that run across.
//! Guarantee: the rule looks at nothing but the box of a piece, so it holds for a quilt of any
//! shape. Failure: none.

use crate::geom::{Bounds, Point};
use crate::transform::Transform;

/// A piece taller than this times its width is stitched with the quilt turned.
///
/// Above 1, so that corners stay with the sides that run across though their legs may differ
/// somewhat. A side of a polygon goes into the turned loading above 51 degrees from level.
pub(super) const TURN_RATIO: f64 = 1.25;

/// How the quilt lies on the frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum Loading {
    /// Its top edge is stitched first.
    #[default]
    Upright,
    /// Turned by 90 degrees clockwise as seen: its left edge is stitched first, and its bottom edge
    /// lies to the left.
    Turned,
}

/// How often the quilt is loaded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum Loadings {
    /// Once, upright.
    #[default]
    Once,
    /// Upright first, then turned for the pieces that run down its sides.
    Twice,
}

impl Loading {
    /// Both, in the order of stitching.
    pub(super) const ALL: [Self; 2] = [Self::Upright, Self::Turned];

    /// The name in data: `upright` or `turned`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Upright => "upright",
            Self::Turned => "turned",
        }
    }

    /// The loading for a piece with this box when the quilt is loaded twice: turned when it is
    /// taller than 1.25 times its width.
    #[must_use]
    pub fn of(bounds: &Bounds) -> Self {
        if bounds.height() > TURN_RATIO * bounds.width() {
            Self::Turned
        } else {
            Self::Upright
        }
    }

    /// The other one.
    #[must_use]
    pub(super) fn other(self) -> Self {
        match self {
            Self::Upright => Self::Turned,
            Self::Turned => Self::Upright,
        }
    }

    /// How far along the roll of the quilt a point lies, in cloth coordinates.
    pub(super) fn along(self, point: Point) -> f64 {
        match self {
            Self::Upright => point.y,
            Self::Turned => point.x,
        }
    }

    /// The least and the greatest distance along the roll.
    pub(super) fn span(self, bounds: &Bounds) -> [f64; 2] {
        [self.along(bounds.min), self.along(bounds.max)]
    }

    /// The map from the cloth to the machine with a window whose upper edge lies this far below the
    /// upper edge of the quilt as loaded, and the map back.
    ///
    /// The machine's origin is where the window's upper edge meets the left edge of the quilt's
    /// box as loaded; x to the right, y down.
    pub(super) fn machine(self, quilt: &Bounds, top: f64) -> [Transform; 2] {
        match self {
            Self::Upright => {
                let (x, y) = (quilt.min.x, quilt.min.y + top);
                [Transform::translate(-x, -y), Transform::translate(x, y)]
            }
            Self::Turned => {
                let (x, y) = (quilt.max.y, quilt.min.x + top);
                [
                    Transform::rotate_degrees(90.0).then(Transform::translate(x, -y)),
                    Transform::translate(-x, y).then(Transform::rotate_degrees(-90.0)),
                ]
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn bounds(x: f64, y: f64, width: f64, height: f64) -> Bounds {
        Bounds {
            min: Point::new(x, y),
            max: Point::new(x + width, y + height),
        }
    }

    #[test]
    fn turned_clockwise_the_left_edge_is_at_the_top_and_the_bottom_edge_at_the_left() {
        let quilt = bounds(10.0, 20.0, 60.0, 80.0);
        let [to, _] = Loading::Turned.machine(&quilt, 0.0);
        let (top_left, bottom_left) = (Point::new(10.0, 20.0), Point::new(10.0, 100.0));
        assert_eq!(to.apply(bottom_left), Point::new(0.0, 0.0));
        assert_eq!(to.apply(top_left), Point::new(80.0, 0.0));
        assert_eq!(to.apply(Point::new(70.0, 100.0)), Point::new(0.0, 60.0));
        let [to, _] = Loading::Upright.machine(&quilt, 15.0);
        assert_eq!(to.apply(Point::new(12.0, 40.0)), Point::new(2.0, 5.0));
    }

    #[test]
    fn a_corner_stays_with_the_sides_that_run_across() {
        assert_eq!(Loading::of(&bounds(0.0, 0.0, 5.0, 6.0)), Loading::Upright);
        assert_eq!(Loading::of(&bounds(0.0, 0.0, 60.0, 5.0)), Loading::Upright);
        assert_eq!(Loading::of(&bounds(0.0, 0.0, 5.0, 60.0)), Loading::Turned);
        assert_eq!(Loading::of(&bounds(0.0, 0.0, 0.0, 3.0)), Loading::Turned);
    }

    proptest! {
        #[test]
        fn the_machine_sees_the_quilt_unmirrored_and_the_map_back_undoes_it(
            place in prop::array::uniform2(-500.0..500.0f64), size in prop::array::uniform2(1.0..3000.0f64),
            share in prop::array::uniform2(0.0..1.0f64), top in 0.0..2000.0f64, turned in any::<bool>(),
        ) {
            let quilt = bounds(place[0], place[1], size[0], size[1]);
            let loading = Loading::ALL[usize::from(turned)];
            let [to, back] = loading.machine(&quilt, top);
            let point = Point::new(place[0] + share[0] * size[0], place[1] + share[1] * size[1]);
            let seen = to.apply(point);
            prop_assert!((back.apply(seen) - point).norm() < 1e-9);
            prop_assert_eq!(to.determinant(), 1.0);
            let (across, down) = if turned { (size[1], size[0]) } else { (size[0], size[1]) };
            prop_assert!((-1e-9..=across + 1e-9).contains(&seen.x));
            prop_assert!((-1e-9..=down + 1e-9).contains(&(seen.y + top)));
            let [start, _] = loading.span(&quilt);
            prop_assert!((seen.y + top - (loading.along(point) - start)).abs() < 1e-9);
        }
    }
}
