//! DXF and G-code: read back by small readers of our own, which know only the published rules.

mod common;

use common::{Bench, points, svg};

/// A line as read back: its layer or comment, and its points.
type Line = (String, Vec<[f64; 2]>);

/// What a reader of group codes makes of a DXF: the code of its unit, and its polylines.
///
/// From the published DXF reference (from memory): a code on one line, its value on the next;
/// $INSUNITS is 1 for inches and 4 for millimetres; vertices follow their POLYLINE.
fn read_dxf(text: &str) -> (u32, Vec<Line>) {
    let rows: Vec<&str> = text.lines().map(str::trim).collect();
    let pairs = rows.chunks_exact(2);
    assert!(pairs.remainder().is_empty(), "a code without a value");
    let (mut unit, mut lines, mut entity) = (0, Vec::<Line>::new(), "");
    let mut variable = "";
    let mut sections = 0;
    for pair in pairs {
        let code: u32 = pair[0].parse().expect("a group code");
        let number = || pair[1].parse::<f64>().expect("a number");
        match (code, entity) {
            (0, _) => {
                entity = pair[1];
                match entity {
                    "SECTION" => sections += 1,
                    "ENDSEC" => sections -= 1,
                    "POLYLINE" => lines.push(Line::default()),
                    "VERTEX" => lines.last_mut().expect("a line").1.push([f64::NAN; 2]),
                    _ => {}
                }
            }
            (9, _) => variable = pair[1],
            (70, _) if variable == "$INSUNITS" => {
                unit = pair[1].parse().expect("a unit");
                variable = "";
            }
            (8, "POLYLINE") => lines.last_mut().expect("a line").0 = pair[1].to_owned(),
            (10 | 20, "VERTEX") => {
                let vertex = lines.last_mut().and_then(|line| line.1.last_mut());
                vertex.expect("a vertex")[usize::from(code == 20)] = number();
            }
            // Bit 1 of a polyline's flags would close it.
            (70, "POLYLINE") => assert_eq!(pair[1], "0"),
            _ => {}
        }
    }
    assert_eq!((sections, entity), (0, "EOF"));
    (unit, lines)
}

/// What a machine makes of G-code: the word of its unit, its lines, and the feeds it was given.
///
/// By ISO 6983 (from memory): words of a letter and a number, modal, G20 and G21 for inches and
/// millimetres, G90 for absolute numbers, G0 to a place, G1 straight along a line, F the feed;
/// what stands in brackets is a comment. Any other word is a fault.
fn read_gcode(text: &str) -> (u32, Vec<Line>, Vec<f64>) {
    let (mut unit, mut absolute, mut drawing) = (0, false, None);
    let (mut lines, mut feeds) = (Vec::<Line>::new(), Vec::new());
    let (mut at, mut comment) = ([f64::NAN; 2], String::new());
    for row in text.lines() {
        let mut rest = row;
        let mut moves = false;
        while let Some(letter) = rest.chars().next() {
            if letter == ' ' {
                rest = &rest[1..];
                continue;
            }
            if letter == '(' {
                let (inner, after) = rest[1..].split_once(')').expect("a closed comment");
                comment = inner.to_owned();
                rest = after;
                continue;
            }
            let end = rest[1..].find(|c: char| !"+-.0123456789".contains(c));
            let (word, after) = rest.split_at(end.map_or(rest.len(), |end| end + 1));
            rest = after;
            let number: f64 = word[1..].parse().expect("a number");
            match (letter, number) {
                ('G', 20.0 | 21.0) => unit = number as u32,
                ('G', 90.0) => absolute = true,
                ('G', 0.0) => drawing = Some(false),
                ('G', 1.0) => drawing = Some(true),
                ('X', x) => (at[0], moves) = (x, true),
                ('Y', y) => (at[1], moves) = (y, true),
                ('F', feed) => feeds.push(feed),
                _ => panic!("{word} is no plain move"),
            }
        }
        if moves {
            assert!(absolute && unit > 0, "a move before its unit");
            if drawing.expect("a kind of move") {
                lines.last_mut().expect("a start").1.push(at);
            } else {
                lines.push((comment.clone(), vec![at]));
            }
        }
    }
    (unit, lines, feeds)
}

/// Holds a line read back against the points it was written from; y points up in the file.
fn same(back: &[[f64; 2]], from: &[[f64; 2]], factor: f64) {
    assert_eq!(back.len(), from.len());
    for (back, from) in back.iter().zip(from) {
        // Half a step of what is printed, and the rounding of the sum itself.
        assert!(
            (back[0] - from[0] * factor).abs() <= 0.500_01e-4,
            "{back:?} {from:?}"
        );
        assert!(
            (back[1] + from[1] * factor).abs() <= 0.500_01e-4,
            "{back:?} {from:?}"
        );
    }
}

