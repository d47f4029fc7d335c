//! What border and corner share: the feathered scroll and the curled tendril.

use super::pen::{Knot, Leaf, Pen, to, via};

/// A leaf on a thin stalk.
pub const SPRIG: Leaf = Leaf {
    out: 0.22,
    back: 0.22,
    belly: 0.34,
    bend: 0.1,
};

/// A small plume inside the scroll.
const FROND: Leaf = Leaf {
    out: 0.13,
    back: 0.08,
    belly: 0.34,
    bend: 0.13,
};

/// A long plume outside the scroll: slim near the stem, where its neighbours are close.
const PLUME: Leaf = Leaf {
    out: 0.1,
    back: 0.05,
    belly: 0.52,
    bend: 0.11,
};

/// Turns at which the plumes within the scroll meet the stem, and the last one's home.
const VALLEYS: [f64; 8] = [540.0, 492.0, 447.0, 405.0, 368.0, 334.0, 304.0, 276.0];
/// Tips of these plumes: turn, and distance from the heart.
const TIPS: [(f64, f64); 7] = [
    (540.0, 0.85),
    (490.0, 1.05),
    (447.0, 1.18),
    (404.0, 1.26),
    (366.0, 1.32),
    (334.0, 1.38),
    (304.0, 1.44),
];

/// The turn, in degrees, from which the scroll sews its own plumes.
pub const HOME: f64 = VALLEYS[7];

/// A stem that rolls up into a feathered spiral.
///
/// The stem passes below the heart at turn 0, then climbs the far side. Plumes grow
/// on its outside only, so that the way back can sew them.
#[derive(Clone, Copy, Debug)]
pub struct Scroll {
    /// The heart of the spiral.
    pub heart: (f64, f64),
    /// 1 for the border's scroll.
    pub size: f64,
    /// 1 if the stem comes from the left, -1 if from the right.
    pub hand: f64,
}

impl Scroll {
    /// The stem at a turn in degrees.
    pub fn stem(&self, turn: f64) -> (f64, f64) {
        self.polar(turn, 1.5 - 1.14 * (turn.max(0.0) / 540.0).powf(1.35))
    }

    /// The bud at the end of the stem: one round loop.
    pub fn bud(&self) -> Vec<Knot> {
        let (x, y) = self.stem(VALLEYS[0]);
        let r = 0.17 * self.size;
        [(-r, r), (0.0, 2.0 * r), (r, r), (0.0, 0.0)]
            .map(|(dx, dy)| (x + self.hand * dx, y + dy).into())
            .to_vec()
    }

    /// Sews the plumes from the bud out to [`HOME`], then one for each tip and turn given.
    pub fn plumes(&self, pen: &mut Pen, outside: &[((f64, f64), f64)]) {
        for (tip, home) in TIPS.iter().zip(&VALLEYS[1..]) {
            let shape = self.handed(FROND);
            pen.leaf(self.polar(tip.0, tip.1), self.stem(*home), shape);
        }
        for &(tip, home) in outside {
            pen.leaf(tip, self.stem(home), self.handed(PLUME));
        }
    }

    fn polar(&self, turn: f64, r: f64) -> (f64, f64) {
        let (sin, cos) = (90.0 - turn).to_radians().sin_cos();
        let (x, y) = self.heart;
        let r = r * self.size;
        (x + self.hand * r * cos, y + r * sin)
    }

    /// A leaf that bends the way the scroll turns.
    fn handed(&self, leaf: Leaf) -> Leaf {
        Leaf {
            bend: self.hand * leaf.bend,
            ..leaf
        }
    }
}

/// From the middle of a curl of size 1 down to its lowest point.
pub const CURL_DEPTH: f64 = 0.6;

/// The tendril's edges around its centre: degrees and distance, in towards the tip.
const CURL_IN: [(f64, f64); 10] = [
    (180.0, 0.57),
    (135.0, 0.60),
    (90.0, CURL_DEPTH),
    (45.0, 0.58),
    (0.0, 0.55),
    (-45.0, 0.55),
    (-90.0, 0.52),
    (-135.0, 0.42),
    (-180.0, 0.30),
    (-225.0, 0.24),
];
/// Which of these is the lowest.
const LOWEST: usize = 2;
/// The way back out. The first two knots round off the tip.
const CURL_OUT: [(f64, f64); 10] = [
    (79.0, 0.10),
    (198.0, 0.095),
    (-130.0, 0.21),
    (-90.0, 0.34),
    (-45.0, 0.38),
    (0.0, 0.39),
    (45.0, 0.41),
    (90.0, 0.43),
    (135.0, 0.43),
    (180.0, 0.40),
];

/// A tendril that hangs from the stem and curls up, sewn there and back.
#[derive(Clone, Copy, Debug)]
pub struct Curl {
    /// The middle of the curl.
    pub centre: (f64, f64),
    /// 1 for the border's curl.
    pub size: f64,
    /// 1 if the curl opens to the right of its stalk, -1 if to the left.
    pub hand: f64,
}

impl Curl {
    /// Sews the tendril from where the pen is, by the two points of its stalk.
    pub fn sew(&self, pen: &mut Pen, down: (f64, f64), up: (f64, f64)) {
        let home = pen.at();
        let ring = CURL_IN.iter().chain(&CURL_OUT).map(|&(angle, r)| {
            let (sin, cos) = f64::to_radians(angle).sin_cos();
            let (x, y) = self.centre;
            let (x, y) = (x + self.hand * self.size * r * cos, y + self.size * r * sin);
            to(x, y)
        });
        let mut knots: Vec<Knot> = vec![down.into()];
        knots.extend(ring);
        knots.extend([up, home].map(Knot::from));
        // A level knot at the bottom: the ink must not dip below it by a hair.
        let (x, y) = (self.centre.0, self.centre.1 + CURL_DEPTH * self.size);
        let heading = if self.hand > 0.0 { 0.0 } else { 180.0 };
        knots[LOWEST + 1] = via(x, y, heading);
        pen.curve(None, &knots);
    }
}
