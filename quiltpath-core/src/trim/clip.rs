//! Cut a line to a region, keeping the order and the direction of travel.
//!
//! Problem: a drawing has to be cut to an L, a rectangle or any simple polygon and stitched on in
//! the order drawn. Method: segment by segment, each cut where it meets the region's sides and
//! each part judged by its middle; parts inside that follow each other are one piece. A segment
//! that stays clear of the sides keeps the verdict of the one before. Whatever lies within the
//! rounding of the boundary (1e-12 of the region's size) counts as on it, and the boundary counts
//! as inside: runs along a side stay, touches neither cut a piece nor make one.
//!
//! Guarantee: every point of a piece lies in the region to 1e-11 of its size, points of the line
//! stay as they are, new ones lie on the boundary. Failure cases: nothing of the line inside, or
//! only slivers; both are errors.

mod sides;

#[cfg(test)]
mod tests;

use crate::error::{Error, GeometryFault, not_negative};
use crate::geom::measure::length;
use crate::geom::region::Region;
use crate::geom::{Point, Polyline};
pub(crate) use sides::Sides;
use sides::{Cut, Meeting};

/// The default length below which a piece is a sliver: 0.5 mm, in millimetres.
///
/// Less than a quarter of a usual stitch (10 to the inch are 2.54 mm each).
pub(super) const DEFAULT_SLIVER_MM: f64 = 0.5;

/// How a piece ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EndOn {
    /// On the region's boundary, at this distance along it from its first corner in the order of
    /// the corners.
    Boundary(f64),
    /// Inside the region: there the drawing itself starts or ends.
    Inside,
}

/// One stretch of the line inside the region.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct ClippedPiece {
    /// The stretch, in the direction of travel.
    pub line: Polyline,
    /// Where it starts.
    pub start: EndOn,
    /// Where it ends.
    pub end: EndOn,
}

impl ClippedPiece {
    /// A stretch that starts and ends there.
    #[must_use]
    pub fn new(line: Polyline, start: EndOn, end: EndOn) -> Self {
        Self { line, start, end }
    }
}

/// A line cut to a region.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Clipped {
    /// What lies inside, in the order of travel.
    pub pieces: Vec<ClippedPiece>,
    /// How many pieces were dropped because they are shorter than the sliver tolerance.
    pub slivers: usize,
    /// The length of the dropped pieces together.
    pub lost_length: f64,
}

impl Clipped {
    /// The length of the pieces together.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.pieces.iter().map(|piece| piece.line.length()).sum()
    }
}

/// Cuts a line to a region and drops what is shorter than `sliver` (0 keeps all).
///
/// The boundary belongs to the region. An end of the line that lies on the boundary is
/// [`EndOn::Boundary`] too. A line entirely inside comes back as it is, however short.
///
/// ```
/// use quiltpath_core::geom::{BoxCorner, Point, Polyline};
/// use quiltpath_core::leg::l_region;
/// use quiltpath_core::trim::{EndOn, clip};
///
/// let l = l_region(BoxCorner::TopLeft, 9.0, 9.0, 3.0)?;
/// let across = Polyline::new(vec![Point::new(1.0, 8.0), Point::new(8.0, 1.0)])?;
/// let clipped = clip(&across, &l, 0.5)?;
/// assert_eq!(clipped.pieces.len(), 2);
/// assert_eq!(clipped.pieces[0].line.end(), Point::new(3.0, 6.0));
/// assert_eq!(clipped.pieces[0].start, EndOn::Inside);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when `sliver` is negative or not finite, when the line lies entirely outside
/// the region (it gives size and place of both), or when only slivers lie inside.
///
/// # Complexity
///
/// O(points + meetings) for regions of few sides; each segment looks at the sides in the rows
/// that it passes, of which a region of many sides has up to 512.
pub fn clip(line: &Polyline, region: &Region, sliver: f64) -> Result<Clipped, Error> {
    not_negative("the sliver tolerance", sliver, "0 or a length above 0")?;
    let clipped = inside(line, region, sliver)?;
    if !clipped.pieces.is_empty() {
        return Ok(clipped);
    }
    Err(if clipped.slivers > 0 {
        GeometryFault::OnlySlivers {
            slivers: clipped.slivers,
            tolerance: sliver,
        }
    } else {
        GeometryFault::OutsideRegion {
            drawing: line.bounds(),
            region: region.bounds(),
        }
    }
    .into())
}

