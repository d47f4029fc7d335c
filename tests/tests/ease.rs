//! Sides whose stretch is put into the stems: flowers measured by fitting ellipses to what a plan
//! gives, not by what the library says of itself.

use nalgebra::DMatrix;
use quiltpath_core::chain::Repeat;
use quiltpath_core::fit::{Ease, EaseLimits, Stiffness};
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::io::svg_read::read_svg;
use quiltpath_core::io::words;
use quiltpath_core::plan::{Piece, PieceKind, SideDetail, Solved, solve};
use quiltpath_core::strokes::OneLineOptions;
use quiltpath_tests::draw::flowers;
use std::path::{Path, PathBuf};

const INCH: f64 = 25.4;

/// The length of one repeat of flowers on a band 5 1/4 in deep.
const ADVANCE: f64 = flowers::WIDTH / flowers::HEIGHT * 5.25;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/motifs")
}

/// Solves a plan of one border 6 in wide with open corners. A side is 12 1/2 in shorter than the
/// quilt: two edge gaps of 1/2 in, two corner squares of 5 1/2 in and two gaps of 1/4 in.
fn solved(size: [f64; 2], side: &str) -> Solved {
    planned(size, r#""corner": { "style": "open" }"#, side)
}

fn planned([width, height]: [f64; 2], corner: &str, side: &str) -> Solved {
    let plan = format!(
        r#"{{ "unit": "in", "quilt": {{ "width": {width}, "height": {height} }},
             "borders": [{{ "width": 6, {corner}, "side": {{ {side} }} }}] }}"#
    );
    let plan = read_plan(plan.as_bytes()).expect("a plan");
    solve(&plan, |request| {
        let bytes = std::fs::read(folder().join(&request.name)).expect("a motif's file");
        Ok(read_svg(&bytes)?.into_drawing(&request.name))
    })
    .expect("solved")
}

/// The quilt on which 5 repeats of flowers are stretched by this much and 6 by that.
fn quilt(five: f64, six: f64) -> [f64; 2] {
    [(5.0, five), (6.0, six)].map(|(repeats, stretch)| 12.5 + repeats * ADVANCE * stretch)
}

const FLOWERS: &str =
    r#""motif": "flowers.svg", "repeats": { "top": 5, "bottom": 5, "left": 6, "right": 6 }"#;

