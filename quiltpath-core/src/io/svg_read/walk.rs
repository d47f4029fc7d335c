//! Walks the tree as a renderer would, following `use`, and draws each visible shape.

use std::collections::HashMap;

use kurbo::BezPath;
use roxmltree::{Document, Node, NodeId};

use super::element::{at_node, fill_box, is_clipped, is_visible, title, too_many, unescaped};
use super::frame::{Frame, on_page};
use super::intake::SVG;
use super::layers;
use super::length::{Axis, Measured, Room, drop_unreadable, extent, length, needs_a_font};
use super::limits::{MAX_DEPTH, MAX_READ};
use super::moves;
use super::notes::{Note, Notes};
use super::paint::Paint;
use super::shapes;
use super::size::{self, InnerPlace};
use super::style::{Look, Sheet};
use crate::error::{DrawingFault, Error};
use crate::geom::{Bounds, Point};
use crate::io::limits::{MAX_DRAWN, MAX_SEGMENTS, MAX_VISITED};
use crate::io::pen::Pen;
use crate::transform::Transform;

/// How many frames round a shape are looked at, so that nesting costs no more than that.
const MAX_FRAMES: usize = 8;

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
    room: Room,
    paint: Paint,
    visible: bool,
    /// Whether it is in a layer that is read.
    chosen: bool,
    /// The frame that cuts it off.
    frame: Option<usize>,
    depth: usize,
}

pub(super) struct Walk<'a, 'input> {
    document: &'a Document<'input>,
    sheet: &'a Sheet,
    layers: &'a [String],
    ids: HashMap<&'a str, NodeId>,
    /// The targets of the `use` elements that led here.
    followed: Vec<NodeId>,
    frames: Vec<Frame>,
    page: Option<Bounds>,
    visited: usize,
    read: usize,
    segments: usize,
    pub(super) drawn: Vec<Drawn>,
    pub(super) notes: Notes,
}

impl<'a, 'input> Walk<'a, 'input> {
    /// A walk that reads what is in these layers, or everything where there are none.
    pub(super) fn new(
        document: &'a Document<'input>,
        sheet: &'a Sheet,
        layers: &'a [String],
        notes: Notes,
    ) -> Self {
        let mut ids = HashMap::new();
        for node in document.descendants().filter(Node::is_element) {
            if let Some(id) = node.attribute("id") {
                ids.entry(id).or_insert(node.id());
            }
        }
        Self {
            document,
            sheet,
            layers,
            ids,
            followed: Vec::new(),
            frames: Vec::new(),
            page: None,
            visited: 0,
            read: 0,
            segments: 0,
            drawn: Vec::new(),
            notes,
        }
    }

