//! The drawings that a plan names, each asked for once and made ready.

use super::ask::{BorderSpec, PlanSpec};
use super::finding::{Finding, FindingKind};
use super::tolerances::Tolerances;
use crate::chain::Repeat;
use crate::error::Error;
use crate::geom::Gap;
use crate::motif::Motif;
use crate::strokes::{Drawing, Gaps, Joined, OneLineOptions};

/// A drawing that a plan names, as the solver asks its caller for it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub struct MotifRequest {
    /// The name as it stands in the plan, usually a path relative to the plan's file.
    pub name: String,
}

/// Gives the drawings that a plan names, in millimetres.
pub(in crate::plan) type Load<'a> = dyn FnMut(&MotifRequest) -> Result<Drawing, Error> + 'a;

/// What a border makes of a drawing: which one, and what becomes of lines that don't meet.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Use {
    name: String,
    gaps: Gaps,
}

impl Use {
    fn new(name: &str, link: bool) -> Self {
        Self {
            name: name.to_owned(),
            gaps: match link {
                true => Gaps::Link,
                false => Gaps::Refuse,
            },
        }
    }

    /// The corner drawing of a border, where its style has one.
    fn corner(border: &BorderSpec) -> Option<Self> {
        let corner = &border.corner;
        let name = corner.motif.as_ref()?;
        Some(Self::new(name, corner.link_gaps))
    }

    fn side(border: &BorderSpec) -> Self {
        Self::new(&border.side.motif, border.side.link_gaps)
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
    tolerances: Tolerances,
    load: &mut Load<'_>,
) -> Result<(Vec<Drawings>, Vec<Finding>), Error> {
    let mut known = Known::new(tolerances, load);
    let mut drawings = Vec::with_capacity(spec.borders.len());
    for (index, border) in spec.borders.iter().enumerate() {
        let read = known.of_border(border);
        drawings.push(read.map_err(|e| e.in_element(format!("borders[{index}]")))?);
    }
    Ok((drawings, known.linked()))
}

/// Loads the drawings of one border.
pub(in crate::plan) fn border_drawings(
    border: &BorderSpec,
    tolerances: Tolerances,
    load: &mut Load<'_>,
) -> Result<(Drawings, Vec<Finding>), Error> {
    let mut known = Known::new(tolerances, load);
    let drawings = known.of_border(border)?;
    Ok((drawings, known.linked()))
}

/// Loads the corner drawing of each border, where its style has one.
pub(in crate::plan) fn corner_drawings(
    spec: &PlanSpec,
    tolerances: Tolerances,
    load: &mut Load<'_>,
) -> Result<Vec<Option<Motif>>, Error> {
    let mut known = Known::new(tolerances, load);
    let borders = spec.borders.iter().enumerate();
    let drawings = borders.map(|(index, border)| {
        let corner = known.corner(border);
        corner.map_err(|e| e.in_element(format!("borders[{index}]")))
    });
    drawings.collect()
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

    fn of_border(&mut self, border: &BorderSpec) -> Result<Drawings, Error> {
        let corner = self.corner(border)?;
        let in_side = |e: Error| e.in_element("side.motif");
        let side = self.line(Use::side(border)).map_err(in_side)?;
        let repeat = Repeat::new(side).map_err(|e| in_side(e.in_element(side.name())))?;
        Ok(Drawings { corner, repeat })
    }

    fn corner(&mut self, border: &BorderSpec) -> Result<Option<Motif>, Error> {
        let Some(corner) = Use::corner(border) else {
            return Ok(None);
        };
        let motif = self
            .line(corner)
            .map_err(|e| e.in_element("corner.motif"))?;
        Ok(Some(motif.clone()))
    }

    /// The line of a drawing: one that is known, or else made of the drawing.
    fn line(&mut self, of: Use) -> Result<&Motif, Error> {
        let at = match self.lines.iter().position(|(known, _)| *known == of) {
            Some(at) => at,
            None => {
                let options = OneLineOptions::default()
                    .with_flattening(self.tolerances.flattening)
                    .with_join(self.tolerances.join)
                    .with_gaps(of.gaps);
                let line = self.drawing(&of.name)?.one_line(&options)?;
                self.lines.push((of, line));
                self.lines.len() - 1
            }
        };
        Ok(&self.lines[at].1.motif)
    }

    /// The drawing of this name: one that is known, or else loaded.
    fn drawing(&mut self, name: &str) -> Result<&Drawing, Error> {
        let at = match self.drawings.iter().position(|(of, _)| of.name == name) {
            Some(at) => at,
            None => {
                let request = MotifRequest {
                    name: name.to_owned(),
                };
                let drawing = (self.load)(&request)?;
                self.drawings.push((request, drawing));
                self.drawings.len() - 1
            }
        };
        Ok(&self.drawings[at].1)
    }

    /// What was linked in the drawings.
    fn linked(&self) -> Vec<Finding> {
        let linked = self.lines.iter().filter(|(_, line)| !line.links.is_empty());
        let finding = |(of, line): &(Use, Joined)| {
            Finding::note(FindingKind::DrawingLinked {
                drawing: of.name.clone(),
                links: line.links.len(),
                length: line.links.iter().map(Gap::size).sum(),
            })
        };
        linked.map(finding).collect()
    }
}
