//! The outline of a quilt from what was measured on it.
//!
//! Three ways: width and height; four sides and up to two diagonals; corner points. Without a
//! diagonal the quilt nearest to square is taken. One diagonal can't be checked by the sides, but
//! one that makes the quilt lean is refused; of two diagonals and four sides that disagree the one
//! at fault is named. Measures are solved in the plan's own unit, so that messages repeat the
//! numbers that were given.

use crate::error::{Error, PlanFault};
use crate::geom::near_square::{near_square, odd_one_out};
use crate::geom::quad::{Diagonals, NAMES, Quad, QuadMeasures, Residual, sensitivity, solve_quad};
use crate::geom::{Bounds, BoxCorner, ConvexPolygon, Point, Round, Scallops};
use crate::plan::ask::{LengthSpec, PlanSpec, QuiltSpec};
use crate::plan::practice::{LEAN_DEGREES, MISREAD_MM};
use crate::units::Unit;

/// The change of a diagonal for which the moves of the corners are given: 1/8 in, about what a tape
/// measure on soft cloth leaves open; our own choice.
const SENSITIVITY_CHANGE_MM: f64 = 25.4 / 8.0;

/// The same where no diagonal was measured: 1/2 in, what a quilt may well be out of square.
const UNMEASURED_CHANGE_MM: f64 = 25.4 / 2.0;

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
    /// What stands in for the diagonals where none was measured.
    pub squarest: Option<Squarest>,
}

/// The diagonals of the quilt that is nearest to square of all that have the sides measured.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Squarest {
    /// The falling and the rising diagonal.
    pub diagonals: [f64; 2],
    /// A change of a diagonal that nobody sees without measuring it: 1/2 in.
    pub change: f64,
    /// How far a corner moves, at most, when a diagonal is by `change` longer or shorter.
    pub moves: f64,
}

/// The outline of a quilt along its raw edges, in millimetres.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Quilt {
    /// The corners, clockwise as seen.
    pub outline: ConvexPolygon,
    /// What the measures show about themselves, where sides and diagonals were given.
    pub measured: Option<Measured>,
    /// The raw edge, where it is round; the outline is then the box about it, or the polygon whose
    /// corners are rounded.
    pub round: Option<Round>,
    /// The scallops that a round edge is cut in, their crowns on it.
    pub scallops: Option<Scallops>,
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
        let quilt = outline(&spec.quilt, unit)
            .and_then(|quilt| rounded(quilt, &spec.quilt, unit))
            .and_then(|quilt| scalloped(quilt, &spec.quilt, unit));
        quilt.map_err(|e| e.in_unit(unit))
    }

    /// Whether the raw edge is round everywhere, as a circle or an ellipse is.
    pub(in crate::plan) fn is_oval(&self) -> bool {
        let straight = self
            .round
            .as_ref()
            .is_some_and(|round| !round.breaks().is_empty());
        self.round.is_some() && !straight
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
        ("circle", spec.circle.is_some()),
        ("ellipse", spec.ellipse.is_some()),
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
                round: None,
                scallops: None,
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
        ) if !diagonals.contains(&"corners") => {
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
                (None, None) => return squarest(sides, unit),
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
                round: None,
                scallops: None,
            })
        }
        (
            ["circle"],
            QuiltSpec {
                circle: Some(circle),
                ..
            },
        ) => {
            let diameter = positive(&circle.diameter, "the diameter", "circle.diameter")?;
            oval([diameter, diameter])
        }
        (
            ["ellipse"],
            QuiltSpec {
                ellipse: Some(ellipse),
                ..
            },
        ) => oval([
            positive(&ellipse.width, "the quilt's width", "ellipse.width")?,
            positive(&ellipse.height, "the quilt's height", "ellipse.height")?,
        ]),
        _ => Err(keys(&given)),
    }
}

/// A circle or an ellipse of this width and height, in its box.
fn oval([width, height]: [f64; 2]) -> Result<Quilt, Error> {
    let bounds = Bounds {
        min: Point::origin(),
        max: Point::new(width, height),
    };
    let corners = BoxCorner::ALL.map(|corner| corner.of(bounds));
    Ok(Quilt {
        outline: ConvexPolygon::new(corners.to_vec())?,
        measured: None,
        round: Some(Round::ellipse(
            bounds.centre(),
            [width / 2.0, height / 2.0],
        )?),
        scallops: None,
    })
}

/// The quilt with its corners rounded, where the plan asks for it.
fn rounded(quilt: Quilt, spec: &QuiltSpec, unit: Unit) -> Result<Quilt, Error> {
    let Some(radius) = &spec.rounding else {
        return Ok(quilt);
    };
    let in_key = |e: Error| e.in_element("quilt.rounding");
    if quilt.round.is_some() {
        return Err(in_key(PlanFault::RoundTwice.into()));
    }
    let radius = radius
        .positive_mm(unit, "the radius of the corners")
        .map_err(in_key)?;
    let round = Round::rounded(&quilt.outline, radius).map_err(in_key)?;
    Ok(Quilt {
        round: Some(round),
        ..quilt
    })
}

