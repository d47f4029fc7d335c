//! Lines cut to regions and joined again.

use quiltpath_core::geom::measure::distance_to_segment;
use quiltpath_core::geom::region::{Perimeter, Region, Way};
use quiltpath_core::geom::{BoxCorner, Point, Polyline};
use quiltpath_core::leg::{l_region, rectangle, triangle_half};
use quiltpath_core::motif::Motif;
use quiltpath_core::trim::{Clipped, EndOn, clip};
use quiltpath_core::trim::{
    Exactness, JoinOrder, RouteOptions, Terminals, TrimOptions, trim_to_region,
};

use super::dice::{Dice, finite, told};

const SIZE: [f64; 2] = [80.0, 80.0];

fn region(dice: &mut Dice<'_>) -> Option<Region> {
    let elbow = dice.pick(&BoxCorner::ALL);
    match dice.below(6) {
        0 => l_region(elbow, 80.0, 80.0, dice.mostly(1.0, 79.0)),
        1 => rectangle(dice.mostly(1.0, 80.0), dice.mostly(1.0, 80.0)),
        2 => triangle_half(elbow, dice.mostly(1.0, 80.0), dice.mostly(1.0, 80.0)),
        3 => {
            let sides = 3 + dice.below(20);
            let corners = (0..sides).map(|index| {
                let angle = std::f64::consts::TAU * index as f64 / sides as f64;
                let radius = dice.between(4.0, 40.0);
                Point::new(40.0 + radius * angle.cos(), 40.0 + radius * angle.sin())
            });
            Region::new(corners.collect())
        }
        _ => Region::new(dice.points(3, 8, SIZE)),
    }
    .ok()
}

pub(super) fn trim(data: &[u8]) {
    let mut dice = Dice::new(data);
    let Some(region) = region(&mut dice) else {
        return;
    };
    let perimeter = Perimeter::of(&region);
    let size = region.bounds().size().norm();
    let order = dice.pick(&[JoinOrder::Keep, JoinOrder::KeepAndReverse, JoinOrder::Free]);
    let terminals = Terminals::default()
        .with_start(dice.maybe(3, |dice| dice.mostly(0.0, perimeter.length())))
        .with_end(dice.maybe(3, |dice| dice.mostly(0.0, perimeter.length())));
    let options = RouteOptions::default()
        .with_order(order)
        .with_terminals(terminals)
        .with_restitch(dice.once_in(2))
        .with_max_link(dice.maybe(4, |dice| dice.mostly(0.0, 20.0)))
        .with_inset(dice.maybe(4, |dice| dice.mostly(0.0, 2.0)).unwrap_or(0.0));
    let sliver = dice.maybe(4, |dice| dice.mostly(0.0, 5.0)).unwrap_or(0.0);
    along(&perimeter, &region, dice.number());
    let Some(line) = dice.line(40, SIZE) else {
        return;
    };
    let clipped = match clip(&line, &region, sliver) {
        Ok(clipped) => clipped,
        Err(error) => return told(&error),
    };
    // Rounding goes by the region's size, and by that of a line much larger than it.
    let room = 1e-10 * size.max(line.bounds().size().norm());
    held(&line, &region, &clipped, room);
    joined(&line, &region, sliver, &options, &clipped, room);
}

fn along(perimeter: &Perimeter, region: &Region, position: f64) {
    let wrapped = perimeter.wrap(position);
    if !wrapped.is_finite() {
        return;
    }
    let room = 1e-9 * perimeter.length();
    let point = perimeter.point_at(wrapped);
    assert!(region.distance_to_boundary(point) <= room, "{point}");
    let back = perimeter.point_at(perimeter.position_of(point));
    assert!((back - point).norm() <= room, "{back} {point}");
    for way in [Way::Onward, Way::Back] {
        let travel = perimeter.travel(0.0, wrapped, way);
        assert!(
            (-room..=perimeter.length() + room).contains(&travel),
            "{travel}"
        );
        finite(&perimeter.between(0.0, wrapped, way));
    }
}

fn lies_in(region: &Region, point: Point, room: f64) {
    let inside = region.contains(point) || region.distance_to_boundary(point) <= room;
    assert!(
        inside,
        "{point} is {} outside",
        region.distance_to_boundary(point)
    );
}

