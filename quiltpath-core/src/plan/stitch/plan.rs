//! A solved plan brought to the machine: passes on the frame, runs in order, stitches and thread.
//!
//! The pieces are divided where the throat needs it, put into the fewest passes with few thread
//! cuts and little travel (`order`), and each run is stitched (`stitch::job`). What the solution
//! itself is does not change; without a throat all of the quilt is one pass. What is stitched
//! already is left out.

use super::data::Stitching;
use super::left::{AllLeft, stitched_runs};
use super::runs::planned;
use super::sweeps::{corners_first, is_corner, moves, seam_corner};
use super::timed::{time_of_all, time_passes};
use crate::check::check_lines;
use crate::error::Error;
use crate::geom::Point;
use crate::order::{MORE_PASSES, OrderOptions, Ordered, Placed, Throat, divide, order};
use crate::parallel::join;
use crate::plan::ask::{OrderSpec, PlanSpec};
use crate::plan::check;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::marks::{OwnCorner, StitchedEnds, marks};
use crate::plan::piece::PieceKind;
use crate::plan::solved::Solved;
use crate::plan::whole::check_whole;
use crate::stitch::job::stitch_lines;

/// Brings a solved plan to the machine.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::plan::{solve, stitch_plan};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let stitching = stitch_plan(&plan, &solve(&plan, wave)?)?;
/// // Without a throat all of the quilt is within reach; each side is a run of its own.
/// assert_eq!((stitching.passes.len(), stitching.runs.len()), (1, 4));
/// assert!(stitching.minutes() > 0.0 && stitching.job.count() > 1000);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A plan or geometry error with the key at fault when `stitching`, `machine`, `thread` or `checks`
/// of the plan hold a number out of its range, or when the solved plan refers to a border or a
/// piece that is not there; a stitch error when there would be too many stitches.
///
/// # Complexity
///
/// O(points + stitches) for drawn lines.
pub fn stitch_plan(spec: &PlanSpec, solved: &Solved) -> Result<Stitching, Error> {
    stitched(spec, solved).map_err(|e| e.in_unit(spec.unit.into()))
}

