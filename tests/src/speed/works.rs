//! Our own works, ready to be timed or weighed at any size.

use std::any::Any;
use std::collections::HashMap;
use std::hint::black_box;

use quiltpath_core::geom::crossing::self_crossings;
use quiltpath_core::geom::flatten::{flatten, flatten_into};
use quiltpath_core::geom::{Bounds, Point, Polyline};
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::io::svg_read::read_svg;
use quiltpath_core::io::svg_write::{SvgPath, WriteOptions, write_svg};
use quiltpath_core::plan::{MotifRequest, PlanSpec, Solved, solve, stitch_plan};
use quiltpath_core::stitch::resample::{StitchOptions, resample};
use quiltpath_core::strokes::Drawing;
use quiltpath_core::transform::Transform;
use quiltpath_core::trim::clip;
use quiltpath_core::units::Unit;

use super::asked::Asked;
use super::inputs::{
    DemoPlan, curves, drawing, l, meander, path_data, small_files, spirograph, waves,
};

/// One run of a work; what it made is dropped by the caller, after the clock has stopped.
pub type Run = Box<dyn FnMut() -> Box<dyn Any>>;

/// Makes a run of something that gives a value.
pub fn run<T: 'static>(mut work: impl FnMut() -> T + 'static) -> Run {
    Box::new(move || Box::new(work()))
}

/// Points of the path for each stitch, nearly one for one.
pub const DENSE: f64 = 1.25;

/// One stitch for fifty points, which is 0.05 mm between the points at 10 stitches per inch.
pub const SPARSE: f64 = 50.0;

/// The flattening tolerance of the measurements.
pub const TOLERANCE: f64 = 0.01;

/// A work of ours with the sizes at which its growth is seen.
pub struct Work {
    /// What it does.
    pub name: &'static str,
    /// What its size counts.
    pub counts: &'static str,
    /// The sizes, from the smallest to the largest that is measured without being asked for.
    pub sizes: &'static [usize],
    /// Makes the input of a size; the size is what came out when it can't be met exactly.
    pub make: fn(usize) -> (usize, Run),
}

impl Work {
    /// The sizes that are asked for; the largest is for points alone, it would be too many files.
    pub fn sizes(&self, asked: &Asked) -> impl Iterator<Item = usize> {
        let large = (asked.large && self.counts != "files").then_some(LARGE);
        self.sizes.iter().copied().chain(large)
    }
}

const SIZES: &[usize] = &[1_000, 10_000, 100_000, 1_000_000];

/// The size that is measured only on request.
const LARGE: usize = 10_000_000;

/// The works, in the order of the data: read, flatten, map, cut, resample, plan, write.
pub const WORKS: &[Work] = &[
    Work {
        name: "read SVG",
        counts: "points of cubics",
        sizes: SIZES,
        make: |size| (size / 3 * 3 + 1, read(size / 3)),
    },
    Work {
        name: "flatten",
        counts: "points made",
        sizes: SIZES,
        make: |size| {
            let flat = |cubics| flatten(curves(cubics).iter(), TOLERANCE).expect("points");
            // Every cubic of the input makes nearly the same number of points.
            let each = flat(1000)[0].points.len() as f64 / 1000.0;
            let cubics = (size as f64 / each) as usize;
            (flat(cubics)[0].points.len(), flattened(cubics))
        },
    },
    Work {
        name: "affine",
        counts: "points",
        sizes: SIZES,
        make: |size| (size, affine(size)),
    },
    Work {
        name: "box",
        counts: "points",
        sizes: SIZES,
        make: |size| {
            let points = meander(size, DENSE);
            (size, run(move || Bounds::of(black_box(&points))))
        },
    },
    Work {
        name: "self-crossings",
        counts: "points",
        sizes: SIZES,
        make: |size| {
            let points = waves(size);
            (size, run(move || self_crossings(black_box(&points)).len()))
        },
    },
    Work {
        name: "cut to an L, few crossings",
        counts: "points",
        sizes: SIZES,
        make: |size| (size, cut(waves(size))),
    },
    Work {
        name: "cut to an L, many crossings",
        counts: "points",
        sizes: SIZES,
        make: |size| (size, cut(spirograph(size))),
    },
    Work {
        name: "resample, dense",
        counts: "points",
        sizes: SIZES,
        make: |size| (size, resampled(size, DENSE)),
    },
    Work {
        name: "resample, sparse",
        counts: "points",
        sizes: SIZES,
        make: |size| (size, resampled(size, SPARSE)),
    },
    Work {
        name: "read small files and box",
        counts: "files",
        sizes: &[10, 100, 1_000, 10_000],
        make: |size| (size, boxes(size, 1)),
    },
    Work {
        name: "plan: solve",
        counts: "points",
        sizes: PLANS,
        make: |size| planned(size, false),
    },
    Work {
        name: "plan: solve and stitch",
        counts: "points",
        sizes: PLANS,
        make: |size| planned(size, true),
    },
    Work {
        name: "plan: write result.json",
        counts: "points",
        sizes: PLANS,
        make: |size| {
            let plan = PlanWork::of(size);
            let solved = plan.solve();
            let points = plan.points;
            let write = move || {
                let result = PlanResult::new(black_box(&solved), None).expect("a whole plan");
                write_result(&result).expect("finite numbers")
            };
            (points, run(write))
        },
    },
    Work {
        name: "write SVG",
        counts: "points",
        sizes: SIZES,
        make: |size| {
            let points = meander(size, DENSE);
            let write = move || {
                let path = SvgPath::new("line", black_box(&points));
                let mut svg = String::new();
                write_svg(&mut svg, Unit::Mm, &[path], &WriteOptions::default()).expect("an SVG");
                svg
            };
            (size, run(write))
        },
    },
];

