//! Passes laid on cloths that are turned, pulled and bowed.

use nalgebra::{Matrix2, Rotation2};

use super::*;
use crate::align::cloth::Dice;
use crate::error::Error;
use crate::geom::{Point, Vector};
use crate::motif::Motif;
use crate::plan::spec::{
    BorderSpec, CornerSpec, CornerStyle, MachineSpec, QuiltSpec, SideSpec, UnitSpec,
};
use crate::plan::tests::{corner, wave};
use crate::plan::{Mark, PlanSpec, Severity, Side, Solved, Stitching, solve, stitch_plan};

const INCH: f64 = 25.4;

/// A repeat, and an L, whose ends are in mid height.
fn load(name: &str) -> Result<Motif, Error> {
    Ok(match name {
        "corner" => corner(0.5, 0.5),
        _ => wave(0.5),
    })
}

fn spec() -> PlanSpec {
    let mut corner = CornerSpec::new(CornerStyle::Leg);
    corner.motif = Some("corner".to_owned());
    let border = BorderSpec::new(6.0, corner, SideSpec::new("side"));
    PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(60.0, 80.0))
        .with_borders([border])
        .with_machine(MachineSpec::default().with_throat(16.0))
}

fn planned(spec: &PlanSpec) -> (Solved, Stitching) {
    let solved = solve(spec, |asked| Ok(load(&asked.name)?.into())).expect("solved");
    let stitching = stitch_plan(spec, &solved).expect("stitched");
    (solved, stitching)
}

/// Readings of the marks of a pass on a cloth, given as a map of the plan on the machine.
fn readings(
    stitching: &Stitching,
    pass: usize,
    cloth: impl Fn(Point) -> Point,
) -> Vec<MarkReading> {
    let planned = &stitching.passes[pass];
    let read = |(at, mark): (usize, &Mark)| {
        let read = cloth(planned.to_machine.apply(mark.point));
        MarkReading::new(crate::plan::mark_letter(at), *mark, read)
    };
    planned.marks.iter().enumerate().map(read).collect()
}

fn laying(spec: &PlanSpec, pass: usize, cloth: impl Fn(Point) -> Point) -> Laying {
    let (solved, stitching) = planned(spec);
    let readings = readings(&stitching, pass, cloth);
    let load = |asked: &crate::plan::MotifRequest| Ok(load(&asked.name)?.into());
    lay_and_refit(spec, (&solved, &stitching), pass, &readings, load).expect("laid")
}

#[test]
fn every_pass_lies_where_the_cloth_does_and_its_joins_stay_closed() {
    let spec = spec();
    let (solved, stitching) = planned(&spec);
    let mut dice = Dice(77);
    for pass in 0..stitching.passes.len() {
        let turn = Rotation2::new(dice.normal(0.01));
        let pulled = Matrix2::new(1.004, 0.002, -0.001, 0.997);
        let by = Vector::new(dice.normal(40.0), dice.normal(40.0));
        let cloth = |point: Point| turn * (pulled * point) + by;
        let laid = laying(&spec, pass, cloth);
        assert!(laid.refitted.is_empty() && laid.findings.is_empty());
        let planned = &stitching.passes[pass];
        for run in &laid.laid.runs {
            let before = &stitching.runs[run.number].motif;
            for (ends, was) in [
                (run.motif.start().point, before.start().point),
                (run.motif.end().point, before.end().point),
            ] {
                assert!((ends - cloth(planned.to_machine.apply(was))).norm() < 1e-6);
            }
            if run.planned.closed {
                assert_eq!(run.motif.start().point, run.motif.end().point);
            }
        }
        let (found, near) = judge(&solved, &stitching, &laid.laid).expect("judged");
        assert!(
            found.iter().all(|one| one.severity < Severity::Error),
            "{found:?}"
        );
        assert_eq!(near.len(), 1);
        // The band as planned: 1/4 in from the seam, 1/2 in from the edge; as touched the same.
        assert!((near[0].seam - INCH / 4.0).abs() < 0.05, "{near:?}");
        assert!((near[0].edge - INCH / 2.0).abs() < 0.05, "{near:?}");
    }
}

