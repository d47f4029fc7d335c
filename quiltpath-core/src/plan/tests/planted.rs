//! What a plan reports, planted one by one, and the numbers of it.

use super::*;
use crate::error::{ErrorKind, PlanFault};

fn solved(plan: &PlanSpec) -> Solved {
    solve_with(plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved")
}

/// Three and four are five: sides of 60 and 80 with a diagonal of 100 are square.
#[test]
fn a_quilt_measured_by_its_sides_and_a_diagonal_is_laid_out_as_measured() {
    let plain = solved(&spec(CornerStyle::Leg));
    let mut plan = spec(CornerStyle::Leg);
    let sides = QuiltSpec::default()
        .with_top(inches(60.0))
        .with_right(inches(80.0))
        .with_bottom(inches(60.0))
        .with_left(inches(80.0));
    for quilt in [
        sides.clone().with_falling(inches(100.0)),
        sides.clone().with_rising(inches(100.0)),
        sides.with_falling(inches(100.0)).with_rising(inches(100.0)),
    ] {
        plan.quilt = quilt;
        let found = solved(&plan);
        assert_eq!(codes(&found), [] as [&str; 0]);
        let corners = [&plain, &found].map(|solved| solved.layouts[0].band.edge.corners());
        for (expected, corner) in corners[0].iter().zip(corners[1]) {
            assert!((expected - corner).norm() < 1e-6, "{corner}");
        }
    }
}

#[test]
fn stations_within_a_corner_are_reported() {
    let mut plan = spec(CornerStyle::Leg);
    // The legs are a little over 13 in long.
    let station = |at: f64| {
        StationSpec::new(SideNameSpec::Name("right".to_owned()), inches(at)).with_edge(inches(0.25))
    };
    plan.borders[0].stations = vec![station(2.0), station(40.0), station(78.0)];
    let found = solved(&plan);
    let reported: Vec<&Finding> = (found.findings.iter())
        .filter(|finding| finding.code() == "stations_in_corner")
        .collect();
    let [finding] = reported[..] else {
        panic!("{:?}", found.findings);
    };
    assert_eq!(finding.kind, FindingKind::StationsInCorner { stations: 2 });
    assert_eq!(finding.severity, Severity::Note);
    assert_eq!((finding.border, finding.side), (Some(0), Some(Side::RIGHT)));
}

fn four_sides() -> QuiltSpec {
    QuiltSpec::default()
        .with_top(inches(60.0))
        .with_right(inches(80.0))
        .with_bottom(inches(60.0))
        .with_left(inches(80.0))
}

#[test]
fn a_diagonal_far_off_is_refused_and_named() {
    let refusal = |quilt: QuiltSpec| {
        let mut plan = spec(CornerStyle::Leg);
        plan.quilt = quilt;
        refused(&plan)
    };
    // By the law of cosines a lean of 5 degrees makes the diagonal 95 3/4 or 104 1/8 in.
    let one = refusal(four_sides().with_falling(inches(110.0)));
    let expected = "the falling diagonal is 110 in long, but on a quilt near square with these four sides it is from 95 3/4 in to 104 1/8 in";
    assert!(one.contains(expected), "{one}");
    let both = four_sides().with_falling(inches(100.0));
    let both = refusal(both.with_rising(inches(90.0)));
    let expected =
        "the rising diagonal is given as 90 in, but the other sides and diagonals agree on 100 in";
    assert!(both.contains(expected), "{both}");
    let side = four_sides()
        .with_left(inches(86.0))
        .with_falling(inches(100.0));
    let side = refusal(side.with_rising(inches(100.0)));
    let expected =
        "the left side is given as 86 in, but the other sides and diagonals agree on 80 in";
    assert!(side.contains(expected), "{side}");
}

#[test]
fn four_sides_alone_are_taken_as_near_to_square_as_they_allow() {
    let plain = solved(&spec(CornerStyle::Leg));
    let mut plan = spec(CornerStyle::Leg);
    plan.quilt = four_sides();
    let found = solved(&plan);
    let corners = [&plain, &found].map(|solved| solved.layouts[0].band.edge.corners());
    for (expected, corner) in corners[0].iter().zip(corners[1]) {
        assert!((expected - corner).norm() < 1e-6, "{corner}");
    }
    assert_eq!(codes(&found), ["no_diagonal"]);
    let FindingKind::NoDiagonal {
        diagonals,
        change,
        moves,
    } = found.findings[0].kind
    else {
        panic!("{:?}", found.findings);
    };
    assert!(
        diagonals
            .iter()
            .all(|diagonal| (diagonal / INCH - 100.0).abs() < 1e-9)
    );
    // d(angle) = c dc / (a b sin angle), so the bottom corners move by b d(angle) = dc c / a.
    assert!((moves / change - 100.0 / 60.0).abs() < 0.01, "{moves}");
    let message = crate::io::words::finding(&found.findings[0], &found);
    assert!(
        message.contains("its falling diagonal as 100 in"),
        "{message}"
    );
}

/// A station of the right side at this place, its edge so far inwards.
fn station(at: f64, edge: f64) -> StationSpec {
    let side = SideNameSpec::Name("right".to_owned());
    StationSpec::new(side, inches(at)).with_edge(inches(edge))
}

/// The outer line of the corner touches its band about 3 in from the corner, 1/2 in from the
/// straight edge.
#[test]
fn a_corner_beyond_a_measured_raw_edge_is_told_with_the_distance() {
    for (edge, code) in [(1.0, "off_the_quilt"), (0.35, "under_binding"), (0.1, "")] {
        let mut plan = spec(CornerStyle::Leg);
        let beside = [1.5, 3.0, 6.0, 11.0, 13.0].map(|at| station(at, edge));
        plan.borders[0].stations = beside.into_iter().chain([station(40.0, 0.0)]).collect();
        let found = solved(&plan);
        let corners = found
            .findings
            .iter()
            .filter(|finding| finding.corner.is_some());
        let codes: Vec<&str> = corners.clone().map(|finding| finding.code()).collect();
        assert_eq!(
            codes.first().copied().unwrap_or_default(),
            code,
            "{:?}",
            found.findings
        );
        for finding in corners {
            assert_eq!(finding.severity, Severity::Error);
            let by = match finding.kind {
                FindingKind::OffTheQuilt { by } => by / INCH - (edge - 0.5),
                FindingKind::UnderBinding { by, .. } => by / INCH - (edge - 0.25),
                _ => f64::NAN,
            };
            assert!(by.abs() < 0.1, "{:?}", finding.kind);
        }
    }
}

#[test]
fn a_station_where_a_corner_ends_is_taken() {
    // The L ends 13.125 in from the band's outer corner, which is 1/2 in inside the edge's.
    let mut plan = spec(CornerStyle::Leg);
    for off in [-0.01, 0.0, 0.01] {
        plan.borders[0].stations = vec![station(13.625 + off, 0.0), station(40.0, 0.5)];
        let found = solved(&plan);
        assert!(
            !codes(&found).contains(&"stations_in_corner"),
            "{:?}",
            found.findings
        );
        // A width of its own there, where the corner ends as if the border were straight.
        plan.borders[0].stations[0] = station(13.625 + off, 0.5);
        assert!(codes(&solved(&plan)).contains(&"stations_in_corner"));
    }
    // Where the corner square ends, the seam has its own corner.
    plan.borders[0].stations = vec![station(6.0, 0.0), station(40.0, 0.5)];
    assert!(!codes(&solved(&plan)).contains(&"outside_band"));
    // An open side ends at 6 1/4 in, and the station is its width there.
    let mut plan = spec(CornerStyle::Open);
    plan.borders[0].stations = vec![station(6.25, 0.5)];
    let found = solved(&plan);
    let outer = &found.layouts[0].lines.outer;
    let there = |point: &&Point| (point.y / INCH - 6.25).abs() < 0.05 && point.x > 30.0 * INCH;
    let point = outer.iter().find(there).expect("the line passes");
    assert!((point.x / INCH - 59.0).abs() < 1e-6, "{point}");
}

#[test]
fn waves_of_both_sides_near_a_corner_are_cut_where_they_cross() {
    for style in [CornerStyle::Mitred, CornerStyle::Open, CornerStyle::Butted] {
        let mut plan = spec(style);
        let bulge = |side: &str, at: f64, seam: f64| {
            StationSpec::new(SideNameSpec::Name(side.to_owned()), inches(at))
                .with_seam(inches(seam))
        };
        plan.borders[0].stations = vec![
            bulge("top", 48.0, 8.0),
            bulge("top", 52.0, 8.5),
            bulge("right", 8.0, 8.5),
            bulge("right", 12.0, 8.0),
        ];
        let found = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5));
        let found = found.expect("neighbours are cut");
        let seam = &found.layouts[0].lines.seam;
        assert!(
            crate::geom::region::Region::new(seam.clone()).is_ok(),
            "{style:?}"
        );
    }
}

