//! A quilt's four corners from its measured sides and diagonals.
//!
//! Problem: nobody measures coordinates; a quilter measures four sides and one or two diagonals.
//! Method: with one diagonal, two triangles by the law of cosines, on either side of it; their
//! heights come from Kahan's form of Heron's formula, which stays accurate for flat triangles. With
//! two diagonals there is one measurement too many for the five free coordinates: Gauss–Newton
//! from the triangles, halving steps that do not help, brings the sum of squared residuals to a
//! minimum near them.
//! Guarantee: with one diagonal the corners measure as given up to rounding; every result is
//! strictly convex, its top left corner at the origin and its top side along +x, so that the quilt
//! sits level (x to the right, y down).
//! Failure: a triangle that can't be, and a quilt with a corner dented in.

use nalgebra::{SMatrix, SVector};

use super::{BoxCorner, Point, Vector};
use crate::error::{Error, GeometryFault, Measure};

/// The measured diagonals of a quilt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Diagonals {
    /// From the top left corner to the bottom right one.
    Falling(f64),
    /// From the bottom left corner to the top right one.
    Rising(f64),
    /// Both, so that the measurements check one another.
    Both {
        /// From the top left corner to the bottom right one.
        falling: f64,
        /// From the bottom left corner to the top right one.
        rising: f64,
    },
}

/// A quilt as measured: four sides and one or two diagonals, in one unit of length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct QuadMeasures {
    /// The top, right, bottom and left side.
    pub sides: [f64; 4],
    /// One diagonal or two.
    pub diagonals: Diagonals,
}

/// One measurement beside the same distance on the quad that was found.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Residual {
    /// What was measured: a side or a diagonal.
    pub what: &'static str,
    /// The distance as given.
    pub given: f64,
    /// The distance between the corners as found.
    pub found: f64,
}

impl Residual {
    /// By how much the distance found is longer than the one given.
    #[must_use]
    pub fn off(&self) -> f64 {
        self.found - self.given
    }
}

/// The corners of a measured quilt.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Quad {
    /// The corners clockwise from the top left one.
    pub corners: [Point; 4],
    /// Every measurement that was given, sides first, beside what was found.
    pub residuals: Vec<Residual>,
}

impl Quad {
    /// The root of the mean of the squared residuals.
    #[must_use]
    pub fn rms(&self) -> f64 {
        let squares: f64 = self.residuals.iter().map(|r| r.off() * r.off()).sum();
        (squares / self.residuals.len() as f64).sqrt()
    }
}

/// The sides, then the diagonals.
pub(crate) const NAMES: [&str; 6] = [
    "the top side",
    "the right side",
    "the bottom side",
    "the left side",
    "the falling diagonal",
    "the rising diagonal",
];

/// The corners between which each of the [`NAMES`] runs.
pub(super) const ENDS: [[usize; 2]; 6] = [[0, 1], [1, 2], [2, 3], [3, 0], [0, 2], [3, 1]];

/// The distances of four corners, clockwise from the top left: top, right, bottom and left side,
/// falling and rising diagonal.
#[must_use]
pub fn measure_quad(corners: &[Point; 4]) -> [f64; 6] {
    ENDS.map(|[from, to]| (corners[to] - corners[from]).norm())
}

/// Finds the corners of a quilt from its measures.
///
/// ```
/// use quiltpath_core::geom::{Point, quad::{Diagonals, QuadMeasures, solve_quad}};
///
/// // Two 3-4-5 triangles make a rectangle.
/// let quad = solve_quad(&QuadMeasures {
///     sides: [4.0, 3.0, 4.0, 3.0],
///     diagonals: Diagonals::Falling(5.0),
/// })?;
/// assert!((quad.corners[2] - Point::new(4.0, 3.0)).norm() < 1e-12);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a measure is not above 0, when three measures don't form a triangle (it
/// names them and what diagonal would be accepted), or when a corner would be dented in.
///
/// # Complexity
///
/// O(1); with two diagonals up to 100 steps of Gauss–Newton.
pub fn solve_quad(measures: &QuadMeasures) -> Result<Quad, Error> {
    let given = measures.given();
    for (what, value) in NAMES.into_iter().zip(given) {
        if value.is_some_and(|v| !(v > 0.0 && v.is_finite() && v <= super::MAX_COORDINATE)) {
            return Err(Error::bad_number(
                what,
                value.unwrap_or_default(),
                "a length above 0 and up to 1e9",
            ));
        }
    }
    let corners = match measures.diagonals {
        Diagonals::Falling(falling) => by_falling(measures.sides, falling)?,
        Diagonals::Rising(rising) => by_rising(measures.sides, rising)?,
        Diagonals::Both { falling, rising } => {
            let start = by_falling(measures.sides, falling)
                .or_else(|error| by_rising(measures.sides, rising).map_err(|_| error))?;
            let [top, right, bottom, left] = measures.sides;
            least_squares(start, &[top, right, bottom, left, falling, rising])
        }
    };
    check_convex(&corners)?;
    let residuals = NAMES
        .into_iter()
        .zip(given)
        .zip(measure_quad(&corners))
        .filter_map(|((what, given), found)| given.map(|given| Residual { what, given, found }))
        .collect();
    Ok(Quad { corners, residuals })
}

