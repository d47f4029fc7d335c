//! Ink thinned to lines one pixel wide.
//!
//! Problem: the middle line of the ink, connected as the ink is. Method: Z. Guo and R. W. Hall,
//! "Parallel thinning with two-subiteration algorithms", Communications of the ACM 32, 1989,
//! algorithm A1 (the conditions from memory): in turn from two sides, pixels go whose absence
//! changes nothing about how their eight neighbours hang together. A list of the pixels that are
//! left takes the place of passes over the picture. Guarantee: parts and holes stay as many as they
//! were, which the tests count, here by brute force and in `tests/` against scikit-image. O(ink ·
//! half the widest line). Failure: where lines cross at a sharp angle the crossing becomes two
//! forks; see `crossings`.

use super::ink::Mask;

/// What the eight neighbours are, one bit each: from the one above clockwise.
pub(super) fn neighbours(mask: &Mask, at: usize) -> u8 {
    let (cells, width) = (&mask.cells, mask.width);
    let bit = |at: usize, bit: u8| u8::from(cells[at] != 0) << bit;
    bit(at - width, 0)
        | bit(at - width + 1, 1)
        | bit(at + 1, 2)
        | bit(at + width + 1, 3)
        | bit(at + width, 4)
        | bit(at + width - 1, 5)
        | bit(at - 1, 6)
        | bit(at - width - 1, 7)
}

/// For each subiteration, whether a pixel with these neighbours goes.
const GOES: [[bool; 256]; 2] = [goes(0), goes(1)];

const fn goes(turn: usize) -> [bool; 256] {
    let mut table = [false; 256];
    let mut code = 0;
    while code < 256 {
        // As in the paper: p2 is above, and so on clockwise to p9.
        let p2 = code & 1 != 0;
        let p3 = code & 2 != 0;
        let p4 = code & 4 != 0;
        let p5 = code & 8 != 0;
        let p6 = code & 16 != 0;
        let p7 = code & 32 != 0;
        let p8 = code & 64 != 0;
        let p9 = code & 128 != 0;
        let parts = (!p2 && (p3 || p4)) as u8
            + (!p4 && (p5 || p6)) as u8
            + (!p6 && (p7 || p8)) as u8
            + (!p8 && (p9 || p2)) as u8;
        let one = (p9 || p2) as u8 + (p3 || p4) as u8 + (p5 || p6) as u8 + (p7 || p8) as u8;
        let two = (p2 || p3) as u8 + (p4 || p5) as u8 + (p6 || p7) as u8 + (p8 || p9) as u8;
        let least = if one < two { one } else { two };
        let side = if turn == 0 {
            (p6 || p7 || !p9) && p8
        } else {
            (p2 || p3 || !p5) && p4
        };
        table[code] = parts == 1 && least >= 2 && least <= 3 && !side;
        code += 1;
    }
    table
}

/// Thins the ink and returns the indices of the pixels that stay, rising.
pub(super) fn thin(mask: &mut Mask) -> Vec<u32> {
    let ink = mask
        .cells
        .iter()
        .enumerate()
        .filter(|(_, cell)| **cell != 0);
    let mut left: Vec<u32> = ink.map(|(at, _)| at as u32).collect();
    let mut gone: Vec<u32> = Vec::new();
    let mut idle = 0;
    let mut turn = 0;
    while idle < 2 {
        gone.clear();
        let table = &GOES[turn];
        left.retain(|&at| {
            let goes = table[usize::from(neighbours(mask, at as usize))];
            if goes {
                gone.push(at);
            }
            !goes
        });
        for &at in &gone {
            mask.cells[at as usize] = 0;
        }
        idle = if gone.is_empty() { idle + 1 } else { 0 };
        turn = 1 - turn;
    }
    left
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// How many parts of ink there are, by sides and corners, and how many of paper, by sides
    /// alone.
    fn parts(mask: &Mask) -> [usize; 2] {
        let count = |value: u8, steps: &[i32]| {
            let mut cells = mask.cells.clone();
            let mut parts = 0;
            for start in 0..cells.len() {
                let mut open = vec![start as i32];
                let mut found = false;
                while let Some(at) = open.pop() {
                    if at >= 0 && (at as usize) < cells.len() && cells[at as usize] == value {
                        cells[at as usize] = 2;
                        found = true;
                        open.extend(steps.iter().flat_map(|&by| [at - by, at + by]));
                    }
                }
                parts += usize::from(found);
            }
            parts
        };
        let width = mask.width as i32;
        [
            count(1, &[1, width - 1, width, width + 1]),
            count(0, &[1, width]),
        ]
    }

    #[test]
    fn a_bar_becomes_its_middle() {
        let mut mask = Mask::of_rows(&["###########", "###########", "###########"]);
        let left = thin(&mut mask);
        assert!(
            left.iter().all(|&at| at as usize / mask.width == 2),
            "{left:?}"
        );
        assert!((8..11).contains(&left.len()), "{left:?}");
    }

    /// Parts, holes and pixels that stay, by scikit-image 0.26, made by
    /// `tests/references/pictures.py`.
    const OTHERS: [(u64, usize, usize, usize); 12] = [
        (1, 4, 11, 492),
        (2, 4, 38, 464),
        (3, 5, 0, 428),
        (4, 3, 6, 493),
        (5, 2, 18, 777),
        (6, 4, 9, 390),
        (7, 2, 7, 498),
        (8, 3, 0, 161),
        (9, 6, 1, 400),
        (10, 4, 7, 558),
        (11, 5, 2, 352),
        (12, 2, 88, 878),
    ];

    #[test]
    fn lines_hang_together_as_those_of_scikit_image_do() {
        for (seed, others, holes, stay) in OTHERS {
            let mut mask = super::super::made::picture(seed);
            let left = thin(&mut mask);
            assert_eq!(parts(&mask), [others, holes + 1], "{seed}");
            // The two halves of a step in the other order leave other pixels at corners.
            assert!(left.len().abs_diff(stay) * 25 <= stay, "{seed}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(crate::cases(128)))]
        #[test]
        fn parts_and_holes_stay_and_nothing_more_can_go(
            cells in prop::collection::vec(0..5_u8, 18 * 18),
            wide in 1..4_usize,
        ) {
            let mut mask = Mask { width: 20, cells: vec![0; 20 * 20] };
            for (at, &cell) in cells.iter().enumerate() {
                let (x, y) = (at % 18 / wide * wide, at / 18 / wide * wide);
                let from = cells[y * 18 + x];
                mask.cells[(at / 18 + 1) * 20 + at % 18 + 1] = u8::from(from < 2 || cell == 0);
            }
            let before = mask.clone();
            let left = thin(&mut mask);
            prop_assert_eq!(parts(&before), parts(&mask));
            prop_assert!(mask.cells.iter().zip(&before.cells).all(|(now, then)| now <= then));
            prop_assert_eq!(left.len(), mask.cells.iter().filter(|cell| **cell != 0).count());
            let again = thin(&mut mask.clone());
            prop_assert_eq!(again, left);
        }
    }
}
