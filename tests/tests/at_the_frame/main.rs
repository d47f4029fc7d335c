//! A whole quilt played through at the frame: passes on cloth that lies anew each time, marks read
//! as well as an eye can, lines stitched where the laid pass has them.
//!
//! The cloth is known here, so where each stitch comes to lie on it is, too: what a pass has to
//! meet is where the line really ended, not where it was planned.

mod cloth;
mod play;

use quiltpath_core::plan::PlanSpec;
use quiltpath_core::plan::spec::{
    BorderSpec, CornerSpec, CornerStyle, MachineSpec, OrderSpec, QuiltSpec, SideSpec, UnitSpec,
};

use cloth::{Dice, INCH};
use play::{Mishaps, Played, play};

/// Our own quilt of 108 x 108 in with a border of 6 in, on a frame with a throat of 16 in.
fn quilt() -> PlanSpec {
    let mut corner = CornerSpec::new(CornerStyle::Leg);
    corner.motif = Some("corner".to_owned());
    let border = BorderSpec::new(6.0, corner, SideSpec::new("side"));
    PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(108.0, 108.0))
        .with_borders([border])
        .with_machine(MachineSpec::default().with_throat(16.0))
}

/// How many cloths are played.
const CLOTHS: usize = 100;

/// The worst of each cloth but for the worst five of a hundred.
fn in_95(mut worst: Vec<f64>) -> f64 {
    worst.sort_by(f64::total_cmp);
    worst[worst.len() * 95 / 100 - 1]
}

fn all(spec: &PlanSpec, noise: f64, mishaps: &Mishaps) -> Vec<Played> {
    let mut dice = Dice(0x51ed_270b_2f6b_1a3d);
    let cloths = if noise > 0.0 { CLOTHS } else { 10 };
    (0..cloths)
        .map(|_| play(spec, &mut dice, noise, mishaps))
        .collect()
}

fn holds(spec: &PlanSpec, mishaps: &Mishaps) {
    let played = all(spec, 1.0, mishaps);
    for one in &played {
        assert!(one.passes >= 8, "{}", one.passes);
        assert!(one.at_reading < 1e-9, "{}", one.at_reading);
        assert_eq!((one.twice, one.never), (0, 0));
    }
    let off = in_95(played.iter().map(|one| one.on_cloth / INCH).collect());
    let near = in_95(played.iter().map(|one| -one.seam / INCH).collect());
    assert!(off <= 1.0 / 16.0, "{off}");
    assert!(near <= 0.0, "{near}");
    // With readings that are exact, the ends are as exact.
    for one in all(spec, 0.0, mishaps) {
        assert!(one.on_cloth < 1e-6, "{}", one.on_cloth);
    }
}

/// The thread breaks in pass 3, and after pass 4 the quilt is found to be longer than measured.
const MISHAPS: Mishaps = Mishaps {
    breaks_in: Some(2),
    longer_after: Some(4),
};

#[test]
fn a_ring_is_met_pass_by_pass() {
    holds(&quilt(), &Mishaps::default());
}

#[test]
fn a_ring_is_met_after_a_thread_break_and_other_measures() {
    holds(&quilt(), &MISHAPS);
}

/// Every corner by itself, laid by the marks near it; then the sides between their true ends.
#[test]
fn sides_are_met_at_both_ends_with_corners_first() {
    holds(
        &quilt().with_order(OrderSpec::CornersFirst),
        &Mishaps::default(),
    );
}

#[test]
fn corners_first_are_met_after_a_thread_break_and_other_measures() {
    holds(&quilt().with_order(OrderSpec::CornersFirst), &MISHAPS);
}
