//! A mark of the plan, and where the machine says that it is.

use crate::error::{AlignFault, Error, positive};
use crate::geom::{MAX_COORDINATE, Point};

/// How well a needle is put on a mark by eye, as a standard deviation: 1/48 in (common practice is
/// to half a thread or so).
pub const DEFAULT_NOISE_MM: f64 = 25.4 / 48.0;

/// So many readings are more than a pass can need.
const MOST: usize = 40;

/// A mark and where the machine says that it is, in one unit, x to the right and y down.
///
/// ```
/// use quiltpath_core::align::Reading;
/// use quiltpath_core::geom::Point;
///
/// let end = Reading::new("end of the left side", Point::new(0.0, 90.0), Point::new(1.5, 88.0)).exactly();
/// assert!(end.exact);
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Reading {
    /// The name of the mark; readings of one name are of one mark.
    pub mark: String,
    /// Where the plan has it.
    pub planned: Point,
    /// Where the machine is when the needle stands on it.
    pub read: Point,
    /// How well it can be read, as a standard deviation, above 0.
    pub noise: f64,
    /// Whether the map has to meet it exactly, as the end of a line already stitched.
    pub exact: bool,
}

impl Reading {
    /// A reading that is as good as [`DEFAULT_NOISE_MM`], in millimetres.
    #[must_use]
    pub fn new(mark: impl Into<String>, planned: Point, read: Point) -> Self {
        Self {
            mark: mark.into(),
            planned,
            read,
            noise: DEFAULT_NOISE_MM,
            exact: false,
        }
    }

    /// The same reading, as good as this.
    #[must_use]
    pub fn with_noise(self, noise: f64) -> Self {
        Self { noise, ..self }
    }

    /// The same reading, to be met exactly.
    #[must_use]
    pub fn exactly(self) -> Self {
        Self {
            exact: true,
            ..self
        }
    }

    fn check(&self) -> Result<(), Error> {
        let within = -MAX_COORDINATE..=MAX_COORDINATE;
        for point in [self.planned, self.read] {
            if let Some(&value) = point.iter().find(|value| !within.contains(*value)) {
                let what = "a coordinate of a mark";
                return Err(Error::bad_number(what, value, "a number from -1e9 to 1e9"));
            }
        }
        positive("how well a mark is read", self.noise, "a length above 0")
    }
}

/// One reading for each mark: those of one mark averaged, in the order of their first.
pub(super) fn merged(readings: &[Reading]) -> Result<Vec<Reading>, Error> {
    if readings.is_empty() {
        return Err(AlignFault::NoReadings.into());
    }
    if readings.len() > MOST {
        let (count, limit) = (readings.len(), MOST);
        return Err(AlignFault::TooMany { count, limit }.into());
    }
    let mut marks: Vec<Reading> = Vec::new();
    let mut times: Vec<f64> = Vec::new();
    for reading in readings {
        reading.check()?;
        let Some(at) = marks.iter().position(|mark| mark.mark == reading.mark) else {
            marks.push(reading.clone());
            times.push(1.0);
            continue;
        };
        let (mark, count) = (&mut marks[at], &mut times[at]);
        // Two readings of one place differ by their noise and that of the other.
        let limit = 3.0 * mark.noise.hypot(reading.noise);
        let apart = (reading.read - mark.read).norm();
        if apart > limit {
            let mark = reading.mark.clone();
            return Err(AlignFault::ReadTwice { mark, apart, limit }.into());
        }
        *count += 1.0;
        mark.read += (reading.read - mark.read) / *count;
        mark.exact |= reading.exact;
    }
    for (mark, count) in marks.iter_mut().zip(times) {
        mark.noise /= f64::sqrt(count);
    }
    let nearest = |a: &Reading, b: &Reading| (a.planned - b.planned).norm();
    for (at, one) in marks.iter().enumerate() {
        let close =
            |other: &&Reading| nearest(one, other) <= 1e-9 * (1.0 + one.planned.coords.amax());
        if let Some(other) = marks[at + 1..].iter().find(close) {
            let marks = [one.mark.clone(), other.mark.clone()];
            return Err(AlignFault::SamePlace { marks }.into());
        }
    }
    Ok(marks)
}
