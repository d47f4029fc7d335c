//! What to do in one pass, on a page of its own: its picture, its marks with boxes for readings,
//! and the steps in order.

use maud::{Markup, html};

use super::page::{Page, number};
use super::words::minutes_of;
use crate::io::pass_figure;
use crate::io::words::{self, counted};
use crate::order::Loading;
use crate::plan::{PlannedPass, mark_letter};

/// All passes as small pictures in order.
pub(super) fn overview(page: &Page<'_>) -> Markup {
    html! {
        ol.strip aria-label="The passes in order" {
            @for (index, pass) in page.stitching.passes.iter().enumerate() {
                li { a href={ "#pass." (index + 1) } { (small(page, index, pass)) "Pass " (index + 1) } }
            }
        }
    }
}

/// The whole quilt with the window of a pass.
fn small(page: &Page<'_>, index: usize, pass: &PlannedPass) -> Markup {
    let quilt = page.solved.bounds();
    let window = pass_figure::window(page.solved, page.stitching, pass);
    let at = |x: f64, y: f64| pass.to_machine.apply(nalgebra::Point2::new(x, y));
    let (one, other) = (at(quilt.min.x, quilt.min.y), at(quilt.max.x, quilt.max.y));
    let (low, high) = (one.inf(&other), one.sup(&other));
    let [x, y, w, h] = [low.x, low.y, high.x - low.x, high.y - low.y].map(|mm| mm.round());
    let pixel = (w.max(h) / 80.0).max(1.0);
    let seam = page.solved.layouts.last().map(|layout| {
        let corners = layout
            .lines
            .seam
            .iter()
            .map(|&point| pass.to_machine.apply(point));
        let words = corners.map(|point| format!("{:.0} {:.0}", point.x, point.y));
        words.collect::<Vec<_>>().join(" ")
    });
    html! {
        svg.small viewBox=(format!("{x} {y} {w} {h}")) width=(format!("{:.0}", w / pixel))
            height=(format!("{:.0}", h / pixel)) style=(format!("--px:{pixel:.1}"))
            role="img" aria-label={ "Pass " (index + 1) } {
            rect.border x=(x) y=(y) width=(w) height=(h) {}
            @if let Some(seam) = seam { polygon.cloth points=(seam) {} }
            rect.window x="0" y="0" width=(format!("{:.0}", window.width()))
                height=(format!("{:.0}", window.height())) {}
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

/// How the quilt comes from one window to the next.
fn rolled(before: &PlannedPass, pass: &PlannedPass) -> &'static str {
    if pass.top > before.top {
        "Roll the quilt on to this window."
    } else if pass.top < before.top {
        "Roll the quilt back to this window."
    } else {
        "Leave the quilt where it is: this pass has the same window."
    }
}

fn steps(page: &Page<'_>, index: usize, pass: &PlannedPass) -> Markup {
    let number = index + 1;
    let before = index
        .checked_sub(1)
        .map(|before| &page.stitching.passes[before]);
    let before = before.filter(|before| before.loading == pass.loading);
    let stitched = pass.marks.iter().filter(|mark| mark.is_met()).count();
    html! {
        ol.steps {
            @if let Some(before) = before {
                li { (rolled(before, pass)) }
            } @else {
                li {
                    @match pass.loading {
                        Loading::Upright => "Load the quilt upright: its top edge is stitched first.",
                        Loading::Turned => "Take the quilt off, turn it by 90 degrees clockwise and load it again.",
                    }
                }
            }
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
