//! SVG drawings out: true size, one open path for each line, start first.
//!
//! The numbers are rounded to 1e-4 of the unit of the file (0.1 µm or 2.5 µm), the size is given
//! in the same unit, and so is the viewBox, which starts where the ink does: a point keeps its
//! coordinates, and [`super::svg_read::read_svg`] brings it back where it was.

pub(super) mod data;
mod smooth;
mod strokes;

use std::collections::HashSet;

use maud::Render;

use crate::error::{DrawingFault, Error};
use crate::geom::{Bounds, MAX_COORDINATE, Point, Polyline};
use crate::io::ticks::{Ticks, file_unit};
use crate::strokes::Drawing;
use crate::transform::Transform;
use crate::units::Unit;

/// The id of the dot that marks a point.
const DOT: &str = "dot";

/// One line of a drawing to write.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct SvgPath<'a> {
    /// The id; what XML forbids in one becomes `-`, and a second use of one gets a number.
    pub id: &'a str,
    /// The text of its `title`, which viewers show as a tip.
    pub title: Option<&'a str>,
    /// The points in the order of travel, x to the right, y down.
    pub points: &'a [Point],
}

impl<'a> SvgPath<'a> {
    /// A path of this id through these points, without a title.
    #[must_use]
    pub fn new(id: &'a str, points: &'a [Point]) -> Self {
        Self {
            id,
            title: None,
            points,
        }
    }

    /// The same path with this title, or with none.
    #[must_use]
    pub fn with_title(mut self, title: Option<&'a str>) -> Self {
        self.title = title;
        self
    }
}

/// How to write a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct WriteOptions<'a> {
    /// Replace the points by cubic curves that stay within this distance of the line.
    ///
    /// Give a few times the flattening tolerance. Where no curve stays within it, and at turns
    /// above 30 degrees, the line stays as it is.
    pub smooth: Option<f64>,
    /// The width of the drawn line; 0.5 mm or 0.02 in when not given.
    pub stroke_width: Option<f64>,
    /// Mark every point that is written by a dot of this diameter on top of the line.
    ///
    /// Dots are markers (W3C SVG 2, chapter 13): the line stays the only thing that is drawn.
    pub dots: Option<f64>,
    /// The title of the whole drawing.
    pub title: Option<&'a str>,
    /// A description of the whole drawing.
    pub description: Option<&'a str>,
    /// The page, whose top left corner is where a program that goes by the page has its zero; a
    /// margin round the lines when not given. Lines to the right of it or below it make it larger.
    pub page: Option<Bounds>,
}

impl<'a> WriteOptions<'a> {
    /// The same options with curves within this distance of the line, or with the line as it is.
    #[must_use]
    pub fn with_smooth(mut self, smooth: Option<f64>) -> Self {
        self.smooth = smooth;
        self
    }

    /// The same options with another width of the drawn line, or with the usual one.
    #[must_use]
    pub fn with_stroke_width(mut self, stroke_width: Option<f64>) -> Self {
        self.stroke_width = stroke_width;
        self
    }

    /// The same options with dots of this diameter on the points, or with none.
    #[must_use]
    pub fn with_dots(mut self, dots: Option<f64>) -> Self {
        self.dots = dots;
        self
    }

    /// The same options with this title of the drawing, or with none.
    #[must_use]
    pub fn with_title(mut self, title: Option<&'a str>) -> Self {
        self.title = title;
        self
    }

    /// The same options with this description of the drawing, or with none.
    #[must_use]
    pub fn with_description(mut self, description: Option<&'a str>) -> Self {
        self.description = description;
        self
    }

    /// The same options with this page, or with a margin round the lines.
    #[must_use]
    pub fn with_page(mut self, page: Option<Bounds>) -> Self {
        self.page = page;
        self
    }
}

