use super::*;
use crate::geom::measure::distance_to_segment;
use crate::plan::spec::{BorderSpec, CornerSpec, CornerStyle, QuiltSpec, SideSpec, UnitSpec};
use crate::plan::{PlanSpec, Quilt, layouts};
use proptest::prelude::*;

/// The limits of a border of 60 mm round a quilt of 600 by 800 mm.
fn limits() -> Vec<Limit> {
    let border = BorderSpec::new(
        60.0,
        CornerSpec::new(CornerStyle::Open),
        SideSpec::new("side"),
    );
    let quilt = QuiltSpec::rectangle(600.0, 800.0);
    let plan = PlanSpec::new(UnitSpec::Mm, quilt).with_borders([border]);
    let layouts = layouts(&plan, &Quilt::of(&plan).expect("a quilt")).expect("layouts");
    limits_of(&layouts[0], 0)
}

fn window(height: f64) -> Bounds {
    Bounds {
        min: Point::origin(),
        max: Point::new(600.0, height),
    }
}

#[test]
fn the_sides_of_a_border_are_its_lines() {
    let limits = limits();
    assert_eq!(limits.len(), 16);
    let of = |kind, side| {
        let mut all = limits.iter();
        let found = all.find(|limit| limit.kind == kind && limit.side == side);
        &found.expect("a limit").points[..]
    };
    let point = Point::new;
    assert_eq!(
        of(LimitKind::Edge, Side::TOP),
        [point(0.0, 0.0), point(600.0, 0.0)]
    );
    assert_eq!(
        of(LimitKind::Edge, Side::LEFT),
        [point(0.0, 800.0), point(0.0, 0.0)]
    );
    let near = |one: Point, x: f64, y: f64| (one - point(x, y)).norm() < 1e-9;
    let seam = of(LimitKind::Seam, Side::RIGHT);
    assert!(near(seam[0], 540.0, 60.0) && near(seam[1], 540.0, 740.0));
}

#[test]
fn a_top_border_is_checked_at_its_ends_its_dips_and_its_corners() {
    // It starts at the left, dips to the seam once and to the edge once.
    let line = [(60.0, 30.0), (150.0, 50.0), (450.0, 14.0), (540.0, 30.0)];
    let line = line.map(|(x, y)| Point::new(x, y));
    let lines = [CheckedLine {
        border: 0,
        points: &line,
    }];
    let check = needle_up(&lines, &limits(), window(400.0), 12.7).expect("a check");
    assert!(check.stops.len() <= MOST_STOPS);
    let at = |wanted: &dyn Fn(&There) -> bool| {
        let found = check
            .stops
            .iter()
            .find(|stop| stop.there.iter().any(wanted));
        found.expect("a stop").at
    };
    assert_eq!(check.stops[0].there[0], There::Start);
    assert_eq!(at(&|there| *there == There::End), line[3]);
    let near = |wanted: LimitKind, far: f64| {
        at(&|there| {
            matches!(there, There::Near { kind, side, distance, .. }
                if *kind == wanted && *side == Side::TOP && (*distance - far).abs() < 1e-9)
        })
    };
    assert_eq!(near(LimitKind::Seam, 10.0), line[1]);
    assert_eq!(near(LimitKind::Edge, 14.0), line[2]);
    assert_eq!(at(&|there| *there == There::Reach(Reach::Top)), line[2]);
    assert_eq!(at(&|there| *there == There::Reach(Reach::Bottom)), line[1]);
    // The outer corners of the band, 1/2 in from the raw edges.
    let corner = at(&|there| {
        matches!(
            there,
            There::Limit {
                kind: LimitKind::Outer,
                ..
            }
        )
    });
    assert!(corner.x.min(600.0 - corner.x) < 13.0 && corner.y < 400.1);
    let stops = check.stops.iter().map(|stop| stop.at);
    assert!(stops.clone().all(|at| at.y <= 400.0 + 1e-6));
    assert_eq!(
        check.path("check").expect("a path").points().len(),
        check.stops.len()
    );
    // Of a border that no line belongs to nothing is asked.
    let other = [CheckedLine {
        border: 1,
        points: &line,
    }];
    let bare = needle_up(&other, &limits(), window(400.0), 12.7).expect("a check");
    assert_eq!(bare.stops.len(), 4);
}

#[test]
fn no_line_has_no_check() {
    assert!(
        needle_up(&[], &limits(), window(400.0), 12.7)
            .expect_err("none")
            .is_geometry()
    );
    let point = [Point::origin(); 2];
    let lines = [CheckedLine {
        border: 0,
        points: &point,
    }];
    assert!(
        needle_up(&lines, &[], window(400.0), 12.7)
            .expect_err("no line")
            .is_geometry()
    );
}

proptest! {
    #[test]
    fn the_first_near_a_seam_or_an_edge_is_the_nearest_of_all(
        points in prop::collection::vec((0.0..600.0f64, 0.0..300.0f64), 2..60),
    ) {
        let line: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        let lines = [CheckedLine { border: 0, points: &line }];
        let limits = limits();
        let check = needle_up(&lines, &limits, window(300.0), 12.7).expect("a check");
        prop_assert!(check.stops.len() <= MOST_STOPS);
        for wanted in [LimitKind::Seam, LimitKind::Edge] {
            let near = check.stops.iter().flat_map(|stop| stop.there.iter().map(|there| (stop.at, *there)));
            let near: Vec<(Point, f64)> = near.filter_map(|(at, there)| match there {
                There::Near { kind, distance, .. } if kind == wanted => Some((at, distance)),
                _ => None,
            }).collect();
            let own = limits.iter().filter(|limit| limit.kind == wanted);
            let own: Vec<[Point; 2]> = own.flat_map(|limit| limit.points.windows(2).map(|pair| [pair[0], pair[1]])).collect();
            let to = |point: Point| own.iter().map(|[a, b]| distance_to_segment(point, *a, *b)).fold(f64::INFINITY, f64::min);
            let found = near.iter().map(|(_, distance)| *distance).fold(f64::INFINITY, f64::min);
            // Walked in small steps nothing is nearer.
            for pair in line.windows(2) {
                for step in 0..=200 {
                    let at = pair[0] + (pair[1] - pair[0]) * (f64::from(step) / 200.0);
                    prop_assert!(to(at) >= found - 1e-9);
                }
            }
            for (at, distance) in &near {
                prop_assert!(to(*at) <= distance + 1e-9);
                let on = line.windows(2).map(|pair| distance_to_segment(*at, pair[0], pair[1]));
                prop_assert!(on.fold(f64::INFINITY, f64::min) < 1e-9);
            }
        }
    }
}
