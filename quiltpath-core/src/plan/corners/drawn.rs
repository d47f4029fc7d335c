//! Corners from a drawing: an L, a drawing cut to an L, or a block.

use super::given_mm;
use crate::chain::Repeat;
use crate::corner::{CornerSite, SizedCorner, size_corner};
use crate::error::{Error, PlanFault};
use crate::geom::{Bounds, Point, Vector};
use crate::leg::{Elbow, LegGiven, LegShape, choose_leg, l_region, leg_end};
use crate::motif::Motif;
use crate::plan::findings::{self, Finding, counted};
use crate::plan::pieces::CornerMade;
use crate::plan::ring::{Solver, Work};
use crate::plan::spec::{CornerSpec, TrimSpec};
use crate::transform::Transform;
use crate::trim::{Exactness, RouteOptions, Terminals, TrimOptions, trim_to_region};

pub(super) fn leg(
    solver: &mut Solver,
    work: &Work<'_>,
    motif: &Motif,
) -> Result<(SizedCorner, CornerMade), Error> {
    let said = said(solver, &work.border.corner)?;
    let leg = choose_leg(motif, &said)?;
    for doubt in &leg.notes {
        solver.findings.push(Finding::warning(
            "leg_unclear",
            None,
            format!(
                "{}: {doubt}; if the legs are wrong, say them under \"leg\"",
                motif.name()
            ),
        ));
    }
    let sized = size_corner(motif, &leg, work.layout.depth())?;
    // Below half a percent nobody sees it, and drawings are seldom truer.
    if sized.unevenness() > 1.005 {
        solver.findings.push(Finding::warning(
            "corner_uneven",
            Some(work.layout.band.outer.corners()[0]),
            format!(
                "{}: its legs are not equally deep, so it is stretched one way by {} to fit the band with both; draw legs of the same depth",
                motif.name(),
                findings::percent(sized.unevenness())
            ),
        ));
    }
    Ok((sized, CornerMade::Drawn))
}

fn said(solver: &Solver, corner: &CornerSpec) -> Result<LegGiven, Error> {
    let Some(leg) = &corner.leg else {
        return Ok(LegGiven::default());
    };
    let depth = |length, key, what| given_mm(solver, length, key, what);
    Ok(LegGiven {
        elbow: leg.elbow.map(Into::into),
        depth_horizontal: depth(
            &leg.horizontal_depth,
            "leg.horizontal_depth",
            "the horizontal leg's depth",
        )?,
        depth_vertical: depth(
            &leg.vertical_depth,
            "leg.vertical_depth",
            "the vertical leg's depth",
        )?,
        turn_degrees: leg.turn_degrees,
    })
}

