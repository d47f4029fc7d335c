//! Numbers alone: spans and rings of repeats, ease, measured quilts, polygons, the order on a
//! frame.

use quiltpath_core::fit::{
    Count, DepthGroup, DepthRange, Ease, EaseLimits, Parity, RingSide, Stiffness, StretchLimit,
    alternatives, fit_ring, fit_span,
};
use quiltpath_core::geom::crossing::self_crossings;
use quiltpath_core::geom::quad::{Diagonals, QuadMeasures, measure_quad, sensitivity, solve_quad};
use quiltpath_core::geom::{Bounds, ConvexPolygon, Point};
use quiltpath_core::order::{Atom, AtomEnd, Loading, OrderOptions, order};

use super::dice::{Dice, finite, told};

pub(super) fn fits(data: &[u8]) {
    let mut dice = Dice::new(data);
    match dice.below(6) {
        0 => span(&mut dice),
        1 => ring(&mut dice),
        2 => ease(&mut dice),
        3 => quad(&mut dice),
        4 => polygon(&mut dice),
        _ => frame(&mut dice),
    }
}

fn count(dice: &mut Dice<'_>) -> Count {
    Count::default()
        .with_every(1 + dice.below(4))
        .with_parity(dice.pick(&[Parity::Any, Parity::Any, Parity::Even, Parity::Odd]))
        .with_fixed(dice.maybe(6, |dice| dice.below(40)))
}

fn span(dice: &mut Dice<'_>) {
    let (span, pitch) = (dice.mostly(1.0, 3000.0), dice.mostly(1.0, 200.0));
    let mut count = count(dice);
    if dice.once_in(4) {
        count.every = dice.pick(&[0, 99_999, 100_001, usize::MAX, usize::MAX / 2 + 1]);
        count.fixed = dice.maybe(2, |dice| dice.pick(&[1, 100_001, usize::MAX]));
    }
    match fit_span(span, pitch, &count) {
        Ok(fit) => {
            let back = fit.chosen.stretch * fit.chosen.repeats as f64 * pitch;
            assert!((back - span).abs() <= 1e-9 * span, "{back} {span}");
            let cost = |stretch: f64| stretch.ln().abs();
            for other in [fit.fewer, fit.more].into_iter().flatten() {
                let better = cost(other.stretch) < cost(fit.chosen.stretch) - 1e-9;
                assert!(!better || count.fixed.is_some(), "{fit:?}");
            }
        }
        Err(error) => told(&error),
    }
}

fn ring(dice: &mut Dice<'_>) {
    let sides = 1 + dice.below(8);
    let side = |dice: &mut Dice<'_>| {
        let [fixed, per_depth, pitch] =
            [(10.0, 3000.0), (-4.0, 2.0), (0.2, 5.0)].map(|(from, to)| dice.mostly(from, to));
        RingSide::new(fixed, per_depth, pitch)
            .with_count(count(dice))
            .with_tie(dice.maybe(3, |dice| dice.below(3)))
            .with_ring(dice.below(2))
            .with_legs(dice.below(3) as u8)
    };
    let (min, max) = (dice.mostly(10.0, 100.0), dice.mostly(100.0, 200.0));
    let depth = if dice.once_in(3) {
        DepthRange::fixed(min)
    } else {
        DepthRange::new(min, max)
    };
    let group = DepthGroup::new(depth, (0..sides).map(|_| side(dice)).collect());
    let ratio = |side: &RingSide| side.ratio(group.depth.min).abs();
    // Thousands of breakpoints of each side against each other take long by right.
    if group.sides.iter().map(ratio).fold(0.0, f64::max) > 2000.0 {
        return;
    }
    match fit_ring(&group) {
        Ok(fit) => {
            assert_eq!(fit.sides.len(), sides);
            assert!(
                fit.depth.is_finite() && fit.worst.is_finite() && fit.worst >= 0.0,
                "{fit:?}"
            );
            for (side, chosen) in group.sides.iter().zip(&fit.sides) {
                let stretch = side.ratio(fit.depth) / chosen.repeats as f64;
                assert!(
                    (stretch / chosen.stretch - 1.0).abs() < 1e-6,
                    "{side:?} {fit:?}"
                );
                assert!(chosen.stretch.ln().abs() <= fit.worst + 1e-6, "{fit:?}");
            }
            let limit = StretchLimit::either_way(dice.mostly(0.01, 0.3));
            match alternatives(&group, &fit, limit) {
                Ok(_) => {}
                Err(error) => told(&error),
            }
        }
        Err(error) => told(&error),
    }
}

