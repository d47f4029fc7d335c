//! Where the line of a drawing starts and ends: the choices, as nodes of its net.

use super::net::StrokeNet;
use crate::geom::Point;
use crate::geom::lines::Lines;

/// Ends of a repeat lie within this share of its width of its left and right edge.
const AT_EDGE: f64 = 0.02;

/// So many pairs of ends are tried at the most.
const TRIED: usize = 6;

/// Where the line that strokes become starts and ends.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub enum LineEnds {
    /// Wherever the least is stitched twice.
    #[default]
    Free,
    /// As a repeat has them: at the left and the right edge, at heights as like as can be.
    Across,
    /// Where it is given; wherever is best for `None`.
    Given {
        /// Where the line starts.
        start: Option<EndPlace>,
        /// Where it ends.
        end: Option<EndPlace>,
    },
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

impl LineEnds {
    /// Where lines have to be cut so that they can start and end there: a line, a distance along it.
    pub(super) fn places(&self, lines: &Lines) -> Vec<(u32, f64)> {
        let places = match self {
            Self::Free => [None, None],
            Self::Across => [Some(EndPlace::Left), Some(EndPlace::Right)],
            Self::Given { start, end } => [*start, *end],
        };
        places
            .into_iter()
            .flatten()
            .filter_map(|place| place.on(lines))
            .collect()
    }

    /// The pairs of nodes to start and end at, those that are tried first first.
    pub(super) fn choices(
        &self,
        net: &StrokeNet,
        lines: &Lines,
        join: f64,
    ) -> Vec<[Option<usize>; 2]> {
        match self {
            Self::Free => vec![[None, None]],
            Self::Given { start, end } => {
                let node = |place: &Option<EndPlace>| {
                    let point = place.as_ref()?.point(lines)?;
                    nearest(net, point)
                };
                vec![[node(start), node(end)]]
            }
            Self::Across => across(net, join),
        }
    }
}

impl EndPlace {
    fn on(&self, lines: &Lines) -> Option<(u32, f64)> {
        let by = |far: &dyn Fn(Point) -> f64| {
            let points = lines.points().iter().enumerate();
            let at = points.min_by(|a, b| far(*a.1).total_cmp(&far(*b.1)))?.0;
            Some((lines.line(at as u32), lines.along(at)))
        };
        match *self {
            Self::Left => by(&|point| point.x),
            Self::Right => by(&|point| -point.x),
            Self::Top => by(&|point| point.y),
            Self::Bottom => by(&|point| -point.y),
            Self::At(wanted) => {
                let near = lines.segments().map(|segment| {
                    let ([from, to], [start, end]) = (lines.ends(segment), lines.reach(segment));
                    let way = to - from;
                    let share = ((wanted - from).dot(&way) / way.norm_squared()).clamp(0.0, 1.0);
                    let far = (from + way * share - wanted).norm();
                    (far, lines.line(segment), start + (end - start) * share)
                });
                let (_, line, along) = near.min_by(|a, b| a.0.total_cmp(&b.0))?;
                Some((line, along))
            }
        }
    }

    fn point(&self, lines: &Lines) -> Option<Point> {
        if let Self::At(point) = *self {
            return Some(point);
        }
        let (line, along) = self.on(lines)?;
        let segment = lines.segments().find(|&segment| {
            let [from, to] = lines.reach(segment);
            lines.line(segment) == line && from <= along && along <= to
        })?;
        Some(lines.point(segment, along))
    }
}

fn used(net: &StrokeNet) -> Vec<u32> {
    let mut degree = vec![0; net.nodes.len()];
    for edge in &net.edges {
        edge.ends.iter().for_each(|&end| degree[end] += 1);
    }
    degree
}

fn nearest(net: &StrokeNet, point: Point) -> Option<usize> {
    let degree = used(net);
    let nodes = (0..net.nodes.len()).filter(|&node| degree[node] > 0);
    let far = |node: usize| (net.nodes[node] - point).norm();
    nodes.min_by(|&a, &b| far(a).total_cmp(&far(b)))
}

/// Nodes near the left and the right edge: those first whose heights differ least.
fn across(net: &StrokeNet, join: f64) -> Vec<[Option<usize>; 2]> {
    let (Some(bounds), degree) = (net.bounds(), used(net)) else {
        return Vec::new();
    };
    let reach = AT_EDGE * bounds.size().x;
    let near = |edge: f64| -> Vec<usize> {
        let at = |&node: &usize| degree[node] > 0 && (net.nodes[node].x - edge).abs() <= reach;
        (0..net.nodes.len()).filter(at).collect()
    };
    let rights = near(bounds.max.x);
    let mut pairs: Vec<(f64, u32, [usize; 2])> = Vec::new();
    for left in near(bounds.min.x) {
        for &right in rights.iter().filter(|&&right| right != left) {
            let rise = (net.nodes[left].y - net.nodes[right].y).abs();
            let even = 2 - degree[left] % 2 - degree[right] % 2;
            pairs.push((rise, even, [left, right]));
        }
    }
    let least = pairs
        .iter()
        .fold(f64::INFINITY, |least, pair| least.min(pair.0));
    pairs.retain(|pair| pair.0 <= least + join);
    pairs.sort_by(|a, b| a.1.cmp(&b.1).then(a.0.total_cmp(&b.0)).then(a.2.cmp(&b.2)));
    pairs.truncate(TRIED);
    pairs
        .into_iter()
        .map(|(.., [left, right])| [Some(left), Some(right)])
        .collect()
}
