//! Checks that the artwork keeps the measures the rest of the project relies on.

use super::{border, corner, files, flowers, vine};
use kurbo::{BezPath, ParamCurve, PathEl, PathSeg, Point, Rect, Shape, Vec2};

const RIGHT: Vec2 = Vec2::new(1.0, 0.0);
const UP: Vec2 = Vec2::new(0.0, -1.0);

/// The line in a file, as a reader of the file sees it.
fn line(name: &str) -> BezPath {
    let text = files().into_iter().find(|f| f.0 == name).unwrap().1;
    assert_eq!(text.matches("<path").count(), 1);
    let data = text.split(" d=\"").nth(1).unwrap();
    BezPath::from_svg(data.split('"').next().unwrap()).unwrap()
}

fn cubics(line: &BezPath) -> Vec<kurbo::CubicBez> {
    line.segments()
        .map(|s| match s {
            PathSeg::Cubic(c) => c,
            other => panic!("not a cubic: {other:?}"),
        })
        .collect()
}

/// Points close together all along the line.
fn ink(line: &BezPath) -> Vec<Point> {
    let step = |k: i32| f64::from(k) / 32.0;
    line.segments()
        .flat_map(|s| (0..=32).map(move |k| s.eval(step(k))))
        .collect()
}

fn assert_ends(line: &BezPath, start: (Point, Vec2), end: (Point, Vec2)) {
    let all = cubics(line);
    let (first, last) = (all[0], all[all.len() - 1]);
    let arms = (first.p1 - first.p0, last.p3 - last.p2);
    assert_eq!((first.p0, last.p3), (start.0, end.0));
    for (arm, heading) in [(arms.0, start.1), (arms.1, end.1)] {
        assert!(arm.hypot() > 0.01);
        assert_eq!(arm.cross(heading), 0.0);
        assert!(arm.dot(heading) > 0.0);
    }
}

fn assert_box(found: Rect, wanted: (f64, f64)) {
    let wanted = Rect::new(0.0, 0.0, wanted.0, wanted.1);
    let off = [
        found.x0 - wanted.x0,
        found.y0 - wanted.y0,
        found.x1 - wanted.x1,
        found.y1 - wanted.y1,
    ];
    assert!(off.iter().all(|d| d.abs() < 1e-6), "{found:?}");
}

/// Bounds of the ink of a leg, past the inner corner.
fn leg(line: &BezPath, keep: impl Fn(&Rect) -> bool) -> Rect {
    let boxes = line.segments().map(|s| s.bounding_box());
    boxes.filter(keep).reduce(|a, b| a.union(b)).unwrap()
}

/// Area of the largest empty rectangle in a corner, given the ink as seen from there.
fn empty_area(mut seen: Vec<(f64, f64)>, size: (f64, f64)) -> f64 {
    seen.push((size.0, 0.0));
    seen.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut best, mut height) = (0.0_f64, size.1);
    for (x, y) in seen {
        best = best.max(x * height);
        height = height.min(y);
    }
    best
}

/// Checks the L: `depth` deep legs, an empty inner corner and no rival to it.
fn assert_elbow(line: &BezPath, (width, height): (f64, f64), depth: f64) {
    let ink = ink(line);
    assert!(!ink.iter().any(|p| p.x > depth + 1e-9 && p.y > depth + 1e-9));
    let top = leg(line, |b| b.x0 > depth);
    let left = leg(line, |b| b.y0 > depth);
    assert!(top.y0.abs() < 1e-6 && (top.y1 - depth).abs() < 1e-6);
    assert!(left.x0.abs() < 1e-6 && (left.x1 - depth).abs() < 1e-6);
    let area = |right: bool, bottom: bool| {
        let seen = ink.iter().map(|p| {
            let x = if right { width - p.x } else { p.x };
            (x, if bottom { height - p.y } else { p.y })
        });
        empty_area(seen.collect(), (width, height))
    };
    let inner = area(true, true);
    assert!(inner < 1.02 * (width - depth) * (height - depth));
    for rival in [area(false, false), area(true, false), area(false, true)] {
        assert!(inner > 2.0 * rival, "{inner} and {rival}");
    }
}

