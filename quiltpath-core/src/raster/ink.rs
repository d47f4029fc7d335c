//! What is ink and what is paper, whatever the light.
//!
//! Problem: a pixel is ink when it is darker than the paper about it, though the paper itself may
//! be darker in one corner than a pencil line in another. Method: Sauvola's threshold (J. Sauvola
//! and M. Pietikäinen, "Adaptive document image binarization", Pattern Recognition 33, 2000; the
//! formula from memory): m (1 + k (s/128 − 1)) with mean m and standard deviation s of a window.
//! Its sums run: columns are kept and a row enters and leaves, and along a row they are differences
//! of running sums. Inside a wide dark shape all is alike and the threshold finds paper; so what is
//! less than half as light as the paper nearby is ink as well. How light the paper is, is told by
//! the bright tenth of each block and the brightest of its neighbours. Guarantee: O(pixels) for any
//! window, memory of a few rows besides the result. Failure: hard shadows have edges like ink;
//! lines fainter than a fifth below the paper are lost.

use super::grey::Grey;
use crate::parallel::join;

/// How much darker than its surroundings ink is where these are even. 0.2 is within what the paper
/// gives for writing; noise of a scan stays below it, pale guides do too.
const K: f32 = 0.2;

/// Half the range of grey, by which the paper of the method divides.
const RANGE: f32 = 128.0;

/// Blocks that the lightness of the paper is told by, in pixels.
const BLOCK: usize = 32;

/// Which pixels are ink (1) and which are paper (0); those of the edge are always paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Mask {
    pub(super) width: usize,
    pub(super) cells: Vec<u8>,
}

impl Mask {
    #[cfg(test)]
    pub(super) fn of_rows(rows: &[&str]) -> Self {
        let width = rows[0].len() + 2;
        let edge = ".".repeat(width - 2);
        let all = [&[edge.as_str()], rows, &[edge.as_str()]].concat();
        let cells = all.iter().flat_map(|row| {
            let inside = row.bytes().map(|sign| u8::from(sign == b'#'));
            std::iter::once(0).chain(inside).chain([0])
        });
        Self {
            width,
            cells: cells.collect(),
        }
    }

    pub(super) fn height(&self) -> usize {
        self.cells.len() / self.width
    }
}

/// How light the paper is, block by block.
#[derive(Debug)]
pub(super) struct Paper {
    columns: usize,
    light: Vec<u8>,
}

impl Paper {
    pub(super) fn of(grey: &Grey) -> Self {
        let columns = grey.width().div_ceil(BLOCK);
        let rows = grey.height().div_ceil(BLOCK);
        let mut own = vec![0; columns * rows];
        for row in 0..rows {
            let lines = row * BLOCK..((row + 1) * BLOCK).min(grey.height());
            for column in 0..columns {
                let across = column * BLOCK..((column + 1) * BLOCK).min(grey.width());
                let mut counts = [0_u32; 256];
                let mut all = 0;
                for y in lines.clone().step_by(2) {
                    for &pixel in grey.row(y)[across.clone()].iter().step_by(2) {
                        counts[usize::from(pixel)] += 1;
                        all += 1;
                    }
                }
                let mut lighter = 0;
                let light = (0..256).rev().find(|&grey| {
                    lighter += counts[grey];
                    lighter * 10 >= all
                });
                own[row * columns + column] = light.unwrap_or(255) as u8;
            }
        }
        let near = |at: usize, end: usize| at.saturating_sub(2)..(at + 3).min(end);
        let brightest = |row: usize, column: usize| {
            let about = near(row, rows).flat_map(|y| near(column, columns).map(move |x| (y, x)));
            about
                .map(|(y, x)| own[y * columns + x])
                .max()
                .unwrap_or(255)
        };
        let light = (0..rows).flat_map(|row| (0..columns).map(move |column| (row, column)));
        Self {
            light: light.map(|(row, column)| brightest(row, column)).collect(),
            columns,
        }
    }

    /// How light it is about a pixel.
    pub(super) fn at(&self, x: usize, y: usize) -> u8 {
        self.light[y / BLOCK * self.columns + x / BLOCK]
    }

