//! `fit`: one motif chained along one span.

mod common;

use common::{Bench, points};

#[test]
fn a_span_is_filled_with_the_best_number_of_repeats() {
    let bench = Bench::new().with_demo();
    let args = [
        "fit",
        "border.svg",
        "--span",
        "37 1/4 in",
        "--depth",
        "5 1/4 in",
    ];
    let run = bench
        .run(&[args.as_slice(), &["--out", "side.json"]].concat())
        .ok();
    assert!(
        run.err
            .contains("5 repeats of 7 7/16 in, stretched by -0.7 %"),
        "{}",
        run.err
    );
    assert!(run.err.contains("fewer: 4 repeats"), "{}", run.err);
    assert!(run.err.contains("more: 6 repeats"), "{}", run.err);
    let side = points(&bench.json("side.json"));
    assert_eq!(side[0], [0.0, 3.0]);
    assert_eq!(side[side.len() - 1], [37.25, 3.0]);
    assert!(side.iter().all(|p| (-1e-9..=5.25 + 1e-9).contains(&p[1])));
}

#[test]
fn the_number_can_be_told() {
    let bench = Bench::new().with_demo();
    let args = [
        "fit",
        "border.svg",
        "--unit",
        "in",
        "--span",
        "37",
        "--depth",
        "5.25",
        "--out",
        "-",
        "--format",
        "json",
    ];
    for (more, count) in [
        (vec!["--repeats", "3"], "3 repeats"),
        (
            vec!["--every", "2", "--alternate", "left-right"],
            "6 repeats",
        ),
        (vec!["--parity", "even"], "6 repeats"),
    ] {
        let run = bench.run(&[args.as_slice(), &more].concat()).ok();
        assert!(run.err.starts_with(count), "{more:?}: {}", run.err);
    }
}

#[test]
fn what_can_not_be_fitted_is_refused() {
    let bench = Bench::new().with_demo();
    let fit = |span: &str, more: &[&str]| {
        let args = [
            "fit",
            "border.svg",
            "--depth",
            "5 in",
            "--out",
            "o.svg",
            "--span",
            span,
        ];
        bench.run(&[args.as_slice(), more].concat())
    };
    fit("37", &[]).failed(2, &["--span: 37 has no unit; write 37 in or 37 mm"]);
    fit("0 in", &[]).failed(2, &["--span: 0 in is no length above 0"]);
    fit("long", &[]).failed(2, &["\"long\" is no length"]);
    fit("37 in", &["--parity", "evn"]).failed(2, &["'even'"]);
    fit("37 in", &["--repeats", "3", "--every", "2"]).failed(2, &["cannot be used with"]);
    fit("37 in", &["--parity", "odd", "--every", "2"])
        .failed(1, &["an odd number that is a multiple of 2"]);
    fit("37 in", &["--every", "0"]).failed(1, &["\"every\": 0"]);
    fit("900000 in", &["--depth", "1 mm"]).failed(2, &["--depth"]);
    let upright = "{\"unit\":\"in\",\"points\":[[0,0],[0,5]]}";
    let args = [
        "fit", "-", "--span", "9 in", "--depth", "1 in", "--out", "o.svg",
    ];
    bench.run_with(&args, upright).failed(1, &["stdin: "]);
    assert_eq!(bench.names(".").len(), 3);
}
