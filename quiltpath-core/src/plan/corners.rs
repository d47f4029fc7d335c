//! The corners of one border, made in the style that is asked for and placed at its four corners.

use super::findings::{self, Finding, counted};
use super::pieces::{CornerDetail, CornerMade};
use super::ring::{Solver, Work};
use super::spec::{CornerSpec, CornerStyle, ExtraSpec, LengthSpec, TrimSpec};
use crate::chain::{Alternate, Repeat};
use crate::corner::{
    Arrangement, BendOptions, BendRadius, DEFAULT_LENGTH_CHANGE, ExtraLoops, MitreOptions,
    SizedCorner, bent_corner, mitred_corner, size_corner,
};
use crate::error::{Error, PlanFault};
use crate::geom::{Bounds, BoxCorner, Point};
use crate::leg::{Elbow, LegSaid, LegShape, choose_leg, l_region, leg_end};
use crate::motif::Motif;
use crate::route::{Exactness, RouteOptions, Terminals, TrimOptions, trim_to_region};
use crate::transform::{Proportions, Transform};

/// A turn at a mitre of more than this many degrees is a warning: our own choice.
const SHARP_KINK_DEGREES: f64 = 10.0;

/// The corners of one border, clockwise from the top left.
#[derive(Debug, Clone)]
pub(super) enum Corners {
    /// Corners that the sides between them join on to.
    Joined(Vec<(Motif, CornerDetail)>),
    /// Corners, or none, that stand by themselves.
    Apart(Vec<(Motif, CornerDetail)>),
}

/// Whether corners come out differently for another repeat.
pub(super) fn depend_on_repeat(spec: &CornerSpec) -> bool {
    matches!(spec.style, CornerStyle::Mitred | CornerStyle::Bent) || spec.trim.is_some()
}

/// The corners of a border whose style has no use for the repeat.
pub(super) fn fixed_corners(
    solver: &mut Solver,
    work: &Work<'_>,
    drawn: Option<&Motif>,
) -> Result<Corners, Error> {
    let spec = &work.border.corner;
    let arrangement = spec.arrangement.map_or_else(Default::default, Into::into);
    match (spec.style, drawn) {
        (CornerStyle::Leg, Some(motif)) => {
            let (sized, how) = leg(solver, work, motif).map_err(|e| e.in_element(motif.name()))?;
            Ok(Corners::Joined(place(work, &sized, &how, arrangement)?))
        }
        (CornerStyle::Block, Some(motif)) => {
            let (sized, how) =
                block(solver, work, motif).map_err(|e| e.in_element(motif.name()))?;
            Ok(Corners::Apart(place(work, &sized, &how, arrangement)?))
        }
        _ => Ok(Corners::Apart(Vec::new())),
    }
}

/// Makes and places the corners of a border; `drawn` is the corner's motif, where its style has one.
pub(super) fn corners(
    solver: &mut Solver,
    work: &Work<'_>,
    drawn: Option<&Motif>,
    repeat: &Repeat,
) -> Result<Corners, Error> {
    let spec = &work.border.corner;
    // A corner made from the repeat is passed in the direction of the repeats, so it turns.
    let (made, how, arrangement) = match (spec.style, drawn, &spec.trim) {
        (CornerStyle::Leg, Some(motif), Some(trim)) => {
            let (sized, how) = trimmed(solver, work, motif, trim, repeat)
                .map_err(|e| e.in_element(motif.name()))?;
            let arrangement = spec.arrangement.map_or_else(Default::default, Into::into);
            (sized, how, arrangement)
        }
        (CornerStyle::Mitred, ..) => {
            let (sized, how) = mitred(solver, work, repeat)?;
            (sized, how, Arrangement::Turned)
        }
        (CornerStyle::Bent, ..) => {
            let (sized, how) = bent(solver, work, repeat)?;
            (sized, how, Arrangement::Turned)
        }
        _ => return fixed_corners(solver, work, drawn),
    };
    Ok(Corners::Joined(place(work, &made, &how, arrangement)?))
}

fn place(
    work: &Work<'_>,
    sized: &SizedCorner,
    made: &CornerMade,
    arrangement: Arrangement,
) -> Result<Vec<(Motif, CornerDetail)>, Error> {
    BoxCorner::ALL
        .into_iter()
        .map(|position| {
            let detail = CornerDetail {
                position,
                scale: sized.scale,
                made: made.clone(),
            };
            Ok((
                sized.place(position, work.frame.outer, arrangement)?,
                detail,
            ))
        })
        .collect()
}

/// The length of a key, in millimetres, when it is given.
fn given_mm(
    solver: &Solver,
    length: &Option<LengthSpec>,
    key: &str,
    what: &str,
) -> Result<Option<f64>, Error> {
    length
        .as_ref()
        .map(|length| length.positive_mm(solver.unit, what))
        .transpose()
        .map_err(|e| e.in_element(key))
}

fn leg(
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
    let sized = size_corner(motif, &leg, work.frame.depth())?;
    // Below half a percent nobody sees it, and drawings are seldom truer.
    if sized.unevenness() > 1.005 {
        solver.findings.push(Finding::warning(
            "corner_uneven",
            Some(work.frame.outer.min),
            format!(
                "{}: its legs are not equally deep, so it is stretched one way by {} to fit the band with both; draw legs of the same depth",
                motif.name(),
                findings::percent(sized.unevenness())
            ),
        ));
    }
    Ok((sized, CornerMade::Drawn))
}

