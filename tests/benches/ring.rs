//! How long the whole-quilt optimum takes; the target is under 1 ms for a quilt of 3 rings.

use divan::{Bencher, black_box};
use quiltpath_core::fit::{
    DepthGroup, DepthRange, RingSide, StretchLimit, alternatives, fit_ring, fit_rings,
};

fn main() {
    divan::main();
}

/// Rings of a quilt of 60 by 80 in, each with its repeat, the depth free by this fraction.
fn rings(count: usize, slack: f64) -> Vec<DepthGroup> {
    (0..count)
        .map(|ring| {
            let inset = 12.0 * ring as f64;
            let side = |length: f64| {
                let pitch = 1.3 + 0.2 * ring as f64;
                RingSide::between_corners(length - inset, 3.1, pitch).with_ring(ring)
            };
            DepthGroup::new(
                DepthRange::new(4.0 * (1.0 - slack), 4.0 * (1.0 + slack)),
                vec![side(60.25), side(80.0), side(59.75), side(80.5)],
            )
        })
        .collect()
}

fn together(slack: f64) -> DepthGroup {
    let rings = rings(3, slack);
    let depth = rings[0].depth;
    let sides = rings.into_iter().flat_map(|ring| ring.sides).collect();
    DepthGroup::new(depth, sides)
}

#[divan::bench(args = [0.08, 0.3])]
fn three_rings_with_depths_of_their_own(bencher: Bencher, slack: f64) {
    let rings = rings(3, slack);
    bencher.bench_local(|| fit_rings(black_box(&rings)));
}

#[divan::bench(args = [0.08, 0.3])]
fn three_rings_that_share_a_depth(bencher: Bencher, slack: f64) {
    let group = together(slack);
    bencher.bench_local(|| fit_ring(black_box(&group)));
}

#[divan::bench]
fn ways_out_for_three_rings(bencher: Bencher) {
    let group = together(0.0);
    let fit = fit_ring(&group).expect("a quilt");
    let limit = StretchLimit::either_way(0.02);
    bencher.bench_local(|| alternatives(black_box(&group), &fit, limit));
}