fn ease(dice: &mut Dice<'_>) {
    let points = dice.points(0, 40, [1.0, 1.0]);
    let points: Vec<(f64, f64)> = points.iter().map(|point| (point.x, point.y)).collect();
    let stiffness = match Stiffness::of(&points, dice.mostly(0.1, 10.0)) {
        Ok(stiffness) => stiffness,
        Err(error) => return told(&error),
    };
    let limits = EaseLimits::new(dice.mostly(0.5, 1.0), dice.mostly(1.0, 2.0));
    match Ease::new(&stiffness, dice.mostly(0.5, 2.0), &limits) {
        Ok(ease) => {
            assert_eq!((ease.apply(0.0), ease.apply(1.0)), (0.0, 1.0));
            assert!(ease.values().is_sorted(), "{:?}", ease.values());
            let u = dice.between(0.0, 1.0);
            assert!(ease.local_stretch(u).is_finite() && ease.slope(u) >= 0.0);
        }
        Err(error) => told(&error),
    }
}

fn quad(dice: &mut Dice<'_>) {
    let sides = [(); 4].map(|()| dice.mostly(800.0, 1200.0));
    let diagonal = |dice: &mut Dice<'_>| dice.mostly(1100.0, 1700.0);
    let diagonals = match dice.below(3) {
        0 => Diagonals::Falling(diagonal(dice)),
        1 => Diagonals::Rising(diagonal(dice)),
        _ => Diagonals::Both {
            falling: diagonal(dice),
            rising: diagonal(dice),
        },
    };
    let measures = QuadMeasures { sides, diagonals };
    match solve_quad(&measures) {
        Ok(quad) => {
            finite(&quad.corners);
            let found = measure_quad(&quad.corners);
            let size = sides.iter().fold(1.0f64, |most, side| most.max(*side));
            let exact = !matches!(diagonals, Diagonals::Both { .. });
            for (found, given) in found.iter().zip(&sides) {
                assert!(
                    !exact || (found - given).abs() <= 1e-6 * size,
                    "{found} {given}"
                );
            }
            assert!(quad.rms().is_finite());
        }
        Err(error) => told(&error),
    }
    match sensitivity(&measures, dice.mostly(0.0, 10.0)) {
        // Infinite where no change is possible.
        Ok(moves) => assert!(moves.iter().all(|moved| *moved >= 0.0)),
        Err(error) => told(&error),
    }
}

fn polygon(dice: &mut Dice<'_>) {
    let sides = 3 + dice.below(6);
    let corners = (0..sides).map(|index| {
        let angle = std::f64::consts::TAU * index as f64 / sides as f64;
        let radius = dice.mostly(800.0, 900.0);
        Point::new(radius * angle.cos(), radius * angle.sin())
    });
    match ConvexPolygon::new(corners.collect()) {
        Ok(polygon) => {
            let widths: Vec<f64> = (0..sides).map(|_| dice.mostly(0.0, 300.0)).collect();
            match polygon.inset(&widths) {
                Ok(inside) => finite(inside.corners()),
                Err(error) => told(&error),
            }
        }
        Err(error) => told(&error),
    }
    let points = dice.points(0, 40, [8.0, 8.0]);
    if points.iter().all(|point| point.coords.amax() <= 1e9) {
        for crossing in self_crossings(&points) {
            assert!(crossing.first < crossing.second && crossing.second < points.len());
            finite(&[crossing.point]);
        }
    }
}

fn frame(dice: &mut Dice<'_>) {
    let atoms: Vec<Atom> = (0..1 + dice.below(16))
        .map(|_| {
            let ends = dice.points(2, 2, [1000.0, 1000.0]);
            let (a, b) = (ends[0], ends[1]);
            let min = Point::new(a.x.min(b.x), a.y.min(b.y));
            let max = Point::new(a.x.max(b.x), a.y.max(b.y));
            let loading = dice.pick(&[Loading::Upright, Loading::Turned]);
            Atom::new(a, b, Bounds { min, max }).with_loading(loading)
        })
        .collect();
    let end = |dice: &mut Dice<'_>| {
        let atom = dice.below(atoms.len());
        if dice.once_in(2) {
            AtomEnd::Start(atom)
        } else {
            AtomEnd::End(atom)
        }
    };
    let joins: Vec<[AtomEnd; 2]> = (0..dice.below(12))
        .map(|_| [end(dice), end(dice)])
        .collect();
    let quilt = Bounds {
        min: Point::origin(),
        max: Point::new(1000.0, 1000.0),
    };
    let options = OrderOptions::new(dice.mostly(100.0, 1500.0), quilt);
    match order(&atoms, &joins, &options) {
        Ok(ordered) => {
            assert!(ordered.cuts() >= ordered.least_cuts(), "{ordered:?}");
            assert!(ordered.travel().is_finite());
            let mut seen: Vec<usize> = ordered.too_deep.clone();
            let passes = ordered.loadings.iter().flat_map(|loaded| &loaded.passes);
            let steps = passes
                .flat_map(|pass| &pass.runs)
                .flat_map(|run| &run.steps);
            seen.extend(steps.map(|step| step.atom));
            seen.sort_unstable();
            let all: Vec<usize> = (0..atoms.len()).collect();
            assert_eq!(seen, all, "each atom once");
        }
        Err(error) => told(&error),
    }
}
