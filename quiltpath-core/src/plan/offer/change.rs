//! A change of a plan, as data: what a page or a finding offers and a click makes.

use crate::chain::Alternate;
use crate::corner::Arrangement;
use crate::error::{Error, PlanFault};
use crate::plan::ask::{
    BorderSpec, BySide, CornerLie, CornerStyle, LengthSpec, NamedSides, PlanSpec, SideLie, in_style,
};
use crate::plan::lay::layout::layouts;
use crate::plan::lay::place::Side;
use crate::plan::lay::quilt::Quilt;
use crate::units::Unit;

/// One change of a plan. Borders count from the outermost, sides clockwise from the first, both
/// from 0; lengths in millimetres.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(
    feature = "json",
    serde(tag = "change", rename_all = "snake_case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum Change {
    /// Give sides this number of repeats, or let it be chosen again.
    Repeats {
        /// The border.
        border: usize,
        /// The sides.
        sides: Vec<usize>,
        /// The number; `None` where it is to be chosen.
        repeats: Option<usize>,
    },
    /// Give each side its own number of repeats.
    Numbers {
        /// The border.
        border: usize,
        /// A number for each side; 0 for one that stays plain.
        repeats: Vec<usize>,
    },
    /// Give opposite sides the same number of repeats, or each its own.
    Alike {
        /// The border.
        border: usize,
        /// Whether they are to be alike.
        alike: bool,
    },
    /// Make the band so deep on its deepest side, both gaps growing or shrinking alike.
    Depth {
        /// The border.
        border: usize,
        /// The depth.
        depth: f64,
    },
    /// Let the band be shallower by up to so much.
    Slack {
        /// The border.
        border: usize,
        /// How much.
        slack: f64,
    },
    /// Put the stretch of repeats into their stems, or spread it evenly.
    Ease {
        /// The border.
        border: usize,
        /// Whether stems take it.
        ease: bool,
    },
    /// Mirror repeats in another way.
    Alternate {
        /// The border.
        border: usize,
        /// The way.
        alternate: Alternate,
    },
    /// Repeat the corner drawing in another way.
    Arrange {
        /// The border.
        border: usize,
        /// The way.
        arrangement: Arrangement,
    },
    /// Let the drawings lie in another way.
    Lie {
        /// The border.
        border: usize,
        /// How the repeat lies.
        side: SideLie,
        /// How the corner lies.
        corner: CornerLie,
    },
    /// Give the corners another style; keys that it has no use for are left out.
    Style {
        /// The border.
        border: usize,
        /// The style.
        style: CornerStyle,
    },
    /// Plan so many passes more than are needed.
    MorePasses {
        /// How many.
        more: usize,
    },
}

impl Change {
    /// The plan with this change.
    ///
    /// ```
    /// use quiltpath_core::io::json::{read_plan, write_plan};
    /// use quiltpath_core::plan::Change;
    ///
    /// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
    ///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
    /// let five = Change::Repeats { border: 0, sides: vec![0, 2], repeats: Some(5) };
    /// let text = write_plan(&five.apply(&plan)?);
    /// assert!(text.replace([' ', '\n'], "").contains(r#""repeats":{"top":5,"bottom":5}"#));
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A plan error where the plan has no such border or side, or its outline or widths can't be.
    pub fn apply(&self, plan: &PlanSpec) -> Result<PlanSpec, Error> {
        let mut plan = plan.clone();
        match self {
            Self::Repeats {
                border,
                sides,
                repeats,
            } => {
                let count = Quilt::of(&plan)?.outline.sides();
                let border = of(&mut plan, *border)?;
                let mut numbers = each(&border.side.repeats, count);
                for &side in sides {
                    let given = (side + 1).to_string();
                    let missing = || PlanFault::NoSuchSide { given, count };
                    *numbers.get_mut(side).ok_or_else(missing)? = *repeats;
                }
                border.side.repeats = by_side(numbers);
            }
            Self::Numbers { border, repeats } => {
                let border = of(&mut plan, *border)?;
                border.side.opposite_alike = false;
                border.side.repeats = by_side(
                    repeats
                        .iter()
                        .map(|&number| (number > 0).then_some(number))
                        .collect(),
                );
            }
            Self::Alike { border, alike } => {
                of(&mut plan, *border)?.side.opposite_alike = *alike;
            }
            Self::Depth { border, depth } => return at_depth(plan, *border, *depth),
            Self::Slack { border, slack } => {
                let unit = Unit::from(plan.unit);
                let border = of(&mut plan, *border)?;
                border.slack = (*slack > 0.0).then(|| written(*slack, unit));
            }
            Self::Ease { border, ease } => of(&mut plan, *border)?.side.ease = *ease,
            Self::Alternate { border, alternate } => {
                of(&mut plan, *border)?.side.alternate = *alternate;
            }
            Self::Arrange {
                border,
                arrangement,
            } => of(&mut plan, *border)?.corner.arrangement = Some(*arrangement),
            Self::Lie {
                border,
                side,
                corner,
            } => {
                let border = of(&mut plan, *border)?;
                (border.side.lie, border.corner.lie) = (*side, *corner);
            }
            Self::Style { border, style } => {
                let corner = &mut of(&mut plan, *border)?.corner;
                *corner = in_style(corner, *style);
            }
            Self::MorePasses { more } => {
                let machine = plan.machine.take().unwrap_or_default();
                plan.machine = Some(machine.with_more_passes(*more));
            }
        }
        Ok(plan)
    }
}

/// A length as a number in the plan's unit, without the dust of its change of unit.
fn written(mm: f64, unit: Unit) -> LengthSpec {
    LengthSpec::from(Unit::Mm.change(mm, unit))
}

fn of(plan: &mut PlanSpec, border: usize) -> Result<&mut BorderSpec, Error> {
    let missing = PlanFault::NotThere {
        what: "border",
        number: border,
        count: plan.borders.len(),
    };
    Ok(plan.borders.get_mut(border).ok_or(missing)?)
}

/// The numbers of each side.
fn each(repeats: &Option<BySide<usize>>, count: usize) -> Vec<Option<usize>> {
    let get = |side| repeats.as_ref().and_then(|repeats| repeats.get(side));
    Side::all(count).map(|side| get(side).copied()).collect()
}

/// The numbers of all sides, as shortly as they can be said.
fn by_side(numbers: Vec<Option<usize>>) -> Option<BySide<usize>> {
    let first = numbers.first().copied().flatten();
    if numbers.iter().all(|&number| number == first) {
        return first.map(BySide::One);
    }
    Some(match numbers[..] {
        [top, right, bottom, left] => BySide::Named(NamedSides {
            top,
            right,
            bottom,
            left,
        }),
        _ => BySide::List(numbers),
    })
}

fn at_depth(mut plan: PlanSpec, border: usize, depth: f64) -> Result<PlanSpec, Error> {
    let unit = Unit::from(plan.unit);
    let laid = layouts(&plan, &Quilt::of(&plan)?)?;
    let spec = of(&mut plan, border)?;
    let Some(layout) = laid.get(border) else {
        return Ok(plan);
    };
    let edge_gap = layout.widths[0].edge_gap;
    let grown = (layout.depth() - depth) / 2.0;
    let gap = |gap: f64| Some(written((gap + grown).max(0.0), unit));
    (spec.seam_gap, spec.edge_gap) = (gap(layout.seam_gap), gap(edge_gap));
    Ok(plan)
}
