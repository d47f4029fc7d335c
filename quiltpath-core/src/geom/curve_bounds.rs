//! The exact box of a curve: of what is drawn, not of its control points.
//!
//! Problem: the smallest box, sides along the axes, that holds all segments of a path. Method: the
//! box of the ends of the segments first; a Bézier segment lies in the hull of its controls, so one
//! whose controls lie in that box adds nothing, and of the others alone the places are found where
//! x or y turns back (`kurbo`, roots of the derivative). Guarantee: that of the segments' own boxes
//! within rounding, held against them by proptest; no segment is skipped that reaches farther.
//! Failure: coordinates that are not finite give a box that is not.

use kurbo::{BezPath, CubicBez, PathEl, QuadBez, Shape};

use super::{Bounds, Point};

/// The smallest box that holds the segments of a path; `None` when it has none.
///
/// In the unit of the path, x to the right, y down. A move that draws nothing doesn't count.
///
/// ```
/// use quiltpath_core::geom::curve_bounds::curve_bounds;
///
/// let arch = kurbo::BezPath::from_svg("M0 0 C 0 4 8 4 8 0").unwrap();
/// let bounds = curve_bounds(&arch).unwrap();
/// assert_eq!((bounds.width(), bounds.height()), (8.0, 3.0));
/// ```
///
/// # Complexity
///
/// O(segments), two passes, no allocation.
#[must_use]
pub fn curve_bounds(path: &BezPath) -> Option<Bounds> {
    let mut bounds = Span::NOTHING;
    let mut from = kurbo::Point::ORIGIN;
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(to) => from = to,
            PathEl::LineTo(to) | PathEl::QuadTo(_, to) | PathEl::CurveTo(_, _, to) => {
                bounds.add(from);
                bounds.add(to);
                from = to;
            }
            // Back to the start of the subpath, which counts already if anything was drawn.
            PathEl::ClosePath => {}
        }
    }
    let mut start = kurbo::Point::ORIGIN;
    for element in path.elements() {
        let (to, bulge) = match *element {
            PathEl::MoveTo(to) => {
                start = to;
                (to, None)
            }
            PathEl::LineTo(to) => (to, None),
            PathEl::QuadTo(control, to) => {
                let reaches = !bounds.holds(control);
                let bulge = || QuadBez::new(from, control, to).bounding_box();
                (to, reaches.then(bulge))
            }
            PathEl::CurveTo(first, second, to) => {
                let reaches = !(bounds.holds(first) && bounds.holds(second));
                let bulge = || CubicBez::new(from, first, second, to).bounding_box();
                (to, reaches.then(bulge))
            }
            PathEl::ClosePath => (start, None),
        };
        if let Some(bulge) = bulge {
            bounds.add(kurbo::Point::new(bulge.x0, bulge.y0));
            bounds.add(kurbo::Point::new(bulge.x1, bulge.y1));
        }
        from = to;
    }
    bounds.found()
}

/// A box that may hold nothing yet.
struct Span {
    min: kurbo::Point,
    max: kurbo::Point,
}

impl Span {
    const NOTHING: Self = Self {
        min: kurbo::Point::new(f64::INFINITY, f64::INFINITY),
        max: kurbo::Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY),
    };

    fn add(&mut self, at: kurbo::Point) {
        self.min = kurbo::Point::new(self.min.x.min(at.x), self.min.y.min(at.y));
        self.max = kurbo::Point::new(self.max.x.max(at.x), self.max.y.max(at.y));
    }

    fn holds(&self, at: kurbo::Point) -> bool {
        (self.min.x..=self.max.x).contains(&at.x) && (self.min.y..=self.max.y).contains(&at.y)
    }

    fn found(&self) -> Option<Bounds> {
        (self.min.x <= self.max.x && self.min.y <= self.max.y).then(|| Bounds {
            min: Point::new(self.min.x, self.min.y),
            max: Point::new(self.max.x, self.max.y),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn bounds(data: &str) -> Option<[f64; 4]> {
        let path = BezPath::from_svg(data).expect("path data");
        let bounds = curve_bounds(&path)?;
        Some([bounds.min.x, bounds.min.y, bounds.max.x, bounds.max.y])
    }

    #[test]
    fn what_is_not_drawn_does_not_count() {
        assert_eq!(bounds("M5 5"), None);
        assert_eq!(bounds("M0 0L2 1M9 9"), Some([0.0, 0.0, 2.0, 1.0]));
        assert_eq!(bounds("M9 9M0 0L2 1"), Some([0.0, 0.0, 2.0, 1.0]));
        assert_eq!(bounds("M0 0L2 0L2 2ZL-1 1"), Some([-1.0, 0.0, 2.0, 2.0]));
    }

    // A parabola is highest at half the height of its control, a cubic with level arms at 3/4.
    #[test]
    fn bulges_are_held_as_far_as_they_go() {
        assert_eq!(bounds("M0 0Q4 4 8 0"), Some([0.0, 0.0, 8.0, 2.0]));
        assert_eq!(bounds("M0 0C0-4 8-4 8 0"), Some([0.0, -3.0, 8.0, 0.0]));
    }

    fn at() -> impl Strategy<Value = kurbo::Point> {
        (-9.0..9.0f64, -9.0..9.0f64).prop_map(kurbo::Point::from)
    }

    fn element() -> impl Strategy<Value = PathEl> {
        prop_oneof![
            at().prop_map(PathEl::MoveTo),
            at().prop_map(PathEl::LineTo),
            (at(), at()).prop_map(|(a, b)| PathEl::QuadTo(a, b)),
            (at(), at(), at()).prop_map(|(a, b, c)| PathEl::CurveTo(a, b, c)),
            Just(PathEl::ClosePath),
        ]
    }

    proptest! {
        #[test]
        fn the_box_is_that_of_all_segments(
            start in at(), rest in prop::collection::vec(element(), 0..12)
        ) {
            let path: BezPath = std::iter::once(PathEl::MoveTo(start)).chain(rest).collect();
            let boxes = path.segments().map(|segment| segment.bounding_box());
            let expected = boxes.reduce(|a, b| a.union(b));
            let found = curve_bounds(&path);
            prop_assert_eq!(found.is_some(), expected.is_some());
            if let (Some(found), Some(expected)) = (found, expected) {
                prop_assert!((found.min.x - expected.x0).abs() < 1e-12);
                prop_assert!((found.min.y - expected.y0).abs() < 1e-12);
                prop_assert!((found.max.x - expected.x1).abs() < 1e-12);
                prop_assert!((found.max.y - expected.y1).abs() < 1e-12);
            }
        }
    }
}
