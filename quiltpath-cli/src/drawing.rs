//! Drawings in: SVG, JSON and JSON Lines told apart by their content, lines kept as drawn.

use std::path::Path;

use quiltpath_core::Error;
use quiltpath_core::geom::flatten::FlatPath;
use quiltpath_core::geom::{Polyline, Vector};
use quiltpath_core::io::json::{PointList, PointPath, read_point_line, read_points};
use quiltpath_core::io::svg_read::read_svg;
use quiltpath_core::motif::{Gaps, Joined, Motif, Subpath, join, join_meeting};
use quiltpath_core::units::Unit;

use crate::args::ReadOptions;
use crate::failure::Failure;
use crate::files::{is_stream, label, read};
use crate::lengths::change_unit;
use crate::message;

/// A drawing: its lines in the order of drawing.
pub(crate) struct Drawing {
    /// The name for what it becomes: the file's name without its end.
    name: String,
    /// The unit to answer in.
    unit: Unit,
    /// The unit of the lines: the one they are written in, so that they can go out bit for bit.
    lines_in: Unit,
    lines: Vec<Line>,
    /// True for JSON Lines, where every line is a drawing of its own.
    one_each: bool,
}

struct Line {
    /// The name that the drawing gives it.
    name: Option<String>,
    /// How messages call it.
    id: String,
    flat: FlatPath,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Format {
    Svg,
    Json,
    JsonLines,
}

impl Drawing {
    /// Reads a drawing from a file or stdin; what is not drawn is told as notes.
    pub(crate) fn open(path: &Path, options: &ReadOptions) -> Result<Self, Failure> {
        let bytes = read(path)?;
        Self::parse(path, &bytes, options).map_err(|e| e.in_file(label(path)).into())
    }

    /// Reads a drawing that came from this path.
    pub(crate) fn parse(path: &Path, bytes: &[u8], options: &ReadOptions) -> Result<Self, Error> {
        let name = match path.file_stem() {
            Some(stem) if !is_stream(path) => stem.to_string_lossy().into_owned(),
            _ => "drawing".to_owned(),
        };
        let format = format_of(path, bytes);
        if format == Format::Svg {
            let read = read_svg(bytes)?;
            for note in &read.notes {
                message::note(format_args!("{}: {note}", label(path)));
            }
            return Ok(Self {
                name,
                unit: options.unit.unwrap_or(read.unit),
                lines_in: Unit::Mm,
                lines: read
                    .subpaths(options.flattening_mm)?
                    .into_iter()
                    .map(Line::drawn)
                    .collect(),
                one_each: false,
            });
        }
        let list = if format == Format::Json {
            read_points(bytes, options.unit)?
        } else {
            read_lines(bytes, options.unit)?
        };
        Ok(Self {
            name,
            unit: options.unit.unwrap_or(list.unit),
            lines_in: list.unit,
            lines: Line::listed(list.paths),
            one_each: format == Format::JsonLines,
        })
    }

    /// The name for what it becomes: the file's name without its end.
    pub(crate) fn name(&self) -> &str {
        &self.name
    }

    /// The unit to answer in: the one asked for, or else the drawing's own.
    pub(crate) fn unit(&self) -> Unit {
        self.unit
    }

    /// Every line as it is drawn, in the unit to answer in.
    pub(crate) fn paths(self) -> Result<PointList, Error> {
        let unit = self.unit;
        let paths = self.lines.into_iter().map(|line| {
            let line = line.checked(self.lines_in, unit)?;
            Ok(PointPath {
                name: line.name,
                points: line.flat.points,
            })
        });
        Ok(PointList {
            unit,
            paths: paths.collect::<Result<_, Error>>()?,
        })
    }

    /// The whole drawing as one motif, in this unit.
    pub(crate) fn motif(self, unit: Unit, options: &ReadOptions) -> Result<Joined, Error> {
        let (name, subpaths) = self.subpaths(unit)?;
        let tolerance = options.join_mm / unit.in_mm();
        join(&name, subpaths, tolerance, options.gaps)
    }

    /// A name for the whole, and its lines in this unit.
    fn subpaths(self, unit: Unit) -> Result<(String, Vec<Subpath>), Error> {
        let name = match self.lines.as_slice() {
            [
                Line {
                    name: Some(name), ..
                },
            ] => name,
            _ => &self.name,
        }
        .clone();
        let subpaths = self.lines.into_iter().map(|line| {
            let line = line.checked(self.lines_in, unit)?;
            Ok(Subpath {
                id: line.id,
                flat: line.flat,
            })
        });
        Ok((name, subpaths.collect::<Result<_, Error>>()?))
    }

    /// The fewest lines that the drawing is without links, in the unit to answer in: what meets is
    /// one line. With links it is one line; JSON Lines are one each.
    pub(crate) fn fewest(self, options: &ReadOptions) -> Result<Vec<Motif>, Error> {
        if self.one_each || options.gaps == Gaps::Link {
            return self.motifs(options);
        }
        let unit = self.unit;
        let (name, subpaths) = self.subpaths(unit)?;
        join_meeting(&name, subpaths, options.join_mm / unit.in_mm())
    }

