//! Draws segments in the coordinates of an element and keeps their images in those of the drawing.

use kurbo::{Arc, BezPath, PathEl, Point, Vec2};

use crate::geom::MAX_COORDINATE;
use crate::transform::Transform;

/// How far the cubics of an arc may be from the arc, in radii.
///
/// A millionth: 1 µm on a radius of 1 m, far below every flattening tolerance.
const ARC_TOLERANCE: f64 = 1e-6;

/// An elliptical arc as SVG writes it: radii, turn of the axes in degrees, and which of four arcs.
#[derive(Debug, Clone, Copy)]
pub(super) struct ArcShape {
    pub(super) radii: Vec2,
    pub(super) degrees: f64,
    pub(super) large: bool,
    pub(super) sweep: bool,
}

/// Collects the images of segments; subpaths without length are left out.
pub(super) struct Pen {
    map: [f64; 6],
    drawn: Vec<PathEl>,
    start: Point,
    at: Point,
    /// Where the current subpath begins in `drawn`.
    from: usize,
    /// Whether the current subpath has gone anywhere.
    inked: bool,
    open: bool,
    /// Whether the current subpath has a segment, with or without length.
    dotted: bool,
    /// How many subpaths with segments went nowhere.
    dots: usize,
    beyond: Option<f64>,
}

impl Pen {
    pub(super) fn new(to_mm: &Transform) -> Self {
        Self {
            map: to_mm.coefficients(),
            drawn: Vec::new(),
            start: Point::ZERO,
            at: Point::ZERO,
            from: 0,
            inked: false,
            open: false,
            dotted: false,
            dots: 0,
            beyond: None,
        }
    }

    /// Where the pen is, in the coordinates of the element.
    pub(super) fn at(&self) -> Point {
        self.at
    }

    pub(super) fn move_to(&mut self, to: Point) {
        self.drop_idle();
        (self.start, self.at) = (to, to);
        self.begin();
    }

    pub(super) fn line_to(&mut self, to: Point) {
        self.reach(to, to, to);
        let image = self.image(to);
        self.drawn.push(PathEl::LineTo(image));
    }

    pub(super) fn quad_to(&mut self, control: Point, to: Point) {
        self.reach(control, control, to);
        let image = PathEl::QuadTo(self.image(control), self.image(to));
        self.drawn.push(image);
    }

    pub(super) fn curve_to(&mut self, first: Point, second: Point, to: Point) {
        self.reach(first, second, to);
        let image = PathEl::CurveTo(self.image(first), self.image(second), self.image(to));
        self.drawn.push(image);
    }

    /// Draws an arc by SVG 2, appendix B.2: radii too small grow, a radius of 0 is a line.
    pub(super) fn arc_to(&mut self, shape: ArcShape, to: Point) {
        let from = self.at;
        let mut radii = Vec2::new(shape.radii.x.abs(), shape.radii.y.abs());
        if from == to {
            // An arc to its own start is left out, but with a round end it is a dot.
            self.dotted = true;
            return;
        }
        if radii.x == 0.0 || radii.y == 0.0 {
            return self.line_to(to);
        }
        let (sin, cos) = shape.degrees.to_radians().sin_cos();
        let half = (from - to) / 2.0;
        // From here on in units of the radii, so that the ellipse is the unit circle.
        let mut end = Vec2::new(
            (cos * half.x + sin * half.y) / radii.x,
            (cos * half.y - sin * half.x) / radii.y,
        );
        let square = end.hypot2();
        let mut off = 0.0;
        if square > 1.0 {
            radii *= square.sqrt();
            end /= square.sqrt();
        } else {
            off = ((1.0 - square) / square).sqrt();
        }
        if shape.large == shape.sweep {
            off = -off;
        }
        let centre = Vec2::new(off * end.y, -off * end.x);
        let start_angle = (end - centre).atan2();
        let mut turn = (-end - centre).atan2() - start_angle;
        if shape.sweep && turn < 0.0 {
            turn += std::f64::consts::TAU;
        } else if !shape.sweep && turn > 0.0 {
            turn -= std::f64::consts::TAU;
        }
        let frame = EllipseAxes {
            centre: from.midpoint(to),
            x: Vec2::new(cos, sin) * radii.x,
            y: Vec2::new(-sin, cos) * radii.y,
        };
        self.sweep(frame, centre, start_angle, turn, to);
    }

    /// Draws a quarter of an ellipse whose axes lie along x and y, from this angle to `to`.
    pub(super) fn quarter(&mut self, centre: Point, radii: Vec2, quarters: f64, to: Point) {
        let frame = EllipseAxes {
            centre,
            x: Vec2::new(radii.x, 0.0),
            y: Vec2::new(0.0, radii.y),
        };
        let quarter = std::f64::consts::FRAC_PI_2;
        self.sweep(frame, Vec2::ZERO, quarters * quarter, quarter, to);
    }

    /// Draws an arc of the unit circle about `centre` in this frame, from the angle `start` by
    /// `turn` radians, and ends at `to` to the last bit.
    pub(super) fn sweep(
        &mut self,
        frame: EllipseAxes,
        centre: Vec2,
        start: f64,
        turn: f64,
        to: Point,
    ) {
        let arc = Arc::new(centre.to_point(), (1.0, 1.0), start, turn, 0.0);
        let mut pieces = arc.append_iter(ARC_TOLERANCE).peekable();
        while let Some(PathEl::CurveTo(first, second, end)) = pieces.next() {
            let last = pieces.peek().is_none();
            let end = if last { to } else { frame.place(end) };
            self.curve_to(frame.place(first), frame.place(second), end);
        }
        // A turn too small for f64 leaves no piece at all.
        if self.at != to {
            self.line_to(to);
        }
    }

