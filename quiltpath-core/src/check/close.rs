//! Lines side by side: closer than a limit over a length, so that thread builds up.
//!
//! Problem: where do two stretches of line, of one line or of two, stay within a distance d of
//! each other over a length L? Method: the runs of all pairs of places within d (`runs`); a run
//! counts when both its parts are longer than L. Places of one line are neighbours, and no pair,
//! when no more than 2 d of it lies between them: so a bend of a radius above 0.53 d, or a corner
//! above 60 degrees, is no run by itself (a chord of an arc of length 2 d is 2 r sin(d / r)). A
//! crossing at the angle θ is a run of 2 d / sin θ.
//! Guarantee: all such runs are found, and no others, for lines that are moved by no more than the
//! tolerance of thinning; runs told as stitched twice are cut out first, with both their parts.
//! Failure: lines in crowded spots are not gone through; the spots are told.

use super::lines::{Lines, positive};
use super::near::near_pairs;
use super::runs::{Component, Rule, Told, runs};
use super::{Crowded, Found, LinePart, twice, worst_first};
use crate::error::Error;
use crate::geom::Point;

/// How near lines may come, and over what length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunLimit {
    /// Lines within this distance of each other count.
    pub distance: f64,
    /// Up to this length of it is no fault; at least twice the distance.
    pub length: f64,
}

impl RunLimit {
    /// Within 1/16 in over more than 1/2 in, for lines in millimetres.
    ///
    /// Our own choice: up to 16 stitches per inch, the holes of two lines 1/16 in apart are no
    /// farther from each other than those along either; 1/2 in is five stitches at 10 stitches per
    /// inch. Lines that cross at more than 14.5 degrees are never told.
    pub const CLOSE_MM: Self = Self {
        distance: 25.4 / 16.0,
        length: 12.7,
    };

    /// Within 0.2 mm over more than 1/4 in, for lines in millimetres.
    ///
    /// Our own choice: 0.2 mm is about as thick as thread is (from memory), so that nearer lines
    /// lie on top of one another; 1/4 in is two to three stitches at 10 stitches per inch.
    pub const TWICE_MM: Self = Self {
        distance: 0.2,
        length: 6.35,
    };

    pub(super) fn check(&self) -> Result<(), Error> {
        positive("the distance between lines", self.distance)?;
        positive("the length of lines side by side", self.length)?;
        if self.length < 2.0 * self.distance {
            let accepted = "at least twice the distance, or plain crossings are told";
            return Err(Error::bad_number(
                "the length of lines side by side",
                self.length,
                accepted,
            ));
        }
        Ok(())
    }
}

/// Two parts of lines that stay within a distance of each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The part that is stitched first and the one stitched second: of one line or of two.
    pub parts: [LinePart; 2],
    /// The length of the shorter part.
    pub length: f64,
    /// The least distance between them.
    pub nearest: f64,
    /// Where they are nearest: a point of the first part.
    pub at: Point,
}

/// Finds lines closer than a limit over a length, but for those stitched twice.
///
/// In the unit of the lines. A run may hold more than two stretches: a fill whose rows are too
/// close is one run from its first row to its last.
///
/// ```
/// use quiltpath_core::{check::{Lines, close::{RunLimit, close}}, geom::Point};
///
/// let point = Point::new;
/// let (base, above) = ([point(0.0, 0.0), point(90.0, 0.0)], [point(20.0, -1.0), point(50.0, -1.0)]);
/// let lines = Lines::new(&[&base, &above], Lines::TOLERANCE_MM)?;
/// let found = close(&lines, &RunLimit::CLOSE_MM, &RunLimit::TWICE_MM)?;
/// let run = &found.places[0];
/// assert_eq!((run.parts[1].line, run.length, run.nearest), (1, 30.0, 1.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a distance or a length is below 1e-6 or not finite, or a length is below
/// twice its distance.
///
/// # Complexity
///
/// O(points + pairs of segments within the distance) for drawn lines.
pub fn close(lines: &Lines, limit: &RunLimit, twice: &RunLimit) -> Result<Found<Run>, Error> {
    except(lines, limit, &twice::doubled(lines, twice)?.told())
}

/// As [`close`], with what is stitched twice found before.
pub(super) fn except(lines: &Lines, limit: &RunLimit, told: &[Told]) -> Result<Found<Run>, Error> {
    Ok(Within::of(lines, limit, told)?.found(lines))
}

/// The runs within a limit, as they were found.
pub(super) struct Within {
    components: Vec<Component>,
    crowded: Vec<Crowded>,
}

impl Within {
    pub(super) fn of(lines: &Lines, limit: &RunLimit, told: &[Told]) -> Result<Self, Error> {
        limit.check()?;
        let neighbours = 2.0 * limit.distance;
        let near = near_pairs(lines, limit.distance, neighbours);
        let rule = Rule {
            distance: limit.distance,
            gap: [neighbours, f64::INFINITY],
            told,
        };
        let mut components = runs(lines, &near.pairs, &rule);
        components.retain(|run| run.length() > limit.length);
        Ok(Self {
            components,
            crowded: near.crowded,
        })
    }

    /// The runs as what later checks leave out.
    pub(super) fn told(&self) -> Vec<Told> {
        let told = |run: &Component| Told {
            segments: run.segments,
            first: run.reach[0],
        };
        self.components.iter().map(told).collect()
    }

    pub(super) fn found(self, lines: &Lines) -> Found<Run> {
        let run = |run: Component| Run {
            parts: run.parts(lines),
            length: run.length(),
            nearest: run.nearest,
            at: run.at,
        };
        let places = self.components.into_iter().map(run).collect();
        let longest = |a: &Run, b: &Run| b.length.total_cmp(&a.length);
        worst_first(places, longest, self.crowded)
    }
}

#[cfg(test)]
mod tests;
