//! Where the borders of a quilt lie: lines and bands from the outline, widths, gaps and stations.
//!
//! Millimetres; x to the right, y down, from where the plan's outline has its origin: the top left
//! raw edge corner, unless the plan gives corner points.

use super::field::FieldSpot;
use super::lines::LayoutLines;
use super::outline::{OutlineBand, SideWidths};
use super::place::{CornerPlace, Side};
use super::quilt::Quilt;
use super::round::{RoundEdge, RoundStrip};
use super::wave::{self, Waves};
use crate::corner::CornerSite;
use crate::error::{Error, PlanFault};
use crate::geom::ConvexPolygon;
use crate::geom::region::{BandRegion, Region};
use crate::plan::ask::{BorderSpec, LengthSpec, PlanSpec, called};
use crate::plan::practice::{EDGE_GAP_MM, SEAM_GAP_MM};
use crate::units::Unit;
use crate::warp::Strip;

/// The name of the field of blocks among the borders.
pub(in crate::plan) const FIELD_NAME: &str = "blocks";

/// The place of one border on the quilt, or that of the field of blocks, which has no band.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// The name of the border.
    pub name: String,
    /// Its lines, as far as they are straight.
    pub band: OutlineBand,
    /// The width and the gaps of each side, of the band as it is used.
    pub widths: Vec<SideWidths>,
    /// What the plan asks to be kept free next to the inner seam.
    pub seam_gap: f64,
    /// The lines as they run on the cloth, waves and all.
    pub lines: LayoutLines,
    /// The places of the field of blocks; none of a border.
    pub spots: Vec<FieldSpot>,
    pub(in crate::plan) waves: Waves,
    /// Its outer edge, where that is round.
    pub(in crate::plan) round: Option<RoundEdge>,
}

impl Layout {
    /// The field of blocks with this outline, its band nowhere deep.
    pub(in crate::plan) fn of_field(
        outline: &ConvexPolygon,
        spots: Vec<FieldSpot>,
    ) -> Result<Self, Error> {
        let nothing = SideWidths {
            width: 0.0,
            seam_gap: 0.0,
            edge_gap: 0.0,
        };
        let widths = vec![nothing; outline.sides()];
        let corners = || outline.corners().to_vec();
        Ok(Self {
            name: FIELD_NAME.to_owned(),
            band: OutlineBand::new(outline, &widths)?,
            widths,
            seam_gap: 0.0,
            lines: LayoutLines {
                edge: corners(),
                seam: corners(),
                outer: corners(),
                inner: corners(),
            },
            spots,
            waves: Waves::none(outline.sides()),
            round: None,
        })
    }

    /// Whether it is the field of blocks rather than a border.
    #[must_use]
    pub fn is_field(&self) -> bool {
        !self.spots.is_empty()
    }

    /// The name with everything but letters, digits, `-` and `_` changed to `-`: fit for a file.
    #[must_use]
    pub fn file_name(&self) -> String {
        let safe = |c: char| {
            if c.is_alphanumeric() || c == '_' {
                c
            } else {
                '-'
            }
        };
        self.name.chars().map(safe).collect()
    }

    /// The depth of the band on its deepest side.
    #[must_use]
    pub fn depth(&self) -> f64 {
        self.depths().into_iter().fold(0.0, f64::max)
    }

    /// The depth of the band on each side, between the straight lines.
    #[must_use]
    pub fn depths(&self) -> Vec<f64> {
        (0..self.band.sides())
            .map(|side| self.band.depth(side))
            .collect()
    }

    /// The sides, clockwise from the first.
    pub fn sides(&self) -> impl Iterator<Item = Side> + Clone + use<> {
        Side::all(self.band.sides())
    }

