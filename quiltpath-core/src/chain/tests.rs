//! Properties of chaining: exact ends, no ink outside the band, no gaps inside the path.

use super::*;
use crate::geom::Vector;
use crate::geom::measure::distance_to_segment;
use crate::motif::Motif;
use crate::warp::{RuledBand, SplineBand, Strip};
use proptest::prelude::*;

mod centred;
mod directions;
mod kinks;
mod limits;

const DEPTH: f64 = 5.0;

fn strip() -> Strip {
    Strip::of_unit(
        Point::new(0.0, DEPTH),
        Vector::new(1.0, 0.0),
        Vector::new(0.0, -DEPTH),
    )
}

fn repeat(points: &[(f64, f64)]) -> Repeat {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Repeat::new(&Motif::from_points("m", points).expect("a motif")).expect("a repeat")
}

fn at(along: f64, across: Option<f64>) -> Terminal {
    Terminal::new(along).with_across(across.map_or(Across::Drawn, Across::At))
}

fn options(repeats: usize, alternate: Alternate, ends: Ends) -> ChainOptions {
    ChainOptions {
        repeats,
        alternate,
        ends,
        join_tolerance: 1e-3,
        flattening: 1e-3,
    }
}

fn alternates() -> impl Strategy<Value = Alternate> {
    prop::sample::select(vec![
        Alternate::None,
        Alternate::LeftRight,
        Alternate::TopBottom,
    ])
}

fn random_repeat() -> impl Strategy<Value = Repeat> {
    let inner = prop::collection::vec((-0.2..1.2f64, 0.0..1.0f64), 3..20);
    (inner, 0.2..0.8f64, 0.2..0.8f64).prop_map(|(inner, start, end)| {
        let mut points = vec![(0.0, start), (0.3, 0.0), (0.6, 1.0)];
        points.extend(inner);
        points.push((1.0, end));
        repeat(&points)
    })
}

#[test]
fn ends_at_different_offsets_are_levelled_or_linked_never_left_apart() {
    let slope = repeat(&[(0.0, 3.0), (1.0, 5.0), (3.0, 0.0), (4.0, 2.0)]);
    let [start, end] = slope.offsets(None);
    assert!((start - 0.4).abs() < 1e-12 && (end - 0.6).abs() < 1e-12);
    let ends = [at(0.0, None), at(12.0, None)];
    let level = chain_repeats(
        &slope,
        &strip(),
        ends,
        &options(3, Alternate::None, Ends::Level),
    );
    let level = level.expect("levelled");
    assert_eq!(level.links, 0);
    assert!((level.levelled - 0.1 * DEPTH).abs() < 1e-12);
    assert_eq!(level.motif.points().len(), 3 * 4 - 2);
    let link = chain_repeats(
        &slope,
        &strip(),
        ends,
        &options(3, Alternate::None, Ends::Link),
    );
    let link = link.expect("linked");
    assert_eq!((link.links, link.levelled), (2, 0.0));
    let mirrored = options(3, Alternate::LeftRight, Ends::Level);
    let mirrored = chain_repeats(&slope, &strip(), ends, &mirrored).expect("mirrored");
    assert_eq!((mirrored.links, mirrored.levelled), (0, 0.0));
}

#[test]
fn an_end_on_the_edge_of_the_band_is_linked_since_no_shear_keeps_the_edge() {
    let floor = repeat(&[(0.0, 2.0), (1.0, 0.0), (2.0, 2.0)]);
    let chain = |first: Across, last: Across| {
        let ends = [(0.0, first), (4.0, last)];
        let ends = ends.map(|(along, across)| Terminal::new(along).with_across(across));
        let options = options(2, Alternate::None, Ends::Level);
        chain_repeats(&floor, &strip(), ends, &options).expect("chained")
    };
    let near = chain(Across::Near(0.5), Across::Near(0.5));
    assert_eq!((near.across, near.links), ([0.0, 0.0], 0));
    let linked = chain(Across::At(0.5), Across::At(1.0));
    assert_eq!((linked.across, linked.links), ([0.5, 1.0], 2));
    // The same line with a link of its own before it and after it.
    let points = linked.motif.points();
    assert_eq!(points[1..points.len() - 1], *near.motif.points());
    assert_eq!(points[0], Point::new(0.0, DEPTH / 2.0));
    assert_eq!(points[points.len() - 1], Point::new(4.0, 0.0));
    assert_eq!(linked.ends, [near.ends[0] + 1, near.ends[1] + 2]);
    let (start, end) = (linked.motif.start(), linked.motif.end());
    assert_eq!(start.direction, Vector::new(0.0, 1.0));
    assert_eq!(end.direction, Vector::new(0.0, -1.0));
    assert_eq!(linked.kink_degrees, 0.0);
}

