//! A drawing as a border makes it its own: the line, or lines, that the plan would take of it.

use crate::chain::Repeat;
use crate::error::{Error, PlanFault};
use crate::leg::{LegShape, choose_leg};
use crate::plan::ask::PlanSpec;
use crate::plan::asked::{CornerAsked, asked};
use crate::plan::drawings::{corner_lines, side_lines};
use crate::plan::lay::layout::layouts;
use crate::plan::lay::quilt::Quilt;
use crate::strokes::{Drawing, JoinedLines};

/// What a drawing is for in a border.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
pub enum DrawnFor {
    /// The corners.
    Corner,
    /// The sides.
    Side,
}

/// The lines that a border makes of a drawing, in the unit of the drawing.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct DrawnLines {
    /// The lines in the direction in which they are stitched, with what it took to make them.
    pub lines: JoinedLines,
    /// Whether that is against the direction of drawing.
    pub backwards: bool,
    /// How many times as large it becomes on the cloth, about: exactly where it keeps its
    /// proportions.
    pub factor: f64,
    /// What it is read as.
    pub shape: DrawnShape,
}

/// What a drawing is read as.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum DrawnShape {
    /// A repeat.
    Repeat(Repeat),
    /// An L.
    Legs(LegShape),
    /// Something that is cut to an L, whose legs are so deep.
    Cut(f64),
    /// A block that stands by itself.
    Block,
}

/// The lines that a border of a plan makes of a drawing, as [`solve()`](crate::plan::solve())
/// would, for a band as deep as the plan has it; where the plan can't be laid out yet, at the size
/// of the drawing.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::plan::{DrawnFor, DrawnShape, drawn_lines};
///
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let wave = [(20.0, 5.0), (15.0, 10.0), (5.0, 0.0), (0.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// let wave = Motif::from_points("wave", wave.to_vec())?.into();
/// let drawn = drawn_lines(&plan, 0, DrawnFor::Side, &wave)?;
/// assert!(drawn.backwards && matches!(drawn.shape, DrawnShape::Repeat(_)));
/// assert_eq!(drawn.lines.motifs[0].start().point, Point::new(0.0, 5.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A plan error where there is no such border, or a key of the plan can't be; a motif error where
/// the drawing is no line; a leg error where it is to be an L and is none; a fit error where it is
/// to be a repeat and leads nowhere.
///
/// # Complexity
///
/// That of making one line, and O(n log n) for legs.
pub fn drawn_lines(
    spec: &PlanSpec,
    border: usize,
    role: DrawnFor,
    drawing: &Drawing,
) -> Result<DrawnLines, Error> {
    let quilt = Quilt::of(spec).ok();
    let sides = quilt.as_ref().map_or(4, |quilt| quilt.outline.sides());
    let all = asked(spec, sides)?;
    let (Some(asked), Some(of)) = (all.borders.get(border), spec.borders.get(border)) else {
        return Err(PlanFault::NotThere {
            what: "border",
            number: border,
            count: spec.borders.len(),
        }
        .into());
    };
    let laid = quilt.and_then(|quilt| layouts(spec, &quilt).ok());
    let depth = laid.and_then(|laid| laid.get(border).map(|layout| layout.depth()));
    match role {
        DrawnFor::Side => {
            let (factor, lines) = side_lines(of, (asked, all.tolerances), depth, drawing)?;
            let repeat = Repeat::new(&lines.motifs[0])?;
            Ok(DrawnLines {
                backwards: repeat.is_backwards(),
                lines: turned(lines, repeat.is_backwards()),
                factor,
                shape: DrawnShape::Repeat(repeat),
            })
        }
        DrawnFor::Corner => {
            let (factor, lines) = corner_lines(of, (asked, all.tolerances), depth, drawing)?;
            let shape = match &asked.corner {
                CornerAsked::Leg { given, .. } => {
                    DrawnShape::Legs(choose_leg(&lines.motifs[0], given)?)
                }
                CornerAsked::Trimmed { cut, .. } => DrawnShape::Cut(cut.leg_depth),
                _ => DrawnShape::Block,
            };
            let backwards = matches!(&shape, DrawnShape::Legs(legs) if !legs.runs_clockwise());
            Ok(DrawnLines {
                lines: turned(lines, backwards),
                backwards,
                factor,
                shape,
            })
        }
    }
}

/// Lines in the direction of stitching.
fn turned(lines: JoinedLines, backwards: bool) -> JoinedLines {
    let motifs = lines.motifs.into_iter();
    JoinedLines {
        motifs: match backwards {
            true => motifs.map(|motif| motif.reversed()).collect(),
            false => motifs.collect(),
        },
        ..lines
    }
}
