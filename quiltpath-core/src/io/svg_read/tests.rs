//! Drawings read whole: what is drawn, where, and what is noted.

use super::*;

/// The paths of a drawing in which one user unit is 1 mm, as id and path data.
fn drawn(body: &str) -> Vec<(String, String)> {
    let drawing = read(body).unwrap_or_else(|e| panic!("{body}: {e}"));
    let paths = drawing.paths.into_iter();
    paths.map(|path| (path.id, path.path.to_svg())).collect()
}

fn read(body: &str) -> Result<SvgDrawing, Error> {
    let svg = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' \
         width='100mm' height='100mm' viewBox='-7 -7 100 100'>\n{body}\n</svg>"
    );
    read_svg(svg.as_bytes())
}

fn data(body: &str) -> String {
    let paths: Vec<String> = drawn(body).into_iter().map(|(_, data)| data).collect();
    paths.join(" | ")
}

const LINE: &str = "<line id='l' x2='1'/>";

#[test]
fn transforms_apply_from_the_inside_out() {
    for (body, expected) in [
        (LINE.to_owned(), "M0,0 L1,0"),
        (
            format!("<g transform='translate(5,6) scale(2)'>{LINE}</g>"),
            "M5,6 L7,6",
        ),
        (
            format!("<g transform='scale(2)'><a transform='translate(5 6)'>{LINE}</a></g>"),
            "M10,12 L12,12",
        ),
        (
            format!("<g transform='rotate(90 1 1)'>{LINE}</g>"),
            "M2,0 L2,1",
        ),
        (
            format!("<svg x='2' y='3' width='10' height='20' viewBox='0 0 1 1'>{LINE}</svg>"),
            "M2,8 L12,8",
        ),
        (
            format!("<defs>{LINE}</defs><use href='#l' x='4' y='5' transform='scale(2)'/>"),
            "M8,10 L10,10",
        ),
        (
            format!(
                "<symbol id='s' viewBox='0 0 1 1'>{LINE}</symbol><use xlink:href='#s' width='4' height='4'/>"
            ),
            "M0,0 L4,0",
        ),
        (
            format!("<switch><g systemLanguage='de'/><g>{LINE}</g><g>{LINE}</g></switch>"),
            "M0,0 L1,0",
        ),
    ] {
        assert_eq!(data(&body), expected, "{body}");
    }
}

#[test]
fn ids_titles_and_places_are_kept() {
    let drawing =
        read("<path id='a' d='M0 0H1'><title> Leaf </title></path>\n <rect width='1' height='1'/>")
            .expect("drawing");
    let [a, b] = &drawing.paths[..] else {
        panic!("two paths")
    };
    assert_eq!((a.id.as_str(), a.title.as_deref()), ("a", Some("Leaf")));
    assert_eq!((b.id.as_str(), b.title.as_deref()), ("rect 2", None));
    assert_eq!(b.position, Position { row: 3, column: 2 });
    assert_eq!((drawing.unit, drawing.width_mm), (Unit::Mm, Some(100.0)));
}

#[test]
fn what_is_hidden_is_not_drawn() {
    for body in [
        "<g display='none'><line x2='5'/></g>",
        "<g visibility='hidden'><line x2='5'/></g>",
        "<g style='display:none'><line x2='5'/></g>",
        "<style>.x{display:none}</style><line class='x' x2='5'/>",
        "<defs><line x2='5'/></defs>",
        "<clipPath><line x2='5'/></clipPath>",
        "<mask><line x2='5'/></mask>",
        "<pattern><line x2='5'/></pattern>",
        "<marker><line x2='5'/></marker>",
        "<symbol><line x2='5'/></symbol>",
        "<metadata><line x2='5'/></metadata>",
        "<path d='M5 5'/>",
        "<path d='M5 5z'/>",
        "<line xmlns='http://example.org/other' x2='5'/>",
    ] {
        assert_eq!(drawn(&format!("{body}{LINE}")).len(), 1, "{body}");
    }
    assert_eq!(
        data("<g visibility='hidden'><line x2='5' visibility='visible'/><line x2='6'/></g>"),
        "M0,0 L5,0"
    );
}

