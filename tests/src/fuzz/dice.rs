//! Numbers and shapes from a fuzzer's bytes: plain ones mostly, odd ones now and then.

use arbitrary::Unstructured;
use quiltpath_core::geom::{Point, Polyline};
use quiltpath_core::units::Unit;

/// Deals out the bytes; zeros once they are used up.
pub(super) struct Dice<'a>(Unstructured<'a>);

impl<'a> Dice<'a> {
    pub(super) fn new(data: &'a [u8]) -> Self {
        Self(Unstructured::new(data))
    }

    /// A whole number below `limit`.
    pub(super) fn below(&mut self, limit: usize) -> usize {
        self.0.int_in_range(0..=limit - 1).unwrap_or(0)
    }

    pub(super) fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.below(from.len())]
    }

    /// True once in `times`.
    pub(super) fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == times - 1
    }

    /// `Some` once in `times`.
    pub(super) fn maybe<T>(
        &mut self,
        times: usize,
        make: impl FnOnce(&mut Self) -> T,
    ) -> Option<T> {
        self.once_in(times).then(|| make(self))
    }

    /// From `from` to `to`, in 65 535 steps.
    pub(super) fn between(&mut self, from: f64, to: f64) -> f64 {
        let share = f64::from(self.0.arbitrary::<u16>().unwrap_or(0)) / f64::from(u16::MAX);
        from + share * (to - from)
    }

    /// Any number: on a coarse grid, on a fine one, tiny, huge, or no number at all.
    pub(super) fn number(&mut self) -> f64 {
        match self.below(16) {
            0..=7 => f64::from(self.0.arbitrary::<i8>().unwrap_or(0)) / 4.0,
            8..=11 => f64::from(self.0.arbitrary::<i16>().unwrap_or(0)) / 7.0,
            12 => self.between(-1e-9, 1e-9),
            13 => self.between(-1e9, 1e9),
            14 => f64::from(self.0.arbitrary::<i32>().unwrap_or(0)) * 1e-6,
            _ => f64::from_bits(self.0.arbitrary().unwrap_or(0)),
        }
    }

    /// Mostly from `from` to `to`, now and then any number.
    pub(super) fn mostly(&mut self, from: f64, to: f64) -> f64 {
        if self.once_in(16) {
            self.number()
        } else {
            self.between(from, to)
        }
    }

    pub(super) fn unit(&mut self) -> Unit {
        self.pick(Unit::ALL)
    }

    /// Points of one kind: on a small grid, where much meets, or anywhere in the box; seldom any
    /// numbers at all. At least `least` of them.
    pub(super) fn points(
        &mut self,
        least: usize,
        most: usize,
        [width, height]: [f64; 2],
    ) -> Vec<Point> {
        let count = least + self.below(most - least + 1);
        let kind = self.below(8);
        let mut point = || match kind {
            0..=3 => {
                let (x, y) = (self.below(9) as f64, self.below(9) as f64);
                Point::new(width * x / 8.0, height * y / 8.0)
            }
            4..=6 => Point::new(self.between(0.0, width), self.between(0.0, height)),
            _ => Point::new(self.number(), self.number()),
        };
        (0..count).map(|_| point()).collect()
    }

    pub(super) fn line(&mut self, most: usize, size: [f64; 2]) -> Option<Polyline> {
        Polyline::new(self.points(2, most, size)).ok()
    }
}

/// Every coordinate is a finite number.
pub(super) fn finite(points: &[Point]) {
    for point in points {
        assert!(point.x.is_finite() && point.y.is_finite(), "{point}");
    }
}

/// An error that says something.
pub(super) fn told(error: &quiltpath_core::Error) {
    assert!(error.to_string().len() > 10, "{error:?}");
}
