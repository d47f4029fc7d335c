//! Joining held against trying all orders and directions on small drawings.

use super::*;
use crate::error::ErrorKind;
use crate::geom::flatten::flatten;
use crate::units::Unit;
use proptest::prelude::*;

fn pieces(data: &str) -> Vec<Subpath> {
    let path = kurbo::BezPath::from_svg(data).expect("path data");
    flatten(&path, 0.01)
        .expect("flat")
        .into_iter()
        .enumerate()
        .map(|(index, flat)| Subpath {
            id: format!("p{index}").into(),
            flat,
        })
        .collect()
}

fn joined(data: &str) -> Joined {
    join("m", pieces(data), 0.1, (Gaps::Refuse, LineEnds::Free))
        .unwrap_or_else(|e| panic!("{data}: {e}"))
}

#[test]
fn pieces_in_any_order_and_direction_become_one_line() {
    let plain = joined("M0 0 H 1 M 1 0 H 2 M 2 0 H 3");
    assert_eq!((plain.motif.length(), plain.reversed), (3.0, 0));
    let shuffled = joined("M1 0 H 0 M 2 0 H 3 M 2 0.05 H 1");
    assert_eq!(shuffled.motif.points().len(), 4);
    assert!(shuffled.links.is_empty());
    let eight = joined("M0 0 H 4 V 4 H 0 Z M 0 0 H -4 V -4 H 0 Z M 0 0 L 9 9");
    assert_eq!(eight.motif.start().point, Point::new(0.0, 0.0));
    assert_eq!(eight.motif.end().point, Point::new(9.0, 9.0));
}

#[test]
fn a_closed_drawing_opens_at_its_own_start() {
    let square = joined("M3 1 H 5 V 3 H 3 Z");
    assert_eq!(square.motif.start().point, square.motif.end().point);
    assert_eq!(square.motif.start().point, Point::new(3.0, 1.0));
    assert_eq!(square.motif.start().direction, Vector::new(1.0, 0.0));
}

#[test]
fn subpaths_that_are_no_lines_are_refused() {
    let mut drawn = pieces("M0 0 H 1 M 1 0 H 2");
    drawn[1].flat.points.clear();
    let error = join("m", drawn.clone(), 0.1, (Gaps::Link, LineEnds::Free)).expect_err("no points");
    assert!(error.to_string().starts_with("p1: 0 points"), "{error}");
    assert!(join_meeting("m", drawn.clone(), 0.1).is_err());
    drawn[1].flat.points = vec![Point::new(1e300, 0.0), Point::new(f64::NAN, 1.0)];
    assert!(
        join("m", drawn, 0.0, (Gaps::Link, LineEnds::Free))
            .expect_err("far")
            .is_geometry()
    );
}

#[test]
fn gaps_are_listed_or_linked() {
    let data = "M0 0 H 1 M 3 0 H 2 M 5 5 H 6";
    let error = join("m", pieces(data), 0.1, (Gaps::Refuse, LineEnds::Free)).expect_err("apart");
    let text = error.to_string();
    assert!(
        text.starts_with("the drawing is 3 separate lines"),
        "{text}"
    );
    assert!(
        text.contains("\"p0\" ends at (1, 0), 1 from the start of \"p1\" at (2, 0)"),
        "{text}"
    );
    let ErrorKind::Motif(MotifFault::Apart { gaps, pieces: 3 }) = error.kind() else {
        panic!("{error:?}");
    };
    assert_eq!(gaps.iter().map(Gap::size).sum::<f64>(), 1.0 + 29f64.sqrt());
    let inches = error.clone().in_unit(Unit::In).to_string();
    assert!(inches.contains("0.03937 in from the start"), "{inches}");
    let inches = error.measured_in(Unit::In).to_string();
    assert!(
        inches.contains("ends at (1 in, 0 in), 1 in from"),
        "{inches}"
    );
    let linked = join("m", pieces(data), 0.1, (Gaps::Link, LineEnds::Free)).expect("linked");
    assert_eq!(linked.links.len(), 2);
    assert_eq!(linked.motif.end().point, Point::new(6.0, 5.0));
    assert!(
        join("m", Vec::new(), 0.1, (Gaps::Link, LineEnds::Free))
            .expect_err("none")
            .is_motif()
    );
}

#[test]
fn what_meets_is_one_line_and_what_does_not_one_of_its_own() {
    let lines = |data: &str| join_meeting("m", pieces(data), 0.1).expect("lines");
    let apart = lines("M0 0 H 1 M 5 5 H 6 M 2 0.05 H 1 M 9 9 H 8");
    let names: Vec<&str> = apart.iter().map(Motif::name).collect();
    assert_eq!(names, ["p0", "p1", "p3"]);
    assert_eq!(apart[0].points().len(), 3);
    assert_eq!(apart[0].end().point, Point::new(2.0, 0.05));
    assert_eq!(lines("M0 0 H 1 M 2 0 H 1")[0].name(), "m");
    assert!(join_meeting("m", Vec::new(), 0.1).is_err_and(|e| e.is_motif()));
}

/// The fewest walks by trying all orders and directions.
fn fewest_walks(edges: &[(usize, usize)]) -> usize {
    fn search(edges: &[(usize, usize)], used: u32, at: Option<usize>) -> usize {
        if used.count_ones() as usize == edges.len() {
            return 0;
        }
        let mut best = usize::MAX;
        for (index, &(a, b)) in edges.iter().enumerate() {
            if used & (1 << index) == 0 {
                for (from, to) in [(a, b), (b, a)] {
                    let fresh = usize::from(at != Some(from));
                    best = best.min(fresh + search(edges, used | 1 << index, Some(to)));
                }
            }
        }
        best
    }
    search(edges, 0, None)
}

proptest! {
    #[test]
    fn no_order_leaves_fewer_lines(edges in prop::collection::vec((0usize..6, 0usize..6), 1..6)) {
        let place = |v: usize| kurbo::Point::new(v as f64 * 10.0, (v * v) as f64);
        let mut path = kurbo::BezPath::new();
        for &(a, b) in &edges {
            path.move_to(place(a));
            let (p, q) = (place(a), place(b));
            path.curve_to(p + (1.0, 3.0), q + (2.0, 3.0), q);
        }
        let subpaths: Vec<Subpath> = flatten(&path, 0.1).expect("flat").into_iter()
            .map(|flat| Subpath { id: "x".into(), flat }).collect();
        let total: f64 = subpaths.iter().map(|s| crate::geom::measure::length(&s.flat.points)).sum();
        let apart = join_meeting("m", subpaths.clone(), 0.01).expect("lines");
        prop_assert_eq!(apart.len(), fewest_walks(&edges));
        let lengths: f64 = apart.iter().map(Motif::length).sum();
        prop_assert!((lengths - total).abs() < 1e-6);
        let joined = join("m", subpaths, 0.01, (Gaps::Link, LineEnds::Free)).expect("linked");
        prop_assert_eq!(joined.links.len() + 1, fewest_walks(&edges));
        let links: f64 = joined.links.iter().map(Gap::size).sum();
        prop_assert!((joined.motif.length() - total - links).abs() < 1e-6);
    }
}
