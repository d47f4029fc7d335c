//! Pictures: any bytes as a file, and made ones with strokes, blots and grain, read to one line.

use quiltpath_core::geom::Point;
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::overlay::write_overlay;
use quiltpath_core::io::picture_read::read_picture;
use quiltpath_core::io::words::scanned;
use quiltpath_core::raster::{Fills, Grey, ScanOptions, scan};
use quiltpath_core::units::Unit;

use super::dice::{Dice, finite, told};

/// Larger pictures take longer than a fuzzer waits, by right.
const MOST_PIXELS: usize = 400_000;

pub(super) fn pictures(data: &[u8]) {
    match data.split_first() {
        Some((kind, file)) if kind % 2 == 0 => file_of(file),
        Some((_, rest)) => made(rest),
        None => {}
    }
}

fn file_of(file: &[u8]) {
    match read_picture(file) {
        Ok(grey) if grey.pixels().len() <= MOST_PIXELS => {
            let options = ScanOptions::default().with_pixel_mm(0.1).expect("a size");
            traced(&grey, &options);
            let _ = LineDrawing::read("a.png", file, &ReadOptions::default());
        }
        Ok(_) => {}
        Err(error) => told(&error),
    }
}

/// A picture of lines of a few pens on paper of some lightness.
fn made(data: &[u8]) {
    let mut dice = Dice::new(data);
    let [width, height] = [0, 1].map(|_| 16 + dice.below(120));
    let paper = dice.pick(&[255_u8, 230, 128, 40]);
    let mut pixels = vec![paper; width * height];
    for _ in 0..dice.below(6) {
        let ink = dice.pick(&[0_u8, 60, 200]);
        let pen = dice.between(0.5, 9.0);
        let size = [width as f64, height as f64];
        for pair in dice.points(2, 9, size).windows(2) {
            line(&mut pixels, width, [pair[0], pair[1]], pen, ink);
        }
    }
    let grain = dice.below(64) as u32;
    let mut state = grain;
    for pixel in &mut pixels {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        *pixel = pixel.saturating_sub((state >> 24) as u8 / 64 * (grain / 16) as u8);
    }
    let mut options = ScanOptions::default();
    options.width_mm = dice.maybe(2, |dice| dice.mostly(1.0, 300.0));
    options.pixel_mm = dice.maybe(2, |dice| dice.mostly(0.05, 1.0));
    options.bridge_mm = dice.maybe(4, |dice| dice.mostly(0.0, 9.0));
    if dice.once_in(4) {
        options = options.with_fills(Fills::Refuse);
    }
    let grey = Grey::new(width, height, pixels).expect("as many pixels as it has");
    traced(&grey, &options);
}

fn line(pixels: &mut [u8], width: usize, [from, to]: [Point; 2], pen: f64, ink: u8) {
    let height = pixels.len() / width;
    let within = |point: Point| point.iter().all(|at| (-1e4..1e4).contains(at));
    if !within(from) || !within(to) {
        return;
    }
    let far = (to - from).norm();
    let steps = far.ceil().max(1.0) as usize;
    for step in 0..=steps {
        let at = from + (to - from) * (step as f64 / steps as f64);
        let reach = (pen / 2.0).ceil() as i64;
        for down in -reach..=reach {
            for right in -reach..=reach {
                let [x, y] = [at.x as i64 + right, at.y as i64 + down];
                let inside = (0..width as i64).contains(&x) && (0..height as i64).contains(&y);
                let near = (right as f64).hypot(down as f64) <= pen / 2.0;
                if inside && near {
                    pixels[y as usize * width + x as usize] = ink;
                }
            }
        }
    }
}

/// What is read has finite places, words for all of it, and a picture to check it by.
fn traced(grey: &Grey, options: &ScanOptions) {
    let found = match scan("a", grey, options) {
        Ok(found) => found,
        Err(error) => return told(&error),
    };
    assert!(!found.drawing.strokes.is_empty());
    let bounds = found.drawing.bounds().expect("what is drawn has a size");
    finite(&[bounds.min, bounds.max]);
    let all = found
        .traced
        .lines
        .iter()
        .flatten()
        .chain(&found.traced.doubts);
    // Where lines meet may be two pens from where thinning had it.
    let beyond = 2.0 + 2.0 * found.report.pen_mm / found.report.pixel_mm;
    for point in all {
        for (at, size) in [(point.x, grey.width()), (point.y, grey.height())] {
            assert!(
                (-beyond..size as f64 + beyond).contains(&at),
                "{point} by {beyond}"
            );
        }
    }
    for sentence in scanned(&found.report, Unit::In) {
        assert!(!sentence.text.is_empty() && !sentence.text.contains("NaN"));
    }
    let mut svg = String::new();
    write_overlay(&mut svg, grey, &found).expect("a picture to check it by");
    roxmltree::Document::parse(&svg).expect("XML");
}
