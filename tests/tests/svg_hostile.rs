//! Broken and hostile SVG: a typed, located error in good time, never a panic.

use std::time::{Duration, Instant};

use proptest::prelude::*;
use quiltpath_core::Error;
use quiltpath_core::io::svg_read::{SvgDrawing, read_svg};

const HEAD: &str =
    "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink'>";

/// Reads within a few seconds, on a thread with the 2 MB stack of a test.
fn timed(bytes: &[u8]) -> Result<SvgDrawing, Error> {
    let start = Instant::now();
    let result = std::thread::scope(|scope| {
        let read = std::thread::Builder::new()
            .stack_size(2 << 20)
            .spawn_scoped(scope, || read_svg(bytes));
        read.expect("a thread").join().expect("no panic")
    });
    let taken = start.elapsed();
    assert!(taken < Duration::from_secs(10), "took {taken:?}");
    result
}

fn refused(bytes: &[u8]) -> String {
    let error = timed(bytes).expect_err("refused");
    assert!(error.is_drawing(), "{error}");
    error.to_string()
}

fn refused_body(body: &str) -> String {
    refused(format!("{HEAD}{body}</svg>").as_bytes())
}

#[test]
fn files_that_are_no_svg() {
    for (bytes, message) in [
        (
            &b""[..],
            "the file is empty; give an SVG drawing with at least one path",
        ),
        (
            b" \n",
            "the file is empty; give an SVG drawing with at least one path",
        ),
        (
            b"\x1f\x8b\x08\0",
            "the file is gzip-compressed (.svgz), but damaged or cut off; save the drawing again",
        ),
        (
            b"\xff\xfe<\0s\0\x00\xd8",
            "1:3: the file is not UTF-16LE text; save the drawing as plain SVG in UTF-8",
        ),
        (
            b"<svg>\xff</svg>",
            "1:6: the file is not UTF-8 text; save the drawing as plain SVG in UTF-8",
        ),
        (
            b"\x89PNG\r\n",
            "1:1: the file is not UTF-8 text; save the drawing as plain SVG in UTF-8",
        ),
        (
            b"<html></html>",
            "1:1: the outermost element is <html>; an SVG drawing starts with <svg xmlns=\"http://www.w3.org/2000/svg\">",
        ),
        (
            b"<svg xmlns='http://example.org/'/>",
            "1:1: the outermost element is <svg>; an SVG drawing starts with <svg xmlns=\"http://www.w3.org/2000/svg\">",
        ),
        (
            b"<svg>\n<path d='M0 0",
            "2:14: not a readable SVG: the file ends before its last element does, so it looks cut off; save the drawing again as plain SVG",
        ),
        (
            b"<svg/>",
            "nothing is drawn; give a drawing with at least one path, line, polyline, polygon, rect, circle or ellipse",
        ),
    ] {
        assert_eq!(refused(bytes), message);
    }
    let text = refused(b"Hello");
    assert!(text.starts_with("1:1: not a readable SVG: "), "{text}");
}

#[test]
fn path_data_that_breaks_off() {
    let before = "<path id='p' d='";
    for (data, at, reason) in [
        ("M0 0 L 5", 8, "ends where a number is expected"),
        ("M0 0 L 5 x", 9, "expected a number, not \"x\""),
        ("M0 0 L NaN 5", 7, "expected a number, not \"N\""),
        ("M0 0 L inf 5", 7, "expected a number, not \"i\""),
        ("M0 0 L 1e999 5", 7, "the number is too large"),
        ("L0 0", 0, "expected M or m first, not \"L\""),
        (
            "M0 0 é",
            5,
            "expected a number or one of the commands M L H V C S Q T A Z, not \"é\"",
        ),
    ] {
        let column = HEAD.len() + before.len() + at + 1;
        let expected = format!("1:{column}: p: d=\"{data}\" of <path>: {reason}");
        assert_eq!(refused_body(&format!("{before}{data}'/>")), expected);
    }
    let text = refused_body(&format!("{before}M0 0 L 1e308 5'/>"));
    let expected = "p: a point lies at 2.65e307 mm; coordinates may go from -1e9 mm to 1e9 mm, so check the numbers, the transforms and the viewBox";
    assert_eq!(text, format!("1:{}: {expected}", HEAD.len() + 1));
}

#[test]
fn transforms_without_end() {
    let text = refused_body(
        "<g transform='scale(1e300)'><g transform='scale(1e300)'><line x2='1'/></g></g>",
    );
    assert!(
        text.contains("its numbers and those of the transforms round it are too large together"),
        "{text}"
    );
    let text = refused_body("<g transform='translate(nan)'/>");
    assert!(text.contains("expected a number, not \"n\""), "{text}");
}

