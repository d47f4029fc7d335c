//! Thread for a stitched line: lockstitch, ISO 4915 stitch type 301.
//!
//! Per length of seam, needle and bobbin thread together take C = 2 + 2·T·S, where T is the
//! thickness of the layers and S the stitches per the same unit of length: each of the two
//! threads runs along the seam once and through the layers once for each stitch. Half of it is
//! needle thread and half bobbin thread. Published formula: textilecalculations.com, "Calculate
//! amount of sewing thread consumption".

use crate::error::{Error, not_negative, positive};

/// What is accepted for every number but the length on a reel.
const LEAST: &str = "0 or more";

/// The thread that a seam takes, in the unit of its length.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Thread {
    /// The length of needle thread.
    pub needle: f64,
    /// The length of bobbin thread.
    pub bobbin: f64,
}

impl Thread {
    /// The length of needle and bobbin thread together.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.needle + self.bobbin
    }
}

/// The thread for a seam of this length through layers of this thickness.
///
/// `length` and `thickness` in one unit, `density` in stitches per that unit. Tails, tie-offs and
/// waste are not in it.
///
/// ```
/// use quiltpath_core::stitch::estimate::lockstitch_thread;
///
/// // 220 cm of seam, 4 stitches per cm, layers 0.625 mm thick: the ratio is 2.5.
/// let thread = lockstitch_thread(220.0, 0.0625, 4.0)?;
/// assert_eq!(thread.total(), 550.0);
/// assert_eq!(thread.needle, thread.bobbin);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a number is below 0 or not finite.
pub fn lockstitch_thread(length: f64, thickness: f64, density: f64) -> Result<Thread, Error> {
    not_negative("the length of the seam", length, LEAST)?;
    not_negative("the thickness of the layers", thickness, LEAST)?;
    not_negative("the number of stitches", density, LEAST)?;
    let half = length * (1.0 + thickness * density);
    Ok(Thread {
        needle: half,
        bobbin: half,
    })
}

/// What thread is spent on besides the seam itself, and how it is wound; lengths in one unit.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ThreadOptions {
    /// The thickness of the layers that are stitched through; 0 or more.
    pub thickness: f64,
    /// The length left over at each start and each end, of needle and bobbin thread each; 0 or
    /// more.
    pub tail: f64,
    /// The share that is wasted besides (threading, breaks, tests): 0.1 for a tenth more; 0 or
    /// more.
    pub waste: f64,
    /// The length on one spool of needle thread, above 0; `None` where it isn't known.
    pub spool: Option<f64>,
    /// The length on one bobbin, above 0; `None` where it isn't known.
    pub bobbin: Option<f64>,
    /// The share of a bobbin that is left on it when it is changed, against running out early;
    /// from 0 up to 0.4.
    pub reserve: f64,
}

impl ThreadOptions {
    /// The same options with another thickness of the layers.
    #[must_use]
    pub fn with_thickness(mut self, thickness: f64) -> Self {
        self.thickness = thickness;
        self
    }

    /// The same options with another length of thread left over at each start and each end.
    #[must_use]
    pub fn with_tail(mut self, tail: f64) -> Self {
        self.tail = tail;
        self
    }

    /// The same options with another share that is wasted: 0.1 for a tenth more.
    #[must_use]
    pub fn with_waste(mut self, waste: f64) -> Self {
        self.waste = waste;
        self
    }

    /// The same options with another length on one spool, or with none known.
    #[must_use]
    pub fn with_spool(mut self, spool: Option<f64>) -> Self {
        self.spool = spool;
        self
    }

    /// The same options with another length on one bobbin, or with none known.
    #[must_use]
    pub fn with_bobbin(mut self, bobbin: Option<f64>) -> Self {
        self.bobbin = bobbin;
        self
    }

    /// The same options with another share of a bobbin left when it is changed: 0.1 for a tenth.
    #[must_use]
    pub fn with_reserve(mut self, reserve: f64) -> Self {
        self.reserve = reserve;
        self
    }

    pub(in crate::stitch) fn check(&self) -> Result<(), Error> {
        not_negative("the thickness of the layers", self.thickness, LEAST)?;
        not_negative("the tail", self.tail, LEAST)?;
        not_negative("the share of waste", self.waste, LEAST)?;
        reel("the length on a spool", self.spool)?;
        reel("the length on a bobbin", self.bobbin)?;
        if !(0.0..=0.4).contains(&self.reserve) {
            let what = "the share of a bobbin that is left";
            return Err(Error::bad_number(what, self.reserve, "0 to 0.4"));
        }
        Ok(())
    }
}

impl Default for ThreadOptions {
    /// For where nothing better is known, in millimetres: layers of 2 mm,
    /// tails of 100 mm, a tenth wasted, 100 m on a bobbin, of which a twentieth is left.
    ///
    /// Our own guess (from memory, no published source): bobbins and threads differ by far more.
    fn default() -> Self {
        Self {
            thickness: 2.0,
            tail: 100.0,
            waste: 0.1,
            spool: None,
            bobbin: Some(100_000.0),
            reserve: 0.05,
        }
    }
}

