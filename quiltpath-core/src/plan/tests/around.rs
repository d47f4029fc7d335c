//! Plans solved round what is stitched: kept parts rigid, joins exact, nothing twice or never.

use super::*;
use crate::chain::Alternate;
use proptest::prelude::*;

const STYLES: [CornerStyle; 6] = [
    CornerStyle::Leg,
    CornerStyle::Mitred,
    CornerStyle::Bent,
    CornerStyle::Block,
    CornerStyle::Open,
    CornerStyle::Butted,
];

const PATTERNS: [Alternate; 4] = [
    Alternate::None,
    Alternate::LeftRight,
    Alternate::TopBottom,
    Alternate::Centred,
];

/// Where the corners of a quilt near 60 x 80 in lie, each moved by up to an inch and more.
fn quilt(moved: [[f64; 2]; 4]) -> QuiltSpec {
    let at = [(0.0, 0.0), (60.0, 0.0), (60.0, 80.0), (0.0, 80.0)];
    let corners = at.iter().zip(moved);
    let corners = corners.map(|(&(x, y), [right, down])| [inches(x + right), inches(y + down)]);
    QuiltSpec::default().with_corners(corners.collect())
}

fn drawing(request: &MotifRequest) -> Result<crate::strokes::Drawing, Error> {
    Ok(match request.name.as_str() {
        "corner" => corner(0.6, 0.4).into(),
        "square" => motif(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.0)]).into(),
        _ => wave(0.5).into(),
    })
}

fn plan(style: CornerStyle, pattern: Alternate, moved: [[f64; 2]; 4]) -> PlanSpec {
    let mut plan = spec(style);
    plan.quilt = quilt(moved);
    plan.max_stretch_percent = Some(40.0);
    plan.borders[0].side.alternate = pattern;
    if style == CornerStyle::Block {
        plan.borders[0].corner.motif = Some("square".to_owned());
    }
    plan.machine = Some(MachineSpec::default().with_throat(inches(18.0)));
    plan
}

/// What is stitched when some runs are, and of one of them a part.
fn begun(plan: &PlanSpec, solved: &Solved, runs: &[bool], share: [f64; 2]) -> Stitched {
    let stitching = stitch_plan(plan, solved).expect("put in order");
    let mut stitched = Stitched::default();
    let mut partly = None;
    for (run, stitch) in stitching.runs.iter().zip(runs.iter().cycle()) {
        if *stitch {
            stitched.add(solved, run).expect("taken down");
        } else {
            partly.get_or_insert(run);
        }
    }
    if let Some(run) = partly {
        let [from, to] = [share[0].min(share[1]), share[0].max(share[1])];
        let length = run.motif.length();
        let between = [from * length, to * length];
        stitched
            .add_between(solved, run, between)
            .expect("taken down");
    }
    stitched
}

fn place(border: &StitchedBorder, piece: &Piece) -> Option<StitchedPart> {
    let own = border
        .parts
        .iter()
        .find(|part| match (&part.place, &piece.kind) {
            (PartPlace::Corner { place, line, .. }, PieceKind::Corner(detail)) => {
                *place == detail.position && *line == 0
            }
            (PartPlace::Side { side, .. }, PieceKind::Side(detail)) => *side == detail.side,
            (PartPlace::Link { .. }, PieceKind::Link(_)) => false,
            _ => false,
        });
    own.cloned()
}

/// The repeats of a line that are begun, each with its points.
fn repeats(points: &[Point], ends: &[usize], stretches: &[[f64; 2]]) -> Vec<Option<Vec<Point>>> {
    let length = |to: usize| -> f64 {
        let pairs = points[..=to].windows(2);
        pairs.map(|pair| (pair[1] - pair[0]).norm()).sum()
    };
    let all = length(points.len() - 1);
    let starts = std::iter::once(0).chain(ends.iter().copied());
    starts
        .zip(ends)
        .map(|(from, &to)| {
            let [low, high] = [length(from) / all, length(to) / all];
            let begun = |&[a, b]: &[f64; 2]| (b.min(high) - a.max(low)) * all > 1e-5;
            stretches
                .iter()
                .any(begun)
                .then(|| points[from..=to].to_vec())
        })
        .collect()
}

