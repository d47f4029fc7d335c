//! Random corner drawings in an L whose leg depths are known: waves, loops, leaves, scrolls and
//! lines that wander.
//!
//! A run has a share along, -1 at the open end of the upright leg, 0 on the elbow's diagonal, 1 at
//! the open end of the level leg, and a height, 0 on the inner line to 1 on the outer one. The
//! elbow lies at the origin, top left. Only runs are taken that reach both lines of either leg, the
//! inner one well away from the elbow, so that the depths are those of the ink. Nothing else is the
//! same from one drawing to the next: few crests lie on the outer lines, seldom two on one, and the
//! ends lie at any height.

use std::f64::consts::TAU;

use quiltpath_core::geom::Point;

/// Whole numbers by a linear congruence, as Knuth's MMIX has it (numbers from memory).
struct Rolls(u64);

impl Rolls {
    fn between(&mut self, from: f64, to: f64) -> f64 {
        self.0 = (self.0)
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        from + (to - from) * (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    fn below(&mut self, limit: usize) -> usize {
        (self.between(0.0, limit as f64) as usize).min(limit - 1)
    }

    fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }
}

/// What the line of an L does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// It swings from line to line.
    Wave,
    /// It winds forward in loops.
    Loops,
    /// A stem with pointed leaves on either side.
    Leaves,
    /// It winds into scrolls and out again.
    Scrolls,
    /// It wanders.
    Wander,
}

/// All kinds in turn.
const KINDS: [Kind; 5] = [
    Kind::Wave,
    Kind::Loops,
    Kind::Leaves,
    Kind::Scrolls,
    Kind::Wander,
];

/// A drawing in an L.
#[derive(Debug, Clone)]
pub struct Ell {
    /// What its line does.
    pub kind: Kind,
    /// From the open end of the upright leg to that of the level one.
    pub points: Vec<Point>,
    /// The depths of the level and of the upright leg.
    pub depths: [f64; 2],
    /// Its width and its height.
    pub size: [f64; 2],
}

/// The L of this number.
#[must_use]
pub fn ell(number: u64) -> Ell {
    let mut rolls = Rolls(number.wrapping_mul(0x9e37_79b9_7f4a_7c15));
    let kind = KINDS[number as usize % KINDS.len()];
    loop {
        if let Some(ell) = try_ell(&mut rolls, kind) {
            return ell;
        }
    }
}

fn try_ell(rolls: &mut Rolls, kind: Kind) -> Option<Ell> {
    let level = rolls.between(1.0, 4.0);
    let upright = match rolls.once_in(3) {
        true => level * rolls.between(0.7, 1.4),
        false => level,
    };
    let free = rolls.between(0.8, 3.5);
    let frees = match rolls.once_in(3) {
        true => [free, rolls.between(0.8, 3.5)],
        false => [free; 2],
    };
    let size = [upright + frees[0] * level, level + frees[1] * upright];
    // How many depths long the middle of either leg is.
    let long = [frees[1] + 0.5, frees[0] + 0.5];
    let run = match kind {
        Kind::Wave => wave(rolls),
        Kind::Loops => loops(rolls, long),
        Kind::Leaves => leaves(rolls),
        Kind::Scrolls => scrolls(rolls, long),
        Kind::Wander => wander(rolls),
    };
    let run: Vec<(f64, f64)> = (run.into_iter())
        .map(|(along, height)| (along.clamp(-1.0, 1.0), height.clamp(0.0, 1.0)))
        .collect();
    let reaches = |sign: f64, line: f64, from: f64| {
        run.iter().any(|&(along, height)| {
            (from..0.9).contains(&(along * sign)) && (height - line).abs() < 1e-3
        })
    };
    let both = [-1.0, 1.0]
        .iter()
        .all(|&sign| reaches(sign, 0.0, 0.3) && reaches(sign, 1.0, 0.0));
    let place = |&(along, height): &(f64, f64)| {
        let (x, y) = (upright * (1.0 - height), level * (1.0 - height));
        match along < 0.0 {
            true => Point::new(x, y - along * (size[1] - y)),
            false => Point::new(x + along * (size[0] - x), y),
        }
    };
    let points: Vec<Point> = run.iter().map(place).collect();
    both.then_some(Ell {
        kind,
        points,
        depths: [level, upright],
        size,
    })
}

/// Heights of 0 and 1 in a wave with one or two overtones, which touch the lines at some of its
/// crests.
fn wave(rolls: &mut Rolls) -> Vec<(f64, f64)> {
    let waves = rolls.between(1.2, 4.0);
    let phase = rolls.between(0.0, 1.0);
    let overtone = rolls.between(0.0, 0.5);
    let shift = rolls.between(0.0, 1.0);
    let times = 2 + rolls.below(2);
    let height = |along: f64| {
        let turn = TAU * (waves * along + phase);
        turn.sin() + overtone * (times as f64 * turn + TAU * shift).sin()
    };
    stretched(&evenly(600, height))
}

fn loops(rolls: &mut Rolls, long: [f64; 2]) -> Vec<(f64, f64)> {
    let loops = 1 + rolls.below(4);
    let phase = rolls.between(0.0, 1.0);
    let wide = rolls.between(0.25, 0.6);
    let swell = rolls.between(0.0, 0.4);
    let at = |along: f64| {
        let turn = TAU * (loops as f64 * along + phase);
        let long = long[usize::from(along > 0.0)];
        let size = 1.0 - swell * (1.0 + (2.0 * turn).sin()) / 2.0;
        // It starts and ends straight.
        let tame = (4.0 * (1.0 - along.abs())).min(1.0);
        (
            along + tame * wide / long * turn.sin(),
            tame * size * turn.cos(),
        )
    };
    let run: Vec<(f64, f64)> = (0..=900)
        .map(|at| f64::from(at) / 450.0 - 1.0)
        .map(at)
        .collect();
    stretched(&run)
}