#[test]
fn a_side_that_lies_far_too_long_gets_another_number_of_repeats() {
    let mut spec = spec();
    spec.max_stretch_percent = Some(3.0);
    let (solved, stitching) = planned(&spec);
    let before = load("side").expect("a motif");
    let cloth = |point: Point| Point::new(1.2 * point.x, point.y);
    let laid = laying(&spec, 0, cloth);
    let [side] = laid.refitted[..] else {
        panic!("{:?} {:?}", laid.refitted, laid.findings)
    };
    assert_eq!(side.side, Side::TOP);
    assert!(side.repeats[1] > side.repeats[0], "{side:?}");
    assert!(side.stretch[1].ln().abs() < side.stretch[0].ln().abs());
    let points = |solved: &Solved| -> usize {
        let own = solved
            .pieces
            .iter()
            .filter(|piece| piece.name == "border-side-top");
        own.map(|piece| piece.points().count()).sum()
    };
    let more = (side.repeats[1] - side.repeats[0]) * (before.points().len() - 1);
    assert_eq!(points(&laid.solved), points(&solved) + more);
    // The run still starts and ends where it did, and goes on from piece to piece.
    for run in &laid.laid.runs {
        let was = &stitching.runs[run.number].motif;
        let is = &run.planned.motif;
        assert!((is.start().point - was.start().point).norm() < 1e-9);
        assert!((is.end().point - was.end().point).norm() < 1e-9);
        let pieces = run
            .planned
            .parts
            .iter()
            .map(|part| laid.solved.pieces[part.piece].length());
        assert!((is.length() - pieces.sum::<f64>()).abs() < 1e-9);
        let has = run
            .planned
            .parts
            .iter()
            .any(|part| part.repeats == Some([1, side.repeats[1]]));
        assert!(has, "{:?}", run.planned.parts);
    }
    // A number that the plan gives is kept, and said.
    spec.borders[0].side.repeats = Some(crate::plan::spec::BySide::One(side.repeats[0]));
    let laid = laying(&spec, 0, cloth);
    assert!(laid.refitted.is_empty());
    let kept = |one: &LaidFinding| matches!(one.kind, LaidFindingKind::SideStretched { side, .. } if side == Side::TOP);
    assert!(laid.findings.iter().any(kept), "{:?}", laid.findings);
}

#[test]
fn a_seam_touched_elsewhere_is_told_from_the_lines() {
    let spec = spec();
    let (solved, stitching) = planned(&spec);
    let mut readings = readings(&stitching, 0, |point| point);
    // The seam lies 3/8 in nearer to the top edge in one place, which the map smooths away in part.
    let on_seam = |one: &&mut MarkReading| (one.mark.point.y - 6.0 * INCH).abs() < 1.0;
    let moved = readings
        .iter_mut()
        .find(on_seam)
        .expect("a mark on the seam");
    moved.read.y -= 0.375 * INCH;
    let laid = lay_pass(&solved, &stitching, 0, &readings).expect("laid");
    let (found, near) = judge(&solved, &stitching, &laid).expect("judged");
    assert!(near[0].seam < 0.2 * INCH, "{near:?} {found:?}");
}

#[test]
fn what_no_cloth_does_is_refused_with_a_guess() {
    let spec = spec();
    let (solved, stitching) = planned(&spec);
    let lay = |cloth: &dyn Fn(Point) -> Point, count: usize| {
        let mut readings = readings(&stitching, 0, cloth);
        readings.truncate(count);
        lay_pass(&solved, &stitching, 0, &readings)
    };
    for count in [2, 4] {
        let error = lay(&|point| point / 25.4, count)
            .expect_err("inches")
            .to_string();
        assert!(
            error.contains("inches where millimetres were meant"),
            "{error}"
        );
    }
    assert!(lay(&|point| point, 0).expect_err("none").is_align());
    let mirrored = lay(&|point| Point::new(point.x, -point.y), 6).expect("laid");
    assert!(mirrored.strain.mirrored);
    let (found, _) = judge(&solved, &stitching, &mirrored).expect("judged");
    assert!(
        found
            .iter()
            .any(|one| one.kind == LaidFindingKind::Mirrored),
        "{found:?}"
    );
    let one = lay(&|point| point, 1).expect("laid");
    let (found, _) = judge(&solved, &stitching, &one).expect("judged");
    assert_eq!(found[0].kind, LaidFindingKind::OneReading);
    assert!(
        lay_pass(&solved, &stitching, 99, &[])
            .expect_err("no pass")
            .to_string()
            .contains("pass")
    );
}

