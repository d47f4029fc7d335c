//! One quilt stitched from the first pass to the last.

use quiltpath_core::Error;
use quiltpath_core::frame::{BACK_MM, MarkReading, lay_and_refit, planned_length, rest_of};
use quiltpath_core::geom::region::Region;
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::spec::QuiltSpec;
use quiltpath_core::plan::{
    Mark, MotifRequest, PlanSpec, Solved, Stitched, Stitching, mark_letter, solve, solve_around,
    stitch_plan,
};
use quiltpath_core::strokes::Drawing;

use crate::cloth::{Dice, INCH, Lie};

/// How a quilt came out; lengths in millimetres.
#[derive(Debug, Default)]
pub(crate) struct Played {
    pub(crate) passes: usize,
    /// How far a laid line is from where the stitched end that it goes on from was read, at most.
    pub(crate) at_reading: f64,
    /// How far it is from that end on the cloth, at most.
    pub(crate) on_cloth: f64,
    /// How near a stitch comes to the seam on the cloth; below 0 beyond it.
    pub(crate) seam: f64,
    /// How often something was stitched twice, or never.
    pub(crate) twice: usize,
    pub(crate) never: usize,
}

/// Four marks are read beside the stitched ends.
const READ: usize = 4;

/// The repeat 4 in long and 2 in high, and an L with legs 2 in deep, both ending in mid height.
pub(crate) fn motif(name: &str) -> Result<Motif, Error> {
    let wave: &[(f64, f64)] = &[(0.0, 1.0), (1.0, 0.0), (2.0, 1.0), (3.0, 2.0), (4.0, 1.0)];
    let corner: &[(f64, f64)] = &[
        (1.0, 5.0),
        (2.0, 4.6),
        (0.0, 4.0),
        (2.0, 3.0),
        (0.0, 1.0),
        (1.0, 0.0),
        (3.0, 2.0),
        (4.0, 0.0),
        (4.6, 2.0),
        (5.0, 1.0),
    ];
    let points = if name == "corner" { corner } else { wave };
    let points = points.iter().map(|&(x, y)| Point::new(x, y) * INCH);
    Motif::from_points(name, points.collect())
}

/// A stitched end: where it was planned, and where it is on the cloth.
struct End {
    planned: Point,
    on_cloth: Point,
}

/// What happens on the way.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Mishaps {
    /// The thread breaks in this pass, from 0.
    pub(crate) breaks_in: Option<usize>,
    /// After so many passes the quilt is measured again, and is 1/2 in longer below the middle.
    pub(crate) longer_after: Option<usize>,
}

/// How much longer the quilt is than it was measured.
const LONGER: f64 = INCH / 2.0;

/// Where a place of the quilt as first measured is on the quilt as it is: from 60 in down to its
/// lower seam it is longer by [`LONGER`] in all.
fn as_it_is(place: Point, mishaps: &Mishaps) -> Point {
    let share = ((place.y - 60.0 * INCH) / (42.0 * INCH)).clamp(0.0, 1.0);
    let by = if mishaps.longer_after.is_some() {
        LONGER * share
    } else {
        0.0
    };
    place + Vector::new(0.0, by)
}

/// A plan and what was stitched of it.
struct Stage {
    spec: PlanSpec,
    solved: Solved,
    stitching: Stitching,
    stitched: Stitched,
}

impl Stage {
    fn first(spec: &PlanSpec) -> Self {
        let solved = solve(spec, load).expect("solved");
        Self::of(spec.clone(), solved)
    }

    fn of(spec: PlanSpec, solved: Solved) -> Self {
        let stitching = stitch_plan(&spec, &solved).expect("stitched");
        let stitched = Stitched::of(&solved).expect("what is stitched");
        Self {
            spec,
            solved,
            stitching,
            stitched,
        }
    }

    /// The plan of the longer quilt, round what is stitched.
    fn longer(&self) -> Self {
        let height = self.solved.quilt.bounds().height() + LONGER;
        let width = self.solved.quilt.bounds().width();
        let mut spec = self.spec.clone();
        spec.quilt = QuiltSpec::rectangle(width / INCH, height / INCH);
        let solved = solve_around(&spec, &self.stitched, load).expect("solved again");
        Self::of(spec, solved)
    }
}

fn load(asked: &MotifRequest) -> Result<Drawing, Error> {
    Ok(motif(&asked.name)?.into())
}

/// Plays a quilt on a cloth by chance; readings are off by so many times 1/48 in, the root
/// of the mean square of the distance.
pub(crate) fn play(spec: &PlanSpec, dice: &mut Dice, noise: f64, mishaps: &Mishaps) -> Played {
    let mut stage = Stage::first(spec);
    let mut ends: Vec<End> = Vec::new();
    let mut played = Played {
        seam: f64::INFINITY,
        ..Played::default()
    };
    let until = mishaps.longer_after.unwrap_or(usize::MAX);
    // Before the quilt is measured again, the plan is of a quilt that it isn't quite.
    let before = |place: Point| as_it_is(place, mishaps);
    let passes = stage.stitching.passes.len().min(until);
    for pass in 0..passes {
        one_pass(
            (&mut stage, &mut ends, &mut played),
            pass,
            (dice, noise),
            mishaps,
            &before,
        );
    }
    if passes == until {
        stage = stage.longer();
        for pass in 0..stage.stitching.passes.len() {
            let mishaps = Mishaps {
                breaks_in: None,
                ..*mishaps
            };
            one_pass(
                (&mut stage, &mut ends, &mut played),
                pass,
                (dice, noise),
                &mishaps,
                &|at| at,
            );
        }
    }
    let done = stage.stitched.length();
    let all = stage.solved.length();
    played.never += usize::from((done - all).abs() > 1e-6 * all);
    played
}