/// How far each corner moves, at most, when a diagonal is `change` longer or shorter; all in the
/// unit of the measures, the corners clockwise from the top left one.
///
/// The top left corner and the line of the top side stay, as in [`solve_quad`]. With two diagonals
/// each is changed in turn and the larger move counts. A change that no quilt allows is passed
/// over; where none is possible, the moves are infinite.
///
/// ```
/// use quiltpath_core::geom::quad::{Diagonals, QuadMeasures, sensitivity};
///
/// // A square: a longer diagonal leans the sides over, and the bottom corners move with them.
/// let square = QuadMeasures {
///     sides: [60.0; 4],
///     diagonals: Diagonals::Falling(60.0 * 2.0_f64.sqrt()),
/// };
/// let moves = sensitivity(&square, 0.25)?;
/// assert_eq!(moves[..2], [0.0, 0.0]);
/// assert!((moves[2] - 0.25 * 2.0_f64.sqrt()).abs() < 0.01);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`solve_quad`] for the measures themselves.
///
/// # Complexity
///
/// O(1): up to five quilts solved.
pub fn sensitivity(measures: &QuadMeasures, change: f64) -> Result<[f64; 4], Error> {
    let corners = solve_quad(measures)?.corners;
    let changed = [change, -change].into_iter().flat_map(|by| {
        let variants = match measures.diagonals {
            Diagonals::Falling(falling) => [Some(Diagonals::Falling(falling + by)), None],
            Diagonals::Rising(rising) => [Some(Diagonals::Rising(rising + by)), None],
            Diagonals::Both { falling, rising } => {
                let both = |falling, rising| Some(Diagonals::Both { falling, rising });
                [both(falling + by, rising), both(falling, rising + by)]
            }
        };
        variants.into_iter().flatten()
    });
    let moved: Vec<[f64; 4]> = changed
        .filter_map(|diagonals| {
            let measures = QuadMeasures {
                diagonals,
                ..*measures
            };
            let quad = solve_quad(&measures).ok()?;
            Some([0, 1, 2, 3].map(|at| (quad.corners[at] - corners[at]).norm()))
        })
        .collect();
    if moved.is_empty() {
        return Ok([f64::INFINITY; 4]);
    }
    Ok([0, 1, 2, 3].map(|at| moved.iter().map(|corner| corner[at]).fold(0.0, f64::max)))
}

impl QuadMeasures {
    /// The measures in the order of [`NAMES`].
    fn given(&self) -> [Option<f64>; 6] {
        let [top, right, bottom, left] = self.sides.map(Some);
        let (falling, rising) = match self.diagonals {
            Diagonals::Falling(falling) => (Some(falling), None),
            Diagonals::Rising(rising) => (None, Some(rising)),
            Diagonals::Both { falling, rising } => (Some(falling), Some(rising)),
        };
        [top, right, bottom, left, falling, rising]
    }
}

fn by_falling(sides: [f64; 4], diagonal: f64) -> Result<[Point; 4], Error> {
    let [top, right, bottom, left] = sides;
    check_triangles([[0, 1], [2, 3]], sides, 4, diagonal)?;
    let origin = Point::origin();
    let (along, height) = apex(top, diagonal, right);
    let across = Point::new(along, height);
    let (along, height) = apex(diagonal, left, bottom);
    let step = (across - origin).normalize();
    let below = origin + step * along + clockwise(step) * height;
    Ok([origin, Point::new(top, 0.0), across, below])
}

fn by_rising(sides: [f64; 4], diagonal: f64) -> Result<[Point; 4], Error> {
    let [top, right, bottom, left] = sides;
    check_triangles([[0, 3], [1, 2]], sides, 5, diagonal)?;
    let corner = Point::new(top, 0.0);
    let (along, height) = apex(top, left, diagonal);
    let below = Point::new(along, height);
    let (along, height) = apex(diagonal, right, bottom);
    let step = (below - corner).normalize();
    let across = corner + step * along - clockwise(step) * height;
    Ok([Point::origin(), corner, across, below])
}

fn clockwise(vector: Vector) -> Vector {
    Vector::new(-vector.y, vector.x)
}

