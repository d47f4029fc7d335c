//! Loops in the ink of a repeat: places where the line comes round to where it was.
//!
//! Problem: find the flowers, circles, loops and scrolls that are to stay round, whether the line
//! crosses itself there, touches itself, runs over itself, almost closes or winds inwards.
//! Method: a part of the line is a loop when it is compact: it encloses an area A that is large
//! against π·R², R being the root of the mean square of its distances from its middle. That is 1
//! for a circle, less for leaves and for flowers with petals, and 0 for a line travelled back.
//! Sums up to each sample give both for any part at once. Two kinds of parts are looked at:
//! those that end within a small distance of where they began, found by cells of that size in
//! which the samples lie; and those along which the line turns right round once and ends near
//! where it began for their size, which are the turns of a scroll.
//! Guarantee: none proven, what counts as a loop is our own choice; tests hold circles, crossings,
//! near closures, flowers and scrolls against it.
//! Failure: loops shorter than 0.08 or longer than [`LONGEST`] depths are left out, and so are
//! those that only the neighbouring copy of a repeat closes. Where the line passes one cell more
//! than [`TRIES`] times, some of the loops there may be missed.

use crate::geom::{Point, Vector};
use std::f64::consts::{PI, TAU};

/// How near the line has to come back, in depths.
pub(super) const CLOSED: f64 = 0.01;

/// The least A/πR² of a loop: about that of a box seven times as long as wide.
const COMPACT: f64 = 0.4;

/// The length of the longest loop, in depths.
const LONGEST: f64 = 8.0;

/// The length of the longest turn of a scroll, in depths.
const LONGEST_TURN: f64 = 4.0;

/// How far apart the ends of a scroll's turn may lie, in its R.
const OPEN: f64 = 0.7;

/// How many later samples are tried in each cell.
const TRIES: usize = 8;

/// Calls `mark` with the extent along, in depths, of loops among samples `step` apart; loops
/// within others may be left out.
pub(super) fn mark_loops(samples: &[Point], step: f64, mut mark: impl FnMut(f64, f64)) {
    // A line too short for any loop, or with steps too long to show one.
    let count = samples.len() as f64;
    if !(step > 0.0 && step < 1.0 && step * count > 8.0 * CLOSED) {
        return;
    }
    let parts = Parts::of(samples);
    let mut mark_part = |from: usize, to: usize| {
        let along = samples[from..=to].iter().map(|sample| sample.x);
        let least = along.clone().fold(f64::INFINITY, f64::min);
        mark(least, along.fold(f64::NEG_INFINITY, f64::max));
    };
    returns(&parts, step, &mut mark_part);
    turns(&parts, step, &mut mark_part);
}

/// The parts that end where they began.
fn returns(parts: &Parts, step: f64, mark: &mut impl FnMut(usize, usize)) {
    let samples = parts.samples;
    // Two strands that cross have samples within 0.71 steps of each other.
    let near = CLOSED.max(step);
    let gap = (8.0 * near / step).ceil() as usize;
    let longest = (LONGEST / step).min(samples.len() as f64) as usize;
    let cell = |point: &Point| ((point.x / near).floor(), (point.y / near).floor());
    let mut cells: Vec<((f64, f64), usize)> = Vec::with_capacity(samples.len());
    cells.extend(samples.iter().map(cell).zip(0..));
    let order = |one: &((f64, f64), usize), other: &((f64, f64), usize)| {
        let (a, b) = (one.0, other.0);
        (a.0.total_cmp(&b.0))
            .then(a.1.total_cmp(&b.1))
            .then(one.1.cmp(&other.1))
    };
    cells.sort_unstable_by(order);
    let mut known_to = 0;
    let mut later: Vec<usize> = Vec::new();
    for (index, point) in samples.iter().enumerate() {
        later.clear();
        let (column, row) = cell(point);
        for (right, down) in (-1..=1).flat_map(|x| (-1..=1).map(move |y| (x, y))) {
            // Adding 0 turns a negative zero, which sorts apart, into a positive one.
            let key = (column + f64::from(right) + 0.0, row + f64::from(down) + 0.0);
            // A part inside a loop that is known reaches no farther along than that.
            let from = (key, (index + gap).max(known_to + 1));
            let start = cells.partition_point(|entry| order(entry, &from).is_lt());
            let within =
                |entry: &&((f64, f64), usize)| entry.0 == key && entry.1 <= index + longest;
            let found = cells[start..].iter().take_while(within).take(TRIES);
            later.extend(found.map(|entry| entry.1));
        }
        later.sort_unstable();
        let closes = |end: &&usize| {
            (samples[**end] - point).norm() <= near && parts.compact_radius(index, **end).is_some()
        };
        if let Some(&end) = later.iter().find(closes) {
            mark(index, end);
            known_to = end;
        }
    }
}