#[test]
fn entity_bombs() {
    let laughs: String = (1..10)
        .map(|n| format!("<!ENTITY l{n} \"{}\">", format!("&l{};", n - 1).repeat(10)))
        .collect();
    let text = refused(
        format!("<!DOCTYPE svg [<!ENTITY l0 \"lol\">{laughs}]>{HEAD}<text>&l9;</text></svg>")
            .as_bytes(),
    );
    assert_eq!(
        text,
        "1:34: an entity holds elements or refers to another entity; save the drawing as plain SVG without entities"
    );
    let long = "M0 0 ".repeat(20_000);
    let many = "&a;".repeat(20_000);
    for body in [
        format!("<text>{many}</text>"),
        format!("<path d='{many}'/>"),
    ] {
        let text =
            refused(format!("<!DOCTYPE svg [<!ENTITY a '{long}'>]>{HEAD}{body}</svg>").as_bytes());
        assert!(
            text.contains("the entities would unfold to more than 16777216 bytes"),
            "{text}"
        );
    }
    let outside = "<!DOCTYPE svg [<!ENTITY a SYSTEM 'file:///etc/passwd'>]>";
    let text = refused(format!("{outside}{HEAD}<text>&a;</text></svg>").as_bytes());
    assert!(text.contains("unknown entity reference 'a'"), "{text}");
}

#[test]
fn depth_without_end() {
    let open = "<g>".repeat(100_000);
    let close = "</g>".repeat(100_000);
    let text = refused_body(&format!("{open}<line x2='1'/>{close}"));
    assert!(
        text.ends_with(
            "elements are nested more than 256 deep; ungroup the drawing and save it again"
        ),
        "{text}"
    );
    let text = refused_body(&open);
    assert!(text.contains("not a readable SVG"), "{text}");
    let fits = format!(
        "{HEAD}{}<line x2='1'/>{}</svg>",
        "<g>".repeat(255),
        "</g>".repeat(255)
    );
    assert_eq!(
        timed(fits.as_bytes()).expect("deep but fine").paths.len(),
        1
    );
}

#[test]
fn use_in_a_circle() {
    for body in [
        "<g id='a'><use href='#a'/></g>",
        "<use id='a' href='#a'/>",
        "<g id='a'><use xlink:href='#b'/></g><g id='b'><use xlink:href='#a'/></g>",
        "<symbol id='a'><use href='#a'/></symbol><use href='#a'/>",
    ] {
        let text = refused_body(body);
        assert!(
            text.ends_with("leads back to itself; remove the circular reference"),
            "{body}: {text}"
        );
    }
}

#[test]
fn use_without_end() {
    let doubling = |leaf: &str| {
        let mut body = format!("<defs><g id='u0'>{leaf}</g>");
        for n in 1..=30 {
            body.push_str(&format!(
                "<g id='u{n}'><use href='#u{p}'/><use href='#u{p}'/></g>",
                p = n - 1
            ));
        }
        body + "</defs><use href='#u30'/>"
    };
    let text = refused_body(&doubling("<line x2='1'/>"));
    assert!(
        text.contains("more than 1000000 paths; split the drawing"),
        "{text}"
    );
    let text = refused_body(&doubling(""));
    assert!(text.contains("more than 5000000 elements"), "{text}");
    let text = refused_body(&doubling(&format!(
        "<path d='M0 0{}'/>",
        "h1".repeat(50_000)
    )));
    assert!(text.contains("more than 10000000 segments"), "{text}");
    let text = refused_body(&doubling(&format!(
        "<path d='M0 0h1{}'/>",
        " ".repeat(1_000_000)
    )));
    assert!(text.contains("bytes of attributes"), "{text}");
    let title = "leaf ".repeat(200_000);
    let text = refused_body(&doubling(&format!(
        "<path d='M0 0h1'><title>{title}</title></path>"
    )));
    assert!(text.contains("bytes of attributes and titles"), "{text}");
    let text = refused_body(&doubling(&format!(
        "<line x2='1'/>{}",
        "<!-- -->".repeat(100_000)
    )));
    assert!(text.contains("more than 5000000 elements"), "{text}");
}

#[test]
fn attributes_without_end() {
    let data = "M0 0".to_owned() + &" 1 1 2 2".repeat(500_000);
    let svg = format!("{HEAD}<path d='{data}'/></svg>");
    assert_eq!(
        timed(svg.as_bytes()).expect("huge but fine").paths[0]
            .path
            .elements()
            .len(),
        1_000_001
    );
    let text = refused(format!("{HEAD}<path d='{data} x'/></svg>").as_bytes());
    assert!(
        text.contains(" 2 2 1 1 2 2 x\" of <path>: expected a number or one of the commands"),
        "{text}"
    );
    let many: String = (0..200_000).map(|n| format!(" a{n}=''")).collect();
    let text = refused_body(&format!("<path{many}/>"));
    assert_eq!(
        text,
        "more than 1000000000 pairs of attributes; split the drawing into several files"
    );
}

