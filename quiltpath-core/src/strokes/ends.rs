//! Where the line of a drawing starts and ends: the choices, as nodes of its net.
//!
//! A repeat is entered through the left edge of its box and left through the right one; a corner
//! through the open ends of its legs: see `gates`. Where no line ends at a gate, the drawing is cut
//! where it reaches farthest, so that each gate has a node. A place that is given takes the place
//! of the gate that it is nearer to.

use super::gates::{Gate, between};
use super::net::{StrokeNet, degrees};
use crate::error::{Error, positive};
use crate::geom::lines::Lines;
use crate::geom::measure::share_on_segment;
use crate::geom::{BoxCorner, MAX_COORDINATE, Point, Vector};

/// Where the line that strokes become starts and ends.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub enum LineEnds {
    /// Wherever the least is stitched twice.
    #[default]
    Free,
    /// As a repeat has them: at the left and the right edge, at heights that differ as little as
    /// can be.
    Across,
    /// As a corner has them: at the open ends of the legs of an L, at distances from its outer
    /// edges that differ as little as can be.
    Legs(LegEnds),
    /// At these places.
    Given {
        /// Where the line starts.
        start: Option<EndPlace>,
        /// Where it ends.
        end: Option<EndPlace>,
        /// Where the one of them is that is `None`.
        other: OtherEnd,
    },
}

/// Where a line has its other end, of which one is given.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub enum OtherEnd {
    /// Wherever the least is stitched twice.
    #[default]
    Free,
    /// As a repeat has it: at the left or the right edge, at the one that the given end is farther
    /// from, and at a height that differs as little as can be.
    Across,
    /// As a corner has it: at the open end of the leg that the given end is farther from, likewise.
    Legs(LegEnds),
}

/// The L in a drawing, for a line that starts at the open end of its horizontal leg and ends at
/// that of its vertical one; lengths in the unit of the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LegEnds {
    /// The corner of the drawing's box, after the turn, where the legs meet.
    pub elbow: BoxCorner,
    /// The depth of the leg that runs from left to right, after the turn; above 0.
    pub depth_horizontal: f64,
    /// The depth of the leg that runs up and down, after the turn; above 0.
    pub depth_vertical: f64,
    /// The turn about the origin that lays the legs along the axes, in degrees, positive clockwise.
    pub turn_degrees: f64,
}

/// A place at which a line starts or ends.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum EndPlace {
    /// The leftmost place of the drawing.
    Left,
    /// The rightmost place.
    Right,
    /// The topmost place.
    Top,
    /// The lowest place.
    Bottom,
    /// The place that is nearest to this point, in the unit of the drawing.
    At(Point),
}

/// A place on a line.
#[derive(Debug, Clone, Copy)]
struct Place {
    line: u32,
    along: f64,
    point: Point,
}

impl LineEnds {
    /// Ends at these places; `None` for wherever the least is stitched twice.
    #[must_use]
    pub fn given(start: Option<EndPlace>, end: Option<EndPlace>) -> Self {
        Self::Free.with_given(start, end)
    }

    /// The same ends, but for those that are given: at these places.
    ///
    /// ```
    /// use quiltpath_core::geom::Point;
    /// use quiltpath_core::strokes::{Drawing, EndPlace, LineEnds, OneLineOptions, Stroke};
    ///
    /// let path = kurbo::BezPath::from_svg("M 0 4 H 60 M 0 0 V 4 M 60 9 V 4").unwrap();
    /// let drawing = Drawing::new("steps", vec![Stroke::new("a", path)]);
    /// let start = EndPlace::At(Point::new(1.0, 0.0));
    /// let ends = LineEnds::Across.with_given(Some(start), None);
    /// let line = drawing.one_line(&OneLineOptions::default().with_ends(ends))?.motif;
    /// assert_eq!(line.start().point, Point::new(0.0, 0.0));
    /// assert_eq!(line.end().point.x, 60.0);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    #[must_use]
    pub fn with_given(self, start: Option<EndPlace>, end: Option<EndPlace>) -> Self {
        let other = match (start, end) {
            (None, None) => return self,
            (Some(_), Some(_)) => OtherEnd::Free,
            _ => self.other(),
        };
        Self::Given { start, end, other }
    }

    /// Whether the line has different places to start and end at, at the edge of its drawing.
    pub(super) fn is_at_gates(&self) -> bool {
        self.other() != OtherEnd::Free
    }

    /// Where ends are that are not given.
    fn other(&self) -> OtherEnd {
        match *self {
            Self::Free => OtherEnd::Free,
            Self::Across => OtherEnd::Across,
            Self::Legs(legs) => OtherEnd::Legs(legs),
            Self::Given { other, .. } => other,
        }
    }

