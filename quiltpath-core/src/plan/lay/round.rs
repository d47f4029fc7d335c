//! The lines of a border whose outer edge is round: curves parallel to it.

use super::lines::LayoutLines;
use super::outline::SideWidths;
use crate::error::Error;
use crate::geom::{Point, Round};

/// A round edge, and how finely lines along it are drawn.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct RoundEdge {
    pub(in crate::plan) curve: Round,
    flattening: f64,
}

impl RoundEdge {
    pub(super) fn new(curve: Round, flattening: f64) -> Self {
        Self { curve, flattening }
    }

    /// The lines of a border along it; its seam has sharp corners where a curve so far inside would
    /// fold.
    pub(super) fn lines(
        &self,
        widths: &SideWidths,
        straight: LayoutLines,
    ) -> Result<LayoutLines, Error> {
        let [outer, inner] = self.band_lines(widths)?;
        let seam = self.curve.inset(widths.width);
        Ok(LayoutLines {
            edge: self.curve.outline(self.flattening),
            seam: seam.map_or(straight.seam, |seam| seam.outline(self.flattening)),
            outer,
            inner,
        })
    }

    /// The outer and the inner line of the band.
    pub(super) fn band_lines(&self, widths: &SideWidths) -> Result<[Vec<Point>; 2], Error> {
        let line = |by: f64| Ok::<_, Error>(self.curve.inset(by)?.outline(self.flattening));
        Ok([
            line(widths.edge_gap)?,
            line(widths.width - widths.seam_gap)?,
        ])
    }
}
