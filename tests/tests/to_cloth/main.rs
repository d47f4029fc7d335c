//! Plans brought to the machine: passes, order, stitches, and faults planted one by one.

mod faults;

use quiltpath_core::Error;
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::io::sheet::write_sheet;
use quiltpath_core::io::words;
use quiltpath_core::motif::Motif;
use quiltpath_core::order::Loading;
use quiltpath_core::plan::{
    Finding, FrameTime, MotifRequest, PieceKind, Severity, Solved, Stitching, solve, stitch_plan,
};
use quiltpath_core::stitch::estimate::stitching_time;
use quiltpath_core::strokes::Drawing;

const INCH: f64 = 25.4;

fn motif(points: &[(f64, f64)]) -> Motif {
    let points = points.iter().map(|&(x, y)| Point::new(x, y) * INCH);
    Motif::from_points("m", points.collect()).expect("a motif")
}

/// A wave and an L in which nothing is close, dense or small.
const SIDE: [(f64, f64); 5] = [(0.0, 1.0), (1.0, 0.0), (2.0, 1.0), (3.0, 2.0), (4.0, 1.0)];
const CORNER: [(f64, f64); 10] = [
    (1.0, 5.0),
    (0.0, 4.0),
    (2.0, 3.6),
    (0.0, 3.0),
    (0.0, 1.0),
    (1.0, 0.0),
    (3.0, 2.0),
    (3.5, 0.0),
    (4.0, 2.0),
    (5.0, 1.0),
];

/// Gives this side and this corner to a plan.
fn drawings<'a>(
    side: &'a [(f64, f64)],
    corner: &'a [(f64, f64)],
) -> impl Fn(&MotifRequest) -> Result<Drawing, Error> + 'a {
    move |request| {
        let points = if request.name == "corner" {
            corner
        } else {
            side
        };
        Ok(motif(points).into())
    }
}

/// Solves a plan with this side, on a quilt of 60 by 80 in with a border of 6 in.
fn planned(keys: &str, border: &str, side: &[(f64, f64)]) -> Result<(Solved, Stitching), Error> {
    let text = format!(
        r#"{{"unit":"in","quilt":{{"width":60,"height":80}},{keys}"borders":[{{"width":6,{border}"side":{{"motif":"side"}}}}]}}"#
    );
    let spec = read_plan(text.as_bytes())?;
    let solved = solve(&spec, drawings(side, &CORNER))?;
    let stitching = stitch_plan(&spec, &solved)?;
    Ok((solved, stitching))
}

const LEG: &str = r#""corner":{"style":"leg","motif":"corner","arrangement":"turned"},"#;
const OPEN: &str = r#""corner":{"style":"open"},"#;

fn written(solved: &Solved, stitching: Option<&Stitching>) -> serde_json::Value {
    let result = PlanResult::new(solved, stitching).expect("a whole plan");
    serde_json::from_str(&write_result(&result).expect("finite numbers")).expect("JSON")
}

fn stitched(keys: &str, border: &str) -> (Solved, Stitching) {
    planned(keys, border, &SIDE).unwrap_or_else(|e| panic!("{keys}: {e}"))
}

/// A finding with its words.
#[derive(Debug, Clone, PartialEq)]
struct Read {
    code: &'static str,
    severity: Severity,
    message: String,
    at: Option<Point>,
}

/// These findings with their words.
fn read<'a>(findings: impl IntoIterator<Item = &'a Finding>, solved: &Solved) -> Vec<Read> {
    let read = findings.into_iter().map(|finding| Read {
        code: finding.code(),
        severity: finding.severity,
        message: words::finding(finding, solved),
        at: finding.place(),
    });
    read.collect()
}

/// What is reported of a plan with this side, but for the stretch.
fn reported(keys: &str, border: &str, side: &[(f64, f64)]) -> Vec<Read> {
    let (solved, stitching) = planned(keys, border, side).expect("planned");
    let mut all = read(stitching.all_findings(&solved), &solved);
    all.retain(|found| !["stretch", "ways_out", "levelled"].contains(&found.code));
    all
}

