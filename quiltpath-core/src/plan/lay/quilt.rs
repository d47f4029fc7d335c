//! The outline of a quilt from what was measured on it.
//!
//! Three ways: width and height; four sides and one or two diagonals; corner points. Measures are
//! solved in the plan's own unit, so that messages repeat the numbers that were given.

use crate::error::{Error, PlanFault};
use crate::geom::quad::{Diagonals, QuadMeasures, Residual, sensitivity, solve_quad};
use crate::geom::{Bounds, BoxCorner, ConvexPolygon, Point};
use crate::plan::ask::{LengthSpec, PlanSpec, QuiltSpec};
use crate::units::Unit;

/// The change of a diagonal for which the moves of the corners are given: 1/8 in, about what a tape
/// measure on soft cloth leaves open; our own choice.
const SENSITIVITY_CHANGE_MM: f64 = 25.4 / 8.0;

/// What the measures of a quilt show about themselves, in millimetres.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Measured {
    /// Every measure beside what was found, sides first.
    pub residuals: Vec<Residual>,
    /// The root of the mean of the squared residuals.
    pub rms: f64,
    /// A change of a diagonal that a tape measure on soft cloth leaves open: 1/8 in.
    pub change: f64,
    /// How far each corner moves, at most, when a diagonal is by `change` longer or
    /// shorter; clockwise from the top left, the top left corner and the top side's line held.
    pub moves: [f64; 4],
}

/// The outline of a quilt along its raw edges, in millimetres.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Quilt {
    /// The corners, clockwise as seen.
    pub outline: ConvexPolygon,
    /// What the measures show about themselves, where sides and diagonals were given.
    pub measured: Option<Measured>,
}

impl Quilt {
    /// The outline that a plan asks for.
    ///
    /// # Errors
    ///
    /// A plan error with the key at fault when the keys give no outline or a length is not above
    /// 0; a geometry error when measures form no quilt or corners no convex polygon.
    pub fn of(spec: &PlanSpec) -> Result<Self, Error> {
        let unit = Unit::from(spec.unit);
        outline(&spec.quilt, unit).map_err(|e| e.in_unit(unit))
    }

    /// The smallest box, sides along the axes, that holds the quilt.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        Bounds::of_nonempty(self.outline.corners())
    }
}

fn outline(spec: &QuiltSpec, unit: Unit) -> Result<Quilt, Error> {
    let given: Vec<&'static str> = [
        ("width", spec.width.is_some()),
        ("height", spec.height.is_some()),
        ("top", spec.top.is_some()),
        ("right", spec.right.is_some()),
        ("bottom", spec.bottom.is_some()),
        ("left", spec.left.is_some()),
        ("falling", spec.falling.is_some()),
        ("rising", spec.rising.is_some()),
        ("corners", spec.corners.is_some()),
    ]
    .into_iter()
    .filter_map(|(key, given)| given.then_some(key))
    .collect();
    let positive = |length: &LengthSpec, what: &str, key: &str| {
        length
            .positive_mm(unit, what)
            .map_err(|e| e.in_element(format!("quilt.{key}")))
    };
    match (given.as_slice(), spec) {
        (
            ["width", "height"],
            QuiltSpec {
                width: Some(width),
                height: Some(height),
                ..
            },
        ) => {
            let bounds = Bounds {
                min: Point::origin(),
                max: Point::new(
                    positive(width, "the quilt's width", "width")?,
                    positive(height, "the quilt's height", "height")?,
                ),
            };
            let corners = BoxCorner::ALL.map(|corner| corner.of(bounds));
            Ok(Quilt {
                outline: ConvexPolygon::new(corners.to_vec())?,
                measured: None,
            })
        }
        (
            ["top", "right", "bottom", "left", diagonals @ ..],
            QuiltSpec {
                top: Some(top),
                right: Some(right),
                bottom: Some(bottom),
                left: Some(left),
                falling,
                rising,
                ..
            },
        ) if !diagonals.is_empty() && !diagonals.contains(&"corners") => {
            let side = |length: &LengthSpec, key: &str| {
                positive(length, &format!("the {key} side"), key).map(|mm| mm / unit.in_mm())
            };
            let diagonal = |length: &Option<LengthSpec>, key: &str| {
                length
                    .as_ref()
                    .map(|length| {
                        let what = format!("the {key} diagonal");
                        positive(length, &what, key).map(|mm| mm / unit.in_mm())
                    })
                    .transpose()
            };
            let sides = [
                side(top, "top")?,
                side(right, "right")?,
                side(bottom, "bottom")?,
                side(left, "left")?,
            ];
            let diagonals = match (diagonal(falling, "falling")?, diagonal(rising, "rising")?) {
                (Some(falling), Some(rising)) => Diagonals::Both { falling, rising },
                (Some(falling), None) => Diagonals::Falling(falling),
                (None, Some(rising)) => Diagonals::Rising(rising),
                (None, None) => return Err(keys(&given)),
            };
            measured(&QuadMeasures { sides, diagonals }, unit)
        }
        (
            ["corners"],
            QuiltSpec {
                corners: Some(corners),
                ..
            },
        ) => {
            let points = corners
                .iter()
                .map(|[x, y]| Point::new(x.mm(unit), y.mm(unit)))
                .collect();
            let outline = ConvexPolygon::new(points).map_err(|e| e.in_element("quilt.corners"))?;
            Ok(Quilt {
                outline,
                measured: None,
            })
        }
        _ => Err(keys(&given)),
    }
}

fn keys(given: &[&'static str]) -> Error {
    let given = given.to_vec();
    Error::from(PlanFault::NoOutline { given }).in_element("quilt")
}

fn measured(measures: &QuadMeasures, unit: Unit) -> Result<Quilt, Error> {
    let scale = unit.in_mm();
    let quad = solve_quad(measures).map_err(|e| e.in_element("quilt").measured_in(unit))?;
    let moves = sensitivity(measures, SENSITIVITY_CHANGE_MM / scale)?;
    let corners = quad.corners.map(|corner| corner * scale);
    let residual = |residual: &Residual| Residual {
        given: residual.given * scale,
        found: residual.found * scale,
        ..*residual
    };
    Ok(Quilt {
        outline: ConvexPolygon::new(corners.to_vec())?,
        measured: Some(Measured {
            rms: quad.rms() * scale,
            residuals: quad.residuals.iter().map(residual).collect(),
            change: SENSITIVITY_CHANGE_MM,
            moves: moves.map(|by| by * scale),
        }),
    })
}
