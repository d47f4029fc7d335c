//! Connected parts of the ink, as runs along rows.
//!
//! Problem: which ink hangs together (by sides or corners), with the size and the shape of each
//! part. Method: runs of each row are united with those of the row above that they touch; sums of
//! area and moments come from the runs. Guarantee: O(pixels) to find the runs, near O(runs) for the
//! rest, 16 bytes a run. Failure: more runs than drawings have are refused, so that memory stays
//! bounded.

use super::ink::Mask;
use crate::error::{Error, ScanFault};
use crate::geom::Point;
use crate::graph::{root, unite};

/// Runs of ink that a picture may have: 4 million, an eighth of what noise at the largest size has.
const MAX_RUNS: usize = 4_000_000;

/// A run of ink in a row: from here to before there.
#[derive(Debug, Clone, Copy)]
struct Run {
    y: u32,
    from: u32,
    to: u32,
    blob: u32,
}

/// One connected part.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Blob {
    /// Pixels.
    pub(super) area: f64,
    /// Left, top, right, bottom, in pixels; the last two beyond the last pixel.
    pub(super) bounds: [u32; 4],
    /// The middle, in pixels from the top left of the picture.
    pub(super) centre: [f64; 2],
    /// The spread about the middle: of x, of y, and of both.
    pub(super) spread: [f64; 3],
}

impl Blob {
    pub(super) fn size(&self) -> [f64; 2] {
        let [left, top, right, bottom] = self.bounds;
        [f64::from(right - left), f64::from(bottom - top)]
    }

    /// From corner to corner of its box.
    pub(super) fn diagonal(&self) -> f64 {
        let [width, height] = self.size();
        width.hypot(height)
    }

    pub(super) fn touches_edge(&self, mask: &Mask) -> bool {
        let [left, top, right, bottom] = self.bounds.map(|at| at as usize);
        left <= 1 || top <= 1 || right + 1 >= mask.width || bottom + 1 >= mask.height()
    }
}

/// All connected parts of a mask, with the runs that they are made of.
#[derive(Debug)]
pub(super) struct Blobs {
    runs: Vec<Run>,
    pub(super) blobs: Vec<Blob>,
}

impl Blobs {
    /// # Errors
    ///
    /// A scan error when there are too many runs.
    pub(super) fn of(mask: &Mask) -> Result<Self, Error> {
        let mut runs: Vec<Run> = Vec::new();
        let mut parent: Vec<usize> = Vec::new();
        let mut above = 0..0;
        for (y, row) in mask.cells.chunks_exact(mask.width).enumerate() {
            let start = runs.len();
            let mut candidate = above.start;
            let mut x = 0;
            while let Some(from) = row[x..].iter().position(|&cell| cell != 0) {
                let from = x + from;
                let length = row[from..].iter().position(|&cell| cell == 0);
                let to = length.map_or(row.len(), |length| from + length);
                x = to;
                let own = runs.len();
                parent.push(own);
                while candidate < above.end && (runs[candidate].to as usize) < from {
                    candidate += 1;
                }
                let mut touching = candidate;
                while touching < above.end && runs[touching].from as usize <= to {
                    unite(&mut parent, [touching, own]);
                    touching += 1;
                }
                runs.push(Run {
                    y: y as u32,
                    from: from as u32,
                    to: to as u32,
                    blob: 0,
                });
            }
            if runs.len() > MAX_RUNS {
                return Err(ScanFault::TooBusy {
                    what: "runs of dark pixels",
                    found: runs.len(),
                    limit: MAX_RUNS,
                }
                .into());
            }
            above = start..runs.len();
        }
        let mut number = vec![u32::MAX; runs.len()];
        let mut sums: Vec<Moments> = Vec::new();
        for (at, run) in runs.iter_mut().enumerate() {
            let top = root(&mut parent, at);
            if number[top] == u32::MAX {
                number[top] = sums.len() as u32;
                sums.push(Moments::new());
            }
            run.blob = number[top];
            sums[run.blob as usize].add(run);
        }
        Ok(Self {
            runs,
            blobs: sums.iter().map(Moments::blob).collect(),
        })
    }

    /// Takes the ink of these parts away.
    pub(super) fn erase(&self, mask: &mut Mask, gone: impl Fn(usize) -> bool) {
        for run in &self.runs {
            if gone(run.blob as usize) {
                let row = run.y as usize * mask.width;
                mask.cells[row + run.from as usize..row + run.to as usize].fill(0);
            }
        }
    }

