//! Drawings of several strokes in plans: one line of each, what is reported of it, what the picture
//! shows.

use kurbo::BezPath;
use quiltpath_core::Error;
use quiltpath_core::geom::{BoxCorner, Point};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::picture::write_picture;
use quiltpath_core::leg::{LegGiven, choose_leg, rough_legs};
use quiltpath_core::plan::{FindingKind, MotifRequest, PieceKind, Severity, Solved, solve};
use quiltpath_core::strokes::{Drawing, Gaps, LineEnds, OneLineOptions, Stroke};
use quiltpath_core::transform::Transform;

/// A wave with a leaf that touches it, a stem that branches off and a ring that lies apart.
const VINE: [&str; 4] = [
    "M0 15 C 15 -8 30 -8 50 15 S 90 38 110 15 S 145 -8 160 15",
    "M50 15 C 55 5 65 2 75 3 C 72 12 62 16 50 15",
    "M80 26.3 V 12",
    "M20 24 H 30 V 29 H 20 Z",
];

/// An L of two arms that meet, with a leaf on either and a square beside the elbow.
const CORNER: [&str; 5] = [
    "M110 15 C 95 -8 80 5 72 15 C 62 28 40 34 20 20",
    "M20 20 C 34 40 28 62 15 72 C 5 80 -8 95 15 110",
    "M50 27 C 48 12 55 3 66 2 C 68 12 60 22 50 27",
    "M27 50 C 12 48 3 55 2 66 C 12 68 22 60 27 50",
    "M2 2 H 14 V 14 H 2 Z",
];

fn drawing(name: &str, strokes: &[&str]) -> Drawing {
    let strokes = strokes.iter().enumerate().map(|(at, data)| {
        let path = BezPath::from_svg(data).expect("path data");
        Stroke::new(format!("s{at}"), path)
    });
    Drawing::new(name, strokes.collect())
}

fn solved(more: &str) -> Result<Solved, Error> {
    let plan = format!(
        r#"{{"unit": "in", "quilt": {{"width": 64, "height": 80}}, "borders": [{{"width": 6,
            "corner": {{"style": "leg", "motif": "corner"{more}}},
            "side": {{"motif": "vine"{more}}}}}]}}"#
    );
    let plan = read_plan(plan.as_bytes()).expect("a plan");
    solve(&plan, |request: &MotifRequest| {
        Ok(match request.name.as_str() {
            "corner" => drawing("corner", &CORNER),
            _ => drawing("vine", &VINE),
        })
    })
}

#[test]
fn a_plan_takes_drawings_of_several_strokes_and_says_what_that_adds() {
    let solved = solved("").expect("a plan that is solved");
    let found: Vec<_> = solved
        .findings
        .iter()
        .filter_map(|finding| match &finding.kind {
            FindingKind::OneLine { drawing, report } => Some((finding, drawing, report)),
            _ => None,
        })
        .collect();
    assert_eq!(found.len(), 2, "{:?}", solved.findings);
    for (finding, drawing, report) in found {
        assert_eq!(finding.severity, Severity::Note);
        assert_eq!(report.strokes, if drawing == "corner" { 5 } else { 4 });
        assert!(report.is_least() && report.links > 0, "{report:?}");
        assert_eq!(report.ends_within, 0, "{drawing}");
    }
    // The stem of the vine, and nothing else, is stitched twice.
    let side = solved
        .pieces
        .iter()
        .find(|piece| matches!(piece.kind, PieceKind::Side(_)));
    let side = &side.expect("a side").lines()[0].motif;
    assert!(!side.links().is_empty());
    for piece in &solved.pieces {
        assert!(!piece.name.contains("link"), "{}", piece.name);
    }
    let svg = write_picture(&solved, None).expect("a picture");
    for words in [
        "class=\"again\"",
        ">stitched twice<",
        "class=\"line link\"",
        ">link<",
    ] {
        assert!(svg.contains(words), "{words}");
    }
}

