//! The four corners of a box, by their place as seen.

use std::fmt;

use super::{Bounds, Point};

/// One of the four corners of a box.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum BoxCorner {
    /// Top left: the least x and the least y.
    TopLeft,
    /// Top right: the greatest x and the least y.
    TopRight,
    /// Bottom right: the greatest x and the greatest y.
    BottomRight,
    /// Bottom left: the least x and the greatest y.
    BottomLeft,
}

impl BoxCorner {
    /// All four, clockwise from the top left.
    pub const ALL: [Self; 4] = [
        Self::TopLeft,
        Self::TopRight,
        Self::BottomRight,
        Self::BottomLeft,
    ];

    /// The name in data: `top_left`, `top_right`, `bottom_right` or `bottom_left`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::TopLeft => "top_left",
            Self::TopRight => "top_right",
            Self::BottomRight => "bottom_right",
            Self::BottomLeft => "bottom_left",
        }
    }

    /// This corner of a box.
    #[must_use]
    pub fn of(self, bounds: Bounds) -> Point {
        let Bounds { min, max } = bounds;
        match self {
            Self::TopLeft => min,
            Self::TopRight => Point::new(max.x, min.y),
            Self::BottomRight => max,
            Self::BottomLeft => Point::new(min.x, max.y),
        }
    }

    /// The corner diagonally across.
    #[must_use]
    pub fn opposite(self) -> Self {
        match self {
            Self::TopLeft => Self::BottomRight,
            Self::TopRight => Self::BottomLeft,
            Self::BottomRight => Self::TopLeft,
            Self::BottomLeft => Self::TopRight,
        }
    }

    /// The clockwise quarter turns that bring this corner to the top left.
    pub(crate) fn quarter_turns(self) -> u8 {
        match self {
            Self::TopLeft => 0,
            Self::TopRight => 3,
            Self::BottomRight => 2,
            Self::BottomLeft => 1,
        }
    }
}

impl fmt::Display for BoxCorner {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::TopLeft => "top left",
            Self::TopRight => "top right",
            Self::BottomRight => "bottom right",
            Self::BottomLeft => "bottom left",
        })
    }
}
