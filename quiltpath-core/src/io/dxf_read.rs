//! DXF drawings in: every visible line as a curve in millimetres, y down, in the order of drawing.
//!
//! By the published DXF reference (group codes and entities as text, from memory). The ASCII form
//! of every release is read; the binary form is refused.
//!
//! # Size and origin
//!
//! `$INSUNITS` of the header is the unit. Where it is missing or 0 the unit that the caller gives
//! is taken, or else a guess by `$MEASUREMENT`, which a note reports. The origin stays; y of a DXF
//! points up and changes its sign, so that what is up in the drawing program is up on the page.
//!
//! # What is drawn
//!
//! `LINE`, `ARC`, `CIRCLE`, `ELLIPSE`, `LWPOLYLINE` and `POLYLINE` with bulges, `SPLINE` by control
//! points, and blocks by way of `INSERT`, in model space, where they are shown. Arcs become cubics
//! to a millionth of their radius, splines to a millionth of their size. All is seen from above:
//! heights are dropped, and a plane that is tilted is drawn as it looks from there. Each entity is
//! one path in its own direction: arcs turn left, y up, where they aren't mirrored. What is left
//! out, or drawn otherwise than its author sees it, is counted in [`DxfDrawing::notes`].
//!
//! # Limits
//!
//! Blocks inserted in blocks, in rows and columns, may ask for endless work. So a drawing may have
//! a million lines, ten million segments, five million entities as counted when they are inserted,
//! and blocks 64 deep; one that has more is refused. Names are read up to 255 characters.

mod bulge;
mod file;
mod layers;
mod limits;
mod notes;
mod pairs;
mod plane;
mod scale;
mod shapes;
mod spline;
mod text;
mod walk;

use kurbo::BezPath;

use crate::error::{DrawingFault, DxfFault, Error, Position};
use crate::geom::Bounds;
use crate::geom::curve_bounds::curve_bounds;
use crate::strokes::{Drawing, Stroke};
use crate::transform::Transform;
use crate::units::Unit;

/// What a DXF file draws.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct DxfDrawing {
    /// The paths in the order of drawing.
    pub paths: Vec<DxfPath>,
    /// What was not drawn, or not as its author sees it: one line for each kind. Where
    /// [`unit_assumed`](Self::unit_assumed) is true the last one says so.
    pub notes: Vec<String>,
    /// The unit that the author measures in: the file's, the one given, or a guess.
    pub unit: Unit,
    /// True where neither the file nor the caller gives a unit.
    pub unit_assumed: bool,
}

/// One entity of a drawing, as it was drawn.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct DxfPath {
    /// What it is and which of all paths drawn, such as `line 3`.
    pub id: String,
    /// The name of its layer.
    pub layer: String,
    /// The curve in millimetres, x to the right, y down, in the direction of drawing.
    pub path: BezPath,
    /// Where the entity stands in the file.
    pub position: Position,
}

/// Reads an ASCII DXF; `unit` is the unit of its numbers where the file names none.
///
/// ```
/// use quiltpath_core::{io::dxf_read::read_dxf, units::Unit};
///
/// let dxf = b"0\nSECTION\n2\nENTITIES\n0\nLINE\n8\nleaf\n10\n0\n20\n0\n11\n2\n21\n1\n0\nENDSEC\n0\nEOF\n";
/// let drawing = read_dxf(dxf, Some(Unit::In))?;
/// assert_eq!(drawing.paths[0].layer, "leaf");
/// assert_eq!(drawing.paths[0].path.to_svg(), "M0,0 L50.8,-25.4");
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A drawing error, with its row where there is one: the file is empty, binary, cut off or no DXF;
/// a number is missing or malformed; a spline is none; a coordinate is not finite or beyond
/// [`crate::geom::MAX_COORDINATE`]; a block is inserted in itself; a limit is passed; nothing is
/// drawn.
///
/// # Complexity
///
/// O(bytes read + segments), where an entity counts each time its block is inserted.
pub fn read_dxf(bytes: &[u8], unit: Option<Unit>) -> Result<DxfDrawing, Error> {
    read_dxf_layers(bytes, unit, &[])
}

