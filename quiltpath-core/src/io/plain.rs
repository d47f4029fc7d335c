//! What the formats of general machines share: named lines in steps of 1e-4 mm or inch.

use super::ticks::{Ticks, file_unit};
use crate::error::{DrawingFault, Error};
use crate::geom::{Point, Polyline};
use crate::units::Unit;

/// One line to write, with its name.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct NamedLine<'a> {
    /// The name; what a format can't hold of it is replaced.
    pub name: &'a str,
    /// The points in the order of travel, x to the right, y down.
    pub points: &'a [Point],
}

impl<'a> NamedLine<'a> {
    /// A line of this name through these points.
    #[must_use]
    pub fn new(name: &'a str, points: &'a [Point]) -> Self {
        Self { name, points }
    }
}

/// Which way the y axis of a file points.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum YAxis {
    /// Up, away from the person: y changes its sign, and the picture stays as it is.
    #[default]
    Up,
    /// Down, as in the rest of this library: numbers stay as they are.
    Down,
}

/// Lines ready to be written.
pub(super) struct PlainLines<'a> {
    /// Millimetre or inch.
    pub(super) unit: Unit,
    /// How many of the file's unit one of the given unit is.
    pub(super) factor: f64,
    /// The names, and at least two points each, in steps.
    pub(super) lines: Vec<(&'a str, Vec<[Ticks; 2]>)>,
}

impl<'a> PlainLines<'a> {
    pub(super) fn new(unit: Unit, lines: &[NamedLine<'a>], y: YAxis) -> Result<Self, Error> {
        if lines.is_empty() {
            return Err(DrawingFault::NothingDrawn.into());
        }
        let (unit, factor) = file_unit(unit);
        let down = match y {
            YAxis::Up => -1.0,
            YAxis::Down => 1.0,
        };
        let lines = lines.iter().map(|line| {
            let scaled = line.points.iter().map(|point| point * factor);
            let scaled = Polyline::new(scaled.collect()).map_err(|e| e.in_element(line.name))?;
            let steps = |point: &Point| [Ticks::of(point.x), Ticks::of(point.y * down)];
            let mut points: Vec<_> = scaled.points().iter().map(steps).collect();
            points.dedup();
            if let [only] = points[..] {
                // A line shorter than a step is a line all the same.
                points.push(only);
            }
            Ok((line.name, points))
        });
        Ok(Self {
            unit,
            factor,
            lines: lines.collect::<Result<_, Error>>()?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_scaled_to_the_file_and_turned_up() {
        let points = [
            Point::new(1.0, 2.0),
            Point::new(1.000_001, 2.0),
            Point::new(0.0, -3.0),
        ];
        let line = NamedLine {
            name: "a",
            points: &points,
        };
        let plain = PlainLines::new(Unit::Cm, &[line], YAxis::Up).expect("lines");
        assert_eq!(plain.unit, Unit::Mm);
        let steps = plain.lines[0].1.iter().map(|[x, y]| [x.0, y.0]);
        assert_eq!(
            steps.collect::<Vec<_>>(),
            [[100_000, -200_000], [0, 300_000]]
        );
        let plain = PlainLines::new(Unit::Yd, &[line], YAxis::Down).expect("lines");
        assert_eq!((plain.unit, plain.lines[0].1[0][1].0), (Unit::In, 720_000));
    }

    #[test]
    fn a_line_shorter_than_a_step_keeps_two_points() {
        let points = [Point::new(1.0, 2.0), Point::new(1.000_001, 2.0)];
        let line = NamedLine {
            name: "a",
            points: &points,
        };
        let plain = PlainLines::new(Unit::Mm, &[line], YAxis::Up).expect("lines");
        assert_eq!(plain.lines[0].1.len(), 2);
    }

    #[test]
    fn what_is_no_line_is_refused_by_its_name() {
        assert!(PlainLines::new(Unit::Mm, &[], YAxis::Up).is_err_and(|e| e.is_drawing()));
        let points = [Point::new(1.0, f64::NAN)];
        let line = NamedLine {
            name: "leaf",
            points: &points,
        };
        let error = PlainLines::new(Unit::Mm, &[line], YAxis::Up)
            .err()
            .expect("NaN");
        assert!(error.to_string().starts_with("leaf: point 0"), "{error}");
    }
}
