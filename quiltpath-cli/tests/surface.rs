//! What the command shows of itself: help, schema, completions, manual, colour.

mod common;

use common::Bench;

const COMMANDS: [&str; 19] = [
    "plan",
    "compare",
    "align",
    "stitched",
    "resume",
    "measure",
    "convert",
    "transform",
    "fit",
    "corner",
    "trim",
    "stitch",
    "rank",
    "scan",
    "template",
    "schema",
    "completions",
    "man",
    "help",
];

#[test]
fn help_fits_a_screen_and_shows_an_example() {
    let bench = Bench::new();
    let check = |args: &[&str], lines: usize| {
        let help = bench.run(args).ok().out;
        assert!(help.lines().count() <= lines, "{args:?}: {help}");
        for line in help.lines() {
            assert!(line.chars().count() <= 80, "{args:?}: {line}");
        }
        assert!(help.contains("Example: quiltpath"), "{args:?}: {help}");
    };
    // One line for each command, and the twelve around them.
    check(&["--help"], 12 + 17);
    for command in COMMANDS {
        check(&[command, "--help"], 40);
        // What has to be given stands in the line that shows how.
        let help = bench.run(&[command, "--help"]).ok().out;
        let (_, usage) = help.split_once("Usage: ").expect("usage");
        let (usage, _) = usage.split_once("\n\n").expect("more than usage");
        let missing = bench.run(&[command]).err;
        let needed = missing.lines().filter(|line| line.starts_with("  --"));
        for option in needed.map(str::trim).filter(|_| command != "plan") {
            assert!(usage.contains(option), "{command}: no {option} in {usage}");
        }
    }
    let version = bench.run(&["--version"]).ok().out;
    assert!(version.starts_with("quiltpath 0."), "{version}");
    bench.run(&[]).failed(2, &["Usage: quiltpath <COMMAND>"]);
}

#[test]
fn the_schema_is_json_and_knows_the_plan() {
    let schema = Bench::new().run(&["schema"]).ok().out;
    let schema: serde_json::Value = serde_json::from_str(&schema).expect("JSON");
    assert!(schema["properties"]["borders"].is_object());
}

#[test]
fn every_shell_gets_completions() {
    let bench = Bench::new();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let text = bench.run(&["completions", shell]).ok().out;
        assert!(
            text.contains("quiltpath") && text.contains("transform"),
            "{shell}"
        );
    }
    bench.run(&["completions", "bsh"]).failed(2, &["'bash'"]);
}

#[test]
fn the_manual_has_a_page_for_each_command() {
    let bench = Bench::new();
    let page = bench.run(&["man"]).ok().out;
    assert!(page.contains(".TH quiltpath 1"), "{page}");
    bench.run(&["man", "--out", "man"]).ok();
    let names = bench.names("man");
    assert_eq!(names.len(), COMMANDS.len() + 1, "{names:?}");
    assert!(names.contains(&"quiltpath-plan.1".to_owned()), "{names:?}");
    assert!(bench.read("man/quiltpath-plan.1").contains("seam"));
    for name in names {
        let page = bench.read(&format!("man/{name}"));
        for title in ["EXIT STATUS", "FILES", "EXAMPLES"] {
            let (_, rest) = page.split_once(&format!(".SH \"{title}\"")).expect(title);
            let body = rest.split(".SH").next().expect("a body");
            assert!(body.lines().count() > 3, "{name}: {title}: {body}");
        }
    }
    assert!(
        page.contains("completions") && page.contains("schema"),
        "{page}"
    );
    bench
        .run(&["man", "--out", "man"])
        .failed(1, &["exists already"]);
    bench.run(&["man", "--out", "man", "--force"]).ok();
    bench
        .run(&["man", "--out", "man/quiltpath.1"])
        .failed(1, &["man/quiltpath.1: is a file; name a folder"]);
}

#[test]
fn there_is_no_colour_away_from_a_terminal_or_against_the_wish() {
    let bench = Bench::new();
    let plain = bench.run(&["measure", "none.svg"]);
    assert!(
        plain.err.starts_with("quiltpath: error: none.svg"),
        "{plain:?}"
    );
    let colour = |name: &str| {
        let mut command = bench.command(&["measure", "none.svg"]);
        let output = command.env("CLICOLOR_FORCE", "1").env(name, "1").output();
        String::from_utf8(output.expect("ended").stderr).expect("UTF-8")
    };
    assert!(colour("OTHER").contains('\u{1b}'));
    assert!(!colour("NO_COLOR").contains('\u{1b}'));
}

