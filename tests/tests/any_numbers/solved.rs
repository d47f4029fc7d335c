//! Solved plans whose open fields were changed, and all that is made of them.

use quiltpath_core::geom::{ConvexPolygon, Point};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::io::picture::write_picture;
use quiltpath_core::io::sheet::write_sheet;
use quiltpath_core::io::words;
use quiltpath_core::plan::{
    MotifRequest, Part, PieceKind, PlanSpec, Side, Solved, Stitching, solve, solve_anew,
    stitch_plan,
};
use quiltpath_core::strokes::Drawing;

use crate::kinds::{counted_kinds, measured_kinds};
use crate::panics::{NUMBERS, Panics, told};
use crate::samples::{points, wave};

const PLAN: &str = r#"{"unit": "in", "title": "Two rounds", "quilt": {"width": 40, "height": 60},
    "machine": {"throat": 18, "turned": true}, "borders": [
    {"name": "outer", "width": 6, "corner": {"style": "mitred"}, "side": {"motif": "wave"}},
    {"name": "inner", "width": 4, "corner": {"style": "butted"}, "side": {"motif": "wave"}}]}"#;

fn loaded(_: &MotifRequest) -> Result<Drawing, quiltpath_core::Error> {
    Ok(wave().into())
}

/// All that is made of a solved plan; and its layouts asked for every side.
fn made(spec: &PlanSpec, solved: &Solved, stitching: &Stitching) {
    for finding in stitching.all_findings(solved) {
        words::finding(finding, solved);
    }
    for stitching in [None, Some(stitching)] {
        told(write_picture(solved, stitching));
        if let Some(result) = told(PlanResult::new(solved, stitching)) {
            told(write_result(&result));
        }
    }
    told(write_sheet(solved, stitching));
    told(stitch_plan(spec, solved));
    stitching.piece_numbers(solved);
    let _ = (
        stitching.minutes(),
        stitching.job.count(),
        stitching.job.cusps(),
    );
    stitching.job.report();
    let _ = (
        solved.bounds(),
        solved.length(),
        solved.thread_cuts(),
        solved.worst(),
    );
    for part in [
        Part::Border(0),
        Part::Border(1),
        Part::Side(1, Side::LEFT),
        Part::Border(usize::MAX),
    ] {
        told(solve_anew(spec, solved, part, loaded));
    }
    for layout in &solved.layouts {
        let _ = (
            layout.file_name(),
            layout.depth(),
            layout.depths(),
            layout.is_wavy(),
        );
        for side in layout.sides().chain(Side::all(12)) {
            let _ = (layout.strip(side), layout.side_length(side));
        }
        told(layout.at_share(0.9));
        told(layout.region());
    }
}

