//! Plans that ask for more than there can be.

use crate::common::{Bench, svg};
use crate::{Bounds, plan};

/// Fails with exactly this, within small bounds, and leaves nothing.
fn refused(plan: impl AsRef<[u8]>, message: &str) {
    refused_within(&Bounds::SMALL, plan, message);
}

fn refused_within(bounds: &Bounds, plan: impl AsRef<[u8]>, message: &str) {
    let bench = bench().with("plan.json", plan);
    let before = bench.names(".");
    for out in ["-", "out"] {
        let run = bounds.run(&bench, &["plan", "plan.json", "--out", out]);
        run.failed(1, &[]);
        assert_eq!(run.err, format!("quiltpath: error: {message}\n"));
    }
    assert_eq!(bench.names("."), before);
}

fn bench() -> Bench {
    let wave = (0..1000)
        .map(|x| format!("{x} {}", x % 50))
        .collect::<Vec<_>>();
    Bench::new()
        .with("wave.svg", svg(&format!("<path d='M{}'/>", wave.join(" "))))
        .with(
            "tiny.json",
            "{\"unit\":\"mm\",\"points\":[[0,0],[1e-7,1e-7],[2e-7,0]]}",
        )
        .with(
            "flat.json",
            "{\"unit\":\"in\",\"points\":[[0,0],[2e5,1],[4e5,0]]}",
        )
}

#[test]
fn a_billion_repeats() {
    let asked = |repeats: usize| {
        let top = format!(",\"repeats\":{{\"top\":{repeats}}}");
        plan("wave.svg", &top, "")
    };
    refused(
        asked(1_000_000_000),
        "plan.json: borders[0]: side, top: 1000000000 repeats are asked for; up to 100000 are accepted, so give a smaller number; in the plan, \"repeats\", or \"every\" with \"parity\", of the side asks for them",
    );
    refused(
        asked(100_000),
        "plan.json: borders[0]: side, top: the sides would have 100100000 points in all; up to 10000000 are accepted, so check the units of the motif and the quilt, or use a coarser flattening; in the plan, \"flattening\" is how far a curve may lie from its points",
    );
    // A hair of a border on a giant quilt.
    let giant = plan("tiny.json", "", "")
        .replace("\"width\":64,\"height\":80", "\"width\":1e6,\"height\":1e6")
        .replace(
            "\"width\":6",
            "\"width\":0.003,\"seam_gap\":0.001,\"edge_gap\":0.001",
        );
    refused(
        giant,
        "plan.json: borders[0]: side, top: the span would take 499999996 repeats; up to 100000 are accepted, so check the units of the motif and the span",
    );
    let bench = bench();
    let fit = "fit tiny.json --span 25400km --depth 1mm --out a.json";
    let run = Bounds::SMALL.run(
        &bench,
        &fit.replace("25400km", "900000in")
            .split(' ')
            .collect::<Vec<_>>(),
    );
    run.failed(
        1,
        &[
            "quiltpath: error: tiny.json: the span would take ",
            " repeats; up to 100000 are accepted",
        ],
    );
}

#[test]
fn a_billion_stitches() {
    let stitching =
        |spi: &str| format!(",\"stitching\":{{\"stitches_per_inch\":{spi},\"minimum\":1e-9}}");
    let bounds = Bounds {
        memory: 400,
        ..Bounds::SMALL
    };
    let bench = bench().with("plan.json", plan("wave.svg", "", &stitching("1e7")));
    let run = bounds.run(&bench, &["plan", "plan.json", "--out", "-"]);
    let limit =
        " stitches; up to 10000000 are accepted, so check the units of the path and of the stitch";
    run.failed(
        1,
        &[
            "quiltpath: error: plan.json: border: the path would take ",
            limit,
        ],
    );
    for spi in ["1e7", "1e9"] {
        let run = bounds.run(
            &bench,
            &[
                "stitch",
                "wave.svg",
                "--spi",
                spi,
                "--minimum",
                "1e-9mm",
                "--out",
                "a.json",
            ],
        );
        run.failed(
            1,
            &[
                "quiltpath: error: wave.svg: wave: the path would take ",
                limit,
            ],
        );
    }
    refused(
        plan(
            "wave.svg",
            "",
            ",\"stitching\":{\"stitches_per_inch\":1e400}",
        ),
        "plan.json:1:162: stitching.stitches_per_inch: number out of range; coordinates may go from -1e9 to 1e9",
    );
}

