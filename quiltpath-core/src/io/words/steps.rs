//! What to do at the frame for one pass, step by step.

use crate::io::words::counted;
use crate::order::Loading;
use crate::plan::{PlannedPass, Stitching};

/// How the quilt comes to lie for a pass, given by its number from 0: loaded, or rolled from the
/// pass before.
#[must_use]
pub fn brought(stitching: &Stitching, pass: usize) -> &'static str {
    let of = |pass: usize| stitching.passes.get(pass);
    let before = pass.checked_sub(1).and_then(of);
    match (before, of(pass)) {
        (Some(before), Some(pass)) if before.loading == pass.loading => rolled(before, pass),
        (_, Some(pass)) if pass.loading == Loading::Turned => {
            "Take the quilt off, turn it by 90 degrees clockwise and load it again."
        }
        _ => "Load the quilt upright: its top edge is stitched first.",
    }
}

fn rolled(before: &PlannedPass, pass: &PlannedPass) -> &'static str {
    if pass.top > before.top {
        "Roll the quilt on to this window."
    } else if pass.top < before.top {
        "Roll the quilt back to this window."
    } else {
        "Leave the quilt where it is: this pass has the same window."
    }
}

/// The steps of a pass, given by its number from 0, where readings are written down beside it and
/// it is laid at once; at most ten, none where there is no such pass.
#[must_use]
pub fn pass_steps(stitching: &Stitching, pass: usize) -> Vec<String> {
    let Some(own) = stitching.passes.get(pass) else {
        return Vec::new();
    };
    let met = own.marks.iter().filter(|mark| mark.is_met()).count();
    let met = match met {
        0 => String::new(),
        1 => " At 1 of them a stitched line ends and goes on.".to_owned(),
        met => format!(" At {met} of them a stitched line ends and goes on."),
    };
    let runs: Vec<String> = own.runs.clone().map(|run| (run + 1).to_string()).collect();
    let stitch = match runs.as_slice() {
        [] => "Nothing is stitched in this pass.".to_owned(),
        [run] => format!("Thread the needle. Stitch run {run}, and stay at the machine."),
        runs => format!(
            "Thread the needle. Stitch {} in this order: {}. Stay at the machine.",
            counted(runs.len(), "run"),
            runs.join(", ")
        ),
    };
    vec![
        brought(stitching, pass).to_owned(),
        "Needle up, thread out, hands clear.".to_owned(),
        format!("Put the needle over each mark and write what the machine shows.{met}"),
        "Look at the pass as laid. Take again what it doubts.".to_owned(),
        "Save the pass for the machine, and load it.".to_owned(),
        "Run its needle-up check: watch seams and edges.".to_owned(),
        stitch,
        "Tick what is stitched.".to_owned(),
    ]
}
