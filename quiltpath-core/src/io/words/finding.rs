//! A finding in a sentence: what it is about, what it is, and what to do.

use super::ease::limited;
use super::kept::kept;
use super::leg::leg_doubt;
use super::lying::{compared, lying};
use super::one_line::one_line;
use super::short::{above_one, counted, fine, percent};
use super::subject::{finding_subject, name};
use super::ways::way;
use crate::leg::LegDoubt;
use crate::plan::{CornerMade, Finding, FindingKind, PieceKind, Side, Solved};
use crate::units::rounded;

/// What to do about lines outside their band.
const OUTSIDE: &str = "draw the motif without ink beyond its ends, choose another corner, give a wider gap, or make the border wider";

/// A finding in plain words, in the unit of the plan that it was made of.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif, plan::solve};
/// use quiltpath_core::io::{json::read_plan, words};
///
/// # let wave = |_: &_| {
/// #     let wave = [(20.0, 5.0), (15.0, 10.0), (5.0, 0.0), (0.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let solved = solve(&plan, wave)?;
/// let note = solved.findings.iter().find(|found| found.code() == "backwards").expect("a note");
/// assert_eq!(
///     words::finding(note, &solved),
///     "wave: drawn from right to left, so it is travelled backwards"
/// );
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[must_use]
pub fn finding(finding: &Finding, solved: &Solved) -> String {
    let sentence = sentence(finding, solved);
    match finding_subject(finding, solved) {
        Some(subject) => format!("{subject}: {sentence}{}", more(finding)),
        None => format!("{sentence}{}", more(finding)),
    }
}

/// How many more places a finding has whose sentence is about its worst.
fn more(finding: &Finding) -> String {
    let about_one = matches!(
        finding.kind,
        FindingKind::LinesClose { .. }
            | FindingKind::StitchedTwice { .. }
            | FindingKind::Dense { .. }
            | FindingKind::SmallLoop { .. }
    );
    match finding.places.len() {
        places if about_one && places > 1 => {
            format!(" (and {}, none worse)", counted(places - 1, "more place"))
        }
        _ => String::new(),
    }
}

/// What else joins smoothly, by how the corners of this border are made.
fn other_than(border: Option<usize>, solved: &Solved) -> &'static str {
    let mut of_border = (solved.pieces.iter()).filter(|piece| Some(piece.border) == border);
    let made = of_border.find_map(|piece| match &piece.kind {
        PieceKind::Corner(corner) => Some(&corner.made),
        _ => None,
    });
    match made {
        Some(CornerMade::Mitred { .. }) => "\"alternate\": \"centred\"",
        Some(CornerMade::Bent { .. }) => "a mitred corner with \"alternate\": \"centred\"",
        _ => "the corner turned the other way, \"alternate\" or a mitred corner",
    }
}

