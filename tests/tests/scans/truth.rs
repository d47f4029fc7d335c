//! Known lines, and how far what was read is from them.

use kurbo::{BezPath, PathEl};
use quiltpath_core::geom::Point;
use quiltpath_core::strokes::Drawing;

/// A drawing by its path data, in millimetres on a page of this size.
pub(crate) struct Drawn {
    pub(crate) name: &'static str,
    pub(crate) size: [f64; 2],
    pub(crate) data: &'static str,
}

/// A scroll with a loop, a flower with crossings and sharp points, a comb of straight lines.
pub(crate) static DRAWINGS: [Drawn; 3] = [
    Drawn {
        name: "scroll",
        size: [130.0, 80.0],
        data: "M10 40 C 25 40 30 15 48 15 C 62 15 66 34 54 38 C 44 41 38 28 48 24 M48 15 C 80 12 70 66 92 66 C 112 66 112 40 96 42 C 84 44 88 58 97 54 M92 66 C 104 66 112 62 120 40",
    },
    Drawn {
        name: "flower",
        size: [110.0, 120.0],
        data: "M55 95 C 52 80 55 70 55 58 M55 58 C 30 60 22 36 40 26 C 52 20 58 40 55 58 C 50 34 70 14 82 30 C 92 46 72 60 55 58 M20 70 C 40 74 70 74 92 64 M20 84 L 38 60 L 56 92 M70 100 A 12 12 0 1 1 94 100 A 12 12 0 1 1 70 100",
    },
    Drawn {
        name: "comb",
        size: [120.0, 60.0],
        data: "M10 30 H 110 M20 10 V 50 M35 10 L 50 50 M55 50 L 85 10 M95 12 L 75 48 M100 10 C 108 20 108 40 100 50",
    },
];

impl Drawn {
    /// Points along the lines, no more than 0.05 mm apart.
    pub(crate) fn points(&self) -> Vec<Point> {
        points(self.data)
    }
}

pub(crate) fn points(data: &str) -> Vec<Point> {
    let path = BezPath::from_svg(data).expect("path data");
    let mut out = Vec::new();
    let mut from = kurbo::Point::ZERO;
    kurbo::flatten(path, 1e-3, |element| match element {
        PathEl::MoveTo(to) => from = to,
        PathEl::LineTo(to) => {
            let parts = ((to - from).hypot() / 0.05).ceil().max(1.0) as usize;
            let at = |part: usize| from.lerp(to, part as f64 / parts as f64);
            out.extend((0..=parts).map(at).map(|at| Point::new(at.x, at.y)));
            from = to;
        }
        _ => {}
    });
    out
}

pub(crate) fn width(points: &[Point]) -> f64 {
    let side = |least: fn(f64, f64) -> f64, from: f64| {
        points.iter().map(|point| point.x).fold(from, least)
    };
    side(f64::max, f64::NEG_INFINITY) - side(f64::min, f64::INFINITY)
}

/// Distances in millimetres: of what was read from the truth, and of the truth from what was read.
#[derive(Debug)]
pub(crate) struct Off {
    pub(crate) middle: f64,
    pub(crate) most: f64,
    pub(crate) worst: f64,
    pub(crate) missed: f64,
}

/// Points along a drawing, no more than 0.05 mm apart.
pub(crate) fn along(drawing: &Drawing) -> Vec<Point> {
    drawing
        .strokes
        .iter()
        .flat_map(|stroke| points(&stroke.path().to_svg()))
        .collect()
}

