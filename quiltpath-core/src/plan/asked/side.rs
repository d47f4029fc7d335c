//! What goes along the sides of a border or of sashes, in numbers.

use crate::chain::{Alternate, Ends};
use crate::error::{Error, PlanFault};
use crate::fit::{Count, Parity};
use crate::plan::ask::{BySide, SideSpec, SpacerSpec, StrokesSpec, check_line_ends};
use crate::plan::lay::place::Side;
use crate::plan::middle::SpacerAsked;
use crate::units::Unit;

/// What goes along the sides of a border.
#[derive(Debug, Clone)]
pub(in crate::plan) struct SideAsked {
    pub(in crate::plan) pattern: Alternate,
    pub(in crate::plan) ends: Ends,
    pub(in crate::plan) ease: bool,
    /// Whether opposite sides are to have the same number of repeats.
    pub(in crate::plan) alike: bool,
    /// The numbers of repeats that are allowed on each side.
    pub(in crate::plan) counts: Vec<Count>,
    /// The spacers of each side that has something in its middle.
    pub(in crate::plan) spacers: Vec<Option<SpacerAsked>>,
    /// How far from 1 a stretch may be while another number of repeats is nearer.
    pub(in crate::plan) max_stretch: f64,
}

/// Reads the numbers of what goes along so many sides, `mitred` where corners are that lie between
/// them.
///
/// # Errors
///
/// A plan error with the key at fault.
pub(in crate::plan) fn side_asked(
    spec: &SideSpec,
    mitred: bool,
    (sides, unit): (usize, Unit),
    max_stretch: f64,
) -> Result<SideAsked, Error> {
    let in_side = |e: Error| e.in_element("side");
    if spec.strokes == StrokesSpec::Apart {
        return Err(in_side(Error::from(PlanFault::Apart).in_element("strokes")));
    }
    match &spec.motif {
        Some(motif) => motif
            .check(sides)
            .map_err(|e| in_side(e.in_element("motif")))?,
        None if spec.is_plain() => {}
        None => return Err(in_side(PlanFault::SidesWithoutMotif.into())),
    }
    check_line_ends(
        [spec.start.is_some(), spec.end.is_some()],
        &[
            ("strokes", spec.strokes != StrokesSpec::OneLine),
            ("link_gaps", spec.link_gaps),
        ],
    )
    .map_err(in_side)?;
    if let Some(repeats) = &spec.repeats {
        repeats
            .check(sides)
            .map_err(|e| in_side(e.in_element("repeats")))?;
    }
    // A centred side between mitred corners has its first half mirrored, so that it goes on as the
    // corner's leg does.
    let pattern = match spec.alternate {
        Alternate::Centred if mitred => Alternate::CentredFirst,
        pattern => pattern,
    };
    let spacers = spacers(spec, sides, unit).map_err(in_side)?;
    let count = |side: Side| {
        let fixed = spec.repeats.as_ref().and_then(|repeats| repeats.get(side));
        let asked = Count {
            every: spec.every.unwrap_or(1),
            parity: spec.parity,
            fixed: fixed.copied(),
        };
        let key = || match (&spec.repeats, asked.fixed) {
            (_, None) => "parity".to_owned(),
            (Some(BySide::One(_)), _) => "repeats".to_owned(),
            _ => format!("repeats.{}", side.name()),
        };
        let asked = match spacers[side.index()] {
            Some(_) => even(asked),
            None => Ok(asked),
        };
        asked
            .and_then(|asked| pattern.count(asked))
            .map_err(|e| in_side(e.in_element(key())))
    };
    let alike = spec.opposite_alike;
    if alike && sides % 2 == 1 {
        let (what, count) = ("opposite_alike", sides);
        let fault = PlanFault::OddSides { what, count };
        return Err(Error::from(fault).in_element("side.opposite_alike"));
    }
    Ok(SideAsked {
        pattern,
        ends: spec.ends,
        ease: spec.ease,
        alike,
        max_stretch,
        counts: Side::all(sides).map(count).collect::<Result<_, Error>>()?,
        spacers,
    })
}

/// The same numbers, of which both halves of a side have as many.
fn even(allowed: Count) -> Result<Count, Error> {
    let odd = allowed.fixed.filter(|fixed| fixed % 2 == 1);
    if odd.is_some() || allowed.parity == Parity::Odd {
        return Err(PlanFault::MiddleOdd { repeats: odd }.into());
    }
    Ok(Count {
        parity: Parity::Even,
        ..allowed
    })
}

/// The spacers of each side that has something in its middle, of no length where that is a centre
/// alone.
fn spacers(spec: &SideSpec, sides: usize, unit: Unit) -> Result<Vec<Option<SpacerAsked>>, Error> {
    let in_centre = |e: Error| e.in_element("centre");
    let in_spacer = |e: Error| e.in_element("spacer");
    if let Some(centre) = &spec.centre {
        let in_motif = |e: Error| in_centre(e.in_element("motif"));
        centre.motif.check(sides).map_err(in_motif)?;
        if centre.strokes == StrokesSpec::Apart {
            return Err(in_centre(
                Error::from(PlanFault::Apart).in_element("strokes"),
            ));
        }
        let ends = [centre.start.is_some(), centre.end.is_some()];
        let drawn = centre.strokes != StrokesSpec::OneLine;
        check_line_ends(ends, &[("strokes", drawn)]).map_err(in_centre)?;
    }
    if let Some(spacer) = &spec.spacer {
        spacer.check(sides).map_err(in_spacer)?;
    }
    let of_side = |side: Side| {
        let centres = spec.centre.as_ref().map(|centre| &centre.motif);
        let centre = centres.and_then(|centres| centres.get(side));
        let spacer = spec.spacer.as_ref().and_then(|spacer| spacer.get(side));
        if spec.motif(side).is_none() {
            // One for all sides is for those that are stitched.
            let own = |by_side: bool| by_side.then(|| side.to_string());
            let centre = own(centre.is_some() && !matches!(centres, Some(BySide::One(_))));
            let spacer = own(spacer.is_some() && !matches!(spec.spacer, Some(BySide::One(_))));
            let plain = |side| Error::from(PlanFault::MiddleOfPlain { side });
            return match (centre, spacer) {
                (Some(side), _) => Err(in_centre(plain(side))),
                (None, Some(side)) => Err(in_spacer(plain(side))),
                (None, None) => Ok(None),
            };
        }
        Ok(match (centre, spacer) {
            (None, None) => None,
            (Some(_), None) => Some(SpacerAsked::Given(0.0)),
            (_, Some(SpacerSpec::Rest)) => Some(SpacerAsked::Rest),
            (_, Some(SpacerSpec::Length(length))) => {
                let length = length.positive_mm(unit, "the length of the spacer");
                Some(SpacerAsked::Given(length.map_err(in_spacer)?))
            }
        })
    };
    Side::all(sides).map(of_side).collect()
}
