//! Borders with a centre or a spacer in the middle of their sides, and with a design in some of
//! their corners.

use super::*;
use crate::geom::BoxCorner;
use proptest::prelude::*;

/// A drawing 3 in long and 2 in high that starts and ends at this share of its height.
fn heart(across: f64) -> Motif {
    let level = 2.0 * (1.0 - across);
    motif(&[
        (0.0, level),
        (1.0, 2.0),
        (1.5, 0.0),
        (2.0, 2.0),
        (3.0, level),
    ])
}

fn solved(spec: &PlanSpec, offsets: [f64; 2]) -> Result<Solved, Error> {
    solve(spec, |request| {
        Ok(match request.name.as_str() {
            "corner" => corner(0.5, 0.5).into(),
            "heart" => heart(offsets[1]).into(),
            _ => wave(offsets[0]).into(),
        })
    })
}

/// A quilt with an open border and so changed sides.
fn plan(size: [f64; 2], change: impl FnOnce(SideSpec) -> SideSpec) -> PlanSpec {
    let corner = CornerSpec::new(CornerStyle::Open);
    let side = change(SideSpec::new("side"));
    let quilt = QuiltSpec::rectangle(inches(size[0]), inches(size[1]));
    PlanSpec::new(UnitSpec::In, quilt).with_borders([BorderSpec::new(6.0, corner, side)])
}

/// The points of a side from its start along and across its strip, in millimetres.
fn along(solved: &Solved, piece: &Piece, side: Side) -> Vec<(f64, f64)> {
    let strip = solved.layouts[0].strip(side);
    piece.points().map(|point| strip.locate(point)).collect()
}

#[test]
fn a_centre_lies_in_the_middle_as_drawn_and_the_repeats_share_the_rest() {
    let spec = plan([60.0, 80.0], |side| {
        side.with_centre(CentreSpec::new("heart"))
    });
    let found = solved(&spec, [0.5, 0.5]).expect("solved");
    for side in SIDES {
        let (piece, detail) = side_of(&found, side);
        let middle = detail.middle.expect("a middle");
        let depth = found.layouts[0].depth();
        // 3 in of a drawing 2 in high.
        assert!((middle.centre - 1.5 * depth).abs() < 1e-9 && middle.spacer == 0.0);
        let repeats = detail.fit.chosen.repeats;
        assert_eq!((repeats % 2, detail.links), (0, 0));
        assert!((repeats as f64 * detail.pitch + middle.centre - detail.span).abs() < 1e-9);
        // The centre's five points lie about the middle of the side, its own lengths apart.
        let places = along(&found, piece, side);
        let (first, last) = (places[0].0, places[places.len() - 1].0);
        let tip = places.len() / 2;
        let half = 0.5 * (first + last);
        assert!((places[tip].0 - half).abs() < 1e-9, "{places:?}");
        let reach = places[tip + 2].0 - places[tip - 2].0;
        assert!((reach - middle.centre).abs() < 1e-9);
        // As many points either side: four lines for each repeat.
        assert_eq!(tip - 2, 4 * repeats / 2);
        assert_eq!(piece.line().ends.len(), repeats);
    }
}

#[test]
fn a_centre_at_another_height_is_levelled_to_the_repeats() {
    let spec = plan([60.0, 80.0], |side| {
        side.with_centre(CentreSpec::new("heart"))
    });
    let found = solved(&spec, [0.5, 0.6]).expect("solved");
    let (_, detail) = side_of(&found, Side::TOP);
    let depth = found.layouts[0].depth();
    assert!((detail.levelled - 0.1 * depth).abs() < 1e-9 && detail.links == 0);
    let spec = plan([60.0, 80.0], |side| {
        side.with_centre(CentreSpec::new("heart"))
            .with_ends(Ends::Link)
    });
    let found = solved(&spec, [0.5, 0.6]).expect("solved");
    let (piece, detail) = side_of(&found, Side::TOP);
    assert_eq!((detail.links, piece.line().motif.links().len()), (2, 2));
    assert!(
        codes(&found).contains(&"repeats_linked"),
        "{:?}",
        codes(&found)
    );
}

