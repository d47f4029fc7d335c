//! B-splines, rational or not, to cubics.
//!
//! Problem: a spline of degree p has control points with weights and knots; paths have cubics.
//! Method: each span between two different knots is brought to Bézier form by its blossom (de
//! Boor's recursion with the knots at its ends as arguments), in homogeneous coordinates (w x, w y,
//! w). A span is then followed by the cubic that has its ends and its derivatives there; where that
//! strays too far the span is halved by de Casteljau's rule.
//!
//! Guarantee: with N the numerators, w the weights and C the cubic, N − w C is a polynomial of
//! degree p + 3 whose Bézier coefficients bound it, and the least weight bounds w from below. So no
//! point of the span is farther than max|N − w C| / min w from the point of the cubic at the same
//! parameter, and that is held below [`TOLERANCE`]. Splines of degree 2 and 3 without weights are
//! cubics, and come out exactly but for rounding; those of degree 1 are lines. The error of the
//! cubic falls with the fourth power of the span, so that a few halvings do.
//!
//! Failure: weights that are not above 0, knots that fall, numbers that don't match. Knots that
//! break a spline in two (more of one kind than the degree) start a new part of the path.

use kurbo::{Point, Vec2};

use crate::io::pen::Pen;

/// How far a cubic may be from its spline, in diagonals of the box of the control points.
const TOLERANCE: f64 = 1e-6;

/// The same in units of the largest coordinate, which rounding can't go below.
const ROUNDING: f64 = 1e-12;

/// The highest degree that is drawn.
pub(super) const MAX_DEGREE: usize = 11;

/// How often a span is halved at most.
const MAX_HALVINGS: u32 = 16;

/// A point in homogeneous coordinates: (w x, w y, w).
type Weighted = [f64; 3];

/// A spline as it is written.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Spline {
    pub(super) degree: usize,
    pub(super) knots: Vec<f64>,
    pub(super) controls: Vec<Point>,
    /// One for each control point, or none where all are 1.
    pub(super) weights: Vec<f64>,
    pub(super) closed: bool,
}

impl Spline {
    /// Draws the spline, or says what is wrong with it.
    pub(super) fn draw(&self, pen: &mut Pen) -> Result<(), String> {
        self.check()?;
        let (p, n) = (self.degree, self.controls.len());
        let tolerance = self.tolerance();
        let mut start = None;
        for span in p..n {
            let [low, high] = [self.knots[span], self.knots[span + 1]];
            if low >= high {
                continue;
            }
            let part: Vec<Weighted> = (0..=p).map(|at| self.blossom(span, at)).collect();
            let broken = span > p && self.knots[span - p] == low;
            if start.is_none() || broken {
                let from = plain(part[0]);
                pen.move_to(from);
                start.get_or_insert(from);
            }
            follow(&part, tolerance, MAX_HALVINGS, pen)?;
        }
        match start {
            Some(start) if self.closed && (pen.at() - start).hypot() <= tolerance => pen.close(),
            Some(_) => {}
            None => return Err("all its knots are the same".to_owned()),
        }
        Ok(())
    }

    fn check(&self) -> Result<(), String> {
        let (p, n) = (self.degree, self.controls.len());
        if !(1..=MAX_DEGREE).contains(&p) {
            return Err(format!(
                "its degree is {p}, and 1 to {MAX_DEGREE} can be drawn"
            ));
        }
        if n <= p {
            return Err(format!(
                "it has {n} control points, and degree {p} takes at least {}",
                p + 1
            ));
        }
        if self.knots.len() != n + p + 1 {
            return Err(format!(
                "it has {} knots, and {n} control points of degree {p} take {}",
                self.knots.len(),
                n + p + 1
            ));
        }
        if self.knots.windows(2).any(|pair| pair[0] > pair[1]) {
            return Err("its knots are not in ascending order".to_owned());
        }
        if !self.weights.is_empty() && self.weights.len() != n {
            let found = self.weights.len();
            return Err(format!("it has {found} weights for {n} control points"));
        }
        if self.weights.iter().any(|&weight| weight <= 0.0) {
            return Err("a weight is not above 0".to_owned());
        }
        Ok(())
    }

    fn tolerance(&self) -> f64 {
        let mut least = [f64::INFINITY; 2];
        let mut most = [f64::NEG_INFINITY; 2];
        for point in &self.controls {
            for (axis, value) in [point.x, point.y].into_iter().enumerate() {
                least[axis] = least[axis].min(value);
                most[axis] = most[axis].max(value);
            }
        }
        let diagonal = (most[0] - least[0]).hypot(most[1] - least[1]);
        let largest = least
            .iter()
            .chain(&most)
            .fold(0.0, |all: f64, value| all.max(value.abs()));
        (TOLERANCE * diagonal).max(ROUNDING * largest)
    }

