//! The ways out of too much stretch, in words.

use super::short::{above_one, counted, percent};
use crate::fit::{Alternative, GroupFit};
use crate::plan::Side;
use crate::units::Unit;

/// One way, for a border of these sides.
pub(super) fn way(way: &Alternative, sides: &[Side], unit: Unit) -> String {
    let readable = |mm: f64| unit.readable(mm);
    let side = |at: usize| sides.get(at).map_or_else(String::new, ToString::to_string);
    match way {
        Alternative::Depth(fit) => format!(
            "a band {} deep, with {} repeats",
            readable(fit.depth),
            numbers(fit)
        ),
        Alternative::Counts(fit) => format!(
            "other numbers of repeats than the plan allows, {}, stretched by {} at most",
            numbers(fit),
            above_one(fit.worst)
        ),
        Alternative::Ease { sides: eased } => {
            let eased: Vec<String> = eased
                .iter()
                .map(|(at, stretch)| format!("{} on the {}", percent(*stretch), side(*at)))
                .collect();
            format!(
                "\"ease\" in \"side\", which leaves the stretch to the stems ({})",
                eased.join(", ")
            )
        }
        Alternative::LongerLeg { extra, .. } => {
            format!("corner legs {} longer each", readable(*extra))
        }
        Alternative::Spacers { sides: spaced } => {
            let spacers = spaced.iter().map(|(at, length, choice)| {
                format!(
                    "{} on the {} with {} ({})",
                    readable(*length),
                    side(*at),
                    counted(choice.repeats, "repeat"),
                    percent(choice.stretch)
                )
            });
            let spacers: Vec<String> = spacers.collect();
            format!("a plain spacer in the middle: {}", spacers.join(", "))
        }
    }
}

/// A way that no change of the plan leads to, in a short sentence; `None` for the others, which
/// are said where they are offered.
pub(super) fn brief_way(way: &Alternative, sides: &[Side], unit: Unit) -> Option<String> {
    let readable = |mm: f64| unit.readable(mm);
    let side = |at: usize| sides.get(at).map_or_else(String::new, ToString::to_string);
    match way {
        Alternative::LongerLeg { extra, .. } => {
            Some(format!("Corner legs {} longer each.", readable(*extra)))
        }
        Alternative::Spacers { sides: spaced } => {
            let spacers = spaced.iter().map(|(at, length, choice)| {
                let repeats = counted(choice.repeats, "repeat");
                format!("{} on the {}, with {repeats}", readable(*length), side(*at))
            });
            let spacers: Vec<String> = spacers.collect();
            Some(format!(
                "A plain spacer in the middle: {}.",
                spacers.join("; ")
            ))
        }
        _ => None,
    }
}

fn numbers(fit: &GroupFit) -> String {
    let numbers = fit.sides.iter().map(|choice| choice.repeats.to_string());
    numbers.collect::<Vec<_>>().join(", ")
}
