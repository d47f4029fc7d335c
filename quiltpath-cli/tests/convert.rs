//! `convert`: formats and units, and points that stay where they are.

mod common;

use common::{Bench, points, svg};

#[test]
fn json_comes_back_byte_for_byte() {
    let one = "{\"unit\":\"in\",\"name\":\"leaf\",\"points\":[[0.1,0.2],[0.30000000000000004,1e-7],[-3.0,2.5]]}\n";
    let two = "{\"unit\":\"cm\",\"paths\":[{\"name\":\"a\",\"points\":[[0.0,0.0],[1.0,1.0]]},{\"points\":[[2.0,0.0],[3.0,1.0]]}]}\n";
    for (text, kind) in [(one, "json"), (two, "json"), (one, "jsonl")] {
        let bench = Bench::new();
        let run = bench.run_with(&["convert", "-", "--out", "-", "--format", kind], text);
        assert_eq!(run.ok().out, text);
    }
    let lines = one.repeat(3);
    let bench = Bench::new().with("all.jsonl", &lines);
    bench
        .run(&["convert", "all.jsonl", "--out", "again.ndjson"])
        .ok();
    assert_eq!(bench.read("again.ndjson"), lines);
}

#[test]
fn a_drawing_goes_to_json_and_back_within_a_ten_thousandth() {
    let bench = Bench::new().with_demo();
    bench
        .run(&["convert", "corner.svg", "--out", "a.json"])
        .ok();
    bench.run(&["convert", "a.json", "--out", "b.svg"]).ok();
    bench.run(&["convert", "b.svg", "--out", "c.json"]).ok();
    let (first, last) = (points(&bench.json("a.json")), points(&bench.json("c.json")));
    assert_eq!(first.len(), last.len());
    assert_eq!(bench.json("a.json")["unit"], "in");
    for (a, b) in first.iter().zip(&last) {
        assert!((a[0] - b[0]).abs() < 1e-4 && (a[1] - b[1]).abs() < 1e-4);
    }
    assert_eq!(first[0], [3.0, 13.0]);
}

#[test]
fn the_unit_changes_the_numbers_and_not_the_size() {
    let bench = Bench::new().with("a.json", "{\"unit\":\"in\",\"points\":[[0,0],[1,2]]}");
    bench
        .run(&["convert", "a.json", "--unit", "mm", "--out", "b.json"])
        .ok();
    assert_eq!(points(&bench.json("b.json")), [[0.0, 0.0], [25.4, 50.8]]);
    bench
        .run(&["convert", "b.json", "--unit", "in", "--out", "c.json"])
        .ok();
    assert_eq!(points(&bench.json("c.json")), [[0.0, 0.0], [1.0, 2.0]]);
    let bare = bench.run_with(
        &["convert", "-", "--unit", "cm", "--out", "d.json"],
        "[[0,0],[1,2]]",
    );
    bare.ok();
    assert_eq!(bench.json("d.json")["unit"], "cm");
}

#[test]
fn every_line_stays_its_own_unless_they_are_joined() {
    let drawing =
        svg("<path id=\"a\" d=\"M0 0H5\"/><path id=\"b\" d=\"M5 0V5\"/><path d=\"M9 9H8\"/>");
    let bench = Bench::new().with("a.svg", drawing);
    bench.run(&["convert", "a.svg", "--out", "a.json"]).ok();
    let list = bench.json("a.json");
    assert_eq!(list["paths"].as_array().map(Vec::len), Some(3));
    assert_eq!(list["paths"][1]["name"], "b");
    assert!(list["paths"][2].get("name").is_none());

    let as_drawn = ["--one", "--strokes", "as-drawn", "--out", "b.json"];
    let apart = bench.run(&[&["convert", "a.svg"], &as_drawn[..]].concat());
    apart.failed(
        1,
        &[
            "a.svg: the drawing is 2 separate lines",
            "have one line made of them; --strokes one-line does that",
        ],
    );
    assert_eq!(bench.names("."), ["a.json", "a.svg"]);
    // The one line starts at the end that is far from the other line.
    for args in [["--one"].as_slice(), &["--strokes", "one-line"]] {
        let made =
            bench.run(&[&["convert", "a.svg", "--force", "--out", "one.json"], args].concat());
        let made = made.ok();
        assert!(
            made.err
                .contains("note: one line of 3 strokes: 1 link of 5 mm in all"),
            "{}",
            made.err
        );
        assert_eq!(points(&bench.json("one.json")).len(), 5);
    }
    bench
        .run(&["convert", "a.svg", "--one", "--link", "--out", "b.json"])
        .ok();
    let expected = [[0.0, 0.0], [5.0, 0.0], [5.0, 5.0], [8.0, 9.0], [9.0, 9.0]];
    assert_eq!(points(&bench.json("b.json")), expected);
    let alone = bench.run(&["convert", "a.svg", "--link", "--out", "c.json"]);
    alone.failed(
        2,
        &["--link: lines are linked only where they are joined; give --one"],
    );
}

