//! What is doubtful about the legs of a corner drawing, in words.

use crate::leg::LegDoubt;
use crate::units::rounded;

/// A doubt about a corner drawing in plain words, without a full stop. Depths are compared, so that
/// the words are the same in any unit.
///
/// ```
/// use quiltpath_core::{io::words, leg::{LegDoubt, analyse_legs}, motif::Motif};
///
/// // A diagonal can be read as an L with either of two elbows.
/// let diagonal = Motif::try_from(vec![(9.0, 0.0), (0.0, 9.0)])?;
/// let doubts = &analyse_legs(&diagonal)?[0].doubts;
/// assert!(matches!(doubts[0], LegDoubt::RivalElbow { .. }));
/// assert_eq!(
///     words::leg_doubt(&doubts[0]),
///     "the elbow may be bottom right rather than top left: the empty corner across from it \
///      takes 25 % of the drawing's box, against 25 % here"
/// );
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[must_use]
pub fn leg_doubt(doubt: &LegDoubt) -> String {
    match doubt {
        LegDoubt::OtherTurn {
            degrees,
            depths,
            other_degrees,
            other_depths,
        } => format!(
            "it is read {}, judged from its outline alone; read {}, its level leg would be {} and its upright leg {}",
            turned(*degrees),
            turned(*other_degrees),
            deeper(other_depths[0] / depths[0]),
            deeper(other_depths[1] / depths[1])
        ),
        LegDoubt::RivalElbow {
            elbow,
            rival,
            share,
            rival_share,
        } => format!(
            "the elbow may be {rival} rather than {elbow}: the empty corner across from it takes {} of the drawing's box, against {} here",
            part(*rival_share),
            part(*share)
        ),
        LegDoubt::ShallowerOutside {
            leg,
            depth,
            outer_depth,
        } => format!(
            "on its outer half the {leg} leg is only {} as deep as in all, so something near the elbow reaches into the empty corner",
            part(outer_depth / depth)
        ),
        LegDoubt::PortsElsewhere {
            starts_on,
            start_share,
            end_share,
        } => format!(
            "the line does not run from open end to open end: its start lies {} of the {starts_on} leg's free length from the open end, its end {} of the {} leg's",
            part(*start_share),
            part(*end_share),
            starts_on.other()
        ),
    }
}

/// How a drawing is turned before it is read.
fn turned(degrees: f64) -> String {
    match degrees == 0.0 {
        true => "as it is drawn".to_owned(),
        false => format!("after a turn of {} degrees", rounded(degrees)),
    }
}

/// By how much a depth is another than before.
fn deeper(factor: f64) -> String {
    match (factor - 1.0) * 100.0 {
        change if change.abs() < 0.5 => "as deep".to_owned(),
        change if change > 0.0 => format!("{change:.0} % deeper"),
        change => format!("{:.0} % less deep", -change),
    }
}

/// A part of 1: `25 %`.
fn part(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::leg::LegName;

    #[test]
    fn doubts_name_legs_and_parts() {
        let turned = LegDoubt::OtherTurn {
            degrees: 12.34567,
            depths: [4.0, 4.0],
            other_degrees: 0.0,
            other_depths: [5.0, 4.01],
        };
        assert_eq!(
            leg_doubt(&turned),
            "it is read after a turn of 12.35 degrees, judged from its outline alone; read as it is \
             drawn, its level leg would be 25 % deeper and its upright leg as deep"
        );
        let shallower = LegDoubt::ShallowerOutside {
            leg: LegName::Vertical,
            depth: 4.0,
            outer_depth: 3.0,
        };
        assert_eq!(
            leg_doubt(&shallower),
            "on its outer half the vertical leg is only 75 % as deep as in all, so something near \
             the elbow reaches into the empty corner"
        );
        let elsewhere = LegDoubt::PortsElsewhere {
            starts_on: LegName::Horizontal,
            start_share: 0.0,
            end_share: 7.0 / 6.0,
        };
        assert_eq!(
            leg_doubt(&elsewhere),
            "the line does not run from open end to open end: its start lies 0 % of the \
             horizontal leg's free length from the open end, its end 117 % of the vertical leg's"
        );
    }
}
