//! How a drawing would fill a plan's sides, or one span.

use quiltpath_core::Error;
use quiltpath_core::chain::Repeat;
use quiltpath_core::fit::{Count, SpanFit, fit_span};
use quiltpath_core::io::drawing::ReadOptions;
use quiltpath_core::leg::is_clear_l;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::Ranker;
use quiltpath_core::strokes::{Drawing, LineEnds, OneLineOptions};
use quiltpath_core::units::Unit;

use crate::batch::Record;
use crate::failure::Failure;

/// Why an L is no border repeat.
const A_CORNER: &str = "a corner drawing: an L, its ends at right angles to each other";

/// What the drawings have to fill.
pub(super) enum Room {
    Plan(Box<Ranker>),
    Span { span_mm: f64, depth_mm: f64 },
}

/// How one drawing would fill it.
pub(super) struct Rank {
    pub(super) name: String,
    /// The line of JSON Lines.
    pub(super) line: Option<u64>,
    /// The stretch farthest from 1.
    pub(super) stretch: f64,
    /// Why it can't be a border repeat, whatever its stretch.
    pub(super) why_not: Option<&'static str>,
    pub(super) sides: Vec<RankedSide>,
}

pub(super) struct RankedSide {
    /// The border and the side, or none for a span.
    pub(super) place: Option<(usize, &'static str)>,
    pub(super) fit: SpanFit,
}

impl Room {
    /// Rates a drawing: its one motif, or each of JSON Lines.
    pub(super) fn rate(
        &self,
        record: &Record,
        options: &ReadOptions,
    ) -> Result<Vec<Rank>, Failure> {
        let drawing = record.open(options)?;
        let unit = drawing.unit();
        let in_unit = |e: Error| e.in_unit(unit);
        let drawings = drawing.drawings(Unit::Mm).map_err(in_unit)?;
        let one_file = record.line().is_none() && drawings.len() == 1;
        let ranks = drawings.into_iter().map(|drawing| {
            let line = self.line_options(&drawing, options);
            let motif = drawing.one_line(&line).map_err(in_unit)?.motif;
            let name = match one_file {
                true => record.file(),
                false => motif.name().to_owned(),
            };
            let (stretch, sides) = self.stretch(&motif).map_err(in_unit)?;
            Ok(Rank {
                name,
                line: record.line(),
                stretch,
                why_not: is_clear_l(&motif).then_some(A_CORNER),
                sides,
            })
        });
        ranks.collect()
    }

    /// How a drawing becomes a line for this room: tolerances hold on the cloth.
    fn line_options(&self, drawing: &Drawing, options: &ReadOptions) -> OneLineOptions {
        let line = match self {
            Self::Plan(ranker) => ranker.line_options(drawing),
            Self::Span { depth_mm, .. } => {
                let height = drawing.bounds().map(|bounds| bounds.height());
                let factor = height.map_or(1.0, |height| depth_mm / height);
                let [flattening, join] = options.clone().enlarged(factor).on_cloth(Unit::Mm);
                OneLineOptions::default()
                    .with_flattening(flattening)
                    .with_join(join)
                    .with_ends(LineEnds::Across)
            }
        };
        line.with_gaps(options.gaps)
    }

    /// The stretch farthest from 1, and that of each side, of a motif in millimetres.
    fn stretch(&self, motif: &Motif) -> Result<(f64, Vec<RankedSide>), Error> {
        match self {
            Self::Plan(ranker) => {
                let rating = ranker.rate(motif)?;
                let sides = rating.sides.iter().map(|side| RankedSide {
                    place: Some((side.border, side.side.name())),
                    fit: side.fit,
                });
                Ok((rating.worst_stretch, sides.collect()))
            }
            Self::Span { span_mm, depth_mm } => {
                let pitch = Repeat::new(motif)?.pitch(*depth_mm);
                let fit = fit_span(*span_mm, pitch, &Count::default())?;
                Ok((fit.chosen.stretch, vec![RankedSide { place: None, fit }]))
            }
        }
    }
}