/// Pieces lie in the region, in the order of the line, and say truly where they end.
fn held(line: &Polyline, region: &Region, clipped: &Clipped, room: f64) {
    let perimeter = Perimeter::of(region);
    let points = line.points();
    let mut segment = 0;
    for piece in &clipped.pieces {
        finite(piece.line.points());
        for &point in piece.line.points() {
            lies_in(region, point, room);
        }
        for pair in piece.line.points().windows(2) {
            let on = |segment: usize| {
                let near = |p| distance_to_segment(p, points[segment], points[segment + 1]) <= room;
                near(pair[0]) && near(pair[1])
            };
            while !on(segment) {
                segment += 1;
                assert!(segment + 1 < points.len(), "a step leaves the line's order");
            }
        }
        for (end, place) in [
            (piece.start, piece.line.start()),
            (piece.end, piece.line.end()),
        ] {
            match end {
                EndOn::Boundary(at) => {
                    let off = (perimeter.point_at(at) - place).norm();
                    assert!(off <= 10.0 * room, "{off} from where it says");
                }
                EndOn::Inside => {
                    assert!(place == line.start() || place == line.end());
                }
            }
        }
    }
    let kept = clipped.length() + clipped.lost_length;
    assert!(kept <= line.length() * (1.0 + 1e-9) + room, "{kept}");
    // What lies clearly inside is kept, but for the slivers.
    let (least, doubt) = plainly_inside(line, region, room);
    assert!(kept >= least - doubt, "{kept} of {least} less {doubt}");
}

/// The length inside from every crossing of every segment, in the plainest way; and how much of
/// it, or of the cuts, hangs on rounding.
fn plainly_inside(line: &Polyline, region: &Region, room: f64) -> (f64, f64) {
    let corners = region.corners();
    let (mut least, mut doubt) = (0.0, 0.0);
    for pair in line.points().windows(2) {
        let travel = pair[1] - pair[0];
        let length = travel.norm();
        let mut shares = vec![0.0, 1.0];
        for (index, corner) in corners.iter().enumerate() {
            let side = corners[(index + 1) % corners.len()] - corner;
            let cross = travel.perp(&side);
            let share = (corner - pair[0]).perp(&side) / cross;
            if share > 0.0 && share < 1.0 {
                shares.push(share);
                doubt += (10.0 * room * length * side.norm() / cross.abs()).min(length);
            }
        }
        doubt += 10.0 * room;
        shares.sort_by(f64::total_cmp);
        for part in shares.windows(2) {
            let middle = pair[0] + travel * f64::midpoint(part[0], part[1]);
            let long = length * (part[1] - part[0]);
            if region.distance_to_boundary(middle) <= 10.0 * room {
                doubt += long;
            } else if region.contains(middle) {
                least += long;
            }
        }
    }
    (least, doubt)
}

fn joined(
    line: &Polyline,
    region: &Region,
    sliver: f64,
    route: &RouteOptions,
    clipped: &Clipped,
    room: f64,
) {
    let motif = Motif::new("m", line.clone());
    let trim = |route: RouteOptions| {
        let options = TrimOptions::default().with_sliver(sliver).with_route(route);
        trim_to_region(&motif, region, &options)
    };
    let trimmed = match trim(*route) {
        Ok(trimmed) => trimmed,
        Err(error) => return told(&error),
    };
    assert_eq!(trimmed.motifs.len(), trimmed.paths.len());
    for motif in &trimmed.motifs {
        finite(motif.points());
        for &point in motif.points() {
            lies_in(region, point, 100.0 * room);
        }
    }
    let report = &trimmed.report;
    let close =
        |a: f64, b: f64| (a - b).abs() <= 10.0 * room + 1e-7 * (1.0 + a.abs() + line.length());
    assert!(close(report.own_length, clipped.length()), "{report:?}");
    assert!(
        report.added_length >= -room && report.added_length.is_finite(),
        "{report:?}"
    );
    let all: f64 = trimmed.motifs.iter().map(Motif::length).sum();
    assert!(
        close(all, report.own_length + report.added_length),
        "{all} {report:?}"
    );
    let other = trim(route.with_order(JoinOrder::KeepAndReverse));
    // More freedom is never longer, at equal cuts; links left out are another matter.
    if let Ok(other) = other
        && route.order == JoinOrder::Free
        && route.max_link.is_none()
        && report.exactness == Exactness::Exact
        && other.report.cuts == report.cuts
    {
        let (free, kept) = (report.added_length, other.report.added_length);
        assert!(
            free <= kept + 10.0 * room + 1e-7 * (1.0 + kept),
            "{free} {kept}"
        );
    }
}
