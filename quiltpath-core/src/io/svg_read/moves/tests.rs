use super::*;
use crate::geom::Point;
use crate::io::svg_read::notes::Notes;
use crate::io::svg_read::style::Sheet;

/// Where (1, 0) comes to lie in a page of 200 x 100, and what is not applied.
fn moved(attributes: &str) -> (Point, Option<String>) {
    let text = format!("<rect {attributes}/>");
    let document = roxmltree::Document::parse(&text).expect("XML");
    let sheet = Sheet::of(&document, &mut Notes::default());
    let look = sheet.look(document.root_element()).expect("a look");
    let mut room = Room::new();
    room.size = Some((200.0, 100.0));
    let of_shape = || Ok(Bounds::of([Point::new(10.0, 20.0), Point::new(14.0, 30.0)]));
    let found = own(document.root_element(), &look, room, of_shape).expect("a move");
    (found.own.apply(Point::new(1.0, 0.0)), found.unapplied)
}

#[test]
fn moves_of_css_act_in_their_order() {
    for (attributes, x, y) in [
        ("transform='translate(2 3)'", 3.0, 3.0),
        ("style='transform: translate(2px, 3px)'", 3.0, 3.0),
        ("style='transform: translate(1in)'", 97.0, 0.0),
        ("style='transform: translate(10%, 10%)'", 21.0, 10.0),
        (
            "style='transform: translateX(1em) translateY(2px)'",
            17.0,
            2.0,
        ),
        ("style='transform: rotate(90deg)'", 0.0, 1.0),
        ("style='transform: rotate(.25turn) scale(2, 3)'", 0.0, 2.0),
        ("style='transform: matrix(1, 2, 3, 4, 5, 6)'", 6.0, 8.0),
        ("style='transform: skewY(45deg)'", 1.0, 1.0),
        // A style wins against the attribute.
        ("style='transform: none' transform='scale(9)'", 1.0, 0.0),
        (
            "style='translate: 1px 2px; rotate: 90deg; scale: 3; transform: scale(2)'",
            1.0,
            8.0,
        ),
        ("style='rotate: z 100grad' transform='scale(2)'", 0.0, 2.0),
        ("style='scale: 200% 1'", 2.0, 0.0),
        (
            "style='transform: rotate(90deg); transform-origin: 3px 0'",
            3.0,
            -2.0,
        ),
        ("transform='rotate(90)' transform-origin='3 0'", 3.0, -2.0),
        (
            "transform='scale(2)' style='transform-origin: center'",
            -98.0,
            -50.0,
        ),
        (
            "transform='scale(2)' style='transform-origin: bottom right'",
            -198.0,
            -100.0,
        ),
        (
            "transform='scale(2)' style='transform-origin: top'",
            -98.0,
            0.0,
        ),
        (
            "transform='scale(2)' style='transform-origin: 25% 0 0'",
            -48.0,
            0.0,
        ),
        // The box of the shape goes from (10, 20) to (14, 30).
        (
            "transform='scale(2)' style='transform-box: fill-box; transform-origin: center'",
            -10.0,
            -25.0,
        ),
        (
            "transform='scale(2)' style='transform-box: fill-box'",
            -8.0,
            -20.0,
        ),
        ("style='transform-origin: center'", 1.0, 0.0),
    ] {
        let (found, unapplied) = moved(attributes);
        assert!(
            (found - Point::new(x, y)).norm() < 1e-9,
            "{attributes}: {found:?}"
        );
        assert_eq!(unapplied, None, "{attributes}");
    }
}

#[test]
fn what_is_not_applied_is_named() {
    for (attributes, part) in [
        (
            "style='transform: rotate(9)' transform='scale(1)'",
            "transform: rotate(9)",
        ),
        (
            "style='transform: rotateX(9deg)'",
            "transform: rotateX(9deg)",
        ),
        ("style='rotate: x 9deg'", "rotate: x 9deg"),
        ("style='translate: 1px 2px 3px'", "translate: 1px 2px 3px"),
        (
            "style='translate: calc(1px + 2px)'",
            "translate: calc(1px + 2px)",
        ),
        (
            "style='transform-origin: 5 5' transform='scale(1)'",
            "transform-origin: 5 5",
        ),
        (
            "style='transform-box: stroke-box' transform='scale(1)'",
            "transform-box: stroke-box",
        ),
        (
            "style='offset-path: path(\"M0 0H9\")'",
            "offset-path: path(\"M0 0H9\")",
        ),
    ] {
        let (found, unapplied) = moved(attributes);
        assert_eq!(found, Point::new(1.0, 0.0), "{attributes}");
        assert_eq!(unapplied.as_deref(), Some(part));
    }
}
