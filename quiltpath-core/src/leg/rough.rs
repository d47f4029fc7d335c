//! Where the legs of a drawing lie, before its strokes are one line.
//!
//! Problem: how finely curves have to be followed goes by how large the drawing becomes on the
//! cloth, and a corner is sized by its legs; where the one line has to start and end goes by them
//! too. Method: a drawing that is one line as it is drawn is read as such; of any other the empty
//! inner corner is the greatest empty rectangle in a corner of the box of all strokes. Failure
//! cases: no corner is empty; a drawing of several strokes that isn't square and whose turn isn't
//! given is read as it lies.

use super::analyse::choose_leg;
use super::empty_corner::empty_corner;
use super::given::LegGiven;
use super::reading::MIN_SHARE;
use crate::geom::{Bounds, BoxCorner, Point};
use crate::strokes::{Drawing, Gaps, LegEnds, OneLineOptions};
use crate::transform::Transform;

/// The L in a drawing of any number of strokes, in the unit of the drawing; `None` where the
/// drawing can't be read as one.
///
/// Curves are followed as finely as the drawing's size asks for, so depths are true to a thousandth
/// or so. What is given wins over what is measured.
///
/// ```
/// use quiltpath_core::leg::{LegGiven, rough_legs};
/// use quiltpath_core::strokes::{Drawing, Stroke};
///
/// let path = kurbo::BezPath::from_svg("M9 1 L7 0 L5 2 L3 0 L0 2 M0 2 L2 4 L0 6 L1 8 M 5 2 V 1").unwrap();
/// let drawing = Drawing::new("zigzag", vec![Stroke::new("a", path)]);
/// let legs = rough_legs(&drawing, &LegGiven::default()).unwrap();
/// assert_eq!((legs.depth_horizontal, legs.depth_vertical), (2.0, 2.0));
/// ```
///
/// # Complexity
///
/// O(n log n) for n points; as [`choose_leg`] for a drawing that is one line as it is drawn.
#[must_use]
pub fn rough_legs(drawing: &Drawing, given: &LegGiven) -> Option<LegEnds> {
    let as_drawn = OneLineOptions::default().with_gaps(Gaps::Refuse);
    let line = drawing.one_line(&as_drawn).ok();
    let shape = line.and_then(|line| choose_leg(&line.motif, given).ok());
    if let Some(shape) = shape {
        return Some(LegEnds {
            elbow: shape.elbow,
            depth_horizontal: shape.depth_horizontal,
            depth_vertical: shape.depth_vertical,
            turn_degrees: shape.turn_degrees,
        });
    }
    of_strokes(drawing.points().ok()?, given)
}

fn of_strokes(mut strokes: Vec<Vec<Point>>, given: &LegGiven) -> Option<LegEnds> {
    let turn_degrees = given.turn_degrees.unwrap_or(0.0);
    if !turn_degrees.is_finite() {
        return None;
    }
    if turn_degrees != 0.0 {
        let turn = Transform::rotate_degrees(turn_degrees);
        strokes.iter_mut().for_each(|points| turn.apply_all(points));
    }
    let boxes = strokes.iter().filter(|points| !points.is_empty());
    let boxes = boxes.map(|points| Bounds::of_nonempty(points));
    let bounds = boxes.reduce(|one, other| one.union(&other))?;
    let lines: Vec<&[Point]> = strokes.iter().map(Vec::as_slice).collect();
    let legs = |elbow: BoxCorner| {
        let empty = empty_corner(&lines, elbow.opposite().of(bounds));
        let share = empty.width * empty.height / (bounds.width() * bounds.height());
        let legs = LegEnds {
            elbow,
            depth_horizontal: given
                .depth_horizontal
                .unwrap_or(bounds.height() - empty.height),
            depth_vertical: given.depth_vertical.unwrap_or(bounds.width() - empty.width),
            turn_degrees,
        };
        (share, legs)
    };
    let allowed = BoxCorner::ALL
        .into_iter()
        .filter(|elbow| given.elbow.is_none_or(|given| given == *elbow));
    let read = allowed.map(legs).filter(|(share, legs)| {
        let depths = [legs.depth_horizontal, legs.depth_vertical];
        let deep = depths.iter().all(|depth| *depth > 0.0 && depth.is_finite());
        deep && *share >= MIN_SHARE
    });
    let best = read.max_by(|a, b| a.0.total_cmp(&b.0));
    best.map(|(_, legs)| legs)
}
