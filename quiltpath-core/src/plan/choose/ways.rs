//! What else would do where the best choice of a border stretches a side by too much.

use super::depth::Chosen;
use super::group::{group, other_share};
use crate::error::Error;
use crate::fit::{
    Alternative, Choice, Ease, EaseLimits, GroupFit, SpanFit, Stiffness, StretchLimit, alternatives,
};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::laid::{Border, lay};
use crate::plan::practice::ease_is_limited;
use crate::plan::spans::SideSpan;

/// What else would keep the stretch of a border's sides within the limit, as one note.
pub(in crate::plan) fn ways_out(
    border: &Border<'_>,
    chosen: &Chosen,
    fits: &[SpanFit],
    limit: f64,
) -> Result<Option<Finding>, Error> {
    let numbers: Vec<usize> = chosen
        .laid
        .spans
        .iter()
        .map(|span| span.side.index())
        .collect();
    let choices: Vec<Choice> = fits.iter().map(|fit| fit.chosen).collect();
    let within = |choice: &Choice| (choice.stretch - 1.0).abs() <= limit;
    // A border that has begun has no other depth, and begun sides no other numbers.
    if choices.iter().all(within) || limit >= 1.0 || border.kept.is_some() {
        return Ok(None);
    }
    let layout = &chosen.laid.layout;
    let shallow = layout.at_share(other_share(layout.depth(), 0.0))?;
    let (shallow, _) = lay(border, shallow)?;
    let group = group(border, [&chosen.laid, &shallow], &chosen.counts, 0.0)?;
    let worst = choices
        .iter()
        .map(|choice| choice.stretch.max(1.0 / choice.stretch))
        .fold(1.0, f64::max);
    let fit = GroupFit {
        depth: layout.depth(),
        sides: choices,
        worst,
    };
    let ways = alternatives(&group, &fit, StretchLimit::either_way(limit))?;
    let ways = with_what_stems_take((border, &chosen.laid.spans), ways);
    let ways: Vec<Alternative> = ways
        .into_iter()
        .map(|way| numbered(way, &numbers))
        .collect();
    let found = (!ways.is_empty()).then(|| {
        Finding::note(FindingKind::WaysOut { limit, ways })
            .on_border(border.asked.index)
            .at(layout.band.outer.corners()[0])
    });
    Ok(found)
}

/// The ways without easing where it is done already, and without the sides whose stems can't take
/// the stretch, so that loops stay round; nor where a repeat can't be eased at all, for its points.
fn with_what_stems_take(
    (border, spans): (&Border<'_>, &[SideSpan]),
    ways: Vec<Alternative>,
) -> Vec<Alternative> {
    let takes = |stiffness: &Stiffness, stretch: f64| {
        let ease = Ease::new(stiffness, stretch, &EaseLimits::default());
        ease.is_ok_and(|ease| {
            let [least, most] = ease.report().takes;
            (least..=most).contains(&stretch) && !ease_is_limited(ease.report())
        })
    };
    let left = ways.into_iter().filter_map(|way| match way {
        Alternative::Ease { .. } if border.asked.side.ease => None,
        Alternative::Ease { mut sides } => {
            // No stems take more than the limits, and looking for them takes milliseconds.
            let EaseLimits { least, most, .. } = EaseLimits::default();
            sides.retain(|(_, stretch)| (least..=most).contains(stretch));
            if sides.is_empty() {
                return None;
            }
            let designs = border.repeats.designs().iter();
            let stiffness = designs.map(|repeat| Stiffness::of(repeat.points(), repeat.pitch(1.0)));
            let stiffness: Vec<_> = stiffness.collect::<Result<_, _>>().ok()?;
            sides.retain(|(at, stretch)| {
                let number = border.repeats.number(spans[*at].side);
                number.is_some_and(|number| takes(&stiffness[number], *stretch))
            });
            (!sides.is_empty()).then_some(Alternative::Ease { sides })
        }
        // What lies in the middle is the plan's own.
        Alternative::Spacers { .. } if border.repeats.has_middles() => None,
        other => Some(other),
    });
    left.collect()
}

/// The same with the numbers of sides in the border in place of those among its spans.
fn numbered(way: Alternative, numbers: &[usize]) -> Alternative {
    match way {
        Alternative::Ease { mut sides } => {
            sides.iter_mut().for_each(|side| side.0 = numbers[side.0]);
            Alternative::Ease { sides }
        }
        Alternative::LongerLeg {
            ring,
            extra,
            mut sides,
        } => {
            sides.iter_mut().for_each(|side| side.0 = numbers[side.0]);
            Alternative::LongerLeg { ring, extra, sides }
        }
        Alternative::Spacers { mut sides } => {
            sides.iter_mut().for_each(|side| side.0 = numbers[side.0]);
            Alternative::Spacers { sides }
        }
        other => other,
    }
}
