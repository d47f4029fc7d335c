//! Every plan of the demo quilt, one for each corner style: closed, in its band, drawn whole.

use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::picture::write_picture;
use quiltpath_core::io::svg_read::read_svg;
use quiltpath_core::plan::{Severity, Solved, solve};
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/demo")
}

fn solved(name: &str) -> Solved {
    let bytes = std::fs::read(folder().join(name)).expect("a plan's file");
    let plan = read_plan(&bytes).unwrap_or_else(|e| panic!("{name}: {e}"));
    let tolerances = plan.tolerances().expect("tolerances");
    solve(&plan, |request| {
        let bytes = std::fs::read(folder().join(&request.name)).expect("a motif's file");
        let (flattening, join) = (tolerances.flattening, tolerances.join);
        read_svg(&bytes)?.motif(&request.name, flattening, join, request.gaps)
    })
    .unwrap_or_else(|e| panic!("{name}: {e}"))
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
    assert!(plans.len() >= 7);
    for name in plans {
        let solved = solved(&name);
        let worst = solved.worst();
        assert!(
            worst < Some(Severity::Warning),
            "{name}: {:?}",
            solved.findings
        );
        for piece in &solved.pieces {
            let ring = solved.frames[piece.border].ring().expect("a ring");
            // 1e-6 in, in millimetres.
            let outside = |point| ring.distance_outside(point) > 2.54e-5;
            assert!(
                !piece.motif.points().iter().any(|&p| outside(p)),
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
        let made = write_picture(&solved(&name));
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
