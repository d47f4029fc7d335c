//! Corner drawings read and sized; corners made of the repeat, mitred and bent.

use quiltpath_core::chain::{Ends, Repeat};
use quiltpath_core::corner::{
    Arrangement, BendOptions, BendRadius, CornerSite, DerivedCorner, ExtraLoops, MitreOptions,
    SizedCorner, bent_corner, mitred_corner, size_corner,
};
use quiltpath_core::geom::{Bounds, BoxCorner, Point, Vector};
use quiltpath_core::leg::{LegGiven, analyse_legs, choose_leg};
use quiltpath_core::motif::Motif;

use super::dice::{Dice, finite, told};

pub(super) fn corners(data: &[u8]) {
    let mut dice = Dice::new(data);
    let made = dice.below(3);
    let Some(line) = dice.line(30, [60.0, 60.0]) else {
        return;
    };
    let motif = Motif::new("m", line);
    match made {
        0 => drawn(&mut dice, &motif),
        1 => match Repeat::new(&motif) {
            Ok(repeat) => mitred(&mut dice, &repeat),
            Err(error) => told(&error),
        },
        _ => match Repeat::new(&motif) {
            Ok(repeat) => bent(&mut dice, &repeat),
            Err(error) => told(&error),
        },
    }
}

fn placed(corner: &SizedCorner) {
    finite(corner.motif.points());
    assert!(corner.reach().iter().all(|reach| reach.is_finite()));
    let size = 4.0
        * corner
            .reach()
            .iter()
            .fold(1.0f64, |most, reach| most.max(reach.abs()));
    let outer = Bounds {
        min: Point::origin(),
        max: Point::new(size, size),
    };
    for position in BoxCorner::ALL {
        for arrangement in [Arrangement::Mirrored, Arrangement::Turned] {
            match corner.place(position, outer, arrangement) {
                Ok(motif) => finite(motif.points()),
                Err(error) => told(&error),
            }
        }
    }
}

/// Places a corner of the repeat where it belongs, and somewhere else.
fn turned(dice: &mut Dice<'_>, corner: &DerivedCorner) {
    finite(corner.motif.points());
    let direction = |degrees: f64| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        Vector::new(cos, sin)
    };
    let turn = dice.mostly(-180.0, 180.0);
    let other = dice.mostly(45.0, 150.0);
    for angle in [corner.angle_degrees(), other] {
        let (entering, leaving) = (direction(turn + angle), direction(turn));
        let site = CornerSite::new(Point::origin(), entering, leaving, [corner.depth(); 2]);
        match site.and_then(|site| corner.place(&site)) {
            Ok(motif) => finite(motif.points()),
            Err(error) => told(&error),
        }
    }
}

fn drawn(dice: &mut Dice<'_>, motif: &Motif) {
    let given = LegGiven::default()
        .with_elbow(dice.maybe(3, |dice| dice.pick(&BoxCorner::ALL)))
        .with_depth_horizontal(dice.maybe(3, |dice| dice.mostly(1.0, 60.0)))
        .with_depth_vertical(dice.maybe(3, |dice| dice.mostly(1.0, 60.0)))
        .with_turn_degrees(dice.maybe(5, |dice| dice.mostly(-180.0, 180.0)));
    let depth = dice.mostly(1.0, 200.0);
    match analyse_legs(motif) {
        Ok(legs) => {
            assert!(!legs.is_empty());
            for leg in &legs {
                assert!(leg.share.is_finite() && leg.depth_horizontal.is_finite());
                assert!(leg.depth_vertical.is_finite());
            }
        }
        Err(error) => told(&error),
    }
    match choose_leg(motif, &given) {
        Ok(leg) => match size_corner(motif, &leg, depth) {
            Ok(corner) => placed(&corner),
            Err(error) => told(&error),
        },
        Err(error) => told(&error),
    }
}

/// True where points in the millions are asked for, which take more than a second by right.
fn too_many(repeat: &Repeat, depth: f64, flattening: f64) -> bool {
    let repeats = 100.0 * depth / repeat.pitch(depth).max(1e-9);
    repeats > 1e5 || depth / flattening.max(1e-300) > 1e6
}

fn mitred(dice: &mut Dice<'_>, repeat: &Repeat) {
    let (angle, depth) = (dice.mostly(45.0, 150.0), dice.mostly(1.0, 100.0));
    let options = MitreOptions::default()
        .with_legs(dice.below(8))
        .with_smooth(dice.maybe(2, |dice| dice.mostly(0.0, 10.0)).unwrap_or(0.0))
        .with_extra(dice.pick(&[ExtraLoops::Link, ExtraLoops::Drop]))
        .with_ends(dice.pick(&[Ends::Level, Ends::Link]))
        .with_join_tolerance(dice.mostly(0.01, 1.0))
        .with_flattening(dice.mostly(0.01, 1.0));
    if too_many(repeat, depth, options.flattening) {
        return;
    }
    match mitred_corner(repeat, depth, angle, &options) {
        Ok(mitred) => {
            turned(dice, &mitred.corner);
            assert!(mitred.crossings > 0);
            assert!(
                (0.0..=180.0).contains(&mitred.kink_degrees),
                "{}",
                mitred.kink_degrees
            );
            assert!(mitred.lost_length >= 0.0 && mitred.linked_length >= 0.0);
        }
        Err(error) => told(&error),
    }
}

fn bent(dice: &mut Dice<'_>, repeat: &Repeat) {
    let (angle, depth) = (dice.mostly(45.0, 150.0), dice.mostly(1.0, 100.0));
    let options = BendOptions::default()
        .with_radius(if dice.once_in(2) {
            BendRadius::Given(dice.mostly(0.0, 300.0))
        } else {
            BendRadius::LengthChange(dice.mostly(0.0, 1.0))
        })
        .with_legs(dice.below(8))
        .with_ends(dice.pick(&[Ends::Level, Ends::Link]))
        .with_join_tolerance(dice.mostly(0.01, 1.0))
        .with_flattening(dice.mostly(0.01, 1.0));
    if too_many(repeat, depth, options.flattening) {
        return;
    }
    match bent_corner(repeat, depth, angle, &options) {
        Ok(bent) => {
            turned(dice, &bent.corner);
            assert!(bent.repeats > 0 && bent.radius > depth / 2.0);
            assert!(
                (0.0..1.0).contains(&bent.length_change),
                "{}",
                bent.length_change
            );
        }
        Err(error) => told(&error),
    }
}
