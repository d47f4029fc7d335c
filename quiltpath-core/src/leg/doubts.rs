//! What is doubtful about a reading, in plain words.

use super::given::LegGiven;
use super::reading::{Reading, View};
use super::shape::LegName;
use crate::error::LegFault;
use crate::units::rounded;

/// Another elbow is a rival when its score reaches the best one's divided by this.
const RIVAL_RATIO: f64 = 2.0;

/// How much the whole leg may be deeper than its outer half, as a part of the depth.
const DEPTH_DISAGREEMENT: f64 = 0.05;

/// How far an end may lie from its leg's open end, as a part of the leg's free length.
const PORT_NEAR: f64 = 0.1;

/// What is doubtful about one of the readings.
pub(super) fn notes(
    readings: &[Reading],
    index: usize,
    view: &View,
    said: &LegGiven,
) -> Vec<String> {
    let reading = &readings[index];
    let shape = &reading.shape;
    let mut notes = Vec::new();
    if view.by_outline {
        notes.push(format!(
            "the drawing seems turned; a turn of {} degrees was judged from its outline alone",
            rounded(view.degrees)
        ));
    }
    for (place, other) in readings.iter().enumerate() {
        if place != index && other.score() * RIVAL_RATIO >= reading.score() {
            notes.push(format!(
                "the elbow may be {} rather than {}: the empty corner across from it takes {} of the drawing's box, against {} here",
                other.shape.elbow,
                shape.elbow,
                percent(other.shape.share),
                percent(shape.share),
            ));
        }
    }
    let depths = [
        (
            LegName::Horizontal,
            shape.depth_horizontal,
            shape.outer_depth_horizontal,
            said.depth_horizontal,
        ),
        (
            LegName::Vertical,
            shape.depth_vertical,
            shape.outer_depth_vertical,
            said.depth_vertical,
        ),
    ];
    for (leg, whole, outer, said) in depths {
        if said.is_none() && whole - outer > DEPTH_DISAGREEMENT * whole {
            notes.push(format!(
                "on its outer half the {leg} leg is only {} as deep as in all, so something near the elbow reaches into the empty corner",
                percent(outer / whole),
            ));
        }
    }
    let far = |distance: f64, free: f64| distance > PORT_NEAR * free;
    if far(shape.start_distance, reading.free[0]) || far(shape.end_distance, reading.free[1]) {
        notes.push(format!(
            "the line does not run from open end to open end: {}",
            ports(reading)
        ));
    }
    notes
}

/// The error for a reading whose line starts and ends at no open end.
pub(super) fn ports_elsewhere(reading: &Reading) -> LegFault {
    let shape = &reading.shape;
    LegFault::PortsElsewhere {
        starts_on: shape.starts_on.name(),
        ends_on: shape.starts_on.other().name(),
        start_share: shape.start_distance / reading.free[0],
        end_share: shape.end_distance / reading.free[1],
    }
}

/// Where the line starts and ends in this reading.
fn ports(reading: &Reading) -> String {
    let shape = &reading.shape;
    format!(
        "its start lies {} of the {} leg's free length from the open end, its end {} of the {} leg's",
        percent(shape.start_distance / reading.free[0]),
        shape.starts_on,
        percent(shape.end_distance / reading.free[1]),
        shape.starts_on.other(),
    )
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}
