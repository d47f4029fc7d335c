//! How a picture is read, and what came of it.

use super::blank::Blank;
use crate::error::{Error, positive};
use crate::geom::Point;
use crate::strokes::Drawing;

/// What becomes of filled shapes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Fills {
    /// Their edge is drawn, half a pen within.
    #[default]
    Outline,
    /// A picture that has any is refused.
    Refuse,
}

/// How a picture is read; lengths in millimetres.
///
/// ```
/// use quiltpath_core::raster::{Fills, ScanOptions};
///
/// let options = ScanOptions::default().with_width_mm(152.4)?.with_fills(Fills::Refuse);
/// assert_eq!(options.width_mm, Some(152.4));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct ScanOptions {
    /// How wide the drawing is, from its leftmost to its rightmost point; where it is `None`, the
    /// marks of the drawing paper tell its size.
    pub width_mm: Option<f64>,
    /// How large a pixel is where the drawing's width is not given and there are no marks; where this
    /// is `None`, such a picture is refused.
    pub pixel_mm: Option<f64>,
    /// How much paper may be between two ends that are joined; where it is `None`, four pens.
    pub bridge_mm: Option<f64>,
    /// What becomes of filled shapes.
    pub fills: Fills,
}

impl ScanOptions {
    /// The same options for a drawing of this width.
    ///
    /// # Errors
    ///
    /// A geometry error for a width that is not above 0.
    pub fn with_width_mm(self, width: f64) -> Result<Self, Error> {
        positive(
            "the width of the drawing",
            width,
            "a length above 0, for example 150 mm",
        )?;
        Ok(Self {
            width_mm: Some(width),
            ..self
        })
    }

    /// The same options for a picture whose pixels are this large, unless its marks have it otherwise.
    ///
    /// # Errors
    ///
    /// A geometry error for a size that is not above 0.
    pub fn with_pixel_mm(self, pixel: f64) -> Result<Self, Error> {
        positive(
            "the size of a pixel",
            pixel,
            "a length above 0, for example 0.1 mm",
        )?;
        Ok(Self {
            pixel_mm: Some(pixel),
            ..self
        })
    }

    /// The same options with gaps of up to this filled.
    ///
    /// # Errors
    ///
    /// A geometry error for a length that is below 0.
    pub fn with_bridge_mm(self, bridge: f64) -> Result<Self, Error> {
        crate::error::not_negative(
            "the longest gap",
            bridge,
            "a length of 0 or more, for example 2 mm",
        )?;
        Ok(Self {
            bridge_mm: Some(bridge),
            ..self
        })
    }

    /// The same options with this done about filled shapes.
    #[must_use]
    pub fn with_fills(self, fills: Fills) -> Self {
        Self { fills, ..self }
    }
}

/// What the size of the drawing goes by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum ScanSize {
    /// The width that the options give.
    Given,
    /// The marks of the drawing paper.
    Marks,
    /// The size of a pixel that the options give.
    Pixels,
}

/// Why a place is in doubt.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum DoubtKind {
    /// Two lines are closer than the pen is wide and were read as one.
    Close,
    /// A gap was filled, though another end was nearly as likely.
    UnsureBridge,
    /// Two ends face each other across a gap that is too wide to be filled.
    OpenGap,
}

/// A place to look at, in millimetres of the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanDoubt {
    /// What is in doubt.
    pub kind: DoubtKind,
    /// Where.
    pub at: Point,
}

/// What was found, filled and left out; lengths in millimetres, places in those of the drawing.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct ScanReport {
    /// The drawing paper, where its marks were found.
    pub blank: Option<Blank>,
    /// What the size goes by.
    pub size: ScanSize,
    /// How many marks of drawing paper were taken as a part of the drawing, since not all four can be
    /// read and the options give the width.
    pub marks: usize,
    /// Pixels in a row, and rows.
    pub pixels: [usize; 2],
    /// The size of a pixel, in the middle of the drawing.
    pub pixel_mm: f64,
    /// How wide the pen is.
    pub pen_mm: f64,
    /// How many specks and dots were left out.
    pub specks: usize,
    /// How many dark shapes at the picture's edge were left out.
    pub edges: usize,
    /// How many shapes outside the drawing paper's band were left out; its own words are among
    /// them.
    pub outside: usize,
    /// How many filled shapes were outlined.
    pub filled: usize,
    /// How much of the printed guides was taken out.
    pub guides_mm: f64,
    /// How many short side lines were cut.
    pub spurs: usize,
    /// How many crossings were mended that thinning had split.
    pub crossings: usize,
    /// The gaps that were filled, from end to end.
    pub bridged: Vec<[Point; 2]>,
    /// Places to look at.
    pub doubts: Vec<ScanDoubt>,
}

/// The lines as they lie in the picture, in pixels from its top left.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct Traced {
    /// The strokes.
    pub lines: Vec<Vec<Point>>,
    /// The gaps that were filled.
    pub bridged: Vec<[Point; 2]>,
    /// Places in doubt, in the order of the report.
    pub doubts: Vec<Point>,
}

/// A drawing read from a picture.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Scan {
    /// Its strokes in millimetres; on drawing paper from the top left of the band, otherwise of
    /// itself.
    pub drawing: Drawing,
    /// How it came to be.
    pub report: ScanReport,
    /// The same strokes on the picture.
    pub traced: Traced,
}
