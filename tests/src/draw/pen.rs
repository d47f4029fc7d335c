//! The pen: smooth curves through a few given points, leaves, and mirrored halves.

use kurbo::{Affine, BezPath, PathEl, Point, Vec2};

/// A point the pen passes through, with the heading there if it matters.
///
/// Headings are in degrees: 0 goes right, 90 goes down, as on an SVG page.
#[derive(Clone, Copy, Debug)]
pub struct Knot {
    at: Point,
    heading: Option<f64>,
}

/// A knot whose heading is left to the curve.
pub fn to(x: f64, y: f64) -> Knot {
    Knot {
        at: Point::new(x, y),
        heading: None,
    }
}

/// A knot passed with a fixed heading in degrees.
pub fn via(x: f64, y: f64, heading: f64) -> Knot {
    Knot {
        at: Point::new(x, y),
        heading: Some(heading.to_radians()),
    }
}

impl From<(f64, f64)> for Knot {
    fn from((x, y): (f64, f64)) -> Self {
        to(x, y)
    }
}

/// How a leaf is shaped, relative to its length.
#[derive(Clone, Copy, Debug)]
pub struct Leaf {
    /// Half width on the edge sewn on the way out.
    pub out: f64,
    /// Half width on the edge sewn on the way back.
    pub back: f64,
    /// Where the leaf is widest, from 0 at the base to 1 at the tip.
    pub belly: f64,
    /// How far the middle is pushed to the right of the line from base to tip.
    pub bend: f64,
}

/// Draws one continuous line of cubics.
#[derive(Clone, Debug)]
pub struct Pen {
    path: BezPath,
    at: Point,
}

impl Pen {
    /// Puts the pen down.
    pub fn new(x: f64, y: f64) -> Self {
        let at = Point::new(x, y);
        let mut path = BezPath::new();
        path.move_to(at);
        Pen { path, at }
    }

    /// Draws a smooth curve from the pen through all the knots.
    ///
    /// `start` is the heading in degrees with which the pen leaves, if it matters.
    pub fn curve(&mut self, start: Option<f64>, knots: &[Knot]) {
        self.stem(start, knots, |_, _| {});
    }

    /// Draws a curve like [`Pen::curve`], and calls `sprout` on reaching each knot.
    ///
    /// A sprout must bring the pen back: the stem goes on as if nothing happened.
    pub fn stem(
        &mut self,
        start: Option<f64>,
        knots: &[Knot],
        mut sprout: impl FnMut(&mut Pen, usize),
    ) {
        let first = Knot {
            at: self.at,
            heading: start.map(f64::to_radians),
        };
        let all: Vec<Knot> = std::iter::once(first)
            .chain(knots.iter().copied())
            .collect();
        let mut done = 0;
        while done + 1 < all.len() {
            // A fixed heading cuts the curve: both sides can be solved alone.
            let next = (done + 1..all.len() - 1)
                .find(|&k| all[k].heading.is_some())
                .unwrap_or(all.len() - 1);
            for (k, arms) in solve(&all[done..=next]).into_iter().enumerate() {
                self.at = all[done + k + 1].at;
                self.path.curve_to(arms.0, arms.1, self.at);
                sprout(self, done + k);
            }
            done = next;
        }
    }

    /// Draws a pointed leaf: out to `tip` and back to `home`.
    pub fn leaf(&mut self, tip: (f64, f64), home: (f64, f64), leaf: Leaf) {
        let (from, tip, home) = (self.at, Point::from(tip), Point::from(home));
        let axis = tip - from.midpoint(home);
        let right = Vec2::new(-axis.y, axis.x);
        // Each edge bulges to its own side of the axis, or the leaf would twist.
        let side = if (from - home).dot(right) > 1e-9 {
            1.0
        } else {
            -1.0
        };
        let edge = |base: Point, u: f64, width: f64| {
            let sag = leaf.bend * 4.0 * u * (1.0 - u);
            let p = base.lerp(tip, u) + right * (sag + width);
            to(p.x, p.y)
        };
        let (low, high) = (leaf.belly, 0.4 * leaf.belly + 0.6);
        let (out, back) = (side * leaf.out, -side * leaf.back);
        let tip_knot = to(tip.x, tip.y);
        self.curve(
            None,
            &[edge(from, low, out), edge(from, high, 0.55 * out), tip_knot],
        );
        self.curve(
            None,
            &[
                edge(home, high, 0.55 * back),
                edge(home, low, back),
                to(home.x, home.y),
            ],
        );
    }

    /// Draws a leaf that ends where it began.
    pub fn sprig(&mut self, tip: (f64, f64), leaf: Leaf) {
        self.leaf(tip, self.at(), leaf);
    }

    /// Sews a whole line that starts where the pen is.
    pub fn follow(&mut self, line: &BezPath) {
        self.path.extend(line.iter().skip(1));
        if let Some(end) = line.elements().last().and_then(PathEl::end_point) {
            self.at = end;
        }
    }

