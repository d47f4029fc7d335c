//! The centre line of the ink, finer than a pixel.
//!
//! Problem: thinned lines are steps of whole pixels and lean to one side by up to half of one.
//! Method: across the line, which way is told by its points nearby, the grey values are weighed:
//! the centre is their centre of gravity, of what is darker than the paper, as far as the ink of
//! this line reaches. The points are then smoothed by parabolas fitted to those about each (A.
//! Savitzky and M. Golay, 1964), which keeps bends that are as wide as the pen. Guarantee: no point
//! moves further than the pen is wide. O(points · pen). Failure: where two lines are closer than
//! the pen, the centre is that of both.

use super::grey::Grey;
use super::ink::Paper;
use crate::geom::{Point, Vector};

/// A picture with what is needed to weigh its ink.
#[derive(Debug, Clone, Copy)]
pub(super) struct Inked<'a> {
    pub(super) grey: &'a Grey,
    pub(super) paper: &'a Paper,
    /// The width of the pen in pixels.
    pub(super) pen: f64,
}

impl Inked<'_> {
    /// How much darker than the paper it is at a place, from 0 to 1.
    pub(super) fn dark(&self, place: Point, light: f64) -> f64 {
        // The last twentieth is noise of the paper.
        (0.95 - self.grey.at(place.x, place.y) / light).max(0.0)
    }

    /// How light the paper is about a place.
    pub(super) fn light(&self, place: Point) -> f64 {
        let clamp = |at: f64, count: usize| at.clamp(0.0, (count - 1) as f64) as usize;
        let x = clamp(place.x, self.grey.width());
        let y = clamp(place.y, self.grey.height());
        f64::from(self.paper.at(x, y)).max(1.0)
    }

    /// The centre of the ink on the line through this point across `along`.
    fn centre(&self, point: Point, along: Vector) -> Point {
        const STEP: f64 = 0.5;
        let across = Vector::new(-along.y, along.x);
        let light = self.light(point);
        let dark = |off: f64| self.dark(point + across * off, light);
        let own = [-0.5, 0.0, 0.5].map(dark).into_iter().fold(0.0, f64::max);
        if own < 0.1 {
            return point;
        }
        let steps = (0.9 * self.pen / STEP).ceil().max(3.0) as usize;
        let (mut weight, mut sum) = (dark(0.0), 0.0);
        for side in [-STEP, STEP] {
            // Beyond the least dark on the way out another line begins.
            let mut least = f64::INFINITY;
            for step in 1..=steps {
                let off = side * step as f64;
                let here = dark(off);
                if here > least + 0.08 || here <= 0.0 {
                    break;
                }
                if here < 0.6 * own {
                    least = least.min(here);
                }
                weight += here;
                sum += here * off;
            }
        }
        point + across * (sum / weight).clamp(-0.75 * self.pen, 0.75 * self.pen)
    }

    /// The points of a line moved to the centre of its ink, and smoothed; of a ring, all round.
    pub(super) fn centred(&self, points: &[Point], ring: bool) -> Vec<Point> {
        let reach = (0.5 * self.pen).round().max(2.0) as usize;
        let count = points.len();
        if count < 3 {
            return points.to_vec();
        }
        let along = |at: usize| {
            let (from, to) = match ring {
                true => ((at + count - reach % count) % count, (at + reach) % count),
                false => (at.saturating_sub(reach), (at + reach).min(count - 1)),
            };
            (points[to] - points[from]).try_normalize(1e-9)
        };
        let centred = points
            .iter()
            .enumerate()
            .map(|(at, &point)| match along(at) {
                Some(along) => self.centre(point, along),
                None => point,
            });
        smoothed(&centred.collect::<Vec<_>>(), reach.max(3), ring)
    }
}

/// Each point on the parabola that fits those up to `reach` away from it best.
fn smoothed(points: &[Point], reach: usize, ring: bool) -> Vec<Point> {
    let count = points.len();
    let at = |place: usize| {
        // Towards an open end the window narrows, so that it stays about its point.
        let reach = match ring {
            true => reach.min((count - 1) / 2),
            false => reach.min(place).min(count - 1 - place),
        };
        if reach < 2 {
            return points[place];
        }
        let m = reach as f64;
        // The weights of the middle point of a parabola through 2m + 1 even steps, by its formula.
        let below = (2.0 * m - 1.0) * (2.0 * m + 1.0) * (2.0 * m + 3.0);
        let mut sum = Vector::zeros();
        for step in 0..=2 * reach {
            let off = step as f64 - m;
            let weight = 3.0 * (3.0 * m * m + 3.0 * m - 1.0 - 5.0 * off * off) / below;
            sum += points[(place + count + step - reach) % count].coords * weight;
        }
        Point::from(sum)
    };
    (0..count).map(at).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parabolas_and_lines_stay_as_they_are() {
        let bow: Vec<Point> = (0..40)
            .map(|at| Point::new(f64::from(at), 0.01 * f64::from(at * at)))
            .collect();
        for (found, right) in smoothed(&bow, 5, false).iter().zip(&bow) {
            assert!((found - right).norm() < 1e-9);
        }
        let turn = |at: i32| f64::from(at) / 60.0 * std::f64::consts::TAU;
        let round: Vec<Point> = (0..60)
            .map(|at| Point::new(10.0 * turn(at).cos(), 10.0 * turn(at).sin()))
            .collect();
        for point in smoothed(&round, 3, true) {
            assert!((point.coords.norm() - 10.0).abs() < 0.01);
        }
    }

    /// A line between pixels, by its share of each: the centre is found, wherever it lies.
    #[test]
    fn a_line_is_found_between_pixels() {
        for offset in [0.0, 0.2, 0.45, 0.7] {
            let (top, bottom) = (20.0 + offset, 25.0 + offset);
            let share = |y: usize| {
                let y = y as f64;
                ((y + 1.0).min(bottom) - y.max(top)).clamp(0.0, 1.0)
            };
            let pixel = |at: usize| (250.0 - 200.0 * share(at / 60)) as u8;
            let grey = Grey::new(60, 50, (0..3000).map(pixel).collect()).expect("a picture");
            let paper = Paper::of(&grey);
            let inked = Inked {
                grey: &grey,
                paper: &paper,
                pen: 5.0,
            };
            let steps: Vec<Point> = (5..55)
                .map(|x| Point::new(f64::from(x) + 0.5, 22.5 + f64::from(x / 7 % 2)))
                .collect();
            let found = inked.centred(&steps, false);
            for point in &found[4..46] {
                let off = point.y - 0.5 * (top + bottom);
                assert!(off.abs() < 0.06, "{offset}: {off}");
            }
        }
    }
}
