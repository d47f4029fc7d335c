//! How deep the legs of a drawing are, before it is known how finely its curves are to be followed.

use super::analyse::choose_leg;
use super::given::LegGiven;
use crate::strokes::{Drawing, Gaps, OneLineOptions};

/// The depth of the less deep leg of a drawn L, in the unit of the drawing; `None` where the drawing
/// can't be read as one.
///
/// Curves are followed as finely as the drawing's size asks for, so the depth is true to a
/// thousandth or so: enough to tell how large the drawing becomes on the cloth, and so how finely
/// its curves have to be followed there.
///
/// ```
/// use quiltpath_core::leg::{LegGiven, rough_leg_depth};
/// use quiltpath_core::strokes::{Drawing, Stroke};
///
/// let path = kurbo::BezPath::from_svg("M9 1 L7 0 L5 2 L3 0 L0 2 L2 4 L0 6 L1 8").unwrap();
/// let drawing = Drawing::new("zigzag", vec![Stroke::new("a", path)]);
/// assert_eq!(rough_leg_depth(&drawing, &LegGiven::default()), Some(2.0));
/// ```
///
/// # Complexity
///
/// As [`choose_leg`].
#[must_use]
pub fn rough_leg_depth(drawing: &Drawing, given: &LegGiven) -> Option<f64> {
    let rough = OneLineOptions::default().with_gaps(Gaps::Link);
    let line = drawing.one_line(&rough).ok()?;
    let shape = choose_leg(&line.motif, given).ok()?;
    Some(shape.depth_horizontal.min(shape.depth_vertical))
}
