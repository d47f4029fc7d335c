//! Solves a plan: the street from what is asked to pieces that are placed, joined and checked.
//!
//! Each step is a function from data to a value and what it has found. Corners are sized by their
//! legs and placed; the span of a side is the way from the end of one corner to the start of the
//! next, so joins close by construction. What the quilter should know is reported as findings,
//! never mended in silence.

use super::ask::{PlanSpec, printed};
use super::asked::{Asked, CornerAsked, asked};
use super::best::{best, better_ways, in_best_ways};
use super::blocks::{
    BlocksAsked, FieldDrawings, blocks_asked, fill_field, keep_pieces, outside_places,
};
use super::check::{checked, disagreeing, name_pieces, unmeasured};
use super::choose::{Chosen, Full, choose_depth, choose_shared, cut_best, ways_out};
use super::corners::{Prepared, prepare};
use super::drawings::{Drawings, Known, Load, MotifRequest, drawings};
use super::fill::{Filled, fill, fill_round};
use super::finding::Finding;
use super::kept::{KeptBorder, keep};
use super::laid::Border;
use super::lay::layout::{FIELD_NAME, Layout, layouts};
use super::lay::quilt::Quilt;
use super::order::paths;
use super::piece::{Join, Piece};
use super::solved::Solved;
use super::stitched::Stitched;
use super::way::BestWay;
use crate::error::{Error, PlanFault};
use crate::strokes::Drawing;
use crate::units::Unit;

