//! The needle-up check: a short path that shows whether a pass lies where it should, before a
//! stitch is made.
//!
//! Problem: choose at most a dozen stops that say the most about where the lines of a pass, or of a
//! piece, lie on the cloth: where they start and end, where they come nearest to seam and edge,
//! how far they reach, and where the band has its limits; and an order with little travel.
//! Method: seam and edge of each side are cut into four parts; for each part the place of the lines
//! that is nearest to it is found. Of these places the nearest to a seam and the nearest to an edge
//! are stops, and of the others the next nearest that is well apart, a quarter of the size of the
//! lines. What is left of the dozen goes to the corners of the band, and to where its limits leave
//! the window, each time the one farthest from all stops so far. The order is nearest stop first
//! from the start on, then the exchange of two ways while that is shorter.
//! Guarantee: the distance of each place is the least of its part, exactly, over segments and not
//! vertices alone; the first of a kind is the least of all. The rest is a greedy choice, and the
//! order no more than good.
//! Failure: none; lines without limits have the stops of their own.

mod nearest;
mod order;

use crate::error::Error;
use crate::geom::stretches::Stretches;
use crate::geom::{Bounds, ConvexPolygon, Point};
use crate::motif::Motif;
use crate::plan::{Layout, Side};
use nearest::{Reached, SAME, nearest, parts};

/// The most stops of a check.
pub const MOST_STOPS: usize = 12;

/// How many places next to seams, and how many next to edges, are stops.
const NEAREST: usize = 2;

/// Into so many parts each side is cut.
const PARTS: usize = 4;

/// A line of a border that a check keeps to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum LimitKind {
    /// The inner seam.
    Seam,
    /// The outer edge: the raw edge, or the seam to the border outside.
    Edge,
    /// The inner limit of the band that may be stitched.
    Inner,
    /// The outer limit of that band.
    Outer,
}

/// One side of a line of a border, in the coordinates of the lines that are checked.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Limit {
    /// The number of the border, from the outermost, from 0.
    pub border: usize,
    /// Which of its lines.
    pub kind: LimitKind,
    /// Which side of it.
    pub side: Side,
    /// The line of that side, from corner to corner, clockwise on the quilt.
    pub points: Vec<Point>,
}

impl Limit {
    /// The same line in other coordinates, as where a pass is laid.
    #[must_use]
    pub fn mapped(mut self, map: impl Fn(Point) -> Point) -> Self {
        self.points = self.points.into_iter().map(map).collect();
        self
    }
}

/// A line that is stitched, and the border that it belongs to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CheckedLine<'a> {
    /// The number of the border, from the outermost, from 0.
    pub border: usize,
    /// The points in the order of stitching, two at least.
    pub points: &'a [Point],
}

/// Which way lines reach farthest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Reach {
    /// To the least x.
    Left,
    /// To the greatest x.
    Right,
    /// To the least y.
    Top,
    /// To the greatest y.
    Bottom,
}

/// What lies at a stop of a check.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum There {
    /// The lines start there.
    Start,
    /// They end there.
    End,
    /// They come nearest there to a seam or an edge.
    Near {
        /// The seam or the edge.
        kind: LimitKind,
        /// The number of its border.
        border: usize,
        /// The side of that border.
        side: Side,
        /// How far it is.
        distance: f64,
    },
    /// They reach farthest there.
    Reach(Reach),
    /// The band has a corner there, or its limit leaves the window.
    Limit {
        /// The inner or the outer limit.
        kind: LimitKind,
        /// The number of the border.
        border: usize,
        /// A side of it that ends or begins there.
        side: Side,
    },
}

/// One stop of a check.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct CheckStop {
    /// Where the needle stops, above the cloth.
    pub at: Point,
    /// What lies there, at least one thing.
    pub there: Vec<There>,
}

/// A needle-up check: stops in order, for travel without a stitch.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct NeedleUp {
    /// The stops in order, at least two.
    pub stops: Vec<CheckStop>,
}

impl NeedleUp {
    /// The way from stop to stop.
    ///
    /// # Errors
    ///
    /// A geometry error when all stops are in one place, as those of no line are.
    pub fn path(&self, name: &str) -> Result<Motif, Error> {
        Motif::from_points(name, self.stops.iter().map(|stop| stop.at).collect())
    }
}

