//! Whole quilts put in order: what comes out holds together and is counted right.

use super::loading::TURN_RATIO;
use super::*;
use crate::chain::{Across, ChainOptions, Repeat, Terminal, chain_repeats};
use crate::geom::{Point, Vector};
use crate::motif::Motif;
use crate::trim::Exactness;
use crate::warp::Strip;
use proptest::prelude::*;

fn motif(points: &[(f64, f64)]) -> Motif {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Motif::from_points("m", points).expect("a motif")
}

/// A ring round a polygon: a corner motif at each corner, copies of a wave between them.
struct Ring {
    motifs: Vec<(Motif, Vec<usize>)>,
    quilt: Bounds,
}

impl Ring {
    /// `reach` is how far a corner motif goes along its sides, `depth` how far it goes inwards.
    fn round(corners: &[Point], reach: f64, depth: f64, copies: usize) -> Self {
        let count = corners.len();
        let wave = motif(&[(0.0, 2.0), (1.0, 4.0), (2.0, 0.0), (3.0, 2.0)]);
        let wave = Repeat::new(&wave).expect("a repeat");
        let mut motifs = Vec::new();
        for k in 0..count {
            let [before, corner] = [corners[(k + count - 1) % count], corners[k]];
            let next = corners[(k + 1) % count];
            let arrival = (before - corner).normalize();
            let along = (next - corner).normalize();
            let inwards = Vector::new(-along.y, along.x);
            let strip = Strip::of_unit(corner + inwards * depth, along, -inwards * depth);
            let middle = inwards * (depth / 2.0);
            let start =
                corner + arrival * reach + Vector::new(arrival.y, -arrival.x) * (depth / 2.0);
            let line = [start, corner, corner + along * reach + middle];
            motifs.push((motif(&line.map(|point| (point.x, point.y))), vec![]));
            let far = (next - corner).norm() - reach;
            let terminals =
                [reach, far].map(|along| Terminal::new(along).with_across(Across::At(0.5)));
            let options = ChainOptions::new(copies).with_join_tolerance(1e-3);
            let chain = chain_repeats(&wave, &strip, terminals, &options).expect("a side");
            motifs.push((chain.motif, chain.ends));
        }
        let quilt = Bounds::of(corners).expect("corners");
        Self { motifs, quilt }
    }

    fn polygon(sides: usize, radius: f64, turn: f64, copies: usize) -> Self {
        let corner = |k: usize| {
            let angle = turn + std::f64::consts::TAU * k as f64 / sides as f64;
            Point::new(900.0 + radius * angle.cos(), 1200.0 + radius * angle.sin())
        };
        let corners: Vec<Point> = (0..sides).map(corner).collect();
        // At the sharpest corner, 60 degrees, sides start where they no longer overlap.
        Self::round(&corners, 70.0, 60.0, copies)
    }