/// The way it is done by hand: the start and the end of a side's span are touched, and nothing
/// else.
#[test]
fn two_readings_fit_a_side_between_them_exactly() {
    let spec = spec();
    let (solved, stitching) = planned(&spec);
    let marks = readable_marks(&solved, &stitching, 0).expect("marks");
    let turn = Rotation2::new(0.02);
    let cloth = |point: Point| turn * (1.008 * point) + Vector::new(30.0, -12.0);
    let to_machine = stitching.passes[0].to_machine;
    let name = |mark: &Mark| crate::io::words::mark(mark, &solved);
    let wanted = ["start of border side top", "end of border side top"];
    let both = wanted.map(|wanted| {
        let own = marks.iter().find(|mark| {
            let end = matches!(mark.kind, crate::plan::MarkKind::LineEnd(_));
            end && (name(mark) == wanted)
        });
        // A corner ends where the side starts, and may have given the place its name.
        let piece = solved
            .pieces
            .iter()
            .find(|piece| piece.name == "border-side-top");
        let piece = piece.expect("the side");
        let point = match wanted.starts_with("start") {
            true => piece.start().point,
            false => piece.end().point,
        };
        let near = |mark: &&Mark| (mark.point - point).norm() < 1e-6;
        let mark = own.or_else(|| marks.iter().find(near)).expect("a mark");
        MarkReading::new(wanted, *mark, cloth(to_machine.apply(mark.point)))
    });
    let laid = lay_pass(&solved, &stitching, 0, &both).expect("laid");
    for reading in &both {
        let there = laid.aligned.map.map(to_machine.apply(reading.mark.point));
        assert!((there - reading.read).norm() < 1e-9);
        // The laid line goes through it.
        let points = laid.runs.iter().flat_map(|run| run.motif.points());
        let nearest = points.map(|point| (point - reading.read).norm());
        assert!(nearest.fold(f64::INFINITY, f64::min) < 1e-9);
    }
}

#[test]
fn a_taped_length_stands_for_a_corner_out_of_reach() {
    let spec = spec();
    let (solved, stitching) = planned(&spec);
    let pass = 2;
    let all = readings(&stitching, pass, |point| point);
    let met: Vec<MarkReading> = all.into_iter().filter(|one| one.mark.is_met()).collect();
    let plan = (&solved, &stitching);
    let tape = |length: f64| taped(plan.0, plan.1, (pass, &met), (0, Side::LEFT), length);
    let far = solved.layouts[0].band.seam.corner(3).y;
    let end = met
        .iter()
        .find(|one| one.mark.point.x < 400.0)
        .expect("an end");
    // As long as planned, it says nothing new; 1 % longer, the side lies 1 % longer.
    let planned = far - end.mark.point.y;
    let to_machine = stitching.passes[pass].to_machine;
    for factor in [1.0, 1.01] {
        let reading = tape(factor * planned).expect("taped");
        let mut readings = met.clone();
        readings.push(reading);
        let laid = lay_pass(&solved, &stitching, pass, &readings).expect("laid");
        let below = |by: f64| {
            laid.aligned
                .map
                .map(to_machine.apply(end.mark.point + Vector::new(0.0, by)))
        };
        let lies = (below(planned) - below(0.0)).norm();
        assert!(
            (lies / planned - factor).abs() < 2e-3,
            "{factor}: {}",
            lies / planned
        );
    }
    assert!(tape(-1.0).is_err());
    let none = taped(plan.0, plan.1, (pass, &[]), (0, Side::LEFT), 100.0);
    assert!(none.expect_err("no stitched end").is_align());
}
