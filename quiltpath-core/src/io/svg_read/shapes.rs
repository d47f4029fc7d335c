//! The basic shapes as paths: SVG 2, chapter 10, each from the start point that it names.

use kurbo::{Point, Vec2};
use roxmltree::Node;

use super::length::{Axis, Measured, css_path, extent, length};
use super::path_data;
use super::place::Flaw;
use super::scan::numbers;
use crate::error::Error;
use crate::io::pen::Pen;

/// True for the names of elements that [`draw`] knows.
pub(super) fn is_shape(name: &str) -> bool {
    matches!(
        name,
        "path" | "line" | "polyline" | "polygon" | "rect" | "circle" | "ellipse"
    )
}

/// Draws a shape; one without size, or without data, draws nothing.
pub(super) fn draw(of: Measured<'_, '_, '_>, pen: &mut Pen) -> Result<(), Error> {
    let x = |name: &str| length(of, name, Axis::Width).map(Option::unwrap_or_default);
    let y = |name: &str| length(of, name, Axis::Height).map(Option::unwrap_or_default);
    let node = of.node;
    match node.tag_name().name() {
        "path" => {
            if let Some(data) = of.look.styled("d").and_then(css_path) {
                path_data::draw(data, pen).map_err(|flaw| flaw.in_style(node, "d", data))?;
            } else if let Some(data) = node.attribute_node("d") {
                path_data::draw(data.value(), pen).map_err(|flaw| flaw.locate(node, &data))?;
            }
        }
        "line" => {
            pen.move_to(Point::new(x("x1")?, y("y1")?));
            pen.line_to(Point::new(x("x2")?, y("y2")?));
        }
        "polyline" => points(node, pen)?,
        "polygon" => {
            points(node, pen)?;
            pen.close();
        }
        "rect" => {
            let corner = Point::new(x("x")?, y("y")?);
            rect(of, corner, pen)?;
        }
        "circle" => {
            let centre = Point::new(x("cx")?, y("cy")?);
            let radius = extent(of, "r", Axis::Diagonal)?.unwrap_or(0.0);
            ellipse(centre, Vec2::new(radius, radius), pen);
        }
        "ellipse" => {
            let centre = Point::new(x("cx")?, y("cy")?);
            ellipse(centre, radii(of)?, pen);
        }
        _ => {}
    }
    Ok(())
}

fn points(node: Node<'_, '_>, pen: &mut Pen) -> Result<(), Error> {
    let Some(attribute) = node.attribute_node("points") else {
        return Ok(());
    };
    let locate = |flaw: Flaw| flaw.locate(node, &attribute);
    let list = numbers(attribute.value()).map_err(locate)?;
    let pairs = list.chunks_exact(2);
    if !pairs.remainder().is_empty() {
        let end = attribute.value().len();
        return Err(locate(Flaw::expected(end, "the y of the last point")));
    }
    for (index, pair) in pairs.enumerate() {
        let point = Point::new(pair[0], pair[1]);
        if index == 0 {
            pen.move_to(point);
        } else {
            pen.line_to(point);
        }
    }
    Ok(())
}

/// The radii `rx` and `ry`; one that is not given is as long as the other.
fn radii(of: Measured<'_, '_, '_>) -> Result<Vec2, Error> {
    let rx = extent(of, "rx", Axis::Width)?;
    let ry = extent(of, "ry", Axis::Height)?;
    Ok(Vec2::new(
        rx.or(ry).unwrap_or(0.0),
        ry.or(rx).unwrap_or(0.0),
    ))
}

fn rect(of: Measured<'_, '_, '_>, corner: Point, pen: &mut Pen) -> Result<(), Error> {
    let width = extent(of, "width", Axis::Width)?.unwrap_or(0.0);
    let height = extent(of, "height", Axis::Height)?.unwrap_or(0.0);
    let radii = radii(of)?;
    if width == 0.0 || height == 0.0 {
        return Ok(());
    }
    let (rx, ry) = (radii.x.min(width / 2.0), radii.y.min(height / 2.0));
    let (left, top) = (corner.x, corner.y);
    let (right, bottom) = (left + width, top + height);
    if rx == 0.0 || ry == 0.0 {
        pen.move_to(corner);
        pen.line_to(Point::new(right, top));
        pen.line_to(Point::new(right, bottom));
        pen.line_to(Point::new(left, bottom));
        pen.close();
        return Ok(());
    }
    let radii = Vec2::new(rx, ry);
    // Each side from corner to corner, then the arc round the corner; a start angle in quarters.
    let sides = [
        (
            Point::new(right - rx, top),
            (right - rx, top + ry),
            3.0,
            Point::new(right, top + ry),
        ),
        (
            Point::new(right, bottom - ry),
            (right - rx, bottom - ry),
            0.0,
            Point::new(right - rx, bottom),
        ),
        (
            Point::new(left + rx, bottom),
            (left + rx, bottom - ry),
            1.0,
            Point::new(left, bottom - ry),
        ),
        (
            Point::new(left, top + ry),
            (left + rx, top + ry),
            2.0,
            Point::new(left + rx, top),
        ),
    ];
    pen.move_to(Point::new(left + rx, top));
    for (side_end, centre, quarters, arc_end) in sides {
        if pen.at() != side_end {
            pen.line_to(side_end);
        }
        pen.quarter(centre.into(), radii, quarters, arc_end);
    }
    pen.close();
    Ok(())
}

