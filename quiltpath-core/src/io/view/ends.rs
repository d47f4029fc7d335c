//! Where the line of a drawing starts and ends, so that a page can let both be moved.

use serde::Serialize;

use crate::error::Error;
use crate::geom::{Point, Vector};
use crate::io::numbers::point_in_unit;
use crate::plan::spec::{EndSpec, StrokesSpec};
use crate::plan::{DrawnFor, DrawnLines, DrawnShape, PlanSpec};
use crate::strokes::Drawing;
use crate::transform::Transform;
use crate::units::Unit;

/// Where the line of a drawing starts and ends, where a plan may say so.
///
/// Places are in the unit of the plan, in the drawing's own coordinates at its true size: to the
/// right and down.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct EndsView {
    /// Where it starts, in the direction in which the plan takes it.
    pub start: EndView,
    /// Where it ends.
    pub end: EndView,
    /// What takes a place to the picture: a, b, c, d, e and f of SVG's `matrix`.
    pub to_picture: [f64; 6],
    /// The places where strokes end: a line that starts there often goes over less again.
    pub tips: Vec<[f64; 2]>,
}

/// One end of the line of a drawing.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct EndView {
    /// Where it is.
    pub at: [f64; 2],
    /// The key of the plan that says so, or would: `start` or `end`. It is the other one where the
    /// plan takes the line against the direction that its keys give.
    pub key: &'static str,
    /// Whether the plan says so.
    pub given: bool,
}

impl EndsView {
    /// The ends of a drawing's line on a picture with this step of its grid, in millimetres; none
    /// where strokes stay as they are drawn or are cut to an L.
    pub(super) fn of(
        plan: &PlanSpec,
        (border, role): (usize, DrawnFor),
        drawing: &Drawing,
        drawn: &DrawnLines,
        step: f64,
    ) -> Result<Option<Self>, Error> {
        let unit = Unit::from(plan.unit);
        let given = given(plan, border, role);
        let chosen = plan.borders.get(border).is_some_and(|of| {
            let (strokes, link) = match role {
                DrawnFor::Corner => (of.corner.strokes, of.corner.link_gaps),
                DrawnFor::Side => (of.side.strokes, of.side.link_gaps),
            };
            strokes == StrokesSpec::OneLine && !link
        });
        let ends = (drawn.lines.motifs.first(), drawn.lines.motifs.last());
        let (true, (Some(first), Some(last))) = (chosen, ends) else {
            return Ok(None);
        };
        if matches!(drawn.shape, DrawnShape::Cut(_)) {
            return Ok(None);
        }
        // Where nothing is given, a start that is moved is given as the start.
        let [start, end] = match drawn.backwards && given.iter().any(Option::is_some) {
            true => [1, 0],
            false => [0, 1],
        };
        let at = |point: Point| point_in_unit(point, unit);
        let view = |point: Point, key: usize| EndView {
            at: at(point),
            key: ["start", "end"][key],
            given: given[key].is_some(),
        };
        let turn = match &drawn.shape {
            DrawnShape::Legs(legs) => Transform::rotate_degrees(legs.turn_degrees),
            _ => Transform::default(),
        };
        let scale = unit.in_mm() / step;
        let [x, y] = [Vector::x(), Vector::y()].map(|way| turn.apply_vector(way) * scale);
        let strokes = drawing.points()?;
        let tips = strokes
            .iter()
            .flat_map(|points| [points.first(), points.last()]);
        let mut tips: Vec<[f64; 2]> = tips.flatten().map(|&tip| at(tip)).collect();
        tips.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
        tips.dedup();
        Ok(Some(Self {
            start: view(first.start().point, start),
            end: view(last.end().point, end),
            to_picture: [x.x, x.y, y.x, y.y, 0.0, 0.0],
            tips,
        }))
    }
}

/// What a plan says of where the line of a drawing starts and ends.
fn given(plan: &PlanSpec, border: usize, role: DrawnFor) -> [Option<&EndSpec>; 2] {
    let Some(of) = plan.borders.get(border) else {
        return [None, None];
    };
    match role {
        DrawnFor::Corner => [of.corner.start.as_ref(), of.corner.end.as_ref()],
        DrawnFor::Side => [of.side.start.as_ref(), of.side.end.as_ref()],
    }
}
