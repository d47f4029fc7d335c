//! Needle points along 1,000,000 points, against walking the same path in even steps with lyon.
//!
//! `cargo bench -p quiltpath-tests --bench resample`. lyon walks in f32 and looks at nothing but
//! the distance; ours also finds the cusps and holds every stitch against the path.

use divan::{Bencher, black_box};
use lyon_algorithms::walk::{RegularPattern, WalkerEvent, walk_along_path};
use quiltpath_core::geom::{Point, Polyline};
use quiltpath_core::stitch::resample::{StitchOptions, resample};

const POINTS: usize = 1_000_000;

/// Points of the path for each stitch: nearly one for one, and one for fifty, which is 0.05 mm
/// between the points at 10 stitches per inch.
const POINTS_PER_STITCH: [f64; 2] = [1.25, 50.0];

fn main() {
    divan::main();
}

/// A meander with arcs of about 12 stitches' radius: points a distance of 1 apart.
fn meander(per_stitch: f64) -> Vec<Point> {
    let radius = 12.0 * per_stitch;
    let mut heading: f64 = 0.0;
    let mut at = Point::origin();
    (0..POINTS)
        .map(|number| {
            let phase = number as f64 / (4.0 * radius);
            heading += phase.cos() / radius;
            at += quiltpath_core::geom::Vector::new(heading.cos(), heading.sin());
            at
        })
        .collect()
}

#[divan::bench(args = POINTS_PER_STITCH)]
fn quiltpath(bencher: Bencher<'_, '_>, per_stitch: f64) {
    let line = Polyline::new(meander(per_stitch)).expect("a line");
    let options = StitchOptions::new(per_stitch);
    bencher.bench_local(|| resample(black_box(&line), &options).expect("stitches"));
}

#[divan::bench(args = POINTS_PER_STITCH)]
fn lyon(bencher: Bencher<'_, '_>, per_stitch: f64) {
    let mut builder = lyon_path::Path::builder();
    let at = |p: &Point| lyon_path::math::point(p.x as f32, p.y as f32);
    let points = meander(per_stitch);
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
    let points = meander(per_stitch);
    bencher.bench_local(|| quiltpath_core::geom::measure::length(black_box(&points)));
}
