//! Units of length, and lengths as people read them.
//!
//! 1 in = 25.4 mm exactly (NIST Special Publication 811, appendix B).

use std::fmt;

use super::rounded::rounded;
use crate::geom::Point;

/// A unit of length.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Unit {
    /// Inch, 25.4 mm exactly.
    In,
    /// Foot, 12 in.
    Ft,
    /// Yard, 36 in.
    Yd,
    /// Millimetre.
    Mm,
    /// Centimetre.
    Cm,
    /// Metre.
    M,
}

impl Unit {
    /// All units, in the order in which messages list them.
    pub const ALL: &'static [Self] = &[Self::In, Self::Ft, Self::Yd, Self::Mm, Self::Cm, Self::M];

    /// How many millimetres one of this unit is, exactly.
    #[must_use]
    pub fn in_mm(self) -> f64 {
        match self {
            Self::In => 25.4,
            Self::Ft => 304.8,
            Self::Yd => 914.4,
            Self::Mm => 1.0,
            Self::Cm => 10.0,
            Self::M => 1000.0,
        }
    }

    /// The short name: `in`, `ft`, `yd`, `mm`, `cm` or `m`.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::In => "in",
            Self::Ft => "ft",
            Self::Yd => "yd",
            Self::Mm => "mm",
            Self::Cm => "cm",
            Self::M => "m",
        }
    }

    /// Points of this unit in another, rounded to 1e-9 of it, so that 3 in come back from mm as 3.
    ///
    /// Points that stay in their unit stay the same bit for bit.
    ///
    /// ```
    /// use quiltpath_core::{geom::Point, units::Unit};
    ///
    /// let points = Unit::In.change_points(vec![Point::new(3.0, -0.1)], Unit::Mm);
    /// assert_eq!(points, [Point::new(76.2, -2.54)]);
    /// ```
    ///
    /// # Complexity
    ///
    /// O(points).
    #[must_use]
    pub fn change_points(self, mut points: Vec<Point>, to: Self) -> Vec<Point> {
        if self != to {
            for point in &mut points {
                *point = point.map(|value| self.change(value, to));
            }
        }
        points
    }

    /// A length of this unit in another, rounded to 1e-9 of it: finer than any cloth, and 63.75
    /// stays 63.75 on the way through millimetres.
    pub(crate) fn change(self, value: f64, to: Self) -> f64 {
        const GRID: f64 = 1e9;
        let steps = value * self.in_mm() / to.in_mm() * GRID;
        nearest(steps) / GRID + 0.0
    }

    /// A length of millimetres as a person reads it: the nearest 1/16 in, or the nearest 0.5 mm; in
    /// feet and yards three decimals, in metres four.
    ///
    /// ```
    /// use quiltpath_core::units::Unit;
    ///
    /// assert_eq!(Unit::In.readable(112.7), "4 7/16 in");
    /// assert_eq!(Unit::Mm.readable(112.7), "112.5 mm");
    /// ```
    #[must_use]
    pub fn readable(self, mm: f64) -> String {
        match self {
            Self::In => format!("{} in", sixteenths(mm / 25.4)),
            Self::Ft | Self::Yd => format!("{} {self}", decimals(mm / self.in_mm(), 3)),
            Self::Mm => format!("{} mm", (mm * 2.0).round() / 2.0 + 0.0),
            Self::Cm => format!("{} cm", (mm * 2.0).round() / 20.0 + 0.0),
            Self::M => format!("{} m", decimals(mm / 1000.0, 4)),
        }
    }

    /// A length of millimetres to about four digits, for messages that must not be rounded to what
    /// a ruler shows.
    ///
    /// ```
    /// use quiltpath_core::units::Unit;
    ///
    /// assert_eq!(Unit::In.precise(112.7), "4.437 in");
    /// ```
    #[must_use]
    pub fn precise(self, mm: f64) -> String {
        format!("{} {self}", rounded(mm / self.in_mm()))
    }

    /// True for millimetres, centimetres and metres.
    #[must_use]
    pub fn is_metric(self) -> bool {
        matches!(self, Self::Mm | Self::Cm | Self::M)
    }

    /// As [`readable`](Self::readable), but from ten yards, or ten metres, on in these: the length
    /// of a line that nobody lays a ruler along.
    ///
    /// ```
    /// use quiltpath_core::units::Unit;
    ///
    /// assert_eq!(Unit::In.readable_line(3009.9), "118 1/2 in");
    /// assert_eq!(Unit::In.readable_line(197412.6), "215.9 yd");
    /// assert_eq!(Unit::Cm.readable_line(197412.6), "197.4 m");
    /// ```
    #[must_use]
    pub fn readable_line(self, mm: f64) -> String {
        const MOST: f64 = 10.0;
        match mm.abs() < MOST * self.long().in_mm() {
            true => self.readable(mm),
            false => self.readable_thread(mm),
        }
    }

    /// A long length of millimetres, such as thread, as a person who measures in this unit reads
    /// it: in yards or metres.
    ///
    /// ```
    /// use quiltpath_core::units::Unit;
    ///
    /// assert_eq!(Unit::In.readable_thread(9144.0), "10.0 yd");
    /// assert_eq!(Unit::Mm.readable_thread(9144.0), "9.1 m");
    /// ```
    #[must_use]
    pub fn readable_thread(self, mm: f64) -> String {
        let unit = self.long();
        format!("{:.1} {unit}", mm / unit.in_mm())
    }

    /// The unit for long lengths of who measures in this one.
    fn long(self) -> Self {
        if self.is_metric() { Self::M } else { Self::Yd }
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}

/// So many decimals, never a zero with a minus.
fn decimals(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    match text.strip_prefix('-') {
        Some(zero) if !zero.contains(|c| ('1'..='9').contains(&c)) => zero.to_owned(),
        _ => text,
    }
}

/// The nearest sixteenth as a mixed number, such as `4 7/16`, `-1/2` or `0`.
fn sixteenths(value: f64) -> String {
    let total = (value * 16.0).round().abs();
    let sign = if value < 0.0 && total > 0.0 { "-" } else { "" };
    let (whole, part) = ((total / 16.0).floor(), (total % 16.0) as u32);
    if part == 0 {
        return format!("{sign}{whole}");
    }
    let shared = 1 << part.trailing_zeros();
    let fraction = format!("{}/{}", part / shared, 16 / shared);
    if whole == 0.0 {
        format!("{sign}{fraction}")
    } else {
        format!("{sign}{whole} {fraction}")
    }
}

/// The nearest whole number, halves away from zero: [`f64::round`], which is a call into the C
/// library where the processor may be an old one.
pub(crate) fn nearest(value: f64) -> f64 {
    // From 2^52 on all numbers are whole.
    if value.is_nan() || value.abs() >= 4_503_599_627_370_496.0 {
        return value;
    }
    let whole = value as i64;
    let rest = value - whole as f64;
    (whole + i64::from(rest >= 0.5) - i64::from(rest <= -0.5)) as f64
}
