//! How much a map turns and stretches, and whether it folds.

use super::map::ClothMap;
use crate::geom::{Bounds, Point, Vector};

/// So many places each way are looked at.
const PLACES: usize = 33;

/// What a map does to the cloth of a box, at 33 places each way.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Strain {
    /// How far it is turned in the middle, in degrees, positive clockwise.
    pub turn_degrees: f64,
    /// The least and the greatest stretch in the middle: 1 is none.
    pub stretch: [f64; 2],
    /// The least and the greatest stretch anywhere.
    pub extremes: [f64; 2],
    /// How far the map is from straight at most: from the affine map that it is in the middle.
    pub bow: f64,
    /// Where the map folds the cloth, or turns it over; the first place of those.
    pub fold: Option<Point>,
    /// Whether it is the mirror image of the plan in the middle, as with an axis that points the
    /// other way.
    pub mirrored: bool,
}

impl ClothMap {
    /// What the map does to the cloth of a box.
    ///
    /// ```
    /// use quiltpath_core::align::{Reading, align};
    /// use quiltpath_core::geom::{Bounds, Point};
    ///
    /// let mark = |name: &str, x: f64, y: f64| Reading::new(name, Point::new(x, y), Point::new(1.01 * x, y));
    /// let found = align(&[mark("A", 0.0, 0.0), mark("B", 900.0, 0.0), mark("C", 0.0, 400.0)])?;
    /// let all = Bounds { min: Point::new(0.0, 0.0), max: Point::new(900.0, 400.0) };
    /// let strain = found.map.strain(all);
    /// assert!((strain.stretch[1] - 1.01).abs() < 1e-9 && strain.fold.is_none());
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Complexity
    ///
    /// O(readings).
    #[must_use]
    pub fn strain(&self, bounds: Bounds) -> Strain {
        let middle = bounds.centre();
        let there = self.map(middle);
        let change = self.change(middle);
        let stretches = |change: &nalgebra::Matrix2<f64>| {
            let values = change.svd(false, false).singular_values;
            [values[0].min(values[1]), values[0].max(values[1])]
        };
        let stretch = stretches(&change);
        let mirrored = change.determinant() < 0.0;
        let (mut extremes, mut bow, mut fold) = (stretch, 0.0_f64, None);
        let share = |at: usize| at as f64 / (PLACES - 1) as f64;
        for row in 0..PLACES {
            for column in 0..PLACES {
                let size = bounds.size();
                let point = bounds.min + Vector::new(size.x * share(column), size.y * share(row));
                let own = self.change(point);
                let [least, most] = stretches(&own);
                extremes = [extremes[0].min(least), extremes[1].max(most)];
                let straight = there + change * (point - middle);
                bow = bow.max((self.map(point) - straight).norm());
                if fold.is_none() && (own.determinant() < 0.0) != mirrored {
                    fold = Some(point);
                }
            }
        }
        Strain {
            turn_degrees: turn(&change).to_degrees(),
            stretch,
            extremes,
            bow,
            fold,
            mirrored,
        }
    }
}

/// The turn of the rotation that is nearest to a change.
fn turn(change: &nalgebra::Matrix2<f64>) -> f64 {
    let (same, across) = (
        change[(0, 0)] + change[(1, 1)],
        change[(1, 0)] - change[(0, 1)],
    );
    across.atan2(same)
}
