//! True size: viewBox, width, height and preserveAspectRatio to transforms (SVG 2, section 8.2).

use roxmltree::Node;
use svgtypes::{Align, AspectRatio};

use super::length::{Axis, Length, Measured, PX_MM, Room, css_length, given, parse};
use super::place::Flaw;
use super::scan::numbers;
use crate::error::Error;
use crate::geom::{Bounds, Point};
use crate::transform::Transform;
use crate::units::Unit;

/// The rectangle of user space that a viewBox shows.
#[derive(Debug, Clone, Copy)]
struct ViewBox {
    x: f64,
    y: f64,
    width: f64,
    height: f64,
}

fn view_box(node: Node<'_, '_>) -> Result<Option<ViewBox>, Error> {
    let Some(attribute) = node.attribute_node("viewBox") else {
        return Ok(None);
    };
    let locate = |flaw: Flaw| flaw.locate(node, &attribute);
    match numbers(attribute.value()).map_err(locate)?[..] {
        [x, y, width, height] if width > 0.0 && height > 0.0 => Ok(Some(ViewBox {
            x,
            y,
            width,
            height,
        })),
        [_, _, _, _] => Err(locate(Flaw::refused(
            0,
            "give a width and a height above 0",
        ))),
        _ => Err(locate(Flaw::refused(
            0,
            "give four numbers: left, top, width and height",
        ))),
    }
}

/// The factors from a viewBox to a size, and how the room left over is shared.
struct Aspect {
    scale: (f64, f64),
    /// The part of the room left over that lies before the drawing, across and down.
    before: (f64, f64),
}

fn aspect(node: Node<'_, '_>, width: f64, height: f64) -> Result<Aspect, Error> {
    let ratio = match node.attribute_node("preserveAspectRatio") {
        None => AspectRatio::default(),
        Some(attribute) => attribute.value().trim().parse().map_err(|_| {
            let why = "give none, or xMidYMid or the like, then meet or slice";
            Flaw::refused(0, why).locate(node, &attribute)
        })?,
    };
    let one = if ratio.slice {
        width.max(height)
    } else {
        width.min(height)
    };
    let before = match ratio.align {
        Align::None => {
            return Ok(Aspect {
                scale: (width, height),
                before: (0.0, 0.0),
            });
        }
        Align::XMinYMin => (0.0, 0.0),
        Align::XMidYMin => (0.5, 0.0),
        Align::XMaxYMin => (1.0, 0.0),
        Align::XMinYMid => (0.0, 0.5),
        Align::XMidYMid => (0.5, 0.5),
        Align::XMaxYMid => (1.0, 0.5),
        Align::XMinYMax => (0.0, 1.0),
        Align::XMidYMax => (0.5, 1.0),
        Align::XMaxYMax => (1.0, 1.0),
    };
    Ok(Aspect {
        scale: (one, one),
        before,
    })
}

/// The size of the whole drawing.
#[derive(Debug, Clone)]
pub(super) struct Root {
    pub(super) to_mm: Transform,
    /// The viewport and the size of its text, in user units.
    pub(super) room: Room,
    /// The page in millimetres, when the drawing gives it.
    pub(super) page: Option<Bounds>,
    pub(super) width_mm: Option<f64>,
    pub(super) height_mm: Option<f64>,
    pub(super) unit: Unit,
    /// True when no size gives the length of a user unit.
    pub(super) assumed: bool,
}

