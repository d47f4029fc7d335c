//! Drawings in: SVG, DXF, JSON and JSON Lines recognized by their content, lines kept as drawn.
//!
//! Available with the features `svg` and `json`.

use std::collections::HashMap;
use std::path::Path;

use super::dxf_read::{DxfDrawing, is_dxf, read_dxf_layers};
use super::json::{PointList, PointPath, is_point_lines, read_point_lines, read_points};
use super::svg_read::{DrawnPath, is_packed_or_wide, read_svg_layers};
use crate::error::{DrawingFault, Error};
use crate::geom::flatten::{DEFAULT_TOLERANCE_MM, check_count};
use crate::geom::{Bounds, Point, Polyline};
use crate::motif::Motif;
use crate::strokes::{
    DEFAULT_JOIN_MM, Drawing, Gaps, Joined, OneLineOptions, Stroke, usual_tolerances,
};
use crate::units::Unit;

/// How a drawing becomes lines.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct ReadOptions {
    /// The unit of a point list or a DXF that names none, and the unit to answer in. Where it is
    /// `None`, a list has to name one, a DXF is taken as [`LineDrawing::notes`] says, and the answer
    /// is in the drawing's own.
    pub unit: Option<Unit>,
    /// How far from a curve its points may stray, in millimetres, above 0; where it is `None`, as
    /// [`OneLineOptions::flattening`] has it.
    pub flattening_mm: Option<f64>,
    /// How near two ends have to be to meet, in millimetres, above 0; where it is `None`, as
    /// [`OneLineOptions::join`] has it.
    pub join_mm: Option<f64>,
    /// What happens to lines that don't meet where one line is asked for.
    pub gaps: Gaps,
    /// The layers that are read, of an SVG drawing as in [`read_svg_layers`], of a DXF as in
    /// [`read_dxf_layers`]; all where there are none. Point lists have no layers.
    pub layers: Vec<String>,
}

impl ReadOptions {
    /// The same options with this unit, or with the drawing's own.
    #[must_use]
    pub fn with_unit(mut self, unit: Option<Unit>) -> Self {
        self.unit = unit;
        self
    }

    /// The same options with another distance of points from curves, in millimetres.
    #[must_use]
    pub fn with_flattening_mm(mut self, flattening_mm: f64) -> Self {
        self.flattening_mm = Some(flattening_mm);
        self
    }

    /// The same options with another distance of ends that meet, in millimetres.
    #[must_use]
    pub fn with_join_mm(mut self, join_mm: f64) -> Self {
        self.join_mm = Some(join_mm);
        self
    }

    /// The same options with another way with lines that don't meet.
    #[must_use]
    pub fn with_gaps(mut self, gaps: Gaps) -> Self {
        self.gaps = gaps;
        self
    }

    /// The same options for these layers alone.
    #[must_use]
    pub fn with_layers(mut self, layers: impl IntoIterator<Item = impl Into<String>>) -> Self {
        self.layers = layers.into_iter().map(Into::into).collect();
        self
    }

    /// How far points may stray from a curve on the cloth, and how near ends are there that meet, in
    /// this unit: 0.01 mm and 0.1 mm where they are not given.
    #[must_use]
    pub fn on_cloth(&self, unit: Unit) -> [f64; 2] {
        let flattening = self.flattening_mm.unwrap_or(DEFAULT_TOLERANCE_MM);
        let join = self.join_mm.unwrap_or(DEFAULT_JOIN_MM);
        [flattening, join].map(|mm| mm / unit.in_mm())
    }

    /// The same options for a drawing that becomes this many times as large on the cloth, where the
    /// tolerances hold.
    ///
    /// A factor that is not above 0 changes nothing.
    #[must_use]
    pub fn enlarged(mut self, factor: f64) -> Self {
        if factor > 0.0 && factor.is_finite() {
            let [flattening, join] = self.on_cloth(Unit::Mm).map(|mm| mm / factor);
            self.flattening_mm = Some(flattening);
            self.join_mm = Some(join);
        }
        self
    }
}

/// The lines of a drawing in any of the formats, in the order of drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct LineDrawing {
    /// The name for what it becomes: the file's name without its end.
    name: String,
    /// The unit to answer in.
    unit: Unit,
    /// The unit of the lines: the one they are written in, so that they can go out bit for bit.
    lines_in: Unit,
    lines: Vec<Line>,
    /// True for JSON Lines, where every line is a drawing of its own.
    one_each: bool,
    notes: Vec<String>,
    /// True where the last note is about the unit, which is a guess.
    unit_assumed: bool,
}

