//! Places, units and causes of errors.

use super::*;
use crate::units::Unit;
use std::error::Error as _;

#[test]
fn the_place_stands_before_the_fault() {
    let error = Error::from(GeometryFault::TooFewPoints { found: 1 })
        .in_element("points")
        .at(3, 7)
        .in_element("path 2")
        .in_file("leaf.json");
    assert_eq!(
        error.to_string(),
        "leaf.json:3:7: path 2: points: 1 point can't make a line; give at least 2 different points"
    );
    assert!(error.is_geometry());
    assert!(!error.is_plan());
}

#[test]
fn the_innermost_file_and_position_stay() {
    let error = Error::from(GeometryFault::NoLength)
        .in_file("motif.svg")
        .at(1, 2)
        .at(9, 9)
        .in_file("plan.json");
    assert_eq!(error.file(), Some("motif.svg"));
    assert_eq!(error.position(), Some(Position { row: 1, column: 2 }));
}

#[test]
fn lengths_are_shown_in_the_innermost_unit() {
    let wide = PlanFault::BorderTooWide {
        width: 127.0,
        left: 101.6,
    };
    let error = Error::from(wide.clone());
    assert_eq!(error.kind(), &ErrorKind::Plan(wide));
    assert!(
        error
            .to_string()
            .starts_with("the border is 127 mm wide, but only 101.5 mm is")
    );
    let inches = error.in_unit(Unit::In).in_unit(Unit::Cm);
    assert!(
        inches
            .to_string()
            .starts_with("the border is 5 in wide, but only 4 in is")
    );
    // Geometry has no unit unless it is said to be millimetres.
    let small = Error::from(GeometryFault::InsetTooLarge {
        inset: 25.4,
        limit: 12.7000004,
    });
    assert!(
        small.to_string().ends_with("give an inset below 12.7"),
        "{small}"
    );
    let small = small.in_unit(Unit::In).to_string();
    assert!(small.ends_with("give an inset below 0.5 in"), "{small}");
}

#[test]
fn a_cause_is_the_source_and_changes_nothing_else() {
    let error = Error::motif_unreadable("leaf", "no such file");
    assert!(error.source().is_none());
    let cause = std::io::Error::other("gone");
    let caused = error.clone().caused_by(cause).caused_by("a later one");
    assert_eq!(caused, error);
    assert_eq!(
        caused.source().map(ToString::to_string).as_deref(),
        Some("gone")
    );
    assert_eq!(
        caused.to_string(),
        "the motif \"leaf\" can't be read: no such file"
    );
}

#[test]
fn rows_above_a_text_are_added_where_there_is_a_position() {
    let error = Error::from(GeometryFault::NoLength);
    assert_eq!(error.clone().below(4).position(), None);
    let placed = error.at(3, 7).below(4);
    assert_eq!(placed.position(), Some(Position { row: 7, column: 7 }));
    let last = placed.below(u32::MAX).position().expect("a place");
    assert_eq!(last.row, u32::MAX);
}
