//! Which repeat fits a plan best: how far each would have to be stretched, without stitching it.
//!
//! Corners that don't depend on the repeat are made once; a candidate costs one pass over its
//! points. The rating of a candidate is the stretch farthest from 1 over all sides of all borders,
//! by its logarithm.

use std::borrow::Cow;

use super::ask::PlanSpec;
use super::asked::{Asked, BorderAsked, asked};
use super::choose::{choose_depth, choose_shared, counts, cut_best, fits};
use super::corners::{Prepared, place_fixed, prepare};
use super::drawings::{Load, MotifRequest, other_drawings, repeat_options};
use super::laid::Border;
use super::lay::layout::{Layout, layouts};
use super::lay::place::Side;
use super::lay::quilt::Quilt;
use super::middle::Middle;
use super::repeats::Repeats;
use super::spans::{SideSpan, spans};
use crate::chain::Repeat;
use crate::error::Error;
use crate::fit::{Count, SpanFit};
use crate::leg::is_clear_l;
use crate::motif::Motif;
use crate::strokes::{Drawing, OneLineOptions};
use crate::units::Unit;

/// How one side would be filled with a repeat.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Rated {
    /// The number of the border, from the outermost, from 0.
    pub border: usize,
    /// The side.
    pub side: Side,
    /// The number of repeats and their stretch, with the neighbours.
    pub fit: SpanFit,
    /// The length along the band that they have to fill, in millimetres.
    pub span: f64,
    /// How far apart across the band a corner's end and the repeat's end lie, at most, in
    /// millimetres; 0 where a side stands by itself.
    pub step: f64,
}

/// A plan made ready to try repeats on all its sides.
///
/// It is `Sync`: several threads may rate with one ranker at the same time.
#[derive(Debug, Clone)]
pub struct Ranker {
    unit: Unit,
    asked: Asked,
    layouts: Vec<Layout>,
    corners: Vec<Ready>,
    /// What lies in the middle of the sides, border by border.
    middles: Vec<Vec<Option<Middle>>>,
}

/// The corners of one border, or what they will be made of.
#[derive(Debug, Clone)]
enum Ready {
    /// Placed, whatever the repeat.
    Placed(Vec<SideSpan>),
    /// Made ready, but their depth goes by the repeat.
    Prepared(Box<Prepared>),
    /// Made of the repeat, or cut to its height.
    ByRepeat(Vec<Motif>),
}

/// How well one repeat fits.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Rating {
    /// The stretch farthest from 1 over all sides.
    pub worst_stretch: f64,
    /// Whether the drawing is a corner's, an L whose ends are at right angles to each other, so
    /// that it can't be a border repeat: see [`is_clear_l`](crate::leg::is_clear_l).
    pub is_corner: bool,
    /// The sides, border by border.
    pub sides: Vec<Rated>,
}

impl Rating {
    /// How far the worst stretch is from 1: the absolute value of its logarithm.
    #[must_use]
    pub fn cost(&self) -> f64 {
        self.worst_stretch.ln().abs()
    }
}

impl Ranker {
    /// Makes a plan ready; `load` gives the corner drawings that it names, in millimetres. The
    /// repeats that the plan names are not loaded.
    ///
    /// # Errors
    ///
    /// As [`super::solve()`], but for the repeats.
    pub fn new(
        spec: &PlanSpec,
        mut load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>,
    ) -> Result<Self, Error> {
        let in_unit = |e: Error| e.in_unit(spec.unit.into());
        Self::ready(spec, &mut load).map_err(in_unit)
    }

    fn ready(spec: &PlanSpec, load: &mut Load<'_>) -> Result<Self, Error> {
        let quilt = Quilt::of(spec)?;
        let layouts = layouts(spec, &quilt)?;
        let asked = asked(spec, quilt.outline.sides())?;
        let drawn = other_drawings(spec, &asked, &layouts, load)?;
        let drawn = drawn.into_iter().map(|own| (own.corner, own.middles));
        let (drawn, middles): (Vec<_>, Vec<_>) = drawn.unzip();
        let borders = asked.borders.iter().zip(&layouts).zip(drawn);
        let corners = borders.map(|((border, layout), drawn)| {
            if border.corner.depend_on_repeat() {
                return Ok(Ready::ByRepeat(drawn));
            }
            let ready = || {
                let (prepared, _) =
                    prepare(border, &drawn, None).map_err(|e| e.in_element("corner"))?;
                if border.slack > 0.0 || border.side.alike || asked.shared_depth {
                    return Ok(Ready::Prepared(Box::new(prepared)));
                }
                let tolerances = asked.tolerances;
                let (corners, _) =
                    place_fixed(border, layout, &prepared).map_err(|e| e.in_element("corner"))?;
                spans(border, layout, &corners, tolerances.flattening).map(Ready::Placed)
            };
            ready().map_err(|e: Error| e.in_element(format!("borders[{}]", border.index)))
        });
        let corners = corners.collect::<Result<_, Error>>()?;
        Ok(Self {
            unit: spec.unit.into(),
            asked,
            layouts,
            corners,
            middles,
        })
    }

