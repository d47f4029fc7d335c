//! Chains that turn round in their middle: symmetrical, even, and honest about the turn there.

use super::*;
use crate::fit::{Ease, EaseLimits, Stiffness};

fn centred() -> impl Strategy<Value = Alternate> {
    prop::sample::select(vec![Alternate::Centred, Alternate::CentredFirst])
}

/// How far the points are from those of the mirror image about x = middle, travelled back.
fn asymmetry(motif: &Motif, middle: f64) -> f64 {
    let points = motif.points();
    let pairs = points.iter().zip(points.iter().rev());
    let apart = pairs.map(|(a, b)| (a.x + b.x - 2.0 * middle).abs().max((a.y - b.y).abs()));
    apart.fold(0.0, f64::max)
}

/// The turn at a point of the line, in degrees.
fn turn_at(points: &[Point], at: usize) -> f64 {
    let (before, after) = (points[at] - points[at - 1], points[at + 1] - points[at]);
    let turn = before.perp(&after).abs().atan2(before.dot(&after));
    turn.to_degrees()
}

#[test]
fn the_first_or_the_second_half_is_mirrored() {
    let slope = repeat(&[(0.0, 3.0), (1.0, 5.0), (3.0, 0.0), (4.0, 3.0)]);
    let chain = |half| {
        let options = options(2, half, Ends::Level);
        chain_repeats(&slope, &strip(), [at(0.0, None), at(8.0, None)], &options).expect("a chain")
    };
    let along = |half| -> Vec<f64> {
        let chain = chain(half);
        chain.motif.points().iter().map(|p| p.x).collect()
    };
    assert_eq!(
        along(Alternate::Centred),
        [0.0, 1.0, 3.0, 4.0, 5.0, 7.0, 8.0]
    );
    assert_eq!(
        along(Alternate::CentredFirst),
        [0.0, 1.0, 3.0, 4.0, 5.0, 7.0, 8.0]
    );
    // In the middle lies the end of the drawing, or its start: slopes of 3 and of 2.
    let turn = |half| chain(half).kink_degrees;
    assert!((turn(Alternate::Centred) - 2.0 * 3f64.atan().to_degrees()).abs() < 1e-9);
    assert!((turn(Alternate::CentredFirst) - 2.0 * 2f64.atan().to_degrees()).abs() < 1e-9);
}

#[test]
fn an_odd_number_is_refused_and_alike_copies_turn_nowhere() {
    let hill = repeat(&[(0.0, 1.0), (1.0, 0.0), (2.0, 1.0)]);
    let ends = [at(0.0, None), at(9.0, None)];
    let chain = |repeats, alternate| {
        let options = options(repeats, alternate, Ends::Level);
        chain_repeats(&hill, &strip(), ends, &options)
    };
    for odd in [1, 3, 99] {
        let error = chain(odd, Alternate::CentredFirst).expect_err("odd");
        assert!(error.is_fit(), "{error}");
    }
    // Sharp points that are drawn, not made by a mirror.
    assert_eq!(chain(3, Alternate::None).expect("alike").kink_degrees, 0.0);
    assert!(
        chain(3, Alternate::LeftRight)
            .expect("mirrored")
            .kink_degrees
            > 90.0
    );
}

proptest! {
    #[test]
    fn the_chain_is_symmetrical_about_its_middle(
        repeat in random_repeat(), pairs in 1usize..5, from in -5.0..5.0f64, room in 1.0..60.0f64,
        wanted in 0.25..0.75f64, free in any::<bool>(), link in any::<bool>(), mirrored in centred(), ease in any::<bool>(),
    ) {
        let wanted = (!free).then_some(wanted);
        let terminals = [at(from, wanted), at(from + room, wanted)];
        let ends = if link { Ends::Link } else { Ends::Level };
        let repeat = if ease {
            let stiffness = Stiffness::of(repeat.points(), repeat.pitch(1.0)).expect("stiffness");
            let map = Ease::new(&stiffness, 1.15, &EaseLimits::default()).expect("a map");
            repeat.eased(&map, 1e-3)
        } else {
            repeat
        };
        let options = options(2 * pairs, mirrored, ends);
        let chain = chain_repeats(&repeat, &strip(), terminals, &options).expect("a chain");
        let error = asymmetry(&chain.motif, from + room / 2.0);
        prop_assert!(error <= 1e-9, "{error}");
        // Both ends are met, and the two halves meet at one point in the middle.
        let strip = strip();
        prop_assert_eq!(chain.across[0], chain.across[1]);
        prop_assert_eq!(chain.motif.start().point, strip.place(from, chain.across[0]));
        prop_assert_eq!(chain.motif.end().point, strip.place(from + room, chain.across[1]));
        let points = chain.motif.points();
        prop_assert_eq!(points.len() % 2, 1);
        prop_assert!((points[points.len() / 2].x - (from + room / 2.0)).abs() < 1e-9);
        // Where easing bends a line, its chord turns a little less than the line itself.
        let turn = turn_at(points, points.len() / 2);
        prop_assert!(ease || (chain.kink_degrees - turn).abs() < 1e-6);
        let (start, end) = (chain.motif.start().direction, chain.motif.end().direction);
        prop_assert!((start.x - end.x).abs() < 1e-9 && (start.y + end.y).abs() < 1e-9);
    }

    #[test]
    fn copies_of_one_half_are_alike(repeat in random_repeat(), pairs in 2usize..5, mirrored in centred()) {
        let copies = 2 * pairs;
        let terminals = [at(0.0, None), at(10.0 * copies as f64, None)];
        let options = options(copies, mirrored, Ends::Link);
        let chain = chain_repeats(&repeat, &strip(), terminals, &options).expect("a chain");
        let count = repeat.points().len();
        let points = chain.motif.points();
        // Linked copies keep both of their ends; all but the two in the middle are linked.
        let [start, end] = repeat.offsets(None);
        prop_assume!((start - end).abs() > 1e-3);
        prop_assert_eq!(points.len(), copies * count - 1);
        for copy in 1..pairs {
            for index in 0..count {
                let step = points[copy * count + index] - points[index];
                prop_assert!((step - Vector::new(10.0 * copy as f64, 0.0)).norm() < 1e-9);
            }
        }
    }
}
