//! The drawings that a plan names, each asked for once and made ready.

use super::ask::{BorderSpec, PlanSpec};
use super::asked::{Asked, BorderAsked, CornerAsked};
use super::finding::{Finding, FindingKind};
use super::lay::layout::Layout;
use super::lay::place::Side;
use super::repeats::Repeats;
use super::tolerances::Tolerances;
use crate::chain::Repeat;
use crate::error::{Error, PlanFault};
use crate::leg::{LegGiven, is_clear_l, rough_legs};
use crate::motif::Motif;
use crate::strokes::{Drawing, EndPlace, Gaps, JoinedLines, LineEnds, OneLineOptions};

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
    how: How,
    /// Where its one line starts and ends, but for what is given.
    ends: LineEnds,
    /// How much line a thread cut counts for on the cloth, where the thread may be cut.
    cut: Option<f64>,
    /// How many times as large it becomes on the cloth, where the tolerances hold.
    factor: f64,
}

/// How strokes become lines, by the keys of a border: what becomes of those that don't meet, and
/// where the line starts and ends, where that is given.
type How = (Gaps, [Option<EndPlace>; 2]);

/// What the keys of a border's corners say of that.
fn corner_how(border: &BorderSpec, asked: &BorderAsked) -> How {
    let corner = &border.corner;
    (corner.strokes.gaps(corner.link_gaps), asked.line_ends[0])
}

/// What those of its sides say.
fn side_how(border: &BorderSpec, asked: &BorderAsked) -> How {
    let side = &border.side;
    (side.strokes.gaps(side.link_gaps), asked.line_ends[1])
}

/// What a drawing is for, and so what it is sized by and where its line starts and ends.
#[derive(Debug, Clone, Copy)]
enum Purpose<'a> {
    /// A repeat, sized by its height.
    Repeat,
    /// An L, sized by the less deep of its legs.
    Legs(&'a LegGiven),
    /// What is cut to an L whose legs are so deep, in millimetres.
    Cut(f64),
    /// A block, sized by its larger extent, whose thread may be cut at this price.
    Block(f64),
}

impl Purpose<'_> {
    /// What the corner drawing of a border is for.
    fn corner(asked: &CornerAsked) -> Purpose<'_> {
        match asked {
            CornerAsked::Leg { given, .. } => Purpose::Legs(given),
            CornerAsked::Trimmed { cut, .. } => Purpose::Cut(cut.leg_depth),
            CornerAsked::Block { cut, .. } => Purpose::Block(*cut),
            _ => Purpose::Block(f64::INFINITY),
        }
    }

    /// How many times as large a drawing becomes that is to be so deep, and where its line starts
    /// and ends; 1 where it has no size, which is refused later.
    fn of(self, drawing: &Drawing, depth: f64) -> (f64, LineEnds) {
        let size = drawing.bounds().map(|bounds| bounds.size());
        let (size, ends) = match self {
            Self::Repeat => (size.map(|size| size.y), LineEnds::Across),
            Self::Legs(given) => match rough_legs(drawing, given) {
                Some(legs) => (
                    Some(legs.depth_horizontal.min(legs.depth_vertical)),
                    LineEnds::Legs(legs),
                ),
                None => (size.map(|size| size.min()), LineEnds::Free),
            },
            Self::Cut(depth) => (Some(depth), LineEnds::Free),
            Self::Block(_) => (size.map(|size| size.max()), LineEnds::Free),
        };
        let factor = depth / size.unwrap_or(depth);
        match factor > 0.0 && factor.is_finite() {
            true => (factor, ends),
            false => (1.0, ends),
        }
    }
}

impl Purpose<'_> {
    /// The same for a band of this depth where that is known, or else as large as it is drawn.
    fn sized(self, drawing: &Drawing, depth: Option<f64>) -> (f64, LineEnds) {
        let (factor, ends) = self.of(drawing, depth.unwrap_or(1.0));
        (depth.map_or(1.0, |_| factor), ends)
    }

    /// How much line a thread cut counts for on the cloth, where the thread may be cut.
    fn cut(self) -> Option<f64> {
        match self {
            Self::Block(cut) if cut.is_finite() => Some(cut),
            _ => None,
        }
    }
}

/// The drawings that are loaded, and the lines that they have become.
struct Known<'a, 'b> {
    load: &'a mut Load<'b>,
    tolerances: Tolerances,
    drawings: Vec<(MotifRequest, Drawing)>,
    lines: Vec<(Use, JoinedLines)>,
}

/// The drawings of one border.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Drawings {
    /// The lines of the corner motif: one, or several of a block; none where the style has none.
    pub(in crate::plan) corner: Vec<Motif>,
    pub(in crate::plan) repeats: Repeats,
}

impl Drawings {
    /// What there is to report of repeats that are drawn from right to left.
    pub(in crate::plan) fn backwards(&self, border: usize) -> impl Iterator<Item = Finding> {
        let backwards = self
            .repeats
            .designs()
            .iter()
            .filter(|repeat| repeat.is_backwards());
        backwards.map(move |repeat| {
            let drawing = repeat.name().to_owned();
            Finding::note(FindingKind::Backwards { drawing }).on_border(border)
        })
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
    Ok((drawings, known.added()))
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
        let corner = known.corner(border, asked, layout.depth());
        corner.map_err(|e| in_border(e, asked))
    });
    drawings.collect()
}

/// The line of a border's repeat for a band of this depth, or as large as it is drawn, and how many
/// times as large it becomes.
pub(in crate::plan) fn side_lines(
    border: &BorderSpec,
    (asked, tolerances): (&BorderAsked, Tolerances),
    depth: Option<f64>,
    drawing: &Drawing,
) -> Result<(f64, JoinedLines), Error> {
    let how = side_how(border, asked);
    let (factor, ends) = Purpose::Repeat.sized(drawing, depth);
    let lines = drawing.lines(&options(tolerances, factor, ends, how))?;
    Ok((factor, lines))
}

