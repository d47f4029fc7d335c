//! Errors end with the option of the command that helps, and show lengths in the drawing's unit.

mod common;

use common::Bench;

const APART: &str = r#"{"unit":"in","paths":[{"points":[[0,0],[1,2]]},{"points":[[2,2],[3,0]]}]}"#;
const TO_STDOUT: [&str; 4] = ["--out", "-", "--format", "json"];

fn bench() -> Bench {
    Bench::new()
        .with_demo()
        .with("apart.json", APART)
        .with("bare.json", "[[0,0],[1,1],[2,0]]")
}

/// Refused with these words at the end of the message.
fn ends(bench: &Bench, code: i32, args: &[&str], writes: bool, end: &str) {
    let more: &[&str] = if writes { &TO_STDOUT } else { &[] };
    let run = bench.run(&[args, more].concat());
    run.failed(code, &[end]);
    assert!(run.err.ends_with(&format!("{end}\n")), "{}", run.err);
}

#[test]
fn gaps_name_the_option_that_links_them_in_the_drawings_unit() {
    let bench = bench();
    let end = "\"path 1\" ends at (1 in, 2 in), 1 in from the start of \"path 2\" at (2 in, 2 in); draw them so that they meet, or have one line made of them; --strokes one-line does that, and --join sets how close ends are that meet";
    let as_drawn = ["--strokes", "as-drawn"];
    for (args, writes) in [
        (["measure", "apart.json"].as_slice(), false),
        (&["convert", "apart.json", "--one"], true),
        (&["transform", "apart.json", "--op", "reverse"], true),
        (
            &["fit", "apart.json", "--span", "9 in", "--depth", "1 in"],
            true,
        ),
        (
            &["corner", "apart.json", "--style", "bent", "--depth", "1 in"],
            true,
        ),
        (&["trim", "apart.json", "--to", "rectangle"], true),
        (
            &["rank", "apart.json", "--span", "9 in", "--depth", "1 in"],
            false,
        ),
    ] {
        ends(&bench, 1, &[args, &as_drawn].concat(), writes, end);
    }
    let plan = [
        "plan",
        "--quilt",
        "64 x 80 in",
        "--border",
        "6 in",
        "--side",
        "apart.json",
        "--out",
        "o",
    ];
    ends(&bench, 1, &[&plan[..], &as_drawn].concat(), false, end);
    // The plan has the tolerance; whether lines are linked is asked for here all the same.
    let rank = ["rank", "apart.json", "--plan", "plan.json"];
    let links = "have one line made of them; --strokes one-line does that";
    ends(&bench, 1, &[&rank[..], &as_drawn].concat(), false, links);
    let linked = bench.run(&["measure", "apart.json", "--link"]);
    assert_eq!(linked.code, 0, "{linked:?}");
}

#[test]
fn many_drawings_get_the_hints_of_one() {
    let bench = bench();
    let line = APART.to_owned() + "\n";
    let args = [
        "transform",
        "-",
        "--op",
        "reverse",
        "--strokes",
        "as-drawn",
        "--out",
        "-",
        "--format",
        "jsonl",
    ];
    let run = bench.run_with(&args, line);
    run.failed(
        1,
        &[
            "stdin:1:1: the drawing is 2 separate lines",
            "; --strokes one-line does that",
        ],
    );
}

#[test]
fn a_plan_file_is_hinted_by_its_keys_alone() {
    let bench = bench();
    let text = bench.read("plan.json");
    let side = "\"border.svg\"";
    assert!(text.contains(side), "{text}");
    let text = text.replace(side, "\"apart.json\", \"strokes\": \"as_drawn\"");
    let bench = bench.with("plan.json", text);
    let run = bench.run(&["plan", "plan.json", "--out", "o"]);
    run.failed(
        1,
        &["; in the plan, \"strokes\": \"one_line\" beside the motif"],
    );
    assert!(!run.err.contains("--"), "{}", run.err);
}

