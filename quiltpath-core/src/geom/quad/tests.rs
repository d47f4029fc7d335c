//! Worked quads, round trips, and the optimum of the least squares.

use super::*;
use proptest::prelude::*;

fn one(sides: [f64; 4], falling: f64) -> QuadMeasures {
    QuadMeasures {
        sides,
        diagonals: Diagonals::Falling(falling),
    }
}

fn refused(measures: &QuadMeasures) -> String {
    solve_quad(measures).expect_err("refused").to_string()
}

fn near(found: Point, x: f64, y: f64) -> bool {
    (found - Point::new(x, y)).norm() < 1e-12 * (1.0 + x.abs() + y.abs())
}

/// Corners of a quilt about 80 by 60, each moved by up to 2, level and at the origin.
fn quads() -> impl Strategy<Value = [Point; 4]> {
    prop::array::uniform8(-2.0..2.0f64).prop_map(|by| {
        let raw = [
            Point::new(by[0], by[1]),
            Point::new(80.0 + by[2], by[3]),
            Point::new(80.0 + by[4], 60.0 + by[5]),
            Point::new(by[6], 60.0 + by[7]),
        ];
        let along = (raw[1] - raw[0]).normalize();
        raw.map(|point| {
            let step = point - raw[0];
            Point::new(along.dot(&step), along.perp(&step))
        })
    })
}

fn measured(corners: &[Point; 4], which: usize) -> QuadMeasures {
    let [top, right, bottom, left, falling, rising] = measure_quad(corners);
    QuadMeasures {
        sides: [top, right, bottom, left],
        diagonals: match which {
            0 => Diagonals::Falling(falling),
            1 => Diagonals::Rising(rising),
            _ => Diagonals::Both { falling, rising },
        },
    }
}

/// Pythagorean triples: 3-4-5, 5-12-13, 8-15-17 (Euclid, Elements X 29, lemma).
#[test]
fn right_triangles_make_the_quads_that_geometry_says() {
    let rectangle = solve_quad(&one([12.0, 5.0, 12.0, 5.0], 13.0)).expect("a rectangle");
    assert!(near(rectangle.corners[2], 12.0, 5.0) && near(rectangle.corners[3], 0.0, 5.0));
    assert!(rectangle.rms() < 1e-14);
    // Two right triangles on one hypotenuse of 65: 25-60-65 above it and 39-52-65 below it.
    let quad = solve_quad(&one([60.0, 25.0, 39.0, 52.0], 65.0)).expect("a cyclic quad");
    assert!(near(quad.corners[2], 60.0, 25.0));
    // Ptolemy's theorem for that cyclic quad: the product of the diagonals.
    let [.., rising] = measure_quad(&quad.corners);
    assert!((rising * 65.0 - (60.0 * 39.0 + 25.0 * 52.0)).abs() < 1e-9);
    // A kite by the rising diagonal: 8-15-17 on both sides of it.
    let kite = QuadMeasures {
        sides: [15.0, 15.0, 8.0, 8.0],
        diagonals: Diagonals::Rising(17.0),
    };
    let kite = solve_quad(&kite).expect("a kite");
    assert!(near(kite.corners[3], 0.0, 8.0));
    let [_, right, bottom, ..] = measure_quad(&kite.corners);
    assert!((right - 15.0).abs() < 1e-12 && (bottom - 8.0).abs() < 1e-12);
}

#[test]
fn impossible_measures_are_refused_with_the_triangle() {
    assert_eq!(
        refused(&one([80.0, 60.0, 80.0, 60.0], 150.0)),
        "the top side (80), the right side (60) and the falling diagonal (150) don't form a triangle; \
         give a falling diagonal above 20 and below 140"
    );
    let rising = QuadMeasures {
        sides: [80.0, 60.0, 20.0, 60.0],
        diagonals: Diagonals::Rising(90.0),
    };
    assert_eq!(
        refused(&rising),
        "the right side (60), the bottom side (20) and the rising diagonal (90) don't form a triangle; \
         give a rising diagonal above 40 and below 80"
    );
    let sides = refused(&one([100.0, 10.0, 20.0, 30.0], 95.0));
    assert!(sides.contains("measure the sides again"), "{sides}");
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e300] {
        assert!(refused(&one([80.0, bad, 80.0, 60.0], 100.0)).starts_with("the right side is"));
    }
}

