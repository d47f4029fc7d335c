//! G-code out: plain moves (ISO 6983) along the lines, for general machines.
//!
//! Only G20 or G21 (inch, millimetre), G90 (absolute), G0 (to the start of a line) and G1 (along
//! it, at the feed when one is given): nothing starts a motor, moves a needle or ends a program,
//! which is for the shop to add. Where the needle stays up there is no G1. Comments at the top
//! state unit, axes and origin, one before each line its name. Numbers are rounded to 1e-4 of the
//! unit of the file.

use std::fmt::Write;

use super::plain::{NamedLine, PlainLines, YAxis};
use super::ticks::Ticks;
use crate::error::Error;
use crate::units::Unit;

/// What the needle does along the lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum Needle {
    /// It stitches them: to the start of a line by G0, along it by G1.
    #[default]
    Stitching,
    /// It stays up, as in a check: G0 all the way, no feed, and a first comment that says so.
    Up,
}

/// How to write moves.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct GcodeOptions {
    /// The feed in units per minute; the machine's own when not given.
    pub feed: Option<f64>,
    /// Which way y points in the file. Up turns the sign of y; the origin stays either way.
    pub y: YAxis,
    /// Whether lines are stitched or only followed.
    pub needle: Needle,
}

impl GcodeOptions {
    /// The same options with this feed in units per minute, or with the machine's own.
    #[must_use]
    pub fn with_feed(mut self, feed: Option<f64>) -> Self {
        self.feed = feed;
        self
    }

    /// The same options with y pointing this way.
    #[must_use]
    pub fn with_y(mut self, y: YAxis) -> Self {
        self.y = y;
        self
    }

    /// The same options for lines that are stitched or only followed.
    #[must_use]
    pub fn with_needle(mut self, needle: Needle) -> Self {
        self.needle = needle;
        self
    }
}