/// The thread for a whole job.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ThreadNeed {
    /// Needle and bobbin thread, tails and waste included.
    pub thread: Thread,
    /// How many spools of needle thread that is, when the length on one is known.
    pub spools: Option<u64>,
    /// How many bobbins to wind, when the length on one is known.
    pub bobbins: Option<u64>,
}

/// The thread for lines of this length together, with so many stitches.
///
/// `length` is that of all stitches, tie-offs included, in the unit of the options. Each of the
/// separate lines has a start and an end, with a tail of both threads at either.
///
/// ```
/// use quiltpath_core::stitch::estimate::{ThreadOptions, thread_need};
///
/// // 100 in at 10 stitches per inch through 0.01 in, in two lines; all in inches.
/// let options = ThreadOptions::default()
///     .with_thickness(0.01)
///     .with_tail(5.0)
///     .with_waste(0.0)
///     .with_bobbin(Some(60.0));
/// let need = thread_need(100.0, 1000, 2, &options)?;
/// assert_eq!(need.thread.bobbin, 110.0 + 4.0 * 5.0);
/// assert_eq!(need.bobbins, Some(3));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a number is below 0 or not finite, or when the length on a spool or a
/// bobbin is not above 0.
pub fn thread_need(
    length: f64,
    stitches: usize,
    lines: usize,
    options: &ThreadOptions,
) -> Result<ThreadNeed, Error> {
    not_negative("the length of the seam", length, LEAST)?;
    options.check()?;
    let density = if length > 0.0 {
        stitches as f64 / length
    } else {
        0.0
    };
    let seam = lockstitch_thread(length, options.thickness, density)?;
    let tails = 2.0 * lines as f64 * options.tail;
    let whole = |seam: f64| (seam + tails) * (1.0 + options.waste);
    let thread = Thread {
        needle: whole(seam.needle),
        bobbin: whole(seam.bobbin),
    };
    Ok(ThreadNeed {
        thread,
        spools: options.spool.map(|spool| reels(thread.needle, spool)),
        bobbins: options.bobbin.map(|bobbin| reels(thread.bobbin, bobbin)),
    })
}

/// How many reels of this length hold the thread.
fn reels(thread: f64, reel: f64) -> u64 {
    // Rounding of a need that just fits shall not wind another one.
    (thread / reel * (1.0 - 1e-12)).ceil() as u64
}

fn reel(what: &'static str, length: Option<f64>) -> Result<(), Error> {
    match length {
        Some(length) => positive(what, length, "a length above 0"),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const OPTIONS: ThreadOptions = ThreadOptions {
        thickness: 0.5,
        tail: 100.0,
        waste: 0.1,
        spool: Some(5_000.0),
        bobbin: Some(1_000.0),
        reserve: 0.0,
    };

    #[test]
    fn a_number_below_zero_is_refused() {
        assert!(lockstitch_thread(-1.0, 0.1, 10.0).is_err());
        assert!(lockstitch_thread(1.0, f64::NAN, 10.0).is_err());
        let error = lockstitch_thread(1.0, 0.1, f64::INFINITY).expect_err("infinite");
        assert!(
            error
                .to_string()
                .contains("the number of stitches is inf; give 0 or more")
        );
        let wrong = |options| {
            thread_need(10.0, 4, 1, &options)
                .expect_err("wrong")
                .to_string()
        };
        let options = ThreadOptions {
            waste: -0.1,
            ..OPTIONS
        };
        assert_eq!(wrong(options), "the share of waste is -0.1; give 0 or more");
        let options = ThreadOptions {
            bobbin: Some(0.0),
            ..OPTIONS
        };
        assert_eq!(
            wrong(options),
            "the length on a bobbin is 0; give a length above 0"
        );
        let options = ThreadOptions {
            tail: f64::NAN,
            ..OPTIONS
        };
        assert!(wrong(options).starts_with("the tail is NaN"));
    }

    #[test]
    fn tails_stand_at_both_ends_of_each_line_and_waste_is_a_share_of_all() {
        // By hand: 2540 mm in 1000 stitches through 0.5 mm take 2540 + 500 of either thread;
        // 3 lines have 6 ends of 100 mm; a tenth more is 1.1 (3040 + 600) = 4004.
        let need = thread_need(2540.0, 1000, 3, &OPTIONS).expect("need");
        assert!((need.thread.needle - 4004.0).abs() < 1e-9);
        assert!((need.thread.total() - 8008.0).abs() < 1e-9);
        assert_eq!((need.spools, need.bobbins), (Some(1), Some(5)));
        let nothing = thread_need(0.0, 0, 0, &OPTIONS).expect("nothing");
        assert_eq!((nothing.thread.total(), nothing.bobbins), (0.0, Some(0)));
    }

    #[test]
    fn a_bobbin_that_just_suffices_suffices() {
        for bobbins in 1..200u64 {
            let options = ThreadOptions {
                thickness: 0.1,
                tail: 0.1,
                waste: 0.1,
                spool: None,
                bobbin: Some((70.0 + 7.0 + 0.2) * 1.1 / bobbins as f64),
                reserve: 0.0,
            };
            let need = thread_need(70.0, 70, 1, &options).expect("need");
            assert_eq!((need.bobbins, need.spools), (Some(bobbins), None));
        }
    }
}
