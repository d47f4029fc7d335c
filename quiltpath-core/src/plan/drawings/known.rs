//! The drawings that are loaded, each once, and the lines that they have become.

use super::purpose::Purpose;
use crate::error::Error;
use crate::motif::Motif;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::tolerances::Tolerances;
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
pub(in crate::plan) type How = (Gaps, [Option<EndPlace>; 2]);

/// The drawings that are loaded, and the lines that they have become.
pub(in crate::plan) struct Known<'a, 'b> {
    load: &'a mut Load<'b>,
    tolerances: Tolerances,
    drawings: Vec<(MotifRequest, Drawing)>,
    lines: Vec<(Use, JoinedLines)>,
}

/// How a drawing becomes the line of a piece, its tolerances on the cloth.
pub(in crate::plan) fn options(
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

impl<'a, 'b> Known<'a, 'b> {
    /// Nothing loaded yet.
    pub(in crate::plan) fn new(tolerances: Tolerances, load: &'a mut Load<'b>) -> Self {
        Self {
            load,
            tolerances,
            drawings: Vec::new(),
            lines: Vec::new(),
        }
    }

    /// The lines of a drawing for a band of this depth, at least one: those that are known, or else
    /// made.
    pub(in crate::plan) fn lines(
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
    pub(in crate::plan) fn added(&self) -> Vec<Finding> {
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
