//! What a quilter asks for: the plan as it is written down, before anything is solved.
//!
//! With the feature `json` it is read from JSON; with `schema` its JSON Schema is made from these
//! very types, so the doc comments of the fields are what a user reads there.

use crate::chain::{Alternate, Ends};
use crate::corner::Arrangement;
use crate::fit::Parity;
use crate::leg::Elbow;
use crate::trim::JoinOrder;
use crate::units::Unit;

/// Declares plain data of the plan: readable from JSON objects, strict about keys, in the schema.
macro_rules! plan_data {
    ($($(#[$meta:meta])* pub $kind:ident $name:ident $(<$param:ident>)? { $($body:tt)* })*) => {$(
        #[derive(Debug, Clone, PartialEq)]
        #[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[cfg_attr(feature = "json", serde(
            deny_unknown_fields,
            rename_all = "snake_case",
            remote = "Self"
        ))]
        $(#[$meta])*
        pub $kind $name $(<$param>)? { $($body)* }

        #[cfg(feature = "json")]
        impl<'de $(, $param: serde::Deserialize<'de>)?> $crate::plan::spec::object::ByKeys<'de> for $name $(<$param>)? {
            fn derived<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                // Not the trait's: by `remote` what serde derives belongs to the type itself.
                Self::deserialize(deserializer)
            }
        }

        #[cfg(feature = "json")]
        impl<'de $(, $param: serde::Deserialize<'de>)?> serde::Deserialize<'de> for $name $(<$param>)? {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                $crate::plan::spec::object::read(deserializer)
            }
        }

        #[cfg(feature = "json")]
        impl $(<$param: serde::Serialize>)? serde::Serialize for $name $(<$param>)? {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                Self::serialize(self, serializer)
            }
        }
    )*};
}

