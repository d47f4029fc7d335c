//! Sides that turn round at their middle, in whole plans: symmetrical, closed, and without the kink
//! that a repeat with sloped ends makes at mitred corners.

use proptest::prelude::*;
use quiltpath_core::Error;
use quiltpath_core::geom::Point;
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::words;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::spec::BySide;
use quiltpath_core::plan::{Join, Piece, PieceKind, PlanSpec, Ranker, SideDetail, Solved, solve};
use quiltpath_core::strokes::Drawing;

const INCH: f64 = 25.4;

fn plan(size: [f64; 2], corner: &str, side: &str) -> PlanSpec {
    let [width, height] = size;
    let plan = format!(
        r#"{{ "unit": "in", "quilt": {{ "width": {width}, "height": {height} }},
             "borders": [{{ "width": 6, "corner": {{ {corner} }}, "side": {{ "motif": "m" {side} }} }}] }}"#
    );
    read_plan(plan.as_bytes()).expect("a plan")
}

fn loaded(motif: &Motif) -> Drawing {
    motif.clone().into()
}

fn solved(plan: &PlanSpec, motif: &Motif) -> Result<Solved, Error> {
    solve(plan, |_| Ok(loaded(motif)))
}

/// A repeat 4 in long and 2 in high that starts and ends half way up with this slope.
fn sloped(slope: f64) -> Motif {
    let points = [
        (0.0, 1.0),
        (0.4, 1.0 - 0.4 * slope),
        (1.0, 0.0),
        (2.2, 2.0),
        (2.9, 0.6),
        (3.6, 1.0 + 0.4 * slope),
        (4.0, 1.0),
    ];
    let points = points.map(|(x, y)| Point::new(x * INCH, y * INCH));
    Motif::from_points("m", points.to_vec()).expect("a motif")
}

fn sides(solved: &Solved) -> Vec<(&Piece, &SideDetail)> {
    let pieces = solved.pieces.iter();
    let side = pieces.filter_map(|piece| match &piece.kind {
        PieceKind::Side(detail) => Some((piece, detail)),
        _ => None,
    });
    side.collect()
}

/// How far a side is from its mirror image about the quilt's middle, travelled back.
fn asymmetry(solved: &Solved, piece: &Piece, upright: bool) -> f64 {
    let bounds = solved.quilt.bounds();
    let (width, height) = (bounds.width(), bounds.height());
    let mirrored = |p: &Point| match upright {
        true => Point::new(p.x, height - p.y),
        false => Point::new(width - p.x, p.y),
    };
    let points = piece.lines()[0].motif.points();
    let apart = points.iter().zip(points.iter().rev());
    apart
        .map(|(a, b)| (mirrored(a) - b).norm())
        .fold(0.0, f64::max)
}

fn sharpest(solved: &Solved) -> f64 {
    solved
        .joins
        .iter()
        .map(|join| join.kink_degrees)
        .fold(0.0, f64::max)
}

/// The turns at the joins, each with the change of the slope by the stretch of its side.
fn kinks(solved: &Solved, slope: f64) -> Vec<(f64, f64)> {
    let kink = |join: &Join| {
        let ends = [join.from, join.to].map(|at| &solved.pieces[at].kind);
        let stretch = ends.into_iter().find_map(|kind| match kind {
            PieceKind::Side(detail) => Some(detail.fit.chosen.stretch),
            _ => None,
        });
        let stretch = stretch.expect("a side on either end of a join");
        let change = slope.atan() - (slope / stretch).atan();
        (join.kink_degrees, change.abs().to_degrees())
    };
    solved.joins.iter().map(kink).collect()
}

