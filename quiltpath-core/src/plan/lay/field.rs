//! Where the blocks of a quilt top lie, and the sashes, cornerstones and triangles between them.
//!
//! Problem: rows and columns of blocks, straight with strips between them or on point with
//! triangles at the edge, in the middle of what the borders leave.
//! Method: a straight field is a grid of bands, blocks and sashes in turn, so a place is a cell of
//! it. On point with blocks of side s, the middles of blocks are the points of a grid of cells
//! s√2 / 2 wide whose two numbers are both odd or both even; those at the edge are halved by it,
//! those in its corners quartered.
//! Guarantee: R rows and C columns on point have RC + (R − 1)(C − 1) blocks, 2 (R + C − 2) side
//! triangles and 4 corner triangles, which cover C s√2 by R s√2 without overlap; a straight field
//! with sashes has (R − 1)(C − 1) cornerstones, or (R + 1)(C + 1) with sashes round it.
//! Failure: more places than a plan may have; a field that is larger than its room.
//!
//! Millimetres; x to the right, y down.

use std::fmt;

use crate::geom::{Point, Vector};

/// The most places of a field.
pub(in crate::plan) const MAX_PLACES: usize = 50_000;

/// How blocks lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum Setting {
    /// Sides along the edges of the quilt.
    #[default]
    Straight,
    /// Turned by 45 degrees, with triangles at the edge.
    OnPoint,
}

/// How a design lies in the blocks of other rows and columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum Lie {
    /// As it is drawn in all of them.
    #[default]
    AsIs,
    /// Left and right changed in every other block, as on a board of squares.
    Alternate,
    /// Turned on by a quarter in each of four blocks that meet.
    Pinwheel,
}

impl Lie {
    /// How many quarters the design is turned by, clockwise, and whether it is mirrored before, in
    /// a block of this row and column.
    pub(in crate::plan) fn at(self, row: usize, column: usize) -> (u8, bool) {
        match self {
            Self::AsIs => (0, false),
            Self::Alternate => (0, (row + column) % 2 == 1),
            Self::Pinwheel => match (row % 2, column % 2) {
                (0, 0) => (0, false),
                (0, _) => (1, false),
                (_, 0) => (3, false),
                _ => (2, false),
            },
        }
    }
}

/// What a place in the field of blocks is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum FieldKind {
    /// A block.
    Block,
    /// A strip between blocks.
    Sash,
    /// The square where sashes cross.
    Cornerstone,
    /// On point: half a block at the edge.
    SideTriangle,
    /// On point: a quarter of a block in a corner of the field.
    CornerTriangle,
}

impl FieldKind {
    /// The name in data, such as `side_triangle`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Block => "block",
            Self::Sash => "sash",
            Self::Cornerstone => "cornerstone",
            Self::SideTriangle => "side_triangle",
            Self::CornerTriangle => "corner_triangle",
        }
    }
}

/// Where a place lies along rows or along columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum Slot {
    /// In the row or column of this number, from 1.
    In(usize),
    /// Between the row or column of this number and the next; 0 is before the first.
    After(usize),
    /// Along all of them.
    All,
}

impl Slot {
    fn write(self, letter: char, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::In(number) => write!(f, "{letter}{number}"),
            Self::After(number) => write!(f, "{letter}{number}-{letter}{}", number + 1),
            Self::All => Ok(()),
        }
    }
}

/// The name of a place in the field of blocks.
///
/// ```
/// use quiltpath_core::plan::{FieldKind, FieldPlace, Slot};
///
/// let sash = FieldPlace::new(FieldKind::Sash, Slot::In(3), Slot::After(2));
/// assert_eq!(sash.to_string(), "sash r3 c2-c3");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub struct FieldPlace {
    /// What it is.
    pub kind: FieldKind,
    /// Its row.
    pub row: Slot,
    /// Its column.
    pub column: Slot,
}

impl FieldPlace {
    /// A place of this kind in a row and a column.
    #[must_use]
    pub fn new(kind: FieldKind, row: Slot, column: Slot) -> Self {
        Self { kind, row, column }
    }

