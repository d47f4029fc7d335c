//! Pictures for tests that `tests/references/pictures.py` makes alike, by whole numbers alone.

use super::ink::Mask;

pub(super) const SIDE: usize = 160;

/// A linear congruential generator, Knuth's MMIX numbers.
pub(super) struct Dice(pub(super) u64);

impl Dice {
    pub(super) fn below(&mut self, limit: u64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005);
        self.0 = self.0.wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) % limit) as i64
    }
}

/// Bars and dots of a pen along random ways.
pub(super) fn picture(seed: u64) -> Mask {
    let side = SIDE as i64;
    let mut dice = Dice(seed);
    let mut cells = vec![0; SIDE * SIDE];
    let pen = 2 + dice.below(5);
    for _ in 0..3 + dice.below(6) {
        let mut place = [0, 1].map(|_| 2 * pen + dice.below((side - 4 * pen) as u64));
        let mut by = [0, 1].map(|_| dice.below(7) - 3);
        for step in 0..20 + dice.below(60) {
            for down in -pen..=pen {
                for right in -pen..=pen {
                    let at = [place[0] + right, place[1] + down];
                    let free = at.iter().all(|at| (1..side - 1).contains(at));
                    if right * right + down * down <= pen * pen && free {
                        cells[at[1] as usize * SIDE + at[0] as usize] = 1;
                    }
                }
            }
            if step % 8 == 7 {
                by = [0, 1].map(|_| dice.below(7) - 3);
            }
            place = [0, 1].map(|axis| (place[axis] + by[axis]).rem_euclid(side));
        }
    }
    Mask { width: SIDE, cells }
}

/// Its ink and paper as grey values, with a shade across and noise.
pub(super) fn greys(seed: u64, mask: &Mask) -> Vec<u8> {
    let mut dice = Dice(seed + 1000);
    let ink = mask.cells.iter().enumerate();
    let pixels = ink.map(|(at, &ink)| {
        let light = 235 - (at % SIDE + at / SIDE) as i64 / 4 + dice.below(9);
        (if ink == 1 { light * 2 / 3 } else { light }) as u8
    });
    pixels.collect()
}
