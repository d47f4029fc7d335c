//! Cutting to an L, ours and peers, and joining again: times, and whether the order is kept.
//!
//! `cargo bench -p quiltpath-tests --bench clip`; with `--features clipper2` one peer more, which
//! takes a C++ compiler.
#![allow(clippy::print_stdout)]

use std::collections::HashMap;
use std::hint::black_box;
use std::sync::LazyLock;

use divan::Bencher;
use geo::{BooleanOps, LineString, MultiLineString, Polygon};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::float::clip::FloatClip;
use i_overlay::string::clip::ClipRule;
use quiltpath_core::geom::region::{Perimeter, Region};
use quiltpath_core::geom::{Point, Polyline};
use quiltpath_core::trim::{ClippedPiece, EndOn, clip};
use quiltpath_core::trim::{JoinOrder, RouteOptions, route};
use quiltpath_tests::speed::inputs;

const COUNT: usize = 100_000;

static L: LazyLock<Region> = LazyLock::new(inputs::l);

static FEW: LazyLock<Polyline> =
    LazyLock::new(|| Polyline::new(inputs::waves(COUNT)).expect("a line"));

static MANY: LazyLock<Polyline> =
    LazyLock::new(|| Polyline::new(inputs::spirograph(COUNT)).expect("a line"));

#[derive(Clone, Copy)]
enum Input {
    Few,
    Many,
}

impl std::fmt::Display for Input {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Few => "few crossings",
            Self::Many => "many crossings",
        })
    }
}

impl Input {
    const ALL: [Self; 2] = [Self::Few, Self::Many];

    fn line(self) -> &'static Polyline {
        match self {
            Self::Few => &FEW,
            Self::Many => &MANY,
        }
    }
}

fn geo_input(line: &Polyline) -> (Polygon, MultiLineString) {
    let string = |points: &[Point]| LineString::from_iter(points.iter().map(|p| (p.x, p.y)));
    let polygon = Polygon::new(string(L.corners()), Vec::new());
    (polygon, MultiLineString(vec![string(line.points())]))
}

fn pairs(points: &[Point]) -> Vec<[f64; 2]> {
    points.iter().map(|p| [p.x, p.y]).collect()
}

const RULE: ClipRule = ClipRule {
    invert: false,
    boundary_included: true,
};

#[divan::bench(args = Input::ALL, sample_count = 50, sample_size = 1)]
fn clip_ours(bencher: Bencher, input: Input) {
    let line = input.line();
    bencher.bench(|| clip(black_box(line), &L, 0.01));
}

#[divan::bench(args = Input::ALL, sample_count = 3, sample_size = 1)]
fn clip_geo(bencher: Bencher, input: Input) {
    let (polygon, lines) = geo_input(input.line());
    bencher.bench(|| polygon.clip(black_box(&lines), false));
}

#[divan::bench(args = Input::ALL, sample_count = 3, sample_size = 1)]
fn clip_i_overlay(bencher: Bencher, input: Input) {
    let (line, l) = (pairs(input.line().points()), pairs(L.corners()));
    bencher.bench(|| black_box(&line).clip_by(&l, FillRule::NonZero, RULE));
}

#[cfg(feature = "clipper2")]
mod with_clipper2 {
    use super::{Bencher, Input, L, black_box};
    use clipper2::{Clipper, Paths, PointScaler};

    /// A grid of 1e-6 of the unit.
    #[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash)]
    pub(super) struct Millionth;

    impl PointScaler for Millionth {
        const MULTIPLIER: f64 = 1e6;
    }

    /// The open part of the result never leaves the wrapper, so this is time alone.
    pub(super) fn cut(line: &[(f64, f64)], l: &[(f64, f64)]) -> Paths<Millionth> {
        Clipper::<_, Millionth>::new()
            .add_open_subject(vec![line.to_vec()])
            .add_clip(vec![l.to_vec()])
            .intersect(clipper2::FillRule::NonZero)
            .expect("a result")
    }

    pub(super) fn input(points: &[super::Point]) -> Vec<(f64, f64)> {
        points.iter().map(|p| (p.x, p.y)).collect()
    }

    #[divan::bench(args = Input::ALL, sample_count = 1, sample_size = 1)]
    fn clip_clipper2(bencher: Bencher, of: Input) {
        let (line, l) = (input(of.line().points()), input(L.corners()));
        bencher.bench(|| cut(black_box(&line), &l));
    }
}