/// The quilt with its edge cut in scallops, where the plan asks for it.
fn scalloped(quilt: Quilt, spec: &QuiltSpec, unit: Unit) -> Result<Quilt, Error> {
    let Some(asked) = &spec.scallops else {
        return Ok(quilt);
    };
    let scallops = || {
        let depth = asked
            .depth
            .positive_mm(unit, "the depth of the scallops")
            .map_err(|e| e.in_element("depth"))?;
        let round = quilt.round.as_ref().ok_or(PlanFault::ScallopsSharp)?;
        Scallops::new(round, asked.count, depth)
    };
    let scallops = scallops().map_err(|e| e.in_element("quilt.scallops"))?;
    Ok(Quilt {
        scallops: Some(scallops),
        ..quilt
    })
}

fn keys(given: &[&'static str]) -> Error {
    let given = given.to_vec();
    Error::from(PlanFault::NoOutline { given }).in_element("quilt")
}

/// The outline by four sides and one or two diagonals.
fn measured(measures: &QuadMeasures, unit: Unit) -> Result<Quilt, Error> {
    let in_quilt = |e: Error| e.in_element("quilt").measured_in(unit);
    let quad = solve_quad(measures).map_err(in_quilt)?;
    trusted(measures, &quad, unit).map_err(|e| e.in_element("quilt"))?;
    laid_out(measures, &quad, None, unit)
}

/// The outline nearest to square of all with these four sides.
fn squarest(sides: [f64; 4], unit: Unit) -> Result<Quilt, Error> {
    let in_quilt = |e: Error| e.in_element("quilt").measured_in(unit);
    let near = near_square(sides).map_err(in_quilt)?;
    let diagonals = Diagonals::Falling(near.diagonals[0]);
    let measures = QuadMeasures { sides, diagonals };
    let mut quad = solve_quad(&measures).map_err(in_quilt)?;
    // Its diagonal was not measured.
    quad.residuals.truncate(sides.len());
    let scale = unit.in_mm();
    let moves = sensitivity(&measures, UNMEASURED_CHANGE_MM / scale)?;
    let squarest = Squarest {
        diagonals: near.diagonals.map(|length| length * scale),
        change: UNMEASURED_CHANGE_MM,
        moves: moves.into_iter().fold(0.0, f64::max) * scale,
    };
    laid_out(&measures, &quad, Some(squarest), unit)
}

/// Checks that measures can be those of one quilt.
fn trusted(measures: &QuadMeasures, quad: &Quad, unit: Unit) -> Result<(), Error> {
    let scale = unit.in_mm();
    let one = match measures.diagonals {
        Diagonals::Falling(falling) => (0, falling),
        Diagonals::Rising(rising) => (1, rising),
        Diagonals::Both { .. } => return agreeing(quad, scale),
    };
    let (which, given) = one;
    let between = near_square(measures.sides)?.ranges(LEAN_DEGREES)[which];
    if (between[0]..=between[1]).contains(&given) {
        return Ok(());
    }
    let what = NAMES[4 + which];
    let (given, between) = (given * scale, between.map(|length| length * scale));
    Err(PlanFault::DiagonalUnlikely {
        what,
        given,
        between,
    }
    .into())
}

/// Checks that six measures are near enough to one another.
fn agreeing(quad: &Quad, scale: f64) -> Result<(), Error> {
    let off = |residual: &&Residual| residual.off().abs();
    let worst = quad
        .residuals
        .iter()
        .max_by(|a, b| off(a).total_cmp(&off(b)));
    let Some(worst) = worst.filter(|worst| off(worst) * scale > MISREAD_MM) else {
        return Ok(());
    };
    let given: Vec<f64> = quad
        .residuals
        .iter()
        .map(|residual| residual.given)
        .collect();
    let odd = <[f64; 6]>::try_from(given).ok().and_then(odd_one_out);
    let fault = match odd {
        Some((at, implied)) => PlanFault::MeasureOff {
            what: NAMES[at],
            given: quad.residuals[at].given * scale,
            implied: implied * scale,
        },
        None => PlanFault::MeasuresApart {
            what: worst.what,
            given: worst.given * scale,
            found: worst.found * scale,
        },
    };
    Err(fault.into())
}

fn laid_out(
    measures: &QuadMeasures,
    quad: &Quad,
    squarest: Option<Squarest>,
    unit: Unit,
) -> Result<Quilt, Error> {
    let scale = unit.in_mm();
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
            squarest,
        }),
        round: None,
        scallops: None,
    })
}
