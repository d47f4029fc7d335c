//! The passes on the sheet: the window, how the quilt lies, and each run as the machine sees it.

use maud::{Markup, html};

use super::check;
use super::page::{Page, way, whole};
use super::pass_page;
use crate::io::words::counted;
use crate::order::Loading;
use crate::plan::{PlannedPass, RunPart};

pub(super) fn section(page: &Page<'_>) -> Markup {
    html! {
        section aria-labelledby="the.passes" {
            h2 id="the.passes" { "Passes and runs" }
            p {
                "A run is stitched without a thread cut. Its places are those of the machine, "
                "across to the right and down from where the window's upper edge meets the quilt's left edge."
            }
            @if page.stitching.passes.len() > 1 { (pass_page::overview(page)) }
            @for (index, pass) in page.stitching.passes.iter().enumerate() { (one_pass(page, index, pass)) }
        }
    }
}

fn one_pass(page: &Page<'_>, index: usize, pass: &PlannedPass) -> Markup {
    let key = format!("passes.{index}");
    let top = page.length(&format!("{key}.top"), pass.top);
    let loading = match pass.loading {
        Loading::Upright => "loaded upright",
        Loading::Turned => "turned by 90 degrees clockwise and loaded again",
    };
    html! {
        section.pass aria-labelledby={ "pass." (index + 1) } {
            h3 id={ "pass." (index + 1) } {
                "Pass " (index + 1) ", " span data-text={ (key) ".loading" } { (pass.loading.name()) }
                @if let Some(customer) = &page.solved.customer {
                    span.on-paper { ", for " (customer) }
                }
            }
            p {
                "The quilt is " (loading) ". "
                @if page.stitching.throat.is_some() {
                    "The window reaches from " (top) " to "
                    (page.length(&format!("{key}.bottom"), pass.top + pass.reach))
                    " below the quilt's upper edge. "
                } @else {
                    "All of the quilt is within reach, from " (top) " down. "
                }
                (counted(pass.runs.len(), "run")) "."
            }
            (pass_page::one(page, index, pass))
            ol.runs {
                @for (index, within) in pass.runs.clone().zip(0..) {
                    (run(page, pass, index, &format!("{key}.runs.{within}")))
                }
            }
            (check::needle_up(page, index, &key))
        }
    }
}

fn run(page: &Page<'_>, pass: &PlannedPass, index: usize, key: &str) -> Markup {
    let run = &page.stitching.runs[index];
    let [start, end] = [run.motif.start(), run.motif.end()];
    let map = &pass.to_machine;
    let at = |end: &str, point| page.place(&format!("{key}.{end}_on_machine"), map.apply(point));
    html! {
        li id={ "run." (index + 1) } {
            b { "Run " (whole(&format!("{key}.number"), index + 1)) }
            " starts at " (at("start", start.point))
            " and runs " (way(map.apply_vector(start.direction))) "; it ends "
            @if run.closed { "where it starts, " }
            "at " (at("end", end.point)) ". "
            (page.line(&format!("{key}.length"), run.motif.length())) " of line, "
            (whole(&format!("{key}.stitches"), page.stitching.job.lines[index].count())) " stitches."
            (check::bobbins(page, index))
            ol.parts {
                @for part in &run.parts { (one_part(page, part)) }
            }
        }
    }
}

fn one_part(page: &Page<'_>, part: &RunPart) -> Markup {
    let piece = &page.solved.pieces[part.piece];
    let number = page.numbers[part.piece];
    let [from, to] = part.between.map(|share| (share * 1e6).round() / 1e6);
    html! {
        li data-piece=(number) data-from=(from) data-to=(to) data-reversed[part.reversed] {
            a href={ "#piece." (number) } { (number) }
            " " (piece.name) (covered(part, piece.line().ends.len()))
            @if part.reversed { ", from its end to its start" }
        }
    }
}

/// Which part of a piece it is, where it is not all of it.
pub(super) fn covered(part: &RunPart, repeats: usize) -> String {
    let whole = part.between == [0.0, 1.0];
    match part.repeats {
        _ if whole => String::new(),
        Some([first, last]) if first == last => format!(", repeat {first} of {repeats}"),
        Some([first, last]) => format!(", repeats {first} to {last} of {repeats}"),
        None => match part.in_repeats {
            Some(between) => portion(between, repeats),
            None => format!(
                ", from {:.0} % to {:.0} % of its line",
                part.between[0] * 100.0,
                part.between[1] * 100.0
            ),
        },
    }
}

/// From where to where, in whole repeats and percent of one.
fn portion([from, to]: [f64; 2], repeats: usize) -> String {
    // Percents as printed; an end that rounds to a whole repeat is one.
    let [from, to] = [from, to].map(|place| (place * 100.0).round() as usize);
    let (first, last) = (from / 100 + 1, to.saturating_sub(1) / 100 + 1);
    let last = last.max(first);
    let begins = from - (first - 1) * 100;
    let ends = to.saturating_sub((last - 1) * 100);
    if first == last {
        return format!(", {begins} % to {ends} % of repeat {first} of {repeats}");
    }
    let begins = match begins {
        0 => format!("repeat {first}"),
        share => format!("{share} % of repeat {first}"),
    };
    let ends = match ends {
        100 => format!("the end of repeat {last}"),
        share => format!("{share} % of repeat {last}"),
    };
    format!(", from {begins} to {ends}, of {repeats}")
}

#[cfg(test)]
mod tests {
    use super::portion;

    #[test]
    fn a_part_that_is_cut_inside_a_repeat_says_which_portion_it_is() {
        for (between, wanted) in [
            ([2.0, 2.42], ", 0 % to 42 % of repeat 3 of 5"),
            ([2.42, 3.0], ", 42 % to 100 % of repeat 3 of 5"),
            ([0.0, 2.25], ", from repeat 1 to 25 % of repeat 3, of 5"),
            (
                [1.5, 5.0],
                ", from 50 % of repeat 2 to the end of repeat 5, of 5",
            ),
            ([1.999_9, 4.25], ", from repeat 3 to 25 % of repeat 5, of 5"),
        ] {
            assert_eq!(portion(between, 5), wanted);
        }
    }
}
