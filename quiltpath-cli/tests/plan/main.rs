//! `plan`: from a plan file or flags to a folder, and what it refuses.

#[path = "../common/mod.rs"]
mod common;

mod around;
mod refused;

use std::fs;

use common::Bench;

const FLAGS: [&str; 9] = [
    "plan",
    "--quilt",
    "64 1/4 x 80 in",
    "--border",
    "6 in",
    "--side",
    "border.svg",
    "--corner",
    "corner.svg",
];

fn flags<'a>(more: &[&'a str]) -> Vec<&'a str> {
    [FLAGS.as_slice(), more].concat()
}

#[test]
fn a_plan_becomes_a_folder_with_all_its_files() {
    let bench = Bench::new().with_demo();
    let run = bench.run(&["plan", "plan.json", "--out", "out"]).ok();
    assert!(run.out.is_empty());
    assert!(run.err.contains("quilt 64 1/4 in x 80 in"), "{}", run.err);
    assert!(
        run.err.contains("border: band 5 1/4 in deep"),
        "{}",
        run.err
    );
    assert!(run.err.contains("8 pieces, 1 thread cut"), "{}", run.err);
    assert!(
        run.err
            .ends_with("open out/sheet.html (to print) or out/quilt.svg\n"),
        "{}",
        run.err
    );
    assert_eq!(
        bench.names("out"),
        [
            "harbour-garden-an-invented-demo-quilt.quilt.json",
            "needle-up",
            "paths",
            "pieces",
            "plan.json",
            "quilt.svg",
            "result.json",
            "sheet.html"
        ]
    );
    assert_eq!(
        bench.names("out/paths"),
        ["01-border.json", "01-border.svg"]
    );
    let pieces = bench.names("out/pieces");
    assert_eq!(pieces.len(), 16);
    assert_eq!(
        pieces[..2],
        [
            "01-border-corner-top-left.json",
            "01-border-corner-top-left.svg",
        ]
    );
    assert_eq!(pieces[15], "08-border-side-left.svg");
    assert!(bench.read("out/quilt.svg").starts_with("<svg"));
    assert_eq!(bench.names(".").len(), 4);

    // The pieces hold what the result says, and the path goes round.
    let result = bench.json("out/result.json");
    let piece = common::points(&bench.json("out/pieces/02-border-side-top.json"));
    assert_eq!(common::points(&result["pieces"][1]), piece);
    let round = common::points(&bench.json("out/paths/01-border.json"));
    assert_eq!(round[0], round[round.len() - 1]);
}

#[test]
fn flags_alone_make_the_same_plan_and_it_can_be_used_again() {
    let bench = Bench::new().with_demo();
    bench.run(&["plan", "plan.json", "--out", "file"]).ok();
    bench.run(&flags(&["--out", "flags"])).ok();
    let pieces = |folder: &str| bench.json(&format!("{folder}/result.json"))["pieces"].clone();
    assert_eq!(pieces("file"), pieces("flags"));

    let plan = bench.json("flags/plan.json");
    assert_eq!(plan["borders"][0]["side"]["motif"], "../border.svg");
    bench
        .run(&["plan", "flags/plan.json", "--out", "again"])
        .ok();
    assert_eq!(
        bench.read("flags/result.json"),
        bench.read("again/result.json")
    );
    bench
        .run(&["plan", "again/plan.json", "--out", "again", "--force"])
        .ok();
    assert_eq!(bench.read("flags/plan.json"), bench.read("again/plan.json"));
}

#[test]
fn without_a_corner_the_corners_stay_open() {
    let bench = Bench::new().with_demo();
    let args = [
        "plan",
        "--quilt",
        "1600 x 2000",
        "--unit",
        "mm",
        "--border",
        "15 cm",
    ];
    let more = ["--side", "border.svg", "--out", "out", "--title", "Open"];
    bench.run(&[args.as_slice(), &more].concat()).ok();
    let result = bench.json("out/result.json");
    assert_eq!(result["unit"], "mm");
    assert_eq!(result["title"], "Open");
    assert_eq!(result["pieces"].as_array().map(Vec::len), Some(4));
    assert_eq!(bench.names("out/paths").len(), 8, "a path for each side");
}

#[test]
fn the_result_alone_goes_to_stdout() {
    let bench = Bench::new().with_demo();
    let plan = bench.read("plan.json");
    let run = bench.run_with(&["plan", "-", "--out", "-"], plan).ok();
    let result: serde_json::Value = serde_json::from_str(&run.out).expect("JSON");
    assert_eq!(result["unit"], "in");
    assert!(!run.err.contains("open "), "{}", run.err);
    assert_eq!(bench.names(".").len(), 3);
}

