//! How often corners are cut and placed: once for each depth that is looked at.

use super::*;
use crate::plan::corners::{CUTS, PLACED};

/// What a plan cuts and places while it is solved.
fn work(plan: &PlanSpec) -> [usize; 2] {
    CUTS.set(0);
    PLACED.set(0);
    solve_with(plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    [CUTS.get(), PLACED.get()]
}

#[test]
fn a_drawing_is_cut_once_and_placed_once_at_each_depth() {
    // Of this width neither the full depth nor the least one within the slack is best.
    let mut plan = spec(CornerStyle::Leg);
    plan.quilt.width = inches(57.0).into();
    plan.borders[0].corner.trim = Some(TrimSpec::new(inches(2.0)));
    // The full depth alone.
    assert_eq!(work(&plan), [1, 1]);
    // And a nearby one to read off what else would hold.
    plan.max_stretch_percent = Some(0.01);
    assert_eq!(work(&plan), [1, 2]);
    // The full depth, the least one, the chosen one, and one near that.
    plan.borders[0].slack = Some(inches(0.5));
    assert_eq!(work(&plan), [1, 4]);
    // With the limit out of reach the last is not needed.
    plan.max_stretch_percent = None;
    assert_eq!(work(&plan), [1, 3]);
    // Opposite sides alike choose numbers only; the full depth stays.
    plan.borders[0].slack = None;
    plan.borders[0].side.opposite_alike = true;
    assert_eq!(work(&plan), [1, 2]);
    // One depth for two borders: each at its full depth, its least, and the shared one.
    let mut inner = plan.borders[0].clone();
    inner.slack = Some(inches(1.0));
    plan.borders[0].slack = Some(inches(1.0));
    inner.name = Some("inner".to_owned());
    plan.borders.push(inner);
    plan.shared_depth = true;
    assert_eq!(work(&plan), [2, 6]);
}
