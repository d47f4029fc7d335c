//! Rigid motions from where cloth lay to where it lies.

use crate::error::Error;
use crate::geom::{Point, Vector};
use crate::motif::Motif;

/// A turn about one point and a shift of that to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) struct Motion {
    from: Point,
    to: Point,
    /// Cosine and sine of the turn.
    turn: [f64; 2],
}

impl Motion {
    /// The motion of a point that turns one unit vector to another.
    pub(super) fn new([from, to]: [Point; 2], [old, new]: [Vector; 2]) -> Self {
        let turn = match old == new {
            true => [1.0, 0.0],
            false => {
                let (cos, sin) = (old.dot(&new), old.perp(&new));
                let size = cos.hypot(sin);
                [cos / size, sin / size]
            }
        };
        Self { from, to, turn }
    }

    /// Whether nothing moves.
    fn is_still(&self) -> bool {
        self.from == self.to && self.turn == [1.0, 0.0]
    }

    /// The motion with the turn of another that takes a point where this one does.
    pub(super) fn turning_like(&self, other: &Self, about: Point) -> Self {
        match self.is_still() && other.is_still() {
            true => *self,
            false => Self {
                from: about,
                to: self.point(about),
                turn: other.turn,
            },
        }
    }

    /// The motion between two that turn alike, at a share of the way.
    pub(super) fn towards(&self, other: &Self, share: f64) -> Self {
        if share == 0.0 || self == other {
            return *self;
        }
        if share == 1.0 {
            return *other;
        }
        let step = other.point(self.from) - self.to;
        Self {
            to: self.to + step * share,
            ..*self
        }
    }

    pub(super) fn point(&self, point: Point) -> Point {
        if self.is_still() {
            return point;
        }
        self.to + self.vector(point - self.from)
    }

    pub(super) fn vector(&self, vector: Vector) -> Vector {
        let [cos, sin] = self.turn;
        if self.turn == [1.0, 0.0] {
            return vector;
        }
        Vector::new(
            cos * vector.x - sin * vector.y,
            sin * vector.x + cos * vector.y,
        )
    }

    pub(super) fn motif(&self, motif: &Motif) -> Result<Motif, Error> {
        if self.is_still() {
            return Ok(motif.clone());
        }
        let line = motif.line().clone().map(|point| self.point(point))?;
        let directions = [motif.start(), motif.end()].map(|end| self.vector(end.direction));
        let image = Motif::new(motif.name(), line).with_directions(directions);
        Ok(image.with_links(motif.links().to_vec()))
    }
}