#[test]
fn smooth_svg_is_shorter_and_true() {
    let bench = Bench::new().with_demo();
    bench
        .run(&["convert", "border.svg", "--out", "plain.svg"])
        .ok();
    bench
        .run(&[
            "convert",
            "border.svg",
            "--smooth",
            "0.05 mm",
            "--out",
            "smooth.svg",
        ])
        .ok();
    assert!(bench.read("smooth.svg").len() < bench.read("plain.svg").len() / 2);
    let refused = bench.run(&[
        "convert",
        "border.svg",
        "--smooth",
        "0.1 mm",
        "--out",
        "a.json",
    ]);
    refused.failed(2, &["--smooth: only SVG has curves"]);
}

#[test]
fn what_is_left_out_is_reported() {
    let bench = Bench::new().with("a.svg", svg("<path d=\"M0 0H5\"/><text>leaf</text>"));
    let run = bench
        .run(&["convert", "a.svg", "--out", "-", "--format", "json"])
        .ok();
    assert!(run.err.contains("quiltpath: note: a.svg: "), "{}", run.err);
    assert!(run.out.starts_with("{\"unit\":\"mm\""));
}

/// A drawing in millimetres, `M0 0L5 3 9 0`, compressed by gzip.
const PACKED: &[u8] =
    b"\x1f\x8b\x08\x00\x00\x00\x00\x00\x02\xff\x2d\x8c\x41\x0a\x84\x30\x0c\x00\xbf\x12\xf2\x00\
    \x13\x14\x0f\x5d\xda\x1e\x3c\xeb\x23\x04\xa5\x29\x58\x15\x0d\xc6\xe7\x6f\x17\xf6\x38\xc3\
    \x30\xfe\x7e\x12\xbc\x65\xdb\xef\x80\xa2\x7a\x7e\x88\xcc\xac\xb1\xae\x39\xae\x44\x2d\x33\
    \x53\x2d\x10\x2c\x2f\x2a\x01\x5d\x29\x08\xb2\xe6\x24\xfa\x87\x27\xaf\x36\x1c\x6f\x40\x06\
    \x06\x07\x0e\xa3\x3f\x67\x15\x58\x02\x4e\x55\x8d\x3d\x74\x55\x33\x52\xf4\xbf\x53\xfc\x02\
    \xdf\xb5\xcc\x46\x71\x00\x00\x00";

#[test]
fn compressed_and_wide_drawings_are_read_from_files_folders_and_streams() {
    let plain = "<svg xmlns='http://www.w3.org/2000/svg' width='9mm' height='9mm' viewBox='0 0 9 9'>\
                 <path d='M0 0L5 3 9 0'/></svg>";
    let wide: Vec<u8> = format!("\u{feff}{plain}")
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    let narrow = [
        b"<?xml version='1.0' encoding='ISO-8859-1'?><!-- caf\xe9 -->",
        plain.as_bytes(),
    ]
    .concat();
    let bench = Bench::new();
    std::fs::create_dir(bench.path("many")).expect("a folder");
    let bench = bench
        .with("many/a.svgz", PACKED)
        .with("many/b.svg", wide)
        .with("many/c.svg", narrow)
        .with("many/d.SVGZ", PACKED)
        .with("many/notes.txt", "not a drawing")
        .with("many/.hidden", "")
        .with("many/scan.tiff", "");
    let run = bench
        .run(&["convert", "many", "--out", "out", "--format", "json"])
        .ok();
    assert!(
        run.err.contains("note: many: 2 of its files skipped, whose names don't end in .svg, .svgz, .dxf, .json, .jsonl, .ndjson, .png, .jpg or .jpeg: notes.txt, scan.tiff\n"),
        "{}",
        run.err
    );
    for name in ["a", "b", "c", "d"] {
        let line = bench.json(&format!("out/{name}.json"));
        assert_eq!(
            points(&line),
            [[0.0, 0.0], [5.0, 3.0], [9.0, 0.0]],
            "{name}"
        );
    }
}

