//! What a template shows: the lines of a piece in millimetres, with their ends.

use super::cloth::{ClothLine, ClothLineKind, beside};
use crate::error::{DrawingFault, Error};
use crate::geom::{Bounds, Point, Polyline, Vector};
use crate::motif::{End, Motif};
use crate::transform::Transform;
use crate::units::Unit;

/// A piece in millimetres, its top left corner at the origin.
pub(super) struct Piece<'a> {
    pub(super) name: &'a str,
    /// The unit to answer in.
    pub(super) unit: Unit,
    pub(super) size: Vector,
    pub(super) lines: Vec<Polyline>,
    /// The start and the end of each line.
    pub(super) ends: Vec<[End; 2]>,
    /// What runs beside it on the cloth.
    pub(super) cloth: Vec<(ClothLineKind, Polyline)>,
    /// The box that holds it and what runs beside it.
    pub(super) shown: Bounds,
}

impl<'a> Piece<'a> {
    pub(super) fn of(
        unit: Unit,
        name: &'a str,
        lines: &[Motif],
        cloth: &[ClothLine],
    ) -> Result<Self, Error> {
        let bounds = lines.iter().map(Motif::bounds);
        let bounds = bounds
            .reduce(|all, one| all.union(&one))
            .ok_or(DrawingFault::NothingDrawn)?;
        let to_mm = Transform::translate(-bounds.min.x, -bounds.min.y)
            .then(Transform::scale(unit.in_mm(), unit.in_mm()));
        let moved = |line: &Motif| {
            let line = line.line().clone().map(|point| to_mm.apply(point));
            line.map_err(|error| error.in_element(name))
        };
        let ends = |line: &Motif| {
            [line.start(), line.end()].map(|end| End {
                point: to_mm.apply(end.point),
                ..end
            })
        };
        let size = bounds.size() * unit.in_mm();
        let own = Bounds {
            min: Point::origin(),
            max: Point::from(size),
        };
        let cloth: Vec<ClothLine> = cloth
            .iter()
            .map(|line| ClothLine {
                kind: line.kind,
                corners: line.corners.iter().map(|&at| to_mm.apply(at)).collect(),
            })
            .collect();
        let (cloth, shown) = beside(own, &cloth)?;
        Ok(Self {
            name,
            unit,
            size,
            cloth,
            shown,
            lines: lines.iter().map(moved).collect::<Result<_, Error>>()?,
            ends: lines.iter().map(ends).collect(),
        })
    }

    pub(super) fn bounds(&self) -> Bounds {
        let min = Point::origin();
        Bounds {
            min,
            max: min + self.size,
        }
    }

    /// Width and height as people read them.
    pub(super) fn readable_size(&self) -> String {
        let [width, height] = [self.size.x, self.size.y].map(|mm| self.unit.readable(mm));
        format!("{width} x {height}")
    }
}