#[derive(Debug, Clone, PartialEq)]
struct Line {
    /// The name that the drawing gives it.
    name: Option<String>,
    stroke: Stroke,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Format {
    Svg,
    Dxf,
    Json,
    JsonLines,
}

impl LineDrawing {
    /// Reads a drawing: SVG or DXF at its true size, a JSON point list or JSON Lines.
    ///
    /// `file` is the name of the file that the bytes come from; its end decides where the content
    /// doesn't, and without its end it names the motif. Nothing is opened.
    ///
    /// ```
    /// use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
    /// use quiltpath_core::units::Unit;
    ///
    /// let bytes = br#"{"unit":"in","points":[[0,0],[1,0.5]]}"#;
    /// let options = ReadOptions::default();
    /// let leaf = LineDrawing::read("motifs/leaf.json", bytes, &options)?;
    /// let motif = leaf.motif(Unit::Mm, &options)?.motif;
    /// assert_eq!(motif.name(), "leaf");
    /// assert_eq!(motif.end().point.x, 25.4);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// As [`read_svg_layers`], [`read_dxf_layers`] and [`read_points`], which has no layers; a geometry error as in [`Polyline::new`] for a list of
    /// points that is no line. Rows of JSON Lines count in the file.
    ///
    /// # Complexity
    ///
    /// O(bytes + points).
    pub fn read(file: &str, bytes: &[u8], options: &ReadOptions) -> Result<Self, Error> {
        let path = Path::new(file);
        let name = match path.file_stem() {
            Some(stem) if file != "-" => stem.to_string_lossy().into_owned(),
            _ => "drawing".to_owned(),
        };
        let format = format_of(path, bytes);
        if format == Format::Svg {
            let read = read_svg_layers(bytes, &options.layers)?;
            return Ok(Self {
                name,
                unit: options.unit.unwrap_or(read.unit),
                lines_in: Unit::Mm,
                lines: read.paths.into_iter().map(Line::drawn).collect(),
                one_each: false,
                notes: read.notes,
                unit_assumed: false,
            });
        }
        if format == Format::Dxf {
            let read = read_dxf_layers(bytes, options.unit, &options.layers)?;
            return Ok(Self {
                name,
                unit: options.unit.unwrap_or(read.unit),
                lines_in: Unit::Mm,
                one_each: false,
                notes: read.notes.clone(),
                unit_assumed: read.unit_assumed,
                lines: Line::on_layers(read),
            });
        }
        no_layers(options)?;
        let list = if format == Format::Json {
            read_points(bytes, options.unit)?
        } else {
            read_point_lines(bytes, options.unit)?
        };
        Ok(Self {
            name,
            unit: options.unit.unwrap_or(list.unit),
            lines_in: list.unit,
            lines: Line::listed(list.paths)?,
            one_each: format == Format::JsonLines,
            notes: Vec::new(),
            unit_assumed: false,
        })
    }

    /// Reads one line of JSON Lines as a drawing of its own, which is JSON whatever it looks like.
    ///
    /// A path without a name gets this one, as in [`PointList::name_all`].
    ///
    /// ```
    /// use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
    ///
    /// let line = br#"{"unit":"in","points":[[0,0],[1,0.5]]}"#;
    /// let drawing = LineDrawing::read_line(line, "line-17", &ReadOptions::default())?;
    /// assert_eq!(drawing.paths(&ReadOptions::default())?.paths[0].name.as_deref(), Some("line-17"));
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// As [`read_points`]; rows count within the line.
    pub fn read_line(line: &[u8], name: &str, options: &ReadOptions) -> Result<Self, Error> {
        no_layers(options)?;
        let mut list = read_points(line, options.unit)?;
        list.name_all(name);
        Ok(Self {
            name: name.to_owned(),
            unit: options.unit.unwrap_or(list.unit),
            lines_in: list.unit,
            lines: Line::listed(list.paths)?,
            one_each: false,
            notes: Vec::new(),
            unit_assumed: false,
        })
    }

    /// The same drawing, to answer in this unit.
    #[must_use]
    pub fn answer_in(self, unit: Unit) -> Self {
        Self { unit, ..self }
    }

    /// The name for what it becomes: the file's name without its end.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The unit to answer in: the one asked for, or else the drawing's own.
    #[must_use]
    pub fn unit(&self) -> Unit {
        self.unit
    }

    /// What of an SVG or DXF drawing is not drawn or had to be assumed, one sentence each.
    #[must_use]
    pub fn notes(&self) -> &[String] {
        &self.notes
    }

    /// True for a DXF without a unit where none was given: the last of the notes says which one its
    /// numbers are taken in, and [`ReadOptions::unit`] gives another.
    #[must_use]
    pub fn unit_is_assumed(&self) -> bool {
        self.unit_assumed
    }