#[test]
fn the_demos_corner_comes_back_from_either_format() {
    let bench = Bench::new().with_demo();
    for unit in ["in", "mm"] {
        let convert = |out: &str| {
            let args = [
                "convert",
                "corner.svg",
                "--unit",
                unit,
                "--force",
                "--out",
                out,
            ];
            bench.run(&args).ok();
            bench.read(out)
        };
        convert("corner.json");
        let from = points(&bench.json("corner.json"));
        assert!(from.len() > 500);
        let (code, lines) = read_dxf(&convert("corner.DXF"));
        assert_eq!(code, if unit == "in" { 1 } else { 4 });
        assert_eq!((lines.len(), lines[0].0.as_str()), (1, "corner"));
        same(&lines[0].1, &from, 1.0);
        let plain = convert("corner.nc");
        let (code, lines, feeds) = read_gcode(&plain);
        assert_eq!(code, if unit == "in" { 20 } else { 21 });
        assert_eq!((lines.len(), lines[0].0.as_str()), (1, "corner"));
        assert!(feeds.is_empty());
        same(&lines[0].1, &from, 1.0);
        assert_eq!(convert("corner.gcode"), plain);
        let head = if unit == "in" {
            "inches"
        } else {
            "millimetres"
        };
        assert!(plain.starts_with(&format!("(Lengths in {head}, absolute; moves only)\n")));
        assert!(
            plain.contains(
                "(Origin as in the drawing; x to the right, y up, the sign of y is turned)"
            )
        );
    }
}

#[test]
fn every_line_is_one_of_its_own_and_the_unit_follows_the_drawing() {
    let list = "{\"unit\":\"cm\",\"paths\":[{\"name\":\"stem\",\"points\":[[0,0],[1.5,2.25]]},{\"points\":[[-3,0.00333],[3,1],[3,-1]]}]}";
    let bench = Bench::new().with("a.json", list);
    let run = |format: &str| {
        let args = ["convert", "a.json", "--out", "-", "--format", format];
        bench.run(&args).ok().out
    };
    let (code, lines) = read_dxf(&run("dxf"));
    assert_eq!(code, 4);
    assert_eq!([&lines[0].0, &lines[1].0], ["stem", "path-2"]);
    same(&lines[0].1, &[[0.0, 0.0], [1.5, 2.25]], 10.0);
    same(
        &lines[1].1,
        &[[-3.0, 0.00333], [3.0, 1.0], [3.0, -1.0]],
        10.0,
    );
    let (code, moves, _) = read_gcode(&run("gcode"));
    assert_eq!(code, 21);
    assert_eq!(moves, lines);
}

#[test]
fn every_command_that_writes_lines_writes_these_too() {
    let bench = Bench::new().with_demo();
    for args in [
        ["transform", "border.svg", "--op", "reverse"].as_slice(),
        &["fit", "border.svg", "--span", "30 in", "--depth", "5 in"],
        &["corner", "border.svg", "--style", "bent", "--depth", "5 in"],
        &["trim", "corner.svg", "--to", "rectangle", "--width", "9 in"],
    ] {
        let write = |out: &str| {
            bench.run(&[args, &["--force", "--out", out]].concat()).ok();
            bench.read(out)
        };
        write("a.json");
        let from = points(&bench.json("a.json"));
        same(&read_dxf(&write("a.dxf")).1[0].1, &from, 1.0);
        same(&read_gcode(&write("a.nc")).1[0].1, &from, 1.0);
    }
}

#[test]
fn a_feed_is_written_in_the_unit_of_the_file_once_a_line() {
    let drawing = svg("<path id=\"a\" d=\"M0 0H5V5\"/><path id=\"b\" d=\"M9 9H8\"/>");
    let bench = Bench::new().with("a.svg", drawing);
    let feeds = |more: &[&str]| {
        let args = ["convert", "a.svg", "--out", "-", "--format", "gcode"];
        let run = bench.run(&[args.as_slice(), more].concat()).ok();
        assert!(run.out.contains("per minute)"));
        read_gcode(&run.out).2
    };
    assert_eq!(feeds(&["--feed", "150 in"]), [3810.0, 3810.0]);
    assert_eq!(feeds(&["--feed", "150 in", "--unit", "in"]), [150.0, 150.0]);
    let refused =
        |feed: &str, out: &str| bench.run(&["convert", "a.svg", "--out", out, "--feed", feed]);
    refused("150 in", "b.svg").failed(2, &["--feed: only G-code has a feed"]);
    refused("150", "b.nc").failed(2, &["--feed: 150 has no unit"]);
    refused("0 in", "b.nc").failed(2, &["--feed: 0 in is not above 0"]);
    assert_eq!(bench.names("."), ["a.svg"]);
}