#[test]
fn every_file_holds_one_open_line_of_cubics() {
    for (name, _) in files() {
        let line = line(name);
        let moves = line.iter().filter(|el| matches!(el, PathEl::MoveTo(_)));
        assert_eq!(moves.count(), 1, "{name}");
        let all = cubics(&line);
        assert!(all.windows(2).all(|w| w[0].p3 == w[1].p0), "{name}");
        for p in all.iter().flat_map(|c| [c.p0, c.p1, c.p2, c.p3]) {
            for v in [p.x, p.y] {
                let decimals = v.to_string().split('.').nth(1).map_or(0, str::len);
                assert!(decimals <= 6, "{name}: {v}");
            }
        }
    }
}

#[test]
fn the_drawings_are_rich_enough() {
    let count = |name| cubics(&line(name)).len();
    assert!(count("demo/border.svg") + count("demo/corner.svg") >= 200);
    assert!((20..=60).contains(&count("motifs/vine.svg")));
}

/// Neighbouring lines keep a quarter inch, but for the places where they cross or meet: two lines
/// at an angle of 25 degrees or more are that far apart 0.6 in from where they meet.
#[test]
fn border_and_corner_are_open() {
    const APART: f64 = 0.25;
    const NEAR: f64 = 0.6;
    for name in ["demo/border.svg", "demo/corner.svg"] {
        let line = line(name);
        let ink = ink(&line);
        let mut at = vec![0.0];
        for pair in ink.windows(2) {
            at.push(at[at.len() - 1] + pair[0].distance(pair[1]));
        }
        // The ink in cells, so that only neighbours are compared.
        let cell = |p: Point| ((p.x / APART) as i32, (p.y / APART) as i32);
        let mut cells = std::collections::HashMap::<_, Vec<usize>>::new();
        for (k, &p) in ink.iter().enumerate() {
            cells.entry(cell(p)).or_default().push(k);
        }
        let mut close = Vec::new();
        for (k, &p) in ink.iter().enumerate() {
            let (x, y) = cell(p);
            for place in (-1..=1).flat_map(|dx| (-1..=1).map(move |dy| (x + dx, y + dy))) {
                for &other in cells.get(&place).into_iter().flatten() {
                    let away = p.distance(ink[other]);
                    // What lies on both sides of a turn is no neighbour.
                    if away < APART && at[other] - at[k] > 3.0 * APART {
                        close.push((p.midpoint(ink[other]), away));
                    }
                }
            }
        }
        // Samples are 0.05 in apart or less: what meets is nearer than half of that.
        let meets: Vec<Point> = close.iter().filter(|c| c.1 < 0.025).map(|c| c.0).collect();
        assert!(meets.len() > 10, "{name}");
        for (place, away) in close {
            let meet = meets.iter().any(|m| m.distance(place) < NEAR);
            assert!(meet, "{name}: {away} at {place}");
        }
    }
}

#[test]
fn border_fits() {
    let line = line("demo/border.svg");
    let port = |x| (Point::new(x, border::PORT), RIGHT);
    assert_ends(&line, port(0.0), port(border::WIDTH));
    assert_box(line.bounding_box(), (border::WIDTH, border::HEIGHT));
}

#[test]
fn border_is_its_own_mirror_image() {
    let line = line("demo/border.svg");
    assert_mirrored(&line, |p| Point::new(border::WIDTH - p.x, p.y));
}

#[test]
fn border_repeats_join_without_a_jump_in_curvature() {
    let all = cubics(&line("demo/border.svg"));
    let (first, last) = (all[0], all[all.len() - 1]);
    // A mirror image has the opposite turn, and sewn backwards the same again.
    let near = |a: f64, b: f64| (a - b).abs() < 1e-5;
    let arms = (first.p2 - first.p0, last.p3 - last.p1);
    assert!(near(arms.0.x, arms.1.x) && near(arms.0.y, -arms.1.y));
}

