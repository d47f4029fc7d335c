//! What a plan asks of its blocks, in numbers, and the field as it lies in the room that the
//! borders leave.
//!
//! Problem: rows, columns and sashes of given sizes, or of sizes that share the room, in the middle
//! of the polygon that the innermost seam is.
//! Guarantee: every corner of the field lies within the room, to a millionth of a millimetre.
//! Failure: a field that is larger, with how much; a room of other than four sides where no size is
//! given; gaps that leave nothing of a place.

use crate::error::{Error, PlanFault};
use crate::geom::{ConvexPolygon, Point, Vector};
use crate::plan::ask::{BlockSizeSpec, BlocksSpec, DesignSpec, LengthSpec, PlanSpec, StrokesSpec};
use crate::plan::asked::{SideAsked, THREAD_CUT_MM, side_asked};
use crate::plan::lay::field::{FieldKind, FieldSpot, Lie, MAX_PLACES, Measures, Setting};
use crate::plan::lay::{Layout, Quilt};
use crate::plan::practice::{EDGE_GAP_MM, SEAM_GAP_MM};
use crate::units::Unit;

/// Lengths that add up to the room's are not more than it for rounding.
const ROUNDING_MM: f64 = 1e-6;

/// The blocks of a plan, laid out.
#[derive(Debug, Clone)]
pub(in crate::plan) struct BlocksAsked {
    pub(in crate::plan) measures: Measures,
    pub(in crate::plan) lie: Lie,
    pub(in crate::plan) spots: Vec<FieldSpot>,
    /// The outline of the field.
    pub(in crate::plan) outline: ConvexPolygon,
    pub(in crate::plan) seam_gap: f64,
    /// The raw edge, where there is no border between.
    raw_edge: Option<ConvexPolygon>,
    /// What goes along the sashes, those that run across and those that run up and down.
    pub(in crate::plan) sashes: Option<SideAsked>,
    /// By how much the band of the sashes may be shallower.
    pub(in crate::plan) slack: f64,
    pub(in crate::plan) plain_triangles: bool,
}

/// Reads what a plan asks of its blocks, where it has some.
///
/// # Errors
///
/// A plan error with the key at fault.
pub(in crate::plan) fn blocks_asked(
    spec: &PlanSpec,
    quilt: &Quilt,
    layouts: &[Layout],
    max_stretch: f64,
) -> Result<Option<BlocksAsked>, Error> {
    let Some(blocks) = &spec.blocks else {
        return Ok(None);
    };
    let room = layouts
        .last()
        .map_or(&quilt.outline, |inner| &inner.band.seam);
    let inner_round = match layouts.last() {
        Some(inner) => inner.has_round_seam(),
        None => quilt.round.is_some(),
    };
    if inner_round {
        return Err(Error::from(PlanFault::RoundBlocks).in_element("blocks"));
    }
    let raw_edge = layouts.is_empty().then_some(&quilt.outline);
    let unit = Unit::from(spec.unit);
    let asked = read(blocks, unit, (room, raw_edge), max_stretch);
    asked.map(Some).map_err(|e| e.in_element("blocks"))
}

fn read(
    blocks: &BlocksSpec,
    unit: Unit,
    (room, raw_edge): (&ConvexPolygon, Option<&ConvexPolygon>),
    max_stretch: f64,
) -> Result<BlocksAsked, Error> {
    let gap = |given: &Option<LengthSpec>, key: &str, what: &str, default| match given {
        Some(length) => length.gap_mm(unit, what).map_err(|e| e.in_element(key)),
        None => Ok(default),
    };
    let seam_gap = gap(&blocks.seam_gap, "seam_gap", "the seam gap", SEAM_GAP_MM)?;
    check_keys(blocks)?;
    let (measures, slack, sashes) = match &blocks.sashing {
        None => (measures(blocks, unit, room, 0.0)?, 0.0, None),
        Some(sashing) => {
            let in_sashing = |e: Error| e.in_element("sashing");
            let width = sashing.width.positive_mm(unit, "the width of the sashes");
            let width = width.map_err(|e| in_sashing(e.in_element("width")))?;
            if 2.0 * seam_gap >= width {
                let gaps = 2.0 * seam_gap;
                return Err(in_sashing(PlanFault::GapsTooWide { gaps, width }.into()));
            }
            let slack = gap(&sashing.slack, "slack", "the slack", 0.0).map_err(in_sashing)?;
            let depth = width - 2.0 * seam_gap;
            if slack >= depth {
                let fault = PlanFault::SlackTooWide { slack, depth };
                return Err(in_sashing(Error::from(fault).in_element("slack")));
            }
            let side = &sashing.side;
            let asked = side_asked(side, false, (2, unit), max_stretch).map_err(in_sashing)?;
            if asked.spacers.iter().any(Option::is_some) {
                let fault = Error::from(PlanFault::MiddleNowhere { what: "sashes" });
                return Err(in_sashing(fault.in_element("side")));
            }
            let sashes = side.motif.is_some().then_some(asked);
            (measures(blocks, unit, room, width)?, slack, sashes)
        }
    };
    if measures.count() > MAX_PLACES {
        let (count, limit) = (measures.count(), MAX_PLACES);
        return Err(PlanFault::TooManyBlocks { count, limit }.into());
    }
    let size = measures.size();
    let centre = middle(room);
    let origin = centre - size / 2.0;
    let corners = [(0.0, 0.0), (size.x, 0.0), (size.x, size.y), (0.0, size.y)];
    let corners = corners.map(|(x, y)| origin + Vector::new(x, y));
    let by = corners.iter().map(|&corner| beyond(room, corner));
    let by = by.fold(f64::NEG_INFINITY, f64::max);
    if by > ROUNDING_MM {
        let left = inner_box(room).map(Into::into);
        let fault = PlanFault::BlocksTooLarge {
            size: size.into(),
            left,
            by,
        };
        return Err(fault.into());
    }
    Ok(BlocksAsked {
        lie: blocks.lie,
        spots: measures.spots(origin),
        outline: ConvexPolygon::new(corners.to_vec())?,
        measures,
        seam_gap,
        raw_edge: raw_edge.cloned(),
        sashes,
        slack,
        plain_triangles: blocks.triangles.as_ref().is_some_and(|both| both.plain),
    })
}

