//! Properties of bent corners: no fold, bounded change of lengths, all in the border's band.

use super::*;
use crate::geom::measure::distance_to_segment;
use proptest::prelude::*;

fn repeat(points: &[(f64, f64)]) -> Repeat {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Repeat::new(&Motif::from_points("m", points).expect("a motif")).expect("a repeat")
}

fn wave() -> Repeat {
    repeat(&[(0.0, 0.5), (0.5, 0.0), (1.5, 1.0), (2.0, 0.5)])
}

const DEPTH: f64 = 5.0;

fn options(radius: BendRadius) -> BendOptions {
    BendOptions {
        radius,
        legs: 0,
        ends: Ends::Level,
        join_tolerance: 1e-3,
        flattening: 1e-3,
    }
}

fn band(angle: f64, radius: BendRadius, leg: f64) -> Band {
    let mut band = Band::new(DEPTH, angle.to_radians() / 2.0, radius).expect("a band");
    band.leg = leg;
    band
}

#[test]
fn a_radius_that_folds_or_leaves_no_depth_is_refused() {
    let refused = |radius| {
        bent_corner(&wave(), DEPTH, 90.0, &options(radius))
            .expect_err("refused")
            .to_string()
    };
    assert!(refused(BendRadius::Given(2.5)).contains("would fold; give a radius above 2.5"));
    assert!(refused(BendRadius::Given(f64::NAN)).contains("radius above 2.5"));
    assert!(refused(BendRadius::Given(1e3)).contains("give a radius below 17.07"));
    assert!(refused(BendRadius::LengthChange(0.0)).contains("a share above 0"));
    for flattening in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let wrong = BendOptions {
            flattening,
            ..options(BendRadius::Given(4.0))
        };
        let error = bent_corner(&wave(), DEPTH, 90.0, &wrong).expect_err("no tolerance");
        assert!(error.to_string().contains("0.01 mm"), "{error}");
    }
    assert!(bent_corner(&wave(), DEPTH, 90.0, &options(BendRadius::Given(2.5001))).is_ok());
    assert!(bent_corner(&wave(), DEPTH, 90.0, &options(BendRadius::Given(17.0))).is_ok());
}

#[test]
fn a_repeat_that_is_narrow_beyond_measure_is_refused() {
    let spike = |height| repeat(&[(0.0, 0.5), (1.0, 0.0), (3.0, height), (4.0, 0.5)]);
    let options = options(BendRadius::Given(5.0));
    let refused = |height| {
        let error = bent_corner(&spike(height), DEPTH, 90.0, &options).expect_err("refused");
        assert!(error.is_fit(), "{error}");
        error.to_string()
    };
    assert!(refused(1e6).contains("repeats; up to 100000"));
    // Few enough repeats, but each goes all the way across in small steps.
    let fine = BendOptions {
        flattening: 1e-9,
        ..options
    };
    let error = bent_corner(&spike(1e3), DEPTH, 90.0, &fine).expect_err("refused");
    let limit = format!("points; up to {}", crate::chain::MAX_POINTS);
    assert!(error.to_string().contains(&limit), "{error}");
}

/// A repeat that starts at mid height and ends at this height, y down.
fn sloped(end: f64) -> Repeat {
    repeat(&[(0.0, 0.5), (0.5, 1.0), (1.5, 0.0), (2.0, end)])
}

#[test]
fn the_corner_ends_in_the_direction_of_its_last_link() {
    for (end, down) in [(0.2, 1.0), (0.9, -1.0)] {
        let linking = BendOptions {
            ends: Ends::Link,
            ..options(BendRadius::Given(5.0))
        };
        let bent = bent_corner(&sloped(end), DEPTH, 90.0, &linking).expect("bent");
        let motif = &bent.corner.motif;
        let points = motif.points();
        let last = (points[points.len() - 1] - points[points.len() - 2]).normalize();
        // The link leads back to mid height, straight across the level leg.
        assert!((last - Vector::new(0.0, down)).norm() < 1e-9, "{last:?}");
        assert!((motif.end().direction - last).norm() < 1e-9);
        assert_eq!(bent.links, bent.repeats);
        let level = bent_corner(&sloped(0.5), DEPTH, 90.0, &linking).expect("bent");
        assert_eq!(level.links, 0);
    }
}

