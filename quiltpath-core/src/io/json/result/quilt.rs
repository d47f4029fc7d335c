//! The quilt and the bands of its borders in `result.json`.

use serde::{Deserialize, Serialize};

use crate::geom::Point;
use crate::io::numbers::{in_unit, point_in_unit};
use crate::plan;
use crate::units::Unit;

/// The outline of the quilt along its raw edges.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Quilt {
    /// The width of the box that holds it.
    pub width: f64,
    /// The height of the box that holds it.
    pub height: f64,
    /// Its corners, clockwise as seen.
    pub corners: Vec<[f64; 2]>,
    /// How well the measures agree, where sides and diagonals were given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured: Option<Measured>,
}

/// How well the measures of a quilt agree.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Measured {
    /// Every measure beside what was found, sides first.
    pub measures: Vec<Measure>,
    /// The root of the mean of the squared differences.
    pub rms: f64,
    /// How far each corner moves when a diagonal is 1/8 in longer or shorter, clockwise from the
    /// top left; `None` where no quilt is left.
    pub moves_by_eighth_inch: [Option<f64>; 4],
}

/// One measure of a quilt.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Measure {
    /// What was measured, such as `the top side`.
    pub what: String,
    /// The length that was given.
    pub given: f64,
    /// The length that it is taken as.
    pub found: f64,
}

/// A border's band: the part that may be stitched.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Band {
    /// The name of the border.
    pub border: String,
    /// The depth on the deepest side.
    pub depth: f64,
    /// The depth on each side, clockwise from the first.
    pub depths: Vec<f64>,
    /// The inner line, clockwise, the first point not repeated.
    pub inner: Vec<[f64; 2]>,
    /// The outer line, clockwise, the first point not repeated.
    pub outer: Vec<[f64; 2]>,
    /// The inner seam of the border, likewise.
    #[serde(default)]
    pub seam: Vec<[f64; 2]>,
    /// The outer edge of the border's fabric, likewise: the raw edge, or the seam to the border
    /// outside.
    #[serde(default)]
    pub edge: Vec<[f64; 2]>,
}

impl Quilt {
    pub(super) fn of(quilt: &plan::Quilt, unit: Unit) -> Self {
        let length = |mm: f64| in_unit(mm, unit);
        let bounds = quilt.bounds();
        let corners = quilt.outline.corners().iter();
        Self {
            width: length(bounds.width()),
            height: length(bounds.height()),
            corners: corners.map(|&corner| point_in_unit(corner, unit)).collect(),
            measured: quilt
                .measured
                .as_ref()
                .map(|measured| Measured::of(measured, unit)),
        }
    }
}

/// A place in the field of blocks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Spot {
    /// Its name, such as `block r3 c2`.
    pub place: String,
    /// Its corners along the seams, clockwise, the first point not repeated.
    pub corners: Vec<[f64; 2]>,
}

impl Spot {
    pub(super) fn of(spot: &plan::FieldSpot, unit: Unit) -> Self {
        let corners = spot.corners.iter();
        Self {
            place: spot.place.to_string(),
            corners: corners.map(|&corner| point_in_unit(corner, unit)).collect(),
        }
    }
}

impl Measured {
    fn of(measured: &plan::Measured, unit: Unit) -> Self {
        let length = |mm: f64| in_unit(mm, unit);
        let residuals = measured.residuals.iter();
        Self {
            measures: residuals
                .map(|residual| Measure {
                    what: residual.what.to_owned(),
                    given: length(residual.given),
                    found: length(residual.found),
                })
                .collect(),
            rms: length(measured.rms),
            moves_by_eighth_inch: measured.moves.map(|by| by.is_finite().then(|| length(by))),
        }
    }
}

impl Band {
    pub(super) fn of(layout: &plan::Layout, unit: Unit) -> Self {
        let length = |mm: f64| in_unit(mm, unit);
        let polygon = |corners: &[Point]| {
            let corners = corners.iter().map(|&corner| point_in_unit(corner, unit));
            corners.collect()
        };
        Self {
            border: layout.name.clone(),
            depth: length(layout.depth()),
            depths: layout.depths().into_iter().map(length).collect(),
            inner: polygon(&layout.lines.inner),
            outer: polygon(&layout.lines.outer),
            seam: polygon(&layout.lines.seam),
            edge: polygon(&layout.lines.edge),
        }
    }
}