/// Solves a plan; `load` gives the drawings, in millimetres, that the plan names.
///
/// Each drawing is asked for once; its strokes become one line, by the plan's tolerances.
///
/// ```
/// use quiltpath_core::geom::Point;
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::motif::Motif;
/// use quiltpath_core::plan::solve;
///
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let solved = solve(&plan, |asked| {
///     assert_eq!(asked.name, "wave");
///     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];
///     let points = wave.map(|(x, y)| Point::new(x, y)).to_vec();
///     let motif = Motif::from_points("wave", points)?;
///     Ok(motif.into())
/// })?;
/// assert_eq!(solved.pieces[0].name, "border-side-top");
/// assert_eq!(solved.thread_cuts(), 4);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// The loader's errors as they are; a plan error with the key at fault when a length, a border
/// or a gap can't be, or corners overlap; a leg error when a corner drawing is no L; a fit error
/// when a repeat can't be chained.
///
/// # Complexity
///
/// O(points of the motifs and of the result).
pub fn solve(
    spec: &PlanSpec,
    mut load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>,
) -> Result<Solved, Error> {
    let nothing = Stitched::default();
    walk(spec, &nothing, &mut load).map_err(|e| e.in_unit(spec.unit.into()))
}

/// Solves a plan round what is stitched: that stays as it lies on the cloth, with its true ends,
/// and all that is left is solved for the measures that the plan has now.
///
/// Bands that have begun keep their depth and their distance from the seam, sides that have begun
/// their number of repeats. What is stitched is carried to where the new measures have it, a corner
/// with its corner of the inner seam, a side's repeats with the ends of their side; lines that join
/// on to it meet it within 1e-9 mm. Pieces say which stretches of them are stitched
/// ([`Piece::stitched`]), and [`stitch_plan`](super::stitch_plan) leaves those out. With nothing
/// stitched it is [`solve()`], to the bit.
///
/// ```
/// use quiltpath_core::plan::spec::QuiltSpec;
/// use quiltpath_core::plan::{Stitched, solve, solve_around, stitch_plan};
/// # use quiltpath_core::{geom::Point, io::json::read_plan, motif::Motif};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];
/// #     let points = wave.map(|(x, y)| Point::new(x, y)).to_vec();
/// #     Ok(Motif::from_points("wave", points)?.into())
/// # };
/// let mut plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "mitred"}, "side": {"motif": "wave"}}]}"#)?;
/// let solved = solve(&plan, wave)?;
/// let run = &stitch_plan(&plan, &solved)?.runs[0];
/// // A quarter of the ring is stitched when the quilt turns out half an inch longer.
/// let mut stitched = Stitched::default();
/// stitched.add_between(&solved, run, [0.0, 0.25 * run.motif.length()])?;
/// plan.quilt = QuiltSpec::rectangle(40.0, 60.5);
/// let again = solve_around(&plan, &stitched, wave)?;
/// let left = stitch_plan(&plan, &again)?;
/// assert!(again.joins.iter().all(|join| join.gap < 1e-9));
/// let stitched = stitched.length();
/// assert!((left.job.drawn - (again.length() - stitched)).abs() < 1e-6);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`solve()`]; a stitched error when the plan has no place for what is stitched: another number
/// of sides, another style of corners, no border of that name, one too narrow for the band, or no
/// room between what is stitched.
///
/// # Complexity
///
/// O(points of the motifs, of what is stitched and of the result).
pub fn solve_around(
    spec: &PlanSpec,
    stitched: &Stitched,
    mut load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>,
) -> Result<Solved, Error> {
    walk(spec, stitched, &mut load).map_err(|e| e.in_unit(spec.unit.into()))
}

/// Walks the street with the best way of each border that asks for it, and looks for a better one
/// where links are stitched.
fn walk(spec: &PlanSpec, stitched: &Stitched, load: &mut Load<'_>) -> Result<Solved, Error> {
    // Where they can't be, the street refuses them before a drawing is made ready.
    let tolerances = spec.tolerances().unwrap_or_default();
    let mut known = Known::new(tolerances, load);
    let mut once = |spec: &PlanSpec| street(spec, stitched, &mut known);
    let (laid, found) = in_best_ways(spec, &mut once)?;
    let mut solved = once(&laid)?;
    let better = better_ways(spec, &laid, &solved, &mut once)?;
    solved.findings.extend(found.into_iter().chain(better));
    let severity = |finding: &Finding| std::cmp::Reverse(finding.severity);
    solved.findings.sort_by_key(severity);
    Ok(solved)
}

/// The best way for the repeat and the corner of a border to lie, `all` with the arrangement of the
/// corners and the mirroring of single repeats; what the plan says of them is not tried otherwise.
///
/// Ways are compared by [`WayCost::steps`](super::WayCost::steps). `load` is that of [`solve()`].
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::plan::best_way;
/// use quiltpath_core::plan::spec::SideLie;
///
/// # let hill = |_: &_| {
/// #     let hill = [(0.0, 9.0), (8.0, 0.0), (20.0, 9.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("hill", hill.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "hill"}}]}"#)?;
/// let best = best_way(&plan, 0, false, hill)?;
/// // No way is better than as drawn.
/// assert_eq!(best.way.side, SideLie::AsIs);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`solve()`]; a plan error when there is no such border.
///
/// # Complexity
///
/// That of [`solve()`] without its blocks, for each way: up to 48.
pub fn best_way(
    spec: &PlanSpec,
    border: usize,
    all: bool,
    mut load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>,
) -> Result<BestWay, Error> {
    let mut tried = || {
        if border >= spec.borders.len() {
            let (what, number, count) = ("border", border, spec.borders.len());
            return Err(PlanFault::NotThere {
                what,
                number,
                count,
            }
            .into());
        }
        let mut known = Known::new(spec.tolerances()?, &mut load);
        let nothing = Stitched::default();
        let mut once = |trial: &PlanSpec| street(trial, &nothing, &mut known);
        best(spec, border, all, &mut once)
    };
    tried().map_err(|e| e.in_unit(spec.unit.into()))
}

/// A plan with the best way of each border that asks for it.
pub(in crate::plan) fn in_ways(spec: &PlanSpec, load: &mut Load<'_>) -> Result<PlanSpec, Error> {
    let mut known = Known::new(spec.tolerances()?, load);
    let nothing = Stitched::default();
    let (spec, _) = in_best_ways(spec, |trial| street(trial, &nothing, &mut known))?;
    Ok(spec)
}

/// Walks the street.
fn street(
    spec: &PlanSpec,
    stitched: &Stitched,
    known: &mut Known<'_, '_>,
) -> Result<Solved, Error> {
    let quilt = Quilt::of(spec)?;
    let mut layouts = layouts(spec, &quilt)?;
    let mut asked = asked(spec, quilt.outline.sides())?;
    let blocks = blocks_asked(spec, &quilt, &layouts, asked.max_stretch)?;
    let placed = (layouts.as_slice(), blocks.as_ref());
    let (drawings, designs, mut findings) = drawings(spec, &asked, placed, known)?;
    findings.extend(disagreeing(&quilt));
    findings.extend(unmeasured(&quilt));
    check_round(&asked, &layouts)?;
    let (kept, found) = keep(spec, stitched, &mut asked, &mut layouts)?;
    findings.extend(found);
    let (ready, found) = prepared(&asked, &drawings)?;
    findings.extend(found);
    let borders: Vec<Border<'_>> = borders(&asked, &layouts, &drawings, (&ready, &kept));
    let is_round = |border: &Border<'_>| border.layout.is_round();
    let (round, borders): (Vec<_>, Vec<_>) = borders.into_iter().partition(is_round);
    let borders = cut(&borders)?;
    let (borders, full): (Vec<Border<'_>>, Vec<_>) = borders.into_iter().unzip();
    let (chosen, found) = choose(&asked, borders.iter().copied().zip(full).collect())?;
    findings.extend(found);
    let (mut filled, found) = filled(&asked, &borders, chosen)?;
    findings.extend(found);
    // Round borders lie outside all others.
    let (outside, found) = filled_round(&round, stitched, &filled)?;
    findings.extend(found);
    filled.splice(..0, outside);
    let (mut layouts, mut pieces, mut joins) = gathered(filled);
    name_pieces(&mut findings, &pieces);
    findings.extend(checked(&asked, &pieces, &layouts)?);
    if let Some(blocks) = &blocks {
        let into = (&mut layouts, &mut pieces, &mut joins);
        findings.extend(with_blocks((&asked, stitched), blocks, &designs, into)?);
    }
    Ok(Solved {
        title: spec.title.clone(),
        customer: printed(spec.customer.as_deref()),
        notes: printed(spec.notes.as_deref()),
        unit: Unit::from(spec.unit),
        quilt,
        paths: paths(&pieces, &joins, asked.tolerances.join)?,
        layouts,
        pieces,
        joins,
        findings,
        max_stretch: asked.max_stretch,
        join_tolerance: asked.tolerances.join,
    })
}

/// The corners of all borders, made ready.
fn prepared(asked: &Asked, drawings: &[Drawings]) -> Result<(Vec<Prepared>, Vec<Finding>), Error> {
    let mut findings = Vec::new();
    let borders = asked.borders.iter().zip(drawings);
    let prepared = borders.map(|(border, drawings)| {
        findings.extend(drawings.backwards(border.index));
        let (prepared, found) = prepare(border, &drawings.corner, Some(&drawings.repeats))
            .map_err(|e| in_border(e.in_element("corner"), border.index))?;
        findings.extend(found);
        Ok(prepared)
    });
    let prepared = prepared.collect::<Result<_, Error>>()?;
    Ok((prepared, findings))
}

fn borders<'a>(
    asked: &'a Asked,
    layouts: &'a [Layout],
    drawings: &'a [Drawings],
    (prepared, kept): (&'a [Prepared], &'a [Option<KeptBorder>]),
) -> Vec<Border<'a>> {
    let borders = asked
        .borders
        .iter()
        .zip(layouts)
        .zip(drawings)
        .zip(prepared.iter().zip(kept));
    let border = |(((border, layout), drawings), (prepared, kept)): (
        ((&'a _, &'a _), &'a Drawings),
        (&'a Prepared, &'a Option<KeptBorder>),
    )| Border {
        asked: border,
        layout,
        prepared,
        repeats: &drawings.repeats,
        tolerances: asked.tolerances,
        cut: 0,
        kept: kept.as_ref(),
    };
    borders.map(border).collect()
}

/// The borders with the cuts of their mitres chosen, each laid out at its full depth.
fn cut<'a>(borders: &[Border<'a>]) -> Result<Vec<Full<'a>>, Error> {
    let cut = |border| cut_best(border).map_err(|e| in_border(e, border.asked.index));
    borders.iter().map(cut).collect()
}

