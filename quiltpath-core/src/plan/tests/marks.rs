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
