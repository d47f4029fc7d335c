use super::*;
use crate::chain::Repeat;
use crate::corner::{Arrangement, DerivedCorner, MitreOptions, mitred_corner, size_corner};
use crate::geom::{Bounds, BoxCorner};
use crate::leg::{LegGiven, choose_leg};
use crate::warp::Strip;
use proptest::prelude::*;

const DEPTH: f64 = 2.0;

fn corner() -> SizedCorner {
    let points = [
        (1.5, 9.0),
        (0.0, 5.0),
        (2.0, 4.0),
        (0.5, 2.0),
        (0.0, 0.5),
        (1.0, 0.0),
        (4.0, 2.0),
        (6.0, 0.0),
        (8.0, 0.25),
    ];
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    let motif = Motif::from_points("l", points).expect("a motif");
    // The ends run straight along their legs.
    let motif = motif.with_directions([Vector::new(0.0, -1.0), Vector::new(1.0, 0.0)]);
    let leg = choose_leg(&motif, &LegGiven::default()).expect("an L");
    size_corner(&motif, &leg, DEPTH).expect("sized")
}

fn site(degrees: f64, turn: f64, depths: [f64; 2]) -> CornerSite {
    let unit = |angle: f64| Vector::new(angle.cos(), angle.sin());
    CornerSite {
        elbow: Point::new(3.0, -4.0),
        entering: unit(turn + degrees.to_radians()),
        leaving: unit(turn),
        depths,
    }
}

#[test]
fn a_square_corner_is_that_of_a_rectangle() {
    let corner = corner();
    let outer = Bounds {
        min: Point::new(1.0, 2.0),
        max: Point::new(61.0, 82.0),
    };
    let (x, y) = (Vector::new(1.0, 0.0), Vector::new(0.0, 1.0));
    let sides = [(y, x), (-x, y), (-y, -x), (x, -y)];
    for (number, (position, (entering, leaving))) in
        BoxCorner::ALL.into_iter().zip(sides).enumerate()
    {
        let site = CornerSite {
            elbow: position.of(outer),
            entering,
            leaving,
            depths: [DEPTH; 2],
        };
        assert_eq!(site.angle_degrees(), 90.0);
        for (arrangement, mirrored) in [
            (Arrangement::Turned, false),
            (Arrangement::Mirrored, number % 2 == 1),
        ] {
            let expected = corner.place(position, outer, arrangement).expect("placed");
            let placed = corner.place_between(&site, mirrored).expect("placed");
            assert_eq!(placed, expected, "{position} {arrangement:?}");
        }
    }
}

#[test]
fn what_no_corner_fits_is_refused() {
    let corner = corner();
    let between = |degrees| corner.place_between(&site(degrees, 0.3, [1.0; 2]), false);
    for degrees in [0.0, 29.0, 151.0, 180.0, 270.0, f64::NAN] {
        let error = between(degrees).expect_err("refused");
        assert!(error.to_string().contains("30 to 150 degrees"), "{error}");
    }
}

#[test]
fn what_is_no_site_is_refused() {
    let (x, y) = (Vector::new(1.0, 0.0), Vector::new(0.0, 1.0));
    let new =
        |entering, leaving, depths| CornerSite::new(Point::origin(), entering, leaving, depths);
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(new(y, x, [1.0, bad]).expect_err("no depth").is_geometry());
        assert!(new(y, x * bad, [1.0; 2]).is_err() || bad == -1.0);
    }
    let nowhere = Point::new(f64::NAN, 0.0);
    assert!(CornerSite::new(nowhere, y, x, [1.0; 2]).is_err());
    // Directions of any length.
    let long = new(7.0 * y, 0.1 * x, [1.0, 2.0]).expect("a site");
    assert_eq!(long, new(y, x, [1.0, 2.0]).expect("a site"));
}

#[test]
fn a_corner_made_for_one_place_is_refused_at_another() {
    let hill = [(0.0, 1.0), (1.0, 0.0), (2.0, 1.0)].map(|(x, y)| Point::new(x, y));
    let hill = Motif::from_points("hill", hill.to_vec()).expect("a motif");
    let repeat = Repeat::new(&hill).expect("a repeat");
    let options = MitreOptions::default();
    let made = mitred_corner(&repeat, DEPTH, 75.0, &options)
        .expect("mitred")
        .corner;
    assert!(made.place(&site(75.0, 0.4, [DEPTH; 2])).is_ok());
    for (degrees, depths) in [
        (90.0, [DEPTH; 2]),
        (75.01, [DEPTH; 2]),
        (75.0, [1.01 * DEPTH; 2]),
    ] {
        let error = made.place(&site(degrees, 0.4, depths)).expect_err("other");
        assert!(error.to_string().contains("made for 75"), "{error}");
    }
    let uneven = made
        .place(&site(75.0, 0.0, [2.0, 3.0]))
        .expect_err("uneven");
    assert!(uneven.to_string().contains("2 deep before"), "{uneven}");
}

