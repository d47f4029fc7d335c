//! Entities to curves, in the unit of the file, y up.

use std::f64::consts::TAU;

use kurbo::{BezPath, Point, Vec2};

use super::bulge::{self, Vertex};
use super::notes::Note;
use super::pairs::{Group, Record, Records};
use super::plane::{Plane, cross};
use super::spline::Spline;
use crate::error::{DxfFault, Error};
use crate::geom::MAX_COORDINATE;
use crate::io::pen::{EllipseAxes, Pen};
use crate::transform::Transform;

/// What an entity draws, with what is worth a note where it is drawn; or why it draws nothing.
pub(super) enum Shape {
    Path(BezPath, Vec<Note>),
    Mesh,
    FitPoints,
}

/// Draws an entity, whose vertices may be records of their own; `None` for what is no line.
pub(super) fn draw<'a>(
    record: &Record<'a>,
    records: &mut Records<'a>,
) -> Result<Option<Shape>, Error> {
    Ok(Some(match record.name {
        "LINE" => line(record)?,
        "ARC" | "CIRCLE" => arc(record)?,
        "ELLIPSE" => ellipse(record)?,
        "LWPOLYLINE" => light_polyline(record)?,
        "POLYLINE" => polyline(record, records)?,
        "SPLINE" => spline(record)?,
        _ => return Ok(None),
    }))
}

/// What was drawn so far, with its notes.
struct Sketch {
    pen: Pen,
    notes: Vec<Note>,
}

impl Sketch {
    fn new(map: &Transform) -> Self {
        Self {
            pen: Pen::new(map),
            notes: Vec::new(),
        }
    }

    /// A sketch in the plane of an entity, at this height above its origin.
    fn on(plane: &Plane, height: f64) -> Self {
        let mut sketch = Self::new(&plane.seen(height));
        sketch.note(plane.is_tilted(), Note::Tilted);
        sketch.note(!plane.is_tilted() && height != 0.0, Note::Height);
        sketch
    }

    fn note(&mut self, is: bool, note: Note) {
        if is && !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }

    fn finish(self, record: &Record<'_>) -> Result<Shape, Error> {
        let (path, dots) = self.pen.finish_counting().map_err(|value| {
            let limit = MAX_COORDINATE;
            record.error(DxfFault::TooFar { value, limit })
        })?;
        let mut notes = self.notes;
        // One vertex, or none, is no dot to the pen, and nobody would know of it.
        if dots > 0 || path.elements().is_empty() {
            notes.push(Note::Dot);
        }
        Ok(Shape::Path(path, notes))
    }
}

fn line(record: &Record<'_>) -> Result<Shape, Error> {
    let [x, y, to_x, to_y] = record.needed([10, 20, 11, 21])?;
    let heights = record.numbers([30, 31])?;
    let mut sketch = Sketch::new(&Transform::identity());
    sketch.note(
        heights.iter().any(|z| z.is_some_and(|z| z != 0.0)),
        Note::Height,
    );
    sketch.pen.move_to(Point::new(x, y));
    sketch.pen.line_to(Point::new(to_x, to_y));
    sketch.finish(record)
}

/// An arc runs from its start angle to its end angle, in degrees, to the left; a circle starts at
/// 0.
fn arc(record: &Record<'_>) -> Result<Shape, Error> {
    let [x, y, radius] = record.needed([10, 20, 40])?;
    let [height, start, end] = record.numbers([30, 50, 51])?;
    if radius < 0.0 {
        return Err(negative(record, 40, "a radius above 0"));
    }
    let plane = Plane::of(record)?;
    let mut sketch = Sketch::on(&plane, height.unwrap_or_default());
    let (start, turn) = match record.name {
        "CIRCLE" => (0.0, 360.0),
        _ => {
            let start = start.unwrap_or_default();
            let turn = (end.unwrap_or(360.0) - start).rem_euclid(360.0);
            (start, if turn == 0.0 { 360.0 } else { turn })
        }
    };
    let axes = EllipseAxes {
        centre: Point::new(x, y),
        x: Vec2::new(radius, 0.0),
        y: Vec2::new(0.0, radius),
    };
    round(
        axes,
        start.to_radians(),
        turn.to_radians(),
        turn == 360.0,
        &mut sketch,
    );
    sketch.finish(record)
}

/// An ellipse is in the world's coordinates, with parameters in radians.
fn ellipse(record: &Record<'_>) -> Result<Shape, Error> {
    /// How near to a whole turn, in radians, an ellipse is closed.
    const WHOLE: f64 = 1e-9;
    let [x, y, major_x, major_y, ratio] = record.needed([10, 20, 11, 21, 40])?;
    let [z, major_z, start, end] = record.numbers([30, 31, 41, 42])?;
    let plane = Plane::of(record)?;
    let major = [major_x, major_y, major_z.unwrap_or_default()];
    let minor = cross(plane.normal(), major).map(|part| part * ratio);
    let mut sketch = Sketch::new(&Transform::identity());
    let tilted = plane.is_tilted() || major[2] != 0.0;
    sketch.note(tilted, Note::Tilted);
    sketch.note(!tilted && z.is_some_and(|z| z != 0.0), Note::Height);
    let start = start.unwrap_or_default();
    let turn = (end.unwrap_or(TAU) - start).rem_euclid(TAU);
    let whole = !(WHOLE..=TAU - WHOLE).contains(&turn);
    let axes = EllipseAxes {
        centre: Point::new(x, y),
        x: Vec2::new(major[0], major[1]),
        y: Vec2::new(minor[0], minor[1]),
    };
    round(
        axes,
        start,
        if whole { TAU } else { turn },
        whole,
        &mut sketch,
    );
    sketch.finish(record)
}