/// The lines of a border, side by side, on the quilt.
///
/// `border` is its number from the outermost, from 0.
#[must_use]
pub fn limits_of(layout: &Layout, border: usize) -> Vec<Limit> {
    let (lines, band) = (&layout.lines, &layout.band);
    let all: [(LimitKind, &[Point], &ConvexPolygon); 4] = [
        (LimitKind::Seam, &lines.seam, &band.seam),
        (LimitKind::Edge, &lines.edge, &band.edge),
        (LimitKind::Inner, &lines.inner, &band.inner),
        (LimitKind::Outer, &lines.outer, &band.outer),
    ];
    let sides = |(kind, line, polygon): (LimitKind, &[Point], &ConvexPolygon)| {
        let limits = layout.sides().map(|side| Limit {
            border,
            kind,
            side,
            points: side_of(line, polygon, side.index()),
        });
        limits.collect::<Vec<_>>()
    };
    // The field of blocks has one outline.
    let lines = if layout.is_field() { 1 } else { all.len() };
    all.into_iter().take(lines).flat_map(sides).collect()
}

/// The part of a closed line between the corners of one side, both included.
fn side_of(line: &[Point], polygon: &ConvexPolygon, side: usize) -> Vec<Point> {
    let corners = polygon.corners();
    let at = |corner: usize| {
        let corner = corners[corner % corners.len()];
        let far = |index: &usize| (line[*index] - corner).norm_squared();
        let nearest = (0..line.len()).min_by(|a, b| far(a).total_cmp(&far(b)));
        nearest.unwrap_or(0)
    };
    // A border whose lines were taken out of a solved plan has no limits.
    if line.is_empty() || corners.is_empty() {
        return Vec::new();
    }
    let (from, to) = (at(side), at(side + 1));
    let count = (to + line.len() - from) % line.len();
    (0..=count)
        .map(|step| line[(from + step) % line.len()])
        .collect()
}

/// A check of these lines against these limits, all in the coordinates of the window.
///
/// Limits of borders that no line belongs to are passed over, and those of the band outside the
/// window too. `apart` is how near to another stop none is made any more for what says little, such
/// as 12.7 mm.
///
/// ```
/// use quiltpath_core::frame::{CheckedLine, There, needle_up};
/// use quiltpath_core::geom::{Bounds, Point};
///
/// let line = [(0.0, 5.0), (50.0, 0.0), (100.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// let window = Bounds { min: Point::origin(), max: Point::new(100.0, 40.0) };
/// let lines = [CheckedLine { border: 0, points: &line }];
/// let check = needle_up(&lines, &[], window, 12.7)?;
/// assert_eq!(check.stops[0].there[0], There::Start);
/// assert_eq!(check.stops.len(), 3);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when there is no line, or one is none.
///
/// # Complexity
///
/// O(points log points) for drawn lines: the distance of a place says how far along the line none
/// can be nearer.
pub fn needle_up(
    lines: &[CheckedLine<'_>],
    limits: &[Limit],
    window: Bounds,
    apart: f64,
) -> Result<NeedleUp, Error> {
    for line in lines {
        crate::geom::Polyline::new(line.points.to_vec())?;
    }
    let all: Vec<Point> = lines.iter().flat_map(|line| line.points).copied().collect();
    let (Some(first), Some(last), Some(bounds)) = (all.first(), all.last(), Bounds::of(&all))
    else {
        return Err(crate::error::GeometryFault::TooFewPoints { found: 0 }.into());
    };
    let mut stops = Stops(Vec::new());
    stops.add(*first, There::Start);
    stops.add(*last, There::End);
    let own = |limit: &&Limit| lines.iter().any(|line| line.border == limit.border);
    let limits: Vec<&Limit> = limits.iter().filter(own).collect();
    let reached: Vec<(usize, Reached<'_>)> = lines
        .iter()
        .map(|line| (line.border, Reached::of(line.points)))
        .collect();
    for kind in [LimitKind::Seam, LimitKind::Edge] {
        let of_kind = limits.iter().filter(|limit| limit.kind == kind);
        let places = of_kind.flat_map(|limit| nearest_of(&reached, limit));
        let mut places: Vec<(f64, Point, There)> = places.collect();
        places.sort_by(|a, b| step(a.0).total_cmp(&step(b.0)));
        let far = bounds.size().norm() / 4.0;
        let mut taken: Vec<Point> = Vec::new();
        for (_, at, there) in places {
            if taken.len() < NEAREST && taken.iter().all(|other| (at - other).norm() >= far) {
                taken.push(at);
                stops.add(at, there);
            }
        }
    }
    for (reach, key) in [
        (Reach::Left, (0, 1.0)),
        (Reach::Right, (0, -1.0)),
        (Reach::Top, (1, 1.0)),
        (Reach::Bottom, (1, -1.0)),
    ] {
        let by = |point: &Point| point[key.0] * key.1;
        let farthest = all
            .iter()
            .min_by(|a, b| step(by(a)).total_cmp(&step(by(b))));
        if let Some(&at) = farthest {
            stops.add_unless_near(at, There::Reach(reach), apart, by);
        }
    }
    let mut places: Vec<(Point, There)> = limits
        .iter()
        .filter(|limit| matches!(limit.kind, LimitKind::Inner | LimitKind::Outer))
        .flat_map(|limit| ends_within(limit, window))
        .collect();
    while stops.0.len() < MOST_STOPS {
        let farthest = (0..places.len())
            .map(|place| (step(stops.distance(places[place].0)) * SAME, place))
            .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)));
        match farthest {
            Some((distance, place)) if distance > apart => {
                let (at, there) = places.swap_remove(place);
                stops.add(at, there);
            }
            _ => break,
        }
    }
    let places: Vec<Point> = stops.0.iter().map(|stop| stop.at).collect();
    let order = order::short_way(&places);
    let mut stops: Vec<Option<CheckStop>> = stops.0.into_iter().map(Some).collect();
    let stops = order.into_iter().filter_map(|at| stops[at].take());
    Ok(NeedleUp {
        stops: stops.collect(),
    })
}

