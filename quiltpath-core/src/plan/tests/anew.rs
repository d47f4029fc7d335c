//! Sides and borders solved anew, with everything else kept bit for bit.

use super::*;
use proptest::prelude::*;

const STYLES: [CornerStyle; 5] = [
    CornerStyle::Leg,
    CornerStyle::Mitred,
    CornerStyle::Bent,
    CornerStyle::Open,
    CornerStyle::Butted,
];

fn anew(plan: &PlanSpec, solved: &Solved, part: Part) -> Solved {
    let (corner, side) = (corner(0.6, 0.4), wave(0.5));
    let load = |request: &MotifRequest| {
        let motif = if request.name == "corner" {
            &corner
        } else {
            &side
        };
        Ok(motif.clone().into())
    };
    solve_anew(plan, solved, part, load).expect("solved anew")
}

/// Whether two solutions are the same, but for the order of findings of one severity.
fn same(mut one: Solved, mut other: Solved) -> bool {
    for solved in [&mut one, &mut other] {
        solved
            .findings
            .sort_by_key(|finding| format!("{finding:?}"));
    }
    one == other
}

/// Two borders of these styles, whose ends lie at different heights and are linked or levelled.
fn nested(outer: CornerStyle, inner: CornerStyle, link: bool) -> PlanSpec {
    let mut plan = spec(outer);
    plan.max_stretch_percent = Some(90.0);
    let mut second = border(inner, inner == CornerStyle::Leg);
    second.name = Some("inner".to_owned());
    plan.borders.push(second);
    for border in &mut plan.borders {
        border.side.ends = if link { Ends::Link } else { Ends::Level };
    }
    plan
}

proptest! {
    #[test]
    fn what_is_asked_for_as_before_comes_out_as_before(
        outer in 0usize..5, inner in 0usize..5, link: bool, number in 0usize..2, side in 0usize..4,
    ) {
        let plan = nested(STYLES[outer], STYLES[inner], link);
        let solved = solve_with(&plan, &corner(0.6, 0.4), &wave(0.5)).expect("solved");
        for part in [Part::Border(number), Part::Side(number, SIDES[side])] {
            prop_assert!(same(anew(&plan, &solved, part), solved.clone()), "{part:?}");
        }
    }

    #[test]
    fn another_number_on_one_side_leaves_the_others_as_they_are(
        outer in 0usize..5, inner in 0usize..5, link: bool, number in 0usize..2, side in 0usize..4, repeats in 1usize..8,
    ) {
        let mut plan = nested(STYLES[outer], STYLES[inner], link);
        let before = solve_with(&plan, &corner(0.6, 0.4), &wave(0.5)).expect("solved");
        let asked = (0..4).map(|at| (at == side).then_some(repeats)).collect();
        plan.borders[number].side.repeats = Some(BySide::List(asked));
        // Whatever happens to link ends does so on that side alone.
        plan.borders[number].side.ends = if link { Ends::Level } else { Ends::Link };
        let after = anew(&plan, &before, Part::Side(number, SIDES[side]));
        let own = |piece: &&Piece| piece.border == number && match &piece.kind {
            PieceKind::Side(detail) => detail.side == SIDES[side],
            PieceKind::Link(of) => *of == SIDES[side],
            PieceKind::Corner(_) | PieceKind::Field(_) | PieceKind::Ring(_) => false,
        };
        let others = |solved: &Solved| -> Vec<Piece> {
            solved.pieces.iter().filter(|piece| !own(piece)).cloned().collect()
        };
        prop_assert!(others(&after) == others(&before));
        let filled = after.pieces.iter().filter(own).find_map(|piece| match &piece.kind {
            PieceKind::Side(detail) => Some(detail.fit.chosen.repeats),
            _ => None,
        });
        prop_assert_eq!(filled, Some(repeats));
        prop_assert_eq!(after.paths.len(), before.paths.len());
        for join in &after.joins {
            prop_assert!(join.gap <= after.join_tolerance);
        }
        // Each finding is still about the piece that it was about.
        for finding in &after.findings {
            if let (Some(piece), Some(border)) = (finding.piece, finding.border) {
                prop_assert_eq!(after.pieces[piece].border, border);
            }
        }
    }
}

#[test]
fn a_solution_that_something_was_taken_out_of_is_refused() {
    let plan = spec(CornerStyle::Mitred);
    let whole = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    let triangle = [(0.0, 0.0), (2000.0, 0.0), (0.0, 2000.0)].map(|(x, y)| Point::new(x, y));
    let triangle = crate::geom::ConvexPolygon::new(triangle.to_vec()).expect("a triangle");
    let edits: [&dyn Fn(&mut Solved); 6] = [
        &|solved| solved.layouts[0].widths.truncate(2),
        &|solved| solved.layouts[0].band.inner = triangle.clone(),
        &|solved| solved.quilt.outline = triangle.clone(),
        &|solved| solved.pieces.truncate(3),
        &|solved| solved.joins[0].to = usize::MAX,
        &|solved| solved.paths[0].pieces.push(99),
    ];
    for edit in edits {
        let mut solved = whole.clone();
        edit(&mut solved);
        let load = |_: &MotifRequest| Ok(wave(0.5).into());
        for part in [Part::Border(0), Part::Side(0, Side::LEFT)] {
            let error = solve_anew(&plan, &solved, part, load).expect_err("refused");
            assert!(error.is_plan(), "{error}");
        }
        assert!(stitch_plan(&plan, &solved).is_err());
    }
}

#[test]
fn a_part_that_is_not_there_is_refused() {
    let plan = spec(CornerStyle::Open);
    let solved = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    for part in [Part::Border(1), Part::Side(3, Side::TOP)] {
        let error = solve_anew(&plan, &solved, part, |_| panic!("nothing is asked for"))
            .expect_err("refused")
            .to_string();
        assert!(error.contains("counted from 0, but has 1"), "{error}");
    }
    let third = Side::all(3).last().expect("a side");
    let load = |_: &MotifRequest| Ok(wave(0.5).into());
    assert!(solve_anew(&plan, &solved, Part::Side(0, third), load).is_err());
}
