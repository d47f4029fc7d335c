//! What came out of a job, as text for people and as JSON.

use crate::words::counted;
use quiltpath_core::motif::Motif;
use quiltpath_core::stitch::job::{Job, JobOptions};
use quiltpath_core::stitch::resample::{Miss, StitchReport};
use quiltpath_core::units::Unit;
use serde_json::{Value, json};

use crate::message;

/// How many places a note lists.
const LISTED: usize = 5;

/// Prints what was stitched and what there is to look at.
pub(super) fn print(motifs: &[Motif], job: &Job, options: &JobOptions, unit: Unit) {
    let Some(report) = job.report() else { return };
    let words = Words(unit);
    message::heading(format_args!(
        "{} stitch{} on {} of line, {}",
        job.count(),
        if job.count() == 1 { "" } else { "es" },
        unit.readable_line(job.drawn * unit.in_mm()),
        counted(motifs.len(), "path")
    ));
    message::line(format_args!(
        "  stitches  {} to {}, up to {} off the line",
        words.fine(report.shortest),
        words.fine(report.longest),
        words.fine(report.worst_chord_error)
    ));
    let tiny = match report.tiny {
        0 => String::new(),
        count => format!(", {count} too small to count"),
    };
    message::line(format_args!(
        "  cusps     {} kept, {} dropped{tiny}",
        job.cusps(),
        report.dropped.len()
    ));
    message::line(format_args!(
        "  minutes   {:.1}: {:.1} moving, {:.1} for starts, tie-offs and cuts",
        job.time.minutes(),
        job.time.moving / 60.0,
        job.time.standing / 60.0
    ));
    let thread = &job.thread;
    let reels = |count: Option<u64>, reel: &str| {
        count.map_or_else(String::new, |count| {
            format!(" ({})", counted(count as usize, reel))
        })
    };
    message::line(format_args!(
        "  thread    needle {}{}, bobbin {}{}",
        words.long(thread.thread.needle),
        reels(thread.spools, "spool"),
        words.long(thread.thread.bobbin),
        reels(thread.bobbins, "bobbin")
    ));
    notes(job, &report, options, &words);
}

fn notes(job: &Job, report: &StitchReport, options: &JobOptions, words: &Words) {
    if !report.dropped.is_empty() {
        message::note(format_args!(
            "{}: a stitch to each would be shorter than the minimum",
            words.places(
                ["cusp has", "cusps have"],
                "no needle point",
                &report.dropped
            )
        ));
    }
    if !report.strayed.is_empty() {
        let what = ["stitch leaves", "stitches leave"];
        message::note(format_args!(
            "{}: closer stitches would be shorter than the minimum",
            words.places(what, "the line too far", &report.strayed)
        ));
    }
    // Rounding alone is not worth a note.
    if report.shortest < options.stitch.minimum * (1.0 - 1e-9) {
        message::note(
            "a line stays so close to its ends that a stitch is shorter than the minimum",
        );
    }
    let short = |length: &f64| *length < options.tie_off.length * (1.0 - 1e-9);
    let mut ties = job.lines.iter().flat_map(|line| &line.ties.lengths);
    if options.tie_off.stitches > 0 && ties.any(short) {
        message::note("a line is too short for its tie-offs, so their stitches are shorter");
    }
}

/// One object and a line end; lengths in the unit of the lines.
pub(super) fn as_json(motifs: &[Motif], job: &Job, unit: Unit) -> String {
    let paths: Vec<Value> = motifs
        .iter()
        .zip(&job.lines)
        .map(|(motif, line)| {
            let report = &line.stitches.report;
            json!({
                "name": motif.name(),
                "stitches": line.count(),
                "drawn": motif.length(),
                "length": line.length(),
                "shortest": report.shortest,
                "longest": report.longest,
                "chord_error": report.worst_chord_error,
                "cusps": {
                    "kept": line.stitches.anchors.len(),
                    "dropped": misses(&report.dropped),
                    "tiny": report.tiny,
                },
                "strayed": misses(&report.strayed),
                "tie_offs": {
                    "start": { "stitches": line.ties.before.len(), "length": line.ties.lengths[0] },
                    "end": { "stitches": line.ties.after.len(), "length": line.ties.lengths[1] },
                },
            })
        })
        .collect();
    let thread = &job.thread;
    let report = json!({
        "unit": unit.symbol(),
        "stitches": job.count(),
        "drawn": job.drawn,
        "length": job.length,
        "shortest": job.report().map(|report| report.shortest),
        "longest": job.report().map(|report| report.longest),
        "minutes": job.time.minutes(),
        "seconds": { "moving": job.time.moving, "standing": job.time.standing },
        "thread": {
            "needle": thread.thread.needle,
            "bobbin": thread.thread.bobbin,
            "spools": thread.spools,
            "bobbins": thread.bobbins,
        },
        "thread_cuts": job.lines.len(),
        "paths": paths,
    });
    format!("{report}\n")
}

fn misses(misses: &[Miss]) -> Vec<Value> {
    let value = |miss: &Miss| json!({ "at": [miss.at.x, miss.at.y], "distance": miss.distance });
    misses.iter().map(value).collect()
}

/// Lengths in words, given in this unit.
struct Words(Unit);

impl Words {
    /// The length of a stitch, which a ruler's steps are too coarse for.
    fn fine(&self, length: f64) -> String {
        let mm = length * self.0.in_mm();
        let (length, decimals, unit) = match self.0.is_metric() {
            true => (mm, 2, Unit::Mm),
            false => (mm / Unit::In.in_mm(), 3, Unit::In),
        };
        let step = 10_f64.powi(-decimals);
        if length > 0.0 && length < step {
            return format!("under {step} {unit}");
        }
        format!("{length:.*} {unit}", decimals as usize)
    }

    /// A length of thread.
    fn long(&self, length: f64) -> String {
        self.0.readable_thread(length * self.0.in_mm())
    }

    /// So many of these, where the first ones are, and how far the farthest lies off.
    fn places(&self, [one, more]: [&str; 2], what: &str, misses: &[Miss]) -> String {
        let readable = |length: f64| self.0.readable(length * self.0.in_mm());
        let place = |miss: &Miss| format!("({}, {})", readable(miss.at.x), readable(miss.at.y));
        let mut places: Vec<String> = misses.iter().take(LISTED).map(place).collect();
        if misses.len() > LISTED {
            places.push(format!("{} more", misses.len() - LISTED));
        }
        let worst = misses.iter().map(|miss| miss.distance).fold(0.0, f64::max);
        format!(
            "{} {} {what}, by up to {}, at {}",
            misses.len(),
            if misses.len() == 1 { one } else { more },
            self.fine(worst),
            places.join(", ")
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_too_small_to_show_is_not_shown_as_none() {
        let [inches, millimetres] = [Words(Unit::In), Words(Unit::Mm)];
        assert_eq!(inches.fine(0.1), "0.100 in");
        assert_eq!(inches.fine(0.0001), "under 0.001 in");
        assert_eq!(millimetres.fine(2.376), "2.38 mm");
        assert_eq!(millimetres.fine(0.004), "under 0.01 mm");
        assert_eq!(millimetres.fine(0.0), "0.00 mm");
    }
}