/// The borders at the depths chosen for them, with the numbers of repeats that they may have.
fn choose(asked: &Asked, borders: Vec<Full<'_>>) -> Result<(Vec<Chosen>, Vec<Finding>), Error> {
    if asked.shared_depth {
        return choose_shared(borders);
    }
    let mut findings = Vec::new();
    let chosen = borders.into_iter().map(|(border, full)| {
        let (chosen, found) =
            choose_depth(&border, full).map_err(|e| in_border(e, border.asked.index))?;
        findings.extend(found);
        Ok(chosen)
    });
    let chosen = chosen.collect::<Result<_, Error>>()?;
    Ok((chosen, findings))
}

/// The borders filled with repeats.
fn filled(
    asked: &Asked,
    borders: &[Border<'_>],
    chosen: Vec<Chosen>,
) -> Result<(Vec<Filled>, Vec<Finding>), Error> {
    let mut findings = Vec::new();
    let mut all: Vec<Filled> = Vec::with_capacity(borders.len());
    for (border, chosen) in borders.iter().zip(chosen) {
        let before = all.iter().map(|filled| filled.points).sum();
        let fill = || {
            let fits = chosen.fits(border)?;
            let ways = ways_out(border, &chosen, &fits, asked.max_stretch)?;
            let (filled, mut found) = fill(border, chosen.laid, &fits, before)?;
            found.extend(ways);
            Ok((filled, found))
        };
        let (filled, found) = fill().map_err(|e| in_border(e, border.asked.index))?;
        findings.extend(found);
        all.push(filled);
    }
    Ok((all, findings))
}

/// Refuses what a round border has no place for: corners, and a middle of its sides.
fn check_round(asked: &Asked, layouts: &[Layout]) -> Result<(), Error> {
    let borders = asked.borders.iter().zip(layouts);
    let mut round = borders.filter(|(_, layout)| layout.is_round());
    round.try_for_each(|(border, _)| {
        let refused = |fault: PlanFault, key: &str| {
            Err(in_border(Error::from(fault).in_element(key), border.index))
        };
        if !matches!(border.corner, CornerAsked::Open) {
            return refused(PlanFault::RoundCorner, "corner");
        }
        if border.side.spacers.iter().any(Option::is_some) {
            let what = "a round border";
            return refused(PlanFault::MiddleNowhere { what }, "side");
        }
        Ok(())
    })
}

/// The round borders filled.
fn filled_round(
    borders: &[Border<'_>],
    stitched: &Stitched,
    others: &[Filled],
) -> Result<(Vec<Filled>, Vec<Finding>), Error> {
    let mut points: usize = others.iter().map(|filled| filled.points).sum();
    let mut findings = Vec::new();
    let mut all = Vec::with_capacity(borders.len());
    for border in borders {
        let begun = stitched.border(&border.layout.name);
        let filled = fill_round(border, begun, points);
        let (filled, found) = filled.map_err(|e| in_border(e, border.asked.index))?;
        points += filled.points;
        findings.extend(found);
        all.push(filled);
    }
    Ok((all, findings))
}

/// The pieces and joins of all borders, numbered through.
fn gathered(filled: Vec<Filled>) -> (Vec<Layout>, Vec<Piece>, Vec<Join>) {
    let (mut layouts, mut pieces, mut joins) = (Vec::new(), Vec::new(), Vec::new());
    for border in filled {
        let first = pieces.len();
        joins.extend(border.joins.into_iter().map(|join| Join {
            from: join.from + first,
            to: join.to + first,
            ..join
        }));
        pieces.extend(border.pieces);
        layouts.push(border.layout);
    }
    (layouts, pieces, joins)
}

/// Adds the blocks to what is filled of the borders.
fn with_blocks(
    (asked, stitched): (&Asked, &Stitched),
    blocks: &BlocksAsked,
    designs: &FieldDrawings,
    (layouts, pieces, joins): (&mut Vec<Layout>, &mut Vec<Piece>, &mut Vec<Join>),
) -> Result<Vec<Finding>, Error> {
    let (border, first) = (layouts.len(), pieces.len());
    let points = pieces
        .iter()
        .map(|piece| piece.motif().points().len())
        .sum();
    let in_blocks = |e: Error| e.in_element("blocks");
    let filled = fill_field(blocks, designs, border, asked.tolerances, points);
    let filled = filled.map_err(in_blocks)?;
    let mut findings = filled.findings;
    let mut filled_pieces = filled.pieces;
    if let Some(begun) = stitched
        .border(FIELD_NAME)
        .filter(|begun| begun.has_begun())
    {
        let join = asked.tolerances.join;
        let kept = keep_pieces(
            begun,
            &blocks.outline,
            (&mut filled_pieces, &filled.joins),
            join,
        );
        findings.push(kept.map_err(in_blocks)?.on_border(border));
    }
    findings.extend(outside_places(&filled_pieces, blocks.seam_gap)?);
    for finding in &mut findings {
        finding.piece = finding.piece.map(|piece| piece + first);
    }
    joins.extend(filled.joins.into_iter().map(|join| Join {
        from: join.from + first,
        to: join.to + first,
        ..join
    }));
    pieces.extend(filled_pieces);
    layouts.push(Layout::of_field(&blocks.outline, blocks.spots.clone())?);
    Ok(findings)
}

fn in_border(error: Error, index: usize) -> Error {
    error.in_element(format!("borders[{index}]"))
}
