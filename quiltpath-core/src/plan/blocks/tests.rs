//! Fields of blocks, solved whole: places by their closed forms, lines that stay in them and join,
//! and what is refused.
//!
//! Yields of lattices and settings are geometry; on point, the way to cut the triangles is common
//! practice.

use proptest::prelude::*;

use super::pairs::{Passes, pairs, sash_of};
use crate::Error;
use crate::geom::Point;
use crate::motif::Motif;
use crate::plan::lay::field::{FieldKind, FieldPlace, Lie, Measures, Setting, Slot};
use crate::plan::piece::{FieldDetail, PieceKind};
use crate::plan::spec::{
    BlocksSpec, BorderSpec, CornerSpec, CornerStyle, DesignSpec, LengthSpec, QuiltSpec,
    SashingSpec, SideSpec, TrianglesSpec, UnitSpec,
};
use crate::plan::{MotifRequest, PlanSpec, Solved, solve, stitch_plan};
use crate::strokes::Drawing;

fn motif(name: &str, points: &[(f64, f64)]) -> Drawing {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Motif::from_points(name, points).expect("a motif").into()
}

/// A wave for sides and sashes, a ring for blocks, and two cornerstones: straight on, and turning.
fn drawing(asked: &MotifRequest) -> Result<Drawing, Error> {
    Ok(match asked.name.as_str() {
        "wave" => motif("wave", &[(0.0, 1.0), (1.0, 0.0), (3.0, 2.0), (4.0, 1.0)]),
        "straight" => motif(
            "straight",
            &[(0.0, 1.0), (1.0, 0.0), (1.2, 1.5), (0.8, 2.0), (2.0, 1.0)],
        ),
        "turning" => motif("turning", &[(0.0, 1.0), (0.5, 0.4), (2.0, 0.5), (1.0, 2.0)]),
        _ => {
            let ring = (0..=24).map(|k| {
                let (sin, cos) = (f64::from(k % 24) / 24.0 * std::f64::consts::TAU).sin_cos();
                (5.0 + 5.0 * cos, 5.0 + 5.0 * sin)
            });
            motif("ring", &ring.collect::<Vec<_>>())
        }
    })
}

fn quilt(width: f64, height: f64, blocks: BlocksSpec) -> PlanSpec {
    let side = SideSpec::new("wave".to_owned());
    let border = BorderSpec::new(4.0, CornerSpec::new(CornerStyle::Mitred), side);
    PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(width, height))
        .with_borders([border])
        .with_blocks(blocks)
}

fn solved(plan: &PlanSpec) -> Result<Solved, Error> {
    solve(plan, drawing)
}

fn details(solved: &Solved) -> impl Iterator<Item = (usize, &FieldDetail)> {
    let pieces = solved.pieces.iter().enumerate();
    pieces.filter_map(|(at, piece)| match &piece.kind {
        PieceKind::Field(detail) => Some((at, &**detail)),
        _ => None,
    })
}

/// How far a point lies outside a convex polygon whose corners go clockwise as seen.
fn outside(corners: &[Point], point: Point) -> f64 {
    let next = corners.iter().cycle().skip(1);
    let sides = corners.iter().zip(next);
    sides
        .map(|(from, to)| (to - from).normalize().perp(&(from - point)))
        .fold(f64::NEG_INFINITY, f64::max)
}

fn area(corners: &[Point]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    let twice: f64 = corners
        .iter()
        .zip(next)
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum();
    twice.abs() / 2.0
}

fn inches(lengths: &[f64]) -> Vec<LengthSpec> {
    lengths.iter().map(|&length| length.into()).collect()
}

