//! Lengths along a laid run brought to the run as it was planned.
//!
//! Problem: cloth is stretched a little, differently in each place, so a length along a laid line
//! is another one along the planned line. Method: a laid line has the images of all planned points,
//! in order; between two of them the share is the same. Guarantee: at planned points the length is
//! that of the planned line; between them it is off by what the stretch changes over one segment.

use super::lay::{LaidPass, LaidRun, planned_pass};
use crate::error::Error;
use crate::geom::Point;
use crate::plan::Stitching;

/// How much of a run as planned lies before this length of the same run as laid, in millimetres.
///
/// # Errors
///
/// A plan error when the stitching has no such pass.
///
/// # Complexity
///
/// O(points).
pub fn planned_length(
    stitching: &Stitching,
    laid: &LaidPass,
    run: &LaidRun,
    length: f64,
) -> Result<f64, Error> {
    let pass = planned_pass(stitching, laid.pass)?;
    let image = |point: Point| laid.aligned.map.map(pass.to_machine.apply(point));
    let planned = run.planned.motif.points();
    Ok(brought_back(planned, image, run.motif.points(), length))
}

fn brought_back(
    planned: &[Point],
    image: impl Fn(Point) -> Point,
    laid: &[Point],
    length: f64,
) -> f64 {
    // The last place before, and the first after, that both lines have: planned and laid lengths.
    let mut before = [0.0, 0.0];
    let (mut reached, mut along, mut next) = (0.0, 0.0, 0);
    for (index, &point) in planned.iter().enumerate() {
        if index > 0 {
            reached += (point - planned[index - 1]).norm();
        }
        let there = image(point);
        let from = next;
        let mut walked = along;
        let found = (from..laid.len()).find(|&at| {
            if at > from {
                walked += (laid[at] - laid[at - 1]).norm();
            }
            laid[at] == there
        });
        // Points that came to lie on each other are one in the laid line.
        let Some(found) = found else { continue };
        (next, along) = (found, walked);
        if along >= length {
            let share = match along > before[1] {
                true => (length - before[1]) / (along - before[1]),
                false => 0.0,
            };
            return before[0] + (reached - before[0]) * share.clamp(0.0, 1.0);
        }
        before = [reached, along];
    }
    before[0]
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn planned_points_keep_their_lengths(
            points in prop::collection::vec((-90.0..90.0f64, -90.0..90.0f64), 2..20),
            halves in prop::collection::vec(any::<bool>(), 20),
        ) {
            let planned: Vec<Point> = points.into_iter().map(|(x, y)| Point::new(x, y)).collect();
            let image = |point: Point| Point::new(1.01 * point.x + 3.0, 0.99 * point.y + 0.001 * point.x);
            let mut laid = vec![image(planned[0])];
            let (mut lengths, mut along, mut reached) = (vec![[0.0, 0.0]], 0.0, 0.0);
            for (pair, half) in planned.windows(2).zip(halves) {
                if half {
                    laid.push(image(nalgebra::center(&pair[0], &pair[1])));
                }
                laid.push(image(pair[1]));
                along += (image(pair[1]) - image(pair[0])).norm();
                reached += (pair[1] - pair[0]).norm();
                lengths.push([reached, along]);
            }
            for [reached, along] in lengths {
                let found = brought_back(&planned, image, &laid, along);
                prop_assert!((found - reached).abs() < 1e-6, "{} {}", found, reached);
            }
            prop_assert_eq!(brought_back(&planned, image, &laid, along + 5.0), reached);
        }
    }
}
