//! Paper to draw a motif on: its band, its guides, its marks and its code.
//!
//! All lengths are millimetres from the middle of the mark at the top left, x to the right, y down.
//! The page is written and read by this one layout: four marks at the corners of a rectangle, the
//! one at the top left a ring and the others squares, the band within, and on the line between the
//! lower two marks a row of cells, black for 1, that tells the kind and the size.
//!
//! Problem: to know from a picture alone what was drawn on, however large it is printed or seen.
//! Method: cells stand at fixed shares of the way between the marks, so they are read before the
//! size is known; two at each end are the same on all papers, and the last twelve are a check of
//! the rest (a cyclic redundancy check, by the polynomial x^12 + x^11 + x^3 + x^2 + x + 1).
//! Guarantee: any change to one cell, or to up to twelve in a row, is noticed; of other changes one
//! in 4,096 is not.

use crate::error::{Error, ScanFault};
use crate::geom::{Bounds, Point};

/// The side of a square mark.
pub(crate) const MARK_MM: f64 = 8.0;

/// The outer and the inner width of the ring.
pub(crate) const RING_MM: [f64; 2] = [9.0, 4.5];

/// From the line through the marks to the band.
const PAD_MM: f64 = 8.0;

/// The least distance of the marks from left to right; cells are wide enough then.
const LEAST_WIDTH_MM: f64 = 120.0;

/// Height of the cells of the code.
#[cfg(feature = "svg")]
pub(crate) const CELL_MM: f64 = 4.0;

/// Where the code begins and ends, in shares of the way from mark to mark.
const CODE: [f64; 2] = [0.1, 0.9];

/// Lengths are told in twentieths of a millimetre.
const STEPS_IN_MM: f64 = 20.0;
const LENGTH_BITS: usize = 13;
const HEIGHT_BITS: usize = 7;
const CHECK_BITS: usize = 12;
const DATA_BITS: usize = 2 + 2 * LENGTH_BITS + HEIGHT_BITS;
/// How many cells the code has.
pub(crate) const CELLS: usize = 4 + DATA_BITS + CHECK_BITS;

/// What is drawn on a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum BlankKind {
    /// A border motif: a band from left to right.
    Repeat,
    /// A corner motif: an L along the top and down the right side.
    Corner,
}

impl BlankKind {
    /// All kinds.
    pub const ALL: [Self; 2] = [Self::Repeat, Self::Corner];

    /// Its name as a word: `repeat` or `corner`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Repeat => "repeat",
            Self::Corner => "corner",
        }
    }
}

/// A sheet of paper to draw a motif on, whose marks give size, turn and slant of a picture of it.
///
/// Lengths are in millimetres.
///
/// ```
/// use quiltpath_core::raster::{Blank, BlankKind};
///
/// let blank = Blank::new(BlankKind::Repeat, 127.0, 200.0)?;
/// assert_eq!((blank.depth_mm(), blank.height()), (127.0, 0.5));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blank {
    kind: BlankKind,
    depth: u16,
    length: u16,
    height: u8,
}

impl Blank {
    /// A sheet for a motif whose band is so deep. The length is that of the repeat from left to
    /// right, or the width and the height of the whole corner. Both are rounded to twentieths of a
    /// millimetre. The line comes in and goes out in the middle of the band.
    ///
    /// # Errors
    ///
    /// A scan error for a depth or a length that isn't from 10 mm to 400 mm, or a corner that is
    /// not at least 5 mm longer than deep.
    pub fn new(kind: BlankKind, depth_mm: f64, length_mm: f64) -> Result<Self, Error> {
        let bad = |reason| Err(ScanFault::BadBlank { reason }.into());
        let within = |mm: f64| (10.0..=400.0).contains(&mm);
        if !within(depth_mm) || !within(length_mm) {
            return bad("the depth and the length of drawing paper are from 10 mm to 400 mm");
        }
        if kind == BlankKind::Corner && length_mm < depth_mm + 5.0 {
            return bad("a corner is at least 5 mm longer than its legs are deep");
        }
        let steps = |mm: f64| (mm * STEPS_IN_MM).round() as u16;
        Ok(Self {
            kind,
            depth: steps(depth_mm),
            length: steps(length_mm),
            height: 50,
        })
    }

    /// The same sheet, the line coming in and going out at this share of the way from the inner
    /// line of the band (0) to the outer one (1), rounded to hundredths.
    ///
    /// # Errors
    ///
    /// A scan error for a share that isn't from 0 to 1.
    pub fn with_height(self, share: f64) -> Result<Self, Error> {
        if !(0.0..=1.0).contains(&share) {
            let reason =
                "the line comes in between the inner line of the band, 0, and the outer one, 1";
            return Err(ScanFault::BadBlank { reason }.into());
        }
        let height = (share * 100.0).round() as u8;
        Ok(Self { height, ..self })
    }

