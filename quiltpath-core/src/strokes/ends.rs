//! Where the line of a drawing starts and ends: the choices, as nodes of its net.
//!
//! A repeat is entered through the left edge of its box and left through the right one; a corner
//! through the open ends of its legs. Both are **gates**: an edge, and how far along it ends may
//! lie. Of the pairs of nodes at two gates those are tried whose distances along differ least, so
//! that copies meet. Where no line ends at a gate, the drawing is cut where it reaches farthest, so
//! that each gate has a node.

use super::net::{StrokeNet, degrees};
use crate::error::{Error, positive};
use crate::geom::lines::Lines;
use crate::geom::measure::share_on_segment;
use crate::geom::{BoxCorner, MAX_COORDINATE, Point, Vector};

/// Ends lie within this share of a drawing's extent of the edge of its box, and pairs of ends whose
/// heights differ by less than this share of a gate are as good as each other.
const AT_EDGE: f64 = 0.02;

/// So many pairs of ends are tried at the most.
const TRIED: usize = 6;

/// So many nodes of a gate are looked at, at the most, ends of lines first.
const MOST_AT_GATE: usize = 1000;

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
    /// At these places; an end that is `None` is wherever the least is stitched twice.
    Given {
        /// Where the line starts.
        start: Option<EndPlace>,
        /// Where it ends.
        end: Option<EndPlace>,
    },
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
        match (start, end) {
            (None, None) => Self::Free,
            (start, end) => Self::Given { start, end },
        }
    }

    /// Refuses places and legs that are none.
    pub(super) fn check(&self) -> Result<(), Error> {
        match self {
            Self::Free | Self::Across => Ok(()),
            Self::Legs(legs) => legs.check(),
            Self::Given { start, end } => {
                for (place, what) in [
                    (start, "a coordinate of the start of the line"),
                    (end, "a coordinate of the end of the line"),
                ] {
                    let Some(EndPlace::At(at)) = place else {
                        continue;
                    };
                    let within = -MAX_COORDINATE..=MAX_COORDINATE;
                    let off = at.iter().find(|value| !within.contains(*value));
                    if let Some(&value) = off {
                        return Err(Error::bad_number(what, value, "a number from -1e9 to 1e9"));
                    }
                }
                Ok(())
            }
        }
    }

    /// Where lines have to be cut so that they can start and end there: a line, a distance along
    /// it.
    pub(super) fn places(&self, lines: &Lines) -> Vec<(u32, f64)> {
        let places = match self {
            Self::Free => [None, None],
            Self::Across | Self::Legs(_) => self
                .outward()
                .map(|out| out.and_then(|out| farthest(lines, out))),
            Self::Given { start, end } => {
                [start, end].map(|end| end.and_then(|place| place.on(lines)))
            }
        };
        let places = places.into_iter().flatten();
        places.map(|place| (place.line, place.along)).collect()
    }

    /// The pairs of nodes to start and end at, those that are tried first first; never none.
    pub(super) fn choices(
        &self,
        net: &StrokeNet,
        lines: &Lines,
        join: f64,
    ) -> Vec<[Option<usize>; 2]> {
        let pairs = match self {
            Self::Free => Vec::new(),
            Self::Given { start, end } => {
                let place = |end: &Option<EndPlace>| end.and_then(|place| place.on(lines));
                let node = |end| nearest(net, place(end)?.point);
                vec![[node(start), node(end)]]
            }
            Self::Across | Self::Legs(_) => {
                let gates = self.gates(lines);
                gates.map_or_else(Vec::new, |gates| between(net, &gates, join))
            }
        };
        match pairs.is_empty() {
            true => vec![[None, None]],
            false => pairs,
        }
    }

    /// The ways out of the two gates, where the ends are at gates.
    fn outward(&self) -> [Option<Vector>; 2] {
        match self {
            Self::Across => [Some(Vector::new(-1.0, 0.0)), Some(Vector::new(1.0, 0.0))],
            Self::Legs(legs) => legs.outward().map(Some),
            Self::Free | Self::Given { .. } => [None, None],
        }
    }

    fn gates(&self, lines: &Lines) -> Option<[Gate; 2]> {
        let down = Vector::new(0.0, 1.0);
        let [Some(first), Some(last)] = self.outward() else {
            return None;
        };
        // Of an L the way along a gate leads from the outer edge of its leg, that is from the
        // elbow, which is the way out of the other.
        let (along, depths) = match self {
            Self::Legs(legs) => {
                let depths = [legs.depth_horizontal, legs.depth_vertical];
                ([last, first], depths)
            }
            _ => ([down, down], [f64::INFINITY; 2]),
        };
        let gate = |at: usize| Gate::of(lines, [first, last][at], along[at], depths[at]);
        Some([gate(0), gate(1)])
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
    fn on(&self, lines: &Lines) -> Option<Place> {
        match *self {
            Self::Left => farthest(lines, Vector::new(-1.0, 0.0)),
            Self::Right => farthest(lines, Vector::new(1.0, 0.0)),
            Self::Top => farthest(lines, Vector::new(0.0, -1.0)),
            Self::Bottom => farthest(lines, Vector::new(0.0, 1.0)),
            Self::At(wanted) => {
                let near = lines.segments().map(|segment| {
                    let (ends, [start, end]) = (lines.ends(segment), lines.reach(segment));
                    let share = share_on_segment(wanted, ends);
                    let place = Place {
                        line: lines.line(segment),
                        along: start + (end - start) * share,
                        point: ends[0] + (ends[1] - ends[0]) * share,
                    };
                    ((place.point - wanted).norm(), place)
                });
                near.min_by(|a, b| a.0.total_cmp(&b.0))
                    .map(|(_, place)| place)
            }
        }
    }
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

fn nearest(net: &StrokeNet, point: Point) -> Option<usize> {
    let degrees = degrees(net);
    let nodes = (0..net.nodes.len()).filter(|&node| degrees[node] > 0);
    let far = |node: usize| (net.nodes[node] - point).norm();
    nodes.min_by(|&a, &b| far(a).total_cmp(&far(b)))
}

/// A part of the edge of a drawing's box.
#[derive(Debug, Clone, Copy)]
struct Gate {
    out: Vector,
    /// Nodes are at the gate from so far out on.
    least_out: f64,
    along: Vector,
    /// Where the drawing begins along the gate.
    zero: f64,
    /// How far along it nodes may lie.
    depth: f64,
}

impl Gate {
    fn of(lines: &Lines, out: Vector, along: Vector, depth: f64) -> Self {
        let range = |way: Vector| {
            let far = lines.points().iter().map(|point| point.coords.dot(&way));
            far.fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], far| {
                [least.min(far), most.max(far)]
            })
        };
        let ([near, far], [zero, most]) = (range(out), range(along));
        Self {
            out,
            least_out: far - AT_EDGE * (far - near),
            along,
            zero,
            depth: depth.min(most - zero),
        }
    }

    /// How far along the gate a point lies, where it is at the gate.
    fn height(&self, point: Point) -> Option<f64> {
        let height = point.coords.dot(&self.along) - self.zero;
        let at = point.coords.dot(&self.out) >= self.least_out;
        (at && height <= self.depth * (1.0 + AT_EDGE)).then_some(height)
    }
}

