//! The numbers of repeats that a side may have, around the one that it has.
//!
//! Problem: the quilter wants to see what other numbers would do, and take one. Method: the span of
//! the side over the length of a repeat at its proportions is known from the number that was chosen
//! and its stretch; [`choices_around`] gives the allowed numbers around the best. Guarantee: at the
//! depth of band that was chosen, stretches are those that the side would have with these numbers.
//! Where the plan gives the band slack, another number may come with another depth, at which it is
//! stretched less.

use crate::error::Error;
use crate::fit::{Count, choices_around};
use crate::plan::ask::PlanSpec;
use crate::plan::asked::asked;
use crate::plan::lay::place::Side;
use crate::plan::middle::{SpacerAsked, as_drawn};
use crate::plan::piece::PieceKind;
use crate::plan::solved::Solved;

/// How many numbers there are at least to choose from on either side of the best.
const AROUND: usize = 2;

/// A number of repeats that a side may have.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct NumberChoice {
    /// The number.
    pub repeats: usize,
    /// Their length along the band divided by the length that keeps the drawing's proportions.
    pub stretch: f64,
    /// Whether the stretch is within the plan's limit.
    pub within: bool,
}

/// The numbers of repeats to choose from on one side of a border.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct SideChoices {
    /// The number of the border, from the outermost, from 0.
    pub border: usize,
    /// The number of the piece that fills the side, from 0.
    pub piece: usize,
    /// The side.
    pub side: Side,
    /// The length that repeats fill, in millimetres.
    pub span: f64,
    /// The depth of its band, in millimetres.
    pub depth: f64,
    /// How far from 1 a stretch may be.
    pub limit: f64,
    /// The number that it has.
    pub chosen: usize,
    /// The allowed number with the least stretch.
    pub best: usize,
    /// Whether the plan gives the number.
    pub given: bool,
    /// Whether it is stitched in part, so that its number stays.
    pub begun: bool,
    /// The numbers around the best one and the chosen one, rising.
    pub choices: Vec<NumberChoice>,
}

/// The numbers of repeats to choose from on each side that has repeats, in the order of the pieces.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::plan::{side_choices, solve};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let sides = side_choices(&plan, &solve(&plan, wave)?)?;
/// let numbers: Vec<usize> = sides[0].choices.iter().map(|choice| choice.repeats).collect();
/// assert_eq!((sides[0].chosen, numbers), (3, vec![1, 2, 3, 4, 5]));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`solve()`](crate::plan::solve()) for keys of the plan, and where it is another plan than the
/// one that was solved.
///
/// # Complexity
///
/// O(pieces).
pub fn side_choices(spec: &PlanSpec, solved: &Solved) -> Result<Vec<SideChoices>, Error> {
    let sides = solved.quilt.outline.sides();
    let asked = asked(spec, sides).map_err(|e| e.in_unit(solved.unit))?;
    let mut all = Vec::new();
    for (at, piece) in solved.pieces.iter().enumerate() {
        let PieceKind::Side(detail) = &piece.kind else {
            continue;
        };
        let given = asked.borders.get(piece.border).map(|border| &border.side);
        let given = given.and_then(|side| {
            let at = detail.side.index();
            Some((*side.counts.get(at)?, *side.spacers.get(at)?))
        });
        let (count, spacer) = given.unwrap_or_default();
        let chosen = detail.fit.chosen;
        let pitch = detail.pitch / chosen.stretch;
        // A spacer that takes the rest leaves repeats as drawn as long as they have room.
        let (room, most) = match (detail.middle, spacer) {
            (Some(middle), Some(SpacerAsked::Rest)) => (detail.span - middle.centre, 1.0),
            (Some(middle), _) => (detail.span - middle.length(), f64::INFINITY),
            (None, _) => (detail.span, f64::INFINITY),
        };
        let around = |count: &Count| choices_around(room, pitch, count, AROUND);
        let free = count.with_fixed(None);
        let best = match most.is_finite() {
            true => as_drawn(&choices_around(room, pitch, &free, 1)?).copied(),
            false => choices_around(room, pitch, &free, 0)?.into_iter().next(),
        };
        let within = |stretch: f64| (stretch - 1.0).abs() <= solved.max_stretch;
        let choices = around(&count.with_fixed(chosen.repeats))?;
        let choices = choices.into_iter().map(|choice| NumberChoice {
            repeats: choice.repeats,
            stretch: choice.stretch.min(most),
            within: within(choice.stretch.min(most)),
        });
        all.push(SideChoices {
            border: piece.border,
            piece: at,
            side: detail.side,
            span: detail.span,
            depth: piece.depth,
            limit: solved.max_stretch,
            chosen: chosen.repeats,
            best: best.map_or(chosen.repeats, |best| best.repeats),
            given: count.fixed.is_some(),
            begun: piece.has_begun(),
            choices: choices.collect(),
        });
    }
    Ok(all)
}