/// The scale of the root: a viewBox and a size give it, the drawing's own origin stays.
pub(super) fn root(of: Measured<'_, '_, '_>) -> Result<Root, Error> {
    let svg = of.node;
    let room = of.room;
    let mut unit = None;
    let mut side = |name: &str| -> Result<Option<f64>, Error> {
        // A style with a size of its own wins; one that fits the drawing to a page of text doesn't.
        let styled = of.look.styled(name).filter(|value| !value.ends_with('%'));
        let styled = styled.and_then(|value| css_length(value, Axis::Width, room));
        if let Some(px) = styled.filter(|px| *px > 0.0) {
            return Ok(Some(px * PX_MM));
        }
        let Some(attribute) = given(svg, name) else {
            return Ok(None);
        };
        let locate = |flaw: Flaw| flaw.locate(svg, &attribute);
        let mm = match parse(attribute.value()).map_err(locate)? {
            Length::Absolute { mm, unit: named } => {
                unit.get_or_insert(named);
                mm
            }
            Length::User(px) => px * PX_MM,
            Length::Font(times) => times * room.font * PX_MM,
            Length::RootFont(times) => times * room.root_font * PX_MM,
            Length::Percent(_) => return Ok(None),
        };
        if mm > 0.0 {
            Ok(Some(mm))
        } else {
            Err(locate(Flaw::refused(0, "give a length above 0")))
        }
    };
    let (width_mm, height_mm) = (side("width")?, side("height")?);
    let view = view_box(svg)?;
    let (scale, size) = match view {
        Some(view) => {
            let across = width_mm.map(|mm| mm / view.width);
            let down = height_mm.map(|mm| mm / view.height);
            let scale = match (across, down) {
                (Some(across), Some(down)) => aspect(svg, across, down)?.scale,
                // A side that is not given follows the proportions of the viewBox.
                (Some(one), None) | (None, Some(one)) => (one, one),
                (None, None) => (PX_MM, PX_MM),
            };
            (scale, Some((view.width, view.height)))
        }
        None => {
            let size = width_mm.zip(height_mm);
            ((PX_MM, PX_MM), size.map(|(w, h)| (w / PX_MM, h / PX_MM)))
        }
    };
    let side = |own: Option<f64>, other: Option<f64>, ratio: Option<f64>| {
        own.or_else(|| Some(other? * ratio?))
    };
    let ratio = view.map(|view| view.width / view.height);
    let corner = view.map_or(Point::new(0.0, 0.0), |view| Point::new(view.x, view.y));
    let page = size.and_then(|(width, height)| {
        let far = Point::new(corner.x + width, corner.y + height);
        Bounds::of([corner, far].map(|p| Point::new(p.x * scale.0, p.y * scale.1)))
    });
    Ok(Root {
        to_mm: Transform::scale(scale.0, scale.1),
        room: Room { size, ..room },
        page,
        width_mm: side(width_mm, height_mm, ratio),
        height_mm: side(height_mm, width_mm, ratio.map(f64::recip)),
        unit: unit.unwrap_or(Unit::Mm),
        assumed: width_mm.is_none() && height_mm.is_none(),
    })
}

/// Where an inner viewport lies, in the user units round it.
#[derive(Debug, Clone, Copy)]
pub(super) struct InnerPlace {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) width: Option<f64>,
    pub(super) height: Option<f64>,
}

