//! A drawing in short sentences: where its line starts and ends, its legs, what is stitched twice.

use super::leg::leg_doubt;
use super::short::counted;
use crate::geom::BoxCorner;
use crate::leg::{LegName, LegShape};
use crate::strokes::OneLineReport;
use crate::units::Unit;

/// Where a line of an L starts and ends, travelled clockwise, as two places.
pub(in crate::io) fn leg_ends(legs: &LegShape) -> [String; 2] {
    let [top, left] = match legs.elbow {
        BoxCorner::TopLeft => [true, true],
        BoxCorner::TopRight => [true, false],
        BoxCorner::BottomRight => [false, false],
        BoxCorner::BottomLeft => [false, true],
    };
    let place = |leg: LegName| match leg {
        LegName::Vertical if top => "at the foot of the upright leg",
        LegName::Vertical => "at the top of the upright leg",
        LegName::Horizontal if left => "at the right end of the level leg",
        LegName::Horizontal => "at the left end of the level leg",
    };
    let drawn = [legs.starts_on, legs.starts_on.other()];
    let travelled = match legs.runs_clockwise() {
        true => drawn,
        false => [drawn[1], drawn[0]],
    };
    travelled.map(|leg| place(leg).to_owned())
}

/// How deep the legs of an L are, and how sure that is; lengths of the drawing in millimetres.
pub(in crate::io) fn leg_depths(legs: &LegShape, given: bool, unit: Unit) -> String {
    let [level, upright] = [legs.depth_horizontal, legs.depth_vertical].map(|mm| unit.readable(mm));
    let mut said = match level == upright {
        true => format!("{level} deep, both."),
        false => format!("{level} deep, the level one; {upright}, the upright one."),
    };
    if given {
        said += " As you gave them.";
    } else if legs.doubts.is_empty() {
        said += " Found in the drawing, no doubt about it.";
    }
    for doubt in &legs.doubts {
        said += &format!(" In doubt: {}.", leg_doubt(doubt));
    }
    said
}

/// Where the two ends of a repeat lie, its height being `height` millimetres as drawn: whether each
/// runs on into the next.
pub(in crate::io) fn repeat_ends(
    [start, end]: [f64; 2],
    height: f64,
    join: f64,
    unit: Unit,
) -> String {
    let by = (start - end).abs() * height;
    if by <= join {
        return "Level: each repeat runs on into the next.".to_owned();
    }
    let higher = if start > end { "left" } else { "right" };
    format!("The {higher} end lies {} higher.", unit.readable(by))
}

/// How the sides of a border meet its corners: `apart` millimetres, brought together by up to
/// `levelled`, so far from the seam.
pub(in crate::io) fn sides_meet(apart: f64, levelled: f64, from_seam: f64, unit: Unit) -> String {
    let long = |mm: f64| unit.readable(mm);
    if apart > 0.0 {
        return format!(
            "The corner and the side lie {} apart, so a link is stitched.",
            long(apart)
        );
    }
    let lie = format!("Both lie {} from the seam.", long(from_seam));
    match levelled > 0.0 {
        true => format!(
            "The corner design, brought together by up to {}. {lie}",
            long(levelled)
        ),
        false => format!("The corner design, exactly. {lie}"),
    }
}

/// What it took to make one line, `on_itself` millimetres of which lie on itself as drawn.
pub(in crate::io) fn made_one_line(report: &OneLineReport, on_itself: f64, unit: Unit) -> String {
    let long = |mm: f64| unit.readable(mm);
    if report.strokes == 0 {
        return match on_itself > 0.0 {
            true => format!("Yes, as drawn. {} of it lies on itself.", long(on_itself)),
            false => "Yes, as drawn. Nothing added.".to_owned(),
        };
    }
    let mut said = format!("Made of {}.", counted(report.strokes, "stroke"));
    said += &match report.retraced > 0.0 {
        true => {
            let least = if report.is_least() {
                ", which is the least"
            } else {
                ""
            };
            format!(" {} is stitched twice{least}.", long(report.retraced))
        }
        false => " Nothing is stitched twice.".to_owned(),
    };
    if report.links > 0 {
        let links = counted(report.links, "link");
        said += &format!(" {links} added, {} together.", long(report.linked));
    }
    if report.cuts > 0 {
        said += &format!(
            " The thread is cut {} within.",
            counted(report.cuts, "time")
        );
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::leg::analyse_legs;
    use crate::motif::Motif;

    #[test]
    fn ends_of_an_l_are_told_as_they_are_stitched() {
        // From the foot of the left leg to the right end of the top leg, and back.
        let points = [
            (0.0, 8.0),
            (2.0, 6.0),
            (0.0, 4.0),
            (2.0, 2.0),
            (0.0, 0.0),
            (4.0, 2.0),
            (6.0, 0.0),
            (8.0, 2.0),
        ];
        let there: Motif = points.to_vec().try_into().expect("a line");
        for line in [there.clone(), there.reversed()] {
            let legs = &analyse_legs(&line).expect("an L")[0];
            assert_eq!(
                leg_ends(legs),
                [
                    "at the foot of the upright leg",
                    "at the right end of the level leg"
                ]
            );
            let said = leg_depths(legs, true, Unit::Mm);
            assert!(
                said.starts_with("2 mm deep, both. As you gave them."),
                "{said}"
            );
        }
    }

    #[test]
    fn one_line_is_told_by_what_it_adds() {
        let report = OneLineReport::default();
        assert_eq!(
            made_one_line(&report, 0.0, Unit::In),
            "Yes, as drawn. Nothing added."
        );
        assert_eq!(
            made_one_line(&report, 12.7, Unit::In),
            "Yes, as drawn. 1/2 in of it lies on itself."
        );
        let mut report = OneLineReport::default();
        (report.strokes, report.retraced, report.least) = (3, 25.4, 25.4);
        assert_eq!(
            made_one_line(&report, 0.0, Unit::In),
            "Made of 3 strokes. 1 in is stitched twice, which is the least."
        );
        assert_eq!(
            repeat_ends([0.5, 0.5], 100.0, 0.1, Unit::In),
            "Level: each repeat runs on into the next."
        );
        assert_eq!(
            repeat_ends([0.5, 0.627], 100.0, 0.1, Unit::In),
            "The right end lies 1/2 in higher."
        );
    }
}
