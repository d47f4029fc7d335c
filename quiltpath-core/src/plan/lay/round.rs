//! The lines of a border whose outer edge is round: curves parallel to it, and to its scallops.

use super::lines::LayoutLines;
use super::outline::SideWidths;
use crate::error::Error;
use crate::geom::{Point, Round, Scallops};
use crate::warp::{BandMap, RoundBand, ScallopedBand};

/// A round edge, and how finely lines along it are drawn.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct RoundEdge {
    pub(in crate::plan) curve: Round,
    pub(in crate::plan) scallops: Option<Scallops>,
    flattening: f64,
}

/// The band of a round border, as what is stitched runs along it.
pub(in crate::plan) struct RoundStrip {
    pub(in crate::plan) map: Box<dyn BandMap>,
    pub(in crate::plan) length: f64,
    /// How many scallops lie along it; 0 where its edge has none.
    pub(in crate::plan) scallops: usize,
}

impl RoundEdge {
    pub(super) fn new(curve: Round, scallops: Option<Scallops>, flattening: f64) -> Self {
        Self {
            curve,
            scallops,
            flattening,
        }
    }

    /// The band between the gaps of these widths.
    ///
    /// # Errors
    ///
    /// A geometry error where a line would fold or scallops leave no band.
    pub(super) fn strip(&self, widths: &SideWidths) -> Result<RoundStrip, Error> {
        let inside = widths.width - widths.seam_gap;
        if let Some(scallops) = &self.scallops {
            let band = ScallopedBand::new(&self.curve, scallops, widths.edge_gap, inside)?;
            return Ok(RoundStrip {
                length: band.length(),
                scallops: band.scallops(),
                map: Box::new(band),
            });
        }
        let depth = inside - widths.edge_gap;
        let middle = self.curve.inset(widths.edge_gap + depth / 2.0)?;
        let band = RoundBand::new(middle, depth)?;
        Ok(RoundStrip {
            length: band.length(),
            scallops: 0,
            map: Box::new(band),
        })
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
            edge: self.inside(0.0)?,
            seam: seam.map_or(straight.seam, |seam| seam.outline(self.flattening)),
            outer,
            inner,
        })
    }

    /// The outer and the inner line of the band.
    pub(super) fn band_lines(&self, widths: &SideWidths) -> Result<[Vec<Point>; 2], Error> {
        let inner = self.curve.inset(widths.width - widths.seam_gap)?;
        Ok([
            self.inside(widths.edge_gap)?,
            inner.outline(self.flattening),
        ])
    }

    /// The line so far inside the edge, scallops and all.
    fn inside(&self, gap: f64) -> Result<Vec<Point>, Error> {
        Ok(match &self.scallops {
            Some(scallops) => scallops.parallel(gap)?.outline(self.flattening),
            None => self.curve.inset(gap)?.outline(self.flattening),
        })
    }
}