/// Writes a drawing of these paths at the end of `out`; all lengths are in `unit`.
///
/// The file is in millimetres for millimetres, centimetres and metres, in inches for inches, feet
/// and yards.
///
/// ```
/// use quiltpath_core::io::svg_write::{SvgPath, WriteOptions, write_svg};
/// use quiltpath_core::{geom::Point, units::Unit};
///
/// let points = [Point::new(0.0, 0.0), Point::new(4.5, -0.25)];
/// let leaf = SvgPath::new("leaf", &points).with_title(Some("Leaf & stem"));
/// let mut svg = String::new();
/// write_svg(&mut svg, Unit::In, &[leaf], &WriteOptions::default())?;
/// assert!(svg.contains(r#"width="4.7in" height="0.45in" viewBox="-0.1 -0.35 4.7 0.45""#));
/// assert!(svg.contains(r#"<path id="leaf" d="M0,0L4.5,-0.25"><title>Leaf &amp; stem</title>"#));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A drawing error when there is no path; a geometry error that names the path when its points
/// are no line, or when a tolerance or a width is not above 0, or above 1e9. Then nothing
/// is written.
///
/// # Complexity
///
/// O(points); O(points log points) when smooth.
pub fn write_svg(
    out: &mut String,
    unit: Unit,
    paths: &[SvgPath<'_>],
    options: &WriteOptions<'_>,
) -> Result<(), Error> {
    let sheet = Sheet::of(unit);
    let smooth = positive(options.smooth, "the tolerance of smooth curves")?;
    let stroke = positive(options.stroke_width, "the stroke width")?;
    let dots = positive(options.dots, "the diameter of the dots")?;
    if let Some(page) = options.page {
        for side in [page.width(), page.height()] {
            positive(Some(side), "a side of the page")?;
        }
        for corner in [page.min.x, page.min.y] {
            if corner.abs() > MAX_COORDINATE {
                let accepted = "a number from -1e9 to 1e9";
                return Err(Error::bad_number(
                    "a coordinate of the page",
                    corner,
                    accepted,
                ));
            }
        }
    }
    let scale = Transform::scale(sheet.factor, sheet.factor);
    let lines = paths
        .iter()
        .map(|path| {
            let points = path.points.iter().map(|&point| scale.apply(point));
            Polyline::new(points.collect()).map_err(|error| error.in_element(path.id))
        })
        .collect::<Result<Vec<Polyline>, Error>>()?;
    let bounds = lines.iter().map(Polyline::bounds);
    let ink = bounds
        .reduce(|all, one| all.union(&one))
        .ok_or(DrawingFault::NothingDrawn)?;
    let stroke = stroke.map_or(sheet.stroke, |width| width * sheet.factor);
    let dots = dots.map(|diameter| diameter * sheet.factor);
    open(out, &sheet, ink, stroke.max(dots.unwrap_or(0.0)), options);
    let mut ids = Ids::default();
    if let Some(diameter) = dots {
        dot(out, &ids.unique(DOT), Ticks::of(diameter / 2.0));
    }
    group(out, stroke, dots.is_some());
    for (path, line) in paths.iter().zip(&lines) {
        out.push_str("<path id=\"");
        out.push_str(&ids.unique(path.id));
        out.push_str("\" d=\"");
        match smooth {
            Some(tolerance) => smooth::write(out, line.points(), tolerance * sheet.factor),
            None => data::chords(out, line.points()),
        }
        match path.title {
            Some(title) => {
                out.push_str("\"><title>");
                escape(out, title);
                out.push_str("</title></path>\n");
            }
            None => out.push_str("\"/>\n"),
        }
    }
    out.push_str("</g>\n</svg>\n");
    Ok(())
}

/// Writes the strokes of a drawing in millimetres at the end of `out`, curves and all, each a path
/// of its own by its id; what was read from a picture becomes a drawing so.
///
/// ```
/// use quiltpath_core::geom::Point;
/// use quiltpath_core::io::{svg_read::read_svg, svg_write::write_strokes};
/// use quiltpath_core::strokes::{Drawing, Stroke};
///
/// let path = kurbo::BezPath::from_svg("M0 0 C 0 5 5 10 10 10 Q 20 10 20 0").unwrap();
/// let mut out = String::new();
/// write_strokes(&mut out, &Drawing::new("hook", vec![Stroke::new("hook", path)]))?;
/// assert!(out.contains(r#"d="M0,0C0,5 5,10 10,10 16.6667,10 20,6.6667 20,0""#), "{out}");
/// assert_eq!(read_svg(out.as_bytes())?.paths.len(), 1);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A drawing error when nothing is drawn.
///
/// # Complexity
///
/// O(segments).
pub fn write_strokes(out: &mut String, drawing: &Drawing) -> Result<(), Error> {
    let ink = drawing.bounds().ok_or(DrawingFault::NothingDrawn)?;
    let sheet = Sheet::of(Unit::Mm);
    let options = WriteOptions::default().with_title(Some(&drawing.name));
    open(out, &sheet, ink, sheet.stroke, &options);
    let mut ids = Ids::default();
    group(out, sheet.stroke, false);
    for stroke in &drawing.strokes {
        let data = strokes::curves(&stroke.path());
        if !data.is_empty() {
            let id = ids.unique(stroke.id());
            out.push_str(&format!("<path id=\"{id}\" d=\"{data}\"/>\n"));
        }
    }
    out.push_str("</g>\n</svg>\n");
    Ok(())
}

/// The unit of the file, and what looks right in it.
struct Sheet {
    symbol: &'static str,
    /// How many units of the file one given unit is.
    factor: f64,
    margin: f64,
    stroke: f64,
}

impl Sheet {
    fn of(unit: Unit) -> Self {
        let (file, factor) = file_unit(unit);
        let (margin, stroke) = if file == Unit::Mm {
            (2.5, 0.5)
        } else {
            (0.1, 0.02)
        };
        Self {
            symbol: file.symbol(),
            factor,
            margin,
            stroke,
        }
    }
}

fn positive(value: Option<f64>, what: &'static str) -> Result<Option<f64>, Error> {
    let accepted = "a length above 0 and up to 1e9";
    match value {
        Some(value) if !(value > 0.0 && value <= MAX_COORDINATE) => {
            Err(Error::bad_number(what, value, accepted))
        }
        value => Ok(value),
    }
}

fn open(out: &mut String, sheet: &Sheet, ink: Bounds, line: f64, options: &WriteOptions<'_>) {
    let margin = sheet.margin.max(line);
    let page = match options.page {
        Some(Bounds { min, max }) => Bounds {
            min: min * sheet.factor,
            max: (max * sheet.factor).sup(&ink.max),
        },
        None => Bounds {
            min: ink.min.map(|value| value - margin),
            max: ink.max.map(|value| value + margin),
        },
    };
    let [left, top, right, bottom] =
        [page.min.x, page.min.y, page.max.x, page.max.y].map(Ticks::of);
    let width = Ticks(right.0 - left.0);
    let height = Ticks(bottom.0 - top.0);
    out.push_str(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"",
    );
    let symbol = sheet.symbol;
    let size = [(" width", width), (" height", height)];
    for (name, ticks) in size {
        out.push_str(name);
        out.push_str("=\"");
        ticks.write(out);
        out.push_str(symbol);
        out.push('"');
    }
    out.push_str(" viewBox=\"");
    for (index, ticks) in [left, top, width, height].into_iter().enumerate() {
        if index > 0 {
            out.push(' ');
        }
        ticks.write(out);
    }
    out.push_str("\">\n");
    for (name, text) in [("title", options.title), ("desc", options.description)] {
        if let Some(text) = text {
            out.push('<');
            out.push_str(name);
            out.push('>');
            escape(out, text);
            out.push_str("</");
            out.push_str(name);
            out.push_str(">\n");
        }
    }
}

/// Defines the dot that marks a point.
fn dot(out: &mut String, id: &str, radius: Ticks) {
    out.push_str("<defs><marker id=\"");
    out.push_str(id);
    out.push_str("\" markerUnits=\"userSpaceOnUse\" overflow=\"visible\"><circle r=\"");
    Ticks(radius.0.max(1)).write(out);
    out.push_str("\"/></marker></defs>\n");
}

/// Opens the group of all paths.
fn group(out: &mut String, stroke: f64, dotted: bool) {
    out.push_str("<g fill=\"none\" stroke=\"black\" stroke-width=\"");
    Ticks(Ticks::of(stroke).0.max(1)).write(out);
    out.push_str("\" stroke-linecap=\"round\" stroke-linejoin=\"round\"");
    if dotted {
        for place in ["start", "mid", "end"] {
            for text in [" marker-", place, "=\"url(#", DOT, ")\""] {
                out.push_str(text);
            }
        }
    }
    out.push_str(">\n");
}

/// The ids given so far.
#[derive(Default)]
struct Ids(HashSet<String>);

impl Ids {
    fn unique(&mut self, wanted: &str) -> String {
        let mut id: String = wanted
            .trim()
            .chars()
            .map(|c| match c {
                c if c.is_alphabetic() || c.is_ascii_digit() || "-_.".contains(c) => c,
                _ => '-',
            })
            .collect();
        if id.is_empty() {
            id.push_str("path");
        }
        if id.starts_with(|c: char| !c.is_alphabetic() && c != '_') {
            id.insert(0, '_');
        }
        let mut number = self.0.len();
        let mut unique = id.clone();
        while !self.0.insert(unique.clone()) {
            number += 1;
            unique = format!("{id}-{number}");
        }
        unique
    }
}

/// Writes a text so that XML reads it back.
fn escape(out: &mut String, text: &str) {
    xml_text(text).render_to(out);
}

/// The text with U+FFFD in place of characters that XML forbids.
pub(super) fn xml_text(text: &str) -> String {
    let allowed = |c| match c {
        '\t' | '\n' => c,
        '\0'..='\u{1F}' | '\u{FFFE}' | '\u{FFFF}' => '\u{FFFD}',
        _ => c,
    };
    text.chars().map(allowed).collect()
}

#[cfg(test)]
mod tests;
