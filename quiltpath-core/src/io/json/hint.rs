//! Which key of a plan helps with an error of it: the core's own messages name none.

use crate::error::{
    Error, ErrorKind, FitFault, GeometryFault, LegFault, MotifFault, PlanFault, StitchFault,
};

/// The key of a plan that helps with an error of solving or stitching it, as a phrase to put after
/// the message; `None` where the message is all there is.
///
/// ```
/// use quiltpath_core::io::json::{key_hint, read_plan};
/// use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
/// use quiltpath_core::{plan::solve, units::Unit};
///
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave.json", "strokes": "as_drawn"}}]}"#)?;
/// let error = solve(&plan, |request| {
///     let apart = br#"{"unit":"in","paths":[{"points":[[0,0],[1,2]]},{"points":[[2,2],[3,0]]}]}"#;
///     LineDrawing::read(&request.name, apart, &ReadOptions::default())?.strokes(Unit::Mm)
/// })
/// .unwrap_err();
/// assert_eq!(
///     key_hint(&error).as_deref(),
///     Some("in the plan, \"strokes\": \"one_line\" beside the motif makes one line of them")
/// );
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[must_use]
pub fn key_hint(error: &Error) -> Option<String> {
    let hint = match error.kind() {
        ErrorKind::Motif(fault) => motif(fault),
        ErrorKind::Leg(fault) => leg(fault),
        ErrorKind::Fit(fault) => fit(fault),
        ErrorKind::Geometry(fault) => geometry(fault),
        ErrorKind::Plan(fault) => plan(fault),
        ErrorKind::Stitch(fault) => stitch(fault),
        _ => None,
    };
    hint.map(|hint| format!("in the plan, {hint}"))
}

fn owned(hint: &str) -> Option<String> {
    Some(hint.to_owned())
}

fn motif(fault: &MotifFault) -> Option<String> {
    match fault {
        MotifFault::Apart { .. } => {
            owned("\"strokes\": \"one_line\" beside the motif makes one line of them")
        }
        MotifFault::AllShort { .. } => owned("\"join_tolerance\" is that distance"),
        MotifFault::TooManyStrokes { .. } => owned("\"layers\" beside the motif are read alone"),
        MotifFault::Nothing | MotifFault::Crowded { .. } | MotifFault::NoEnds => None,
    }
}

fn leg(fault: &LegFault) -> Option<String> {
    match fault {
        LegFault::NoEmptyCorner | LegFault::PortsElsewhere { .. } => owned(
            "\"leg\" in the corner gives the elbow and the depths; a whole block is cut to an L by \"trim\", or placed whole by \"style\": \"block\"",
        ),
        LegFault::TooDeep { .. } => owned(
            "the depths are \"horizontal_depth\" and \"vertical_depth\" of \"leg\", or \"leg_depth\" of \"trim\", as in the drawing",
        ),
    }
}

fn fit(fault: &FitFault) -> Option<String> {
    match fault {
        FitFault::NoRepeats => owned("\"repeats\" of the side is at least 1, or left out"),
        FitFault::EveryOutOfRange { .. } => owned(
            "\"every\" of the side is what their number is a multiple of; leave it out for any",
        ),
        FitFault::NumberTooLarge { .. } => {
            owned("\"repeats\", or \"every\" with \"parity\", of the side asks for them")
        }
        FitFault::OddMultiple { .. } => {
            owned("\"every\" and \"parity\" of the side exclude each other; leave one out")
        }
        FitFault::CentredOdd { .. } | FitFault::CentredParity => {
            owned("\"alternate\": \"centred\" of the side takes even numbers")
        }
        FitFault::NumbersDiffer { .. } | FitFault::ParitiesDiffer => {
            owned("\"opposite_alike\": true of the side makes opposite sides alike; leave it out")
        }
        FitFault::TooManyInAll { .. } | FitFault::TooManyPoints { .. } => {
            owned("\"flattening\" is how far a curve may lie from its points")
        }
        _ => None,
    }
}

fn geometry(fault: &GeometryFault) -> Option<String> {
    match fault {
        GeometryFault::TooFine { .. } => {
            owned("\"flattening\" is how far a curve may lie from its points")
        }
        GeometryFault::RadiusTooSmall { .. } | GeometryFault::RadiusTooLarge { .. } => owned(
            "\"radius\" of the corner is that of the middle of the band; leave it out to have one chosen",
        ),
        GeometryFault::InsetTooLarge { .. } => {
            owned("\"inset\" of \"trim\" is how far inside the L's edge links run")
        }
        _ => None,
    }
}

