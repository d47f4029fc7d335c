//! Every plan of the demo quilt, one for each corner style and more: closed, in its band, drawn
//! whole.

use quiltpath_core::geom::{ConvexPolygon, Point};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::picture::write_picture;
use quiltpath_core::io::sheet::write_sheet;
use quiltpath_core::io::svg_read::read_svg;
use quiltpath_core::plan::{PieceKind, Severity, Solved, Stitching, solve, stitch_plan};
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/demo")
}

fn solved(name: &str) -> Solved {
    planned(name).0
}

fn planned(name: &str) -> (Solved, Stitching) {
    let bytes = std::fs::read(folder().join(name)).expect("a plan's file");
    let plan = read_plan(&bytes).unwrap_or_else(|e| panic!("{name}: {e}"));
    let solved = solve(&plan, |request| {
        let bytes = std::fs::read(folder().join(&request.name)).expect("a motif's file");
        Ok(read_svg(&bytes)?.into_drawing(&request.name))
    })
    .unwrap_or_else(|e| panic!("{name}: {e}"));
    let stitching = stitch_plan(&plan, &solved).unwrap_or_else(|e| panic!("{name}: {e}"));
    (solved, stitching)
}

fn plans() -> Vec<String> {
    let names = std::fs::read_dir(folder()).expect("the folder");
    names
        .filter_map(|entry| entry.expect("an entry").file_name().into_string().ok())
        .filter(|name| name.ends_with(".json"))
        .collect()
}

#[test]
fn every_demo_plan_is_clean() {
    let plans = plans();
    assert!(plans.len() >= 12);
    for name in plans {
        let solved = solved(&name);
        let worst = solved.worst();
        assert!(
            worst < Some(Severity::Warning),
            "{name}: {:?}",
            solved.findings
        );
        for piece in &solved.pieces {
            let layout = &solved.layouts[piece.border];
            let ring = layout.region().expect("a ring");
            // 1e-6 in, in millimetres; the lines of wavy bands are chords, 0.01 mm off at most.
            let limit = 2.54e-5 + if layout.is_wavy() { 0.01 } else { 0.0 };
            // 1/4 in is free within the seams of a place; a sash runs on so far into a cornerstone.
            let own = match &piece.kind {
                PieceKind::Field(detail) => {
                    let across = detail.place.runs_across();
                    let on = match detail.sash {
                        Some(_) if across => [12.7, 0.0],
                        Some(_) => [0.0, 12.7],
                        None => [0.0, 0.0],
                    };
                    Some((
                        ConvexPolygon::new(detail.seams.clone()).expect("a place"),
                        on,
                    ))
                }
                _ => None,
            };
            let outside = |point: Point| match &own {
                Some((place, on)) => (0..place.sides()).any(|side| {
                    let along = place.direction(side);
                    let inside = along.perp(&(point - place.corner(side)));
                    let free = 6.35 - (along.y * on[0]).abs() - (along.x * on[1]).abs();
                    inside < free - limit
                }),
                None => ring.distance_outside(point) > limit,
            };
            assert!(
                !piece.lines()[0].motif.points().iter().any(|&p| outside(p)),
                "{name}: {}",
                piece.name
            );
        }
        for join in &solved.joins {
            assert!(join.gap < 2.54e-5, "{name}: {join:?}");
        }
    }
}

#[test]
fn every_demo_plan_has_its_picture() {
    for name in plans() {
        let picture = match name.as_str() {
            "plan.json" => "quilt.svg".to_owned(),
            other => other.replace(".json", ".svg"),
        };
        let committed = std::fs::read_to_string(folder().join("pictures").join(&picture));
        let committed = committed.unwrap_or_else(|e| panic!("{picture}: {e}"));
        let (solved, stitching) = planned(&name);
        let made = write_picture(&solved, Some(&stitching)).expect("a whole plan");
        let lines = |text: &str| text.matches("<path").count();
        assert_eq!(lines(&committed), lines(&made), "{picture}: make it again");
        let size = |text: &str| {
            text.split("viewBox=\"")
                .nth(1)
                .map(|rest| rest[..20].to_owned())
        };
        assert_eq!(size(&committed), size(&made), "{picture}: make it again");
    }
}