/// Draws an ellipse, or a part of one, from this angle on by this turn, in radians.
fn round(axes: EllipseAxes, start: f64, turn: f64, whole: bool, sketch: &mut Sketch) {
    let at = |angle: f64| axes.place(Point::new(angle.cos(), angle.sin()));
    let from = at(start);
    let to = if whole { from } else { at(start + turn) };
    sketch.pen.move_to(from);
    sketch.pen.sweep(axes, Vec2::ZERO, start, turn, to);
    if whole {
        sketch.pen.close();
    }
}

fn light_polyline(record: &Record<'_>) -> Result<Shape, Error> {
    let [flags, height] = record.numbers([70, 38])?;
    let plane = Plane::of(record)?;
    let mut sketch = Sketch::on(&plane, height.unwrap_or_default());
    let mut vertices: Vec<Vertex> = Vec::new();
    let mut waits_for_y = false;
    for group in record.groups() {
        let missing = || {
            record.error(DxfFault::Missing {
                entity: record.name.to_owned(),
                code: 20,
            })
        };
        match (group.code, vertices.last_mut()) {
            (10, _) if waits_for_y => return Err(missing()),
            (10, _) => {
                let at = Point::new(record.number(group)?, 0.0);
                vertices.push(Vertex { at, bulge: 0.0 });
                waits_for_y = true;
            }
            (20, Some(vertex)) => {
                vertex.at.y = record.number(group)?;
                waits_for_y = false;
            }
            (42, Some(vertex)) => vertex.bulge = record.number(group)?,
            (40 | 41 | 43, _) => {
                let width = record.number(group)?;
                sketch.note(width != 0.0, Note::Wide);
            }
            _ => {}
        }
    }
    if vertices.is_empty() || waits_for_y {
        let code = if waits_for_y { 20 } else { 10 };
        let entity = record.name.to_owned();
        return Err(record.error(DxfFault::Missing { entity, code }));
    }
    bulge::draw(
        &vertices,
        flags.unwrap_or_default() as i64 & 1 != 0,
        &mut sketch.pen,
    );
    sketch.finish(record)
}

/// A polyline of records VERTEX, up to SEQEND.
fn polyline<'a>(record: &Record<'a>, records: &mut Records<'a>) -> Result<Shape, Error> {
    const CLOSED: i64 = 1;
    const IN_SPACE: i64 = 8;
    const MESHES: i64 = 16 | 64;
    /// A vertex that only shapes the curve through others.
    const FRAME: i64 = 16;
    let [flags, height, from, to] = record.numbers([70, 30, 40, 41])?;
    let flags = flags.unwrap_or_default() as i64;
    let in_space = flags & IN_SPACE != 0;
    let mut sketch = if in_space {
        Sketch::new(&Transform::identity())
    } else {
        Sketch::on(&Plane::of(record)?, height.unwrap_or_default())
    };
    let is_wide = |widths: [Option<f64>; 2]| widths.iter().any(|w| w.is_some_and(|w| w != 0.0));
    sketch.note(is_wide([from, to]), Note::Wide);
    let mut vertices: Vec<Vertex> = Vec::new();
    while records.peek() == "VERTEX" {
        let vertex = records.next()?;
        if flags & MESHES != 0 {
            continue;
        }
        let [x, y] = vertex.needed([10, 20])?;
        let [z, bulge, flags, from, to] = vertex.numbers([30, 42, 70, 40, 41])?;
        if flags.unwrap_or_default() as i64 & FRAME != 0 {
            continue;
        }
        sketch.note(in_space && z.is_some_and(|z| z != 0.0), Note::Height);
        sketch.note(is_wide([from, to]), Note::Wide);
        vertices.push(Vertex {
            at: Point::new(x, y),
            bulge: bulge.unwrap_or_default(),
        });
    }
    if records.peek() == "SEQEND" {
        records.next()?;
    }
    if flags & MESHES != 0 {
        return Ok(Shape::Mesh);
    }
    bulge::draw(&vertices, flags & CLOSED != 0, &mut sketch.pen);
    sketch.finish(record)
}

fn spline(record: &Record<'_>) -> Result<Shape, Error> {
    let [flags, degree] = record.numbers([70, 71])?;
    let mut sketch = Sketch::new(&Transform::identity());
    let mut spline = Spline {
        degree: degree.unwrap_or(3.0) as usize,
        closed: flags.unwrap_or_default() as i64 & 1 != 0,
        ..Spline::default()
    };
    let mut fit_points = 0;
    for group in record.groups() {
        let number = |group: Group<'_>| record.number(group);
        match (group.code, spline.controls.last_mut()) {
            (40, _) => spline.knots.push(number(group)?),
            (41, _) => spline.weights.push(number(group)?),
            (10, _) => spline.controls.push(Point::new(number(group)?, 0.0)),
            (20, Some(point)) => point.y = number(group)?,
            (30, Some(_)) => {
                let z = number(group)?;
                sketch.note(z != 0.0, Note::Height);
            }
            (11, _) => fit_points += 1,
            _ => {}
        }
    }
    if spline.controls.is_empty() && fit_points > 0 {
        return Ok(Shape::FitPoints);
    }
    spline
        .draw(&mut sketch.pen)
        .map_err(|reason| record.error(DxfFault::BadSpline { reason }))?;
    sketch.finish(record)
}

/// The error for a number that is below 0.
fn negative(record: &Record<'_>, code: i32, accepted: &'static str) -> Error {
    match record.groups().find(|group| group.code == code) {
        Some(group) => record.refused(group, accepted),
        None => record.error(DxfFault::Missing {
            entity: record.name.to_owned(),
            code,
        }),
    }
}