proptest! {
    /// Eight times larger in every length, which changes no digit: as many chords, and the same
    /// ones.
    #[test]
    fn a_larger_corner_has_the_points_of_a_smaller_one(angle in 45.0..150.0f64, change in 0.05..0.9f64) {
        let small = options(BendRadius::LengthChange(change));
        let large = BendOptions { join_tolerance: 8e-3, flattening: 8e-3, ..small };
        let [small, large] = [(DEPTH, small), (8.0 * DEPTH, large)].map(|(depth, options)| bent_corner(&wave(), depth, angle, &options).expect("bent").corner.motif);
        prop_assert_eq!(small.points().len(), large.points().len());
        for (small, large) in small.points().iter().zip(large.points()) {
            prop_assert!((small * 8.0 - large).norm() < 1e-9);
        }
    }

    #[test]
    fn the_radius_asked_for_by_a_change_of_lengths_gives_just_that(angle in 45.0..150.0f64, change in 0.05..0.9f64) {
        let bent = bent_corner(&wave(), DEPTH, angle, &options(BendRadius::LengthChange(change))).expect("bent");
        prop_assert!((bent.length_change - change).abs() < 1e-9);
        prop_assert!(bent.length_change <= 5.0 / (2.0 * bent.radius));
        let again = bent_corner(&wave(), DEPTH, angle, &options(BendRadius::Given(bent.radius))).expect("bent");
        prop_assert!((again.length_change - change).abs() < 1e-9);
    }

    #[test]
    fn no_cell_of_the_band_folds(angle in 45.0..150.0f64, change in 0.05..0.95f64, leg in 0.3..9.0f64) {
        let band = band(angle, BendRadius::LengthChange(change), leg);
        let whole = 2.0 * leg + band.radius * band.turn;
        let place = |i: u32, j: u32| band.place(Point::new(whole * f64::from(i) / 120.0, band.depth * f64::from(j) / 8.0));
        for i in 0..120 {
            for j in 0..8 {
                let cell = [place(i, j), place(i + 1, j), place(i + 1, j + 1), place(i, j + 1)];
                for at in 0..4 {
                    let (a, b, c) = (cell[at], cell[(at + 1) % 4], cell[(at + 2) % 4]);
                    // Up is against y, so a cell that does not fold turns against the clock.
                    prop_assert!((b - a).perp(&(c - b)) < 0.0, "cell {i}, {j}");
                }
            }
        }
    }

    #[test]
    fn lengths_along_the_arc_change_within_the_bound(angle in 45.0..150.0f64, change in 0.05..0.9f64, height in 0.0..1.0f64) {
        let band = band(angle, BendRadius::LengthChange(change), 3.0);
        let y = height * band.depth;
        let arc = band.radius * band.turn;
        let mut length = 0.0;
        for part in 0..1000 {
            let at = |part: i32| band.place(Point::new(band.leg + arc * f64::from(part) / 1000.0, y));
            length += (at(part + 1) - at(part)).norm();
        }
        let ratio = length / arc;
        let bound = band.depth / (2.0 * band.radius);
        prop_assert!(ratio >= 1.0 - bound - 1e-4 && ratio <= 1.0 + bound + 1e-4, "{ratio} {bound}");
        let own = band.arc_depth / (2.0 * band.radius);
        prop_assert!(ratio >= 1.0 - own - 1e-4 && ratio <= 1.0 + own + 1e-4, "{ratio} {own}");
    }

    #[test]
    fn all_points_lie_in_the_borders_band(angle in 45.0..150.0f64, change in 0.1..0.9f64, legs in 0usize..3) {
        let mut options = options(BendRadius::LengthChange(change));
        options.legs = legs;
        let bent = bent_corner(&wave(), DEPTH, angle, &options).expect("bent");
        let turn = angle.to_radians();
        let along = Vector::new(turn.cos(), turn.sin());
        for point in bent.corner.motif.points() {
            // How far inside each outer line the point lies.
            let inside = [point.y, along.perp(&-point.coords)];
            prop_assert!(inside[0] >= -1e-9 && inside[1] >= -1e-9, "outside the outer line");
            prop_assert!(inside[0].min(inside[1]) <= DEPTH + 1e-9, "over the seam");
        }
    }

    #[test]
    fn ports_are_those_of_the_repeat(angle in 45.0..150.0f64, start in 0.3..0.7f64, end in 0.3..0.7f64) {
        let sloped = repeat(&[(0.0, start), (0.5, 0.0), (1.5, 1.0), (2.0, end)]);
        let options = options(BendRadius::LengthChange(0.4));
        let bent = bent_corner(&sloped, DEPTH, angle, &options).expect("bent");
        let port = f64::midpoint(start, end) * DEPTH;
        let turn = angle.to_radians();
        let along = Vector::new(turn.cos(), turn.sin());
        let motif = &bent.corner.motif;
        prop_assert!((motif.end().point.y - port).abs() < 1e-9);
        prop_assert!((along.perp(&-motif.start().point.coords) - port).abs() < 1e-9);
        // Equal legs, and directions that are those of the line at its ends.
        let reach = [motif.end().point.x, motif.start().point.coords.dot(&along)];
        prop_assert!((reach[0] - reach[1]).abs() < 1e-9);
        let points = motif.points();
        let first = (points[1] - points[0]).normalize();
        prop_assert!((first - motif.start().direction).norm() < 0.1);
        let last = (points[points.len() - 1] - points[points.len() - 2]).normalize();
        prop_assert!((last - motif.end().direction).norm() < 0.1);
    }

    #[test]
    fn chords_stay_within_the_tolerance(angle in 45.0..150.0f64, change in 0.1..0.9f64, slope in 0.0..1.0f64) {
        let straight = repeat(&[(0.0, slope), (6.0, 1.0 - slope), (6.0, 0.0), (7.0, 1.0), (8.0, slope)]);
        let options = options(BendRadius::LengthChange(change));
        let coarse = bent_corner(&straight, DEPTH, angle, &options).expect("bent");
        let fine = bent_corner(&straight, DEPTH, angle, &BendOptions { flattening: 1e-5, ..options }).expect("bent");
        let chords = coarse.corner.motif.points();
        let mut near = 0;
        for point in fine.corner.motif.points() {
            // Both lines run the same way, so the nearest chord moves on with the point.
            let off = |at: usize| distance_to_segment(*point, chords[at], chords[at + 1]);
            while near + 2 < chords.len() && off(near + 1) <= off(near) {
                near += 1;
            }
            let ahead = (near..(near + 3).min(chords.len() - 1)).map(off).fold(f64::INFINITY, f64::min);
            prop_assert!(ahead <= 1.1e-3, "{ahead}");
        }
    }
}
