//! The sections of a DXF: the unit, the layers, the blocks and the entities, parsed.

use std::collections::HashMap;

use kurbo::BezPath;

use super::layers::{Layers, is_dashed, key};
use super::notes::Note;
use super::pairs::{Record, Records, excerpt};
use super::plane::Plane;
use super::shapes::{self, Shape};
use super::text::name;
use crate::error::Error;
use crate::transform::Transform;

/// What stands in a file.
pub(super) struct File<'a> {
    /// The code of the unit, `$INSUNITS`.
    pub(super) unit: Option<i64>,
    /// 0 for English units and 1 for metric ones, `$MEASUREMENT`.
    pub(super) system: Option<i64>,
    pub(super) layers: Layers,
    pub(super) blocks: Blocks<'a>,
    pub(super) entities: Vec<Entity<'a>>,
}

/// The blocks by their names.
#[derive(Default)]
pub(super) struct Blocks<'a> {
    pub(super) all: Vec<Block<'a>>,
    places: HashMap<String, usize>,
}

pub(super) struct Block<'a> {
    pub(super) name: String,
    /// The point of it that comes to lie where it is inserted.
    pub(super) base: [f64; 2],
    pub(super) entities: Vec<Entity<'a>>,
}

/// An entity with what all have.
pub(super) struct Entity<'a> {
    /// What it is called in the file.
    pub(super) name: &'a str,
    /// The row of its name.
    pub(super) row: u32,
    pub(super) layer: usize,
    pub(super) hidden: bool,
    /// True for what stands on a sheet round the drawing.
    pub(super) paper: bool,
    pub(super) dashed: bool,
    pub(super) what: What<'a>,
}

pub(super) enum What<'a> {
    Path(BezPath, Vec<Note>),
    Insert(Box<Insert<'a>>),
    /// A line that is not drawn, for this reason.
    Undrawn(Note),
    /// No line at all.
    Other,
}

/// A block inserted, once or in rows and columns.
pub(super) struct Insert<'a> {
    /// The name as it is written.
    pub(super) block: &'a str,
    pub(super) columns: u64,
    pub(super) rows: u64,
    pub(super) spacing: [f64; 2],
    pub(super) scale: [f64; 2],
    /// The turn and the place of each cell.
    pub(super) place: Transform,
    pub(super) notes: Vec<Note>,
}

impl Blocks<'_> {
    /// The number of the block with this name, as it is written.
    pub(super) fn place(&self, written: &str) -> Option<usize> {
        self.places.get(&key(&name(written))).copied()
    }
}

impl<'a> File<'a> {
    pub(super) fn read(text: &'a str) -> Result<Self, Error> {
        let mut file = Self {
            unit: None,
            system: None,
            layers: Layers::new(),
            blocks: Blocks::default(),
            entities: Vec::new(),
        };
        let mut records = Records::new(text)?;
        while records.peek() != "EOF" {
            let record = records.next()?;
            if record.name != "SECTION" {
                continue;
            }
            match record.text(2) {
                Some("HEADER") => file.header(&record),
                Some("TABLES") => file.tables(&mut records)?,
                Some("BLOCKS") => file.read_blocks(&mut records)?,
                Some("ENTITIES") => {
                    let mut entities = entities(&mut records, &mut file.layers, "ENDSEC")?;
                    file.entities.append(&mut entities);
                }
                _ => {}
            }
        }
        Ok(file)
    }

    /// Variables are a group 9 with the name and groups with the value.
    fn header(&mut self, record: &Record<'_>) {
        let mut variable = "";
        for group in record.groups() {
            let whole = || group.value.parse::<i64>().ok();
            match (group.code, variable) {
                (9, _) => variable = group.value,
                (70, "$INSUNITS") => self.unit = whole(),
                (70, "$MEASUREMENT") => self.system = whole(),
                _ => {}
            }
        }
    }

    fn tables(&mut self, records: &mut Records<'a>) -> Result<(), Error> {
        while !ends(records, "ENDSEC") {
            let record = records.next()?;
            if record.name == "LAYER" {
                self.layers.read(&record)?;
            }
        }
        Ok(())
    }

    fn read_blocks(&mut self, records: &mut Records<'a>) -> Result<(), Error> {
        while !ends(records, "ENDSEC") {
            let record = records.next()?;
            if record.name != "BLOCK" {
                continue;
            }
            let [x, y] = record.numbers([10, 20])?;
            let block = Block {
                name: name(record.text(2).unwrap_or_default()),
                base: [x, y].map(Option::unwrap_or_default),
                entities: entities(records, &mut self.layers, "ENDBLK")?,
            };
            let place = self.blocks.all.len();
            self.blocks.places.entry(key(&block.name)).or_insert(place);
            self.blocks.all.push(block);
        }
        Ok(())
    }
}

/// True where a part of the file ends: at its mark, or where that is missing.
fn ends(records: &Records<'_>, mark: &str) -> bool {
    let next = records.peek();
    next == mark || matches!(next, "EOF" | "SECTION" | "ENDSEC")
}

/// The entities up to this mark, which stays.
fn entities<'a>(
    records: &mut Records<'a>,
    layers: &mut Layers,
    mark: &str,
) -> Result<Vec<Entity<'a>>, Error> {
    let mut entities = Vec::new();
    while !ends(records, mark) {
        let record = records.next()?;
        let (mut layer, mut hidden, mut paper, mut dashed) = ("0", false, false, false);
        for group in record.groups() {
            match group.code {
                8 => layer = group.value,
                60 => hidden = group.value == "1",
                67 => paper = group.value == "1",
                6 => dashed = is_dashed(group.value),
                _ => {}
            }
        }
        let what = match record.name {
            "INSERT" => insert(&record)?,
            // What ends the texts of an inserted block.
            "SEQEND" => continue,
            _ => match shapes::draw(&record, records)? {
                Some(Shape::Path(path, notes)) => What::Path(path, notes),
                Some(Shape::FitPoints) => What::Undrawn(Note::FitPoints),
                Some(Shape::Mesh) | None => What::Other,
            },
        };
        entities.push(Entity {
            name: record.name,
            row: record.row,
            layer: layers.place(layer),
            hidden,
            paper,
            dashed,
            what,
        });
    }
    Ok(entities)
}

fn insert<'a>(record: &Record<'a>) -> Result<What<'a>, Error> {
    let [x, y] = record.needed([10, 20])?;
    let [z, scale_x, scale_y, turn] = record.numbers([30, 41, 42, 50])?;
    let [columns, rows, across, up] = record.numbers([70, 71, 44, 45])?;
    let plane = Plane::of(record)?;
    let height = z.unwrap_or_default();
    let place = Transform::rotate_degrees(turn.unwrap_or_default())
        .then(Transform::translate(x, y))
        .then(plane.seen(height));
    let mut notes = Vec::new();
    if plane.is_tilted() {
        notes.push(Note::Tilted);
    } else if height != 0.0 {
        notes.push(Note::Height);
    }
    let times = |count: Option<f64>| count.map_or(1, |count| (count as u64).max(1));
    Ok(What::Insert(Box::new(Insert {
        block: record.text(2).unwrap_or_default(),
        columns: times(columns),
        rows: times(rows),
        spacing: [across, up].map(Option::unwrap_or_default),
        scale: [scale_x, scale_y].map(|scale| scale.unwrap_or(1.0)),
        place,
        notes,
    })))
}

/// The name of an entity, as notes list it.
pub(super) fn kind(entity: &Entity<'_>) -> String {
    match entity.name {
        "POLYLINE" => "POLYLINE mesh".to_owned(),
        name => excerpt(name),
    }
}