/// A distance in steps of [`SAME`], so that equal ones are in the order in which they were found.
fn step(distance: f64) -> f64 {
    (distance / SAME).round()
}

/// Stops in the order in which they were chosen.
struct Stops(Vec<CheckStop>);

impl Stops {
    /// Adds what lies at a place; a stop that is there already has it as well.
    fn add(&mut self, at: Point, there: There) {
        match self.0.iter_mut().find(|stop| (stop.at - at).norm() <= SAME) {
            Some(stop) => stop.there.push(there),
            None => self.0.push(CheckStop {
                at,
                there: vec![there],
            }),
        }
    }

    /// Adds how far lines reach, unless a stop that is near reaches as far within a hair.
    fn add_unless_near(&mut self, at: Point, there: There, apart: f64, by: impl Fn(&Point) -> f64) {
        let stands_for = |stop: &&mut CheckStop| {
            (stop.at - at).norm() <= apart && by(&stop.at) - by(&at) <= apart / 10.0
        };
        match self.0.iter_mut().find(stands_for) {
            Some(stop) => stop.there.push(there),
            None => self.add(at, there),
        }
    }

    fn distance(&self, place: Point) -> f64 {
        let far = self.0.iter().map(|stop| (stop.at - place).norm());
        far.fold(f64::INFINITY, f64::min)
    }
}

/// For each part of a limit, the place of its border's lines that is nearest.
fn nearest_of<'a>(
    lines: &'a [(usize, Reached<'a>)],
    limit: &'a Limit,
) -> impl Iterator<Item = (f64, Point, There)> + 'a {
    let cut = parts(&limit.points, PARTS);
    cut.into_iter().filter_map(move |part| {
        let own = lines.iter().filter(|(border, _)| *border == limit.border);
        let mut part = Stretches::of(part);
        let mut least: Option<(f64, Point)> = None;
        for (_, line) in own {
            let below = least.map_or(f64::INFINITY, |(distance, _)| distance);
            least = nearest(line, &mut part, below).or(least);
        }
        let (distance, at) = least?;
        let there = There::Near {
            kind: limit.kind,
            border: limit.border,
            side: limit.side,
            distance,
        };
        Some((distance, at, there))
    })
}

/// The ends of a limit within the window, and where it leaves the window.
fn ends_within(limit: &Limit, window: Bounds) -> Vec<(Point, There)> {
    let there = There::Limit {
        kind: limit.kind,
        border: limit.border,
        side: limit.side,
    };
    let slack = 1e-6 * window.size().norm();
    let inside = |point: Point| {
        (0..2).all(|axis| {
            point[axis] >= window.min[axis] - slack && point[axis] <= window.max[axis] + slack
        })
    };
    let ends = [limit.points.first(), limit.points.last()];
    let ends = ends
        .into_iter()
        .flatten()
        .copied()
        .filter(|end| inside(*end));
    let mut found: Vec<(Point, There)> = ends.map(|end| (end, there)).collect();
    for pair in limit.points.windows(2) {
        let way = pair[1] - pair[0];
        for axis in 0..2 {
            for wall in [window.min[axis], window.max[axis]] {
                let share = (wall - pair[0][axis]) / way[axis];
                if share > 0.0 && share < 1.0 {
                    let at = pair[0] + way * share;
                    if inside(at) {
                        found.push((at, there));
                    }
                }
            }
        }
    }
    found
}

#[cfg(test)]
mod tests;