#[test]
fn a_mitre_without_room_for_its_smoothing_says_so() {
    let mut plan = spec(CornerStyle::Mitred);
    for (smooth, told) in [(0.01, false), (50.0, true)] {
        plan.borders[0].corner.smooth = Some(inches(smooth));
        let found = solved(&plan);
        let kind = found
            .findings
            .iter()
            .find_map(|finding| match finding.kind {
                FindingKind::MitreNotSmoothed { asked, smoothed } => Some((asked, smoothed)),
                _ => None,
            });
        assert_eq!(kind.is_some(), told, "{smooth}: {:?}", found.findings);
        if let Some((asked, smoothed)) = kind {
            assert!((asked / INCH - smooth).abs() < 1e-9 && smoothed < asked);
        }
    }
}

/// The slopes of the wave pass through 45 degrees, those of the hill do not come near.
#[test]
fn a_sharp_turn_at_a_mitre_is_reported_and_a_smooth_one_is_not() {
    let plan = spec(CornerStyle::Mitred);
    let hill = motif(&[(0.0, 1.0), (4.0, 0.0), (8.0, 2.0), (12.0, 1.0)]);
    for (repeat, sharp) in [(wave(0.5), false), (hill, true)] {
        let found = solve_with(&plan, &corner(0.5, 0.5), &repeat).expect("solved");
        let kinks = found.pieces.iter().filter_map(|piece| match &piece.kind {
            PieceKind::Corner(CornerDetail {
                made: CornerMade::Mitred { kink_degrees, .. },
                ..
            }) => Some(*kink_degrees),
            _ => None,
        });
        let kinks: Vec<f64> = kinks.collect();
        assert_eq!(kinks.len(), 4);
        assert!(
            kinks.iter().all(|&kink| (kink > 10.0) == sharp),
            "{kinks:?}"
        );
        let reported: Vec<f64> = (found.findings.iter())
            .filter_map(|finding| match finding.kind {
                FindingKind::MitreKink { degrees } => Some(degrees),
                _ => None,
            })
            .collect();
        // The four corners are alike, so they are reported together.
        assert_eq!(reported, kinks[..usize::from(sharp)]);
    }
}