#[test]
fn solved_plans_that_were_changed() {
    let mut panics = Panics::default();
    let spec = read_plan(PLAN.as_bytes()).expect("a plan");
    let solved = solve(&spec, loaded).expect("solved");
    let stitching = stitch_plan(&spec, &solved).expect("stitched");
    let triangle = points(&[(0.0, 0.0), (800.0, 0.0), (0.0, 800.0)]);
    let triangle = ConvexPolygon::new(triangle).expect("a polygon");
    type Change<'a> = (&'a str, Box<dyn Fn(&mut Solved, &mut Stitching) + 'a>);
    let mut changes: Vec<Change<'_>> = vec![
        ("as solved", Box::new(|_, _| {})),
        ("no pieces", Box::new(|solved, _| solved.pieces.clear())),
        (
            "a piece less",
            Box::new(|solved, _| drop(solved.pieces.remove(0))),
        ),
        ("no layouts", Box::new(|solved, _| solved.layouts.clear())),
        (
            "a layout more",
            Box::new(|solved, _| solved.layouts.push(solved.layouts[1].clone())),
        ),
        ("no paths", Box::new(|solved, _| solved.paths.clear())),
        (
            "an empty path",
            Box::new(|solved, _| solved.paths[0].pieces.clear()),
        ),
        ("no joins", Box::new(|solved, _| solved.joins.clear())),
        (
            "no widths",
            Box::new(|solved, _| solved.layouts[0].widths.clear()),
        ),
        (
            "no lines",
            Box::new(|solved, _| {
                let lines = &mut solved.layouts[0].lines;
                for line in [
                    &mut lines.edge,
                    &mut lines.seam,
                    &mut lines.outer,
                    &mut lines.inner,
                ] {
                    line.clear();
                }
            }),
        ),
        (
            "another quilt",
            Box::new(|solved, _| solved.quilt.outline = triangle.clone()),
        ),
        (
            "another seam",
            Box::new(|solved, _| solved.layouts[1].band.seam = triangle.clone()),
        ),
        ("no runs", Box::new(|_, stitching| stitching.runs.clear())),
        (
            "no passes",
            Box::new(|_, stitching| stitching.passes.clear()),
        ),
        (
            "empty runs",
            Box::new(|_, stitching| stitching.runs.iter_mut().for_each(|run| run.parts.clear())),
        ),
        (
            "no stitched lines",
            Box::new(|_, stitching| stitching.job.lines.clear()),
        ),
        (
            "no needle points",
            Box::new(|_, stitching| {
                for line in &mut stitching.job.lines {
                    line.stitches.points.clear();
                    line.stitches.report.tiny = usize::MAX;
                    line.ties.before.clear();
                }
            }),
        ),
    ];
    for n in [7, usize::MAX] {
        changes.push((
            "borders",
            Box::new(move |solved, _| solved.pieces[0].border = n),
        ));
        changes.push(("joins", Box::new(move |solved, _| solved.joins[0].to = n)));
        changes.push((
            "paths",
            Box::new(move |solved, _| solved.paths[0].pieces.push(n)),
        ));
        changes.push((
            "path borders",
            Box::new(move |solved, _| solved.paths[0].border = n),
        ));
        changes.push((
            "parts",
            Box::new(move |_, stitching| stitching.runs[0].parts[0].piece = n),
        ));
        changes.push((
            "runs",
            Box::new(move |_, stitching| stitching.passes[0].runs = n - 1..n),
        ));
        changes.push((
            "run passes",
            Box::new(move |_, stitching| stitching.runs[0].pass = n),
        ));
        changes.push((
            "repeats",
            Box::new(move |_, stitching| {
                for part in stitching.runs.iter_mut().flat_map(|run| &mut run.parts) {
                    (part.repeats, part.between) = (Some([n, 0]), [0.5, 0.1]);
                }
            }),
        ));
        changes.push((
            "counts",
            Box::new(move |_, stitching| stitching.least_cuts = n),
        ));
        changes.push((
            "numbers",
            Box::new(move |solved, _| {
                for piece in &mut solved.pieces {
                    if let PieceKind::Side(side) = &mut piece.kind {
                        side.fit.chosen.repeats = n;
                        side.links = n;
                    }
                }
                let first = solved.findings[0].clone();
                solved
                    .findings
                    .extend(counted_kinds(n).into_iter().map(|kind| {
                        let mut finding = first.clone();
                        (finding.kind, finding.piece, finding.border) = (kind, Some(n), Some(n));
                        finding
                    }));
            }),
        ));
    }
    for x in NUMBERS {
        changes.push((
            "shares",
            Box::new(move |_, stitching| {
                for part in stitching.runs.iter_mut().flat_map(|run| &mut run.parts) {
                    (part.repeats, part.in_repeats, part.between) = (None, Some([x, 1.5]), [x, x]);
                }
            }),
        ));
        changes.push((
            "shares of line",
            Box::new(move |_, stitching| {
                for part in stitching.runs.iter_mut().flat_map(|run| &mut run.parts) {
                    (part.repeats, part.in_repeats, part.between) = (None, None, [0.2, x]);
                }
            }),
        ));
        changes.push((
            "lengths",
            Box::new(move |solved, stitching| {
                solved.max_stretch = x;
                solved.join_tolerance = x;
                solved.joins[0].gap = x;
                solved.layouts[0].seam_gap = x;
                solved.layouts[0].widths[0].width = x;
                for piece in &mut solved.pieces {
                    piece.depth = x;
                    match &mut piece.kind {
                        PieceKind::Side(side) => {
                            (side.span, side.pitch, side.scale) = (x, x, [x; 2]);
                            (side.fit.chosen.stretch, side.levelled) = (x, x);
                        }
                        PieceKind::Corner(corner) => {
                            (corner.angle_degrees, corner.scale) = (x, [x; 2])
                        }
                        _ => {}
                    }
                }
                (stitching.throat, stitching.travel, stitching.time.loading) = (Some(x), x, x);
                (stitching.passes[0].top, stitching.job.length) = (x, x);
                (
                    stitching.job.thread.thread.needle,
                    stitching.job.time.moving,
                ) = (x, x);
                let first = solved.findings[0].clone();
                solved
                    .findings
                    .extend(measured_kinds(x).into_iter().map(|kind| {
                        let mut finding = first.clone();
                        (finding.kind, finding.places) = (kind, vec![Point::new(x, x); 3]);
                        finding
                    }));
            }),
        ));
    }
    for (what, change) in changes {
        let (mut solved, mut stitching) = (solved.clone(), stitching.clone());
        change(&mut solved, &mut stitching);
        panics.call(|| what.to_owned(), || made(&spec, &solved, &stitching));
    }
    panics.none();
}