fn plan(fault: &PlanFault) -> Option<String> {
    match fault {
        PlanFault::NoBorders => owned(
            "\"borders\" holds them, from the outermost to the innermost, each with \"width\", \"corner\" and \"side\"",
        ),
        PlanFault::GapsTooWide { .. } => {
            owned("they are \"seam_gap\" and \"edge_gap\" of the border")
        }
        PlanFault::NoOutline { .. } => owned(
            "\"quilt\" holds \"width\" and \"height\"; or \"top\", \"right\", \"bottom\" and \"left\", best with \"falling\", \"rising\" or both; or \"corners\"",
        ),
        PlanFault::UnequalDepths { .. } => owned(
            "\"style\" of the corner may be \"leg\", \"block\", \"butted\" or \"open\" where depths differ",
        ),
        PlanFault::NoSharedDepth { .. } => owned(
            "\"slack\" of a border is how much shallower its band may be; leave out \"shared_depth\" to let depths differ",
        ),
        PlanFault::TrimmedApart { .. } => {
            owned("\"leg_depth\" of \"trim\" is the depth that the drawing is cut to")
        }
        PlanFault::DrawingMissing { .. } => owned(
            "\"motif\" of the corner names it; \"style\": \"mitred\" and \"style\": \"bent\" need none, for they make the corner of the side's repeat",
        ),
        PlanFault::Swapped { .. } => {
            owned("\"motif\" of the corner names the L, \"motif\" of the side the repeat")
        }
        PlanFault::NoThroat { .. } => owned("\"throat\" of \"machine\" is that height"),
        PlanFault::NotUsed { field, .. } => {
            Some(format!("it is the key \"{field}\" of the corner"))
        }
        PlanFault::BothGiven {
            fields: [one, other],
        } => Some(format!("they are the keys \"{one}\" and \"{other}\"")),
        PlanFault::EndsOfOneLine { key, other } => {
            Some(format!("they are the keys \"{key}\" and \"{other}\""))
        }
        _ => None,
    }
}

