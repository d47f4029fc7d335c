//! How many chords a line in the strip takes: enough for the tolerance, and no more than that asks.

use super::*;

/// How far the image of the middle of a strip line is from the middle of its chord, in each of this
/// many equal parts: the greatest.
fn off_middle(band: &dyn BandMap, from: (f64, f64), to: (f64, f64), parts: usize) -> f64 {
    let at = |k: usize| {
        let share = k as f64 / (2 * parts) as f64;
        let (s, t) = (
            from.0 + share * (to.0 - from.0),
            from.1 + share * (to.1 - from.1),
        );
        band.place(s, t)
    };
    (0..parts)
        .map(|k| {
            let chord = nalgebra::center(&at(2 * k), &at(2 * k + 2));
            (at(2 * k + 1) - chord).norm()
        })
        .fold(0.0, f64::max)
}

/// Stations every 3 degrees round a circle whose radius in the middle of the band is this.
fn round(radius: f64, depth: f64) -> SplineBand {
    let station = |k: i32| {
        let (sin, cos) = f64::from(3 * k).to_radians().sin_cos();
        [-0.5, 0.5].map(|t| {
            let radius = radius + t * depth;
            Point::new(radius * sin, -radius * cos)
        })
    };
    SplineBand::new(&(0..=40).map(station).collect::<Vec<_>>()).expect("a band")
}

proptest! {
    /// A parabola is farthest from its chord in the middle, so this is the number by its
    /// definition.
    #[test]
    fn one_chord_fewer_is_too_few_on_a_ruled_band(
        ends in prop::array::uniform8(-3.0..3.0f64), from in (-5.0..65.0f64, 0.0..1.0f64), to in (-5.0..65.0f64, 0.0..1.0f64),
        tolerance in 1e-5..0.1f64,
    ) {
        let corner = |k: usize, x: f64, y: f64| Point::new(x + ends[2 * k], y + ends[2 * k + 1]);
        let ends = [[corner(0, 0.0, 9.0), corner(1, 0.0, 0.0)], [corner(2, 60.0, 9.0), corner(3, 60.0, 0.0)]];
        let band = RuledBand::new(&ends).expect("a band");
        let steps = band.steps(from, to, tolerance) as usize;
        prop_assert!(off_middle(&band, from, to, steps) <= tolerance * (1.0 + 1e-6));
        prop_assert!(steps == 1 || off_middle(&band, from, to, steps - 1) >= tolerance * (1.0 - 1e-6));
    }

    /// An arc of radius r and angle φ takes the fewest n with r (1 − cos(φ / 2n)) within the
    /// tolerance: the height of the arc over its chord.
    #[test]
    fn an_arc_takes_as_many_chords_as_its_height_asks_for(
        radius in 50.0..500.0f64, slim in 0.0..0.1f64, t in 0.0..1.0f64, span in (0.1..0.5f64, 0.5..0.9f64), tolerance in 1e-5..0.1f64,
    ) {
        let depth = slim * radius + 1.0;
        let band = round(radius, depth);
        let [from, to] = [span.0, span.1].map(|share| share * band.length());
        let (r, angle) = (radius + (t - 0.5) * depth, (to - from) / radius);
        let asked = (angle / (2.0 * (1.0 - tolerance / r).acos())).max(1.0);
        let steps = band.steps((from, t), (to, t), tolerance);
        prop_assert!(steps >= 0.99 * asked, "{steps} {asked}");
        // Bounds of the bend count the offset from the middle twice.
        prop_assert!(steps <= 1.05 * (1.0 + depth / radius) * asked + 1.0, "{steps} {asked}");
    }

    /// A slanted line between two rulings that are turned: twice as many chords at most.
    #[test]
    fn a_smooth_twist_takes_few_more_chords_than_a_ruled_one(turn in 0.2..3.0f64, tolerance in 1e-5..1e-2f64) {
        let station = |x: f64, by: f64| [Point::new(x, 5.0 + by), Point::new(x, -by)];
        let ends = [station(0.0, 0.0), station(60.0, turn)];
        let (smooth, ruled) = (SplineBand::new(&ends).expect("a band"), RuledBand::new(&ends).expect("a band"));
        let steps = |band: &dyn BandMap| band.steps((5.0, 0.0), (55.0, 1.0), tolerance);
        prop_assert!((steps(&ruled)..=steps(&ruled) + 1.0).contains(&steps(&smooth)));
    }
}

/// A line that ends where it started, and a tolerance that no number of chords meets.
#[test]
fn there_is_one_chord_at_least_and_no_number_for_no_tolerance() {
    let band = round(100.0, 5.0);
    assert_eq!(band.steps((20.0, 0.5), (20.0, 0.5), 0.01), 1.0);
    assert_eq!(band.steps((20.0, 0.0), (60.0, 0.5), 0.0), f64::INFINITY);
    let refused = subdivide(&band, (20.0, 0.0), (60.0, 0.0), 1e-12, 1000, |_, _| ());
    assert!(refused.expect_err("too many") > 1000.0);
    // The limit is met exactly: the points strictly between and the end.
    let steps = band.steps((20.0, 0.0), (60.0, 0.0), 1e-3);
    let limited = |limit: usize| subdivide(&band, (20.0, 0.0), (60.0, 0.0), 1e-3, limit, |_, _| ());
    assert_eq!(limited(steps as usize), Ok(()));
    assert_eq!(limited(steps as usize - 1), Err(steps));
}
