//! Results read back, and what is written of plans that something was taken out of.

use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::json::result::{PlanResult, read_result, write_result};
use quiltpath_core::io::picture::write_picture;
use quiltpath_core::io::sheet::write_sheet;
use quiltpath_core::plan::spec::{LengthSpec, MachineSpec};
use quiltpath_core::plan::{PieceKind, PlanSpec, Solved, Stitching, solve, stitch_plan};
use quiltpath_core::units::Unit;
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/demo")
}

fn plan(name: &str) -> PlanSpec {
    let bytes = std::fs::read(folder().join(name)).expect("a plan's file");
    read_plan(&bytes).unwrap_or_else(|e| panic!("{name}: {e}"))
}

fn solved(plan: &PlanSpec) -> Solved {
    let solved = solve(plan, |request| {
        let bytes = std::fs::read(folder().join(&request.name)).expect("a motif's file");
        let options = ReadOptions::default().with_unit(Some(plan.unit.into()));
        LineDrawing::read(&request.name, &bytes, &options)?.strokes(Unit::Mm)
    });
    solved.unwrap_or_else(|e| panic!("{:?}: {e}", plan.title))
}

/// The same plan on a frame that reaches a part of the quilt and takes it turned as well.
fn in_passes(mut plan: PlanSpec) -> PlanSpec {
    let throat = LengthSpec::with(18.0, Unit::In);
    plan.machine = Some(MachineSpec::default().with_throat(throat).with_turned(true));
    plan
}

fn text(solved: &Solved, stitching: Option<&Stitching>) -> String {
    let result = PlanResult::new(solved, stitching).expect("a whole plan");
    write_result(&result).expect("finite numbers")
}

#[test]
fn results_of_every_demo_plan_come_back_to_the_byte() {
    let names = std::fs::read_dir(folder()).expect("the folder");
    let names = names.filter_map(|entry| entry.expect("an entry").file_name().into_string().ok());
    let names: Vec<String> = names.filter(|name| name.ends_with(".json")).collect();
    assert!(names.len() >= 13);
    let mut all = String::new();
    for name in &names {
        let plan = plan(name);
        let solved = solved(&plan);
        let stitching = stitch_plan(&plan, &solved).expect("stitched");
        let frame = stitch_plan(&in_passes(plan), &solved).expect("stitched in passes");
        assert!(frame.passes.len() > 1);
        for stitching in [None, Some(&stitching), Some(&frame)] {
            let written = text(&solved, stitching);
            let read = read_result(written.as_bytes()).unwrap_or_else(|e| panic!("{name}: {e}"));
            let whole = PlanResult::new(&solved, stitching);
            assert_eq!(whole.as_ref(), Ok(&read), "{name}");
            assert_eq!(read.passes.is_some(), stitching.is_some());
            assert_eq!(read.totals.stitching.is_some(), stitching.is_some());
            assert_eq!(write_result(&read).as_ref(), Ok(&written), "{name}");
            all.push_str(&written);
        }
    }
    // Every way in which a corner comes about is among them, and what only some plans have.
    for word in [
        "drawn", "trimmed", "block", "mitred", "bent", "measured", "ease", "title", "bottom",
    ] {
        assert!(all.contains(&format!("\"{word}\"")), "{word}");
    }
    for key in ["made", "repeats", "at", "spools"] {
        assert!(all.contains(&format!("\"{key}\":null")), "{key}");
    }
}

#[test]
fn what_is_no_result_is_refused_at_its_place() {
    let plan = plan("plan.json");
    let solved = solved(&plan);
    let stitching = stitch_plan(&plan, &solved).expect("stitched");
    let whole = text(&solved, Some(&stitching));
    for (from, to, message) in [
        (
            "\"unit\":\"in\",",
            "",
            "the key \"unit\" is missing; add it",
        ),
        ("\"unit\":\"in\"", "\"unit\":\"ell\"", "unit: \"ell\""),
        (
            "\"depth\":5.25",
            "\"depth\":null",
            "bands[0].depth: give a number, not null",
        ),
        (
            "\"number\":1,",
            "\"number\":1.5,",
            "pieces[0].number: give a whole number",
        ),
        ("\"how\":\"drawn\"", "\"how\":\"dreamt\"", "pieces[0].made"),
        (
            "\"rolled\":",
            "\"rolled\":\"about \",\"m\":",
            "totals: give a number",
        ),
        (
            "\"rolled\":",
            "\"unrolled\":",
            "the key \"rolled\" is missing",
        ),
        (
            "{\"title\"",
            "[{\"title\"",
            "give keys and values in braces",
        ),
    ] {
        let wrong = whole.replacen(from, to, 1);
        assert_ne!(wrong, whole, "{from}");
        let error = read_result(wrong.as_bytes()).expect_err(to);
        assert!(error.is_data(), "{error}");
        assert!(error.to_string().contains(message), "{to}: {error}");
    }
    let empty = read_result(b" ").expect_err("empty").to_string();
    assert!(
        empty.starts_with("the file is empty; give a result such as"),
        "{empty}"
    );
    // A later version may have more keys.
    let more = whole.replacen("\"unit\":", "\"planned\":{\"on\":[2030]},\"unit\":", 1);
    let more = more.replacen("\"number\":1,", "\"number\":1,\"colour\":null,", 1);
    let read = read_result(more.as_bytes()).expect("keys to pass over");
    assert_eq!(write_result(&read).as_ref(), Ok(&whole));
}