    /// How light the lightest part of the picture is.
    pub(super) fn brightest(&self) -> u8 {
        self.light.iter().copied().max().unwrap_or(0)
    }

    fn row(&self, y: usize) -> &[u8] {
        &self.light[y / BLOCK * self.columns..][..self.columns]
    }
}

/// How far the window reaches each way, for a picture of this size.
fn reach(grey: &Grey) -> usize {
    (grey.width().max(grey.height()) / 128).clamp(8, 48)
}

/// Which pixels are ink.
///
/// # Complexity
///
/// O(pixels).
pub(super) fn ink(grey: &Grey, paper: &Paper) -> Mask {
    let mut cells = vec![0; grey.pixels().len()];
    let half = grey.height() / 2;
    let (upper, lower) = cells.split_at_mut(half * grey.width());
    join(
        || band(grey, paper, 0, upper),
        || band(grey, paper, half, lower),
    );
    let width = grey.width();
    for row in cells.chunks_exact_mut(width) {
        (row[0], row[width - 1]) = (0, 0);
    }
    cells[..width].fill(0);
    let last = cells.len() - width;
    cells[last..].fill(0);
    Mask { width, cells }
}

/// Sums of a window's columns: the grey values, and their squares.
#[derive(Clone, Copy, Default)]
struct Sums {
    plain: u32,
    squares: u32,
}