    /// The corners, clockwise from the first, with where they lie.
    pub(in crate::plan) fn corner_sites(
        &self,
    ) -> impl Iterator<Item = (CornerPlace, CornerSite)> + '_ {
        let places = CornerPlace::all(self.band.sides());
        places.map(|place| (place, self.band.corner(place.index())))
    }

    /// The strip of one side, travelled clockwise; distances along count from the outer corner
    /// where the side begins. A side beyond the last is counted round, as in [`OutlineBand`].
    #[must_use]
    pub fn strip(&self, side: Side) -> Strip {
        self.band.strip(side.index())
    }

    /// The length of one side of the outer line; a side beyond the last is counted round.
    #[must_use]
    pub fn side_length(&self, side: Side) -> f64 {
        self.band.side_length(side.index())
    }

    /// The same border with its band this share as deep on every side, both gaps growing alike.
    ///
    /// # Errors
    ///
    /// A geometry error when the share is not above 0 and up to 1.
    pub fn at_share(&self, share: f64) -> Result<Self, Error> {
        let narrower = |(widths, depth): (&SideWidths, f64)| SideWidths {
            seam_gap: widths.seam_gap + depth * (1.0 - share) / 2.0,
            edge_gap: widths.edge_gap + depth * (1.0 - share) / 2.0,
            ..*widths
        };
        let widths: Vec<SideWidths> = self
            .widths
            .iter()
            .zip(self.depths())
            .map(narrower)
            .collect();
        self.with_widths(widths)
    }

    /// The same border with these widths and gaps of its sides.
    pub(in crate::plan) fn with_widths(&self, widths: Vec<SideWidths>) -> Result<Self, Error> {
        let band = OutlineBand::new(&self.band.edge, &widths)?;
        let [outer, inner] = match &self.round {
            Some(edge) => edge.band_lines(&widths[0])?,
            None => [&band.outer, &band.inner].map(|line| line.corners().to_vec()),
        };
        Ok(Self {
            lines: LayoutLines {
                outer,
                inner,
                ..self.lines.clone()
            },
            band,
            widths,
            ..self.clone()
        })
    }

    /// True when a side follows measured stations, or the border runs round.
    #[must_use]
    pub fn is_wavy(&self) -> bool {
        self.is_round() || self.sides().any(|side| self.waves.any(side))
    }

    /// Whether its outer edge is round, so that it has no corners.
    #[must_use]
    pub fn is_round(&self) -> bool {
        self.round.is_some()
    }

    /// Whether its seam is round.
    pub(in crate::plan) fn has_round_seam(&self) -> bool {
        let seam = self.round.as_ref();
        seam.is_some_and(|edge| edge.curve.inset(self.widths[0].width).is_ok())
    }

    /// The band of a round border.
    ///
    /// # Errors
    ///
    /// A plan error where the border is not round; a geometry error where a line of it would fold
    /// or scallops leave nothing of it.
    pub(in crate::plan) fn round_strip(&self) -> Result<RoundStrip, Error> {
        let edge = self.round.as_ref().ok_or(PlanFault::NotThere {
            what: "round edge",
            number: 0,
            count: 0,
        })?;
        edge.strip(&self.widths[0])
    }

    /// The band as the region between its two lines.
    ///
    /// # Errors
    ///
    /// A geometry error when a line crosses itself.
    pub fn region(&self) -> Result<BandRegion, Error> {
        Ok(BandRegion {
            outer: Region::new(self.lines.outer.clone())?,
            inner: Region::new(self.lines.inner.clone())?,
        })
    }
}

/// Lays out the borders of a plan on its quilt, from the outermost to the innermost.
///
/// ```
/// use quiltpath_core::plan::spec::{BorderSpec, CornerSpec, CornerStyle, QuiltSpec, SideSpec, UnitSpec};
/// use quiltpath_core::plan::{PlanSpec, Quilt, layouts};
///
/// let border = BorderSpec::new(6.0, CornerSpec::new(CornerStyle::Open), SideSpec::new("wave"));
/// let plan = PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(40.0, 60.0)).with_borders([border]);
/// let laid = layouts(&plan, &Quilt::of(&plan)?)?;
/// // 6 in less 1/2 in at the raw edge and 1/4 in at the seam, in millimetres.
/// assert!((laid[0].depth() - 5.25 * 25.4).abs() < 1e-9);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A plan error with the key at fault: no border, a length that is not above 0, a border wider
/// than what is left of the quilt, gaps that leave no band, stations that are off their side.
pub fn layouts(spec: &PlanSpec, quilt: &Quilt) -> Result<Vec<Layout>, Error> {
    let unit = Unit::from(spec.unit);
    if spec.borders.is_empty() && spec.blocks.is_none() {
        return Err(PlanFault::NoBorders.into());
    }
    let flattening = spec.tolerances()?.flattening;
    let mut edge = quilt.outline.clone();
    let mut round = quilt.round.clone();
    let mut layouts: Vec<Layout> = Vec::with_capacity(spec.borders.len());
    for (index, border) in spec.borders.iter().enumerate() {
        let at = [index, spec.borders.len()];
        let scallops = quilt.scallops.clone().filter(|_| index == 0);
        let curve = round
            .clone()
            .map(|curve| RoundEdge::new(curve, scallops, flattening));
        let layout = layout(border, unit, (&edge, curve), at, flattening)
            .map_err(|e| e.in_element(format!("borders[{index}]")).in_unit(unit))?;
        let is_field = spec.blocks.is_some() && layout.name == FIELD_NAME;
        if is_field || layouts.iter().any(|other| other.name == layout.name) {
            let name = layout.name;
            return Err(Error::from(PlanFault::SameName { name })
                .in_element(format!("borders[{index}].name")));
        }
        edge = layout.band.seam.clone();
        // Within a seam that has sharp corners nothing is round.
        let width = layout.widths[0].width;
        round = round.and_then(|round| round.inset(width).ok());
        if quilt.is_oval() && round.is_none() && index + 1 < spec.borders.len() {
            let fault = PlanFault::RoundSeam;
            return Err(Error::from(fault).in_element(format!("borders[{}]", index + 1)));
        }
        layouts.push(layout);
    }
    Ok(layouts)
}

