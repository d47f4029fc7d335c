//! The drawings that a plan names, each asked for once and made ready.

use super::ask::{BorderSpec, PlanSpec};
use super::asked::{Asked, BorderAsked, CornerAsked};
use super::finding::{Finding, FindingKind};
use super::lay::layout::Layout;
use super::tolerances::Tolerances;
use crate::chain::Repeat;
use crate::error::{Error, PlanFault};
use crate::geom::Gap;
use crate::leg::{LegGiven, is_clear_l, rough_leg_depth};
use crate::motif::Motif;
use crate::strokes::{Drawing, Gaps, Joined, OneLineOptions};

/// A drawing that a plan names, as the solver asks its caller for it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub struct MotifRequest {
    /// The name as it stands in the plan, usually a path relative to the plan's file.
    pub name: String,
    /// The layers of it that are wanted; all where there are none.
    pub layers: Vec<String>,
}

/// Gives the drawings that a plan names, in millimetres.
pub(in crate::plan) type Load<'a> = dyn FnMut(&MotifRequest) -> Result<Drawing, Error> + 'a;

/// What a border makes of a drawing.
#[derive(Debug, Clone, PartialEq)]
struct Use {
    request: MotifRequest,
    /// What becomes of lines that don't meet.
    gaps: Gaps,
    /// How many times as large it becomes on the cloth, where the tolerances hold.
    factor: f64,
}

/// What a drawing is sized by.
#[derive(Debug, Clone, Copy)]
enum SizedBy<'a> {
    /// Its height.
    Height,
    /// The less deep of its legs.
    Legs(&'a LegGiven),
    /// The depth of the legs that it is cut to, in millimetres.
    Cut(f64),
    /// Its larger extent.
    Extent,
}

impl SizedBy<'_> {
    /// What sizes the corner drawing of a border.
    fn corner(asked: &CornerAsked) -> SizedBy<'_> {
        match asked {
            CornerAsked::Leg { given, .. } => SizedBy::Legs(given),
            CornerAsked::Trimmed { cut, .. } => SizedBy::Cut(cut.leg_depth),
            _ => SizedBy::Extent,
        }
    }

    /// How many times as large a drawing becomes that is to be so deep; 1 where it has no size,
    /// which is refused later.
    fn factor(self, drawing: &Drawing, depth: f64) -> f64 {
        let size = drawing.bounds().map(|bounds| bounds.size());
        let size = match self {
            Self::Height => size.map(|size| size.y),
            Self::Legs(given) => rough_leg_depth(drawing, given).or(size.map(|size| size.min())),
            Self::Cut(depth) => Some(depth),
            Self::Extent => size.map(|size| size.max()),
        };
        let factor = depth / size.unwrap_or(depth);
        match factor > 0.0 && factor.is_finite() {
            true => factor,
            false => 1.0,
        }
    }
}

/// The drawings that are loaded, and the lines that they have become.
struct Known<'a, 'b> {
    load: &'a mut Load<'b>,
    tolerances: Tolerances,
    drawings: Vec<(MotifRequest, Drawing)>,
    lines: Vec<(Use, Joined)>,
}

/// The drawings of one border.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Drawings {
    pub(in crate::plan) corner: Option<Motif>,
    pub(in crate::plan) repeat: Repeat,
}

impl Drawings {
    /// What there is to report of a repeat that is drawn from right to left.
    pub(in crate::plan) fn backwards(&self, border: usize) -> Option<Finding> {
        let drawing = self.repeat.name().to_owned();
        let kind = FindingKind::Backwards { drawing };
        let backwards = self.repeat.is_backwards();
        backwards.then(|| Finding::note(kind).on_border(border))
    }
}

/// Loads the drawings of all borders.
pub(in crate::plan) fn drawings(
    spec: &PlanSpec,
    asked: &Asked,
    layouts: &[Layout],
    load: &mut Load<'_>,
) -> Result<(Vec<Drawings>, Vec<Finding>), Error> {
    let mut known = Known::new(asked.tolerances, load);
    let mut drawings = Vec::with_capacity(spec.borders.len());
    for ((border, asked), layout) in spec.borders.iter().zip(&asked.borders).zip(layouts) {
        let read = known.of_border(border, asked, layout.depth());
        drawings.push(read.map_err(|e| in_border(e, asked))?);
    }
    Ok((drawings, known.linked()))
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
    let drawings = known.of_border(border, asked, depth)?;
    Ok((drawings, known.linked()))
}

/// Loads the corner drawing of each border, where its style has one.
pub(in crate::plan) fn corner_drawings(
    spec: &PlanSpec,
    asked: &Asked,
    layouts: &[Layout],
    load: &mut Load<'_>,
) -> Result<Vec<Option<Motif>>, Error> {
    let mut known = Known::new(asked.tolerances, load);
    let borders = spec.borders.iter().zip(&asked.borders).zip(layouts);
    let drawings = borders.map(|((border, asked), layout)| {
        let corner = known.corner(border, asked, layout.depth());
        corner.map_err(|e| in_border(e, asked))
    });
    drawings.collect()
}