#[test]
fn a_folder_is_replaced_only_when_it_is_ours_and_force_is_given() {
    let bench = Bench::new().with_demo();
    fs::create_dir(bench.path("out")).expect("an empty folder");
    bench.run(&flags(&["--out", "out"])).ok();
    let before = bench.read("out/result.json");
    let refused = bench.run(&flags(&["--out", "out"]));
    refused.failed(1, &["error: out: exists already; give --force"]);
    bench
        .run(&flags(&["--out", "out", "--force", "--seam-gap", "1/2 in"]))
        .ok();
    let after = bench.read("out/result.json");
    assert_ne!(before, after);

    fs::write(bench.path("out/pieces/notes.txt"), "mine").expect("written");
    let refused = bench.run(&flags(&["--out", "out", "--force"]));
    refused.failed(
        1,
        &["out: holds a file that quiltpath didn't write, pieces/notes.txt"],
    );
    assert_eq!(bench.read("out/pieces/notes.txt"), "mine");
    assert_eq!(bench.read("out/result.json"), after);

    // A plan that fails leaves the old folder whole.
    fs::remove_file(bench.path("out/pieces/notes.txt")).expect("removed");
    let failed = bench.run(&flags(&["--out", "out", "--force", "--edge-gap", "7 in"]));
    failed.failed(1, &["the seam gap and the edge gap take 7 1/4 in"]);
    assert_eq!(bench.read("out/result.json"), after);
    assert_eq!(bench.names(".").len(), 4, "{:?}", bench.names("."));
}

#[test]
fn what_is_no_folder_of_a_plan_is_left_alone() {
    let bench = Bench::new().with_demo().with("file", "mine");
    fs::create_dir(bench.path("own")).expect("a folder");
    fs::copy(bench.path("plan.json"), bench.path("own/plan.json")).expect("copied");
    let refused = bench.run(&flags(&["--out", "own", "--force"]));
    refused.failed(1, &["own: has no result.json"]);
    let refused = bench.run(&flags(&["--out", "file", "--force"]));
    refused.failed(1, &["file: is a file; name a folder"]);
    let refused = bench.run(&flags(&["--out", ".", "--force"]));
    refused.failed(1, &["is the folder that you are in"]);
    let refused = bench.run(&flags(&["--out", "file/out"]));
    refused.failed(
        1,
        &["file/out: can't be made: a part of its path is a file"],
    );
    if cfg!(target_os = "linux") {
        let refused = bench.run(&flags(&["--out", "/proc/out"]));
        refused.failed(1, &["/proc/out: can't be made"]);
    }
    assert_eq!(bench.names(".").len(), 5);
}

#[test]
fn findings_set_the_exit_code_when_asked() {
    let bench = Bench::new().with_demo();
    // So few repeats that they are stretched beyond the limit.
    let stretched = ["--every", "9", "--out", "out", "--force"];
    let run = bench.run(&flags(&stretched));
    assert_eq!(run.code, 0, "{run:?}");
    assert!(
        run.err.contains("warning [stretch]: border-side-top"),
        "{}",
        run.err
    );
    for (limit, code) in [("note", 3), ("warning", 3), ("error", 0)] {
        let run = bench.run(&flags(
            &[stretched.as_slice(), &["--fail-on", limit]].concat(),
        ));
        assert_eq!(run.code, code, "{limit}: {run:?}");
        assert_eq!(run.err.contains("--fail-on"), code == 3, "{run:?}");
    }
    let calm = bench.run(&flags(&["--out", "calm", "--fail-on", "warning"]));
    assert_eq!(calm.code, 0, "{calm:?}");
}

#[test]
fn flags_for_the_repeats_are_keys_of_the_plan() {
    let bench = Bench::new().with_demo();
    let more = ["--ease", "--alternate", "centred", "--out", "out"];
    let run = bench.run(&flags(&more)).ok();
    assert!(run.err.contains(", its loops by "), "{}", run.err);
    let side = bench.json("out/plan.json")["borders"][0]["side"].clone();
    assert_eq!(
        (&side["ease"], &side["alternate"]),
        (&true.into(), &"centred".into())
    );
    let result = bench.json("out/result.json");
    for piece in result["pieces"].as_array().expect("pieces") {
        let is_side = piece["kind"] == "side";
        assert_eq!(
            piece["ease"]["roundness"].is_number(),
            is_side,
            "{}",
            piece["name"]
        );
        assert!(!is_side || piece["repeats"].as_u64().is_some_and(|n| n % 2 == 0));
    }
}