    fn pieces(&self) -> Vec<Placed<'_>> {
        self.motifs
            .iter()
            .map(|(motif, ends)| Placed {
                motif,
                ends,
                with: None,
                or_with: None,
            })
            .collect()
    }

    fn divided(&self, throat: impl Into<Throat>, loadings: Loadings) -> Divided {
        let frame = OrderOptions::new(throat, self.quilt);
        let mut divided = divide(&self.pieces(), &frame, loadings).expect("divided");
        for piece in 0..self.motifs.len() {
            divided
                .join(piece, (piece + 1) % self.motifs.len())
                .expect("joined");
        }
        divided
    }

    fn ordered(&self, throat: impl Into<Throat>, loadings: Loadings) -> (Divided, Ordered) {
        self.swept(throat.into(), loadings, false)
    }

    /// The corners in the first sweep and the sides in the second, or all in the first.
    fn swept(&self, throat: Throat, loadings: Loadings, twice: bool) -> (Divided, Ordered) {
        let mut divided = self.divided(throat, loadings);
        for (atom, stretch) in divided.atoms.iter_mut().zip(&divided.stretches) {
            if twice && stretch.piece % 2 == 1 {
                atom.sweep = Sweep::Second;
            }
        }
        let quilt = self.quilt;
        let ordered = order(
            &divided.atoms,
            &divided.joins,
            &OrderOptions::new(throat, quilt),
        );
        let ordered = ordered.expect("ordered");
        self.hold(&divided, &ordered, throat);
        (divided, ordered)
    }

    /// Holds what was ordered against what it has to be.
    fn hold(&self, divided: &Divided, ordered: &Ordered, throat: Throat) {
        let pieces = self.pieces();
        let mut times = vec![0; divided.atoms.len()];
        assert!(ordered.too_deep.is_empty());
        let mut at: Option<Point> = None;
        for loaded in &ordered.loadings {
            assert_eq!(loaded.apart.len(), loaded.passes.len());
            let mut tops: Vec<f64> = loaded.passes.iter().map(|pass| pass.top).collect();
            if loaded.back {
                tops.reverse();
            } else {
                at = None;
            }
            assert!(tops.windows(2).all(|pair| pair[0] < pair[1]));
            let mut travel = 0.0;
            let mut runs = 0;
            for pass in &loaded.passes {
                assert!(!pass.runs.is_empty());
                assert_eq!(pass.reach, throat.reach(pass.top));
                for run in &pass.runs {
                    runs += 1;
                    for step in &run.steps {
                        times[step.atom] += 1;
                        assert_eq!(divided.atoms[step.atom].loading, loaded.loading);
                    }
                    // The run's own points, as the machine sees them, lie in the window.
                    let line = divided.line(&pieces, &run.steps);
                    for &point in &line {
                        let seen = pass.to_machine.apply(point);
                        assert!((-1e-6..=pass.reach + 1e-6).contains(&seen.y), "{seen}");
                        assert!((pass.to_cloth.apply(seen) - point).norm() < 1e-9);
                    }
                    let ends = [line[0], line[line.len() - 1]];
                    assert_eq!((ends[0] - ends[1]).norm() < 1e-6, run.closed);
                    let [entry, exit] = ends.map(|point| pass.to_machine.apply(point));
                    travel += at.map_or(0.0, |at| (entry - at).norm());
                    at = Some(exit);
                    let own = |step: &RunStep| {
                        let atom = &divided.atoms[step.atom];
                        let ends = [atom.start, atom.end];
                        if step.reversed {
                            [ends[1], ends[0]]
                        } else {
                            ends
                        }
                    };
                    for pair in run.steps.windows(2) {
                        assert!((own(&pair[0])[1] - own(&pair[1])[0]).norm() < 1e-6);
                    }
                }
            }
            assert_eq!((loaded.cuts, loaded.least_cuts), (runs, runs));
            assert!(
                (loaded.travel - travel).abs() < 1e-6,
                "{} {travel}",
                loaded.travel
            );
        }
        assert!(times.iter().all(|&times| times == 1), "{times:?}");
    }
}

fn square() -> Ring {
    let corners = [(0.0, 0.0), (60.0, 0.0), (60.0, 60.0), (0.0, 60.0)];
    Ring::round(&corners.map(|(x, y)| Point::new(x, y)), 6.0, 6.0, 8)
}

/// By hand: rows of 6 make the square 10 rows high, a throat of 20 takes three of them, so the rows
/// are stitched 3 + 3 + 3 + 1 at best down the right side. The first and the last window have one
/// run, the others two. Up the left side as well, the way across the quilt, 54 at least, would be
/// taken twice and 18 from the end of the third window to the top of the last; up the left side in
/// rows of 3 + 1 + 3 + 3 the last window begins at 42 and it is less. Turned, each side is one run;
/// the corners stay with the top and the bottom.
#[test]
fn a_square_quilt_takes_four_passes_once_or_two_and_two_when_turned() {
    let (divided, ordered) = square().ordered(20.0, Loadings::Once);
    assert_eq!(divided.atoms.len(), 4 + 4 * 8);
    assert_eq!((ordered.passes(), ordered.cuts()), (4, 6));
    let tops: Vec<f64> = ordered.loadings[0]
        .passes
        .iter()
        .map(|pass| pass.top)
        .collect();
    for (top, expected) in tops.iter().zip([0.0, 18.0, 36.0, 42.0]) {
        assert!((top - expected).abs() < 1e-9, "{tops:?}");
    }
    assert!(ordered.travel() < 2.0 * 54.0 + 18.0);
    let (_, turned) = square().ordered(20.0, Loadings::Twice);
    assert_eq!(turned.loadings.len(), 2);
    for loaded in &turned.loadings {
        assert_eq!((loaded.passes.len(), loaded.cuts), (2, 2));
    }
    let (_, one) = square().ordered(60.0, Loadings::Once);
    assert_eq!((one.passes(), one.cuts(), one.travel()), (1, 1, 0.0));
    assert!(one.loadings[0].passes[0].runs[0].closed);
    // A ring as drawn, from its first corner.
    assert!(
        one.loadings[0].passes[0].runs[0]
            .steps
            .iter()
            .all(|step| !step.reversed)
    );
    assert_eq!(one.loadings[0].passes[0].runs[0].steps[0].atom, 0);
}

