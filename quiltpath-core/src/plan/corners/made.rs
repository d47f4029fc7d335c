//! Corners made from the repeat: mitred on the diagonal, or bent round on an arc.

use super::given_mm;
use crate::chain::Repeat;
use crate::corner::{
    BendOptions, BendRadius, CornerSite, DEFAULT_LENGTH_CHANGE, ExtraLoops, MitreOptions,
    SizedCorner, bent_corner, mitred_corner,
};
use crate::error::{Error, PlanFault};
use crate::plan::findings::{Finding, counted};
use crate::plan::pieces::CornerMade;
use crate::plan::place::CornerPlace;
use crate::plan::ring::{Solver, Work};
use crate::plan::spec::ExtraSpec;

/// A turn at a mitre of more than this many degrees is a warning: our own choice.
const SHARP_KINK_DEGREES: f64 = 10.0;

/// The one depth of the bands before and after a corner.
fn depth(site: &CornerSite, place: CornerPlace) -> Result<f64, Error> {
    site.equal_depth().map_err(|_| {
        let [before, after] = site.depths;
        let corner = place.to_string();
        PlanFault::UnequalDepths {
            corner,
            before,
            after,
        }
        .into()
    })
}

pub(super) fn mitred(
    solver: &mut Solver,
    work: &Work<'_>,
    repeat: &Repeat,
    site: &CornerSite,
    place: CornerPlace,
) -> Result<(SizedCorner, CornerMade), Error> {
    let spec = &work.border.corner;
    let smooth = match &spec.smooth {
        Some(length) => length
            .gap_mm(solver.unit, "the length to smooth over")
            .map_err(|e| e.in_element("smooth"))?,
        None => 0.0,
    };
    let options = MitreOptions {
        angle_degrees: site.angle_degrees(),
        depth: depth(site, place)?,
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
    let at = Some(site.elbow);
    if mitred.kink_degrees > SHARP_KINK_DEGREES {
        solver.findings.push(Finding::warning(
            "mitre_kink",
            at,
            format!(
                "{}: the line turns by {:.0} degrees where it is cut on the diagonal; give \"smooth\" a length to round it off, or leave it as a point",
                work.layout.name, mitred.kink_degrees
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
                work.layout.name,
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

pub(super) fn bent(
    solver: &mut Solver,
    work: &Work<'_>,
    repeat: &Repeat,
    site: &CornerSite,
    place: CornerPlace,
) -> Result<(SizedCorner, CornerMade), Error> {
    let spec = &work.border.corner;
    let radius = given_mm(solver, &spec.radius, "radius", "the radius of the bend")?;
    let change = spec
        .length_change_percent
        .map_or(DEFAULT_LENGTH_CHANGE, |percent| percent / 100.0);
    let options = BendOptions {
        angle_degrees: site.angle_degrees(),
        depth: depth(site, place)?,
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
