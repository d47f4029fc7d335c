//! PNG and JPEG pictures to grey, bounded before anything is unpacked.
//!
//! The size is read from the head of the file and refused where it is beyond the limits, so a small
//! file that promises a huge picture takes no memory. How the camera was held (EXIF orientation) is
//! undone; colours become grey by the weights of ITU-R BT.709, see-through parts are paper; of 16
//! bits the upper 8 count; CMYK is read as what it prints.

use std::io::Cursor;

use image::codecs::{jpeg::JpegDecoder, png::PngDecoder};
use image::{DynamicImage, ImageBuffer, ImageDecoder, ImageError, ImageFormat, Limits};

use crate::error::{Error, ScanFault};
use crate::raster::{Grey, check_size};

/// What an unpacked picture may take, in bytes.
const MAX_BYTES: u64 = 320 << 20;

/// True where a file begins as a PNG or JPEG picture does.
#[cfg(all(feature = "svg", feature = "json"))]
pub(crate) fn is_picture(bytes: &[u8]) -> bool {
    matches!(
        image::guess_format(bytes),
        Ok(ImageFormat::Png | ImageFormat::Jpeg)
    )
}

/// Reads a PNG or JPEG picture as grey, the way up that its camera was held.
///
/// # Errors
///
/// A scan error for a file of another kind, a damaged one, and a picture that is too small or too
/// large.
pub fn read_picture(bytes: &[u8]) -> Result<Grey, Error> {
    let limits = || {
        let mut limits = Limits::default();
        limits.max_alloc = Some(MAX_BYTES);
        limits
    };
    match image::guess_format(bytes) {
        Ok(ImageFormat::Png) => {
            // The decoder itself makes room for a row before it tells its size.
            if let Some([width, height]) = head_of_png(bytes) {
                check_size(width, height)?;
            }
            grey(PngDecoder::with_limits(Cursor::new(bytes), limits()).map_err(damaged)?)
        }
        Ok(ImageFormat::Jpeg) => {
            let mut decoder = JpegDecoder::new(Cursor::new(bytes)).map_err(damaged)?;
            check_size(decoder.dimensions().0.into(), decoder.dimensions().1.into())?;
            decoder.set_limits(limits()).map_err(damaged)?;
            grey(decoder)
        }
        _ => Err(ScanFault::NotPicture.into()),
    }
}

/// The size in the head of a PNG, whose first chunk is the header (PNG specification, section
/// 11.2.2).
fn head_of_png(bytes: &[u8]) -> Option<[u64; 2]> {
    let side = |from: usize| {
        let side = bytes.get(from..from + 4)?.try_into().ok()?;
        Some(u64::from(u32::from_be_bytes(side)))
    };
    Some([side(16)?, side(20)?])
}

fn damaged(error: ImageError) -> Error {
    let reason = error.to_string();
    ScanFault::Damaged { reason }.into()
}

fn grey(mut decoder: impl ImageDecoder) -> Result<Grey, Error> {
    let (width, height) = decoder.dimensions();
    check_size(width.into(), height.into())?;
    let each = u64::from(decoder.color_type().bytes_per_pixel());
    if u64::from(width) * u64::from(height) * each > MAX_BYTES {
        let limit = MAX_BYTES / each;
        let (width, height) = (width.into(), height.into());
        return Err(ScanFault::TooLarge {
            width,
            height,
            limit,
        }
        .into());
    }
    let turned = decoder.orientation().map_err(damaged)?;
    let picture = DynamicImage::from_decoder(decoder).map_err(damaged)?;
    let pixels = match picture {
        DynamicImage::ImageLuma8(picture) => picture.into_raw(),
        DynamicImage::ImageLumaA8(picture) => {
            each_pixel(&picture, |[grey, seen]| over(*grey, *seen))
        }
        DynamicImage::ImageRgb8(picture) => each_pixel(&picture, |rgb: &[u8; 3]| luma(rgb)),
        DynamicImage::ImageRgba8(picture) => {
            each_pixel(&picture, |[r, g, b, seen]| over(luma(&[*r, *g, *b]), *seen))
        }
        other => {
            // 16 bits, and whatever kinds may come.
            let picture = other.into_rgba8();
            each_pixel(&picture, |[r, g, b, seen]| over(luma(&[*r, *g, *b]), *seen))
        }
    };
    let wrong = || {
        Error::from(ScanFault::Damaged {
            reason: "rows are missing".to_owned(),
        })
    };
    let picture = ImageBuffer::from_raw(width, height, pixels).ok_or_else(wrong)?;
    let mut picture = DynamicImage::ImageLuma8(picture);
    picture.apply_orientation(turned);
    let (width, height) = (picture.width() as usize, picture.height() as usize);
    Grey::new(width, height, picture.into_bytes())
}

