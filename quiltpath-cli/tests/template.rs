//! `template`: pieces at true size on paper, from every kind of drawing.

mod common;

use common::{Bench, svg};

#[test]
fn a_piece_becomes_a_page_to_print() {
    let bench = Bench::new().with_demo();
    let run = bench
        .run(&["template", "corner.svg", "--out", "corner.html"])
        .ok();
    assert!(run.out.is_empty());
    assert!(
        run.err
            .contains("3 sheets of Letter paper, 2 rows by 2 columns"),
        "{}",
        run.err
    );
    let page = bench.read("corner.html");
    assert!(page.contains("<title>corner: paper template</title>"));
    assert!(page.contains("13 in x 13 in") && page.contains("@page{size:letter portrait"));
    assert_eq!(page.matches("<svg class=\"leaf\"").count(), 3);

    bench
        .run(&["template", "corner.svg", "--out", "corner.html"])
        .failed(1, &["corner.html: exists already; give --force"]);
    let a4 = ["template", "corner.svg", "--paper", "a4"];
    bench
        .run(&[&a4[..], &["--out", "corner.html", "--force"]].concat())
        .ok();
    assert!(bench.read("corner.html").contains("@page{size:A4 "));
}

#[test]
fn the_paper_follows_the_unit_and_the_page_may_go_to_stdout() {
    let points = "{\"unit\":\"mm\",\"points\":[[0,0],[120,80]]}";
    let bench = Bench::new();
    let a4 = bench
        .run_with(&["template", "-", "--out", "-"], points)
        .ok();
    assert!(a4.out.contains("@page{size:A4 portrait") && a4.out.ends_with("</html>\n"));
    assert!(a4.err.contains("1 sheet of A4 paper"), "{}", a4.err);
    let letter = bench.run_with(&["template", "-", "--unit", "in", "--out", "-"], points);
    assert!(letter.ok().out.contains("4 3/4 in x 3 1/8 in"));
}

#[test]
fn lines_that_do_not_meet_stay_apart_unless_they_are_linked() {
    let drawing = svg("<path d=\"M0 0H50\"/><path d=\"M90 0H50\"/><path d=\"M0 20H50\"/>");
    let bench = Bench::new().with("a.svg", drawing);
    let apart = bench.run(&["template", "a.svg", "--out", "-"]).ok();
    assert!(
        apart.err.contains("note: 2 separate lines"),
        "{}",
        apart.err
    );
    assert!(apart.out.contains(">start 2<"));
    let linked = bench
        .run(&["template", "a.svg", "--link", "--out", "-"])
        .ok();
    assert!(!linked.err.contains("note") && !linked.out.contains(">start 2<"));

    let line = "{\"unit\":\"mm\",\"points\":[[0,0],[50,0]]}\n";
    let next = "{\"unit\":\"mm\",\"points\":[[50,0],[90,0]]}\n";
    let own = ["template", "-", "--out", "-"];
    let both = bench.run_with(&own, [line, next].concat()).ok();
    assert!(both.err.contains("2 separate lines"), "{}", both.err);
}

#[test]
fn what_can_not_be_printed_is_refused_before_anything_is_written() {
    let far = "{\"unit\":\"in\",\"points\":[[0,0],[5000,12]]}";
    let bench = Bench::new().with("far.json", far);
    bench
        .run(&["template", "far.json", "--out", "far.html"])
        .failed(
            1,
            &[
                "far.json: a piece of 5000 in x 12 in takes ",
                "sheets of Letter paper; up to 400 are accepted, so give a piece of up to ",
            ],
        );
    bench
        .run(&["template", "far.json", "--paper", "a5", "--out", "far.html"])
        .failed(2, &["'a5'", "letter", "a4"]);
    assert_eq!(bench.names("."), ["far.json"]);
}

#[test]
fn a_piece_of_a_plan_has_the_edge_and_the_seam_beside_it() {
    let bench = Bench::new().with_demo();
    bench.run(&["plan", "plan.json", "--out", "out"]).ok();
    let piece = "out/pieces/02-border-side-top.svg";
    for piece in [piece, "out/pieces/02-border-side-top.json"] {
        let run = bench.run(&["template", piece, "--out", "-"]).ok();
        assert!(
            run.err
                .contains("raw edge and seams are those of out/result.json"),
            "{}",
            run.err
        );
        assert!(run.out.contains(">raw edge</text>") && run.out.contains(">inner seam</text>"));
    }
    // The same from elsewhere, where the result is named; the paper may be in another unit.
    let moved = bench.read(piece);
    let bench = bench
        .with("02-border-side-top.svg", moved)
        .with("other.svg", svg("<path d=\"M0 0L9 9\"/>"));
    let plain = bench
        .run(&["template", "02-border-side-top.svg", "--out", "-"])
        .ok();
    assert!(!plain.out.contains("raw edge"));
    let named = ["--result", "out/result.json", "--unit", "mm", "--out", "-"];
    let run = bench
        .run(&[&["template", "02-border-side-top.svg"][..], &named].concat())
        .ok();
    assert!(run.out.contains(">raw edge</text>"));
    bench.run(&[&["template", "other.svg"][..], &named].concat()).failed(
        2,
        &["--result out/result.json: it has no piece of the name other.svg; give a file of its folder pieces"],
    );
    bench
        .run(&[
            "template",
            "other.svg",
            "--result",
            "plan.json",
            "--out",
            "-",
        ])
        .failed(1, &["plan.json:1:1: this is a plan; give the result.json"]);
    // A file that was changed lies elsewhere: the lines would be wrong, so they are left out.
    let bench = bench.with(
        "out/pieces/02-border-side-top.json",
        r#"{"unit":"in","points":[[0,0],[9,9]]}"#,
    );
    let run = bench
        .run(&[
            "template",
            "out/pieces/02-border-side-top.json",
            "--out",
            "-",
        ])
        .ok();
    assert!(
        run.err.contains("its piece border-side-top lies elsewhere"),
        "{}",
        run.err
    );
    assert!(!run.out.contains("raw edge"));
}

#[test]
fn what_is_no_drawing_is_named() {
    let bench = Bench::new().with_demo();
    bench.run(&["plan", "plan.json", "--out", "out"]).ok();
    let result = "this is the result of a plan; give ";
    bench
        .run(&["template", "out/result.json", "--out", "-"])
        .failed(
            1,
            &[
                result,
                "one of its lines, a file of the folder pieces or paths beside it",
            ],
        );
    bench
        .run(&["plan", "out/result.json", "--out", "again"])
        .failed(
            1,
            &[
                result,
                "the plan that it was made from, plan.json beside it",
            ],
        );
}
