//! A stand-alone motif in a corner square, as large as fits in proportion.

use crate::corner::CornerSite;
use crate::error::{Error, MotifFault};
use crate::geom::{Bounds, Point, Vector};
use crate::motif::Motif;
use crate::plan::piece::CornerMade;
use crate::transform::Transform;

/// A block turned as asked, to be fitted into each corner.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Block {
    /// At least one.
    lines: Vec<Motif>,
    bounds: Bounds,
    turn_degrees: f64,
}

impl Block {
    /// A block of these lines.
    pub(super) fn new(lines: &[Motif], on_point: bool) -> Result<Self, Error> {
        let turn_degrees = if on_point { 45.0 } else { 0.0 };
        let turn = Transform::rotate_degrees(turn_degrees);
        let lines: Vec<Motif> = lines
            .iter()
            .map(|line| line.transformed(&turn))
            .collect::<Result<_, Error>>()?;
        let bounds = lines.iter().map(Motif::bounds);
        let bounds = bounds.reduce(|one, other| one.union(&other));
        Ok(Self {
            lines,
            bounds: bounds.ok_or(MotifFault::Nothing)?,
            turn_degrees,
        })
    }

    /// The name of the drawing.
    pub(super) fn name(&self) -> &str {
        self.lines[0].name()
    }

    pub(super) fn made(&self) -> CornerMade {
        CornerMade::Block {
            turn_degrees: self.turn_degrees,
        }
    }

    /// The block in the middle of the corner, as large as fits in proportion, and its factor.
    ///
    /// The corner is the parallelogram between the outer lines and lines that lie `room` inside the
    /// entering and the leaving side's; its diagonal from the elbow carries the block's own.
    pub(super) fn place(
        &self,
        site: &CornerSite,
        room: [f64; 2],
        mirrored: bool,
    ) -> Result<(Vec<Motif>, f64), Error> {
        let sin = site.leaving.perp(&site.entering);
        let centre = site.elbow + (site.leaving * room[0] + site.entering * room[1]) / (2.0 * sin);
        let bisector = (site.leaving + site.entering).normalize();
        let turn = bisector.y.atan2(bisector.x).to_degrees() - 45.0;
        let turned = Transform::rotate_degrees(turn);
        let change = if mirrored {
            // Left and right change about the diagonal, on which the elbow lies.
            Transform::new([0.0, 1.0, 1.0, 0.0, 0.0, 0.0]).then(turned)
        } else {
            turned
        };
        let bounds = self.bounds;
        let half = bounds.size() / 2.0;
        let axes = [Vector::new(half.x, 0.0), Vector::new(0.0, half.y)]
            .map(|axis| change.apply_vector(axis));
        // Of the box about the block, a line `distance` from the centre leaves this factor.
        let factor = |along: Vector, distance: f64| {
            let reach: f64 = axes.iter().map(|axis| along.perp(axis).abs()).sum();
            distance / reach
        };
        let scale = factor(site.entering, room[0] / 2.0).min(factor(site.leaving, room[1] / 2.0));
        let map = Transform::carry(bounds.centre(), Point::origin())
            .then(Transform::scale(scale, scale))
            .then(change)
            .then(Transform::translate(centre.x, centre.y));
        let placed = self.lines.iter().map(|line| {
            let placed = line.transformed(&map)?;
            Ok(if mirrored { placed.reversed() } else { placed })
        });
        Ok((placed.collect::<Result<_, Error>>()?, scale))
    }
}
