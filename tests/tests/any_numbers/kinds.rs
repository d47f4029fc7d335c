//! Findings with any number in them.

use quiltpath_core::plan::spec::{BorderSpec, CornerSpec, SideSpec};
use quiltpath_core::plan::{FindingKind, Way, WayCost};

fn way() -> Way {
    Way::of(&BorderSpec::new(
        6.0,
        CornerSpec::default(),
        SideSpec::new("wave"),
    ))
}

fn cost(x: f64) -> WayCost {
    let mut cost = WayCost::default();
    (cost.levelled, cost.kink_degrees, cost.stretch) = (x, x, x);
    cost
}

pub(crate) fn counted_kinds(n: usize) -> Vec<FindingKind> {
    vec![
        FindingKind::DrawingLinked {
            drawing: String::new(),
            links: n,
            length: 1.0,
        },
        FindingKind::Stretch {
            repeats: n,
            stretch: 1.2,
            limit: 0.1,
            instead: Some((n, 0.9)),
        },
        FindingKind::Trimmed {
            drawing: String::new(),
            links: n,
            added: 1.0,
            share: 0.1,
        },
        FindingKind::MitreLoops {
            crossings: n,
            linked: true,
            length: 1.0,
        },
        FindingKind::StationsInCorner { stations: n },
        FindingKind::RepeatsLinked { links: n },
        FindingKind::Kept {
            corners: n,
            sides: n,
            length: 1.0,
        },
        FindingKind::NumberKept {
            repeats: n,
            asked: n,
        },
        FindingKind::RestStretched {
            repeats: n,
            stretch: 1.2,
            limit: 0.1,
        },
        FindingKind::LinesClose {
            nearest: 1.0,
            length: 1.0,
            closest: 1.0,
            over: 1.0,
            other: Some(n),
        },
        FindingKind::Crowded { spots: n },
        FindingKind::Unlisted {
            code: "lines_close",
            places: n,
        },
        FindingKind::ShortStitches {
            count: n,
            sharp: true,
            by: 1.0,
        },
        FindingKind::JoinOpen {
            next: n,
            gap: 1.0,
            tolerance: 1.0,
        },
        FindingKind::JoinKink {
            next: n,
            degrees: 1.0,
            limit: 1.0,
        },
        FindingKind::TooDeep {
            throat: 1.0,
            repeats: Some(n),
        },
        FindingKind::FewerCuts {
            passes: n,
            cuts: 0,
            more: n,
            cuts_then: n,
        },
        FindingKind::WaysOut {
            limit: 0.1,
            ways: Vec::new(),
        },
    ]
}

pub(crate) fn measured_kinds(x: f64) -> Vec<FindingKind> {
    vec![
        FindingKind::MeasuresDisagree { by: x, odd: None },
        FindingKind::DepthShared { depth: x, worst: x },
        FindingKind::BestWay {
            way: way(),
            costs: [cost(x); 2],
        },
        FindingKind::BetterWay {
            way: way(),
            costs: [cost(x); 2],
        },
        FindingKind::DepthChosen {
            depth: x,
            given_up: x,
            worst: x,
            worst_at_full: x,
        },
        FindingKind::Stretch {
            repeats: 1,
            stretch: x,
            limit: x,
            instead: Some((2, x)),
        },
        FindingKind::CornerUneven {
            drawing: String::new(),
            unevenness: x,
        },
        FindingKind::Trimmed {
            drawing: String::new(),
            links: 1,
            added: x,
            share: x,
        },
        FindingKind::CornerSlanted {
            degrees: x,
            depths: [x; 2],
            longer: x,
        },
        FindingKind::MitreKink { degrees: x },
        FindingKind::CornersClose { past: x },
        FindingKind::Levelled { by: x },
        FindingKind::OffTheQuilt { by: x },
        FindingKind::UnderBinding { by: x, covered: x },
        FindingKind::LinesClose {
            nearest: x,
            length: x,
            closest: x,
            over: x,
            other: None,
        },
        FindingKind::Dense {
            length: x,
            square: x,
            densest: x,
        },
        FindingKind::SmallLoop {
            length: x,
            least: x,
        },
        FindingKind::ShortStitches {
            count: 2,
            sharp: false,
            by: x,
        },
        FindingKind::TooDeep {
            throat: x,
            repeats: None,
        },
    ]
}