    /// The place of this name, as it is written by [`Display`](fmt::Display).
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let kinds = [
            FieldKind::Block,
            FieldKind::Sash,
            FieldKind::Cornerstone,
            FieldKind::SideTriangle,
            FieldKind::CornerTriangle,
        ];
        let slot = |text: &str, letter: char| -> Option<Slot> {
            let number = |text: &str| text.strip_prefix(letter)?.parse::<usize>().ok();
            match text.split_once('-') {
                Some((first, next)) => {
                    let (first, next) = (number(first)?, number(next)?);
                    (first.checked_add(1) == Some(next)).then_some(Slot::After(first))
                }
                None => number(text).map(Slot::In),
            }
        };
        kinds.into_iter().find_map(|kind| {
            let words = kind.name().replace('_', " ");
            let mut slots = name.strip_prefix(&words)?.split_whitespace();
            let row = slot(slots.next()?, 'r')?;
            let column = match slots.next() {
                Some(text) => slot(text, 'c')?,
                None => Slot::All,
            };
            let place = Self { kind, row, column };
            slots.next().is_none().then_some(place)
        })
    }

    /// Whether a sash runs across the quilt, from left to right.
    #[must_use]
    pub fn runs_across(&self) -> bool {
        matches!(self.row, Slot::After(_))
    }
}

impl fmt::Display for FieldPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let kind = match self.kind {
            FieldKind::SideTriangle => "side triangle",
            FieldKind::CornerTriangle => "corner triangle",
            kind => kind.name(),
        };
        f.write_str(kind)?;
        for (slot, letter) in [(self.row, 'r'), (self.column, 'c')] {
            if slot != Slot::All {
                f.write_str(" ")?;
                slot.write(letter, f)?;
            }
        }
        Ok(())
    }
}

/// A place in the field with where it lies.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct FieldSpot {
    /// Its name.
    pub place: FieldPlace,
    /// Its corners along the seams, clockwise as seen. A block's begin at the top left of its
    /// drawing, a side triangle's at the left end of its long side as seen from inside with that
    /// side up, a corner triangle's at the right angle.
    pub corners: Vec<Point>,
}

/// The measures of a field, in millimetres.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct Measures {
    pub(in crate::plan) setting: Setting,
    /// On point all are the blocks' side.
    pub(in crate::plan) heights: Vec<f64>,
    pub(in crate::plan) widths: Vec<f64>,
    /// The width of the sashes; 0 where there are none.
    pub(in crate::plan) sash: f64,
    /// Whether sashes go round the outside.
    pub(in crate::plan) outer: bool,
    /// Whether sashes end at cornerstones.
    pub(in crate::plan) cornerstones: bool,
}

impl Measures {
    /// How many places the field has.
    pub(in crate::plan) fn count(&self) -> usize {
        let (rows, columns) = (self.heights.len(), self.widths.len());
        let twice = |of: usize| of.saturating_mul(2).saturating_add(1);
        // An upper bound that is near in either setting.
        twice(rows).saturating_mul(twice(columns))
    }

    /// How large the field is.
    pub(in crate::plan) fn size(&self) -> Vector {
        match self.setting {
            Setting::Straight => {
                let along = |lengths: &[f64]| {
                    let sashes = match self.outer {
                        true => lengths.len() + 1,
                        false => lengths.len() - 1,
                    };
                    lengths.iter().sum::<f64>() + self.sash * sashes as f64
                };
                Vector::new(along(&self.widths), along(&self.heights))
            }
            Setting::OnPoint => {
                let across = self.widths[0] * std::f64::consts::SQRT_2;
                let (columns, rows) = (self.widths.len(), self.heights.len());
                Vector::new(across * columns as f64, across * rows as f64)
            }
        }
    }

    /// All places, the field's top left corner being here: blocks row by row, then sashes,
    /// cornerstones and triangles.
    pub(in crate::plan) fn spots(&self, origin: Point) -> Vec<FieldSpot> {
        let mut spots = match self.setting {
            Setting::Straight => self.straight(origin),
            Setting::OnPoint => self.on_point(origin),
        };
        spots.sort_by_key(|spot| spot.place);
        spots
    }