/// The rows of the picture from `first` on, as many as there are cells.
fn band(grey: &Grey, paper: &Paper, first: usize, cells: &mut [u8]) {
    let (width, height) = (grey.width(), grey.height());
    let reach = reach(grey);
    let mut columns = vec![Sums::default(); width];
    let enter = |columns: &mut [Sums], row: usize| {
        for (sums, &pixel) in columns.iter_mut().zip(grey.row(row)) {
            let pixel = u32::from(pixel);
            sums.plain += pixel;
            sums.squares += pixel * pixel;
        }
    };
    let leave = |columns: &mut [Sums], row: usize| {
        for (sums, &pixel) in columns.iter_mut().zip(grey.row(row)) {
            let pixel = u32::from(pixel);
            sums.plain -= pixel;
            sums.squares -= pixel * pixel;
        }
    };
    for row in first.saturating_sub(reach)..(first + reach).min(height) {
        enter(&mut columns, row);
    }
    // Sums from the left, which may wrap: only their differences over a window are used.
    let mut plain = vec![0_u32; width + 1];
    let mut squares = vec![0_u32; width + 1];
    for (line, cells) in cells.chunks_exact_mut(width).enumerate() {
        let y = first + line;
        if y + reach < height {
            enter(&mut columns, y + reach);
        }
        if let Some(gone) = (y.checked_sub(reach + 1)).filter(|&gone| gone + reach + 1 > first) {
            leave(&mut columns, gone);
        }
        let (mut one, mut two) = (0_u32, 0_u32);
        for (x, sums) in columns.iter().enumerate() {
            one = one.wrapping_add(sums.plain);
            two = two.wrapping_add(sums.squares);
            (plain[x + 1], squares[x + 1]) = (one, two);
        }
        let rows = (y + reach + 1).min(height) - y.saturating_sub(reach);
        let pixels = grey.row(y);
        let light = paper.row(y);
        let judge = |x: usize, left: usize, right: usize| {
            let count = ((right - left) * rows) as f32;
            let sum = plain[right].wrapping_sub(plain[left]) as f32;
            let square = squares[right].wrapping_sub(squares[left]) as f32;
            let mean = sum / count;
            let deviation = (square / count - mean * mean).max(0.0).sqrt();
            let threshold = mean * (1.0 + K * (deviation / RANGE - 1.0));
            let pixel = pixels[x];
            let dark = 2 * u16::from(pixel) < u16::from(light[x / BLOCK]);
            u8::from(f32::from(pixel) < threshold) | u8::from(dark)
        };
        let inner = reach.min(width)..width.saturating_sub(reach + 1).max(reach.min(width));
        for (x, cell) in cells[..inner.start].iter_mut().enumerate() {
            *cell = judge(x, x.saturating_sub(reach), (x + reach + 1).min(width));
        }
        for x in inner.clone() {
            cells[x] = judge(x, x - reach, x + reach + 1);
        }
        for (x, cell) in cells[..width].iter_mut().enumerate().skip(inner.end) {
            *cell = judge(x, x.saturating_sub(reach), (x + reach + 1).min(width));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The formula, with the sums of each window taken anew.
    fn by_hand(grey: &Grey, paper: &Paper) -> Vec<u8> {
        let reach = reach(grey);
        let (width, height) = (grey.width(), grey.height());
        let mut out = vec![0; width * height];
        for y in 1..height - 1 {
            for x in 1..width - 1 {
                let rows = y.saturating_sub(reach)..(y + reach + 1).min(height);
                let (mut count, mut sum, mut square) = (0.0, 0.0, 0.0);
                for row in rows {
                    for &pixel in
                        &grey.row(row)[x.saturating_sub(reach)..(x + reach + 1).min(width)]
                    {
                        let pixel = f32::from(pixel);
                        (count, sum, square) = (count + 1.0, sum + pixel, square + pixel * pixel);
                    }
                }
                let mean: f32 = sum / count;
                let deviation = (square / count - mean * mean).max(0.0).sqrt();
                let pixel = grey.row(y)[x];
                let dark = f32::from(pixel) < mean * (1.0 + K * (deviation / RANGE - 1.0));
                out[y * width + x] =
                    u8::from(dark || 2 * u16::from(pixel) < u16::from(paper.at(x, y)));
            }
        }
        out
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(crate::cases(24)))]
        #[test]
        fn running_sums_are_the_sums_of_each_window(
            (width, height) in (16..50_usize, 16..60_usize),
            seed in prop::collection::vec(any::<u8>(), 61),
        ) {
            let pixels = (0..width * height).map(|at| seed[at % 61] / 2 + seed[at / 7 % 61] / 2);
            let grey = Grey::new(width, height, pixels.collect()).expect("a picture");
            let paper = Paper::of(&grey);
            prop_assert_eq!(ink(&grey, &paper).cells, by_hand(&grey, &paper));
        }
    }

    /// How many pixels are ink, by scikit-image 0.26, made by `tests/references/pictures.py`; away
    /// from the edge, where its windows are filled up and ours are cut.
    const OTHERS: [(u64, usize); 4] = [(1, 1274), (2, 1380), (3, 2084), (4, 2699)];

    #[test]
    fn as_much_is_ink_as_scikit_image_finds() {
        use super::super::made::{SIDE, greys, picture};
        for (seed, others) in OTHERS {
            let grey = Grey::new(SIDE, SIDE, greys(seed, &picture(seed))).expect("a picture");
            let mask = ink(&grey, &Paper::of(&grey));
            let inside = |at: usize| (8..SIDE - 8).contains(&at);
            let all = mask.cells.iter().enumerate();
            let found =
                all.filter(|&(at, &ink)| ink == 1 && inside(at % SIDE) && inside(at / SIDE));
            assert_eq!(found.count(), others, "{seed}");
        }
    }

    #[test]
    fn shade_is_no_ink_and_wide_shapes_are_full() {
        let (width, height) = (300, 200);
        let pixel = |at: usize| {
            let (x, y) = (at % width, at / width);
            let paper = 250.0 - 0.5 * x as f64;
            let inside = (100..160).contains(&x) && (50..110).contains(&y);
            let line = y == 150 || y == 151;
            (if inside || line { 0.25 * paper } else { paper }) as u8
        };
        let grey = Grey::new(width, height, (0..width * height).map(pixel).collect());
        let grey = grey.expect("a picture");
        let found = ink(&grey, &Paper::of(&grey));
        let count: usize = found.cells.iter().map(|&cell| usize::from(cell)).sum();
        assert_eq!(count, 60 * 60 + 2 * (width - 2));
    }
}
