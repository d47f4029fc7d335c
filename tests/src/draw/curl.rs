//! The curled tendril of the vine.

use super::pen::{Knot, Pen, to, via};

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
    /// 1 for the vine's curl.
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
