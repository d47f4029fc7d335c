//! A whole plan as it is written down.

use super::blocks::BlocksSpec;
use super::border::BorderSpec;
use super::length::{LengthSpec, called};
use super::machine::MachineSpec;
use super::order::OrderSpec;
use super::quilt::QuiltSpec;
use super::stitching::{ChecksSpec, StitchingSpec, ThreadSpec};
use super::unit::UnitSpec;
use crate::error::Error;
use crate::geom::flatten::DEFAULT_TOLERANCE_MM;
use crate::plan::tolerances::Tolerances;
use crate::strokes::DEFAULT_JOIN_MM;

/// A quilt with its borders and the motifs that go on them.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct PlanSpec {
    /// A title for the picture and the sheet.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub title: Option<String>,
    /// Who the quilt is for, in one line, on the sheet below the title; at most 200 characters.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub customer: Option<String>,
    /// What is to be kept in mind, on the sheet line by line; at most 10,000 characters.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub notes: Option<String>,
    /// The unit of numbers without one in this plan, and of the answer.
    pub unit: UnitSpec,
    /// The outline of the whole quilt along its raw edges.
    pub quilt: QuiltSpec,
    /// The borders from the outermost to the innermost; at least one where there are no blocks.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Vec::is_empty")
    )]
    pub borders: Vec<BorderSpec>,
    /// The blocks within the borders, with the sashes between them; none by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub blocks: Option<BlocksSpec>,
    /// Which pieces are stitched before others; as it comes by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub order: OrderSpec,
    /// How the lines are stitched.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub stitching: Option<StitchingSpec>,
    /// What the machine and its frame can do.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub machine: Option<MachineSpec>,
    /// The thread, and the layers that it goes through.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub thread: Option<ThreadSpec>,
    /// How close and how dense lines may be before the checks report them.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub checks: Option<ChecksSpec>,
    /// Make the bands of all borders equally deep, within the slack of each, so that their
    /// repeats are equally large; false by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "std::ops::Not::not")
    )]
    pub shared_depth: bool,
    /// How far, on the cloth, a curve may lie from the straight pieces that it is made of; 0.01 mm
    /// by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub flattening: Option<LengthSpec>,
    /// Ends of drawn lines that are this close on the cloth meet; 0.1 mm by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub join_tolerance: Option<LengthSpec>,
    /// A repeat that is stretched or pressed together by more than this many percent is a warning;
    /// 10 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub max_stretch_percent: Option<f64>,
}

impl PlanSpec {
    /// A plan in this unit for a quilt without borders, everything else left to its default.
    ///
    /// ```
    /// use quiltpath_core::plan::PlanSpec;
    /// use quiltpath_core::plan::spec::{BorderSpec, CornerSpec, CornerStyle, QuiltSpec, SideSpec, UnitSpec};
    ///
    /// let corner = CornerSpec::new(CornerStyle::Mitred).with_legs(1);
    /// let side = SideSpec::new("vine.svg").with_every(2);
    /// let plan = PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(64.25, 80.0))
    ///     .with_title("Vines")
    ///     .with_borders([BorderSpec::new(6.0, corner, side)]);
    /// assert_eq!(plan.borders[0].side.every, Some(2));
    /// ```
    #[must_use]
    pub fn new(unit: UnitSpec, quilt: QuiltSpec) -> Self {
        Self {
            title: None,
            customer: None,
            notes: None,
            unit,
            quilt,
            borders: Vec::new(),
            blocks: None,
            order: OrderSpec::default(),
            stitching: None,
            machine: None,
            thread: None,
            checks: None,
            shared_depth: false,
            flattening: None,
            join_tolerance: None,
            max_stretch_percent: None,
        }
    }

    /// The names of its drawings as they are written: those of the borders, then of the blocks.
    pub fn drawings(&self) -> impl Iterator<Item = &String> {
        let borders = self.borders.iter().flat_map(BorderSpec::drawings);
        borders.chain(self.blocks.iter().flat_map(BlocksSpec::drawings))
    }

