//! Which marks of a window are taken: those that say the most about where its lines lie.
//!
//! Problem: of all places that the needle can be put on in a window, four to eight after which the
//! lines of the pass are known best. Method: the cloth's error at any two places, in either axis,
//! is taken as correlated by a shift (not known at all), a turn and a stretch (0.8 % of the way)
//! and a bow (0.15 in, over half of the window's width), which is what a cloth on a frame does. The
//! variance left at the lines after some readings then follows from linear algebra (a Gaussian
//! process, or kriging), each reading being as good as its kind of mark is. Ends of stitched lines
//! are always taken. A corner that is to be laid by itself has its own seam corner, and then of the
//! marks near it the one that says the most, until it has two. Then mark by mark the one that
//! lowers the mean variance at the lines most: greedy, by the A-optimal criterion of the design of
//! experiments. From four on it stops when the next one lowers the mean error by less than a
//! twentieth. Guarantee: no other single mark would say more at each step; of all sets of so many
//! it needn't be the best. Failure: a window with fewer places than four gets those that it has, a
//! corner whose seam corner the window doesn't reach other places near it; more than four such
//! corners take more than eight marks.
//!
//! Sources: F. Pukelsheim, "Optimal Design of Experiments" (1993), for the criterion; C. E.
//! Rasmussen and C. K. I. Williams, "Gaussian Processes for Machine Learning" (2006), chapter 2.
//! From memory.

use super::corners::OwnCorner;
use super::mark::Mark;
use crate::geom::{Bounds, Point};

/// How many marks are near each corner that is laid by itself.
const NEAR: usize = 2;

/// The least and the greatest number of marks beside stitched ends.
const COUNT: [usize; 2] = [4, 8];

/// A mark has to lower the mean error by this share, from the fifth on.
const LEAST_GAIN: f64 = 0.05;

/// More places than this are thinned evenly, since the work grows with their square.
const MOST: usize = 96;

/// A shift of the cloth that isn't known at all, in millimetres.
const SHIFT_MM: f64 = 1e3;

/// How much the cloth is turned and stretched, as a share of the way.
const TURN: f64 = 0.008;

/// How far it is bowed: 0.15 in.
const BOW_MM: f64 = 0.15 * 25.4;

/// A place that may become a mark.
#[derive(Debug, Clone)]
pub(super) struct Candidate {
    pub(super) mark: Mark,
    /// In the machine's coordinates, as planned.
    pub(super) at: Point,
    /// Whether it is taken in any case.
    pub(super) always: bool,
}

/// How the errors of the cloth at two places go together.
struct Cloth {
    middle: Point,
    reach: f64,
}

impl Cloth {
    fn covariance(&self, one: Point, other: Point) -> f64 {
        let straight = (one - self.middle).dot(&(other - self.middle));
        let apart = (one - other).norm_squared() / (2.0 * self.reach * self.reach);
        SHIFT_MM * SHIFT_MM + TURN * TURN * straight + BOW_MM * BOW_MM * (-apart).exp()
    }
}

/// The marks taken, in the order in which they are, those near these corners among them.
pub(super) fn chosen(
    mut candidates: Vec<Candidate>,
    lines: &[Point],
    window: Bounds,
    corners: &[OwnCorner],
) -> Vec<Mark> {
    let near_any = |one: &Candidate| corners.iter().any(|corner| corner.is_near(&one.mark));
    thin(&mut candidates, near_any);
    let mut known = Known::of(&candidates, lines, window);
    for at in (0..candidates.len()).filter(|&at| candidates[at].always) {
        known.take(at);
    }
    for corner in corners {
        let own = candidates.iter().position(|one| corner.is_at(&one.mark));
        if let Some(own) = own.filter(|at| !known.taken.contains(at)) {
            known.take(own);
        }
    }
    for corner in corners {
        let near: Vec<usize> = (0..candidates.len())
            .filter(|&at| corner.is_near(&candidates[at].mark))
            .collect();
        let mut number = near.iter().filter(|at| known.taken.contains(at)).count();
        while number < NEAR {
            let Some((best, _)) = known.best(near.iter().copied()) else {
                break;
            };
            known.take(best);
            number += 1;
        }
    }
    while known.taken.len() < COUNT[1] {
        let Some((best, gain)) = known.best(0..candidates.len()) else {
            break;
        };
        let falls = 1.0 - ((known.left - gain).max(0.0) / known.left).sqrt();
        if known.taken.len() >= COUNT[0] && falls < LEAST_GAIN {
            break;
        }
        known.take(best);
    }
    known.taken.iter().map(|&at| candidates[at].mark).collect()
}

/// What is known of the lines after some marks.
struct Known<'a> {
    candidates: &'a [Candidate],
    /// The numbers of those taken, in order.
    taken: Vec<usize>,
    /// What the errors at each candidate and at each place share, candidates before lines.
    shared: Vec<Vec<f64>>,
    /// The variance that is left, of all lines together.
    left: f64,
}

impl<'a> Known<'a> {
    fn of(candidates: &'a [Candidate], lines: &[Point], window: Bounds) -> Self {
        let cloth = Cloth {
            middle: window.centre(),
            reach: (window.width().max(window.height()) / 2.0).max(1.0),
        };
        let places = candidates.iter().map(|one| one.at);
        let places: Vec<Point> = places.chain(lines.iter().copied()).collect();
        let shared = candidates.iter().map(|one| {
            let each = places.iter().map(|&other| cloth.covariance(one.at, other));
            each.collect()
        });
        Self {
            candidates,
            taken: Vec::new(),
            shared: shared.collect(),
            left: lines.iter().map(|&at| cloth.covariance(at, at)).sum(),
        }
    }

