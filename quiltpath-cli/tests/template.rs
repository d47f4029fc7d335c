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