#[test]
fn corner_fits() {
    let line = line("demo/corner.svg");
    let (side, port) = (corner::SIDE, border::PORT);
    let start = (Point::new(port, side), UP);
    assert_ends(&line, start, (Point::new(side, port), RIGHT));
    assert_box(line.bounding_box(), (side, side));
    assert_elbow(&line, (side, side), border::HEIGHT);
}

#[test]
fn corner_is_its_own_mirror_image() {
    let line = line("demo/corner.svg");
    assert_mirrored(&line, |p| Point::new(p.y, p.x));
}

/// Compares the line with its mirror image sewn backwards, at the same stages.
fn assert_mirrored(line: &BezPath, mirror: impl Fn(Point) -> Point) {
    let there = ink(line);
    let back = there.iter().rev().map(|&p| mirror(p));
    assert!(there.iter().zip(back).all(|(a, b)| a.distance(b) < 1e-5));
}

#[test]
fn vine_fits_and_runs_one_way() {
    let line = line("motifs/vine.svg");
    let port = |x| (Point::new(x, vine::PORT), RIGHT);
    assert_ends(&line, port(0.0), port(vine::WIDTH));
    assert_box(line.bounding_box(), (vine::WIDTH, vine::HEIGHT));
    assert_lopsided(&line, |p| Point::new(vine::WIDTH - p.x, p.y));
    assert_lopsided(&line, |p| Point::new(p.x, vine::HEIGHT - p.y));
}

#[test]
fn flowers_fit_and_their_rims_are_circles() {
    let line = line("motifs/flowers.svg");
    let port = |x| (Point::new(x, flowers::PORT), RIGHT);
    assert_ends(&line, port(0.0), port(flowers::WIDTH));
    assert_box(line.bounding_box(), (flowers::WIDTH, flowers::HEIGHT));
    for centre in [
        (1.0, flowers::RADIUS),
        (5.0, flowers::HEIGHT - flowers::RADIUS),
    ] {
        let rim = ink(&line).into_iter().filter_map(|p| {
            let away = p.distance(centre.into()) / flowers::RADIUS;
            // Petals end at 0.8 of it, and below the rim the stem comes near.
            let turn = (p - Point::from(centre)).atan2().to_degrees().abs();
            ((0.9..1.1).contains(&away) && turn.min(180.0 - turn) < 45.0).then_some(away)
        });
        let rim: Vec<f64> = rim.collect();
        assert!(rim.len() > 100);
        assert!(rim.iter().all(|away| (away - 1.0).abs() < 1e-4), "{rim:?}");
    }
}

#[test]
fn hook_fits_and_is_lopsided() {
    let line = line("motifs/hook-corner.svg");
    let (width, height) = vine::HOOK;
    let start = (Point::new(vine::PORT, height), UP);
    assert_ends(&line, start, (Point::new(width, vine::PORT), RIGHT));
    assert_box(line.bounding_box(), vine::HOOK);
    assert_elbow(&line, vine::HOOK, vine::HEIGHT);
    assert_lopsided(&line, |p| Point::new(p.y, p.x));
}

/// Checks that some ink's mirror image lies well away from any ink.
fn assert_lopsided(line: &BezPath, mirror: impl Fn(Point) -> Point) {
    let ink = ink(line);
    let far = |p: &Point| ink.iter().all(|q| mirror(*p).distance(*q) > 0.3);
    assert!(ink.iter().any(far));
}

#[test]
fn block_is_one_closed_line_that_fills_its_square() {
    let block = line("demo/block.svg");
    assert_box(block.bounding_box(), (12.0, 12.0));
    let all = cubics(&block);
    assert_eq!(all[0].p0, all[all.len() - 1].p3);
    for pair in all.windows(2) {
        assert_eq!(pair[0].p3, pair[1].p0);
    }
}
