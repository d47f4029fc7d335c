//! `compare`: plans side by side, each figure that of the plan's own result.

mod common;

use common::{Bench, demo};
use serde_json::Value;

/// The demo, and the same quilt with other corners.
fn bench() -> Bench {
    let bent = std::fs::read_to_string(demo("bent.json")).expect("a plan of the demo");
    Bench::new().with_demo().with("bent.json", bent)
}

fn lines(out: &str) -> Vec<Value> {
    out.lines()
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect()
}

/// What stands at `pieces.0.stretch` and the like.
fn at<'a>(result: &'a Value, key: &str) -> &'a Value {
    key.split('.')
        .fold(result, |value, step| match step.parse::<usize>() {
            Ok(place) => &value[place],
            Err(_) => &value[step],
        })
}

#[test]
fn every_figure_is_that_of_the_plans_own_result() {
    let bench = bench();
    let run = bench
        .run(&["compare", "plan.json", "bent.json", "--json"])
        .ok();
    let plans = lines(&run.out);
    assert_eq!(plans.len(), 2);
    for plan in &plans {
        let file = plan["plan"].as_str().expect("a name");
        let result = bench.run(&["plan", file, "--out", "-"]).ok().out;
        let result: Value = serde_json::from_str(&result).expect("JSON");
        for key in ["title", "customer", "unit"] {
            assert_eq!(plan[key], result[key], "{file}: {key}");
        }
        for key in [
            "minutes",
            "needle_thread",
            "bobbin_thread",
            "stitches",
            "thread_cuts",
            "passes",
            "stitched",
        ] {
            assert_eq!(plan[key], result["totals"][key], "{file}: {key}");
        }
        for key in ["width", "height"] {
            assert_eq!(plan[key], result["quilt"][key], "{file}: {key}");
        }
        let pieces = result["pieces"].as_array().expect("pieces");
        let stretches = pieces.iter().filter_map(|piece| piece["stretch"].as_f64());
        let far = |stretch: f64| (stretch - 1.0).abs();
        let worst = plan["worst_stretch"]["stretch"]
            .as_f64()
            .expect("a stretch");
        let key = plan["worst_stretch"]["key"].as_str().expect("a key");
        assert_eq!(at(&result, key), worst);
        let farthest = stretches.map(far).fold(0.0, f64::max);
        assert!((far(worst) - farthest).abs() < 1e-9, "{file}: {worst}");
        let degrees = plan["worst_kink"]["degrees"].as_f64().expect("a turn");
        let key = plan["worst_kink"]["key"].as_str().expect("a key");
        assert_eq!(at(&result, key), degrees);
        let joins = result["joins"].as_array().expect("joins").iter();
        let kinks = joins
            .chain(pieces)
            .filter_map(|of| of["kink_degrees"].as_f64());
        assert!(kinks.fold(0.0, f64::max) <= degrees + 1e-6);
        let found = result["findings"].as_array().expect("findings");
        for severity in ["error", "warning", "note"] {
            let count = found.iter().filter(|one| one["severity"] == severity);
            assert_eq!(plan["findings"][severity], count.count(), "{file}");
        }
    }
}

#[test]
fn a_file_a_folder_and_a_quilt_in_one_file_are_the_same_plan() {
    let bench = bench();
    bench.run(&["plan", "bent.json", "--out", "out"]).ok();
    let quilt = bench
        .names("out")
        .into_iter()
        .find(|name| name.ends_with(".quilt.json"))
        .expect("a quilt in one file");
    let quilt = format!("out/{quilt}");
    let run = bench.run(&["compare", "bent.json", "out", &quilt, "--json"]);
    let mut plans = lines(&run.ok().out);
    for plan in &mut plans {
        plan["plan"].take();
    }
    assert_eq!(plans[0], plans[1]);
    assert_eq!(plans[0], plans[2]);
}

#[test]
fn the_page_is_written_and_a_table_is_for_people() {
    let bench = bench();
    let args = ["compare", "plan.json", "bent.json", "--out", "page.html"];
    let run = bench.run(&args).ok();
    assert!(run.out.is_empty());
    assert!(run.err.starts_with("1  Harbour Garden"), "{}", run.err);
    for row in [
        "Minutes, about",
        "Thread cuts",
        "Worst stretch",
        "Sharpest turn",
    ] {
        assert!(
            run.err.lines().any(|line| line.starts_with(row)),
            "{row}: {}",
            run.err
        );
    }
    assert!(run.err.contains(" least"), "{}", run.err);
    let page = bench.read("page.html");
    assert_eq!(page.matches("<svg").count(), 2);
    bench
        .run(&args)
        .failed(1, &["page.html: exists already; give --force"]);
    bench.run(&[&args[..], &["--force"]].concat()).ok();
    let out = ["compare", "plan.json", "bent.json", "--out", "-"];
    assert_eq!(bench.run(&out).ok().out, page);
    let both = [
        "compare",
        "plan.json",
        "bent.json",
        "--json",
        "--out",
        "more.html",
    ];
    assert_eq!(lines(&bench.run(&both).ok().out).len(), 2);
    assert_eq!(bench.read("more.html"), page);
}