/// A stem that sways, with leaves that reach the lines at their tips.
fn leaves(rolls: &mut Rolls) -> Vec<(f64, f64)> {
    let sway = rolls.between(0.02, 0.2);
    let phase = rolls.between(0.0, 1.0);
    let stem = |along: f64| 0.5 + sway * (TAU * (1.3 * along + phase)).sin();
    let leaves = 3 + rolls.below(8);
    let lean = rolls.between(-0.15, 0.15);
    let mut run = vec![(-1.0, stem(-1.0))];
    for leaf in 0..leaves {
        let along = -1.0 + 2.0 * (leaf as f64 + rolls.between(0.2, 0.8)) / leaves as f64;
        let root = (along, stem(along));
        let before = run[run.len() - 1].0;
        let steps = 12;
        run.extend((1..steps).map(|step| {
            let at = before + (along - before) * f64::from(step) / f64::from(steps);
            (at, stem(at))
        }));
        let line = f64::from(u8::from(leaf % 2 == 0));
        let short = match rolls.once_in(3) {
            true => rolls.between(0.6, 1.0),
            false => 1.0,
        };
        let tip = (along + lean, root.1 + (line - root.1) * short);
        let belly = rolls.between(0.02, 0.1);
        let side = |bend: f64| {
            (0..=16).map(move |step| {
                let share = f64::from(step) / 16.0;
                let out = bend * (TAU * share / 2.0).sin();
                (
                    root.0 + (tip.0 - root.0) * share + out,
                    root.1 + (tip.1 - root.1) * share,
                )
            })
        };
        run.extend(side(belly));
        run.extend(side(-belly).rev());
    }
    let before = run[run.len() - 1].0;
    run.extend((1..=12).map(|step| {
        let at = before + (1.0 - before) * f64::from(step) / 12.0;
        (at, stem(at))
    }));
    run
}

/// Scrolls on a stem, each as high as the leg or nearly so.
fn scrolls(rolls: &mut Rolls, long: [f64; 2]) -> Vec<(f64, f64)> {
    let each = 1 + rolls.below(2);
    let sway = rolls.between(-0.3, 0.3);
    let mut run = vec![(-1.0, 0.5 + sway)];
    for leg in [0, 1] {
        if leg == 1 {
            run.push((0.0, 0.5));
        }
        for scroll in 0..each {
            let share = (scroll as f64 + 0.5) / each as f64 + rolls.between(-0.05, 0.05);
            let middle = if leg == 0 { share - 1.0 } else { share };
            let radius = match scroll > 0 && rolls.once_in(2) {
                true => rolls.between(0.3, 0.5),
                false => 0.5,
            };
            let turns = rolls.between(1.2, 2.7);
            let hand = if rolls.once_in(2) { 1.0 } else { -1.0 };
            let at = |share: f64, way: f64| {
                let size = radius * (1.0 - 0.8 * share);
                let turn = TAU * turns * share;
                (
                    middle - way * size / long[leg] * turn.cos(),
                    0.5 - way * hand * size * turn.sin(),
                )
            };
            let steps = 120;
            run.extend((0..=steps).map(|step| at(f64::from(step) / f64::from(steps), 1.0)));
            run.extend(
                (0..=steps)
                    .rev()
                    .map(|step| at(f64::from(step) / f64::from(steps), -1.0)),
            );
        }
    }
    run.push((1.0, 0.5 - sway));
    stretched(&run)
}

/// Five waves of chance, the whole brought to the lines.
fn wander(rolls: &mut Rolls) -> Vec<(f64, f64)> {
    let waves: Vec<[f64; 3]> = (1..=6)
        .map(|waves| {
            let size = rolls.between(-1.0, 1.0) / f64::from(waves).sqrt();
            [f64::from(waves), size, rolls.between(0.0, 1.0)]
        })
        .collect();
    let height = |along: f64| {
        let sum = waves
            .iter()
            .map(|[waves, size, phase]| size * (TAU * (waves / 2.0 * along + phase)).sin());
        sum.sum()
    };
    stretched(&evenly(600, height))
}

fn evenly(steps: u32, height: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
    let along = (0..=steps).map(|at| f64::from(at) / f64::from(steps) * 2.0 - 1.0);
    along.map(|along| (along, height(along))).collect()
}

/// Brings the least and the greatest height of either leg to its lines; from one leg's stretch to
/// the other's it goes over evenly across the elbow.
fn stretched(run: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let range = |sign: f64| {
        let heights = run.iter().filter(|at| at.0 * sign > 0.0).map(|at| at.1);
        heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
            (low.min(at), high.max(at))
        })
    };
    let (before, after) = (range(-1.0), range(1.0));
    let mixed = |&(along, height): &(f64, f64)| {
        let share = (along / 0.3 + 0.5).clamp(0.0, 1.0);
        let mix = |from: f64, to: f64| from + (to - from) * share;
        let (low, high) = (mix(before.0, after.0), mix(before.1, after.1));
        (along, (height - low) / (high - low))
    };
    run.iter().map(mixed).collect()
}
