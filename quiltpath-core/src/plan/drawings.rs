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
use super::tolerances::Tolerances;
use crate::error::Error;
use crate::motif::Motif;
use borders::{corner, of_border};
use field::of_field;
use known::Known;

pub(in crate::plan) use borders::{Drawings, corner_lines, repeat_options, side_lines};
pub(in crate::plan) use known::Load;
pub use known::MotifRequest;

/// Loads the drawings of all borders, and of the blocks within.
pub(in crate::plan) fn drawings(
    spec: &PlanSpec,
    asked: &Asked,
    (layouts, blocks): (&[Layout], Option<&BlocksAsked>),
    load: &mut Load<'_>,
) -> Result<(Vec<Drawings>, FieldDrawings, Vec<Finding>), Error> {
    let mut known = Known::new(asked.tolerances, load);
    let mut drawings = Vec::with_capacity(spec.borders.len());
    for ((border, asked), layout) in spec.borders.iter().zip(&asked.borders).zip(layouts) {
        let read = of_border(&mut known, border, asked, layout.depth());
        drawings.push(read.map_err(|e| in_border(e, asked))?);
    }
    let field = match (&spec.blocks, blocks) {
        (Some(given), Some(asked)) => of_field(&mut known, given, asked, spec.unit.into())
            .map_err(|e| e.in_element("blocks"))?,
        _ => FieldDrawings::default(),
    };
    Ok((drawings, field, known.added()))
}

/// Loads the drawings of one border, for a band of this depth.
pub(in crate::plan) fn border_drawings(
    border: &BorderSpec,
    asked: (&BorderAsked, Tolerances),
    depth: f64,
    load: &mut Load<'_>,
) -> Result<(Drawings, Vec<Finding>), Error> {
    let (asked, tolerances) = asked;
    let mut known = Known::new(tolerances, load);
    let drawings = of_border(&mut known, border, asked, depth)?;
    Ok((drawings, known.added()))
}

/// Loads the corner drawing of each border, where its style has one.
pub(in crate::plan) fn corner_drawings(
    spec: &PlanSpec,
    asked: &Asked,
    layouts: &[Layout],
    load: &mut Load<'_>,
) -> Result<Vec<Vec<Motif>>, Error> {
    let mut known = Known::new(asked.tolerances, load);
    let borders = spec.borders.iter().zip(&asked.borders).zip(layouts);
    let drawings = borders.map(|((border, asked), layout)| {
        let corner = corner(&mut known, border, asked, layout.depth());
        corner.map_err(|e| in_border(e, asked))
    });
    drawings.collect()
}

fn in_border(error: Error, asked: &BorderAsked) -> Error {
    error.in_element(format!("borders[{}]", asked.index))
}