    /// The variance of a reading of this candidate.
    fn read(&self, at: usize) -> f64 {
        let noise = self.candidates[at].mark.noise();
        self.shared[at][at] + noise * noise
    }

    /// By how much it lowers what is left.
    fn gain(&self, at: usize) -> f64 {
        let read = self.read(at);
        let lines = &self.shared[at][self.candidates.len()..];
        lines.iter().map(|shared| shared * shared / read).sum()
    }

    /// Of these the one that lowers it most, and by how much; none where all are taken.
    fn best(&self, among: impl Iterator<Item = usize>) -> Option<(usize, f64)> {
        let open = among.filter(|at| !self.taken.contains(at));
        let gains = open.map(|at| (at, self.gain(at)));
        gains.max_by(|one, other| one.1.total_cmp(&other.1))
    }

    fn take(&mut self, at: usize) {
        self.left -= self.gain(at);
        let (own, read) = (self.shared[at].clone(), self.read(at));
        for row in &mut self.shared {
            let share = row[at] / read;
            for (value, own) in row.iter_mut().zip(&own) {
                *value -= share * own;
            }
        }
        self.taken.push(at);
    }
}

/// Takes places out evenly until there are few enough, corners and those wanted aside.
fn thin(candidates: &mut Vec<Candidate>, wanted: impl Fn(&Candidate) -> bool) {
    use super::mark::MarkKind;
    let corner = |one: &Candidate| matches!(one.mark.kind, MarkKind::Corner { .. });
    let needed = |one: &Candidate| one.always || corner(one) || wanted(one);
    let kept = candidates.iter().filter(|one| needed(one)).count();
    let others = candidates.len() - kept;
    let room = MOST.saturating_sub(kept).max(8);
    if others <= room {
        return;
    }
    let mut seen = 0;
    candidates.retain(|one| {
        if needed(one) {
            return true;
        }
        seen += 1;
        (seen * room) / others > ((seen - 1) * room) / others
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::marks::{AlongLine, MarkKind, MarkLine};
    use crate::plan::{CornerPlace, Side};
    use nalgebra::{DMatrix, DVector};

    fn candidate(number: usize, at: Point) -> Candidate {
        let line = MarkLine::Seam(0);
        let corner = CornerPlace::all(4).next().expect("a corner");
        let side = Side::TOP;
        let kind = match number % 2 {
            0 => MarkKind::Corner { line, corner },
            _ => MarkKind::Along {
                line,
                side,
                at: AlongLine::From(at.x),
            },
        };
        Candidate {
            mark: Mark::new(kind, at),
            at,
            always: number == 3,
        }
    }

    /// The mean variance that is left at the lines after some readings, from the whole matrix.
    fn left(cloth: &Cloth, marks: &[Mark], lines: &[Point]) -> f64 {
        let read = DMatrix::from_fn(marks.len(), marks.len(), |row, column| {
            let noise = marks[row].noise();
            let own = if row == column { noise * noise } else { 0.0 };
            cloth.covariance(marks[row].point, marks[column].point) + own
        });
        let read = read.cholesky().expect("noise above 0");
        let each = lines.iter().map(|&at| {
            let shared =
                DVector::from_fn(marks.len(), |row, _| cloth.covariance(marks[row].point, at));
            cloth.covariance(at, at) - shared.dot(&read.solve(&shared))
        });
        each.sum::<f64>() / lines.len() as f64
    }

    #[test]
    fn each_mark_taken_leaves_the_least_of_all_that_could_be() {
        let lines: Vec<Point> = (0..30)
            .map(|at| Point::new(50.0 * f64::from(at), 20.0 + f64::from(at % 7)))
            .collect();
        let places =
            (0..14).map(|at| Point::new(f64::from(at * 613 % 1500), f64::from(at * 271 % 400)));
        let all: Vec<Candidate> = places
            .enumerate()
            .map(|(at, place)| candidate(at, place))
            .collect();
        let window = Bounds {
            min: Point::new(0.0, 0.0),
            max: Point::new(1500.0, 400.0),
        };
        let cloth = Cloth {
            middle: window.centre(),
            reach: 750.0,
        };
        let taken = chosen(all.clone(), &lines, window, &[]);
        assert!((4..=8).contains(&taken.len()), "{taken:?}");
        assert_eq!(taken[0], all[3].mark);
        for number in 1..taken.len() {
            let with = |mark: &Mark| {
                let mut marks = taken[..number].to_vec();
                marks.push(*mark);
                left(&cloth, &marks, &lines)
            };
            let own = with(&taken[number]);
            let open = all
                .iter()
                .filter(|one| !taken[..number].contains(&one.mark));
            for other in open {
                // The shift is known to rounding of its size.
                assert!(
                    own <= with(&other.mark) + 1e-6,
                    "{number}: {own} {}",
                    with(&other.mark)
                );
            }
        }
    }

    #[test]
    fn many_places_are_thinned_and_few_are_all_taken() {
        let window = Bounds {
            min: Point::new(0.0, 0.0),
            max: Point::new(1500.0, 400.0),
        };
        let lines = [Point::new(0.0, 0.0), Point::new(1500.0, 400.0)];
        let many = (0..4000).map(|at| candidate(1, Point::new(f64::from(at) / 3.0, 0.0)));
        let mut thinned: Vec<Candidate> = many.collect();
        thin(&mut thinned, |_| false);
        assert_eq!(thinned.len(), MOST);
        let few = vec![candidate(0, lines[0]), candidate(1, lines[1])];
        assert_eq!(chosen(few, &lines, window, &[]).len(), 2);
        assert!(chosen(Vec::new(), &lines, window, &[]).is_empty());
    }
}
