//! DXF in, by every way that a drawing comes in.

mod common;

use common::Bench;

/// A file with this unit ($INSUNITS) and a line on each of these layers.
fn dxf(unit: &str, layers: &[&str]) -> String {
    let line = |(at, layer): (usize, &&str)| {
        format!(
            "0\nLINE\n8\n{layer}\n10\n{at}\n20\n0\n11\n{}\n21\n1\n",
            at + 1
        )
    };
    let lines: String = layers.iter().enumerate().map(line).collect();
    format!(
        "999\nby hand\n0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n{unit}\n0\nENDSEC\n\
         0\nSECTION\n2\nENTITIES\n{lines}0\nENDSEC\n0\nEOF\n"
    )
}

#[test]
fn a_dxf_comes_from_a_file_a_folder_or_a_stream() {
    let bench = Bench::new();
    std::fs::create_dir(bench.path("many")).expect("a folder");
    let text = dxf("1", &["leaf"]);
    // The content decides, so that the name may be any.
    let bench = bench
        .with("leaf.DXF", &text)
        .with("leaf.svg", &text)
        .with("many/a.dxf", text.replace('\n', "\r\n"));
    let read = |out: &str| {
        let line = bench.json(out);
        assert_eq!(line["unit"], "in");
        assert_eq!(
            line["points"],
            serde_json::json!([[0.0, 0.0], [1.0, -1.0]]),
            "{line}"
        );
    };
    for input in ["leaf.DXF", "leaf.svg"] {
        let run = bench
            .run(&["convert", input, "--out", "a.json", "--force"])
            .ok();
        assert_eq!(run.err, "");
        read("a.json");
    }
    bench
        .run(&["convert", "many", "--out", "out", "--format", "json"])
        .ok();
    read("out/a.json");
    for out in ["b.json", "b.jsonl"] {
        bench.run_with(&["convert", "-", "--out", out], &text).ok();
        read(out);
    }
    let run = bench.run(&["measure", "leaf.DXF"]).ok();
    assert!(run.out.contains("1 in x 1 in"), "{}", run.out);
}

#[test]
fn a_file_without_a_unit_takes_the_one_given() {
    let bench = Bench::new().with("a.dxf", dxf("0", &["0"]));
    let run = bench.run(&["convert", "a.dxf", "--out", "a.json"]).ok();
    assert!(
        run.err.contains("note: a.dxf: the file names no unit ($INSUNITS): 1 is taken as 1 mm, which makes what is drawn 0.03937 in x 0.03937 in (1 mm x 1 mm); give the unit if it is another; --unit does that\n"),
        "{}",
        run.err
    );
    assert_eq!(bench.json("a.json")["unit"], "mm");
    let run = bench
        .run(&["convert", "a.dxf", "--unit", "in", "--out", "b.json"])
        .ok();
    assert_eq!(
        (run.err.as_str(), &bench.json("b.json")["unit"]),
        ("", &"in".into())
    );
    assert_eq!(bench.json("b.json")["points"][1][0], 1.0);
}

#[test]
fn layers_are_chosen_by_name() {
    let bench = Bench::new().with("a.dxf", dxf("1", &["guides", "Quilting"]));
    bench
        .run(&["convert", "a.dxf", "--layer", "quilting", "--out", "a.json"])
        .ok();
    assert_eq!(bench.json("a.json")["points"][0][0], 1.0);
    bench.run(&["measure", "a.dxf", "--layer", "vine"]).failed(
        1,
        &["a.dxf: no layer is called \"vine\"; there are \"0\", \"guides\", \"Quilting\""],
    );
}

#[test]
fn a_plan_takes_motifs_as_dxf() {
    let bench = Bench::new().with_demo();
    for (drawing, line) in [("border.svg", "border.dxf"), ("corner.svg", "corner.dxf")] {
        bench.run(&["convert", drawing, "--out", line]).ok();
    }
    let plan = bench.read("plan.json");
    let in_dxf = plan
        .replace("border.svg", "border.dxf")
        .replace("corner.svg", "corner.dxf");
    assert_ne!(plan, in_dxf);
    let bench = bench.with("dxf.json", in_dxf);
    bench.run(&["plan", "plan.json", "--out", "a"]).ok();
    bench.run(&["plan", "dxf.json", "--out", "b"]).ok();
    let [a, b] = ["a/result.json", "b/result.json"].map(|name| bench.json(name));
    let length =
        |result: &serde_json::Value| result["totals"]["length"].as_f64().expect("a length");
    // Four decimals of an inch, on lines of some hundred inches.
    assert!(
        (length(&a) - length(&b)).abs() < 1e-3 * length(&a),
        "{} {}",
        a["totals"],
        b["totals"]
    );
}

#[test]
fn what_is_no_dxf_is_refused_with_its_row() {
    let whole = dxf("1", &["leaf"]);
    for (content, words) in [
        ("".as_bytes(), "the file is empty; give an ASCII DXF"),
        (
            &whole.as_bytes()[..whole.len() - 8],
            "not a readable DXF: the file ends before its EOF",
        ),
        (
            b"AutoCAD Binary DXF\r\n\x1a\0\0\0",
            "save the drawing as ASCII DXF",
        ),
        (
            b"hello",
            "a.dxf:1:1: not a readable DXF: it begins with \"hello\"",
        ),
        (
            whole.replace("\n11\n1\n", "\n11\n1,5\n").as_bytes(),
            "a.dxf:26:1: group 11 of LINE is \"1,5\"; give a number",
        ),
        (
            whole.replace("\n11\n1\n", "\n11\n1e308\n").as_bytes(),
            "a.dxf:18:1: a point lies at 1.00e308",
        ),
        (
            whole.replace("\n11\n1\n", "\nx\n1\n").as_bytes(),
            "a.dxf:25:1: not a readable DXF: \"x\" stands",
        ),
        (
            dxf("1", &[]).as_bytes(),
            "nothing is drawn; give a drawing with at least one LINE",
        ),
    ] {
        let bench = Bench::new().with("a.dxf", content);
        for args in [
            ["convert", "a.dxf", "--out", "out.json"].as_slice(),
            &[
                "fit", "a.dxf", "--span", "9 in", "--depth", "1 in", "--out", "out.svg",
            ],
        ] {
            bench.run(args).failed(1, &[words]);
            assert_eq!(bench.names("."), ["a.dxf"]);
        }
        let run = bench.run_with(&["convert", "-", "--out", "out.jsonl"], content);
        assert_eq!(run.code, i32::from(!content.is_empty()), "{run:?}");
    }
}