#[test]
fn style_sheets_without_end() {
    let broken = "1{}".repeat(300_000);
    let svg = format!("{HEAD}<style>{broken}</style><line x2='1'/></svg>");
    assert!(timed(svg.as_bytes()).is_ok());
    let rules = "g g g g g.x line{display:none}".repeat(3_000);
    let lines = "<g><g><g><g><g><g><g><line x2='1'/></g></g></g></g></g></g></g>".repeat(3_000);
    let text = refused_body(&format!("<style>{rules}</style>{lines}"));
    assert!(text.contains("steps to apply the style sheet"), "{text}");
}

/// A drawing with something of everything, to be broken.
const WHOLE: &str = "<?xml version=\"1.0\"?>\n<!DOCTYPE svg [<!ENTITY s \"fill:none;display:inline\">]>\n\
<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"4in\" height=\"3in\" \
viewBox=\"0 0 400 300\" preserveAspectRatio=\"xMidYMid meet\">\n<style>.a > path, #b:first-child { display: none } \
@media x { g { visibility: hidden } }</style>\n<defs><symbol id=\"s\" viewBox=\"0 0 1 1\"><circle r=\"50%\"/></symbol></defs>\n\
<g class=\"a\" transform=\"translate(1,2) rotate(30 1 2) skewX(3)\" style=\"&s;\"><path id=\"b\" d=\"M0 0c1 2 3 4 5 6s1-1 2 2a1 1 0 011 1z\"/></g>\n\
<use xlink:href=\"#s\" x=\"5\" width=\"1cm\" height=\"2em\"/><rect width=\"5\" height=\"6\" rx=\"1\"/><polygon points=\"0 0 1,1 2-2\"/>\n\
<svg x=\"1\" viewBox=\"0 0 9 9\"><title>T &amp; é</title><ellipse rx=\"3\" ry=\"1\"/><text>x</text></svg></svg>\n";

#[test]
fn the_whole_drawing_reads() {
    assert_eq!(read_svg(WHOLE.as_bytes()).expect("whole").paths.len(), 4);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(quiltpath_tests::cases(2_000)))]

    #[test]
    fn no_bytes_make_it_panic(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let _ = read_svg(&bytes);
    }

    #[test]
    fn no_mutation_makes_it_panic(
        edits in prop::collection::vec((0..WHOLE.len(), any::<prop::sample::Index>(), 0..4u8), 1..6),
    ) {
        const PIECES: &[&str] = &[
            "\"", "'", "<", ">", "/", "&", ";", "é", "\u{FEFF}", "\r\n", "\t", "-", ".", "e", "1e999", "NaN", "#", "%", "}", "{", "/*",
            "]]>", "<!--", "<g>", "</g>", "&s;", "&#65;", "(", ")", ",", "M", "z", "a", "\0", "@", ":", "!important", "+", "<use href=\"#s\"/>",
        ];
        let mut bytes = WHOLE.as_bytes().to_vec();
        for (at, piece, kind) in edits {
            let at = at.min(bytes.len());
            let end = (at + piece.index(40)).min(bytes.len());
            let text = PIECES[piece.index(PIECES.len())].bytes();
            match kind {
                0 => drop(bytes.drain(at..end)),
                1 => bytes.truncate(at.max(1)),
                2 => drop(bytes.splice(at..at, text)),
                _ => drop(bytes.splice(at..end, text)),
            }
        }
        let _ = read_svg(&bytes);
    }

    #[test]
    fn no_style_sheet_makes_it_panic(sheet in "[a-c.#\\[\\]=~|:>+*, {};/\\-!@'\"é\\\\(0-9)]{0,40}", inline in "[a-z:;!/* \\-'(){}é]{0,20}") {
        let rules = format!("{sheet}{{display:none}}{sheet} display visibility transform");
        let svg = format!("{HEAD}<style><![CDATA[{rules}]]></style><g class='a' id='b'><line x2='1' style=\"display{inline}\"/></g></svg>").replace("\"'", "'");
        let _ = read_svg(svg.as_bytes());
    }

    #[test]
    fn no_path_data_makes_it_panic(data in "[MmLlHhVvCcSsQqTtAaZz0-9 ,.e+-]{0,60}") {
        let _ = read_svg(format!("{HEAD}<path d='M0 0{data}'/></svg>").as_bytes());
    }
}
