//! Which lines are stitched, in which formats they go out, what is refused.

use super::common::svg;
use super::*;

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
    stitch(&["--chord-error", "0 mm"]).failed(2, &["--chord-error: 0 mm is not above 0"]);
    stitch(&["--cusp", "180"]).failed(2, &["the turn of a cusp is 180; give 0 degrees or more"]);
    stitch(&["--tie-off", "101"]).failed(
        2,
        &["the number of stitches of a tie-off is 101; give 0 to 100"],
    );
    stitch(&["--tie-off", "x 1 mm"]).failed(2, &["give for example 4 x 1 mm, 4, or none"]);
    stitch(&["--tie-off", "4 x 1"]).failed(2, &["--tie-off: 1 has no unit"]);
    stitch(&["--speed", "0 mm"]).failed(2, &["--speed: 0 mm is not above 0"]);
    stitch(&["--seconds", "1, 2"]).failed(2, &["give three numbers of seconds"]);
    stitch(&["--seconds=-1, 2, 3"]).failed(2, &["give three numbers of seconds, 0 or more"]);
    stitch(&["--waste=-5"]).failed(2, &["'--waste <PERCENT>': give 0 or more"]);
    stitch(&["--waste", "NaN"]).failed(2, &["\"NaN\" is not a number"]);
    stitch(&["--tail=-1 mm"]).failed(2, &["--tail: -1 mm is below 0; give 0 or more"]);
    stitch(&["--spi", "ten"]).failed(2, &["\"ten\" is not a number; give for example 12.5"]);
    stitch(&["--bobbin", "0 m"]).failed(2, &["--bobbin: 0 m is not above 0"]);
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