/// What a finding is and what to do, without what it is about.
fn sentence(finding: &Finding, solved: &Solved) -> String {
    let unit = solved.unit;
    let long = |mm: f64| unit.readable(mm);
    let small = |mm: f64| fine(unit, mm);
    let finer = |mm: f64| fine(unit, mm);
    let piece = |number: Option<usize>| number.and_then(|at| name(solved, at)).unwrap_or_default();
    let side = || {
        finding
            .side
            .map_or_else(String::new, |side| side.to_string())
    };
    match &finding.kind {
        FindingKind::DrawingLinked { links, length, .. } => format!(
            "{} of the drawing linked by straight lines of {} in all",
            counted(*links, "gap"),
            long(*length)
        ),
        FindingKind::OneLine { report, .. } => {
            let mut text = one_line(&report.scaled(1.0 / unit.in_mm()), unit);
            if report.ends_within > 0 {
                let ends = counted(report.ends_within, "end");
                text += &format!("; {ends} of the line at the edge, where no stroke ends");
            }
            text + "; \"strokes\": \"as_drawn\" refuses such a drawing"
        }
        FindingKind::Backwards { .. } => {
            "drawn from right to left, so it is travelled backwards".to_owned()
        }
        FindingKind::MeasuresDisagree { by, odd: Some(odd) } => format!(
            "no quilt has all these sides and diagonals; the nearest takes them up to {} longer or shorter; without {}, given as {}, the others make a quilt much nearer to square, on which it is {}: measure that one again",
            long(*by),
            odd.what,
            long(odd.given),
            long(odd.implied)
        ),
        FindingKind::MeasuresDisagree { by, odd: None } => format!(
            "no quilt has all these sides and diagonals; the nearest takes them up to {} longer or shorter, and none stands out: measure again, or leave out the diagonal that you trust less",
            long(*by)
        ),
        FindingKind::NoDiagonal {
            diagonals: [falling, rising],
            change,
            moves,
        } => format!(
            "no diagonal was measured, so the quilt is taken as near to square as its four sides allow, its falling diagonal as {} and its rising one as {}; for each {} that a diagonal differs from that, a corner is up to {} off, so measure one diagonal",
            long(*falling),
            long(*rising),
            long(*change),
            long(*moves)
        ),
        FindingKind::OutsidePlace { by, over_seam } => format!(
            "runs up to {} beyond what may be stitched of its place{}; draw it within its box, or widen \"seam_gap\"",
            small(*by),
            if *over_seam { ", over the seam" } else { "" }
        ),
        FindingKind::BlocksKept { pieces, length } => format!(
            "{} of the blocks begun stay as they are, {} stitched",
            counted(*pieces, "piece"),
            long(*length)
        ),
        FindingKind::TrianglesCut { added } => format!(
            "the block's design is cut to the triangles at the edge and joined again, which adds {} in all; \"triangles\" gives them designs of their own or leaves them plain",
            long(*added)
        ),
        FindingKind::DepthShared { depth, worst } => format!(
            "all bands are made {} deep, so that repeats are equally large; no side is stretched by more than {}",
            long(*depth),
            above_one(*worst)
        ),
        FindingKind::BestWay { way, costs } => format!(
            "of the ways in which its drawings can lie, this joins best: {}; {}",
            lying(way),
            compared(costs, &long)
        ),
        FindingKind::BetterWay { way, costs } => format!(
            "its drawings would join better in another way: {}; {}. \"orientation\": \"best\" finds it",
            lying(way),
            compared(costs, &long)
        ),
        FindingKind::DepthChosen {
            depth,
            given_up,
            worst,
            worst_at_full,
        } => format!(
            "the band is made {} deep, {} less than the gaps leave, so that no side is stretched by more than {} (at the full depth: {})",
            long(*depth),
            long(*given_up),
            above_one(*worst),
            above_one(*worst_at_full)
        ),
        FindingKind::Stretch {
            repeats,
            stretch,
            limit,
            instead,
        } => format!(
            "{} {} stretched by {}, more than {:.1} %{}; change the border's width or gaps, or the corner's size",
            counted(*repeats, "repeat"),
            if *repeats == 1 { "is" } else { "are" },
            percent(*stretch),
            limit * 100.0,
            instead.map_or_else(String::new, |(repeats, stretch)| format!(
                "; {} would be stretched by {}",
                counted(repeats, "repeat"),
                percent(stretch)
            ))
        ),
        FindingKind::WaysOut { limit, ways } => {
            let border = finding.border.and_then(|at| solved.layouts.get(at));
            let sides: Vec<Side> = border.map_or_else(Vec::new, |at| at.sides().collect());
            let ways: Vec<String> = ways.iter().map(|each| way(each, &sides, unit)).collect();
            format!(
                "ways to bring the stretch within {:.1} %: {}",
                limit * 100.0,
                ways.join("; or ")
            )
        }
        FindingKind::LegUnclear { doubt, .. } => {
            format!("{}; {}", leg_doubt(doubt), legs_given(doubt))
        }
        FindingKind::CornerUneven { unevenness, .. } => format!(
            "its legs are not equally deep, so it is stretched one way by {} to fit the band with both; draw legs of the same depth",
            percent(*unevenness)
        ),
        FindingKind::Trimmed {
            links,
            added,
            share,
            ..
        } => format!(
            "cut to an L and joined by {} with {} added to each corner ({:.0} % of its own line)",
            counted(*links, "link"),
            long(*added),
            share * 100.0
        ),
        FindingKind::CornerSlanted {
            degrees,
            depths,
            longer,
        } => format!(
            "the corner drawing is slanted into the {} of {degrees:.1} degrees between bands {} and {} deep, so a leg there is {:.0} % longer for its depth than drawn",
            finding
                .corner
                .map_or_else(String::new, |corner| corner.to_string()),
            long(depths[0]),
            long(depths[1]),
            (longer - 1.0) * 100.0
        ),
        FindingKind::MitreKink { degrees } => format!(
            "the line turns by {degrees:.0} degrees where it is cut on the diagonal; give \"smooth\" a length to round it off, or leave it as a point"
        ),
        FindingKind::MitreNotSmoothed { asked, smoothed } => {
            let over = match *smoothed > 0.0 {
                true => format!("over {} instead of {}", long(*smoothed), long(*asked)),
                false => format!("not at all instead of over {}", long(*asked)),
            };
            format!(
                "the turn at the diagonal is smoothed {over}, since more would lead out of the band or the line is shorter; give \"smooth\" less, or leave it out for a point"
            )
        }
        FindingKind::MitreLoops {
            crossings,
            linked,
            length,
        } => format!(
            "the repeat meets the diagonal {} at every phase; what lies beyond the first is {} {} at each corner",
            counted(*crossings, "time"),
            if *linked {
                "linked along it by"
            } else {
                "dropped:"
            },
            long(*length)
        ),
        FindingKind::CornersClose { past } => format!(
            "the corners at the {} run past each other by {}; use a shorter corner motif or a narrower border",
            side(),
            long(*past)
        ),
        FindingKind::StationsInCorner { stations } => format!(
            "{} of the {} lie where a corner lies, which is taken as straight",
            counted(*stations, "station"),
            side()
        ),
        FindingKind::Levelled { by } => format!(
            "ends at different heights are brought together by shearing repeats by up to {}",
            long(*by)
        ),
        FindingKind::RepeatsLinked { links } => format!(
            "{} stitched between repeats that end at another height than they start",
            counted(*links, "straight link")
        ),
        FindingKind::EaseLimited { report } => limited(report),
        FindingKind::CornersAlike {
            corners,
            alike: [last, first],
        } => format!(
            "an outline with {} has no room for mirrored corners to alternate all round: {last} and {first} are alike; leave it so, or take \"arrangement\": \"turned\"",
            counted(*corners, "corner")
        ),
        FindingKind::RepeatKink { degrees } => format!(
            "the line turns by {degrees:.0} degrees where one repeat ends and the next starts; draw both ends of the repeat in one direction, mirror every second one with \"alternate\", or leave it as a point"
        ),
        FindingKind::MirrorKink { degrees } => format!(
            "the line turns by {degrees:.0} degrees where a repeat meets its mirror image; draw the repeat level at its ends for a smooth turn, or leave it as a point"
        ),
        FindingKind::Linked { length } => format!(
            "the repeat and the corner meet the band {} apart, so a straight link is stitched between them; use motifs that start at the same height",
            long(*length)
        ),
        FindingKind::Kept { .. }
        | FindingKind::NumberKept { .. }
        | FindingKind::RestStretched { .. }
        | FindingKind::CornerDrawnOut { .. }
        | FindingKind::StitchedApart { .. } => kept(&finding.kind, unit),
        FindingKind::OffTheQuilt { by } => {
            format!(
                "the line runs over the raw edge by up to {}; {OUTSIDE}",
                finer(*by)
            )
        }
        FindingKind::OverSeam { by, outer } => format!(
            "the line runs over the seam {}by up to {}; {OUTSIDE}",
            if *outer {
                "to the border outside it "
            } else {
                ""
            },
            finer(*by)
        ),
        FindingKind::OutsideBand { by } => {
            format!(
                "the line leaves the band by up to {}; {OUTSIDE}",
                finer(*by)
            )
        }
        FindingKind::UnderBinding { by, covered } => format!(
            "the line runs by up to {} into the {} along the raw edge that the binding's seam allowance covers; {OUTSIDE}",
            finer(*by),
            long(*covered)
        ),
        FindingKind::LinesClose {
            nearest,
            length,
            closest,
            over,
            ..
        } => format!(
            "lines run {} apart over {}, closer than {} over {} or more, so thread builds up; draw them farther apart, or let the line be stitched over itself",
            small(*nearest),
            long(*length),
            small(*closest),
            long(*over)
        ),
        FindingKind::StitchedTwice { length } => format!(
            "{} of line is stitched over a second time; leave it if it is drawn so",
            long(*length)
        ),
        FindingKind::Dense {
            length,
            square,
            densest,
        } => format!(
            "{} of line in a square of {}, more than {}; enlarge the design, or leave out some of its detail",
            long(*length),
            long(*square),
            long(*densest)
        ),
        FindingKind::SmallLoop { length, least } => format!(
            "a loop of {} is smaller than two stitches ({}), so it is stitched as a knot; enlarge it, leave it out, or take shorter stitches",
            small(*length),
            small(*least)
        ),
        FindingKind::Crowded { spots } => format!(
            "{} where lines are so thick that they were not all compared; look at the picture there",
            counted(*spots, "spot")
        ),
        FindingKind::Unlisted { code, places } => format!(
            "{} of {code} besides, none of them worse",
            counted(*places, "place")
        ),
        FindingKind::ShortStitches { count, sharp, by } => format!(
            "{} by up to {}, since a stitch there would be shorter than the minimum; give a smaller \"minimum\" or more stitches per inch if it shows",
            match sharp {
                true => format!("{} left out", are(*count, "sharp point")),
                false => format!("{} cut short", are(*count, "place")),
            },
            small(*by)
        ),
        FindingKind::JoinOpen {
            next,
            gap,
            tolerance,
        } => format!(
            "{} ends {} from where {} starts, more than {}; give a larger \"join_tolerance\" if that is close enough",
            piece(finding.piece),
            small(*gap),
            piece(Some(*next)),
            small(*tolerance)
        ),
        FindingKind::JoinKink {
            next,
            degrees,
            limit,
        } => format!(
            "the line turns by {degrees:.0} degrees, more than {limit:.0}, where {} ends and {} starts; draw both ends in one direction for a smooth join, or try {}",
            piece(finding.piece),
            piece(Some(*next)),
            other_than(finding.border, solved)
        ),
        FindingKind::TooDeep { throat, repeats } => format!(
            "no pass of {} takes {} as a whole, so it is cut inside a motif; use a machine with a deeper throat, \"turned\", or a smaller design",
            long(*throat),
            repeats.map_or_else(
                || "it".to_owned(),
                |repeats| format!("one of its {}", counted(repeats, "repeat"))
            )
        ),
        FindingKind::FewerCuts {
            passes,
            cuts,
            more,
            cuts_then,
        } => format!(
            "{} passes instead of {passes} save {}; give \"more_passes\": {more} in \"machine\" if that is worth it",
            passes.saturating_add(*more),
            counted(cuts.saturating_sub(*cuts_then), "thread cut")
        ),
    }
}

