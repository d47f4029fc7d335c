//! How the machine counts, as a plan tells it.

use super::machine::YSpec;
use super::plan::PlanSpec;
use crate::units::Unit;

/// How the machine shows and takes places: in which unit, and which way its y grows. Its x grows to
/// the right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct MachineAxes {
    /// The unit of its x and y.
    pub unit: Unit,
    /// True when y grows towards the upper edge of the window, false when towards the lower one.
    pub y_up: bool,
}

impl PlanSpec {
    /// How the machine counts: in its own unit or else the plan's, with y down unless told.
    ///
    /// ```
    /// use quiltpath_core::plan::PlanSpec;
    /// use quiltpath_core::plan::spec::{MachineSpec, QuiltSpec, UnitSpec, YSpec};
    /// use quiltpath_core::units::Unit;
    ///
    /// let plan = PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(60.0, 72.0));
    /// let axes = plan.machine_axes();
    /// assert_eq!((axes.unit, axes.y_up), (Unit::In, false));
    ///
    /// let machine = MachineSpec::default().with_unit(UnitSpec::Mm).with_y(YSpec::Up);
    /// let axes = plan.with_machine(machine).machine_axes();
    /// assert_eq!((axes.unit, axes.y_up), (Unit::Mm, true));
    /// ```
    #[must_use]
    pub fn machine_axes(&self) -> MachineAxes {
        let machine = self.machine.as_ref();
        let unit = machine.and_then(|machine| machine.unit);
        MachineAxes {
            unit: unit.unwrap_or(self.unit).into(),
            y_up: machine.is_some_and(|machine| machine.y == YSpec::Up),
        }
    }
}
