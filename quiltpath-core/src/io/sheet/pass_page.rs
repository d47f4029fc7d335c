//! What to do in one pass, on a page of its own: its picture, its marks with boxes for readings,
//! and the steps in order.

use maud::{Markup, html};

use super::page::Page;
use super::words::minutes_of;
use crate::io::fraction::number;
use crate::io::pass_figure;
use crate::io::words::{self, counted};
use crate::plan::{PlannedPass, mark_letter};

/// All passes as small pictures in order.
pub(super) fn overview(page: &Page<'_>) -> Markup {
    html! {
        ol.strip aria-label="The passes in order" {
            @for index in 0..page.stitching.passes.len() {
                li { a href={ "#pass." (index + 1) } { (pass_figure::small(page.solved, page.stitching, index)) "Pass " (index + 1) } }
            }
        }
    }
}

/// A pass by its number from 0, before the list of its runs.
pub(super) fn one(page: &Page<'_>, index: usize, pass: &PlannedPass) -> Markup {
    html! {
        (pass_figure::figure(page.solved, page.stitching, index))
        (minutes(index, pass))
        (steps(page, index, pass))
        (marks(page, index, pass))
    }
}

/// How long it takes, and what for.
fn minutes(index: usize, pass: &PlannedPass) -> Markup {
    let (key, all) = (format!("passes.{index}"), pass.time.minutes());
    let readable = match all.round() {
        whole if whole < 1.0 => "under 1 minute".to_owned(),
        1.0 => "about 1 minute".to_owned(),
        whole => format!("about {whole} minutes"),
    };
    html! {
        p {
            "Takes " (number(&format!("{key}.minutes"), all, &readable))
            (minutes_of(&key, &pass.time)) "."
        }
    }
}

fn steps(page: &Page<'_>, index: usize, pass: &PlannedPass) -> Markup {
    let number = index + 1;
    let stitched = pass.marks.iter().filter(|mark| mark.is_met()).count();
    html! {
        ol.steps {
            li { (words::brought(page.stitching, index)) }
            li { b { "Needle up, thread out, hands clear." } " The machine's manual comes first." }
            li {
                "Put the needle over each mark and write down what the machine shows"
                @if stitched > 0 {
                    "; " (counted(stitched, "mark")) @if stitched == 1 { " is" } @else { " are" }
                    " where a stitched line ends and goes on"
                }
                "."
            }
            li { "Lay the pass to the cloth: " code { "quiltpath align … --pass " (number) } ", and look at its picture." }
            li { "Run its needle-up check, needle up, and watch seams and edges." }
            li {
                "Stitch "
                @for (at, run) in pass.runs.clone().enumerate() {
                    @if at > 0 { ", " }
                    span.box aria-hidden="true" {} " run " (run + 1)
                }
                "."
            }
            li { "Say that it is stitched: " code { "quiltpath stitched … --pass " (number) } "." }
        }
    }
}

fn marks(page: &Page<'_>, index: usize, pass: &PlannedPass) -> Markup {
    html! {
        table.marks {
            caption { "Marks, and where the plan expects them" }
            thead { tr {
                th scope="col" { "Mark" } th scope="col" { "Where" } th scope="col" { "Expected" }
                th scope="col" { "Read: x" } th scope="col" { "y" }
            } }
            tbody {
                @for (at, mark) in pass.marks.iter().enumerate() {
                    @let key = format!("passes.{index}.marks.{at}");
                    tr {
                        th scope="row" { span data-text={ (key) ".letter" } { (index + 1) (mark_letter(at)) } }
                        td { span data-text={ (key) ".name" } { (words::mark(mark, page.solved)) } }
                        td { (page.place(&format!("{key}.on_machine"), pass.to_machine.apply(mark.point))) }
                        td.box {} td.box {}
                    }
                }
            }
        }
    }
}
