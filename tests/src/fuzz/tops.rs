//! What lies within and about borders, by dice: round edges and scallops, blocks, middles of sides,
//! and ways to lie. It comes after all else of a plan, so that the dice of a plan before it fall as
//! they did.

use quiltpath_core::plan::spec::{
    BlocksSpec, BySide, CentreSpec, CornerAtSpec, CornerLie, CornerSpec, DesignSpec,
    OrientationSpec, QuiltSpec, SashingSpec, SideLie, SideSpec, SpacerSpec, TrianglesSpec,
};
use quiltpath_core::plan::{Lie, PlanSpec, Setting};

use super::dice::Dice;
use super::made::{length, maybe_length};

/// Adds to a plan of so many sides.
pub(super) fn add(spec: &mut PlanSpec, sides: usize, dice: &mut Dice<'_>) {
    let round = dice.once_in(4);
    if round {
        rounded(spec, dice);
    }
    for border in &mut spec.borders {
        // Mostly as a round edge has it; else it is seen how it is refused.
        if round && !dice.once_in(8) {
            border.corner = CornerSpec::default();
            border.stations.clear();
            border.width = BySide::One(length(dice, 50.0, 160.0));
            if let Some(BySide::List(_)) = border.side.repeats {
                border.side.repeats = None;
            }
        }
        let lies = [
            SideLie::AsIs,
            SideLie::Mirrored,
            SideLie::Flipped,
            SideLie::Turned,
        ];
        border.side.lie = dice.maybe(4, |d| d.pick(&lies)).unwrap_or_default();
        if border.corner.motif.is_some() {
            let mirrored = dice.once_in(4);
            border.corner.lie = if mirrored {
                CornerLie::Mirrored
            } else {
                CornerLie::AsIs
            };
            let at = dice.maybe(6, |d| vec![CornerAtSpec::Number(1 + d.below(sides))]);
            border.corner.at = at.unwrap_or_default();
        }
        if dice.once_in(6) {
            border.orientation = OrientationSpec::Best;
        }
        middle(&mut border.side, dice);
    }
    spec.blocks = dice.maybe(4, blocks);
    if spec.blocks.is_some() && dice.once_in(3) {
        spec.borders.clear();
    }
}

fn rounded(spec: &mut PlanSpec, dice: &mut Dice<'_>) {
    match dice.below(3) {
        0 => spec.quilt = QuiltSpec::circle(length(dice, 300.0, 2500.0)),
        1 => {
            let size = [0, 1].map(|_| length(dice, 300.0, 2500.0));
            let [width, height] = size;
            spec.quilt = QuiltSpec::ellipse(width, height);
        }
        _ => spec.quilt.rounding = Some(length(dice, 20.0, 600.0)),
    }
    if dice.once_in(2) {
        let count = dice.below(60);
        spec.quilt = spec
            .quilt
            .clone()
            .with_scallops(count, length(dice, 2.0, 60.0));
    }
}

fn middle(side: &mut SideSpec, dice: &mut Dice<'_>) {
    if dice.once_in(5) {
        side.centre = Some(CentreSpec::new("centre".to_owned()));
    }
    let spacer = dice.maybe(5, |dice| match dice.once_in(2) {
        true => SpacerSpec::Rest,
        false => SpacerSpec::Length(length(dice, 0.0, 300.0)),
    });
    side.spacer = spacer.map(BySide::One);
}

fn blocks(dice: &mut Dice<'_>) -> BlocksSpec {
    let mut blocks = BlocksSpec::new(dice.below(7), 1 + dice.below(6));
    blocks = match dice.below(4) {
        0 => blocks,
        1 => {
            let lengths = |dice: &mut Dice<'_>, count: usize| {
                (0..count).map(|_| length(dice, 50.0, 300.0)).collect()
            };
            let (rows, columns) = (blocks.rows, blocks.columns);
            let heights = lengths(dice, rows);
            let widths = lengths(dice, columns);
            blocks.with_lists(heights, widths)
        }
        _ => blocks.with_size(length(dice, 50.0, 300.0)),
    };
    if dice.once_in(3) {
        blocks = blocks.with_setting(Setting::OnPoint);
    }
    blocks.seam_gap = maybe_length(dice, 4, 0.0, 20.0);
    blocks.lie = dice.pick(&[Lie::AsIs, Lie::Alternate, Lie::Pinwheel]);
    blocks.block = dice.maybe(2, |dice| {
        let mut design = DesignSpec::new("corner");
        design.cut = maybe_length(dice, 3, 10.0, 200.0);
        design
    });
    blocks.sashing = dice.maybe(2, |dice| {
        let mut sashing = SashingSpec::new(length(dice, 20.0, 90.0), SideSpec::new("side"));
        sashing.outer = dice.once_in(2);
        sashing.cornerstones = !dice.once_in(3);
        sashing.slack = maybe_length(dice, 3, 0.0, 5.0);
        sashing.cornerstone = dice.maybe(2, |_| DesignSpec::new("centre"));
        middle(&mut sashing.side, dice);
        sashing
    });
    blocks.triangles = dice.maybe(4, |dice| {
        let mut triangles = TrianglesSpec::default();
        triangles.plain = dice.once_in(4);
        triangles.side = dice.maybe(2, |_| DesignSpec::new("corner"));
        triangles.corner = dice.maybe(2, |_| DesignSpec::new("corner"));
        triangles
    });
    blocks
}
