//! The names of a border's sides and corners.
//!
//! Side k runs from corner k to the next one, clockwise as seen. The four sides of a quilt have the
//! names of a page; those of any other outline are numbered from 1, as its corners are.

use std::fmt;

use crate::geom::BoxCorner;
use crate::geom::convex::MAX_SIDES;

const NUMBERS: [&str; MAX_SIDES] = [
    "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12",
];

/// The names of the four sides of a quilt, clockwise from the top.
pub(crate) const SIDE_NAMES: [&str; 4] = ["top", "right", "bottom", "left"];

/// One side of a border.
///
/// ```
/// use quiltpath_core::plan::Side;
///
/// assert_eq!(Side::RIGHT.to_string(), "right side");
/// let sides: Vec<&str> = Side::all(3).map(Side::name).collect();
/// assert_eq!(sides, ["1", "2", "3"]);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Side {
    index: usize,
    count: usize,
}

impl Side {
    /// Of four: along least y, travelled to the right.
    pub const TOP: Self = Self { index: 0, count: 4 };
    /// Of four: along greatest x, travelled down.
    pub const RIGHT: Self = Self { index: 1, count: 4 };
    /// Of four: along greatest y, travelled to the left.
    pub const BOTTOM: Self = Self { index: 2, count: 4 };
    /// Of four: along least x, travelled up.
    pub const LEFT: Self = Self { index: 3, count: 4 };

    /// The sides of a border with so many, clockwise from the first; at most 12.
    pub fn all(count: usize) -> impl Iterator<Item = Self> + Clone {
        let count = count.min(MAX_SIDES);
        (0..count).map(move |index| Self { index, count })
    }

    /// The two sides of what has two alone.
    pub(in crate::plan) fn pair() -> [Self; 2] {
        [0, 1].map(|index| Self { index, count: 2 })
    }

    /// The number of the side, from 0.
    #[must_use]
    pub fn index(self) -> usize {
        self.index
    }

    /// The number of sides of its border.
    #[must_use]
    pub fn count(self) -> usize {
        self.count
    }

    /// The name in data: of four `top`, `right`, `bottom` or `left`, otherwise its number from 1.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self.count {
            4 => SIDE_NAMES[self.index],
            _ => NUMBERS[self.index],
        }
    }
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.count {
            4 => write!(f, "{} side", self.name()),
            _ => write!(f, "side {}", self.name()),
        }
    }
}

/// One corner of a border: where the side of the same number begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct CornerPlace {
    index: usize,
    count: usize,
}

impl CornerPlace {
    /// The corners of a border with so many sides, clockwise from the first; at most 12.
    pub fn all(count: usize) -> impl Iterator<Item = Self> + Clone {
        let count = count.min(MAX_SIDES);
        (0..count).map(move |index| Self { index, count })
    }

    /// The number of the corner, from 0.
    #[must_use]
    pub fn index(self) -> usize {
        self.index
    }

    /// The name in data: of four `top_left` and so on, otherwise its number from 1.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self.count {
            4 => BoxCorner::ALL[self.index].name(),
            _ => NUMBERS[self.index],
        }
    }
}

impl fmt::Display for CornerPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.count {
            4 => write!(f, "{} corner", BoxCorner::ALL[self.index]),
            _ => write!(f, "corner {}", self.name()),
        }
    }
}
