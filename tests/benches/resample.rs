//! Needle points along 1,000,000 points, against the length of the path alone.
//!
//! `cargo bench -p quiltpath-tests --bench resample`. Against walking it with lyon:
//! `--bench speed`.

use divan::{Bencher, black_box};
use quiltpath_core::geom::Polyline;
use quiltpath_core::stitch::resample::{StitchOptions, resample};
use quiltpath_tests::speed::inputs::meander;
use quiltpath_tests::speed::works::{DENSE, SPARSE};

const POINTS: usize = 1_000_000;

const POINTS_PER_STITCH: [f64; 2] = [DENSE, SPARSE];

fn main() {
    divan::main();
}

#[divan::bench(args = POINTS_PER_STITCH)]
fn quiltpath(bencher: Bencher<'_, '_>, per_stitch: f64) {
    let line = Polyline::new(meander(POINTS, per_stitch)).expect("a line");
    let options = StitchOptions::new(per_stitch);
    bencher.bench_local(|| resample(black_box(&line), &options).expect("stitches"));
}

/// What no method can be faster than: the length alone.
#[divan::bench(args = POINTS_PER_STITCH)]
fn length_alone(bencher: Bencher<'_, '_>, per_stitch: f64) {
    let points = meander(POINTS, per_stitch);
    bencher.bench_local(|| quiltpath_core::geom::measure::length(black_box(&points)));
}
