//! The words of the sheet: what the quilt is, the totals, the findings, the cautions.

use maud::{Markup, html};

use super::page::{Page, facts, whole};
use crate::io::fraction::{number, set};
use crate::io::numbers::in_unit;
use crate::io::words;
use crate::plan::{Finding, FrameTime, Severity};

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
            p.kind { "Placement sheet" }
            h1 { (title) }
            @if let Some(customer) = &page.solved.customer {
                p.customer { "For " b { span data-text="customer" { (customer) } } }
            }
            p {
                "A quilt of " @if sides != 4 { (sides) " sides, " }
                (width) " x " (height) " overall. Places count across to the right and down from "
                @if sides == 4 {
                    "its top left raw edge corner, unless the plan gives corner points of its own"
                } @else {
                    "where the plan's corner points count from"
                }
                ", on the quilt as it lies in the picture."
            }
            @if let Some(notes) = &page.solved.notes {
                p.notes data-text="notes" { (notes) }
            }
        }
    }
}

/// What minutes go to, with the key of what has them.
pub(super) fn minutes_of(key: &str, time: &FrameTime) -> Markup {
    html! {
        @for (index, part) in words::minutes_for(time).iter().enumerate() {
            @if index == 0 { ": " } @else { ", " }
            (number(&format!("{key}.minutes_of.{}", part.key), part.minutes, &part.readable()))
            " " (part.work)
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
    let minutes = html! { "about " (about) (minutes_of("totals", &stitching.time)) };
    let bobbins = match need.bobbins {
        Some(many) => whole("totals.bobbins", many),
        None => html! { "not known: give the length on a bobbin as \"thread\": {\"bobbin\": …}" },
    };
    let cuts = html! {
        (whole("totals.thread_cuts", stitching.runs.len())) "; no order in as few passes has fewer than "
        (whole("totals.least_thread_cuts", stitching.least_cuts))
    };
    let done = page.solved.stitched_length();
    let mut rows = vec![("Line", page.line("totals.length", page.solved.length()))];
    if done > 0.0 {
        rows.push(("Stitched already", stitched(page, done)));
        rows.push(("Left", left(page, done)));
    }
    rows.extend([
        ("Stitches", whole("totals.stitches", job.count())),
        ("Minutes", minutes),
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
            "Rolled on and back",
            page.length("totals.rolled", stitching.rolled),
        ),
        (
            "Travel without stitching",
            html! {
                (page.length("totals.travel", stitching.travel)) "; at least "
                (page.length("totals.least_travel", stitching.least_travel)) " in these passes"
            },
        ),
    ]);
    html! {
        section aria-labelledby="the.totals" {
            h2 id="the.totals" { "In all" }
            @if done > 0.0 {
                p { "Stitches, minutes, thread, passes, cuts and travel are those of what is left." }
            }
            (facts("facts totals", rows))
        }
    }
}

/// How much of the line is stitched, and how many pieces.
fn stitched(page: &Page<'_>, done: f64) -> Markup {
    let whole = page
        .solved
        .pieces
        .iter()
        .filter(|piece| piece.is_stitched())
        .count();
    let begun = page
        .solved
        .pieces
        .iter()
        .filter(|piece| piece.has_begun())
        .count()
        - whole;
    html! {
        (page.line("totals.stitched", done)) ": " (words::counted(whole, "whole piece"))
        @if begun > 0 { ", " (begun) " in part" }
    }
}

/// How much is left, and of how many pieces.
fn left(page: &Page<'_>, done: f64) -> Markup {
    let pieces = page
        .solved
        .pieces
        .iter()
        .filter(|piece| !piece.is_stitched());
    let line = words::line_both(page.unit(), page.solved.length() - done);
    html! { (set(&line)) ", of " (words::counted(pieces.count(), "piece")) }
}

pub(super) fn findings(page: &Page<'_>) -> Markup {
    let found: Vec<(usize, &Finding)> = page.findings().enumerate().collect();
    let (notes, look): (Vec<_>, Vec<_>) = found
        .into_iter()
        .partition(|(_, finding)| finding.severity == Severity::Note);
    html! {
        section aria-labelledby="the.findings" {
            h2 id="the.findings" { "What to look at" }
            (kinds(page, "To look at before you stitch", &look))
            (kinds(page, "Good to know", &notes))
        }
    }
}

/// Findings under a head, those of a kind together on one line with their count.
fn kinds(page: &Page<'_>, head: &str, found: &[(usize, &Finding)]) -> Markup {
    let mut kinds: Vec<Vec<(usize, &Finding)>> = Vec::new();
    for &(index, finding) in found {
        let alike = |kind: &&mut Vec<(usize, &Finding)>| {
            kind.first().is_some_and(|(_, first)| {
                (first.code(), first.severity) == (finding.code(), finding.severity)
            })
        };
        match kinds.iter_mut().find(alike) {
            Some(kind) => kind.push((index, finding)),
            None => kinds.push(vec![(index, finding)]),
        }
    }
    html! {
        h3 { (head) @if found.is_empty() { ": none" } }
        @if !found.is_empty() {
            ul.findings {
                @for kind in &kinds { (one_kind(page, kind)) }
            }
        }
    }
}

fn one_kind(page: &Page<'_>, kind: &[(usize, &Finding)]) -> Markup {
    html! {
        @if let [(index, finding), more @ ..] = kind {
            li id={ "finding." (index + 1) } class=(finding.severity.name()) {
                (sign(*index, finding))
                (words_of(page, *index, finding))
                @if !more.is_empty() {
                    details {
                        summary { "and " (more.len()) " more of this kind" }
                        ul {
                            @for (index, finding) in more {
                                li id={ "finding." (index + 1) } {
                                    b { (index + 1) ". " } (words_of(page, *index, finding))
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// A triangle with its number for what to look at, a circle for what is good to know.
fn sign(index: usize, finding: &Finding) -> Markup {
    html! {
        svg.sign viewBox="0 0 20 20" role="img" aria-label={ "F" (index + 1) } {
            @if finding.severity == Severity::Note {
                circle cx="10" cy="10" r="8.5" {}
                text x="10" y="12.8" { (index + 1) }
            } @else {
                path d="M10 1.5l9 16.5h-18z" {}
                text x="10" y="16" { (index + 1) }
            }
        }
    }
}

fn words_of(page: &Page<'_>, index: usize, finding: &Finding) -> Markup {
    let key = format!("findings.{index}");
    html! {
        b { span data-text={ (key) ".severity" } { (finding.severity.name()) } }
        @if finding.severity == Severity::Error { " " span.soft { "(not to be stitched like this)" } }
        ": "
        span data-text={ (key) ".message" } { (set(&words::finding(finding, page.solved))) }
        @if let Some(at) = finding.place() {
            "; " span.soft { "at " (page.place(&format!("{key}.at"), at)) }
        }
    }
}

pub(super) fn cautions() -> Markup {
    html! {
        section.caution aria-labelledby="the.cautions" {
            h2 id="the.cautions" { "Before you stitch" }
            ul {
                @for caution in CAUTIONS { li { (caution) } }
            }
        }
    }
}
