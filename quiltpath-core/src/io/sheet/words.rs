//! The words of the sheet: what the quilt is, the totals, the findings, the cautions.

use super::{Page, number};
use crate::io::html::safe;
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

impl Page<'_> {
    /// The findings in the order of `result.json`.
    pub(super) fn all_findings(&self) -> impl Iterator<Item = &Finding> {
        self.stitching.all_findings(self.solved)
    }

    pub(super) fn header(&mut self, title: &str) {
        let bounds = self.solved.quilt.bounds();
        let sides = self.solved.quilt.outline.sides();
        let shape = match sides {
            4 => "A quilt of".to_owned(),
            sides => format!("A quilt of {sides} sides,"),
        };
        let width = self.length("quilt.width", bounds.width());
        let height = self.length("quilt.height", bounds.height());
        self.put(format_args!(
            "<header>\n<h1>{}</h1>\n<p>Placement sheet. {shape} {width} x {height} overall. Places \
             count across to the right and down from {}, on the quilt as it lies in the picture.</p>\n</header>\n",
            safe(title),
            if sides == 4 {
                "its top left raw edge corner, unless the plan gives corner points of its own"
            } else {
                "where the plan's corner points count from"
            },
        ));
    }

    pub(super) fn totals(&mut self) {
        let stitching = self.stitching;
        let (job, unit) = (&stitching.job, self.unit());
        let thread =
            |key: &str, mm: f64| number(key, super::in_unit(mm, unit), &unit.readable_thread(mm));
        let count = |key: &str, count: usize| number(key, count, &count.to_string());
        let known = |key: &str, number_of: Option<u64>, otherwise: &str| match number_of {
            Some(many) => number(key, many, &many.to_string()),
            None => otherwise.to_owned(),
        };
        let need = &job.thread;
        let rows = [
            ("Line", self.length("totals.length", self.solved.length())),
            ("Stitches", count("totals.stitches", job.count())),
            (
                "Minutes",
                format!(
                    "about {}",
                    number(
                        "totals.minutes",
                        stitching.minutes(),
                        &format!("{:.0}", stitching.minutes())
                    )
                ),
            ),
            (
                "Needle thread",
                thread("totals.needle_thread", need.thread.needle),
            ),
            (
                "Bobbin thread",
                thread("totals.bobbin_thread", need.thread.bobbin),
            ),
            (
                "Bobbins to wind",
                known(
                    "totals.bobbins",
                    need.bobbins,
                    "not known: give the length on a bobbin as \"thread\": {\"bobbin\": …}",
                ),
            ),
            ("Pieces", count("totals.pieces", self.solved.pieces.len())),
            ("Passes", count("totals.passes", stitching.passes.len())),
            (
                "Thread cuts",
                format!(
                    "{}; no order has fewer than {}",
                    count("totals.thread_cuts", stitching.runs.len()),
                    count("totals.least_thread_cuts", stitching.least_cuts)
                ),
            ),
            (
                "Travel without stitching",
                self.length("totals.travel", stitching.travel),
            ),
        ];
        self.out.push_str(
            "<section aria-labelledby=\"the.totals\">\n<h2 id=\"the.totals\">In all</h2>\n<dl class=\"facts totals\">\n",
        );
        for (what, value) in rows {
            self.put(format_args!("<div><dt>{what}</dt><dd>{value}</dd></div>\n"));
        }
        self.out.push_str("</dl>\n</section>\n");
    }

    pub(super) fn findings(&mut self) {
        self.out.push_str(
            "<section aria-labelledby=\"the.findings\">\n<h2 id=\"the.findings\">Findings</h2>\n",
        );
        let mut rows = String::new();
        for (index, finding) in self.all_findings().enumerate() {
            let place = match finding.at {
                Some(at) => format!(
                    "; <span class=\"soft\">at {}</span>",
                    self.place(&format!("findings.{index}.at"), at)
                ),
                None => String::new(),
            };
            let number = index + 1;
            let severity = finding.severity.name();
            let what = match finding.severity {
                Severity::Note => "good to know",
                Severity::Warning => "look at it before stitching",
                Severity::Error => "not to be stitched like this",
            };
            rows.push_str(&format!(
                "<li id=\"finding.{number}\" class=\"{severity}\"><b>F{number}, <span data-text=\"findings.{index}.severity\">{severity}</span></b> \
                 <span class=\"soft\">({what})</span>: <span data-text=\"findings.{index}.message\">{}</span>{place}</li>\n",
                safe(&finding.message)
            ));
        }
        if rows.is_empty() {
            self.out
                .push_str("<p>Nothing to say about this plan.</p>\n");
        } else {
            self.put(format_args!("<ul class=\"findings\">\n{rows}</ul>\n"));
        }
        self.out.push_str("</section>\n");
    }

    pub(super) fn cautions(&mut self) {
        self.out.push_str(
            "<section aria-labelledby=\"the.cautions\">\n<h2 id=\"the.cautions\">Before you stitch</h2>\n<ul>\n",
        );
        for caution in CAUTIONS {
            self.put(format_args!("<li>{caution}</li>\n"));
        }
        self.out.push_str("</ul>\n</section>\n");
    }
}
