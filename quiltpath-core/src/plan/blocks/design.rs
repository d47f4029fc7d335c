//! A drawing laid into a place of the field: turned with the place, as large as fits in proportion.
//!
//! Method: each place has a frame, that is a point that the drawing is held by, the direction that
//! is to the right in the drawing, and how large its box may be. The drawing's box is scaled by one
//! factor, so that it just fits.
//! Guarantee: the box of the drawing lies within the frame's; in a block that is all of the place.
//! Failure: a drawing without size.

use crate::error::{Error, MotifFault};
use crate::geom::{Bounds, ConvexPolygon, Point, Vector};
use crate::motif::Motif;
use crate::plan::lay::field::FieldKind;
use crate::transform::{Mirror, Transform};

/// Where in its place a drawing is held.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Held {
    /// By the middle of its box.
    Middle,
    /// By the middle of the upper side of its box.
    Top,
    /// By the top left corner of its box.
    TopLeft,
}

/// A drawing laid into a place.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Laid {
    pub(in crate::plan) lines: Vec<Motif>,
    /// The factor from the drawing to the cloth.
    pub(in crate::plan) scale: f64,
    /// The turn from the drawing to the cloth, in degrees from -180 to 180, positive clockwise.
    pub(in crate::plan) turn_degrees: f64,
    pub(in crate::plan) mirrored: bool,
}

/// The lines of a drawing, at least one, with their box.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Design {
    pub(in crate::plan) lines: Vec<Motif>,
    pub(in crate::plan) bounds: Bounds,
}

impl Design {
    /// The design of these lines.
    ///
    /// # Errors
    ///
    /// A motif error where there are none.
    pub(in crate::plan) fn new(lines: Vec<Motif>) -> Result<Self, Error> {
        let bounds = lines.iter().map(Motif::bounds);
        let bounds = bounds.reduce(|one, other| one.union(&other));
        let bounds = bounds.ok_or(MotifFault::Nothing)?;
        Ok(Self { lines, bounds })
    }

    /// Lays the design into what may be stitched of a place, turned by so many quarters clockwise
    /// and mirrored before, as [`Lie`](crate::plan::lay::field::Lie) has it for a block.
    ///
    /// # Errors
    ///
    /// A motif error when a point would leave the range of coordinates.
    pub(in crate::plan) fn laid(
        &self,
        kind: FieldKind,
        usable: &ConvexPolygon,
        (quarters, mirrored): (u8, bool),
    ) -> Result<Laid, Error> {
        let frame = Frame::of(kind, usable);
        let (width, height) = (self.bounds.width(), self.bounds.height());
        let (width, height) = match quarters % 2 {
            1 => (height, width),
            _ => (width, height),
        };
        let scale = (frame.size.x / width).min(frame.size.y / height);
        let turn = frame.right.y.atan2(frame.right.x).to_degrees() + 90.0 * f64::from(quarters);
        let held = match frame.held {
            Held::Middle => self.bounds.centre(),
            Held::Top => Point::new(self.bounds.centre().x, self.bounds.min.y),
            Held::TopLeft => self.bounds.min,
        };
        let mirror = match mirrored {
            true => Transform::mirror(Mirror::LeftRight),
            false => Transform::identity(),
        };
        let map = Transform::carry(held, Point::origin())
            .then(mirror)
            .then(Transform::scale(scale, scale))
            .then(Transform::rotate_degrees(turn))
            .then(Transform::translate(frame.at.x, frame.at.y));
        let lines = self.lines.iter().map(|line| line.transformed(&map));
        Ok(Laid {
            lines: lines.collect::<Result<_, _>>()?,
            scale,
            turn_degrees: (turn + 180.0).rem_euclid(360.0) - 180.0,
            mirrored,
        })
    }
}

/// How a drawing is laid into a place.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Frame {
    at: Point,
    held: Held,
    /// What is to the right in the drawing, at length 1.
    right: Vector,
    /// How wide and how high the drawing's box may be.
    size: Vector,
}

impl Frame {
    fn of(kind: FieldKind, usable: &ConvexPolygon) -> Self {
        let corners = usable.corners();
        let right = usable.direction(0);
        let [first, length] = [corners[0], corners[0] + right * usable.side_length(0)];
        let down = Vector::new(-right.y, right.x);
        match kind {
            FieldKind::SideTriangle => {
                let depth = (corners[2] - first).dot(&down);
                Self {
                    at: first + (length - first) / 2.0,
                    held: Held::Top,
                    right,
                    size: Vector::new(usable.side_length(0), depth),
                }
            }
            FieldKind::CornerTriangle => Self {
                at: first,
                held: Held::TopLeft,
                right,
                size: Vector::new(usable.side_length(0), usable.side_length(2)),
            },
            _ => {
                let size = Vector::new(usable.side_length(0), usable.side_length(1));
                Self {
                    at: first + right * (size.x / 2.0) + down * (size.y / 2.0),
                    held: Held::Middle,
                    right,
                    size,
                }
            }
        }
    }
}