    /// The smallest box that holds what is drawn, in this unit; `None` where nothing is.
    ///
    /// # Complexity
    ///
    /// O(segments).
    #[must_use]
    pub fn bounds(&self, unit: Unit) -> Option<Bounds> {
        let boxes = self.lines.iter().filter_map(|line| line.stroke.bounds());
        let bounds = boxes.reduce(|one, other| one.union(&other))?;
        let change = |point: Point| point * (self.lines_in.in_mm() / unit.in_mm());
        Some(Bounds {
            min: change(bounds.min),
            max: change(bounds.max),
        })
    }

    /// How its strokes in this unit become lines: the tolerances that are not given go by its size.
    #[must_use]
    pub fn line_options(&self, unit: Unit, options: &ReadOptions) -> OneLineOptions {
        let diagonal = self.bounds(Unit::Mm).map(|bounds| bounds.size().norm());
        let usual = usual_tolerances(diagonal);
        OneLineOptions::default()
            .with_flattening(options.flattening_mm.unwrap_or(usual[0]) / unit.in_mm())
            .with_join(options.join_mm.unwrap_or(usual[1]) / unit.in_mm())
            .with_gaps(options.gaps)
    }

    /// The strokes in this unit, curves as they are drawn.
    ///
    /// A plan takes them in millimetres, in [`crate::plan::solve()`]:
    ///
    /// ```
    /// use quiltpath_core::Error;
    /// use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
    /// use quiltpath_core::plan::{MotifRequest, PlanSpec};
    /// use quiltpath_core::strokes::Drawing;
    /// use quiltpath_core::units::Unit;
    ///
    /// fn drawing(plan: &PlanSpec, asked: &MotifRequest, bytes: &[u8]) -> Result<Drawing, Error> {
    ///     let options = ReadOptions::default().with_unit(Some(plan.unit.into()));
    ///     LineDrawing::read(&asked.name, bytes, &options)?.strokes(Unit::Mm)
    /// }
    /// ```
    ///
    /// # Errors
    ///
    /// A geometry error as in [`Polyline::new`], with the name of the line, where coordinates go
    /// out of range in this unit.
    pub fn strokes(self, unit: Unit) -> Result<Drawing, Error> {
        let name = match self.lines.as_slice() {
            [
                Line {
                    name: Some(name), ..
                },
            ] => name,
            _ => &self.name,
        }
        .clone();
        let strokes = self.lines.into_iter();
        let strokes = strokes.map(|line| line.stroke.in_unit(self.lines_in, unit));
        Ok(Drawing::new(name, strokes.collect::<Result<_, Error>>()?))
    }

    /// Every line as it is drawn, in the unit to answer in.
    ///
    /// # Errors
    ///
    /// As [`LineDrawing::strokes`]; a geometry error as in [`crate::geom::flatten::flatten`],
    /// located at its element.
    pub fn paths(self, options: &ReadOptions) -> Result<PointList, Error> {
        let unit = self.unit;
        let tolerances = self.line_options(self.lines_in, options);
        let flattening = tolerances.flattening.unwrap_or(DEFAULT_TOLERANCE_MM);
        let mut paths = Vec::with_capacity(self.lines.len());
        let mut points = 0;
        for line in self.lines {
            let stroke = line.stroke;
            for flat in stroke.flat(flattening)? {
                let points_in_unit = self.lines_in.change_points(flat.points, unit);
                let flat = Polyline::new(points_in_unit).map_err(|e| stroke.located(e))?;
                points += flat.points().len();
                check_count(points as f64).map_err(|e| stroke.located(e))?;
                paths.push(PointPath {
                    name: line.name.clone(),
                    points: flat.into_points(),
                });
            }
        }
        Ok(PointList { unit, paths })
    }

    /// The whole drawing as one motif, in this unit.
    ///
    /// # Errors
    ///
    /// As [`LineDrawing::strokes`] and [`Drawing::one_line`].
    ///
    /// # Complexity
    ///
    /// O(points + lines log lines).
    pub fn motif(self, unit: Unit, options: &ReadOptions) -> Result<Joined, Error> {
        let tolerances = self.line_options(unit, options);
        self.strokes(unit)?.one_line(&tolerances)
    }

    /// The fewest lines that the drawing is without links, in the unit to answer in: what meets is
    /// one line. With links it is one line; JSON Lines are one each.
    ///
    /// # Errors
    ///
    /// As [`LineDrawing::motif`].
    pub fn fewest(self, options: &ReadOptions) -> Result<Vec<Motif>, Error> {
        if self.one_each || options.gaps == Gaps::Link {
            return self.motifs(options);
        }
        let unit = self.unit;
        let tolerances = self.line_options(unit, options);
        self.strokes(unit)?.fewest_lines(&tolerances)
    }

