//! What there is to report of a laid pass, in plain sentences.

use crate::align::{ReadingDoubt, Strain, Trend};
use crate::frame::{LaidFindingKind, Refitted};
use crate::plan::Solved;

/// A finding of a laid pass in a sentence, in the plan's unit.
#[must_use]
pub fn laid(kind: &LaidFindingKind, solved: &Solved) -> String {
    let length = |mm: f64| solved.unit.readable(mm);
    let border = |border: usize| {
        let layout = solved.layouts.get(border);
        layout.map_or("the border", |layout| layout.name.as_str())
    };
    match kind {
        LaidFindingKind::Reading(ReadingDoubt::Misread { mark, off, .. }) => format!(
            "{mark} was probably misread: it is {} from where the other marks have it; read it again, or leave it out",
            length(*off)
        ),
        LaidFindingKind::Reading(ReadingDoubt::Exchanged { marks: [one, other], .. }) => format!(
            "{one} and {other} were probably exchanged; the other way round all readings agree much better"
        ),
        LaidFindingKind::Reading(ReadingDoubt::ZeroMoved { mark, by, .. }) => format!(
            "the machine's zero was probably set anew before {mark} was read: from there on all readings are {} off; read all marks again without touching the zero",
            length(*by)
        ),
        LaidFindingKind::OneReading => "one mark tells no turn and no stretch of the cloth; far from it, lines may be 1 in off; read at least two, better four".to_owned(),
        LaidFindingKind::OnALine => "the marks lie on one line, so how the cloth is stretched or bowed across it isn't known; read one that is off the line".to_owned(),
        LaidFindingKind::Mirrored => "the machine's y counts the other way than assumed; the pass is laid rightly all the same".to_owned(),
        LaidFindingKind::Turned { degrees } => format!(
            "the readings turn the pass by {degrees:.1} degrees; look whether marks were exchanged, or the quilt is loaded another way round"
        ),
        LaidFindingKind::Strained { stretch: [least, most] } => format!(
            "in places the cloth lies {} to {}; smooth it out, or read the marks there again",
            stretched(*least),
            stretched(*most)
        ),
        LaidFindingKind::SideStretched { border: at, side, stretch, limit } => format!(
            "{}'s {side} lies {}, beyond the limit of {:.0} %, and keeps its number of repeats",
            border(*at),
            stretched(*stretch),
            100.0 * limit
        ),
        LaidFindingKind::OverSeam { border: at, by, .. } => format!(
            "{}: the line crosses the seam as touched, by {}",
            border(*at),
            length(*by)
        ),
        LaidFindingKind::OffQuilt { by, .. } => format!(
            "the line leaves the quilt at the raw edge as touched, by {}",
            length(*by)
        ),
        LaidFindingKind::UnderBinding { by, .. } => format!(
            "the line comes under the binding at the raw edge as touched, by {}",
            length(*by)
        ),
        LaidFindingKind::TooHigh { height, window } => format!(
            "as it lies, the pass is {} high, and the window {}; let the machine go up to the start of the highest line before you set anything down",
            length(*height),
            length(*window)
        ),
    }
}

/// A side that was solved again, in a sentence.
#[must_use]
pub fn refitted(side: &Refitted, solved: &Solved) -> String {
    let layout = solved.layouts.get(side.border);
    let border = layout.map_or("border", |layout| layout.name.as_str());
    let [before, now] = side.repeats;
    let [was, is] = side.stretch;
    format!(
        "{border}'s {} lies {} with {before} repeats, so it has {now} now, {}",
        side.side,
        stretched(was),
        stretched(is)
    )
}

/// How the cloth lies, in a sentence.
#[must_use]
pub fn lies(strain: &Strain, trend: Trend, solved: &Solved) -> String {
    let turn = format!("turned by {:.2} degrees", strain.turn_degrees);
    match trend {
        Trend::Shift => {
            "the cloth is taken as it was planned, neither turned nor stretched".to_owned()
        }
        Trend::Line => {
            let [least, most] = strain.stretch;
            let along = if (least - 1.0).abs() > (most - 1.0).abs() {
                least
            } else {
                most
            };
            format!(
                "the cloth lies {turn}, {} along the marks",
                stretched(along)
            )
        }
        _ => {
            let [least, most] = strain.stretch;
            let bow = solved.unit.readable(strain.bow);
            format!(
                "the cloth lies {turn}, {} to {}, bowed by up to {bow}",
                stretched(least),
                stretched(most)
            )
        }
    }
}

/// A stretch in words: `stretched by 0.4 %`, or `shrunk by 0.4 %`.
fn stretched(stretch: f64) -> String {
    match stretch < 1.0 {
        true => format!("shrunk by {:.1} %", 100.0 * (1.0 - stretch)),
        false => format!("stretched by {:.1} %", 100.0 * (stretch - 1.0)),
    }
}
