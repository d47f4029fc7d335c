//! Every finding is about the piece, the side and the corner that its places lie on.

use super::*;
use crate::geom::measure::distance_to_segment;
use proptest::prelude::*;

/// How far a point lies from a piece.
fn off(piece: &Piece, at: Point) -> f64 {
    let lines = piece.lines().iter();
    lines
        .flat_map(|line| line.motif.points().windows(2))
        .map(|pair| distance_to_segment(at, pair[0], pair[1]))
        .fold(f64::INFINITY, f64::min)
}

/// How far the place of a finding may lie from its piece.
fn reach(kind: &FindingKind) -> f64 {
    match kind {
        // A link starts at the corner and leads to the side, or the other way round.
        FindingKind::Linked { length } => *length,
        // The middle between two lines, or of a square.
        FindingKind::LinesClose { closest, .. } => *closest,
        FindingKind::Dense { square, .. } => *square,
        _ => 0.0,
    }
}

proptest! {
    #[test]
    fn findings_are_about_the_piece_that_they_lie_on(
        width in 40.0..70.0f64, height in 40.0..70.0f64, start in 0.2..0.8f64, end in 0.2..0.8f64,
        link: bool, turned: bool, limit in 0.1..5.0f64,
    ) {
        let mut plan = spec(CornerStyle::Leg);
        plan.quilt = QuiltSpec::rectangle(inches(width), inches(height));
        plan.max_stretch_percent = Some(limit);
        plan.borders[0].side.ends = if link { Ends::Link } else { Ends::Level };
        plan.borders[0].corner.arrangement = turned.then_some(Arrangement::Turned);
        let mut second = border(CornerStyle::Open, false);
        second.name = Some("inner".to_owned());
        plan.borders.push(second);
        let solved = solve_with(&plan, &corner(start, end), &wave(0.5)).expect("solved");
        let stitching = stitch_plan(&plan, &solved).expect("stitched");
        let mut named = 0;
        for finding in stitching.all_findings(&solved) {
            let Some(number) = finding.piece else { continue };
            named += 1;
            let piece = &solved.pieces[number];
            prop_assert_eq!(finding.border, Some(piece.border));
            match &piece.kind {
                PieceKind::Side(detail) => prop_assert_eq!(finding.side, Some(detail.side)),
                PieceKind::Link(side) => prop_assert_eq!(finding.side, Some(*side)),
                PieceKind::Field(_) | PieceKind::Ring(_) => {}
                PieceKind::Corner(detail) => prop_assert_eq!(finding.corner, Some(detail.position)),
            }
            for place in &finding.places {
                let off = off(piece, *place);
                prop_assert!(off <= reach(&finding.kind) + 0.1, "{finding:?} lies {off} off {}", piece.name);
            }
        }
        // The stretch alone is reported of some side in nearly all of these.
        prop_assert!(named > 0 || limit > 1.0);
    }
}
