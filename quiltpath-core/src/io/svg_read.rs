//! SVG drawings in: every visible shape as a curve in millimetres, in the order of drawing.
//!
//! Not a renderer: direction, order, start point and id of each path stay as drawn, in f64, and
//! what can't be read is an error with its row and column, never a path cut short.
//!
//! # Size and origin
//!
//! The size and the viewBox of the outermost `svg` give the **scale** alone. The drawing's own
//! origin stays: the user point (0, 0) is (0, 0) mm wherever the viewBox begins, so that a drawing
//! written with a shifted viewBox comes back where it was. With `preserveAspectRatio="none"` the
//! axes scale apart; else both take the smaller scale (`meet`) or the larger (`slice`).
//!
//! # What is drawn
//!
//! `path`, `line`, `polyline`, `polygon`, `rect`, `circle` and `ellipse`, inside `g`, `a`, `svg`,
//! `symbol`, `switch` and by way of `use`, where they are displayed and painted, by attributes and
//! style sheets. A shape that nothing is said of has a fill, so it is drawn. Clipping, masks and
//! dashes don't count. What is left out of a drawing, or seen otherwise on a screen, is counted in
//! [`SvgDrawing::notes`].
//!
//! # Limits
//!
//! A file of a few bytes may ask for endless work, by nesting, by `use` and by entities. So a
//! drawing may have a million paths, ten million segments, elements 256 deep, and the like; one
//! that has more is refused.

mod css;
mod element;
mod encoding;
mod frame;
mod intake;
mod layers;
mod length;
mod limits;
mod moves;
mod notes;
mod paint;
mod path_data;
mod place;
mod scan;
mod selector;
mod shapes;
mod size;
mod style;
mod walk;

#[cfg(feature = "json")]
pub(super) use encoding::is_packed_or_wide;

use kurbo::BezPath;

use crate::error::{DrawingFault, Error, Position};
use crate::geom::Bounds;
use crate::geom::curve_bounds::curve_bounds;
use crate::strokes::{Drawing, Stroke};
use crate::units::Unit;

/// What an SVG file draws.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct SvgDrawing {
    /// The paths in the order of drawing.
    pub paths: Vec<DrawnPath>,
    /// What was not drawn, or not as a browser would show it: one line for each kind.
    pub notes: Vec<String>,
    /// The width that the outermost `svg` gives itself, when it does.
    pub width_mm: Option<f64>,
    /// The height that the outermost `svg` gives itself, when it does.
    pub height_mm: Option<f64>,
    /// The unit that the author measures in: that of the width, or else of the height.
    ///
    /// Inches for points and picas, millimetres for pixels and where there is no unit.
    pub unit: Unit,
}

/// One shape of a drawing.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct DrawnPath {
    /// The id of the element; or what it is and which of all paths drawn, such as `path 3`.
    pub id: String,
    /// The text of its `title`.
    pub title: Option<String>,
    /// The curve in millimetres, x to the right, y down, in the direction of drawing.
    ///
    /// Each subpath starts with a move; subpaths without length are left out.
    pub path: BezPath,
    /// Where the element stands in the file.
    pub position: Position,
}

/// Reads an SVG file, plain or compressed by gzip (`.svgz`).
///
/// Its text is UTF-8, UTF-16, or what its XML declaration says, such as ISO-8859-1.
///
/// ```
/// use quiltpath_core::{io::svg_read::read_svg, strokes::OneLineOptions};
///
/// let svg = br#"<svg xmlns="http://www.w3.org/2000/svg" width="4in" height="2in" viewBox="0 0 8 4">
///   <path id="leaf" d="M0 2 C 2 0 6 0 8 2"/>
/// </svg>"#;
/// let drawing = read_svg(svg)?;
/// assert_eq!(drawing.paths[0].id, "leaf");
/// let leaf = drawing.into_drawing("leaf").one_line(&OneLineOptions::default())?.motif;
/// assert!((leaf.end().point.x - 4.0 * 25.4).abs() < 1e-9);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A drawing error, with row and column where there is one: the file is empty, in an unknown
/// encoding, not XML or not SVG; it unfolds to too much; a number, a length, a transform or path
/// data is malformed; a coordinate is not finite or beyond [`crate::geom::MAX_COORDINATE`] in
/// millimetres; a `use` leads back to itself; a limit is passed; nothing is drawn.
///
/// # Complexity
///
/// O(bytes read), where an element counts each time it is used.
pub fn read_svg(bytes: &[u8]) -> Result<SvgDrawing, Error> {
    read_svg_layers(bytes, &[])
}

