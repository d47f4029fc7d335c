//! Cuts held against the segment that makes them, where it runs along a side.

use super::*;
use proptest::prelude::*;

/// Boxes that touch have a point in common.
#[test]
fn boxes_are_apart_where_they_have_no_point_in_common() {
    let corner = |x: f64, y: f64| Point::new(x, y);
    let is_apart = |x: f64, y: f64| {
        let (min, max) = (corner(x, y), corner(x + 1.0, y + 1.0));
        let one = apart(min, max, corner(0.0, 0.0), corner(2.0, 2.0));
        assert_eq!(one, apart(corner(0.0, 0.0), corner(2.0, 2.0), min, max));
        one
    };
    for x in [-1.0, 0.5, 2.0] {
        assert!([-1.0, 0.5, 2.0].iter().all(|&y| !is_apart(x, y)));
        assert!(is_apart(x, -1.001) && is_apart(-1.001, x));
        assert!(is_apart(x, 2.001) && is_apart(2.001, x));
    }
}

/// A hair beside the region is outside it, without a look at its sides.
#[test]
fn a_segment_beside_the_box_stays_outside() {
    let region = crate::leg::rectangle(8.0, 8.0).expect("a region");
    let mut sides = Sides::of(&region);
    let mut meet = |from: (f64, f64), to: (f64, f64)| {
        let [from, to] = [from, to].map(|(x, y)| Point::new(x, y));
        sides.meet(from, to, &mut Vec::new())
    };
    for by in [1e-9, 0.1, 3.9] {
        assert_eq!(meet((-by, -5.0), (-by, 9.0)), Meeting::Outside);
        assert_eq!(meet((-5.0, 8.0 + by), (9.0, 8.0 + by)), Meeting::Outside);
        assert_eq!(meet((by, 1.0), (by, 7.0)), Meeting::Clear);
    }
    assert_eq!(meet((1.0, 1.0), (1.0, 9.0)), Meeting::Near);
}

proptest! {
    /// Ends that are a few reaches to either side of the line that a side lies on.
    #[test]
    fn cuts_lie_on_the_segment_however_flat_it_meets_a_side(
        at in (-2.0..10.0f64, -2.0..10.0f64), off in (-12.0..12.0f64, -12.0..12.0f64),
    ) {
        let region = crate::leg::rectangle(8.0, 8.0).expect("a region");
        let mut sides = Sides::of(&region);
        let reach = sides.reach();
        let [from, to] = [(at.0, off.0), (at.1, off.1)].map(|(x, y)| Point::new(x, y * reach));
        let mut cuts = Vec::new();
        let meeting = sides.meet(from, to, &mut cuts);
        prop_assert!(cuts.is_empty() || meeting == Meeting::Near);
        for cut in &cuts {
            prop_assert!((-1e-9..=1.0 + 1e-9).contains(&cut.share), "{cut:?}");
            prop_assert!(distance_to_segment(cut.point, from, to) <= 5.0 * reach, "{cut:?}");
        }
        // The segment changes sides within the side: there is a cut, but beside an end.
        let crossing = from.x + (to.x - from.x) * off.0 / (off.0 - off.1);
        let clear = off.0 * off.1 < 0.0 && off.0.abs().min(off.1.abs()) > 4.0;
        if clear && (0.1..7.9).contains(&crossing) && (at.0 - at.1).abs() > 0.1 {
            prop_assert!(cuts.iter().any(|cut| (cut.point.x - crossing).abs() < 1e-3), "{cuts:?}");
        }
    }
}