#[test]
fn a_plan_from_stdin_stands_beside_one_from_a_file() {
    let bench = bench();
    let text = bench.read("bent.json");
    let run = bench.run_with(&["compare", "-", "plan.json", "--json"], &text);
    assert_eq!(lines(&run.ok().out)[0]["plan"], "stdin");
}

#[test]
fn what_can_not_be_compared_is_refused_by_name() {
    let bench = bench();
    std::fs::create_dir(bench.path("folder")).expect("a folder");
    let bench = bench
        .with("broken.json", "{")
        .with("missing.json", bench_plan("nowhere.svg"));
    bench.run(&["plan", "bent.json", "--out", "out"]).ok();
    let refused = |plans: &[&str], code: i32, words: &[&str]| {
        let args = [&["compare"], plans, &["--out", "page.html"]].concat();
        bench.run(&args).failed(code, words);
        assert!(!bench.path("page.html").exists());
    };
    refused(&[], 2, &["<PLAN>"]);
    refused(&["plan.json"], 2, &["1 plan to compare; give 2 to 6"]);
    let seven: Vec<String> = (0..7).map(|at| format!("{at}.json")).collect();
    let seven: Vec<&str> = seven.iter().map(String::as_str).collect();
    refused(&seven, 2, &["7 plans to compare; give 2 to 6"]);
    refused(
        &["plan.json", "bent.json", "plan.json"],
        2,
        &["plan.json: is given twice; give each plan once"],
    );
    refused(
        &["plan.json", "./plan.json"],
        2,
        &["plan.json and ./plan.json are the same plan; give each once"],
    );
    refused(
        &["out", "out/plan.json"],
        2,
        &["out and out/plan.json are the same plan"],
    );
    refused(&["-", "-"], 2, &["stdin: is given twice"]);
    refused(&["plan.json", "none.json"], 1, &["none.json"]);
    refused(&["plan.json", "broken.json"], 1, &["broken.json:1:"]);
    refused(
        &["plan.json", "missing.json"],
        1,
        &["missing.json", "nowhere.svg", "no such file"],
    );
    refused(&["plan.json", "folder"], 1, &["folder: has no plan.json"]);
    bench
        .run(&["compare", "plan.json", "bent.json"])
        .failed(2, &["--out <FILE>"]);
    bench
        .run(&["compare", "plan.json", "bent.json", "--out", "x.pdf"])
        .failed(
            2,
            &["compare writes a page to print, as HTML; name it x.html"],
        );
    bench
        .run(&["compare", "plan.json", "bent.json", "--json", "--out", "-"])
        .failed(2, &["--json: the page goes to stdout already"]);
}

/// A plan with a drawing of this name along its sides.
fn bench_plan(drawing: &str) -> String {
    format!(
        r#"{{"unit": "in", "quilt": {{"width": 40, "height": 60}},
        "borders": [{{"width": 6, "corner": {{"style": "open"}}, "side": {{"motif": "{drawing}"}}}}]}}"#
    )
}

#[test]
fn customer_and_notes_reach_the_sheet_the_summary_and_the_result() {
    let bench = bench();
    let mut plan = bench.json("plan.json");
    plan["customer"] = "Maren Holt".into();
    plan["notes"] = "Wool batting.\nNo knots.".into();
    let bench = bench.with("said.json", plan.to_string());
    let run = bench.run(&["plan", "said.json", "--out", "out"]).ok();
    assert!(run.err.contains("\nfor Maren Holt\n"), "{}", run.err);
    let result = bench.json("out/result.json");
    assert_eq!(result["customer"], "Maren Holt");
    assert_eq!(result["notes"], "Wool batting.\nNo knots.");
    let sheet = bench.read("out/sheet.html");
    assert!(sheet.contains(">Maren Holt</span>"));
    assert!(sheet.contains(">Wool batting.\nNo knots.</p>"));
    plan["customer"] = "Maren Holt\nFerry Lane 3".into();
    let bench = bench.with("said.json", plan.to_string());
    bench.run(&["plan", "said.json", "--out", "-"]).failed(
        1,
        &["said.json: customer: this is 2 lines; give one line, and the rest as notes"],
    );
}
