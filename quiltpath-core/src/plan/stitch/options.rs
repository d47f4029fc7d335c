//! What a plan asks for of stitching, in numbers: stitches, machine, thread, frame and checks.
//!
//! Millimetres and seconds.

use crate::check::Limits;
use crate::error::{Error, PlanFault};
use crate::order::{Loadings, MORE_PASSES, Roll, Throat};
use crate::plan::ask::{LengthSpec, MachineSpec, PlanSpec, called};
use crate::stitch::job::JobOptions;
use crate::units::Unit;

/// Over how much of their length lines have to run close to be reported: 3/4 in, our own choice.
const CLOSE_OVER_MM: f64 = 19.05;

/// Seconds for advancing the quilt, unless the plan gives others: our own guess.
const SECONDS_PER_ADVANCE: f64 = 120.0;

/// Seconds for touching a mark, unless the plan gives others: our own guess.
const SECONDS_PER_READING: f64 = 15.0;

/// Seconds for loading the quilt on the frame, unless the plan gives others: our own guess.
const SECONDS_PER_LOADING: f64 = 600.0;

/// The frame, as a plan asks for it, in millimetres and seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct FrameOptions {
    /// `None` when all of the quilt is within reach.
    pub(super) throat: Option<Throat>,
    pub(super) loadings: Loadings,
    pub(super) more_passes: usize,
    pub(super) seconds_per_advance: f64,
    pub(super) seconds_per_reading: f64,
    pub(super) seconds_per_loading: f64,
}

impl PlanSpec {
    /// How lines are stitched, how fast and with how much thread, in millimetres and seconds.
    ///
    /// # Errors
    ///
    /// A plan or geometry error with the key at fault when a number is out of its range.
    pub fn job_options(&self) -> Result<JobOptions, Error> {
        let unit = Unit::from(self.unit);
        let mut job = JobOptions::new(Unit::Mm);
        let set = |to: &mut f64, given: &Option<LengthSpec>, key: &str| {
            if let Some(length) = given {
                *to = length
                    .positive_mm(unit, &called(key))
                    .map_err(|e| e.in_element(key))?;
            }
            Ok::<(), Error>(())
        };
        if let Some(spec) = &self.stitching {
            let mut read = || {
                if let Some(per_inch) = spec.stitches_per_inch {
                    job.stitch =
                        crate::stitch::resample::StitchOptions::per_inch(per_inch, Unit::Mm)
                            .map_err(|e| e.in_element("stitches_per_inch"))?;
                }
                set(&mut job.stitch.minimum, &spec.minimum, "minimum")?;
                set(
                    &mut job.stitch.chord_error,
                    &spec.chord_error,
                    "chord_error",
                )?;
                job.tie_off.stitches = spec.tie_off.unwrap_or(job.tie_off.stitches);
                job.check()
            };
            read().map_err(|e| e.in_element("stitching"))?;
        }
        if let Some(spec) = &self.machine {
            let mut read = || {
                let machine = &mut job.machine;
                set(&mut machine.top_speed, &spec.top_speed, "top_speed")?;
                set(
                    &mut machine.acceleration,
                    &spec.acceleration,
                    "acceleration",
                )?;
                for (to, given, what, key) in [
                    (
                        &mut machine.seconds_per_start,
                        spec.seconds_per_start,
                        "the number of seconds for a start",
                        "seconds_per_start",
                    ),
                    (
                        &mut machine.seconds_per_cut,
                        spec.seconds_per_cut,
                        "the number of seconds for a cut",
                        "seconds_per_cut",
                    ),
                ] {
                    *to = from_0(given.unwrap_or(*to), what, key)?;
                }
                job.check()
            };
            read().map_err(|e| e.in_element("machine"))?;
        }
        if let Some(spec) = &self.thread {
            let mut read = || {
                let thread = &mut job.thread;
                let maybe = |given: &Option<LengthSpec>, key: &str, or: Option<f64>| {
                    let mut to = or.unwrap_or_default();
                    set(&mut to, given, key)?;
                    Ok::<Option<f64>, Error>(given.as_ref().map(|_| to).or(or))
                };
                if let Some(length) = &spec.thickness {
                    thread.thickness = length
                        .gap_mm(unit, "the thickness of the layers")
                        .map_err(|e| e.in_element("thickness"))?;
                }
                if let Some(length) = &spec.tail {
                    thread.tail = length
                        .gap_mm(unit, "the tail")
                        .map_err(|e| e.in_element("tail"))?;
                }
                if let Some(percent) = spec.waste_percent {
                    let percent = from_0(percent, "the percentage of waste", "waste_percent")?;
                    thread.waste = percent / 100.0;
                }
                thread.spool = maybe(&spec.spool, "spool", thread.spool)?;
                thread.bobbin = maybe(&spec.bobbin, "bobbin", thread.bobbin)?;
                if let Some(percent) = spec.reserve_percent {
                    if !(0.0..=40.0).contains(&percent) {
                        let what = "the percentage of a bobbin that is left";
                        let error = Error::bad_number(what, percent, "0 to 40");
                        return Err(error.in_element("reserve_percent"));
                    }
                    thread.reserve = percent / 100.0;
                }
                job.check()
            };
            read().map_err(|e| e.in_element("thread"))?;
        }
        Ok(job)
    }

