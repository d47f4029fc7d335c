//! Needle points under way, none nearer than the minimum to the one before it.

use crate::geom::Point;

/// Where a needle point lies among the vertices of the path.
///
/// Twice the number of vertices before it, one more when it lies on the next vertex itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Place(usize);

impl Place {
    pub(super) fn vertex(at: usize) -> Self {
        Self(2 * at + 1)
    }

    /// On the segment that ends at this vertex.
    pub(super) fn segment_to(vertex: usize) -> Self {
        Self(2 * vertex)
    }

    pub(super) fn is_vertex(self, at: usize) -> bool {
        self == Self::vertex(at)
    }

    /// The first vertex that is not before the needle point.
    pub(super) fn before(self) -> usize {
        self.0 / 2
    }

    /// The first vertex after the needle point.
    pub(super) fn after(self) -> usize {
        self.0.div_ceil(2)
    }
}

/// Needle points in the order of the path.
pub(super) struct Needles {
    points: Vec<Point>,
    places: Vec<Place>,
    least_square: f64,
}

impl Needles {
    pub(super) fn starting(start: Point, minimum: f64) -> Self {
        Self {
            points: vec![start],
            places: vec![Place::vertex(0)],
            least_square: minimum * minimum,
        }
    }

    /// No needle points, with room for as many as here and some more.
    pub(super) fn emptied(&self, more: usize) -> Self {
        Self {
            points: Vec::with_capacity(self.len() + more),
            places: Vec::with_capacity(self.len() + more),
            least_square: self.least_square,
        }
    }

    pub(super) fn reserve(&mut self, more: usize) {
        self.points.reserve(more);
        self.places.reserve(more);
    }

    pub(super) fn len(&self) -> usize {
        self.points.len()
    }

    pub(super) fn points(&self) -> &[Point] {
        &self.points
    }

    pub(super) fn places(&self) -> &[Place] {
        &self.places
    }

    pub(super) fn into_parts(self) -> (Vec<Point>, Vec<Place>) {
        (self.points, self.places)
    }

    fn is_near(&self, at: usize, point: Point) -> bool {
        (point - self.points[at]).norm_squared() < self.least_square
    }

    /// Adds a point between cusps, or leaves it out when it is too near.
    #[inline]
    pub(super) fn pass(&mut self, point: Point, place: Place) {
        if !self.is_near(self.points.len() - 1, point) {
            self.add(point, place);
        }
    }

    /// Adds a cusp in place of what is too near before it; left out when that is a cusp or the
    /// start.
    pub(super) fn anchor(&mut self, point: Point, vertex: usize) {
        let mut kept = self.points.len();
        while self.is_near(kept - 1, point) {
            let place = self.places[kept - 1];
            if place.is_vertex(place.before()) {
                return;
            }
            kept -= 1;
        }
        self.points.truncate(kept);
        self.places.truncate(kept);
        self.add(point, Place::vertex(vertex));
    }

    /// Adds the end of the path in place of everything that is too near before it, save the start.
    pub(super) fn end(&mut self, point: Point, vertex: usize) {
        while self.points.len() > 1 && self.is_near(self.points.len() - 1, point) {
            self.points.pop();
            self.places.pop();
        }
        self.add(point, Place::vertex(vertex));
    }

    pub(super) fn add(&mut self, point: Point, place: Place) {
        self.points.push(point);
        self.places.push(place);
    }
}