/// A drawing cut to an L that starts and ends at the height of the repeat.
pub(super) fn trimmed(
    solver: &mut Solver,
    work: &Work<'_>,
    motif: &Motif,
    trim: &TrimSpec,
    repeat: &Repeat,
) -> Result<(SizedCorner, CornerMade), Error> {
    let given = |length, key, what| given_mm(solver, length, key, what);
    let depth = trim
        .leg_depth
        .positive_mm(solver.unit, "the legs' depth")
        .map_err(|e| e.in_element("trim.leg_depth"))?;
    let bounds = motif.bounds();
    let width = given(&trim.width, "trim.width", "the L's width")?.unwrap_or(bounds.width());
    let height = given(&trim.height, "trim.height", "the L's height")?.unwrap_or(bounds.height());
    let inset = given(&trim.inset, "trim.inset", "the links' inset")?.unwrap_or(0.0);
    let elbow: Elbow = trim.elbow.map_or(Elbow::TopLeft, Into::into);
    let [entering, leaving] = elbow.legs_clockwise();
    let [start, end] = work.border.ports(repeat);
    let port = |leg, across| leg_end(elbow, width, height, depth, leg, across);
    let options = TrimOptions {
        route: RouteOptions {
            order: trim.order.map_or_else(Default::default, Into::into),
            terminals: Terminals {
                start: Some(port(entering, end)?),
                end: Some(port(leaving, start)?),
            },
            restitch: true,
            max_link: None,
            inset,
        },
        ..TrimOptions::default()
    };
    // The L lies at the origin, so the drawing is moved under it, elbow to elbow.
    let l = Bounds {
        min: Point::origin(),
        max: Point::new(width, height),
    };
    let moved = motif.transformed(&Transform::carry(elbow.of(bounds), elbow.of(l)))?;
    let region = l_region(elbow, width, height, depth)?;
    let cut = trim_to_region(&moved, &region, &options)?;
    let [line] = cut.motifs.as_slice() else {
        return Err(PlanFault::TrimmedApart {
            paths: cut.motifs.len(),
        }
        .into());
    };
    let shape = LegShape {
        elbow,
        turn_degrees: 0.0,
        bounds: l,
        depth_horizontal: depth,
        depth_vertical: depth,
        outer_depth_horizontal: depth,
        outer_depth_vertical: depth,
        starts_on: entering,
        start_distance: 0.0,
        end_distance: 0.0,
        share: (width - depth) * (height - depth) / (width * height),
        notes: Vec::new(),
    };
    let sized = size_corner(line, &shape, work.layout.depth())?;
    let (report, scale) = (&cut.report, sized.scale[0]);
    solver.findings.push(Finding::note(
        "trimmed",
        Some(work.layout.band.outer.corners()[0]),
        format!(
            "{}: cut to an L and joined by {} with {} added to each corner ({:.0} % of its own line)",
            motif.name(),
            counted(report.links, "link"),
            solver.unit.readable(report.added_length * scale),
            report.share() * 100.0
        ),
    ));
    let made = CornerMade::Trimmed {
        added_length: report.added_length * scale,
        added_share: report.share(),
        links: report.links,
        restitched_length: report.restitched_length * scale,
        lost_length: report.lost_length * scale,
        least_added: scale
            * match report.exactness {
                Exactness::Exact => report.added_length,
                Exactness::Bound { lower, .. } => lower,
            },
    };
    Ok((sized, made))
}

/// A block turned as asked, to be fitted into each corner.
pub(super) struct Block {
    motif: Motif,
    turn_degrees: f64,
}

impl Block {
    pub(super) fn new(motif: &Motif, on_point: bool) -> Result<Self, Error> {
        let turn_degrees = if on_point { 45.0 } else { 0.0 };
        Ok(Self {
            motif: motif.transformed(&Transform::rotate_degrees(turn_degrees))?,
            turn_degrees,
        })
    }

    pub(super) fn made(&self) -> CornerMade {
        CornerMade::Block {
            turn_degrees: self.turn_degrees,
        }
    }

    /// The block in the middle of the corner, as large as fits in proportion, and its factor.
    ///
    /// The corner is the parallelogram between the outer lines and lines that lie `room` inside the
    /// entering and the leaving side's; its diagonal from the elbow carries the block's own.
    pub(super) fn place(
        &self,
        site: &CornerSite,
        room: [f64; 2],
        mirrored: bool,
    ) -> Result<(Motif, f64), Error> {
        let sin = site.leaving.perp(&site.entering);
        let centre = site.elbow + (site.leaving * room[0] + site.entering * room[1]) / (2.0 * sin);
        let bisector = (site.leaving + site.entering).normalize();
        let turn = bisector.y.atan2(bisector.x).to_degrees() - 45.0;
        let turned = Transform::rotate_degrees(turn);
        let change = if mirrored {
            // Left and right change about the diagonal, on which the elbow lies.
            Transform::new([0.0, 1.0, 1.0, 0.0, 0.0, 0.0]).then(turned)
        } else {
            turned
        };
        let bounds = self.motif.bounds();
        let half = bounds.size() / 2.0;
        let axes = [Vector::new(half.x, 0.0), Vector::new(0.0, half.y)]
            .map(|axis| change.apply_vector(axis));
        // Of the box about the block, a line `distance` from the centre leaves this factor.
        let factor = |along: Vector, distance: f64| {
            let reach: f64 = axes.iter().map(|axis| along.perp(axis).abs()).sum();
            distance / reach
        };
        let scale = factor(site.entering, room[0] / 2.0).min(factor(site.leaving, room[1] / 2.0));
        let map = Transform::carry(bounds.centre(), Point::origin())
            .then(Transform::scale(scale, scale))
            .then(change)
            .then(Transform::translate(centre.x, centre.y));
        let placed = self.motif.transformed(&map)?;
        let placed = if mirrored { placed.reversed() } else { placed };
        Ok((placed, scale))
    }
}