    /// The Bézier point number `at` of the span that begins at this knot: the blossom with `at`
    /// times the knot at its end and the knot at its start for the rest.
    fn blossom(&self, span: usize, at: usize) -> Weighted {
        let p = self.degree;
        let mut row = [[0.0; 3]; MAX_DEGREE + 1];
        for (place, value) in row.iter_mut().enumerate().take(p + 1) {
            let index = span - p + place;
            let weight = self.weights.get(index).copied().unwrap_or(1.0);
            let Point { x, y } = self.controls[index];
            *value = [x * weight, y * weight, weight];
        }
        for round in 1..=p {
            let argument = self.knots[if round <= at { span + 1 } else { span }];
            for place in (round..=p).rev() {
                let index = span - p + place;
                let (low, high) = (self.knots[index], self.knots[index + p + 1 - round]);
                row[place] = mix(row[place - 1], row[place], (argument - low) / (high - low));
            }
        }
        row[p]
    }
}

fn mix(a: Weighted, b: Weighted, share: f64) -> Weighted {
    std::array::from_fn(|axis| a[axis] * (1.0 - share) + b[axis] * share)
}

fn plain([x, y, weight]: Weighted) -> Point {
    Point::new(x / weight, y / weight)
}

/// Draws a rational Bézier curve from where the pen is.
fn follow(part: &[Weighted], tolerance: f64, halvings: u32, pen: &mut Pen) -> Result<(), String> {
    let p = part.len() - 1;
    let [first, last] = [plain(part[0]), plain(part[p])];
    // With weights above 0 a span of degree 1 is straight, whatever they are.
    if p == 1 {
        pen.line_to(last);
        return Ok(());
    }
    let handle = |end: usize, next: usize| -> Vec2 {
        let share = p as f64 / 3.0 * (part[next][2] / part[end][2]);
        (plain(part[next]) - plain(part[end])) * share
    };
    let cubic = [first, first + handle(0, 1), last + handle(p, p - 1), last];
    if error(part, &cubic) <= tolerance {
        pen.curve_to(cubic[1], cubic[2], last);
        return Ok(());
    }
    if halvings == 0 {
        return Err("it turns too sharply for its weights and knots".to_owned());
    }
    let (mut row, mut front, mut back) = (part.to_vec(), vec![part[0]], vec![part[p]]);
    while row.len() > 1 {
        row = row
            .windows(2)
            .map(|pair| mix(pair[0], pair[1], 0.5))
            .collect();
        front.push(row[0]);
        back.push(row[row.len() - 1]);
    }
    back.reverse();
    follow(&front, tolerance, halvings - 1, pen)?;
    follow(&back, tolerance, halvings - 1, pen)
}

/// A bound of the distance between a rational Bézier curve and a cubic at the same parameter.
fn error(part: &[Weighted], cubic: &[Point; 4]) -> f64 {
    let p = part.len() - 1;
    let mut most = 0.0f64;
    for k in 0..=p + 3 {
        let mut off = Vec2::ZERO;
        for (j, &[x, y, weight]) in part.iter().enumerate() {
            if (j..=j + 3).contains(&k) {
                let share = choose(p, j) * choose(3, k - j) / choose(p + 3, k);
                off += (Vec2::new(x, y) - cubic[k - j].to_vec2() * weight) * share;
            }
        }
        // Not `max`, which would drop what is no number.
        most = if off.hypot() <= most {
            most
        } else {
            off.hypot()
        };
        if most.is_nan() {
            return most;
        }
    }
    let least = part
        .iter()
        .fold(f64::INFINITY, |least, point| least.min(point[2]));
    most / least
}

