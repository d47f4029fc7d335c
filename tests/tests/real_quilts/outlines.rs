//! Outlines: however a quilt is measured, its ring closes and it measures the same again.

use super::{BENT, BUTTED, INCH, LEG, MITRED, STYLES, TURNED, check, refused, same, side, solved};
use proptest::prelude::*;
use quiltpath_core::geom::quad::measure_quad;
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::io::words;
use quiltpath_core::plan::{Severity, Side};

#[test]
fn a_square_quilt_is_the_same_however_it_is_given() {
    // 48, 55 and 73: the sides of a right-angled triangle in whole numbers.
    for border in STYLES {
        let plain = solved(r#"{"width":55,"height":48}"#, border);
        check(&plain);
        let measured = r#"{"top":55,"right":48,"bottom":55,"left":48,"falling":73,"rising":73}"#;
        same(&plain, &solved(measured, border), |point| point);
        let corners = r#"{"corners":[[0,0],[55,0],[55,48],[0,48]]}"#;
        same(&plain, &solved(corners, border), |point| point);
        // Lying askew the bands are no longer square to the axes, up to rounding.
        let (sin, cos) = 0.3_f64.sin_cos();
        let turned = |x: f64, y: f64| format!("[{:?},{:?}]", x * cos - y * sin, x * sin + y * cos);
        let corners = format!(
            r#"{{"corners":[{},{},{},{}]}}"#,
            turned(0.0, 0.0),
            turned(55.0, 0.0),
            turned(55.0, 48.0),
            turned(0.0, 48.0)
        );
        let back = |p: Point| Point::new(p.x * cos + p.y * sin, p.y * cos - p.x * sin);
        same(&plain, &solved(&corners, border), back);
    }
}

#[test]
fn rings_close_on_polygons_of_3_to_12_sides() {
    for sides in 3..=12 {
        let radius = 40.0 + 6.0 * f64::from(sides);
        let corners: Vec<String> = (0..sides)
            .map(|k| {
                let (sin, cos) =
                    (std::f64::consts::TAU * (f64::from(k) + 0.3) / f64::from(sides)).sin_cos();
                format!("[{:?},{:?}]", radius * cos, radius * sin)
            })
            .collect();
        let quilt = format!(r#"{{"corners":[{}]}}"#, corners.join(","));
        for border in STYLES {
            if border == BUTTED && sides % 2 == 1 {
                let error = refused(&quilt, border);
                assert!(error.contains("needs an even number of sides"), "{error}");
                continue;
            }
            let solved = solved(&quilt, border);
            check(&solved);
            let joined = matches!(border, LEG | TURNED | MITRED | BENT);
            let cuts = solved.thread_cuts();
            assert_eq!(cuts == 1, joined, "{border}: {cuts}");
            assert_eq!(Side::all(sides as usize).count(), sides as usize);
            let last = Side::all(sides as usize).last().expect("a side");
            assert!(side(&solved, last).1 > 0);
        }
    }
}

#[test]
fn measures_that_disagree_are_told_and_the_nearest_quilt_is_taken() {
    let quilt = r#"{"top":60,"right":80,"bottom":60,"left":80,"falling":100,"rising":102}"#;
    let solved = solved(quilt, LEG);
    let found = solved
        .findings
        .iter()
        .find(|found| found.code() == "measures_disagree")
        .expect("told");
    assert_eq!(found.severity, Severity::Warning);
    let message = words::finding(found, &solved);
    // Two triangles of 60, 80 and 100 make a rectangle: it is the other diagonal that is wrong.
    let odd = "without the rising diagonal, given as 102 in, the others make a quilt much nearer to \
               square, on which it is 100 in";
    assert!(message.contains(odd), "{message}");
    let measured = solved.quilt.measured.as_ref().expect("measured");
    assert_eq!(measured.residuals.len(), 6);
    // A corner of a quilt about square moves about as much as the diagonal changes, or a little
    // more: by the law of cosines d(angle) = c dc / (a b sin angle), so b d(angle) = dc c / a.
    let one = r#"{"top":60,"right":80,"bottom":60,"left":80,"falling":100}"#;
    let solved = super::solved(one, LEG);
    let moves = solved.quilt.measured.as_ref().expect("measured").moves;
    let expected = 100.0 / 60.0 / 8.0 * INCH;
    assert!(
        (moves[3] / expected - 1.0).abs() < 5e-3,
        "{moves:?} {expected}"
    );
    assert_eq!(moves[0], 0.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(quiltpath_tests::cases(1000)))]

    #[test]
    fn a_measured_quilt_is_itself_again_and_closes_its_ring(
        by in prop::array::uniform8(-0.018..0.018f64), style in 0usize..4, falling in any::<bool>(),
    ) {
        let corners: [Point; 4] = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]
            .iter()
            .enumerate()
            .map(|(k, (x, y))| Point::new(64.0 * (x + by[2 * k]), 80.0 * (y + by[2 * k + 1])))
            .collect::<Vec<_>>()
            .try_into()
            .expect("four");
        let given = measure_quad(&corners);
        let [top, right, bottom, left, fall, rise] = given;
        let diagonal = if falling { format!(r#""falling":{fall:?}"#) } else { format!(r#""rising":{rise:?}"#) };
        let quilt = format!(r#"{{"top":{top:?},"right":{right:?},"bottom":{bottom:?},"left":{left:?},{diagonal}}}"#);
        let solved = solved(&quilt, STYLES[style]);
        check(&solved);
        let found: [Point; 4] = solved.quilt.outline.corners().to_vec().try_into().expect("four");
        for (found, given) in measure_quad(&found).iter().zip(given) {
            prop_assert!((found / INCH - given).abs() < 1e-9);
        }
        // Nothing folds: across each side's band the line stays between its ends.
        let strip = solved.layouts[0].strip(Side::TOP);
        let along: Vector = strip.along();
        let (top, ..) = side(&solved, Side::TOP);
        prop_assert!(along.dot(&(top.end().point - top.start().point)) > 0.0);
    }
}