#[test]
fn negative_numbers_reach_the_check_of_their_option() {
    let bench = Bench::new().with_demo();
    let refused = |args: &[&str], words: &str| bench.run(args).failed(2, &[words]);
    let fit = ["fit", "border.svg", "--out", "a.json", "--span", "50 in"];
    let with = |more: &[&'static str]| [&fit[..], more].concat();
    refused(&with(&["--depth", "-5in"]), "--depth: -5 in is not above 0");
    refused(
        &with(&["--depth", "5in", "--every", "-2"]),
        "\"-2\" is not a whole number",
    );
    refused(
        &["stitch", "border.svg", "--out", "a.json", "--waste", "-5"],
        "give 0 or more",
    );
    refused(
        &["measure", "border.svg", "--join", "-1 mm"],
        "--join: -1 mm is not above 0",
    );
    // An option in the place of a length is refused by name.
    refused(&with(&["--depth", "--ease"]), "\"--ease\" is no");
}

#[test]
fn american_spellings_are_taken_and_not_shown() {
    let bench = Bench::new().with_demo();
    let corner = |style: &str| {
        let args = ["corner", "border.svg", "--depth", "5 in", "--style", style];
        bench.run(&[&args[..], &["--out", "-", "--format", "json"]].concat())
    };
    assert_eq!(corner("mitered").ok().out, corner("mitred").ok().out);
    let fit = |alternate: &str| {
        let args = ["fit", "border.svg", "--span", "50 in", "--depth", "5 in"];
        let more = ["--alternate", alternate, "--out", "-", "--format", "json"];
        bench.run(&[&args[..], &more].concat())
    };
    assert_eq!(fit("centered").ok().out, fit("centred").ok().out);
    let help = bench.run(&["corner", "--help"]).ok().out;
    assert!(help.contains("mitred") && !help.contains("mitered"));
    fit("middle").failed(2, &["left-right, top-bottom, centred]"]);
}

#[test]
fn help_is_a_command_too_and_all_errors_begin_alike() {
    let bench = Bench::new();
    let asked = bench.run(&["help", "plan"]).ok().out;
    assert_eq!(asked, bench.run(&["plan", "--help"]).ok().out);
    assert!(bench.run(&["help"]).ok().out.contains("template"));
    bench
        .run(&["help", "plna"])
        .failed(2, &["no command \"plna\"", "plan"]);
    for args in [&["plna"][..], &["plan"], &["fit", "a.svg", "--span"]] {
        let run = bench.run(args);
        assert!(run.err.starts_with("quiltpath: error: "), "{}", run.err);
    }
    // What a plan needs is asked for in a form that is accepted.
    let run = bench.run(&["plan", "--out", "out"]);
    run.failed(
        2,
        &[
            "--quilt",
            "--border",
            "--side",
            "quiltpath plan [OPTIONS] --out <DIR> <PLAN.json>",
        ],
    );
}

#[test]
fn a_decimal_comma_is_refused_with_the_way_to_write_it() {
    let bench = Bench::new().with_demo();
    let run = bench.run(&[
        "fit",
        "border.svg",
        "--span",
        "12,5 cm",
        "--depth",
        "5in",
        "--out",
        "-",
    ]);
    run.failed(2, &["has a decimal comma", "write 12.5 cm"]);
}

#[test]
fn a_template_under_another_kind_of_name_is_refused() {
    let bench = Bench::new().with_demo();
    let run = bench.run(&["template", "corner.svg", "--out", "x.pdf"]);
    run.failed(2, &["as HTML; name it x.html"]);
    assert!(!bench.path("x.pdf").exists());
}

#[test]
fn operations_that_undo_each_other_are_reported() {
    let bench = Bench::new().with_demo();
    let run = |second: &str| {
        let ops = ["--op", "rotate 30 about 0, 0", "--op", second];
        let mut args = vec!["transform", "border.svg", "--out", "-", "--format", "json"];
        args.extend(ops);
        bench.run(&args).ok().err
    };
    assert!(run("rotate -30 about 0, 0").contains("undo each other"));
    assert!(!run("rotate -29 about 0, 0").contains("undo each other"));
}

/// A quilt 80 in high on no frame at once: one pass is an assumption, until the throat is given.
#[test]
fn a_pass_that_no_frame_reaches_is_reported_as_an_assumption() {
    let bench = Bench::new().with_demo();
    let plan = |more: &[&str]| {
        let mut args = vec![
            "plan",
            "--quilt",
            "64 x 80 in",
            "--border",
            "6in",
            "--side",
            "border.svg",
            "--corner",
            "corner.svg",
            "--out",
            "out",
            "--force",
        ];
        args.extend(more);
        bench.run(&args).ok().err
    };
    assert!(plan(&[]).contains("assumes a frame that reaches 80 in down"));
    let told = plan(&["--throat", "18in"]);
    assert!(!told.contains("assumes"), "{told}");
    assert_eq!(bench.json("out/plan.json")["machine"]["throat"], "457.2 mm");
}
