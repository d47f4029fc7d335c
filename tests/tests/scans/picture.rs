//! Pictures of lines: drawn by `resvg`, spoilt as scanners and phones do.

use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, GrayImage};
use quiltpath_core::geom::Point;
use quiltpath_core::io::overlay::write_overlay;
use quiltpath_core::io::picture_read::read_picture;
use quiltpath_core::raster::{Grey, Scan};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

/// Path data in millimetres, drawn by a round pen on white.
pub(crate) fn drawn(data: &str, [width, height]: [f64; 2], dpi: f64, pen: f64) -> GrayImage {
    let svg = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' width='{width}mm' height='{height}mm' viewBox='0 0 {width} {height}'>\
         <path d='{data}' fill='none' stroke='#182038' stroke-width='{pen}' stroke-linecap='round' stroke-linejoin='round'/></svg>"
    );
    render(&svg, dpi)
}

/// Any SVG at so many dots per inch, on white.
pub(crate) fn render(svg: &str, dpi: f64) -> GrayImage {
    let tree = Tree::from_str(svg, &Options::default()).expect("an SVG");
    // CSS Values 4: 96 pixels make an inch.
    let scale = (dpi / 96.0) as f32;
    let size = tree.size();
    let [width, height] = [size.width(), size.height()].map(|side| (side * scale).ceil() as u32);
    let mut pixels = Pixmap::new(width, height).expect("a size");
    pixels.fill(resvg::tiny_skia::Color::WHITE);
    resvg::render(
        &tree,
        Transform::from_scale(scale, scale),
        &mut pixels.as_mut(),
    );
    let rgba = image::RgbaImage::from_raw(width, height, pixels.take()).expect("all rows");
    DynamicImage::ImageRgba8(rgba).into_luma8()
}

/// How far a picture is turned.
const TURN_DEGREES: f64 = 3.0;

/// What is done to a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Spoilt {
    Not,
    /// Blurred, shaded from one corner to the other, with noise.
    Shaded,
    /// All of that, turned by 3 degrees.
    Turned,
    /// Blurred, with noise, and packed at quality 60.
    Jpeg,
}

impl Spoilt {
    pub(crate) const ALL: [Self; 4] = [Self::Not, Self::Shaded, Self::Turned, Self::Jpeg];

    /// The points as they lie in the spoilt picture, but for where that is.
    pub(crate) fn turned(self, points: Vec<Point>) -> Vec<Point> {
        match self {
            Self::Turned => {
                let turn = nalgebra::Rotation2::new(TURN_DEGREES.to_radians());
                points.into_iter().map(|point| turn * point).collect()
            }
            _ => points,
        }
    }

    pub(crate) fn spoil(self, picture: &GrayImage, dpi: f64) -> Grey {
        let blur = (0.07 * dpi / 25.4) as f32;
        match self {
            Self::Not => grey(picture),
            Self::Shaded => grey(&noisy(&shaded(&image::imageops::blur(picture, blur)), 6.0)),
            Self::Turned => {
                let middle = Point::new(
                    f64::from(picture.width()) / 2.0,
                    f64::from(picture.height()) / 2.0,
                );
                let (sin, cos) = TURN_DEGREES.to_radians().sin_cos();
                let back = |to: Point| {
                    let by = to - middle;
                    middle
                        + quiltpath_core::geom::Vector::new(
                            cos * by.x + sin * by.y,
                            cos * by.y - sin * by.x,
                        )
                };
                let turned = warped(picture, [picture.width(), picture.height()], back, 255.0);
                grey(&noisy(&image::imageops::blur(&turned, blur), 6.0))
            }
            Self::Jpeg => {
                let blurred = noisy(&image::imageops::blur(picture, blur), 4.0);
                read_picture(&jpeg(&blurred, 60)).expect("a picture")
            }
        }
    }
}

pub(crate) fn grey(picture: &GrayImage) -> Grey {
    let (width, height) = (picture.width() as usize, picture.height() as usize);
    Grey::new(width, height, picture.as_raw().clone()).expect("a picture")
}

pub(crate) fn jpeg(picture: &GrayImage, quality: u8) -> Vec<u8> {
    let mut out = Vec::new();
    let encoder = JpegEncoder::new_with_quality(&mut out, quality);
    picture.write_with_encoder(encoder).expect("a JPEG");
    out
}

/// Down to 55 % of the light in one corner.
pub(crate) fn shaded(picture: &GrayImage) -> GrayImage {
    let (width, height) = (f64::from(picture.width()), f64::from(picture.height()));
    let mut out = picture.clone();
    for (x, y, pixel) in out.enumerate_pixels_mut() {
        let share = 0.5 * (f64::from(x) / width + f64::from(y) / height);
        pixel.0[0] = (f64::from(pixel.0[0]) * (1.0 - 0.45 * share * share)) as u8;
    }
    out
}

/// Noise of this spread, by a rule of its own, the same on every run.
pub(crate) fn noisy(picture: &GrayImage, spread: f64) -> GrayImage {
    let mut state = 0x2545_f491_4f6c_dd1d_u64;
    let mut dice = || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    let mut out = picture.clone();
    for pixel in out.iter_mut() {
        // Four even throws are near enough to a bell; their spread is the root of a third.
        let throw = dice() + dice() + dice() + dice() - 2.0;
        let value = f64::from(*pixel) - 3.0 + throw * spread * 3.0_f64.sqrt();
        *pixel = value.round().clamp(0.0, 255.0) as u8;
    }
    out
}

/// A picture of this size whose places come from those that `back` gives.
pub(crate) fn warped(
    picture: &GrayImage,
    [width, height]: [u32; 2],
    back: impl Fn(Point) -> Point,
    around: f64,
) -> GrayImage {
    let inside = |x: i64, y: i64| {
        x >= 0 && y >= 0 && x < i64::from(picture.width()) && y < i64::from(picture.height())
    };
    let at = |x: i64, y: i64| match inside(x, y) {
        true => f64::from(picture.get_pixel(x as u32, y as u32).0[0]),
        false => around,
    };
    GrayImage::from_fn(width, height, |x, y| {
        let from = back(Point::new(f64::from(x) + 0.5, f64::from(y) + 0.5));
        let (left, top) = ((from.x - 0.5).floor(), (from.y - 0.5).floor());
        let (right, down) = (from.x - 0.5 - left, from.y - 0.5 - top);
        let (left, top) = (left as i64, top as i64);
        let upper = at(left, top) * (1.0 - right) + at(left + 1, top) * right;
        let lower = at(left, top + 1) * (1.0 - right) + at(left + 1, top + 1) * right;
        image::Luma([(upper * (1.0 - down) + lower * down).round() as u8])
    })
}

/// Leaves the picture with its lines where it is asked for.
pub(crate) fn look(name: &str, grey: &Grey, scan: &Scan) {
    let Ok(folder) = std::env::var("QUILTPATH_SCANS_LOOK") else {
        return;
    };
    let mut svg = String::new();
    write_overlay(&mut svg, grey, scan).expect("an overlay");
    let folder = std::path::Path::new(&folder);
    std::fs::create_dir_all(folder).expect("a folder");
    std::fs::write(folder.join(format!("{name}.svg")), svg).expect("a file");
}