/// The parts along which the line turns right round once, if they end near where they began.
fn turns(parts: &Parts, step: f64, mark: &mut impl FnMut(usize, usize)) {
    let samples = parts.samples;
    let longest = (LONGEST_TURN / step) as usize;
    let mut turned = vec![0.0; samples.len()];
    for (index, three) in samples.windows(3).enumerate() {
        let (before, after) = (three[1] - three[0], three[2] - three[1]);
        turned[index + 1] = turned[index] + before.perp(&after).atan2(before.dot(&after));
    }
    if let [.., before, last] = &mut turned[..] {
        *last = *before;
    }
    // Turns that begin a few samples apart reach equally far, as good as.
    for index in (0..samples.len()).step_by(4) {
        let end = (samples.len() - 1).min(index + longest);
        let round = (index..=end).find(|&other| (turned[other] - turned[index]).abs() >= TAU);
        if let Some(end) = round
            && let Some(radius) = parts.compact_radius(index, end)
            && (samples[end] - samples[index]).norm() <= OPEN * radius
        {
            mark(index, end);
        }
    }
}

/// Sums up to each sample, from which any part is measured at once.
struct Parts<'a> {
    samples: &'a [Point],
    /// Twice the area swept from the first sample.
    areas: Vec<f64>,
    /// The sums of the places, from the first sample, and of their squares.
    moments: Vec<(Vector, f64)>,
}

impl<'a> Parts<'a> {
    fn of(samples: &'a [Point]) -> Self {
        let mut parts = Self {
            samples,
            areas: Vec::with_capacity(samples.len()),
            moments: Vec::with_capacity(samples.len()),
        };
        let (mut area, mut sum, mut squares) = (0.0, Vector::zeros(), 0.0);
        let mut before = Vector::zeros();
        for sample in samples {
            let place = sample - samples[0];
            area += before.perp(&place);
            sum += place;
            squares += place.norm_squared();
            before = place;
            parts.areas.push(area);
            parts.moments.push((sum, squares));
        }
        parts
    }

