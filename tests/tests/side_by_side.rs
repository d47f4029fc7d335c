//! Plans side by side, from their files to the page: every number on it is that of the plan's own
//! `result.json`.

use std::collections::BTreeMap;
use std::path::Path;

use quiltpath_core::io::compare::{Compared, write_comparison};
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::plan::{Solved, Stitching, solve, stitch_plan};
use quiltpath_core::units::Unit;
use serde_json::Value;

/// A plan of the demo, solved and stitched, with its result.
struct Planned {
    solved: Solved,
    stitching: Stitching,
    result: Value,
}

fn planned(name: &str) -> Planned {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/demo");
    let bytes = std::fs::read(folder.join(name)).expect("a plan's file");
    let plan = read_plan(&bytes).expect("a plan");
    let solved = solve(&plan, |request| {
        let bytes = std::fs::read(folder.join(&request.name)).expect("a motif's file");
        let options = ReadOptions::default().with_unit(Some(plan.unit.into()));
        LineDrawing::read(&request.name, &bytes, &options)?.strokes(Unit::Mm)
    });
    let solved = solved.expect("solved");
    let stitching = stitch_plan(&plan, &solved).expect("stitched");
    let result = PlanResult::new(&solved, Some(&stitching)).expect("a whole plan");
    let result = write_result(&result).expect("finite numbers");
    Planned {
        solved,
        stitching,
        result: serde_json::from_str(&result).expect("JSON"),
    }
}

/// The numbers of each plan on a page, by their keys.
fn numbers(page: &str, plans: usize) -> Vec<BTreeMap<String, f64>> {
    let mut all = vec![BTreeMap::new(); plans];
    for cell in page.split(" data-plan=\"").skip(1) {
        let (plan, cell) = cell.split_once('"').expect("a plan's number");
        let plan: usize = plan.parse().expect("a number");
        let (cell, _) = cell.split_once("</td>").expect("an end of the cell");
        for number in cell.split("<data data-key=\"").skip(1) {
            let (key, rest) = number.split_once("\" value=\"").expect("a value");
            let (value, _) = rest.split_once('"').expect("an end of the value");
            let value = value.parse().expect("a number");
            let before = all[plan - 1].insert(key.to_owned(), value);
            assert_eq!(before, None, "{key} comes twice");
        }
    }
    all
}

/// What stands at `pieces.0.stretch` and the like.
fn at<'a>(result: &'a Value, key: &str) -> &'a Value {
    let step = |value: &'a Value, step: &str| match step.parse::<usize>() {
        Ok(place) => &value[place],
        Err(_) => &value[step],
    };
    key.split('.').fold(result, step)
}

#[test]
fn every_number_on_the_page_is_that_of_the_plans_own_result() {
    let names = ["plan.json", "mitred.json", "out-of-square.json"];
    let plans = names.map(planned);
    let compared: Vec<Compared<'_>> = names
        .iter()
        .zip(&plans)
        .map(|(name, plan)| Compared::new(name, &plan.solved, &plan.stitching))
        .collect();
    let page = write_comparison(&compared).expect("a page");
    for (mut numbers, plan) in numbers(&page, plans.len()).into_iter().zip(&plans) {
        let result = &plan.result;
        let totals = &result["totals"];
        let thread = numbers.remove("thread").expect("thread");
        let half = |key: &str| totals[key].as_f64().expect("a length");
        assert_eq!(thread, half("needle_thread") + half("bobbin_thread"));
        let findings = result["findings"].as_array().expect("findings");
        for severity in ["error", "warning", "note"] {
            let found = findings.iter().filter(|one| one["severity"] == severity);
            let shown = numbers.remove(&format!("findings.{severity}"));
            assert_eq!(shown, Some(found.count() as f64));
        }
        let keys = [
            "quilt.width",
            "quilt.height",
            "totals.minutes",
            "totals.stitches",
            "totals.thread_cuts",
            "totals.passes",
        ];
        for key in keys {
            assert!(numbers.contains_key(key), "{key} is not on the page");
        }
        assert_eq!(numbers.len(), keys.len() + 2, "{numbers:?}");
        for (key, shown) in &numbers {
            assert_eq!(at(result, key).as_f64(), Some(*shown), "{key}");
        }
        // No side is stretched more, and nowhere does the line turn more, than is shown.
        let pieces = result["pieces"].as_array().expect("pieces");
        let far = |stretch: f64| (stretch - 1.0).abs();
        let sides = pieces.iter().filter_map(|piece| piece["stretch"].as_f64());
        let worst = numbers.iter().find(|(key, _)| key.ends_with(".stretch"));
        let worst = far(*worst.expect("a stretch").1);
        assert!((sides.map(far).fold(0.0, f64::max) - worst).abs() < 1e-9);
        let joins = result["joins"].as_array().expect("joins").iter();
        let made = pieces.iter().map(|piece| &piece["made"]);
        let turns = joins.chain(pieces).chain(made);
        let turns = turns.filter_map(|of| of["kink_degrees"].as_f64());
        let sharpest = numbers.iter().find(|(key, _)| key.ends_with("degrees"));
        let sharpest = *sharpest.expect("a turn").1;
        assert!((turns.fold(0.0, f64::max) - sharpest).abs() < 1e-6);
    }
}

/// The quilt is for one customer, and the mitred vine needs the least thread of the three.
#[test]
fn the_demo_page_names_its_customer_once_and_marks_the_least() {
    let names = ["plan.json", "mitred.json", "bent.json"];
    let plans = names.map(planned);
    let compared: Vec<Compared<'_>> = names
        .iter()
        .zip(&plans)
        .map(|(name, plan)| Compared::new(name, &plan.solved, &plan.stitching))
        .collect();
    let page = write_comparison(&compared).expect("a page");
    assert_eq!(
        page.matches("For <b>Maren Holt (an invented customer)</b>")
            .count(),
        1
    );
    let (_, thread) = page.split_once(">Thread</th>").expect("a row");
    let (thread, _) = thread.split_once("</tr>").expect("an end of the row");
    let marked: Vec<bool> = thread
        .split("</td>")
        .filter(|cell| cell.contains("data-plan"))
        .map(|cell| cell.contains("<b>") && cell.contains("least"))
        .collect();
    assert_eq!(marked, [false, true, false]);
}
