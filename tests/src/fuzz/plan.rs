//! Whole plans from JSON: read, solved, stitched, written as result, picture and sheet.

use quiltpath_core::Error;
use quiltpath_core::geom::Point;
use quiltpath_core::io::json::result::{PlanResult, read_result, write_result};
use quiltpath_core::io::json::{read_plan, read_points};
use quiltpath_core::io::picture::write_picture;
use quiltpath_core::io::sheet::write_sheet;
use quiltpath_core::io::words;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::{
    MotifRequest, PlanSpec, Quilt, Solved, Stitching, layouts, solve, stitch_plan,
};
use quiltpath_core::strokes::Drawing;
use quiltpath_core::units::Unit;

use super::dice::{finite, told};

pub(super) fn plan(data: &[u8]) {
    match read_plan(data) {
        Ok(spec) => worked(&spec, motif_named),
        Err(error) => told(&error),
    }
}

const WAVE: &[(f64, f64)] = &[
    (0.0, 25.0),
    (25.0, 0.0),
    (50.0, 25.0),
    (75.0, 50.0),
    (100.0, 25.0),
];
const CORNER: &[(f64, f64)] = &[
    (25.0, 125.0),
    (50.0, 115.0),
    (0.0, 100.0),
    (50.0, 75.0),
    (0.0, 25.0),
    (25.0, 0.0),
    (75.0, 50.0),
    (100.0, 0.0),
    (115.0, 50.0),
    (125.0, 25.0),
];
const ROSETTE: &[(f64, f64)] = &[
    (50.0, 0.0),
    (60.0, 40.0),
    (100.0, 50.0),
    (60.0, 60.0),
    (50.0, 100.0),
    (40.0, 60.0),
    (0.0, 50.0),
    (40.0, 40.0),
    (50.0, 0.0),
];
const LOOPED: &[(f64, f64)] = &[
    (0.0, 40.0),
    (30.0, 40.0),
    (50.0, 20.0),
    (40.0, 0.0),
    (30.0, 20.0),
    (50.0, 40.0),
    (80.0, 40.0),
];

/// A drawing by its name: a few of our own, or the name itself where it is a point list.
fn motif_named(request: &MotifRequest) -> Result<Drawing, Error> {
    let name = request.name.as_str();
    let points = if name.starts_with('[') {
        let list = read_points(name.as_bytes(), Some(Unit::Mm))?;
        list.paths[0].points.clone()
    } else {
        let points = if name.contains("corner") {
            CORNER
        } else if name.contains("block") {
            ROSETTE
        } else if name.contains("flowers") {
            LOOPED
        } else {
            WAVE
        };
        points.iter().map(|&(x, y)| Point::new(x, y)).collect()
    };
    drawn(points)
}

pub(super) fn drawn(points: Vec<Point>) -> Result<Drawing, Error> {
    Ok(Motif::from_points("m", points)?.into())
}

/// Some 200 m of line: more than a large quilt's border has.
const MOST_LENGTH_MM: f64 = 2e5;

/// True for what takes longer than a second by right: thousands of repeats, stitches in the
/// hundred thousands, the finest flattening.
fn too_large(spec: &PlanSpec, quilt: &Quilt) -> Result<bool, Error> {
    let mut lengths = 0.0;
    let mut repeats = 0.0;
    for layout in layouts(spec, quilt)? {
        for side in layout.sides() {
            lengths += layout.side_length(side);
            repeats += layout.side_length(side) / layout.depth();
        }
    }
    let stitch = spec.job_options()?.stitch;
    let tolerance = spec.tolerances()?.flattening;
    let size = quilt.bounds().size().norm();
    let stations = spec
        .borders
        .iter()
        .any(|border| !border.stations.is_empty());
    let steps = if stations {
        (size / tolerance).sqrt()
    } else {
        0.0
    };
    Ok(repeats > 300.0 || 20.0 * lengths / stitch.target > 1e5 || steps > 1e4)
}

