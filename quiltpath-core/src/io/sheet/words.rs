//! The words of the sheet: what the quilt is, the totals, the findings, the cautions.

use maud::{Markup, html};

use super::page::{Page, facts, number, whole};
use crate::io::numbers::in_unit;
use crate::io::words;
use crate::plan::{Finding, Severity};

const CAUTIONS: [&str; 5] = [
    "The machine's manual comes first.",
    "Look at the picture, then trace the path without stitching (with the needle up and the thread \
     out) before the first stitch.",
    "Stay at the machine while it runs: the carriage and the needle move by themselves.",
    "Keep hands, hair, cords and tools away from the carriage, the needle and the wheels; stop the \
     machine before you reach in, smooth cloth or change the thread or the needle.",
    "Measure each pass again where it will be stitched; cloth gives, and numbers here are only as \
     true as the measurements.",
];

pub(super) fn header(page: &Page<'_>, title: &str) -> Markup {
    let bounds = page.solved.quilt.bounds();
    let sides = page.solved.quilt.outline.sides();
    let width = page.length("quilt.width", bounds.width());
    let height = page.length("quilt.height", bounds.height());
    html! {
        header {
            h1 { (title) }
            p {
                "Placement sheet. A quilt of " @if sides != 4 { (sides) " sides, " }
                (width) " x " (height) " overall. Places count across to the right and down from "
                @if sides == 4 {
                    "its top left raw edge corner, unless the plan gives corner points of its own"
                } @else {
                    "where the plan's corner points count from"
                }
                ", on the quilt as it lies in the picture."
            }
        }
    }
}

pub(super) fn totals(page: &Page<'_>) -> Markup {
    let (stitching, unit) = (page.stitching, page.unit());
    let job = &stitching.job;
    let need = &job.thread;
    let thread = |key: &str, mm: f64| number(key, in_unit(mm, unit), &unit.readable_thread(mm));
    let minutes = stitching.minutes();
    let about = number("totals.minutes", minutes, &format!("{minutes:.0}"));
    let bobbins = match need.bobbins {
        Some(many) => whole("totals.bobbins", many),
        None => html! { "not known: give the length on a bobbin as \"thread\": {\"bobbin\": …}" },
    };
    let cuts = html! {
        (whole("totals.thread_cuts", stitching.runs.len())) "; no order in as few passes has fewer than "
        (whole("totals.least_thread_cuts", stitching.least_cuts))
    };
    let rows = vec![
        ("Line", page.line("totals.length", page.solved.length())),
        ("Stitches", whole("totals.stitches", job.count())),
        ("Minutes", html! { "about " (about) }),
        (
            "Needle thread",
            thread("totals.needle_thread", need.thread.needle),
        ),
        (
            "Bobbin thread",
            thread("totals.bobbin_thread", need.thread.bobbin),
        ),
        ("Bobbins to wind", bobbins),
        ("Pieces", whole("totals.pieces", page.solved.pieces.len())),
        ("Passes", whole("totals.passes", stitching.passes.len())),
        ("Thread cuts", cuts),
        (
            "Travel without stitching",
            page.length("totals.travel", stitching.travel),
        ),
    ];
    html! {
        section aria-labelledby="the.totals" {
            h2 id="the.totals" { "In all" }
            (facts("facts totals", rows))
        }
    }
}

pub(super) fn findings(page: &Page<'_>) -> Markup {
    let found: Vec<&Finding> = page.findings().collect();
    html! {
        section aria-labelledby="the.findings" {
            h2 id="the.findings" { "Findings" }
            @if found.is_empty() {
                p { "No problems found." }
            } @else {
                ul.findings {
                    @for (index, finding) in found.into_iter().enumerate() { (one_finding(page, index, finding)) }
                }
            }
        }
    }
}

fn one_finding(page: &Page<'_>, index: usize, finding: &Finding) -> Markup {
    let key = format!("findings.{index}");
    let severity = finding.severity.name();
    let what = match finding.severity {
        Severity::Note => "good to know",
        Severity::Warning => "look at it before stitching",
        Severity::Error => "not to be stitched like this",
    };
    html! {
        li id={ "finding." (index + 1) } class=(severity) {
            b { "F" (index + 1) ", " span data-text={ (key) ".severity" } { (severity) } }
            " " span.soft { "(" (what) ")" } ": "
            span data-text={ (key) ".message" } { (words::finding(finding, page.solved)) }
            @if let Some(at) = finding.place() {
                "; " span.soft { "at " (page.place(&format!("{key}.at"), at)) }
            }
        }
    }
}

pub(super) fn cautions() -> Markup {
    html! {
        section aria-labelledby="the.cautions" {
            h2 id="the.cautions" { "Before you stitch" }
            ul {
                @for caution in CAUTIONS { li { (caution) } }
            }
        }
    }
}
