//! The drawings that a plan names, each asked for once and made ready.

use super::ask::{BorderSpec, PlanSpec};
use super::finding::{Finding, FindingKind};
use crate::chain::Repeat;
use crate::error::Error;
use crate::geom::Gap;
use crate::motif::{Gaps, Joined, Motif};

/// A motif that a plan names, as the solver asks its caller for it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub struct MotifRequest {
    /// The name as it stands in the plan, usually a path relative to the plan's file.
    pub name: String,
    /// What to do about lines that don't meet.
    pub gaps: Gaps,
}

impl MotifRequest {
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

/// Gives the motifs that a plan names, in millimetres.
pub(in crate::plan) type Load<'a> = dyn FnMut(&MotifRequest) -> Result<Joined, Error> + 'a;

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
    load: &mut Load<'_>,
) -> Result<(Vec<Drawings>, Vec<Finding>), Error> {
    let mut known = Vec::new();
    let mut drawings = Vec::with_capacity(spec.borders.len());
    for (index, border) in spec.borders.iter().enumerate() {
        let read = of_border(border, &mut known, load);
        drawings.push(read.map_err(|e| e.in_element(format!("borders[{index}]")))?);
    }
    let linked = linked(&known);
    Ok((drawings, linked))
}

/// Loads the drawings of one border.
pub(in crate::plan) fn border_drawings(
    border: &BorderSpec,
    load: &mut Load<'_>,
) -> Result<(Drawings, Vec<Finding>), Error> {
    let mut known = Vec::new();
    let drawings = of_border(border, &mut known, load)?;
    let linked = linked(&known);
    Ok((drawings, linked))
}

fn of_border(
    border: &BorderSpec,
    known: &mut Vec<(MotifRequest, Joined)>,
    load: &mut Load<'_>,
) -> Result<Drawings, Error> {
    let corner = corner(border, known, load)?;
    let in_side = |e: Error| e.in_element("side.motif");
    let side = get(MotifRequest::side(border), known, load).map_err(in_side)?;
    let repeat = Repeat::new(side).map_err(|e| in_side(e.in_element(side.name())))?;
    Ok(Drawings { corner, repeat })
}

/// Loads the corner drawing of each border, where its style has one.
pub(in crate::plan) fn corner_drawings(
    spec: &PlanSpec,
    load: &mut Load<'_>,
) -> Result<Vec<Option<Motif>>, Error> {
    let mut known = Vec::new();
    let borders = spec.borders.iter().enumerate();
    let drawings = borders.map(|(index, border)| {
        corner(border, &mut known, load).map_err(|e| e.in_element(format!("borders[{index}]")))
    });
    drawings.collect()
}

fn corner(
    border: &BorderSpec,
    known: &mut Vec<(MotifRequest, Joined)>,
    load: &mut Load<'_>,
) -> Result<Option<Motif>, Error> {
    let Some(request) = MotifRequest::corner(border) else {
        return Ok(None);
    };
    let motif = get(request, known, load).map_err(|e| e.in_element("corner.motif"))?;
    Ok(Some(motif.clone()))
}

/// The motif of a request: one that is known, or else loaded.
fn get<'a>(
    request: MotifRequest,
    known: &'a mut Vec<(MotifRequest, Joined)>,
    load: &mut Load<'_>,
) -> Result<&'a Motif, Error> {
    let at = match known.iter().position(|(of, _)| *of == request) {
        Some(at) => at,
        None => {
            let joined = load(&request)?;
            known.push((request, joined));
            known.len() - 1
        }
    };
    Ok(&known[at].1.motif)
}

/// What was linked in the drawings.
fn linked(known: &[(MotifRequest, Joined)]) -> Vec<Finding> {
    let linked = known.iter().filter(|(_, joined)| !joined.links.is_empty());
    let finding = |(request, joined): &(MotifRequest, Joined)| {
        Finding::note(FindingKind::DrawingLinked {
            drawing: request.name.clone(),
            links: joined.links.len(),
            length: joined.links.iter().map(Gap::size).sum(),
        })
    };
    linked.map(finding).collect()
}