/// Declares plain words of the plan.
macro_rules! plan_words {
    ($($(#[$meta:meta])* $name:ident { $($body:tt)* })*) => {$(
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        #[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        pub enum $name { $($body)* }
    )*};
}

/// Declares a named choice of the plan, each with the library's own value for it.
macro_rules! plan_choice {
    ($($(#[$meta:meta])* $name:ident = $value:ty { $($(#[$doc:meta])* $variant:ident => $to:expr),* $(,)? })*) => {$(
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        #[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        pub enum $name { $($(#[$doc])* $variant),* }

        impl From<$name> for $value {
            fn from(choice: $name) -> Self {
                match choice { $($name::$variant => $to),* }
            }
        }
    )*};
}

mod by_side;
mod corner;
mod length;
mod machine;
#[cfg(feature = "json")]
mod object;
mod quilt;
mod side;

pub use by_side::{BySide, NamedSides};
pub use corner::{CornerSpec, CornerStyle, ExtraSpec, LegSpec, ThroughSpec, TrimSpec};
pub use length::LengthSpec;
pub(crate) use length::called;
pub use machine::{ChecksSpec, MachineSpec, SECONDS_PER_ADVANCE, StitchingSpec, ThreadSpec};
pub use quilt::{QuiltSpec, SideNameSpec, StationSpec};

plan_data! {
    /// A quilt with its borders and the motifs that go on them.
    pub struct PlanSpec {
        /// A title for the picture and the sheet.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub title: Option<String>,
        /// The unit of bare numbers in this plan, and of the answer.
        pub unit: UnitSpec,
        /// The outline of the whole quilt along its raw edges.
        pub quilt: QuiltSpec,
        /// The borders from the outermost to the innermost.
        pub borders: Vec<BorderSpec>,
        /// How the lines are stitched.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub stitching: Option<StitchingSpec>,
        /// What the machine and its frame can do.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub machine: Option<MachineSpec>,
        /// The thread, and what it goes through.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub thread: Option<ThreadSpec>,
        /// What the checks of the stitched lines allow.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub checks: Option<ChecksSpec>,
        /// Make the bands of all borders equally deep, within the slack of each, so that their
        /// repeats are equally large.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub shared_depth: Option<bool>,
        /// How far a curve may lie from the straight pieces that stand for it; 0.01 mm by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub flattening: Option<LengthSpec>,
        /// Ends of drawn lines that are this close meet; 0.1 mm by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub join_tolerance: Option<LengthSpec>,
        /// Stretch beyond this many percent, either way, is a warning; 10 by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub max_stretch_percent: Option<f64>,
    }

    /// One border: a ring with as many sides as the quilt.
    pub struct BorderSpec {
        /// A name for pieces and files; "border", or "border-1" and so on, by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub name: Option<String>,
        /// The width of the border: from the raw edge (or the seam to the border outside it) to its
        /// inner seam. One for all sides, or one for each.
        pub width: BySide<LengthSpec>,
        /// Kept free inside, next to the inner seam; 1/4 in by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub seam_gap: Option<LengthSpec>,
        /// Kept free outside; by default 1/2 in at the raw edge (1/4 in for the binding's seam
        /// allowance and 1/4 in of clearance), 1/4 in at a seam.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub edge_gap: Option<LengthSpec>,
        /// The band may be up to this much shallower than the gaps leave, both gaps growing alike,
        /// so that repeats need less stretch; 0 by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub slack: Option<LengthSpec>,
        /// Where the border was measured because its edge or seam is wavy; straight by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Vec::is_empty"))]
        pub stations: Vec<StationSpec>,
        /// What happens at the corners.
        pub corner: CornerSpec,
        /// What goes along the sides.
        pub side: SideSpec,
    }

    /// What goes along the sides of a border.
    pub struct SideSpec {
        /// The drawing of the repeat, SVG or JSON, relative to the plan's file; drawn from left
        /// to right with the outside of the quilt up.
        pub motif: String,
        /// The number of repeats has to be a multiple of this; 1 by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub every: Option<usize>,
        /// Whether the number of repeats has to be even or odd; any by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub parity: Option<ParitySpec>,
        /// The number of repeats, where it is not to be chosen: of all sides or of single ones.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub repeats: Option<BySide<usize>>,
        /// Give opposite sides the same number of repeats; only where the number of sides is even.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub opposite_alike: Option<bool>,
        /// Which repeats are mirrored; none by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub alternate: Option<AlternateSpec>,
        /// Put the stretch of repeats into their stems, so that flowers and loops stay round.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub ease: Option<bool>,
        /// What to do where ends lie at different heights; level by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub ends: Option<EndsSpec>,
        /// Link lines of the drawing that don't meet by straight lines.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub link_gaps: Option<bool>,
    }
}

plan_choice! {
    /// A unit that plans are written in.
    UnitSpec = Unit {
        /// Inches.
        In => Unit::In,
        /// Millimetres.
        Mm => Unit::Mm,
        /// Centimetres.
        Cm => Unit::Cm,
    }

    /// How a corner drawing is repeated at the corners.
    ArrangementSpec = Arrangement {
        /// Neighbouring corners are mirror images.
        Mirrored => Arrangement::Mirrored,
        /// Each corner is the one before it turned; by 90 degrees on a square quilt.
        Turned => Arrangement::Turned,
    }

    /// The corner of a drawing where its legs meet.
    ElbowSpec = Elbow {
        /// Top left.
        TopLeft => Elbow::TopLeft,
        /// Top right.
        TopRight => Elbow::TopRight,
        /// Bottom right.
        BottomRight => Elbow::BottomRight,
        /// Bottom left.
        BottomLeft => Elbow::BottomLeft,
    }

    /// In which order the pieces of a drawing that was cut are joined.
    OrderSpec = JoinOrder {
        /// Any order, each piece in either direction.
        Free => JoinOrder::Free,
        /// The drawn order, each piece in either direction.
        Reverse => JoinOrder::KeepAndReverse,
        /// The drawn order and directions.
        Keep => JoinOrder::Keep,
    }

    /// Whether a number has to be even or odd.
    ParitySpec = Parity {
        /// An even number.
        Even => Parity::Even,
        /// An odd number.
        Odd => Parity::Odd,
    }

    /// Which repeats are mirrored.
    AlternateSpec = Alternate {
        /// All repeats are alike.
        None => Alternate::None,
        /// Every second repeat has left and right changed.
        LeftRight => Alternate::LeftRight,
        /// Every second repeat has inside and outside changed.
        TopBottom => Alternate::TopBottom,
        /// All repeats of one half of a side have left and right changed, so that the side turns
        /// round at its middle and is symmetrical about it; takes an even number of repeats.
        /// Between mitred corners it is the first half, so that it goes on as they do.
        Centred => Alternate::Centred,
    }

    /// What to do where ends lie at different heights across the band.
    EndsSpec = Ends {
        /// Shear the repeat so that they meet, linking only where that would distort it.
        Level => Ends::Level,
        /// Stitch a short straight link across.
        Link => Ends::Link,
    }
}