/// How a drawing becomes the line of a repeat for bands of this depth.
pub(in crate::plan) fn repeat_options(
    drawing: &Drawing,
    depth: f64,
    tolerances: Tolerances,
) -> OneLineOptions {
    let factor = SizedBy::Height.factor(drawing, depth);
    options(tolerances, factor, Gaps::Refuse)
}

fn options(tolerances: Tolerances, factor: f64, gaps: Gaps) -> OneLineOptions {
    OneLineOptions::default()
        .with_flattening(tolerances.flattening / factor)
        .with_join(tolerances.join / factor)
        .with_gaps(gaps)
}

fn in_border(error: Error, asked: &BorderAsked) -> Error {
    error.in_element(format!("borders[{}]", asked.index))
}

/// Refuses a repeat for the corner with an L for the side.
fn check_swapped(asked: &CornerAsked, corner: &Motif, side: &Motif) -> Result<(), Error> {
    // From left to right, or back, along most of its box.
    let runs_on = |motif: &Motif| {
        let along = (motif.end().point.x - motif.start().point.x).abs();
        along > 0.75 * motif.bounds().width()
    };
    let is_l = matches!(asked, CornerAsked::Leg { .. } | CornerAsked::Trimmed { .. });
    match is_l && runs_on(corner) && !is_clear_l(corner) && is_clear_l(side) {
        true => Err(PlanFault::Swapped {
            corner: corner.name().to_owned(),
            side: side.name().to_owned(),
        }
        .into()),
        false => Ok(()),
    }
}

impl<'a, 'b> Known<'a, 'b> {
    fn new(tolerances: Tolerances, load: &'a mut Load<'b>) -> Self {
        Self {
            load,
            tolerances,
            drawings: Vec::new(),
            lines: Vec::new(),
        }
    }

    fn of_border(
        &mut self,
        border: &BorderSpec,
        asked: &BorderAsked,
        depth: f64,
    ) -> Result<Drawings, Error> {
        let corner = self.corner(border, asked, depth)?;
        let in_side = |e: Error| e.in_element("side.motif");
        let side = &border.side;
        let request = MotifRequest {
            name: side.motif.clone(),
            layers: side.layers.clone(),
        };
        let side = self
            .line(request, side.link_gaps, SizedBy::Height, depth)
            .map_err(in_side)?;
        if let Some(corner) = &corner {
            check_swapped(&asked.corner, corner, side)?;
        }
        let repeat = Repeat::new(side).map_err(|e| in_side(e.in_element(side.name())))?;
        Ok(Drawings { corner, repeat })
    }

    /// The corner drawing of a border, where its style has one.
    fn corner(
        &mut self,
        border: &BorderSpec,
        asked: &BorderAsked,
        depth: f64,
    ) -> Result<Option<Motif>, Error> {
        let corner = &border.corner;
        let Some(name) = &corner.motif else {
            return Ok(None);
        };
        let sized = SizedBy::corner(&asked.corner);
        let request = MotifRequest {
            name: name.clone(),
            layers: corner.layers.clone(),
        };
        let line = self.line(request, corner.link_gaps, sized, depth);
        let motif = line.map_err(|e| e.in_element("corner.motif"))?;
        Ok(Some(motif.clone()))
    }

    /// The line of a drawing for a band of this depth: one that is known, or else made.
    fn line(
        &mut self,
        request: MotifRequest,
        link: bool,
        sized: SizedBy<'_>,
        depth: f64,
    ) -> Result<&Motif, Error> {
        let drawing = self.drawing(&request)?;
        let factor = sized.factor(drawing, depth);
        let of = Use {
            request,
            gaps: match link {
                true => Gaps::Link,
                false => Gaps::Refuse,
            },
            factor,
        };
        let at = match self.lines.iter().position(|(known, _)| *known == of) {
            Some(at) => at,
            None => {
                let options = options(self.tolerances, of.factor, of.gaps);
                let line = self.drawing(&of.request)?.one_line(&options)?;
                self.lines.push((of, line));
                self.lines.len() - 1
            }
        };
        Ok(&self.lines[at].1.motif)
    }

    /// The drawing that is asked for: one that is known, or else loaded.
    fn drawing(&mut self, request: &MotifRequest) -> Result<&Drawing, Error> {
        let at = match self.drawings.iter().position(|(of, _)| of == request) {
            Some(at) => at,
            None => {
                let drawing = (self.load)(request)?;
                self.drawings.push((request.clone(), drawing));
                self.drawings.len() - 1
            }
        };
        Ok(&self.drawings[at].1)
    }

    /// What was linked in the drawings.
    fn linked(&self) -> Vec<Finding> {
        let mut linked: Vec<&(Use, Joined)> = Vec::new();
        for line in self.lines.iter().filter(|(_, line)| !line.links.is_empty()) {
            if linked.iter().all(|(of, _)| of.request != line.0.request) {
                linked.push(line);
            }
        }
        let finding = |(of, line): &(Use, Joined)| {
            Finding::note(FindingKind::DrawingLinked {
                drawing: of.request.name.clone(),
                links: line.links.len(),
                length: line.links.iter().map(Gap::size).sum(),
            })
        };
        linked.into_iter().map(finding).collect()
    }
}