    /// R of the part between two samples, closed by its chord, when it is compact.
    fn compact_radius(&self, from: usize, to: usize) -> Option<f64> {
        let [a, b] = [from, to].map(|index| self.samples[index] - self.samples[0]);
        let area = (self.areas[to] - self.areas[from] + b.perp(&a)).abs() / 2.0;
        let count = (to - from) as f64;
        let middle = (self.moments[to].0 - self.moments[from].0) / count;
        let square = (self.moments[to].1 - self.moments[from].1) / count - middle.norm_squared();
        (square > 0.0 && area >= COMPACT * PI * square).then(|| square.sqrt())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From the least to the greatest extent of the loops of a line, sampled a hundredth apart.
    fn loops(points: &[(f64, f64)]) -> Option<[f64; 2]> {
        let points: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        let length = crate::geom::measure::length(&points);
        let count = (length / 0.01).ceil();
        let samples = super::super::stiffness::even_samples(&points, length, count as usize);
        let mut extent: Option<[f64; 2]> = None;
        mark_loops(&samples, length / count, |from, to| {
            let [low, high] = extent.unwrap_or([from, to]);
            extent = Some([low.min(from), high.max(to)]);
        });
        extent
    }

    /// A stem, this part of a circle of radius 0.4 at x = 1 from its lowest point, a stem.
    fn circle(turns: f64) -> Vec<(f64, f64)> {
        let mut points = vec![(0.0, 0.0)];
        points.extend((0..=500).map(|k| {
            let angle = turns * TAU * f64::from(k) / 500.0;
            (1.0 + 0.4 * angle.sin(), 0.4 - 0.4 * angle.cos())
        }));
        points.push((2.0, 0.0));
        points
    }

    fn is_the_circle(found: Option<[f64; 2]>) {
        let [from, to] = found.expect("a loop");
        assert!(
            (from - 0.6).abs() < 0.02 && (to - 1.4).abs() < 0.02,
            "{from} {to}"
        );
    }

    #[test]
    fn a_circle_is_a_loop_closed_overlapping_or_almost_closed() {
        is_the_circle(loops(&circle(1.0)));
        is_the_circle(loops(&circle(1.3)));
        is_the_circle(loops(&circle(2.0)));
        is_the_circle(loops(&circle(0.997)));
        let open = circle(0.8);
        assert_eq!(loops(&open[..open.len() - 1]), None);
    }

    #[test]
    fn a_flower_and_a_scroll_are_loops() {
        let mut flower = vec![(0.0, 0.0)];
        flower.extend((0..=700).map(|k| {
            let angle = TAU * f64::from(k) / 700.0;
            let radius = 0.4 * (0.75 - 0.25 * (7.0 * angle).cos().abs());
            (1.0 + radius * angle.sin(), 0.4 - radius * angle.cos())
        }));
        let [from, to] = loops(&flower).expect("a loop");
        assert!(from < 0.75 && to > 1.25, "{from} {to}");
        let mut scroll = vec![(0.0, 0.0)];
        scroll.extend((0..=900).map(|k| {
            let angle = 2.5 * TAU * f64::from(k) / 900.0;
            let radius = 0.4 - 0.35 * f64::from(k) / 900.0;
            (1.0 + radius * angle.sin(), 0.4 - radius * angle.cos())
        }));
        let [from, to] = loops(&scroll).expect("a loop");
        assert!(from < 0.73 && to > 1.33, "{from} {to}");
    }

    #[test]
    fn a_part_in_one_place_is_not_compact() {
        let samples = [Point::new(3.0, 4.0); 5];
        assert_eq!(Parts::of(&samples).compact_radius(0, 4), None);
        let around = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0), (0.0, 0.0)];
        let around = around.map(|(x, y)| Point::new(x, y));
        // The corners of a square lie half its diagonal from the middle.
        let radius = Parts::of(&around).compact_radius(0, 4).expect("compact");
        assert!((radius - 0.5_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn a_crossing_closes_a_loop() {
        let bow = [(0.0, 0.0), (1.0, 0.8), (0.6, 0.8), (1.6, 0.0)];
        let [from, to] = loops(&bow).expect("a loop");
        // The upper triangle alone.
        assert!(
            (from - 0.6).abs() < 0.02 && (to - 1.0).abs() < 0.02,
            "{from} {to}"
        );
    }

    #[test]
    fn a_wave_and_a_line_travelled_back_are_no_loops() {
        let wave: Vec<_> = (0..400)
            .map(|k| (f64::from(k) * 0.01, (f64::from(k) * 0.05).sin() * 0.5))
            .collect();
        assert_eq!(loops(&wave), None);
        let spur = [(0.0, 0.0), (1.0, 0.0), (1.0, 0.9), (1.0, 0.0), (2.0, 0.0)];
        assert_eq!(loops(&spur), None);
    }
}
