//! One quilt stitched from the first pass to the last.

use quiltpath_core::Error;
use quiltpath_core::frame::{MarkReading, Progress, lay_and_refit};
use quiltpath_core::geom::region::Region;
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::{Mark, MotifRequest, PlanSpec, mark_letter, solve, stitch_plan};

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

/// Plays a quilt on a cloth by chance; readings are off by so many times 1/48 in, the root
/// of the mean square of the distance.
pub(crate) fn play(spec: &PlanSpec, dice: &mut Dice, noise: f64) -> Played {
    let load = |asked: &MotifRequest| Ok(motif(&asked.name)?.into());
    let solved = solve(spec, load).expect("solved");
    let stitching = stitch_plan(spec, &solved).expect("stitched");
    let mut progress = Progress::of(&solved, &stitching);
    let mut ends: Vec<End> = Vec::new();
    let seam = Region::new(solved.layouts[0].lines.seam.clone()).expect("a seam");
    let mut played = Played {
        passes: stitching.passes.len(),
        seam: f64::INFINITY,
        ..Played::default()
    };
    for (number, pass) in stitching.passes.iter().enumerate() {
        let lie = Lie::by_chance(dice, solved.bounds().width());
        let back = pass.to_machine.inverse().expect("a motion");
        let off = |dice: &mut Dice| {
            let both = Vector::new(dice.normal(1.0), dice.normal(1.0));
            both * (noise * INCH / 48.0 / f64::sqrt(2.0))
        };
        let read = spread(&pass.marks);
        let mut readings: Vec<MarkReading> = Vec::new();
        for (at, mark) in pass.marks.iter().enumerate() {
            if !read.contains(&at) {
                continue;
            }
            let place = match mark.is_met() {
                true => touched(&ends, mark),
                false => mark.point,
            };
            let read = lie.lies(pass.to_machine.apply(place)) + off(dice);
            readings.push(MarkReading::new(mark_letter(at), *mark, read));
        }
        let laying = lay_and_refit(spec, (&solved, &stitching), number, &readings, load);
        let laying = laying.expect("laid");
        assert!(laying.refitted.is_empty());
        let on_cloth = |there: Point| back.apply(lie.under(there));
        let mut new = Vec::new();
        for run in &laying.laid.runs {
            let line = &run.planned.motif;
            let laid = [run.motif.start().point, run.motif.end().point];
            for (planned, there) in [line.start().point, line.end().point].into_iter().zip(laid) {
                let end = ends
                    .iter()
                    .find(|end| (end.planned - planned).norm() < 1e-6);
                if let Some(end) = end {
                    let near = |one: &&MarkReading| (one.mark.point - planned).norm() < 1e-6;
                    let read = readings.iter().find(near).expect("a stitched end is read");
                    played.at_reading = played.at_reading.max((there - read.read).norm());
                    let apart = (on_cloth(there) - end.on_cloth).norm();
                    played.on_cloth = played.on_cloth.max(apart);
                } else {
                    new.push(End {
                        planned,
                        on_cloth: on_cloth(there),
                    });
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
            let added = progress.stitched.add(&laying.solved, &run.planned);
            played.twice += usize::from(added.is_err());
        }
        ends.extend(new);
    }
    let done = progress.stitched.length();
    played.never += usize::from((done - solved.length()).abs() > 1e-6 * solved.length());
    played
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

/// Where the stitched end of a mark is on the cloth.
fn touched(ends: &[End], mark: &Mark) -> Point {
    let end = ends
        .iter()
        .find(|end| (end.planned - mark.point).norm() < 1e-6);
    end.expect("a stitched end").on_cloth
}
