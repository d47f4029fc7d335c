//! Plans of quilts that are not square: from what was measured to a closed ring in its band.

use proptest::prelude::*;
use quiltpath_core::Error;
use quiltpath_core::geom::quad::measure_quad;
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::motif::{Joined, Motif};
use quiltpath_core::plan::{MotifRequest, PieceKind, Severity, Side, Solved, solve};

const INCH: f64 = 25.4;
/// 1e-6 in, in millimetres.
const JOIN: f64 = 2.54e-5;

fn motif(points: &[(f64, f64)]) -> Motif {
    let points = points.iter().map(|&(x, y)| Point::new(x, y) * INCH);
    Motif::from_points("m", points.collect()).expect("a motif")
}

/// An L, 2 in deep, a repeat and a block of our own.
fn load(request: &MotifRequest) -> Result<Joined, Error> {
    let motif = match request.name.as_str() {
        "corner" => motif(&[
            (1.2, 5.0),
            (0.0, 4.0),
            (2.0, 3.0),
            (0.4, 1.5),
            (0.0, 0.4),
            (0.5, 0.0),
            (2.5, 0.3),
            (3.0, 2.0),
            (4.0, 0.0),
            (5.0, 1.2),
        ]),
        "block" => motif(&[(0.0, 2.0), (1.0, 0.0), (3.0, 1.0), (2.0, 3.0), (0.0, 2.0)]),
        _ => motif(&[(0.0, 1.2), (0.4, 2.0), (0.9, 0.9), (1.3, 0.0), (1.8, 1.2)]),
    };
    Ok(Joined {
        motif,
        links: Vec::new(),
        reversed: 0,
    })
}