/// One pass; `cloth` is where a place of the plan is on the quilt.
fn one_pass(
    (stage, ends, played): (&mut Stage, &mut Vec<End>, &mut Played),
    number: usize,
    (dice, noise): (&mut Dice, f64),
    mishaps: &Mishaps,
    cloth: &dyn Fn(Point) -> Point,
) {
    played.passes += 1;
    let (solved, stitching) = (&stage.solved, &stage.stitching);
    let pass = &stitching.passes[number];
    let seam = Region::new(
        solved.layouts[0]
            .lines
            .seam
            .iter()
            .map(|&at| cloth(at))
            .collect(),
    );
    let seam = seam.expect("a seam");
    let lie = Lie::by_chance(dice, solved.bounds().width());
    let back = pass.to_machine.inverse().expect("a motion");
    let read = spread(&pass.marks);
    let mut readings: Vec<MarkReading> = Vec::new();
    for (at, mark) in pass.marks.iter().enumerate() {
        if !read.contains(&at) {
            continue;
        }
        let place = match mark.is_met() {
            true => end_at(ends, mark.point).expect("a stitched end").on_cloth,
            false => cloth(mark.point),
        };
        let both = Vector::new(dice.normal(1.0), dice.normal(1.0));
        let off = both * (noise * INCH / 48.0 / f64::sqrt(2.0));
        let read = lie.lies(pass.to_machine.apply(place)) + off;
        readings.push(MarkReading::new(mark_letter(at), *mark, read));
    }
    let laying = lay_and_refit(&stage.spec, (solved, stitching), number, &readings, load);
    let laying = laying.expect("laid");
    assert!(laying.refitted.is_empty());
    let on_cloth = |there: Point| back.apply(lie.under(there));
    let mut new = Vec::new();
    for (within, run) in laying.laid.runs.iter().enumerate() {
        let line = &run.planned.motif;
        let laid = [run.motif.start().point, run.motif.end().point];
        for (planned, there) in [line.start().point, line.end().point].into_iter().zip(laid) {
            let near = |one: &&MarkReading| (one.mark.point - planned).norm() < 1e-6;
            match readings.iter().find(|one| near(one) && one.mark.is_met()) {
                Some(read) => {
                    let end = end_at(ends, planned).expect("a stitched end");
                    played.at_reading = played.at_reading.max((there - read.read).norm());
                    let apart = (on_cloth(there) - end.on_cloth).norm();
                    played.on_cloth = played.on_cloth.max(apart);
                }
                None => new.push(End {
                    planned,
                    on_cloth: on_cloth(there),
                }),
            }
        }
        for &there in run.motif.points() {
            let place = on_cloth(there);
            let distance = seam.distance_to_boundary(place);
            let outside = if seam.contains(place) {
                -distance
            } else {
                distance
            };
            played.seam = played.seam.min(outside);
        }
        let stitched = &mut stage.stitched;
        let mut add = |between: [f64; 2]| {
            let added = stitched.add_between(&laying.solved, &run.planned, between);
            played.twice += usize::from(added.is_err());
        };
        match mishaps.breaks_in {
            Some(pass) if pass == number && within == 0 => {
                let stopped = 0.4 * run.motif.length();
                let rest = rest_of(&run.motif, stopped, BACK_MM, &stitching.options);
                let rest = rest.expect("a rest");
                // All of it is stitched once, but for the overlap.
                let all = rest.from + rest.motif.length();
                assert!((all - run.motif.length()).abs() < 1e-6 && rest.overlap <= BACK_MM + 1e-9);
                let planned = planned_length(stitching, &laying.laid, run, stopped);
                let planned = planned.expect("a length");
                add([0.0, planned]);
                add([planned, f64::INFINITY]);
            }
            _ => add([0.0, f64::INFINITY]),
        }
    }
    ends.extend(new);
}

/// The stitched end that is planned at a place, or was before the quilt was measured again: no two
/// of them are as near to each other.
fn end_at(ends: &[End], planned: Point) -> Option<&End> {
    let apart = |end: &&End| (end.planned - planned).norm();
    let nearest = ends
        .iter()
        .min_by(|one, other| apart(one).total_cmp(&apart(other)));
    nearest.filter(|end| apart(end) < LONGER + 0.1)
}

/// The stitched ends, and four more that are as far apart as can be, taken one by one.
fn spread(marks: &[Mark]) -> Vec<usize> {
    let mut read: Vec<usize> = (0..marks.len()).filter(|&at| marks[at].is_met()).collect();
    for _ in 0..READ {
        let apart = |at: usize| {
            let all = read
                .iter()
                .map(|&other| (marks[at].point - marks[other].point).norm());
            all.fold(f64::INFINITY, f64::min)
        };
        let open = (0..marks.len()).filter(|at| !read.contains(at));
        let Some(next) = open.max_by(|&one, &other| apart(one).total_cmp(&apart(other))) else {
            break;
        };
        read.push(next);
    }
    read
}