    /// The same names, to be changed in place.
    pub fn drawings_mut(&mut self) -> impl Iterator<Item = &mut String> {
        let borders = self.borders.iter_mut().flat_map(BorderSpec::drawings_mut);
        borders.chain(self.blocks.iter_mut().flat_map(BlocksSpec::drawings_mut))
    }

    /// The same plan with [`title`](Self::title).
    #[must_use]
    pub fn with_title(mut self, title: impl Into<String>) -> Self {
        self.title = Some(title.into());
        self
    }

    /// The same plan with [`customer`](Self::customer).
    #[must_use]
    pub fn with_customer(mut self, customer: impl Into<String>) -> Self {
        self.customer = Some(customer.into());
        self
    }

    /// The same plan with [`notes`](Self::notes).
    #[must_use]
    pub fn with_notes(mut self, notes: impl Into<String>) -> Self {
        self.notes = Some(notes.into());
        self
    }

    /// The same plan with [`borders`](Self::borders).
    #[must_use]
    pub fn with_borders(mut self, borders: impl IntoIterator<Item = BorderSpec>) -> Self {
        self.borders = borders.into_iter().collect();
        self
    }

    /// The same plan with [`blocks`](Self::blocks).
    #[must_use]
    pub fn with_blocks(mut self, blocks: BlocksSpec) -> Self {
        self.blocks = Some(blocks);
        self
    }

    /// The same plan with [`order`](Self::order).
    #[must_use]
    pub fn with_order(mut self, order: OrderSpec) -> Self {
        self.order = order;
        self
    }

    /// The same plan with [`stitching`](Self::stitching).
    #[must_use]
    pub fn with_stitching(mut self, stitching: StitchingSpec) -> Self {
        self.stitching = Some(stitching);
        self
    }

    /// The same plan with [`machine`](Self::machine).
    #[must_use]
    pub fn with_machine(mut self, machine: MachineSpec) -> Self {
        self.machine = Some(machine);
        self
    }

    /// The same plan with [`thread`](Self::thread).
    #[must_use]
    pub fn with_thread(mut self, thread: ThreadSpec) -> Self {
        self.thread = Some(thread);
        self
    }

    /// The same plan with [`checks`](Self::checks).
    #[must_use]
    pub fn with_checks(mut self, checks: ChecksSpec) -> Self {
        self.checks = Some(checks);
        self
    }

    /// The same plan with [`shared_depth`](Self::shared_depth).
    #[must_use]
    pub fn with_shared_depth(mut self, shared_depth: bool) -> Self {
        self.shared_depth = shared_depth;
        self
    }

    /// The same plan with [`flattening`](Self::flattening).
    #[must_use]
    pub fn with_flattening(mut self, flattening: impl Into<LengthSpec>) -> Self {
        self.flattening = Some(flattening.into());
        self
    }

    /// The same plan with [`join_tolerance`](Self::join_tolerance).
    #[must_use]
    pub fn with_join_tolerance(mut self, join_tolerance: impl Into<LengthSpec>) -> Self {
        self.join_tolerance = Some(join_tolerance.into());
        self
    }

    /// The same plan with [`max_stretch_percent`](Self::max_stretch_percent).
    #[must_use]
    pub fn with_max_stretch_percent(mut self, max_stretch_percent: f64) -> Self {
        self.max_stretch_percent = Some(max_stretch_percent);
        self
    }

    /// The tolerances that the plan asks for, or the defaults.
    ///
    /// # Errors
    ///
    /// A plan error when one is not above 0.
    pub fn tolerances(&self) -> Result<Tolerances, Error> {
        let read = |length: &Option<LengthSpec>, key: &str, default| match length {
            Some(length) => length
                .positive_mm(self.unit.into(), &called(key))
                .map_err(|e| e.in_element(key)),
            None => Ok(default),
        };
        let flattening = read(&self.flattening, "flattening", DEFAULT_TOLERANCE_MM)?;
        let join = read(&self.join_tolerance, "join_tolerance", DEFAULT_JOIN_MM)?;
        Ok(Tolerances::new(flattening, join))
    }
}