#[test]
fn what_is_left_out_is_noted() {
    let drawing = read(&format!(
        "<text>a</text><image/><text/><use href='#x'/><g clip-path='url(#c)'>{LINE}</g>"
    ))
    .expect("drawing");
    assert_eq!(drawing.notes.len(), 4, "{:?}", drawing.notes);
    assert!(drawing.notes[0].starts_with("2 <text> elements skipped"));
    assert!(drawing.notes[2].contains("\"#x\" is not in this file"));
    let bare = read_svg(b"<svg viewBox='0 0 9 9'><line x2='96'/></svg>").expect("drawing");
    assert_eq!(bare.paths[0].path.to_svg(), "M0,0 L25.4,0");
    assert_eq!(
        bare.notes,
        [
            "no width and height in a unit of length: 1 unit of the drawing is taken as 1/96 in, \
          which makes what is drawn 1 in x 0 in (25.4 mm x 0 mm); to change that give <svg> a \
          width and a height such as width=\"6in\""
        ]
    );
    let bare = read_svg(b"<svg><line x2='96'/></svg>").expect("drawing");
    assert!(bare.notes[0].contains("1/96 in"), "{:?}", bare.notes);
}

#[test]
fn faults_are_located() {
    for (body, message) in [
        (
            "<path id='p' d='M0 0 L 5 x'/>",
            "2:26: p: d=\"M0 0 L 5 x\" of <path>: expected a number, not \"x\"",
        ),
        (
            "<g transform='rotate(x)'/>",
            "2:22: transform=\"rotate(x)\" of <g>: expected a number, not \"x\"",
        ),
        (
            "<g transform='turn(1)'/>",
            "2:15: transform=\"turn(1)\" of <g>: expected matrix, translate, scale, rotate, skewX or skewY, not \"t\"",
        ),
        (
            "<g transform='scale(1'/>",
            "2:22: transform=\"scale(1\" of <g>: ends where a bracket or a number is expected",
        ),
        (
            " <path d='M0 0H1e308'/>",
            "2:2: path 1: a point lies at 1.00e308 mm; coordinates may go from -1e9 mm to 1e9 mm, so check the numbers, the transforms and the viewBox",
        ),
        (
            "<g transform='scale(1e200) scale(1e200)'/>",
            "2:15: transform=\"scale(1e200)…\" of <g>: its numbers and those of the transforms round it are too large together",
        ),
        (
            "<g id='a'><use href='#a'/></g>",
            "2:11: <use> of \"a\" leads back to itself; remove the circular reference",
        ),
        (
            "<defs/>",
            "nothing is drawn; give a drawing with at least one path, line, polyline, polygon, rect, circle or ellipse",
        ),
    ] {
        assert_eq!(read(body).expect_err(body).to_string(), message);
    }
}

#[test]
fn a_drawing_becomes_one_motif() {
    use crate::strokes::OneLineOptions;
    let drawing = read("<path id='b' d='M5 0H9'/><path id='a' d='M5 0H0'/>").expect("drawing");
    let drawing = drawing.into_drawing("m");
    let joined = drawing
        .one_line(&OneLineOptions::default())
        .expect("joined");
    assert_eq!(joined.motif.length(), 9.0);
    assert_eq!(
        drawing.strokes[1].position(),
        Some(Position { row: 2, column: 26 })
    );
}

/// The paths of a drawing, and its notes in one line.
fn noted(body: &str) -> (usize, String) {
    let drawing = read(body).unwrap_or_else(|e| panic!("{body}: {e}"));
    (drawing.paths.len(), drawing.notes.join("; "))
}

