//! Plans of quilts that are not square: from what was measured to a closed ring in its band.

mod alike;
mod depths;
mod outlines;
mod refused;
mod stations;

use quiltpath_core::Error;
use quiltpath_core::geom::Point;
use quiltpath_core::io::json::read_plan;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::{MotifRequest, PieceKind, Severity, Side, Solved, solve};
use quiltpath_core::strokes::Drawing;
use quiltpath_tests::ell::ELL;

const INCH: f64 = 25.4;
/// 1e-6 in, in millimetres.
const JOIN: f64 = 2.54e-5;

fn motif(points: &[(f64, f64)]) -> Motif {
    let points = points.iter().map(|&(x, y)| Point::new(x, y) * INCH);
    Motif::from_points("m", points.collect()).expect("a motif")
}

/// The L, a repeat and a block, in inches.
fn load(request: &MotifRequest) -> Result<Drawing, Error> {
    let motif = match request.name.as_str() {
        "corner" => motif(&ELL),
        "block" => motif(&[(0.0, 2.0), (1.0, 0.0), (3.0, 1.0), (2.0, 3.0), (0.0, 2.0)]),
        _ => motif(&[(0.0, 1.2), (0.4, 2.0), (0.9, 0.9), (1.3, 0.0), (1.8, 1.2)]),
    };
    Ok(motif.into())
}

fn plan(quilt: &str, border: &str) -> Result<Solved, Error> {
    let text = format!(r#"{{"unit":"in","quilt":{quilt},"borders":[{{{border}}}]}}"#);
    solve(&read_plan(text.as_bytes())?, load)
}

fn solved(quilt: &str, border: &str) -> Solved {
    plan(quilt, border).unwrap_or_else(|e| panic!("{quilt} {border}: {e}"))
}

fn refused(quilt: &str, border: &str) -> String {
    plan(quilt, border).expect_err(quilt).to_string()
}

const LEG: &str = r#""width":5,"corner":{"style":"leg","motif":"corner"},"side":{"motif":"side"}"#;
const TURNED: &str = r#""width":5,"corner":{"style":"leg","motif":"corner","arrangement":"turned"},"side":{"motif":"side"}"#;
const MITRED: &str = r#""width":5,"corner":{"style":"mitred"},"side":{"motif":"side"}"#;
const BENT: &str = r#""width":5,"corner":{"style":"bent"},"side":{"motif":"side"}"#;
const BLOCK: &str = r#""width":5,"corner":{"style":"block","motif":"block","on_point":true},"side":{"motif":"side"}"#;
const OPEN: &str = r#""width":5,"corner":{"style":"open"},"side":{"motif":"side"}"#;
const BUTTED: &str = r#""width":5,"corner":{"style":"butted"},"side":{"motif":"side"}"#;
const STYLES: [&str; 7] = [LEG, TURNED, MITRED, BENT, BLOCK, OPEN, BUTTED];

/// Every ring closed, every point in its band.
fn check(solved: &Solved) {
    for join in &solved.joins {
        assert!(join.gap <= JOIN, "{join:?}");
    }
    let outside = solved.findings.iter().find(|f| f.code() == "outside_band");
    assert!(outside.is_none(), "{outside:?}");
    assert!(solved.worst() < Some(Severity::Error));
}

fn side(solved: &Solved, side: Side) -> (&Motif, usize, f64) {
    let found = solved.pieces.iter().find_map(|piece| match &piece.kind {
        PieceKind::Side(detail) if detail.side == side => {
            let chosen = detail.fit.chosen;
            Some((&piece.lines()[0].motif, chosen.repeats, chosen.stretch))
        }
        _ => None,
    });
    found.expect("the side")
}

/// The points of all pieces of the same names, at most 1e-9 in apart once moved back.
fn same(one: &Solved, other: &Solved, back: impl Fn(Point) -> Point) {
    assert_eq!(one.pieces.len(), other.pieces.len());
    for (a, b) in one.pieces.iter().zip(&other.pieces) {
        assert_eq!(a.name, b.name);
        assert_eq!(
            a.lines()[0].motif.points().len(),
            b.lines()[0].motif.points().len(),
            "{}",
            a.name
        );
        for (a, b) in a.lines()[0]
            .motif
            .points()
            .iter()
            .zip(b.lines()[0].motif.points())
        {
            let apart = (a - back(*b)).norm() / INCH;
            assert!(apart < 1e-9, "{apart}");
        }
    }
}
