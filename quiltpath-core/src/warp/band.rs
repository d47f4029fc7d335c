//! What every map from a strip to the cloth gives, and lines divided so that chords follow it.

use crate::geom::{Point, Vector};

/// What a border is chained along: a map from strip coordinates to the cloth.
pub trait BandMap {
    /// The depth of the band; where it changes, its mean over the length of the middle line.
    fn depth(&self) -> f64;

    /// The depth of the band at distance `s` along, square to the middle line.
    fn depth_at(&self, s: f64) -> f64;

    /// The point of the cloth at distance `s` along and offset `t` across.
    ///
    /// Before the start and beyond the end the band goes on as it does there.
    fn place(&self, s: f64, t: f64) -> Point;

    /// The image of a small step (`ds`, `dt`) at (`s`, `t`): the map's derivative.
    fn place_vector_at(&self, s: f64, t: f64, ds: f64, dt: f64) -> Vector;

    /// The distance along and the offset across of a point of the cloth: the inverse of `place`.
    /// `None` where no point of the band lies on it.
    fn locate(&self, point: Point) -> Option<(f64, f64)>;

    /// True when straight lines in the strip stay straight on the cloth.
    fn is_affine(&self) -> bool {
        false
    }

    /// The distances along, in rising order, at which the map has a kink.
    fn breaks(&self) -> &[f64] {
        &[]
    }

    /// Into how many equal steps a straight line in the strip, without a break between its ends,
    /// has to be divided so that the chords stay within `tolerance` of its image.
    ///
    /// A whole number of at least 1, or infinite.
    fn steps(&self, from: (f64, f64), to: (f64, f64), tolerance: f64) -> f64;
}

/// Calls `see` with strip points strictly between two others, so that the chords between the images
/// of all of them stay within `tolerance` of the image of the straight line.
///
/// More than `limit` points are not written; their number is the error.
pub(crate) fn subdivide<B: BandMap + ?Sized>(
    band: &B,
    from: (f64, f64),
    to: (f64, f64),
    tolerance: f64,
    limit: usize,
    mut see: impl FnMut(f64, f64),
) -> Result<(), f64> {
    let (ds, dt) = (to.0 - from.0, to.1 - from.1);
    let (low, high) = (from.0.min(to.0), from.0.max(to.0));
    let breaks = band.breaks();
    let first = breaks.partition_point(|s| *s <= low);
    let last = breaks.partition_point(|s| *s < high).max(first);
    let between = &breaks[first..last];
    let mut written = 0.0;
    let mut piece = |start: (f64, f64), end: (f64, f64), last: bool| {
        let steps = band.steps(start, end, tolerance);
        written += steps;
        if written > limit as f64 {
            return Err(written);
        }
        for step in 1..steps as usize {
            let share = step as f64 / steps;
            see(
                start.0 + share * (end.0 - start.0),
                start.1 + share * (end.1 - start.1),
            );
        }
        if !last {
            see(end.0, end.1);
        }
        Ok(())
    };
    let mut start = from;
    for index in 0..between.len() {
        let s = between[if ds > 0.0 {
            index
        } else {
            between.len() - 1 - index
        }];
        let end = (s, from.1 + dt * ((s - from.0) / ds));
        piece(start, end, false)?;
        start = end;
    }
    piece(start, to, true)
}
