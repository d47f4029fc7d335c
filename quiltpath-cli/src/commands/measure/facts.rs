//! The facts about one motif, as text for people and as JSON.

use std::borrow::Cow;
use std::fmt::{self, Write};

use quiltpath_core::Error;
use quiltpath_core::chain::Repeat;
use quiltpath_core::geom::crossing::self_crossings_within;
use quiltpath_core::io::words;
use quiltpath_core::leg::{LegGiven, analyse_legs, rough_legs};
use quiltpath_core::motif::{End, Motif};
use quiltpath_core::strokes::{Drawing, LineEnds, OneLineOptions};
use quiltpath_core::units::Unit;
use serde::Serialize;

use crate::batch::Record;
use crate::drawing::StrokeFacts;
use crate::message::plain;

/// What a motif is; lengths in its unit.
#[derive(Serialize)]
pub(super) struct Facts {
    file: String,
    /// The line of JSON Lines.
    #[serde(skip_serializing_if = "Option::is_none")]
    line: Option<u64>,
    name: String,
    #[serde(serialize_with = "symbol")]
    unit: Unit,
    width: f64,
    height: f64,
    length: f64,
    points: usize,
    start: Place,
    end: Place,
    closed: bool,
    /// None where the line is too tangled to count them.
    self_crossings: Option<usize>,
    repeat: Can<RepeatFacts>,
    corner: Can<LegFacts>,
    /// What it took to make one line of several strokes.
    #[serde(skip_serializing_if = "Option::is_none")]
    strokes: Option<StrokeFacts>,
}

/// What a motif can be, or why it can't.
#[derive(Serialize)]
#[serde(untagged)]
enum Can<T> {
    Be(T),
    Not { why_not: String },
}

#[derive(Serialize)]
struct Place {
    x: f64,
    y: f64,
    direction_degrees: f64,
}

#[derive(Serialize)]
struct RepeatFacts {
    /// The pitch; the key keeps its first name.
    #[serde(rename = "advance")]
    pitch: f64,
    level: bool,
    backwards: bool,
}

#[derive(Serialize)]
struct LegFacts {
    elbow: &'static str,
    turn_degrees: f64,
    horizontal_depth: f64,
    vertical_depth: f64,
    notes: Vec<String>,
}

fn symbol<S: serde::Serializer>(unit: &Unit, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(unit.symbol())
}

impl Facts {
    /// Measures a drawing that is read so, as the one line that it becomes; as a repeat and as a
    /// corner its line has ends of its own.
    pub(super) fn of(
        record: &Record,
        drawing: &Drawing,
        unit: Unit,
        reading: &OneLineOptions,
    ) -> Result<Self, Error> {
        let joined = drawing.one_line(reading)?;
        let motif = &joined.motif;
        let join = reading.join.unwrap_or_default();
        let bounds = motif.bounds();
        let apart = (motif.end().point - motif.start().point).norm();
        let strokes = joined.report.strokes;
        let with_ends = |ends: LineEnds| match strokes {
            0 => Ok(Cow::Borrowed(motif)),
            _ => {
                let line = drawing.one_line(&reading.with_ends(ends))?;
                Ok(Cow::Owned(line.motif))
            }
        };
        let legs = || match strokes {
            0 => LineEnds::Free,
            _ => rough_legs(drawing, &LegGiven::default()).map_or(LineEnds::Free, LineEnds::Legs),
        };
        let as_repeat = with_ends(LineEnds::Across).and_then(|line| repeat(&line, join));
        let as_corner = with_ends(legs()).and_then(|line| corner(&line));
        Ok(Self {
            file: record.file(),
            line: record.line(),
            name: motif.name().to_owned(),
            unit,
            width: bounds.width(),
            height: bounds.height(),
            length: motif.length(),
            points: motif.points().len(),
            start: Place::of(motif.start()),
            end: Place::of(motif.end()),
            closed: apart <= join,
            self_crossings: crossings(motif),
            repeat: as_repeat.into(),
            corner: as_corner.into(),
            strokes: (strokes > 0).then_some(StrokeFacts(joined.report)),
        })
    }

    /// One object and a line end.
    pub(super) fn json(&self) -> String {
        // Plain structs with string keys can't fail to serialise into memory.
        let mut text = serde_json::to_string(self).unwrap_or_default();
        text.push('\n');
        text
    }

