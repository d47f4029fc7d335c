//! A grey picture of bounded size.

use crate::error::{Error, ScanFault};

/// The most pixels that a picture may have: 64 million, more than a page scanned at 600 dpi.
pub const MAX_PIXELS: usize = 64_000_000;

/// A picture in grey, 0 black to 255 white, row by row from the top left.
///
/// ```
/// use quiltpath_core::raster::Grey;
///
/// let white = Grey::new(40, 30, vec![255; 1200])?;
/// assert_eq!((white.width(), white.height()), (40, 30));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grey {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
}

impl Grey {
    /// A picture of these pixels, row by row from the top left.
    ///
    /// # Errors
    ///
    /// A scan error when a side is under 16 pixels, when there are more than 64 million pixels, or
    /// when their number is not width times height.
    pub fn new(width: usize, height: usize, pixels: Vec<u8>) -> Result<Self, Error> {
        check_size(width as u64, height as u64)?;
        let expected = width * height;
        if pixels.len() != expected {
            let found = pixels.len();
            return Err(ScanFault::WrongCount { found, expected }.into());
        }
        Ok(Self {
            width,
            height,
            pixels,
        })
    }

    /// How many pixels a row has.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// How many rows there are.
    #[must_use]
    pub fn height(&self) -> usize {
        self.height
    }

    /// All pixels, row by row.
    #[must_use]
    pub fn pixels(&self) -> &[u8] {
        &self.pixels
    }

    /// One row of pixels.
    pub(super) fn row(&self, y: usize) -> &[u8] {
        &self.pixels[y * self.width..][..self.width]
    }

    /// The grey at a place between pixels, whose centres lie at halves; beyond the edge that of the
    /// nearest pixel.
    pub(super) fn at(&self, x: f64, y: f64) -> f64 {
        let (x, y) = (x - 0.5, y - 0.5);
        let (left, top) = (x.floor(), y.floor());
        let (right, down) = (x - left, y - top);
        let clamp = |value: f64, count: usize| value.clamp(0.0, (count - 1) as f64) as usize;
        let [x0, x1] = [left, left + 1.0].map(|x| clamp(x, self.width));
        let [y0, y1] = [top, top + 1.0].map(|y| clamp(y, self.height) * self.width);
        let grey = |at: usize| f64::from(self.pixels[at]);
        let upper = grey(y0 + x0) * (1.0 - right) + grey(y0 + x1) * right;
        let lower = grey(y1 + x0) * (1.0 - right) + grey(y1 + x1) * right;
        upper * (1.0 - down) + lower * down
    }
}

/// Refuses a picture that is too small or too large, before any pixel is read.
pub(crate) fn check_size(width: u64, height: u64) -> Result<(), Error> {
    const LEAST_SIDE: u64 = 16;
    if width.min(height) < LEAST_SIDE {
        let least = LEAST_SIDE;
        return Err(ScanFault::TooSmall {
            width,
            height,
            least,
        }
        .into());
    }
    match width.checked_mul(height) {
        Some(count) if count <= MAX_PIXELS as u64 => Ok(()),
        _ => Err(ScanFault::TooLarge {
            width,
            height,
            limit: MAX_PIXELS as u64,
        }
        .into()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_bounded() {
        assert!(Grey::new(16, 16, vec![0; 256]).is_ok());
        for (width, height, count) in [(15, 20, 300), (0, 0, 0), (20, 20, 399), (10_000, 10_000, 0)]
        {
            let error = Grey::new(width, height, vec![0; count]).expect_err("refused");
            assert!(error.is_scan(), "{error}");
        }
        assert!(check_size(u64::MAX, u64::MAX).is_err());
    }

    #[test]
    fn between_pixels_grey_is_between_theirs() {
        let pixels = (0..256).map(|at| (at % 16 * 10) as u8).collect();
        let ramp = Grey::new(16, 16, pixels).expect("a picture");
        assert_eq!(ramp.at(0.5, 0.5), 0.0);
        assert_eq!(ramp.at(3.25, 7.7), 27.5);
        assert_eq!(ramp.at(-4.0, 90.0), 0.0);
        assert_eq!(ramp.at(99.0, -3.0), 150.0);
    }
}
