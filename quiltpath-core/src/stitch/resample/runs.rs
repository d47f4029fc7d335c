//! The path parted at its cusps, and each run between two cusps into even shares.

use super::chord::Chord;
use super::needles::{Needles, Place};
use super::options::StitchOptions;
use crate::error::{Error, StitchFault};
use crate::geom::Point;

/// The most stitches that one path may take: 10 million.
const MAX_STITCHES: usize = 10_000_000;

/// The share of the chord error that the spacing aims at, so that few stitches need a split.
const AIM: f64 = 0.8;

/// The shortest spacing in minima: on a curve a stitch is shorter than its part of the path.
const SPARE: f64 = 1.25;

/// The most vertices that an arm of a cusp passes, to bound the time on very dense jitter.
const ARM_VERTICES: usize = 64;

/// Cells of the same spacing become one up to so many vertices.
const MERGED_VERTICES: usize = 16;

/// A piece of a run, about half a stitch or one long segment, with one spacing.
struct Cell {
    /// The vertex at its start.
    from: usize,
    /// The vertex at its end.
    to: usize,
    /// Its length along the path.
    arc: f64,
    /// The spacing in it.
    stitch: f64,
}

/// The sharp points of a path.
#[derive(Default)]
pub(super) struct Sharp {
    /// The vertices that are cusps, in order.
    pub(super) cusps: Vec<usize>,
    /// How many others turn as sharply, but between arms that don't.
    pub(super) tiny: usize,
}

/// A run of the path from cusp to cusp.
pub(super) struct Runs<'a> {
    path: &'a [Point],
    options: &'a StitchOptions,
    /// The first vertex of the run.
    start: usize,
    cells: Vec<Cell>,
    /// The length of the cells.
    arc: f64,
}

impl<'a> Runs<'a> {
    pub(super) fn new(path: &'a [Point], options: &'a StitchOptions) -> Self {
        Self {
            path,
            options,
            start: 0,
            cells: Vec::new(),
            arc: 0.0,
        }
    }

    /// Puts needle points on the whole path and lists its sharp points.
    pub(super) fn part(mut self, needles: &mut Needles) -> Result<Sharp, Error> {
        let mut found = Sharp::default();
        let path = self.path;
        let turn = self.options.cusp_degrees.to_radians().cos();
        let (half, target) = (self.options.target / 2.0, self.options.target);
        let last = path.len() - 1;
        let mut step = path[1] - path[0];
        let mut length = step.norm();
        let (mut from, mut to) = (0, 1);
        let mut arc = length;
        while to < last {
            let next = path[to + 1] - path[to];
            let next_length = next.norm();
            let sharp = step.dot(&next) < turn * (length * next_length);
            let cusp = sharp && self.is_cusp(to, turn);
            found.tiny += usize::from(sharp && !cusp);
            // A long straight in a cell would drown the curve beside it.
            let long = length.max(next_length) >= target;
            if cusp || long || (arc >= half && to - from > 1) {
                self.close_cell(from, to, arc);
                from = to;
                arc = 0.0;
            }
            if cusp {
                found.cusps.push(to);
                // Too near along the path is too near; no run is broken for it.
                if self.arc >= self.options.minimum {
                    self.place(to, needles)?;
                    needles.anchor(path[to], to);
                    self.cells.clear();
                    self.start = to;
                    self.arc = 0.0;
                }
            }
            (step, length) = (next, next_length);
            arc += length;
            to += 1;
        }
        self.close_cell(from, last, arc);
        self.place(last, needles)?;
        needles.end(path[last], last);
        Ok(found)
    }

    fn close_cell(&mut self, from: usize, to: usize, arc: f64) {
        let stitch = self.spacing(from, to, arc);
        self.arc += arc;
        match self.cells.last_mut() {
            // Few and short cells cost less than a look at each.
            Some(last) if last.stitch == stitch && to - last.from <= MERGED_VERTICES => {
                last.to = to;
                last.arc += arc;
            }
            _ => self.cells.push(Cell {
                from,
                to,
                arc,
                stitch,
            }),
        }
    }