#[test]
fn a_missing_unit_names_the_option_that_gives_one() {
    let bench = bench();
    let end = "or name the unit when reading it; --unit does that";
    ends(&bench, 1, &["measure", "bare.json"], false, end);
    ends(&bench, 1, &["convert", "bare.json"], true, end);
    // The plan has the unit.
    let run = bench.run(&["rank", "bare.json", "--plan", "plan.json"]);
    assert_eq!(run.code, 0, "{run:?}");
}

#[test]
fn a_plan_has_the_tolerances_of_what_is_ranked_for_it() {
    let bench = bench();
    for option in ["--unit=in", "--flattening=1mm", "--join=1mm"] {
        let run = bench.run(&["rank", "border.svg", "--plan", "plan.json", option]);
        run.failed(2, &["cannot be used with"]);
    }
}

#[test]
fn the_numbers_of_a_fit_name_their_options() {
    let bench = bench();
    let fit = |more: &[&str], end: &str| {
        let args = [&["fit", "border.svg", "--depth", "1 in"], more].concat();
        ends(&bench, 1, &args, true, end);
    };
    let long = "so check the units of the motif and the span; --span sets the length, and a larger --depth makes repeats longer";
    fit(&["--span", "900000 yd"], long);
    let span = ["--span", "9 in"];
    let with = |more: &[&'static str]| [&span, more].concat();
    fit(
        &with(&["--repeats", "200000"]),
        "border.svg: 200000 repeats are asked for; up to 100000 are accepted, so give a smaller number; --repeats, --every and --parity set it",
    );
    fit(&with(&["--every", "100001"]), "; --every sets it");
    fit(
        &with(&["--every", "2", "--parity", "odd"]),
        "; --every and --parity exclude each other; leave one out",
    );
    fit(
        &with(&["--alternate", "centred", "--repeats", "3"]),
        "give 2 or 4; --repeats sets it; without --alternate centred it may be odd",
    );
    fit(
        &with(&["--alternate", "centred", "--parity", "odd"]),
        "; --parity sets it; without --alternate centred it may be odd",
    );
    fit(
        &with(&["--flattening", "1e-200 in"]),
        "; --flattening sets that tolerance",
    );
}

#[test]
fn the_numbers_of_a_corner_name_their_options_in_the_drawings_unit() {
    let bench = bench();
    let corner = |style: &'static str, more: &[&'static str], end: &str| {
        let args = ["corner", "border.svg", "--depth", "5 in", "--style", style];
        ends(&bench, 1, &[&args, more].concat(), true, end);
    };
    corner(
        "bent",
        &["--radius", "1 mm"],
        "border.svg: the radius of the bend is 0.03937 in, so the band would fold; give a radius above 2.5 in; --radius sets it; without it, one that works is chosen",
    );
    corner(
        "bent",
        &["--radius", "100 yd"],
        "below 17.07 in; --radius sets it; without it, one that works is chosen",
    );
    corner(
        "bent",
        &["--angle", "200"],
        "give 45 to 150 degrees; --angle sets it",
    );
    corner(
        "mitred",
        &["--legs", "2000"],
        "give 0 to 1000; --legs sets it",
    );
}

#[test]
fn what_is_cut_to_names_its_options_in_the_drawings_unit() {
    let bench = bench().with(
        "far.json",
        r#"{"unit":"in","points":[[900,900],[910,900],[910,910],[900,910]]}"#,
    );
    let trim = |more: &[&str], end: &str| {
        let args = [&["trim", "corner.svg"], more].concat();
        ends(&bench, 1, &args, true, end);
    };
    trim(
        &["--to", "l", "--leg-depth", "90"],
        "a leg depth of 90 in does not fit into a drawing of 13 in; give a leg depth above 0 and below 13 in; --leg-depth sets it, --width and --height the size",
    );
    trim(
        &["--to", "rectangle", "--inset", "90"],
        "an inset of 90 in does not fit into the region; give an inset below 6.5 in; --inset sets it",
    );
    let apart = "move or scale the drawing so that they overlap";
    trim(
        &["--to", "rectangle", "--at", "900, 900"],
        &format!(
            "the drawing (13 in x 13 in at (0 in, 0 in)) lies entirely outside the region (13 in x 13 in at (900 in, 900 in)); {apart}; --at moves the region"
        ),
    );
    // A polygon lies where it is drawn: no option moves it.
    trim(&["--to", "far.json"], apart);
}

