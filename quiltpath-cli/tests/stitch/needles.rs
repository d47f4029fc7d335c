//! Needle points: on the line, even, within all bounds, at every cusp or reported.

use std::f64::consts::SQRT_2;

use super::*;

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
    // Tied off by 4 stitches of 1 mm at either end, unless asked otherwise.
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
            // The bound is passed nowhere but where that is reported.
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
fn every_sharp_point_has_a_needle_point_or_is_reported() {
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
fn the_minimum_wins_over_the_chord_error_and_that_is_reported() {
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
fn short_lines_are_stitched_and_reported() {
    let bench = Bench::new().with("a.json", line_of("[[0,0],[0.01,0]]"));
    let run = bench
        .run(&["stitch", "a.json", "--out", "b.json", "--report", "r.json"])
        .ok();
    assert_eq!(points(&bench.json("b.json")).len(), 10);
    assert!(
        run.err.contains("note: a line stays so close to its ends"),
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