    /// min(target, √(8 r e)), where r = arc² / (8 sagitta) comes from the cell's sagitta.
    fn spacing(&self, from: usize, to: usize, arc: f64) -> f64 {
        let (target, aim) = (self.options.target, AIM * self.options.chord_error);
        let chord = Chord::new(self.path[from], self.path[to]);
        // The sagitta at which the spacing falls below the target, squared.
        let harmless = (aim * (arc / target) * (arc / target)).powi(2);
        // No point of an arc lies farther from its chord than an ellipse around the ends allows.
        if (arc * arc - chord.square_length()) / 4.0 <= harmless {
            return target;
        }
        let sagitta = chord.worst(&self.path[from + 1..to]);
        if sagitta <= harmless {
            return target;
        }
        (arc * (aim / sagitta.sqrt()).sqrt()).clamp(SPARE * self.options.minimum, target)
    }

    /// Puts evenly shared needle points between the run's start and the vertex at its end.
    fn place(&self, end: usize, needles: &mut Needles) -> Result<(), Error> {
        let path = self.path;
        let mut limited = false;
        let mut total = 0.0;
        for cell in &self.cells {
            total += cell.arc / cell.stitch;
            limited |= cell.stitch < self.options.target;
        }
        let count = self.count(total, limited, end);
        // One needle point is the start.
        let all = (needles.len() - 1) as f64 + count;
        if all > MAX_STITCHES as f64 {
            let (count, limit) = (all, MAX_STITCHES);
            return Err(StitchFault::TooMany { count, limit }.into());
        }
        needles.reserve(count as usize);
        let share = total / count;
        let mut number = 1.0;
        let mut done = 0.0;
        let mut vertex = self.start;
        for cell in &self.cells {
            let here = cell.arc / cell.stitch;
            let mut walked = 0.0;
            let mut step = path[vertex + 1] - path[vertex];
            let mut length = step.norm();
            while number < count && number * share < done + here {
                let wanted = (number * share - done) * cell.stitch;
                while walked + length < wanted && vertex + 1 < cell.to {
                    walked += length;
                    vertex += 1;
                    step = path[vertex + 1] - path[vertex];
                    length = step.norm();
                }
                let fraction = ((wanted - walked) / length).clamp(0.0, 1.0);
                let place = Place::segment_to(vertex + 1);
                needles.pass(path[vertex] + step * fraction, place);
                number += 1.0;
            }
            done += here;
            vertex = cell.to;
        }
        Ok(())
    }

    /// The number of stitches for a run that takes `total` of them, as a whole number.
    fn count(&self, total: f64, limited: bool, end: usize) -> f64 {
        let below = total.floor();
        let count = if limited {
            // More than the share of one stitch would break the chord error.
            (total - 1e-9).ceil()
        } else if total > (below * (below + 1.0)).sqrt() {
            // The whole number with the least stretch: never by more than √2.
            below + 1.0
        } else {
            below
        };
        let minimum = self.options.minimum;
        let near = (self.path[end] - self.path[self.start]).norm() < minimum;
        // A loop back to the run's own start needs a point away from it.
        let least = if near && self.arc >= 2.0 * minimum {
            2.0
        } else {
            1.0
        };
        count.max(least)
    }

    /// Whether the path also turns there between arms of the minimum's length.
    fn is_cusp(&self, vertex: usize, turn: f64) -> bool {
        let at = self.path[vertex];
        let back = at - self.arm(at, self.path[..vertex].iter().rev());
        let forth = self.arm(at, self.path[vertex + 1..].iter()) - at;
        back.dot(&forth) < turn * (back.norm() * forth.norm())
    }

    /// The point of the path at the end of an arm from a vertex over the points beside it.
    fn arm<'p>(&self, from: Point, beside: impl Iterator<Item = &'p Point>) -> Point {
        let mut left = self.options.minimum;
        let mut at = from;
        for &next in beside.take(ARM_VERTICES) {
            let step = next - at;
            let length = step.norm();
            if length >= left {
                return at + step * (left / length);
            }
            left -= length;
            at = next;
        }
        at
    }
}