#[test]
fn what_is_stitched_names_its_options() {
    let bench = bench();
    let stitch = |code, more: &[&str], end: &str| {
        let args = [&["stitch", "border.svg"], more].concat();
        ends(&bench, code, &args, true, end);
    };
    stitch(
        2,
        &["--stitch", "2 mm", "--minimum", "5 mm"],
        "so that every length can be parted into stitches; --minimum sets it",
    );
    stitch(2, &["--cusp", "200"], "; --cusp sets it");
    stitch(
        2,
        &["--tie-off", "2000"],
        "give 0 to 100; --tie-off sets it",
    );
    stitch(
        1,
        &["--stitch", "1e-9 in"],
        "; --spi or --stitch sets their length",
    );
    // Lines that don't meet are stitched one after the other, so --link is no remedy.
    let apart = bench.run(&["stitch", "apart.json", "--out", "o.json"]);
    assert_eq!(apart.code, 0, "{apart:?}");
}

#[test]
fn the_steps_of_a_transform_name_what_works() {
    let bench = bench().with("flat.json", r#"{"unit":"in","points":[[0,0],[9,0]]}"#);
    let transform = |drawing, step, end| {
        ends(&bench, 1, &["transform", drawing, "--op", step], true, end);
    };
    transform(
        "flat.json",
        "fit 4 in x 3 in",
        "give only the other size; --op \"fit width WIDTH\" gives the width alone",
    );
    transform(
        "border.svg",
        "elbow at 0, 0",
        "; --op \"start at X, Y\" and --op \"end at X, Y\" need no elbow",
    );
}

#[test]
fn a_plan_from_options_names_them() {
    let bench = bench();
    let plan = |more: &[&str], end: &str| {
        let base = ["plan", "--quilt", "64 x 80 in", "--out", "o"];
        ends(&bench, 1, &[&base, more].concat(), false, end);
    };
    let side = ["--side", "border.svg"];
    let with = |more: &[&'static str]| [&side, more].concat();
    plan(&with(&["--border", "40 in"]), "; --border sets the width");
    plan(
        &with(&[
            "--border",
            "6 in",
            "--seam-gap",
            "4 in",
            "--edge-gap",
            "4 in",
        ]),
        "; --seam-gap, --edge-gap and --border set them",
    );
    plan(
        &with(&["--border", "6 in", "--corner", "border.svg"]),
        "; with --style block any drawing is a corner, and with --style mitred or bent the repeat makes one",
    );
    plan(
        &["--border", "6 in", "--side", "none.svg"],
        "none.svg: no such file or folder; --side and --corner name the motifs' files",
    );
    assert!(!bench.path("o").exists());
}

#[test]
fn a_filled_page_is_told_of_the_option_or_the_key_that_chooses_layers() {
    let drawing = r#"<svg xmlns="http://www.w3.org/2000/svg" width="4in" height="1in" viewBox="0 0 4 1">
        <rect width="4" height="1"/><path fill="none" stroke="black" d="M0 .5C1 0 3 1 4 .5"/></svg>"#;
    let plan = r#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
        {"width": 6, "corner": {"style": "open"}, "side": {"motif": "page.svg"}}]}"#;
    let bench = Bench::new()
        .with("page.svg", drawing)
        .with("page.json", plan);
    let told = |args: &[&str], hint: &str| {
        let run = bench.run(args);
        let wanted = format!("choose the layers to read; {hint} does that");
        assert!(run.err.contains(&wanted), "{}", run.err);
    };
    told(&["measure", "page.svg"], "--layer NAME");
    told(
        &["plan", "page.json", "--out", "a"],
        "\"layers\" beside the motif in the plan",
    );
    let flags = [
        "--border", "6 in", "--side", "page.svg", "--style", "open", "--out", "b",
    ];
    told(
        &[&["plan", "--quilt", "40 x 60 in"][..], &flags].concat(),
        "--layer NAME",
    );
}