/// What to give where the legs are read wrong.
fn legs_given(doubt: &LegDoubt) -> String {
    match doubt {
        LegDoubt::OtherTurn {
            degrees,
            other_degrees,
            ..
        } => {
            let [kept, other] = [degrees, other_degrees].map(|degrees| rounded(*degrees));
            format!("give \"turn_degrees\" under \"leg\", {kept} to keep it so or {other}")
        }
        LegDoubt::RivalElbow { .. } | LegDoubt::PortsElsewhere { .. } => {
            "if the legs are wrong, give them under \"leg\"; a whole block is cut to an L by \"trim\", or placed whole by \"style\": \"block\"".to_owned()
        }
        _ => "if the legs are wrong, give them under \"leg\"".to_owned(),
    }
}

/// A count with its noun and verb: `1 place is`, `2 places are`.
fn are(count: usize, noun: &str) -> String {
    let verb = if count == 1 { "is" } else { "are" };
    format!("{} {verb}", counted(count, noun))
}

#[cfg(all(test, feature = "json"))]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::io::json::read_plan;
    use crate::motif::Motif;
    use crate::plan::{MotifRequest, solve, stitch_plan};
    use crate::strokes::Drawing;

    /// A repeat that starts and ends on a slope.
    fn slope(_: &MotifRequest) -> Result<Drawing, crate::Error> {
        let points = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];
        let points = points.map(|(x, y)| Point::new(x, y));
        Ok(Motif::from_points("slope", points.to_vec())?.into())
    }

    #[test]
    fn what_else_joins_smoothly_goes_by_the_corners() {
        let plan = br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
            {"width": 6, "corner": {"style": "mitred"}, "side": {"motif": "slope"}}]}"#;
        let plan = read_plan(plan).expect("a plan");
        let solved = solve(&plan, slope).expect("solved");
        let stitched = stitch_plan(&plan, &solved).expect("stitched");
        let mut found = stitched.all_findings(&solved);
        let kink = found.find(|found| found.code() == "join_kink");
        let kink = finding(kink.expect("a kink"), &solved);
        let other = "the corner turned the other way";
        assert!(kink.contains("try \"alternate\": \"centred\""), "{kink}");
        assert!(!kink.contains(other), "{kink}");
        // Without corners from the repeat there are other ways.
        assert!(other_than(None, &solved).contains(other));
    }
}
