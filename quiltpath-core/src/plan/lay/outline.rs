//! Where the band of a border lies on a quilt of any convex outline, its widths differing by side.
//!
//! Problem: a quilt out of square, or of 3 to 12 sides, has borders whose width and gaps may differ
//! by side; corners and sides need the lines of the band and one strip for each side.
//! Method: seam, outer line and inner line are insets of the border's outer edge, so each side of
//! them is parallel to the edge's.
//! Guarantee: a rectangle with one width all round gives the numbers of plain insets to 1e-12. The
//! seam of one border is the edge of the next inside it.
//! Failure: gaps that leave no band, widths that leave nothing of a side; both name the side.
//!
//! Side k runs from corner k to the next, clockwise as seen; x to the right, y down.

use crate::corner::CornerSite;
use crate::error::{Error, GeometryFault};
use crate::geom::region::BandRegion;
use crate::geom::{ConvexPolygon, Vector};
use crate::warp::{CrossLine, RuledBand, Strip};

/// The width of a border along one side, and what of it is kept free.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideWidths {
    /// From the edge to the inner seam; 0 where a side has no border.
    pub width: f64,
    /// What is kept free next to the inner seam.
    pub seam_gap: f64,
    /// What is kept free next to the edge.
    pub edge_gap: f64,
}

impl SideWidths {
    /// From the edge to the inner line of the band; of a side without a border, to its outer line.
    fn inner(self) -> f64 {
        match self.width > 0.0 {
            true => self.width - self.seam_gap,
            false => self.edge_gap,
        }
    }
}

/// The place of one border on a quilt of any convex outline.
///
/// Sides and corners are numbered from 0 and counted round: side 4 of a quadrangle is side 0.
///
/// ```
/// use quiltpath_core::geom::{ConvexPolygon, Point};
/// use quiltpath_core::plan::{OutlineBand, SideWidths};
///
/// let quilt = ConvexPolygon::new(vec![
///     Point::new(0.0, 0.0), Point::new(60.0, 0.0), Point::new(61.0, 80.0), Point::new(0.0, 80.0),
/// ])?;
/// let sides = [SideWidths { width: 6.0, seam_gap: 0.25, edge_gap: 0.5 }; 4];
/// let band = OutlineBand::new(&quilt, &sides)?;
/// assert!((band.depth(1) - 5.25).abs() < 1e-12);
/// assert_eq!(band.strip(0).locate(band.outer.corners()[0]), (0.0, 1.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct OutlineBand {
    /// The outer edge of the border's fabric: the raw edge, or the seam to the border outside.
    pub edge: ConvexPolygon,
    /// The inner seam of the border.
    pub seam: ConvexPolygon,
    /// The outer line of the band that may be stitched.
    pub outer: ConvexPolygon,
    /// The inner line of the band.
    pub inner: ConvexPolygon,
}

impl OutlineBand {
    /// Lays out the band of one border inside its outer edge, with the widths of each side.
    ///
    /// # Errors
    ///
    /// A geometry error when the number of widths is not that of the sides, a width is no length,
    /// the gaps leave no band, or the widths leave nothing inside.
    ///
    /// # Complexity
    ///
    /// O(sides).
    pub fn new(edge: &ConvexPolygon, sides: &[SideWidths]) -> Result<Self, Error> {
        for (index, side) in sides.iter().enumerate() {
            let (gaps, width) = (side.seam_gap + side.edge_gap, side.width);
            if gaps >= width && width > 0.0 {
                let fault = GeometryFault::GapsTakeWidth { gaps, width };
                return Err(Error::from(fault).in_element(format!("sides[{index}]")));
            }
        }
        let inset =
            |by: fn(&SideWidths) -> f64| edge.inset(&sides.iter().map(by).collect::<Vec<f64>>());
        Ok(Self {
            edge: edge.clone(),
            seam: inset(|side| side.width)?,
            outer: inset(|side| side.edge_gap)?,
            inner: inset(|side| side.inner())?,
        })
    }

    /// The number of sides.
    #[must_use]
    pub fn sides(&self) -> usize {
        self.edge.sides()
    }