    fn straight(&self, origin: Point) -> Vec<FieldSpot> {
        let rows = bands(&self.heights, self.sash, self.outer);
        let columns = bands(&self.widths, self.sash, self.outer);
        let mut spots = Vec::with_capacity(rows.len() * columns.len());
        let whole = [origin.x, origin.x + self.size().x];
        let mut add = |place, [left, right]: [f64; 2], [top, bottom]: [f64; 2]| {
            let corners = [(left, top), (right, top), (right, bottom), (left, bottom)];
            let corners = corners.map(|(x, y)| Point::new(x, y)).to_vec();
            spots.push(FieldSpot { place, corners });
        };
        for &(row, down) in &rows {
            let down = down.map(|y| origin.y + y);
            if matches!(row, Slot::After(_)) && !self.cornerstones {
                let place = FieldPlace::new(FieldKind::Sash, row, Slot::All);
                add(place, whole, down);
                continue;
            }
            for &(column, along) in &columns {
                let kind = match (row, column) {
                    (Slot::In(_), Slot::In(_)) => FieldKind::Block,
                    (Slot::After(_), Slot::After(_)) => FieldKind::Cornerstone,
                    _ => FieldKind::Sash,
                };
                let place = FieldPlace::new(kind, row, column);
                add(place, along.map(|x| origin.x + x), down);
            }
        }
        spots
    }

    fn on_point(&self, origin: Point) -> Vec<FieldSpot> {
        let half = self.widths[0] / std::f64::consts::SQRT_2;
        let (rows, columns) = (2 * self.heights.len(), 2 * self.widths.len());
        let slot = |at: usize| match at % 2 {
            1 => Slot::In(at / 2 + 1),
            _ => Slot::After(at / 2),
        };
        // Up, right, down, left of the middle: turned by 45 degrees, the top left corner is up.
        let tips = [(0, -1), (1, 0), (0, 1), (-1, 0)];
        let mut spots = Vec::with_capacity((rows + 1) * (columns + 1) / 2 + 1);
        for row in 0..=rows {
            for column in 0..=columns {
                if row % 2 != column % 2 {
                    continue;
                }
                let kept = |&(x, y): &(i32, i32)| {
                    let off = |at: usize, by: i32, end: usize| {
                        (at == 0 && by < 0) || (at == end && by > 0)
                    };
                    !off(column, x, columns) && !off(row, y, rows)
                };
                let point = |x: f64, y: f64| {
                    let (x, y) = (column as f64 + x, row as f64 + y);
                    Point::new(origin.x + half * x, origin.y + half * y)
                };
                let tip = |(x, y): (i32, i32)| point(f64::from(x), f64::from(y));
                let here = tips.iter().filter(|tip| kept(tip)).count();
                let place = |kind| FieldPlace::new(kind, slot(row), slot(column));
                let spot = match here {
                    4 => FieldSpot {
                        place: place(FieldKind::Block),
                        corners: tips.map(tip).to_vec(),
                    },
                    // From the tip after the one that is cut away, round to the one before it,
                    // which leaves the long side, on the edge, to come last: turned so that it is
                    // first.
                    3 => {
                        let cut = tips.iter().position(|tip| !kept(tip)).unwrap_or(0);
                        let at = [cut + 3, cut + 1, cut + 2];
                        FieldSpot {
                            place: place(FieldKind::SideTriangle),
                            corners: at.map(|at| tip(tips[at % 4])).to_vec(),
                        }
                    }
                    _ => {
                        let first = (0..4).find(|&at| kept(&tips[at]) && kept(&tips[(at + 1) % 4]));
                        let first = first.unwrap_or(0);
                        let corners = vec![
                            point(0.0, 0.0),
                            tip(tips[first]),
                            tip(tips[(first + 1) % 4]),
                        ];
                        FieldSpot {
                            place: place(FieldKind::CornerTriangle),
                            corners,
                        }
                    }
                };
                spots.push(spot);
            }
        }
        spots
    }
}

/// Blocks and sashes in turn, each with where it begins and ends.
fn bands(lengths: &[f64], sash: f64, outer: bool) -> Vec<(Slot, [f64; 2])> {
    let mut bands = Vec::with_capacity(2 * lengths.len() + 1);
    let mut reached = 0.0;
    let mut add = |slot, length: f64| {
        let from = reached;
        reached += length;
        bands.push((slot, [from, reached]));
    };
    for (index, &length) in lengths.iter().enumerate() {
        if sash > 0.0 && (outer || index > 0) {
            add(Slot::After(index), sash);
        }
        add(Slot::In(index + 1), length);
    }
    if sash > 0.0 && outer {
        add(Slot::After(lengths.len()), sash);
    }
    bands
}
