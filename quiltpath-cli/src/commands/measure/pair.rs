//! A repeat and a corner that are measured together: whether they join better another way.

use std::path::Path;

use quiltpath_core::Error;
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::words;
use quiltpath_core::leg::is_clear_l;
use quiltpath_core::plan::spec::{
    BorderSpec, CornerSpec, CornerStyle, QuiltSpec, SideSpec, UnitSpec,
};
use quiltpath_core::plan::{PlanSpec, best_way};
use quiltpath_core::strokes::Drawing;
use quiltpath_core::units::Unit;

use crate::files::read;

/// Width and height of the quilt and the width of its border on which the two are tried, in inches:
/// how ends meet doesn't depend on them.
const TRIED: [f64; 3] = [60.0, 80.0, 6.0];

/// What there is to say of two drawings of which one is an L and the other is none; nothing where
/// they can't be read, which is said elsewhere, or where nothing is better than as drawn.
pub(super) fn pair(paths: &[impl AsRef<Path>; 2], options: &ReadOptions) -> Option<String> {
    let seen = |path: &Path| -> Option<(Drawing, bool, Unit)> {
        // What there is to note of it was noted when it was measured.
        let name = path.to_string_lossy();
        let drawing = LineDrawing::read(&name, &read(path).ok()?, options).ok()?;
        let unit = drawing.unit();
        let reading = drawing.line_options(Unit::Mm, options);
        let strokes = drawing.strokes(Unit::Mm).ok()?;
        let is_l = is_clear_l(&strokes.one_line(&reading).ok()?.motif);
        Some((strokes, is_l, unit))
    };
    let [one, other] = paths.each_ref().map(|path| seen(path.as_ref()));
    let ((one, one_is_l, unit), (other, other_is_l, _)) = (one?, other?);
    let (side, corner, order) = match (one_is_l, other_is_l) {
        (false, true) => (one, other, [0, 1]),
        (true, false) => (other, one, [1, 0]),
        _ => return None,
    };
    let told = together(side, corner, unit).ok()??;
    let [side, corner] = order.map(|at| paths[at].as_ref().display());
    Some(format!(
        "{side} with {corner}: join better another way\n  best       {told}\n"
    ))
}

fn together(side: Drawing, corner: Drawing, unit: Unit) -> Result<Option<String>, Error> {
    let [width, height, border] = TRIED;
    let corners = CornerSpec::new(CornerStyle::Leg).with_motif("corner");
    let border = BorderSpec::new(border, corners, SideSpec::new("side"));
    let quilt = QuiltSpec::rectangle(width, height);
    let plan = PlanSpec::new(UnitSpec::In, quilt).with_borders([border]);
    let best = best_way(&plan, 0, false, |request| {
        Ok(match request.name.as_str() {
            "corner" => corner.clone(),
            _ => side.clone(),
        })
    })?;
    Ok(words::way_told(&best, unit))
}
