//! The options of a job as they are typed, and as the library takes them.

use std::str::FromStr;

use clap::Args;
use quiltpath_core::stitch::job::JobOptions;
use quiltpath_core::stitch::resample::StitchOptions;
use quiltpath_core::stitch::tie_off::TieOffOptions;
use quiltpath_core::units::{Length, Unit};

use crate::args::{degrees, from_0, from_0_in_unit, number, percent, positive_in_unit};
use crate::failure::Failure;

/// How lines become stitches.
#[derive(Args)]
pub(super) struct StitchFlags {
    /// Stitches per inch [default: 10]
    #[arg(long, value_name = "N", value_parser = number, conflicts_with = "stitch")]
    spi: Option<f64>,
    /// Stitch length, instead of --spi
    #[arg(long, value_name = "LENGTH")]
    stitch: Option<Length>,
    /// Shortest stitch [default: stitch / 4]
    #[arg(long, value_name = "LENGTH")]
    minimum: Option<Length>,
    /// Farthest off the line [default: stitch / 10]
    #[arg(long, value_name = "LENGTH")]
    chord_error: Option<Length>,
    /// Turns above this get a needle point [default: 30]
    #[arg(long, value_name = "DEGREES", value_parser = degrees)]
    cusp: Option<f64>,
    /// Tie-off at each end, or none [default: 4 x 1 mm]
    #[arg(long, value_name = "N x LENGTH")]
    tie_off: Option<TieOff>,
}

/// What a machine can do, and what thread is spent on.
#[derive(Args)]
#[command(next_help_heading = "Estimate")]
pub(super) struct EstimateFlags {
    /// Top speed per second [default: 75 mm]
    #[arg(long, value_name = "LENGTH")]
    speed: Option<Length>,
    /// Speed gained per second [default: 250 mm]
    #[arg(long, value_name = "LENGTH")]
    acceleration: Option<Length>,
    /// How far corners are cut [default: 0.1 mm]
    #[arg(long, value_name = "LENGTH")]
    corner: Option<Length>,
    /// For start, tie-off and cut [default: 20, 3, 10]
    #[arg(long, value_name = "S, S, S")]
    seconds: Option<Seconds>,
    /// Thickness of the layers [default: 2 mm]
    #[arg(long, value_name = "LENGTH")]
    thickness: Option<Length>,
    /// Thread left at each end [default: 100 mm]
    #[arg(long, value_name = "LENGTH")]
    tail: Option<Length>,
    /// Thread wasted besides [default: 10]
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
    waste: Option<f64>,
    /// Needle thread on a spool, to count spools
    #[arg(long, value_name = "LENGTH")]
    spool: Option<Length>,
    /// Thread on a bobbin [default: 100 m]
    #[arg(long, value_name = "LENGTH")]
    bobbin: Option<Length>,
}

impl StitchFlags {
    /// The options for lines in this unit; those of the estimate are the defaults.
    pub(super) fn options(&self, bare: Option<Unit>, unit: Unit) -> Result<JobOptions, Failure> {
        let length = |typed: &Option<Length>, option, default| match typed {
            Some(typed) => positive_in_unit(typed, bare, unit, option),
            None => Ok(default),
        };
        let stitch = match (&self.stitch, self.spi) {
            (Some(typed), _) => {
                StitchOptions::new(positive_in_unit(typed, bare, unit, "--stitch")?)
            }
            (None, Some(spi)) => StitchOptions::per_inch(spi, unit)
                .map_err(|error| Failure::Usage(format!("--spi: {error}")))?,
            (None, None) => JobOptions::new(unit).stitch,
        };
        let defaults = JobOptions::new(unit);
        let tie_off = match &self.tie_off {
            Some(TieOff {
                stitches,
                length: given,
            }) => TieOffOptions::new(
                *stitches,
                length(given, "--tie-off", defaults.tie_off.length)?,
            ),
            None => defaults.tie_off,
        };
        let stitch = stitch
            .with_minimum(length(&self.minimum, "--minimum", stitch.minimum)?)
            .with_chord_error(length(
                &self.chord_error,
                "--chord-error",
                stitch.chord_error,
            )?)
            .with_cusp_degrees(self.cusp.unwrap_or(stitch.cusp_degrees));
        Ok(defaults.with_stitch(stitch).with_tie_off(tie_off))
    }
}