/// Writes moves along these lines at the end of `out`; points and feed are in `unit`.
///
/// The file is in millimetres for millimetres, centimetres and metres, in inches for inches, feet
/// and yards.
///
/// ```
/// use quiltpath_core::io::{NamedLine, gcode::{GcodeOptions, write_gcode}};
/// use quiltpath_core::{geom::Point, units::Unit};
///
/// let points = [Point::new(0.0, 0.0), Point::new(4.5, 0.25)];
/// let leaf = NamedLine::new("leaf", &points);
/// let options = GcodeOptions::default().with_feed(Some(150.0));
/// let mut moves = String::new();
/// write_gcode(&mut moves, Unit::In, &[leaf], &options)?;
/// assert!(moves.ends_with("G20\nG90\n(leaf)\nG0 X0 Y0\nG1 X4.5 Y-0.25 F150\n"));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A drawing error when there is no line; a geometry error that names the line when its points are
/// no line, or when the feed is not above 0. Then nothing is written.
///
/// # Complexity
///
/// O(points).
pub fn write_gcode(
    out: &mut String,
    unit: Unit,
    lines: &[NamedLine<'_>],
    options: &GcodeOptions,
) -> Result<(), Error> {
    let plain = PlainLines::new(unit, lines, options.y)?;
    let stitching = options.needle == Needle::Stitching;
    let feed = feed(options.feed, plain.factor)?.filter(|_| stitching);
    header(out, &plain, options);
    for (name, points) in &plain.lines {
        comment(out, name);
        let mut feed = feed;
        for (index, &[x, y]) in points.iter().enumerate() {
            let travel = index == 0 || !stitching;
            out.push_str(if travel { "G0 X" } else { "G1 X" });
            x.write(out);
            out.push_str(" Y");
            y.write(out);
            if index > 0
                && let Some(feed) = feed.take()
            {
                out.push_str(" F");
                feed.write(out);
            }
            out.push('\n');
        }
    }
    Ok(())
}

/// The feed in steps of the file's unit a minute.
fn feed(feed: Option<f64>, factor: f64) -> Result<Option<Ticks>, Error> {
    let Some(value) = feed else { return Ok(None) };
    let ticks = Ticks::of(value * factor);
    // A feed that is written as 0 would stop the machine.
    if !(value <= crate::geom::MAX_COORDINATE && ticks.0 > 0) {
        return Err(Error::bad_number(
            "the feed",
            value,
            "a feed above 0 and up to 1e9",
        ));
    }
    Ok(Some(ticks))
}

fn header(out: &mut String, plain: &PlainLines<'_>, options: &GcodeOptions) {
    let (name, code) = match plain.unit {
        Unit::In => ("inches", "G20"),
        _ => ("millimetres", "G21"),
    };
    let y = match options.y {
        YAxis::Up => "up, the sign of y is turned",
        YAxis::Down => "down, as drawn",
    };
    let stitching = options.needle == Needle::Stitching;
    // Writing to a String can't fail.
    if !stitching {
        let _ = writeln!(out, "(Needle up: travel only, nothing is stitched)");
    }
    let _ = writeln!(out, "(Lengths in {name}, absolute; moves only)");
    let _ = writeln!(out, "(Origin as in the drawing; x to the right, y {y})");
    if options.feed.is_some() && stitching {
        let _ = writeln!(out, "(Feed in {name} per minute)");
    }
    let _ = writeln!(out, "{code}\nG90");
}

/// A name as a comment; what could end it, or is not in ASCII, becomes `-`.
fn comment(out: &mut String, name: &str) {
    out.push('(');
    out.extend(name.trim().chars().map(|c| match c {
        ' '..='~' if !"()%;".contains(c) => c,
        _ => '-',
    }));
    out.push_str(")\n");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use proptest::prelude::*;

    /// What a small reader of plain moves makes of a file: unit, lines with names, feeds.
    struct Program {
        unit: Unit,
        lines: Vec<(String, Vec<Point>)>,
        feeds: Vec<f64>,
    }

    fn read(text: &str) -> Program {
        let mut program = Program {
            unit: Unit::M,
            lines: vec![],
            feeds: vec![],
        };
        let mut name = String::new();
        let mut absolute = false;
        for row in text.lines() {
            if let Some(comment) = row.strip_prefix('(') {
                name = comment.strip_suffix(')').expect("closed").to_owned();
                assert!(!name.contains(['(', ')']));
                continue;
            }
            let words: Vec<(&str, f64)> = row
                .split(' ')
                .map(|word| word.split_at(1))
                .map(|(letter, number)| (letter, number.parse().expect("a number")))
                .collect();
            match words[..] {
                [("G", 20.0)] => program.unit = Unit::In,
                [("G", 21.0)] => program.unit = Unit::Mm,
                [("G", 90.0)] => absolute = true,
                [("G", 0.0), ("X", x), ("Y", y)] => {
                    program.lines.push((name.clone(), vec![Point::new(x, y)]))
                }
                [("G", 1.0), ("X", x), ("Y", y), ref feed @ ..] => {
                    program
                        .lines
                        .last_mut()
                        .expect("a start")
                        .1
                        .push(Point::new(x, y));
                    match feed {
                        [] => {}
                        [("F", feed)] => program.feeds.push(*feed),
                        _ => panic!("{row}"),
                    }
                }
                _ => panic!("no plain move: {row}"),
            }
        }
        assert!(absolute);
        program
    }

    fn written(unit: Unit, lines: &[NamedLine<'_>], options: &GcodeOptions) -> String {
        let mut out = String::new();
        write_gcode(&mut out, unit, lines, options).expect("written");
        out
    }

    #[test]
    fn names_stay_inside_their_comments_and_the_header_states_the_conventions() {
        let points = [Point::new(0.0, 0.0), Point::new(1.0, 1.0)];
        let line = |name| NamedLine {
            name,
            points: &points,
        };
        let lines = [line("leaf) M3\nS1000 (é;%"), line("")];
        let text = written(
            Unit::Ft,
            &lines,
            &GcodeOptions {
                feed: Some(2.0),
                y: YAxis::Down,
                ..GcodeOptions::default()
            },
        );
        let program = read(&text);
        assert_eq!(program.lines[0].0, "leaf- M3-S1000 ----");
        assert_eq!(program.lines[1].0, "");
        assert_eq!(program.feeds, [24.0, 24.0]);
        assert!(text.contains("inches, absolute") && text.contains("y down, as drawn"));
        assert_eq!(program.lines[0].1[1], Point::new(12.0, 12.0));
        let up = written(Unit::Mm, &lines, &GcodeOptions::default());
        assert!(up.contains("y up, the sign of y is turned") && !up.contains("Feed"));
    }

    #[test]
    fn with_the_needle_up_there_is_travel_alone() {
        let points = [
            Point::new(0.0, 0.0),
            Point::new(1.0, 1.0),
            Point::new(2.0, 0.5),
        ];
        let line = NamedLine {
            name: "needle-up",
            points: &points,
        };
        let options = GcodeOptions::default()
            .with_needle(Needle::Up)
            .with_feed(Some(90.0));
        let text = written(Unit::Mm, &[line], &options);
        assert!(
            text.starts_with("(Needle up: travel only, nothing is stitched)\n"),
            "{text}"
        );
        assert!(
            text.ends_with("(needle-up)\nG0 X0 Y0\nG0 X1 Y-1\nG0 X2 Y-0.5\n"),
            "{text}"
        );
        assert!(!text.contains("G1 ") && !text.contains('F'), "{text}");
    }

    #[test]
    fn a_feed_that_is_none_is_refused_and_nothing_written() {
        let points = [Point::new(0.0, 0.0), Point::new(1.0, 1.0)];
        let line = NamedLine {
            name: "leaf",
            points: &points,
        };
        let mut out = String::from("before");
        for feed in [0.0, -5.0, f64::NAN, f64::INFINITY, 1e-9] {
            let options = GcodeOptions {
                feed: Some(feed),
                ..GcodeOptions::default()
            };
            let error = write_gcode(&mut out, Unit::Mm, &[line], &options).expect_err("no feed");
            assert!(error.to_string().starts_with("the feed is"), "{error}");
        }
        assert!(write_gcode(&mut out, Unit::Mm, &[], &GcodeOptions::default()).is_err());
        assert_eq!(out, "before");
    }

    proptest! {
        #[test]
        fn reading_back_moves_no_point(
            lines in prop::collection::vec(prop::collection::vec((-900.0..900.0f64, -900.0..900.0f64), 2..30), 1..4),
            unit in prop::sample::select(Unit::ALL.to_vec()),
            down in any::<bool>(),
        ) {
            let lines: Vec<Vec<Point>> = lines.iter().map(|line| line.iter().map(|&(x, y)| Point::new(x, y)).collect()).collect();
            let named: Vec<_> = lines.iter().map(|points| NamedLine { name: "p", points }).collect();
            let y = if down { YAxis::Down } else { YAxis::Up };
            let program = read(&written(unit, &named, &GcodeOptions::default().with_y(y)));
            let factor = (unit.in_mm() / program.unit.in_mm()).round();
            let sign = if down { 1.0 } else { -1.0 };
            prop_assert_eq!(program.lines.len(), lines.len());
            for (back, line) in program.lines.iter().zip(&lines) {
                prop_assert_eq!(back.1.len(), line.len());
                for (back, point) in back.1.iter().zip(line) {
                    let there = Point::new(point.x * factor, sign * point.y * factor);
                    prop_assert!((back - there).amax() <= 0.500_01e-4);
                }
            }
        }
    }
}