    /// How a drawing becomes the line of a repeat: by the plan's tolerances, on the cloth.
    #[must_use]
    pub fn line_options(&self, drawing: &Drawing) -> OneLineOptions {
        let depths = self.layouts.iter().map(Layout::depth);
        repeat_options(drawing, depths.fold(0.0, f64::max), self.asked.tolerances)
    }

    /// Rates a repeat, in millimetres, on all sides of the plan.
    ///
    /// # Errors
    ///
    /// A fit error when the motif can't be chained or a span not be filled; a plan error when
    /// corners made from it overlap.
    ///
    /// # Complexity
    ///
    /// O(points of the motif), and of the corners where these are made from it.
    pub fn rate(&self, motif: &Motif) -> Result<Rating, Error> {
        self.rated(motif).map_err(|e| e.in_unit(self.unit))
    }

    fn rated(&self, motif: &Motif) -> Result<Rating, Error> {
        let repeat = Repeat::new(motif)?;
        let alike = |(asked, middles): (&BorderAsked, &Vec<Option<Middle>>)| {
            Repeats::alike(repeat.clone(), &asked.sides).with_middles(middles.clone())
        };
        let borders = self.asked.borders.iter().zip(&self.middles);
        let repeats: Vec<Repeats> = borders.map(alike).collect();
        let ready = self.corners.iter().zip(&self.asked.borders);
        let prepared = ready
            .zip(&repeats)
            .map(|((ready, asked), repeats)| ready.prepared(asked, repeats));
        let prepared = prepared.collect::<Result<Vec<_>, Error>>()?;
        let works = self.asked.borders.iter().zip(&self.layouts).zip(&prepared);
        let borders = works.zip(&repeats);
        let borders = borders.map(|(((asked, layout), prepared), repeats)| Border {
            asked,
            layout,
            prepared,
            repeats,
            tolerances: self.asked.tolerances,
            cut: 0,
            kept: None,
        });
        let borders: Vec<Border<'_>> = borders.collect();
        let mut sides = Vec::with_capacity(4 * self.layouts.len());
        if self.asked.shared_depth {
            let all = borders.iter().map(cut_best);
            let (chosen, _) = choose_shared(all.collect::<Result<_, Error>>()?)?;
            for (border, chosen) in borders.iter().zip(&chosen) {
                sides.extend(rated(border, &chosen.laid.spans, &chosen.counts)?);
            }
        } else {
            for (border, ready) in borders.iter().zip(&self.corners) {
                if let Ready::Placed(spans) = ready {
                    sides.extend(rated(border, spans, &counts(border, spans)?)?);
                } else {
                    let (border, full) = cut_best(border)?;
                    let (chosen, _) = choose_depth(&border, full)?;
                    sides.extend(rated(&border, &chosen.laid.spans, &chosen.counts)?);
                }
            }
        }
        let cost = |stretch: f64| stretch.ln().abs();
        let worst_stretch = sides
            .iter()
            .map(|side| side.fit.chosen.stretch)
            .fold(1.0, |a, b| if cost(b) > cost(a) { b } else { a });
        Ok(Rating {
            worst_stretch,
            is_corner: is_clear_l(motif),
            sides,
        })
    }
}

impl Ready {
    /// What is ready of the corners for this repeat.
    fn prepared(&self, asked: &BorderAsked, repeats: &Repeats) -> Result<Cow<'_, Prepared>, Error> {
        match self {
            Self::Placed(_) => Ok(Cow::Owned(Prepared::None)),
            Self::Prepared(prepared) => Ok(Cow::Borrowed(&**prepared)),
            Self::ByRepeat(drawn) => {
                let (prepared, _) =
                    prepare(asked, drawn, Some(repeats)).map_err(|e| e.in_element("corner"))?;
                Ok(Cow::Owned(prepared))
            }
        }
    }
}

/// How each side of a border would be filled.
fn rated(border: &Border<'_>, spans: &[SideSpan], counts: &[Count]) -> Result<Vec<Rated>, Error> {
    let asked = border.asked;
    let fits = fits(spans, counts, border.repeats, asked.side.max_stretch)?;
    let rated = spans.iter().zip(fits).map(|(span, fit)| {
        let repeat = border.repeats.of(span.side)?;
        let drawn = repeat.chain_offsets(asked.side.pattern, fit.chosen.repeats);
        let steps = span.ends.iter().zip(drawn);
        let steps = steps.filter_map(|(end, drawn)| Some((end.joint?.1 - drawn).abs()));
        Ok(Rated {
            border: asked.index,
            side: span.side,
            fit,
            span: span.length(),
            step: steps.fold(0.0, f64::max) * span.depth(),
        })
    });
    rated.collect()
}