    /// The strokes in this unit as drawings: one, or one for each of JSON Lines.
    ///
    /// # Errors
    ///
    /// As [`LineDrawing::strokes`].
    pub fn drawings(self, unit: Unit) -> Result<Vec<Drawing>, Error> {
        if !self.one_each {
            return Ok(vec![self.strokes(unit)?]);
        }
        let drawings = self.lines.into_iter().map(|line| {
            let name = line.name.unwrap_or_else(|| self.name.clone());
            let stroke = line.stroke.in_unit(self.lines_in, unit)?;
            Ok(Drawing::new(name, vec![stroke]))
        });
        drawings.collect()
    }

    /// The drawing's motifs, in the unit to answer in: one, or one for each of JSON Lines.
    ///
    /// # Errors
    ///
    /// As [`LineDrawing::motif`].
    pub fn motifs(self, options: &ReadOptions) -> Result<Vec<Motif>, Error> {
        let unit = self.unit;
        if !self.one_each {
            return Ok(vec![self.motif(unit, options)?.motif]);
        }
        let name = self.name.clone();
        let list = self.paths(options)?;
        let motifs = list.paths.iter().map(|path| path.motif(&name));
        motifs.collect()
    }
}

impl Line {
    fn drawn(path: DrawnPath) -> Self {
        // The reader's stand-ins for missing ids have a space, which no id has.
        let named = !path.id.contains(' ');
        Self {
            name: named.then(|| path.id.clone()),
            stroke: path.into_stroke(),
        }
    }

    /// Lines of a DXF, named by their layers where each has one of its own, as in
    /// [`super::dxf::write_dxf`].
    fn on_layers(read: DxfDrawing) -> Vec<Self> {
        let mut times: HashMap<String, usize> = HashMap::new();
        for drawn in &read.paths {
            *times.entry(drawn.layer.clone()).or_default() += 1;
        }
        let lines = read.paths.into_iter().map(|drawn| {
            let own = drawn.layer != "0" && times.get(&drawn.layer) == Some(&1);
            Self {
                name: own.then(|| drawn.layer.clone()),
                stroke: drawn.into_stroke(),
            }
        });
        lines.collect()
    }

    /// Lines of a point list.
    fn listed(paths: Vec<PointPath>) -> Result<Vec<Self>, Error> {
        let lines = paths.into_iter().enumerate().map(|(at, path)| {
            let id = match &path.name {
                Some(name) => name.clone(),
                None => format!("path {}", at + 1),
            };
            let line = Polyline::new(path.points).map_err(|e| e.in_element(&id))?;
            Ok(Self {
                name: path.name,
                stroke: Stroke::from_line(id, line),
            })
        });
        lines.collect()
    }
}

/// Refuses layers for what has none.
fn no_layers(options: &ReadOptions) -> Result<(), Error> {
    match options.layers.first() {
        None => Ok(()),
        Some(name) => Err(DrawingFault::NoLayer {
            name: name.clone(),
            layers: Vec::new(),
        }
        .into()),
    }
}

/// The format of a drawing by its first character; the file's name decides where that can't.
fn format_of(path: &Path, bytes: &[u8]) -> Format {
    let end = path.extension().and_then(|end| end.to_str());
    let named =
        |names: &[&str]| end.is_some_and(|e| names.iter().any(|n| e.eq_ignore_ascii_case(n)));
    if is_packed_or_wide(bytes) {
        return Format::Svg;
    }
    if is_dxf(bytes) {
        return Format::Dxf;
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    match bytes.iter().find(|byte| !byte.is_ascii_whitespace()) {
        Some(b'<') => Format::Svg,
        _ if named(&["jsonl", "ndjson"]) => Format::JsonLines,
        Some(b'{' | b'[') if is_point_lines(bytes) => Format::JsonLines,
        Some(b'{' | b'[') => Format::Json,
        _ if named(&["json"]) => Format::Json,
        _ if named(&["dxf"]) => Format::Dxf,
        _ => Format::Svg,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn format(name: &str, text: &str) -> Format {
        format_of(Path::new(name), text.as_bytes())
    }

    #[test]
    fn the_content_decides_the_format() {
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
        assert_eq!(format("a.DXF", ""), Format::Dxf);
        assert_eq!(format("a.dxf", "<svg/>"), Format::Svg);
        for text in [
            "  0\r\nSECTION\r\n",
            "999\n\n999\n0\n0\nSECTION\n",
            "AutoCAD Binary DXF\r\n\x1a\0",
        ] {
            assert_eq!(format("a.svg", text), Format::Dxf, "{text}");
        }
        for text in ["0\nEOF\n", "9\nSECTION", "999\n", "0", "00\nSECTION"] {
            assert_eq!(format("a.svg", text), Format::Svg, "{text}");
        }
        for bytes in [
            &b"\x1f\x8b\x08"[..],
            b"\xff\xfe<\0",
            b"\xfe\xff\0<",
            b"\0<\0s",
        ] {
            assert_eq!(format_of(Path::new("-"), bytes), Format::Svg);
        }
    }
}
