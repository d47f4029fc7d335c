//! A drawn L, or a drawing cut to one, sized to the band and slanted into every corner.

use super::cut::Cut;
use super::placed::{CornerPiece, Corners};
use crate::corner::{Arrangement, CornerSite, SizedCorner, size_corner};
use crate::error::Error;
use crate::leg::LegShape;
use crate::motif::Motif;
use crate::plan::asked::BorderAsked;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::joint::Joint;
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::CornerPlace;
use crate::plan::piece::{CornerDetail, CornerMade};

/// A leg that grows by less than this share, for its depth, is not reported: our own choice.
const LEAST_SLANT: f64 = 0.05;

/// Below half a percent nobody sees it, and drawings are seldom truer.
const LEAST_UNEVENNESS: f64 = 1.005;

/// A drawn L at every corner.
pub(super) fn leg(
    at: (&BorderAsked, &Layout),
    arrangement: Arrangement,
    motif: &Motif,
    shape: &LegShape,
) -> Result<(Corners, Vec<Finding>), Error> {
    let (index, layout) = (at.0.index, at.1);
    let sized =
        size_corner(motif, shape, layout.depth()).map_err(|e| e.in_element(motif.name()))?;
    let mut findings = Vec::new();
    if sized.unevenness() > LEAST_UNEVENNESS {
        let kind = FindingKind::CornerUneven {
            drawing: motif.name().to_owned(),
            unevenness: sized.unevenness(),
        };
        findings.push(
            Finding::warning(kind)
                .on_border(index)
                .at(layout.band.outer.corners()[0]),
        );
    }
    let (corners, slant) = slanted(at, arrangement, &sized, &CornerMade::Drawn)?;
    findings.extend(slant);
    Ok((corners, findings))
}

/// A drawing cut to an L at every corner.
pub(super) fn trimmed(
    at: (&BorderAsked, &Layout),
    arrangement: Arrangement,
    cut: &Cut,
) -> Result<(Corners, Vec<Finding>), Error> {
    let (index, layout) = (at.0.index, at.1);
    let sized = size_corner(&cut.line, &cut.shape, layout.depth())
        .map_err(|e| e.in_element(cut.drawing.as_str()))?;
    let (report, scale) = (&cut.report, sized.scale[0]);
    let kind = FindingKind::Trimmed {
        drawing: cut.drawing.clone(),
        links: report.links,
        added: report.added_length * scale,
        share: report.share(),
    };
    let mut findings = vec![
        Finding::note(kind)
            .on_border(index)
            .at(layout.band.outer.corners()[0]),
    ];
    let made = CornerMade::Trimmed {
        added_length: report.added_length * scale,
        added_share: report.share(),
        links: report.links,
        restitched_length: report.restitched_length * scale,
        lost_length: report.lost_length * scale,
        least_added: report.least_added().map(|least| least * scale),
    };
    let (corners, slant) = slanted(at, arrangement, &sized, &made)?;
    findings.extend(slant);
    Ok((corners, findings))
}

/// Whether the drawing is mirrored at a corner of a border.
pub(super) fn is_mirrored(
    border: &BorderAsked,
    arrangement: Arrangement,
    place: CornerPlace,
) -> bool {
    let every_second = arrangement == Arrangement::Mirrored && place.index() % 2 == 1;
    every_second != border.mirrored
}

/// A drawn L, sized to the depth of the band, slanted into every corner; and where that makes a leg
/// clearly longer, the corner where it does most.
fn slanted(
    (border, layout): (&BorderAsked, &Layout),
    arrangement: Arrangement,
    sized: &SizedCorner,
    made: &CornerMade,
) -> Result<(Corners, Option<Finding>), Error> {
    let depth = layout.depth();
    let mut longest: Option<(f64, CornerPlace, CornerSite)> = None;
    let placed = layout
        .corner_sites()
        .filter(|(place, _)| border.has_corner(*place))
        .map(|(place, site)| {
            let mirrored = is_mirrored(border, arrangement, place);
            let motif = sized
                .place_between(&site, mirrored)
                .map_err(|e| e.in_element(place.to_string()))?;
            let [mut entering, mut leaving] = sized.scale;
            if mirrored {
                std::mem::swap(&mut entering, &mut leaving);
            }
            let sin = site.leaving.perp(&site.entering);
            let [before, after] = site.depths.map(|of| of / depth);
            for along in [before / after, after / before].map(|ratio| ratio / sin) {
                if along > longest.map_or(1.0, |(most, ..)| most) {
                    longest = Some((along, place, site));
                }
            }
            let joints = Joint::of(&motif, site.cross_lines(&motif));
            let detail = CornerDetail {
                position: place,
                angle_degrees: site.angle_degrees(),
                scale: [entering * before, leaving * after],
                made: made.clone(),
            };
            Ok((CornerPiece::new(motif, detail), joints))
        })
        .collect::<Result<Vec<_>, Error>>()?;
    let slant = longest.filter(|(along, ..)| *along > 1.0 + LEAST_SLANT);
    let slant = slant.map(|(longer, place, site)| {
        let kind = FindingKind::CornerSlanted {
            degrees: site.angle_degrees(),
            depths: site.depths,
            longer,
        };
        Finding::note(kind)
            .on_corner(border.index, place)
            .at(site.elbow)
    });
    Ok((Corners::joined(placed), slant))
}