    /// What the frame can reach and how often the quilt is loaded.
    pub(super) fn frame_options(&self) -> Result<FrameOptions, Error> {
        let unit = Unit::from(self.unit);
        let spec = self.machine.clone().unwrap_or_default();
        let throat = throat(&spec, unit)?;
        let seconds =
            |given: Option<f64>, or: f64, what, key| from_0(given.unwrap_or(or), what, key);
        let more_passes = spec.more_passes.unwrap_or(0);
        if more_passes > MORE_PASSES {
            return Err(Error::bad_number(
                "the number of more passes",
                more_passes as f64,
                "0, 1 or 2",
            )
            .in_element("machine.more_passes"));
        }
        Ok(FrameOptions {
            more_passes,
            throat,
            loadings: match spec.turned {
                true => Loadings::Twice,
                false => Loadings::Once,
            },
            seconds_per_advance: seconds(
                spec.seconds_per_advance,
                SECONDS_PER_ADVANCE,
                "the number of seconds for an advance",
                "machine.seconds_per_advance",
            )?,
            seconds_per_reading: seconds(
                spec.seconds_per_reading,
                SECONDS_PER_READING,
                "the number of seconds for a reading",
                "machine.seconds_per_reading",
            )?,
            seconds_per_loading: seconds(
                spec.seconds_per_loading,
                SECONDS_PER_LOADING,
                "the number of seconds for a loading",
                "machine.seconds_per_loading",
            )?,
        })
    }

    /// What the checks of the stitched lines allow, in millimetres, for stitches of this length.
    pub(super) fn limits(&self, stitch: f64) -> Result<Limits, Error> {
        let unit = Unit::from(self.unit);
        let mut limits = Limits::default();
        // Lines that meet in a point at a small angle run side by side for up to 1/2 in or so.
        limits.close.length = CLOSE_OVER_MM;
        limits.loops.length = 2.0 * stitch;
        if let Some(spec) = &self.checks {
            let read = |given: &Option<LengthSpec>, key: &str, or: f64| match given {
                Some(length) => length
                    .positive_mm(unit, &called(key))
                    .map_err(|e| e.in_element(format!("checks.{key}"))),
                None => Ok(or),
            };
            limits.close.distance = read(&spec.closest, "closest", limits.close.distance)?;
            limits.density.length = read(&spec.densest, "densest", limits.density.length)?;
            if limits.close.distance <= limits.twice.distance {
                return Err(Error::from(PlanFault::ClosestTooSmall {
                    closest: limits.close.distance,
                    least: limits.twice.distance,
                })
                .in_element("checks.closest"));
            }
        }
        Ok(limits)
    }
}

/// What the machine's throat lets the needle reach.
fn throat(machine: &MachineSpec, unit: Unit) -> Result<Option<Throat>, Error> {
    let Some(height) = &machine.throat else {
        let unused = [
            ("reserve", machine.reserve.is_some()),
            ("roll", machine.roll.is_some()),
        ];
        return match unused.into_iter().find(|(_, given)| *given) {
            Some((field, _)) => {
                Err(Error::from(PlanFault::NoThroat { field }).in_element("machine"))
            }
            None => Ok(None),
        };
    };
    let positive = |length: &LengthSpec, what: &str, key: &str| {
        length
            .positive_mm(unit, what)
            .map_err(|e| e.in_element(key))
    };
    let height = positive(height, "the throat", "machine.throat")?;
    let reserve = machine.reserve.as_ref().map(|reserve| {
        reserve
            .gap_mm(unit, "the reserve")
            .map_err(|e| e.in_element("machine.reserve"))
    });
    let roll = machine.roll.as_ref().map(|roll| {
        let read = || {
            let bar = positive(&roll.bar_diameter, "the bar's diameter", "bar_diameter")?;
            let thickness = positive(&roll.thickness, "the thickness", "thickness")?;
            Roll::new(bar, thickness)
        };
        read().map_err(|e| e.in_element("machine.roll"))
    });
    let throat = Throat::new(height).with_reserve(reserve.transpose()?.unwrap_or(0.0));
    Ok(Some(throat.with_roll(roll.transpose()?)))
}

/// A number of a plan that may not be below 0, or an error that names its key.
fn from_0(number: f64, what: &'static str, key: &'static str) -> Result<f64, Error> {
    if number >= 0.0 && number.is_finite() {
        return Ok(number);
    }
    Err(Error::bad_number(what, number, "0 or more").in_element(key))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::ask::{QuiltSpec, ThreadSpec, UnitSpec};

    fn plan() -> PlanSpec {
        PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(60.0, 72.0))
    }

    #[test]
    fn numbers_below_0_are_refused_with_their_key() {
        let mut slow = plan();
        slow.machine = Some(MachineSpec::default().with_seconds_per_start(-1.0));
        let mut wasteful = plan();
        wasteful.thread = Some(ThreadSpec::default().with_waste_percent(-5.0));
        let mut spent = plan();
        spent.thread = Some(ThreadSpec::default().with_reserve_percent(45.0));
        for (plan, words) in [
            (
                spent,
                "thread: reserve_percent: the percentage of a bobbin that is left is 45; give 0 to 40",
            ),
            (
                slow,
                "machine: seconds_per_start: the number of seconds for a start is -1; give 0 or more",
            ),
            (
                wasteful,
                "thread: waste_percent: the percentage of waste is -5; give 0 or more",
            ),
        ] {
            let error = plan.job_options().expect_err(words);
            assert_eq!(error.to_string(), words);
        }
    }
}
