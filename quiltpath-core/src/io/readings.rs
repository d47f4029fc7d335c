//! Readings as people write them: a mark, and where the machine says that the needle is.

use std::str::FromStr;

use crate::error::{Error, LengthFault};
use crate::units::{Length, Unit};

/// A reading as it was typed: the mark, and the machine's x and y.
///
/// Accepted: the letter of a mark and two lengths, as in `A 3.12 4.50`, `3A 3 1/8 4 1/2`, `A 79 mm
/// 114 mm`, `A 79 114 mm`; or the name of a mark, a colon and two lengths, as in `seam corner
/// bottom left: 3.12, 4.50`. A unit after the second length alone counts for both.
///
/// ```
/// use quiltpath_core::io::readings::TypedReading;
///
/// let reading: TypedReading = "A 50 1/4 4.5".parse()?;
/// assert_eq!((reading.mark.as_str(), reading.x.value, reading.y.value), ("A", 50.25, 4.5));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct TypedReading {
    /// The letter or the name of the mark.
    pub mark: String,
    /// The machine's x.
    pub x: Length,
    /// The machine's y.
    pub y: Length,
}

impl TypedReading {
    /// The machine's x and y in millimetres; bare numbers are taken in this unit.
    #[must_use]
    pub fn in_mm(&self, bare: Unit) -> [f64; 2] {
        [self.x, self.y].map(|length| length.value * length.unit.unwrap_or(bare).in_mm())
    }
}

impl FromStr for TypedReading {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let fault = || {
            Error::from(LengthFault::NoReading {
                text: text.to_owned(),
            })
        };
        let (mark, place) = match text.rsplit_once(':') {
            Some(parts) => parts,
            None => text
                .trim_start()
                .split_once(char::is_whitespace)
                .ok_or_else(fault)?,
        };
        let mark = mark.trim();
        if mark.is_empty() {
            return Err(fault());
        }
        let [x, y] = two_lengths(place).ok_or_else(fault)?;
        Ok(Self {
            mark: mark.to_owned(),
            x,
            y,
        })
    }
}

/// Two lengths, with a comma or a space between them.
fn two_lengths(text: &str) -> Option<[Length; 2]> {
    let both = |[x, y]: [&str; 2]| {
        let [mut x, y] = [x.parse::<Length>().ok()?, y.parse::<Length>().ok()?];
        x.unit = x.unit.or(y.unit);
        Some([x, y])
    };
    if let Some((x, y)) = text.split_once(',') {
        return both([x, y]);
    }
    let text = text.trim();
    let spaces = text.match_indices(char::is_whitespace);
    let mut found = spaces.filter_map(|(at, _)| both([&text[..at], &text[at..]]));
    found.next()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn readings_are_read_as_people_write_them() {
        for (text, mark, mm) in [
            ("A 3.12 4.50", "A", [3.12 * 25.4, 4.5 * 25.4]),
            ("3A 3 1/8 50 1/4", "3A", [3.125 * 25.4, 50.25 * 25.4]),
            ("B 50 1/4 3 1/8", "B", [50.25 * 25.4, 3.125 * 25.4]),
            ("B -1/2, 3", "B", [-0.5 * 25.4, 3.0 * 25.4]),
            ("A 79 mm 11.4 cm", "A", [79.0, 114.0]),
            ("A 79 114 mm", "A", [79.0, 114.0]),
            ("A 79mm 4.5", "A", [79.0, 4.5 * 25.4]),
            (
                "seam corner bottom left: 3, 4",
                "seam corner bottom left",
                [76.2, 101.6],
            ),
            (
                "end of border side left, repeat 4: 3 4",
                "end of border side left, repeat 4",
                [76.2, 101.6],
            ),
        ] {
            let read: TypedReading = text.parse().expect(text);
            assert_eq!(read.mark, mark, "{text}");
            let found = read.in_mm(Unit::In);
            assert!(
                (0..2).all(|at| (found[at] - mm[at]).abs() < 1e-9),
                "{text}: {found:?}"
            );
        }
        for text in [
            "",
            "A",
            "A 3",
            "A x 4",
            "A 3 4 5",
            ": 3 4",
            "A 3 4 furlongs",
        ] {
            let error = text.parse::<TypedReading>().expect_err(text).to_string();
            assert!(error.contains("A 3.12 4.50"), "{text}: {error}");
        }
    }
}