/// Refuses keys that don't go together, and a field without a block.
fn check_keys(blocks: &BlocksSpec) -> Result<(), Error> {
    for (key, number) in [("rows", blocks.rows), ("columns", blocks.columns)] {
        if number == 0 {
            return Err(Error::from(PlanFault::NoBlocks { key }).in_element(key));
        }
    }
    let on_point = blocks.setting == Setting::OnPoint;
    let for_setting = |key: &'static str, given: bool, setting: &'static str| match given {
        true => Err(Error::from(PlanFault::ForSetting { key, setting }).in_element(key)),
        false => Ok(()),
    };
    for_setting("sashing", on_point && blocks.sashing.is_some(), "straight")?;
    let triangles = blocks.triangles.is_some();
    for_setting("triangles", !on_point && triangles, "on_point")?;
    let apart = |design: &DesignSpec| design.strokes == StrokesSpec::Apart;
    let cornerstone = blocks
        .sashing
        .as_ref()
        .and_then(|sashing| sashing.cornerstone.as_ref());
    if let Some(design) = cornerstone {
        let in_design = |e: Error| e.in_element("cornerstone").in_element("sashing");
        if apart(design) {
            let fault = Error::from(PlanFault::Apart).in_element("strokes");
            return Err(in_design(fault));
        }
        if design.cut.is_some() {
            let fault = Error::from(PlanFault::CornerstoneCut).in_element("cut");
            return Err(in_design(fault));
        }
        if blocks
            .sashing
            .as_ref()
            .is_some_and(|sashing| !sashing.cornerstones)
        {
            let fields = ["cornerstone", "cornerstones"];
            return Err(Error::from(PlanFault::BothGiven { fields }).in_element("sashing"));
        }
    }
    let sashed = blocks
        .sashing
        .as_ref()
        .is_some_and(|sashing| sashing.side.motif.is_some());
    let triangles = blocks.triangles.iter();
    let mut others = triangles.flat_map(|both| both.side.iter().chain(&both.corner));
    let any = blocks.block.is_some() || cornerstone.is_some() || sashed || others.next().is_some();
    match any {
        true => Ok(()),
        false => Err(PlanFault::PlainBlocks.into()),
    }
}

/// The measures of the field, with sashes of this width.
fn measures(
    blocks: &BlocksSpec,
    unit: Unit,
    room: &ConvexPolygon,
    sash: f64,
) -> Result<Measures, Error> {
    let outer = blocks.sashing.as_ref().is_some_and(|sashing| sashing.outer);
    let cornerstones = blocks
        .sashing
        .as_ref()
        .is_some_and(|sashing| sashing.cornerstones);
    let (rows, columns) = (blocks.rows, blocks.columns);
    if rows.saturating_mul(columns) > MAX_PLACES {
        let (count, limit) = (rows.saturating_mul(columns), MAX_PLACES);
        return Err(PlanFault::TooManyBlocks { count, limit }.into());
    }
    let in_size = |e: Error| e.in_element("size");
    let on_point = blocks.setting == Setting::OnPoint;
    let (heights, widths) = match &blocks.size {
        Some(BlockSizeSpec::Square(side)) => {
            let side = side
                .positive_mm(unit, "the side of a block")
                .map_err(in_size)?;
            (vec![side; rows], vec![side; columns])
        }
        Some(BlockSizeSpec::Lists(lists)) => {
            if on_point {
                let (key, setting) = ("heights", "straight");
                return Err(in_size(PlanFault::ForSetting { key, setting }.into()));
            }
            let list = |lengths: &[LengthSpec], key: &'static str, count: usize, what: &str| {
                if lengths.len() != count {
                    let found = lengths.len();
                    let fault = PlanFault::ListLength { key, found, count };
                    return Err(in_size(fault.into()));
                }
                let lengths = lengths.iter().map(|length| length.positive_mm(unit, what));
                let lengths: Result<Vec<f64>, Error> = lengths.collect();
                lengths.map_err(|e| in_size(e.in_element(key)))
            };
            (
                list(&lists.heights, "heights", rows, "the height of a row")?,
                list(&lists.widths, "widths", columns, "the width of a column")?,
            )
        }
        None => {
            let Some(left) = inner_box(room) else {
                return Err(PlanFault::NoBlockSize.into());
            };
            if on_point {
                let across = (left.x / columns as f64).min(left.y / rows as f64);
                let side = across / std::f64::consts::SQRT_2;
                (vec![side; rows], vec![side; columns])
            } else {
                let shared = |length: f64, count: usize| {
                    let sashes = if outer { count + 1 } else { count - 1 };
                    (length - sash * sashes as f64) / count as f64
                };
                let (height, width) = (shared(left.y, rows), shared(left.x, columns));
                let least = height.min(width);
                if least <= sash {
                    return Err(PlanFault::SashesTooWide { sash, block: least }.into());
                }
                (vec![height; rows], vec![width; columns])
            }
        }
    };
    let least = heights
        .iter()
        .chain(&widths)
        .copied()
        .fold(f64::INFINITY, f64::min);
    if sash >= least {
        return Err(PlanFault::SashesTooWide { sash, block: least }.into());
    }
    Ok(Measures {
        setting: blocks.setting,
        heights,
        widths,
        sash,
        outer,
        cornerstones,
    })
}