fn said(solver: &Solver, corner: &CornerSpec) -> Result<LegSaid, Error> {
    let Some(leg) = &corner.leg else {
        return Ok(LegSaid::default());
    };
    let depth = |length, key, what| given_mm(solver, length, key, what);
    Ok(LegSaid {
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
fn trimmed(
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
    let [start, end] = repeat.offsets(Alternate::None);
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
    let sized = size_corner(line, &shape, work.frame.depth())?;
    let (report, scale) = (&cut.report, sized.scale[0]);
    solver.findings.push(Finding::note(
        "trimmed",
        Some(work.frame.outer.min),
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

/// A block in the corner square: as large as fits, in proportion, in the middle of it.
fn block(
    solver: &Solver,
    work: &Work<'_>,
    motif: &Motif,
) -> Result<(SizedCorner, CornerMade), Error> {
    let frame = work.frame;
    let room = frame.seam.min.x - frame.outer.min.x - work.corner_gap(solver.unit)?;
    if room <= 0.0 {
        return Err(PlanFault::GapsTooWide {
            gaps: solver
                .unit
                .readable(frame.seam.min.x - frame.edge.min.x - room),
            width: solver.unit.readable(frame.seam.min.x - frame.edge.min.x),
        }
        .into());
    }
    let turn = if work.border.corner.on_point == Some(true) {
        45.0
    } else {
        0.0
    };
    let turned = motif.transformed(&Transform::rotate_degrees(turn))?;
    let bounds = turned.bounds();
    let fit = Transform::fit(bounds, Some(room), Some(room), Proportions::Keep)?;
    let fitted = turned.transformed(&fit)?;
    let centre = Point::new(room / 2.0, room / 2.0);
    let placed = fitted.transformed(&Transform::carry(fitted.bounds().centre(), centre))?;
    let scale = (fitted.bounds().size().norm()) / bounds.size().norm();
    let sized = SizedCorner {
        motif: placed,
        scale: [scale, scale],
    };
    Ok((sized, CornerMade::Block { turn_degrees: turn }))
}

fn mitred(
    solver: &mut Solver,
    work: &Work<'_>,
    repeat: &Repeat,
) -> Result<(SizedCorner, CornerMade), Error> {
    let spec = &work.border.corner;
    let smooth = match &spec.smooth {
        Some(length) => length
            .gap_mm(solver.unit, "the length to smooth over")
            .map_err(|e| e.in_element("smooth"))?,
        None => 0.0,
    };
    let options = MitreOptions {
        angle_degrees: 90.0,
        depth: work.frame.depth(),
        legs: spec.legs.unwrap_or(0),
        smooth,
        extra: match spec.extra {
            None | Some(ExtraSpec::Link) => ExtraLoops::Link,
            Some(ExtraSpec::Drop) => ExtraLoops::Drop,
        },
        ends: work.ends(),
        join_tolerance: solver.tolerances.join,
        flattening: solver.tolerances.flattening,
    };
    let mitred = mitred_corner(repeat, &options)?;
    let at = Some(work.frame.outer.min);
    if mitred.kink_degrees > SHARP_KINK_DEGREES {
        solver.findings.push(Finding::warning(
            "mitre_kink",
            at,
            format!(
                "{}: the line turns by {:.0} degrees where it is cut on the diagonal; give \"smooth\" a length to round it off, or leave it as a point",
                work.frame.name, mitred.kink_degrees
            ),
        ));
    }
    if mitred.crossings > 1 {
        let (what, length) = match options.extra {
            ExtraLoops::Link => ("linked along it by", mitred.linked_length),
            ExtraLoops::Drop => ("dropped:", mitred.lost_length),
        };
        solver.findings.push(Finding::note(
            "mitre_loops",
            at,
            format!(
                "{}: the repeat meets the diagonal {} at every phase; what lies beyond the first is {what} {} at each corner",
                work.frame.name,
                counted(mitred.crossings, "time"),
                solver.unit.readable(length)
            ),
        ));
    }
    let made = CornerMade::Mitred {
        kink_degrees: mitred.kink_degrees,
        crossings: mitred.crossings,
        lost_length: mitred.lost_length,
        linked_length: mitred.linked_length,
    };
    Ok((mitred.corner, made))
}

fn bent(
    solver: &mut Solver,
    work: &Work<'_>,
    repeat: &Repeat,
) -> Result<(SizedCorner, CornerMade), Error> {
    let spec = &work.border.corner;
    let radius = given_mm(solver, &spec.radius, "radius", "the radius of the bend")?;
    let change = spec
        .length_change_percent
        .map_or(DEFAULT_LENGTH_CHANGE, |percent| percent / 100.0);
    let options = BendOptions {
        angle_degrees: 90.0,
        depth: work.frame.depth(),
        radius: radius.map_or(BendRadius::LengthChange(change), BendRadius::Given),
        legs: spec.legs.unwrap_or(0),
        ends: work.ends(),
        join_tolerance: solver.tolerances.join,
        flattening: solver.tolerances.flattening,
    };
    let bent = bent_corner(repeat, &options)?;
    let made = CornerMade::Bent {
        repeats: bent.repeats,
        radius: bent.radius,
        arc_depth: bent.arc_depth,
        length_change: bent.length_change,
    };
    Ok((bent.corner, made))
}