    fn places_given(&self) -> [Option<EndPlace>; 2] {
        match *self {
            Self::Given { start, end, .. } => [start, end],
            Self::Free | Self::Across | Self::Legs(_) => [None, None],
        }
    }

    /// Refuses places and legs that are none.
    pub(super) fn check(&self) -> Result<(), Error> {
        let [start, end] = self.places_given();
        start.map_or(Ok(()), |place| {
            place.check("a coordinate of the start of the line")
        })?;
        end.map_or(Ok(()), |place| {
            place.check("a coordinate of the end of the line")
        })?;
        match self.other() {
            OtherEnd::Free | OtherEnd::Across => Ok(()),
            OtherEnd::Legs(legs) => legs.check(),
        }
    }

    /// Whether a line that is drawn so, from end to end, has the ends that are given, and then
    /// whether it is turned for that.
    pub(super) fn drawn(&self, lines: &Lines, ends: [Point; 2], join: f64) -> Option<bool> {
        let given = self
            .places_given()
            .map(|place| (place, place.map(|place| place.on(lines))));
        let is_at = |at: usize, end: Point| match given[at] {
            (None, _) => true,
            (_, place) => place
                .flatten()
                .is_some_and(|place| (place.point - end).norm() <= join),
        };
        let [first, last] = ends;
        [(first, last, false), (last, first, true)]
            .into_iter()
            .find(|&(start, end, _)| is_at(0, start) && is_at(1, end))
            .map(|(.., turned)| turned)
    }

    /// Where lines have to be cut so that they can start and end there: a line, a distance along
    /// it.
    pub(super) fn places(&self, lines: &Lines, join: f64) -> Vec<(u32, f64)> {
        let given = self
            .places_given()
            .map(|end| end.and_then(|place| place.on(lines)));
        let gates = self.other().gates(lines);
        let reached = |gate: Gate| farthest(lines, gate.out);
        let reached = match (given, gates) {
            ([None, None], Some([first, last])) => [reached(first), reached(last)],
            ([Some(one), None] | [None, Some(one)], Some(gates)) => {
                [reached(gates[1 - nearer(&gates, one.point)]), None]
            }
            _ => [None, None],
        };
        // Of lines on top of one another only one is kept, so all are cut.
        let given = given.into_iter().flatten();
        let given = given.flat_map(|place| beside(lines, place.point, join));
        let places = given.chain(reached.into_iter().flatten());
        places.map(|place| (place.line, place.along)).collect()
    }

    /// The pairs of nodes to start and end at, those that are tried first first; never none.
    pub(super) fn choices(
        &self,
        net: &StrokeNet,
        lines: &Lines,
        join: f64,
    ) -> Vec<[Option<usize>; 2]> {
        let node = |end: Option<EndPlace>| nearest(net, end?.on(lines)?.point);
        let given = self.places_given().map(node);
        let Some(gates) = self.other().gates(lines) else {
            return vec![given];
        };
        let at_gate = |gate: &Gate| gate.nodes(net);
        let pairs = match given {
            [None, None] => between(net, &gates, gates.each_ref().map(at_gate), join),
            [Some(one), None] | [None, Some(one)] => {
                let point = net.nodes[one];
                let own = nearer(&gates, point);
                let mut nodes = gates.each_ref().map(at_gate);
                nodes[own] = vec![(one, gates[own].along(point))];
                let turned = (own == 0) != (given[0] == Some(one));
                let mut pairs = between(net, &gates, nodes, join);
                if turned {
                    pairs.iter_mut().for_each(|pair| pair.reverse());
                }
                pairs
            }
            [Some(_), Some(_)] => Vec::new(),
        };
        match pairs.is_empty() {
            true => vec![given],
            false => pairs.into_iter().map(|pair| pair.map(Some)).collect(),
        }
    }
}

impl OtherEnd {
    /// The two gates of what the line is for, where it has any.
    fn gates(&self, lines: &Lines) -> Option<[Gate; 2]> {
        let down = Vector::new(0.0, 1.0);
        // Of an L the way along a gate leads from the outer edge of its leg, that is from the
        // elbow, which is the way out of the other.
        let (out, along, depths) = match self {
            Self::Free => return None,
            Self::Across => {
                let out = [Vector::new(-1.0, 0.0), Vector::new(1.0, 0.0)];
                (out, [down, down], [f64::INFINITY; 2])
            }
            Self::Legs(legs) => {
                let [first, last] = legs.outward();
                let depths = [legs.depth_horizontal, legs.depth_vertical];
                ([first, last], [last, first], depths)
            }
        };
        Some([0, 1].map(|at| Gate::of(lines, out[at], along[at], depths[at])))
    }
}

