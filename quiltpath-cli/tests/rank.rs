//! `rank`: many drawings by how little they would be stretched.

mod common;

use common::{Bench, svg};

/// Zigzags of growing length, 2 in high, and two that can't be used.
fn bench() -> Bench {
    let mut bench = Bench::new().with_demo();
    std::fs::create_dir(bench.path("many")).expect("a folder");
    for length in 3..12 {
        let path = format!(r#"<path d="M0 1 L1 0 L2 2 L{length} 1"/>"#);
        bench = bench.with(&format!("many/zigzag-{length:02}.svg"), svg(&path));
    }
    bench
        .with("many/broken.svg", "<svg")
        .with("many/dot.json", r#"{"unit":"in","points":[[1,1]]}"#)
        .with("many/notes.txt", "not a drawing")
}

fn lines(out: &str) -> Vec<serde_json::Value> {
    out.lines()
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect()
}

#[test]
fn the_best_comes_first_and_bad_files_are_passed_over() {
    let bench = bench();
    for room in [
        vec!["--plan", "plan.json"],
        vec!["--span", "50 in", "--depth", "5 in"],
    ] {
        let run = bench.run(&[["rank", "many", "--json"].as_slice(), &room].concat());
        assert_eq!(run.code, 1, "{run:?}");
        let ranks = lines(&run.out);
        assert_eq!(ranks.len(), 9, "{}", run.out);
        let cost = |rank: &serde_json::Value| {
            let stretch = rank["worst_stretch"].as_f64().expect("a stretch");
            let sides = rank["sides"].as_array().expect("sides");
            let side = |s: &serde_json::Value| s["stretch"].as_f64().expect("a stretch").ln().abs();
            let worst = sides.iter().map(side).fold(0.0, f64::max);
            assert!((worst - stretch.ln().abs()).abs() < 1e-12);
            worst
        };
        assert!(
            ranks
                .windows(2)
                .all(|pair| cost(&pair[0]) <= cost(&pair[1]) + 1e-12)
        );
        assert!(
            run.err.contains("error: many/broken.svg:1:")
                && run.err.contains("error: many/dot.json: ")
                && run.err.ends_with("2 of 11 failed\n"),
            "{}",
            run.err
        );
        let one = [
            ["rank", "many", "--json", "--threads", "1"].as_slice(),
            &room,
        ]
        .concat();
        assert_eq!(bench.run(&one).out, run.out);
    }
}

#[test]
fn a_rating_is_what_the_plan_comes_to() {
    let bench = bench();
    let plan = bench
        .read("plan.json")
        .replace("border.svg", "many/zigzag-07.svg");
    let bench = bench.with("seven.json", plan);
    let ranked = bench
        .run(&["rank", "many", "--plan", "plan.json", "--json"])
        .out;
    let rank = lines(&ranked)
        .into_iter()
        .find(|r| r["drawing"] == "many/zigzag-07.svg");
    let planned = bench.run(&["plan", "seven.json", "--out", "-"]).ok().out;
    let result: serde_json::Value = serde_json::from_str(&planned).expect("JSON");
    let pieces = result["pieces"].as_array().expect("pieces");
    let sides: Vec<_> = pieces.iter().filter(|p| p["kind"] == "side").collect();
    let rated = rank.expect("rated")["sides"].clone();
    for (at, side) in sides.iter().enumerate() {
        assert_eq!(side["repeats"], rated[at]["repeats"]);
        assert_eq!(side["stretch"], rated[at]["stretch"]);
    }
}

#[test]
fn what_is_to_be_filled_is_asked_for_and_top_is_1_or_more() {
    let run = |more: &[&str]| bench().run(&[&["rank", "many"], more].concat());
    let both = [
        "rank [OPTIONS] --plan <PLAN.json> <DRAWINGS>",
        "rank [OPTIONS] --span <LENGTH> --depth <LENGTH> <DRAWINGS>",
    ];
    run(&[]).failed(2, &both);
    run(&["--span", "5 in"]).failed(2, &both);
    run(&["--plan", "plan.json", "--top", "0"]).failed(2, &["--top <N>': give 1 or more"]);
}

#[test]
fn a_table_is_for_people_and_top_shortens_it() {
    let run = bench().run(&["rank", "many", "--plan", "plan.json", "--top", "2"]);
    assert_eq!(run.out.lines().count(), 3, "{}", run.out);
    assert!(run.out.starts_with("   #  stretch  repeats"), "{}", run.out);
}

#[test]
fn json_lines_are_ranked_as_files_are() {
    let bench = bench();
    let mut all = String::new();
    for length in 3..12 {
        let file = format!("many/zigzag-{length:02}.svg");
        let to = ["convert", &file, "--out", "-", "--format", "jsonl"];
        all.push_str(&bench.run(&to).ok().out);
    }
    all.push_str("{\"unit\":\"mm\"}\n");
    let room = ["--span", "50 in", "--depth", "5 in", "--json"];
    let run = bench.run_with(&[["rank", "-"].as_slice(), &room].concat(), &all);
    assert_eq!(run.code, 1);
    assert!(
        run.err.contains("error: stdin:10:1: no path"),
        "{}",
        run.err
    );
    let files = bench
        .run(&[["rank", "many"].as_slice(), &room].concat())
        .out;
    let (ranks, files) = (lines(&run.out), lines(&files));
    assert_eq!(ranks.len(), 9);
    for (rank, file) in ranks.iter().zip(&files) {
        let row = rank["line"].as_u64().expect("a line");
        assert_eq!(rank["drawing"], format!("line-{row}"));
        assert_eq!(file["drawing"], format!("many/zigzag-{:02}.svg", row + 2));
        for side in ["repeats", "stretch"] {
            assert_eq!(rank["sides"][0][side], file["sides"][0][side]);
        }
    }
    let none = bench.run_with(&[["rank", "-"].as_slice(), &room].concat(), "");
    assert_eq!(none.ok().out, "");
}

#[test]
fn what_can_not_be_ranked_is_reported() {
    let bench = bench();
    std::fs::create_dir(bench.path("none")).expect("a folder");
    let run = |args: &[&str]| bench.run(args);
    run(&["rank", "many"]).failed(2, &["--plan"]);
    run(&["rank", "many", "--span", "9 in"]).failed(2, &["--depth"]);
    run(&["rank", "many", "--span", "9", "--depth", "1 in"]).failed(2, &["--span: 9 has no unit"]);
    run(&["rank", "none", "--plan", "plan.json"])
        .failed(1, &["none: there are no drawings in this folder"]);
    run(&["rank", "nowhere", "--plan", "plan.json"]).failed(1, &["nowhere: can't be read"]);
    run(&["rank", "many", "--plan", "plan.json", "--threads", "0"])
        .failed(2, &["--threads: give 1 to 256"]);
}

#[test]
fn a_corner_drawing_comes_last_with_the_reason() {
    let mut bench = Bench::new().with_demo();
    std::fs::create_dir(bench.path("two")).expect("a folder");
    for name in ["border.svg", "corner.svg"] {
        let drawing = bench.read(name);
        bench = bench.with(&format!("two/{name}"), drawing);
    }
    for room in [
        vec!["--plan", "plan.json"],
        vec!["--span", "50 in", "--depth", "5 in"],
    ] {
        let ranked = bench.run(&[["rank", "two", "--json"].as_slice(), &room].concat());
        let ranks = lines(&ranked.ok().out);
        assert_eq!(ranks[1]["drawing"], "two/corner.svg");
        assert!(ranks[0].get("why_not").is_none());
        let why = ranks[1]["why_not"].as_str().expect("a reason");
        assert!(why.contains("its ends at right angles"), "{why}");
        let table = bench
            .run(&[["rank", "two"].as_slice(), &room].concat())
            .ok()
            .out;
        let last = table.lines().last().expect("lines");
        assert!(
            last.contains("(no border repeat, but a corner drawing"),
            "{last}"
        );
    }
}