#[test]
fn layers_are_chosen_by_name() {
    let drawing = "<svg xmlns='http://www.w3.org/2000/svg' xmlns:e='http://example.org/e' width='9mm' height='9mm' \
                   viewBox='0 0 9 9'><g id='guides'><path d='M1 1H5'/></g>\
                   <g id='x1' e:label='Quilting'><path d='M0 0L5 3 9 0'/></g></svg>";
    let bench = Bench::new()
        .with("a.svg", drawing)
        .with("a.json", "{\"unit\":\"mm\",\"points\":[[0,0],[1,2]]}");
    bench
        .run(&["convert", "a.svg", "--layer", "Quilting", "--out", "b.json"])
        .ok();
    assert_eq!(
        points(&bench.json("b.json")),
        [[0.0, 0.0], [5.0, 3.0], [9.0, 0.0]]
    );
    let both = bench.run(&[
        "convert", "a.svg", "--layer", "x1", "--layer", "guides", "--out", "c.json",
    ]);
    both.ok();
    assert_eq!(
        bench.json("c.json")["paths"]
            .as_array()
            .expect("paths")
            .len(),
        2
    );
    bench.run(&["measure", "a.svg", "--layer", "quilting"]).failed(
        1,
        &["a.svg: no group has the id or the label \"quilting\"; there are \"guides\", \"Quilting\""],
    );
    bench
        .run(&["measure", "a.json", "--layer", "x1"])
        .failed(1, &["no groups with names"]);
}

#[test]
fn a_plan_reads_the_layers_that_it_names() {
    let bench = Bench::new().with_demo();
    let border = bench.read("border.svg");
    let plan = bench.read("plan.json");
    bench.run(&["plan", "plan.json", "--out", "plain"]).ok();
    let layered = border
        .replacen(
            "<path",
            "<g id='guides'><path d='M0 0 90 90'/></g><g id='quilting'><path",
            1,
        )
        .replace("</svg>", "</g></svg>");
    let named = plan.replacen(
        "\"motif\": \"border.svg\"",
        "\"motif\": \"border.svg\", \"layers\": [\"quilting\"]",
        1,
    );
    assert_ne!(plan, named);
    let bench = bench.with("border.svg", layered).with("named.json", named);
    bench.run(&["plan", "named.json", "--out", "layers"]).ok();
    assert_eq!(
        bench.read("layers/quilt.svg"),
        bench.read("plain/quilt.svg")
    );
}

#[test]
fn a_plan_of_options_reads_the_layer_alone() {
    let bench = Bench::new().with_demo();
    let layered = bench
        .read("border.svg")
        .replacen(
            "<path",
            "<g id='guides'><path d='M0 0 90 90'/></g><g id='quilting'><path",
            1,
        )
        .replace("</svg>", "</g></svg>");
    let bench = bench.with("layered.svg", layered);
    let plan = |side, corner: &[&str], layer: &[&str], out| {
        let options = [
            "plan",
            "--quilt",
            "60 x 72 in",
            "--border",
            "6 in",
            "--side",
            side,
            "--out",
            out,
        ];
        bench.run(&[&options[..], corner, layer].concat())
    };
    let layer = ["--layer", "quilting"];
    plan("border.svg", &[], &[], "plain").ok();
    plan("layered.svg", &[], &layer, "layers").ok();
    let pictures = ["plain/quilt.svg", "layers/quilt.svg"].map(|name| bench.read(name));
    assert_eq!(pictures[0], pictures[1]);
    // The plan that is written reads the same.
    let again = ["plan", "layers/plan.json", "--out", "again"];
    bench.run(&again).ok();
    assert_eq!(bench.read("again/quilt.svg"), pictures[0]);
    let corner = ["--corner", "corner.svg"];
    plan("layered.svg", &corner, &layer, "refused").failed(
        1,
        &[
            "corner.svg",
            "no group has the id or the label \"quilting\"",
            "in a plan file each motif has \"layers\" of its own",
        ],
    );
}