/// As [`read_svg`], but only what is inside the elements with these names: their ids, or their
/// attributes `label` of any namespace. Without names everything is read.
///
/// ```
/// use quiltpath_core::io::svg_read::read_svg_layers;
///
/// let svg = br#"<svg xmlns="http://www.w3.org/2000/svg" width="4in" height="2in">
///   <g id="guides"><path d="M0 0 H 90"/></g>
///   <g id="quilting"><path id="leaf" d="M0 2 C 2 0 6 0 8 2"/></g>
/// </svg>"#;
/// let drawing = read_svg_layers(svg, &["quilting".to_owned()])?;
/// assert_eq!(drawing.paths.len(), 1);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`read_svg`], and where nothing in the file has one of the names.
pub fn read_svg_layers(bytes: &[u8], layers: &[String]) -> Result<SvgDrawing, Error> {
    let bytes = encoding::unpacked(bytes)?;
    let text = encoding::text(&bytes)?;
    let text = text.as_ref();
    let document = intake::document(text)?;
    layers::check(&document, layers)?;
    let mut notes = notes::Notes::default();
    let sheet = style::Sheet::of(&document, &mut notes);
    let svg = document.root_element();
    let look = sheet.look(svg)?;
    let mut room = length::Room::new().with_font(&look);
    room.root_font = room.font;
    let root = size::root(length::Measured {
        node: svg,
        look: &look,
        room,
    })?;
    let mut walk = walk::Walk::new(&document, &sheet, layers, notes);
    walk.draw(&root, &look)?;
    if walk.drawn.is_empty() {
        let notes = walk.notes.into_words();
        return Err(match notes.is_empty() {
            true => DrawingFault::NothingDrawn.into(),
            false => DrawingFault::AllSkipped { notes }.into(),
        });
    }
    if root.assumed {
        let boxes = walk
            .drawn
            .iter()
            .filter_map(|drawn| curve_bounds(&drawn.path));
        let size = boxes.reduce(|one, other| one.union(&other));
        walk.notes.add(
            notes::Note::AssumedPixels,
            &size.map_or_else(String::new, shown),
        );
    }
    let places = place::positions(text, walk.drawn.iter().map(|drawn| drawn.offset));
    let paths = walk.drawn.into_iter().zip(places);
    Ok(SvgDrawing {
        paths: paths
            .map(|(drawn, position)| DrawnPath {
                id: drawn.id,
                title: drawn.title,
                path: drawn.path,
                position,
            })
            .collect(),
        notes: walk.notes.into_words(),
        width_mm: root.width_mm,
        height_mm: root.height_mm,
        unit: root.unit,
    })
}

/// A size in inches and in millimetres, since a drawing without a size has no unit either.
fn shown(bounds: Bounds) -> String {
    let [inches, metric] = [Unit::In, Unit::Mm].map(|unit| {
        let (width, height) = (bounds.width(), bounds.height());
        format!("{} x {}", unit.precise(width), unit.precise(height))
    });
    format!("{inches} ({metric})")
}

impl SvgDrawing {
    /// The smallest box, in millimetres, that holds the curves themselves, not their controls.
    ///
    /// `None` when no path has a segment, which no drawing read from a file is.
    ///
    /// # Complexity
    ///
    /// O(segments).
    #[must_use]
    pub fn bounds(&self) -> Option<Bounds> {
        let boxes = (self.paths.iter()).filter_map(|drawn| curve_bounds(&drawn.path));
        boxes.reduce(|one, other| one.union(&other))
    }

    /// The strokes in millimetres, as a drawing of this name.
    #[must_use]
    pub fn into_drawing(self, name: impl Into<String>) -> Drawing {
        let strokes = self.paths.into_iter().map(DrawnPath::into_stroke);
        Drawing::new(name, strokes.collect())
    }
}

impl DrawnPath {
    pub(super) fn into_stroke(self) -> Stroke {
        Stroke::new(self.id, self.path).with_position(self.position)
    }
}

#[cfg(test)]
mod tests;
