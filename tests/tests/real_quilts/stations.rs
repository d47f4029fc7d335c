//! Wavy edges and seams.

use super::{INCH, LEG, check, same, side, solved};
use quiltpath_core::geom::Point;
use quiltpath_core::plan::{PieceKind, Side, Solved};

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

/// A top side with a seam 5 in wide between stations, on a border 6 in wide: what the side's own
/// band asks for is chosen, with slack or without, alone or with the opposite side.
#[test]
fn numbers_are_chosen_for_the_band_as_it_was_measured() {
    use rand_plans::cases;
    for (quilt, border, alike) in cases() {
        let solved = solved(&quilt, &border);
        let ratio = |at: usize| {
            let (_, repeats, stretch) = side(&solved, Side::all(4).nth(at).expect("a side"));
            (stretch * repeats as f64, repeats)
        };
        let groups: &[&[usize]] = match alike {
            true => &[&[0, 2], &[1, 3]],
            false => &[&[0], &[1], &[2], &[3]],
        };
        for group in groups {
            let (_, chosen) = ratio(group[0]);
            let cost = |n: usize| {
                let costs = group.iter().map(|&at| (ratio(at).0 / n as f64).ln().abs());
                costs.fold(0.0, f64::max)
            };
            for n in [chosen.saturating_sub(1).max(1), chosen + 1] {
                assert!(
                    cost(chosen) <= cost(n) + 1e-9,
                    "{quilt} {border}: side {}: {chosen} rather than {n}",
                    group[0]
                );
            }
        }
    }
}

/// Plans with seams and edges on waves, by a plain generator of our own.
mod rand_plans {
    /// Quilts and borders in inches, and whether opposite sides are alike.
    pub(super) fn cases() -> Vec<(String, String, bool)> {
        let mut state = 7u64;
        let mut next = move || {
            state = state
                .wrapping_mul(6364136223846793005)
                .wrapping_add(1442695040888963407);
            (state >> 33) as f64 / (1u64 << 31) as f64
        };
        let mut cases = Vec::new();
        for at in 0..80 {
            let quilt = format!(
                r#"{{"width":{:.3},"height":{:.3}}}"#,
                50.0 + 40.0 * next(),
                50.0 + 40.0 * next()
            );
            let mut stations = Vec::new();
            for side in ["top", "right", "bottom"] {
                let (seam, edge) = (5.0 + 2.0 * next(), 0.4 * next());
                for share in [0.35, 0.5, 0.65] {
                    let seam = seam + 0.3 * next();
                    let along = 50.0 * share;
                    stations.push(format!(
                        r#"{{"side":"{side}","at":{along:.3},"seam":{seam:.3},"edge":{edge:.3}}}"#
                    ));
                }
            }
            let alike = at % 2 == 0;
            let how = match at % 3 {
                0 => r#""slack":"1/2","#,
                1 => r#""slack":"1/4","#,
                _ => "",
            };
            let border = format!(
                r#""width":6,{how}"corner":{{{}}},"side":{{"motif":"side","opposite_alike":{alike}}},"stations":[{}]"#,
                match at % 5 {
                    0..3 => r#""style":"open""#,
                    _ => r#""style":"leg","motif":"corner""#,
                },
                stations.join(",")
            );
            cases.push((quilt, border, alike));
        }
        cases
    }
}

/// A side that runs through to the edge carries its wave past the corners of the sides beside it.
#[test]
fn waves_on_a_side_that_runs_through_are_planned() {
    for seam in ["4 3/4", "5 1/2"] {
        for side in ["top", "bottom"] {
            let border = format!(
                r#""width":5,"corner":{{"style":"butted"}},"side":{{"motif":"side"}},
                "stations":[{{"side":"{side}","at":20,"seam":"{seam}"}},{{"side":"{side}","at":30,"seam":"{seam}"}}]"#
            );
            check(&solved(r#"{"width":60,"height":70}"#, &border));
        }
    }
}