/// Every line in its place, every join closed, sashes of one length with one number of repeats.
fn check(solved: &Solved) -> Result<(), TestCaseError> {
    let mut lengths: Vec<(f64, usize)> = Vec::new();
    for (at, detail) in details(solved) {
        let within = detail.within.corners();
        for point in solved.pieces[at].points() {
            prop_assert!(outside(within, point) < 1e-6, "{}", detail.place);
        }
        if let Some(sash) = &detail.sash {
            let [a, b, c] = [0, 1, 2].map(|corner| detail.seams[corner]);
            let length = if detail.place.runs_across() {
                (b - a).norm()
            } else {
                (c - b).norm()
            };
            let repeats = sash.fit.chosen.repeats;
            let known = lengths
                .iter()
                .find(|(known, _)| (known - length).abs() < 1e-6);
            prop_assert_eq!(known.map_or(repeats, |(_, number)| *number), repeats);
            lengths.push((length, repeats));
        }
    }
    let first = solved
        .pieces
        .iter()
        .position(|piece| matches!(piece.kind, PieceKind::Field(_)));
    for join in solved.joins.iter().filter(|join| Some(join.from) >= first) {
        prop_assert!(join.gap < 1e-9, "{join:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    #[test]
    fn a_straight_field_has_its_places_and_lines_that_stay_in_them(
        heights in prop::collection::vec(6.0..14.0f64, 1..5),
        widths in prop::collection::vec(6.0..14.0f64, 1..5),
        sash in 1.5..3.0f64,
        outer: bool,
        turning: bool,
        cornerstones: bool,
        slack in 0.0..0.4f64,
    ) {
        let (rows, columns) = (heights.len(), widths.len());
        let mut sashing = SashingSpec::new(sash, SideSpec::new("wave".to_owned()))
            .with_outer(outer)
            .with_cornerstones(cornerstones)
            .with_slack(slack);
        if cornerstones {
            let name = if turning { "turning" } else { "straight" };
            sashing = sashing.with_cornerstone(DesignSpec::new(name));
        }
        let blocks = BlocksSpec::new(rows, columns)
            .with_lists(inches(&heights), inches(&widths))
            .with_block(DesignSpec::new("ring"))
            .with_lie(Lie::Pinwheel)
            .with_sashing(sashing);
        let solved = solved(&quilt(90.0, 90.0, blocks)).expect("solved");
        check(&solved)?;
        let spots = &solved.field().expect("a field").spots;
        let count = |kind| spots.iter().filter(|spot| spot.place.kind == kind).count();
        prop_assert_eq!(count(FieldKind::Block), rows * columns);
        let crossings = match (cornerstones, outer) {
            (false, _) => 0,
            (true, true) => (rows + 1) * (columns + 1),
            (true, false) => (rows - 1) * (columns - 1),
        };
        prop_assert_eq!(count(FieldKind::Cornerstone), crossings);
        // Between rows, then between columns.
        let [across, up] = match outer {
            true => [(rows + 1) * columns, rows * (columns + 1)],
            false => [(rows - 1) * columns, rows * (columns - 1)],
        };
        let across = if cornerstones { across } else { across / columns };
        prop_assert_eq!(count(FieldKind::Sash), across + up);
        // Blocks lie where heights, widths and sashes add up to, about the middle of the quilt.
        let sashes = |count: usize| sash * (if outer { count + 1 } else { count - 1 }) as f64;
        let size = [widths.iter().sum::<f64>() + sashes(columns), heights.iter().sum::<f64>() + sashes(rows)];
        let start = |at: usize, lengths: &[f64], size: f64| {
            let before = if outer { at + 1 } else { at } as f64;
            45.0 - size / 2.0 + lengths[..at].iter().sum::<f64>() + sash * before
        };
        for spot in spots.iter().filter(|spot| spot.place.kind == FieldKind::Block) {
            let (Slot::In(row), Slot::In(column)) = (spot.place.row, spot.place.column) else {
                panic!("a block between rows");
            };
            let wanted = Point::new(start(column - 1, &widths, size[0]), start(row - 1, &heights, size[1]));
            prop_assert!((spot.corners[0] - wanted * 25.4).norm() < 1e-9);
        }
        let whole: f64 = spots.iter().map(|spot| area(&spot.corners)).sum();
        prop_assert!((whole / 645.16 - size[0] * size[1]).abs() < 1e-6);
    }

    #[test]
    fn a_field_on_point_has_its_places_and_lines_that_stay_in_them(
        rows in 1..6usize,
        columns in 1..6usize,
        side in 4.0..9.0f64,
        alternate: bool,
    ) {
        let blocks = BlocksSpec::new(rows, columns)
            .with_size(side)
            .with_setting(Setting::OnPoint)
            .with_block(DesignSpec::new("ring"))
            .with_lie(if alternate { Lie::Alternate } else { Lie::AsIs });
        let solved = solved(&quilt(90.0, 90.0, blocks)).expect("solved");
        check(&solved)?;
        let spots = &solved.field().expect("a field").spots;
        let count = |kind| spots.iter().filter(|spot| spot.place.kind == kind).count();
        prop_assert_eq!(count(FieldKind::Block), rows * columns + (rows - 1) * (columns - 1));
        prop_assert_eq!(count(FieldKind::SideTriangle), 2 * (rows + columns - 2));
        prop_assert_eq!(count(FieldKind::CornerTriangle), 4);
        let across = side * 2.0_f64.sqrt();
        for spot in spots {
            let inches = area(&spot.corners) / 645.16;
            let wanted = match spot.place.kind {
                FieldKind::Block => side * side,
                // A quarter of a square of the block's diagonal; half of one of half of that.
                FieldKind::SideTriangle => across * across / 4.0,
                _ => (side / 2.0_f64.sqrt()).powi(2) / 2.0,
            };
            prop_assert!((inches - wanted).abs() < 1e-6, "{}", spot.place);
        }
        let whole: f64 = spots.iter().map(|spot| area(&spot.corners)).sum();
        let size = across * across * (rows * columns) as f64;
        prop_assert!((whole / 645.16 - size).abs() < 1e-6);
    }
}

/// The places of a lattice.
fn lattice(rows: usize, columns: usize, outer: bool) -> [Vec<FieldPlace>; 2] {
    let measures = Measures {
        setting: Setting::Straight,
        heights: vec![10.0; rows],
        widths: vec![10.0; columns],
        sash: 2.0,
        outer,
        cornerstones: true,
    };
    let spots = measures.spots(Point::origin());
    [FieldKind::Cornerstone, FieldKind::Sash].map(|kind| {
        let own = spots.iter().filter(|spot| spot.place.kind == kind);
        own.map(|spot| spot.place).collect()
    })
}

/// How many lines a choice of ways makes: what hangs together, sashes and cornerstones alike.
fn lines(corners: &[FieldPlace], sashes: &[FieldPlace], chosen: &[Vec<usize>]) -> usize {
    let mut group: Vec<usize> = (0..sashes.len() + corners.len()).collect();
    let mut count = group.len();
    for (at, ways) in chosen.iter().enumerate() {
        for &way in ways {
            let sash = sash_of(corners[at], way);
            let sash = sashes
                .iter()
                .position(|other| *other == sash)
                .expect("a sash");
            count -= usize::from(crate::graph::unite(&mut group, [sash, sashes.len() + at]));
        }
    }
    count
}

/// Cornerstones, sashes, and of each cornerstone the ways that it may join.
type Lattice<'a> = (&'a [FieldPlace], &'a [FieldPlace], Vec<Vec<Vec<usize>>>);

/// The fewest lines of all choices: depth first, stopped where no choice of the rest can do better.
fn fewest(corners: &[FieldPlace], sashes: &[FieldPlace], passes: Passes) -> usize {
    let there = |corner: FieldPlace, way: usize| sashes.contains(&sash_of(corner, way));
    let ways = |corner: FieldPlace| {
        let mut all: Vec<Vec<usize>> = Vec::new();
        for one in (0..4).filter(|&way| there(corner, way)) {
            all.push(vec![one]);
            for other in (one + 1..4).filter(|&way| there(corner, way)) {
                let straight = other - one == 2;
                if straight == (passes == Passes::Straight) {
                    all.push(vec![one, other]);
                }
            }
        }
        all.sort_by_key(|ways| std::cmp::Reverse(ways.len()));
        all
    };
    fn search(at: usize, known: &Lattice<'_>, chosen: &mut Vec<Vec<usize>>, best: &mut usize) {
        let (corners, sashes, choices) = known;
        // At best every cornerstone that is left joins two sashes and closes no ring.
        let rest = 2 * (corners.len() - at);
        let mut so_far = chosen.clone();
        so_far.resize(corners.len(), Vec::new());
        let count = lines(corners, sashes, &so_far);
        if count < *best && at == corners.len() {
            *best = count;
        }
        if at == corners.len() || count.saturating_sub(rest) >= *best {
            return;
        }
        for ways in &choices[at] {
            chosen.push(ways.clone());
            search(at + 1, known, chosen, best);
            chosen.pop();
        }
    }
    let choices = corners.iter().map(|&corner| ways(corner)).collect();
    let mut best = usize::MAX;
    search(0, &(corners, sashes, choices), &mut Vec::new(), &mut best);
    best
}

#[test]
fn the_lines_of_a_lattice_are_the_fewest_up_to_four_by_four() {
    for rows in 1..=4 {
        for columns in 1..=4 {
            for outer in [false, true] {
                let [corners, sashes] = lattice(rows, columns, outer);
                for passes in [Passes::Straight, Passes::Turning] {
                    let chosen = pairs(&corners, &sashes, passes);
                    let count = lines(&corners, &sashes, &chosen);
                    let joins: usize = chosen.iter().map(Vec::len).sum();
                    // Without a ring nothing is left to gain but more joins.
                    let bound = corners.len() + sashes.len() - joins;
                    let all_two = chosen.iter().all(|ways| ways.len() == 2);
                    if count == bound && all_two {
                        continue;
                    }
                    let what = format!("{rows} x {columns}, {outer}, {passes:?}");
                    assert_eq!(count, fewest(&corners, &sashes, passes), "{what}");
                }
            }
        }
    }
}

#[test]
fn names_of_places_are_read_as_they_are_written() {
    for (setting, sash) in [(Setting::Straight, 2.0), (Setting::OnPoint, 0.0)] {
        for cornerstones in [true, false] {
            let measures = Measures {
                setting,
                heights: vec![10.0; 3],
                widths: vec![10.0; 12],
                sash,
                outer: true,
                cornerstones,
            };
            for spot in measures.spots(Point::origin()) {
                assert_eq!(FieldPlace::named(&spot.place.to_string()), Some(spot.place));
            }
        }
    }
    for wrong in [
        "block",
        "block r1",
        "block r1 c1 c2",
        "sash r1-r3 c1",
        "blocks r1 c1",
        "",
    ] {
        let place = FieldPlace::named(wrong).map(|place| place.to_string());
        assert!(place.is_none_or(|place| place == "block r1"), "{wrong}");
    }
}

#[test]
fn what_can_not_be_is_refused_with_what_would_do() {
    let message = |blocks: BlocksSpec| {
        let error = solved(&quilt(60.0, 80.0, blocks)).expect_err("refused");
        error.to_string()
    };
    let ring = || DesignSpec::new("ring");
    let four = |size: f64| BlocksSpec::new(4, 4).with_size(size).with_block(ring());
    let large = message(four(13.5));
    assert!(
        large.contains("54 in by 54 in") && large.contains("1 in outside"),
        "{large}"
    );
    assert!(message(BlocksSpec::new(0, 4).with_block(ring())).contains("no rows of blocks"));
    assert!(message(BlocksSpec::new(4, 4)).contains("blocks have no drawing"));
    let wave = || SideSpec::new("wave".to_owned());
    let sashed = |width: f64| four(9.0).with_sashing(SashingSpec::new(width, wave()));
    assert!(message(sashed(9.5)).contains("not narrower than the blocks, 9 in"));
    assert!(message(sashed(0.4)).contains("gaps"));
    let on_point = || four(5.0).with_setting(Setting::OnPoint);
    let sashing = SashingSpec::new(2.0, wave());
    assert!(message(on_point().with_sashing(sashing)).contains("setting straight only"));
    let triangles = TrianglesSpec::default().with_plain(true);
    assert!(message(four(9.0).with_triangles(triangles)).contains("setting on_point only"));
    let many = message(BlocksSpec::new(200, 200).with_block(ring()));
    assert!(many.contains("50000 is the most"), "{many}");
    let lists = BlocksSpec::new(2, 2).with_lists(inches(&[9.0]), inches(&[9.0, 9.0]));
    assert!(message(lists.with_block(ring())).contains("list of heights has 1 for 2 rows"));
}

#[test]
fn a_field_without_borders_keeps_from_the_raw_edge() {
    let blocks = BlocksSpec::new(3, 3).with_block(DesignSpec::new("ring"));
    let plan = PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(36.0, 36.0)).with_blocks(blocks);
    let solved = solved(&plan).expect("solved");
    let bounds = solved.pieces.iter().map(crate::plan::Piece::bounds);
    let all = bounds
        .reduce(|one, other| one.union(&other))
        .expect("pieces");
    assert!((all.min.x - 12.7).abs() < 1e-6 && (all.max.y - 35.5 * 25.4).abs() < 1e-6);
    assert!(solved.findings.is_empty(), "{:?}", solved.findings);
}

#[test]
fn what_is_stitched_of_the_blocks_stays_or_is_refused() {
    let sashing = SashingSpec::new(2.0, SideSpec::new("wave".to_owned()))
        .with_cornerstone(DesignSpec::new("straight"));
    let blocks = BlocksSpec::new(3, 3)
        .with_size(10.0)
        .with_block(DesignSpec::new("ring"))
        .with_sashing(sashing);
    let plan = quilt(60.0, 60.0, blocks);
    let before = solved(&plan).expect("solved");
    let runs = stitch_plan(&plan, &before).expect("stitched").runs;
    let mut stitched = crate::plan::Stitched::default();
    let field = |run: &&crate::plan::PlannedRun| {
        let piece = &before.pieces[run.parts[0].piece];
        matches!(piece.kind, PieceKind::Field(_))
    };
    let own: Vec<_> = runs.iter().filter(field).collect();
    stitched.add(&before, own[0]).expect("added");
    stitched
        .add_between(&before, own[own.len() - 1], [0.0, 100.0])
        .expect("added");
    // The borders change, and the field moves as a whole.
    let mut other = plan.clone();
    other.quilt = QuiltSpec::rectangle(62.0, 60.0);
    let after = crate::plan::solve_around(&other, &stitched, drawing).expect("solved");
    assert!((after.stitched_length() - stitched.length()).abs() < 1e-6);
    assert!(
        after
            .findings
            .iter()
            .any(|finding| finding.code() == "blocks_kept")
    );
    // Blocks of another size are others.
    let mut other = plan.clone();
    other.blocks = other.blocks.map(|blocks| blocks.with_size(10.5));
    let refused = crate::plan::solve_around(&other, &stitched, drawing).expect_err("refused");
    assert!(
        refused.to_string().contains("has begun to be stitched"),
        "{refused}"
    );
}