/// 5,000 pieces between random places on the boundary.
static PIECES: LazyLock<Vec<ClippedPiece>> = LazyLock::new(|| {
    let boundary = Perimeter::of(&L);
    let mut state = 1u64;
    let mut random = || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 11) as f64 / (1u64 << 53) as f64 * boundary.length()
    };
    let mut piece = || {
        let (from, to) = (random(), random());
        let points = [from, to].map(|position| boundary.point_at(position));
        let line = Polyline::new(points.to_vec()).expect("a line");
        ClippedPiece::new(line, EndOn::Boundary(from), EndOn::Boundary(to))
    };
    (0..5000).map(|_| piece()).collect()
});

fn bench_route(bencher: Bencher, order: JoinOrder, restitch: bool) {
    let pieces = &*PIECES;
    let options = RouteOptions::default()
        .with_order(order)
        .with_restitch(restitch);
    bencher.bench(|| route(black_box(pieces), &L, &options));
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn route_5000_keep(bencher: Bencher) {
    bench_route(bencher, JoinOrder::Keep, false);
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn route_5000_keep_and_reverse(bencher: Bencher) {
    bench_route(bencher, JoinOrder::KeepAndReverse, false);
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn route_5000_free(bencher: Bencher) {
    bench_route(bencher, JoinOrder::Free, false);
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn route_5000_free_restitched(bencher: Bencher) {
    bench_route(bencher, JoinOrder::Free, true);
}

/// Prints how many neighbours in the result are neighbours in the line, and whether the pieces
/// come in its order; points that aren't the line's (cuts, crossings) are skipped.
fn print_order(name: &str, input: Input, pieces: &[Vec<Point>]) {
    let cell = |p: &Point| ((p.x * 1e6).round() as i64, (p.y * 1e6).round() as i64);
    let places: HashMap<_, usize> = (input.line().points().iter().enumerate())
        .map(|(index, point)| (cell(point), index))
        .collect();
    let (mut kept, mut jumped, mut in_order, mut last) = (0, 0, true, 0);
    for piece in pieces {
        let places: Vec<usize> = piece
            .iter()
            .filter_map(|point| places.get(&cell(point)).copied())
            .collect();
        for pair in places.windows(2).filter(|pair| pair[0] != pair[1]) {
            if pair[1] == pair[0] + 1 {
                kept += 1;
            } else {
                jumped += 1;
            }
        }
        if let Some(&first) = places.first() {
            in_order &= first >= last && jumped == 0;
            last = first;
        }
    }
    let verdict = match (pieces.is_empty(), in_order) {
        (true, _) => "no result comes back",
        (false, true) => "order kept",
        (false, false) => "order NOT kept",
    };
    println!(
        "{name:10} {input:15} {:6} pieces  {kept:6} neighbours kept {jumped:6} jumped  {verdict}",
        pieces.len()
    );
}

fn print_orders() {
    for input in Input::ALL {
        let line = input.line();
        let ours = clip(line, &L, 0.0).expect("inside").pieces;
        let ours: Vec<Vec<Point>> = ours.iter().map(|p| p.line.points().to_vec()).collect();
        print_order("ours", input, &ours);
        let (polygon, lines) = geo_input(line);
        let geo: Vec<Vec<Point>> = polygon
            .clip(&lines, false)
            .iter()
            .map(|string| string.coords().map(|c| Point::new(c.x, c.y)).collect())
            .collect();
        print_order("geo", input, &geo);
        let overlay = pairs(line.points()).clip_by(&pairs(L.corners()), FillRule::NonZero, RULE);
        let overlay: Vec<Vec<Point>> = overlay
            .iter()
            .map(|path| path.iter().map(|p| Point::new(p[0], p[1])).collect())
            .collect();
        print_order("i_overlay", input, &overlay);
        #[cfg(feature = "clipper2")]
        if let Input::Few = input {
            let cut = with_clipper2::cut(
                &with_clipper2::input(line.points()),
                &with_clipper2::input(L.corners()),
            );
            let paths: Vec<Vec<Point>> = cut
                .iter()
                .map(|path| path.iter().map(|p| Point::new(p.x(), p.y())).collect())
                .collect();
            print_order("clipper2", input, &paths);
        }
    }
}

fn main() {
    print_orders();
    divan::main();
}