fn stitch(fault: &StitchFault) -> Option<String> {
    match fault {
        StitchFault::TooMany { .. } => {
            owned("\"stitches_per_inch\" of \"stitching\" sets their length")
        }
        StitchFault::RollTooThick { .. } => {
            owned("\"thickness\" and \"bar_diameter\" of \"roll\" in \"machine\" are the two")
        }
        StitchFault::NothingLeft { .. } => {
            owned("\"throat\", \"reserve\" and \"roll\" of \"machine\" say what is left")
        }
        StitchFault::TooManyAtoms { .. } => {
            owned("\"throat\" of \"machine\" is how much of the quilt one pass reaches")
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::io::json::read_plan;
    use crate::motif::Motif;
    use crate::plan::{MotifRequest, solve, stitch_plan};
    use crate::strokes::Drawing;

    /// Loads a wave, 20 long and 10 high.
    fn wave(_: &MotifRequest) -> Result<Drawing, Error> {
        let wave = [(0, 5), (5, 0), (10, 5), (15, 10), (20, 5)];
        let points = wave.map(|(x, y)| Point::new(f64::from(x), f64::from(y)));
        Ok(Motif::from_points("wave", points.to_vec())?.into())
    }

    /// The error of a plan with these keys, at the places of their names.
    fn refused(keys: &str, border: &str, corner: &str, side: &str) -> Error {
        let quilt = match keys.contains("\"quilt\"") {
            true => "",
            false => r#""quilt": {"width": 40, "height": 60},"#,
        };
        let text = format!(
            r#"{{"unit": "in", {quilt} {keys} "borders": [{{"width": 6, {border}
                "corner": {{{corner}}}, "side": {{"motif": "wave" {side}}}}}]}}"#
        );
        let plan = read_plan(text.as_bytes()).unwrap_or_else(|e| panic!("{text}: {e}"));
        let solved = solve(&plan, wave);
        let stitched = solved.and_then(|solved| stitch_plan(&plan, &solved));
        stitched
            .err()
            .unwrap_or_else(|| panic!("{text} is planned"))
    }

    const OPEN: &str = r#""style": "open""#;

    #[test]
    fn errors_of_plans_name_the_keys_that_help() {
        for (error, keys) in [
            (
                refused("", r#""seam_gap": 4, "edge_gap": 4,"#, OPEN, ""),
                vec!["seam_gap", "edge_gap"],
            ),
            (refused("", "", OPEN, r#", "every": 0"#), vec!["every"]),
            (
                refused("", "", OPEN, r#", "every": 2, "parity": "odd""#),
                vec!["every", "parity"],
            ),
            (refused("", "", OPEN, r#", "repeats": 0"#), vec!["repeats"]),
            (
                refused("", "", OPEN, r#", "alternate": "centred", "repeats": 3"#),
                vec!["alternate", "centred"],
            ),
            (
                refused("", "", r#""style": "open", "on_point": true"#, ""),
                vec!["on_point"],
            ),
            (
                refused("", "", r#""style": "leg""#, ""),
                vec!["motif", "mitred", "bent"],
            ),
            (
                refused("", "", r#""style": "leg", "motif": "wave""#, ""),
                vec!["leg", "trim", "block"],
            ),
            (
                refused("", "", r#""style": "bent", "radius": 1"#, ""),
                vec!["radius"],
            ),
            (
                refused(r#""quilt": {"width": 40},"#, "", OPEN, ""),
                vec!["quilt", "width", "height", "falling", "corners"],
            ),
            (
                refused(r#""stitching": {"stitches_per_inch": 1e9},"#, "", OPEN, ""),
                vec!["stitches_per_inch"],
            ),
        ] {
            let hint = key_hint(&error).unwrap_or_else(|| panic!("no hint for {error}"));
            for key in keys {
                assert!(hint.contains(&format!("\"{key}\"")), "{error}: {hint}");
            }
        }
        // The message alone has what there is to do.
        let missing = Error::motif_unreadable("wave", "no such file");
        assert_eq!(key_hint(&missing), None);
    }

    #[cfg(feature = "schema")]
    #[test]
    fn every_key_in_a_hint_is_one_of_a_plan() {
        let schema = crate::io::json::plan_schema();
        let faults: Vec<Error> = vec![
            MotifFault::Apart {
                gaps: Vec::new(),
                pieces: 2,
            }
            .into(),
            LegFault::NoEmptyCorner.into(),
            LegFault::TooDeep {
                depth: 2.0,
                limit: 1.0,
            }
            .into(),
            FitFault::NoRepeats.into(),
            FitFault::EveryOutOfRange { every: 0, limit: 9 }.into(),
            FitFault::OddMultiple { every: 2 }.into(),
            FitFault::CentredParity.into(),
            FitFault::NumberTooLarge {
                repeats: 9,
                limit: 8,
            }
            .into(),
            FitFault::ParitiesDiffer.into(),
            GeometryFault::TooFine { limit: 9 }.into(),
            GeometryFault::RadiusTooSmall {
                radius: 1.0,
                least: 2.0,
            }
            .into(),
            GeometryFault::InsetTooLarge {
                inset: 2.0,
                limit: 1.0,
            }
            .into(),
            PlanFault::NoBorders.into(),
            PlanFault::GapsTooWide {
                gaps: 2.0,
                width: 1.0,
            }
            .into(),
            PlanFault::NoOutline { given: Vec::new() }.into(),
            PlanFault::UnequalDepths {
                corner: "top left corner".into(),
                before: 1.0,
                after: 2.0,
            }
            .into(),
            PlanFault::NoSharedDepth {
                depths: vec![1.0, 2.0],
                missing: 1.0,
            }
            .into(),
            PlanFault::TrimmedApart { paths: 2 }.into(),
            PlanFault::DrawingMissing { style: "leg" }.into(),
            PlanFault::Swapped {
                corner: "border.svg".into(),
                side: "corner.svg".into(),
            }
            .into(),
            StitchFault::TooMany {
                count: 9.0,
                limit: 8,
            }
            .into(),
            StitchFault::TooManyAtoms { limit: 8 }.into(),
            StitchFault::RollTooThick {
                thickness: 9.0,
                most: 8.0,
            }
            .into(),
            StitchFault::NothingLeft {
                throat: 2.0,
                reserve: 0.5,
                growth: 1.5,
                wound: 40.0,
            }
            .into(),
            PlanFault::NoThroat { field: "roll" }.into(),
        ];
        for fault in faults {
            let hint = key_hint(&fault).unwrap_or_else(|| panic!("no hint for {fault}"));
            for word in hint.split('"').skip(1).step_by(2) {
                assert!(schema.contains(&format!("\"{word}\"")), "{hint}: {word}");
            }
        }
    }
}