impl EstimateFlags {
    /// The same options with what is given here.
    pub(super) fn options(
        &self,
        options: JobOptions,
        bare: Option<Unit>,
        unit: Unit,
    ) -> Result<JobOptions, Failure> {
        let positive = |typed: &Option<Length>, option, default| match typed {
            Some(typed) => positive_in_unit(typed, bare, unit, option),
            None => Ok(default),
        };
        let reel = |typed: &Option<Length>, option, default| match typed {
            Some(typed) => positive_in_unit(typed, bare, unit, option).map(Some),
            None => Ok(default),
        };
        let length = |typed: &Option<Length>, option, default| match typed {
            Some(typed) => from_0_in_unit(typed, bare, unit, option),
            None => Ok(default),
        };
        let (machine, thread) = (options.machine, options.thread);
        let [start, tie_off, cut] = self.seconds.as_ref().map_or(
            [
                machine.seconds_per_start,
                machine.seconds_per_tie_off,
                machine.seconds_per_cut,
            ],
            |seconds| seconds.0,
        );
        let machine = machine
            .with_top_speed(positive(&self.speed, "--speed", machine.top_speed)?)
            .with_acceleration(positive(
                &self.acceleration,
                "--acceleration",
                machine.acceleration,
            )?)
            .with_corner_deviation(positive(
                &self.corner,
                "--corner",
                machine.corner_deviation,
            )?)
            .with_seconds_per_start(start)
            .with_seconds_per_tie_off(tie_off)
            .with_seconds_per_cut(cut);
        let thread = thread
            .with_thickness(length(&self.thickness, "--thickness", thread.thickness)?)
            .with_tail(length(&self.tail, "--tail", thread.tail)?)
            .with_waste(self.waste.map_or(thread.waste, |percent| percent / 100.0))
            .with_spool(reel(&self.spool, "--spool", thread.spool)?)
            .with_bobbin(reel(&self.bobbin, "--bobbin", thread.bobbin)?);
        Ok(options.with_machine(machine).with_thread(thread))
    }
}

/// A tie-off: how many stitches, and how long each is.
#[derive(Debug, Clone, PartialEq)]
struct TieOff {
    stitches: usize,
    length: Option<Length>,
}

impl FromStr for TieOff {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let wrong = |reason: &str| format!("{reason}; give for example 4 x 1 mm, 4, or none");
        if text.trim().eq_ignore_ascii_case("none") {
            return Ok(Self {
                stitches: 0,
                length: None,
            });
        }
        let (count, length) = match text.split_once(['x', 'X', '×']) {
            Some((count, length)) => {
                let length = Length::from_str(length).map_err(|error| wrong(&error.to_string()))?;
                (count, Some(length))
            }
            None => (text, None),
        };
        let stitches = count
            .trim()
            .parse()
            .map_err(|_| wrong(&format!("\"{}\" is not a number of stitches", count.trim())))?;
        Ok(Self { stitches, length })
    }
}

/// Seconds for a start, for a tie-off and for a cut.
#[derive(Debug, Clone, PartialEq)]
struct Seconds([f64; 3]);

impl FromStr for Seconds {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let numbers: Result<Vec<f64>, _> = text.split(',').map(from_0).collect();
        let three = numbers.ok().and_then(|numbers| numbers.try_into().ok());
        three.map(Self).ok_or_else(|| {
            "give three numbers of seconds, 0 or more: for a start, a tie-off and a cut; for example 20, 3, 10".to_owned()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tie_offs_are_counted_with_a_length_or_without() {
        let tie_off = |text: &str| text.parse::<TieOff>().expect(text);
        let four = TieOff {
            stitches: 4,
            length: Some(Length::with(1.0, Unit::Mm)),
        };
        for text in ["4 x 1 mm", "4x1mm", " 4 × 1 mm", "4X1 mm"] {
            assert_eq!(tie_off(text), four, "{text}");
        }
        assert_eq!(tie_off("3").length, None);
        assert_eq!(tie_off("none"), tie_off("0"));
        for text in ["", "x", "x 1 mm", "-1", "2.5 x 1 mm", "4 x", "some"] {
            assert!(text.parse::<TieOff>().is_err(), "{text}");
        }
    }

    #[test]
    fn seconds_are_three_numbers() {
        assert_eq!("20, 3,10.5".parse(), Ok(Seconds([20.0, 3.0, 10.5])));
        for text in ["", "20", "20, 3", "20, 3, x", "1,2,3,4", "1,-2,3"] {
            let error = text.parse::<Seconds>().expect_err(text);
            assert!(error.contains("for example 20, 3, 10"), "{error}");
        }
    }
}
