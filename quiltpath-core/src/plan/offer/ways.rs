//! The changes of a plan that are ways out of a finding.

use super::change::Change;
use super::choices::SideChoices;
use super::room::BorderRoom;
use crate::chain::Alternate;
use crate::corner::Arrangement;
use crate::fit::Alternative;
use crate::plan::finding::{Finding, FindingKind};

/// The ways out of a finding that a key of the plan leads to, the nearest first; none where the
/// core knows of none. `sides` and `rooms` are those of the plan that was solved, from
/// [`side_choices`](super::side_choices()) and [`border_rooms`](super::border_rooms()).
///
/// A change is offered only where it helps by itself: a number of repeats within the limit of
/// stretch, a depth within the border.
#[must_use]
pub fn ways_of(finding: &Finding, sides: &[SideChoices], rooms: &[BorderRoom]) -> Vec<Change> {
    let Some(border) = finding.border else {
        return match finding.kind {
            FindingKind::FewerCuts { more, .. } => vec![Change::MorePasses { more }],
            _ => Vec::new(),
        };
    };
    match &finding.kind {
        FindingKind::Stretch { .. } => {
            let of_side = |one: &&SideChoices| {
                one.border == border && finding.side == Some(one.side) && !one.begun
            };
            let better = sides.iter().find(of_side).filter(|one| {
                let best = one.choices.iter().find(|choice| choice.repeats == one.best);
                one.best != one.chosen && best.is_some_and(|best| best.within)
            });
            let take = |one: &SideChoices| Change::Repeats {
                border,
                sides: vec![one.side.index()],
                repeats: Some(one.best),
            };
            better.map(take).into_iter().collect()
        }
        FindingKind::WaysOut { ways, .. } => {
            let room = rooms.iter().find(|room| room.border == border);
            let change = |way: &Alternative| match way {
                Alternative::Depth(fit) => room
                    .filter(|room| !room.begun && fit.depth <= room.most)
                    .map(|_| Change::Depth {
                        border,
                        depth: fit.depth,
                    }),
                Alternative::Counts(fit) => {
                    let own = sides.iter().filter(|side| side.border == border);
                    let own = own.map(|side| side.side);
                    let mut repeats = vec![0; own.clone().next()?.count()];
                    for (side, choice) in own.zip(&fit.sides) {
                        repeats[side.index()] = choice.repeats;
                    }
                    Some(Change::Numbers { border, repeats })
                }
                Alternative::Ease { .. } => Some(Change::Ease { border, ease: true }),
                Alternative::LongerLeg { .. } | Alternative::Spacers { .. } => None,
            };
            ways.iter().filter_map(change).collect()
        }
        FindingKind::RepeatKink { .. } => vec![Change::Alternate {
            border,
            alternate: Alternate::LeftRight,
        }],
        FindingKind::BetterWay { way, .. } => vec![Change::Lie {
            border,
            side: way.side,
            corner: way.corner,
        }],
        FindingKind::CornersAlike { .. } => vec![Change::Arrange {
            border,
            arrangement: Arrangement::Turned,
        }],
        _ => Vec::new(),
    }
}
