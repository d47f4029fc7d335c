//! The marks of passes: which are taken, and how well lines are known by them.

use super::*;
use crate::align::cloth::{Dice, border as places, cloth};
use crate::align::{Reading, align};
use crate::geom::Vector;

/// The passes of the usual quilt with leg corners, of 60 x 80 in, with a throat of 16 in.
fn stitched() -> (Solved, Stitching) {
    let mut spec = spec(CornerStyle::Leg);
    spec.machine = Some(MachineSpec::default().with_throat(inches(16.0)));
    let solved = solve_with(&spec, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    let stitching = stitch_plan(&spec, &solved).expect("stitched");
    (solved, stitching)
}

#[test]
fn a_pass_has_four_to_eight_marks_in_its_window_and_every_end_that_it_goes_on_from() {
    let (_, stitching) = stitched();
    assert!(stitching.passes.len() > 4);
    let mut earlier: Vec<Point> = Vec::new();
    for (number, pass) in stitching.passes.iter().enumerate() {
        let met = pass.marks.iter().filter(|mark| mark.is_met()).count();
        assert!(
            (4..=8.max(met)).contains(&pass.marks.len()),
            "{number}: {:?}",
            pass.marks
        );
        for mark in &pass.marks {
            let y = pass.to_machine.apply(mark.point).y;
            assert!(
                (-1e-6..=16.0 * INCH + 1e-6).contains(&y),
                "{number}: {mark:?}"
            );
        }
        let runs = &stitching.runs[pass.runs.clone()];
        for run in runs {
            for end in [run.motif.start().point, run.motif.end().point] {
                let stitched = earlier.iter().any(|other| (other - end).norm() < 1e-6);
                let marked = |mark: &&Mark| (mark.point - end).norm() < 1e-6;
                let own: Vec<&Mark> = pass.marks.iter().filter(marked).collect();
                assert_eq!(own.len(), usize::from(stitched), "{number}: {end}");
                assert!(own.iter().all(|mark| mark.is_met()));
            }
        }
        earlier.extend(
            runs.iter()
                .flat_map(|run| [run.motif.start().point, run.motif.end().point]),
        );
        for (at, one) in pass.marks.iter().enumerate() {
            assert!(
                pass.marks[..at]
                    .iter()
                    .all(|other| other.point != one.point)
            );
        }
    }
    // The left side goes up: what is stitched first of it is its end.
    let ends = stitching.passes[2]
        .marks
        .iter()
        .filter_map(|mark| match mark.kind {
            MarkKind::LineEnd(end) => Some((end.piece, end.at, end.of)),
            _ => None,
        });
    let ends: Vec<_> = ends.collect();
    assert_eq!(ends.len(), 2, "{ends:?}");
    for (piece, at, of) in ends {
        assert!(
            matches!(piece, MarkedPiece::Side(side) if side == Side::LEFT || side == Side::RIGHT)
        );
        assert!(at.fract() == 0.0 && at > 0.0 && at < of as f64);
    }
}

/// The corners that a pass stitches, with what is near each.
fn corners_of(solved: &Solved, stitching: &Stitching, pass: usize) -> Vec<(Mark, f64)> {
    let runs = &stitching.runs[stitching.passes[pass].runs.clone()];
    let mut found = Vec::new();
    for part in runs.iter().flat_map(|run| &run.parts) {
        let piece = &solved.pieces[part.piece];
        if let PieceKind::Corner(detail) = &piece.kind {
            let (line, corner) = (MarkLine::Seam(piece.border), detail.position);
            let band = &solved.layouts[piece.border].band;
            let seam = band.seam.corners()[corner.index()];
            let outer = band.edge.corners()[corner.index()];
            let line_of = piece.points().map(|point| (point - seam).norm());
            let near = line_of.fold((outer - seam).norm(), f64::max);
            found.push((Mark::new(MarkKind::Corner { line, corner }, seam), near));
        }
    }
    found
}

#[test]
fn each_corner_that_is_stitched_by_itself_has_its_seam_corner_and_another_mark_near_it() {
    let mut two = spec(CornerStyle::Leg);
    let mut inner = two.borders[0].clone();
    inner.width = BySide::One(inches(4.0));
    two.borders.push(inner);
    let mut narrow = spec(CornerStyle::Leg);
    narrow.borders[0].width = BySide::One(inches(3.0));
    for (spec, throat, most) in [
        (spec(CornerStyle::Leg), Some(16.0), 8),
        (spec(CornerStyle::Mitred), Some(16.0), 8),
        (narrow, Some(12.0), 8),
        // Four corners in one window, then eight.
        (spec(CornerStyle::Leg), None, 8),
        (two.clone(), Some(18.0), 8),
        (two, None, 16),
    ] {
        let mut spec = spec.with_order(OrderSpec::CornersFirst);
        let machine = throat.map(|inch| MachineSpec::default().with_throat(inches(inch)));
        spec.machine = machine;
        let solved = solve_with(&spec, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
        let stitching = stitch_plan(&spec, &solved).expect("stitched");
        let mut corners = 0;
        for (number, pass) in stitching.passes.iter().enumerate() {
            let own = corners_of(&solved, &stitching, number);
            corners += own.len();
            let met = pass.marks.iter().filter(|mark| mark.is_met()).count();
            assert!(
                pass.marks.len() <= most.max(met),
                "{number}: {:?}",
                pass.marks
            );
            for (seam, near) in own {
                let away = |mark: &&Mark| (mark.point - seam.point).norm() <= near * (1.0 + 1e-9);
                let marks: Vec<&Mark> = pass.marks.iter().filter(away).collect();
                assert!(marks.contains(&&seam), "{throat:?}, {number}: {marks:?}");
                assert!(marks.len() >= 2, "{throat:?}, {number}: {marks:?}");
                // What is near, but all of one place, would say nothing of a turn.
                let apart = marks.iter().map(|mark| (mark.point - seam.point).norm());
                assert!(apart.fold(0.0, f64::max) > 0.25 * near, "{marks:?}");
            }
        }
        assert_eq!(corners, 4 * spec.borders.len());
    }
}

/// The bound asked for: at most 0.15 in the worst twentieth of cloths.
#[test]
fn the_marks_of_the_first_pass_say_where_the_border_lies() {
    let (_, stitching) = stitched();
    let marks = &stitching.passes[0].marks;
    assert!(marks.len() <= 8);
    let border = places();
    let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
    let (mut mean, mut worst) = (0.0, Vec::new());
    for _ in 0..400 {
        let cloth = cloth(&mut dice);
        let readings = marks.iter().enumerate().map(|(at, mark)| {
            let noise = Vector::new(dice.normal(1.0), dice.normal(1.0)) * mark.noise() / 2.0;
            let read = cloth(mark.point) + noise;
            Reading::new(at.to_string(), mark.point, read).with_noise(mark.noise())
        });
        let map = align(&readings.collect::<Vec<_>>()).expect("a map").map;
        let off = border
            .iter()
            .map(|&place| (map.map(place) - cloth(place)).norm() / INCH);
        let off: Vec<f64> = off.collect();
        mean += off.iter().sum::<f64>() / off.len() as f64 / 400.0;
        worst.push(off.into_iter().fold(0.0, f64::max));
    }
    worst.sort_by(f64::total_cmp);
    println!(
        "{} marks: mean {mean:.3} in, worst twentieth {:.3} in",
        marks.len(),
        worst[380]
    );
    assert!(
        mean < 0.04 && worst[380] <= 0.15,
        "{mean} {} {marks:?}",
        worst[380]
    );
}
