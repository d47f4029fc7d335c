//! SVG made to exhaust or to confuse, through every command that reads a drawing.

use std::fmt::Write;

use crate::common::{Bench, svg};
use crate::{Bounds, READERS, refused, refused_within};

/// The column of the first character inside the `<svg>` of [`svg`].
fn inside() -> usize {
    svg("").len() - "</svg>".len() + 1
}

#[test]
fn elements_nested_deep() {
    let deep = |levels: usize| {
        svg(&("<g>".repeat(levels) + "<path d='M0 0L5 3 9 0'/>" + &"</g>".repeat(levels)))
    };
    let bench = Bench::new().with("a.svg", deep(10));
    let run = Bounds::SMALL.run(&bench, &["measure", "a.svg"]).ok();
    assert!(run.out.contains("size       9 mm x 3 mm"), "{}", run.out);
    let words = |column: usize| {
        format!(
            ":1:{column}: elements are nested more than 256 deep; ungroup the drawing and save it again"
        )
    };
    // The <svg> is the first level.
    let column = inside() + 256 * "<g>".len();
    refused("a.svg", deep(1_000), &words(column));
    let bounds = Bounds {
        memory: 256,
        ..Bounds::SMALL
    };
    refused_within(&bounds, "a.svg", deep(1_000_000), &words(column));
}

#[test]
fn ten_thousand_uses() {
    let define = "<defs><path id='a' d='M0 0L.5 1 1 0'/></defs>";
    let mut flat = define.to_owned();
    for at in 0..10_000 {
        let _ = write!(flat, "<use xlink:href='#a' x='{at}'/>");
    }
    let bench = Bench::new().with("a.svg", svg(&flat));
    let run = Bounds::SMALL.run(&bench, &["measure", "a.svg"]).ok();
    assert!(run.out.contains("points     20001"), "{}", run.out);

    let mut chain = "<defs><path id='u0' d='M0 0L.5 1 1 0'/>".to_owned();
    for at in 1..=10_000 {
        let _ = write!(chain, "<g id='u{at}'><use xlink:href='#u{}'/></g>", at - 1);
    }
    chain.push_str("</defs>");
    let bench = Bench::new().with("a.svg", svg(&(chain + "<use xlink:href='#u10000'/>")));
    let run = Bounds::SMALL.run(&bench, &["measure", "a.svg"]);
    run.failed(
        1,
        &[
            "quiltpath: error: a.svg:1:",
            ": elements are nested more than 256 deep; ungroup",
        ],
    );

    let mut double = "<defs><path id='u0' d='M0 0L.5 1 1 0'/>".to_owned();
    for at in 1..=40 {
        let inner = format!("<use xlink:href='#u{}'/>", at - 1);
        let _ = write!(double, "<g id='u{at}'>{inner}{inner}</g>");
    }
    double.push_str("</defs><use xlink:href='#u40'/>");
    let column = inside() + "<defs>".len();
    let bounds = Bounds {
        memory: 512,
        ..Bounds::SMALL
    };
    let bench = Bench::new().with("a.svg", svg(&double));
    let words = format!(
        "quiltpath: error: a.svg:1:{column}: more than 1000000 paths; split the drawing into several files"
    );
    bounds
        .run(&bench, &["convert", "a.svg", "--out", "b.json"])
        .failed(1, &[&words]);

    let column = inside() + "<g id='a'>".len();
    refused(
        "a.svg",
        svg("<g id='a'><use xlink:href='#a'/></g>"),
        &format!(":1:{column}: <use> of \"a\" leads back to itself; remove the circular reference"),
    );
}

#[test]
fn entities_that_unfold_without_end() {
    let mut bomb = String::from("<!DOCTYPE svg [<!ENTITY a0 \"aaaaaaaaaa\">");
    let column = bomb.len() + 1;
    for level in 1..12 {
        let inner = format!("&a{};", level - 1).repeat(10);
        let _ = write!(bomb, "<!ENTITY a{level} \"{inner}\">");
    }
    bomb.push_str("]>");
    bomb.push_str(&svg("<desc>&a11;</desc>"));
    let words = "an entity holds elements or refers to another entity; save the drawing as plain SVG without entities";
    refused("a.svg", bomb, &format!(":1:{column}: {words}"));
}

#[test]
fn numbers_that_overflow() {
    let start = inside();
    let far = "coordinates may go from -1e9 mm to 1e9 mm, so check the numbers, the transforms and the viewBox";
    refused(
        "a.svg",
        svg("<path d='M0 0 L1e300 5'/>"),
        &format!(":1:{start}: path 1: a point lies at 1.00e300 mm; {far}"),
    );
    let twice =
        "<g transform='scale(1e308)'><g transform='scale(1e308)'><path d='M0 0L1 5'/></g></g>";
    let column = start + "<g transform='scale(1e308)'>".len() + "<g transform='".len();
    let bench = Bench::new().with("a.svg", svg(twice));
    let run = Bounds::SMALL.run(&bench, &["stitch", "a.svg", "--out", "b.svg"]);
    let words = "transform=\"scale(1e308)\" of <g>: its numbers and those of the transforms round it are too large together";
    run.failed(1, &["quiltpath: error: a.svg:1:", words]);
    assert!(
        run.err.contains(&format!(":1:{column}:"))
            || run.err.contains(&format!(":1:{}:", start + 28)),
        "{}",
        run.err
    );
    for (word, first) in [("NaN", "N"), ("inf", "i"), ("Infinity", "I")] {
        let column = start + "<path d='M0 0 L ".len();
        refused(
            "a.svg",
            svg(&format!("<path d='M0 0 L {word} 5'/>")),
            &format!(
                ":1:{column}: path 1: d=\"M0 0 L {word} 5\" of <path>: expected a number, not \"{first}\""
            ),
        );
    }
    let digits = "1".repeat(1_000_000);
    let column = start + "<path d='M0 0 L ".len();
    refused(
        "a.svg",
        svg(&format!("<path d='M0 0 L {digits} 1'/>")),
        &format!(
            ":1:{column}: path 1: d=\"M0 0 L 111111111111…\" of <path>: the number is too large"
        ),
    );
}