    /// What is drawn on it.
    #[must_use]
    pub fn kind(&self) -> BlankKind {
        self.kind
    }

    /// The depth of the band, in millimetres.
    #[must_use]
    pub fn depth_mm(&self) -> f64 {
        f64::from(self.depth) / STEPS_IN_MM
    }

    /// The length of the repeat, or the width and the height of the corner, in millimetres.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        f64::from(self.length) / STEPS_IN_MM
    }

    /// Where the line comes in and goes out: 0 on the inner line of the band, 1 on the outer one.
    #[must_use]
    pub fn height(&self) -> f64 {
        f64::from(self.height) / 100.0
    }

    /// Width and height of the band, or of the whole corner.
    pub(crate) fn size(&self) -> [f64; 2] {
        match self.kind {
            BlankKind::Repeat => [self.length_mm(), self.depth_mm()],
            BlankKind::Corner => [self.length_mm(); 2],
        }
    }

    /// Width and height from mark to mark.
    pub(crate) fn marks_apart(&self) -> [f64; 2] {
        let [width, height] = self.size();
        [
            (width + 2.0 * PAD_MM).max(LEAST_WIDTH_MM),
            height + 2.0 * PAD_MM,
        ]
    }

    /// The box of the band, or of the whole corner.
    pub(crate) fn drawing_box(&self) -> Bounds {
        let [width, height] = self.size();
        let left = (self.marks_apart()[0] - width) / 2.0;
        Bounds {
            min: Point::new(left, PAD_MM),
            max: Point::new(left + width, PAD_MM + height),
        }
    }

    /// The middles of the marks, from the ring clockwise.
    pub(crate) fn marks(&self) -> [Point; 4] {
        let [width, height] = self.marks_apart();
        [[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]].map(|[x, y]| Point::new(x, y))
    }

    /// The outline of the band: its inner and outer line and its ends, as a closed line.
    pub(crate) fn outline(&self) -> Vec<Point> {
        let area = self.drawing_box();
        let (min, max) = (area.min, area.max);
        let corners = match self.kind {
            BlankKind::Repeat => vec![
                [min.x, min.y],
                [max.x, min.y],
                [max.x, max.y],
                [min.x, max.y],
            ],
            BlankKind::Corner => {
                let depth = self.depth_mm();
                let (inner_x, inner_y) = (max.x - depth, min.y + depth);
                vec![
                    [min.x, min.y],
                    [max.x, min.y],
                    [max.x, max.y],
                    [inner_x, max.y],
                    [inner_x, inner_y],
                    [min.x, inner_y],
                ]
            }
        };
        corners.into_iter().map(|[x, y]| Point::new(x, y)).collect()
    }

    /// Where the line comes in and where it goes out.
    pub(crate) fn ports(&self) -> [Point; 2] {
        let area = self.drawing_box();
        let from_outer = (1.0 - self.height()) * self.depth_mm();
        let y = area.min.y + from_outer;
        match self.kind {
            BlankKind::Repeat => [Point::new(area.min.x, y), Point::new(area.max.x, y)],
            BlankKind::Corner => [
                Point::new(area.min.x, y),
                Point::new(area.max.x - from_outer, area.max.y),
            ],
        }
    }

    /// The line at the height of the ports through the band.
    pub(crate) fn way(&self) -> Vec<Point> {
        let [from, to] = self.ports();
        match self.kind {
            BlankKind::Repeat => vec![from, to],
            BlankKind::Corner => vec![from, Point::new(to.x, from.y), to],
        }
    }

    /// The cells of its code, true for black.
    pub(crate) fn code(&self) -> [bool; CELLS] {
        let kind = match self.kind {
            BlankKind::Repeat => 1,
            BlankKind::Corner => 2,
        };
        let parts = [
            (kind, 2),
            (u32::from(self.depth), LENGTH_BITS),
            (u32::from(self.length), LENGTH_BITS),
            (u32::from(self.height), HEIGHT_BITS),
        ];
        let bits = parts
            .into_iter()
            .flat_map(|(value, count)| bits(value, count));
        let data: Vec<bool> = bits.collect();
        let check = bits_of_check(&data);
        let mut cells = [false; CELLS];
        let all = [true, false]
            .into_iter()
            .chain(data)
            .chain(check)
            .chain([false, true]);
        cells
            .iter_mut()
            .zip(all)
            .for_each(|(cell, bit)| *cell = bit);
        cells
    }

    /// The sheet whose code these cells are; `None` where they are none.
    pub(crate) fn of_code(cells: &[bool; CELLS]) -> Option<Self> {
        let data = &cells[2..2 + DATA_BITS];
        let number = |from: usize, count: usize| {
            data[from..from + count]
                .iter()
                .fold(0_u16, |sum, &bit| 2 * sum + u16::from(bit))
        };
        let kind = match number(0, 2) {
            1 => BlankKind::Repeat,
            2 => BlankKind::Corner,
            _ => return None,
        };
        let [depth, length] = [2, 2 + LENGTH_BITS].map(|from| number(from, LENGTH_BITS));
        let height = number(2 + 2 * LENGTH_BITS, HEIGHT_BITS);
        let mm = |steps: u16| f64::from(steps) / STEPS_IN_MM;
        let blank = Self::new(kind, mm(depth), mm(length)).ok()?;
        let blank = blank.with_height(f64::from(height) / 100.0).ok()?;
        (blank.code() == *cells).then_some(blank)
    }
}

