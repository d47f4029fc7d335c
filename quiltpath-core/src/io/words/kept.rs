//! What there is to say of a plan that was solved round what is stitched.

use super::short::{counted, fine, percent};
use crate::plan::FindingKind;
use crate::units::Unit;

/// What a finding about stitched parts is and what to do; nothing for another.
pub(super) fn kept(kind: &FindingKind, unit: Unit) -> String {
    match kind {
        FindingKind::Kept {
            corners,
            sides,
            length,
        } => {
            let begun = [(*corners, "corner"), (*sides, "side")];
            let begun: Vec<String> = (begun.iter().filter(|(count, _)| *count > 0))
                .map(|(count, what)| counted(*count, what))
                .collect();
            let begun = match begun.is_empty() {
                true => "links".to_owned(),
                false => begun.join(" and "),
            };
            format!(
                "{begun} begun, {} of line: that stays as it is stitched, the band as deep as it is, and the rest is solved to meet it",
                unit.readable(*length)
            )
        }
        FindingKind::NumberKept { repeats, asked } => format!(
            "it has begun with {}, so it keeps them, though \"repeats\" asks for {asked}",
            counted(*repeats, "repeat")
        ),
        FindingKind::RestStretched {
            repeats,
            stretch,
            limit,
        } => format!(
            "the {} left beside what is stitched {} stretched by {}, more than {:.1} %; measure the side again",
            counted(*repeats, "repeat"),
            if *repeats == 1 { "is" } else { "are" },
            percent(*stretch),
            limit * 100.0
        ),
        FindingKind::CornerDrawnOut { by } => format!(
            "it is drawn out by {} to meet the stitched side beside it",
            fine(unit, *by)
        ),
        FindingKind::StitchedApart { gap } => format!(
            "by these measures its stitched end and that of the corner are {} apart, though both are stitched; nothing is stitched between them, so measure the sides again",
            fine(unit, *gap)
        ),
        _ => String::new(),
    }
}
