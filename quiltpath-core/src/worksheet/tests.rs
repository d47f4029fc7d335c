//! A worksheet against the plan that it is made of.

use super::*;
use crate::frame::{Stopped, judge};
use crate::io::json::read_plan;
use crate::io::readings::TypedReading;
use crate::plan::{Side, solve};

const WAVE: &[u8] = br#"{"unit": "in", "points": [[0, 1], [1, 0], [3, 2], [4, 1]]}"#;

fn plan(motif: &str) -> PlanSpec {
    let text = format!(
        r#"{{"unit": "in", "title": "Two waves", "quilt": {{"width": 64, "height": 80}}, "borders": [
        {{"name": "outer", "width": 6, "corner": {{"style": "open"}}, "side": {{"motif": "{motif}"}}}},
        {{"name": "inner", "width": 4, "corner": {{"style": "open"}}, "side": {{"motif": "b/wave.json"}}}}],
        "machine": {{"throat": 20}}}}"#
    );
    read_plan(text.as_bytes()).expect("a plan")
}

fn sheet() -> Worksheet {
    let quilt = gather(&plan("a/wave.json"), |_| Ok(WAVE.to_vec()));
    Worksheet::from(quilt.expect("all drawings"))
}

#[test]
fn drawings_of_one_name_stay_apart() {
    let sheet = sheet();
    let names: Vec<&String> = sheet.drawings().keys().collect();
    assert_eq!(names, ["wave-2.json", "wave.json"]);
    assert_eq!(
        sheet.plan().borders[1].side.motif(Side::TOP),
        Some("wave-2.json")
    );
    let once = gather(&plan("b/wave.json"), |_| Ok(WAVE.to_vec())).expect("all drawings");
    assert_eq!(once.drawings.len(), 1);
    let folder = sheet.plan_in_folder();
    assert_eq!(
        folder.borders[0].side.motif(Side::TOP),
        Some("drawings/wave.json")
    );
}

#[test]
fn it_is_solved_as_its_plan_is_and_comes_back_from_its_file() {
    let mut sheet = sheet();
    let wave = |request: &MotifRequest| {
        let lines = LineDrawing::read(&request.name, WAVE, &ReadOptions::default())?;
        lines.strokes(Unit::Mm)
    };
    let solved = sheet.solve().expect("solved");
    let plain = solve(&plan("a/wave.json"), wave).expect("solved");
    assert_eq!(solved.pieces, plain.pieces);
    assert_eq!(sheet.file_name(), "two-waves.quilt.json");
    let mut again = Worksheet::open(sheet.text().expect("a text").as_bytes()).expect("its own");
    assert_eq!(again.solve().expect("solved").pieces, solved.pieces);
    let stitching = sheet.stitch(&solved).expect("stitched");
    let folder = sheet.plan_in_folder();
    let files = sheet.files(&folder, (&solved, &stitching), &[LineFormat::Dxf]);
    let files = files.expect("files");
    let names: Vec<&str> = files.iter().map(PlanFile::name).collect();
    for name in [
        "result.json",
        "drawings/wave.json",
        "two-waves.quilt.json",
        "passes/02-upright.dxf",
        "pieces/03-outer-side-top.svg",
    ] {
        assert!(names.contains(&name), "{name}: {names:?}");
    }
    for file in &files {
        let bytes = file.bytes().expect("made");
        assert!(!bytes.is_empty(), "{}", file.name());
    }
}

#[test]
fn a_drawing_that_is_not_there_is_said_with_those_that_are() {
    let mut sheet = sheet();
    assert!(sheet.remove_drawing("wave.json") && !sheet.remove_drawing("wave.json"));
    let error = sheet.solve().expect_err("a drawing is missing").to_string();
    assert!(
        error.contains("the drawings here are wave-2.json"),
        "{error}"
    );
    sheet
        .set_drawing("wave.json", b"[[0,0]".to_vec())
        .expect("a name");
    let error = sheet.solve().expect_err("no drawing").to_string();
    assert!(error.contains("wave.json"), "{error}");
    sheet
        .set_drawing("wave.json", WAVE.to_vec())
        .expect("a name");
    assert!(sheet.solve().is_ok());
}