#[test]
fn what_paints_nothing_is_skipped_and_counted() {
    let unseen = "skipped that can't be seen: no fill and no stroke, or fully transparent";
    for (body, note) in [
        ("<line x2='5' fill='none'/>", format!("1 shape {unseen}")),
        (
            "<line x2='5' style='fill:none;stroke:none'/><line x2='5' opacity='0'/>",
            format!("2 shapes {unseen}"),
        ),
        (
            "<style>.a{stroke-opacity:0;fill:none}</style><line class='a' x2='5' stroke='red'/>",
            format!("1 shape {unseen}"),
        ),
        (
            "<g opacity='0'><line x2='5' opacity='1'/></g>",
            format!("1 shape {unseen}"),
        ),
        (
            "<g fill='none'><line x2='5'/><line x2='5' stroke-width='0' stroke='red'/></g>",
            format!("2 shapes {unseen}"),
        ),
        (
            "<g visibility='hidden'><line x2='5'/></g>",
            "1 shape skipped with \"visibility: hidden\"".to_owned(),
        ),
        (
            "<g style='display:none'><line x2='5'/></g>",
            "1 element skipped with \"display: none\"".to_owned(),
        ),
        (
            "<path d='M5 5z M1 1 2 2 M6 6L6 6'/>",
            "1 shape with dots, parts without length, which are skipped".to_owned(),
        ),
        (
            "<path d='M5 5z'/><line x1='3' x2='3'/>",
            "2 shapes with dots, parts without length, which are skipped".to_owned(),
        ),
    ] {
        let drawn = 1 + usize::from(body.contains("1 1"));
        assert_eq!(noted(&format!("{body}{LINE}")), (drawn, note), "{body}");
    }
    // Inherited paint that an element overrides.
    let body = "<g fill='none'><line x2='5' stroke='red'/><line x2='5' fill='red'/></g>";
    assert_eq!(noted(body), (2, String::new()));
}

#[test]
fn what_a_screen_shows_otherwise_is_noted() {
    for (body, part) in [
        (
            "<rect x='-7' y='-7' width='100' height='100'/>",
            "1 filled rectangle is as large as the page",
        ),
        (
            "<path d='M-9-9H99V99H-9z'/>",
            "1 filled rectangle is as large as the page",
        ),
        (
            "<rect x='80' y='0' width='100' height='9'/>",
            "1 filled rectangle goes beyond the edge",
        ),
        (
            "<line x2='5' stroke='red' stroke-dasharray='3 1'/>",
            "1 shape with dashes: drawn as whole",
        ),
        (
            "<g stroke-dasharray='3 1'><line x2='5' stroke='red'/></g>",
            "1 shape with dashes",
        ),
        (
            "<g clip-path='url(#c)'/>",
            "1 element with a clip path or a mask",
        ),
        (
            "<g style='clip-path:url(#c)'/><g style='mask:url(#m)'/>",
            "2 elements with a clip path",
        ),
        (
            "<style>.c{clip-path:circle(3px)}</style><g class='c'/>",
            "1 element with a clip path",
        ),
        (
            "<svg width='5' height='5'><line x2='9'/></svg>",
            "1 shape beyond the frame of a nested",
        ),
        (
            "<symbol id='s'><line x2='9'/></symbol><use href='#s' width='5' height='5'/>",
            "1 shape beyond the frame of a nested",
        ),
        (
            "<g style='transform:rotateX(9deg)'/>",
            "\"transform: rotateX(9deg)\"",
        ),
        (
            "<symbol id='s' refX='2'/><use href='#s'/>",
            "1 <symbol> element with refX or refY",
        ),
        ("<line x2='2ex'/>", "1 element with lengths in ex or ch"),
        ("<circle r='2' style='r:calc(1px)'/>", "\"r: calc(1px)\""),
        (
            "<style>p:has(q){d:none}</style>",
            "the selector \"p:has(q)\"",
        ),
    ] {
        let (_, notes) = noted(&format!("{body}{LINE}"));
        assert!(notes.contains(part), "{body}: {notes}");
    }
    for body in [
        "<rect x='-7' y='-7' width='100' height='100' fill='none' stroke='red'/>",
        "<rect width='50' height='50'/>",
        "<svg width='5' height='5' overflow='visible'><line x2='9'/></svg>",
        "<svg width='5' height='5' style='overflow:visible'><line x2='9'/></svg>",
        "<svg width='5' height='5'><line x2='5'/></svg>",
        "<line x2='2em' stroke-dasharray='3'/>",
        "<g clip-path='none' style='mask:none'/>",
    ] {
        assert_eq!(noted(&format!("{body}{LINE}")).1, "", "{body}");
    }
}

