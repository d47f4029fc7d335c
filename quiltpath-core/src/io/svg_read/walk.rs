//! Walks the tree as a renderer would, following `use`, and draws each visible shape.

use std::collections::HashMap;

use kurbo::BezPath;
use roxmltree::{Document, Node, NodeId};
use svgtypes::{TransformListParser, TransformListToken};

use super::intake::SVG;
use super::length::{Axis, Viewport, extent, length};
use super::limits::{MAX_DEPTH, MAX_DRAWN, MAX_READ, MAX_SEGMENTS, MAX_VISITED};
use super::notes::{Note, Notes};
use super::pen::Pen;
use super::place::{Flaw, position};
use super::shapes;
use super::size::{self, InnerPlace};
use super::style::Sheet;
use crate::error::{DrawingFault, Error};
use crate::transform::Transform;

/// A path as drawn, with the byte of the file where its element starts.
pub(super) struct Drawn {
    pub(super) id: String,
    pub(super) title: Option<String>,
    pub(super) path: BezPath,
    pub(super) offset: usize,
}

/// What an element takes from the elements round it.
#[derive(Clone, Copy)]
struct Around {
    to_mm: Transform,
    viewport: Viewport,
    visible: bool,
    depth: usize,
}

pub(super) struct Walk<'a, 'input> {
    document: &'a Document<'input>,
    sheet: Sheet<'a>,
    ids: HashMap<&'a str, NodeId>,
    /// The targets of the `use` elements that led here.
    followed: Vec<NodeId>,
    visited: usize,
    read: usize,
    segments: usize,
    pub(super) drawn: Vec<Drawn>,
    pub(super) notes: Notes,
}

impl<'a, 'input> Walk<'a, 'input> {
    pub(super) fn new(document: &'a Document<'input>) -> Self {
        let mut ids = HashMap::new();
        for node in document.descendants().filter(Node::is_element) {
            if let Some(id) = node.attribute("id") {
                ids.entry(id).or_insert(node.id());
            }
        }
        Self {
            document,
            sheet: Sheet::of(document),
            ids,
            followed: Vec::new(),
            visited: 0,
            read: 0,
            segments: 0,
            drawn: Vec::new(),
            notes: Notes::default(),
        }
    }

    /// Draws everything inside the root.
    pub(super) fn draw(&mut self, root: &size::Root) -> Result<(), Error> {
        let svg = self.document.root_element();
        let look = self.sheet.look(svg)?;
        if svg.has_attribute("transform") || look.moved {
            self.notes.add(Note::RootTransform, "");
        }
        if look.gone {
            return Ok(());
        }
        let around = Around {
            to_mm: root.to_mm,
            viewport: root.viewport,
            visible: look.visible.unwrap_or(true),
            depth: 0,
        };
        self.children(svg, &around)
    }

    fn children(&mut self, node: Node<'a, 'input>, around: &Around) -> Result<(), Error> {
        for child in node.children() {
            self.visited += 1;
            if self.visited > MAX_VISITED {
                return Err(too_many(
                    child,
                    "elements, counted each time they are used",
                    MAX_VISITED,
                ));
            }
            if child.is_element() {
                self.element(child, around, None)?;
            }
        }
        Ok(())
    }

    /// Draws an element; `used` holds the size that a `use` asks for, when one led here.
    fn element(
        &mut self,
        node: Node<'a, 'input>,
        outer: &Around,
        used: Option<[Option<f64>; 2]>,
    ) -> Result<(), Error> {
        let tag = node.tag_name();
        let name = tag.name();
        let container = matches!(name, "g" | "a" | "svg" | "switch" | "use")
            || (name == "symbol" && used.is_some());
        let noted = match name {
            "text" => Some(Note::Text),
            "image" => Some(Note::Image),
            "foreignObject" => Some(Note::ForeignObject),
            _ => None,
        };
        let known = container || noted.is_some() || shapes::is_shape(name);
        if !known || !matches!(tag.namespace(), None | Some(SVG)) {
            return Ok(());
        }
        let Some(around) = self.enter(node, outer)? else {
            return Ok(());
        };
        match (name, noted) {
            (_, Some(note)) if around.visible => self.notes.add(note, ""),
            ("g" | "a", _) => self.children(node, &around)?,
            ("svg" | "symbol", _) => {
                let inside = viewport(node, &around, used)?;
                self.children(node, &inside)?;
            }
            ("switch", _) => self.switch(node, &around)?,
            ("use", _) => self.follow(node, &around)?,
            (_, None) if around.visible => self.shape(node, &around)?,
            _ => {}
        }
        Ok(())
    }

