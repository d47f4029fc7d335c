//! The outermost `svg`: its size in any unit, its viewBox, its definitions and style sheets.

use super::drawing::Drawing;

/// The whole file as text.
pub(crate) fn page(drawing: &mut Drawing) -> String {
    let (quote, prefix, indent) = drawing.style();
    let (dice, body, css, defs, size) = drawing.parts();
    let entities = dice.once_in(4);
    let standalone = dice.pick(&["", " standalone=\"no\""]);
    let declaration = match dice.below(3) {
        0 => String::new(),
        _ => format!("<?xml version=\"1.0\" encoding=\"@ENCODING@\"{standalone}?>\n"),
    };
    let comment = dice.pick(&["", "<!-- Generator: an editor of lines, version 3 -->\n"]);
    let doctype = if entities {
        "<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd\" [\n  <!ENTITY ns_svg \"http://www.w3.org/2000/svg\">\n  <!ENTITY ns_link 'http://www.w3.org/1999/xlink'>\n]>\n"
    } else {
        dice.pick(&["", "<!DOCTYPE svg>\n"])
    };
    let (ns, link) = match entities {
        true => ("&ns_svg;", "&ns_link;"),
        false => ("http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"),
    };
    let name = prefix.trim_end_matches(':');
    let svg = if name.is_empty() {
        "xmlns".to_owned()
    } else {
        format!("xmlns:{name}")
    };
    let mut attributes = vec![
        (svg, ns.to_owned()),
        ("xmlns:xlink".to_owned(), link.to_owned()),
        (
            "xmlns:e".to_owned(),
            "http://example.org/editor/2".to_owned(),
        ),
        ("version".to_owned(), "1.1".to_owned()),
    ];
    let unit = dice.pick(&["mm", "pt", "in", "px", "", "cm", "pc"]);
    let per = match unit {
        "in" => 25.0,
        "cm" => 10.0,
        "pc" => 6.0,
        _ => 1.0,
    };
    let (wide, high) = (
        size / per * dice.between(0.5, 2.0),
        size / per * dice.between(0.5, 2.0),
    );
    let kind = dice.below(6);
    if kind != 4 {
        attributes.push(("width".to_owned(), format!("{wide:.3}{unit}")));
        attributes.push(("height".to_owned(), format!("{high:.3}{unit}")));
    } else if dice.once_in(2) {
        attributes.push(("width".to_owned(), "100%".to_owned()));
    }
    if kind != 0 {
        let (left, top) = match dice.once_in(2) {
            true => ("0".to_owned(), "0".to_owned()),
            false => (
                format!("{:.2}", dice.between(-size, size)),
                format!("{:.2}", dice.between(-size, size)),
            ),
        };
        let between = dice.pick(&[" ", ",", ", "]);
        let parts = [
            left,
            top,
            format!("{size}"),
            format!("{:.1}", size * dice.between(0.5, 2.0)),
        ];
        attributes.push(("viewBox".to_owned(), parts.join(between)));
        if kind != 4 && dice.once_in(2) {
            let aspect = dice.pick(&["none", "xMidYMid meet", "xMinYMin", "xMaxYMid slice"]);
            attributes.push(("preserveAspectRatio".to_owned(), aspect.to_owned()));
        }
    }
    if dice.once_in(3) {
        let more = [
            ("x", "0px"),
            ("y", "0px"),
            ("xml:space", "preserve"),
            ("style", "enable-background:new 0 0 9 9;"),
        ];
        attributes.extend(more.map(|(name, value)| (name.to_owned(), value.to_owned())));
    }
    let list: Vec<String> = attributes
        .iter()
        .map(|(name, value)| format!(" {name}={quote}{value}{quote}"))
        .collect();
    let metadata = match dice.once_in(2) {
        true => format!(
            "<{prefix}metadata><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\"><rdf:Description rdf:about=\"\"/></rdf:RDF></{prefix}metadata><e:view zoom=\"1.5\" units=\"mm\"/>"
        ),
        false => String::new(),
    };
    let style = style_sheet(
        css,
        prefix,
        dice.below(3),
        dice.pick(&["", " type=\"text/css\""]),
    );
    let defs = format!("<{prefix}defs>{defs}</{prefix}defs>");
    let end = if indent { "\n" } else { "" };
    let inside = match dice.below(3) {
        0 => format!("{metadata}{style}{defs}{body}"),
        1 => format!("{defs}{metadata}{body}{style}"),
        _ => format!("{style}{body}{defs}"),
    };
    let text = format!(
        "{declaration}{comment}{doctype}<{prefix}svg{}>{inside}{end}</{prefix}svg>{end}",
        list.concat()
    );
    if entities {
        drawing.made("entities");
    }
    for known in ["mm", "pt", "in", "px", "cm", "pc"] {
        if kind != 4 && unit == known {
            drawing.made(known);
        }
    }
    if kind == 4 {
        drawing.made("no size");
    }
    text
}

fn style_sheet(css: &str, prefix: &str, wrapped: usize, kind: &str) -> String {
    if css.is_empty() {
        return String::new();
    }
    let css =
        format!("@charset \"utf-8\";\n/* {{ looks */ {css} @font-face{{font-family:x;src:url(y)}}");
    match wrapped {
        0 => format!("<{prefix}style{kind}><![CDATA[{css}]]></{prefix}style>"),
        1 => format!(
            "<{prefix}style{kind}>{}</{prefix}style>",
            css.replace('>', "&gt;")
        ),
        _ => format!("<{prefix}style{kind}>{css}</{prefix}style>"),
    }
}