/// The binomial coefficient, exact for what is asked here.
fn choose(n: usize, k: usize) -> f64 {
    (1..=k).fold(1.0, |product, i| product * (n + 1 - i) as f64 / i as f64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::transform::Transform;
    use kurbo::{BezPath, ParamCurve, ParamCurveNearest};
    use proptest::prelude::*;

    fn drawn(spline: &Spline) -> Result<BezPath, String> {
        let mut pen = Pen::new(&Transform::identity());
        spline.draw(&mut pen)?;
        Ok(pen.finish().expect("within the limits"))
    }

    fn spline(degree: usize, controls: &[(f64, f64)], knots: &[f64]) -> Spline {
        Spline {
            degree,
            knots: knots.to_vec(),
            controls: controls.iter().map(|&(x, y)| Point::new(x, y)).collect(),
            ..Spline::default()
        }
    }

    /// The point of a spline by the definition of its basis functions (Cox and de Boor).
    fn by_definition(spline: &Spline, t: f64) -> Point {
        fn basis(knots: &[f64], i: usize, p: usize, t: f64) -> f64 {
            if p == 0 {
                return f64::from(u8::from(knots[i] <= t && t < knots[i + 1]));
            }
            let share =
                |from: f64, to: f64, part: f64| if to > from { part / (to - from) } else { 0.0 };
            share(knots[i], knots[i + p], t - knots[i]) * basis(knots, i, p - 1, t)
                + share(knots[i + 1], knots[i + p + 1], knots[i + p + 1] - t)
                    * basis(knots, i + 1, p - 1, t)
        }
        let (mut sum, mut weights) = (Vec2::ZERO, 0.0);
        for (i, control) in spline.controls.iter().enumerate() {
            let weight = spline.weights.get(i).copied().unwrap_or(1.0);
            let share = weight * basis(&spline.knots, i, spline.degree, t);
            sum += control.to_vec2() * share;
            weights += share;
        }
        (sum / weights).to_point()
    }

    #[test]
    fn a_single_span_is_its_own_cubic() {
        let corners = [(0.0, 0.0), (1.0, 2.0), (3.0, 2.0), (4.0, 0.0)];
        let cubic = spline(3, &corners, &[0.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0]);
        assert_eq!(drawn(&cubic).expect("drawn").to_svg(), "M0,0 C1,2 3,2 4,0");
        let lines = spline(1, &corners[..3], &[0.0, 0.0, 1.0, 2.0, 2.0]);
        assert_eq!(drawn(&lines).expect("drawn").to_svg(), "M0,0 L1,2 L3,2");
        let broken = spline(1, &corners, &[0.0, 0.0, 1.0, 1.0, 2.0, 2.0]);
        assert_eq!(
            drawn(&broken).expect("drawn").to_svg(),
            "M0,0 L1,2 M3,2 L4,0"
        );
    }

    #[test]
    fn a_circle_by_weights_is_round() {
        // The usual rational square: nine control points, weights 1 and √½.
        let half = std::f64::consts::FRAC_1_SQRT_2;
        let corners = [
            (1.0, 0.0),
            (1.0, 1.0),
            (0.0, 1.0),
            (-1.0, 1.0),
            (-1.0, 0.0),
            (-1.0, -1.0),
            (0.0, -1.0),
            (1.0, -1.0),
            (1.0, 0.0),
        ];
        let knots = [0., 0., 0., 1., 1., 2., 2., 3., 3., 4., 4., 4.];
        let circle = Spline {
            weights: (0..9)
                .map(|i| if i % 2 == 0 { 1.0 } else { half })
                .collect(),
            closed: true,
            ..spline(2, &corners, &knots)
        };
        let path = drawn(&circle).expect("drawn");
        assert!(path.to_svg().ends_with('Z'));
        assert!(path.elements().len() < 100, "{}", path.elements().len());
        for segment in path.segments() {
            for t in 0..=8 {
                let radius = segment.eval(f64::from(t) / 8.0).to_vec2().hypot();
                assert!((radius - 1.0).abs() < 3e-6, "{radius}");
            }
        }
    }

    #[test]
    fn what_is_no_spline_is_refused() {
        let corners = [(0.0, 0.0), (1.0, 2.0), (3.0, 2.0)];
        let good = spline(2, &corners, &[0.0, 0.0, 0.0, 1.0, 1.0, 1.0]);
        assert!(drawn(&good).is_ok());
        let refused = |change: &dyn Fn(&mut Spline)| {
            let mut bad = good.clone();
            change(&mut bad);
            drawn(&bad).expect_err("refused")
        };
        assert!(refused(&|s| s.degree = 0).contains("its degree is 0"));
        assert!(refused(&|s| s.degree = 12).contains("1 to 11"));
        assert!(refused(&|s| s.degree = 3).contains("at least 4"));
        assert!(
            refused(&|s| s.knots.truncate(5))
                .contains("5 knots, and 3 control points of degree 2 take 6")
        );
        assert!(refused(&|s| s.knots[2] = 2.0).contains("ascending"));
        assert!(refused(&|s| s.knots.fill(1.0)).contains("the same"));
        assert!(refused(&|s| s.weights = vec![1.0]).contains("1 weights for 3"));
        assert!(refused(&|s| s.weights = vec![1.0, 0.0, 1.0]).contains("above 0"));
        assert!(refused(&|s| s.weights = vec![1.0, 1e300, 1e-300]).contains("too sharply"));
    }

    proptest! {
        // The basis functions by their definition (Cox and de Boor), which the blossom doesn't use.
        #[test]
        fn splines_are_followed(
            degree in 1..=6usize,
            corners in prop::collection::vec((-50.0..50.0f64, -50.0..50.0f64), 7..12),
            steps in prop::collection::vec(prop_oneof![Just(0.0), 0.1..3.0f64], 18),
            weights in prop::option::of(prop::collection::vec(0.2..5.0f64, 12)),
        ) {
            let count = corners.len();
            let mut knots = vec![0.0];
            for step in steps.iter().take(count + degree) {
                knots.push(knots[knots.len() - 1] + step);
            }
            let mut spline = spline(degree, &corners, &knots);
            spline.weights = weights.map(|all| all[..count].to_vec()).unwrap_or_default();
            prop_assume!(knots[degree] < knots[count]);
            let path = drawn(&spline).expect("drawn");
            for at in 0..100 {
                let t = knots[degree] + (knots[count] - knots[degree]) * (f64::from(at) + 0.5) / 100.0;
                let point = by_definition(&spline, t);
                let squares = path.segments().map(|segment| segment.nearest(point, 1e-7).distance_sq);
                let nearest = squares.fold(f64::INFINITY, f64::min).sqrt();
                prop_assert!(nearest < spline.tolerance() + 1e-5, "{nearest} at {t}");
            }
        }
    }
}
