//! Corners made from the repeat: mitred on the diagonal, or bent round on an arc.

use super::placed::{CornerPiece, Corners};
use crate::corner::{
    BendOptions, BendRadius, CornerSite, DerivedCorner, ExtraLoops, MitreOptions, bent_corner,
    mitred_corner,
};
use crate::error::{Error, PlanFault};
use crate::plan::asked::BorderAsked;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::joint::Joint;
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::CornerPlace;
use crate::plan::piece::{CornerDetail, CornerMade};
use crate::plan::repeats::Repeats;
use crate::plan::tolerances::Tolerances;

/// A turn at a mitre of more than this many degrees is a warning: our own choice.
const SHARP_KINK_DEGREES: f64 = 10.0;

/// Interior angles that differ by less, in degrees, get the same corner.
const SAME_ANGLE: f64 = 1e-9;

/// A corner in its standard position, and how it came about.
pub(super) struct Made {
    corner: DerivedCorner,
    how: CornerMade,
    /// In how many equally good ways it can be cut.
    cuts: usize,
    findings: Vec<Finding>,
}

/// What corners are made of, and how closely.
#[derive(Clone, Copy)]
pub(super) struct Source<'a> {
    pub(super) border: &'a BorderAsked,
    pub(super) repeats: &'a Repeats,
    pub(super) tolerances: Tolerances,
    /// Which of the equally good cuts of a mitre is taken.
    pub(super) cut: usize,
}

/// Corners passed in the direction of the repeat, so that each turns; those of one angle are made
/// once.
pub(super) fn from_repeat(
    (border, layout): (&BorderAsked, &Layout),
    make: impl Fn(&CornerSite, CornerPlace) -> Result<Made, Error>,
) -> Result<(Corners, Vec<Finding>), Error> {
    let mut findings = Vec::new();
    let mut cuts = 1;
    let mut known: Vec<(f64, DerivedCorner, CornerMade)> = Vec::new();
    let sites = layout
        .corner_sites()
        .filter(|(place, _)| border.has_corner(*place));
    let placed = sites.map(|(place, site)| {
        let degrees = site.angle_degrees();
        let same = |known: &&(f64, DerivedCorner, CornerMade)| {
            (known.0 - degrees).abs() < SAME_ANGLE
                && (site.depths[0] - site.depths[1]).abs() <= SAME_ANGLE
        };
        let (made, how) = match known.iter().find(same) {
            Some((_, made, how)) => (made.clone(), how.clone()),
            None => {
                let made = make(&site, place)?;
                findings.extend(made.findings);
                cuts = cuts.max(made.cuts);
                known.push((degrees, made.corner.clone(), made.how.clone()));
                (made.corner, made.how)
            }
        };
        let motif = made.place(&site)?;
        let joints = Joint::of(&motif, site.square_lines(&motif));
        let detail = CornerDetail {
            position: place,
            angle_degrees: degrees,
            scale: [1.0, 1.0],
            made: how,
        };
        Ok((CornerPiece::new(motif, detail), joints))
    });
    let corners = placed.collect::<Result<Vec<_>, Error>>()?;
    let corners = Corners {
        cuts,
        ..Corners::joined(corners)
    };
    Ok((corners, findings))
}

impl Source<'_> {
    /// The repeat cut on the diagonal of a corner, with whole repeats on its legs.
    pub(super) fn mitred(
        &self,
        (legs, smooth, extra): (usize, f64, ExtraLoops),
        site: &CornerSite,
        place: CornerPlace,
    ) -> Result<Made, Error> {
        let depth = equal_depth(site, place)?;
        let options = MitreOptions {
            legs,
            smooth,
            cut: self.cut,
            extra,
            ends: self.border.side.ends,
            join_tolerance: self.tolerances.join,
            flattening: self.tolerances.flattening,
        };
        let mitred = mitred_corner(
            self.repeats.shared("mitred")?,
            depth,
            site.angle_degrees(),
            &options,
        )?;
        let here = |finding: Finding| finding.on_corner(self.border.index, place).at(site.elbow);
        let mut findings = Vec::new();
        if mitred.kink_degrees > SHARP_KINK_DEGREES {
            let degrees = mitred.kink_degrees;
            findings.push(here(Finding::warning(FindingKind::MitreKink { degrees })));
        }
        if mitred.smoothed_length < smooth * (1.0 - 1e-9) {
            let kind = FindingKind::MitreNotSmoothed {
                asked: smooth,
                smoothed: mitred.smoothed_length,
            };
            findings.push(here(Finding::note(kind)));
        }
        if mitred.crossings > 1 {
            let linked = extra == ExtraLoops::Link;
            let kind = FindingKind::MitreLoops {
                crossings: mitred.crossings,
                linked,
                length: if linked {
                    mitred.linked_length
                } else {
                    mitred.lost_length
                },
            };
            findings.push(here(Finding::note(kind)));
        }
        findings.extend(linked(mitred.links).map(here));
        let how = CornerMade::Mitred {
            kink_degrees: mitred.kink_degrees,
            crossings: mitred.crossings,
            lost_length: mitred.lost_length,
            linked_length: mitred.linked_length,
        };
        Ok(Made {
            corner: mitred.corner,
            how,
            cuts: mitred.cuts,
            findings,
        })
    }

    /// Whole repeats carried round a corner on an arc.
    pub(super) fn bent(
        &self,
        (legs, radius): (usize, BendRadius),
        site: &CornerSite,
        place: CornerPlace,
    ) -> Result<Made, Error> {
        let depth = equal_depth(site, place)?;
        let options = BendOptions {
            radius,
            legs,
            ends: self.border.side.ends,
            join_tolerance: self.tolerances.join,
            flattening: self.tolerances.flattening,
        };
        let bent = bent_corner(
            self.repeats.shared("bent")?,
            depth,
            site.angle_degrees(),
            &options,
        )?;
        let here = |finding: Finding| finding.on_corner(self.border.index, place).at(site.elbow);
        let findings = linked(bent.links).map(here).into_iter().collect();
        let how = CornerMade::Bent {
            repeats: bent.repeats,
            radius: bent.radius,
            arc_depth: bent.arc_depth,
            length_change: bent.length_change,
        };
        Ok(Made {
            corner: bent.corner,
            how,
            cuts: 1,
            findings,
        })
    }
}

/// What there is to report of links between the repeats that a corner is made of.
fn linked(links: usize) -> Option<Finding> {
    let kind = FindingKind::RepeatsLinked { links };
    (links > 0).then(|| Finding::note(kind))
}

/// The one depth of the bands before and after a corner.
fn equal_depth(site: &CornerSite, place: CornerPlace) -> Result<f64, Error> {
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
