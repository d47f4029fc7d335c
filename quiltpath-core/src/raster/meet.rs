//! Lines beyond their crossings and ends: where they meet, and where they stop.
//!
//! Problem: within a crossing the thin line bends towards the middle of the ink, and at an end it
//! stops short or leans into a corner of it. Method: near a node the points are dropped as long as
//! the ink is thicker than one pen. The node is put where the lines that lead to it would meet, by
//! least squares, held a little by where it was. A free end goes on along its line to where the ink
//! ends, less half a pen, which is where a round pen stood. Guarantee: nodes move no further than
//! two pens. O(points). Failure: lines that are bent within a pen of their crossing are
//! straightened there.

use super::centre::Inked;
use super::net::{EdgeEnd, Net};
use crate::geom::{Point, Vector};

/// How thick the ink is about points, in pixels.
pub(super) trait Thick {
    fn thick(&self, at: Point) -> f64;
}

/// Centre lines, nodes where their lines meet, ends where the pen stood.
pub(super) fn settled(net: &Net, inked: &Inked<'_>, ink: &impl Thick) -> Net {
    let pen = inked.pen;
    let around = net.around();
    let mut out = net.clone();
    let mut headings: Vec<[Option<(Point, Vector)>; 2]> = Vec::with_capacity(net.edges.len());
    for (at, edge) in net.edges.iter().enumerate() {
        let ring = edge.ends[0] == edge.ends[1] && around[edge.ends[0]].len() == 2;
        let mut whole: Vec<Point> = net.points_from((at, 0)).collect();
        if ring {
            whole.pop();
            let mut round = inked.centred(&whole, true);
            out.nodes[edge.ends[0]] = round.remove(0);
            out.edges[at].points = round;
            headings.push([None; 2]);
            continue;
        }
        let centred = inked.centred(&whole, false);
        let dropped = [0, 1].map(|side| {
            let fork = around[edge.ends[side]].len() > 1;
            let from_there = |place: usize| match side {
                0 => place,
                _ => whole.len() - 1 - place,
            };
            let mut walked = 0.0;
            let mut last = whole[from_there(0)];
            let mut place = 1;
            while place < whole.len() - 1 {
                let point = whole[from_there(place)];
                walked += (point - last).norm();
                last = point;
                let within = match fork {
                    true => {
                        walked < 0.5 * pen
                            || (walked < 4.0 * pen && ink.thick(point) > 1.22 * pen + 0.5)
                    }
                    false => walked < 0.6 * pen,
                };
                if !within {
                    break;
                }
                place += 1;
            }
            place
        });
        let kept = dropped[0]..whole.len().saturating_sub(dropped[1]);
        let kept = match kept.len() {
            0 | 1 => {
                headings.push([None; 2]);
                out.edges[at].points = Vec::new();
                continue;
            }
            _ => &centred[kept],
        };
        out.edges[at].points = kept.to_vec();
        let stretch = |points: &mut dyn Iterator<Item = &Point>| heading(points, 1.6 * pen);
        headings.push([stretch(&mut kept.iter()), stretch(&mut kept.iter().rev())]);
    }
    for (node, ends) in around.iter().enumerate() {
        match ends.as_slice() {
            [] => {}
            &[end] => {
                if let Some(tip) = tip(&out, &headings, end, inked) {
                    out.nodes[node] = tip;
                }
            }
            ends => {
                let lines = ends.iter().filter_map(|&(at, side)| headings[at][side]);
                let ring = ends.len() == 2 && ends[0].0 == ends[1].0;
                if !ring {
                    out.nodes[node] = meeting(out.nodes[node], lines, pen);
                }
            }
        }
    }
    out
}

/// The middle and the direction of the first stretch of these points, leading away from the first.
fn heading(points: &mut dyn Iterator<Item = &Point>, length: f64) -> Option<(Point, Vector)> {
    let first = *points.next()?;
    let (mut last, mut walked) = (first, 0.0);
    let (mut sum, mut count) = (first.coords, 1.0);
    for &point in points {
        walked += (point - last).norm();
        last = point;
        sum += point.coords;
        count += 1.0;
        if walked >= length {
            break;
        }
    }
    let along = (last - first).try_normalize(1e-9)?;
    Some((Point::from(sum / count), along))
}

/// The point with the least sum of squared distances from these lines, held a little by `node`.
fn meeting(node: Point, lines: impl Iterator<Item = (Point, Vector)>, pen: f64) -> Point {
    const HELD: f64 = 0.03;
    let mut matrix = nalgebra::Matrix2::identity() * HELD;
    let mut right = node.coords * HELD;
    let mut count = 0;
    for (point, along) in lines {
        let normal = Vector::new(-along.y, along.x);
        let square = normal * normal.transpose();
        right += square * point.coords;
        matrix += square;
        count += 1;
    }
    let found = matrix.try_inverse().map(|inverse| inverse * right);
    match found {
        Some(found) if count > 1 => {
            let by = found - node.coords;
            let most = 2.0 * pen;
            node + by * (most / by.norm().max(most))
        }
        _ => node,
    }
}

/// Where the pen stood at a free end; `None` where the line is too short to tell.
fn tip(
    net: &Net,
    headings: &[[Option<(Point, Vector)>; 2]],
    (at, side): EdgeEnd,
    inked: &Inked<'_>,
) -> Option<Point> {
    let points = &net.edges[at].points;
    let last = match side {
        0 => points.first()?,
        _ => points.last()?,
    };
    let out = -headings[at][side]?.1;
    let light = inked.light(*last);
    let own = inked.dark(*last, light);
    let far = (3.0 * inked.pen / 0.25) as usize;
    let reach = (1..far).find(|&step| {
        let place = last + out * (0.25 * step as f64);
        inked.dark(place, light) < 0.5 * own
    })?;
    let off = (0.25 * reach as f64 - 0.5 * inked.pen).max(0.25);
    Some(last + out * off)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_meet_where_they_cross() {
        let line =
            |x: f64, y: f64, dx: f64, dy: f64| (Point::new(x, y), Vector::new(dx, dy).normalize());
        let node = Point::new(0.4, -0.3);
        let cross = [
            line(5.0, 0.0, 1.0, 0.0),
            line(0.0, 5.0, 0.0, 1.0),
            line(-5.0, 0.0, -1.0, 0.0),
        ];
        let found = meeting(node, cross.into_iter(), 2.0);
        assert!(found.coords.norm() < 0.02, "{found}");
        // Two that run alike don't say where along them; the node does.
        let alike = [line(5.0, 0.0, 1.0, 0.0), line(-5.0, 0.0, -1.0, 0.0)];
        let found = meeting(node, alike.into_iter(), 2.0);
        assert!(
            (found.x - 0.4).abs() < 1e-9 && found.y.abs() < 0.01,
            "{found}"
        );
        // Nearly alike lines meet far off; the node stays near.
        let far = [line(5.0, 0.1, 1.0, 0.02), line(5.0, 0.4, 1.0, 0.025)];
        assert!((meeting(node, far.into_iter(), 2.0) - node).norm() <= 4.0 + 1e-9);
    }
}
