//! Time and memory to make one line of a page scanned at 300 dots per inch.
//!
//! Targets: 8.7 million pixels to one line within 0.5 s on two cores, at up to 8 bytes a pixel, the
//! picture among them. For comparison, scikit-image 0.26 took 1 s for the threshold and the
//! thinning of 7 million pixels alone, measured once.

use divan::{AllocProfiler, Bencher, black_box};
use quiltpath_core::io::paper::Paper;
use quiltpath_core::io::template::write_blank;
use quiltpath_core::raster::{Blank, BlankKind, Grey, ScanOptions, scan};
use quiltpath_core::strokes::OneLineOptions;
use quiltpath_core::units::Unit;
use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg::{Options, Tree};

#[global_allocator]
static ALLOCATOR: AllocProfiler = AllocProfiler::system();

/// An A4 page at 300 dots per inch.
const PAGE: [u32; 2] = [2480, 3508];

fn main() {
    divan::main();
}

/// Drawing paper for a repeat with rows of crossing waves on it, as much line as a full drawing
/// has.
fn page() -> Grey {
    let blank = Blank::new(BlankKind::Repeat, 120.0, 160.0).expect("a blank");
    let mut html = String::new();
    write_blank(&mut html, Unit::Mm, &blank, Paper::A4).expect("a page");
    let svg = html.split_once("<svg").expect("a drawing").1;
    let svg = svg.split_once("</svg>").expect("its end").0;
    let rows = (0..8).map(|row| {
        let level = 8.0 + 14.0 * f64::from(row);
        format!("M0 {level}{}", "q 5 -22 10 0 t 10 0".repeat(8))
    });
    let data: String = rows.collect();
    let drawn = format!(
        "<svg{svg}<path transform='translate(8 8)' d='{data}' fill='none' stroke='#223' \
         stroke-width='0.6'/></svg>"
    );
    let tree = Tree::from_str(&drawn, &Options::default()).expect("an SVG");
    let [width, height] = PAGE;
    let mut pixels = Pixmap::new(width, height).expect("a size");
    pixels.fill(Color::WHITE);
    let scale = 300.0 / 96.0;
    resvg::render(
        &tree,
        Transform::from_scale(scale, scale),
        &mut pixels.as_mut(),
    );
    let grey = pixels
        .data()
        .as_chunks::<4>()
        .0
        .iter()
        .map(|pixel| pixel[1]);
    Grey::new(width as usize, height as usize, grey.collect()).expect("a picture")
}

#[divan::bench(sample_count = 10, sample_size = 1)]
fn page_to_one_line(bencher: Bencher) {
    let page = page();
    let run = || {
        let found = scan("page", black_box(&page), &ScanOptions::default())?;
        found.drawing.one_line(&OneLineOptions::default())
    };
    assert!(run().expect("one line").motif.length() > 3000.0);
    bencher.bench_local(run);
}