/// Thread cuts, and marks where threads start, in the picture and on the sheet.
#[test]
fn picture_and_sheet_show_the_same_runs() {
    let bytes = std::fs::read(folder().join("plan.json")).expect("a plan's file");
    let text = String::from_utf8(bytes).expect("text");
    let narrow = text.replacen('{', "{\"machine\": {\"throat\": 18},", 1);
    for text in [text, narrow] {
        let plan = read_plan(text.as_bytes()).expect("a plan");
        let load = |request: &quiltpath_core::plan::MotifRequest| {
            let bytes = std::fs::read(folder().join(&request.name)).expect("a motif's file");
            Ok(read_svg(&bytes)?.into_drawing(&request.name))
        };
        let solved = solve(&plan, load).expect("solved");
        let stitching = stitch_plan(&plan, &solved).expect("stitched");
        let picture = write_picture(&solved, Some(&stitching)).expect("a picture");
        let sheet = write_sheet(&solved, &stitching).expect("a sheet");
        let cuts = match stitching.runs.len() {
            1 => "1 thread cut,".to_owned(),
            cuts => format!("{cuts} thread cuts,"),
        };
        assert!(picture.contains(&cuts), "{cuts}");
        let closed = stitching.runs.iter().filter(|run| run.closed).count();
        let (open, samples) = (stitching.runs.len() - closed, usize::from(closed > 0));
        let open_samples = usize::from(open > 0);
        let rings = |text: &str| text.matches("<circle class=\"first\"").count();
        assert_eq!(
            rings(&picture),
            stitching.runs.len() + samples + open_samples
        );
        let (view, _) = sheet.split_once("<figcaption").expect("a picture");
        assert_eq!(rings(view), stitching.runs.len());
        let squares = |text: &str| text.matches("<path class=\"last\"").count();
        assert_eq!(squares(view), stitching.runs.len());
        assert_eq!(closed > 0, picture.contains("start and end of a thread"));
    }
}

#[test]
fn the_kink_reported_at_a_mitre_is_the_one_measured() {
    use quiltpath_core::chain::Repeat;
    use quiltpath_core::corner::{ExtraLoops, MitreOptions, mitred_corner};
    use quiltpath_core::strokes::OneLineOptions;

    for name in ["border.svg", "../motifs/vine.svg"] {
        let bytes = std::fs::read(folder().join(name)).expect("a motif's file");
        let joined = read_svg(&bytes)
            .expect("a drawing")
            .into_drawing(name)
            .one_line(&OneLineOptions::default());
        let repeat = Repeat::new(&joined.expect("a motif").motif).expect("a repeat");
        for angle in [60.0f64, 90.0, 120.0] {
            for extra in [ExtraLoops::Link, ExtraLoops::Drop] {
                let options = MitreOptions::default().with_legs(1).with_extra(extra);
                let mitred = mitred_corner(&repeat, 133.35, angle, &options).expect("mitred");
                let points = mitred.corner.motif.points();
                let (sin, cos) = (angle / 2.0).to_radians().sin_cos();
                // The line is its own mirror image, so its middle point lies on the diagonal.
                let middle = points.len() / 2;
                assert!((points[middle].x * sin - points[middle].y * cos).abs() < 1e-9);
                let heading = |at: usize| {
                    let step = points[at + 1] - points[at];
                    step.y.atan2(step.x).to_degrees()
                };
                let turn = (heading(middle) - heading(middle - 1)).rem_euclid(360.0);
                let measured = turn.min(360.0 - turn);
                assert!(
                    (measured - mitred.kink_degrees).abs() < 1e-6,
                    "{name} {angle}: {measured}"
                );
            }
        }
    }
}