/// Checks all that holds of a plan that was solved round what is stitched.
fn check(plan: &PlanSpec, stitched: &Stitched, again: &Solved) -> Result<(), TestCaseError> {
    let border = &stitched.borders[0];
    for piece in &again.pieces {
        let Some(part) = place(border, piece).filter(|part| !part.stretches.is_empty()) else {
            prop_assert!(!piece.has_begun() || matches!(piece.kind, PieceKind::Link(_)));
            continue;
        };
        let line = &piece.lines()[0];
        prop_assert_eq!(
            line.ends.len(),
            part.line.ends.len(),
            "the number of repeats"
        );
        let [old, new] = [(&part.line, &part.stretches), (line, &piece.stitched)]
            .map(|(line, stretches)| repeats(line.motif.points(), &line.ends, stretches));
        for (was, is) in old.iter().zip(&new) {
            prop_assert_eq!(was.is_some(), is.is_some(), "which repeats are begun");
            let (Some(was), Some(is)) = (was, is) else {
                continue;
            };
            prop_assert_eq!(was.len(), is.len());
            for (one, other) in was.iter().zip(is) {
                let away = [(one - was[0]).norm(), (other - is[0]).norm()];
                prop_assert!((away[0] - away[1]).abs() < 1e-9, "rigid: {away:?}");
            }
        }
        let length: f64 = piece.stitched.iter().map(|[from, to]| to - from).sum();
        let length = length * piece.length();
        prop_assert!(
            (length - part.length()).abs() < 1e-6,
            "what is stitched stays"
        );
    }
    // Joins are exact, but where both ends are stitched.
    for join in &again.joins {
        let [from, to] = [&again.pieces[join.from], &again.pieces[join.to]];
        let both = from.stitched.last().is_some_and(|last| last[1] == 1.0)
            && to.stitched.first().is_some_and(|first| first[0] == 0.0);
        prop_assert!(
            join.gap < 1e-9 || both,
            "{} {} {}",
            from.name,
            to.name,
            join.gap
        );
    }
    // Nothing is left out and nothing stitched twice: the rest adds up to the whole.
    let left = stitch_plan(plan, again).expect("put in order");
    let rest: f64 = left.runs.iter().map(|run| run.motif.length()).sum();
    let whole = again.length();
    prop_assert!(
        (rest + stitched.length() - whole).abs() < 1e-5,
        "{rest} of {whole}"
    );
    let mut all = Stitched::of(again).expect("what is stitched");
    prop_assert!((all.length() - stitched.length()).abs() < 1e-6);
    for run in &left.runs {
        all.add(again, run).expect("what is left is not stitched");
    }
    prop_assert!((all.length() - whole).abs() < 1e-5);
    Ok(())
}

const SQUARE: [[f64; 2]; 4] = [[0.0; 2]; 4];

#[test]
fn with_nothing_stitched_it_is_the_plan_itself() {
    for style in STYLES {
        let plan = plan(style, Alternate::None, SQUARE);
        let solved = solve(&plan, drawing).expect("solved");
        let around = solve_around(&plan, &Stitched::default(), drawing).expect("solved");
        assert_eq!(solved, around);
    }
}

