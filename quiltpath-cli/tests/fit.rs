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
fn the_number_can_be_reported() {
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
    fit("0 in", &[]).failed(2, &["--span: 0 in is not above 0"]);
    fit("long", &[]).failed(2, &["\"long\" is not a length"]);
    fit("37 in", &["--parity", "evn"]).failed(2, &["'even'"]);
    fit("37 in", &["--repeats", "3", "--every", "2"]).failed(2, &["cannot be used with"]);
    fit("37 in", &["--parity", "odd", "--every", "2"])
        .failed(1, &["no odd number of repeats is a multiple of 2"]);
    fit("37 in", &["--every", "0"]).failed(2, &["--every <N>': give 1 or more"]);
    for every in ["two", "1.5"] {
        let words = format!("\"{every}\" is not a whole number; give for example 2");
        fit("37 in", &["--every", every]).failed(2, &[&words]);
    }
    fit("900000 in", &["--depth", "1 mm"]).failed(2, &["--depth"]);
    let upright = "{\"unit\":\"in\",\"points\":[[0,0],[0,5]]}";
    let args = [
        "fit", "-", "--span", "9 in", "--depth", "1 in", "--out", "o.svg",
    ];
    bench.run_with(&args, upright).failed(1, &["stdin: "]);
    assert_eq!(bench.names(".").len(), 3);
}

/// Two circles of 9 mm, 40 mm of level line to a repeat, a ripple in it; as a point list.
fn circles() -> String {
    let mut points = vec![[0.0, 0.0]];
    for x in [10.0, 30.0] {
        points.extend([[x - 8.0, 0.0], [x - 7.0, -0.5], [x - 6.0, 0.0]]);
        points.extend((0..=180).map(|k| {
            let (sin, cos) = f64::to_radians(2.0 * f64::from(k)).sin_cos();
            [x + 4.5 * sin, 4.5 * cos - 4.5]
        }));
    }
    points.push([40.0, 0.0]);
    format!("{{\"unit\":\"mm\",\"points\":{points:?}}}")
}

/// How far each circle is from round: the greatest distance from its middle by the least, less 1.
fn out_of_round(points: &[[f64; 2]]) -> Vec<f64> {
    let mut found = Vec::new();
    let mut at = 0;
    while at + 20 < points.len() {
        let near = |other: &usize| {
            let (a, b) = (points[at], points[*other]);
            (a[0] - b[0]).hypot(a[1] - b[1]) < 1e-6
        };
        let Some(end) = (at + 20..points.len()).find(near) else {
            at += 1;
            continue;
        };
        let part = &points[at..end];
        let middle = [0, 1].map(|axis| {
            let all = part.iter().map(|p| p[axis]);
            let (least, most) = (
                all.clone().fold(f64::MAX, f64::min),
                all.fold(f64::MIN, f64::max),
            );
            f64::midpoint(least, most)
        });
        let away = part
            .iter()
            .map(|p| (p[0] - middle[0]).hypot(p[1] - middle[1]));
        let (least, most) = (
            away.clone().fold(f64::MAX, f64::min),
            away.fold(f64::MIN, f64::max),
        );
        found.push(most / least - 1.0);
        at = end;
    }
    found
}

#[test]
fn eased_circles_stay_round() {
    let bench = Bench::new().with("circles.json", circles());
    // 3 repeats of 40 mm on a band 9 mm deep, 12 % longer and shorter.
    for (span, stretch) in [("134.4 mm", "+12.0 %"), ("105.6 mm", "-12.0 %")] {
        let args = [
            "fit",
            "circles.json",
            "--depth",
            "9 mm",
            "--repeats",
            "3",
            "--span",
            span,
        ];
        let run = |more: &[&str], out: &str| {
            let to = ["--out", out, "--force"];
            bench.run(&[args.as_slice(), more, &to].concat()).ok()
        };
        let plain = run(&[], "plain.json");
        let eased = run(&["--ease"], "eased.json");
        assert!(
            plain.err.contains(stretch) && !plain.err.contains("eased"),
            "{}",
            plain.err
        );
        assert!(
            eased.err.contains("eased: loops stretched by +0.0 %"),
            "{}",
            eased.err
        );
        assert!(!eased.err.contains("note"), "{}", eased.err);
        let [plain, eased] = ["plain.json", "eased.json"].map(|name| points(&bench.json(name)));
        assert_eq!((plain[0], plain.last()), (eased[0], eased.last()));
        let (plain, eased) = (out_of_round(&plain), out_of_round(&eased));
        assert_eq!((plain.len(), eased.len()), (6, 6));
        assert!(plain.iter().all(|error| *error > 0.11), "{plain:?}");
        assert!(eased.iter().all(|error| *error <= 0.005), "{eased:?}");
    }
}

#[test]
fn easing_says_what_stems_could_not_take() {
    let bench = Bench::new().with_demo();
    let args = [
        "fit",
        "border.svg",
        "--span",
        "18 in",
        "--depth",
        "5 1/4 in",
        "--repeats",
        "2",
    ];
    let run = bench.run(&[args.as_slice(), &["--ease", "--out", "side.json"]].concat());
    let run = run.ok();
    assert!(
        run.err
            .contains("the rest is spread evenly: loops are stretched by"),
        "{}",
        run.err
    );
}

#[test]
fn a_centred_side_is_symmetrical_and_even() {
    let bench = Bench::new().with("circles.json", circles());
    let args = [
        "fit",
        "circles.json",
        "--depth",
        "9 mm",
        "--span",
        "200 mm",
        "--alternate",
        "centred",
    ];
    let run = bench
        .run(&[args.as_slice(), &["--out", "side.json"]].concat())
        .ok();
    // 5 of 40 mm would need no stretch.
    assert!(run.err.starts_with("6 repeats"), "{}", run.err);
    let side = points(&bench.json("side.json"));
    for (a, b) in side.iter().zip(side.iter().rev()) {
        assert!((a[0] + b[0] - 200.0).abs() < 1e-9 && (a[1] - b[1]).abs() < 1e-9);
    }
    let refused =
        |more: &[&str]| bench.run(&[args.as_slice(), more, &["--out", "o.json"]].concat());
    refused(&["--repeats", "5"]).failed(1, &["circles.json: ", "even number, not 5; give 4 or 6"]);
    refused(&["--parity", "odd"]).failed(1, &["leave the parity out"]);
    refused(&["--parity", "even"]).ok();
}
