//! A plan from options alone: one border, one repeat, one corner.

use clap::Args;
use quiltpath_core::chain::{Alternate, Ends};
use quiltpath_core::corner::Arrangement;
use quiltpath_core::plan::PlanSpec;
use quiltpath_core::plan::spec::{
    BorderSpec, CornerSpec, CornerStyle, LengthSpec, QuiltSpec, SideSpec, UnitSpec,
};
use quiltpath_core::units::{Length, Unit};

use crate::args::{
    ALTERNATES, ARRANGEMENTS, ENDS, Reading, STYLES, Size, choice, counting, from_0_in_unit,
    positive_in_unit,
};
use crate::failure::Failure;

/// The options that stand for a plan file.
#[derive(Args)]
#[command(next_help_heading = "Instead of a plan file")]
pub(crate) struct PlanFlags {
    /// Size, raw edge to raw edge: "64 1/4 x 80 in"
    #[arg(long, value_name = "SIZE", required_unless_present = "plan")]
    quilt: Option<Size>,
    /// Width of the border, from raw edge to seam
    #[arg(long, value_name = "LENGTH", required_unless_present = "plan")]
    border: Option<Length>,
    /// Motif to repeat along the sides
    #[arg(long, value_name = "MOTIF", required_unless_present = "plan")]
    side: Option<String>,
    /// Motif for the corners: an L or a block
    #[arg(long, value_name = "MOTIF")]
    corner: Option<String>,
    /// Corners: leg, block, mitred, bent, open, butted
    #[arg(long, hide_possible_values = true, value_parser = choice(STYLES))]
    style: Option<CornerStyle>,
    /// mirrored or turned corners [default: mirrored]
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(ARRANGEMENTS))]
    arrangement: Option<Arrangement>,
    /// Left free at the seam [default: 1/4 in]
    #[arg(long, value_name = "LENGTH")]
    seam_gap: Option<Length>,
    /// Left free at the raw edge [default: 1/2 in]
    #[arg(long, value_name = "LENGTH")]
    edge_gap: Option<Length>,
    /// level or link uneven ends [default: level]
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(ENDS))]
    ends: Option<Ends>,
    /// Use a multiple of N repeats
    #[arg(long, value_name = "N", value_parser = counting)]
    every: Option<usize>,
    /// Mirror repeats: left-right, top-bottom or centred
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(ALTERNATES))]
    alternate: Option<Alternate>,
    /// Stretch stems, so that loops stay round
    #[arg(long)]
    ease: bool,
    /// Title of the picture
    #[arg(long, value_name = "TEXT")]
    title: Option<String>,
}

impl PlanFlags {
    /// The plan that the options stand for.
    pub(super) fn spec(&self, reading: &Reading) -> Result<PlanSpec, Failure> {
        reading.check()?;
        let (Some(quilt), Some(border), Some(side)) = (&self.quilt, &self.border, &self.side)
        else {
            let needed = "give a plan file, or --quilt, --border and --side";
            return Err(Failure::Usage(needed.to_owned()));
        };
        let bare = reading.unit.map(Unit::from);
        for (typed, option) in [
            (&quilt.width, "--quilt"),
            (&quilt.height, "--quilt"),
            (border, "--border"),
        ] {
            positive_in_unit(typed, bare, Unit::Mm, option)?;
        }
        for (typed, option) in [
            (&self.seam_gap, "--seam-gap"),
            (&self.edge_gap, "--edge-gap"),
        ] {
            if let Some(typed) = typed {
                from_0_in_unit(typed, bare, Unit::Mm, option)?;
            }
        }
        let length = |typed: &Length| LengthSpec(*typed);
        let maybe = |typed: &Option<Length>| typed.as_ref().map(length);
        let mut side = SideSpec::new(side)
            .with_strokes(reading.strokes.unwrap_or_default())
            .with_link_gaps(reading.link)
            .with_layers(&reading.layers);
        side.every = self.every;
        side.alternate = self.alternate.unwrap_or_default();
        side.ease = self.ease;
        side.ends = self.ends.unwrap_or_default();
        let mut border = BorderSpec::new(length(border), self.corner(reading)?, side);
        border.seam_gap = maybe(&self.seam_gap);
        border.edge_gap = maybe(&self.edge_gap);
        let unit = reading.unit.unwrap_or_else(|| unit_of(quilt));
        let quilt = QuiltSpec::rectangle(length(&quilt.width), length(&quilt.height));
        let mut plan = PlanSpec::new(unit, quilt).with_borders([border]);
        plan.title.clone_from(&self.title);
        plan.flattening = maybe(&reading.flattening);
        plan.join_tolerance = maybe(&reading.join);
        Ok(plan)
    }

    fn corner(&self, reading: &Reading) -> Result<CornerSpec, Failure> {
        let style = self.style.unwrap_or(match self.corner {
            Some(_) => CornerStyle::Leg,
            None => CornerStyle::Open,
        });
        let drawn = matches!(style, CornerStyle::Leg | CornerStyle::Block);
        let name = style.name();
        if drawn && self.corner.is_none() {
            return Err(Failure::Usage(format!(
                "--style {name}: give the motif for the corners with --corner"
            )));
        }
        let given = [
            ("--corner", self.corner.is_some()),
            ("--arrangement", self.arrangement.is_some()),
        ];
        if let Some((option, _)) = given.iter().find(|(_, given)| *given && !drawn) {
            return Err(Failure::Usage(format!(
                "{option}: the corner style {name} doesn't use a corner motif; leave it out, or give --style leg or block"
            )));
        }
        let mut corner = CornerSpec::new(style);
        if drawn {
            corner = corner
                .with_strokes(reading.strokes.unwrap_or_default())
                .with_link_gaps(reading.link)
                .with_layers(&reading.layers);
        }
        corner.motif.clone_from(&self.corner);
        corner.arrangement = self.arrangement;
        Ok(corner)
    }
}

/// The unit to answer in, by the unit that the quilt was measured in.
fn unit_of(quilt: &Size) -> UnitSpec {
    match quilt.width.unit {
        Some(Unit::Mm) => UnitSpec::Mm,
        Some(Unit::Cm | Unit::M) => UnitSpec::Cm,
        _ => UnitSpec::In,
    }
}
