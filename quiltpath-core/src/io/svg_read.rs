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
//! `symbol`, `switch` and by way of `use`. Fill, stroke, opacity, clipping and masks don't count;
//! `display` and `visibility` do, from attributes and style sheets. What is left out of a drawing
//! is counted in [`SvgDrawing::notes`].
//!
//! # Limits
//!
//! A file of a few bytes may ask for endless work, by nesting, by `use` and by entities. So a drawing
//! may have a million paths, ten million segments, elements 256 deep, and the like; one that has
//! more is refused.

mod intake;
mod length;
mod limits;
mod notes;
mod path_data;
mod pen;
mod place;
mod scan;
mod shapes;
mod size;
mod style;
mod walk;

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

/// Reads an SVG file: UTF-8 text, with or without a byte order mark, not compressed.
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
/// A drawing error, with row and column where there is one: the file is empty, compressed, not
/// UTF-8, not XML or not SVG; a number, a length, a transform or path data is malformed; a
/// coordinate is not finite or beyond [`crate::geom::MAX_COORDINATE`] in millimetres; a `use`
/// leads back to itself; a limit is passed; nothing is drawn.
///
/// # Complexity
///
/// O(bytes read), where an element counts each time it is used.
pub fn read_svg(bytes: &[u8]) -> Result<SvgDrawing, Error> {
    let text = intake::text(bytes)?;
    let document = intake::document(text)?;
    let root = size::root(document.root_element())?;
    let mut walk = walk::Walk::new(&document);
    walk.draw(&root)?;
    if walk.drawn.is_empty() {
        return Err(DrawingFault::NothingDrawn.into());
    }
    if root.assumed {
        walk.notes.add(notes::Note::AssumedPixels, "");
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
mod tests {
    use super::*;

    /// The paths of a drawing in which one user unit is 1 mm, as id and path data.
    fn drawn(body: &str) -> Vec<(String, String)> {
        let drawing = read(body).unwrap_or_else(|e| panic!("{body}: {e}"));
        let paths = drawing.paths.into_iter();
        paths.map(|path| (path.id, path.path.to_svg())).collect()
    }

    fn read(body: &str) -> Result<SvgDrawing, Error> {
        let svg = format!(
            "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' \
             width='100mm' height='100mm' viewBox='-7 -7 100 100'>\n{body}\n</svg>"
        );
        read_svg(svg.as_bytes())
    }

    fn data(body: &str) -> String {
        let paths: Vec<String> = drawn(body).into_iter().map(|(_, data)| data).collect();
        paths.join(" | ")
    }

    const LINE: &str = "<line id='l' x2='1'/>";

    #[test]
    fn transforms_apply_from_the_inside_out() {
        for (body, expected) in [
            (LINE.to_owned(), "M0,0 L1,0"),
            (
                format!("<g transform='translate(5,6) scale(2)'>{LINE}</g>"),
                "M5,6 L7,6",
            ),
            (
                format!("<g transform='scale(2)'><a transform='translate(5 6)'>{LINE}</a></g>"),
                "M10,12 L12,12",
            ),
            (
                format!("<g transform='rotate(90 1 1)'>{LINE}</g>"),
                "M2,0 L2,1",
            ),
            (
                format!("<svg x='2' y='3' width='10' height='20' viewBox='0 0 1 1'>{LINE}</svg>"),
                "M2,8 L12,8",
            ),
            (
                format!("<defs>{LINE}</defs><use href='#l' x='4' y='5' transform='scale(2)'/>"),
                "M8,10 L10,10",
            ),
            (
                format!(
                    "<symbol id='s' viewBox='0 0 1 1'>{LINE}</symbol><use xlink:href='#s' width='4' height='4'/>"
                ),
                "M0,0 L4,0",
            ),
            (
                format!("<switch><g systemLanguage='de'/><g>{LINE}</g><g>{LINE}</g></switch>"),
                "M0,0 L1,0",
            ),
        ] {
            assert_eq!(data(&body), expected, "{body}");
        }
    }

    #[test]
    fn ids_titles_and_places_are_kept() {
        let drawing = read(
            "<path id='a' d='M0 0H1'><title> Leaf </title></path>\n <rect width='1' height='1'/>",
        )
        .expect("drawing");
        let [a, b] = &drawing.paths[..] else {
            panic!("two paths")
        };
        assert_eq!((a.id.as_str(), a.title.as_deref()), ("a", Some("Leaf")));
        assert_eq!((b.id.as_str(), b.title.as_deref()), ("rect 2", None));
        assert_eq!(b.position, Position { row: 3, column: 2 });
        assert_eq!((drawing.unit, drawing.width_mm), (Unit::Mm, Some(100.0)));
    }

    #[test]
    fn what_is_hidden_is_not_drawn() {
        for body in [
            "<g display='none'><line x2='5'/></g>",
            "<g visibility='hidden'><line x2='5'/></g>",
            "<g style='display:none'><line x2='5'/></g>",
            "<style>.x{display:none}</style><line class='x' x2='5'/>",
            "<defs><line x2='5'/></defs>",
            "<clipPath><line x2='5'/></clipPath>",
            "<mask><line x2='5'/></mask>",
            "<pattern><line x2='5'/></pattern>",
            "<marker><line x2='5'/></marker>",
            "<symbol><line x2='5'/></symbol>",
            "<metadata><line x2='5'/></metadata>",
            "<path d='M5 5'/>",
            "<path d='M5 5z'/>",
            "<line xmlns='http://example.org/other' x2='5'/>",
        ] {
            assert_eq!(drawn(&format!("{body}{LINE}")).len(), 1, "{body}");
        }
        assert_eq!(
            data("<g visibility='hidden'><line x2='5' visibility='visible'/><line x2='6'/></g>"),
            "M0,0 L5,0"
        );
    }

    #[test]
    fn what_is_left_out_is_noted() {
        let drawing = read(&format!(
            "<text>a</text><image/><text/><use href='#x'/><g clip-path='url(#c)'>{LINE}</g>"
        ))
        .expect("drawing");
        assert_eq!(drawing.notes.len(), 4, "{:?}", drawing.notes);
        assert!(drawing.notes[0].starts_with("2 <text> elements skipped"));
        assert!(drawing.notes[2].contains("\"#x\" is not in this file"));
        let bare = read_svg(b"<svg viewBox='0 0 9 9'><line x2='96'/></svg>").expect("drawing");
        assert_eq!(bare.paths[0].path.to_svg(), "M0,0 L25.4,0");
        assert!(bare.notes[0].contains("1/96 in"));
    }

    #[test]
    fn faults_are_located() {
        for (body, message) in [
            (
                "<path id='p' d='M0 0 L 5 x'/>",
                "2:26: p: d=\"M0 0 L 5 x\" of <path>: expected a number, not \"x\"",
            ),
            (
                "<g transform='rotate(x)'/>",
                "2:22: transform=\"rotate(x)\" of <g>: expected a number, not \"x\"",
            ),
            (
                "<g transform='turn(1)'/>",
                "2:15: transform=\"turn(1)\" of <g>: expected matrix, translate, scale, rotate, skewX or skewY, not \"t\"",
            ),
            (
                "<g transform='scale(1'/>",
                "2:22: transform=\"scale(1\" of <g>: ends where a bracket or a number is expected",
            ),
            (
                " <path d='M0 0H1e308'/>",
                "2:2: path 1: a point lies at 1.00e308 mm; coordinates may go from -1e9 mm to 1e9 mm, so check the numbers, the transforms and the viewBox",
            ),
            (
                "<g transform='scale(1e200) scale(1e200)'/>",
                "2:15: transform=\"scale(1e200)…\" of <g>: its numbers and those of the transforms round it are too large together",
            ),
            (
                "<g id='a'><use href='#a'/></g>",
                "2:11: <use> of \"a\" leads back to itself; remove the circular reference",
            ),
            (
                "<defs/>",
                "nothing is drawn; give a drawing with at least one path, line, polyline, polygon, rect, circle or ellipse",
            ),
        ] {
            assert_eq!(read(body).expect_err(body).to_string(), message);
        }
    }

    #[test]
    fn a_drawing_becomes_one_motif() {
        use crate::strokes::OneLineOptions;
        let drawing = read("<path id='b' d='M5 0H9'/><path id='a' d='M5 0H0'/>").expect("drawing");
        let drawing = drawing.into_drawing("m");
        let joined = drawing
            .one_line(&OneLineOptions::default())
            .expect("joined");
        assert_eq!(joined.motif.length(), 9.0);
        assert_eq!(
            drawing.strokes[1].position(),
            Some(Position { row: 2, column: 26 })
        );
    }
}