    /// What the inside of an element takes from it; `None` when it is not drawn.
    fn enter(&mut self, node: Node<'a, 'input>, outer: &Around) -> Result<Option<Around>, Error> {
        let depth = outer.depth + 1;
        if depth > MAX_DEPTH {
            return Err(at_node(
                node,
                DrawingFault::TooDeep { limit: MAX_DEPTH }.into(),
            ));
        }
        self.read += node.attributes().map(|a| a.value().len()).sum::<usize>();
        if self.read > MAX_READ {
            return Err(too_many(
                node,
                "bytes of attributes, counted each time they are used",
                MAX_READ,
            ));
        }
        let look = self
            .sheet
            .look(node)
            .map_err(|error| at_node(node, error))?;
        if look.gone {
            return Ok(None);
        }
        if look.moved {
            self.notes.add(Note::MovedByStyle, "");
        }
        if ["clip-path", "mask"]
            .iter()
            .any(|name| node.attribute(*name).is_some_and(|v| v != "none"))
        {
            self.notes.add(Note::Clipped, "");
        }
        let to_mm = transform(node, outer.to_mm)?;
        let visible = look.visible.unwrap_or(outer.visible);
        if to_mm.determinant() == 0.0 {
            self.notes.add(Note::Flattened, "");
            return Ok(None);
        }
        Ok(Some(Around {
            to_mm,
            visible,
            depth,
            ..*outer
        }))
    }

    /// Draws the first child that is meant for every reader.
    ///
    /// Drawing programs wrap whole files in a `switch` between private data and the plain SVG.
    fn switch(&mut self, node: Node<'a, 'input>, around: &Around) -> Result<(), Error> {
        self.notes.add(Note::Switch, "");
        let plain = |child: &Node<'_, '_>| {
            child.is_element()
                && !["requiredExtensions", "requiredFeatures", "systemLanguage"]
                    .iter()
                    .any(|name| child.has_attribute(*name))
        };
        match node.children().find(plain) {
            Some(child) => self.element(child, around, None),
            None => Ok(()),
        }
    }

    fn follow(&mut self, node: Node<'a, 'input>, around: &Around) -> Result<(), Error> {
        const XLINK: &str = "http://www.w3.org/1999/xlink";
        let Some(link) = node
            .attribute("href")
            .or_else(|| node.attribute((XLINK, "href")))
        else {
            return Ok(());
        };
        let target = link
            .trim()
            .strip_prefix('#')
            .and_then(|id| self.ids.get(id))
            .and_then(|&id| self.document.get_node(id));
        let Some(target) = target else {
            self.notes.add(Note::MissingTarget, link);
            return Ok(());
        };
        if self.followed.contains(&target.id()) {
            let id = target.attribute("id").unwrap_or_default().to_owned();
            return Err(at_node(node, DrawingFault::UseCycle { id }.into()));
        }
        let x = length(node, "x", Axis::Width, around.viewport)?.unwrap_or(0.0);
        let y = length(node, "y", Axis::Height, around.viewport)?.unwrap_or(0.0);
        let size = [
            extent(node, "width", Axis::Width, around.viewport)?,
            extent(node, "height", Axis::Height, around.viewport)?,
        ];
        let to_mm = Transform::translate(x, y).then(around.to_mm);
        self.followed.push(target.id());
        let result = self.element(target, &Around { to_mm, ..*around }, Some(size));
        self.followed.pop();
        result
    }

    fn shape(&mut self, node: Node<'a, 'input>, around: &Around) -> Result<(), Error> {
        let id = match node.attribute("id").filter(|id| !id.is_empty()) {
            Some(id) => id.to_owned(),
            None => format!("{} {}", node.tag_name().name(), self.drawn.len() + 1),
        };
        let mut pen = Pen::new(&around.to_mm);
        shapes::draw(node, around.viewport, &mut pen).map_err(|e| e.in_element(&*id))?;
        let path = pen.finish().map_err(|value| {
            let limit = crate::geom::MAX_COORDINATE;
            at_node(node, DrawingFault::TooFar { value, limit }.into()).in_element(&*id)
        })?;
        if path.elements().is_empty() {
            return Ok(());
        }
        self.segments += path.elements().len();
        if self.segments > MAX_SEGMENTS {
            return Err(too_many(node, "segments", MAX_SEGMENTS));
        }
        if self.drawn.len() == MAX_DRAWN {
            return Err(too_many(node, "paths", MAX_DRAWN));
        }
        self.drawn.push(Drawn {
            id,
            title: title(node),
            path,
            offset: node.range().start,
        });
        Ok(())
    }
}

