//! Single cases: drawings inside, thread cuts, ends inside, what is refused.

use super::*;

#[test]
fn a_drawing_inside_comes_back_as_it_is() {
    let points = vec![
        Point::new(1.0, 1.0),
        Point::new(7.0, 2.0),
        Point::new(1.0, 7.0),
    ];
    let flat = Motif::from_points("vine", points).expect("a line");
    let motif = flat
        .clone()
        .with_directions([Vector::new(0.0, 1.0), Vector::new(1.0, 0.0)]);
    let rectangle = crate::leg::rectangle(8.0, 8.0).expect("a region");
    let trimmed = trim_to_region(&motif, &rectangle, &TrimOptions::default()).expect("inside");
    assert_eq!(trimmed.motifs, [motif]);
    assert_eq!(trimmed.report.added_length, 0.0);
    assert_eq!(trimmed.report.exactness, Exactness::Exact);
}

/// It starts on the boundary and goes outside from there, so no piece holds its start.
#[test]
fn a_closed_drawing_that_starts_on_the_boundary_gains_nothing() {
    let corners = [
        (8.0, 5.0),
        (20.0, 5.0),
        (20.0, 2.0),
        (5.0, 2.0),
        (5.0, -5.0),
        (2.0, -5.0),
        (2.0, 7.0),
        (20.0, 7.0),
        (20.0, 6.0),
        (8.0, 5.0),
    ];
    let points = corners.map(|(x, y)| Point::new(x, y)).to_vec();
    let motif = Motif::from_points("meander", points).expect("a line");
    let rectangle = crate::leg::rectangle(8.0, 8.0).expect("a region");
    let trimmed = trim_to_region(&motif, &rectangle, &TrimOptions::default()).expect("inside");
    // From the right to (5, 2) and up, and from the top along the left to the right.
    assert_eq!(trimmed.report.own_length, (3.0 + 2.0) + (7.0 + 6.0));
}

#[test]
fn a_long_link_becomes_a_thread_cut() {
    let ends = [(1.0, 31.0), (1.5, 30.5), (20.0, 18.0)];
    let pieces: Vec<_> = ends
        .into_iter()
        .filter_map(|(a, b)| piece(&l(), EndOn::Boundary(a), EndOn::Boundary(b), 0.0))
        .collect();
    let options = RouteOptions {
        max_link: Some(2.0),
        ..RouteOptions::default()
    };
    let routed = route(&pieces, &l(), &options).expect("a route");
    assert_eq!(
        (routed.paths.len(), routed.report.cuts, routed.report.links),
        (2, 1, 1)
    );
    assert_eq!(routed.report.added_length, 0.5);
}

#[test]
fn an_end_inside_is_stitched_back_or_cut() {
    // Both ends of the path are prescribed, and the drawing starts inside.
    let pieces: Vec<_> = [
        piece(&l(), EndOn::Inside, EndOn::Boundary(2.0), 0.0),
        piece(&l(), EndOn::Boundary(3.0), EndOn::Boundary(30.0), 0.0),
    ]
    .into_iter()
    .flatten()
    .collect();
    let options = RouteOptions {
        terminals: Terminals {
            start: Some(1.0),
            end: Some(30.0),
        },
        ..RouteOptions::default()
    };
    let cut = route(&pieces, &l(), &options).expect("a route");
    assert_eq!((cut.report.cuts, cut.report.restitched_length), (1, 0.0));
    let options = RouteOptions {
        restitch: true,
        ..options
    };
    let whole = route(&pieces, &l(), &options).expect("a route");
    assert_eq!(whole.report.cuts, 0);
    assert_eq!(whole.report.restitched_length, pieces[0].line.length());
    assert!((whole.report.added_length - pieces[0].line.length() - 2.0).abs() < 1e-12);
}

#[test]
fn what_is_out_of_reach_is_a_path_of_its_own() {
    let pieces: Vec<_> = [
        piece(&l(), EndOn::Boundary(3.0), EndOn::Boundary(30.0), 0.0),
        piece(&l(), EndOn::Inside, EndOn::Inside, 0.0),
    ]
    .into_iter()
    .flatten()
    .collect();
    for order in [JoinOrder::Keep, JoinOrder::KeepAndReverse, JoinOrder::Free] {
        let options = RouteOptions {
            order,
            ..RouteOptions::default()
        };
        let routed = route(&pieces, &l(), &options).expect("a route");
        assert_eq!((routed.paths.len(), routed.report.cuts), (2, 1));
        let alone = RouteOptions {
            terminals: Terminals {
                start: Some(0.0),
                end: Some(1.0),
            },
            ..options
        };
        let routed = route(&pieces[1..], &l(), &alone).expect("a route");
        assert_eq!((routed.paths.len(), routed.report.cuts), (1, 2));
    }
}

#[test]
fn what_cannot_be_routed_is_refused() {
    let good = piece(&l(), EndOn::Boundary(3.0), EndOn::Boundary(30.0), 0.0).expect("a piece");
    let refused = |pieces: &[ClippedPiece], options: RouteOptions| {
        let error = route(pieces, &l(), &options).expect_err("no route");
        assert!(error.is_geometry());
        error.to_string()
    };
    let plain = RouteOptions::default();
    assert!(refused(&[], plain).contains("no piece to join"));
    for position in [4.0, f64::NAN, f64::INFINITY] {
        let astray = ClippedPiece {
            start: EndOn::Boundary(position),
            ..good.clone()
        };
        assert!(refused(&[astray], plain).starts_with("piece 0 does not end on the boundary"));
    }
    let good = [good];
    for number in [f64::NAN, f64::INFINITY] {
        let terminals = Terminals {
            start: Some(number),
            end: None,
        };
        refused(&good, RouteOptions { terminals, ..plain });
        refused(
            &good,
            RouteOptions {
                inset: number,
                ..plain
            },
        );
    }
    let max_link = Some(-1.0);
    refused(&good, RouteOptions { max_link, ..plain });
    let message = refused(
        &good,
        RouteOptions {
            inset: 1.5,
            ..plain
        },
    );
    assert!(message.contains("give an inset below 1.5"), "{message}");
}