    /// Draws everything inside the root.
    pub(super) fn draw(&mut self, root: &size::Root, look: &Look<'_>) -> Result<(), Error> {
        let svg = self.document.root_element();
        let moved = ["transform", "translate", "rotate", "scale"];
        if svg.has_attribute("transform") || moved.iter().any(|name| look.styled(name).is_some()) {
            self.notes.add(Note::RootTransform, "");
        }
        if look.is("display", "none") {
            self.notes.add(Note::NotDisplayed, "");
            return Ok(());
        }
        if is_clipped(look) {
            self.notes.add(Note::Clipped, "");
        }
        self.page = root.page;
        let around = Around {
            to_mm: root.to_mm,
            room: root.room,
            paint: Paint::initial().within(look),
            visible: is_visible(look).unwrap_or(true),
            chosen: self.layers.is_empty() || layers::is_named(svg, self.layers),
            frame: None,
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
        let Some((around, look)) = self.enter(node, outer)? else {
            return Ok(());
        };
        let of = Measured {
            node,
            look: &look,
            room: around.room,
        };
        match (name, noted) {
            (_, Some(note)) => {
                if around.visible && around.chosen {
                    self.notes.add(note, "");
                }
            }
            ("g" | "a", _) => self.children(node, &around)?,
            ("svg" | "symbol", _) => {
                let inside = self.viewport(of, &around, used)?;
                self.children(node, &inside)?;
            }
            ("switch", _) => self.switch(node, &around)?,
            ("use", _) => self.follow(of, &around)?,
            _ if !around.chosen => {}
            _ if !around.visible => self.notes.add(Note::Hidden, ""),
            _ if !around.paint.is_seen() => self.notes.add(Note::Unpainted, ""),
            _ => self.shape(of, &around)?,
        }
        Ok(())
    }

    /// What the inside of an element takes from it; `None` when it is not drawn.
    fn enter(
        &mut self,
        node: Node<'a, 'input>,
        outer: &Around,
    ) -> Result<Option<(Around, Look<'a>)>, Error> {
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
                "bytes of attributes and titles, counted each time they are used",
                MAX_READ,
            ));
        }
        let sheet = self.sheet;
        let mut look = sheet.look(node).map_err(|error| at_node(node, error))?;
        let chosen = outer.chosen || layers::is_named(node, self.layers);
        let mut note = |note: Note, example: &str| {
            if chosen {
                self.notes.add(note, example);
            }
        };
        if look.is("display", "none") {
            note(Note::NotDisplayed, "");
            return Ok(None);
        }
        let room = outer.room.with_font(&look);
        if let Some(value) = drop_unreadable(&mut look, room) {
            note(Note::BadProperty, &value);
        }
        if needs_a_font(node) {
            note(Note::FontLength, "");
        }
        if is_clipped(&look) {
            note(Note::Clipped, "");
        }
        let of = Measured {
            node,
            look: &look,
            room,
        };
        let own = moves::own(node, &look, room, || fill_box(of))?;
        if let Some(value) = own.unapplied {
            note(Note::Unmoved, &value);
        }
        let to_mm = own.own.then(outer.to_mm);
        if !to_mm.coefficients().iter().all(|value| value.is_finite()) {
            return Err(moves::too_large(node));
        }
        if to_mm.determinant() == 0.0 {
            note(Note::Flattened, "");
            return Ok(None);
        }
        let around = Around {
            to_mm,
            room,
            paint: outer.paint.within(&look),
            visible: is_visible(&look).unwrap_or(outer.visible),
            chosen,
            depth,
            ..*outer
        };
        Ok(Some((around, look)))
    }

    /// Draws the first child that is meant for every reader.
    ///
    /// Drawing programs wrap whole files in a `switch` between private data and the plain SVG.
    fn switch(&mut self, node: Node<'a, 'input>, around: &Around) -> Result<(), Error> {
        if around.chosen {
            self.notes.add(Note::Switch, "");
        }
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

    fn follow(&mut self, of: Measured<'_, 'a, 'input>, around: &Around) -> Result<(), Error> {
        const XLINK: &str = "http://www.w3.org/1999/xlink";
        let node = of.node;
        let Some(link) = node
            .attribute("href")
            .or_else(|| node.attribute((XLINK, "href")))
        else {
            return Ok(());
        };
        let target = link.trim().strip_prefix('#').and_then(|id| {
            let plain = self.ids.get(id).copied();
            plain.or_else(|| self.ids.get(unescaped(id)?.as_str()).copied())
        });
        let Some(target) = target.and_then(|id| self.document.get_node(id)) else {
            if around.chosen {
                self.notes.add(Note::MissingTarget, link);
            }
            return Ok(());
        };
        if self.followed.contains(&target.id()) {
            let id = target.attribute("id").unwrap_or_default().to_owned();
            return Err(at_node(node, DrawingFault::UseCycle { id }.into()));
        }
        let x = length(of, "x", Axis::Width)?.unwrap_or(0.0);
        let y = length(of, "y", Axis::Height)?.unwrap_or(0.0);
        let size = [
            extent(of, "width", Axis::Width)?,
            extent(of, "height", Axis::Height)?,
        ];
        let to_mm = Transform::translate(x, y).then(around.to_mm);
        self.followed.push(target.id());
        let result = self.element(target, &Around { to_mm, ..*around }, Some(size));
        self.followed.pop();
        result
    }

    fn shape(&mut self, of: Measured<'_, 'a, 'input>, around: &Around) -> Result<(), Error> {
        let node = of.node;
        let id = match node.attribute("id").filter(|id| !id.is_empty()) {
            Some(id) => id.to_owned(),
            None => format!("{} {}", node.tag_name().name(), self.drawn.len() + 1),
        };
        let mut pen = Pen::new(&around.to_mm);
        shapes::draw(of, &mut pen).map_err(|e| e.in_element(&*id))?;
        let (path, dots) = pen.finish_counting().map_err(|value| {
            let limit = crate::geom::MAX_COORDINATE;
            at_node(node, DrawingFault::TooFar { value, limit }.into()).in_element(&*id)
        })?;
        if dots > 0 {
            self.notes.add(Note::Dot, "");
        }
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
        if around.paint.is_dashed() {
            self.notes.add(Note::Dashed, "");
        }
        let page = self.page.filter(|_| around.paint.fills());
        if let Some(note) = page.and_then(|page| on_page(&path, &page)) {
            self.notes.add(note, "");
        }
        let frames = std::iter::successors(around.frame, |&at| self.frames[at].outer);
        if frames
            .take(MAX_FRAMES)
            .any(|at| self.frames[at].cuts(&path))
        {
            self.notes.add(Note::Overflow, "");
        }
        let title = title(node);
        self.read += title.as_deref().map_or(0, str::len);
        self.drawn.push(Drawn {
            id,
            title,
            path,
            offset: node.range().start,
        });
        Ok(())
    }

    /// The inside of a nested `svg` or of a used `symbol`.
    fn viewport(
        &mut self,
        of: Measured<'_, 'a, 'input>,
        around: &Around,
        used: Option<[Option<f64>; 2]>,
    ) -> Result<Around, Error> {
        let node = of.node;
        let outer = around.room.size;
        let [used_width, used_height] = used.unwrap_or_default();
        let place = InnerPlace {
            x: length(of, "x", Axis::Width)?.unwrap_or(0.0),
            y: length(of, "y", Axis::Height)?.unwrap_or(0.0),
            width: match used_width {
                Some(width) => Some(width),
                None => extent(of, "width", Axis::Width)?.or(outer.map(|size| size.0)),
            },
            height: match used_height {
                Some(height) => Some(height),
                None => extent(of, "height", Axis::Height)?.or(outer.map(|size| size.1)),
            },
        };
        if around.chosen
            && ["refX", "refY"]
                .iter()
                .any(|name| node.has_attribute(*name))
        {
            self.notes.add(Note::RefPoint, "");
        }
        let (map, size) = size::inner(node, place)?;
        let mut inside = Around {
            to_mm: map.then(around.to_mm),
            room: Room {
                size,
                ..around.room
            },
            ..*around
        };
        let shown = of.look.is("overflow", "visible") || of.look.is("overflow", "auto");
        if let (false, Some(width), Some(height)) = (shown, place.width, place.height) {
            let corner = Point::new(place.x, place.y);
            let far = Point::new(place.x + width, place.y + height);
            let frame = Bounds::of([corner, far])
                .and_then(|shown| Frame::new(shown, &around.to_mm, around.frame));
            if let Some(frame) = frame {
                inside.frame = Some(self.frames.len());
                self.frames.push(frame);
            }
        }
        Ok(inside)
    }
}