#[test]
fn a_dented_quilt_is_refused_with_its_corner() {
    // Seen from the bottom right corner at (2, 2): the left, top side meet beyond it.
    let corners = [(0.0, 0.0), (10.0, 0.0), (2.0, 2.0), (0.0, 10.0)].map(|(x, y)| Point::new(x, y));
    let text = refused(&measured(&corners, 0));
    assert!(
        text.contains("bottom right") && text.contains("longer falling diagonal"),
        "{text}"
    );
    let text = refused(&measured(&corners, 2));
    assert!(text.contains("bottom right"), "{text}");
}

#[test]
fn the_bottom_moves_by_diagonal_over_width() {
    // For a rectangle 4 by 3: 5 d(falling) = 4 dx at the bottom right corner.
    let moved = sensitivity(&one([40.0, 30.0, 40.0, 30.0], 50.0), 0.125).expect("moves");
    assert_eq!(moved[..2], [0.0, 0.0]);
    for at in [2, 3] {
        assert!((moved[at] - 0.125 * 50.0 / 40.0).abs() < 2e-3, "{moved:?}");
    }
    let both = QuadMeasures {
        sides: [40.0, 30.0, 40.0, 30.0],
        diagonals: Diagonals::Both {
            falling: 50.0,
            rising: 50.0,
        },
    };
    // The self-stress of the braced frame is in proportion to the lengths (sides 30 and 40,
    // diagonals -50), so a quarter of the error stays in each diagonal and a fifth of it goes into
    // the top.
    let moved = sensitivity(&both, 0.125).expect("moves");
    assert!((moved[1] - 0.125 * 0.2).abs() < 1e-4, "{moved:?}");
    assert!(
        (moved[2] - 0.125 * 0.825_f64.hypot(0.15)).abs() < 1e-3,
        "{moved:?}"
    );
}

proptest! {
    #[test]
    fn measuring_and_solving_undo_each_other(corners in quads(), which in 0usize..3) {
        let measures = measured(&corners, which);
        let quad = solve_quad(&measures).expect("a quad");
        for (found, corner) in quad.corners.iter().zip(&corners) {
            prop_assert!((found - corner).norm() < 1e-9, "{found} {corner}");
        }
        for (found, given) in measure_quad(&quad.corners).iter().zip(measure_quad(&corners)) {
            prop_assert!((found - given).abs() < 1e-9);
        }
        prop_assert!(quad.rms() < 1e-12);
        prop_assert_eq!(quad.residuals.len(), if which == 2 { 6 } else { 5 });
    }

    /// Bretschneider's formula (elementary geometry), in terms of the sides and the diagonals:
    /// 16 K² = 4 p² q² − (b² + d² − a² − c²)².
    #[test]
    fn the_area_is_bretschneiders(corners in quads()) {
        let quad = solve_quad(&measured(&corners, 0)).expect("a quad");
        let [a, b, c, d, p, q] = measure_quad(&quad.corners);
        let area = (4.0 * p * p * q * q - (b * b + d * d - a * a - c * c).powi(2)).sqrt() / 4.0;
        let [k, l, m, n] = quad.corners;
        let shoelace = 0.5 * (m - k).perp(&(n - l));
        prop_assert!((area - shoelace).abs() < 1e-9 * area);
    }

    #[test]
    fn no_nearby_quad_has_smaller_residuals(
        corners in quads(), errors in prop::array::uniform6(-0.5..0.5f64), by in prop::array::uniform5(-1.0..1.0f64),
        size in prop::sample::select(vec![1e-5, 1e-3, 0.1]),
    ) {
        let mut given = measure_quad(&corners);
        for (length, error) in given.iter_mut().zip(errors) {
            *length += error;
        }
        let [top, right, bottom, left, falling, rising] = given;
        let quad = solve_quad(&QuadMeasures {
            sides: [top, right, bottom, left],
            diagonals: Diagonals::Both { falling, rising },
        }).expect("a quad");
        let sum = |corners: &[Point; 4]| -> f64 {
            measure_quad(corners).iter().zip(given).map(|(f, g)| (f - g).powi(2)).sum()
        };
        let other = moved(&quad.corners, &(SVector::from(by) * size));
        prop_assert!(sum(&quad.corners) <= sum(&other) * (1.0 + 1e-12) + 1e-18);
        prop_assert!((quad.rms() - (sum(&quad.corners) / 6.0).sqrt()).abs() < 1e-12);
    }
}