#[test]
fn an_offset_that_an_end_has_to_be_at_is_reached_or_refused() {
    let wave = repeat(&[(0.0, 1.0), (1.0, 0.0), (3.0, 2.0), (4.0, 1.0)]);
    let chain = |across: Across, ends: Ends| {
        let terminals = [0.0, 9.0].map(|along| Terminal::new(along).with_across(across));
        chain_repeats(
            &wave,
            &strip(),
            terminals,
            &options(2, Alternate::None, ends),
        )
    };
    for (wanted, links) in [(0.5, 0), (0.6, 0), (0.9, 2), (0.0, 2), (1.0, 2)] {
        let chain = chain(Across::At(wanted), Ends::Level).expect("a chain");
        assert_eq!((chain.across, chain.links), ([wanted; 2], links));
        let at = |along| strip().place(along, wanted);
        assert_eq!(
            [chain.motif.start().point, chain.motif.end().point],
            [at(0.0), at(9.0)]
        );
    }
    assert_eq!(chain(Across::At(0.6), Ends::Link).expect("linked").links, 2);
    for across in [-5.0, 1.1, f64::NAN, f64::INFINITY] {
        let error = chain(Across::At(across), Ends::Level).expect_err("outside");
        assert!(error.is_geometry(), "{error}");
    }
    // What can't be levelled is left to the caller, wherever it lies.
    assert_eq!(
        chain(Across::Near(-5.0), Ends::Level)
            .expect("a chain")
            .across,
        [0.5; 2]
    );
    assert!(chain(Across::Near(f64::NAN), Ends::Level).is_err());
    for tolerance in [-1.0, f64::NAN, f64::INFINITY] {
        let options = options(2, Alternate::None, Ends::Level).with_join_tolerance(tolerance);
        let terminals = [0.0, 9.0].map(Terminal::new);
        assert!(chain_repeats(&wave, &strip(), terminals, &options).is_err());
    }
}

