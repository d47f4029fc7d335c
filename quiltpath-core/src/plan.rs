//! The quilter's plan: what is asked, how it is solved, what is found.
//!
//! A street of steps, each a function from data to a value and what it has found: asked, laid out,
//! corners, spans, numbers chosen, filled, checked, put in order, stitched. [`solve()`] walks it.

mod anew;
mod ask;
mod asked;
mod best;
mod blocks;
mod chained;
mod check;
mod choose;
mod corners;
mod drawings;
mod fill;
mod finding;
mod hash;
mod joint;
mod kept;
mod laid;
mod lay;
mod marks;
mod middle;
mod offer;
mod order;
mod piece;
mod practice;
mod rank;
mod repeats;
mod solve;
mod solved;
mod spans;
mod stitch;
mod stitched;
mod tolerances;
mod way;
mod whole;

pub mod spec {
    //! What a quilter asks for: the plan as it is written down, before anything is solved.

    pub use super::ask::{
        BlockListsSpec, BlockSizeSpec, BlocksSpec, BorderSpec, BySide, CentreSpec, ChecksSpec,
        CircleSpec, CornerAtSpec, CornerLie, CornerSpec, CornerStyle, DesignSpec, EllipseSpec,
        EndSpec, LegSpec, LengthSpec, MachineSpec, NamedSides, OrderSpec, OrientationSpec,
        QuiltSpec, RollSpec, SashingSpec, ScallopsSpec, SideLie, SideNameSpec, SideSpec,
        SpacerSpec, StationSpec, StitchingSpec, StrokesSpec, ThreadSpec, ThroughSpec,
        TrianglesSpec, TrimSpec, UnitSpec, YSpec,
    };
}

pub use anew::{Part, solve_anew};
pub use ask::{MachineAxes, Origin, PlanSpec};
pub use best::way_cost;
pub use drawings::MotifRequest;
pub use finding::{Finding, FindingKind, OddMeasure, Severity};
pub use hash::plan_hash;
#[cfg(feature = "svg")]
pub(crate) use hash::{Fnv, step_of};
pub use lay::{
    CornerPlace, FieldKind, FieldPlace, FieldSpot, Layout, LayoutLines, Lie, Measured, OutlineBand,
    Quilt, Setting, Side, SideWidths, Slot, Squarest, layouts,
};
pub use marks::{AlongLine, LineEndMark, Mark, MarkKind, MarkLine, MarkedPiece, mark_letter};
pub use middle::MiddleDetail;
pub use offer::{
    BorderRoom, Change, DrawnFor, DrawnLines, DrawnShape, NumberChoice, SideChoices, border_rooms,
    drawn_lines, side_choices, ways_of,
};
pub use order::Path;
pub use piece::{
    CornerDetail, CornerMade, FieldDetail, Join, Piece, PieceKind, PieceLine, RingDetail,
    SashDetail, SideDetail,
};
pub(crate) use practice::{BINDING_MM, ease_is_limited};
pub use rank::{Ranker, Rated, Rating};
pub use solve::{best_way, solve, solve_around};
pub use solved::Solved;
pub use stitch::{FrameTime, PlannedPass, PlannedRun, RunPart, Stitching, stitch_plan};
pub use stitched::{LineEnd, PartPlace, Stitched, StitchedBorder, StitchedEnd, StitchedPart};
pub use tolerances::Tolerances;
pub use way::{BestWay, Way, WayCost};
pub(crate) use whole::check_whole;

#[cfg(test)]
pub(crate) mod tests;