#[test]
fn numbers_that_json_has_not_are_refused_by_their_keys() {
    let mut result = PlanResult::new(&solved(&plan("plan.json")), None).expect("a whole plan");
    result.pieces[3].start[1] = f64::NAN;
    let error = write_result(&result).expect_err("NaN").to_string();
    assert_eq!(
        error,
        "pieces[3].start[1]: the number is NaN; give a finite number"
    );
    result.pieces[3].start[1] = 0.0;
    result.totals.length = f64::INFINITY;
    let error = write_result(&result).expect_err("infinite").to_string();
    assert!(
        error.starts_with("totals.length: the number is inf"),
        "{error}"
    );
}

/// What was planned with something changed afterwards, or taken out.
type Spoil = fn(&mut Solved, &mut Stitching);

#[test]
fn plans_that_are_not_whole_are_refused_by_every_writer() {
    let plan = in_passes(plan("plan.json"));
    let solved = solved(&plan);
    let stitching = stitch_plan(&plan, &solved).expect("stitched");
    let spoilt: [(&str, Spoil); 15] = [
        ("piece", |solved, _| solved.pieces.clear()),
        ("piece", |solved, _| drop(solved.pieces.pop())),
        ("piece", |solved, _| drop(solved.pieces.remove(0))),
        ("border", |solved, _| solved.layouts.clear()),
        ("border", |solved, _| solved.pieces[2].border = 1),
        ("border", |solved, _| solved.paths[0].border = usize::MAX),
        ("piece", |solved, _| solved.joins[0].to = 8),
        ("piece", |solved, _| solved.paths[0].pieces.push(99)),
        ("run", |_, stitching| stitching.runs.clear()),
        ("run", |_, stitching| drop(stitching.runs.pop())),
        ("run", |_, stitching| {
            stitching.passes[0].runs = 0..usize::MAX
        }),
        ("stitched line", |_, stitching| stitching.job.lines.clear()),
        ("piece", |_, stitching| {
            stitching.runs[0].parts[0].piece = usize::MAX
        }),
        ("pass", |_, stitching| stitching.runs[0].pass = usize::MAX),
        ("side", |solved, _| {
            // The last side of a quilt with more sides than this one has.
            let sides = self::solved(&self::plan("hexagon.json")).pieces;
            let last = sides
                .into_iter()
                .rfind(|piece| matches!(piece.kind, PieceKind::Side(_)));
            solved.pieces[1] = last.expect("a side");
        }),
    ];
    for (at, (what, spoil)) in spoilt.into_iter().enumerate() {
        let (mut solved, mut stitching) = (solved.clone(), stitching.clone());
        spoil(&mut solved, &mut stitching);
        let refusals = [
            PlanResult::new(&solved, Some(&stitching)).map(|_| String::new()),
            write_sheet(&solved, &stitching),
            write_picture(&solved, Some(&stitching)),
        ];
        // Whatever comes of it, it comes without a panic.
        let _ = stitch_plan(&plan, &solved);
        for refusal in refusals {
            let error = refusal.expect_err(what);
            assert!(error.is_plan());
            let wanted = format!("the solved plan refers to the {what} of number ");
            assert!(error.to_string().starts_with(&wanted), "{at}: {error}");
        }
    }
    // Taken out where nothing refers to it, a thing is only not written.
    let mut fewer = solved.clone();
    fewer.joins.clear();
    fewer.paths.clear();
    fewer.findings.clear();
    let result = PlanResult::new(&fewer, None).expect("a whole plan");
    assert!(result.joins.is_empty() && result.findings.is_empty());
    write_picture(&fewer, None).expect("a picture");
    let mut bare = stitching.clone();
    bare.passes.clear();
    bare.runs.clear();
    write_sheet(&fewer, &bare).expect("a sheet");
}