/// Nodes at two gates: those first that let the least be stitched twice, of all whose heights
/// differ about as little as can be.
fn between(net: &StrokeNet, gates: &[Gate; 2], join: f64) -> Vec<[Option<usize>; 2]> {
    let degrees = degrees(net);
    let nodes = (0..net.nodes.len()).filter(|&node| degrees[node] > 0);
    let [mut firsts, mut lasts] = [Vec::new(), Vec::new()];
    for node in nodes {
        let [first, last] = gates.map(|gate| gate.height(net.nodes[node]));
        firsts.extend(first.map(|height| (node, height)));
        lasts.extend(last.map(|height| (node, height)));
    }
    for gate in [&mut firsts, &mut lasts] {
        gate.sort_by_key(|&(node, _)| 1 - degrees[node] % 2);
        gate.truncate(MOST_AT_GATE);
    }
    let mut pairs: Vec<(u32, f64, [usize; 2])> = Vec::new();
    let mut least = f64::INFINITY;
    for &(first, height) in &firsts {
        for &(last, other) in lasts.iter().filter(|(last, _)| *last != first) {
            let even = 2 - degrees[first] % 2 - degrees[last] % 2;
            let differ = (height - other).abs();
            least = least.min(differ);
            pairs.push((even, differ, [first, last]));
        }
    }
    let alike = join.max(AT_EDGE * gates[0].depth.min(gates[1].depth));
    pairs.retain(|pair| pair.1 <= least + alike);
    pairs.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
    pairs.truncate(TRIED);
    pairs
        .into_iter()
        .map(|(.., [first, last])| [Some(first), Some(last)])
        .collect()
}