/// Denormal, signed and zero numbers are numbers: nothing panics or hangs, and what goes through is
/// finite.
#[test]
fn numbers_at_the_other_end() {
    for path in [
        "M0 0 L5e-324 5e-324 L1e-310 0 C5e-324 0 1e-320 3e-322 0 1e-323 A5e-324 5e-324 0 1 1 1e-322 0",
        "M0 0 L5e-324 5e-324 L1 0",
        "M-0-0 L-0 5e-324",
        "M-0-0L1-0",
        "M0 0 C0 0 0 0 1e-300 1e-300 S1 1 1 1",
        "M1e9 1e9 L-1e9 -1e9 L1e9 0",
        "M1e-9 0 l1e-9 1e-9 1e-9 -1e-9",
    ] {
        let bench = Bench::new().with("a.svg", svg(&format!("<path d='{path}'/>")));
        for args in READERS {
            let args: Vec<&str> = args
                .iter()
                .map(|&a| if a == "@" { "a.svg" } else { a })
                .collect();
            let run = Bounds::SMALL.run(&bench, &args);
            assert!(run.code < 2, "{path}: {run:?}");
            assert_eq!(
                run.code == 0,
                !run.err.contains("error: a.svg:"),
                "{path}: {run:?}"
            );
            let words = (run.out + &run.err).replace("coordinate NaN;", "");
            for word in ["NaN", "nan ", "inf ", "panicked"] {
                assert!(!words.contains(word), "{path} {args:?}: {words}");
            }
        }
    }
}

#[test]
fn lines_without_a_length() {
    let words = ": nothing is drawn; give a drawing with at least one path, line, polyline, polygon, rect, circle or ellipse";
    refused("a.svg", svg("<path d='M1 1'/>"), words);
    refused("a.svg", svg("<rect width='0' height='5'/>"), words);
    let words = ": nothing is drawn that can be stitched: 1 shape with dots, parts without length, which are skipped";
    refused("a.svg", svg("<path d='M1 1L1 1Z'/>"), words);
    let here = "L1 1".repeat(1_000_000);
    let bounds = Bounds {
        memory: 128,
        ..Bounds::SMALL
    };
    refused_within(
        &bounds,
        "a.svg",
        svg(&format!("<path d='M1 1{here}'/>")),
        words,
    );
    refused(
        "a.svg",
        "",
        ": the file is empty; give an SVG drawing with at least one path",
    );
}

#[test]
fn text_that_is_none() {
    let wave = svg("<path d='M0 0L5 3 9 0'/>");
    let bench = Bench::new()
        .with("bom.svg", format!("\u{feff}{wave}"))
        .with(
            "crlf.svg",
            wave.replace('>', ">\r\n").replace("L5", "\r\nL5"),
        );
    for name in ["bom.svg", "crlf.svg"] {
        let run = Bounds::SMALL.run(&bench, &["measure", name]).ok();
        assert!(run.out.contains("points     3"), "{}", run.out);
    }
    for (order, name) in [
        (u16::to_le_bytes as fn(u16) -> [u8; 2], "UTF-16LE"),
        (u16::to_be_bytes, "UTF-16BE"),
    ] {
        let wide: Vec<u8> = format!("\u{feff}{wave}")
            .encode_utf16()
            .flat_map(order)
            .collect();
        let bench = Bench::new().with("wide.svg", &wide);
        let run = Bounds::SMALL.run(&bench, &["measure", "wide.svg"]).ok();
        assert!(run.out.contains("points     3"), "{}", run.out);
        let odd = &wide[..wide.len() - 1];
        let column = wave.chars().count();
        let message = format!(
            ":1:{column}: the file is not {name} text; save the drawing as plain SVG in UTF-8"
        );
        refused("a.svg", odd, &message);
    }
    let plain = "the file is not UTF-8 text; save the drawing as plain SVG in UTF-8";
    refused("a.svg", b"<svg>\r\n\xff\xff", &format!(":2:1: {plain}"));
    refused(
        "a.svg",
        b"<svg><title>caf\xe9</title></svg>",
        &format!(":1:16: {plain}"),
    );
    let rubbish: Vec<u8> = (0..5_000u32)
        .map(|n| (n.wrapping_mul(2_654_435_761) >> 13) as u8 | 0x80)
        .collect();
    refused("a.svg", rubbish, &format!(":1:1: {plain}"));
    let column = inside() + "<path d='M0 0L1".len();
    refused(
        "a.svg",
        svg("<path d='M0 0L1\0 1'/>"),
        &format!(
            ":1:{column}: not a readable SVG: a non-XML character '\\0' found; save the drawing again as plain SVG"
        ),
    );
    refused(
        "a.svg",
        "<svg xmlns='http://www.w3.org/2000/svg'>\r\n<path\r\n d='M0 0\r\nL1 1\r\n2 x'/></svg>",
        ":5:3: path 1: d=\"M0 0 L1 1 2 x\" of <path>: expected a number, not \"x\"",
    );
}