/// The lines of a border's corner drawing, likewise.
pub(in crate::plan) fn corner_lines(
    border: &BorderSpec,
    (asked, tolerances): (&BorderAsked, Tolerances),
    depth: Option<f64>,
    drawing: &Drawing,
) -> Result<(f64, JoinedLines), Error> {
    let how = corner_how(border, asked);
    let purpose = Purpose::corner(&asked.corner);
    let (factor, ends) = purpose.sized(drawing, depth);
    let options = options(tolerances, factor, ends, how);
    let lines = drawing.lines(&options.with_cut(purpose.cut().map(|cut| cut / factor)))?;
    Ok((factor, lines))
}

/// How a drawing becomes the line of a repeat for bands of this depth.
pub(in crate::plan) fn repeat_options(
    drawing: &Drawing,
    depth: f64,
    tolerances: Tolerances,
) -> OneLineOptions {
    let (factor, ends) = Purpose::Repeat.of(drawing, depth);
    options(tolerances, factor, ends, (Gaps::OneLine, [None, None]))
}

fn options(
    tolerances: Tolerances,
    factor: f64,
    ends: LineEnds,
    (gaps, [start, end]): How,
) -> OneLineOptions {
    OneLineOptions::default()
        .with_flattening(tolerances.flattening / factor)
        .with_join(tolerances.join / factor)
        .with_gaps(gaps)
        .with_ends(ends.with_given(start, end))
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
        let mut names: Vec<&str> = Vec::new();
        let mut designs = Vec::new();
        let mut of = Vec::with_capacity(asked.sides.len());
        for name in Side::all(asked.sides.len()).map(|at| side.motif(at)) {
            let Some(name) = name else {
                of.push(None);
                continue;
            };
            let known = names.iter().position(|known| *known == name);
            of.push(Some(known.unwrap_or(names.len())));
            if known.is_some() {
                continue;
            }
            let request = MotifRequest {
                name: name.to_owned(),
                layers: side.layers.clone(),
            };
            let how = side_how(border, asked);
            let lines = self.lines(request, how, Purpose::Repeat, depth);
            let line = &lines.map_err(in_side)?[0];
            if let [corner] = corner.as_slice() {
                check_swapped(&asked.corner, corner, line)?;
            }
            let repeat = Repeat::new(line).map_err(|e| in_side(e.in_element(line.name())))?;
            names.push(name);
            designs.push(repeat);
        }
        let repeats = Repeats::new(designs, of);
        Ok(Drawings { corner, repeats })
    }

    /// The lines of a border's corner drawing, where its style has one.
    fn corner(
        &mut self,
        border: &BorderSpec,
        asked: &BorderAsked,
        depth: f64,
    ) -> Result<Vec<Motif>, Error> {
        let corner = &border.corner;
        let Some(name) = &corner.motif else {
            return Ok(Vec::new());
        };
        let purpose = Purpose::corner(&asked.corner);
        let how = corner_how(border, asked);
        let request = MotifRequest {
            name: name.clone(),
            layers: corner.layers.clone(),
        };
        let lines = self.lines(request, how, purpose, depth);
        let lines = lines.map_err(|e| e.in_element("corner.motif"))?;
        Ok(lines.to_vec())
    }

    /// The lines of a drawing for a band of this depth, at least one: those that are known, or else
    /// made.
    fn lines(
        &mut self,
        request: MotifRequest,
        how: How,
        purpose: Purpose<'_>,
        depth: f64,
    ) -> Result<&[Motif], Error> {
        let drawing = self.drawing(&request)?;
        let (factor, ends) = purpose.of(drawing, depth);
        let of = Use {
            request,
            how,
            ends,
            cut: purpose.cut(),
            factor,
        };
        let at = match self.lines.iter().position(|(known, _)| *known == of) {
            Some(at) => at,
            None => {
                let options = options(self.tolerances, of.factor, of.ends, of.how);
                let options = options.with_cut(of.cut.map(|cut| cut / of.factor));
                let lines = self.drawing(&of.request)?.lines(&options)?;
                self.lines.push((of, lines));
                self.lines.len() - 1
            }
        };
        Ok(&self.lines[at].1.motifs)
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

    /// What was linked in the drawings, or stitched twice for one line.
    fn added(&self) -> Vec<Finding> {
        let mut added: Vec<(&MotifRequest, FindingKind)> = Vec::new();
        for (of, line) in &self.lines {
            let links = || {
                line.motifs.iter().flat_map(|motif| {
                    let points = motif.points();
                    motif
                        .links()
                        .iter()
                        .map(|&at| (points[at + 1] - points[at]).norm())
                })
            };
            let kind = match of.how.0 {
                Gaps::OneLine if line.report.strokes > 0 => FindingKind::OneLine {
                    drawing: of.request.name.clone(),
                    report: line.report.scaled(of.factor),
                },
                Gaps::Link if links().next().is_some() => FindingKind::DrawingLinked {
                    drawing: of.request.name.clone(),
                    links: links().count(),
                    length: links().sum(),
                },
                _ => continue,
            };
            let same = |(request, known): &(&MotifRequest, FindingKind)| {
                **request == of.request && known.code() == kind.code()
            };
            if !added.iter().any(same) {
                added.push((&of.request, kind));
            }
        }
        added
            .into_iter()
            .map(|(_, kind)| Finding::note(kind))
            .collect()
    }
}
