//! Stretches of line that stay within a distance of each other over a length.
//!
//! Problem: where do two stretches of line, of one line or of two, stay within a distance d of
//! each other over a length L? Method: the runs of all pairs of places within d (`runs`); a run
//! counts when both its parts are longer than L. Places of one line are neighbours, and no pair,
//! when no more than 2 d of it lies between them: so a bend of a radius above 0.53 d, or a corner
//! above 60 degrees, is no run by itself (a chord of an arc of length 2 d is 2 r sin(d / r)). A
//! crossing at the angle θ is a run of 2 d / sin θ.
//! Guarantee: all such runs are found, and no others, for lines that are moved by no more than the
//! tolerance of thinning; runs that another check has taken are cut out first, with both their
//! parts. Failure: lines in crowded spots are not gone through; the spots are reported.

use super::found::{Found, LinePart};
use super::runs::{Component, Rule, Taken, runs};
use crate::error::Error;
use crate::geom::Point;
use crate::geom::lines::{Lines, positive};
use crate::geom::near::Crowded;
use crate::geom::near::near_pairs;

/// How near lines may come, and over what length.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
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
    /// inch. Lines that cross at more than 14.5 degrees are never reported.
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

    /// Within this distance over more than this length, both in the unit of the lines.
    ///
    /// The numbers are checked where the limit is used.
    #[must_use]
    pub fn new(distance: f64, length: f64) -> Self {
        Self { distance, length }
    }

    fn check(&self) -> Result<(), Error> {
        positive("the distance between lines", self.distance)?;
        positive("the length of lines side by side", self.length)?;
        if self.length < 2.0 * self.distance {
            let accepted = "at least twice the distance, or plain crossings are reported";
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
#[non_exhaustive]
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

/// The runs within a limit, as they were found.
pub(super) struct Within {
    components: Vec<Component>,
    crowded: Vec<Crowded>,
}

impl Within {
    /// The runs within a limit, less what was taken before.
    pub(super) fn of(lines: &Lines, limit: &RunLimit, taken: &[Taken]) -> Result<Self, Error> {
        limit.check()?;
        let neighbours = 2.0 * limit.distance;
        let near = near_pairs(lines, limit.distance, neighbours);
        let rule = Rule {
            distance: limit.distance,
            gap: [neighbours, f64::INFINITY],
            taken,
        };
        let mut components = runs(lines, &near.pairs, &rule);
        components.retain(|run| run.length() > limit.length);
        Ok(Self {
            components,
            crowded: near.crowded,
        })
    }

    /// The runs as what later checks leave out.
    pub(super) fn taken(&self) -> Vec<Taken> {
        let taken = |run: &Component| Taken {
            segments: run.segments,
            first: run.reach[0],
        };
        self.components.iter().map(taken).collect()
    }

    /// The runs in the words of the report, the longest first.
    pub(super) fn found(self, lines: &Lines) -> Found<Run> {
        let run = |run: Component| Run {
            parts: run.parts(lines),
            length: run.length(),
            nearest: run.nearest,
            at: run.at,
        };
        let places = self.components.into_iter().map(run).collect();
        Found::worst_first(places, |run: &Run| run.length, self.crowded)
    }
}