#[test]
fn notes_survive_when_nothing_is_drawn() {
    let refused = |body: &str| read(body).expect_err(body).to_string();
    assert_eq!(
        refused("<text>Leaf</text>"),
        "nothing is drawn that can be stitched: 1 <text> element skipped; convert text to paths to stitch it"
    );
    assert!(refused("<line x2='5' opacity='0'/>").contains("1 shape skipped that can't be seen"));
}

#[test]
fn styles_move_and_shape() {
    for (body, expected) in [
        (
            "<line x2='1' style='transform:translate(2px, 1px)'/>",
            "M2,1 L3,1",
        ),
        (
            "<style>.a{rotate:90deg}</style><line x2='1' class='a'/>",
            "M0,0 L0,1",
        ),
        (
            "<g style='scale:2;transform-origin:1px 0'><line x2='1'/></g>",
            "M-1,0 L1,0",
        ),
        ("<g font-size='2'><line x2='1em'/></g>", "M0,0 L2,0"),
        ("<path d='M0 0H1' style='d:path(\"M0 0V1\")'/>", "M0,0 L0,1"),
        (
            "<style>rect:not(.a){width:4px}</style><rect width='1' height='1'/>",
            "M0,0 L4,0 L4,1 L0,1 Z",
        ),
        (
            "<defs><line id='l%20 é' x2='1'/><line id='a b' x2='2'/></defs><use href='#a%20b'/>",
            "M0,0 L2,0",
        ),
        (
            "<defs><line id='é' x2='1'/></defs><use href='#%C3%A9'/>",
            "M0,0 L1,0",
        ),
    ] {
        assert_eq!(data(body), expected, "{body}");
    }
}

#[test]
fn layers_choose_what_is_read() {
    let svg = "<svg xmlns='http://www.w3.org/2000/svg' xmlns:e='http://example.org/editor' width='9' height='9'>\
               <g id='g1' e:label='Guide lines'><line id='a' x2='1'/><text/></g>\
               <g id='g2' e:label='Quilting'><line id='b' x2='2'/></g>\
               <g id='g3'><g e:label='Inner'><line id='c' x2='3'/></g></g><line id='d' x2='4'/></svg>";
    let ids = |names: &[&str]| -> Result<String, Error> {
        let names: Vec<String> = names.iter().map(|&name| name.to_owned()).collect();
        let drawing = read_svg_layers(svg.as_bytes(), &names)?;
        let notes = drawing.notes.len().to_string();
        Ok(drawing
            .paths
            .into_iter()
            .map(|path| path.id)
            .chain([notes])
            .collect())
    };
    for (names, expected) in [
        (&[][..], "abcd1"),
        (&["Quilting"], "b0"),
        (&["g2"], "b0"),
        (&["g1", "Inner"], "ac1"),
        (&["g3"], "c0"),
        (&["d"], "d0"),
    ] {
        assert_eq!(ids(names).expect("layers"), expected, "{names:?}");
    }
    assert_eq!(
        ids(&["g2", "quilting"])
            .expect_err("no such layer")
            .to_string(),
        "no group has the id or the label \"quilting\"; there are \"Guide lines\", \"Quilting\", \"g3\", \"Inner\""
    );
}
