//! Needle points along 1,000,000 points, against walking the same path in even steps with lyon.
//!
//! `cargo bench -p quiltpath-tests --bench resample`. lyon walks in f32 and looks at nothing but
//! the distance; ours also finds the cusps and holds every stitch against the path.

use divan::{Bencher, black_box};
use lyon_algorithms::walk::{RegularPattern, WalkerEvent, walk_along_path};
use quiltpath_core::geom::{Point, Polyline};
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

#[divan::bench(args = POINTS_PER_STITCH)]
fn lyon(bencher: Bencher<'_, '_>, per_stitch: f64) {
    let mut builder = lyon_path::Path::builder();
    let at = |p: &Point| lyon_path::math::point(p.x as f32, p.y as f32);
    let points = meander(POINTS, per_stitch);
    builder.begin(at(&points[0]));
    for point in &points[1..] {
        builder.line_to(at(point));
    }
    builder.end(false);
    let path = builder.build();
    bencher.bench_local(|| {
        let mut walked = Vec::with_capacity((POINTS as f64 / per_stitch) as usize + 1);
        let mut pattern = RegularPattern {
            callback: |event: WalkerEvent<'_>| {
                walked.push(event.position);
                true
            },
            interval: per_stitch as f32,
        };
        walk_along_path(black_box(&path).iter(), 0.0, 0.01, &mut pattern);
        walked
    });
}

/// What no method can be faster than: the length alone.
#[divan::bench(args = POINTS_PER_STITCH)]
fn length_alone(bencher: Bencher<'_, '_>, per_stitch: f64) {
    let points = meander(POINTS, per_stitch);
    bencher.bench_local(|| quiltpath_core::geom::measure::length(black_box(&points)));
}