const CENTRED: &str = r#", "alternate": "centred""#;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(quiltpath_tests::cases(40)))]
    #[test]
    fn every_side_is_symmetrical_about_its_middle(
        width in 60.0..110.0f64, height in 60.0..110.0f64, slope in -0.9..0.9f64,
        style in prop::sample::select(vec!["open", "butted", "mitred", "bent"]), every in 1usize..4, ease in any::<bool>(),
    ) {
        let side = format!(r#"{CENTRED}, "every": {every}, "ease": {ease}"#);
        let spec = plan([width, height], &format!(r#""style": "{style}""#), &side);
        let solved = solved(&spec, &sloped(slope)).expect("solved");
        for (piece, detail) in sides(&solved) {
            let repeats = detail.fit.chosen.repeats;
            prop_assert!(repeats.is_multiple_of(2) && repeats.is_multiple_of(every));
            prop_assert!(detail.fit.more.is_none_or(|more| more.repeats.is_multiple_of(2)));
            let upright = matches!(detail.side.name(), "left" | "right");
            let error = asymmetry(&solved, piece, upright);
            prop_assert!(error <= 1e-9, "{error}");
        }
        for join in &solved.joins {
            prop_assert!(join.gap <= 1e-9, "{join:?}");
        }
    }

    /// A corner is made at the repeat's proportions and a side is stretched, so all that is left
    /// of the kink is the change of the slope by the stretch.
    #[test]
    fn a_centred_side_goes_on_at_mitred_corners(
        width in 60.0..110.0f64, height in 60.0..110.0f64, slope in 0.3..0.9f64, up in any::<bool>(),
    ) {
        let slope = if up { slope } else { -slope };
        let mitred = r#""style": "mitred""#;
        let centred = solved(&plan([width, height], mitred, CENTRED), &sloped(slope)).expect("solved");
        for (kink, change) in kinks(&centred, slope) {
            prop_assert!((kink - change).abs() < 1e-6, "{kink} {change}");
        }
        let plain = solved(&plan([width, height], mitred, ""), &sloped(slope)).expect("solved");
        prop_assert!(sharpest(&plain) > sharpest(&centred) + 10.0);
    }
}

#[test]
fn it_goes_on_at_the_corners_of_a_hexagon_too() {
    let mut spec = plan([70.0, 90.0], r#""style": "mitred""#, CENTRED);
    let corners = [[30, 0], [90, 0], [120, 52], [90, 104], [30, 104], [0, 52]];
    let quilt = format!(r#"{{ "corners": {corners:?} }}"#);
    spec.quilt = serde_json::from_str(&quilt).expect("an outline");
    let solved = solved(&spec, &sloped(0.6)).expect("solved");
    assert_eq!(solved.joins.len(), 12);
    assert!(solved.joins.iter().all(|join| join.gap <= 1e-9));
    for (kink, change) in kinks(&solved, 0.6) {
        assert!((kink - change).abs() < 1e-6, "{kink} {change}");
    }
    let odd = spec_with_repeats(spec, 5);
    let error = self::solved(&odd, &sloped(0.6)).expect_err("odd");
    assert!(
        error.to_string().starts_with("borders[0]: side: repeats: "),
        "{error}"
    );
}

fn spec_with_repeats(mut spec: PlanSpec, repeats: usize) -> PlanSpec {
    spec.borders[0].side.repeats = Some(BySide::One(repeats));
    spec
}

#[test]
fn the_turn_in_the_middle_is_told() {
    let size = [70.0, 90.0];
    let open = r#""style": "open""#;
    let solved_with = |slope| solved(&plan(size, open, CENTRED), &sloped(slope)).expect("solved");
    let found = |solved: &Solved| -> Vec<String> {
        let kinks = solved.findings.iter().filter(|f| f.code() == "mirror_kink");
        kinks
            .map(|finding| words::finding(finding, solved))
            .collect()
    };
    assert_eq!(found(&solved_with(0.0)), [] as [&str; 0]);
    let solved = solved_with(0.5);
    let messages = found(&solved);
    assert_eq!(messages.len(), 4);
    for ((piece, detail), message) in sides(&solved).into_iter().zip(&messages) {
        let points = piece.lines()[0].motif.points();
        let middle = points.len() / 2;
        let (before, after) = (
            points[middle] - points[middle - 1],
            points[middle + 1] - points[middle],
        );
        let turn = before
            .perp(&after)
            .abs()
            .atan2(before.dot(&after))
            .to_degrees();
        let expected = 2.0 * (0.5 / detail.fit.chosen.stretch).atan().to_degrees();
        assert!((turn - expected).abs() < 1e-6);
        assert!(
            message.contains(&format!("turns by {turn:.0} degrees")),
            "{message}"
        );
    }
}

#[test]
fn a_corner_cut_from_a_block_meets_both_halves_at_their_height() {
    let leg = r#""style": "leg", "motif": "block", "trim": { "leg_depth": "2 in" }"#;
    // Two repeats, so that none meets one that is mirrored alike.
    let two = r#""repeats": { "top": 2, "right": 2, "bottom": 2, "left": 2 }"#;
    // Ends 1/2 in apart in height, in a repeat 2 in high.
    let repeat = [(0.0, 1.25), (1.0, 0.0), (3.0, 2.0), (4.0, 0.75)];
    let block = [
        (0.0, 0.0),
        (8.0, 1.0),
        (0.0, 2.0),
        (1.0, 8.0),
        (2.0, 0.0),
        (8.0, 3.0),
        (3.0, 8.0),
    ];
    let motif = |points: &[(f64, f64)]| {
        let points = points.iter().map(|&(x, y)| Point::new(x * INCH, y * INCH));
        Motif::from_points("m", points.collect()).expect("a motif")
    };
    let spec = plan([70.0, 90.0], leg, &format!("{CENTRED}, {two}"));
    let solved = solve(&spec, |request| {
        let points: &[_] = if request.name == "block" {
            &block
        } else {
            &repeat
        };
        Ok(loaded(&motif(points)))
    });
    let solved = solved.expect("solved");
    for (piece, detail) in sides(&solved) {
        let upright = matches!(detail.side.name(), "left" | "right");
        assert!(asymmetry(&solved, piece, upright) < 1e-6);
        assert!(detail.levelled < 1e-6, "{}", detail.levelled);
    }
    assert!(solved.joins.iter().all(|join| join.gap < 1e-6));
    assert!(
        solved
            .findings
            .iter()
            .all(|finding| finding.code() != "linked")
    );
}

#[test]
fn odd_numbers_are_refused_in_their_place() {
    let motif = sloped(0.2);
    let refused = |more: &str| {
        let spec = plan(
            [70.0, 90.0],
            r#""style": "open""#,
            &format!("{CENTRED}{more}"),
        );
        let error = solved(&spec, &motif).expect_err("refused").to_string();
        let ranked = Ranker::new(&spec, |_| Ok(loaded(&motif))).expect_err("refused");
        assert_eq!(ranked.to_string(), error);
        error
    };
    assert_eq!(
        refused(r#", "repeats": { "top": 4, "left": 5 }"#),
        "borders[0]: side: repeats.left: repeats centred on a side take an even number, not 5; give 4 or 6"
    );
    let parity = refused(r#", "parity": "odd""#);
    assert!(parity.starts_with("borders[0]: side: parity: "), "{parity}");
    let even = plan(
        [70.0, 90.0],
        r#""style": "open""#,
        &format!(r#"{CENTRED}, "repeats": {{ "top": 4 }}"#),
    );
    let solved = solved(&even, &motif).expect("solved");
    assert_eq!(sides(&solved)[0].1.fit.chosen.repeats, 4);
}