    pub(super) fn text(&self) -> String {
        let mut text = String::new();
        // Writing into a string doesn't fail.
        let _ = self.describe(&mut text);
        plain(&text)
    }

    fn describe(&self, f: &mut String) -> fmt::Result {
        let long = |length: f64| self.unit.readable(length * self.unit.in_mm());
        let place = |place: &Place| {
            format!(
                "{}, {}; direction {:.1} degrees",
                long(place.x),
                long(place.y),
                place.direction_degrees
            )
        };
        match self.line {
            Some(line) => writeln!(f, "{}:{line}: {}", self.file, self.name)?,
            None => writeln!(f, "{}: {}", self.file, self.name)?,
        }
        writeln!(
            f,
            "  size       {} x {}",
            long(self.width),
            long(self.height)
        )?;
        let line = self.unit.readable_line(self.length * self.unit.in_mm());
        writeln!(f, "  length     {line}")?;
        writeln!(f, "  points     {}", self.points)?;
        writeln!(f, "  start      {}", place(&self.start))?;
        writeln!(f, "  end        {}", place(&self.end))?;
        writeln!(f, "  closed     {}", if self.closed { "yes" } else { "no" })?;
        match self.self_crossings {
            Some(count) => writeln!(f, "  crossings  {count}")?,
            None => writeln!(f, "  crossings  too many to count")?,
        }
        match &self.repeat {
            Can::Be(repeat) => writeln!(
                f,
                "  repeat     pitch {}{}, ends {}",
                long(repeat.pitch),
                if repeat.backwards {
                    " (drawn backwards)"
                } else {
                    ""
                },
                if repeat.level {
                    "level"
                } else {
                    "at another height"
                }
            )?,
            Can::Not { why_not } => writeln!(f, "  repeat     no: {why_not}")?,
        }
        match &self.corner {
            Can::Be(leg) => {
                writeln!(
                    f,
                    "  corner     legs {} (level) and {} (upright) deep, elbow {}",
                    long(leg.horizontal_depth),
                    long(leg.vertical_depth),
                    leg.elbow.replace('_', " ")
                )?;
                if leg.turn_degrees != 0.0 {
                    writeln!(
                        f,
                        "             after a turn of {:.1} degrees",
                        leg.turn_degrees
                    )?;
                }
                for note in &leg.notes {
                    writeln!(f, "             in doubt: {note}")?;
                }
            }
            Can::Not { why_not } => writeln!(f, "  corner     no: {why_not}")?,
        }
        match &self.strokes {
            Some(strokes) => {
                writeln!(f, "  strokes    {}", words::one_line(&strokes.0, self.unit))
            }
            None => Ok(()),
        }
    }
}

impl Place {
    fn of(end: End) -> Self {
        let direction = end.direction;
        Self {
            x: end.point.x,
            y: end.point.y,
            direction_degrees: direction.y.atan2(direction.x).to_degrees() + 0.0,
        }
    }
}

impl<T> From<Result<T, Error>> for Can<T> {
    fn from(result: Result<T, Error>) -> Self {
        match result {
            Ok(facts) => Self::Be(facts),
            Err(error) => Self::Not {
                why_not: error.to_string(),
            },
        }
    }
}

/// How often it crosses itself, unless that takes far more work than drawn lines do.
fn crossings(motif: &Motif) -> Option<usize> {
    const EFFORT: u64 = 1 << 26;
    const FOR_A_POINT: u64 = 20;
    let points = motif.points();
    let effort = EFFORT + FOR_A_POINT * points.len() as u64;
    self_crossings_within(points, effort).map(|crossings| crossings.len())
}

fn repeat(motif: &Motif, join: f64) -> Result<RepeatFacts, Error> {
    let repeat = Repeat::new(motif)?;
    let height = motif.bounds().height();
    let [start, end] = repeat.offsets(None);
    Ok(RepeatFacts {
        pitch: repeat.pitch(height),
        level: (start - end).abs() * height <= join,
        backwards: repeat.is_backwards(),
    })
}

fn corner(motif: &Motif) -> Result<LegFacts, Error> {
    let mut shapes = analyse_legs(motif)?;
    let leg = shapes.swap_remove(0);
    Ok(LegFacts {
        elbow: leg.elbow.name(),
        turn_degrees: leg.turn_degrees,
        horizontal_depth: leg.depth_horizontal,
        vertical_depth: leg.depth_vertical,
        notes: leg.doubts.iter().map(words::leg_doubt).collect(),
    })
}