/// By hand, on the same square: the corners lie in windows at 0 and at 54; the sides take four, as
/// with the corners, of which the lowest takes the lower corners, too.
#[test]
fn corners_go_down_and_sides_come_back_up() {
    let (divided, ordered) = square().swept(Throat::new(20.0), Loadings::Once, true);
    let [down, up] = ordered.loadings.as_slice() else {
        panic!("{} sweeps", ordered.loadings.len());
    };
    assert!(!down.back && up.back);
    assert_eq!((down.passes.len(), up.passes.len()), (2, 4));
    // Each corner is a run, and all of them come before any side.
    assert_eq!(down.cuts, 4);
    let first: Vec<usize> = down
        .passes
        .iter()
        .flat_map(|pass| &pass.runs)
        .flat_map(|run| &run.steps)
        .map(|step| divided.stretches[step.atom].piece)
        .collect();
    assert!(
        first.iter().all(|piece| piece % 2 == 0) && first.len() == 4,
        "{first:?}"
    );
    // The quilt stays where it is between the sweeps.
    assert_eq!(down.passes[1].top, up.passes[0].top);
    assert!(up.passes[0].top < 54.0 && up.passes[3].top.abs() < 1e-9);
    // The sides by themselves, without the corners, take as many passes and cuts.
    let sides: Vec<Atom> = (divided.atoms.iter().zip(&divided.stretches))
        .filter(|(_, stretch)| stretch.piece % 2 == 1)
        .map(|(atom, _)| *atom)
        .collect();
    let joins: Vec<[AtomEnd; 2]> = (1..sides.len())
        .filter(|atom| atom % 8 > 0)
        .map(|atom| [AtomEnd::End(atom - 1), AtomEnd::Start(atom)])
        .collect();
    let alone = order(&sides, &joins, &OrderOptions::new(20.0, square().quilt)).expect("ordered");
    // Without a first sweep the second goes down.
    assert!(!alone.loadings[0].back && alone.loadings[0].passes[0].top.abs() < 1e-9);
    assert_eq!((alone.passes(), alone.cuts()), (4, up.cuts));
    assert!(ordered.least_travel() <= ordered.travel());
    assert!(alone.travel() + down.travel <= ordered.travel() + 60.0);
}

#[test]
fn what_is_deeper_than_the_throat_is_reported_and_left_out() {
    let divided = square().divided(20.0, Loadings::Once);
    let options = OrderOptions::new(5.0, square().quilt);
    let ordered = order(&divided.atoms, &divided.joins, &options).expect("ordered");
    // The corners and the copies down the sides are 6 deep, those across as deep as the band.
    assert_eq!(ordered.too_deep.len(), divided.atoms.len());
    assert!(ordered.loadings.is_empty());
    assert_eq!(
        (ordered.passes(), ordered.cuts(), ordered.travel()),
        (0, 0, 0.0)
    );
    let nothing = order(&[], &[], &options).expect("nothing to do");
    assert!(nothing.loadings.is_empty());
}

