//! The examples of the library run, and come out as they should; `whole_plan` is in `readme.rs`.
#![allow(unreachable_pub)]

#[path = "../../quiltpath-core/examples/border_to_span.rs"]
mod border_to_span;
#[path = "../../quiltpath-core/examples/corner_from_drawing.rs"]
mod corner_from_drawing;

use quiltpath_core::geom::{Bounds, Point};
use std::path::Path;

/// Examples read the demo's files from the top of the repository.
fn at_the_top() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    std::env::set_current_dir(top).expect("the top of the repository");
}

#[test]
fn a_border_fills_its_span_and_stays_in_its_band() {
    at_the_top();
    border_to_span::main().expect("the example runs");
    for (span, depth) in [(51.5, 5.25), (7.0, 5.25), (200.0, 2.0)] {
        let side = border_to_span::side(span, depth).expect("a side");
        assert_eq!(side.start().point.x, 0.0);
        assert!((side.end().point.x - span).abs() < 1e-9);
        assert!((side.start().point.y - side.end().point.y).abs() < 1e-9);
        let bounds = side.bounds();
        assert!(bounds.min.y.abs() < 1e-9, "{bounds:?}");
        assert!((bounds.max.y - depth).abs() < 1e-9, "{bounds:?}");
    }
}

#[test]
fn a_corner_touches_both_outer_lines_and_leaves_through_its_legs() {
    at_the_top();
    corner_from_drawing::main().expect("the example runs");
    let outer = Bounds {
        min: Point::new(1.0, 2.0),
        max: Point::new(41.0, 52.0),
    };
    for depth in [3.0, 5.25] {
        let corner = corner_from_drawing::corner(depth, outer).expect("a corner");
        let bounds = corner.bounds();
        assert!((bounds.max.x - 41.0).abs() < 1e-9, "{bounds:?}");
        assert!((bounds.min.y - 2.0).abs() < 1e-9, "{bounds:?}");
        // Clockwise round the quilt: in from the left through the level leg, out downwards.
        let (start, end) = (corner.start().point, corner.end().point);
        assert!((start.x - bounds.min.x).abs() < 0.1 * depth && start.y < 2.0 + depth);
        assert!((end.y - bounds.max.y).abs() < 0.1 * depth && end.x > 41.0 - depth);
    }
}
