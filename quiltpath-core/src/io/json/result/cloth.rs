//! The lines of the cloth beside a piece of a result, for its template.

use super::{Piece, PlanResult};
use crate::geom::Point;
use crate::io::template::{ClothLine, ClothLineKind};

impl PlanResult {
    /// The edge and the seams of a piece's border, for
    /// [`write_template_on_cloth`](crate::io::template::write_template_on_cloth), in the result's unit.
    ///
    /// None for a piece of another result, and in results that were written before they had these
    /// lines.
    #[must_use]
    pub fn cloth_lines(&self, piece: &Piece) -> Vec<ClothLine> {
        let mut bands = self.bands.iter().enumerate();
        let Some((at, band)) = bands.find(|(_, band)| band.border == piece.border) else {
            return Vec::new();
        };
        let outer = match at {
            0 => ClothLineKind::RawEdge,
            _ => ClothLineKind::OuterSeam,
        };
        let line = |kind, corners: &[[f64; 2]]| ClothLine {
            kind,
            corners: corners.iter().map(|&[x, y]| Point::new(x, y)).collect(),
        };
        let lines = [
            line(outer, &band.edge),
            line(ClothLineKind::InnerSeam, &band.seam),
        ];
        let there = |line: &ClothLine| line.corners.len() > 2;
        lines.into_iter().filter(there).collect()
    }
}
