//! Quilts that are not square, from measurements to a closed ring round the border.

use proptest::prelude::*;
use quiltpath_core::chain::{Across, ChainOptions, Repeat, Terminal, chain_repeats};
use quiltpath_core::corner::{MitreOptions, SizedCorner, mitred_corner, size_corner};
use quiltpath_core::geom::quad::{Diagonals, QuadMeasures, measure_quad, solve_quad};
use quiltpath_core::geom::{ConvexPolygon, Point};
use quiltpath_core::leg::{LegGiven, choose_leg};
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::{OutlineBand, SideWidths};
use quiltpath_core::warp::{BandMap, RuledBand};
use quiltpath_tests::ell::ELL;

/// Lengths in inches.
const JOIN: f64 = 1e-6;
const FLATTENING: f64 = 4e-4;
const SIZED: f64 = 4.0;

fn motif(points: &[(f64, f64)]) -> Motif {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Motif::from_points("m", points).expect("a motif")
}

fn corner() -> SizedCorner {
    let l = motif(&ELL);
    let leg = choose_leg(&l, &LegGiven::default()).expect("an L");
    size_corner(&l, &leg, SIZED).expect("sized")
}

fn repeat() -> Repeat {
    Repeat::new(&motif(&[
        (0.0, 1.2),
        (0.7, 2.0),
        (1.0, 0.9),
        (1.6, 0.0),
        (2.0, 1.2),
    ]))
    .expect("a repeat")
}

fn options(repeats: usize) -> ChainOptions {
    ChainOptions::new(repeats)
        .with_join_tolerance(JOIN)
        .with_flattening(FLATTENING)
}

/// A side from one corner to the next.
fn side(band: &RuledBand, ports: [Point; 2], repeat: &Repeat) -> Motif {
    let terminals = [(ports[0], 0.0), (ports[1], band.length())].map(|(port, along)| {
        let (s, across) = band.locate(port).expect("on the band");
        assert!((s - along).abs() < 1e-9);
        Terminal::new(along).with_across(Across::At(across))
    });
    let repeats = (band.length() / repeat.pitch(band.depth()))
        .round()
        .max(1.0);
    let chain =
        chain_repeats(repeat, band, terminals, &options(repeats as usize)).expect("a chain");
    assert_eq!(chain.links, 0);
    chain.motif
}

/// The closed ring of pieces, corners slanted into place.
fn ring(band: &OutlineBand, mirrored: bool) -> Vec<Motif> {
    let corner = corner();
    let repeat = repeat();
    let corners: Vec<Motif> = (0..band.sides())
        .map(|k| {
            let mirrored = mirrored && k % 2 == 1;
            corner
                .place_between(&band.corner(k), mirrored)
                .expect("placed")
        })
        .collect();
    let mut pieces = Vec::new();
    for (k, corner) in corners.iter().enumerate() {
        let next = (k + 1) % corners.len();
        let lines = [
            band.corner(k).cross_lines(corner)[1],
            band.corner(next).cross_lines(&corners[next])[0],
        ];
        let ruled = band.between(k, lines).expect("room");
        assert!(ruled.no_fold());
        let ports = [corner.end().point, corners[next].start().point];
        pieces.push(corner.clone());
        pieces.push(side(&ruled, ports, &repeat));
    }
    pieces
}

fn worst_gap(pieces: &[Motif]) -> f64 {
    (0..pieces.len())
        .map(|k| (pieces[(k + 1) % pieces.len()].start().point - pieces[k].end().point).norm())
        .fold(0.0, f64::max)
}

fn worst_outside(band: &OutlineBand, pieces: &[Motif]) -> f64 {
    let ring = band.region().expect("a ring");
    let points = pieces.iter().flat_map(|piece| piece.points());
    points
        .map(|point| ring.distance_outside(*point))
        .fold(0.0, f64::max)
}

fn widths() -> impl Strategy<Value = Vec<SideWidths>> {
    prop::collection::vec(4.0..7.0f64, 4).prop_map(|widths| {
        let side = |width| SideWidths {
            width,
            seam_gap: 0.25,
            edge_gap: 0.5,
        };
        widths.into_iter().map(side).collect()
    })
}

