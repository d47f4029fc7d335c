//! A change of a plan in words, as a link says what it does.

use crate::chain::Alternate;
use crate::corner::Arrangement;
use crate::plan::spec::{CornerLie, CornerStyle, SideLie};
use crate::plan::{Change, Side, Solved};

/// What a change of the plan does, as an order of a few words, in the plan's unit.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif, plan::solve};
/// use quiltpath_core::io::{json::read_plan, words};
/// use quiltpath_core::plan::Change;
///
/// # let wave = |_: &_| {
/// #     let wave = [(20.0, 5.0), (15.0, 10.0), (5.0, 0.0), (0.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let solved = solve(&plan, wave)?;
/// let five = Change::Repeats { border: 0, sides: vec![0, 2], repeats: Some(5) };
/// assert_eq!(words::change(&five, &solved), "Take 5 on the top and bottom side");
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[must_use]
pub fn change(change: &Change, solved: &Solved) -> String {
    let long = |mm: f64| solved.unit.readable(mm);
    match change {
        Change::Repeats {
            border,
            sides,
            repeats,
        } => {
            let layout = solved.layouts.get(*border);
            let all: Vec<Side> = layout.map_or_else(Vec::new, |layout| layout.sides().collect());
            let names = sides.iter().filter_map(|&side| all.get(side));
            let names: Vec<&str> = names.map(|side| side.name()).collect();
            let on = match all.len() {
                4 => format!("the {} side", names.join(" and ")),
                _ => format!("side {}", names.join(" and ")),
            };
            match repeats {
                Some(number) => format!("Take {number} on {on}"),
                None => format!("Let the number on {on} be chosen"),
            }
        }
        Change::Numbers { repeats, .. } => {
            let numbers: Vec<String> = repeats.iter().map(ToString::to_string).collect();
            format!("Take {}", numbers.join(", "))
        }
        Change::Alike { alike: true, .. } => "Make opposite sides alike".to_owned(),
        Change::Alike { alike: false, .. } => "Give each side its own number".to_owned(),
        Change::Depth { depth, .. } => format!("Make the band {} deep", long(*depth)),
        Change::Slack { slack, .. } => format!("Let the band be up to {} shallower", long(*slack)),
        Change::Ease { ease: true, .. } => "Let stems take the stretch".to_owned(),
        Change::Ease { ease: false, .. } => "Stretch all of a repeat alike".to_owned(),
        Change::Alternate { alternate, .. } => match alternate {
            Alternate::None => "Leave all repeats as drawn",
            Alternate::LeftRight => "Mirror every other repeat, left to right",
            Alternate::TopBottom => "Mirror every other repeat, inside out",
            _ => "Turn the repeats at the middle of each side",
        }
        .to_owned(),
        Change::Lie { side, corner, .. } => match (side, corner) {
            (SideLie::AsIs, CornerLie::AsIs) => "Let the drawings lie as drawn",
            (SideLie::AsIs, CornerLie::Mirrored) => "Mirror the corner",
            (SideLie::Mirrored, CornerLie::AsIs) => "Mirror the repeat",
            (SideLie::Flipped, CornerLie::AsIs) => "Flip the repeat",
            (SideLie::Turned, CornerLie::AsIs) => "Turn the repeat",
            (SideLie::Mirrored, CornerLie::Mirrored) => "Mirror repeat and corner",
            (SideLie::Flipped, CornerLie::Mirrored) => "Flip the repeat, mirror the corner",
            (SideLie::Turned, CornerLie::Mirrored) => "Turn the repeat, mirror the corner",
        }
        .to_owned(),
        Change::Arrange { arrangement, .. } => match arrangement {
            Arrangement::Mirrored => "Mirror the corners",
            Arrangement::Turned => "Turn the corners",
        }
        .to_owned(),
        Change::Style { style, .. } => match style {
            CornerStyle::Leg => "Put an L at the corners",
            CornerStyle::Block => "Put a block at the corners",
            CornerStyle::Mitred => "Mitre the corners",
            CornerStyle::Bent => "Bend the sides round the corners",
            CornerStyle::Butted => "Butt the sides",
            CornerStyle::Open => "Leave the corners open",
        }
        .to_owned(),
        Change::MorePasses { more: 1 } => "Plan one pass more".to_owned(),
        Change::MorePasses { more } => format!("Plan {more} passes more"),
    }
}