    /// Where the pen is.
    pub fn at(&self) -> (f64, f64) {
        (self.at.x, self.at.y)
    }

    /// The line drawn so far, rounded to what the files hold.
    pub fn finish(self) -> BezPath {
        map(&self.path, round)
    }

    /// The line followed by its own mirror image, sewn backwards.
    ///
    /// The pen must stand on the mirror's axis.
    pub fn finish_mirrored(self, mirror: Affine) -> BezPath {
        let mut whole = self.finish();
        let image = map(&whole, |p| round(mirror * p)).reverse_subpaths();
        whole.extend(image.into_iter().skip(1));
        whole
    }
}

/// John Hobby's curve through a run of knots, fixed headings only at its ends: the arms.
fn solve(run: &[Knot]) -> Vec<(Point, Point)> {
    let n = run.len() - 1;
    let chords: Vec<Vec2> = run.windows(2).map(|k| k[1].at - k[0].at).collect();
    let len: Vec<f64> = chords.iter().map(|c| c.hypot()).collect();
    let angle: Vec<f64> = chords.iter().map(|c| c.atan2()).collect();
    let mut turn = vec![0.0; n + 1];
    for k in 1..n {
        turn[k] = wrap(angle[k] - angle[k - 1]);
    }
    // One row (below, diagonal, above, right-hand side) per leaving angle.
    let mut rows = vec![[0.0; 4]; n + 1];
    rows[0] = match run[0].heading {
        Some(h) => [0.0, 1.0, 0.0, wrap(h - angle[0])],
        None => [0.0, 1.0, 1.0, -turn[1]],
    };
    for k in 1..n {
        let (a, b) = (1.0 / len[k - 1], 1.0 / len[k]);
        rows[k] = [a, 2.0 * (a + b), b, -2.0 * turn[k] * a - turn[k + 1] * b];
    }
    rows[n] = match run[n].heading {
        Some(h) => [0.0, 1.0, 0.0, wrap(h - angle[n - 1])],
        None => [1.0, 1.0, 0.0, 0.0],
    };
    let theta = tridiagonal(rows);
    (0..n)
        .map(|k| {
            let (leave, arrive) = (theta[k], -turn[k + 1] - theta[k + 1]);
            let a = Vec2::from_angle(angle[k] + leave) * (len[k] * reach(leave, arrive));
            let b = Vec2::from_angle(angle[k] - arrive) * (len[k] * reach(arrive, leave));
            (run[k].at + a, run[k + 1].at - b)
        })
        .collect()
}

/// Solves a tridiagonal system.
fn tridiagonal(mut rows: Vec<[f64; 4]>) -> Vec<f64> {
    let n = rows.len();
    for k in 1..n {
        let [_, diagonal, above, right] = rows[k - 1];
        let f = rows[k][0] / diagonal;
        rows[k][1] -= f * above;
        rows[k][3] -= f * right;
    }
    let mut x = vec![0.0; n + 1];
    for k in (0..n).rev() {
        x[k] = (rows[k][3] - rows[k][2] * x[k + 1]) / rows[k][1];
    }
    x
}

/// Length of a control arm, as a share of the chord.
fn reach(here: f64, there: f64) -> f64 {
    let (s, t) = (here.sin(), there.sin());
    let (c, d) = (here.cos(), there.cos());
    let bulge = 2f64.sqrt() * (s - t / 16.0) * (t - s / 16.0) * (c - d);
    let root = 5f64.sqrt();
    (2.0 + bulge) / (3.0 * (1.0 + 0.5 * (root - 1.0) * c + 0.5 * (3.0 - root) * d))
}

/// Brings an angle to the half turn either side of zero.
fn wrap(angle: f64) -> f64 {
    use std::f64::consts::{PI, TAU};
    (angle + PI).rem_euclid(TAU) - PI
}

/// Rounds to six decimals, and turns minus zero into zero.
/// The point on the grid of 1e-6 in that the files hold.
pub fn round(p: Point) -> Point {
    let r = |v: f64| (v * 1e6).round() / 1e6 + 0.0;
    Point::new(r(p.x), r(p.y))
}

fn map(path: &BezPath, f: impl Fn(Point) -> Point) -> BezPath {
    path.elements()
        .iter()
        .map(|el| match *el {
            PathEl::MoveTo(p) => PathEl::MoveTo(f(p)),
            PathEl::LineTo(p) => PathEl::LineTo(f(p)),
            PathEl::QuadTo(a, p) => PathEl::QuadTo(f(a), f(p)),
            PathEl::CurveTo(a, b, p) => PathEl::CurveTo(f(a), f(b), f(p)),
            PathEl::ClosePath => PathEl::ClosePath,
        })
        .collect()
}
