//! `trim`: a drawing cut to a shape, one line again.

mod common;

use common::{Bench, demo, points};

const L: [&str; 9] = [
    "trim",
    "block.svg",
    "--to",
    "l",
    "--leg-depth",
    "4.5 in",
    "--out",
    "-",
    "--format",
];

fn bench() -> Bench {
    let block = std::fs::read(demo("block.svg")).expect("the demo block");
    Bench::new().with("block.svg", block)
}

fn line(out: &str) -> Vec<[f64; 2]> {
    points(&serde_json::from_str(out).expect("JSON"))
}

#[test]
fn a_block_is_cut_to_an_l_from_leg_end_to_leg_end() {
    let bench = bench();
    for (more, start, end) in [
        (
            vec!["--width", "9", "--height", "228.6 mm"],
            [2.25, 9.0],
            [9.0, 2.25],
        ),
        (
            vec!["--elbow", "bottom-right", "--across", "1"],
            [12.0, 0.0],
            [0.0, 12.0],
        ),
        (vec!["--order", "reverse"], [2.25, 12.0], [12.0, 2.25]),
        (vec!["--order", "keep"], [2.25, 12.0], [12.0, 2.25]),
    ] {
        let run = bench.run(&[L.as_slice(), &["json"], &more].concat()).ok();
        let cut = line(&run.out);
        assert_eq!(cut[0], start, "{more:?}");
        assert_eq!(cut[cut.len() - 1], end, "{more:?}");
        assert!(run.err.contains("1 path"), "{}", run.err);
        // Its loops cross, so nothing is claimed of the least.
        assert!(!run.err.contains("no way of joining"), "{}", run.err);
    }
}

#[test]
fn other_shapes_cut_and_nothing_lies_outside() {
    let bench = bench().with(
        "diamond.json",
        r#"{"unit":"in","points":[[6,1],[11,6],[6,11],[1,6]]}"#,
    );
    for (shape, inside) in [
        (
            vec![
                "rectangle",
                "--width",
                "8 in",
                "--height",
                "5 in",
                "--at",
                "2, 3 in",
            ],
            Box::new(|x: f64, y: f64| (2.0..=10.0).contains(&x) && (3.0..=8.0).contains(&y))
                as Box<dyn Fn(f64, f64) -> bool>,
        ),
        (vec!["triangle"], Box::new(|x, y| x + y <= 12.0 + 1e-9)),
        (
            vec!["diamond.json"],
            Box::new(|x: f64, y: f64| (x - 6.0).abs() + (y - 6.0).abs() <= 5.0 + 1e-9),
        ),
    ] {
        let args = [
            "trim",
            "block.svg",
            "--out",
            "-",
            "--format",
            "json",
            "--to",
        ];
        let run = bench.run(&[args.as_slice(), &shape].concat()).ok();
        let cut = line(&run.out);
        assert!(cut.len() > 50);
        for [x, y] in cut {
            assert!(inside(x, y), "{shape:?}: {x}, {y}");
        }
    }
}

#[test]
fn a_longer_link_than_allowed_cuts_the_thread() {
    let bench = bench();
    let run = bench
        .run(&[L.as_slice(), &["json", "--max-link", "1/4 in"]].concat())
        .ok();
    let cut: serde_json::Value = serde_json::from_str(&run.out).expect("JSON");
    let paths = cut["paths"].as_array().expect("several paths").len();
    assert!(
        paths > 1 && run.err.contains(&format!("{paths} paths")),
        "{}",
        run.err
    );
}

#[test]
fn what_can_not_be_cut_is_refused() {
    let bench = bench().with(
        "bow.json",
        r#"{"unit":"in","points":[[0,0],[9,9],[9,0],[0,9]]}"#,
    );
    let to = |shape: &[&'static str]| {
        let args = ["trim", "block.svg", "--out", "cut.svg", "--to"];
        [args.as_slice(), shape].concat()
    };
    for (shape, code, message) in [
        (
            vec!["l"],
            2,
            "--to l: give the depth of its legs with --leg-depth",
        ),
        (
            vec!["l", "--leg-depth", "12 in"],
            1,
            "a leg depth of 12 in does not fit",
        ),
        (
            vec!["l", "--leg-depth", "4 in", "--across", "2"],
            2,
            "--across: 2 is out of range; give 0 to 1",
        ),
        (
            vec!["triangle", "--leg-depth", "4 in"],
            2,
            "--leg-depth: this shape doesn't use it",
        ),
        (
            vec!["circle"],
            2,
            "give l, rectangle, triangle, or the name of a file",
        ),
        (
            vec!["bow.json"],
            1,
            "bow.json: the sides 0 and 2 of the region touch or cross",
        ),
        (vec!["rectangle", "--at", "20, 20 in"], 1, "block.svg:"),
        (
            vec!["rectangle", "--at", "20"],
            2,
            "give for example 1, 2 1/2 in",
        ),
        (
            vec!["l", "--leg-depth", "4 in", "--inset", "3 in"],
            1,
            "inset",
        ),
        (
            vec!["l", "--leg-depth", "4 in", "--inset=-1 in"],
            2,
            "--inset: -1 in is below 0; give 0 or more",
        ),
        (
            vec!["l", "--leg-depth", "4 in", "--across", "half"],
            2,
            "\"half\" is not a number",
        ),
        // A place may lie to the left of the origin or above it.
        (vec!["rectangle", "--at", "-20, -20 in"], 1, "block.svg:"),
        (
            vec!["l", "--leg-depth", "4 in", "--elbow", "topleft"],
            2,
            "top-left",
        ),
        (
            vec!["l", "--leg-depth", "4 in", "--order", "fre"],
            2,
            "free",
        ),
    ] {
        bench.run(&to(&shape)).failed(code, &[message]);
        assert!(!bench.path("cut.svg").exists());
    }
}

/// Without stitching over and with short links the line may not reach the leg's end: that is
/// reported.
#[test]
fn an_end_that_is_missed_is_reported_with_what_helps() {
    let bench = Bench::new().with(
        "a.json",
        r#"{"unit":"in","points":[[5,5],[4,1],[3,5],[2,1],[1,5]]}"#,
    );
    let args = |more: &[&str]| {
        let mut args = vec![
            "trim",
            "a.json",
            "--to",
            "l",
            "--leg-depth",
            "2",
            "--out",
            "-",
            "--format",
            "json",
        ];
        args.extend(more);
        bench.run(&args).err
    };
    let usual = args(&[]);
    assert!(!usual.contains("on its leg's end"), "{usual}");
    assert!(
        usual.contains("no way of joining in this order adds less"),
        "{usual}"
    );
    let short = args(&["--max-link", "0.01 in"]);
    assert!(
        short.contains("on its leg's end") && short.contains("longer --max-link"),
        "{short}"
    );
}
