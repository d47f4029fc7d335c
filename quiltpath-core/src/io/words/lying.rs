//! How the drawings of a border lie, in words.

use super::short::{counted, percent};
use crate::chain::Alternate;
use crate::corner::Arrangement;
use crate::plan::spec::{CornerLie, SideLie};
use crate::plan::{BestWay, Way, WayCost};
use crate::units::Unit;

/// How the drawings of a border lie, as what differs from the drawings.
pub(super) fn lying(way: &Way) -> String {
    let side = match way.side {
        SideLie::AsIs => None,
        SideLie::Mirrored => Some("the repeat mirrored left to right"),
        SideLie::Flipped => Some("the repeat flipped inside out"),
        SideLie::Turned => Some("the repeat turned by half a turn"),
    };
    let corner = match way.corner {
        CornerLie::AsIs => None,
        CornerLie::Mirrored => Some("the corner mirrored on its diagonal"),
    };
    let arrangement = match way.arrangement {
        Arrangement::Turned => Some("the corners turned"),
        Arrangement::Mirrored => None,
    };
    let alternate = match way.alternate {
        Alternate::LeftRight => Some("every second repeat mirrored left to right"),
        Alternate::TopBottom => Some("every second repeat flipped inside out"),
        _ => None,
    };
    let all = [side, corner, arrangement, alternate];
    let all: Vec<&str> = all.into_iter().flatten().collect();
    match all.is_empty() {
        true => "all as drawn".to_owned(),
        false => all.join(", "),
    }
}

/// The best way for a repeat and a corner to lie, beside the way that a plan has: how they lie and
/// what that comes to, such as `the repeat flipped inside out: 0 links in place of 8`.
///
/// `None` where no other way is clearly better: one with fewer links, or whose ends are levelled by
/// at least 1/8 in less.
#[must_use]
pub fn way_told(best: &BestWay, unit: Unit) -> Option<String> {
    const CLEAR: usize = 2;
    let [drawn, own] = best.costs.map(|cost| cost.steps());
    let clear = own[0] < drawn[0] || (own[0] == drawn[0] && own[1] + CLEAR <= drawn[1]);
    let long = |mm: f64| unit.readable(mm);
    clear.then(|| format!("{}: {}", lying(&best.way), compared(&best.costs, &long)))
}

/// What a way comes to beside another: the first thing that differs, the other's first in `costs`.
pub(super) fn compared([other, own]: &[WayCost; 2], long: &impl Fn(f64) -> String) -> String {
    let (one, two) = (other.steps(), own.steps());
    let first = (0..one.len()).find(|&step| one[step] != two[step]);
    match first {
        Some(0) => format!("{} in place of {}", counted(own.links, "link"), other.links),
        Some(1) => format!(
            "ends levelled by {}, not {}",
            long(own.levelled),
            long(other.levelled)
        ),
        Some(2) => format!(
            "lines turn by {:.0} degrees at most where they meet, not {:.0}",
            own.kink_degrees, other.kink_degrees
        ),
        Some(_) => format!(
            "stretched by {} at most, not {}",
            percent(1.0 + own.stretch),
            percent(1.0 + other.stretch)
        ),
        None => "as good as it was".to_owned(),
    }
}