    /// Calls with the part and both ends of each run, and its middle.
    pub(super) fn each_run_end(&self, mut call: impl FnMut(usize, Point)) {
        for run in &self.runs {
            let y = f64::from(run.y) + 0.5;
            let [from, to] = [run.from, run.to].map(f64::from);
            for x in [from, 0.5 * (from + to), to] {
                call(run.blob as usize, Point::new(x, y));
            }
        }
    }

    /// Calls with the part and the index of each pixel of ink.
    pub(super) fn each_pixel(&self, width: usize, mut call: impl FnMut(usize, usize)) {
        for run in &self.runs {
            let row = run.y as usize * width;
            for x in run.from..run.to {
                call(run.blob as usize, row + x as usize);
            }
        }
    }
}

/// Sums over the pixels of a part.
struct Moments {
    bounds: [u32; 4],
    area: f64,
    x: f64,
    y: f64,
    xx: f64,
    yy: f64,
    xy: f64,
}

impl Moments {
    fn new() -> Self {
        Self {
            bounds: [u32::MAX, u32::MAX, 0, 0],
            area: 0.0,
            x: 0.0,
            y: 0.0,
            xx: 0.0,
            yy: 0.0,
            xy: 0.0,
        }
    }

    fn add(&mut self, run: &Run) {
        let count = f64::from(run.to - run.from);
        let middle = 0.5 * f64::from(run.from + run.to);
        let y = f64::from(run.y) + 0.5;
        self.area += count;
        self.x += count * middle;
        self.y += count * y;
        // Pixels are squares, so a run spreads like an even bar, and a row by a twelfth.
        self.xx += count * (middle * middle + count * count / 12.0);
        self.yy += count * (y * y + 1.0 / 12.0);
        self.xy += count * middle * y;
        let [left, top, right, bottom] = self.bounds;
        self.bounds = [
            left.min(run.from),
            top.min(run.y),
            right.max(run.to),
            bottom.max(run.y + 1),
        ];
    }

    fn blob(&self) -> Blob {
        let [x, y] = [self.x / self.area, self.y / self.area];
        Blob {
            area: self.area,
            bounds: self.bounds,
            centre: [x, y],
            spread: [
                self.xx / self.area - x * x,
                self.yy / self.area - y * y,
                self.xy / self.area - x * y,
            ],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn corners_hang_together_and_moments_are_those_of_squares() {
        let mask = Mask::of_rows(&["##...", "##..#", "..##.", "....."]);
        let blobs = Blobs::of(&mask).expect("few runs").blobs;
        assert_eq!(blobs.len(), 1);
        assert_eq!(blobs[0].area, 7.0);
        assert_eq!(blobs[0].bounds, [1, 1, 6, 4]);
        let mask = Mask::of_rows(&["......", ".####.", ".####.", ".####.", ".####."]);
        let square = &Blobs::of(&mask).expect("few runs").blobs[0];
        assert_eq!(square.centre, [4.0, 4.0]);
        let [x, y, both] = square.spread;
        let twelfth = 16.0 / 12.0;
        for (found, right) in [(x, twelfth), (y, twelfth), (both, 0.0)] {
            assert!((found - right).abs() < 1e-12, "{found} {right}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(crate::cases(64)))]
        /// The same parts as a flood from pixel to pixel finds.
        #[test]
        fn parts_are_those_of_a_flood(cells in prop::collection::vec(0..3_u8, 12 * 12)) {
            let mut mask = Mask { width: 14, cells: vec![0; 14 * 14] };
            for (at, &cell) in cells.iter().enumerate() {
                mask.cells[(at / 12 + 1) * 14 + at % 12 + 1] = u8::from(cell == 0);
            }
            let mut left = mask.cells.clone();
            let mut areas = Vec::new();
            for start in 0..left.len() {
                let mut open = vec![start];
                let mut area = 0.0;
                while let Some(at) = open.pop() {
                    if left[at] != 0 {
                        left[at] = 0;
                        area += 1.0;
                        open.extend([1, 13, 14, 15].iter().flat_map(|&by| [at - by, at + by]));
                    }
                }
                if area > 0.0 {
                    areas.push(area);
                }
            }
            let found = Blobs::of(&mask).expect("few runs");
            let mut own: Vec<f64> = found.blobs.iter().map(|blob| blob.area).collect();
            areas.sort_by(f64::total_cmp);
            own.sort_by(f64::total_cmp);
            prop_assert_eq!(own, areas);
            found.erase(&mut mask, |_| true);
            prop_assert!(mask.cells.iter().all(|&cell| cell == 0));
        }
    }
}
