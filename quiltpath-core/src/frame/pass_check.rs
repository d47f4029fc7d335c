//! The needle-up checks of a plan: of each pass as the machine sees it, of each piece on the quilt.

use super::lay::{LaidPass, planned_pass};
use super::needle_up::{CheckedLine, Limit, NeedleUp, limits_of, needle_up};
use crate::error::{Error, PlanFault};
use crate::geom::{Bounds, Point, Vector};
use crate::motif::Motif;
use crate::plan::{PieceKind, PlannedPass, PlannedRun, Side, Solved, Stitching, check_whole};

/// Stops that say little are no nearer to others than this: 1/2 in.
const APART_MM: f64 = 12.7;

/// Round a piece the limits of the band are looked for so far: 1 in.
const ROUND_MM: f64 = 25.4;

/// The window of a pass on the machine: as wide as the quilt as loaded, as high as it reaches, its
/// top left corner the machine's zero.
#[must_use]
pub fn pass_window(solved: &Solved, stitching: &Stitching, pass: &PlannedPass) -> Bounds {
    let quilt = solved.bounds();
    let size = pass.to_machine.apply(quilt.max) - pass.to_machine.apply(quilt.min);
    let height = stitching.throat.map_or(size.y.abs(), |_| pass.reach);
    Bounds {
        min: Point::origin(),
        max: Point::new(size.x.abs(), height),
    }
}

/// The needle-up check of a pass where the plan expects it on the machine, in millimetres.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::frame::{MOST_STOPS, check_pass};
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::plan::{solve, stitch_plan};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let solved = solve(&plan, wave)?;
/// let check = check_pass(&solved, &stitch_plan(&plan, &solved)?, 0)?;
/// assert!(check.stops.len() <= MOST_STOPS);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A plan error when there is no such pass, or the plan refers to what is not there.
///
/// # Complexity
///
/// As [`needle_up`].
pub fn check_pass(solved: &Solved, stitching: &Stitching, pass: usize) -> Result<NeedleUp, Error> {
    check_whole(solved, Some(stitching))?;
    let planned = planned_pass(stitching, pass)?;
    let to_machine = |point: Point| planned.to_machine.apply(point);
    let runs = &stitching.runs[planned.runs.clone()];
    let lines: Result<Vec<Line>, Error> = runs
        .iter()
        .map(|run| {
            let motif = run.motif.transformed(&planned.to_machine)?;
            Ok((border_of(solved, run), motif))
        })
        .collect();
    let window = pass_window(solved, stitching, planned);
    check(&lines?, limits(solved, to_machine), window)
}

/// The needle-up check of a pass as it is laid on the cloth, in the machine's millimetres.
///
/// # Errors
///
/// As [`check_pass`].
///
/// # Complexity
///
/// As [`needle_up`].
pub fn check_laid(
    solved: &Solved,
    stitching: &Stitching,
    laid: &LaidPass,
) -> Result<NeedleUp, Error> {
    check_whole(solved, Some(stitching))?;
    let planned = planned_pass(stitching, laid.pass)?;
    let map = &laid.aligned.map;
    let there = |point: Point| map.map(planned.to_machine.apply(point));
    let lines = laid.runs.iter();
    let lines: Vec<Line> = lines
        .map(|run| (border_of(solved, &run.planned), run.motif.clone()))
        .collect();
    // The window reaches as high as planned, from the highest place of the lines on.
    let planned = pass_window(solved, stitching, planned);
    let all = lines.iter().map(|(_, motif)| motif.bounds());
    let all = all
        .reduce(|one, other| one.union(&other))
        .unwrap_or(planned);
    let corners = [planned.min, planned.max].map(|corner| map.map(corner));
    let window = Bounds::of(corners).unwrap_or(planned).union(&all);
    check(&lines, limits(solved, there), window)
}

/// The needle-up check of one piece where it lies on the quilt, in millimetres.
///
/// # Errors
///
/// A plan error when there is no such piece, or the plan refers to what is not there.
///
/// # Complexity
///
/// As [`needle_up`].
pub fn check_piece(solved: &Solved, piece: usize) -> Result<NeedleUp, Error> {
    check_whole(solved, None)?;
    let Some(of) = solved.pieces.get(piece) else {
        return Err(PlanFault::NotThere {
            what: "piece",
            number: piece,
            count: solved.pieces.len(),
        }
        .into());
    };
    let layout = &solved.layouts[of.border];
    let sides = layout.band.sides();
    let own = |side: Side| match &of.kind {
        PieceKind::Side(detail) => side == detail.side,
        PieceKind::Link(of) => side == *of,
        // A corner lies where the side of its number begins, and the one before ends.
        PieceKind::Corner(corner) => {
            let at = corner.position.index();
            side.index() == at || (side.index() + 1) % sides == at
        }
        PieceKind::Field(_) | PieceKind::Ring(_) => true,
    };
    let lines = of.lines().iter();
    let lines: Vec<Line> = lines.map(|line| (of.border, line.motif.clone())).collect();
    let limits = limits_of(layout, of.border);
    let limits = limits.into_iter().filter(|limit| own(limit.side));
    let bounds = of.bounds();
    let window = Bounds {
        min: bounds.min - Vector::repeat(ROUND_MM),
        max: bounds.max + Vector::repeat(ROUND_MM),
    };
    check(&lines, limits.collect(), window)
}

/// A line with the number of its border.
type Line = (usize, Motif);

fn border_of(solved: &Solved, run: &PlannedRun) -> usize {
    run.parts
        .first()
        .map_or(0, |part| solved.pieces[part.piece].border)
}

fn limits(solved: &Solved, map: impl Fn(Point) -> Point) -> Vec<Limit> {
    let layouts = solved.layouts.iter().enumerate();
    let all = layouts.flat_map(|(border, layout)| limits_of(layout, border));
    all.map(|limit| limit.mapped(&map)).collect()
}

fn check(lines: &[Line], limits: Vec<Limit>, window: Bounds) -> Result<NeedleUp, Error> {
    let lines: Vec<CheckedLine<'_>> = lines
        .iter()
        .map(|(border, motif)| CheckedLine {
            border: *border,
            points: motif.points(),
        })
        .collect();
    needle_up(&lines, &limits, window, APART_MM)
}
