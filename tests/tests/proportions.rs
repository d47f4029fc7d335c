//! Only the proportions of a drawing count: at any size it becomes the same line on the cloth.

use kurbo::{Affine, BezPath};
use quiltpath_core::error::{ErrorKind, MotifFault};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::svg_read::read_svg;
use quiltpath_core::plan::{Solved, solve};
use quiltpath_core::strokes::{Drawing, Stroke};
use std::path::Path;

/// Solves one of the demo's plans with all its drawings this many times as large.
fn solved(plan: &str, scale: f64) -> Solved {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/demo");
    let plan = read_plan(&std::fs::read(folder.join(plan)).expect("a plan's file"));
    let plan = plan.expect("a plan");
    let load = |name: &str| {
        let drawing = read_svg(&std::fs::read(folder.join(name)).expect("a drawing's file"))?;
        let strokes = drawing.into_drawing(name).strokes.into_iter();
        let scaled = strokes.map(|stroke| {
            let path = Affine::scale(scale) * stroke.path().into_owned();
            Stroke::new(stroke.id(), path)
        });
        Ok(Drawing::new(name, scaled.collect()))
    };
    solve(&plan, |request| load(&request.name)).expect("solved")
}

#[test]
fn a_drawing_of_any_size_becomes_the_same_line_on_the_cloth() {
    for plan in [
        "plan.json",
        "block.json",
        "mitred.json",
        "bent.json",
        "hexagon.json",
    ] {
        let usual = solved(plan, 1.0);
        for scale in [0.003, 0.05, 20.0] {
            let other = solved(plan, scale);
            assert_eq!(usual.pieces.len(), other.pieces.len(), "{plan}");
            for (one, other) in usual.pieces.iter().zip(&other.pieces) {
                let (one, other) = (&one.lines()[0].motif, &other.lines()[0].motif);
                let (points, others) = (one.points().len(), other.points().len());
                assert!(
                    points.abs_diff(others) <= 1 + points / 100,
                    "{plan} at {scale}: {points} points and {others}"
                );
                assert!(
                    (one.length() / other.length() - 1.0).abs() < 1e-4,
                    "{plan} at {scale}"
                );
            }
        }
    }
}

/// A drawing of 24 units with a gap of 0.36: on a border 6 in wide that is 2 mm, which nobody
/// joins.
#[test]
fn gaps_are_judged_on_the_cloth() {
    let plan = read_plan(
        br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
            {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave", "strokes": "as_drawn"}}]}"#,
    )
    .expect("a plan");
    let wave = |gap: f64| {
        let data = format!("M0 12 C4 0 8 0 12 12 M{} 12 C16 24 20 24 24 12", 12.0 + gap);
        let path = BezPath::from_svg(&data).expect("path data");
        // 24 px of 1/96 in, in millimetres.
        let path = Affine::scale(25.4 / 96.0) * path;
        Drawing::new("wave", vec![Stroke::new("a", path)])
    };
    let error = solve(&plan, |_| Ok(wave(0.36))).expect_err("apart");
    assert!(matches!(
        error.kind(),
        ErrorKind::Motif(MotifFault::Apart { .. })
    ));
    assert!(solve(&plan, |_| Ok(wave(0.01))).is_ok());
}
