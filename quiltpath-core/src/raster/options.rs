//! How a picture is read, and what came of it.

use super::blank::Blank;
use crate::error::{Error, positive};
use crate::geom::Point;
use crate::strokes::Drawing;

/// What becomes of filled shapes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Fills {
    /// Their outline is read as a line, half a pen's width inside their edge.
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
    /// How wide the drawing is, from its leftmost to its rightmost point, above 0; where it is
    /// `None`, the marks of the drawing paper give its size.
    pub width_mm: Option<f64>,
    /// How large a pixel is, above 0, where the width is not given and there are no marks; where
    /// this is `None`, such a picture is refused.
    pub pixel_mm: Option<f64>,
    /// The longest gap between two ends that is filled, 0 or more; where it is `None`, four times
    /// the width of the pen.
    pub bridge_mm: Option<f64>,
    /// What becomes of filled shapes; outlined by default.
    pub fills: Fills,
}

impl ScanOptions {
    /// The same options for a drawing of this width, in millimetres.
    ///
    /// # Errors
    ///
    /// A geometry error for a width that is not above 0 or not finite.
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

    /// The same options for a picture whose pixels are this large, unless its marks have it
    /// otherwise.
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

    /// The same options with gaps of up to this length filled, in millimetres.
    ///
    /// # Errors
    ///
    /// A geometry error for a length that is below 0 or not finite.
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

    /// Refuses a width or a gap that is none, which the fields may hold.
    pub(super) fn check(self) -> Result<(), Error> {
        if let Some(width) = self.width_mm {
            self.with_width_mm(width)?;
        }
        if let Some(pixel) = self.pixel_mm {
            self.with_pixel_mm(pixel)?;
        }
        if let Some(bridge) = self.bridge_mm {
            self.with_bridge_mm(bridge)?;
        }
        Ok(())
    }

    /// The same options with filled shapes treated so.
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

/// A place to look at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanDoubt {
    /// What is in doubt.
    pub kind: DoubtKind,
    /// Where, in the coordinates of [`Scan::drawing`].
    pub at: Point,
}

/// What was found, filled and left out. Lengths are in millimetres, places in the coordinates of
/// [`Scan::drawing`].
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct ScanReport {
    /// The drawing paper, where its marks were found.
    pub blank: Option<Blank>,
    /// What the size goes by.
    pub size: ScanSize,
    /// How many marks of drawing paper were taken as a part of the drawing, since not all four can
    /// be read and the options give the width.
    pub marks: usize,
    /// The width and the height of the picture, in pixels.
    pub pixels: [usize; 2],
    /// The width of a pixel, in the middle of the drawing.
    pub pixel_mm: f64,
    /// The width of the pen.
    pub pen_mm: f64,
    /// How many specks and dots were left out.
    pub specks: usize,
    /// How many dark shapes at the picture's edge were left out.
    pub edges: usize,
    /// How many shapes outside the drawing paper's band were left out; the letters that are printed
    /// there are among them.
    pub outside: usize,
    /// How many filled shapes were outlined.
    pub filled: usize,
    /// The length of printed guides that was left out.
    pub guides_mm: f64,
    /// How many side lines shorter than 1.5 pens were left out.
    pub spurs: usize,
    /// How many crossings of lines came out as two forks, and were made one.
    pub crossings: usize,
    /// The gaps that were filled, from end to end.
    pub bridged: Vec<[Point; 2]>,
    /// Places to look at.
    pub doubts: Vec<ScanDoubt>,
}

/// The lines as they lie in the picture, in pixels from its top left corner, x to the right, y
/// down.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct Traced {
    /// The points of each stroke, in the order of [`Scan::drawing`].
    pub lines: Vec<Vec<Point>>,
    /// The gaps that were filled, from end to end.
    pub bridged: Vec<[Point; 2]>,
    /// Places in doubt, in the order of the report.
    pub doubts: Vec<Point>,
}

/// A drawing read from a picture.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Scan {
    /// Its strokes in millimetres, x to the right, y down. (0, 0) is the top left corner of the
    /// drawing paper's band where its marks give the size, else that of the box of the strokes.
    pub drawing: Drawing,
    /// What was found, filled and left out.
    pub report: ScanReport,
    /// The same strokes as they lie in the picture.
    pub traced: Traced,
}