#[test]
fn a_sprig_of_strokes_becomes_one_line() {
    let sprig = svg("<path d='M0 0 H 100'/><path d='M30 0 V 20'/><path d='M60 -10 V 0.05'/>");
    let bench = Bench::new().with("sprig.svg", &sprig);
    let run = bench.run(&[
        "convert",
        "sprig.svg",
        "--strokes",
        "one-line",
        "--out",
        "line.json",
    ]);
    let run = run.ok();
    let message = "one line of 3 strokes: ";
    assert!(run.err.contains(message), "{}", run.err);
    assert!(
        run.err.contains("is stitched twice, which is the least"),
        "{}",
        run.err
    );
    let line = points(&bench.json("line.json"));
    assert_eq!(line.iter().filter(|point| point[1] > 0.0).count(), 1);
    bench
        .run(&[
            "convert",
            "sprig.svg",
            "--strokes",
            "one-line",
            "--link",
            "--out",
            "a.json",
        ])
        .failed(2, &["--link"]);
    bench
        .run(&[
            "convert",
            "sprig.svg",
            "--strokes",
            "as-drown",
            "--out",
            "a.json",
        ])
        .failed(2, &["as-drawn"]);
}

#[test]
fn one_line_starts_and_ends_where_it_is_told_and_is_cut_where_that_saves_line() {
    let comb = svg("<path d='M0 0H40M10 0V8M30 8V0'/><path d='M100 0H120'/>");
    let bench = Bench::new().with("a.svg", comb);
    let made = |args: &[&str]| {
        let all = [
            "convert",
            "a.svg",
            "--strokes",
            "one-line",
            "--force",
            "--out",
            "b.json",
        ];
        let run = bench.run(&[&all, args].concat());
        let run = run.ok();
        (bench.json("b.json"), run.err)
    };
    let ends = |list: &serde_json::Value| {
        let points = points(list);
        (points[0], points[points.len() - 1])
    };
    let (list, told) = made(&[]);
    assert_eq!(ends(&list), ([0.0, 0.0], [120.0, 0.0]));
    assert!(told.contains("one line of 4 strokes: 16 mm (21 %) is stitched twice, with 1 link of 60 mm in all, which is the least"), "{told}");
    let (list, _) = made(&["--start", "right", "--end", "10, 8 mm"]);
    assert_eq!(ends(&list), ([120.0, 0.0], [10.0, 8.0]));
    let (list, _) = made(&["--end", "20 mm, 1 mm"]);
    assert_eq!(ends(&list).1, [20.0, 0.0]);
    let (list, told) = made(&["--cut", "30 mm"]);
    assert_eq!(list["paths"].as_array().map(Vec::len), Some(2));
    assert!(told.contains("2 lines of 4 strokes: 16 mm (21 %) is stitched twice, with 1 thread cut, which is the least"), "{told}");
    let apart = ["convert", "a.svg", "--strokes", "apart", "--out", "c.json"];
    bench.run(&apart).ok();
    assert_eq!(
        bench.json("c.json")["paths"].as_array().map(Vec::len),
        Some(4)
    );

    let refused = |args: &[&str], words: &str| {
        bench
            .run(&[&["convert", "a.svg", "--out", "d.json"], args].concat())
            .failed(2, &[words]);
    };
    refused(
        &["--start", "left"],
        "--start: this is for one line of all strokes; give --strokes one-line too",
    );
    refused(
        &["--one", "--strokes", "as-drawn", "--cut", "2in"],
        "--cut: this is for one line",
    );
    refused(
        &["--one", "--end", "middle"],
        "\"middle\" is no place; give left, right, top or bottom",
    );
    refused(&["--one", "--cut=-3mm"], "--cut");
    let plain = bench.run(&["measure", "a.svg", "--strokes", "apart"]);
    plain.failed(
        2,
        &["--strokes apart: this takes one line; give one-line or as-drawn"],
    );
}
