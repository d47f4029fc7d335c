//! Drawn corners, cutting and joining, outlines.

use quiltpath_core::check::{Outlines, beyond};
use quiltpath_core::corner::{Arrangement, size_corner};
use quiltpath_core::geom::{BoxCorner, ConvexPolygon};
use quiltpath_core::leg::{
    LegGiven, LegName, choose_leg, l_region, leg_end, rectangle, triangle_half,
};
use quiltpath_core::plan::{OutlineBand, SideWidths};
use quiltpath_core::trim::{
    ClippedPiece, EndOn, JoinOrder, RouteOptions, Terminals, TrimOptions, clip, route,
    trim_to_region,
};

use crate::panics::{Panics, told};
use crate::samples::{bounds, ell, points, polygon, square, wave};

#[test]
fn corners_and_regions() {
    let mut panics = Panics::default();
    panics.two("legs", |a, b| {
        for elbow in BoxCorner::ALL {
            told(l_region(elbow, a, b, 10.0));
            told(l_region(elbow, 60.0, 60.0, a));
            told(leg_end(elbow, 60.0, a, 10.0, LegName::Vertical, b));
            told(triangle_half(elbow, a, b));
            let given = LegGiven::default().with_elbow(elbow);
            told(choose_leg(
                &ell(),
                &given.with_depth_horizontal(a).with_depth_vertical(b),
            ));
            told(choose_leg(&ell(), &given.with_turn_degrees(a)));
        }
        told(rectangle(a, b));
        let leg = choose_leg(&ell(), &LegGiven::default()).expect("a leg");
        told(size_corner(&ell(), &leg, a));
        told(size_corner(&wave(), &leg, 10.0));
        let mut odd = leg.clone();
        (odd.depth_horizontal, odd.bounds.max.x, odd.turn_degrees) = (a, b, a);
        odd.to_standard();
        odd.standard_depths();
        told(size_corner(&ell(), &odd, 10.0));
        let sized = size_corner(&ell(), &leg, 10.0).expect("a corner");
        told(sized.place(BoxCorner::TopLeft, bounds(a, b), Arrangement::Turned));
    });
    panics.two("trim", |a, b| {
        let (line, region) = (ell().line().clone(), square());
        told(clip(&line, &region, a));
        told(trim_to_region(
            &ell(),
            &region,
            &TrimOptions::default().with_sliver(b),
        ));
        let pieces = clip(&line, &region, 0.1).expect("pieces").pieces;
        for order in [JoinOrder::Keep, JoinOrder::KeepAndReverse, JoinOrder::Free] {
            let options = RouteOptions::default().with_order(order);
            for options in [
                options.with_inset(a),
                options.with_max_link(b),
                options.with_max_link(b).with_restitch(true).with_inset(a),
                options.with_terminals(Terminals::default().with_start(a).with_end(b)),
            ] {
                told(route(&pieces, &region, &options));
            }
            let stray = [
                ClippedPiece::new(line.clone(), EndOn::Boundary(a), EndOn::Boundary(b)),
                ClippedPiece::new(line.clone(), EndOn::Inside, EndOn::Boundary(a)),
            ];
            told(route(&stray, &region, &options));
        }
    });
    panics.count("borders", |n| {
        let triangle = points(&[(0.0, 0.0), (300.0, 0.0), (0.0, 300.0)]);
        let triangle = ConvexPolygon::new(triangle).expect("a polygon");
        let widths = SideWidths {
            width: 60.0,
            seam_gap: 6.0,
            edge_gap: 12.0,
        };
        let usual = OutlineBand::new(&polygon(), &[widths; 4]).expect("a band");
        let (mut one, mut other, mut flat) = (usual.clone(), usual.clone(), usual.clone());
        one.inner = triangle.clone();
        other.outer = triangle;
        flat.inner = flat.outer.clone();
        for band in [usual, one, other, flat] {
            let (_, _, strip) = (band.depth(n), band.side_length(n), band.strip(n));
            let lines = band.corner(n).cross_lines(&ell());
            told(band.corner(n).equal_depth());
            told(lines[0].ends(&strip));
            told(band.between(n, lines));
            told(band.region());
        }
    });
    panics.two("outlines", |a, b| {
        let widths = SideWidths {
            width: a,
            seam_gap: b,
            edge_gap: a,
        };
        told(OutlineBand::new(&polygon(), &[widths; 4]));
        told(OutlineBand::new(&polygon(), &[]));
        let [outer, inner] = [polygon(), polygon().inset(&[10.0; 4]).expect("a polygon")];
        let lines = [points(&[(0.0, 0.0), (a, b), (10.0, 10.0)])];
        let (one, other) = ([outer], [inner]);
        told(beyond(&lines, &Outlines::new(&one, &other), 0.1));
        told(beyond(&[wave()], &Outlines::new(&other, &one), a));
    });
    panics.none();
}
