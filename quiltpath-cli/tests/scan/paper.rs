//! Drawing paper as pixels: marks and code from the page that the command writes, ink by hand.

use std::io::Cursor;

use image::{GrayImage, ImageFormat, Luma};

use crate::common::Bench;

/// About 203 dots per inch.
pub(crate) const PIXELS_A_MM: f64 = 8.0;

/// Room to the left of the ring's middle and above it, in millimetres.
const MARGIN_MM: [f64; 2] = [12.0, 14.0];

#[derive(Clone)]
pub(crate) struct Sheet {
    pub(crate) picture: GrayImage,
    apart: [f64; 2],
}

impl Sheet {
    /// What `template` writes with these options.
    pub(crate) fn new(bench: &Bench, options: &[&str]) -> Self {
        let page = bench
            .run(&[&["template", "--out", "-"], options].concat())
            .ok()
            .out;
        let numbers = |tag: &str, names: [&str; 4]| -> Vec<[f64; 4]> {
            let opens = format!("<{tag} ");
            let tags = page.split(opens.as_str()).skip(1);
            let number = |tag: &str, name: &str| {
                let value = tag.split(&format!(" {name}=\"")).nth(1)?;
                value.split('"').next()?.parse().ok()
            };
            let each = tags.filter_map(|tag| {
                let tag = format!(" {}", tag.split('>').next()?);
                let found: Option<Vec<f64>> = names.iter().map(|name| number(&tag, name)).collect();
                found?.try_into().ok()
            });
            each.collect()
        };
        let bars = numbers("rect", ["x", "y", "width", "height"]);
        let rings = numbers("circle", ["cx", "cy", "r", "stroke-width"]);
        // The three square marks come first; those at the right and below are the farthest.
        let middle = |bar: &[f64; 4], axis: usize| bar[axis] + bar[axis + 2] / 2.0;
        let apart = [0, 1].map(|axis| {
            let middles = bars[..3].iter().map(|bar| middle(bar, axis));
            middles.fold(0.0, f64::max)
        });
        let size = [0, 1].map(|axis| ((apart[axis] + 2.0 * MARGIN_MM[axis]) * PIXELS_A_MM) as u32);
        let picture = GrayImage::from_fn(size[0], size[1], |x, y| {
            let at = [x, y].map(|at| (f64::from(at) + 0.5) / PIXELS_A_MM);
            let at = [at[0] - MARGIN_MM[0], at[1] - MARGIN_MM[1]];
            let bar = |[x, y, width, height]: &[f64; 4]| {
                (*x..x + width).contains(&at[0]) && (*y..y + height).contains(&at[1])
            };
            let ring = |[x, y, radius, stroke]: &[f64; 4]| {
                ((at[0] - x).hypot(at[1] - y) - radius).abs() < stroke / 2.0
            };
            Luma([if bars.iter().any(bar) || rings.iter().any(ring) {
                10
            } else {
                250
            }])
        });
        Self { picture, apart }
    }

    /// How far the marks are apart, in millimetres.
    pub(crate) fn marks_apart(&self) -> [f64; 2] {
        self.apart
    }

    fn pixel(&self, place: [f64; 2]) -> [f64; 2] {
        [0, 1].map(|axis| (place[axis] + MARGIN_MM[axis]) * PIXELS_A_MM)
    }

    /// A dot of the pen at this place, in millimetres from the band's top left.
    pub(crate) fn draw(&mut self, [right, down]: [f64; 2], pen: f64) {
        // The band begins 8 mm right of the ring's middle and 8 mm below it.
        let place = self.pixel([right + 8.0, down + 8.0]);
        dot(&mut self.picture, place, pen * PIXELS_A_MM);
    }

    /// White paper over this place, in millimetres from the ring's middle.
    pub(crate) fn cover(&mut self, place: [f64; 2], side: f64) {
        let half = side.max(10.0) / 2.0 * PIXELS_A_MM;
        let [x, y] = self.pixel(place);
        let high = half.min(5.0 * PIXELS_A_MM);
        for (right, down, pixel) in self.picture.enumerate_pixels_mut() {
            let off = [f64::from(right) - x, f64::from(down) - y];
            if off[0].abs() <= half && off[1].abs() <= high {
                *pixel = Luma([250]);
            }
        }
    }
}

/// A dark dot this wide, in pixels.
pub(crate) fn dot(picture: &mut GrayImage, [x, y]: [f64; 2], wide: f64) {
    let reach = (wide / 2.0).ceil() as i64;
    for down in -reach..=reach {
        for right in -reach..=reach {
            let [at_x, at_y] = [x as i64 + right, y as i64 + down];
            let off = (at_x as f64 + 0.5 - x).hypot(at_y as f64 + 0.5 - y);
            let size = [picture.width(), picture.height()].map(i64::from);
            let inside = (0..size[0]).contains(&at_x) && (0..size[1]).contains(&at_y);
            if inside && off <= wide / 2.0 {
                picture.put_pixel(at_x as u32, at_y as u32, Luma([20]));
            }
        }
    }
}

pub(crate) fn png(picture: &GrayImage) -> Vec<u8> {
    let mut out = Cursor::new(Vec::new());
    picture.write_to(&mut out, ImageFormat::Png).expect("a PNG");
    out.into_inner()
}
