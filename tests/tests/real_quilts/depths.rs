//! Widths that differ by side, and one depth for several borders.

use super::{INCH, JOIN, check, load, refused, same, side, solved};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::plan::{PieceKind, Side, Solved, solve};

#[test]
fn widths_that_differ_by_side_are_kept() {
    let leg = r#""width":{"top":4,"right":5,"bottom":6,"left":7},"corner":{"style":"leg","motif":"corner"},"side":{"motif":"side"}"#;
    let quilt = r#"{"width":60,"height":70}"#;
    let solved = solved(quilt, leg);
    check(&solved);
    let depths = solved.layouts[0].depths();
    for (depth, width) in depths.iter().zip([4.0, 5.0, 6.0, 7.0]) {
        assert!((depth / INCH - (width - 0.75)).abs() < 1e-9);
    }
    // The top right corner lies 3 1/4 in deep along the top and 4 1/4 in along the right side.
    let corner = &solved.pieces[2].lines()[0].motif.bounds();
    assert!(corner.max.x <= (60.0 - 0.5) * INCH + JOIN && corner.min.y >= 0.5 * INCH - JOIN);
    let list = leg.replace(r#"{"top":4,"right":5,"bottom":6,"left":7}"#, "[4, 5, 6, 7]");
    same(&solved, &super::solved(quilt, &list), |point| point);
    let mitred = leg.replace(
        r#"{"style":"leg","motif":"corner"}"#,
        r#"{"style":"mitred"}"#,
    );
    assert_eq!(
        refused(quilt, &mitred),
        "borders[0]: corner: the bands before and after the top left corner are 6 1/4 in and 3 1/4 in deep, but a corner made from the repeat needs one depth; give these sides one width, or use another corner style"
    );
    // A band that may be shallower is so in proportion, and stretches no side more.
    let slack = leg.replace(r#""corner":{"#, r#""slack":"1/2","corner":{"#);
    let eased = super::solved(quilt, &slack);
    check(&eased);
    let worst = |solved: &Solved| {
        Side::all(4)
            .map(|at| side(solved, at).2.ln().abs())
            .fold(0.0, f64::max)
    };
    assert!(worst(&eased) < worst(&solved) - 1e-6);
    let share = eased.layouts[0].depths()[0] / depths[0];
    for (eased, full) in eased.layouts[0].depths().iter().zip(&depths) {
        assert!((eased / full - share).abs() < 1e-12);
    }
}

#[test]
fn borders_share_one_depth_where_asked() {
    let with = |widths: [f64; 2], keys: [&str; 2], shared: bool| {
        let border = |at: usize| {
            let (width, keys) = (widths[at], keys[at]);
            format!(
                r#"{{"width":{width},{keys}"corner":{{"style":"leg","motif":"corner"}},"side":{{"motif":"side"}}}}"#
            )
        };
        let text = format!(
            r#"{{"unit":"in","quilt":{{"width":70,"height":90}},"shared_depth":{shared},"borders":[{},{}]}}"#,
            border(0),
            border(1)
        );
        solve(&read_plan(text.as_bytes()).expect("a plan"), load)
    };
    let two = |widths: [f64; 2], keys: &str, shared: bool| with(widths, [keys; 2], shared);
    // 6 in less 3/4 in, and 5 3/4 in less 1/2 in, are 5 1/4 in both.
    let alike = two([6.0, 5.75], "", true).expect("solved");
    check(&alike);
    assert!(alike.findings.iter().any(|f| f.code() == "depth_shared"));
    let slack = two([6.0, 5.5], r#""slack":"3/4","#, true).expect("solved");
    check(&slack);
    let [outer, inner] = [0, 1].map(|at: usize| slack.layouts[at].depth() / INCH);
    assert!((outer - inner).abs() < 1e-9, "{outer} {inner}");
    assert!((4.5 - 1e-9..=5.0 + 1e-9).contains(&outer), "{outer}");
    // No common depth of a grid, both gaps of each border wider, does better.
    let worst = |solved: &Solved| {
        let sides = solved.pieces.iter().filter_map(|piece| match &piece.kind {
            PieceKind::Side(detail) => Some(detail.fit.chosen.stretch.ln().abs()),
            _ => None,
        });
        sides.fold(0.0, f64::max)
    };
    let best = worst(&slack);
    for step in 0..=200 {
        let depth = 4.5 + 0.5 * f64::from(step) / 200.0;
        let gaps = |width: f64, edge: f64| {
            let more = (width - edge - 0.25 - depth) / 2.0;
            format!(r#""edge_gap":{},"seam_gap":{},"#, edge + more, 0.25 + more)
        };
        let fixed = with([6.0, 5.5], [&gaps(6.0, 0.5), &gaps(5.5, 0.25)], false).expect("solved");
        assert!(best <= worst(&fixed) + 1e-9, "{depth}");
    }
    let error = two([6.0, 5.0], r#""slack":"1/4","#, true).expect_err("too far");
    assert!(
        error
            .to_string()
            .starts_with("shared_depth: the bands of the borders are 5 1/4 in, 4 1/2 in deep"),
        "{error}"
    );
}
