//! What a quilter asks for: the plan as it is written down, before anything is solved.
//!
//! With the feature `json` it is read from JSON; with `schema` its JSON Schema is made from these
//! very types, so the doc comments of the fields are what a user reads there.

mod axes;
mod blocks;
mod border;
mod by_side;
mod centre;
mod corner;
mod corner_at;
mod end;
mod keys;
mod leg;
mod length;
mod lie;
mod machine;
mod order;
mod origin;
mod plan;
mod quilt;
mod roll;
mod side;
mod spacer;
mod stitching;
mod strokes;
mod style;
mod texts;
mod unit;
#[cfg(feature = "json")]
mod words;

pub use axes::MachineAxes;
pub use blocks::{
    BlockListsSpec, BlockSizeSpec, BlocksSpec, DesignSpec, SashingSpec, TrianglesSpec,
};
pub use border::BorderSpec;
pub use by_side::{BySide, NamedSides};
pub use centre::CentreSpec;
pub use corner::CornerSpec;
pub use corner_at::CornerAtSpec;
pub(in crate::plan) use corner_at::corners_at;
pub use end::EndSpec;
pub(in crate::plan) use end::given_ends;
pub(in crate::plan) use keys::{check_keys, check_line_ends, in_style};
pub use leg::{LegSpec, TrimSpec};
pub use length::LengthSpec;
pub(in crate::plan) use length::called;
pub use lie::{CornerLie, OrientationSpec, SideLie};
pub use machine::{MachineSpec, YSpec};
pub use order::OrderSpec;
pub use origin::Origin;
pub use plan::PlanSpec;
pub use quilt::{CircleSpec, EllipseSpec, QuiltSpec, ScallopsSpec, SideNameSpec, StationSpec};
pub use roll::RollSpec;
pub use side::SideSpec;
pub use spacer::SpacerSpec;
pub use stitching::{ChecksSpec, StitchingSpec, ThreadSpec};
pub use strokes::StrokesSpec;
pub use style::{CornerStyle, ThroughSpec};
pub(in crate::plan) use texts::{check_texts, printed};
pub use unit::UnitSpec;
