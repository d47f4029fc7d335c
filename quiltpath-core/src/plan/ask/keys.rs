//! Which keys of a border's corners each style has a use for.

use super::corner::CornerSpec;
use super::lie::CornerLie;
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
    let keys: [(&str, bool, &[CornerStyle]); 20] = [
        ("at", !corner.at.is_empty(), &[Leg, Block, Mitred, Bent]),
        ("motif", corner.motif.is_some(), &[Leg, Block]),
        ("layers", !corner.layers.is_empty(), &[Leg, Block]),
        ("arrangement", corner.arrangement.is_some(), &[Leg, Block]),
        ("lie", corner.lie != CornerLie::AsIs, &[Leg, Block]),
        ("leg", corner.leg.is_some(), &[Leg]),
        ("trim", corner.trim.is_some(), &[Leg]),
        (
            "strokes",
            corner.strokes != StrokesSpec::default(),
            &[Leg, Block],
        ),
        ("start", corner.start.is_some(), &[Leg, Block]),
        ("end", corner.end.is_some(), &[Leg, Block]),
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
        None => check_line_ends(
            [corner.start.is_some(), corner.end.is_some()],
            &[
                ("strokes", corner.strokes != StrokesSpec::OneLine),
                ("link_gaps", corner.link_gaps),
                ("trim", corner.trim.is_some()),
            ],
        ),
        Some((field, ..)) => Err(PlanFault::NotUsed { field, style }.into()),
    }
}

/// Refuses a start or an end of a line beside keys by which no one line is made with ends of its
/// own: each with whether it is given.
pub(in crate::plan) fn check_line_ends(
    [start, end]: [bool; 2],
    others: &[(&'static str, bool)],
) -> Result<(), Error> {
    let end = [("start", start), ("end", end)]
        .into_iter()
        .find(|(_, given)| *given);
    let other = others.iter().find(|(_, given)| *given);
    match (end, other) {
        (Some((key, _)), Some(&(other, _))) => Err(PlanFault::EndsOfOneLine { key, other }.into()),
        _ => Ok(()),
    }
}

/// The same corners in another style, without the keys that it has no use for.
pub(in crate::plan) fn in_style(corner: &CornerSpec, style: CornerStyle) -> CornerSpec {
    use CornerStyle::{Bent, Block, Butted, Leg, Mitred, Open};
    let drawn = matches!(style, Leg | Block);
    let cornered = matches!(style, Open | Butted | Block);
    let repeated = matches!(style, Mitred | Bent);
    let apart = corner.strokes == StrokesSpec::Apart && style != Block;
    CornerSpec {
        style,
        at: match drawn || repeated {
            true => corner.at.clone(),
            false => Vec::new(),
        },
        motif: corner.motif.clone().filter(|_| drawn),
        layers: match drawn {
            true => corner.layers.clone(),
            false => Vec::new(),
        },
        arrangement: corner.arrangement.filter(|_| drawn),
        lie: match drawn {
            true => corner.lie,
            false => CornerLie::AsIs,
        },
        leg: corner.leg.clone().filter(|_| style == Leg),
        trim: corner.trim.clone().filter(|_| style == Leg),
        strokes: match drawn && !apart {
            true => corner.strokes,
            false => StrokesSpec::default(),
        },
        start: corner.start.clone().filter(|_| drawn),
        end: corner.end.clone().filter(|_| drawn),
        cut: corner.cut.clone().filter(|_| style == Block),
        link_gaps: corner.link_gaps && drawn,
        through: corner.through.filter(|_| style == Butted),
        gap: corner.gap.clone().filter(|_| cornered),
        on_point: corner.on_point && style == Block,
        legs: corner.legs.filter(|_| repeated),
        smooth: corner.smooth.clone().filter(|_| style == Mitred),
        extra: corner.extra.filter(|_| style == Mitred),
        radius: corner.radius.clone().filter(|_| style == Bent),
        length_change_percent: corner.length_change_percent.filter(|_| style == Bent),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::ask::{EndSpec, LegSpec, TrimSpec};

    #[test]
    fn another_style_keeps_what_it_has_a_use_for_and_is_accepted() {
        use CornerStyle::{Bent, Block, Butted, Leg, Mitred, Open};
        let all = [Leg, Block, Mitred, Bent, Butted, Open];
        let full = |style| {
            let corner = CornerSpec::new(style).with_gap(0.5).with_legs(1);
            let corner = corner.with_motif("rose.svg").with_layers(["ink"]);
            let corner = corner.with_strokes(StrokesSpec::Apart).with_cut(2.0);
            let corner = corner.with_on_point(true).with_smooth(1.0).with_radius(3.0);
            corner.with_trim(TrimSpec::new(4.0)).with_link_gaps(true)
        };
        for from in all {
            for style in all {
                let corner = in_style(&full(from), style);
                check_keys(&corner).expect("keys that the style has a use for");
                assert_eq!(corner.style, style);
                assert_eq!(corner.motif.is_some(), matches!(style, Leg | Block));
                assert_eq!(corner.trim.is_some(), style == Leg);
                assert_eq!(corner.gap.is_some(), matches!(style, Open | Butted | Block));
                // Once more changes nothing.
                assert_eq!(in_style(&corner, style), corner);
            }
        }
        // A line's ends go with drawings alone, and not with strokes that are no one line.
        let block = CornerSpec::new(Block).with_motif("rose.svg");
        let block = block
            .with_start(EndSpec::Left)
            .with_end(EndSpec::at(1.0, 2.0));
        for style in all {
            let corner = in_style(&block, style);
            check_keys(&corner).expect("keys that the style has a use for");
            assert_eq!(corner.end.is_some(), matches!(style, Leg | Block));
        }
        let legs = CornerSpec::new(Leg)
            .with_motif("l.svg")
            .with_leg(LegSpec::default());
        assert_eq!(in_style(&legs, Leg), legs);
    }
}