#[test]
fn strokes_as_they_are_drawn_are_refused() {
    let error = solved(r#", "strokes": "as_drawn""#).expect_err("several lines");
    assert!(error.is_motif(), "{error}");
    let text = error.to_string();
    assert!(text.contains("the drawing is 4 separate lines"), "{text}");
    // Linked in the order of drawing they are taken, without what is stitched twice.
    let solved = solved(r#", "strokes": "as_drawn", "link_gaps": true"#).expect("linked");
    let mut linked = solved.findings.iter().map(|finding| &finding.kind);
    assert!(linked.any(|kind| matches!(kind, FindingKind::DrawingLinked { .. })));
}

/// The corner drawing of one line for another elbow and a turn of the paper.
#[test]
fn a_corner_runs_from_open_end_to_open_end_whichever_way_it_lies() {
    for quarter in 0..4 {
        let map = Transform::rotate_degrees(90.0 * f64::from(quarter));
        let strokes = CORNER.map(|data| {
            let path = kurbo::Affine::from(map) * BezPath::from_svg(data).expect("path data");
            path.to_svg()
        });
        let strokes: Vec<&str> = strokes.iter().map(String::as_str).collect();
        let turned = drawing("corner", &strokes);
        let legs = rough_legs(&turned, &LegGiven::default()).expect("an L");
        let elbow = BoxCorner::ALL[quarter as usize];
        assert_eq!(legs.elbow, elbow);
        let line = turned.one_line(&OneLineOptions::default().with_ends(LineEnds::Legs(legs)));
        let line = line.expect("one line").motif;
        let ends = [Point::new(110.0, 15.0), Point::new(15.0, 110.0)].map(|end| map.apply(end));
        for at in [line.start().point, line.end().point] {
            let nearest = ends
                .iter()
                .map(|end| (end - at).norm())
                .fold(f64::INFINITY, f64::min);
            assert!(nearest < 1e-6, "{at} with the elbow {elbow}");
        }
        assert_eq!(
            choose_leg(&line, &LegGiven::default()).expect("an L").elbow,
            elbow
        );
    }
}

#[test]
fn a_ring_is_a_repeat_that_goes_over_half_of_itself() {
    let plan = read_plan(
        br#"{"unit": "mm", "quilt": {"width": 900, "height": 900}, "borders": [
            {"width": 100, "corner": {"style": "open"}, "side": {"motif": "ring"}}]}"#,
    )
    .expect("a plan");
    let ring = drawing("ring", &["M0 10 L20 0 L40 10 L20 20 Z"]);
    let solved = solve(&plan, |_| Ok(ring.clone())).expect("solved");
    let share = solved
        .findings
        .iter()
        .find_map(|finding| match &finding.kind {
            FindingKind::OneLine { report, .. } => Some(report.retraced_share()),
            _ => None,
        });
    assert!((share.expect("a finding") - 0.5).abs() < 1e-9);
    let refuse = OneLineOptions::default().with_gaps(Gaps::Refuse);
    assert!(
        ring.one_line(&refuse).is_ok(),
        "a closed line is one as it is drawn"
    );
    let error = drawing("dust", &["M0 0 h 1e-9", "M9 0 h 1e-9"]);
    let error = error
        .one_line(&OneLineOptions::default())
        .expect_err("dust");
    assert!(error.is_motif(), "{error}");
    assert!(
        error
            .to_string()
            .contains("no stroke is clearly longer than"),
        "{error}"
    );
}

/// Three rings, two near each other and one far off, as a block in every corner.
#[test]
fn the_lines_of_a_block_are_pieces_with_thread_cuts_between_them() {
    const RINGS: [&str; 3] = [
        "M0 0 H10 V10 H0 Z",
        "M11 0 H21 V10 H11 Z",
        "M60 60 H70 V70 H60 Z",
    ];
    let block = |more: &str| {
        let plan = format!(
            r#"{{"unit": "in", "quilt": {{"width": 64, "height": 80}}, "borders": [{{"width": 6,
                "corner": {{"style": "block", "motif": "rings"{more}}},
                "side": {{"motif": "wave"}}}}]}}"#
        );
        let plan = read_plan(plan.as_bytes()).expect("a plan");
        solve(&plan, |request: &MotifRequest| {
            Ok(match request.name.as_str() {
                "rings" => drawing("rings", &RINGS),
                _ => drawing("wave", &["M0 5 L5 0 L15 10 L20 5"]),
            })
        })
    };
    let corners = |solved: &Solved| {
        let pieces = solved.pieces.iter();
        let corners = pieces.filter(|piece| matches!(piece.kind, PieceKind::Corner(_)));
        corners.map(|piece| piece.name.clone()).collect::<Vec<_>>()
    };
    let apart = block(r#", "strokes": "apart""#).expect("apart");
    assert_eq!(corners(&apart).len(), 12);
    assert_eq!(
        corners(&apart)[..3],
        [
            "border-corner-top-left",
            "border-corner-top-left-2",
            "border-corner-top-left-3",
        ]
    );
    // Four sides that stand by themselves, and twelve rings.
    assert_eq!(apart.thread_cuts(), 16);
    // 5 1/4 in for 70 units: the far ring is 4 1/16 in off, the near one 1/16 in.
    let by_default = block("").expect("cut");
    assert_eq!(corners(&by_default).len(), 8);
    let cuts = by_default
        .findings
        .iter()
        .find_map(|finding| match &finding.kind {
            FindingKind::OneLine { report, .. } => Some(report.cuts),
            _ => None,
        });
    assert_eq!((cuts, by_default.thread_cuts()), (Some(1), 12));
    let linked = block(r#", "cut": "9 in""#).expect("linked");
    assert_eq!((corners(&linked).len(), linked.thread_cuts()), (4, 8));
    // What the sides join on to can't be apart.
    for (corner, side) in [("leg", ""), ("open", r#", "strokes": "apart""#)] {
        let strokes = if corner == "leg" {
            r#", "motif": "l", "strokes": "apart""#
        } else {
            ""
        };
        let plan = format!(
            r#"{{"unit": "in", "quilt": {{"width": 64, "height": 80}}, "borders": [{{"width": 6,
                "corner": {{"style": "{corner}"{strokes}}}, "side": {{"motif": "wave"{side}}}}}]}}"#
        );
        let plan = read_plan(plan.as_bytes()).expect("a plan");
        let error = solve(&plan, |_| Ok(drawing("wave", &["M0 5 L5 0 L15 10 L20 5"])));
        let error = error.expect_err("apart").to_string();
        assert!(
            error.contains("only corner blocks can have them"),
            "{error}"
        );
        assert!(error.contains("strokes: "), "{error}");
    }
}