/// The first finding of this code.
fn found(code: &str, findings: &[Read]) -> Read {
    let found = findings.iter().find(|found| found.code == code);
    found
        .unwrap_or_else(|| panic!("no {code} in {findings:?}"))
        .clone()
}

#[test]
fn nothing_is_reported_of_a_clean_plan() {
    assert_eq!(reported("", LEG, &SIDE), []);
    assert_eq!(reported("", OPEN, &SIDE), []);
    let (solved, stitching) = stitched("", LEG);
    assert_eq!(
        (
            stitching.passes.len(),
            stitching.runs.len(),
            stitching.least_cuts
        ),
        (1, 1, 1)
    );
    assert!(stitching.runs[0].closed && stitching.throat.is_none());
    assert!((stitching.runs[0].motif.length() - solved.length()).abs() < 1e-6);
    assert_eq!(
        (stitching.time.advancing, stitching.time.loading),
        (0.0, 600.0)
    );
}

/// How many throats are begun in the moves from pass to pass.
fn advances(stitching: &Stitching, throat: f64) -> f64 {
    let pairs = stitching.passes.windows(2);
    let within = pairs.filter(|pair| pair[0].loading == pair[1].loading);
    within
        .map(|pair| ((pair[1].top - pair[0].top).abs() / throat).ceil())
        .sum()
}

/// Lines that run far off the quilt, above it and below, are an error but not a second pass.
#[test]
fn without_a_throat_all_is_one_pass_wherever_it_lies() {
    let plan = |height: usize| {
        let text = format!(
            r#"{{"unit":"in","quilt":{{"width":30,"height":{height}}},
            "borders":[{{"width":6,{LEG}"side":{{"motif":"side"}}}}]}}"#
        );
        let spec = read_plan(text.as_bytes()).expect("a plan");
        let solved = solve(&spec, drawings(&SIDE, &CORNER)).expect("solved");
        (spec, solved)
    };
    let [(spec, mut solved), (_, lower)] = [80, 60].map(plan);
    solved.quilt = lower.quilt;
    solved.layouts = lower.layouts;
    let stitching = stitch_plan(&spec, &solved).expect("stitched");
    assert!(solved.bounds().height() < 61.0 * INCH);
    assert_eq!((stitching.passes.len(), stitching.runs.len()), (1, 1));
    assert!(
        stitching
            .findings
            .iter()
            .all(|finding| finding.code() != "too_deep")
    );
}

#[test]
fn every_pass_stays_in_its_window_and_all_is_stitched_once() {
    for turned in [false, true] {
        for throat in [15.0, 18.0, 26.0, 50.0] {
            let keys = format!(r#""machine":{{"throat":{throat},"turned":{turned}}},"#);
            let (solved, stitching) = stitched(&keys, LEG);
            let mut length = 0.0;
            let loadings: Vec<Loading> = stitching.passes.iter().map(|pass| pass.loading).collect();
            assert_eq!(loadings.contains(&Loading::Turned), turned);
            assert!(loadings.is_sorted_by_key(|loading| *loading == Loading::Turned));
            for pass in &stitching.passes {
                for run in &stitching.runs[pass.runs.clone()] {
                    length += run.motif.length();
                    for point in run.motif.points() {
                        let seen = pass.to_machine.apply(*point);
                        assert!(seen.x >= 0.0, "{seen}");
                        assert!((-1e-6..=throat * INCH + 1e-6).contains(&seen.y), "{seen}");
                        // The map only moves and turns.
                        let step = pass.to_machine.apply_vector(Vector::new(1.0, 0.0));
                        assert!((step.norm() - 1.0).abs() < 1e-12);
                        let expected = match pass.loading {
                            Loading::Upright => point.y - pass.top,
                            Loading::Turned => point.x - pass.top,
                            other => panic!("no such loading here: {other:?}"),
                        };
                        assert!((seen.y - expected).abs() < 1e-9);
                    }
                }
            }
            assert!((length - solved.length()).abs() < 1e-6 * length);
            assert!(stitching.runs.len() >= stitching.least_cuts);
            // A run is cut where repeats end: it starts and ends at ends of repeats or corners.
            for run in &stitching.runs {
                assert!(
                    run.parts.iter().all(|part| part.repeats.is_some()),
                    "{:?}",
                    run.parts
                );
            }
            let loadings = 1 + usize::from(turned);
            let advance = 120.0 * advances(&stitching, throat * INCH);
            let time = stitching.time;
            assert_eq!(
                (time.advancing, time.loading),
                (advance, 600.0 * loadings as f64)
            );
        }
    }
}

/// Two repeats of 8 in are just as long as the throat, on either side and in either unit.
#[test]
fn repeats_that_just_fit_share_a_pass() {
    let plan = |unit: &str, inch: f64| {
        let text = format!(
            r#"{{"unit":"{unit}","quilt":{{"width":{0},"height":{0}}},"machine":{{"throat":{1}}},
            "borders":[{{"width":{2},"seam_gap":0,"edge_gap":0,{OPEN}"side":{{"motif":"side","repeats":12}}}}]}}"#,
            108.0 * inch,
            16.0 * inch,
            6.0 * inch
        );
        let spec = read_plan(text.as_bytes()).expect("a plan");
        let solved = solve(&spec, drawings(&SIDE, &CORNER)).expect("solved");
        stitch_plan(&spec, &solved).expect("stitched")
    };
    for stitching in [plan("in", 1.0), plan("mm", INCH)] {
        // 6 and 8 in, five times two repeats, 8 and 6 in; both sides in each, and the top and the
        // bottom.
        assert_eq!((stitching.passes.len(), stitching.runs.len()), (7, 16));
        assert_eq!(stitching.least_cuts, 16);
        assert!(stitching.least_travel <= stitching.travel);
    }
}

