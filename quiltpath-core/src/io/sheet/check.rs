//! The needle-up check of a pass and the changes of the bobbin in a run, on the sheet.

use maud::{Markup, html};

use super::page::Page;
use crate::frame::ChangeAt;
use crate::io::fraction::set;
use crate::io::words;

/// The stops of the check of a pass.
pub(super) fn needle_up(page: &Page<'_>, pass: usize, key: &str) -> Markup {
    let check = &page.checks[pass];
    html! {
        div.check {
            h4 { "Needle-up check" }
            p {
                "Before the first stitch, with the needle up and the thread out; hands clear before "
                "the machine moves, and the machine's manual comes first. Look at each stop whether "
                "the cloth lies there as it says."
            }
            ol.stops {
                @for (index, stop) in check.stops.iter().enumerate() {
                    li {
                        (page.place(&format!("{key}.needle_up.{index}.at"), stop.at)) ": "
                        @for (at, there) in stop.there.iter().enumerate() {
                            @if at > 0 { "; " }
                            (set(&words::check_stop(there, page.solved)))
                        }
                    }
                }
            }
        }
    }
}

/// Where the bobbin is changed before a run or in it.
pub(super) fn bobbins(page: &Page<'_>, run: usize) -> Markup {
    let changes = page.bobbins.changes.iter().enumerate();
    let own = changes.filter(|(_, change)| change.place.run == run);
    html! {
        @for (index, change) in own {
            p.bobbin {
                b { "B" (index + 1) } " "
                @if change.why == ChangeAt::RunStart {
                    "Change the bobbin before this run."
                } @else {
                    "Change the bobbin after "
                    (page.line(&format!("bobbin_changes.{index}.length"), change.place.length))
                    " of line, at " (page.place(&format!("bobbin_changes.{index}.at"), change.place.at))
                    " on the quilt, " (words::change_at(change.why)) "."
                }
            }
        }
    }
}