#[test]
fn a_spacer_takes_the_rest_of_what_repeats_as_drawn_leave() {
    let spec = plan([60.0, 80.0], |side| side.with_spacer(SpacerSpec::Rest));
    let found = solved(&spec, [0.5, 0.5]).expect("solved");
    for side in SIDES {
        let (piece, detail) = side_of(&found, side);
        let middle = detail.middle.expect("a middle");
        let natural = 2.0 * found.layouts[0].depth();
        let pairs = (detail.span / (2.0 * natural)).floor() as usize;
        assert_eq!(detail.fit.chosen.repeats, 2 * pairs);
        assert!((detail.fit.chosen.stretch - 1.0).abs() < 1e-12);
        assert!((middle.spacer - (detail.span - 2.0 * pairs as f64 * natural)).abs() < 1e-9);
        // The straight line lies between the halves, at one height, and is no link.
        let places = along(&found, piece, side);
        let before = places[4 * pairs];
        let after = places[4 * pairs + 1];
        assert!((after.0 - before.0 - middle.spacer).abs() < 1e-9);
        assert!((after.1 - before.1).abs() < 1e-12);
        assert!(piece.line().motif.links().is_empty());
    }
    // The number taken is the best to choose; one more pair would be squeezed.
    for side in side_choices(&spec, &found).expect("choices") {
        assert_eq!(side.best, side.chosen);
        let more = side
            .choices
            .iter()
            .find(|one| one.repeats == side.chosen + 2);
        let fewer = side
            .choices
            .iter()
            .find(|one| one.repeats + 2 == side.chosen);
        assert!(more.is_none_or(|one| one.stretch < 1.0));
        assert!(fewer.is_none_or(|one| one.stretch == 1.0));
        assert!(side.choices.iter().all(|one| one.repeats % 2 == 0));
    }
    // Nothing is stretched, so there is nothing to report of it.
    assert!(
        found.findings.iter().all(|one| one.code() != "stretch"),
        "{:?}",
        codes(&found)
    );
}

#[test]
fn opposite_sides_that_go_alike_have_the_numbers_that_both_can_have() {
    let mut spec = plan([60.0, 80.0], |side| {
        side.with_spacer(SpacerSpec::Rest).with_opposite_alike(true)
    });
    spec.quilt = QuiltSpec::default()
        .with_top(inches(60.0))
        .with_right(inches(80.0))
        .with_bottom(inches(84.0))
        .with_left(inches(80.0))
        .with_falling(inches(107.0));
    let found = solved(&spec, [0.5, 0.5]).expect("solved");
    let repeats = |side| side_of(&found, side).1.fit.chosen.repeats;
    assert_eq!(repeats(Side::TOP), repeats(Side::BOTTOM));
    spec.borders[0].side.opposite_alike = false;
    let found = solved(&spec, [0.5, 0.5]).expect("solved");
    let free = |side| side_of(&found, side).1.fit.chosen.repeats;
    assert!(free(Side::BOTTOM) > free(Side::TOP));
    assert_eq!(repeats(Side::LEFT), repeats(Side::RIGHT));
}

#[test]
fn what_the_middle_cannot_be_is_refused_where_it_is_said() {
    let said = |size, change: fn(SideSpec) -> SideSpec| {
        let found = solved(&plan(size, change), [0.5, 0.5]);
        found.map(|_| ()).expect_err("refused").to_string()
    };
    let usual = [60.0, 80.0];
    let odd = said(usual, |side| {
        side.with_centre(CentreSpec::new("heart")).with_repeats(5)
    });
    assert!(
        odd.contains("repeats") && odd.contains("give 4 or 6"),
        "{odd}"
    );
    let odd = said(usual, |side| {
        side.with_centre(CentreSpec::new("heart"))
            .with_parity(Parity::Odd)
    });
    assert!(odd.contains("leave the parity out"), "{odd}");
    let long = said(usual, |side| side.with_spacer(50.0));
    assert!(long.contains("side") && long.contains("50 in"), "{long}");
    let short = said([24.0, 30.0], |side| {
        side.with_centre(CentreSpec::new("heart"))
            .with_spacer(SpacerSpec::Rest)
    });
    assert!(short.contains("two groups"), "{short}");
    let negative = said(usual, |side| side.with_spacer(-1.0));
    assert!(negative.contains("spacer"), "{negative}");
    let plain = said(usual, |mut side| {
        side.motif = Some(BySide::List(vec![Some("side".into()), None, None, None]));
        let right = vec![None, Some("heart".into()), None, None];
        side.centre = Some(CentreSpec::new("heart"));
        side.centre.as_mut().expect("a centre").motif = BySide::List(right);
        side
    });
    assert!(plain.contains("right side has no repeats"), "{plain}");
}