    /// The depth of the band along a side.
    #[must_use]
    pub fn depth(&self, side: usize) -> f64 {
        let across = self.outer.corner(side) - self.inner.corner(side);
        across.dot(&self.outwards(side))
    }

    /// The unit vector square to a side, away from the quilt.
    pub(super) fn outwards(&self, side: usize) -> Vector {
        let along = self.edge.direction(side);
        Vector::new(along.y, -along.x)
    }

    /// The band as the region between its two lines.
    ///
    /// # Errors
    ///
    /// As [`ConvexPolygon::region`].
    pub fn region(&self) -> Result<BandRegion, Error> {
        Ok(BandRegion {
            outer: self.outer.region()?,
            inner: self.inner.region()?,
        })
    }

    /// The length of a side of the outer line.
    #[must_use]
    pub fn side_length(&self, side: usize) -> f64 {
        self.outer.side_length(side)
    }

    /// The strip of a side, travelled clockwise; distances along count from the outer corner where
    /// the side begins.
    #[must_use]
    pub fn strip(&self, side: usize) -> Strip {
        let along = self.edge.direction(side);
        let (outer, inner) = (self.outer.corner(side), self.inner.corner(side));
        let foot = inner + along * (outer - inner).dot(&along);
        Strip::of_unit(foot, along, self.outwards(side) * self.depth(side))
    }

    /// The outer corner of the band where a side begins.
    #[must_use]
    pub fn corner(&self, corner: usize) -> CornerSite {
        let before = self.edge.before(corner);
        CornerSite {
            elbow: self.outer.corner(corner),
            entering: -self.edge.direction(before),
            leaving: self.edge.direction(corner),
            depths: [self.depth(before), self.depth(corner)],
        }
    }

