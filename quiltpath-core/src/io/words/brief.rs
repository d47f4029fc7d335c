//! A finding in short sentences that name no key of a plan: for a page that is filled in.
//!
//! What it is about is not in them, so that the same finding on several pieces is said once.

use super::ease::limited;
use super::kept::kept;
use super::leg::leg_doubt;
use super::lying::{compared, lying};
use super::short::{above_one, counted, percent};
use super::ways::brief_way;
use crate::plan::{Finding, FindingKind, Side, Solved};

/// A finding in short sentences, in the unit of the plan that it was made of, without what it is
/// about.
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
///     words::finding_brief(note, &solved),
///     "It runs from right to left, so it is travelled backwards."
/// );
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[must_use]
pub fn finding_brief(finding: &Finding, solved: &Solved) -> String {
    let unit = solved.unit;
    let long = |mm: f64| unit.readable(mm);
    // What a ruler shows as nothing is said in millimetres.
    let small = |mm: f64| match long(mm) {
        nothing if nothing.starts_with("0 ") => format!("{mm:.2} mm"),
        some => some,
    };
    let side = finding
        .side
        .map_or("side".to_owned(), |side| side.to_string());
    match &finding.kind {
        FindingKind::DrawingLinked { links, length, .. } => format!(
            "{} linked by straight lines, {} together.",
            counted(*links, "gap"),
            long(*length)
        ),
        FindingKind::OneLine { report, .. } => {
            let least = if report.is_least() {
                ", which is the least"
            } else {
                ""
            };
            let mut said = match report.retraced > 0.0 {
                true => format!("{} is stitched twice{least}.", long(report.retraced)),
                false => "Nothing is stitched twice.".to_owned(),
            };
            if report.links > 0 {
                let links = counted(report.links, "link");
                said += &format!(" {links} added, {} together.", long(report.linked));
            }
            if report.cuts > 0 {
                said += &format!(" The thread is cut {}.", counted(report.cuts, "time"));
            }
            said
        }
        FindingKind::Backwards { .. } => {
            "It runs from right to left, so it is travelled backwards.".to_owned()
        }
        FindingKind::MeasuresDisagree { odd: Some(odd), .. } => format!(
            "The {} is written as {}; the others make it {}. Measure it again.",
            odd.what,
            long(odd.given),
            long(odd.implied)
        ),
        FindingKind::MeasuresDisagree { by, odd: None } => format!(
            "The nearest quilt takes them up to {} longer or shorter. Measure again.",
            long(*by)
        ),
        FindingKind::NoDiagonal { change, moves, .. } => format!(
            "It is taken as near to square as its sides allow. Measure one diagonal: {} of it move a corner by up to {}.",
            long(*change),
            long(*moves)
        ),
        FindingKind::DepthShared { depth, worst } => format!(
            "All bands are {} deep. No side is stretched by more than {}.",
            long(*depth),
            above_one(*worst)
        ),
        FindingKind::BestWay { way, costs } | FindingKind::BetterWay { way, costs } => {
            format!("{}: {}.", sentence(&lying(way)), compared(costs, &long))
        }
        FindingKind::DepthChosen {
            depth,
            given_up,
            worst,
            worst_at_full,
        } => format!(
            "The band is {} deep, {} less than it could be. It is stretched by {} at most, instead of {}.",
            long(*depth),
            long(*given_up),
            above_one(*worst),
            above_one(*worst_at_full)
        ),
        FindingKind::Stretch {
            repeats,
            stretch,
            limit,
            ..
        } => format!(
            "{} each {} than drawn. Your limit is {:.0} %.",
            match repeats {
                1 => "1 repeat is".to_owned(),
                many => format!("{many} repeats are"),
            },
            longer(*stretch),
            limit * 100.0
        ),
        FindingKind::WaysOut { ways, .. } => {
            let border = finding.border.and_then(|at| solved.layouts.get(at));
            let sides: Vec<Side> = border.map_or_else(Vec::new, |at| at.sides().collect());
            let also = ways.iter().filter_map(|way| brief_way(way, &sides, unit));
            let all: Vec<String> = std::iter::once("Each of these is enough by itself.".to_owned())
                .chain(also)
                .collect();
            all.join(" ")
        }
        FindingKind::OutsidePlace { by, over_seam } => match over_seam {
            true => format!(
                "It runs up to {} beyond the gap, over the seam.",
                small(*by)
            ),
            false => format!("It runs up to {} into the gap at the seam.", small(*by)),
        },
        FindingKind::BlocksKept { pieces, length } => format!(
            "{} begun, {} stitched.",
            counted(*pieces, "piece"),
            long(*length)
        ),
        FindingKind::TrianglesCut { added } => format!(
            "The block's design is cut to them; {} of links and of line stitched twice added in all.",
            long(*added)
        ),
        FindingKind::LegUnclear { doubt, .. } => sentence(&leg_doubt(doubt)),
        FindingKind::CornerUneven { unevenness, .. } => format!(
            "It is stretched one way by {} to fit. Draw both legs equally deep.",
            percent(*unevenness)
        ),
        FindingKind::Trimmed {
            links,
            added,
            share,
            ..
        } => format!(
            "{} added to each corner, {} together: {:.0} % of its own line.",
            counted(*links, "link"),
            long(*added),
            share * 100.0
        ),
        FindingKind::CornerSlanted {
            degrees, longer, ..
        } => format!(
            "At a corner of {degrees:.1}° a leg is {:.0} % longer for its depth than drawn.",
            (longer - 1.0) * 100.0
        ),
        FindingKind::CornersAlike {
            corners,
            alike: [last, first],
        } => format!(
            "{} can't alternate all round: {last} and {first} are alike.",
            counted(*corners, "corner")
        ),
        FindingKind::MitreKink { degrees } => format!(
            "The line turns by {degrees:.0}° where it is cut. Round it off, or leave it a point."
        ),
        FindingKind::MitreNotSmoothed { asked, smoothed } => format!(
            "It is rounded over {} instead of {}. More would leave the band.",
            long(*smoothed),
            long(*asked)
        ),
        FindingKind::MitreLoops {
            crossings,
            linked,
            length,
        } => format!(
            "The repeat meets the diagonal {}. What lies beyond is {} {} at each corner.",
            counted(*crossings, "time"),
            if *linked { "linked by" } else { "dropped:" },
            long(*length)
        ),
        FindingKind::CornersClose { past } => format!(
            "On the {side}, by {}. Take a shorter corner or a narrower border.",
            long(*past)
        ),
        FindingKind::StationsInCorner { stations } => format!(
            "{} of the {side} lie in a corner, which is taken as straight.",
            counted(*stations, "station")
        ),
        FindingKind::Levelled { by } => format!(
            "Its ends lie at two heights. They are brought together, by up to {}.",
            long(*by)
        ),
        FindingKind::RepeatsLinked { links } => format!(
            "{} between repeats that end at another height than they start.",
            counted(*links, "straight link")
        ),
        FindingKind::EaseLimited { report } => sentence(&limited(report)),
        FindingKind::RepeatKink { degrees } => format!(
            "The line turns by {degrees:.0}° from one repeat to the next. Leave it if it is a point."
        ),
        FindingKind::MirrorKink { degrees } => format!(
            "The line turns by {degrees:.0}° where a repeat meets its mirror image. Leave it if it is a point."
        ),
        FindingKind::Linked { length } => format!(
            "They meet the band {} apart, so a straight link is stitched.",
            small(*length)
        ),
        FindingKind::NumberKept { repeats, .. } => format!(
            "It has begun with {}, so it keeps them.",
            counted(*repeats, "repeat")
        ),
        FindingKind::Kept { .. }
        | FindingKind::RestStretched { .. }
        | FindingKind::CornerDrawnOut { .. }
        | FindingKind::StitchedApart { .. } => sentence(&kept(&finding.kind, unit)),
        FindingKind::OffTheQuilt { by } => format!(
            "The line runs over the raw edge by up to {}. Give a wider gap, or another drawing.",
            small(*by)
        ),
        FindingKind::OverSeam { by, .. } => format!(
            "The line runs over the seam by up to {}. Give a wider gap, or another drawing.",
            small(*by)
        ),
        FindingKind::OutsideBand { by } => format!(
            "The line leaves the band by up to {}. Draw it without ink beyond its ends.",
            small(*by)
        ),
        FindingKind::UnderBinding { by, covered } => format!(
            "The line runs up to {} into the {} that the binding covers.",
            small(*by),
            long(*covered)
        ),
        FindingKind::LinesClose {
            nearest, length, ..
        } => format!(
            "Lines run {} apart over {}, so thread builds up. Draw them farther apart.",
            small(*nearest),
            long(*length)
        ),
        FindingKind::StitchedTwice { length } => format!(
            "{} of line lies on itself. Leave it if you drew it so.",
            small(*length)
        ),
        FindingKind::Dense { length, square, .. } => format!(
            "{} of line in a square of {}. Make the design larger, or leave some out.",
            long(*length),
            long(*square)
        ),
        FindingKind::SmallLoop { length, .. } => format!(
            "A loop of {} is stitched as a knot. Make it larger, or leave it out.",
            small(*length)
        ),
        FindingKind::Crowded { spots } => format!(
            "{} too thick with lines to compare them all. Look at the picture there.",
            match spots {
                1 => "1 spot is".to_owned(),
                many => format!("{many} spots are"),
            }
        ),
        FindingKind::Unlisted { places, .. } => {
            format!("{} besides, none of them worse.", counted(*places, "place"))
        }
        FindingKind::ShortStitches { count, sharp, by } => format!(
            "{} {}, by up to {}: a stitch there would be too short.",
            counted(*count, if *sharp { "sharp point" } else { "place" }),
            if *sharp { "left out" } else { "cut short" },
            small(*by)
        ),
        FindingKind::JoinOpen { gap, tolerance, .. } => format!(
            "It ends {} from where the next starts; {} is allowed.",
            small(*gap),
            small(*tolerance)
        ),
        FindingKind::JoinKink { degrees, .. } => format!(
            "The line turns by {degrees:.0}° there. Draw both ends in one direction, or leave it a point."
        ),
        FindingKind::TooDeep { throat, repeats } => format!(
            "No pass of {} takes {} as a whole, so it is cut inside.",
            long(*throat),
            repeats.map_or("it", |_| "a repeat")
        ),
        FindingKind::FewerCuts {
            passes,
            cuts,
            more,
            cuts_then,
        } => format!(
            "{} passes instead of {passes} save {}.",
            passes.saturating_add(*more),
            counted(cuts.saturating_sub(*cuts_then), "thread cut")
        ),
    }
}

/// How much longer or shorter a stretch makes: `2.3 % longer`.
pub(super) fn longer(stretch: f64) -> String {
    let percent = ((stretch - 1.0) * 1000.0).round() / 10.0;
    let which = if percent < 0.0 { "shorter" } else { "longer" };
    format!("{:.1} % {which}", percent.abs())
}

/// Words with a capital and a full stop.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters
        .next()
        .map(|letter| letter.to_uppercase().to_string());
    format!("{}{}.", first.unwrap_or_default(), letters.as_str())
}
