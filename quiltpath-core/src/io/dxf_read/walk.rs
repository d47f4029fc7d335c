//! Draws what is shown and chosen of the entities, following inserted blocks, in millimetres, y
//! down.

use kurbo::{BezPath, PathEl, Point};

use super::file::{Blocks, Entity, Insert, What, kind};
use super::layers::{Layers, ZERO};
use super::limits::MAX_DEPTH;
use super::notes::{Note, Notes};
use crate::error::{DrawingFault, DxfFault, Error};
use crate::geom::MAX_COORDINATE;
use crate::io::limits::{MAX_DRAWN, MAX_SEGMENTS, MAX_VISITED};
use crate::transform::Transform;

/// A path as drawn, with the row of its entity.
pub(super) struct Drawn {
    pub(super) id: String,
    pub(super) layer: usize,
    pub(super) path: BezPath,
    pub(super) row: u32,
}

/// What an entity takes from the inserted blocks that it stands in.
#[derive(Clone, Copy)]
pub(super) struct Around {
    pub(super) to_mm: Transform,
    /// The layer of the block that it stands in, which it has where its own is 0.
    pub(super) layer: usize,
}

pub(super) struct Walk<'a> {
    layers: &'a Layers,
    blocks: &'a Blocks<'a>,
    /// Which layers are read.
    chosen: Vec<bool>,
    /// The blocks that led here.
    followed: Vec<usize>,
    visited: usize,
    segments: usize,
    pub(super) drawn: Vec<Drawn>,
    pub(super) notes: Notes,
}

impl<'a> Walk<'a> {
    pub(super) fn new(layers: &'a Layers, blocks: &'a Blocks<'a>, chosen: Vec<bool>) -> Self {
        Self {
            layers,
            blocks,
            chosen,
            followed: Vec::new(),
            visited: 0,
            segments: 0,
            drawn: Vec::new(),
            notes: Notes::default(),
        }
    }

    /// Draws an entity and what it inserts.
    pub(super) fn entity(&mut self, entity: &Entity<'_>, around: Around) -> Result<(), Error> {
        self.visit(entity)?;
        let layer = match entity.layer {
            ZERO => around.layer,
            own => own,
        };
        // What a block holds may be on other layers than the block.
        let inserts = matches!(entity.what, What::Insert(_));
        if !self.chosen[layer] && !inserts {
            return Ok(());
        }
        let shown = &self.layers[layer];
        // A layer that is off hides what is on it; one that is frozen, all that is inserted on it,
        // too.
        let unseen = if entity.paper {
            Some((Note::Paper, ""))
        } else if entity.hidden {
            Some((Note::Invisible, ""))
        } else if shown.frozen || shown.off && !inserts {
            Some((Note::LayerOff, shown.name.as_str()))
        } else {
            None
        };
        if let Some((note, example)) = unseen {
            if self.chosen[layer] {
                self.notes.add(note, example);
            }
            return Ok(());
        }
        match &entity.what {
            What::Path(path, notes) => {
                for note in notes {
                    self.notes.add(*note, "");
                }
                if path.elements().is_empty() {
                    return Ok(());
                }
                if entity.dashed || shown.dashed {
                    self.notes.add(Note::Dashed, "");
                }
                self.path(entity, layer, path, &around.to_mm)
            }
            What::Insert(insert) => {
                let inside = Around { layer, ..around };
                self.insert(entity, insert, inside)
            }
            What::Undrawn(note) => {
                self.notes.add(*note, "");
                Ok(())
            }
            What::Other => {
                self.notes.skip(&kind(entity));
                Ok(())
            }
        }
    }

    /// Counts one more step of the walk.
    fn visit(&mut self, entity: &Entity<'_>) -> Result<(), Error> {
        self.visited += 1;
        match self.visited > MAX_VISITED {
            true => Err(too_many(
                entity,
                "entities, counted each time their block is inserted",
                MAX_VISITED,
            )),
            false => Ok(()),
        }
    }