/// The middle of a room: the mean of its corners where it has four, else of its box.
fn middle(room: &ConvexPolygon) -> Point {
    let corners = room.corners();
    match corners {
        [a, b, c, d] => Point::from((a.coords + b.coords + c.coords + d.coords) / 4.0),
        _ => crate::geom::Bounds::of_nonempty(corners).centre(),
    }
}

/// The size of the largest box, sides along the axes, about the middle of a room with four sides;
/// `None` for another room.
fn inner_box(room: &ConvexPolygon) -> Option<Vector> {
    let [a, b, c, d] = room.corners() else {
        return None;
    };
    let middle = middle(room);
    let left = middle.x - a.x.max(d.x);
    let right = b.x.min(c.x) - middle.x;
    let up = middle.y - a.y.max(b.y);
    let down = c.y.min(d.y) - middle.y;
    Some(Vector::new(2.0 * left.min(right), 2.0 * up.min(down)))
}

/// How far a point lies outside a room; below 0 for one within.
fn beyond(room: &ConvexPolygon, point: Point) -> f64 {
    let sides = (0..room.sides()).map(|side| {
        let along = room.direction(side);
        let outwards = Vector::new(along.y, -along.x);
        (point - room.corner(side)).dot(&outwards)
    });
    sides.fold(f64::NEG_INFINITY, f64::max)
}

impl BlocksAsked {
    /// What of a place may be stitched: its seam gap is kept free, and the edge gap next to a raw
    /// edge.
    ///
    /// # Errors
    ///
    /// A plan error where that leaves nothing.
    pub(in crate::plan) fn usable(&self, spot: &FieldSpot) -> Result<ConvexPolygon, Error> {
        let seams = ConvexPolygon::new(spot.corners.clone())?;
        let gaps = (0..seams.sides()).map(|side| {
            let along = seams.direction(side);
            let centre = seams.corner(side) + along * (seams.side_length(side) / 2.0);
            self.seam_gap
                .max(EDGE_GAP_MM - self.to_raw_edge(centre, along))
        });
        let gaps: Vec<f64> = gaps.collect();
        seams.inset(&gaps).map_err(|_| {
            let gaps = gaps.iter().copied().fold(0.0, f64::max);
            let place = spot.place.to_string();
            Error::from(PlanFault::NothingLeft { place, gap: gaps })
        })
    }

    /// How far a place on a line of this direction lies from a raw edge that runs as it does.
    fn to_raw_edge(&self, centre: Point, along: Vector) -> f64 {
        // Seams of a square quilt lie along its edges; one out of square is a few degrees off.
        const ALONG: f64 = 0.2;
        let Some(edge) = &self.raw_edge else {
            return f64::INFINITY;
        };
        let sides = (0..edge.sides()).filter_map(|side| {
            let direction = edge.direction(side);
            let beside = direction.perp(&along).abs() < ALONG;
            beside.then(|| direction.perp(&(centre - edge.corner(side))))
        });
        sides.fold(f64::INFINITY, f64::min)
    }

    /// The places of one kind.
    pub(in crate::plan) fn of_kind(&self, kind: FieldKind) -> impl Iterator<Item = &FieldSpot> {
        self.spots
            .iter()
            .filter(move |spot| spot.place.kind == kind)
    }
}

/// How much line a thread cut counts for within a design.
///
/// # Errors
///
/// A plan error where that is no length.
pub(in crate::plan) fn cut_price(design: &DesignSpec, unit: Unit) -> Result<f64, Error> {
    match &design.cut {
        Some(length) => length
            .positive_mm(unit, "the price of a thread cut")
            .map_err(|e| e.in_element("cut")),
        None => Ok(THREAD_CUT_MM),
    }
}
