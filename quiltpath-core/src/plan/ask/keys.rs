//! Which keys of a border's corners each style has a use for.

use super::corner::CornerSpec;
use super::strokes::StrokesSpec;
use super::style::CornerStyle;
use crate::error::{Error, PlanFault};

/// Refuses keys that the style has no use for, and asks for those that it needs.
pub(in crate::plan) fn check_keys(corner: &CornerSpec) -> Result<(), Error> {
    use CornerStyle::{Bent, Block, Butted, Leg, Mitred, Open};
    let style = corner.style.name();
    if matches!(corner.style, Leg | Block) && corner.motif.is_none() {
        return Err(PlanFault::DrawingMissing { style }.into());
    }
    if corner.strokes == StrokesSpec::Apart && matches!(corner.style, Leg) {
        return Err(Error::from(PlanFault::Apart).in_element("strokes"));
    }
    for (fields, given) in [
        (
            ["leg", "trim"],
            corner.leg.is_some() && corner.trim.is_some(),
        ),
        (
            ["radius", "length_change_percent"],
            corner.radius.is_some() && corner.length_change_percent.is_some(),
        ),
    ] {
        if given {
            return Err(PlanFault::BothGiven { fields }.into());
        }
    }
    let keys: [(&str, bool, &[CornerStyle]); 16] = [
        ("motif", corner.motif.is_some(), &[Leg, Block]),
        ("layers", !corner.layers.is_empty(), &[Leg, Block]),
        ("arrangement", corner.arrangement.is_some(), &[Leg, Block]),
        ("leg", corner.leg.is_some(), &[Leg]),
        ("trim", corner.trim.is_some(), &[Leg]),
        (
            "strokes",
            corner.strokes != StrokesSpec::default(),
            &[Leg, Block],
        ),
        ("cut", corner.cut.is_some(), &[Block]),
        ("link_gaps", corner.link_gaps, &[Leg, Block]),
        ("through", corner.through.is_some(), &[Butted]),
        ("gap", corner.gap.is_some(), &[Open, Butted, Block]),
        ("on_point", corner.on_point, &[Block]),
        ("legs", corner.legs.is_some(), &[Mitred, Bent]),
        ("smooth", corner.smooth.is_some(), &[Mitred]),
        ("extra", corner.extra.is_some(), &[Mitred]),
        ("radius", corner.radius.is_some(), &[Bent]),
        (
            "length_change_percent",
            corner.length_change_percent.is_some(),
            &[Bent],
        ),
    ];
    let unused = keys
        .iter()
        .find(|(_, given, styles)| *given && !styles.contains(&corner.style));
    match unused {
        None => Ok(()),
        Some((field, ..)) => Err(PlanFault::NotUsed { field, style }.into()),
    }
}