fn each_pixel<const N: usize>(bytes: &[u8], grey: impl Fn(&[u8; N]) -> u8) -> Vec<u8> {
    bytes.as_chunks::<N>().0.iter().map(grey).collect()
}

/// The grey of a colour, in weights of 256ths.
fn luma(&[red, green, blue]: &[u8; 3]) -> u8 {
    ((54 * u32::from(red) + 183 * u32::from(green) + 19 * u32::from(blue) + 128) >> 8) as u8
}

/// A grey that is seen to this share, over white.
fn over(grey: u8, seen: u8) -> u8 {
    let (grey, seen) = (u32::from(grey), u32::from(seen));
    ((grey * seen + 255 * (255 - seen) + 127) / 255) as u8
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::error::ErrorKind;

    fn png(picture: &DynamicImage) -> Vec<u8> {
        let mut out = Cursor::new(Vec::new());
        picture.write_to(&mut out, ImageFormat::Png).expect("a PNG");
        out.into_inner()
    }

    #[test]
    fn kinds_of_pixels_are_the_same_grey() {
        let side = 20;
        let rgb = image::RgbImage::from_pixel(side, side, image::Rgb([200, 100, 50]));
        let right = luma(&[200, 100, 50]);
        let rgb = DynamicImage::ImageRgb8(rgb);
        for picture in [
            rgb.clone(),
            DynamicImage::ImageRgba8(rgb.to_rgba8()),
            DynamicImage::ImageRgb16(rgb.to_rgb16()),
        ] {
            let found = read_picture(&png(&picture)).expect("a picture");
            assert_eq!(found.pixels()[17], right);
        }
        let clear = image::RgbaImage::from_pixel(side, side, image::Rgba([0, 0, 0, 0]));
        let found = read_picture(&png(&DynamicImage::ImageRgba8(clear))).expect("a picture");
        assert!(found.pixels().iter().all(|&pixel| pixel == 255));
    }

    #[test]
    fn what_is_no_picture_is_refused() {
        let good = png(&DynamicImage::new_luma8(40, 30));
        for bytes in [
            &b""[..],
            b"<svg/>",
            b"GIF89a",
            &good[..good.len() / 2],
            &good[..30],
        ] {
            let error = read_picture(bytes).expect_err("refused");
            assert!(error.is_scan(), "{error}");
        }
    }

    /// A head that promises 60,000 x 60,000 pixels, and no more.
    #[test]
    fn a_huge_size_is_refused_from_its_head() {
        let mut bomb = png(&DynamicImage::new_luma8(16, 16));
        bomb[16..24].copy_from_slice(&[0, 0, 0xea, 0x60, 0, 0, 0xea, 0x60]);
        // The check of a PNG's head covers these bytes (CRC-32 as in ISO 3309).
        let mut sum = !0_u32;
        for &byte in &bomb[12..29] {
            sum ^= u32::from(byte);
            for _ in 0..8 {
                sum = if sum & 1 == 1 {
                    sum >> 1 ^ 0xedb8_8320
                } else {
                    sum >> 1
                };
            }
        }
        bomb[29..33].copy_from_slice(&(!sum).to_be_bytes());
        let error = read_picture(&bomb).expect_err("refused");
        let ErrorKind::Scan(ScanFault::TooLarge { width, .. }) = error.kind() else {
            panic!("{error}");
        };
        assert_eq!(*width, 60_000);
    }
}
