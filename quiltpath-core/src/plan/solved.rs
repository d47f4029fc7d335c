//! A solved plan: where the borders lie, their pieces and joins, and what there is to report.

use super::finding::{Finding, Severity};
use super::lay::layout::Layout;
use super::lay::quilt::Quilt;
use super::order::Path;
use super::piece::{Join, Piece};
use crate::geom::Bounds;
use crate::units::Unit;

/// A solved plan. All lengths in millimetres, the origin at the quilt's top left raw edge corner
/// unless the plan gives corner points.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Solved {
    /// The title, when the plan has one.
    pub title: Option<String>,
    /// Who the quilt is for, in one line, when the plan says so; never blank.
    pub customer: Option<String>,
    /// What is to be kept in mind, in lines, when the plan says so; never blank.
    pub notes: Option<String>,
    /// The unit that the plan asked to be answered in.
    pub unit: Unit,
    /// The outline of the quilt.
    pub quilt: Quilt,
    /// The borders from the outermost to the innermost.
    pub layouts: Vec<Layout>,
    /// The pieces in the order of stitching.
    pub pieces: Vec<Piece>,
    /// Where pieces follow each other.
    pub joins: Vec<Join>,
    /// The lines that are stitched without a thread cut.
    pub paths: Vec<Path>,
    /// What there is to report, the most severe first.
    pub findings: Vec<Finding>,
    /// The stretch, as a fraction either way, beyond which a side is reported.
    pub max_stretch: f64,
    /// How close ends are that meet.
    pub join_tolerance: f64,
}

impl Solved {
    /// The borders among the layouts, from the outermost; the field of blocks comes after them.
    #[must_use]
    pub fn borders(&self) -> &[Layout] {
        let borders = self.layouts.iter().take_while(|layout| !layout.is_field());
        &self.layouts[..borders.count()]
    }

    /// The field of blocks, where there is one.
    #[must_use]
    pub fn field(&self) -> Option<&Layout> {
        self.layouts.last().filter(|layout| layout.is_field())
    }

    /// The smallest box, sides along the axes, that holds the quilt with its waves.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        let edges = self.layouts.iter().flat_map(|layout| &layout.lines.edge);
        edges.fold(self.quilt.bounds(), |bounds, point| Bounds {
            min: bounds.min.inf(point),
            max: bounds.max.sup(point),
        })
    }

    /// The length of all pieces together.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.pieces.iter().map(Piece::length).sum()
    }

    /// The length that is stitched already, of a plan that was solved round what is.
    #[must_use]
    pub fn stitched_length(&self) -> f64 {
        let stitched = |piece: &Piece| {
            let shares: f64 = piece.stitched.iter().map(|[from, to]| to - from).sum();
            shares * piece.length()
        };
        self.pieces.iter().map(stitched).sum()
    }

    /// How many times the thread is cut: once for each path, since each has a start and an end.
    #[must_use]
    pub fn thread_cuts(&self) -> usize {
        self.paths.len()
    }

    /// The greatest severity among the findings, when there are any.
    #[must_use]
    pub fn worst(&self) -> Option<Severity> {
        self.findings.iter().map(|finding| finding.severity).max()
    }
}
