//! Cuts held against the segment that makes them, where it runs along a side.

use super::*;
use proptest::prelude::*;

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