#[test]
fn corners_that_are_named_get_the_design_and_others_stay_empty() {
    let mut spec = spec(CornerStyle::Leg);
    spec.borders[0].corner.at = vec![BoxCorner::TopLeft.into(), 3.into()];
    let found = solved(&spec, [0.5, 0.5]).expect("solved");
    let corners: Vec<&str> = found
        .pieces
        .iter()
        .filter_map(|piece| match &piece.kind {
            PieceKind::Corner(detail) => Some(detail.position.name()),
            _ => None,
        })
        .collect();
    assert_eq!(corners, ["top_left", "bottom_right"]);
    assert!(found.joins.iter().all(|join| join.gap < 1e-9));
    assert_eq!((found.joins.len(), found.thread_cuts()), (4, 2));
    // Where no design is, a side ends within the corner square's gap, as beside an empty corner.
    let open = solved(&plan([60.0, 80.0], |side| side), [0.5, 0.5]).expect("solved");
    let end = |of: &Solved| side_of(of, Side::TOP).0.end().point;
    assert!((end(&found) - end(&open)).norm() < 1e-9);
    spec.borders[0].side.motif = Some(BySide::List(vec![
        Some("side".into()),
        None,
        None,
        Some("side".into()),
    ]));
    let plain = refused(&spec);
    assert!(plain.contains("bottom right corner lies beside"), "{plain}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whatever lies in the middle, the lines are whole, as many repeats lie before it as after it,
    /// and lengths add up.
    #[test]
    fn lengths_add_up_and_lines_are_whole(
        size in [30.0..90.0f64, 30.0..90.0f64],
        offsets in [0.2..0.8f64, 0.2..0.8f64],
        (centre, spacer, slack) in (any::<bool>(), prop_oneof![Just(None), Just(Some(-1.0)), (0.1..4.0f64).prop_map(Some)], 0.0..1.0f64),
    ) {
        let mut spec = plan(size, |mut side| {
            if centre {
                side = side.with_centre(CentreSpec::new("heart"));
            }
            match spacer {
                None => side,
                Some(length) if length < 0.0 => side.with_spacer(SpacerSpec::Rest),
                Some(length) => side.with_spacer(length),
            }
        });
        spec.borders[0].slack = Some(inches(slack));
        let found = match solved(&spec, offsets) {
            Ok(found) => found,
            // No room for two repeats of 9 in beside a centre and spacers.
            Err(error) => {
                prop_assert!(size[0].min(size[1]) < 48.0, "{error}");
                return Ok(());
            }
        };
        for side in SIDES {
            let (piece, detail) = side_of(&found, side);
            let middle = detail.middle.map_or(0.0, |middle| middle.length());
            let repeats = detail.fit.chosen.repeats;
            prop_assert!((repeats as f64 * detail.pitch + middle - detail.span).abs() < 1e-9 * detail.span);
            prop_assert_eq!(piece.line().ends.len(), repeats);
            let places = along(&found, piece, side);
            prop_assert!((places[places.len() - 1].0 - places[0].0 - detail.span).abs() < 1e-9 * detail.span);
            if detail.middle.is_some() {
                prop_assert!(repeats % 2 == 0);
                let half = piece.line().ends[repeats / 2 - 1];
                let before = places[half].0 - places[0].0;
                prop_assert!((before - 0.5 * repeats as f64 * detail.pitch).abs() < 1e-9 * detail.span);
            }
        }
    }
}