/// The demo's curves alone make 20,000 points.
const PLANS: &[usize] = &[30_000, 100_000, 300_000, 1_000_000];

/// Reads an SVG file of this many cubics.
#[must_use]
pub fn read(cubics: usize) -> Run {
    let svg = drawing(&path_data(&curves(cubics)));
    run(move || read_svg(black_box(svg.as_bytes())).expect("a drawing"))
}

/// Flattens this many cubics.
#[must_use]
pub fn flattened(cubics: usize) -> Run {
    let path = curves(cubics);
    run(move || flatten(black_box(&path).iter(), TOLERANCE).expect("points"))
}

/// Flattens this many cubics again and again into the same memory.
///
/// # Panics
///
/// Never: the curves are finite.
#[must_use]
pub fn flattened_again(cubics: usize) -> Run {
    let path = curves(cubics);
    let mut flat = Vec::new();
    run(move || flatten_into(black_box(&path).iter(), TOLERANCE, &mut flat).expect("points"))
}

/// Turns this many points, in place.
#[must_use]
pub fn affine(points: usize) -> Run {
    let mut line = meander(points, DENSE);
    let turn = Transform::rotate_degrees(1.0).then(Transform::translate(0.25, -0.25));
    run(move || turn.apply_all(black_box(&mut line)))
}

/// Cuts a line to the L.
///
/// # Panics
///
/// When the points are no line.
#[must_use]
pub fn cut(points: Vec<Point>) -> Run {
    let line = Polyline::new(points).expect("a line");
    let l = l();
    run(move || clip(black_box(&line), &l, 0.01).expect("pieces"))
}

/// Lays even stitches along a meander of this many points.
///
/// # Panics
///
/// Never: a meander is a line.
#[must_use]
pub fn resampled(points: usize, per_stitch: f64) -> Run {
    let line = Polyline::new(meander(points, per_stitch)).expect("a line");
    let options = StitchOptions::new(per_stitch);
    run(move || resample(black_box(&line), &options).expect("stitches"))
}

/// Reads small files, each to the exact box of its curves, on one thread or several.
#[must_use]
pub fn boxes(files: usize, threads: usize) -> Run {
    let files = small_files(files);
    run(move || on_threads(black_box(&files), threads, box_of))
}

fn box_of(file: &str) -> Bounds {
    let drawing = read_svg(file.as_bytes()).expect("a drawing");
    drawing.bounds().expect("a path")
}

/// What `work` makes of each file, the files shared out evenly.
///
/// # Panics
///
/// When `work` does.
pub fn on_threads<T: Send + 'static>(
    files: &[String],
    threads: usize,
    work: impl Fn(&str) -> T + Copy + Sync + Send,
) -> Vec<T> {
    let each = move |share: &[String]| -> Vec<T> { share.iter().map(|file| work(file)).collect() };
    if threads == 1 {
        return each(files);
    }
    std::thread::scope(|scope| {
        let shares = files.chunks(files.len().div_ceil(threads));
        let workers: Vec<_> = shares
            .map(|share| scope.spawn(move || each(share)))
            .collect();
        (workers.into_iter())
            .flat_map(|worker| worker.join().expect("no panic"))
            .collect()
    })
}

/// The demo's plan with its motifs in memory.
pub struct PlanWork {
    /// The points of all the pieces.
    pub points: usize,
    spec: PlanSpec,
    motifs: HashMap<MotifRequest, Drawing>,
}

impl PlanWork {
    /// The plan of about this many points.
    ///
    /// # Panics
    ///
    /// When the demo can't be solved.
    #[must_use]
    pub fn of(points: usize) -> Self {
        let demo = DemoPlan::of(points).expect("the demo");
        let mut motifs = HashMap::new();
        solve(&demo.spec, |request| {
            // Lines, not curves: flattening has a row of its own.
            let line: Drawing = demo.line(request)?.into();
            motifs.insert(request.clone(), line.clone());
            Ok(line)
        })
        .expect("a plan");
        Self {
            points: demo.points,
            spec: demo.spec,
            motifs,
        }
    }

    fn solve(&self) -> Solved {
        let load = |request: &MotifRequest| Ok(self.motifs[request].clone());
        solve(&self.spec, load).expect("a plan")
    }
}

/// Solves the demo's plan of about this many points, and brings it to the machine if wanted.
#[must_use]
pub fn planned(points: usize, stitched: bool) -> (usize, Run) {
    let plan = PlanWork::of(points);
    let points = plan.points;
    let work = move || {
        let solved = plan.solve();
        let stitching = stitched.then(|| stitch_plan(&plan.spec, &solved).expect("stitches"));
        (solved, stitching)
    };
    (points, run(work))
}