#[test]
fn more_passes_than_are_looked_at_are_refused() {
    let more = |passes: usize| {
        let keys = format!(r#""machine":{{"throat":18,"more_passes":{passes}}},"#);
        planned(&keys, LEG, &SIDE).map(|(_, stitching)| stitching.passes.len())
    };
    let fewest = more(0).expect("planned");
    assert!(more(2).expect("planned") <= fewest + 2);
    let error = more(3).expect_err("refused").to_string();
    assert!(
        error.contains("machine.more_passes") && error.contains("0, 1 or 2"),
        "{error}"
    );
}

#[test]
fn turning_the_quilt_saves_passes_or_cuts_on_long_sides() {
    let once = stitched(r#""machine":{"throat":18},"#, LEG).1;
    let twice = stitched(r#""machine":{"throat":18,"turned":true},"#, LEG).1;
    assert!(twice.runs.len() < once.runs.len());
    // 79 in of stitching can't be done in fewer than 5 windows of 18 in.
    assert!(once.passes.len() >= 5);
}

#[test]
fn the_numbers_of_the_result_are_those_of_the_stitching() {
    let (solved, stitching) = stitched(
        r#""machine":{"throat":18},"stitching":{"stitches_per_inch":12},"#,
        LEG,
    );
    let result = written(&solved, Some(&stitching));
    let totals = &result["totals"];
    assert_eq!(totals["stitches"], stitching.job.count());
    assert_eq!(totals["thread_cuts"], stitching.runs.len());
    assert_eq!(totals["passes"], stitching.passes.len());
    assert_eq!(totals["bobbins"].as_u64(), stitching.job.thread.bobbins);
    let minutes = totals["minutes"].as_f64().expect("minutes");
    assert!((minutes - stitching.minutes()).abs() < 1e-9);
    let passes = result["passes"].as_array().expect("passes");
    let runs: usize = passes
        .iter()
        .map(|pass| pass["runs"].as_array().expect("runs").len())
        .sum();
    assert_eq!(runs, stitching.runs.len());
    let sum: u64 = passes
        .iter()
        .flat_map(|pass| pass["runs"].as_array().expect("runs"))
        .map(|run| run["stitches"].as_u64().expect("stitches"))
        .sum();
    assert_eq!(sum, stitching.job.count() as u64);
    // The border is 12 stitches to the inch, but for sharp points and tie-offs.
    let per_inch = stitching.job.count() as f64 / (solved.length() / INCH);
    assert!((12.0..13.5).contains(&per_inch), "{per_inch}");
    let plain = written(&solved, None);
    assert!(plain.get("passes").is_none() && plain["totals"].get("stitches").is_none());
}

/// A quilt of 80 in, 1/5 in thick, on a bar of 2 in: at 79 1/2 in down its roll is sqrt(1 + 15.9/π)
/// in thick from the middle, so 1.462 in thicker than the bar.
#[test]
fn passes_get_shallower_as_the_roll_grows() {
    let machine = |more: &str| format!(r#""machine":{{"throat":18{more}}},"#);
    let roll = r#","roll":{"bar_diameter":"2 in","thickness":"1/5 in"}"#;
    let (_, flat) = stitched(&machine(""), LEG);
    let (solved, rolled) = stitched(&machine(&format!(r#","reserve":"1/2 in"{roll}"#)), LEG);
    assert!(rolled.passes.len() >= flat.passes.len());
    let passes = |throat: usize, more: &str| {
        let keys = format!(r#""machine":{{"throat":{throat}{more}}},"#);
        stitched(&keys, LEG).1.passes.len()
    };
    let more = (14..28).map(|throat| passes(throat, roll).checked_sub(passes(throat, "")));
    assert!(more.map(|more| more.expect("no fewer")).sum::<usize>() > 0);
    let lowest = rolled.passes.last().expect("a pass");
    assert!(lowest.reach < 16.0 * INCH && lowest.reach > (17.0 - 1.462) * INCH);
    assert!(flat.passes.iter().all(|pass| pass.reach == 18.0 * INCH));
    for pass in &rolled.passes {
        let radius = (INCH.powi(2) + pass.top * 0.2 * INCH / std::f64::consts::PI).sqrt();
        assert!((pass.reach - (17.0 * INCH - (radius - INCH))).abs() < 1e-9);
        for run in &rolled.runs[pass.runs.clone()] {
            for &point in run.motif.points() {
                let seen = pass.to_machine.apply(point).y;
                assert!((-1e-6..=pass.reach + 1e-6).contains(&seen), "{seen}");
            }
        }
    }
    let length: f64 = rolled.runs.iter().map(|run| run.motif.length()).sum();
    assert!((length - solved.length()).abs() < 1e-6 * length);
    // Results tell where each window ends.
    let result = written(&solved, Some(&rolled));
    for (pass, planned) in result["passes"]
        .as_array()
        .expect("passes")
        .iter()
        .zip(&rolled.passes)
    {
        let [top, bottom] = ["top", "bottom"].map(|key| pass[key].as_f64().expect(key));
        assert!(((bottom - top) * INCH - planned.reach).abs() < 1e-6);
    }
    // Turned, the quilt is wound up anew: no pass of either loading is below its own roll.
    let (_, turned) = stitched(&machine(&format!(r#","turned":true{roll}"#)), LEG);
    let first = |loading: Loading| {
        let of = turned.passes.iter().filter(|pass| pass.loading == loading);
        of.map(|pass| pass.reach).fold(0.0, f64::max)
    };
    for loading in [Loading::Upright, Loading::Turned] {
        assert!(first(loading) > 17.8 * INCH, "{loading:?}");
    }
}

/// What comes first in each run, and the tops of the passes.
fn corners_and_tops(solved: &Solved, stitching: &Stitching) -> (Vec<bool>, Vec<f64>) {
    let is_corner = |piece: usize| matches!(solved.pieces[piece].kind, PieceKind::Corner(_));
    let corners = stitching.runs.iter().map(|run| {
        let corners: Vec<bool> = run.parts.iter().map(|part| is_corner(part.piece)).collect();
        // A corner is a run by itself.
        assert!(
            !corners.contains(&true) || corners.len() == 1,
            "{:?}",
            run.parts
        );
        corners[0]
    });
    let tops = stitching.passes.iter().map(|pass| pass.top);
    (corners.collect(), tops.collect())
}

#[test]
fn corners_first_goes_down_once_and_up_once() {
    let first = |machine: &str| stitched(&format!(r#"{machine}"order":"corners_first","#), LEG);
    let (solved, stitching) = first(r#""machine":{"throat":18},"#);
    let (corners, tops) = corners_and_tops(&solved, &stitching);
    assert_eq!(corners.iter().filter(|corner| **corner).count(), 4);
    assert!(corners.is_sorted_by_key(|corner| !corner), "{corners:?}");
    let lowest = tops.iter().copied().fold(0.0, f64::max);
    let turn = tops.iter().position(|&top| top == lowest).expect("a pass");
    assert!(turn > 0 && tops[..=turn].is_sorted() && tops[turn..].is_sorted_by(|a, b| a >= b));
    let rolled: f64 = tops.windows(2).map(|pair| (pair[1] - pair[0]).abs()).sum();
    assert!((stitching.rolled - rolled).abs() < 1e-9);
    assert!((rolled - (2.0 * lowest - tops[0] - tops[tops.len() - 1])).abs() < 1e-9);
    let result = written(&solved, Some(&stitching));
    let told = result["totals"]["rolled"].as_f64().expect("a length");
    assert!((told * INCH - rolled).abs() < 1e-6);
    // An advance for each throat of a move: the way down to the lower corners takes several.
    let throat = 18.0 * INCH;
    let advances = advances(&stitching, throat);
    assert_eq!(stitching.time.advancing, 120.0 * advances);
    assert!(tops.windows(2).any(|pair| pair[1] - pair[0] > throat));
    // All is stitched once, in its window.
    let length: f64 = stitching.runs.iter().map(|run| run.motif.length()).sum();
    assert!((length - solved.length()).abs() < 1e-6 * length);
    for pass in &stitching.passes {
        for run in &stitching.runs[pass.runs.clone()] {
            let ys = run
                .motif
                .points()
                .iter()
                .map(|&point| pass.to_machine.apply(point).y);
            assert!(ys.clone().all(|y| (-1e-6..=pass.reach + 1e-6).contains(&y)));
        }
    }
    // The sheet says which way to roll, and where not to.
    let sheet = write_sheet(&solved, &stitching).expect("a sheet");
    let told = |words: &str| sheet.matches(words).count();
    let moves = |way: fn(f64) -> bool| {
        let pairs = tops.windows(2);
        pairs.filter(|pair| way(pair[1] - pair[0])).count()
    };
    assert_eq!(told("Roll the quilt on to"), moves(|way| way > 0.0));
    assert_eq!(told("Roll the quilt back to"), moves(|way| way < 0.0));
    assert_eq!(told("Leave the quilt where it is"), moves(|way| way == 0.0));
    // As it comes, a line runs on through corners: fewer cuts, and half the way.
    let (_, usual) = stitched(r#""machine":{"throat":18},"order":"as_it_comes","#, LEG);
    assert!(usual.runs.len() < stitching.runs.len());
    let last = usual.passes.last().expect("a pass").top;
    assert!((usual.rolled - (last - usual.passes[0].top)).abs() < 1e-9);
    // All within reach: two passes in one window, and nothing is rolled.
    let (solved, whole) = first("");
    let (corners, tops) = corners_and_tops(&solved, &whole);
    assert!(corners.is_sorted_by_key(|corner| !corner));
    assert_eq!((corners.len(), tops.len(), whole.rolled), (8, 2, 0.0));
    assert_eq!((tops[0], whole.time.advancing), (tops[1], 0.0));
    // Turned: all corners while the quilt lies upright, before any side.
    let (solved, turned) = first(r#""machine":{"throat":18,"turned":true},"#);
    let (corners, _) = corners_and_tops(&solved, &turned);
    assert!(corners.is_sorted_by_key(|corner| !corner));
    assert_eq!(turned.time.loading, 1200.0);
    // Without corners nothing is rolled back.
    let keys = |order: &str| format!(r#""machine":{{"throat":18}},"order":"{order}","#);
    let without = |order: &str| stitched(&keys(order), OPEN).1;
    assert_eq!(
        without("corners_first").passes,
        without("as_it_comes").passes
    );
}

#[test]
fn the_minutes_are_those_of_all_that_is_done_at_the_frame() {
    let keys = |advance: f64, reading: f64, loading: f64| {
        format!(
            r#""machine":{{"throat":18,"turned":true,"seconds_per_start":7,"seconds_per_cut":3,
            "seconds_per_advance":{advance},"seconds_per_reading":{reading},
            "seconds_per_loading":{loading}}},"#
        )
    };
    let (solved, stitching) = stitched(&keys(90.0, 12.0, 480.0), LEG);
    let (passes, runs) = (stitching.passes.len(), stitching.runs.len());
    let marks: usize = stitching.passes.iter().map(|pass| pass.marks.len()).sum();
    assert!(marks >= passes);
    let time = stitching.time;
    // A start, two tie-offs of 3 seconds and a cut for each run.
    assert_eq!(time.starts, (7.0 + 2.0 * 3.0 + 3.0) * runs as f64);
    assert_eq!(time.stitching, stitching.job.time.moving);
    let advances = advances(&stitching, 18.0 * INCH);
    // From the border's top to its bottom the quilt is advanced by several throats.
    assert!(advances > (passes - 2) as f64);
    assert_eq!(time.advancing, 90.0 * advances);
    assert_eq!(time.readings, 12.0 * marks as f64);
    assert_eq!(time.loading, 2.0 * 480.0);
    let parts = [
        time.stitching,
        time.starts,
        time.advancing,
        time.readings,
        time.loading,
    ];
    assert!((parts.iter().sum::<f64>() / 60.0 - stitching.minutes()).abs() < 1e-9);
    // The result has each by its name, in minutes.
    let totals = &written(&solved, Some(&stitching))["totals"];
    let names = ["stitching", "starts", "advancing", "readings", "loading"];
    for (name, seconds) in names.into_iter().zip(parts) {
        let minutes = totals["minutes_of"][name].as_f64().expect(name);
        assert!((60.0 * minutes - seconds).abs() < 1e-9, "{name}");
    }
    // Passes have their own minutes; all of them and the loadings are the whole.
    let of_passes: Vec<_> = stitching.passes.iter().map(|pass| pass.time).collect();
    assert!(of_passes.iter().all(|time| time.loading == 0.0));
    let sum = |part: fn(&FrameTime) -> f64| of_passes.iter().map(part).sum::<f64>();
    let sums = [
        sum(|time| time.stitching),
        sum(|time| time.starts),
        sum(|time| time.advancing),
        sum(|time| time.readings),
    ];
    for (one, whole) in sums.into_iter().zip(parts) {
        assert!((one - whole).abs() < 1e-9 * whole);
    }
    let less_loading = stitching.minutes() - time.loading / 60.0;
    assert!((sum(FrameTime::minutes) - less_loading).abs() < 1e-9);
    // Nothing is advanced to the first pass of a loading; runs are those of the pass.
    for (at, pass) in stitching.passes.iter().enumerate() {
        let loaded = at == 0 || stitching.passes[at - 1].loading != pass.loading;
        assert_eq!(pass.time.advancing == 0.0, loaded, "pass {at}");
        assert_eq!(pass.time.starts, 16.0 * pass.runs.len() as f64);
        let own = stitching.runs[pass.runs.clone()].iter();
        let own: Vec<_> = own.map(|run| run.motif.points()).collect();
        let alone = stitching_time(&own, &stitching.options.machine).expect("a time");
        assert!((pass.time.stitching - alone.moving).abs() < 1e-9 * alone.moving);
    }
    let result = written(&solved, Some(&stitching));
    let told = result["passes"].as_array().expect("passes").iter();
    let told: f64 = told
        .map(|pass| pass["minutes"].as_f64().expect("minutes"))
        .sum();
    assert!((told - less_loading).abs() < 1e-9);
    // What takes no time is not told of.
    let quick = stitched(&keys(0.0, 0.0, 0.0), LEG).1;
    let told = words::minutes_for(&quick.time);
    let told: Vec<&str> = told.iter().map(|part| part.work).collect();
    assert_eq!(told, ["stitching", "starts and cuts"]);
}

#[test]
fn what_is_deeper_than_the_throat_is_reported_and_still_stitched() {
    let (solved, stitching) = stitched(r#""machine":{"throat":4},"#, LEG);
    let one = found("too_deep", &read(&stitching.findings, &solved));
    assert_eq!(one.severity, Severity::Error);
    assert!(
        one.message.contains("no pass of 4 in takes"),
        "{}",
        one.message
    );
    let length: f64 = stitching.runs.iter().map(|run| run.motif.length()).sum();
    assert!((length - solved.length()).abs() < 1e-6 * length);
}

#[test]
fn numbers_out_of_range_are_refused_with_their_keys() {
    for (keys, message) in [
        (
            r#""stitching":{"stitches_per_inch":0},"#,
            "stitching: stitches_per_inch: the number of stitches per inch is 0",
        ),
        (
            r#""stitching":{"minimum":"3 in"},"#,
            "stitching: the minimum stitch is",
        ),
        (
            r#""stitching":{"minimum":-1},"#,
            "stitching: minimum: the minimum is -1",
        ),
        (r#""stitching":{"tie_off":1000},"#, "stitching: "),
        (
            r#""machine":{"throat":0},"#,
            "machine.throat: the throat is 0",
        ),
        (
            r#""machine":{"top_speed":0},"#,
            "machine: top_speed: the top speed is 0",
        ),
        (
            r#""machine":{"seconds_per_cut":-1},"#,
            "machine: seconds_per_cut: the number of seconds for a cut is -1",
        ),
        (
            r#""machine":{"seconds_per_advance":-1},"#,
            "machine.seconds_per_advance: the number of seconds for an advance is -1",
        ),
        (
            r#""machine":{"seconds_per_reading":-1},"#,
            "machine.seconds_per_reading: the number of seconds for a reading is -1",
        ),
        (
            r#""machine":{"seconds_per_loading":-1},"#,
            "machine.seconds_per_loading: the number of seconds for a loading is -1",
        ),
        (
            r#""thread":{"bobbin":0},"#,
            "thread: bobbin: the bobbin is 0",
        ),
        (
            r#""thread":{"waste_percent":-5},"#,
            "thread: waste_percent: the percentage of waste is -5",
        ),
        (
            r#""thread":{"thickness":-1},"#,
            "thread: thickness: the thickness of the layers is -1",
        ),
        (
            r#""checks":{"closest":"1/200 in"},"#,
            "checks.closest: lines closer than",
        ),
        (
            r#""checks":{"densest":0},"#,
            "checks.densest: the densest is 0",
        ),
        (
            r#""order":"sides_first","#,
            "order: unknown value \"sides_first\"; accepted here: as_it_comes, corners_first",
        ),
        (
            r#""machine":{"throat":18,"reserve":-1},"#,
            "machine.reserve: the reserve is -1",
        ),
        (
            r#""machine":{"throat":18,"reserve":9},"#,
            "nothing is left of a throat of 18 in: 9 in is kept free at either edge",
        ),
        (
            r#""machine":{"throat":18,"roll":{"bar_diameter":2}},"#,
            "machine.roll: the key \"thickness\" is missing; add it",
        ),
        (
            r#""machine":{"throat":18,"roll":{"bar_diameter":0,"thickness":1}},"#,
            "machine.roll: bar_diameter: the bar's diameter is 0",
        ),
        (
            r#""machine":{"throat":18,"roll":{"bar_diameter":2,"thickness":0}},"#,
            "machine.roll: thickness: the thickness is 0",
        ),
        (
            r#""machine":{"throat":18,"roll":{"bar_diameter":1,"thickness":4}},"#,
            "machine.roll: the quilt lies 4 in thick on the roll, more than the bar is round",
        ),
        (
            r#""machine":{"throat":4,"roll":{"bar_diameter":2,"thickness":1}},"#,
            "nothing is left of a throat of 4 in: 0 in is kept free at either edge, and the roll takes",
        ),
        (
            r#""machine":{"roll":{"bar_diameter":2,"thickness":1}},"#,
            "machine: the roll takes from the machine's throat",
        ),
        (
            r#""machine":{"reserve":1},"#,
            "machine: the reserve takes from the machine's throat",
        ),
        (
            r#""machine":{"y":"left"},"#,
            "machine.y: unknown value \"left\"; accepted here: down, up",
        ),
        (
            r#""machine":{"troath":0},"#,
            "machine.troath: unknown key \"troath\"; did you mean \"throat\"?",
        ),
    ] {
        let error = planned(keys, LEG, &SIDE).expect_err(keys).to_string();
        assert!(error.contains(message), "{keys}: {error}");
    }
}
