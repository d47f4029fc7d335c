//! `corner`: a corner made from a border's repeat.

mod common;

use common::{Bench, points};

#[test]
fn a_corner_is_made_and_its_ends_are_those_of_the_border() {
    let bench = Bench::new().with_demo();
    let args = [
        "corner",
        "border.svg",
        "--depth",
        "5 1/4 in",
        "--out",
        "-",
        "--format",
        "json",
    ];
    for (more, words) in [
        (vec!["--style", "mitred"], "the line meets the diagonal"),
        (
            vec!["--style", "mitred", "--extra", "drop", "--legs", "2"],
            "dropped beyond it",
        ),
        (
            vec![
                "--style",
                "mitred",
                "--smooth-turn",
                "1/2 in",
                "--angle",
                "120",
            ],
            "from ",
        ),
        (vec!["--style", "bent"], "lengths change by up to 33 %"),
        (
            vec!["--style", "bent", "--radius", "8 in", "--angle", "60"],
            "round a radius of 8 in",
        ),
    ] {
        let run = bench.run(&[args.as_slice(), &more].concat()).ok();
        assert!(run.err.contains(words), "{more:?}: {}", run.err);
        let list: serde_json::Value = serde_json::from_str(&run.out).expect("JSON");
        let line = points(&list);
        // The border starts and ends 3 in below its outer line.
        let end = line[line.len() - 1];
        assert!((end[1] - 3.0).abs() < 1e-9, "{more:?}: {end:?}");
    }
}

#[test]
fn what_can_not_be_made_is_refused() {
    let bench = Bench::new().with_demo();
    let args = [
        "corner",
        "border.svg",
        "--depth",
        "5 1/4 in",
        "--out",
        "made.svg",
    ];
    for (more, code, message) in [
        (
            vec!["--style", "bent", "--radius", "2 in"],
            1,
            "the band would fold; give a radius above 2.625",
        ),
        (
            vec!["--style", "bent", "--radius", "0 in"],
            2,
            "--radius: 0 in is not above 0",
        ),
        (
            vec!["--style", "mitred", "--angle", "20"],
            1,
            "the corner's angle is 20; give 45 to 150 degrees",
        ),
        (
            vec!["--style", "mitred", "--radius", "9 in"],
            2,
            "--radius: only bent corners use it",
        ),
        (
            vec!["--style", "bent", "--smooth-turn", "1 in"],
            2,
            "--smooth-turn: only mitred corners use it",
        ),
        (
            vec!["--style", "mitred", "--smooth-turn=-1 in"],
            2,
            "--smooth-turn: -1 in is below 0; give 0 or more",
        ),
        (
            vec!["--style", "bent", "--angle", "right"],
            2,
            "\"right\" is not an angle; give for example 22.5",
        ),
        (
            vec!["--style", "bent", "--legs", "one"],
            2,
            "\"one\" is not a whole number; give for example 2",
        ),
        (vec!["--style", "miter"], 2, "mitred, bent"),
    ] {
        bench
            .run(&[args.as_slice(), &more].concat())
            .failed(code, &[message]);
        assert!(!bench.path("made.svg").exists());
    }
}

/// The turn at the diagonal that the summary reports, in degrees.
fn turn(summary: &str) -> f64 {
    let (_, rest) = summary.split_once("turns there by ").expect("a turn");
    let (degrees, _) = rest.split_once(" degrees").expect("in degrees");
    degrees.parse().expect("a number")
}

#[test]
fn a_turn_is_rounded_off_as_far_as_there_is_room_and_the_rest_is_reported() {
    let bench = Bench::new().with_demo();
    let smoothed = |more: &[&str]| {
        let args = [
            "corner",
            "border.svg",
            "--style",
            "mitred",
            "--depth",
            "5 in",
            "--out",
            "-",
            "--format",
            "json",
        ];
        bench.run(&[&args, more].concat()).ok().err
    };
    let sharp = smoothed(&[]);
    assert!(!sharp.contains("rounded off"), "{sharp}");
    let little = smoothed(&["--smooth-turn", "1/2 in"]);
    assert!(
        little.contains("  rounded off over 1/2 in on each leg\n"),
        "{little}"
    );
    assert!(!little.contains("note"), "{little}");
    assert!(turn(&little) < turn(&sharp), "{little}");
    let far = smoothed(&["--smooth-turn", "10000 in"]);
    let note =
        " on each leg, not over 10000 in: there is no room in the band, or no line, for more\n";
    assert!(far.contains("note: the turn is rounded off over "), "{far}");
    assert!(far.contains(note), "{far}");
    assert!(turn(&far) < turn(&little), "{far}");
}
