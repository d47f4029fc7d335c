//! Drawings in: SVG, DXF, JSON, JSON Lines and pictures recognized by their content, lines kept as
//! drawn.
//!
//! Available with the features `svg` and `json`; pictures with `scan`, too.

mod format;
mod options;
#[cfg(feature = "scan")]
mod scanned;

use std::collections::HashMap;
use std::path::Path;

pub use options::ReadOptions;

use super::dxf_read::{DxfDrawing, read_dxf_layers};
use super::json::{PointList, PointPath, read_point_lines, read_points};
use super::svg_read::{DrawnPath, read_svg_layers};
use crate::error::{DrawingFault, Error};
use crate::geom::flatten::check_count;
use crate::geom::{Bounds, Point, Polyline};
use crate::motif::Motif;
use crate::strokes::{Drawing, Joined, JoinedLines, OneLineOptions, Stroke, usual_tolerances};
use crate::units::Unit;
use format::{Format, format_of};

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

impl LineDrawing {
    /// Reads a drawing: SVG or DXF at its true size, a JSON point list or JSON Lines; with the
    /// feature `scan`, a PNG or JPEG picture, at true size where it shows the marks of drawing
    /// paper and otherwise at 200 pixels an inch, which a note says.
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
    /// As [`read_svg_layers`], [`read_dxf_layers`] and [`read_points`], where layers are refused; a
    /// scan error as in [`crate::raster::scan()`]; a geometry error as in [`Polyline::new`] for a
    /// list of points that is no line. Rows of JSON Lines count in the file.
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
        #[cfg(feature = "scan")]
        if format == Format::Picture {
            let unit = options.unit.unwrap_or(Unit::Mm);
            let (strokes, notes) = scanned::read(&name, bytes, unit)?;
            let unnamed = |stroke| Line { name: None, stroke };
            return Ok(Self {
                name,
                unit,
                lines_in: Unit::Mm,
                lines: strokes.into_iter().map(unnamed).collect(),
                one_each: false,
                notes,
                unit_assumed: false,
            });
        }
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

    /// What of an SVG, DXF or picture is not drawn or had to be assumed, one sentence each.
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
        let [flattening, join] = self.tolerances(unit, options);
        OneLineOptions::default()
            .with_flattening(flattening)
            .with_join(join)
            .with_gaps(options.gaps)
            .with_ends(options.ends)
            .with_cut(options.cut_mm.map(|mm| mm / unit.in_mm()))
    }

    /// How far points may stray from a curve and how near ends are that meet, in this unit.
    fn tolerances(&self, unit: Unit, options: &ReadOptions) -> [f64; 2] {
        let diagonal = self.bounds(Unit::Mm).map(|bounds| bounds.size().norm());
        let usual = usual_tolerances(diagonal);
        let given = [options.flattening_mm, options.join_mm];
        [0, 1].map(|which| given[which].unwrap_or(usual[which]) / unit.in_mm())
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
        let [flattening, _] = self.tolerances(self.lines_in, options);
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

    /// The drawing as one line or several, in the unit to answer in, as in [`Drawing::lines`]; JSON
    /// Lines are one each.
    ///
    /// # Errors
    ///
    /// As [`LineDrawing::motif`].
    pub fn joined(self, options: &ReadOptions) -> Result<JoinedLines, Error> {
        if self.one_each {
            let motifs = self.motifs(options)?.into_iter().map(Motif::from);
            return Ok(JoinedLines::from_iter(motifs));
        }
        let unit = self.unit;
        let tolerances = self.line_options(unit, options);
        self.strokes(unit)?.lines(&tolerances)
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
    pub fn motifs(self, options: &ReadOptions) -> Result<Vec<Joined>, Error> {
        let unit = self.unit;
        if !self.one_each {
            return Ok(vec![self.motif(unit, options)?]);
        }
        let name = self.name.clone();
        let list = self.paths(options)?;
        let motifs = list
            .paths
            .iter()
            .map(|path| path.motif(&name).map(Joined::from));
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
