use std::collections::BTreeSet;

use clap::CommandFactory;
use quiltpath_core::Error;
use quiltpath_core::geom::{Bounds, Point};
use quiltpath_core::stitch::job::JobOptions;
use quiltpath_core::units::Unit;

use super::*;
use crate::cli::Cli;

/// Every asker with the name of its command.
const ASKERS: [(Asker, &str); 12] = [
    (Plan, "plan"),
    (Measure, "measure"),
    (Convert, "convert"),
    (Transform, "transform"),
    (Fit, "fit"),
    (Corner, "corner"),
    (Trim { polygon: false }, "trim"),
    (Trim { polygon: true }, "trim"),
    (Stitch, "stitch"),
    (Rank { plan: false }, "rank"),
    (Rank { plan: true }, "rank"),
    (Template, "template"),
];

fn number_of(what: &'static str) -> ErrorKind {
    let (value, accepted) = (0.0, "a number above 0");
    GeometryFault::BadNumber {
        what,
        value,
        accepted,
    }
    .into()
}

/// Every kind of error that some option helps with.
fn helped() -> Vec<ErrorKind> {
    let (limit, text) = (9, String::from("2"));
    let bounds = Bounds {
        min: Point::origin(),
        max: Point::new(1.0, 1.0),
    };
    let mut kinds: Vec<ErrorKind> = vec![
        GeometryFault::TooFine { limit }.into(),
        GeometryFault::NoSize { axis: "width" }.into(),
        GeometryFault::NoSize { axis: "height" }.into(),
        GeometryFault::RadiusTooSmall {
            radius: 1.0,
            least: 2.0,
        }
        .into(),
        GeometryFault::RadiusTooLarge {
            radius: 2.0,
            most: 1.0,
        }
        .into(),
        GeometryFault::InsetTooLarge {
            inset: 2.0,
            limit: 1.0,
        }
        .into(),
        GeometryFault::OutsideRegion {
            drawing: bounds,
            region: bounds,
        }
        .into(),
        GeometryFault::OnlySlivers {
            slivers: 1,
            tolerance: 1.0,
        }
        .into(),
        GeometryFault::InsetTooWide {
            side: "the top side".into(),
            taken: 2.0,
            length: 1.0,
            percent: 50.0,
        }
        .into(),
        GeometryFault::GapsTakeWidth {
            gaps: 2.0,
            width: 1.0,
        }
        .into(),
        LengthFault::UnitMissing { text }.into(),
        DataFault::NoUnit.into(),
        MotifFault::Apart {
            gaps: Vec::new(),
            pieces: 2,
        }
        .into(),
        LegFault::NoEmptyCorner.into(),
        LegFault::TooDeep {
            depth: 2.0,
            limit: 1.0,
        }
        .into(),
        FitFault::SpanNotPositive { span: 0.0 }.into(),
        FitFault::NoRepeats.into(),
        FitFault::EveryOutOfRange { every: 0, limit }.into(),
        FitFault::OddMultiple { every: 2 }.into(),
        FitFault::CentredOdd { repeats: 3 }.into(),
        FitFault::CentredParity.into(),
        FitFault::NumberTooLarge { repeats: 10, limit }.into(),
        FitFault::TooMany { count: 10.0, limit }.into(),
        FitFault::TooManyInAll { count: 10.0, limit }.into(),
        FitFault::TooManyPoints { count: 10.0, limit }.into(),
        StitchFault::TooMany { count: 10.0, limit }.into(),
        CheckFault::TooManyPoints { found: 10, limit }.into(),
        PlanFault::BorderTooWide {
            width: 2.0,
            left: 1.0,
        }
        .into(),
        PlanFault::GapsTooWide {
            gaps: 2.0,
            width: 1.0,
        }
        .into(),
        PlanFault::CornersOverlap {
            side: "top side".into(),
            corners: 2.0,
            room: 1.0,
        }
        .into(),
        PlanFault::DrawingMissing { style: "leg" }.into(),
        PlanFault::Swapped {
            corner: "border.svg".into(),
            side: "corner.svg".into(),
        }
        .into(),
        PlanFault::MotifUnreadable {
            name: "leaf".into(),
            reason: "gone".into(),
        }
        .into(),
    ];
    kinds.extend(
        [
            "the corner's angle",
            "the number of repeats on a leg",
            "the number of repeats that the diagonal crosses",
            "the length to smooth over",
            "the depth of the band",
            "the stretch",
            "the longest link",
            "the inset",
            "the number of stitches per inch",
            "the flattening tolerance",
            "the join tolerance",
            "the tolerance of smooth curves",
            "the feed",
            "the width of a border's side",
        ]
        .map(number_of),
    );
    kinds
}

