//! Random corner drawings in an L, square and turned, read and held against how they were made.

use quiltpath_core::io::words;
use quiltpath_core::leg::{LegDoubt, LegGiven, LegShape, choose_leg, is_clear_l};
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::spec::*;
use quiltpath_core::plan::{FindingKind, PlanSpec, solve};
use quiltpath_core::strokes::{Drawing, OneLineOptions, Stroke};
use quiltpath_core::transform::{Mirror, Transform};
use quiltpath_tests::draw::border::border;
use quiltpath_tests::draw::corner::corner;
use quiltpath_tests::ells::{Ell, ell};

/// How many Ls are read.
const COUNT: u64 = 600;

/// Depths agree to within 2 %.
const DEPTH: f64 = 0.02;

/// One of the eight ways in which an L can lie on the page, each for all kinds.
fn lying(number: u64) -> Transform {
    let way = number / 5 % 8;
    let turn = Transform::rotate_degrees(90.0 * (way / 2) as f64);
    match way % 2 == 1 {
        true => Transform::mirror(Mirror::LeftRight).then(turn),
        false => turn,
    }
}

/// The line of an L after a map; every third runs the other way.
fn drawn(ell: &Ell, number: u64, map: &Transform) -> Motif {
    let motif = Motif::from_points("l", ell.points.clone()).expect("a line");
    let motif = motif.transformed(map).expect("an image");
    match number.is_multiple_of(3) {
        true => motif.reversed(),
        false => motif,
    }
}

fn read(motif: &Motif) -> LegShape {
    choose_leg(motif, &LegGiven::default()).expect("an L")
}

/// By how much the worse of both depths is off, as a part of it.
fn off(shape: &LegShape, ell: &Ell, number: u64) -> f64 {
    let (level, upright) = shape.standard_depths();
    let [mut first, mut second] = ell.depths;
    if number / 5 % 2 == 1 {
        // The mirror image of an L has its legs the other way round in the standard position.
        std::mem::swap(&mut first, &mut second);
    }
    (level / first - 1.0)
        .abs()
        .max((upright / second - 1.0).abs())
}

#[test]
fn square_ls_are_never_read_as_turned() {
    let (mut wrong, mut doubted) = (0, 0);
    for number in 0..COUNT {
        let ell = ell(number);
        let shape = read(&drawn(&ell, number, &lying(number)));
        assert_eq!(shape.turn_degrees, 0.0, "{number} {:?}", ell.kind);
        if off(&shape, &ell, number) > DEPTH {
            // What is read wrong is told.
            assert!(!shape.is_clear(), "{number} {:?} {shape:?}", ell.kind);
            wrong += 1;
        } else if ell.depths[0] == ell.depths[1] && !shape.is_clear() {
            doubted += 1;
        }
    }
    assert!(wrong <= COUNT / 100, "{wrong} of {COUNT} read wrong");
    assert!(doubted <= COUNT / 200, "{doubted} of {COUNT} doubted");
}

#[test]
fn turned_ls_are_laid_square_where_their_outline_shows_the_turn() {
    let (mut found, mut silent) = (0, 0);
    for number in 0..COUNT {
        let ell = ell(number);
        let size = 5.0 + 35.0 * (number * 7919 % 1000) as f64 / 1000.0;
        let degrees = if number.is_multiple_of(2) {
            size
        } else {
            -size
        };
        let map = lying(number).then(Transform::rotate_degrees(degrees));
        let shape = read(&drawn(&ell, number, &map));
        // To within quarter turns.
        let left = (shape.turn_degrees + degrees + 45.0).rem_euclid(90.0) - 45.0;
        let other = |doubt: &LegDoubt| matches!(doubt, LegDoubt::OtherTurn { .. });
        let told = shape.doubts.iter().any(other);
        if left.abs() < 3.0 {
            found += 1;
        } else if shape.turn_degrees != 0.0 {
            assert!(told, "{number} {:?} {left}", ell.kind);
        } else if !told {
            silent += 1;
        }
    }
    // Many of these drawings have a single crest on an outer line, which shows no turn.
    assert!(2 * found >= COUNT, "{found} of {COUNT} laid square");
    assert!(4 * silent <= COUNT, "{silent} of {COUNT} kept as they are");
}

