//! Finds what is doubtful about a reading.

use super::doubt::LegDoubt;
use super::given::LegGiven;
use super::name::LegName;
use super::reading::{RIVAL_RATIO, Reading, View};
use crate::error::LegFault;

/// How much the whole leg may be deeper than its outer half, and one leg than the other, as a part
/// of the depth.
const DEPTH_DISAGREEMENT: f64 = 0.05;

/// How far an end may lie from its leg's open end, as a part of the leg's free length.
const PORT_NEAR: f64 = 0.1;

/// What is doubtful about one of the readings, apart from what is given.
pub(super) fn doubts(
    readings: &[Reading],
    index: usize,
    view: &View,
    given: &LegGiven,
) -> Vec<LegDoubt> {
    let reading = &readings[index];
    let mut doubts = Vec::new();
    if let Some((other_degrees, other_depths)) = view.other {
        doubts.push(LegDoubt::OtherTurn {
            degrees: view.degrees,
            depths: [reading.shape.depth_horizontal, reading.shape.depth_vertical],
            other_degrees,
            other_depths,
        });
    }
    let others = readings.iter().enumerate();
    let rivals = others
        .filter(|(place, other)| *place != index && other.score() * RIVAL_RATIO >= reading.score());
    doubts.extend(rivals.map(|(_, other)| LegDoubt::RivalElbow {
        elbow: reading.shape.elbow,
        rival: other.shape.elbow,
        share: reading.shape.share,
        rival_share: other.shape.share,
    }));
    doubts.extend(shallower(reading, given));
    let [start_share, end_share] = ports(reading);
    if start_share > PORT_NEAR || end_share > PORT_NEAR {
        doubts.push(LegDoubt::PortsElsewhere {
            starts_on: reading.shape.starts_on,
            start_share,
            end_share,
        });
    }
    doubts
}

/// The legs that are less deep on their outer half, apart from those whose depth is given.
///
/// On a sparse leg the ink may well reach the inner line near the elbow alone. What pokes into the
/// empty corner makes only one of the legs deeper, so that legs of one depth are taken as they are.
fn shallower(reading: &Reading, given: &LegGiven) -> impl Iterator<Item = LegDoubt> {
    let shape = &reading.shape;
    let legs = [
        (
            LegName::Horizontal,
            shape.depth_horizontal,
            shape.outer_depth_horizontal,
            given.depth_horizontal,
        ),
        (
            LegName::Vertical,
            shape.depth_vertical,
            shape.outer_depth_vertical,
            given.depth_vertical,
        ),
    ];
    let apart = |depth: f64, less: f64| depth - less > DEPTH_DISAGREEMENT * depth;
    let [level, upright] = [shape.depth_horizontal, shape.depth_vertical];
    let uneven = apart(level.max(upright), level.min(upright));
    legs.into_iter()
        .filter(move |(_, depth, outer, given)| given.is_none() && uneven && apart(*depth, *outer))
        .map(|(leg, depth, outer_depth, _)| LegDoubt::ShallowerOutside {
            leg,
            depth,
            outer_depth,
        })
}

/// The error for a reading whose line starts and ends at no open end.
pub(super) fn ports_elsewhere(reading: &Reading) -> LegFault {
    let [start_share, end_share] = ports(reading);
    LegFault::PortsElsewhere {
        starts_on: reading.shape.starts_on.name(),
        ends_on: reading.shape.starts_on.other().name(),
        start_share,
        end_share,
    }
}

/// How far the line's ends lie from the open ends, as shares of the free lengths of their legs.
fn ports(reading: &Reading) -> [f64; 2] {
    let shape = &reading.shape;
    [
        shape.start_distance / reading.free[0],
        shape.end_distance / reading.free[1],
    ]
}
