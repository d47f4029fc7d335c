//! Where a chain is reported to turn: at copies that meet their mirror image, and at no link.

use super::*;

fn turn_at(points: &[Point], at: usize) -> f64 {
    let (before, after) = (points[at] - points[at - 1], points[at + 1] - points[at]);
    let turn = before.perp(&after).abs().atan2(before.dot(&after));
    turn.to_degrees()
}

#[test]
fn a_turn_onto_a_link_is_no_kink() {
    // From the middle to a quarter of the depth: turned upside down, no copy starts where the one
    // before ended.
    let slope = repeat(&[(0.0, 2.0), (1.0, 4.0), (3.0, 0.0), (4.0, 3.0)]);
    let ends = [at(0.0, None), at(12.0, None)];
    let chain = |how| {
        let options = options(3, Alternate::TopBottom, how);
        chain_repeats(&slope, &strip(), ends, &options).expect("a chain")
    };
    let linked = chain(Ends::Link);
    assert_eq!((linked.links, linked.kink_degrees), (2, 0.0));
    let level = chain(Ends::Level);
    assert_eq!(level.links, 0);
    assert!(level.kink_degrees > 1.0);
}

proptest! {
    #[test]
    fn the_kink_is_the_sharpest_turn_where_mirror_images_meet_without_a_link(
        repeat in random_repeat(), copies in 2usize..7, room in 5.0..60.0f64, link in any::<bool>(), alternate in alternates(),
    ) {
        let ends = if link { Ends::Link } else { Ends::Level };
        let terminals = [at(0.0, None), at(room, None)];
        let chain = chain_repeats(&repeat, &strip(), terminals, &options(copies, alternate, ends)).expect("a chain");
        let points = chain.motif.points();
        let (mut links, mut kink, mut repeat_kink) = (0, 0.0_f64, 0.0_f64);
        for (copy, &end) in chain.ends[..copies - 1].iter().enumerate() {
            // No copy starts straight across the band, so a step across is a link.
            if (points[end + 1].x - points[end].x).abs() < 1e-9 {
                links += 1;
            } else if alternate.of_copy(copy, copies) == alternate.of_copy(copy + 1, copies) {
                repeat_kink = repeat_kink.max(turn_at(points, end));
            } else {
                kink = kink.max(turn_at(points, end));
            }
        }
        prop_assert_eq!(chain.links, links);
        prop_assert!((chain.kink_degrees - kink).abs() < 1e-6, "{} {kink}", chain.kink_degrees);
        prop_assert!((chain.repeat_kink_degrees - repeat_kink).abs() < 1e-6, "{} {repeat_kink}", chain.repeat_kink_degrees);
    }
}
