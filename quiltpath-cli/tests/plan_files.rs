//! `plan`: the files of lines in `paths/` and `passes/`, and how they agree with `result.json`.

mod common;

use common::{Bench, points};

/// Holds the files in `paths` against `paths[]`: so many, one each, in its order, with its line.
fn paths_agree(bench: &Bench, wanted: usize) {
    let result = bench.json("out/result.json");
    let files = bench.names("out/paths");
    let files = files.iter().filter(|name| name.ends_with(".json"));
    let files: Vec<&String> = files.collect();
    let paths = result["paths"].as_array().expect("paths");
    assert_eq!((files.len(), paths.len()), (wanted, wanted));
    for ((file, path), number) in files.iter().zip(paths).zip(1..) {
        assert!(file.starts_with(&format!("{number:02}-")), "{file}");
        let line = points(&bench.json(&format!("out/paths/{file}")));
        for (at, key) in [(0, "start"), (line.len() - 1, "end")] {
            for axis in 0..2 {
                let wanted = number_at(&path[key][axis]);
                assert!((line[at][axis] - wanted).abs() < 1e-8, "{file}, {key}");
            }
        }
    }
}

fn number_at(value: &serde_json::Value) -> f64 {
    value.as_f64().expect("a number")
}

fn list(value: &serde_json::Value) -> &[serde_json::Value] {
    value.as_array().expect("a list")
}

#[test]
fn every_line_without_a_cut_is_in_paths_and_a_closed_block_says_so() {
    // A square that ends where it starts: a line by itself in each corner.
    let block = r#"{"unit": "in", "points": [[0, 0], [4, 0], [4, 4], [0, 4], [0, 0]]}"#;
    let bench = Bench::new().with_demo().with("block.json", block);
    let quilt = ["plan", "--quilt", "64 x 80 in", "--border", "6 in"];
    let motifs = ["--side", "border.svg", "--corner", "block.json"];
    let more = ["--style", "block", "--out", "out"];
    bench.run(&[&quilt[..], &motifs, &more].concat()).ok();
    paths_agree(&bench, 8);
    let result = bench.json("out/result.json");
    let runs = list(&result["passes"]).iter();
    let runs: Vec<_> = runs.flat_map(|pass| list(&pass["runs"])).collect();
    assert_eq!(runs.len(), 8);
    for path in list(&result["paths"]) {
        let name = path["pieces"][0].as_str().expect("a name");
        let corner = name.contains("corner");
        assert_eq!(path["closed"], corner, "{path}");
        let run = runs.iter().find(|run| run["parts"][0]["piece"] == name);
        assert_eq!(run.expect("a run")["closed"], corner, "{path}");
    }
}

#[test]
fn a_pass_is_drawn_on_its_window_and_its_cut_repeats_say_which_portion() {
    let bench = Bench::new().with_demo();
    let mut plan = bench.json("plan.json");
    plan["machine"] = serde_json::json!({"throat": 4, "turned": true});
    let bench = bench.with("narrow.json", plan.to_string());
    // Cuts inside a motif are errors among the findings, which leave the exit code as it is.
    let run = bench.run(&["plan", "narrow.json", "--out", "out"]);
    assert_eq!(run.code, 0, "{run:?}");
    let result = bench.json("out/result.json");
    let [width, height] = ["width", "height"].map(|side| number_at(&result["quilt"][side]));
    let mut cut = 0;
    for pass in list(&result["passes"]) {
        let loading = pass["loading"].as_str().expect("a word");
        let number = pass["number"].as_u64().expect("a number");
        let drawn = bench.read(&format!("out/passes/{number:02}-{loading}.svg"));
        let wide = if loading == "turned" { height } else { width };
        let page = format!("width=\"{wide}in\" height=\"4in\" viewBox=\"0 0 {wide} 4\"");
        let head: String = drawn.chars().take(300).collect();
        assert!(head.contains(&page), "{page}: {head}");
        for part in list(&pass["runs"])
            .iter()
            .flat_map(|run| list(&run["parts"]))
        {
            let [from, to] = [0, 1].map(|at| number_at(&part["between"][at]));
            assert!(0.0 <= from && from < to && to <= 1.0, "{part}");
            let name = part["piece"].as_str().expect("a name");
            if part["repeats"].is_null() && name.contains("side") {
                let [from, to] = [0, 1].map(|at| number_at(&part["in_repeats"][at]));
                assert!(from < to, "{part}");
                cut += 1;
            }
        }
    }
    assert!(cut > 10, "{cut} parts are cut inside a repeat");
}

#[test]
fn sides_by_themselves_are_lines_without_a_cut() {
    let bench = Bench::new().with_demo();
    let quilt = ["plan", "--quilt", "64 x 80 in", "--border", "6 in"];
    let more = ["--side", "border.svg", "--out", "out"];
    bench.run(&[&quilt[..], &more].concat()).ok();
    paths_agree(&bench, 4);
}
