//! How long it takes to find the stiffness of a repeat, to solve its ease and to apply it.

use divan::{Bencher, black_box};
use quiltpath_core::chain::Repeat;
use quiltpath_core::fit::{Ease, EaseLimits, Stiffness};
use quiltpath_core::geom::Point;
use quiltpath_core::motif::Motif;

fn main() {
    divan::main();
}

/// A line of loops, as many as wanted, of 100 points each, 1 deep and 1.2 apart.
fn loops(count: usize) -> Repeat {
    let at = |k: usize| {
        let angle = std::f64::consts::TAU * k as f64 / 100.0;
        let along = 1.2 * k as f64 / 100.0;
        Point::new(along - 0.5 * angle.sin(), 0.5 * angle.cos())
    };
    let points = (0..=100 * count).map(at).collect();
    Repeat::new(&Motif::from_points("loops", points).expect("a motif")).expect("a repeat")
}

#[divan::bench(args = [2, 20])]
fn stiffness(bencher: Bencher, count: usize) {
    let repeat = loops(count);
    bencher.bench_local(|| Stiffness::of(black_box(repeat.points()), repeat.pitch(1.0)));
}

#[divan::bench]
fn solve(bencher: Bencher) {
    let repeat = loops(2);
    let stiffness = Stiffness::of(repeat.points(), repeat.pitch(1.0)).expect("a repeat");
    bencher.bench_local(|| Ease::new(black_box(&stiffness), 1.12, &EaseLimits::default()));
}

#[divan::bench(args = [2, 20])]
fn apply(bencher: Bencher, count: usize) {
    let repeat = loops(count);
    let stiffness = Stiffness::of(repeat.points(), repeat.pitch(1.0)).expect("a repeat");
    let ease = Ease::new(&stiffness, 1.12, &EaseLimits::default()).expect("a map");
    bencher.bench_local(|| black_box(&repeat).eased(&ease, 1e-4));
}
