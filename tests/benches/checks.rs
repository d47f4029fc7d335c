//! All checks of stitched lines on 250,000 points, and the search for near segments with rstar.
//!
//! `cargo bench -p quiltpath-tests --bench checks`. The target is under 100 ms for all checks. The
//! peer only fills its tree with the segments and asks for those near each: what `close` does
//! before it puts runs together.

use divan::{Bencher, black_box};
use quiltpath_core::check::{
    DensityLimit, Limits, Lines, LoopLimit, RunLimit, check_lines, close, density, loops, twice,
};
use quiltpath_core::geom::Point;
use quiltpath_tests::fills::filled_blocks;
use rstar::primitives::{GeomWithData, Line};
use rstar::{AABB, RTree};

fn main() {
    divan::main();
}

const POINTS: usize = 250_000;

fn blocks() -> Vec<Vec<Point>> {
    let blocks: Vec<Vec<Point>> = filled_blocks(POINTS)
        .into_iter()
        .map(|block| block.into_iter().map(|(x, y)| Point::new(x, y)).collect())
        .collect();
    let views: Vec<&[Point]> = blocks.iter().map(Vec::as_slice).collect();
    let report = check_lines(&views, &Limits::default()).expect("lines");
    let found = [report.close.places.len(), report.twice.places.len()];
    assert_eq!(
        (
            found,
            report.density.places.len(),
            report.loops.places.len()
        ),
        ([0, 0], 0, 0)
    );
    blocks
}

fn ready() -> Lines {
    let blocks = blocks();
    let views: Vec<&[Point]> = blocks.iter().map(Vec::as_slice).collect();
    Lines::new(&views, Lines::TOLERANCE_MM).expect("lines")
}

#[divan::bench]
fn all_checks(bencher: Bencher) {
    let blocks = blocks();
    let views: Vec<&[Point]> = blocks.iter().map(Vec::as_slice).collect();
    bencher.bench_local(|| check_lines(black_box(&views), &Limits::default()).expect("lines"));
}

#[divan::bench]
fn lines_made_ready(bencher: Bencher) {
    let blocks = blocks();
    let views: Vec<&[Point]> = blocks.iter().map(Vec::as_slice).collect();
    bencher.bench_local(|| Lines::new(black_box(&views), Lines::TOLERANCE_MM).expect("lines"));
}

#[divan::bench]
fn twice_alone(bencher: Bencher) {
    let lines = ready();
    bencher.bench_local(|| twice(black_box(&lines), &RunLimit::TWICE_MM).expect("limits"));
}

#[divan::bench]
fn twice_and_close(bencher: Bencher) {
    let lines = ready();
    let limits = (RunLimit::CLOSE_MM, RunLimit::TWICE_MM);
    bencher.bench_local(|| close(black_box(&lines), &limits.0, &limits.1).expect("limits"));
}

#[divan::bench]
fn density_alone(bencher: Bencher) {
    let lines = ready();
    bencher.bench_local(|| density(black_box(&lines), &DensityLimit::default()).expect("limits"));
}

#[divan::bench]
fn loops_alone(bencher: Bencher) {
    let lines = ready();
    bencher.bench_local(|| loops(black_box(&lines), &LoopLimit::default()).expect("limits"));
}

#[divan::bench]
fn near_segments_with_rstar(bencher: Bencher) {
    let blocks = blocks();
    let distance = RunLimit::CLOSE_MM.distance;
    bencher.bench_local(|| {
        let pairs = blocks.iter().flat_map(|block| block.windows(2));
        let ends = |point: &Point| [point.x, point.y];
        let segments: Vec<_> = pairs
            .enumerate()
            .map(|(index, pair)| {
                GeomWithData::new(Line::new(ends(&pair[0]), ends(&pair[1])), index)
            })
            .collect();
        let tree = RTree::bulk_load(segments);
        let near = tree.iter().map(|segment| {
            let (from, to) = (segment.geom().from, segment.geom().to);
            let low = [0, 1].map(|axis| from[axis].min(to[axis]) - distance);
            let high = [0, 1].map(|axis| from[axis].max(to[axis]) + distance);
            let others = tree.locate_in_envelope_intersecting(&AABB::from_corners(low, high));
            // The four along the line on either side are no find, whatever the distance.
            others.filter(|other| other.data > segment.data + 4).count()
        });
        near.sum::<usize>()
    });
}