impl LegEnds {
    fn check(&self) -> Result<(), Error> {
        for (what, depth) in [
            ("the depth of the horizontal leg", self.depth_horizontal),
            ("the depth of the vertical leg", self.depth_vertical),
        ] {
            positive(what, depth, "a length above 0")?;
        }
        match self.turn_degrees.is_finite() {
            true => Ok(()),
            false => Err(Error::bad_number(
                "the turn of the drawing",
                self.turn_degrees,
                "a number of degrees",
            )),
        }
    }

    /// The ways from the elbow to the open ends of the horizontal and the vertical leg.
    fn outward(&self) -> [Vector; 2] {
        let (x, y) = match self.elbow {
            BoxCorner::TopLeft => (1.0, 1.0),
            BoxCorner::TopRight => (-1.0, 1.0),
            BoxCorner::BottomRight => (-1.0, -1.0),
            BoxCorner::BottomLeft => (1.0, -1.0),
        };
        // Back from the turned drawing to the drawing as it lies.
        let (sin, cos) = self.turn_degrees.to_radians().sin_cos();
        [Vector::new(cos, -sin) * x, Vector::new(sin, cos) * y]
    }
}

impl EndPlace {
    /// Refuses a point that is none; `what` is how messages call its coordinates.
    pub(crate) fn check(&self, what: &'static str) -> Result<(), Error> {
        let Self::At(at) = self else { return Ok(()) };
        let within = -MAX_COORDINATE..=MAX_COORDINATE;
        match at.iter().find(|value| !within.contains(*value)) {
            None => Ok(()),
            Some(&value) => Err(Error::bad_number(what, value, "a number from -1e9 to 1e9")),
        }
    }

    fn on(&self, lines: &Lines) -> Option<Place> {
        match *self {
            Self::Left => farthest(lines, Vector::new(-1.0, 0.0)),
            Self::Right => farthest(lines, Vector::new(1.0, 0.0)),
            Self::Top => farthest(lines, Vector::new(0.0, -1.0)),
            Self::Bottom => farthest(lines, Vector::new(0.0, 1.0)),
            Self::At(wanted) => {
                let near = lines
                    .segments()
                    .map(|segment| nearest_on(lines, segment, wanted));
                near.min_by(|a, b| a.0.total_cmp(&b.0))
                    .map(|(_, place)| place)
            }
        }
    }
}

/// The place of a segment that is nearest to a point, and how far off it is.
fn nearest_on(lines: &Lines, segment: u32, point: Point) -> (f64, Place) {
    let (ends, [start, end]) = (lines.ends(segment), lines.reach(segment));
    let share = share_on_segment(point, ends);
    let place = Place {
        line: lines.line(segment),
        along: start + (end - start) * share,
        point: ends[0] + (ends[1] - ends[0]) * share,
    };
    ((place.point - point).norm(), place)
}

/// The nearest place of each stretch of line that passes a point within the tolerance.
fn beside(lines: &Lines, point: Point, join: f64) -> Vec<Place> {
    let mut found: Vec<(f64, Place)> = Vec::new();
    let mut last: Option<Place> = None;
    for segment in lines.segments() {
        let (far, place) = nearest_on(lines, segment, point);
        if far > join {
            continue;
        }
        let goes_on = last.is_some_and(|last| {
            place.line == last.line && (place.along - last.along).abs() <= 2.0 * join
        });
        match found.last_mut() {
            Some(best) if goes_on => {
                if far < best.0 {
                    *best = (far, place);
                }
            }
            _ => found.push((far, place)),
        }
        last = Some(place);
    }
    found.into_iter().map(|(_, place)| place).collect()
}

/// The place that lies farthest this way.
fn farthest(lines: &Lines, way: Vector) -> Option<Place> {
    let points = lines.points().iter().enumerate();
    let far = |point: &Point| point.coords.dot(&way);
    // Of places that are equally far the first.
    let best = points.reduce(|best, next| match far(next.1) > far(best.1) {
        true => next,
        false => best,
    });
    let (at, point) = best?;
    Some(Place {
        line: lines.line(at as u32),
        along: lines.along(at),
        point: *point,
    })
}

/// The gate that a point is nearer to.
fn nearer(gates: &[Gate; 2], point: Point) -> usize {
    let [first, last] = gates.each_ref().map(|gate| gate.away(point));
    usize::from(last < first)
}

fn nearest(net: &StrokeNet, point: Point) -> Option<usize> {
    let degrees = degrees(net);
    let nodes = (0..net.nodes.len()).filter(|&node| degrees[node] > 0);
    let far = |node: usize| (net.nodes[node] - point).norm();
    nodes.min_by(|&a, &b| far(a).total_cmp(&far(b)))
}

#[cfg(test)]
mod tests;