#[test]
fn one_depth_for_borders_that_are_not_alike_names_what_is_missing() {
    let mut plan = spec(CornerStyle::Leg);
    plan.max_stretch_percent = Some(50.0);
    let mut inner = border(CornerStyle::Leg, true);
    inner.width = inches(4.0).into();
    inner.name = Some("inner".to_owned());
    plan.borders.push(inner);
    plan.shared_depth = true;
    let shared = |plan: &PlanSpec| solve_with(plan, &corner(0.5, 0.5), &wave(0.5));
    let error = shared(&plan).expect_err("5 1/4 in and 3 1/2 in");
    let ErrorKind::Plan(PlanFault::NoSharedDepth { depths, missing }) = error.kind() else {
        panic!("{error}");
    };
    assert!(
        (depths[0] - depths[1] - missing).abs() < 1e-9,
        "{depths:?} {missing}"
    );
    assert!(
        error.to_string().contains("give 1 3/4 in more slack"),
        "{error}"
    );
    plan.borders[0].slack = Some(inches(1.25));
    let error = shared(&plan).expect_err("still too deep");
    assert!(
        error.to_string().contains("give 1/2 in more slack"),
        "{error}"
    );
    plan.borders[0].slack = Some(inches(1.75));
    assert!(shared(&plan).is_ok());
}

