//! Where the bands of a quilt's borders lie: rectangles from sizes, widths and gaps.
//!
//! Millimetres; the origin is the quilt's top left raw edge corner, x to the right, y down.

use super::spec::{BorderSpec, PlanSpec};
use crate::error::{Error, PlanFault};
use crate::geom::region::{Region, Ring};
use crate::geom::{Bounds, Point, Vector};
use crate::units::Unit;
use crate::warp::Strip;

const QUARTER_INCH: f64 = 6.35;
const HALF_INCH: f64 = 12.7;

/// One of the four sides of a ring.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// Along least y, travelled to the right.
    Top,
    /// Along greatest x, travelled down.
    Right,
    /// Along greatest y, travelled to the left.
    Bottom,
    /// Along least x, travelled up.
    Left,
}

impl Side {
    /// The four sides clockwise from the top; each follows the corner of the same number.
    pub const ALL: [Self; 4] = [Self::Top, Self::Right, Self::Bottom, Self::Left];

    /// The name in data: `top`, `right`, `bottom` or `left`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Top => "top",
            Self::Right => "right",
            Self::Bottom => "bottom",
            Self::Left => "left",
        }
    }
}

/// The place of one border on the quilt.
#[derive(Debug, Clone, PartialEq)]
pub struct Frame {
    /// The name of the border.
    pub name: String,
    /// The outer edge of the border's fabric: the raw edge, or the seam to the border outside.
    pub edge: Bounds,
    /// The inner seam of the border.
    pub seam: Bounds,
    /// The outer line of the band that may be stitched.
    pub outer: Bounds,
    /// The inner line of the band.
    pub inner: Bounds,
    /// What is kept free next to the inner seam.
    pub seam_gap: f64,
}

impl Frame {
    /// The depth of the band.
    #[must_use]
    pub fn depth(&self) -> f64 {
        self.inner.min.y - self.outer.min.y
    }

    /// The same border with its band shallower by this much, half of it from either gap.
    #[must_use]
    pub fn shallower(&self, by: f64) -> Self {
        let inset = |bounds: Bounds, by: f64| Bounds {
            min: bounds.min + Vector::new(by, by),
            max: bounds.max - Vector::new(by, by),
        };
        Self {
            outer: inset(self.outer, by / 2.0),
            inner: inset(self.inner, -by / 2.0),
            ..self.clone()
        }
    }

    /// The band as the region between two rectangles.
    ///
    /// # Errors
    ///
    /// A geometry error when a rectangle has no area.
    pub fn ring(&self) -> Result<Ring, Error> {
        Ok(Ring {
            outer: Region::rectangle(self.outer)?,
            inner: Region::rectangle(self.inner)?,
        })
    }

    /// The strip of one side, travelled clockwise; distances along count from the outer corner
    /// where the side begins.
    #[must_use]
    pub fn strip(&self, side: Side) -> Strip {
        let (outer, inner) = (&self.outer, &self.inner);
        let (x, y) = (Vector::new(1.0, 0.0), Vector::new(0.0, 1.0));
        match side {
            Side::Top => Strip::new(
                Point::new(outer.min.x, inner.min.y),
                x,
                y * (outer.min.y - inner.min.y),
            ),
            Side::Right => Strip::new(
                Point::new(inner.max.x, outer.min.y),
                y,
                x * (outer.max.x - inner.max.x),
            ),
            Side::Bottom => Strip::new(
                Point::new(outer.max.x, inner.max.y),
                -x,
                y * (outer.max.y - inner.max.y),
            ),
            Side::Left => Strip::new(
                Point::new(inner.min.x, outer.max.y),
                -y,
                x * (outer.min.x - inner.min.x),
            ),
        }
    }

    /// The length of one side of the outer line.
    #[must_use]
    pub fn side_length(&self, side: Side) -> f64 {
        match side {
            Side::Top | Side::Bottom => self.outer.width(),
            Side::Right | Side::Left => self.outer.height(),
        }
    }
}

/// Lays out the borders of a plan from the outermost to the innermost.
///
/// # Errors
///
/// A plan error with the key at fault: no border, a length that is not above 0, a border wider
/// than half of what is left of the quilt, gaps that leave no band.
pub fn frames(spec: &PlanSpec) -> Result<Vec<Frame>, Error> {
    let unit = Unit::from(spec.unit);
    let size = [
        (&spec.quilt.width, "the quilt's width", "quilt.width"),
        (&spec.quilt.height, "the quilt's height", "quilt.height"),
    ];
    let mut sides = [0.0; 2];
    for (side, (length, what, key)) in sides.iter_mut().zip(size) {
        *side = length
            .positive_mm(unit, what)
            .map_err(|e| e.in_element(key))?;
    }
    if spec.borders.is_empty() {
        return Err(PlanFault::NoBorders.into());
    }
    let mut edge = Bounds {
        min: Point::origin(),
        max: Point::new(sides[0], sides[1]),
    };
    let mut frames: Vec<Frame> = Vec::with_capacity(spec.borders.len());
    for (index, border) in spec.borders.iter().enumerate() {
        let frame = frame(border, unit, edge, index, spec.borders.len())
            .map_err(|e| e.in_element(format!("borders[{index}]")))?;
        if frames.iter().any(|other| other.name == frame.name) {
            let name = frame.name;
            return Err(Error::from(PlanFault::SameName { name })
                .in_element(format!("borders[{index}].name")));
        }
        edge = frame.seam;
        frames.push(frame);
    }
    Ok(frames)
}

fn frame(
    border: &BorderSpec,
    unit: Unit,
    edge: Bounds,
    index: usize,
    count: usize,
) -> Result<Frame, Error> {
    let width = border
        .width
        .positive_mm(unit, "the border's width")
        .map_err(|e| e.in_element("width"))?;
    let left = edge.width().min(edge.height()) / 2.0;
    if width >= left {
        return Err(Error::from(PlanFault::BorderTooWide {
            width: unit.readable(width),
            left: unit.readable(left),
        })
        .in_element("width"));
    }
    let gap = |given: &Option<super::spec::LengthSpec>, key: &str, default: f64| match given {
        Some(length) => length
            .gap_mm(unit, &format!("the {}", key.replace('_', " ")))
            .map_err(|e| e.in_element(key)),
        None => Ok(default),
    };
    let at_raw_edge = index == 0;
    let seam_gap = gap(&border.seam_gap, "seam_gap", QUARTER_INCH)?;
    let edge_default = if at_raw_edge { HALF_INCH } else { QUARTER_INCH };
    let edge_gap = gap(&border.edge_gap, "edge_gap", edge_default)?;
    if seam_gap + edge_gap >= width {
        return Err(PlanFault::GapsTooWide {
            gaps: unit.readable(seam_gap + edge_gap),
            width: unit.readable(width),
        }
        .into());
    }
    let inset = |by: f64| Bounds {
        min: edge.min + Vector::new(by, by),
        max: edge.max - Vector::new(by, by),
    };
    let name = match (&border.name, count) {
        (Some(name), _) => name.clone(),
        (None, 1) => "border".to_owned(),
        (None, _) => format!("border-{}", index + 1),
    };
    Ok(Frame {
        name,
        edge,
        seam: inset(width),
        outer: inset(edge_gap),
        inner: inset(width - seam_gap),
        seam_gap,
    })
}
