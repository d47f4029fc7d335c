//! What an edge cuts off on a screen: the page, and the frames of nested drawings.

use kurbo::{Affine, BezPath, PathEl};

use crate::geom::curve_bounds::curve_bounds;
use crate::geom::{Bounds, Point};
use crate::transform::Transform;

use super::notes::Note;

/// How far from the edge of the page a rectangle still lies on it, in sizes of the page.
const ON_EDGE: f64 = 0.002;

/// The frame of a nested drawing, which hides what lies beyond it.
pub(super) struct Frame {
    /// From millimetres to the coordinates of the rectangle.
    inward: Affine,
    shown: Bounds,
    /// The frame round it.
    pub(super) outer: Option<usize>,
}

impl Frame {
    /// `None` for a frame without area.
    pub(super) fn new(shown: Bounds, to_mm: &Transform, outer: Option<usize>) -> Option<Self> {
        let inverse = to_mm.inverse().ok()?;
        Some(Self {
            inward: Affine::new(inverse.coefficients()),
            shown,
            outer,
        })
    }

    pub(super) fn cuts(&self, path: &BezPath) -> bool {
        let slack = 1e-6 * self.shown.size().norm();
        curve_bounds(&(self.inward * path))
            .is_some_and(|bounds| !holds(&self.shown, &bounds, slack))
    }
}

fn holds(outer: &Bounds, inner: &Bounds, slack: f64) -> bool {
    inner.min.x >= outer.min.x - slack
        && inner.min.y >= outer.min.y - slack
        && inner.max.x <= outer.max.x + slack
        && inner.max.y <= outer.max.y + slack
}

/// What a filled shape is to the page where it is an upright rectangle that fills it, or is cut off
/// at its edge.
pub(super) fn on_page(path: &BezPath, page: &Bounds) -> Option<Note> {
    let rectangle = upright(path)?;
    let slack = ON_EDGE * page.width().max(page.height());
    let meets = rectangle.min.x < page.max.x - slack
        && rectangle.min.y < page.max.y - slack
        && rectangle.max.x > page.min.x + slack
        && rectangle.max.y > page.min.y + slack;
    if holds(&rectangle, page, slack) {
        Some(Note::PageBox)
    } else if meets && !holds(page, &rectangle, slack) {
        Some(Note::CutBox)
    } else {
        None
    }
}

/// The rectangle that a path is, when its sides are level and upright.
fn upright(path: &BezPath) -> Option<Bounds> {
    let mut corners: Vec<Point> = Vec::with_capacity(5);
    for (at, element) in path.elements().iter().enumerate() {
        match element {
            PathEl::MoveTo(to) if at == 0 => corners.push(Point::new(to.x, to.y)),
            PathEl::LineTo(to) if corners.len() < 5 => corners.push(Point::new(to.x, to.y)),
            PathEl::ClosePath => {}
            _ => return None,
        }
    }
    if corners.len() == 5 && corners.first() == corners.last() {
        corners.pop();
    }
    let [a, b, c, d] = corners[..] else {
        return None;
    };
    let bounds = Bounds::of([a, b, c, d])?;
    let slack = 1e-9 * bounds.size().norm();
    let same = |one: f64, other: f64| (one - other).abs() <= slack;
    let level_first = same(a.y, b.y) && same(b.x, c.x) && same(c.y, d.y) && same(d.x, a.x);
    let upright_first = same(a.x, b.x) && same(b.y, c.y) && same(c.x, d.x) && same(d.y, a.y);
    let has_area = bounds.width() > 0.0 && bounds.height() > 0.0;
    (has_area && (level_first || upright_first)).then_some(bounds)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn note(data: &str) -> Option<Note> {
        let page = Bounds::of([Point::new(0.0, 0.0), Point::new(100.0, 50.0)]).expect("a page");
        on_page(&BezPath::from_svg(data).expect(data), &page)
    }

    #[test]
    fn rectangles_that_fill_the_page_are_known() {
        for data in [
            "M0 0H100V50H0Z",
            "M0 0V50H100V0H0",
            "M100 50H0V0H100z",
            "M.1 .1H99.9V49.9H.1Z",
            "M-9 -9H109V59H-9Z",
        ] {
            assert_eq!(note(data), Some(Note::PageBox), "{data}");
        }
        for data in ["M50 10H150V20H50Z", "M-5 -5H50V20H-5Z", "M-1 10H101V20H-1Z"] {
            assert_eq!(note(data), Some(Note::CutBox), "{data}");
        }
        for data in [
            "M1 1H99V49H1Z",
            "M0 0H100V50",
            "M0 0L100 1L100 50L0 50Z",
            "M0 0H100V50H0ZM1 1H2V2Z",
            "M0 0C1 0 2 0 100 0V50H0Z",
            "M200 0H300V50H200Z",
        ] {
            assert_eq!(note(data), None, "{data}");
        }
    }
}
