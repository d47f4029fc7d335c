//! The inputs of the measurements, made by rule: the same bits on every run.

use std::fmt::Write;
use std::path::Path;

use kurbo::{BezPath, PathEl, Vec2};
use quiltpath_core::Error;
use quiltpath_core::geom::region::Region;
use quiltpath_core::geom::{BoxCorner, Point, Vector};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::svg_read::read_svg;
use quiltpath_core::leg::l_region;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::spec::LengthSpec;
use quiltpath_core::plan::{MotifRequest, PlanSpec, solve};
use quiltpath_core::strokes::{Drawing, OneLineOptions};
use quiltpath_core::units::Unit;

/// How many cubics one turn of the small loops takes.
const CUBICS_PER_LOOP: f64 = 8.5;

/// One open path of this many cubics: loops of radius 8 along a wide curve, within 0 and 1000.
///
/// Each cubic turns by about 42 degrees, as a drawing program's cubics of feathers and loops do.
#[must_use]
pub fn curves(cubics: usize) -> BezPath {
    let fast = 37.0;
    let step = std::f64::consts::TAU / fast / CUBICS_PER_LOOP;
    let slow = 0.618;
    let at = |index: usize| {
        let t = index as f64 * step;
        let place = kurbo::Point::new(
            500.0 + 400.0 * t.sin() + 8.0 * (fast * t).cos(),
            500.0 + 400.0 * (slow * t).sin() + 8.0 * (fast * t).sin(),
        );
        let speed = Vec2::new(
            400.0 * t.cos() - 8.0 * fast * (fast * t).sin(),
            400.0 * slow * (slow * t).cos() + 8.0 * fast * (fast * t).cos(),
        );
        (place, speed * (step / 3.0))
    };
    let mut path = BezPath::with_capacity(cubics + 1);
    let (mut from, mut arm) = at(0);
    path.move_to(from);
    for index in 1..=cubics {
        let (to, next) = at(index);
        path.curve_to(from + arm, to - next, to);
        (from, arm) = (to, next);
    }
    path
}

/// The path data of a path, every segment written out, four decimals.
#[must_use]
pub fn path_data(path: &BezPath) -> String {
    let mut data = String::new();
    for element in path.elements() {
        let written = match element {
            PathEl::MoveTo(p) => write!(data, "M{:.4} {:.4}", p.x, p.y),
            PathEl::LineTo(p) => write!(data, " L{:.4} {:.4}", p.x, p.y),
            PathEl::QuadTo(a, p) => {
                write!(data, " Q{:.4} {:.4} {:.4} {:.4}", a.x, a.y, p.x, p.y)
            }
            PathEl::CurveTo(a, b, p) => write!(
                data,
                " C{:.4} {:.4} {:.4} {:.4} {:.4} {:.4}",
                a.x, a.y, b.x, b.y, p.x, p.y
            ),
            PathEl::ClosePath => write!(data, " Z"),
        };
        written.expect("a string takes everything");
    }
    data
}

/// An SVG file of one path with this data; one unit of it is 1 mm.
#[must_use]
pub fn drawing(data: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1000mm\" height=\"1000mm\" \
         viewBox=\"0 0 1000 1000\">\n<path id=\"line\" fill=\"none\" stroke=\"black\" d=\"{data}\"/>\n</svg>\n"
    )
}

/// Small SVG files, each of three paths of 25 cubics; no two are the same.
#[must_use]
pub fn small_files(count: usize) -> Vec<String> {
    let curves = curves(25 * 64);
    let cubics = &curves.elements()[1..];
    let start = |index: usize| match cubics[index % cubics.len()] {
        PathEl::CurveTo(_, _, to) => to,
        _ => kurbo::Point::ORIGIN,
    };
    (0..count)
        .map(|file| {
            let mut body = String::new();
            for path in 0..3 {
                let first = 7 * file + 400 * path;
                let drawn = (first + 1..=first + 25).map(|index| cubics[index % cubics.len()]);
                let drawn = std::iter::once(PathEl::MoveTo(start(first))).chain(drawn);
                let data = path_data(&drawn.collect());
                writeln!(
                    body,
                    "  <path id=\"p{path}\" fill=\"none\" stroke=\"black\" stroke-width=\"0.5\" d=\"{data}\"/>"
                )
                .expect("a string takes everything");
            }
            format!(
                "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" \
                 width=\"10in\" height=\"10in\" viewBox=\"0 0 1000 1000\">\n  <title>Motif {file}</title>\n{body}</svg>\n"
            )
        })
        .collect()
}

