//! Drawings that can't be read.

use std::fmt;

use super::dxf::DxfFault;

/// What is wrong with a drawing, SVG where nothing else is said, or with what is to be drawn.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum DrawingFault {
    /// The file has nothing in it.
    Empty,
    /// The file is not text in its encoding.
    NotText {
        /// The encoding, such as `UTF-8`.
        encoding: &'static str,
    },
    /// The file says that it is in an encoding that is not known.
    UnknownEncoding {
        /// What it says.
        name: String,
    },
    /// The file is compressed by gzip, and damaged or cut off.
    BadGzip,
    /// The file is compressed and unfolds to too much.
    Unpacked {
        /// The most, in mebibytes.
        limit: u64,
    },
    /// The file is not well-formed XML.
    NotXml {
        /// What the XML reader found.
        reason: String,
    },
    /// The outermost element is not `svg`.
    NotSvg {
        /// Its name.
        root: String,
    },
    /// An attribute can't be read.
    BadAttribute {
        /// The name of the element.
        element: String,
        /// The name of the attribute.
        attribute: String,
        /// Its value.
        value: String,
        /// What is wrong with it.
        reason: String,
    },
    /// Nothing is drawn.
    NothingDrawn,
    /// Nothing is drawn, since all of it was skipped.
    AllSkipped {
        /// What was skipped and why, one sentence each.
        notes: Vec<String>,
    },
    /// Nothing in the drawing has the name of a layer.
    NoLayer {
        /// The name.
        name: String,
        /// The names of the groups that there are, at most 20.
        layers: Vec<String>,
    },
    /// An entity holds elements or refers to another.
    MarkupInEntity,
    /// The entities would unfold to too much text.
    EntityText {
        /// The largest number of bytes.
        limit: usize,
    },
    /// A point lies too far out.
    TooFar {
        /// Its coordinate in millimetres.
        value: f64,
        /// The largest magnitude in millimetres.
        limit: f64,
    },
    /// Elements are nested too deep.
    TooDeep {
        /// The greatest depth.
        limit: usize,
    },
    /// There is too much of something.
    TooMany {
        /// What there is too much of, such as `points`.
        what: &'static str,
        /// The largest number.
        limit: usize,
    },
    /// A `use` leads back to itself.
    UseCycle {
        /// The id that it refers to.
        id: String,
    },
    /// A DXF drawing can't be read.
    Dxf(DxfFault),
}

impl fmt::Display for DrawingFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(
                f,
                "the file is empty; give an SVG drawing with at least one path"
            ),
            Self::NotText { encoding } => write!(
                f,
                "the file is not {encoding} text; save the drawing as plain SVG in UTF-8"
            ),
            Self::UnknownEncoding { name } => write!(
                f,
                "the encoding \"{name}\" that the file names is not known; save the drawing as UTF-8, which is what SVG programs write by default"
            ),
            Self::BadGzip => write!(
                f,
                "the file is gzip-compressed (.svgz), but damaged or cut off; save the drawing again"
            ),
            Self::Unpacked { limit } => write!(
                f,
                "the file is gzip-compressed (.svgz) and unfolds to more than {limit} MiB; split the drawing into several files"
            ),
            Self::NotXml { reason } => write!(
                f,
                "not a readable SVG: {reason}; save the drawing again as plain SVG"
            ),
            Self::NotSvg { root } => write!(
                f,
                "the outermost element is <{root}>; an SVG drawing starts with <svg xmlns=\"http://www.w3.org/2000/svg\">"
            ),
            Self::BadAttribute {
                element,
                attribute,
                value,
                reason,
            } => write!(f, "{attribute}=\"{value}\" of <{element}>: {reason}"),
            Self::NothingDrawn => write!(
                f,
                "nothing is drawn; give a drawing with at least one path, line, polyline, polygon, rect, circle or ellipse"
            ),
            Self::AllSkipped { notes } => {
                write!(
                    f,
                    "nothing is drawn that can be stitched: {}",
                    notes.join("; ")
                )
            }
            Self::NoLayer { name, layers } => {
                write!(f, "no group has the id or the label \"{name}\"; ")?;
                match layers.as_slice() {
                    [] => write!(f, "the drawing has no groups with names"),
                    _ => {
                        let names: Vec<_> = layers.iter().map(|one| format!("\"{one}\"")).collect();
                        write!(f, "there are {}", names.join(", "))
                    }
                }
            }
            Self::MarkupInEntity => write!(
                f,
                "an entity holds elements or refers to another entity; save the drawing as plain SVG without entities"
            ),
            Self::EntityText { limit } => write!(
                f,
                "the entities would unfold to more than {limit} bytes; save the drawing as plain SVG without entities"
            ),
            Self::TooFar { value, limit } => write!(
                f,
                "a point lies at {value:.2e} mm; coordinates may go from -{limit:e} mm to {limit:e} mm, so check the numbers, the transforms and the viewBox"
            ),
            Self::TooDeep { limit } => write!(
                f,
                "elements are nested more than {limit} deep; ungroup the drawing and save it again"
            ),
            Self::TooMany { what, limit } => write!(
                f,
                "more than {limit} {what}; split the drawing into several files"
            ),
            Self::UseCycle { id } => write!(
                f,
                "<use> of \"{id}\" leads back to itself; remove the circular reference"
            ),
            Self::Dxf(fault) => fault.fmt(f),
        }
    }
}