proptest! {
    #[test]
    fn a_chain_ends_exactly_and_stays_in_the_band(
        repeat in random_repeat(),
        copies in 1usize..7,
        from in -5.0..5.0f64,
        room in 1.0..60.0f64,
        wanted in (0.25..0.75f64, 0.25..0.75f64),
        alternate in alternates(),
        link in any::<bool>(),
    ) {
        let ends = if link { Ends::Link } else { Ends::Level };
        let terminals = [at(from, Some(wanted.0)), at(from + room, Some(wanted.1))];
        let chain = chain_repeats(&repeat, &strip(), terminals, &options(copies, alternate, ends)).expect("chain");
        let strip = strip();
        // Each copy ends where its share of the room does, and a link comes after that.
        prop_assert_eq!(chain.ends.len(), copies);
        prop_assert_eq!(chain.ends[copies - 1], chain.motif.points().len() - 1);
        prop_assert!(chain.ends.windows(2).all(|pair| pair[0] < pair[1]));
        for (copy, &end) in chain.ends[..copies - 1].iter().enumerate() {
            let (along, across) = strip.locate(chain.motif.points()[end]);
            prop_assert!((along - from - room * (copy + 1) as f64 / copies as f64).abs() < 1e-9);
            let drawn = repeat.offsets(alternate.of_copy(copy, copies))[1];
            prop_assert!(!link || (across - drawn).abs() < 2e-4, "{across} {drawn}");
        }
        prop_assert_eq!(chain.motif.start().point, strip.place(from, chain.across[0]));
        prop_assert_eq!(chain.motif.end().point, strip.place(from + room, chain.across[1]));
        for point in chain.motif.points() {
            let (_, t) = strip.locate(*point);
            prop_assert!((-1e-12..=1.0 + 1e-12).contains(&t), "{t}");
        }
        if link {
            prop_assert!(chain.levelled <= 1e-3, "only what is within the join tolerance");
        }
        // The direction reported at the start is that of the first step, for a short first step.
        let first = chain.motif.points()[1] - chain.motif.points()[0];
        if !link && alternate == Alternate::None {
            let reported = chain.motif.start().direction;
            prop_assert!(first.dot(&reported) > 0.0);
        }
    }

    #[test]
    fn copies_of_a_level_repeat_are_alike(repeat in random_repeat(), copies in 2usize..7, room in 10.0..60.0f64) {
        let [start, end] = repeat.offsets(None);
        prop_assume!((start - end).abs() > 1e-3);
        let terminals = [at(0.0, None), at(room, None)];
        let chain = chain_repeats(&repeat, &strip(), terminals, &options(copies, Alternate::LeftRight, Ends::Level)).expect("chain");
        prop_assert_eq!(chain.links, 0);
        prop_assert_eq!(chain.levelled, 0.0);
        let count = repeat.points().len() - 1;
        let step = room / copies as f64;
        let points = chain.motif.points();
        prop_assert_eq!(points.len(), copies * count + 1);
        for copy in 2..copies {
            for index in 0..count {
                let before = points[(copy - 2) * count + index];
                let after = points[copy * count + index];
                prop_assert!((after - before - Vector::new(2.0 * step, 0.0)).norm() < 1e-9);
            }
        }
    }

    /// A straight side as a ruled band, as a smooth one and as a strip.
    #[test]
    fn a_square_band_gives_the_same_path_through_any_map(
        repeat in random_repeat(), copies in 1usize..7, room in 1.0..60.0f64, wanted in (0.25..0.75f64, 0.25..0.75f64), alternate in alternates(),
    ) {
        let strip = strip();
        let stations = |shares: &[f64]| -> Vec<[Point; 2]> {
            shares.iter().map(|x| [0.0, 1.0].map(|t| strip.place(x * room, t))).collect()
        };
        let terminals = [at(0.0, Some(wanted.0)), at(room, Some(wanted.1))];
        let options = options(copies, alternate, Ends::Level);
        let plain = chain_repeats(&repeat, &strip, terminals, &options).expect("chain");
        let ruled = RuledBand::new(&stations(&[0.0, 1.0])).expect("a band");
        let ruled = chain_repeats(&repeat, &ruled, terminals, &options).expect("chain");
        let smooth = SplineBand::new(&stations(&[0.0, 0.2, 0.7, 1.0])).expect("a band");
        let smooth = chain_repeats(&repeat, &smooth, terminals, &options).expect("chain");
        for other in [ruled, smooth] {
            prop_assert_eq!(other.motif.points().len(), plain.motif.points().len());
            for (a, b) in plain.motif.points().iter().zip(other.motif.points()) {
                prop_assert!((a - b).norm() < 1e-9);
            }
            for (a, b) in [(plain.motif.start(), other.motif.start()), (plain.motif.end(), other.motif.end())] {
                prop_assert!((a.direction - b.direction).norm() < 1e-9);
            }
            prop_assert!((plain.levelled - other.levelled).abs() < 1e-9);
        }
    }

    #[test]
    fn on_a_wavy_band_ends_are_met_and_chords_are_close(
        repeat in random_repeat(), copies in 1usize..5, waves in prop::collection::vec(-0.8..0.8f64, 5), smooth in any::<bool>(),
        wanted in (0.25..0.75f64, 0.25..0.75f64), tolerance in 1e-3..0.1f64,
    ) {
        let stations: Vec<[Point; 2]> = waves.iter().enumerate().map(|(k, wave)| {
            [Point::new(12.0 * k as f64, 5.0 + wave), Point::new(12.0 * k as f64, wave * wave)]
        }).collect();
        let (band, length): (Box<dyn BandMap>, f64) = if smooth {
            let band = SplineBand::new(&stations).expect("a band");
            let length = band.length();
            (Box::new(band), length)
        } else {
            let band = RuledBand::new(&stations).expect("a band");
            let length = band.length();
            (Box::new(band), length)
        };
        let terminals = [at(0.0, Some(wanted.0)), at(length, Some(wanted.1))];
        let options = ChainOptions { flattening: tolerance, ..options(copies, Alternate::None, Ends::Level) };
        let chain = chain_repeats(&repeat, &*band, terminals, &options).expect("chain");
        prop_assert_eq!(chain.motif.start().point, band.place(0.0, chain.across[0]));
        prop_assert_eq!(chain.motif.end().point, band.place(length, chain.across[1]));
        for point in chain.motif.points() {
            let (_, t) = band.locate(*point).expect("in the band");
            prop_assert!((-1e-9..=1.0 + 1e-9).contains(&t), "{t}");
        }
        // The same chain in the strip, its lines sampled and placed, lies along the path.
        let flat = Strip::of_unit(Point::origin(), Vector::new(1.0, 0.0), Vector::new(0.0, 1.0));
        let flat = chain_repeats(&repeat, &flat, terminals, &ChainOptions { join_tolerance: 1e-3 / band.depth(), ..options }).expect("chain");
        let path = chain.motif.points();
        let mut at = 0;
        for pair in flat.motif.points().windows(2) {
            let image = |share: f64| {
                let point = pair[0] + (pair[1] - pair[0]) * share;
                band.place(point.x, point.y)
            };
            let end = (at + 1..path.len()).find(|k| (path[*k] - image(1.0)).norm() < 1e-9).expect("the end of the line");
            for k in 0..=20 {
                let point = image(f64::from(k) / 20.0);
                let away = path[at..=end].windows(2).map(|chord| distance_to_segment(point, chord[0], chord[1])).fold(f64::INFINITY, f64::min);
                prop_assert!(away <= tolerance + 1e-9, "{away} {tolerance}");
            }
            at = end;
        }
    }
}

#[test]
fn a_curved_band_needs_a_tolerance() {
    let stations = [
        [Point::new(0.0, 5.0), Point::new(0.0, 0.0)],
        [Point::new(9.0, 6.0), Point::new(8.0, 0.0)],
    ];
    let band = RuledBand::new(&stations).expect("a band");
    let slope = repeat(&[(0.0, 3.0), (1.0, 5.0), (3.0, 0.0), (4.0, 2.0)]);
    let ends = [at(0.0, None), at(band.length(), None)];
    let chain = |flattening| {
        let options = ChainOptions {
            flattening,
            ..options(3, Alternate::None, Ends::Level)
        };
        chain_repeats(&slope, &band, ends, &options)
    };
    assert!(chain(1e-3).is_ok());
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let error = chain(bad).expect_err("no tolerance");
        assert!(error.to_string().contains("flattening"), "{error}");
    }
    let error = chain(1e-300).expect_err("endless");
    assert!(error.is_fit(), "{error}");
}
