//! What a plan asks of a border's corners, and which keys each style has a use for.

use super::{ArrangementSpec, ElbowSpec, LengthSpec, OrderSpec};
use crate::error::{Error, PlanFault};

plan_data! {
    /// What happens at the corners of a border.
    pub struct CornerSpec {
        /// The style of the corners.
        pub style: CornerStyle,
        /// Styles leg and block: the drawing, SVG or JSON, relative to the plan's file.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub motif: Option<String>,
        /// Styles leg and block: how the drawing is repeated at the corners; mirrored by
        /// default. Corners made from the repeat always turn.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub arrangement: Option<ArrangementSpec>,
        /// Style leg: what the drawing's legs are, where the analysis is not to be relied on.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub leg: Option<LegSpec>,
        /// Style leg: cut the drawing to an L first, where it is a whole block design.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub trim: Option<TrimSpec>,
        /// Styles leg and block: link lines of the drawing that don't meet by straight lines.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub link_gaps: Option<bool>,
        /// Style butted: which two sides run through to the edge; top_bottom by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub through: Option<ThroughSpec>,
        /// Styles open, butted and block: kept free between a side's end and the corner square or
        /// the side that runs through, and round a block at its seams; the seam gap by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub gap: Option<LengthSpec>,
        /// Style block: turn the block by 45 degrees.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub on_point: Option<bool>,
        /// Styles mitred and bent: the number of whole repeats on each leg; 0 by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub legs: Option<usize>,
        /// Style mitred: over how much of the line, either side of the diagonal, the turn there
        /// is rounded off; 0 by default, which leaves a point.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub smooth: Option<LengthSpec>,
        /// Style mitred: what becomes of loops beyond the first crossing of the diagonal; link by
        /// default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub extra: Option<ExtraSpec>,
        /// Style bent: the radius of the middle of the band; chosen by the change of lengths by
        /// default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub radius: Option<LengthSpec>,
        /// Style bent: by how many percent lengths may change along the bend; 33 by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub length_change_percent: Option<f64>,
    }

    /// The L that a drawing is cut to, before it is scaled; its elbow lies at the drawing's.
    pub struct TrimSpec {
        /// The depth of the legs, as in the drawing.
        pub leg_depth: LengthSpec,
        /// The corner of the drawing where the legs meet; top_left by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub elbow: Option<ElbowSpec>,
        /// The width of the L; the drawing's by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub width: Option<LengthSpec>,
        /// The height of the L; the drawing's by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub height: Option<LengthSpec>,
        /// How far inside the L's edge the links run; on it by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub inset: Option<LengthSpec>,
        /// In which order the pieces are joined; free by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub order: Option<OrderSpec>,
    }

    /// What a corner drawing's legs are, given outright; lengths as in the drawing, unscaled.
    pub struct LegSpec {
        /// The corner of the drawing where its legs meet.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub elbow: Option<ElbowSpec>,
        /// The depth of the leg that runs from left to right in the drawing.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub horizontal_depth: Option<LengthSpec>,
        /// The depth of the leg that runs up and down in the drawing.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub vertical_depth: Option<LengthSpec>,
        /// Degrees by which to turn the drawing clockwise so that its legs lie level and upright.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub turn_degrees: Option<f64>,
    }
}

plan_words! {
    /// The style of a border's corners.
    CornerStyle {
        /// An L-shaped corner motif, with the border between.
        Leg,
        /// The corner squares are left empty.
        Open,
        /// Two sides run to the edge, two stop between them.
        Butted,
        /// A stand-alone motif in each corner square.
        Block,
        /// The repeat itself, cut on the diagonal and mirrored.
        Mitred,
        /// The repeat carried round the corner on an arc.
        Bent,
    }

    /// Which sides of a butted border run through to the edge.
    #[derive(Default)]
    ThroughSpec {
        /// The top and the bottom side.
        #[default]
        TopBottom,
        /// The left and the right side.
        LeftRight,
    }

    /// What becomes of loops of a mitred repeat beyond the first crossing of the diagonal.
    ExtraSpec {
        /// They are linked along the diagonal.
        Link,
        /// They are dropped.
        Drop,
    }
}

impl CornerStyle {
    /// The name in data.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Leg => "leg",
            Self::Open => "open",
            Self::Butted => "butted",
            Self::Block => "block",
            Self::Mitred => "mitred",
            Self::Bent => "bent",
        }
    }
}

impl CornerStyle {
    /// Whether the sides join on to the corners.
    #[must_use]
    pub fn joins(self) -> bool {
        matches!(self, Self::Leg | Self::Mitred | Self::Bent)
    }
}

impl CornerSpec {
    /// Corners of this style, everything else left to its default.
    #[must_use]
    pub fn of(style: CornerStyle) -> Self {
        Self {
            style,
            motif: None,
            arrangement: None,
            leg: None,
            trim: None,
            link_gaps: None,
            through: None,
            gap: None,
            on_point: None,
            legs: None,
            smooth: None,
            extra: None,
            radius: None,
            length_change_percent: None,
        }
    }

    /// Refuses keys that the style has no use for, and asks for those that it needs.
    pub(crate) fn check_keys(&self) -> Result<(), Error> {
        use CornerStyle::{Bent, Block, Butted, Leg, Mitred, Open};
        let style = self.style.name();
        if matches!(self.style, Leg | Block) && self.motif.is_none() {
            return Err(PlanFault::DrawingMissing { style }.into());
        }
        for (fields, given) in [
            (["leg", "trim"], self.leg.is_some() && self.trim.is_some()),
            (
                ["radius", "length_change_percent"],
                self.radius.is_some() && self.length_change_percent.is_some(),
            ),
        ] {
            if given {
                return Err(PlanFault::BothGiven { fields }.into());
            }
        }
        let keys: [(&str, bool, &[CornerStyle]); 13] = [
            ("motif", self.motif.is_some(), &[Leg, Block]),
            ("arrangement", self.arrangement.is_some(), &[Leg, Block]),
            ("leg", self.leg.is_some(), &[Leg]),
            ("trim", self.trim.is_some(), &[Leg]),
            ("link_gaps", self.link_gaps.is_some(), &[Leg, Block]),
            ("through", self.through.is_some(), &[Butted]),
            ("gap", self.gap.is_some(), &[Open, Butted, Block]),
            ("on_point", self.on_point.is_some(), &[Block]),
            ("legs", self.legs.is_some(), &[Mitred, Bent]),
            ("smooth", self.smooth.is_some(), &[Mitred]),
            ("extra", self.extra.is_some(), &[Mitred]),
            ("radius", self.radius.is_some(), &[Bent]),
            (
                "length_change_percent",
                self.length_change_percent.is_some(),
                &[Bent],
            ),
        ];
        let unused = keys
            .iter()
            .find(|(_, given, styles)| *given && !styles.contains(&self.style));
        match unused {
            None => Ok(()),
            Some((field, ..)) => Err(PlanFault::NotUsed { field, style }.into()),
        }
    }
}