/// How far a drawing is from the truth. Where both lie is the drawing's business, not how they are
/// turned or how large they are: the truth is moved by the middle of the differences.
pub(crate) fn held_against(drawing: &Drawing, truth: &[Point], pen: f64) -> Off {
    let found = along(drawing);
    let least = |points: &[Point]| {
        let side = |of: fn(&Point) -> f64| points.iter().map(of).fold(f64::INFINITY, f64::min);
        Point::new(side(|point| point.x), side(|point| point.y))
    };
    let mut shift = least(truth) - least(&found);
    let grid = Grid::of(truth);
    for _ in 0..4 {
        let mut sum = quiltpath_core::geom::Vector::zeros();
        for point in &found {
            sum += grid.nearest(point + shift) - (point + shift);
        }
        shift += sum / found.len() as f64;
    }
    let moved: Vec<Point> = found.iter().map(|point| point + shift).collect();
    // No line can be told from another where both are within one pen.
    let [crowded, free]: [Vec<(Point, bool)>; 2] = {
        let all = truth.iter().copied().zip(crowded(truth, pen));
        let (crowded, free) = all.partition(|(_, crowded)| *crowded);
        [crowded, free]
    };
    let places = |points: Vec<(Point, bool)>| points.into_iter().map(|(point, _)| point);
    let crowded = Grid::of(&places(crowded).collect::<Vec<_>>());
    let judged = |point: &Point| (crowded.nearest(*point) - point).norm() > pen;
    let mut off: Vec<f64> = moved
        .iter()
        .filter(|point| judged(point))
        .map(|&point| (grid.nearest(point) - point).norm())
        .collect();
    off.sort_by(f64::total_cmp);
    let own = Grid::of(&moved);
    let missed = places(free)
        .filter(judged)
        .map(|point| (own.nearest(point) - point).norm());
    Off {
        middle: off[off.len() / 2],
        most: off[off.len() * 95 / 100],
        worst: off[off.len() - 1],
        missed: missed.fold(0.0, f64::max),
    }
}

/// Which points have another part of the line, or another line, within a pen; those near by along
/// the line itself don't count.
fn crowded(points: &[Point], pen: f64) -> Vec<bool> {
    let cell = |point: Point| [point.x, point.y].map(|at| (at / pen).floor() as i64);
    let mut cells: std::collections::HashMap<_, Vec<usize>> = std::collections::HashMap::new();
    for (at, point) in points.iter().enumerate() {
        cells.entry(cell(*point)).or_default().push(at);
    }
    // Points are 0.05 mm apart at most.
    let along = (4.0 * pen / 0.05) as usize;
    let crowded = points.iter().enumerate().map(|(at, &point)| {
        let [x, y] = cell(point);
        let about = (-1..=1).flat_map(|dx| (-1..=1).map(move |dy| [x + dx, y + dy]));
        let mut others = about.filter_map(|cell| cells.get(&cell)).flatten();
        others.any(|&other| other.abs_diff(at) > along && (points[other] - point).norm() < pen)
    });
    crowded.collect()
}

/// Points by the square millimetre.
pub(crate) struct Grid {
    cells: std::collections::HashMap<[i64; 2], Vec<Point>>,
}

impl Grid {
    pub(crate) fn of(points: &[Point]) -> Self {
        let mut cells: std::collections::HashMap<_, Vec<Point>> = std::collections::HashMap::new();
        for point in points {
            cells
                .entry([point.x, point.y].map(|at| at.floor() as i64))
                .or_default()
                .push(*point);
        }
        Self { cells }
    }

    /// The nearest point; one 20 mm off where there is none within 3 mm.
    pub(crate) fn nearest(&self, point: Point) -> Point {
        let [x, y] = [point.x, point.y].map(|at| at.floor() as i64);
        for reach in 1..=3 {
            let about =
                (-reach..=reach).flat_map(|dx| (-reach..=reach).map(move |dy| [x + dx, y + dy]));
            let all = about.filter_map(|cell| self.cells.get(&cell)).flatten();
            let nearest = all.min_by(|a, b| (*a - point).norm().total_cmp(&(*b - point).norm()));
            if let Some(nearest) = nearest
                && (nearest - point).norm() <= reach as f64
            {
                return *nearest;
            }
        }
        point + quiltpath_core::geom::Vector::new(20.0, 0.0)
    }
}
