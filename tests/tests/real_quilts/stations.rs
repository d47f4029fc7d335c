//! Wavy edges and seams.

use super::{INCH, LEG, check, same, solved};
use quiltpath_core::geom::Point;
use quiltpath_core::plan::{PieceKind, Solved};

#[test]
fn a_side_follows_its_stations() {
    let border = r#""width":5,
        "stations":[{"side":"top","at":"30 in","edge":-1,"seam":"4 1/2"},{"side":1,"at":20},{"side":1,"at":40}],
        "corner":{"style":"leg","motif":"corner"},"side":{"motif":"side"}"#;
    let wavy = solved(r#"{"width":60,"height":70}"#, border);
    check(&wavy);
    assert!(wavy.layouts[0].is_wavy());
    let straight = solved(r#"{"width":60,"height":70}"#, LEG);
    // From 1 in outside the straight edge to 4 1/2 in inside, less 1/2 in and 1/4 in.
    let line = |lines: &[Point], x: f64| {
        lines
            .windows(2)
            .find(|pair| (pair[0].x..pair[1].x).contains(&x))
            .map(|pair| {
                let share = (x - pair[0].x) / (pair[1].x - pair[0].x);
                pair[0].y + share * (pair[1].y - pair[0].y)
            })
            .expect("the line passes")
    };
    let lines = &wavy.layouts[0].lines;
    assert!((line(&lines.outer, 30.0 * INCH) / INCH + 0.5).abs() < 1e-3);
    assert!((line(&lines.inner, 30.0 * INCH) / INCH - 4.25).abs() < 1e-3);
    assert!((line(&lines.edge, 30.0 * INCH) / INCH + 1.0).abs() < 1e-3);
    assert!((line(&lines.seam, 30.0 * INCH) / INCH - 4.5).abs() < 1e-3);
    // The other sides and all corners stay as they are.
    for (a, b) in wavy.pieces.iter().zip(&straight.pieces) {
        assert_eq!(
            a.lines()[0].motif.points() == b.lines()[0].motif.points(),
            a.name != "border-side-top",
            "{}",
            a.name
        );
    }
    // The way over the bulge is longer.
    let length = |solved: &Solved| match &solved.pieces[1].kind {
        PieceKind::Side(detail) => detail.span,
        _ => 0.0,
    };
    assert!(length(&wavy) > length(&straight));
    // Where a corner meets the side, the line turns no more than it does without waves.
    for (wavy, straight) in wavy.joins.iter().zip(&straight.joins) {
        assert!((wavy.kink_degrees - straight.kink_degrees).abs() < 3.0);
    }
}

#[test]
fn stations_within_a_corner_are_passed_over_and_told() {
    let border = r#""width":5,"stations":[{"side":"left","at":2,"edge":"1/4"}],
        "corner":{"style":"leg","motif":"corner"},"side":{"motif":"side"}"#;
    let quilt = r#"{"width":60,"height":70}"#;
    let told = solved(quilt, border);
    let codes: Vec<&str> = told.findings.iter().map(|found| found.code()).collect();
    assert!(codes.contains(&"stations_in_corner"), "{codes:?}");
    same(&solved(quilt, LEG), &told, |point| point);
}
