//! A line with a start and an end, as JavaScript has it.

use quiltpath_core::fit::{Count, fit_span as fit};
use quiltpath_core::geom::Point;
use quiltpath_core::geom::region::Region;
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::leg::{LegGiven, choose_leg};
use quiltpath_core::motif::Motif as CoreMotif;
use quiltpath_core::stitch::job::{JobOptions, stitch_lines};
use quiltpath_core::transform::Transform;
use quiltpath_core::trim::{TrimOptions, trim_to_region};
use quiltpath_core::units::Unit;
use serde_json::json;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::fault::thrown;
use crate::panic::keep_panics;
use crate::small::unit;
use crate::worksheet::object;

/// A drawn design as one open polyline, with a start and an end; x to the right, y down.
///
/// Points are a `Float64Array` of x and y by turns. Nothing is changed in place. Call `free` when
/// it is needed no more.
#[wasm_bindgen]
#[derive(Debug, Clone)]
pub struct Motif {
    motif: CoreMotif,
}

/// Points from x and y by turns.
fn points(flat: &[f64]) -> Vec<Point> {
    flat.chunks_exact(2)
        .map(|pair| Point::new(pair[0], pair[1]))
        .collect()
}

#[wasm_bindgen]
impl Motif {
    /// A motif through these points, x and y by turns.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` of the kind `geometry` for points that are no line.
    #[wasm_bindgen(js_name = fromPoints)]
    pub fn from_points(name: &str, flat: &[f64]) -> Result<Motif, JsValue> {
        keep_panics();
        let motif = CoreMotif::from_points(name, points(flat)).map_err(thrown)?;
        Ok(Self { motif })
    }

    /// The one line of a drawing, in this unit (`in`, `cm` or `mm`): SVG, DXF or JSON, or a PNG or
    /// JPEG picture; `file` is its name.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` that says where the drawing is wrong.
    #[wasm_bindgen(js_name = fromDrawing)]
    pub fn from_drawing(file: &str, bytes: &[u8], in_unit: &str) -> Result<Motif, JsValue> {
        keep_panics();
        let own = unit(in_unit).map_err(thrown)?;
        let options = ReadOptions::default().with_unit(Some(own));
        let drawing = LineDrawing::read(file, bytes, &options).map_err(thrown)?;
        let line = drawing.motif(own, &options).map_err(thrown)?;
        Ok(Self { motif: line.motif })
    }

    /// Its name.
    #[wasm_bindgen(getter)]
    #[must_use]
    pub fn name(&self) -> String {
        self.motif.name().to_owned()
    }

    /// Its points, x and y by turns.
    #[must_use]
    pub fn points(&self) -> Vec<f64> {
        let points = self.motif.points().iter();
        points.flat_map(|point| [point.x, point.y]).collect()
    }

    /// Its length.
    #[wasm_bindgen(getter)]
    #[must_use]
    pub fn length(&self) -> f64 {
        self.motif.length()
    }

    /// The box round it: least x, least y, greatest x, greatest y.
    #[must_use]
    pub fn bounds(&self) -> Vec<f64> {
        let bounds = self.motif.bounds();
        vec![bounds.min.x, bounds.min.y, bounds.max.x, bounds.max.y]
    }

    /// Moved, turned, mirrored, sized by the six numbers of an SVG `matrix`: x becomes
    /// a·x + c·y + e, y becomes b·x + d·y + f.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` of the kind `geometry` for numbers that leave no line.
    pub fn transformed(
        &self,
        a: f64,
        b: f64,
        c: f64,
        d: f64,
        e: f64,
        f: f64,
    ) -> Result<Motif, JsValue> {
        let transform = Transform::new([a, b, c, d, e, f]);
        let motif = self.motif.transformed(&transform).map_err(thrown)?;
        Ok(Self { motif })
    }

    /// Travelled the other way.
    #[must_use]
    pub fn reversed(&self) -> Motif {
        let motif = self.motif.clone().reversed();
        Self { motif }
    }

    /// Cut to a polygon, corners as x and y by turns, and joined again along its border: one motif,
    /// or several where a thread cut is needed.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` where nothing is left, or for a polygon that is none.
    pub fn trimmed(&self, polygon: &[f64]) -> Result<Vec<Motif>, JsValue> {
        let region = Region::new(points(polygon)).map_err(thrown)?;
        let options = TrimOptions::default();
        let cut = trim_to_region(&self.motif, &region, &options).map_err(thrown)?;
        Ok(cut.motifs.into_iter().map(|motif| Self { motif }).collect())
    }

    /// Its legs, where it is an L.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` of the kind `leg` where it is none.
    #[wasm_bindgen(unchecked_return_type = "Legs")]
    pub fn legs(&self) -> Result<JsValue, JsValue> {
        let shape = choose_leg(&self.motif, &LegGiven::default()).map_err(thrown)?;
        let legs = json!({
            "elbow": shape.elbow.name(),
            "turnDegrees": shape.turn_degrees,
            "depthHorizontal": shape.depth_horizontal,
            "depthVertical": shape.depth_vertical,
        });
        object(&legs.to_string())
    }

    /// Its needle points as a usual machine makes them, x and y by turns; its points are in this
    /// unit (`in`, `cm` or `mm`).
    ///
    /// # Errors
    ///
    /// Throws a `Fault` for a line that takes too many stitches.
    pub fn stitches(&self, in_unit: &str) -> Result<Vec<f64>, JsValue> {
        let own = unit(in_unit).map_err(thrown)?;
        let factor = own.in_mm();
        let mm = self
            .motif
            .transformed(&Transform::scale(factor, factor))
            .map_err(thrown)?;
        let job = stitch_lines([&mm], &JobOptions::new(Unit::Mm)).map_err(thrown)?;
        let points = job.lines[0].points();
        Ok(points
            .iter()
            .flat_map(|at| [at.x / factor, at.y / factor])
            .collect())
    }
}

/// The whole number of repeats that fills a span with the least stretch, with its neighbours;
/// `pitch` is the length of one repeat at its proportions.
///
/// # Errors
///
/// Throws a `Fault` of the kind `fit` for lengths that no repeat fills.
#[wasm_bindgen(js_name = fitSpan, unchecked_return_type = "SpanFit")]
pub fn fit_span(span: f64, pitch: f64) -> Result<JsValue, JsValue> {
    let fit = fit(span, pitch, &Count::default()).map_err(thrown)?;
    let choice = |choice: quiltpath_core::fit::Choice| json!({"repeats": choice.repeats, "stretch": choice.stretch});
    let fit = json!({
        "chosen": choice(fit.chosen),
        "fewer": fit.fewer.map(choice),
        "more": fit.more.map(choice),
    });
    object(&fit.to_string())
}
