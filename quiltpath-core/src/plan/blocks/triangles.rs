//! The block's design cut to the triangles at the edge of a field on point, and joined again.
//!
//! Method: the design is laid as in the whole block that the triangle is a part of, and cut to what
//! may be stitched of it (`trim`). Triangles that lie alike, their designs too, differ by a shift,
//! so each kind is cut once.
//! Guarantee: that of `trim`: the line stays inside, and the least is added where that is exact.
//! Failure: as `trim`'s; a design that has nothing within the triangle leaves it plain.

use super::asked::BlocksAsked;
use super::design::{Design, Laid};
use crate::error::Error;
use crate::geom::{Point, Vector};
use crate::motif::Motif;
use crate::plan::lay::field::{FieldKind, FieldSpot};
use crate::transform::Transform;
use crate::trim::{RouteOptions, TrimOptions, TrimReport, clip, trim_to_region};

/// A design cut to a triangle.
#[derive(Debug, Clone)]
pub(in crate::plan) struct CutDesign {
    pub(in crate::plan) laid: Laid,
    /// What cutting cost, one for each line of the drawing that is left.
    pub(in crate::plan) reports: Vec<TrimReport>,
}

/// Cuts designs to triangles, each kind once.
#[derive(Debug, Default)]
pub(in crate::plan) struct Cuts {
    known: Vec<(Key, Point, CutDesign)>,
}

/// What triangles that are cut alike have in common: their directions, and how the design lies.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Key {
    kind: FieldKind,
    /// Which way the first side runs, in quarters.
    way: [i8; 2],
    lie: (u8, bool),
}

impl Cuts {
    /// The design cut to a triangle; `None` where nothing of it lies within.
    pub(in crate::plan) fn cut(
        &mut self,
        blocks: &BlocksAsked,
        design: &Design,
        spot: &FieldSpot,
        lie: (u8, bool),
    ) -> Result<Option<CutDesign>, Error> {
        let at = spot.corners[0];
        let along = spot.corners[1] - at;
        let sign = |length: f64| {
            if length.abs() < 1e-9 {
                0
            } else {
                length.signum() as i8
            }
        };
        let key = Key {
            kind: spot.place.kind,
            way: [sign(along.x), sign(along.y)],
            lie,
        };
        if let Some((_, from, cut)) = self.known.iter().find(|(known, ..)| *known == key) {
            let shift = Transform::carry(*from, at);
            return Ok(Some(cut.shifted(&shift)?));
        }
        let whole = whole_block(spot);
        let whole = blocks.usable(&whole)?;
        let laid = design.laid(FieldKind::Block, &whole, lie)?;
        let region = blocks.usable(spot)?.region()?;
        let route = RouteOptions::default().with_restitch(true);
        let options = TrimOptions::default().with_route(route);
        let (mut lines, mut reports) = (Vec::new(), Vec::new());
        for line in &laid.lines {
            if clip(line.line(), &region, options.sliver)?
                .pieces
                .is_empty()
            {
                continue;
            }
            let cut = trim_to_region(line, &region, &options)?;
            reports.push(cut.report);
            lines.extend(cut.motifs);
        }
        if lines.is_empty() {
            return Ok(None);
        }
        let laid = Laid { lines, ..laid };
        let cut = CutDesign { laid, reports };
        self.known.push((key, at, cut.clone()));
        Ok(Some(cut))
    }
}

impl CutDesign {
    fn shifted(&self, shift: &Transform) -> Result<Self, Error> {
        let lines = self.laid.lines.iter().map(|line| line.transformed(shift));
        Ok(Self {
            laid: Laid {
                lines: lines.collect::<Result<Vec<Motif>, _>>()?,
                ..self.laid
            },
            reports: self.reports.clone(),
        })
    }
}

/// The block that a triangle is a part of.
fn whole_block(spot: &FieldSpot) -> FieldSpot {
    let corners = &spot.corners;
    let (centre, reach) = match spot.place.kind {
        FieldKind::SideTriangle => {
            let half = (corners[1] - corners[0]) / 2.0;
            (corners[0] + half, half.norm())
        }
        _ => (corners[0], (corners[1] - corners[0]).norm()),
    };
    let tips = [(0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)];
    FieldSpot {
        place: spot.place,
        corners: tips
            .map(|(x, y)| centre + Vector::new(x, y) * reach)
            .to_vec(),
    }
}
