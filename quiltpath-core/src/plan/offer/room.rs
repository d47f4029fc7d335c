//! How much room a border gives its band: what is used, and between what it may be chosen.

use crate::error::Error;
use crate::plan::ask::PlanSpec;
use crate::plan::asked::asked;
use crate::plan::practice::BINDING_MM;
use crate::plan::solved::Solved;

/// The least depth that is offered, as a share of the border's width: our own choice.
const LEAST_DEPTH: f64 = 2.0 / 3.0;

/// The most slack that is offered, as a share of the depth: our own choice.
const MOST_SLACK: f64 = 0.25;

/// The room of one border for its band, on its deepest side. Lengths in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct BorderRoom {
    /// The number of the border, from the outermost, from 0.
    pub border: usize,
    /// The width of the side whose band is deepest.
    pub width: f64,
    /// What the plan keeps free at the seam.
    pub seam_gap: f64,
    /// What the plan keeps free at the outer edge.
    pub edge_gap: f64,
    /// The depth that the gaps leave.
    pub full: f64,
    /// The depth of the band as it is used; less than the full one where slack is taken.
    pub depth: f64,
    /// By how much the band may be shallower, as the plan allows.
    pub slack: f64,
    /// The least depth to offer; no more than the full one.
    pub least: f64,
    /// The most depth to offer, nothing being stitched over the seam or under the binding; no less
    /// than the full one.
    pub most: f64,
    /// The most slack to offer.
    pub most_slack: f64,
    /// Whether any of the border is stitched, so that its depth stays.
    pub begun: bool,
}

/// The room of each border for its band.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::plan::{border_rooms, solve};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let room = border_rooms(&plan, &solve(&plan, wave)?)?[0];
/// let inches = [room.least, room.depth, room.most].map(|mm| (mm / 25.4 * 1e6).round() / 1e6);
/// assert_eq!(inches, [4.0, 5.25, 5.75]);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`solve()`](crate::plan::solve()) for keys of the plan.
pub fn border_rooms(spec: &PlanSpec, solved: &Solved) -> Result<Vec<BorderRoom>, Error> {
    let asked = asked(spec, solved.quilt.outline.sides()).map_err(|e| e.in_unit(solved.unit))?;
    let borders = solved.layouts.iter().zip(&asked.borders);
    let rooms = borders.map(|(layout, asked)| {
        let depths = layout.depths();
        let depth = layout.depth();
        let deepest = depths.iter().position(|&one| one == depth).unwrap_or(0);
        let used = layout.widths[deepest];
        let grown = used.seam_gap - layout.seam_gap;
        let edge_gap = used.edge_gap - grown;
        let full = used.width - layout.seam_gap - edge_gap;
        // Gaps shrink alike, until one of them reaches the seam or what the binding covers.
        let at_edge = if asked.index == 0 { BINDING_MM } else { 0.0 };
        let spare = layout.seam_gap.min(edge_gap - at_edge).max(0.0);
        BorderRoom {
            border: asked.index,
            width: used.width,
            seam_gap: layout.seam_gap,
            edge_gap,
            full,
            depth,
            slack: asked.slack,
            least: (LEAST_DEPTH * used.width).min(full),
            most: full + 2.0 * spare,
            most_slack: (MOST_SLACK * full).max(asked.slack),
            begun: (solved.pieces.iter())
                .any(|piece| piece.border == asked.index && piece.has_begun()),
        }
    });
    Ok(rooms.collect())
}