/// The L that lines are cut to: legs of 4 along the top and the left of a square of 9.
///
/// # Panics
///
/// Never: the measures are those of an L.
#[must_use]
pub fn l() -> Region {
    l_region(BoxCorner::TopLeft, 9.0, 9.0, 4.0).expect("an L")
}

/// Rows of waves back and forth over the L: hardly any crossing.
#[must_use]
pub fn waves(points: usize) -> Vec<Point> {
    let at = |index: usize| {
        let down = index as f64 / points as f64;
        let row = down * 100.0;
        let across = (row.fract() * 2.0 - 1.0).abs();
        let wave = 0.03 * (row * 60.0).sin();
        Point::new(9.5 * across - 0.2, 9.4 * down - 0.2 + wave)
    };
    (0..points).map(at).collect()
}

/// A spirograph of 300 turns over the L: each turn crosses most others.
#[must_use]
pub fn spirograph(points: usize) -> Vec<Point> {
    let at = |index: usize| {
        let angle = index as f64 / points as f64 * std::f64::consts::TAU * 300.5;
        let (sin, cos) = angle.sin_cos();
        let (fine_sin, fine_cos) = (angle * 2.31).sin_cos();
        Point::new(
            4.5 + 3.3 * cos + 1.9 * fine_cos,
            4.5 + 3.3 * sin - 1.9 * fine_sin,
        )
    };
    (0..points).map(at).collect()
}

/// A meander with arcs of about 12 stitches' radius: points a distance of 1 apart.
#[must_use]
pub fn meander(points: usize, per_stitch: f64) -> Vec<Point> {
    let radius = 12.0 * per_stitch;
    let mut heading: f64 = 0.0;
    let mut at = Point::origin();
    (0..points)
        .map(|number| {
            let phase = number as f64 / (4.0 * radius);
            heading += phase.cos() / radius;
            at += Vector::new(heading.cos(), heading.sin());
            at
        })
        .collect()
}

/// The demo's plan of four drawn corners and four sides, flattened as finely as a count takes.
pub struct DemoPlan {
    /// The plan, with its flattening tolerance.
    pub spec: PlanSpec,
    /// The points of all the pieces.
    pub points: usize,
    drawings: Vec<Drawing>,
}

impl DemoPlan {
    /// The folder of the demo.
    #[must_use]
    pub fn folder() -> &'static Path {
        Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../fixtures/demo"))
    }

    /// The plan whose pieces have about this many points; no fewer than its cubics.
    ///
    /// # Errors
    ///
    /// Those of reading and solving the demo.
    pub fn of(points: usize) -> Result<Self, Error> {
        let read = |name: &str| {
            let place = Self::folder().join(name);
            std::fs::read(&place).unwrap_or_else(|e| panic!("{}: {e}", place.display()))
        };
        let mut plan = Self {
            spec: read_plan(&read("plan.json"))?,
            points: 0,
            drawings: Vec::new(),
        };
        for name in ["corner.svg", "border.svg"] {
            let drawing = read_svg(&read(name))?.into_drawing(name);
            plan.drawings.push(drawing);
        }
        // Points go with the inverse square root of the tolerance.
        let mut tolerance = 0.01;
        for _ in 0..4 {
            plan.spec.flattening = Some(LengthSpec::with(tolerance, Unit::Mm));
            let solved = solve(&plan.spec, |request| Ok(plan.drawing(request).clone()))?;
            plan.points = solved
                .pieces
                .iter()
                .map(|p| p.lines()[0].motif.points().len())
                .sum();
            let ratio = plan.points as f64 / points as f64;
            if (ratio - 1.0).abs() < 0.01 {
                break;
            }
            tolerance = (tolerance * ratio * ratio).clamp(1e-9, 1.0);
        }
        Ok(plan)
    }

    fn drawing(&self, request: &MotifRequest) -> &Drawing {
        let mut drawings = self.drawings.iter();
        let drawing = drawings.find(|drawing| drawing.name == request.name);
        drawing.unwrap_or_else(|| panic!("the demo has no drawing {}", request.name))
    }

    /// The line of the drawing that the plan asks for.
    ///
    /// # Errors
    ///
    /// Those of flattening and joining.
    pub fn line(&self, request: &MotifRequest) -> Result<Motif, Error> {
        let tolerances = self.spec.tolerances()?;
        let options = OneLineOptions::default()
            .with_flattening(tolerances.flattening)
            .with_join(tolerances.join);
        Ok(self.drawing(request).one_line(&options)?.motif)
    }
}