/// The text of the title, which the standard wants first inside its element.
fn title(node: Node<'_, '_>) -> Option<String> {
    const NEAR: usize = 8;
    let title = node.children().take(NEAR).find(|child| {
        child.tag_name().name() == "title"
            && matches!(child.tag_name().namespace(), None | Some(SVG))
    })?;
    let text = title.text()?.trim();
    (!text.is_empty()).then(|| text.to_owned())
}

/// The inside of a nested `svg` or of a used `symbol`.
fn viewport(
    node: Node<'_, '_>,
    around: &Around,
    used: Option<[Option<f64>; 2]>,
) -> Result<Around, Error> {
    let [used_width, used_height] = used.unwrap_or_default();
    let outer = around.viewport;
    let frame = InnerPlace {
        x: length(node, "x", Axis::Width, outer)?.unwrap_or(0.0),
        y: length(node, "y", Axis::Height, outer)?.unwrap_or(0.0),
        width: match used_width {
            Some(width) => Some(width),
            None => extent(node, "width", Axis::Width, outer)?.or(outer.map(|size| size.0)),
        },
        height: match used_height {
            Some(height) => Some(height),
            None => extent(node, "height", Axis::Height, outer)?.or(outer.map(|size| size.1)),
        },
    };
    let (map, viewport) = size::inner(node, frame)?;
    let to_mm = map.then(around.to_mm);
    Ok(Around {
        to_mm,
        viewport,
        ..*around
    })
}

/// The attribute `transform` (SVG 2, section 8.5), then the map that applies round it.
fn transform(node: Node<'_, '_>, outer: Transform) -> Result<Transform, Error> {
    let Some(attribute) = node.attribute_node("transform") else {
        return Ok(outer);
    };
    let value = attribute.value();
    let mut whole = outer;
    for token in TransformListParser::from(value) {
        let one = match token
            .map_err(|fault| transform_flaw(value, &fault).locate(node, &attribute))?
        {
            TransformListToken::Matrix { a, b, c, d, e, f } => Transform::new([a, b, c, d, e, f]),
            TransformListToken::Translate { tx, ty } => Transform::translate(tx, ty),
            TransformListToken::Scale { sx, sy } => Transform::scale(sx, sy),
            TransformListToken::Rotate { angle } => Transform::rotate_degrees(angle),
            TransformListToken::SkewX { angle } => {
                Transform::new([1.0, 0.0, angle.to_radians().tan(), 1.0, 0.0, 0.0])
            }
            TransformListToken::SkewY { angle } => {
                Transform::new([1.0, angle.to_radians().tan(), 0.0, 1.0, 0.0, 0.0])
            }
        };
        whole = one.then(whole);
    }
    if whole.coefficients().iter().all(|value| value.is_finite()) {
        Ok(whole)
    } else {
        let why = "its numbers and those of the transforms round it are too large together";
        Err(Flaw::refused(0, why).locate(node, &attribute))
    }
}

/// The place of a fault of the transform parser, which counts characters from 1.
fn transform_flaw(value: &str, fault: &svgtypes::Error) -> Flaw {
    use svgtypes::Error as Svg;
    let (place, what) = match fault {
        Svg::InvalidNumber(place) => (*place, "a number"),
        Svg::InvalidChar(_, place) => (*place, "a bracket"),
        Svg::UnexpectedData(place) | Svg::InvalidString(_, place) => {
            (*place, "matrix, translate, scale, rotate, skewX or skewY")
        }
        _ => (usize::MAX, "a bracket or a number"),
    };
    let at = value.char_indices().nth(place.saturating_sub(1));
    Flaw::expected(at.map_or(value.len(), |(at, _)| at), what)
}

fn at_node(node: Node<'_, '_>, error: Error) -> Error {
    let place = position(node.document().input_text(), node.range().start);
    error.at(place.row, place.column)
}

fn too_many(node: Node<'_, '_>, what: &'static str, limit: usize) -> Error {
    at_node(node, DrawingFault::TooMany { what, limit }.into())
}