#[test]
fn ls_are_told_from_repeats() {
    let unclear =
        (0..COUNT).filter(|&number| !is_clear_l(&drawn(&ell(number), number, &lying(number))));
    let unclear = unclear.count() as u64;
    assert!(unclear <= COUNT / 20, "{unclear} of {COUNT} are no clear L");
    let one_line = |path| {
        let drawing = Drawing::new("demo", vec![Stroke::new("demo", path)]);
        drawing
            .one_line(&OneLineOptions::default())
            .expect("a line")
            .motif
    };
    let repeat = one_line(border());
    assert!(!is_clear_l(&repeat) && !is_clear_l(&repeat.reversed()));
    assert!(is_clear_l(&one_line(corner())));
    // Waves that end at any height.
    for number in 0..COUNT {
        let at = |step: u32| {
            let u = f64::from(step) / 100.0;
            let share = number as f64 / COUNT as f64;
            let turn = std::f64::consts::TAU * (u * (1.0 + (number % 4) as f64) + share);
            (
                3.0 * u,
                turn.sin() + (2.0 * turn + share).cos() / 2.0 + (share - 0.5) * u,
            )
        };
        let wave = Motif::try_from((0..=100).map(at).collect::<Vec<_>>()).expect("a line");
        assert!(!is_clear_l(&wave), "{number}");
    }
}

/// A plan with this drawing at its corners, in millimetres.
fn planned(motif: &Motif) -> Vec<String> {
    let wave = [(0.0, 1.0), (1.0, 0.0), (3.0, 2.0), (4.0, 1.0)];
    let wave = Motif::try_from(wave.to_vec()).expect("a line");
    let corners = CornerSpec::new(CornerStyle::Leg).with_motif("corner");
    let border = BorderSpec::new(150.0, corners, SideSpec::new("side"));
    let quilt = QuiltSpec::rectangle(2000.0, 2500.0);
    let spec = PlanSpec::new(UnitSpec::Mm, quilt).with_borders([border]);
    let solved = solve(&spec, |request| {
        let motif = if request.name == "corner" {
            motif
        } else {
            &wave
        };
        Ok(motif.clone().into())
    })
    .expect("solved");
    let unclear = solved
        .findings
        .iter()
        .filter(|found| matches!(found.kind, FindingKind::LegUnclear { .. }));
    unclear
        .map(|found| words::finding(found, &solved))
        .collect()
}

#[test]
fn a_doubtful_turn_shows_both_readings_and_the_key() {
    // Triangles on a stem, in an L turned by 20 degrees; one tip reaches the outer line of each
    // leg.
    let ell = [
        (1.0, 9.0),
        (1.0, 8.0),
        (0.0, 7.5),
        (1.0, 7.0),
        (2.0, 6.5),
        (1.0, 6.0),
        (1.0, 3.5),
        (0.08, 3.0),
        (1.0, 2.5),
        (1.0, 1.0),
        (2.5, 1.0),
        (3.0, 0.08),
        (3.5, 1.0),
        (6.0, 1.0),
        (6.5, 2.0),
        (7.0, 1.0),
        (7.5, 0.0),
        (8.0, 1.0),
        (9.0, 1.0),
    ];
    let motif = Motif::try_from(ell.to_vec()).expect("a line");
    assert_eq!(planned(&motif), [] as [&str; 0]);
    let turned = motif
        .transformed(&Transform::rotate_degrees(20.0))
        .expect("an image");
    let found = planned(&turned);
    assert_eq!(
        found,
        [
            "line: it is read as it is drawn, judged from its outline alone; read after a turn of \
             -20 degrees, its level leg would be 33 % less deep and its upright leg 10 % less \
             deep; give \"turn_degrees\" under \"leg\", 0 to keep it so or -20"
        ]
    );
}
