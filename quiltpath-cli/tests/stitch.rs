//! `stitch`: needle points held against the line, numbers against formulas, options and refusals.

mod common;

use std::f64::consts::SQRT_2;

use common::{Bench, points, svg};
use serde_json::Value;

type Point = [f64; 2];

fn apart(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

fn gaps(points: &[Point]) -> Vec<f64> {
    points
        .windows(2)
        .map(|pair| apart(pair[0], pair[1]))
        .collect()
}

fn between(a: Point, b: Point, share: f64) -> Point {
    [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share]
}

/// How far a point is from a segment, and at which share of it.
fn from_segment(p: Point, a: Point, b: Point) -> (f64, f64) {
    let (x, y) = (b[0] - a[0], b[1] - a[1]);
    let share = ((p[0] - a[0]) * x + (p[1] - a[1]) * y) / (x * x + y * y);
    let share = share.clamp(0.0, 1.0);
    (apart(p, between(a, b, share)), share)
}

/// Walks the line from needle point to needle point, looking every 2000th of a unit how far it is
/// from the stitch: the farthest for each, or a needle point that is not on the line.
fn chord_errors(line: &[Point], needles: &[Point]) -> Result<Vec<f64>, usize> {
    let (mut at, mut share) = (0, 0.0);
    let mut errors = Vec::new();
    for (number, pair) in needles.windows(2).enumerate() {
        let mut worst: f64 = 0.0;
        loop {
            let segment = line.get(at..at + 2).ok_or(number)?;
            let (off, reached) = from_segment(pair[1], segment[0], segment[1]);
            let arrived = off < 1e-9 && reached >= share;
            let to = if arrived { reached } else { 1.0 };
            let looks = (apart(segment[0], segment[1]) * (to - share) * 2000.0).ceil() + 1.0;
            for look in 0..=looks as usize {
                let sample = share + (to - share) * look as f64 / looks;
                let sample = between(segment[0], segment[1], sample);
                worst = worst.max(from_segment(sample, pair[0], pair[1]).0);
            }
            if arrived {
                share = reached;
                errors.push(worst);
                break;
            }
            (at, share) = (at + 1, 0.0);
        }
    }
    Ok(errors)
}

fn largest(numbers: &[f64]) -> f64 {
    numbers.iter().copied().fold(0.0, f64::max)
}

fn line_of(points: &str) -> String {
    format!("{{\"unit\":\"in\",\"name\":\"line\",\"points\":{points}}}")
}

/// A straight line of 10 in.
fn ten_inches() -> Bench {
    Bench::new().with("a.json", line_of("[[0,1],[10,1]]"))
}

/// Needle points and report of `a.json` with these options.
fn stitched(bench: &Bench, more: &[&str]) -> (Vec<Point>, Value) {
    let args = [
        "stitch", "a.json", "--force", "--out", "b.json", "--report", "r.json",
    ];
    bench.run(&[args.as_slice(), more].concat()).ok();
    (points(&bench.json("b.json")), bench.json("r.json"))
}

fn close(found: &Value, wanted: f64) {
    let found = found.as_f64().expect("a number");
    assert!(
        (found - wanted).abs() < 1e-9 * wanted.abs().max(1.0),
        "{found} {wanted}"
    );
}

#[test]
fn ten_inches_at_ten_to_the_inch_are_a_hundred_stitches() {
    let bench = ten_inches();
    let (needles, report) = stitched(&bench, &["--tie-off", "none"]);
    assert_eq!(
        (needles.len(), &report["stitches"]),
        (101, &Value::from(100))
    );
    assert_eq!((needles[0], needles[100]), ([0.0, 1.0], [10.0, 1.0]));
    assert!(gaps(&needles).iter().all(|gap| (gap - 0.1).abs() < 1e-9));
    let (spi, _) = stitched(&bench, &["--tie-off", "none", "--spi", "12"]);
    assert_eq!(spi.len(), 121);
    let (long, _) = stitched(&bench, &["--tie-off", "none", "--stitch", "1/8 in"]);
    assert_eq!(long.len(), 81);
    // Tied off by 4 stitches of 1 mm at either end, unless told otherwise.
    let (tied, report) = stitched(&bench, &[]);
    assert_eq!((tied.len(), &report["stitches"]), (109, &Value::from(108)));
    assert!((tied[0][0] - 0.0).abs() < 1e-9 && (tied[1][0] - 1.0 / 25.4).abs() < 1e-9);
    let (tied, report) = stitched(&bench, &["--tie-off", "3 x 1/16 in"]);
    let x: Vec<f64> = tied.iter().map(|p| p[0]).collect();
    assert_eq!(
        (&x[..4], &x[103..]),
        (
            &[0.0625, 0.0, 0.0625, 0.0][..],
            &[10.0, 9.9375, 10.0, 9.9375][..]
        )
    );
    close(&report["length"], 10.0 + 6.0 / 16.0);
    close(&report["drawn"], 10.0);
}

#[test]
fn needle_points_of_the_demos_motifs_hold_what_is_promised() {
    let bench = Bench::new().with_demo();
    for motif in ["corner.svg", "border.svg"] {
        bench
            .run(&["convert", motif, "--force", "--out", "a.json"])
            .ok();
        let line = points(&bench.json("a.json"));
        for (spi, more) in [
            ("10", [].as_slice()),
            ("5", &["--chord-error", "0.2 mm"]),
            ("12", &["--minimum", "1 mm", "--chord-error", "0.15 mm"]),
        ] {
            let args = ["--tie-off", "none", "--spi", spi];
            let (needles, report) = stitched(&bench, &[args.as_slice(), more].concat());
            let target = 1.0 / spi.parse::<f64>().expect("a number");
            let minimum = if spi == "12" {
                1.0 / 25.4
            } else {
                target / 4.0
            };
            let bound = match spi {
                "10" => target / 10.0,
                "5" => 0.2 / 25.4,
                _ => 0.15 / 25.4,
            };
            let gaps = gaps(&needles);
            let least = gaps.iter().copied().fold(f64::INFINITY, f64::min);
            let most = largest(&gaps);
            assert!(
                most <= SQRT_2 * target * (1.0 + 1e-9),
                "{motif} {spi}: {most}"
            );
            assert!(least >= minimum * (1.0 - 1e-9), "{motif} {spi}: {least}");
            let path = &report["paths"][0];
            let errors = chord_errors(&line, &needles).expect("every needle point on the line");
            let over = errors.iter().filter(|error| **error > bound * (1.0 + 1e-9));
            // The bound is passed nowhere but where that is told.
            assert_eq!(path["strayed"].as_array().map(Vec::len), Some(over.count()));
            let worst = largest(&errors);
            assert!(
                worst <= bound * (1.0 + 1e-9) || spi == "5",
                "{motif} {spi}: {worst}"
            );
            close(&path["chord_error"], worst);
            close(&path["shortest"], least);
            close(&path["longest"], most);
            close(&report["length"], gaps.iter().sum());
            close(&report["drawn"], self::gaps(&line).iter().sum());
            // A stitch that leaves its line by no more than this is not much shorter than it.
            let (length, drawn) = (
                gaps.iter().sum::<f64>(),
                self::gaps(&line).iter().sum::<f64>(),
            );
            assert!(length <= drawn && length > 0.98 * drawn, "{length} {drawn}");
        }
    }
}

#[test]
fn every_sharp_point_has_a_needle_point_or_is_told() {
    let teeth = "[[0,0],[1,0],[1.3,1],[1.6,0],[1.9,1],[3,1],[3,1.02],[5,1.02]]";
    let bench = Bench::new().with("a.json", line_of(teeth));
    let run = bench
        .run(&["stitch", "a.json", "--out", "b.json", "--report", "r.json"])
        .ok();
    let needles = points(&bench.json("b.json"));
    let cusps = &bench.json("r.json")["paths"][0]["cusps"];
    for at in [[1.0, 0.0], [1.3, 1.0], [1.6, 0.0], [1.9, 1.0]] {
        assert!(needles.contains(&at), "{at:?}");
    }
    // A step of 0.02 in, too short for a stitch: its arms of 0.025 in still turn, at both ends.
    assert_eq!(
        (&cusps["kept"], &cusps["tiny"]),
        (&Value::from(5), &Value::from(0))
    );
    let dropped = &cusps["dropped"][0];
    assert_eq!(dropped["at"], serde_json::json!([3.0, 1.02]));
    assert!(
        dropped["distance"]
            .as_f64()
            .is_some_and(|off| off > 0.0 && off <= 0.02)
    );
    assert!(
        run.err.contains("cusps     5 kept, 1 dropped"),
        "{}",
        run.err
    );
    assert!(
        run.err
            .contains("note: 1 cusp has no needle point, by up to 0.0"),
        "{}",
        run.err
    );
    // A turn of 45 degrees is none above 60.
    let bench = Bench::new().with("a.json", line_of("[[0,0],[1.04,0],[2,0.96]]"));
    let kept =
        |degrees| stitched(&bench, &["--cusp", degrees]).1["paths"][0]["cusps"]["kept"].clone();
    assert_eq!((kept("40"), kept("60")), (Value::from(1), Value::from(0)));
}

#[test]
fn the_minimum_wins_over_the_chord_error_and_that_is_told() {
    let hook: Vec<String> = (0..=20)
        .map(|at| f64::from(at) * std::f64::consts::PI / 20.0)
        .map(|angle| {
            format!(
                "[{},{}]",
                1.0 + 0.03 * angle.sin(),
                0.03 - 0.03 * angle.cos()
            )
        })
        .collect();
    let list = line_of(&format!("[[0,0],{},[0.9,0.06]]", hook.join(",")));
    let bench = Bench::new().with("a.json", list);
    let args = [
        "stitch",
        "a.json",
        "--minimum",
        "0.07 in",
        "--chord-error",
        "0.005 in",
        "--tie-off",
        "none",
        "--out",
        "b.json",
        "--report",
        "r.json",
    ];
    let run = bench.run(&args).ok();
    let needles = points(&bench.json("b.json"));
    assert!(gaps(&needles).iter().all(|gap| *gap >= 0.07 - 1e-12));
    let line = points(&bench.json("a.json"));
    let worst = largest(&chord_errors(&line, &needles).expect("on the line"));
    assert!(worst > 0.005);
    let path = &bench.json("r.json")["paths"][0];
    close(&path["chord_error"], worst);
    assert!(
        path["strayed"]
            .as_array()
            .is_some_and(|strayed| !strayed.is_empty())
    );
    assert!(
        run.err.contains("leave the line too far, by up to 0.0"),
        "{}",
        run.err
    );
}

#[test]
fn minutes_follow_the_textbook() {
    // Elementary kinematics: a line of length L from rest to rest takes L/v + v/a above v²/a, and
    // 2 √(L/a) below it. 10 in are 254 mm.
    let bench = ten_inches();
    let moving = |speed: f64, acceleration: f64| {
        let (speed, acceleration) = (format!("{speed} mm"), format!("{acceleration} mm"));
        let (_, report) = stitched(
            &bench,
            &["--speed", &speed, "--acceleration", &acceleration],
        );
        report["seconds"]["moving"].as_f64().expect("seconds")
    };
    for (v, a) in [
        (75.0, 250.0),
        (200.0, 400.0),
        (254.0, 254.0),
        (1000.0, 400.0),
    ] {
        let textbook = if 254.0 >= v * v / a {
            254.0 / v + v / a
        } else {
            2.0 * f64::sqrt(254.0 / a)
        };
        let found = moving(v, a);
        assert!(
            (found - textbook).abs() < 1e-9 * textbook,
            "{found} {textbook}"
        );
        assert!(found >= 254.0 / v && moving(v * 1.5, a) <= found && moving(v, a * 1.5) <= found);
    }
    let (_, report) = stitched(&bench, &["--seconds", "12, 1.5, 4"]);
    close(&report["seconds"]["standing"], 12.0 + 2.0 * 1.5 + 4.0);
    close(&report["minutes"], (254.0 / 75.0 + 0.3 + 19.0) / 60.0);
    let (_, report) = stitched(&bench, &["--seconds", "12, 1.5, 4", "--tie-off", "none"]);
    close(&report["seconds"]["standing"], 16.0);
    // A corner that may be cut less is taken more slowly.
    let bench = Bench::new().with("a.json", line_of("[[0,0],[5,0],[5,5]]"));
    let corner = |deviation| stitched(&bench, &["--corner", deviation]).1["minutes"].as_f64();
    assert!(corner("0.01 mm") > corner("1 mm"));
}

#[test]
fn thread_follows_the_published_examples() {
    let plain = ["--tie-off", "none", "--tail", "0 in", "--waste", "0"];
    // textilecalculations.com, "Calculate amount of sewing thread consumption": layers of 0.01 in
    // at 10 per inch take 2.2 of thread for each length of seam, half of it on the bobbin.
    let bench = ten_inches();
    let thread = |bench: &Bench, more: &[&str]| {
        stitched(bench, &[&plain[..], more].concat()).1["thread"].clone()
    };
    let found = thread(
        &bench,
        &[
            "--thickness",
            "0.01 in",
            "--bobbin",
            "2 in",
            "--spool",
            "11 in",
        ],
    );
    close(&found["needle"], 11.0);
    close(&found["bobbin"], 11.0);
    assert_eq!(
        (&found["bobbins"], &found["spools"]),
        (&Value::from(6), &Value::from(1))
    );
    // The published ratio of stitch type 301 is 2.5: 220 cm of seam take 550 cm. It is T S = 0.25.
    let seam = "{\"unit\":\"cm\",\"points\":[[0,0],[220,0]]}";
    let seam = Bench::new().with("a.json", seam);
    let found = thread(&seam, &["--stitch", "2.5 mm", "--thickness", "0.625 mm"]);
    close(&found["needle"], 275.0);
    close(&found["bobbin"], 275.0);
    assert!(found["spools"].is_null());
    // Tails at both ends and a tenth lost: (10 + 1 + 2 x 4) x 1.1.
    let more = [
        "--tie-off",
        "none",
        "--tail",
        "4 in",
        "--waste",
        "10",
        "--thickness",
        "0.01 in",
    ];
    close(&stitched(&bench, &more).1["thread"]["needle"], 20.9);
}

#[test]
fn lines_that_meet_are_one_and_others_are_stitched_each_by_itself() {
    let drawing = "<path id=\"a\" d=\"M0 0H30\"/><path id=\"b\" d=\"M0 50H30\"/><path id=\"c\" d=\"M30 20V0\"/>";
    let bench = Bench::new().with("a.svg", svg(drawing));
    let run = bench
        .run(&["stitch", "a.svg", "--out", "b.json", "--report", "-"])
        .ok();
    let report: Value = serde_json::from_str(&run.out).expect("JSON");
    let lists = bench.json("b.json");
    let names: Vec<&str> = lists["paths"]
        .as_array()
        .expect("paths")
        .iter()
        .filter_map(|path| path["name"].as_str())
        .collect();
    assert_eq!(names, ["a", "b"]);
    assert_eq!(
        (&report["unit"], &report["thread_cuts"]),
        (&Value::from("mm"), &Value::from(2))
    );
    close(&report["drawn"], 80.0);
    close(&report["paths"][1]["drawn"], 30.0);
    assert_eq!(report["paths"][0]["cusps"]["kept"], 1);
    assert!(
        run.err.contains(" on 80 mm of line, 2 paths"),
        "{}",
        run.err
    );
    bench
        .run(&["stitch", "a.svg", "--link", "--report", "r.json"])
        .ok();
    assert_eq!(bench.json("r.json")["thread_cuts"], 1);
    // In JSON Lines every line is a drawing of its own, even where it meets another.
    let lines =
        "{\"unit\":\"in\",\"points\":[[0,0],[1,0]]}\n{\"unit\":\"in\",\"points\":[[1,0],[1,1]]}\n";
    let args = ["stitch", "-", "--out", "-", "--format", "jsonl"];
    let run = bench.run_with(&args, lines).ok();
    assert_eq!(run.out.lines().count(), 2);
}

#[test]
fn every_format_has_the_same_needle_points() {
    let bench = Bench::new().with_demo();
    let write = |out: &str| bench.run(&["stitch", "border.svg", "--out", out]).ok();
    for out in ["a.json", "a.svg", "a.dxf", "a.nc"] {
        write(out);
    }
    let needles = points(&bench.json("a.json"));
    // Dots are drawn at every point of the one line, and read back as no lines of their own.
    let drawing = bench.read("a.svg");
    assert_eq!(drawing.matches("<path ").count(), 1);
    for place in ["start", "mid", "end"] {
        assert!(drawing.contains(&format!("marker-{place}=\"url(#dot)\"")));
    }
    bench.run(&["convert", "a.svg", "--out", "back.json"]).ok();
    let back = points(&bench.json("back.json"));
    assert_eq!(back.len(), needles.len());
    assert!(back.iter().zip(&needles).all(|(a, b)| apart(*a, *b) < 1e-4));
    assert_eq!(
        bench.read("a.dxf").matches("\nVERTEX\n").count(),
        needles.len()
    );
    let moves = bench.read("a.nc");
    assert_eq!(
        moves.lines().filter(|row| row.starts_with("G1 ")).count(),
        needles.len() - 1
    );
    assert!(moves.starts_with("(Lengths in inches"));
}

#[test]
fn what_can_not_be_stitched_is_refused_and_nothing_written() {
    let bench = ten_inches();
    let stitch = |more: &[&str]| {
        let args = ["stitch", "a.json", "--out", "b.json"];
        bench.run(&[args.as_slice(), more].concat())
    };
    stitch(&["--spi", "0"]).failed(
        2,
        &["--spi: the number of stitches per inch is 0; give a number above 0"],
    );
    stitch(&["--spi", "10", "--stitch", "2 mm"]).failed(2, &["cannot be used with"]);
    stitch(&["--stitch", "2"]).failed(2, &["--stitch: 2 has no unit; write 2 in or 2 mm"]);
    stitch(&["--minimum", "0.09 in"]).failed(
        2,
        &["the minimum stitch is 0.09; give at most 0.7071 times"],
    );
    stitch(&["--chord-error", "0 mm"]).failed(2, &["--chord-error: 0 mm is no length above 0"]);
    stitch(&["--cusp", "180"]).failed(2, &["the turn of a cusp is 180; give 0 degrees or more"]);
    stitch(&["--tie-off", "101"]).failed(
        2,
        &["the number of stitches of a tie-off is 101; give 0 to 100"],
    );
    stitch(&["--tie-off", "x 1 mm"]).failed(2, &["write for example 4 x 1 mm, 4, or none"]);
    stitch(&["--tie-off", "4 x 1"]).failed(2, &["--tie-off: 1 has no unit"]);
    stitch(&["--speed", "0 mm"]).failed(2, &["--speed: 0 mm is no length above 0"]);
    stitch(&["--seconds", "1, 2"]).failed(2, &["give three numbers of seconds"]);
    stitch(&["--seconds=-1, 2, 3"]).failed(2, &["the seconds for a start is -1; give 0 or more"]);
    stitch(&["--waste=-5"]).failed(2, &["the share of waste is -0.05; give 0 or more"]);
    stitch(&["--waste", "NaN"]).failed(2, &["the share of waste is NaN"]);
    stitch(&["--bobbin", "0 m"]).failed(2, &["--bobbin: 0 m is no length above 0"]);
    stitch(&["--stitch", "0.000001 mm"]).failed(
        1,
        &["a.json: line: the path would take 254000000 stitches; up to"],
    );
    stitch(&["--report", "b.json"]).failed(2, &["--report: this is where --out goes"]);
    stitch(&["--report", "a.json"]).failed(1, &["a.json: exists already"]);
    bench
        .run(&["stitch", "a.json"])
        .failed(2, &["--out <FILE>"]);
    bench
        .run(&["stitch", "a.json", "--report", "-", "--format", "svg"])
        .failed(2, &["--out <FILE>"]);
    bench
        .run(&["stitch", "a.json", "--out", "b.txt"])
        .failed(2, &["--out b.txt: end the name in .svg"]);
    assert_eq!(bench.names("."), ["a.json"]);
}

#[test]
fn the_readme_shows_what_is_said() {
    let readme = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../README.md");
    let readme = std::fs::read_to_string(readme).expect("the README");
    let bench = Bench::new().with_demo();
    let command = "stitch corner.svg --spi 11 --out needles.svg";
    assert!(readme.contains(&format!("\nquiltpath {command}\n")));
    let run = bench.run(&command.split(' ').collect::<Vec<_>>()).ok();
    assert!(
        readme.contains(&format!("```sh\n{}```\n", run.err)),
        "{}",
        run.err
    );
    bench
        .run(&["stitch", "corner.svg", "--report", "r.json"])
        .ok();
    let report = bench.json("r.json");
    let keys = |value: &Value| {
        value
            .as_object()
            .expect("an object")
            .keys()
            .cloned()
            .collect::<Vec<_>>()
    };
    let all: Vec<String> = [keys(&report), keys(&report["paths"][0])].concat();
    for key in all {
        assert!(
            readme.contains(&format!("`{key}`")) || key == "paths",
            "{key}"
        );
    }
    for format in ["svg", "json", "jsonl", "dxf", "gcode"] {
        assert!(
            readme.contains(&format!("| `{format}` | `.{format}`")),
            "{format}"
        );
    }
}

#[test]
fn short_lines_are_stitched_and_told() {
    let bench = Bench::new().with("a.json", line_of("[[0,0],[0.01,0]]"));
    let run = bench
        .run(&["stitch", "a.json", "--out", "b.json", "--report", "r.json"])
        .ok();
    assert_eq!(points(&bench.json("b.json")).len(), 10);
    assert!(
        run.err.contains("note: a line stays so near to its ends"),
        "{}",
        run.err
    );
    assert!(
        run.err
            .contains("note: a line is too short for its tie-offs"),
        "{}",
        run.err
    );
    let ties = &bench.json("r.json")["paths"][0]["tie_offs"];
    assert_eq!(
        ties["start"],
        serde_json::json!({"stitches": 4, "length": 0.01})
    );
}