fn moves() -> impl Strategy<Value = [[f64; 2]; 4]> {
    prop::array::uniform4(prop::array::uniform2(-0.5..0.5f64))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(40)))]

    #[test]
    fn with_measures_as_they_were_the_rest_is_as_it_was(
        style in 0usize..6, pattern in 0usize..4, moved in moves(), slack: bool, ease: bool, alike: bool, waved: bool,
        runs in prop::collection::vec(any::<bool>(), 5), share in prop::array::uniform2(0.0..1.0f64),
    ) {
        // Corners made from the repeat need right angles to be like each other.
        let mut plan = plan(STYLES[style], PATTERNS[pattern], moved);
        let border = &mut plan.borders[0];
        if slack {
            border.slack = Some(inches(0.5));
        }
        border.side.ease = ease;
        border.side.opposite_alike = alike;
        if waved {
            let right = || SideNameSpec::Name("right".to_owned());
            border.stations = vec![
                StationSpec::new(right(), inches(30.0)).with_edge(inches(0.4)),
                StationSpec::new(right(), inches(50.0)).with_edge(inches(-0.3)),
            ];
        }
        let solved = solve(&plan, drawing);
        prop_assume!(solved.is_ok());
        let solved = solved.expect("solved");
        let stitched = begun(&plan, &solved, &runs, share);
        prop_assume!(!stitched.is_empty());
        let again = solve_around(&plan, &stitched, drawing).expect("solved round");
        prop_assert_eq!(again.pieces.len(), solved.pieces.len());
        for (was, is) in solved.pieces.iter().zip(&again.pieces) {
            prop_assert_eq!(&was.name, &is.name);
            prop_assert_eq!(was.points().count(), is.points().count(), "{}", &is.name);
            for (one, other) in was.points().zip(is.points()) {
                prop_assert!((one - other).norm() < 1e-9, "{}: {one} {other}", is.name);
            }
            let part = place(&stitched.borders[0], was).filter(|part| !part.stretches.is_empty());
            if let Some(part) = part {
                let of = |line: &PieceLine, stretches: &[[f64; 2]]| {
                    repeats(line.motif.points(), &line.ends, stretches)
                };
                let kept = of(&is.lines()[0], &is.stitched);
                prop_assert!(of(&part.line, &part.stretches) == kept, "bit for bit");
            }
        }
        check(&plan, &stitched, &again)?;
    }

    #[test]
    fn with_other_measures_what_is_stitched_is_kept_and_met(
        style in 0usize..6, pattern in 0usize..4, moved in moves(), after in moves(), ease: bool, waved: bool,
        wider in -0.4..0.4f64,
        runs in prop::collection::vec(any::<bool>(), 5), share in prop::array::uniform2(0.0..1.0f64),
    ) {
        let mut plan = plan(STYLES[style], PATTERNS[pattern], moved);
        let border = &mut plan.borders[0];
        border.side.ease = ease;
        if waved {
            let right = || SideNameSpec::Name("right".to_owned());
            border.stations = vec![
                StationSpec::new(right(), inches(30.0)).with_edge(inches(0.4)),
                StationSpec::new(right(), inches(50.0)).with_edge(inches(-0.3)),
            ];
        }
        let solved = solve(&plan, drawing);
        prop_assume!(solved.is_ok());
        let solved = solved.expect("solved");
        let stitched = begun(&plan, &solved, &runs, share);
        prop_assume!(!stitched.is_empty());
        plan.quilt = quilt(after);
        plan.borders[0].width = BySide::One(inches(6.0 + wider));
        let again = solve_around(&plan, &stitched, drawing).expect("solved round");
        check(&plan, &stitched, &again)?;
        let numbers = |solved: &Solved| SIDES.map(|side| side_of(solved, side).1.fit.chosen.repeats);
        for (side, (was, is)) in SIDES.iter().zip(numbers(&solved).iter().zip(numbers(&again))) {
            if side_of(&again, *side).0.has_begun() {
                prop_assert_eq!(*was, is);
            }
        }
        // Once more, with the measures of before, from what the second plan has.
        plan.quilt = quilt(moved);
        plan.borders[0].width = BySide::One(inches(6.0));
        let carried = Stitched::of(&again).expect("what is stitched");
        let back = solve_around(&plan, &carried, drawing).expect("solved round");
        check(&plan, &carried, &back)?;
    }
}

#[test]
fn what_the_plan_has_no_place_for_is_refused() {
    let before = plan(CornerStyle::Mitred, Alternate::None, SQUARE);
    let solved = solve(&before, drawing).expect("solved");
    let stitched = begun(&before, &solved, &[true], [0.0, 1.0]);
    let refused = |edit: &dyn Fn(&mut PlanSpec)| {
        let mut plan = before.clone();
        edit(&mut plan);
        let error = solve_around(&plan, &stitched, drawing).expect_err("refused");
        assert!(error.is_stitched(), "{error}");
        error.to_string()
    };
    let named = refused(&|plan| plan.borders[0].name = Some("outer".to_owned()));
    assert!(named.contains("plan has none of that name; give it the name of one of: outer"));
    let leg = refused(&|plan| {
        plan.borders[0].corner = CornerSpec::new(CornerStyle::Leg).with_motif("corner");
    });
    assert_eq!(
        leg,
        "borders[0]: the corners of the border \"border\" were begun in the style mitred, but the plan asks for leg; give mitred"
    );
    let narrow = refused(&|plan| plan.borders[0].width = BySide::One(inches(5.0)));
    assert_eq!(
        narrow,
        "borders[0]: width: the border \"border\" is 5 in wide on the top side, but what is stitched reaches 5 1/2 in from the seam; measure the width again"
    );
    let sides = refused(&|plan| {
        let corners = [(0.0, 0.0), (60.0, 0.0), (30.0, 60.0)];
        let corners = corners.map(|(x, y)| [inches(x), inches(y)]);
        plan.quilt = QuiltSpec::default().with_corners(corners.to_vec());
    });
    assert!(sides.contains("was begun with 4 sides, but the plan has 3; give a quilt of 4 sides"));
    // The part of a plan that has begun is not solved by itself.
    let around = solve_around(&before, &stitched, drawing).expect("solved round");
    for part in [Part::Border(0), Part::Side(0, Side::TOP)] {
        let error = solve_anew(&before, &around, part, drawing).expect_err("refused");
        assert!(error.is_stitched(), "{error}");
    }
}

