//! Findings in `result.json`: beside the words what each is about, all its places and its numbers.

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};

use crate::fit::{Alternative, Choice, GroupFit};
use crate::io::numbers::{in_unit, point_in_unit};
use crate::io::words;
use crate::plan::{self, FindingKind, Solved, WayCost};
use crate::units::Unit;

/// One thing that there is to report.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct Finding {
    /// `note`, `warning` or `error`.
    pub severity: String,
    /// What it is, in one word that stays the same.
    pub code: String,
    /// What it is and what to do, in plain words.
    pub message: String,
    /// The name of the piece that it is about; of several the first.
    pub piece: Option<String>,
    /// The name of the border that it is about.
    pub border: Option<String>,
    /// The side of the border.
    pub side: Option<String>,
    /// The corner of the border.
    pub corner: Option<String>,
    /// The first of its places.
    pub at: Option<[f64; 2]>,
    /// All its places on the quilt, the worst first.
    #[serde(default)]
    pub places: Vec<[f64; 2]>,
    /// Its numbers, by keys that go with the code: lengths in the result's unit, stretches as
    /// factors, angles in degrees.
    #[serde(default)]
    pub data: Map<String, Value>,
}

impl Finding {
    pub(super) fn of(finding: &plan::Finding, solved: &Solved) -> Self {
        let unit = solved.unit;
        let places = finding.places.iter();
        let border = finding.border.and_then(|border| solved.layouts.get(border));
        let piece = finding.piece.and_then(|piece| name(solved, piece));
        Self {
            severity: finding.severity.name().to_owned(),
            code: finding.code().to_owned(),
            message: words::finding(finding, solved),
            piece: piece.map(str::to_owned),
            border: border.map(|layout| layout.name.clone()),
            side: finding.side.map(|side| side.name().to_owned()),
            corner: finding.corner.map(|corner| corner.name().to_owned()),
            at: finding.place().map(|place| point_in_unit(place, unit)),
            places: places.map(|&place| point_in_unit(place, unit)).collect(),
            data: data(&finding.kind, solved),
        }
    }
}

fn name(solved: &Solved, piece: usize) -> Option<&str> {
    let piece = solved.pieces.get(piece)?;
    Some(piece.name.as_str())
}