/// The apex of a triangle over its base, from the base's start: the distance along the base and
/// the height, where `near` and `far` are the sides at the base's start and end.
fn apex(base: f64, near: f64, far: f64) -> (f64, f64) {
    let along = (base * base + (near - far) * (near + far)) / (2.0 * base);
    let mut sides = [base, near, far];
    sides.sort_by(f64::total_cmp);
    let [c, b, a] = sides;
    // Kahan's order of operations; the parentheses are needed.
    let product = (a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c));
    (along, product.max(0.0).sqrt() / (2.0 * base))
}

/// Checks that each pair of sides forms a triangle with the diagonal.
fn check_triangles(
    pairs: [[usize; 2]; 2],
    sides: [f64; 4],
    name: usize,
    diagonal: f64,
) -> Result<(), Error> {
    let limits = pairs.map(|[a, b]| ((sides[a] - sides[b]).abs(), sides[a] + sides[b]));
    let least = limits[0].0.max(limits[1].0);
    let most = limits[0].1.min(limits[1].1);
    for ([a, b], (low, high)) in pairs.into_iter().zip(limits) {
        if diagonal <= low || diagonal >= high {
            let measures = [(a, sides[a]), (b, sides[b]), (name, diagonal)];
            return Err(GeometryFault::NoTriangle {
                measures: measures.map(|(name, length)| Measure {
                    name: bare(NAMES[name]),
                    length,
                }),
                between: (least < most).then_some([least, most]),
            }
            .into());
        }
    }
    Ok(())
}

/// A name without its article.
fn bare(name: &'static str) -> &'static str {
    name.trim_start_matches("the ")
}

fn check_convex(corners: &[Point; 4]) -> Result<(), Error> {
    for (at, corner) in BoxCorner::ALL.into_iter().enumerate() {
        let before = corners[at] - corners[(at + 3) % 4];
        let after = corners[(at + 1) % 4] - corners[at];
        if before.perp(&after) <= 1e-12 * before.norm() * after.norm() {
            // A triangle has no such corner, so it lies at an end of the diagonal that was used.
            let (corner, diagonal) = (corner.to_string(), bare(NAMES[4 + at % 2]));
            return Err(GeometryFault::Dented { corner, diagonal }.into());
        }
    }
    Ok(())
}

/// The corners near `start` whose distances are closest to the given ones.
fn least_squares(start: [Point; 4], given: &[f64; 6]) -> [Point; 4] {
    let size = given.iter().copied().fold(0.0, f64::max);
    let residuals = |corners: &[Point; 4]| {
        let found = measure_quad(corners);
        SVector::<f64, 6>::from_fn(|row, _| found[row] - given[row])
    };
    let mut corners = start;
    let mut off = residuals(&corners);
    for _ in 0..100 {
        let slopes = slopes(&corners);
        let transposed = slopes.transpose();
        let Some(square) = (transposed * slopes).cholesky() else {
            break;
        };
        let mut step: SVector<f64, 5> = square.solve(&(transposed * -off));
        let better = (0..40).find_map(|_| {
            let moved = moved(&corners, &step);
            let next = residuals(&moved);
            let found = (next.norm_squared() < off.norm_squared()).then_some((moved, next));
            if found.is_none() {
                step *= 0.5;
            }
            found
        });
        let Some((next, next_off)) = better else {
            break;
        };
        (corners, off) = (next, next_off);
        if step.norm() <= 1e-15 * size {
            break;
        }
    }
    corners
}

/// The free coordinates: x of the top right corner, then x and y of the two bottom ones.
fn column(corner: usize, axis: usize) -> Option<usize> {
    match (corner, axis) {
        (1, 0) => Some(0),
        (2 | 3, _) => Some(2 * corner + axis - 3),
        _ => None,
    }
}

fn moved(corners: &[Point; 4], step: &SVector<f64, 5>) -> [Point; 4] {
    let mut moved = *corners;
    for (corner, point) in moved.iter_mut().enumerate() {
        for axis in 0..2 {
            if let Some(column) = column(corner, axis) {
                point[axis] += step[column];
            }
        }
    }
    moved
}

/// How each distance changes with each free coordinate.
fn slopes(corners: &[Point; 4]) -> SMatrix<f64, 6, 5> {
    let mut slopes = SMatrix::zeros();
    for (row, [from, to]) in ENDS.into_iter().enumerate() {
        let step = (corners[to] - corners[from]).normalize();
        for axis in 0..2 {
            for (corner, sign) in [(from, -1.0), (to, 1.0)] {
                if let Some(column) = column(corner, axis) {
                    slopes[(row, column)] += sign * step[axis];
                }
            }
        }
    }
    slopes
}

#[cfg(test)]
mod tests;