#[test]
fn no_room_between_stitched_ends_is_refused_with_what_is_there() {
    let before = plan(CornerStyle::Open, Alternate::None, SQUARE);
    let solved = solve(&before, drawing).expect("solved");
    let top = side_of(&solved, Side::TOP).0;
    let mut stitched = Stitched::default();
    let repeats = top.lines()[0].ends.len() as f64;
    let number = solved
        .pieces
        .iter()
        .position(|piece| piece.name == top.name);
    let number = number.expect("the top side");
    let all_but_one = [[0.0, 2.0 / repeats], [3.0 / repeats, 1.0]];
    stitched
        .add_line(&solved, number, top.lines()[0].clone(), &all_but_one)
        .expect("taken down");
    let mut plan = before;
    plan.quilt = quilt([[0.0; 2], [-20.0, 0.0], [-20.0, 0.0], [0.0; 2]]);
    let error = solve_around(&plan, &stitched, drawing).expect_err("no room");
    let words = "no room is left between what is stitched on the top side for 1 repeat";
    assert!(error.to_string().contains(words), "{error}");
}

#[test]
fn ends_of_what_is_stitched_have_names_that_hold() {
    let plan = plan(CornerStyle::Mitred, Alternate::None, SQUARE);
    let solved = solve(&plan, drawing).expect("solved");
    let mut stitched = Stitched::default();
    let (corner, side) = (0, 1);
    let line = |piece: usize| solved.pieces[piece].lines()[0].clone();
    let repeats = line(side).ends.len() as f64;
    stitched
        .add_line(&solved, corner, line(corner), &[[0.0, 1.0]])
        .expect("taken down");
    // All repeats of the plan are alike, so shares of the length are shares of the repeats.
    let stretches = [[0.0, 1.0 / repeats], [2.0 / repeats, 3.5 / repeats]];
    stitched
        .add_line(&solved, side, line(side), &stretches)
        .expect("taken down");
    let ends: Vec<(LineEnd, Option<usize>, bool)> = (stitched.ends().iter())
        .map(|end| (end.end, end.repeat, end.within.is_some()))
        .collect();
    // The corner's end and the side's start meet, so neither is open.
    assert_eq!(
        ends,
        [
            (LineEnd::Start, None, false),
            (LineEnd::End, Some(1), false),
            (LineEnd::Start, Some(3), false),
            (LineEnd::End, Some(4), true),
        ]
    );
    let second = stitched.ends()[1].point;
    assert!((second - line(side).motif.points()[line(side).ends[0]]).norm() < 1e-9);
}

#[test]
fn nothing_is_taken_down_twice_and_all_is_taken_back() {
    let plan = plan(CornerStyle::Leg, Alternate::None, SQUARE);
    let solved = solve(&plan, drawing).expect("solved");
    let stitching = stitch_plan(&plan, &solved).expect("put in order");
    let mut stitched = Stitched::default();
    let mut before = Vec::new();
    for run in &stitching.runs {
        before.push(stitched.clone());
        assert!(!stitched.has(&solved, run).expect("known"));
        stitched.add(&solved, run).expect("taken down");
        assert!(stitched.has(&solved, run).expect("known"));
        let kept = stitched.clone();
        let twice = stitched.add(&solved, run).expect_err("twice");
        assert!(
            twice.to_string().contains(" is stitched already from "),
            "{twice}"
        );
        assert_eq!(stitched, kept);
    }
    assert!((stitched.length() - solved.length()).abs() < 1e-6);
    for (run, before) in stitching.runs.iter().zip(&before).rev() {
        stitched.remove(&solved, run).expect("taken back");
        assert!((stitched.length() - before.length()).abs() < 1e-6);
        assert!(!stitched.has(&solved, run).expect("known"));
    }
    assert_eq!(stitched, Stitched::default());
}
