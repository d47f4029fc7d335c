//! Plans that can't be, motifs that can't be read, and bad usage.

use std::fs;

use crate::common::{self, Bench};
use crate::{FLAGS, flags};

#[test]
fn a_plan_that_can_not_be_is_refused_with_a_reason_and_leaves_nothing() {
    let cases: [(&str, &str, &[&str]); 11] = [
        (
            "\"width\": 6,",
            "\"width\": 40,",
            &["plan.json: borders[0]: width: the border is 40 in wide, but only 32 1/8 in"],
        ),
        (
            "\"seam_gap\": \"1/4\"",
            "\"seam_gap\": \"5 3/4\"",
            &[
                "the seam gap and the edge gap take 6 1/4 in together",
                "; in the plan, they are \"seam_gap\" and \"edge_gap\" of the border\n",
            ],
        ),
        (
            "\"width\": 6,",
            "\"width\": 20,",
            &["the corners take", "of the top side"],
        ),
        (
            "\"corner.svg\"",
            "\"corner.svgg\"",
            &[
                "plan.json: borders[0]: corner.motif: the motif \"corner.svgg\" can't be read: corner.svgg: no such file or folder",
            ],
        ),
        (
            "\"seam_gap\"",
            "\"seem_gap\"",
            &[
                "plan.json:11:",
                "unknown key \"seem_gap\"; did you mean \"seam_gap\"?",
            ],
        ),
        (
            "\"mirrored\"",
            "\"mirored\"",
            &["unknown value \"mirored\"; did you mean \"mirrored\"?"],
        ),
        (
            "\"64 1/4\"",
            "\"64 1/4 furlong\"",
            &["unknown unit \"furlong\"; use in"],
        ),
        (
            "\"64 1/4\"",
            "NaN",
            &["plan.json:6:", "NaN is not a JSON number"],
        ),
        ("\"64 1/4\"", "1e308", &["quilt"]),
        (
            "\"64 1/4\"",
            "-3",
            &["the quilt's width is -3 in; give a length above 0"],
        ),
        (
            "\"unit\": \"in\",",
            "",
            &["the key \"unit\" is missing; add it"],
        ),
    ];
    let text = fs::read_to_string(common::demo("plan.json")).expect("the demo's plan");
    for (from, to, words) in cases {
        let changed = text.replacen(from, to, 1);
        assert_ne!(changed, text, "{from}");
        let bench = Bench::new().with_demo().with("plan.json", changed);
        let run = bench.run(&["plan", "plan.json", "--out", "out"]);
        run.failed(1, words);
        assert_eq!(
            bench.names("."),
            ["border.svg", "corner.svg", "plan.json"],
            "{to}"
        );
    }
}

#[test]
fn a_plan_that_is_empty_or_cut_off_is_refused() {
    let text = fs::read_to_string(common::demo("plan.json")).expect("the demo's plan");
    for (cut, words) in [
        ("", "plan.json: the file is empty"),
        (&text[..text.len() / 2], "plan.json:"),
    ] {
        let bench = Bench::new().with_demo().with("plan.json", cut);
        let run = bench.run(&["plan", "plan.json", "--out", "out"]);
        run.failed(1, &[words]);
        assert!(!bench.path("out").exists());
    }
    let bench = Bench::new().with_demo();
    let run = bench.run(&["plan", "no.json", "--out", "out"]);
    run.failed(1, &["no.json: can't be read: no such file or folder"]);
}

#[test]
fn a_motif_that_can_not_be_read_is_reported_with_its_place() {
    let bench = Bench::new().with_demo().with(
        "corner.svg",
        "<svg xmlns=\"http://www.w3.org/2000/svg\">\n<path d=\"M0 0 L\"/></svg>",
    );
    let run = bench.run(&["plan", "plan.json", "--out", "out"]);
    run.failed(1, &["error: corner.svg:2:", "corner.motif"]);
    let bench = Bench::new().with_demo();
    fs::copy(bench.path("border.svg"), bench.path("corner.svg")).expect("copied");
    let run = bench.run(&["plan", "plan.json", "--out", "out"]);
    run.failed(1, &["this is not an L", "give an L-shaped drawing"]);
}

#[test]
fn bad_usage_is_reported_before_any_work() {
    let bench = Bench::new();
    let usage = |args: &[&str], words: &[&str]| {
        let run = bench.run(args);
        run.failed(2, words);
    };
    usage(&["plan", "--out", "o"], &["--quilt <SIZE>"]);
    usage(
        &["plan", "p.json", "--border", "6 in", "--out", "o"],
        &["cannot be used with"],
    );
    usage(
        &["plan", "p.json", "--unit", "in", "--out", "o"],
        &["cannot be used with"],
    );
    usage(&["plan", "p.json"], &["--out <DIR>"]);
    usage(
        &flags(&["--quilt", "64 x 80", "--out", "o"]),
        &["cannot be used multiple times"],
    );
    let flags = |from: &str, to: &'static str| -> Vec<&str> {
        let swapped = FLAGS.iter().map(|arg| if *arg == from { to } else { arg });
        swapped.chain(["--out", "o"]).collect()
    };
    usage(
        &flags("6 in", "6"),
        &["--border: 6 has no unit; write 6 in or 6 mm", "by --unit"],
    );
    usage(&flags("6 in", "six"), &["\"six\" is not a length"]);
    usage(&flags("6 in", "6 furlong"), &["unknown unit \"furlong\""]);
    usage(&flags("6 in", "0 in"), &["--border: 0 in is not above 0"]);
    usage(
        &flags("64 1/4 x 80 in", "64 in"),
        &["give for example 64 1/4 in x 80 in"],
    );
    usage(
        &flags("64 1/4 x 80 in", "64 x 80"),
        &["--quilt: 64 has no unit"],
    );
    usage(
        &to_o(&["--style", "lag"]),
        &[
            "invalid value 'lag'",
            "leg, block, mitred, bent, open, butted",
        ],
    );
    usage(&to_o(&["--arrangement", "miror"]), &["mirrored, turned"]);
    usage(&to_o(&["--fail-on", "warnings"]), &["'warning'"]);
    usage(&to_o(&["--ends", "levl"]), &["'level'"]);
    usage(&to_o(&["--alternate", "leftright"]), &["'left-right'"]);
    usage(
        &to_o(&["--every", "two"]),
        &["\"two\" is not a whole number; give for example 2"],
    );
    usage(
        &to_o(&["--edge-gap=-1 in"]),
        &["--edge-gap: -1 in is below 0; give 0 or more"],
    );
    usage(&to_o(&["--unit", "inch"]), &["in, mm, cm"]);
    usage(&to_o(&["--sem-gap", "1 in"]), &["'--seam-gap'"]);
    usage(
        &to_o(&["--style", "open"]),
        &["--corner: the corner style open doesn't use a corner motif"],
    );
    usage(
        &[
            "plan", "--quilt", "9 x 9 in", "--border", "1 in", "--side", "s.svg", "--style", "leg",
            "--out", "o",
        ],
        &["--style leg: give the motif for the corners with --corner"],
    );
    assert!(bench.names(".").is_empty());
}

fn to_o<'a>(more: &[&'a str]) -> Vec<&'a str> {
    flags(&[&["--out", "o"], more].concat())
}