fn stitched(spec: &PlanSpec, solved: &Solved) -> Result<Stitching, Error> {
    check_whole(solved, None)?;
    let options = spec.job_options()?;
    let frame = spec.frame_options()?;
    let bounds = solved.bounds();
    let lines = solved.pieces.iter().map(|piece| piece.motif().bounds());
    let all = lines.fold(bounds, |all, line| all.union(&line));
    let within_reach = all.width().max(all.height());
    let throat = frame.throat.unwrap_or(Throat::new(within_reach));
    let window = OrderOptions::new(throat, bounds).with_more_passes(frame.more_passes);
    let left = AllLeft::of(solved)?;
    let pieces: Vec<Placed<'_>> = (left.0.iter().enumerate())
        .map(|(at, part)| {
            let placed = Placed::new(&part.motif).with_ends(&part.ends);
            match solved.pieces[part.piece].kind {
                // A link goes with a piece that it touches: a corner, or the side that it leads to.
                PieceKind::Link(_) => {
                    let touched = touched(solved, part.piece);
                    placed.with_loading_of_either(
                        touched.map(|at| left.any(at)).map(|of| of.unwrap_or(at)),
                    )
                }
                _ => placed,
            }
        })
        .collect();
    let limits = spec.limits(options.stitch.target)?;
    let lines: Vec<&[Point]> = (solved.paths.iter().map(|path| path.motif.points())).collect();
    let first = spec.order == OrderSpec::CornersFirst;
    let stitched = || -> Result<_, Error> {
        let mut divided = divide(&pieces, &window, frame.loadings)?;
        for join in &solved.joins {
            let apart = first
                && [join.from, join.to]
                    .iter()
                    .all(|&piece| is_corner(solved, piece));
            let open = left.at_end(join.from, 1).zip(left.at_end(join.to, 0));
            let meets = join.gap <= solved.join_tolerance && !apart;
            if let (true, Some((from, to))) = (meets, open) {
                divided.join(from, to)?;
            }
        }
        // A closed block starts and ends in one place without a join that says so.
        for path in solved.paths.iter().filter(|path| path.closed) {
            if let [piece] = path.pieces[..]
                && let Some((from, to)) = left.at_end(piece, 1).zip(left.at_end(piece, 0))
            {
                divided.join(from, to)?;
            }
        }
        if first {
            let corner = |part: usize| seam_corner(solved, left.0[part].piece);
            corners_first(corner, &mut divided, &window);
        }
        let ordered = order(&divided.atoms, &divided.joins, &window)?;
        let (mut passes, runs) = planned(solved, &divided, (&left, &pieces), &ordered)?;
        let mut earlier = StitchedEnds::default();
        for run in stitched_runs(solved)? {
            earlier.add_run(&solved.pieces, &run);
        }
        for pass in &mut passes {
            let own = &runs[pass.runs.clone()];
            let corners = match first {
                true => OwnCorner::all(&solved.layouts, &solved.pieces, own),
                false => Vec::new(),
            };
            pass.marks = marks(
                (&solved.layouts, solved.unit),
                (pass, pass.reach),
                (own, &corners),
                &earlier,
            );
            own.iter()
                .for_each(|run| earlier.add_run(&solved.pieces, run));
        }
        let job = stitch_lines(runs.iter().map(|run| &run.motif), &options)?;
        time_passes(&mut passes, &job, (&frame, throat.height));
        let deep = divided.deep.iter().map(|&piece| {
            let atoms = divided.atoms.iter().zip(&divided.stretches);
            let own = atoms.filter(|(_, stretch)| stretch.piece == piece);
            let reach = own
                .map(|(atom, _)| window.reach(atom))
                .fold(f64::INFINITY, f64::min);
            (left.0[piece].piece, reach)
        });
        Ok((deep.collect::<Vec<_>>(), ordered, passes, runs, job))
    };
    // Either takes about half the time.
    let (stitched, report) = join(stitched, || check_lines(&lines, &limits));
    let (mut deep, ordered, passes, runs, job) = stitched?;
    let mut findings = check::lines(solved, &report?, &limits);
    findings.extend(check::stitches(solved, &job, &runs));
    findings.extend(check::joins(solved));
    // Of the open stretches of one piece one is enough.
    deep.dedup_by_key(|(piece, _)| *piece);
    findings.extend(
        deep.iter()
            .map(|&(piece, reach)| too_deep(solved, piece, reach)),
    );
    findings.extend(fewer_cuts(&ordered, frame.more_passes));
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    Ok(Stitching {
        throat: frame.throat.map(|throat| throat.height),
        least_cuts: ordered.least_cuts(),
        travel: ordered.travel(),
        least_travel: ordered.least_travel(),
        rolled: moves(&passes).sum(),
        time: time_of_all(&passes, &job, (&frame, throat.height)),
        passes,
        runs,
        job,
        options,
        findings,
    })
}

/// The pieces before and after a link.
fn touched(solved: &Solved, link: usize) -> [usize; 2] {
    let before = solved.joins.iter().find(|join| join.to == link);
    let after = solved.joins.iter().find(|join| join.from == link);
    [before.map(|join| join.from), after.map(|join| join.to)].map(|piece| piece.unwrap_or(link))
}

/// What more passes would save, beyond those that the plan allows for.
fn fewer_cuts(ordered: &Ordered, allowed: usize) -> Vec<Finding> {
    let (passes, cuts) = (ordered.passes(), ordered.cuts());
    let mut fewest = cuts;
    let mut findings = Vec::new();
    for (saved, cuts_then) in ordered.cuts_with_more().into_iter().enumerate() {
        let more = saved + 1;
        if cuts_then < fewest && allowed + more <= MORE_PASSES {
            fewest = cuts_then;
            findings.push(Finding::note(FindingKind::FewerCuts {
                passes,
                cuts,
                more: allowed + more,
                cuts_then,
            }));
        }
    }
    findings
}

fn too_deep(solved: &Solved, number: usize, throat: f64) -> Finding {
    let piece = &solved.pieces[number];
    let repeats = match &piece.kind {
        PieceKind::Side(side) => Some(side.fit.chosen.repeats),
        _ => None,
    };
    Finding::error(FindingKind::TooDeep { throat, repeats })
        .on_piece(number, piece)
        .at(piece.start().point)
}
