//! What of a border's corners does not depend on the depth of its band: legs found, drawings cut.

use super::block::Block;
use super::cut::{Cut, cut};
use crate::error::Error;
use crate::leg::{LegShape, choose_leg};
use crate::motif::Motif;
use crate::plan::asked::{BorderAsked, CornerAsked};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::repeats::Repeats;

/// The corners of a border made ready.
#[derive(Debug, Clone)]
pub(in crate::plan) enum Prepared {
    /// A drawn L.
    Leg { motif: Motif, shape: LegShape },
    /// A drawing cut to an L.
    Cut(Cut),
    /// A block, turned as asked.
    Block(Block),
    /// Corners made from the repeat, which take their shape at their depth.
    FromRepeat,
    /// No corners.
    None,
}

/// Makes the corners of a border ready; `drawn` are the lines of their
/// motif: one, or several of a block; none where their style has none.
pub(in crate::plan) fn prepare(
    border: &BorderAsked,
    drawn: &[Motif],
    repeats: Option<&Repeats>,
) -> Result<(Prepared, Vec<Finding>), Error> {
    let mut findings = Vec::new();
    let in_drawing = |e: Error, motif: &Motif| e.in_element(motif.name());
    let prepared = match (&border.corner, drawn, repeats) {
        (CornerAsked::Leg { given, .. }, [motif], _) => {
            let shape = choose_leg(motif, given).map_err(|e| in_drawing(e, motif))?;
            findings.extend(shape.doubts.iter().map(|&doubt| {
                Finding::warning(FindingKind::LegUnclear {
                    drawing: motif.name().to_owned(),
                    doubt,
                })
                .on_border(border.index)
            }));
            let motif = motif.clone();
            Prepared::Leg { motif, shape }
        }
        (CornerAsked::Trimmed { cut: asked, .. }, [motif], Some(repeats)) => {
            let repeat = repeats.shared("cut")?;
            let cut = cut(&border.side, asked, motif, repeat).map_err(|e| in_drawing(e, motif))?;
            Prepared::Cut(cut)
        }
        (CornerAsked::Block { on_point, .. }, [motif, ..], _) => {
            Prepared::Block(Block::new(drawn, *on_point).map_err(|e| in_drawing(e, motif))?)
        }
        (CornerAsked::Mitred { .. } | CornerAsked::Bent { .. }, ..) => Prepared::FromRepeat,
        _ => Prepared::None,
    };
    Ok((prepared, findings))
}