/// The map from the inside of a nested `svg` or of a `symbol` to the outside, and the size of its
/// viewport.
pub(super) fn inner(
    node: Node<'_, '_>,
    frame: InnerPlace,
) -> Result<(Transform, Option<(f64, f64)>), Error> {
    let place = Transform::translate(frame.x, frame.y);
    let size = frame.width.zip(frame.height);
    let Some(view) = view_box(node)? else {
        return Ok((place, size));
    };
    let viewport = Some((view.width, view.height));
    let Some((width, height)) = size else {
        let back = Transform::translate(-view.x, -view.y);
        return Ok((back.then(place), viewport));
    };
    let Aspect {
        scale: (x, y),
        before,
    } = aspect(node, width / view.width, height / view.height)?;
    let shift = Transform::translate(
        (width - view.width * x) * before.0 - view.x * x,
        (height - view.height * y) * before.1 - view.y * y,
    );
    Ok((Transform::scale(x, y).then(shift).then(place), viewport))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::io::svg_read::notes::Notes;
    use crate::io::svg_read::style::Sheet;
    use roxmltree::Document;

    fn sized(attributes: &str) -> Root {
        let text = format!("<svg {attributes}/>");
        read(&text).unwrap_or_else(|e| panic!("{attributes}: {e}"))
    }

    fn read(text: &str) -> Result<Root, Error> {
        let document = Document::parse(text).expect("XML");
        let sheet = Sheet::of(&document, &mut Notes::default());
        let look = sheet.look(document.root_element())?;
        root(Measured {
            node: document.root_element(),
            room: Room::new().with_font(&look),
            look: &look,
        })
    }

    fn scale(attributes: &str) -> (f64, f64) {
        let [x, _, _, y, _, _] = sized(attributes).to_mm.coefficients();
        (x, y)
    }

    #[test]
    fn the_unit_is_that_of_the_author() {
        assert_eq!(sized("width='4in'").unit, Unit::In);
        assert_eq!(sized("width='4cm'").unit, Unit::Cm);
        assert_eq!(sized("width='40'").unit, Unit::Mm);
    }

    #[test]
    fn the_root_gives_a_scale_and_keeps_the_origin() {
        assert_eq!(
            scale("width='100mm' height='50mm' viewBox='7 9 100 50'"),
            (1.0, 1.0)
        );
        assert_eq!(scale("width='2in' viewBox='0 0 4 9'"), (12.7, 12.7));
        assert_eq!(scale("height='9mm' viewBox='0 0 4 9'"), (1.0, 1.0));
        let both = "width='8mm' height='9mm' viewBox='0 0 4 3'";
        assert_eq!(scale(both), (2.0, 2.0));
        assert_eq!(
            scale(&format!("{both} preserveAspectRatio='xMinYMin slice'")),
            (3.0, 3.0)
        );
        assert_eq!(
            scale(&format!("{both} preserveAspectRatio='none'")),
            (2.0, 3.0)
        );
        assert_eq!(scale(""), (PX_MM, PX_MM));
        let assumed = sized("width='100%' viewBox='0 0 40 30'");
        assert!(assumed.assumed && assumed.width_mm.is_none());
        assert_eq!(sized("height='9mm' viewBox='0 0 4 9'").width_mm, Some(4.0));
        let styled = sized("width='9in' style='width:1in;height:100%' viewBox='0 0 4 9'");
        assert_eq!((styled.width_mm, styled.assumed), (Some(25.4), false));
        let in_em = sized("width='6em' height='3em' font-size='32'");
        assert_eq!(in_em.width_mm.zip(in_em.height_mm), Some((50.8, 25.4)));
    }

    #[test]
    fn what_gives_no_size_is_refused() {
        for (attributes, part) in [
            (
                "width='0'",
                "1:13: width=\"0\" of <svg>: give a length above 0",
            ),
            ("width='-1in'", "above 0"),
            ("width='4 furlongs'", "expected one of the units in, cm, mm"),
            ("width='wide'", "expected a number, not \"w\""),
            ("viewBox='0 0 1'", "four numbers"),
            ("viewBox='0 0 1 0'", "above 0"),
            ("viewBox='0 0 1 x'", "1:21: "),
            (
                "viewBox='0 0 1 1' width='1' height='1' preserveAspectRatio='fit'",
                "xMidYMid",
            ),
        ] {
            let text = format!("<svg {attributes}/>");
            let error = read(&text).expect_err(attributes).to_string();
            assert!(error.contains(part), "{attributes}: {error}");
        }
    }

    #[test]
    fn an_inner_viewport_is_filled_from_its_view_box() {
        let map = |attributes: &str, x, y| {
            let text = format!("<svg {attributes}/>");
            let document = Document::parse(&text).expect("XML");
            let frame = InnerPlace {
                x: 10.0,
                y: 20.0,
                width: Some(80.0),
                height: Some(40.0),
            };
            let (map, _) = inner(document.root_element(), frame).expect("viewport");
            map.apply(Point::new(x, y))
        };
        assert_eq!(map("viewBox='5 5 20 20'", 5.0, 5.0), Point::new(30.0, 20.0));
        let filled = "viewBox='5 5 20 20' preserveAspectRatio='none'";
        assert_eq!(map(filled, 25.0, 25.0), Point::new(90.0, 60.0));
        let cut = "viewBox='0 0 20 20' preserveAspectRatio='xMaxYMax slice'";
        assert_eq!(map(cut, 20.0, 20.0), Point::new(90.0, 60.0));
        assert_eq!(map("", 1.0, 1.0), Point::new(11.0, 21.0));
    }
}