/// The numbers of a finding: lengths in the plan's unit, stretches as factors, angles in degrees.
fn data(kind: &FindingKind, solved: &Solved) -> Map<String, Value> {
    let unit = solved.unit;
    let long = |mm: f64| in_unit(mm, unit);
    let data = match kind {
        FindingKind::DrawingLinked {
            drawing,
            links,
            length,
        } => json!({ "drawing": drawing, "links": links, "length": long(*length) }),
        FindingKind::OneLine { drawing, report } => json!({
            "drawing": drawing,
            "strokes": report.strokes,
            "drawn": long(report.drawn),
            "retraced": long(report.retraced),
            "links": report.links,
            "linked": long(report.linked),
            "cuts": report.cuts,
            "cut_price": long(report.cut_price),
            "least": long(report.least),
            "crossings": report.crossings,
            "straight": report.straight,
            "overlaid": long(report.overlaid),
            "dropped": long(report.dropped),
            "ends_within": report.ends_within,
        }),
        FindingKind::Backwards { drawing } => json!({ "drawing": drawing }),
        FindingKind::MeasuresDisagree { by, odd } => json!({
            "by": long(*by),
            "odd": odd.map(|odd| {
                json!({ "what": odd.what, "given": long(odd.given), "implied": long(odd.implied) })
            }),
        }),
        FindingKind::NoDiagonal {
            diagonals: [falling, rising],
            change,
            moves,
        } => json!({
            "diagonals": [long(*falling), long(*rising)],
            "change": long(*change),
            "moves": moves.is_finite().then(|| long(*moves)),
        }),
        FindingKind::DepthShared { depth, worst } => {
            json!({ "depth": long(*depth), "worst": worst })
        }
        FindingKind::BestWay { way, costs } | FindingKind::BetterWay { way, costs } => {
            let cost = |cost: &WayCost| {
                json!({
                    "links": cost.links,
                    "levelled": long(cost.levelled),
                    "kink_degrees": cost.kink_degrees,
                    "stretch": 1.0 + cost.stretch,
                })
            };
            json!({
                "way": {
                    "side": way.side.name(),
                    "corner": way.corner.name(),
                    "arrangement": way.arrangement,
                    "alternate": way.alternate,
                },
                "costs": costs.each_ref().map(cost),
            })
        }
        FindingKind::DepthChosen {
            depth,
            given_up,
            worst,
            worst_at_full,
        } => json!({
            "depth": long(*depth),
            "given_up": long(*given_up),
            "worst": worst,
            "worst_at_full": worst_at_full,
        }),
        FindingKind::Stretch {
            repeats,
            stretch,
            limit,
            instead,
        } => json!({
            "repeats": repeats,
            "stretch": stretch,
            "limit": limit,
            "instead": instead.map(|(repeats, stretch)| {
                json!({ "repeats": repeats, "stretch": stretch })
            }),
        }),
        FindingKind::WaysOut { limit, ways } => {
            let ways: Vec<Value> = ways.iter().map(|each| way(each, unit)).collect();
            json!({ "limit": limit, "ways": ways })
        }
        FindingKind::LegUnclear { drawing, doubt } => {
            json!({ "drawing": drawing, "doubt": words::leg_doubt(doubt) })
        }
        FindingKind::CornerUneven {
            drawing,
            unevenness,
        } => json!({ "drawing": drawing, "unevenness": unevenness }),
        FindingKind::Trimmed {
            drawing,
            links,
            added,
            share,
        } => json!({ "drawing": drawing, "links": links, "added": long(*added), "share": share }),
        FindingKind::CornerSlanted {
            degrees,
            depths,
            longer,
        } => json!({ "degrees": degrees, "depths": depths.map(long), "longer": longer }),
        FindingKind::CornersAlike { corners, alike } => json!({
            "corners": corners,
            "alike": alike.map(|corner| corner.name()),
        }),
        FindingKind::MitreKink { degrees }
        | FindingKind::RepeatKink { degrees }
        | FindingKind::MirrorKink { degrees } => {
            json!({ "degrees": degrees })
        }
        FindingKind::MitreNotSmoothed { asked, smoothed } => {
            json!({ "asked": long(*asked), "smoothed": long(*smoothed) })
        }
        FindingKind::MitreLoops {
            crossings,
            linked,
            length,
        } => json!({ "crossings": crossings, "linked": linked, "length": long(*length) }),
        FindingKind::CornersClose { past } => json!({ "past": long(*past) }),
        FindingKind::StationsInCorner { stations } => json!({ "stations": stations }),
        FindingKind::Levelled { by } | FindingKind::OffTheQuilt { by } => {
            json!({ "by": long(*by) })
        }
        FindingKind::OutsideBand { by } => json!({ "by": long(*by) }),
        FindingKind::OutsidePlace { by, over_seam } => {
            json!({ "by": long(*by), "over_seam": over_seam })
        }
        FindingKind::BlocksKept { pieces, length } => {
            json!({ "pieces": pieces, "length": long(*length) })
        }
        FindingKind::TrianglesCut { added } => json!({ "added": long(*added) }),
        FindingKind::RepeatsLinked { links } => json!({ "links": links }),
        FindingKind::EaseLimited { report } => json!({
            "loops": report.loops,
            "absorbing": report.absorbing,
            "unabsorbed": report.unabsorbed,
            "takes": report.takes,
        }),
        FindingKind::Linked { length } | FindingKind::StitchedTwice { length } => {
            json!({ "length": long(*length) })
        }
        FindingKind::Kept {
            corners,
            sides,
            length,
        } => json!({ "corners": corners, "sides": sides, "length": long(*length) }),
        FindingKind::NumberKept { repeats, asked } => {
            json!({ "repeats": repeats, "asked": asked })
        }
        FindingKind::RestStretched {
            repeats,
            stretch,
            limit,
        } => json!({ "repeats": repeats, "stretch": stretch, "limit": limit }),
        FindingKind::CornerDrawnOut { by } => json!({ "by": long(*by) }),
        FindingKind::StitchedApart { gap } => json!({ "gap": long(*gap) }),
        FindingKind::OverSeam { by, outer } => json!({ "by": long(*by), "outer": outer }),
        FindingKind::UnderBinding { by, covered } => {
            json!({ "by": long(*by), "covered": long(*covered) })
        }
        FindingKind::LinesClose {
            nearest,
            length,
            closest,
            over,
            other,
        } => json!({
            "nearest": long(*nearest),
            "length": long(*length),
            "closest": long(*closest),
            "over": long(*over),
            "other": other.and_then(|other| name(solved, other)),
        }),
        FindingKind::Dense {
            length,
            square,
            densest,
        } => json!({
            "length": long(*length),
            "square": long(*square),
            "densest": long(*densest),
        }),
        FindingKind::SmallLoop { length, least } => {
            json!({ "length": long(*length), "least": long(*least) })
        }
        FindingKind::Crowded { spots } => json!({ "spots": spots }),
        FindingKind::Unlisted { code, places } => json!({ "code": code, "places": places }),
        FindingKind::ShortStitches { count, sharp, by } => {
            json!({ "count": count, "sharp": sharp, "by": long(*by) })
        }
        FindingKind::JoinOpen {
            next,
            gap,
            tolerance,
        } => json!({
            "next": name(solved, *next),
            "gap": long(*gap),
            "tolerance": long(*tolerance),
        }),
        FindingKind::JoinKink {
            next,
            degrees,
            limit,
        } => json!({ "next": name(solved, *next), "degrees": degrees, "limit": limit }),
        FindingKind::TooDeep { throat, repeats } => {
            json!({ "throat": long(*throat), "repeats": repeats })
        }
        FindingKind::FewerCuts {
            passes,
            cuts,
            more,
            cuts_then,
        } => json!({ "passes": passes, "cuts": cuts, "more": more, "cuts_then": cuts_then }),
    };
    match data {
        Value::Object(data) => data,
        _ => Map::new(),
    }
}