#[test]
fn a_mitred_corner_is_placed_without_change_of_shape() {
    let hill = [(0.0, 1.0), (1.0, 0.0), (2.0, 1.0)];
    let hill = hill.iter().map(|&(x, y)| Point::new(x, y)).collect();
    let hill = Motif::from_points("hill", hill).expect("a motif");
    let site = site(120.0, 1.0, [DEPTH; 2]);
    let depth = site.equal_depth().expect("one depth");
    let options = MitreOptions::default().with_legs(1);
    let repeat = Repeat::new(&hill).expect("a repeat");
    let mitred = mitred_corner(&repeat, depth, site.angle_degrees(), &options).expect("mitred");
    let placed = mitred.corner.place(&site).expect("placed");
    assert!((placed.length() - mitred.corner.motif.length()).abs() < 1e-9);
    let across = |along: Vector, point: Point| along.perp(&(point - site.elbow));
    // Both ports at the same height, the one drawn: 0 over the inner line.
    assert!((across(site.leaving, placed.end().point) - DEPTH).abs() < 1e-9);
    assert!((across(-site.entering, placed.start().point) - DEPTH).abs() < 1e-9);
    assert!((placed.end().direction - mitred_direction(&mitred.corner, &site)).norm() < 1e-9);
}

fn mitred_direction(corner: &DerivedCorner, site: &CornerSite) -> Vector {
    let (u, d) = (site.leaving, corner.motif.end().direction);
    Vector::new(u.x * d.x - u.y * d.y, u.y * d.x + u.x * d.y)
}

proptest! {
    #[test]
    fn ports_and_depths_are_kept_at_any_corner(
        degrees in 30.0..150.0f64, turn in 0.0..6.2f64, depths in (0.5..4.0f64, 0.5..4.0f64), mirrored in any::<bool>(),
    ) {
        let corner = corner();
        let site = site(degrees, turn, [depths.0, depths.1]);
        let placed = corner.place_between(&site, mirrored).expect("placed");
        let normal = |along: Vector, depth: f64| Vector::new(along.y, -along.x) * depth;
        let entering = Strip::of_unit(site.elbow - normal(-site.entering, depths.0), -site.entering, normal(-site.entering, depths.0));
        let leaving = Strip::of_unit(site.elbow - normal(site.leaving, depths.1), site.leaving, normal(site.leaving, depths.1));
        let (start, end) = (corner.motif.start(), corner.motif.end());
        let (first, last) = if mirrored { (end.point.y, start.point.x) } else { (start.point.x, end.point.y) };
        prop_assert!((entering.locate(placed.start().point).1 - (1.0 - first / DEPTH)).abs() < 1e-9);
        prop_assert!((leaving.locate(placed.end().point).1 - (1.0 - last / DEPTH)).abs() < 1e-9);
        // Travel along the legs stays along the sides, clockwise.
        prop_assert!((placed.start().direction + site.entering).norm() < 1e-9);
        prop_assert!((placed.end().direction - site.leaving).norm() < 1e-9);
        for point in placed.points() {
            let inside = |strip: &Strip| (-1e-9..=1.0 + 1e-9).contains(&strip.locate(*point).1);
            prop_assert!(inside(&entering) || inside(&leaving));
        }
        let lines = site.cross_lines(&placed);
        prop_assert_eq!(lines[0].through, placed.start().point);
        prop_assert_eq!(lines[1].direction, site.entering);
    }

    /// Two lines drawn straight out along the legs, 3 and 2 long.
    #[test]
    fn lengths_off_each_side_grow_by_one_over_the_sine(
        degrees in 30.0..150.0f64, turn in 0.0..6.2f64, depths in (0.5..4.0f64, 0.5..4.0f64), mirrored in any::<bool>(),
    ) {
        let l = [(0.5, 9.0), (0.5, 6.0), (2.0, 4.0), (0.0, 0.0), (4.0, 2.0), (6.0, 0.5), (8.0, 0.5)];
        let l = l.map(|(x, y)| Point::new(x, y)).to_vec();
        let motif = Motif::from_points("l", l).expect("a motif");
        let leg = choose_leg(&motif, &LegGiven::default()).expect("an L");
        let sized = size_corner(&motif, &leg, DEPTH).expect("sized");
        prop_assert_eq!(sized.scale, [1.0; 2]);
        let placed = sized.place_between(&site(degrees, turn, [depths.0, depths.1]), mirrored).expect("placed");
        let points = placed.points();
        let last = points.len() - 1;
        let [first, second] = [[0, 1], [last - 1, last]].map(|[a, b]| (points[b] - points[a]).norm());
        let drawn = if mirrored { [2.0, 3.0] } else { [3.0, 2.0] };
        let sin = degrees.to_radians().sin();
        prop_assert!((first - drawn[0] * depths.1 / (DEPTH * sin)).abs() < 1e-9, "{first}");
        prop_assert!((second - drawn[1] * depths.0 / (DEPTH * sin)).abs() < 1e-9, "{second}");
    }
}