/// Corners of a quilt of 64 by 80 in, each moved by up to 3 % of it.
fn quads() -> impl Strategy<Value = [Point; 4]> {
    prop::array::uniform8(-0.03..0.03f64).prop_map(|by| {
        [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]
            .iter()
            .enumerate()
            .map(|(k, (x, y))| Point::new(64.0 * (x + by[2 * k]), 80.0 * (y + by[2 * k + 1])))
            .collect::<Vec<_>>()
            .try_into()
            .expect("four")
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(quiltpath_tests::cases(1000)))]

    #[test]
    fn a_measured_quilt_closes_its_ring_in_the_band(corners in quads(), widths in widths(), mirrored in any::<bool>()) {
        let [top, right, bottom, left, falling, _] = measure_quad(&corners);
        let sides = [top, right, bottom, left];
        let quad = solve_quad(&QuadMeasures { sides, diagonals: Diagonals::Falling(falling) }).expect("a quad");
        let edge = ConvexPolygon::new(quad.corners.to_vec()).expect("convex");
        let band = OutlineBand::new(&edge, &widths).expect("a band");
        // What was measured, measured again on what came out.
        let found: [Point; 4] = band.edge.corners().to_vec().try_into().expect("four");
        for (found, given) in measure_quad(&found).iter().zip(measure_quad(&corners)) {
            prop_assert!((found - given).abs() < 1e-9);
        }
        let pieces = ring(&band, mirrored);
        prop_assert!(worst_gap(&pieces) <= JOIN, "{}", worst_gap(&pieces));
        prop_assert!(worst_outside(&band, &pieces) < 1e-9, "{}", worst_outside(&band, &pieces));
    }
}

#[test]
fn a_square_quilt_is_the_same_through_the_warp() {
    let corners = [(0.0, 0.0), (64.0, 0.0), (64.0, 80.0), (0.0, 80.0)];
    let edge = ConvexPolygon::new(corners.map(|(x, y)| Point::new(x, y)).to_vec()).expect("convex");
    let widths = [SideWidths {
        width: 5.0,
        seam_gap: 0.25,
        edge_gap: 0.5,
    }; 4];
    let band = OutlineBand::new(&edge, &widths).expect("a band");
    let pieces = ring(&band, true);
    for k in 0..4 {
        let (before, through, after) =
            (&pieces[2 * k], &pieces[2 * k + 1], &pieces[(2 * k + 2) % 8]);
        let strip = band.strip(k);
        let terminals = [before.end().point, after.start().point].map(|port| {
            let (along, across) = strip.locate(port);
            Terminal::new(along).with_across(Across::At(across))
        });
        let room = terminals[1].along - terminals[0].along;
        let repeats = (room / repeat().pitch(band.depth(k))).round() as usize;
        let plain =
            chain_repeats(&repeat(), &strip, terminals, &options(repeats)).expect("a chain");
        assert_eq!(plain.motif.points().len(), through.points().len());
        for (a, b) in plain.motif.points().iter().zip(through.points()) {
            assert!((a - b).norm() < 1e-9);
        }
    }
}

fn regular(sides: usize, radius: f64) -> ConvexPolygon {
    let corner = |k: usize| {
        let (sin, cos) = (std::f64::consts::TAU * (k as f64 + 0.3) / sides as f64).sin_cos();
        Point::new(radius * cos, radius * sin)
    };
    ConvexPolygon::new((0..sides).map(corner).collect()).expect("convex")
}

#[test]
fn rings_close_on_polygons_of_3_to_12_sides() {
    for sides in 3..=12 {
        let edge = regular(sides, 30.0 + 10.0 * sides as f64);
        let widths: Vec<SideWidths> = (0..sides)
            .map(|k| SideWidths {
                width: 4.0 + 0.3 * (k % 3) as f64,
                seam_gap: 0.25,
                edge_gap: 0.5,
            })
            .collect();
        let band = OutlineBand::new(&edge, &widths).expect("a band");
        for mirrored in [false, true] {
            let pieces = ring(&band, mirrored);
            assert!(worst_gap(&pieces) <= JOIN, "{sides}");
            assert!(worst_outside(&band, &pieces) < 1e-9, "{sides}");
        }
    }
}

#[test]
fn a_mitred_ring_closes_on_a_hexagon() {
    let band = OutlineBand::new(
        &regular(6, 80.0),
        &[SideWidths {
            width: 5.0,
            seam_gap: 0.25,
            edge_gap: 0.5,
        }; 6],
    )
    .expect("a band");
    let repeat = repeat();
    let corners: Vec<Motif> = (0..6)
        .map(|k| {
            let site = band.corner(k);
            let depth = site.equal_depth().expect("one depth");
            let options = MitreOptions::default()
                .with_legs(1)
                .with_join_tolerance(JOIN)
                .with_flattening(FLATTENING);
            let mitred =
                mitred_corner(&repeat, depth, site.angle_degrees(), &options).expect("mitred");
            mitred.corner.place(&site).expect("placed")
        })
        .collect();
    let mut pieces = Vec::new();
    for k in 0..6 {
        let next = (k + 1) % 6;
        let lines = [
            band.corner(k).square_lines(&corners[k])[1],
            band.corner(next).square_lines(&corners[next])[0],
        ];
        let ruled = band.between(k, lines).expect("room");
        assert!(ruled.no_fold());
        pieces.push(corners[k].clone());
        pieces.push(side(
            &ruled,
            [corners[k].end().point, corners[next].start().point],
            &repeat,
        ));
    }
    assert!(worst_gap(&pieces) <= JOIN);
    assert!(worst_outside(&band, &pieces) < 1e-9);
}
