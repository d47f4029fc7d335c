//! What a plan says about stitches, the machine and the thread, and what its checks allow.

use super::{LengthSpec, PlanSpec, called};
use crate::check::Limits;
use crate::error::{Error, PlanFault};
use crate::order::Loadings;
use crate::stitch::job::JobOptions;
use crate::units::Unit;

plan_data! {
    /// How the lines are stitched.
    #[derive(Default)]
    pub struct StitchingSpec {
        /// Stitches per inch; 10 by default. Common practice is 10 to 12.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub stitches_per_inch: Option<f64>,
        /// The shortest stitch; a quarter of the usual one by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub minimum: Option<LengthSpec>,
        /// How far the line may lie from the stitch that stands for it; a tenth of the usual stitch
        /// by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub chord_error: Option<LengthSpec>,
        /// The number of tiny stitches that secure the thread at either end of a line; 4 by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub tie_off: Option<usize>,
    }

    /// What the machine and its frame can do.
    #[derive(Default)]
    pub struct MachineSpec {
        /// How much of the quilt, from top to bottom, can be stitched before it is advanced; all of
        /// it by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub throat: Option<LengthSpec>,
        /// Stitch what runs down the quilt after it was taken off, turned by 90 degrees clockwise
        /// and loaded again.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub turned: Option<bool>,
        /// The greatest speed along a line, as the length in one second; 75 mm by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub top_speed: Option<LengthSpec>,
        /// The greatest change of speed in one second, as the length in one second; 250 mm by
        /// default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub acceleration: Option<LengthSpec>,
        /// Seconds for the start of a line: moving there, drawing up the thread; 20 by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub seconds_per_start: Option<f64>,
        /// Seconds for cutting the thread at the end of a line; 10 by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub seconds_per_cut: Option<f64>,
        /// Seconds for advancing the quilt to the next pass; 120 by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub seconds_per_advance: Option<f64>,
    }

    /// The thread, and what it goes through.
    #[derive(Default)]
    pub struct ThreadSpec {
        /// The thickness of the layers; 2 mm by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub thickness: Option<LengthSpec>,
        /// What is left over of either thread at each start and each end; 100 mm by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub tail: Option<LengthSpec>,
        /// What is wasted besides, in percent; 10 by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub waste_percent: Option<f64>,
        /// The length of thread on one spool; not known by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub spool: Option<LengthSpec>,
        /// The length of thread on one bobbin; 100 m by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub bobbin: Option<LengthSpec>,
    }

    /// What the checks of the stitched lines allow.
    #[derive(Default)]
    pub struct ChecksSpec {
        /// Lines that run closer than this, over 3/4 in or more, are reported; 1/16 in by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub closest: Option<LengthSpec>,
        /// More line than this in a square of one inch is reported; 16 in by default.
        #[cfg_attr(feature = "json", serde(default, skip_serializing_if = "Option::is_none"))]
        pub densest: Option<LengthSpec>,
    }
}

/// Over how much of their length lines have to run close to be told: 3/4 in, our own choice.
const CLOSE_OVER_MM: f64 = 19.05;

/// Seconds for advancing the quilt, unless the plan says otherwise: our own guess.
pub const SECONDS_PER_ADVANCE: f64 = 120.0;

/// The frame, as a plan asks for it, in millimetres and seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct FrameOptions {
    /// `None` when all of the quilt is within reach.
    pub(crate) throat: Option<f64>,
    pub(crate) loadings: Loadings,
    pub(crate) seconds_per_advance: f64,
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
                machine.seconds_per_start =
                    spec.seconds_per_start.unwrap_or(machine.seconds_per_start);
                machine.seconds_per_cut = spec.seconds_per_cut.unwrap_or(machine.seconds_per_cut);
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
                thread.waste = spec
                    .waste_percent
                    .map_or(thread.waste, |waste| waste / 100.0);
                thread.spool = maybe(&spec.spool, "spool", thread.spool)?;
                thread.bobbin = maybe(&spec.bobbin, "bobbin", thread.bobbin)?;
                job.check()
            };
            read().map_err(|e| e.in_element("thread"))?;
        }
        Ok(job)
    }

    /// What the frame can reach and how often the quilt is loaded.
    pub(crate) fn frame_options(&self) -> Result<FrameOptions, Error> {
        let unit = Unit::from(self.unit);
        let spec = self.machine.clone().unwrap_or_default();
        let throat = spec.throat.as_ref().map(|throat| {
            throat
                .positive_mm(unit, "the throat")
                .map_err(|e| e.in_element("machine.throat"))
        });
        let seconds_per_advance = spec.seconds_per_advance.unwrap_or(SECONDS_PER_ADVANCE);
        if !(seconds_per_advance >= 0.0 && seconds_per_advance.is_finite()) {
            return Err(Error::bad_number(
                "the seconds for an advance",
                seconds_per_advance,
                "0 or more",
            )
            .in_element("machine.seconds_per_advance"));
        }
        Ok(FrameOptions {
            throat: throat.transpose()?,
            loadings: match spec.turned {
                Some(true) => Loadings::Twice,
                _ => Loadings::Once,
            },
            seconds_per_advance,
        })
    }

    /// What the checks of the stitched lines allow, in millimetres, for stitches of this length.
    pub(crate) fn limits(&self, stitch: f64) -> Result<Limits, Error> {
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