fn layout(
    border: &BorderSpec,
    unit: Unit,
    (edge, round): (&ConvexPolygon, Option<RoundEdge>),
    [index, borders]: [usize; 2],
    flattening: f64,
) -> Result<Layout, Error> {
    let widths = widths(border, unit, edge, index == 0)?;
    let band = OutlineBand::new(edge, &widths).map_err(|_| too_wide(&widths, edge))?;
    let name = match (&border.name, borders) {
        (Some(name), _) => name.clone(),
        (None, 1) => "border".to_owned(),
        (None, _) => format!("border-{}", index + 1),
    };
    let waves = wave::read(border, unit, &band, &widths)?;
    let [edge_line, seam_line] = waves.edge_and_seam(&band, flattening)?;
    let lines = LayoutLines {
        edge: edge_line,
        seam: seam_line,
        outer: band.outer.corners().to_vec(),
        inner: band.inner.corners().to_vec(),
    };
    let (lines, round) = match round {
        None => (lines, None),
        Some(edge) => {
            if !border.stations.is_empty() {
                return Err(Error::from(PlanFault::RoundStations).in_element("stations"));
            }
            if widths.iter().any(|side| *side != widths[0]) {
                return Err(Error::from(PlanFault::RoundWidths).in_element("width"));
            }
            (edge.lines(&widths[0], lines)?, Some(edge))
        }
    };
    Ok(Layout {
        name,
        seam_gap: widths[0].seam_gap,
        lines,
        band,
        widths,
        spots: Vec::new(),
        waves,
        round,
    })
}

fn widths(
    border: &BorderSpec,
    unit: Unit,
    edge: &ConvexPolygon,
    at_raw_edge: bool,
) -> Result<Vec<SideWidths>, Error> {
    let gap = |given: &Option<LengthSpec>, key: &str, default: f64| match given {
        Some(length) => length
            .gap_mm(unit, &called(key))
            .map_err(|e| e.in_element(key)),
        None => Ok(default),
    };
    let in_width = |e: Error| e.in_element("width");
    border.width.check(edge.sides()).map_err(in_width)?;
    let seam_gap = gap(&border.seam_gap, "seam_gap", SEAM_GAP_MM)?;
    let edge_default = if at_raw_edge {
        EDGE_GAP_MM
    } else {
        SEAM_GAP_MM
    };
    let edge_gap = gap(&border.edge_gap, "edge_gap", edge_default)?;
    Side::all(edge.sides())
        .map(|side| {
            let Some(width) = border.width.get(side) else {
                // There is no border on this side, so nothing can be stitched there.
                if border.side.motif(side).is_some() {
                    let side = side.to_string();
                    return Err(in_width(PlanFault::SideWithoutWidth { side }.into()));
                }
                return Ok(SideWidths {
                    width: 0.0,
                    seam_gap: 0.0,
                    edge_gap,
                });
            };
            let width = width
                .positive_mm(unit, "the border's width")
                .map_err(in_width)?;
            if seam_gap + edge_gap >= width {
                return Err(PlanFault::GapsTooWide {
                    gaps: seam_gap + edge_gap,
                    width,
                }
                .into());
            }
            Ok(SideWidths {
                width,
                seam_gap,
                edge_gap,
            })
        })
        .collect()
}

/// The error for widths that leave nothing of the quilt.
fn too_wide(widths: &[SideWidths], edge: &ConvexPolygon) -> Error {
    let inset = |share: f64| {
        let widths: Vec<f64> = widths.iter().map(|side| side.width * share).collect();
        edge.inset(&widths)
    };
    // The widths fit at one share and not at a larger one, so the limit is between.
    let (mut fits, mut fails) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = f64::midpoint(fits, fails);
        match inset(middle) {
            Ok(_) => fits = middle,
            Err(_) => fails = middle,
        }
    }
    let width = widths.iter().map(|side| side.width).fold(0.0, f64::max);
    Error::from(PlanFault::BorderTooWide {
        width,
        left: width * fits,
    })
    .in_element("width")
}