/// The long options that a text names, without their dashes.
fn options(text: &str) -> BTreeSet<&str> {
    let words = text.split(|c: char| c != '-' && !c.is_ascii_alphanumeric());
    words.filter_map(|word| word.strip_prefix("--")).collect()
}

#[test]
fn every_option_in_a_hint_is_one_of_its_command() {
    let cli = Cli::command();
    for (asker, name) in ASKERS {
        let command = cli.find_subcommand(name).expect(name);
        let known: BTreeSet<&str> = command
            .get_arguments()
            .filter_map(|a| a.get_long())
            .collect();
        for kind in helped() {
            let Some(hint) = hint(asker, &kind) else {
                continue;
            };
            let named = options(hint);
            assert!(!named.is_empty(), "{hint}");
            for option in named {
                assert!(known.contains(option), "{name} has no --{option}: {hint}");
            }
        }
    }
}

#[test]
fn every_one_of_these_errors_is_helped_with_somewhere_and_nowhere_without_a_drawing() {
    for kind in helped() {
        let helps = |(asker, _): &(Asker, _)| hint(*asker, &kind).is_some();
        assert!(ASKERS.iter().any(helps), "{kind}");
        assert_eq!(hint(Other, &kind), None, "{kind}");
    }
}

#[test]
fn a_plan_that_gives_lengths_and_tolerances_leaves_no_option_for_them() {
    let by_plan = Rank { plan: true };
    for kind in [
        GeometryFault::TooFine { limit: 9 }.into(),
        DataFault::NoUnit.into(),
        FitFault::TooMany {
            count: 10.0,
            limit: 9,
        }
        .into(),
        number_of("the join tolerance"),
    ] {
        assert_eq!(hint(by_plan, &kind), None, "{kind}");
        assert!(hint(Rank { plan: false }, &kind).is_some(), "{kind}");
    }
}

/// The names of numbers are the core's own: options of a job that it refuses have their hints.
#[test]
fn every_number_of_a_job_that_is_refused_has_the_option_that_it_comes_from() {
    let job = JobOptions::new(Unit::Mm);
    let (stitch, machine, thread) = (job.stitch, job.machine, job.thread);
    let mut none = job.tie_off;
    none.length = 0.0;
    let mut many = job.tie_off;
    many.stitches = 1000;
    for (refused, option) in [
        (job.with_stitch(stitch.with_minimum(9.0)), "--minimum"),
        (
            job.with_stitch(stitch.with_chord_error(0.0)),
            "--chord-error",
        ),
        (job.with_stitch(stitch.with_cusp_degrees(180.0)), "--cusp"),
        (job.with_tie_off(none), "--tie-off"),
        (job.with_tie_off(many), "--tie-off"),
        (job.with_machine(machine.with_top_speed(0.0)), "--speed"),
        (
            job.with_machine(machine.with_acceleration(0.0)),
            "--acceleration",
        ),
        (
            job.with_machine(machine.with_corner_deviation(0.0)),
            "--corner",
        ),
        (
            job.with_machine(machine.with_seconds_per_start(-1.0)),
            "--seconds",
        ),
        (
            job.with_machine(machine.with_seconds_per_tie_off(-1.0)),
            "--seconds",
        ),
        (
            job.with_machine(machine.with_seconds_per_cut(-1.0)),
            "--seconds",
        ),
        (job.with_thread(thread.with_thickness(-1.0)), "--thickness"),
        (job.with_thread(thread.with_tail(-1.0)), "--tail"),
        (job.with_thread(thread.with_waste(-1.0)), "--waste"),
        (job.with_thread(thread.with_spool(Some(0.0))), "--spool"),
        (job.with_thread(thread.with_bobbin(Some(0.0))), "--bobbin"),
    ] {
        let error: Error = refused.check().expect_err(option);
        let hint = hint(Stitch, error.kind()).unwrap_or_else(|| panic!("no hint for {error}"));
        assert!(hint.starts_with(&format!("{option} ")), "{error}: {hint}");
        let stitch = Cli::command();
        let stitch = stitch.find_subcommand("stitch").expect("stitch");
        let known = |name: &str| stitch.get_arguments().any(|a| a.get_long() == Some(name));
        assert!(options(hint).into_iter().all(known), "{hint}");
    }
}