/// One way out of too much stretch; sides by their numbers from 0.
fn way(way: &Alternative, unit: Unit) -> Value {
    let long = |mm: f64| in_unit(mm, unit);
    let fit = |name: &str, fit: &GroupFit| {
        let repeats: Vec<usize> = fit.sides.iter().map(|choice| choice.repeats).collect();
        json!({ "way": name, "depth": long(fit.depth), "repeats": repeats, "worst": fit.worst })
    };
    let choice = |at: usize, choice: &Choice| json!({ "side": at, "repeats": choice.repeats, "stretch": choice.stretch });
    match way {
        Alternative::Depth(depth) => fit("depth", depth),
        Alternative::Counts(counts) => fit("counts", counts),
        Alternative::Ease { sides } => {
            let sides = sides.iter();
            let sides: Vec<Value> = sides
                .map(|(at, stretch)| json!({ "side": at, "stretch": stretch }))
                .collect();
            json!({ "way": "ease", "sides": sides })
        }
        Alternative::LongerLeg { extra, sides, .. } => {
            let sides: Vec<Value> = sides.iter().map(|(at, of)| choice(*at, of)).collect();
            json!({ "way": "longer_leg", "extra": long(*extra), "sides": sides })
        }
        Alternative::Spacers { sides } => {
            let sides = sides.iter().map(|(at, length, of)| {
                let mut side = choice(*at, of);
                side["length"] = json!(long(*length));
                side
            });
            json!({ "way": "spacers", "sides": sides.collect::<Vec<_>>() })
        }
    }
}
