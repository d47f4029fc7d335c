//! Readings of marks in a file, as a page or a program at the frame writes them.

use serde::Deserialize;

use super::fault;
use crate::error::Error;
use crate::io::readings::TypedReading;
use crate::plan::spec::{LengthSpec, UnitSpec};
use crate::units::{Length, Unit};

/// What such a file should hold.
const READINGS: &str = "readings such as {\"pass\": 3, \"unit\": \"in\", \"readings\": [{\"mark\": \"A\", \"x\": 3.12, \"y\": \"4 1/2\"}]}";

/// Readings of one pass.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Readings {
    /// The number of the pass, from 1, where the file has it.
    pub pass: Option<usize>,
    /// The readings, in the order of the file; those without a unit of their own are in the file's,
    /// where it has one.
    pub readings: Vec<TypedReading>,
}

#[derive(Deserialize)]
struct File {
    pass: Option<usize>,
    unit: Option<UnitSpec>,
    readings: Vec<One>,
}

#[derive(Deserialize)]
struct One {
    mark: String,
    x: LengthSpec,
    y: LengthSpec,
}

/// Reads readings of marks.
///
/// Lengths are numbers, or text as people type it; keys that are not known are skipped.
///
/// ```
/// use quiltpath_core::io::json::read_readings;
///
/// let file = read_readings(br#"{"pass": 3, "readings": [{"mark": "A", "x": 3.5, "y": "4 1/2 in"}]}"#)?;
/// assert_eq!((file.pass, file.readings[0].y.value), (Some(3), 4.5));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A data error with row, column and key path.
///
/// # Complexity
///
/// O(bytes).
pub fn read_readings(bytes: &[u8]) -> Result<Readings, Error> {
    let text = fault::utf8(bytes, READINGS)?;
    let file: File = fault::from_str(text)?;
    let unit = file.unit.map(Unit::from);
    let length = |length: LengthSpec| {
        let Length { value, unit: own } = length.0;
        Length {
            value,
            unit: own.or(unit),
        }
    };
    let readings = file.readings.into_iter().map(|one| TypedReading {
        mark: one.mark,
        x: length(one.x),
        y: length(one.y),
    });
    Ok(Readings {
        pass: file.pass,
        readings: readings.collect(),
    })
}