/// As [`clip`], for a sliver tolerance known to be one; no pieces where nothing lies inside.
pub(crate) fn inside(line: &Polyline, region: &Region, sliver: f64) -> Result<Clipped, Error> {
    let mut knife = Knife {
        sides: Sides::of(region),
        sliver,
        open: None,
        clipped: Clipped {
            pieces: Vec::new(),
            slivers: 0,
            lost_length: 0.0,
        },
    };
    knife.travel(line.points())?;
    Ok(knife.clipped)
}

/// A place between two parts of a segment: a cut, or a point of the line.
#[derive(Clone, Copy)]
enum Stop {
    Cut(Cut),
    Vertex { point: Point, end_of_line: bool },
}

impl Stop {
    fn point(self) -> Point {
        match self {
            Self::Cut(cut) => cut.point,
            Self::Vertex { point, .. } => point,
        }
    }

    fn is_end_of_line(self) -> bool {
        matches!(
            self,
            Self::Vertex {
                end_of_line: true,
                ..
            }
        )
    }
}

struct Knife {
    sides: Sides,
    sliver: f64,
    /// The piece under way: where it started and its points so far.
    open: Option<(Stop, Vec<Point>)>,
    clipped: Clipped,
}

impl Knife {
    fn travel(&mut self, points: &[Point]) -> Result<(), Error> {
        let mut cuts = Vec::new();
        let last = points.len() - 1;
        for (index, pair) in points.windows(2).enumerate() {
            let (from, to) = (pair[0], pair[1]);
            let start = Stop::Vertex {
                point: from,
                end_of_line: index == 0,
            };
            match self.sides.meet(from, to, &mut cuts) {
                Meeting::Clear if index > 0 => {}
                Meeting::Outside => self.turn_to(false, start)?,
                Meeting::Clear | Meeting::Near => {
                    let mut stop = start;
                    let end = Stop::Vertex {
                        point: to,
                        end_of_line: index + 1 == last,
                    };
                    for next in cuts.iter().copied().map(Stop::Cut).chain([end]) {
                        let middle = nalgebra::center(&stop.point(), &next.point());
                        let inside = self.sides.hold(middle);
                        self.turn_to(inside, stop)?;
                        stop = next;
                    }
                }
            }
            if let Some((_, line)) = &mut self.open {
                line.push(to);
            }
        }
        self.turn_to(
            false,
            Stop::Vertex {
                point: points[last],
                end_of_line: true,
            },
        )
    }

    /// Goes on inside or outside from this stop.
    #[inline]
    fn turn_to(&mut self, inside: bool, stop: Stop) -> Result<(), Error> {
        match (self.open.take(), inside) {
            (None, true) => self.open = Some((stop, vec![stop.point()])),
            (Some((start, mut line)), false) => {
                if let Stop::Cut(cut) = stop {
                    line.push(cut.point);
                }
                self.keep(start, line, stop)?;
            }
            (open, _) => self.open = open,
        }
        Ok(())
    }

    fn end_on(&self, stop: Stop) -> EndOn {
        match stop {
            Stop::Cut(cut) => EndOn::Boundary(cut.position),
            Stop::Vertex { point, end_of_line } if end_of_line && !self.sides.touch(point) => {
                EndOn::Inside
            }
            Stop::Vertex { point, .. } => EndOn::Boundary(self.sides.position_of(point)),
        }
    }

    fn keep(&mut self, from: Stop, line: Vec<Point>, to: Stop) -> Result<(), Error> {
        let whole = from.is_end_of_line() && to.is_end_of_line();
        let size = length(&line);
        // Where the line only touches the boundary, rounding may leave a speck of a piece.
        if size <= 16.0 * self.sides.reach() && !whole {
            return Ok(());
        }
        if size < self.sliver && !whole {
            self.clipped.slivers += 1;
            self.clipped.lost_length += size;
            return Ok(());
        }
        let (start, end) = (self.end_on(from), self.end_on(to));
        let line = Polyline::new(line)?;
        self.clipped.pieces.push(ClippedPiece { line, start, end });
        Ok(())
    }
}