/// In one pass and in several, each repeat is in one run, in the order of the side.
#[test]
fn the_repeats_of_a_side_are_counted_from_one_in_its_runs() {
    let mut plan = spec(CornerStyle::Leg);
    let found = solved(&plan);
    for throat in [None, Some(30.0)] {
        plan.machine = throat.map(|throat| MachineSpec::default().with_throat(inches(throat)));
        let stitching = stitch_plan(&plan, &found).expect("stitched");
        for (number, piece) in found.pieces.iter().enumerate() {
            let PieceKind::Side(detail) = &piece.kind else {
                continue;
            };
            let count = detail.fit.chosen.repeats;
            let mut covered: Vec<[usize; 2]> = (stitching.runs.iter())
                .flat_map(|run| &run.parts)
                .filter(|part| part.piece == number)
                .map(|part| part.repeats.expect("whole repeats"))
                .collect();
            covered.sort_unstable();
            assert_eq!((covered[0][0], covered[covered.len() - 1][1]), (1, count));
            assert!(
                covered.windows(2).all(|pair| pair[1][0] == pair[0][1] + 1),
                "{covered:?}"
            );
        }
        let cut_up = stitching.runs.iter().flat_map(|run| &run.parts).count() > 8;
        assert_eq!(cut_up, throat.is_some());
    }
}

/// A regular outline of so many sides, 40 in long.
fn regular(sides: usize) -> PlanSpec {
    let step = std::f64::consts::TAU / sides as f64;
    let radius = 20.0 / (step / 2.0).sin();
    // To a hundredth of an inch, as corners are measured.
    let rounded = |value: f64| inches((value * 100.0).round() / 100.0);
    let corners = (0..sides).map(|corner| {
        let (sin, cos) = (step * corner as f64).sin_cos();
        [rounded(200.0 + radius * cos), rounded(200.0 + radius * sin)]
    });
    let mut plan = spec(CornerStyle::Leg);
    plan.quilt = QuiltSpec::default().with_corners(corners.collect());
    plan.borders[0].width = BySide::One(inches(3.0));
    plan
}

#[test]
fn a_measured_outline_of_twelve_equal_sides_is_planned() {
    let found = solved(&regular(12));
    let flattest = (0..12).map(|corner| found.layouts[0].band.edge.angle_degrees(corner));
    assert!(flattest.fold(0.0, f64::max) > 150.0 + 1e-6);
}

#[test]
fn mirrored_corners_that_cannot_alternate_all_round_are_reported() {
    let odd = solved(&regular(5));
    let mut alike = odd
        .findings
        .iter()
        .filter_map(|finding| match &finding.kind {
            FindingKind::CornersAlike { corners, alike } => {
                Some((*corners, alike.map(|at| at.index())))
            }
            _ => None,
        });
    assert_eq!(alike.next(), Some((5, [4, 0])));
    assert_eq!(alike.next(), None);
    assert!(!codes(&solved(&regular(6))).contains(&"corners_alike"));
    let mut turned = regular(5);
    turned.borders[0].corner.arrangement = Some(Arrangement::Turned);
    assert!(!codes(&solved(&turned)).contains(&"corners_alike"));
}

/// A V turns at its lowest point and, as sharply, where the next one starts.
#[test]
fn a_turn_at_every_repeat_is_a_note_and_beyond_60_degrees_a_warning() {
    let plan = spec(CornerStyle::Open);
    for (length, severity) in [(8.0, Severity::Note), (4.0, Severity::Warning)] {
        let repeat = motif(&[(0.0, 0.0), (length / 2.0, 2.0), (length, 0.0)]);
        let found = solve_with(&plan, &corner(0.5, 0.5), &repeat).expect("solved");
        let (piece, detail) = side_of(&found, Side::TOP);
        let rise = piece.depth / (detail.pitch / 2.0);
        let turn = 2.0 * rise.atan().to_degrees();
        let kink = found
            .findings
            .iter()
            .find(|finding| finding.code() == "repeat_kink" && finding.side == Some(Side::TOP));
        let kink = kink.expect("a turn");
        assert_eq!(kink.severity, severity);
        let FindingKind::RepeatKink { degrees } = kink.kind else {
            panic!("{kink:?}");
        };
        assert!((degrees - turn).abs() < 1e-6, "{degrees} {turn}");
        assert_eq!(detail.kink_degrees, degrees);
    }
}