/// As [`read_dxf`], but only what is on the layers of these names, in any case. Without names
/// everything is read. What a block has on layer 0 is on the layer that the block is inserted on.
///
/// # Errors
///
/// As [`read_dxf`], and where the file has no layer of one of the names.
pub fn read_dxf_layers(
    bytes: &[u8],
    unit: Option<Unit>,
    layers: &[String],
) -> Result<DxfDrawing, Error> {
    let text = text::text(bytes)?;
    let file::File {
        unit: code,
        system,
        layers: found,
        blocks,
        entities,
    } = file::File::read(&text)?;
    let chosen = found.chosen(layers)?;
    let named = code.and_then(scale::unit);
    let assumed = named.is_none() && unit.is_none();
    let guess = if system == Some(0) {
        Unit::In
    } else {
        Unit::Mm
    };
    let (factor, unit) = named.unwrap_or_else(|| {
        let unit = unit.unwrap_or(guess);
        (unit.in_mm(), unit)
    });
    let around = walk::Around {
        to_mm: Transform::scale(factor, -factor),
        layer: layers::ZERO,
    };
    let mut walk = walk::Walk::new(&found, &blocks, chosen);
    for entity in entities {
        walk.entity(&entity, around)?;
    }
    let walk::Walk { drawn, notes, .. } = walk;
    let mut notes = notes.into_words();
    if drawn.is_empty() {
        return Err(match notes.is_empty() {
            true => DxfFault::NothingDrawn.into(),
            false => DrawingFault::AllSkipped { notes }.into(),
        });
    }
    if assumed {
        let boxes = drawn.iter().filter_map(|drawn| curve_bounds(&drawn.path));
        notes.push(assumption(
            unit,
            code,
            boxes.reduce(|one, other| one.union(&other)),
        ));
    }
    let paths = drawn.into_iter().map(|drawn| DxfPath {
        id: drawn.id,
        layer: found[drawn.layer].name.clone(),
        path: drawn.path,
        position: Position {
            row: drawn.row,
            column: 1,
        },
    });
    Ok(DxfDrawing {
        paths: paths.collect(),
        notes,
        unit,
        unit_assumed: assumed,
    })
}

/// The note on a unit that is a guess.
fn assumption(unit: Unit, code: Option<i64>, bounds: Option<Bounds>) -> String {
    let why = match code {
        None | Some(0) => "the file names no unit ($INSUNITS)".to_owned(),
        Some(code) => format!("the unit {code} that the file names ($INSUNITS) is none for quilts"),
    };
    let size = bounds.map_or_else(String::new, |bounds| {
        let [inches, metric] = [Unit::In, Unit::Mm].map(|unit| {
            let [width, height] = [bounds.width(), bounds.height()].map(|mm| unit.precise(mm));
            format!("{width} x {height}")
        });
        format!(", which makes what is drawn {inches} ({metric})")
    });
    format!("{why}: 1 is taken as 1 {unit}{size}; give the unit if it is another")
}

/// True for what begins as a DXF, in its ASCII or its binary form.
#[cfg(feature = "json")]
pub(super) fn is_dxf(bytes: &[u8]) -> bool {
    const COMMENTS: usize = 1000;
    if bytes.starts_with(text::BINARY) {
        return true;
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    // A drawing in another format may be one long row.
    if !matches!(bytes.trim_ascii_start(), [b'0' | b'9', ..]) {
        return false;
    }
    let mut rows = bytes.split(|byte| *byte == b'\n').map(<[u8]>::trim_ascii);
    let mut row = || rows.next();
    for _ in 0..COMMENTS {
        match row() {
            Some(b"0") => return row() == Some(b"SECTION"),
            Some(b"999") => {
                row();
            }
            _ => return false,
        }
    }
    false
}

impl DxfDrawing {
    /// The smallest box, in millimetres, that holds the curves themselves, not their controls.
    ///
    /// `None` when no path has a segment, which no drawing read from a file is.
    ///
    /// # Complexity
    ///
    /// O(segments).
    #[must_use]
    pub fn bounds(&self) -> Option<Bounds> {
        let boxes = self
            .paths
            .iter()
            .filter_map(|drawn| curve_bounds(&drawn.path));
        boxes.reduce(|one, other| one.union(&other))
    }

    /// The strokes in millimetres, as a drawing of this name.
    #[must_use]
    pub fn into_drawing(self, name: impl Into<String>) -> Drawing {
        let strokes = self.paths.into_iter().map(DxfPath::into_stroke);
        Drawing::new(name, strokes.collect())
    }
}

impl DxfPath {
    pub(super) fn into_stroke(self) -> Stroke {
        Stroke::new(self.id, self.path).with_position(self.position)
    }
}

#[cfg(test)]
mod tests;