#[test]
fn quilts_of_no_size_and_of_any() {
    let sized = |width: &str| {
        plan("wave.svg", "", "").replace("\"width\":64", &format!("\"width\":{width}"))
    };
    for (width, words) in [
        (
            "1e300",
            "point 1 has the coordinate 2.54e301; coordinates may go from -1e9 to 1e9",
        ),
        ("0", "give a length above 0"),
        ("-0.0", "give a length above 0"),
        ("-1", "give a length above 0"),
        ("5e-324", "."),
        ("1e-300", "."),
        ("\"NaN\"", "NaN"),
        ("\"1e999\"", "1e999"),
    ] {
        let bench = bench().with("plan.json", sized(width));
        let run = Bounds::SMALL.run(&bench, &["plan", "plan.json", "--out", "out"]);
        run.failed(1, &["quiltpath: error: plan.json", words]);
        assert!(!run.err.contains("NaN degrees"), "{}", run.err);
        assert!(!bench.path("out").exists());
    }
}

#[test]
fn json_that_is_no_plan() {
    refused(
        "{\"unit\":\"in\",\"unit\":\"mm\"}",
        "plan.json:1:19: the key \"unit\" is there twice; give it once",
    );
    refused(
        "{\"unit\":\"in\",\"borders\":".to_owned() + &"[".repeat(100_000),
        "plan.json:1:24: borders[0]: give keys and values in braces, as in {\"key\": \"value\"}, not a list",
    );
    let digits = "1".repeat(1_000_000);
    refused(
        format!("{{\"unit\":\"in\",\"quilt\":{{\"width\":{digits},\"height\":80}}}}"),
        "plan.json:1:1000030: quilt.width: number out of range; coordinates may go from -1e9 to 1e9",
    );
    refused(
        "\0".repeat(100),
        "plan.json:1:1: expected a value, such as a number, a text in quotes or a list",
    );
    refused(
        b"\xff\xfe{\0",
        "plan.json: the file is UTF-16 text; save it as UTF-8 JSON",
    );
}

#[test]
fn ten_thousand_borders() {
    let border = "{\"width\":0.003,\"seam_gap\":0.0001,\"edge_gap\":0.0001,\"corner\":{\"style\":\"open\"},\"side\":{\"motif\":\"flat.json\"}}";
    let borders = vec![border; 10_000].join(",");
    let many = format!(
        "{{\"unit\":\"in\",\"quilt\":{{\"width\":64,\"height\":80}},\"borders\":[{borders}]}}"
    );
    let bounds = Bounds {
        memory: 400,
        seconds: 60,
    };
    let bench = bench().with("plan.json", many);
    let run = bounds.run(&bench, &["plan", "plan.json", "--out", "-"]);
    assert!(run.code < 2, "{}", run.err);
    assert_eq!(
        run.code == 1,
        run.err.contains("quiltpath: error: plan.json: "),
        "{}",
        run.err
    );
}

#[test]
fn a_repeat_that_reaches_over_all_its_copies() {
    // It ends a hair from where it starts, so a corner would see a million copies of it.
    let points = (0..1000)
        .map(|n| format!("[{n},{}]", n % 9))
        .collect::<Vec<_>>();
    let motif = format!(
        "{{\"unit\":\"in\",\"points\":[{},[1e-3,0]]}}",
        points.join(",")
    );
    let bench = Bench::new().with("a.json", motif);
    let mitred = [
        "quiltpath: error: a.json: the number of repeats that the diagonal crosses is ",
        "; give at most 1000, by a repeat that is longer for its height",
    ];
    let bent = [
        "quiltpath: error: a.json: the chained path would have ",
        " points; up to 10000000 are accepted",
    ];
    for (style, words) in [("mitred", mitred), ("bent", bent)] {
        let run = Bounds::SMALL.run(
            &bench,
            &[
                "corner",
                "a.json",
                "--style",
                style,
                "--depth",
                "9in",
                "--strokes",
                "as-drawn",
                "--out",
                "b.json",
            ],
        );
        run.failed(1, &words);
    }
}