fn flowers_eased() -> String {
    format!(r#"{FLOWERS}, "ease": true"#)
}

fn sides(solved: &Solved) -> Vec<(&Piece, &SideDetail)> {
    let pieces = solved.pieces.iter();
    let side = pieces.filter_map(|piece| match &piece.kind {
        PieceKind::Side(detail) => Some((piece, detail)),
        _ => None,
    });
    side.collect()
}

/// The middle of points, each counted alike.
fn middle(points: &[Point]) -> Vector {
    points.iter().map(|p| p.coords).sum::<Vector>() / points.len() as f64
}

/// The rims of the flowers: the parts of a line that end where they began and keep well away from
/// their middle, as petals and stalks don't.
fn rims(piece: &Piece) -> Vec<Vec<Point>> {
    let points = piece.lines()[0].motif.points();
    let is_rim = |part: &[Point]| {
        let middle = middle(part);
        let away = part.iter().map(|p| (p.coords - middle).norm());
        away.fold(f64::INFINITY, f64::min) > 0.15 * piece.depth
    };
    let mut rims = Vec::new();
    let mut at = 0;
    while at < points.len() {
        let closes = |end: &usize| (points[*end] - points[at]).norm() < 1e-9;
        let end = (at + 20..points.len().min(at + 1000)).find(closes);
        match end.filter(|end| is_rim(&points[at..*end])) {
            Some(end) => {
                rims.push(points[at..end].to_vec());
                at = end;
            }
            None => at += 1,
        }
    }
    rims
}

/// The longer axis of the ellipse through points by the shorter, less 1.
///
/// The conic a·x² + b·xy + c·y² + d·x + e·y + f = 0 whose coefficients, of length 1, have the
/// least sum of squares at the points: the last singular vector. The half axes are as the square
/// roots of the inverse eigenvalues of its quadratic part.
fn out_of_round(points: &[Point]) -> f64 {
    let middle = middle(points);
    let size = (points[0].coords - middle).norm();
    let rows = points.iter().flat_map(|point| {
        let (x, y) = ((point.x - middle.x) / size, (point.y - middle.y) / size);
        [x * x, x * y, y * y, x, y, 1.0]
    });
    let rows = DMatrix::from_row_iterator(points.len(), 6, rows);
    let vectors = rows.svd(false, true).v_t.expect("vectors");
    let [a, b, c] = [0, 1, 2].map(|column| vectors[(5, column)]);
    let (mean, half) = ((a + c) / 2.0, ((a - c) / 2.0).hypot(b / 2.0));
    ((mean.abs() + half) / (mean.abs() - half)).sqrt() - 1.0
}

#[test]
fn the_ellipse_fitted_is_the_one_drawn() {
    let ellipse = |a: f64, b: f64| -> Vec<Point> {
        let point = |k: i32| {
            let (sin, cos) = (f64::from(k) / 10.0).sin_cos();
            // Turned by 0.6, 0.8.
            let (x, y) = (a * cos, b * sin);
            Point::new(30.0 + 0.6 * x - 0.8 * y, 0.8 * x + 0.6 * y)
        };
        (0..63).map(point).collect()
    };
    assert!((out_of_round(&ellipse(1.12, 1.0)) - 0.12).abs() < 1e-9);
    assert!((out_of_round(&ellipse(4.0, 5.0)) - 0.25).abs() < 1e-9);
    assert!(out_of_round(&ellipse(2.0, 2.0)) < 1e-9);
}

#[test]
fn flowers_stay_round_at_twelve_percent_either_way() {
    let size = quilt(1.12, 0.88);
    let (even, eased) = (solved(size, FLOWERS), solved(size, &flowers_eased()));
    for ((plain, detail), (eased, told)) in sides(&even).into_iter().zip(sides(&eased)) {
        let stretch = detail.fit.chosen.stretch;
        assert!(((stretch - 1.0).abs() - 0.12).abs() < 1e-6, "{stretch}");
        let (drawn, kept) = (rims(plain), rims(eased));
        assert_eq!(drawn.len(), 2 * detail.fit.chosen.repeats);
        assert_eq!(kept.len(), drawn.len());
        for rim in &drawn {
            let error = out_of_round(rim);
            assert!(
                (error - (stretch.max(1.0 / stretch) - 1.0)).abs() < 1e-3,
                "{error}"
            );
        }
        let errors: Vec<f64> = kept.iter().map(|rim| out_of_round(rim)).collect();
        let worst = errors.iter().copied().fold(0.0, f64::max);
        assert!(worst <= 0.005, "{worst}");
        // What the plan says of itself is what was measured.
        let report = told.ease.expect("eased");
        assert!(
            (report.roundness() - (1.0 - worst)).abs() < 2e-3,
            "{report:?}"
        );
        assert!(report.unabsorbed < 0.01, "{report:?}");
        assert_eq!(detail.ease, None);
    }
    // The whole is stretched as before, and still beyond the limit.
    let codes = |solved: &Solved| -> Vec<_> {
        let findings = solved.findings.iter();
        findings
            .map(|finding| (finding.code(), finding.place()))
            .collect()
    };
    assert_eq!(codes(&even), codes(&eased));
}

#[test]
fn ends_period_and_heights_are_those_of_even_stretch() {
    let size = quilt(1.08, 0.93);
    for more in [
        "",
        r#", "alternate": "left_right""#,
        r#", "alternate": "top_bottom""#,
    ] {
        let even = solved(size, &format!("{FLOWERS}{more}"));
        let eased = solved(size, &format!("{}{more}", flowers_eased()));
        for ((plain, detail), (eased, _)) in sides(&even).into_iter().zip(sides(&eased)) {
            let (one, other) = (
                plain.lines()[0].motif.clone(),
                eased.lines()[0].motif.clone(),
            );
            assert_eq!(one.start().point, other.start().point);
            assert_eq!(one.end().point, other.end().point);
            let upright = matches!(detail.side.name(), "left" | "right");
            let across = |point: &Point| if upright { point.x } else { point.y };
            let along = |point: &Point| if upright { point.y } else { point.x };
            let extent = |points: &[Point]| {
                let all = points.iter().map(across);
                (
                    all.clone().fold(f64::INFINITY, f64::min),
                    all.fold(f64::NEG_INFINITY, f64::max),
                )
            };
            assert_eq!(extent(one.points()), extent(other.points()));
            // Every copy starts where it does without easing: at a point of both lines.
            for copy in 1..detail.fit.chosen.repeats {
                let whole = along(&one.end().point) - along(&one.start().point);
                let part = copy as f64 / detail.fit.chosen.repeats as f64;
                let seam = along(&one.start().point) + whole * part;
                let meets = |points: &[Point]| -> Vec<f64> {
                    let at = points.iter().filter(|p| (along(p) - seam).abs() < 1e-9);
                    at.map(across).collect()
                };
                let (one, other) = (meets(one.points()), meets(other.points()));
                assert!(!one.is_empty() && one.len() == other.len(), "{copy}");
                assert!(one.iter().zip(&other).all(|(a, b)| (a - b).abs() < 1e-9));
            }
        }
    }
}

#[test]
fn without_stretch_nothing_moves() {
    let size = quilt(1.0, 1.0);
    let (even, eased) = (solved(size, FLOWERS), solved(size, &flowers_eased()));
    for ((plain, detail), (eased, _)) in sides(&even).into_iter().zip(sides(&eased)) {
        assert!((detail.fit.chosen.stretch - 1.0).abs() < 1e-6);
        let (one, other) = (
            plain.lines()[0].motif.points(),
            eased.lines()[0].motif.points(),
        );
        assert_eq!(one.len(), other.len());
        let apart = one.iter().zip(other).map(|(a, b)| (a - b).norm());
        assert!(apart.fold(0.0, f64::max) < 1e-4);
    }
}

#[test]
fn eased_sides_join_on_to_corners_and_bands() {
    let corner = r#""corner": { "style": "bent" }"#;
    let solved = planned(
        [64.25, 80.0],
        corner,
        r#""motif": "vine.svg", "ease": true"#,
    );
    for join in &solved.joins {
        assert!(
            join.gap < 1e-9 * INCH && join.kink_degrees < 1e-6,
            "{join:?}"
        );
    }
    assert!(
        solved
            .findings
            .iter()
            .all(|finding| finding.code() != "outside_band")
    );
    assert!(sides(&solved).iter().all(|side| side.1.ease.is_some()));
}

#[test]
fn a_border_without_stems_says_what_it_could_not_take() {
    // Two repeats of the demo's flowers, 7 1/2 in long on this band, stretched by 20 %.
    let side =
        r#""motif": "../demo/border.svg", "repeats": { "top": 2, "bottom": 2 }, "ease": true"#;
    let solved = solved([30.5, 80.0], side);
    let (_, detail) = sides(&solved)[0];
    let (stretch, report) = (detail.fit.chosen.stretch, detail.ease.expect("eased"));
    assert!((stretch - 1.2).abs() < 1e-6, "{stretch}");
    assert!(report.unabsorbed > 0.5, "{report:?}");
    let found: Vec<_> = solved
        .findings
        .iter()
        .filter(|f| f.code() == "ease_limited")
        .collect();
    assert_eq!(
        found.len(),
        2,
        "not for sides that are hardly stretched: {found:?}"
    );
    let message = &words::finding(found[0], &solved);
    let loops = report.loops.expect("loops");
    for words in [
        "border-side-top",
        "the rest is spread evenly",
        "draw more stem",
    ] {
        assert!(message.contains(words), "{message}");
    }
    assert!(
        message.contains(&format!("by +{:.1} %", (loops - 1.0) * 100.0)),
        "{message}"
    );

    let result = PlanResult::new(&solved, None).and_then(|result| write_result(&result));
    let result: serde_json::Value = serde_json::from_str(&result.expect("written")).expect("JSON");
    let ease = &result["pieces"][0]["ease"];
    assert_eq!(ease["unabsorbed"], report.unabsorbed);
    assert_eq!(ease["roundness"], report.roundness());
    assert_eq!(ease["takes"][1], report.takes[1]);
}

#[test]
fn what_stems_can_not_take_is_spread_evenly_over_the_flowers() {
    let bytes = std::fs::read(folder().join("flowers.svg")).expect("a file");
    let drawing = read_svg(&bytes).expect("a drawing");
    let joined = drawing
        .into_drawing("flowers")
        .one_line(&OneLineOptions::default());
    let repeat = Repeat::new(&joined.expect("a motif").motif).expect("a repeat");
    let stiffness = Stiffness::of(repeat.points(), repeat.pitch(1.0)).expect("stiffness");
    let loops = stiffness.loops();
    assert_eq!(loops.len(), 2, "{loops:?}");
    let limits = EaseLimits::default();
    for stretch in [0.75, 1.4] {
        let ease = Ease::new(&stiffness, stretch, &limits).expect("a map");
        let report = ease.report();
        assert!(stretch < report.takes[0] || stretch > report.takes[1]);
        let told = report.loops.expect("loops");
        assert!((told - 1.0).abs() > 0.05 && (told - 1.0).abs() < (stretch - 1.0f64).abs());
        for [from, to] in &loops {
            for step in 0..=100 {
                let u = from + (to - from) * f64::from(step) / 100.0;
                assert!((ease.local_stretch(u) - told).abs() < 1e-9, "{u}");
            }
        }
        // The stems took all that they may.
        let stem = ease.local_stretch(0.375);
        assert!(
            (stem - limits.least).abs() < 1e-9 || (stem - limits.most).abs() < 1e-9,
            "{stem}"
        );
    }
}
