//! Time to make one line of a drawing of many strokes, by how many ends have no partner.
//!
//! Targets: 20,000 points with 1,000 odd ends within 2 s, 168 odd ends within 30 ms. For
//! comparison, networkx 3 took about 1 s for the matching of 168 odd ends alone, and
//! integer-blossom 1.35 s for that of 1,000, each measured once.

use divan::{Bencher, black_box};
use kurbo::BezPath;
use quiltpath_core::strokes::{Drawing, OneLineOptions, Stroke};

fn main() {
    divan::main();
}

/// A wavy ring with so many stems, each with a free end: as many odd ends again on the ring.
fn drawing(stems: usize) -> Drawing {
    let tau = std::f64::consts::TAU;
    let place = |turn: f64, out: f64| {
        let radius = 300.0 + 20.0 * (9.0 * tau * turn).sin() + out;
        (radius * (tau * turn).cos(), radius * (tau * turn).sin())
    };
    let mut ring = BezPath::new();
    for at in 0..=16_000 {
        let point = place(f64::from(at) / 16_000.0, 0.0);
        match at {
            0 => ring.move_to(point),
            _ => ring.line_to(point),
        }
    }
    let mut strokes = vec![Stroke::new("ring", ring)];
    for stem in 0..stems {
        // Not evenly, so that no two ways are alike.
        let turn = (stem as f64 + 0.3 * (stem as f64 * 1.7).sin()) / stems as f64;
        let mut path = BezPath::new();
        path.move_to(place(turn, 0.0));
        for step in 1..8 {
            path.line_to(place(turn + 1e-5 * f64::from(step), 3.0 * f64::from(step)));
        }
        strokes.push(Stroke::new(format!("stem {stem}"), path));
    }
    Drawing::new("ring", strokes)
}

#[divan::bench(args = [84, 500], sample_count = 10, sample_size = 1)]
fn one_line(bencher: Bencher, stems: usize) {
    let drawing = drawing(stems);
    let options = OneLineOptions::default();
    let line = drawing.one_line(&options).expect("one line");
    assert!(line.report.is_least(), "{:?}", line.report);
    bencher.bench_local(|| black_box(&drawing).one_line(&options));
}