fn plan(quilt: &str, border: &str) -> Result<Solved, Error> {
    let text = format!(r#"{{"unit":"in","quilt":{quilt},"borders":[{{{border}}}]}}"#);
    solve(&read_plan(text.as_bytes())?, load)
}

fn solved(quilt: &str, border: &str) -> Solved {
    plan(quilt, border).unwrap_or_else(|e| panic!("{quilt} {border}: {e}"))
}

fn refused(quilt: &str, border: &str) -> String {
    plan(quilt, border).expect_err(quilt).to_string()
}

const LEG: &str = r#""width":5,"corner":{"style":"leg","motif":"corner"},"side":{"motif":"side"}"#;
const TURNED: &str = r#""width":5,"corner":{"style":"leg","motif":"corner","arrangement":"turned"},"side":{"motif":"side"}"#;
const MITRED: &str = r#""width":5,"corner":{"style":"mitred"},"side":{"motif":"side"}"#;
const BENT: &str = r#""width":5,"corner":{"style":"bent"},"side":{"motif":"side"}"#;
const BLOCK: &str = r#""width":5,"corner":{"style":"block","motif":"block","on_point":true},"side":{"motif":"side"}"#;
const OPEN: &str = r#""width":5,"corner":{"style":"open"},"side":{"motif":"side"}"#;
const BUTTED: &str = r#""width":5,"corner":{"style":"butted"},"side":{"motif":"side"}"#;
const STYLES: [&str; 7] = [LEG, TURNED, MITRED, BENT, BLOCK, OPEN, BUTTED];

/// Every ring closed, every point in its band.
fn check(solved: &Solved) {
    for join in &solved.joins {
        assert!(join.gap <= JOIN, "{join:?}");
    }
    let outside = solved.findings.iter().find(|f| f.code == "outside_band");
    assert!(outside.is_none(), "{outside:?}");
    assert!(solved.worst() < Some(Severity::Error));
}

fn side(solved: &Solved, side: Side) -> (&Motif, usize, f64) {
    let found = solved.pieces.iter().find_map(|piece| match &piece.kind {
        PieceKind::Side(detail) if detail.side == side => {
            let chosen = detail.fit.chosen;
            Some((&piece.motif, chosen.repeats, chosen.stretch))
        }
        _ => None,
    });
    found.expect("the side")
}

/// The points of all pieces of the same names, at most 1e-9 in apart once moved back.
fn same(one: &Solved, other: &Solved, back: impl Fn(Point) -> Point) {
    assert_eq!(one.pieces.len(), other.pieces.len());
    for (a, b) in one.pieces.iter().zip(&other.pieces) {
        assert_eq!(a.name, b.name);
        assert_eq!(a.motif.points().len(), b.motif.points().len(), "{}", a.name);
        for (a, b) in a.motif.points().iter().zip(b.motif.points()) {
            let apart = (a - back(*b)).norm() / INCH;
            assert!(apart < 1e-9, "{apart}");
        }
    }
}

#[test]
fn a_square_quilt_is_the_same_however_it_is_given() {
    // 48, 55 and 73: the sides of a right-angled triangle in whole numbers.
    for border in STYLES {
        let plain = solved(r#"{"width":55,"height":48}"#, border);
        check(&plain);
        let measured = r#"{"top":55,"right":48,"bottom":55,"left":48,"falling":73,"rising":73}"#;
        same(&plain, &solved(measured, border), |point| point);
        let corners = r#"{"corners":[[0,0],[55,0],[55,48],[0,48]]}"#;
        same(&plain, &solved(corners, border), |point| point);
        // Lying askew the bands are no longer square to the axes, up to rounding.
        let (sin, cos) = 0.3_f64.sin_cos();
        let turned = |x: f64, y: f64| format!("[{:?},{:?}]", x * cos - y * sin, x * sin + y * cos);
        let corners = format!(
            r#"{{"corners":[{},{},{},{}]}}"#,
            turned(0.0, 0.0),
            turned(55.0, 0.0),
            turned(55.0, 48.0),
            turned(0.0, 48.0)
        );
        let back = |p: Point| Point::new(p.x * cos + p.y * sin, p.y * cos - p.x * sin);
        same(&plain, &solved(&corners, border), back);
    }
}

#[test]
fn rings_close_on_polygons_of_3_to_12_sides() {
    for sides in 3..=12 {
        let radius = 40.0 + 6.0 * f64::from(sides);
        let corners: Vec<String> = (0..sides)
            .map(|k| {
                let (sin, cos) =
                    (std::f64::consts::TAU * (f64::from(k) + 0.3) / f64::from(sides)).sin_cos();
                format!("[{:?},{:?}]", radius * cos, radius * sin)
            })
            .collect();
        let quilt = format!(r#"{{"corners":[{}]}}"#, corners.join(","));
        for border in STYLES {
            if border == BUTTED && sides % 2 == 1 {
                let error = refused(&quilt, border);
                assert!(error.contains("needs an even number of sides"), "{error}");
                continue;
            }
            let solved = solved(&quilt, border);
            check(&solved);
            let joined = matches!(border, LEG | TURNED | MITRED | BENT);
            let cuts = solved.thread_cuts();
            assert_eq!(cuts == 1, joined, "{border}: {cuts}");
            assert_eq!(Side::all(sides as usize).count(), sides as usize);
            let last = Side::all(sides as usize).last().expect("a side");
            assert!(side(&solved, last).1 > 0);
        }
    }
}

#[test]
fn widths_that_differ_by_side_are_kept() {
    let leg = r#""width":{"top":4,"right":5,"bottom":6,"left":7},"corner":{"style":"leg","motif":"corner"},"side":{"motif":"side"}"#;
    let quilt = r#"{"width":60,"height":70}"#;
    let solved = solved(quilt, leg);
    check(&solved);
    let depths = solved.frames[0].depths();
    for (depth, width) in depths.iter().zip([4.0, 5.0, 6.0, 7.0]) {
        assert!((depth / INCH - (width - 0.75)).abs() < 1e-9);
    }
    // The top right corner lies 3 1/4 in deep along the top and 4 1/4 in along the right side.
    let corner = &solved.pieces[2].motif.bounds();
    assert!(corner.max.x <= (60.0 - 0.5) * INCH + JOIN && corner.min.y >= 0.5 * INCH - JOIN);
    let list = leg.replace(r#"{"top":4,"right":5,"bottom":6,"left":7}"#, "[4, 5, 6, 7]");
    same(&solved, &self::solved(quilt, &list), |point| point);
    let mitred = leg.replace(
        r#"{"style":"leg","motif":"corner"}"#,
        r#"{"style":"mitred"}"#,
    );
    assert_eq!(
        refused(quilt, &mitred),
        "borders[0]: corner: the bands before and after the top left corner are 6 1/4 in and 3 1/4 in deep, but a corner made from the repeat needs one depth; give these sides one width, or use another corner style"
    );
    // A band that may be shallower is so in proportion, and stretches no side more.
    let slack = leg.replace(r#""corner":{"#, r#""slack":"1/2","corner":{"#);
    let eased = self::solved(quilt, &slack);
    check(&eased);
    let worst = |solved: &Solved| {
        Side::all(4)
            .map(|at| side(solved, at).2.ln().abs())
            .fold(0.0, f64::max)
    };
    assert!(worst(&eased) < worst(&solved) - 1e-6);
    let share = eased.frames[0].depths()[0] / depths[0];
    for (eased, full) in eased.frames[0].depths().iter().zip(&depths) {
        assert!((eased / full - share).abs() < 1e-12);
    }
}

#[test]
fn a_side_follows_its_stations() {
    let border = r#""width":5,
        "stations":[{"side":"top","at":"30 in","edge":-1,"seam":"4 1/2"},{"side":1,"at":20},{"side":1,"at":40}],
        "corner":{"style":"leg","motif":"corner"},"side":{"motif":"side"}"#;
    let wavy = solved(r#"{"width":60,"height":70}"#, border);
    check(&wavy);
    assert!(wavy.frames[0].is_wavy());
    let straight = solved(r#"{"width":60,"height":70}"#, LEG);
    // From 1 in outside the straight edge to 4 1/2 in inside, less 1/2 in and 1/4 in.
    let line = |lines: &[Point], x: f64| {
        lines
            .windows(2)
            .find(|pair| (pair[0].x..pair[1].x).contains(&x))
            .map(|pair| {
                let share = (x - pair[0].x) / (pair[1].x - pair[0].x);
                pair[0].y + share * (pair[1].y - pair[0].y)
            })
            .expect("the line passes")
    };
    let lines = &wavy.frames[0].lines;
    assert!((line(&lines.outer, 30.0 * INCH) / INCH + 0.5).abs() < 1e-3);
    assert!((line(&lines.inner, 30.0 * INCH) / INCH - 4.25).abs() < 1e-3);
    assert!((line(&lines.edge, 30.0 * INCH) / INCH + 1.0).abs() < 1e-3);
    assert!((line(&lines.seam, 30.0 * INCH) / INCH - 4.5).abs() < 1e-3);
    // The other sides and all corners stay as they are.
    for (a, b) in wavy.pieces.iter().zip(&straight.pieces) {
        assert_eq!(
            a.motif.points() == b.motif.points(),
            a.name != "border-side-top",
            "{}",
            a.name
        );
    }
    // The way over the bulge is longer.
    let length = |solved: &Solved| match &solved.pieces[1].kind {
        PieceKind::Side(detail) => detail.span,
        _ => 0.0,
    };
    assert!(length(&wavy) > length(&straight));
    // Where a corner meets the side, the line turns no more than it does without waves.
    for (wavy, straight) in wavy.joins.iter().zip(&straight.joins) {
        assert!((wavy.kink_degrees - straight.kink_degrees).abs() < 3.0);
    }
}

#[test]
fn stations_within_a_corner_are_passed_over_and_told() {
    let border = r#""width":5,"stations":[{"side":"left","at":2,"edge":"1/4"}],
        "corner":{"style":"leg","motif":"corner"},"side":{"motif":"side"}"#;
    let quilt = r#"{"width":60,"height":70}"#;
    let told = solved(quilt, border);
    let codes: Vec<&str> = told.findings.iter().map(|found| found.code).collect();
    assert!(codes.contains(&"stations_in_corner"), "{codes:?}");
    same(&solved(quilt, LEG), &told, |point| point);
}

#[test]
fn measures_that_disagree_are_told_and_the_nearest_quilt_is_taken() {
    let quilt = r#"{"top":60,"right":80,"bottom":60,"left":80,"falling":100,"rising":102}"#;
    let solved = solved(quilt, LEG);
    let found = solved
        .findings
        .iter()
        .find(|found| found.code == "measures_disagree")
        .expect("told");
    assert_eq!(found.severity, Severity::Warning);
    assert!(
        found.message.contains("diagonal is taken as"),
        "{}",
        found.message
    );
    let measured = solved.quilt.measured.as_ref().expect("measured");
    assert_eq!(measured.residuals.len(), 6);
    // A corner of a quilt about square moves about as much as the diagonal changes, or a little
    // more: by the law of cosines d(angle) = c dc / (a b sin angle), so b d(angle) = dc c / a.
    let one = r#"{"top":60,"right":80,"bottom":60,"left":80,"falling":100}"#;
    let solved = self::solved(one, LEG);
    let moves = solved.quilt.measured.as_ref().expect("measured").moves;
    let expected = 100.0 / 60.0 / 8.0 * INCH;
    assert!(
        (moves[3] / expected - 1.0).abs() < 5e-3,
        "{moves:?} {expected}"
    );
    assert_eq!(moves[0], 0.0);
}

#[test]
fn what_gives_no_outline_is_refused_with_its_key() {
    for (quilt, message) in [
        (
            "{}",
            "quilt: no keys give no outline; give \"width\" and \"height\", or",
        ),
        (r#"{"width":60}"#, "quilt: the keys width give no outline"),
        (
            r#"{"width":60,"height":70,"rising":90}"#,
            "quilt: the keys width, height, rising give",
        ),
        (
            r#"{"top":60,"right":70,"bottom":60,"left":70}"#,
            "quilt: the keys top, right, bottom, left give",
        ),
        (
            r#"{"top":60,"right":70,"bottom":60,"left":70,"falling":0}"#,
            "quilt.falling: the falling diagonal is 0",
        ),
        (
            r#"{"top":60,"right":70,"bottom":60,"left":70,"falling":140}"#,
            "quilt: the top side (60), the right side (70) and the falling diagonal (140) form no triangle",
        ),
        (r#"{"corners":[[0,0],[60,0]]}"#, "quilt.corners: 2 corners"),
        (
            r#"{"corners":[[0,0],[0,60],[60,60],[60,0]]}"#,
            "quilt.corners: the top left corner",
        ),
        (
            r#"{"corners":[[0,0],[60],[60,60],[60,0]]}"#,
            "quilt.corners[1]",
        ),
    ] {
        let error = refused(quilt, LEG);
        assert!(error.contains(message), "{quilt}: {error}");
    }
    let hexagon = r#"{"corners":[[12,0],[36,0],[48,20.75],[36,41.5],[12,41.5],[0,20.75]]}"#;
    let square = r#"{"width":60,"height":70}"#;
    let width = |width: &str| LEG.replace("\"width\":5", &format!("\"width\":{width}"));
    let stations = |stations: &str| {
        LEG.replace(
            "\"width\":5",
            &format!("\"width\":5,\"stations\":[{stations}]"),
        )
    };
    for (quilt, border, message) in [
        (
            hexagon,
            width(r#"{"top":5}"#),
            "width: the names top, right, bottom and left are for quilts of 4 sides, but this one has 6",
        ),
        (hexagon, width("[5,5,5]"), "width: 3 values for 6 sides"),
        (
            square,
            width(r#"{"top":5,"left":5}"#),
            "width: the right side has no width",
        ),
        (square, width("true"), "expected a length such as 6"),
        (
            square,
            width(r#"{"top":5,"tpo":5}"#),
            "borders[0].width.tpo: unknown key \"tpo\"; did you mean \"top\"?",
        ),
        (
            square,
            width("31"),
            "width: the border is 31 in wide, but only 30 in is left",
        ),
        (
            square,
            width("[5,31,5,31]"),
            "width: the border is 31 in wide, but only 30 in is left",
        ),
        (
            square,
            stations(r#"{"side":"top","at":60}"#),
            "stations[0]: at: the station lies at 60, but the side is 60 in long",
        ),
        (
            square,
            stations(r#"{"side":"tip","at":6}"#),
            "stations[0]: side: there is no side \"tip\"; give top, right, bottom, left, or 1 to 4",
        ),
        (
            square,
            stations(r#"{"side":0,"at":6}"#),
            "there is no side 0",
        ),
        (
            square,
            stations(r#"{"side":-1,"at":6}"#),
            "expected a side: \"top\"",
        ),
        (
            hexagon,
            stations(r#"{"side":"top","at":6}"#),
            "there is no side \"top\"; give 1 to 6",
        ),
        (
            square,
            stations(r#"{"side":1,"at":30},{"side":"top","at":30}"#),
            "stations: two stations of one side lie at 30 in",
        ),
        (
            square,
            stations(r#"{"side":1,"at":30,"seam":"1/2"}"#),
            "borders[0]: stations: top side: stations[0]: the gaps take",
        ),
    ] {
        let error = refused(quilt, &border);
        assert!(error.contains(message), "{border}: {error}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn a_measured_quilt_is_itself_again_and_closes_its_ring(
        by in prop::array::uniform8(-0.03..0.03f64), style in 0usize..4, falling in any::<bool>(),
    ) {
        let corners: [Point; 4] = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]
            .iter()
            .enumerate()
            .map(|(k, (x, y))| Point::new(64.0 * (x + by[2 * k]), 80.0 * (y + by[2 * k + 1])))
            .collect::<Vec<_>>()
            .try_into()
            .expect("four");
        let given = measure_quad(&corners);
        let [top, right, bottom, left, fall, rise] = given;
        let diagonal = if falling { format!(r#""falling":{fall:?}"#) } else { format!(r#""rising":{rise:?}"#) };
        let quilt = format!(r#"{{"top":{top:?},"right":{right:?},"bottom":{bottom:?},"left":{left:?},{diagonal}}}"#);
        let solved = solved(&quilt, STYLES[style]);
        check(&solved);
        let found: [Point; 4] = solved.quilt.outline.corners().to_vec().try_into().expect("four");
        for (found, given) in measure_quad(&found).iter().zip(given) {
            prop_assert!((found / INCH - given).abs() < 1e-9);
        }
        // Nothing folds: across each side's band the line stays between its ends.
        let strip = solved.frames[0].strip(Side::TOP);
        let along: Vector = strip.along();
        let (top, ..) = side(&solved, Side::TOP);
        prop_assert!(along.dot(&(top.end().point - top.start().point)) > 0.0);
    }
}

#[test]
fn borders_share_one_depth_where_asked() {
    let with = |widths: [f64; 2], keys: [&str; 2], shared: bool| {
        let border = |at: usize| {
            let (width, keys) = (widths[at], keys[at]);
            format!(
                r#"{{"width":{width},{keys}"corner":{{"style":"leg","motif":"corner"}},"side":{{"motif":"side"}}}}"#
            )
        };
        let text = format!(
            r#"{{"unit":"in","quilt":{{"width":70,"height":90}},"shared_depth":{shared},"borders":[{},{}]}}"#,
            border(0),
            border(1)
        );
        solve(&read_plan(text.as_bytes()).expect("a plan"), load)
    };
    let two = |widths: [f64; 2], keys: &str, shared: bool| with(widths, [keys; 2], shared);
    // 6 in less 3/4 in, and 5 3/4 in less 1/2 in, are 5 1/4 in both.
    let alike = two([6.0, 5.75], "", true).expect("solved");
    check(&alike);
    assert!(alike.findings.iter().any(|f| f.code == "depth_shared"));
    let slack = two([6.0, 5.5], r#""slack":"3/4","#, true).expect("solved");
    check(&slack);
    let [outer, inner] = [0, 1].map(|at: usize| slack.frames[at].depth() / INCH);
    assert!((outer - inner).abs() < 1e-9, "{outer} {inner}");
    assert!((4.5 - 1e-9..=5.0 + 1e-9).contains(&outer), "{outer}");
    // No common depth of a grid, both gaps of each border wider, does better.
    let worst = |solved: &Solved| {
        let sides = solved.pieces.iter().filter_map(|piece| match &piece.kind {
            PieceKind::Side(detail) => Some(detail.fit.chosen.stretch.ln().abs()),
            _ => None,
        });
        sides.fold(0.0, f64::max)
    };
    let best = worst(&slack);
    for step in 0..=200 {
        let depth = 4.5 + 0.5 * f64::from(step) / 200.0;
        let gaps = |width: f64, edge: f64| {
            let more = (width - edge - 0.25 - depth) / 2.0;
            format!(r#""edge_gap":{},"seam_gap":{},"#, edge + more, 0.25 + more)
        };
        let fixed = with([6.0, 5.5], [&gaps(6.0, 0.5), &gaps(5.5, 0.25)], false).expect("solved");
        assert!(best <= worst(&fixed) + 1e-9, "{depth}");
    }
    let error = two([6.0, 5.0], r#""slack":"1/4","#, true).expect_err("too far");
    assert!(
        error
            .to_string()
            .starts_with("shared_depth: the bands of the borders are 5 1/4 in, 4 1/2 in deep"),
        "{error}"
    );
}