    fn insert(
        &mut self,
        entity: &Entity<'_>,
        insert: &Insert<'_>,
        around: Around,
    ) -> Result<(), Error> {
        let blocks = self.blocks;
        let Some(place) = blocks.place(insert.block) else {
            if self.chosen[around.layer] {
                self.notes.add(Note::MissingBlock, insert.block);
            }
            return Ok(());
        };
        let block = &blocks.all[place];
        if self.followed.contains(&place) {
            let block = block.name.clone();
            return Err(at(entity, DxfFault::InsertCycle { block }.into()));
        }
        if self.followed.len() == MAX_DEPTH {
            let limit = MAX_DEPTH;
            return Err(at(entity, DxfFault::TooDeep { limit }.into()));
        }
        let [x, y] = block.base;
        let own =
            Transform::translate(-x, -y).then(Transform::scale(insert.scale[0], insert.scale[1]));
        let placed = insert.place.then(around.to_mm);
        let whole = own.then(placed);
        if !whole.coefficients().iter().all(|value| value.is_finite()) {
            return Err(too_far(entity, f64::INFINITY));
        }
        if whole.determinant() == 0.0 {
            if self.chosen[around.layer] {
                self.notes.add(Note::Flattened, "");
            }
            return Ok(());
        }
        for note in &insert.notes {
            self.notes.add(*note, "");
        }
        self.followed.push(place);
        for row in 0..insert.rows {
            for column in 0..insert.columns {
                self.visit(entity)?;
                let [across, up] = insert.spacing;
                let cell = Transform::translate(across * column as f64, up * row as f64);
                let to_mm = own.then(cell).then(placed);
                for entity in &block.entities {
                    self.entity(entity, Around { to_mm, ..around })?;
                }
            }
        }
        self.followed.pop();
        Ok(())
    }

    fn path(
        &mut self,
        entity: &Entity<'_>,
        layer: usize,
        path: &BezPath,
        to_mm: &Transform,
    ) -> Result<(), Error> {
        self.segments += path.elements().len();
        if self.segments > MAX_SEGMENTS {
            return Err(too_many(entity, "segments", MAX_SEGMENTS));
        }
        if self.drawn.len() == MAX_DRAWN {
            return Err(too_many(entity, "lines", MAX_DRAWN));
        }
        let path = mapped(path, to_mm).map_err(|value| too_far(entity, value))?;
        let id = format!("{} {}", entity.name.to_lowercase(), self.drawn.len() + 1);
        self.drawn.push(Drawn {
            id,
            layer,
            path,
            row: entity.row,
        });
        Ok(())
    }
}

/// The image of a path; or a coordinate of it that is beyond the limit or not finite.
fn mapped(path: &BezPath, map: &Transform) -> Result<BezPath, f64> {
    let [a, b, c, d, e, f] = map.coefficients();
    let mut beyond = None;
    let mut image = |point: Point| {
        let x = a * point.x + c * point.y + e;
        let y = b * point.x + d * point.y + f;
        for value in [x, y] {
            if !(-MAX_COORDINATE..=MAX_COORDINATE).contains(&value) {
                beyond.get_or_insert(value);
            }
        }
        // Without a zero that is negative, which y turned round would have.
        Point::new(x + 0.0, y + 0.0)
    };
    let elements = path.elements().iter().map(|element| match *element {
        PathEl::MoveTo(p) => PathEl::MoveTo(image(p)),
        PathEl::LineTo(p) => PathEl::LineTo(image(p)),
        PathEl::QuadTo(p, q) => PathEl::QuadTo(image(p), image(q)),
        PathEl::CurveTo(p, q, r) => PathEl::CurveTo(image(p), image(q), image(r)),
        PathEl::ClosePath => PathEl::ClosePath,
    });
    let mapped = BezPath::from_vec(elements.collect());
    match beyond {
        Some(value) => Err(value),
        None => Ok(mapped),
    }
}

fn at(entity: &Entity<'_>, error: Error) -> Error {
    error.at(entity.row, 1)
}

fn too_far(entity: &Entity<'_>, value: f64) -> Error {
    let limit = MAX_COORDINATE;
    at(entity, DxfFault::TooFar { value, limit }.into())
}

fn too_many(entity: &Entity<'_>, what: &'static str, limit: usize) -> Error {
    at(entity, DrawingFault::TooMany { what, limit }.into())
}
