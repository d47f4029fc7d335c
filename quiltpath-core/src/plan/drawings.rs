//! The drawings that a plan names, each asked for once and made ready.

mod borders;
mod field;
mod known;
mod purpose;

use super::ask::{BorderSpec, PlanSpec};
use super::asked::{Asked, BorderAsked};
use super::blocks::{BlocksAsked, FieldDrawings};
use super::finding::Finding;
use super::lay::layout::Layout;
use super::middle::Middle;
use super::tolerances::Tolerances;
use crate::error::Error;
use crate::motif::Motif;
use crate::units::Unit;
use borders::{corner, middles, of_border};
use field::of_field;

pub(in crate::plan) use borders::{Drawings, corner_lines, repeat_options, side_lines};
pub use known::MotifRequest;
pub(in crate::plan) use known::{Known, Load};

/// Loads the drawings of all borders, and of the blocks within.
pub(in crate::plan) fn drawings(
    spec: &PlanSpec,
    asked: &Asked,
    (layouts, blocks): (&[Layout], Option<&BlocksAsked>),
    known: &mut Known<'_, '_>,
) -> Result<(Vec<Drawings>, FieldDrawings, Vec<Finding>), Error> {
    let mut drawings = Vec::with_capacity(spec.borders.len());
    for ((border, asked), layout) in spec.borders.iter().zip(&asked.borders).zip(layouts) {
        let read = of_border(known, border, (asked, spec.unit.into()), layout.depth());
        drawings.push(read.map_err(|e| in_border(e, asked))?);
    }
    let field = match (&spec.blocks, blocks) {
        (Some(given), Some(asked)) => {
            of_field(known, given, asked, spec.unit.into()).map_err(|e| e.in_element("blocks"))?
        }
        _ => FieldDrawings::default(),
    };
    Ok((drawings, field, known.added()))
}

/// Loads the drawings of one border, for a band of this depth.
pub(in crate::plan) fn border_drawings(
    border: &BorderSpec,
    (asked, unit, tolerances): (&BorderAsked, Unit, Tolerances),
    depth: f64,
    load: &mut Load<'_>,
) -> Result<(Drawings, Vec<Finding>), Error> {
    let mut known = Known::new(tolerances, load);
    let drawings = of_border(&mut known, border, (asked, unit), depth)?;
    Ok((drawings, known.added()))
}

/// The drawings of a border but those of its repeats.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Others {
    /// The lines of the corner, where its style has some.
    pub(in crate::plan) corner: Vec<Motif>,
    /// What lies in the middle of each side.
    pub(in crate::plan) middles: Vec<Option<Middle>>,
}

/// Loads the drawings of each border but those of its repeats: the lines of the corner, where its
/// style has one, and what lies in the middle of its sides.
pub(in crate::plan) fn other_drawings(
    spec: &PlanSpec,
    asked: &Asked,
    layouts: &[Layout],
    load: &mut Load<'_>,
) -> Result<Vec<Others>, Error> {
    let mut known = Known::new(asked.tolerances, load);
    let borders = spec.borders.iter().zip(&asked.borders).zip(layouts);
    let drawings = borders.map(|((border, asked), layout)| {
        let depth = layout.depth();
        let mut both = || {
            let corner = corner(&mut known, border, asked, depth)?;
            let middles = middles(&mut known, border, (asked, spec.unit.into()), depth)?;
            Ok(Others { corner, middles })
        };
        both().map_err(|e: Error| in_border(e, asked))
    });
    drawings.collect()
}

fn in_border(error: Error, asked: &BorderAsked) -> Error {
    error.in_element(format!("borders[{}]", asked.index))
}