    /// The part of a side's band between the lines on which its corners end.
    ///
    /// The path of the side starts at distance 0 along it and ends at its length.
    ///
    /// # Errors
    ///
    /// As [`RuledBand::between`]; the corners may leave no room.
    pub fn between(&self, side: usize, lines: [CrossLine; 2]) -> Result<RuledBand, Error> {
        RuledBand::between(&self.strip(side), lines)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::{Bounds, BoxCorner, Point};

    fn rectangle(bounds: Bounds) -> ConvexPolygon {
        ConvexPolygon::new(BoxCorner::ALL.map(|corner| corner.of(bounds)).to_vec())
            .expect("a rectangle")
    }

    #[test]
    fn a_rectangle_has_the_numbers_of_plain_insets() {
        let edge = Bounds {
            min: Point::new(0.0, 0.0),
            max: Point::new(1638.3, 2044.7),
        };
        let inset = |by: f64| Bounds {
            min: edge.min + Vector::new(by, by),
            max: edge.max - Vector::new(by, by),
        };
        let (width, seam_gap, edge_gap) = (152.4, 6.35, 12.7);
        let (outer, inner) = (inset(edge_gap), inset(width - seam_gap));
        let sides = [SideWidths {
            width,
            seam_gap,
            edge_gap,
        }; 4];
        let band = OutlineBand::new(&rectangle(edge), &sides).expect("a band");
        assert_eq!(band.edge, rectangle(edge));
        assert_eq!(band.seam, rectangle(inset(width)));
        assert_eq!(band.outer, rectangle(outer));
        assert_eq!(band.inner, rectangle(inner));
        let depth = inner.min.y - outer.min.y;
        let (x, y) = (Vector::new(1.0, 0.0), Vector::new(0.0, 1.0));
        // Starts on the inner line across from the outer corner, travels on, leads outwards.
        let strips = [
            Strip::of_unit(Point::new(outer.min.x, inner.min.y), x, -y * depth),
            Strip::of_unit(Point::new(inner.max.x, outer.min.y), y, x * depth),
            Strip::of_unit(Point::new(outer.max.x, inner.max.y), -x, y * depth),
            Strip::of_unit(Point::new(inner.min.x, outer.max.y), -y, -x * depth),
        ];
        let lengths = [outer.width(), outer.height(), outer.width(), outer.height()];
        for (number, theirs) in strips.iter().enumerate() {
            assert_eq!(band.side_length(number), lengths[number]);
            assert!((band.depth(number) - depth).abs() < 1e-12 * 2044.7);
            let ours = band.strip(number);
            for (s, t) in [(0.0, 0.0), (100.0, 0.25), (1000.0, 1.0)] {
                assert!((ours.place(s, t) - theirs.place(s, t)).norm() < 1e-12 * 2044.7);
            }
            assert_eq!(band.corner(number).angle_degrees(), 90.0);
            assert_eq!(band.corner(number).elbow, BoxCorner::ALL[number].of(outer));
        }
    }

    #[test]
    fn widths_by_side_give_depths_by_side() {
        let hexagon = (0..6)
            .map(|k| {
                let (sin, cos) = (std::f64::consts::TAU * f64::from(k) / 6.0).sin_cos();
                Point::new(30.0 * cos, 30.0 * sin)
            })
            .collect();
        let hexagon = ConvexPolygon::new(hexagon).expect("a hexagon");
        let sides: Vec<SideWidths> = (0..6)
            .map(|k| SideWidths {
                width: 4.0 + 0.5 * f64::from(k),
                seam_gap: 0.25,
                edge_gap: 0.5,
            })
            .collect();
        let band = OutlineBand::new(&hexagon, &sides).expect("a band");
        let next = OutlineBand::new(&band.seam, &sides).expect("the next band");
        for (side, widths) in sides.iter().enumerate() {
            assert!((band.depth(side) - (widths.width - 0.75)).abs() < 1e-12);
            let site = band.corner(side);
            assert!((site.angle_degrees() - 120.0).abs() < 1e-9);
            assert_eq!(site.depths, [band.depth((side + 5) % 6), band.depth(side)]);
            let strip = band.strip(side);
            let locate = |point: Point| strip.locate(point);
            let corners =
                |polygon: &ConvexPolygon| [side, (side + 1) % 6].map(|k| polygon.corners()[k]);
            for point in corners(&band.outer) {
                assert!((locate(point).1 - 1.0).abs() < 1e-12);
            }
            for point in corners(&band.inner) {
                assert!(locate(point).1.abs() < 1e-12);
            }
            assert!(locate(site.elbow).0.abs() < 1e-12);
            let end = corners(&band.outer)[1];
            assert!((locate(end).0 - band.side_length(side)).abs() < 1e-12);
            assert!((next.edge.corners()[side] - band.seam.corners()[side]).norm() == 0.0);
        }
    }

    #[test]
    fn sides_are_counted_round() {
        let edge = Bounds {
            min: Point::new(0.0, 0.0),
            max: Point::new(60.0, 80.0),
        };
        let sides = [4.0, 5.0, 6.0, 7.0].map(|width| SideWidths {
            width,
            seam_gap: 0.25,
            edge_gap: 0.5,
        });
        let band = OutlineBand::new(&rectangle(edge), &sides).expect("a band");
        for (side, same) in [(4, 0), (7, 3), (usize::MAX, 3)] {
            assert_eq!(band.depth(side), band.depth(same));
            assert_eq!(band.side_length(side), band.side_length(same));
            assert_eq!(band.strip(side), band.strip(same));
            assert_eq!(band.corner(side), band.corner(same));
        }
    }

    #[test]
    fn gaps_and_widths_that_leave_nothing_name_the_side() {
        let edge = Bounds {
            min: Point::new(0.0, 0.0),
            max: Point::new(60.0, 80.0),
        };
        let side = |width: f64| SideWidths {
            width,
            seam_gap: 1.0,
            edge_gap: 2.0,
        };
        let refused = |sides: &[SideWidths]| {
            OutlineBand::new(&rectangle(edge), sides)
                .expect_err("refused")
                .to_string()
        };
        let gaps = refused(&[side(6.0), side(3.0), side(6.0), side(6.0)]);
        assert!(
            gaps.starts_with("sides[1]: the gaps take 3 together"),
            "{gaps}"
        );
        let wide = refused(&[side(6.0), side(30.0), side(6.0), side(30.0)]);
        assert!(wide.contains("the top side"), "{wide}");
        assert!(refused(&[side(6.0); 3]).contains("3 widths for 4 sides"));
        assert!(OutlineBand::new(&rectangle(edge), &[side(f64::NAN); 4]).is_err());
    }
}