#[test]
fn what_cannot_be_ordered_is_refused_with_its_place() {
    let point = Point::new(1.0, 2.0);
    let bounds = Bounds {
        min: point,
        max: point,
    };
    let atom = Atom {
        start: point,
        end: point,
        bounds,
        loading: Loading::Upright,
        either: false,
        sweep: Sweep::First,
    };
    let good = OrderOptions::new(3.0, bounds);
    let refused = |atoms: &[Atom], joins: &[[AtomEnd; 2]], options: OrderOptions| {
        order(atoms, joins, &options)
            .expect_err("refused")
            .to_string()
    };
    for throat in [0.0, -2.0, f64::NAN, f64::INFINITY] {
        let throat = Throat::new(throat);
        let error = refused(&[atom], &[], OrderOptions { throat, ..good });
        assert!(error.starts_with("the throat is"), "{error}");
    }
    let astray = Point::new(f64::NAN, 0.0);
    let quilt = Bounds {
        min: astray,
        max: point,
    };
    assert!(
        refused(&[atom], &[], OrderOptions { quilt, ..good }).starts_with("the quilt: point 0")
    );
    let far = Atom {
        end: Point::new(0.0, 1e300),
        ..atom
    };
    assert!(refused(&[atom, far], &[], good).starts_with("atom 1: point 1"));
    let join = [AtomEnd::End(0), AtomEnd::Start(1)];
    let error = refused(&[atom], &[join], good);
    assert!(
        error.starts_with("join 0: atom 1 is joined, but there are only 1"),
        "{error}"
    );
    let many = vec![atom; MAX_ATOMS + 1];
    assert!(refused(&many, &[], good).contains("more than 10000"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(64)))]

    /// Rings round polygons in any orientation, loaded once or twice; `hold` checks the rest.
    #[test]
    fn a_ring_round_any_polygon_holds_together(
        sides in 3usize..=12, turn in 0.0..7.0f64, copies in 1usize..12, throat in 100.0..2000.0f64,
        twice in any::<bool>(), thickness in prop::option::of(0.5..8.0f64), swept in any::<bool>(),
    ) {
        let loadings = if twice { Loadings::Twice } else { Loadings::Once };
        let ring = Ring::polygon(sides, 800.0, turn, copies);
        let roll = thickness.map(|thickness| Roll::new(50.0, thickness).expect("a roll"));
        let throat = Throat::new(throat).with_roll(roll);
        let (divided, ordered) = ring.swept(throat, loadings, swept);
        let mut stitched: Vec<Loading> =
            ordered.loadings.iter().map(|loaded| loaded.loading).collect();
        stitched.dedup();
        prop_assert!(twice || stitched == [Loading::Upright]);
        for loaded in &ordered.loadings {
            let steps = loaded.passes.iter().flat_map(|pass| &pass.runs).flat_map(|run| &run.steps);
            let sweeps: Vec<Sweep> = steps.map(|step| divided.atoms[step.atom].sweep).collect();
            prop_assert!(sweeps.iter().all(|sweep| *sweep == sweeps[0]));
            prop_assert!(!loaded.back || sweeps[0] == Sweep::Second);
            let bound = match loaded.exactness {
                Exactness::Exact => loaded.travel,
                Exactness::Bound { lower, .. } => lower,
            };
            prop_assert!(bound <= loaded.travel * (1.0 + 1e-12));
        }
        if twice {
            // Each side lies across in the loading that it went into.
            for (piece, (motif, _)) in ring.motifs.iter().enumerate().skip(1).step_by(2) {
                let bounds = motif.bounds();
                let loading = Loading::of(&bounds);
                let [from, to] = loading.span(&bounds);
                let least = bounds.width().min(bounds.height());
                prop_assert!(to - from <= TURN_RATIO * least + 1e-9, "piece {piece}");
            }
        }
    }

    /// Atoms without any joins, in heaps: each is a run of its own, and none is lost.
    #[test]
    fn atoms_by_themselves_are_a_run_each(
        places in prop::collection::vec((0.0..50.0f64, 0.0..90.0f64, 0.0..9.0f64, any::<bool>()), 0..40),
        throat in 9.0..30.0f64,
    ) {
        let atoms: Vec<Atom> = places.iter().map(|&(x, y, size, turned)| {
            let bounds = Bounds { min: Point::new(x, y), max: Point::new(x + size, y + size) };
            let loading = Loading::ALL[usize::from(turned)];
            Atom::new(bounds.min, bounds.max, bounds).with_loading(loading)
        }).collect();
        let quilt = Bounds { min: Point::new(0.0, 0.0), max: Point::new(60.0, 100.0) };
        let ordered = order(&atoms, &[], &OrderOptions::new(throat, quilt)).expect("ordered");
        prop_assert_eq!(ordered.cuts(), atoms.len());
        prop_assert_eq!(ordered.least_cuts(), atoms.len());
        for loaded in &ordered.loadings {
            match loaded.exactness {
                Exactness::Exact => {}
                Exactness::Bound { lower, .. } => prop_assert!(lower <= loaded.travel),
            }
            for pass in &loaded.passes {
                for step in pass.runs.iter().flat_map(|run| &run.steps) {
                    let bounds = &atoms[step.atom].bounds;
                    for corner in [bounds.min, bounds.max] {
                        let seen = pass.to_machine.apply(corner);
                        prop_assert!((-1e-9..=throat + 1e-9).contains(&seen.y));
                    }
                }
            }
        }
    }
}
