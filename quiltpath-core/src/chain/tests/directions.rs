//! The directions in which a chain starts and ends, held against its own chords and finite steps.

use super::*;
use proptest::test_runner::Config;

/// A drawing of depth 1 whose first and last lines are this short and this steep.
#[derive(Debug, Clone)]
struct Drawn {
    offsets: [f64; 2],
    slopes: [f64; 2],
    short: f64,
    /// Whether the drawing bends there, so that its ends are given as tangents.
    curved: bool,
}

impl Drawn {
    fn repeat(&self) -> Repeat {
        let ([start, end], [leave, arrive]) = (self.offsets, self.slopes);
        // A curve lies off its tangent by the square of the step; the factor stands for its bend.
        let off = if self.curved {
            self.short * self.short
        } else {
            0.0
        };
        let points = [
            (0.0, start),
            (self.short, start + leave * self.short + off),
            (0.4, 0.0),
            (0.6, 1.0),
            (1.0 - self.short, end - arrive * self.short + off),
            (1.0, end),
        ];
        let points = points.map(|(x, t)| Point::new(x, 1.0 - t)).to_vec();
        let motif = Motif::from_points("m", points).expect("a motif");
        let tangents = self.slopes.map(|slope| Vector::new(1.0, -slope));
        Repeat::new(&motif.with_directions(tangents)).expect("a repeat")
    }
}

fn drawn(short: f64) -> impl Strategy<Value = Drawn> {
    let pair = |range: std::ops::Range<f64>| (range.clone(), range).prop_map(|(a, b)| [a, b]);
    (pair(0.3..0.7), pair(-1.0..1.0), any::<bool>()).prop_map(move |(offsets, slopes, curved)| {
        Drawn {
            offsets,
            slopes,
            short,
            curved,
        }
    })
}

fn patterns() -> impl Strategy<Value = Alternate> {
    prop::sample::select(vec![
        Alternate::None,
        Alternate::LeftRight,
        Alternate::TopBottom,
        Alternate::CentredFirst,
        Alternate::Centred,
    ])
}

fn wanted() -> impl Strategy<Value = [Option<f64>; 2]> {
    let end = || prop::option::weighted(0.8, 0.3..0.7f64);
    (end(), end()).prop_map(|(start, end)| [start, end])
}

fn terminals(length: f64, across: [Option<f64>; 2]) -> [Terminal; 2] {
    [at(0.0, across[0]), at(length, across[1])]
}

proptest! {
    /// Where the ends are levelled the map's slope turns the line, and its change along leans it.
    #[test]
    fn a_levelled_chain_starts_and_ends_along_its_first_and_last_chords(
        drawn in drawn(1e-5), pairs in 1usize..4, room in 4.0..60.0f64, wanted in wanted(), alternate in patterns(),
    ) {
        let how = options(2 * pairs, alternate, Ends::Level);
        let chain = chain_repeats(&drawn.repeat(), &strip(), terminals(room, wanted), &how).expect("a chain");
        let points = chain.motif.points();
        let first = (points[1] - points[0]).normalize();
        let last = (points[points.len() - 1] - points[points.len() - 2]).normalize();
        prop_assert!((chain.motif.start().direction - first).norm() < 1e-3, "{} {first}", chain.motif.start().direction);
        prop_assert!((chain.motif.end().direction - last).norm() < 1e-3, "{} {last}", chain.motif.end().direction);
    }
}

proptest! {
    #![proptest_config(Config::with_cases(crate::cases(150)))]

    /// However coarse the chords are.
    #[test]
    fn on_a_wavy_band_a_chain_starts_and_ends_along_the_images_tangents(
        drawn in prop_oneof![drawn(0.25), drawn(1e-5)], pairs in 1usize..3, waves in prop::collection::vec(-0.8..0.8f64, 5),
        smooth in any::<bool>(), wanted in wanted(), alternate in patterns(), flattening in 1e-3..0.5f64,
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
        let repeat = drawn.repeat();
        let ends = terminals(length, wanted);
        let how = ChainOptions { flattening, ..options(2 * pairs, alternate, Ends::Level) };
        let chain = chain_repeats(&repeat, &*band, ends, &how).expect("a chain");
        // In the strip itself the ends are those of the property above.
        let flat = Strip::of_unit(Point::origin(), Vector::new(1.0, 0.0), Vector::new(0.0, 1.0));
        let how = ChainOptions { join_tolerance: how.join_tolerance / band.depth(), ..how };
        let flat = chain_repeats(&repeat, &flat, ends, &how).expect("a chain");
        for (on_cloth, in_strip) in [(chain.motif.start(), flat.motif.start()), (chain.motif.end(), flat.motif.end())] {
            let small = 1e-6;
            let step = in_strip.direction * small;
            let [back, on] = [-1.0, 1.0].map(|side| {
                let point = in_strip.point + step * side;
                band.place(point.x, point.y)
            });
            let tangent = (on - back).normalize();
            prop_assert!((on_cloth.direction - tangent).norm() < 1e-5, "{} {tangent}", on_cloth.direction);
        }
    }
}