fn ellipse(centre: Point, radii: Vec2, pen: &mut Pen) {
    if radii.x == 0.0 || radii.y == 0.0 {
        return;
    }
    let right = centre + Vec2::new(radii.x, 0.0);
    pen.move_to(right);
    let ends = [
        centre + Vec2::new(0.0, radii.y),
        centre - Vec2::new(radii.x, 0.0),
        centre - Vec2::new(0.0, radii.y),
        right,
    ];
    for (quarters, end) in [0.0, 1.0, 2.0, 3.0].into_iter().zip(ends) {
        pen.quarter(centre, radii, quarters, end);
    }
    pen.close();
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::io::svg_read::length::{Room, drop_unreadable};
    use crate::io::svg_read::notes::Notes;
    use crate::io::svg_read::style::Sheet;
    use crate::transform::Transform;
    use kurbo::{BezPath, ParamCurve, Shape};

    fn shape(element: &str) -> Result<BezPath, Error> {
        let document = roxmltree::Document::parse(element).expect("XML");
        let sheet = Sheet::of(&document, &mut Notes::default());
        let mut look = sheet.look(document.root_element())?;
        let mut room = Room::new();
        room.size = Some((200.0, 100.0));
        let of = Measured {
            node: document.root_element(),
            room: room.with_font(&look),
            look: &{
                drop_unreadable(&mut look, room);
                look
            },
        };
        let mut pen = Pen::new(&Transform::identity());
        draw(of, &mut pen)?;
        Ok(pen.finish().expect("within the limits"))
    }

    #[test]
    fn straight_shapes_start_as_in_the_standard() {
        for (element, expected) in [
            ("<line x1='1' y2='2'/>", "M1,0 L0,2"),
            ("<line/>", ""),
            ("<polyline points='1,2 3 4, 5-6'/>", "M1,2 L3,4 L5,-6"),
            ("<polygon points='0 0 1 0 1 1'/>", "M0,0 L1,0 L1,1 Z"),
            ("<polygon/>", ""),
            (
                "<rect x='1' y='2' width='50%' height='50%'/>",
                "M1,2 L101,2 L101,52 L1,52 Z",
            ),
            ("<rect width='5'/>", ""),
            (
                "<line x1='1em' x2='2em' style='font-size:10px'/>",
                "M10,0 L20,0",
            ),
            ("<line x2='2em' style='font: bold 10px/2 x'/>", "M0,0 L20,0"),
            ("<line x2='1em' font-size='50%'/>", "M0,0 L8,0"),
            ("<line x2='1rem' font-size='50%'/>", "M0,0 L16,0"),
            (
                "<rect x='9' width='9' height='9' style='x:1px;width:25%;height:2px'/>",
                "M1,0 L51,0 L51,2 L1,2 Z",
            ),
            // A browser drops a length without a unit, and a negative size.
            (
                "<rect x='1' width='9' height='9' style='x:4;width:-1px'/>",
                "M1,0 L10,0 L10,9 L1,9 Z",
            ),
            ("<path d='M0 0H9' style='d:path(\"M0 0V9\")'/>", "M0,0 L0,9"),
            ("<path d='M0 0H9' style='d:none'/>", ""),
            ("<circle r='0'/>", ""),
            ("<path/>", ""),
        ] {
            assert_eq!(
                shape(element).expect(element).to_svg(),
                expected,
                "{element}"
            );
        }
    }

    #[test]
    fn round_shapes_have_their_perimeter_and_turn_clockwise() {
        let circle = shape("<circle cx='5' cy='6' r='2'/>").expect("circle");
        assert!((circle.perimeter(1e-9) - 4.0 * std::f64::consts::PI).abs() < 1e-5);
        assert!((circle.area() - 4.0 * std::f64::consts::PI).abs() < 1e-5);
        assert_eq!(
            circle.segments().next().expect("a segment").start(),
            Point::new(7.0, 6.0)
        );
        let ellipse = shape("<ellipse rx='3'/>").expect("ellipse");
        assert!((ellipse.area() - 9.0 * std::f64::consts::PI).abs() < 1e-4);
        let rounded = shape("<rect width='10' height='8' rx='2'/>").expect("rect");
        let expected = 2.0 * (6.0 + 4.0) + 4.0 * std::f64::consts::PI;
        assert!((rounded.perimeter(1e-9) - expected).abs() < 1e-5);
        assert_eq!(
            rounded.segments().next().expect("a segment").start(),
            Point::new(2.0, 0.0)
        );
        // SVG 2, section 10.2: radii are cut to half the sides.
        let pill = shape("<rect width='10' height='4' rx='9' ry='9'/>").expect("rect");
        let bounds = pill.bounding_box();
        assert!((bounds.width() - 10.0).abs() < 1e-5 && (bounds.height() - 4.0).abs() < 1e-5);
    }

    #[test]
    fn a_bad_number_is_located() {
        for (element, message) in [
            (
                "<polyline points='1 2 3'/>",
                "1:24: points=\"1 2 3\" of <polyline>: ends where the y of the last point is expected",
            ),
            (
                "<polygon points='1 2 a'/>",
                "1:22: points=\"1 2 a\" of <polygon>: expected a number, not \"a\"",
            ),
            (
                "<circle r='-1'/>",
                "1:12: r=\"-1\" of <circle>: give a length of 0 or more",
            ),
            (
                "<rect\nwidth='1x'/>",
                "2:9: width=\"1x\" of <rect>: expected one of the units in, cm, mm, Q, pt, pc, px or none, not \"x\"",
            ),
        ] {
            assert_eq!(shape(element).expect_err(element).to_string(), message);
        }
    }
}
