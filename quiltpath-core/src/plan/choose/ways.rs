//! What else would do where the best choice of a border stretches a side by too much.

use super::depth::Chosen;
use super::group::{group, other_share};
use crate::error::Error;
use crate::fit::{Choice, GroupFit, SpanFit, StretchLimit, alternatives};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::laid::{Border, lay};

/// What else would keep the stretch of a border's sides within the limit, as one note.
pub(in crate::plan) fn ways_out(
    border: &Border<'_>,
    chosen: &Chosen,
    fits: &[SpanFit],
    limit: f64,
) -> Result<Option<Finding>, Error> {
    let choices: Vec<Choice> = fits.iter().map(|fit| fit.chosen).collect();
    let within = |choice: &Choice| (choice.stretch - 1.0).abs() <= limit;
    if choices.iter().all(within) || limit >= 1.0 {
        return Ok(None);
    }
    let layout = &chosen.laid.layout;
    let shallow = layout.at_share(other_share(layout.depth(), 0.0))?;
    let (shallow, _) = lay(border, shallow)?;
    let group = group(border, [&chosen.laid, &shallow], &chosen.counts, 0.0);
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
    let found = (!ways.is_empty()).then(|| {
        Finding::note(FindingKind::WaysOut { limit, ways })
            .on_border(border.asked.index)
            .at(layout.band.outer.corners()[0])
    });
    Ok(found)
}