    /// The drawing's motifs, in the unit to answer in: one, or one for each of JSON Lines.
    pub(crate) fn motifs(self, options: &ReadOptions) -> Result<Vec<Motif>, Error> {
        let unit = self.unit;
        if !self.one_each {
            return Ok(vec![self.motif(unit, options)?.motif]);
        }
        let name = self.name.clone();
        let list = self.paths()?;
        let motifs = list.paths.iter().map(|path| path.motif(&name));
        motifs.collect()
    }
}

impl Line {
    fn drawn(subpath: Subpath) -> Self {
        // The reader's stand-ins for missing ids have a space, which no id has.
        let named = !subpath.id.contains(' ');
        Self {
            name: named.then(|| subpath.id.clone()),
            id: subpath.id,
            flat: subpath.flat,
        }
    }

    /// The same line in another unit, when it is a line at all.
    fn checked(mut self, from: Unit, to: Unit) -> Result<Self, Error> {
        let line = Polyline::new(change_unit(self.flat.points, from, to));
        self.flat.points = line.map_err(|e| e.in_element(&self.id))?.into_points();
        Ok(self)
    }

    /// Lines of a point list, which says nothing about directions beyond its points.
    fn listed(paths: Vec<PointPath>) -> Vec<Self> {
        let lines = paths.into_iter().enumerate().map(|(at, path)| Self {
            id: path
                .name
                .clone()
                .unwrap_or_else(|| format!("path {}", at + 1)),
            name: path.name,
            flat: FlatPath {
                points: path.points,
                start_direction: Vector::zeros(),
                end_direction: Vector::zeros(),
                closed: false,
            },
        });
        lines.collect()
    }
}

/// Tells the kind of a drawing by its first character; the file's name decides where that can't.
fn format_of(path: &Path, bytes: &[u8]) -> Format {
    let end = path.extension().and_then(|end| end.to_str());
    let named =
        |names: &[&str]| end.is_some_and(|e| names.iter().any(|n| e.eq_ignore_ascii_case(n)));
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    match bytes.iter().find(|byte| !byte.is_ascii_whitespace()) {
        Some(b'<') => Format::Svg,
        _ if named(&["jsonl", "ndjson"]) => Format::JsonLines,
        Some(b'{' | b'[') if is_lines(bytes) => Format::JsonLines,
        Some(b'{' | b'[') => Format::Json,
        _ if named(&["json"]) => Format::Json,
        _ => Format::Svg,
    }
}

/// True when the first line is whole JSON by itself and more follows.
fn is_lines(bytes: &[u8]) -> bool {
    let bytes = bytes.trim_ascii();
    let Some(end) = bytes.iter().position(|&byte| byte == b'\n') else {
        return false;
    };
    serde_json::from_slice::<serde::de::IgnoredAny>(&bytes[..end]).is_ok()
}

/// Reads JSON Lines; all paths come in the unit of the first.
fn read_lines(bytes: &[u8], bare_unit: Option<Unit>) -> Result<PointList, Error> {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return read_points(bytes, bare_unit);
    };
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut all: Option<PointList> = None;
    for (row, line) in text.lines().enumerate() {
        if line.trim().is_empty() {
            continue;
        }
        let read = read_point_line(line, bare_unit).map_err(|error| {
            // Errors count rows within the line; with the rows before it they count in the file.
            let placed = "\n".repeat(row) + line;
            let error = read_point_line(&placed, bare_unit).err().unwrap_or(error);
            error.at(row as u32 + 1, 1)
        })?;
        let all = all.get_or_insert_with(|| PointList {
            unit: read.unit,
            paths: Vec::new(),
        });
        all.paths
            .extend(read.paths.into_iter().map(|path| PointPath {
                points: change_unit(path.points, read.unit, all.unit),
                ..path
            }));
    }
    match all {
        Some(list) => Ok(list),
        None => read_points(bytes, bare_unit),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn format(name: &str, text: &str) -> Format {
        format_of(Path::new(name), text.as_bytes())
    }

    #[test]
    fn the_content_tells_the_kind() {
        assert_eq!(format("a.json", "\u{feff} <svg/>"), Format::Svg);
        assert_eq!(format("a.svg", "\n [[0,0],[1,1]]"), Format::Json);
        assert_eq!(format("-", "[[0,0],\n[1,1]]\n"), Format::Json);
        assert_eq!(format("-", "[[0,0],[1,1]]\n\n"), Format::Json);
        assert_eq!(
            format("-", "[[0,0],[1,1]]\n[[0,0],[2,1]]\n"),
            Format::JsonLines
        );
        assert_eq!(format("a.NDJSON", "[[0,0],[1,1]]"), Format::JsonLines);
        assert_eq!(format("a.json", "hello"), Format::Json);
        assert_eq!(format("a.json", ""), Format::Json);
        assert_eq!(format("a.svg", ""), Format::Svg);
    }

    #[test]
    fn a_fault_in_json_lines_is_told_with_its_row() {
        let text =
            b"{\"unit\":\"mm\",\"points\":[[0,0],[1,1]]}\n\n{\"unit\":\"mm\",\"pionts\":[]}\n";
        let error = read_lines(text, None).expect_err("a typo").to_string();
        assert!(error.starts_with("3:"), "{error}");
        assert!(error.contains("did you mean \"points\""), "{error}");
        let error = read_lines(b"[[0,0]]\n[[1,1]]", None).expect_err("no unit");
        assert!(error.to_string().starts_with("1:1: "), "{error}");
    }
}