    pub(super) fn close(&mut self) {
        if self.open && self.inked {
            self.drawn.push(PathEl::ClosePath);
        } else {
            self.dotted = self.open;
            self.drop_idle();
        }
        self.open = false;
        self.at = self.start;
    }

    /// The path in millimetres; or the coordinate that is beyond the limit or not finite.
    pub(super) fn finish(self) -> Result<BezPath, f64> {
        self.finish_counting().map(|(path, _)| path)
    }

    /// As [`Pen::finish`], and how many parts without length were left out.
    pub(super) fn finish_counting(mut self) -> Result<(BezPath, usize), f64> {
        self.drop_idle();
        match self.beyond {
            Some(value) => Err(value),
            None => Ok((BezPath::from_vec(self.drawn), self.dots)),
        }
    }

    fn begin(&mut self) {
        self.from = self.drawn.len();
        let image = self.image(self.start);
        self.drawn.push(PathEl::MoveTo(image));
        self.open = true;
        self.inked = false;
        self.dotted = false;
    }

    fn reach(&mut self, first: Point, second: Point, to: Point) {
        if !self.open {
            self.begin();
        }
        let start = self.start;
        self.dotted = true;
        self.inked = self.inked || to != start || first != start || second != start;
        self.at = to;
    }

    fn drop_idle(&mut self) {
        if self.open && !self.inked {
            self.drawn.truncate(self.from);
            self.dots += usize::from(self.dotted);
            self.open = false;
        }
    }

    fn image(&mut self, point: Point) -> Point {
        let [a, b, c, d, e, f] = self.map;
        let x = a * point.x + c * point.y + e;
        let y = b * point.x + d * point.y + f;
        for value in [x, y] {
            if !(-MAX_COORDINATE..=MAX_COORDINATE).contains(&value) {
                self.beyond.get_or_insert(value);
            }
        }
        Point::new(x, y)
    }
}

/// The axes in which an ellipse is the unit circle.
pub(super) struct EllipseAxes {
    pub(super) centre: Point,
    pub(super) x: Vec2,
    pub(super) y: Vec2,
}

impl EllipseAxes {
    pub(super) fn place(&self, unit: Point) -> Point {
        self.centre + self.x * unit.x + self.y * unit.y
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{ParamCurve, Shape};
    use proptest::prelude::*;

    fn pen() -> Pen {
        Pen::new(&Transform::identity())
    }

    #[test]
    fn subpaths_without_length_are_left_out() {
        let mut pen = pen();
        let (a, b) = (Point::new(1.0, 1.0), Point::new(2.0, 1.0));
        pen.move_to(a);
        pen.line_to(a);
        pen.close();
        pen.move_to(b);
        pen.move_to(a);
        pen.line_to(b);
        pen.close();
        pen.close();
        pen.line_to(b);
        pen.move_to(a);
        let (path, dots) = pen.finish_counting().expect("within the limits");
        assert_eq!(path.to_svg(), "M1,1 L2,1 Z M1,1 L2,1");
        // A move alone paints nothing, whatever its ends are like.
        assert_eq!(dots, 1);
    }

    #[test]
    fn what_is_not_finite_or_too_far_is_reported() {
        let mut far = Pen::new(&Transform::scale(1e6, 1.0));
        far.move_to(Point::ZERO);
        far.line_to(Point::new(1e6, 0.0));
        assert_eq!(far.finish().expect_err("too far"), 1e12);
        let mut wild = pen();
        wild.move_to(Point::ZERO);
        wild.line_to(Point::new(1.0, f64::NAN));
        assert!(wild.finish().expect_err("no number").is_nan());
    }

    proptest! {
        // SVG 2, appendix B.2.5: radii too small are scaled up until they just reach.
        #[test]
        fn arcs_lie_on_their_ellipse(
            x in -50.0..50.0f64, y in -50.0..50.0f64, rx in 0.01..80.0f64, ry in 0.01..80.0f64,
            degrees in -400.0..400.0f64, large: bool, sweep: bool,
        ) {
            let (from, to) = (Point::new(3.0, 4.0), Point::new(x, y));
            prop_assume!((to - from).hypot() > 0.1);
            let mut pen = pen();
            pen.move_to(from);
            pen.arc_to(ArcShape { radii: Vec2::new(rx, ry), degrees, large, sweep }, to);
            let path = pen.finish().expect("within the limits");
            let cubics: Vec<_> = path.segments().collect();
            prop_assert_eq!(cubics[0].start(), from);
            prop_assert_eq!(cubics[cubics.len() - 1].end(), to);
            // In the frame of the ellipse all points have one distance from the centre.
            let (sin, cos) = degrees.to_radians().sin_cos();
            let flat = |p: Point| Point::new((cos * p.x + sin * p.y) / rx, (cos * p.y - sin * p.x) / ry);
            let (a, b) = (flat(from), flat(to));
            let radius = (a.distance(b) / 2.0).max(1.0);
            let off = (radius * radius - a.distance_squared(b) / 4.0).max(0.0).sqrt();
            let normal = (b - a).turn_90() / a.distance(b);
            let side = if large == sweep { 1.0 } else { -1.0 };
            let mut closest = f64::INFINITY;
            for side in [side, -side] {
                let centre = a.midpoint(b) + normal * off * side;
                let worst = cubics.iter().flat_map(|s| (0..=8).map(move |t| s.eval(f64::from(t) / 8.0)))
                    .map(|p| (flat(p).distance(centre) - radius).abs() / radius)
                    .fold(0.0, f64::max);
                closest = closest.min(worst);
            }
            prop_assert!(closest < 2e-6, "{closest}");
            prop_assert!(path.perimeter(1e-3).is_finite());
        }
    }
}