/// Solves and writes; every number that comes out is one.
pub(super) fn worked(spec: &PlanSpec, load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>) {
    let quilt = match Quilt::of(spec) {
        Ok(quilt) => quilt,
        Err(error) => return told(&error),
    };
    match too_large(spec, &quilt) {
        Ok(false) => {}
        Ok(true) => return,
        Err(error) => return told(&error),
    }
    let solved = match solve(spec, load) {
        Ok(solved) => solved,
        Err(error) => return told(&error),
    };
    numbers(&solved);
    // The checks look at every two lines that lie close, of which a dense drawing has many.
    if solved.length() > MOST_LENGTH_MM {
        return;
    }
    match stitch_plan(spec, &solved) {
        Ok(stitching) => {
            stitched(&solved, &stitching);
            written(&solved, Some(&stitching));
            let sheet = write_sheet(&solved, &stitching).expect("a whole plan");
            assert!(sheet.ends_with("</html>\n"));
        }
        Err(error) => {
            told(&error);
            written(&solved, None);
        }
    }
}

fn numbers(solved: &Solved) {
    for piece in &solved.pieces {
        finite(piece.lines()[0].motif.points());
        assert!(
            piece.depth > 0.0 && piece.depth.is_finite(),
            "{}",
            piece.depth
        );
        assert!(piece.lines()[0].ends.is_sorted());
        assert!(
            piece.lines()[0]
                .ends
                .iter()
                .all(|&end| end < piece.lines()[0].motif.points().len())
        );
    }
    for join in &solved.joins {
        let (from, to) = (
            &solved.pieces[join.from].lines()[0].motif,
            &solved.pieces[join.to].lines()[0].motif,
        );
        let gap = (to.start().point - from.end().point).norm();
        assert!((gap - join.gap).abs() <= 1e-6 * (1.0 + gap), "{join:?}");
        assert!((0.0..=180.0001).contains(&join.kink_degrees), "{join:?}");
    }
    // Every piece is stitched, once.
    let mut all: Vec<usize> = solved
        .paths
        .iter()
        .flat_map(|path| path.pieces.clone())
        .collect();
    all.sort_unstable();
    assert!(all.iter().copied().eq(0..solved.pieces.len()), "{all:?}");
    for finding in &solved.findings {
        let message = words::finding(finding, solved);
        assert!(!message.contains("NaN"), "{message}");
        finite(&finding.places);
    }
    assert!(
        solved
            .findings
            .windows(2)
            .all(|pair| pair[0].severity >= pair[1].severity)
    );
}

fn stitched(solved: &Solved, stitching: &Stitching) {
    assert!(stitching.minutes().is_finite() && stitching.minutes() >= 0.0);
    assert!(stitching.travel.is_finite() && stitching.travel >= 0.0);
    assert!(stitching.job.length.is_finite());
    assert!(stitching.runs.len() >= stitching.least_cuts);
    for run in &stitching.runs {
        finite(run.motif.points());
        assert!(
            run.parts
                .iter()
                .all(|part| part.piece < solved.pieces.len())
        );
    }
    for finding in stitching.all_findings(solved) {
        let message = words::finding(finding, solved);
        assert!(!message.contains("NaN"), "{message}");
    }
    // Nothing is lost between pieces and runs.
    let (drawn, run) = (
        solved.length(),
        stitching
            .runs
            .iter()
            .map(|run| run.motif.length())
            .sum::<f64>(),
    );
    assert!(run >= drawn * (1.0 - 1e-6) - 1e-6, "{run} of {drawn}");
}

fn written(solved: &Solved, stitching: Option<&Stitching>) {
    let result = PlanResult::new(solved, stitching).expect("a whole plan");
    let text = write_result(&result).expect("finite numbers");
    assert!(text.starts_with('{') && text.ends_with("}\n"));
    let back = read_result(text.as_bytes()).expect("own output");
    assert_eq!(write_result(&back), Ok(text));
    let picture = write_picture(solved, stitching).expect("a whole plan");
    roxmltree::Document::parse(&picture).expect("well-formed");
}
