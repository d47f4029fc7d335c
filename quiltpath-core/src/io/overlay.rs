//! The lines that were read, drawn on their picture: an SVG to check a scan by.
//!
//! The picture is grey and no wider or higher than 1,600 pixels, as a PNG within the file. Lines
//! lie on it in its own pixels, each with its start; gaps that were filled are dashed, places in
//! doubt have a ring. No meaning rests on colour alone.

use std::fmt::Write;
use std::io::Cursor;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use image::{DynamicImage, GrayImage, ImageFormat, imageops::FilterType};
use maud::{Markup, html};

use crate::error::{Error, ScanFault};
use crate::geom::Point;
use crate::raster::{DoubtKind, Grey, Scan};

/// The longest side of the picture in the file, in pixels.
const LONGEST: u32 = 1600;

/// Writes the lines of a scan on its picture at the end of `out`, as one SVG that loads nothing.
///
/// # Errors
///
/// A scan error when the picture can't be written.
pub fn write_overlay(out: &mut String, picture: &Grey, scan: &Scan) -> Result<(), Error> {
    let data = png(picture)?;
    let (width, height) = (picture.width(), picture.height());
    let longest = width.max(height);
    let line = longest as f64 / 700.0;
    let traced = &scan.traced;
    let doubts = scan.report.doubts.iter().zip(&traced.doubts);
    let body: Markup = html! {
        svg xmlns="http://www.w3.org/2000/svg" viewBox={ "0 0 " (width) " " (height) } {
            title { (scan.drawing.name) ": the lines that were read" }
            image width=(width) height=(height) href={ "data:image/png;base64," (STANDARD.encode(&data)) } {}
            g fill="none" stroke-linecap="round" stroke-linejoin="round" {
                g stroke="#fff" stroke-opacity=".75" stroke-width=(rounded(2.2 * line)) {
                    @for points in &traced.lines { path d=(path(points)) {} }
                }
                g stroke="#c2185b" stroke-width=(rounded(line)) {
                    @for points in &traced.lines { path d=(path(points)) {} }
                }
                g stroke="#00695c" stroke-width=(rounded(1.6 * line)) stroke-dasharray={ (rounded(3.0 * line)) " " (rounded(2.5 * line)) } {
                    @for gap in &traced.bridged { path d=(path(gap)) { title { "gap filled" } } }
                }
                g stroke="#1f3a93" stroke-width=(rounded(1.6 * line)) {
                    @for (doubt, at) in doubts {
                        circle cx=(rounded(at.x)) cy=(rounded(at.y)) r=(rounded(10.0 * line)) {
                            title { (word(doubt.kind)) }
                        }
                    }
                }
            }
            g fill="#fff" stroke="#c2185b" stroke-width=(rounded(line)) {
                @for points in &traced.lines {
                    @for end in [points.first(), points.last()].into_iter().flatten() {
                        circle cx=(rounded(end.x)) cy=(rounded(end.y)) r=(rounded(1.6 * line)) {}
                    }
                }
            }
        }
    };
    out.push_str(&body.into_string());
    out.push('\n');
    Ok(())
}

/// A place in doubt, in a few words.
fn word(kind: DoubtKind) -> &'static str {
    match kind {
        DoubtKind::Close => "lines closer than the pen",
        DoubtKind::UnsureBridge => "filled, but another end was nearly as likely",
        DoubtKind::OpenGap => "a gap too wide to fill",
    }
}

fn rounded(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

fn path(points: &[Point]) -> String {
    let mut data = String::with_capacity(points.len() * 14);
    for (at, point) in points.iter().enumerate() {
        let command = if at == 0 { 'M' } else { 'L' };
        // Writing into a string doesn't fail.
        let _ = write!(data, "{command}{} {}", rounded(point.x), rounded(point.y));
    }
    data
}

/// The picture as a PNG of bounded size.
fn png(picture: &Grey) -> Result<Vec<u8>, Error> {
    let failed = |reason: String| Error::from(ScanFault::Damaged { reason });
    let (width, height) = (picture.width() as u32, picture.height() as u32);
    let own = GrayImage::from_raw(width, height, picture.pixels().to_vec());
    let own = own.ok_or_else(|| failed("rows are missing".to_owned()))?;
    let mut own = DynamicImage::ImageLuma8(own);
    if width.max(height) > LONGEST {
        own = own.resize(LONGEST, LONGEST, FilterType::Triangle);
    }
    let mut out = Cursor::new(Vec::new());
    let written = own.write_to(&mut out, ImageFormat::Png);
    written.map_err(|error| failed(error.to_string()))?;
    Ok(out.into_inner())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::raster::{ScanOptions, scan};

    #[test]
    fn the_line_lies_on_its_picture() {
        let dark = |at: usize| (48..52).contains(&(at / 200)) && (20..180).contains(&(at % 200));
        let pixels = (0..20_000).map(|at| if dark(at) { 20 } else { 250 });
        let picture = Grey::new(200, 100, pixels.collect()).expect("a picture");
        let options = ScanOptions::default().with_width_mm(80.0).expect("a width");
        let scan = scan("stem <1>", &picture, &options).expect("a line");
        let mut out = String::new();
        write_overlay(&mut out, &picture, &scan).expect("an overlay");
        assert!(out.contains("viewBox=\"0 0 200 100\"") && out.contains("stem &lt;1&gt;"));
        assert!(out.contains("href=\"data:image/png;base64,iVBOR"), "{out}");
        assert_eq!(out.matches("<path").count(), 2);
    }
}