/// The middle of a cell of the code, as a share of the way between the lower marks.
pub(crate) fn cell_middle(cell: usize) -> f64 {
    CODE[0] + cell_share() * (cell as f64 + 0.5)
}

/// The width of a cell, as a share of the way between the lower marks.
pub(crate) fn cell_share() -> f64 {
    (CODE[1] - CODE[0]) / CELLS as f64
}

/// The bits of a number, the highest first.
fn bits(value: u32, count: usize) -> impl Iterator<Item = bool> {
    (0..count).rev().map(move |bit| value >> bit & 1 == 1)
}

fn bits_of_check(data: &[bool]) -> impl Iterator<Item = bool> + use<> {
    const POLYNOMIAL: u32 = 0x80f;
    // Not all zero to begin with, so that zeros before the data count.
    let sum = data.iter().fold(0xfff_u32, |sum, &bit| {
        let top = (sum >> (CHECK_BITS - 1) & 1 == 1) != bit;
        let shifted = sum << 1 & 0xfff;
        if top { shifted ^ POLYNOMIAL } else { shifted }
    });
    bits(sum, CHECK_BITS)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn blanks() -> impl Strategy<Value = Blank> {
        (10.0..390.0f64, 10.0..400.0f64, 0.0..=1.0f64, any::<bool>()).prop_map(
            |(depth, length, share, corner)| {
                let (kind, length) = match corner {
                    true => (BlankKind::Corner, length.max(depth + 6.0)),
                    false => (BlankKind::Repeat, length),
                };
                let blank = Blank::new(kind, depth, length.min(400.0));
                blank
                    .and_then(|blank| blank.with_height(share))
                    .expect("a blank")
            },
        )
    }

    proptest! {
        #[test]
        fn a_code_tells_its_sheet(blank in blanks()) {
            prop_assert_eq!(Blank::of_code(&blank.code()), Some(blank));
        }

        #[test]
        fn bursts_of_changed_cells_are_noticed(
            blank in blanks(),
            at in 0..CELLS,
            pattern in 1..4096_u32,
        ) {
            let mut cells = blank.code();
            for (bit, cell) in cells[at..].iter_mut().take(12).enumerate() {
                *cell ^= pattern >> bit & 1 == 1;
            }
            if cells != blank.code() {
                prop_assert_eq!(Blank::of_code(&cells), None);
            }
        }

        #[test]
        fn all_lies_within_the_marks(blank in blanks()) {
            let [width, height] = blank.marks_apart();
            for point in blank.outline().into_iter().chain(blank.way()).chain(blank.ports()) {
                prop_assert!(point.x >= PAD_MM - 1e-9 && point.x <= width - PAD_MM + 1e-9);
                prop_assert!(point.y >= PAD_MM - 1e-9 && point.y <= height - PAD_MM + 1e-9);
            }
        }
    }

    #[test]
    fn turned_round_a_code_is_none() {
        let blank = Blank::new(BlankKind::Repeat, 127.0, 203.2).expect("a blank");
        let mut turned = blank.code();
        turned.reverse();
        assert_eq!(Blank::of_code(&turned), None);
        assert_eq!(Blank::of_code(&[false; CELLS]), None);
        assert_eq!(Blank::of_code(&[true; CELLS]), None);
        for (kind, depth, length) in [
            (BlankKind::Repeat, f64::NAN, 100.0),
            (BlankKind::Repeat, 100.0, 401.0),
            (BlankKind::Corner, 100.0, 101.0),
        ] {
            assert!(Blank::new(kind, depth, length).expect_err("none").is_scan());
        }
    }
}
