//! `fixtures/motifs/on-paper.png`: a stem with two leaves on drawing paper, as a scanner gives it.
//!
//! `WRITE_FIXTURES=1 cargo test -p quiltpath-tests --test scans` draws it anew.

use std::io::Cursor;
use std::path::Path;

use image::{GrayImage, ImageFormat, Luma};
use quiltpath_core::io::paper::Paper;
use quiltpath_core::raster::{Blank, BlankKind};

use crate::sheet::{photo, sheet};

/// In millimetres from the band's top left; the band is 3 in deep and 5 in long.
const DRAWN: &str = "M0 38.1 C 22 38 26 12 52 12 C 80 12 82 48 62 50 C 44 51 46 28 66 28 C 92 28 104 58 127 38.1 \
     M29.7 20.42 C 20 20 16 10 20 3 C 28 6 33 12 29.7 20.42 M104.17 43.55 C 114 45 118 55 113 63 C 104 60 100 52 104.17 43.55";

/// The picture, lying a little askew; 16 greys keep the file small.
fn drawn() -> GrayImage {
    let blank = Blank::new(BlankKind::Repeat, 76.2, 127.0).expect("a blank");
    let page = sheet(&blank, Paper::Letter, DRAWN, 0.7, 200.0);
    let mut askew = photo(&page, 200.0, [0.0, 0.0, -2.5], 255.0);
    for Luma([grey]) in askew.pixels_mut() {
        *grey = *grey / 17 * 17;
    }
    let rows = |blank: bool| {
        let inked =
            |row: &u32| (0..askew.width()).any(|x| askew.get_pixel(x, *row).0[0] < 128) != blank;
        let first = (0..askew.height()).find(inked);
        let last = (0..askew.height()).rev().find(inked);
        [first, last].map(|row| row.expect("ink"))
    };
    let [top, bottom] = rows(false);
    let columns: Vec<u32> = (0..askew.width())
        .filter(|x| (top..=bottom).any(|y| askew.get_pixel(*x, y).0[0] < 128))
        .collect();
    let [left, right] = [columns[0], columns[columns.len() - 1]];
    let margin = 30;
    let size = [right - left, bottom - top].map(|length| length + 2 * margin);
    image::imageops::crop_imm(&askew, left - margin, top - margin, size[0], size[1]).to_image()
}

#[test]
fn the_scan_among_the_fixtures_is_as_its_script_draws_it() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/motifs/on-paper.png");
    let drawn = drawn();
    if std::env::var_os("WRITE_FIXTURES").is_some() {
        let mut png = Cursor::new(Vec::new());
        drawn.write_to(&mut png, ImageFormat::Png).expect("a PNG");
        std::fs::write(&file, png.into_inner()).expect("written");
    }
    let there = image::open(&file).expect("the fixture").into_luma8();
    assert!(there == drawn, "draw it anew with WRITE_FIXTURES=1");
}