#[test]
fn a_plan_that_changes_is_solved_round_what_is_stitched() {
    let mut sheet = sheet();
    let solved = sheet.solve().expect("solved");
    let stitching = sheet.stitch(&solved).expect("stitched");
    let mut progress = Progress::of(&solved, &stitching);
    let run = &stitching.runs[0];
    progress.stitched.add(&solved, run).expect("a run");
    sheet.set_progress(None, Some(progress.clone()));
    // The same plan, and one that differs in words alone, keep it.
    let mut worded = sheet.plan().clone();
    worded.title = Some("Renamed".to_owned());
    sheet.set_plan(worded);
    assert_eq!(sheet.solve().expect("solved").pieces, solved.pieces);
    assert_eq!(sheet.progress(), Some(&progress));
    let mut longer = sheet.plan().clone();
    longer.quilt =
        read_plan(br#"{"unit": "in", "quilt": {"width": 64, "height": 81}, "borders": []}"#)
            .expect("a plan")
            .quilt;
    sheet.set_plan(longer);
    let anew = sheet.solve().expect("solved");
    assert_eq!(sheet.before(), Some(&progress));
    assert_eq!(sheet.progress(), None);
    let kept = anew.pieces.iter().filter(|piece| piece.has_begun()).count();
    assert!(kept > 0 && anew.stitched_length() > 0.0);
    // Solved once more, nothing moves.
    assert_eq!(sheet.solve().expect("solved").pieces, anew.pieces);
}

/// Readings of the first marks of a pass, just where the plan expects them.
fn as_planned(frame: &AtFrame<'_>, pass: usize, count: usize) -> Vec<TypedReading> {
    let to_machine = frame.pass(pass).expect("a pass").to_machine;
    let marks = frame.marks(pass).expect("marks");
    let read = marks.iter().take(count).map(|own| {
        let at = to_machine.apply(own.mark.point);
        let text = format!("{}: {} mm {} mm", own.label(), at.x, at.y);
        text.parse().expect("a reading")
    });
    read.collect()
}

#[test]
fn a_pass_that_is_read_where_it_was_planned_stays_there() {
    let mut sheet = sheet();
    let solved = sheet.solve().expect("solved");
    let stitching = sheet.stitch(&solved).expect("stitched");
    let frame = AtFrame::new(sheet.plan(), &solved, &stitching);
    let load = |asked: &MotifRequest| sheet.drawing(asked);
    let mut progress = Progress::of(&solved, &stitching);
    let lines = |progress: &Progress| {
        MachineLines::of(&frame, (1, progress), frame.origin(), load).expect("lines")
    };
    let planned = lines(&progress);
    assert!(planned.laying.is_none());
    let typed = as_planned(&frame, 1, 4);
    let readings = frame.readings(1, &typed, Unit::In).expect("marks");
    keep_readings(&mut progress, 1, &readings);
    assert_eq!(frame.kept_readings(1, &progress).expect("kept"), readings);
    let laid = lines(&progress);
    for (one, other) in planned.motifs.iter().zip(&laid.motifs) {
        let gap = one.points().iter().zip(other.points());
        assert_eq!(one.points().len(), other.points().len());
        assert!(gap.map(|(a, b)| (a - b).norm()).all(|gap| gap < 1e-6));
    }
    let laying = laid.laying.as_ref().expect("a laying");
    let lettered = frame.lettered(1, &readings).expect("letters");
    assert_eq!(lettered[0].0, "A");
    let (findings, near) = judge(&laying.solved, &stitching, &laying.laid).expect("judged");
    let svg = [LineFormat::Svg];
    let files = laid_files(&frame, (laying, &lettered), (&findings, &near), None, &svg);
    let files = files.expect("files");
    let names: Vec<&str> = files.iter().map(PlanFile::name).collect();
    assert_eq!(
        names,
        ["lines.svg", "needle-up.svg", "picture.svg", "laid.json"]
    );
    assert!(files.iter().all(|file| file.bytes().is_ok()));
    keep_readings(&mut progress, 1, &[]);
    assert!(progress.passes.is_empty());
}

#[test]
fn runs_are_ticked_and_taken_back_and_only_those_of_the_pass() {
    let mut sheet = sheet();
    let solved = sheet.solve().expect("solved");
    let stitching = sheet.stitch(&solved).expect("stitched");
    let frame = AtFrame::new(sheet.plan(), &solved, &stitching);
    let load = |asked: &MotifRequest| sheet.drawing(asked);
    let nothing = Progress::of(&solved, &stitching);
    let mut progress = nothing.clone();
    let runs: Vec<usize> = frame.pass(1).expect("a pass").runs.clone().collect();
    progress.stopped = Some(Stopped::new(1, 0, 5.0));
    let mut tick = |runs: &[usize], done| frame.tick((1, runs), done, &mut progress, load);
    assert!(tick(&[0], true).is_err(), "run 0 is of the first pass");
    tick(&runs, true).expect("ticked");
    assert!(tick(&runs, true).is_err(), "nothing is stitched twice");
    tick(&runs, false).expect("taken back");
    assert_eq!(progress, nothing);
    assert!(frame.pass(99).is_err());
    let error = frame.readings(0, &["Q 1 2".parse().expect("typed")], Unit::In);
    let error = error.expect_err("no such mark").to_string();
    assert!(error.contains("the marks are A ("), "{error}");
}
