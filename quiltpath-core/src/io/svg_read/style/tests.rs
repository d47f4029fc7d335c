use super::*;

/// What is set for the element whose id is `e`, and the notes.
fn set(style: &str, element: &str, name: &str) -> (Option<String>, Vec<String>) {
    let text = format!("<svg>{style}<g class='a b'>{element}</g></svg>");
    let document = Document::parse(&text).expect("XML");
    let node = document
        .descendants()
        .find(|n| n.attribute("id") == Some("e"));
    let mut notes = Notes::default();
    let sheet = Sheet::of(&document, &mut notes);
    let look = sheet.look(node.expect("e")).expect("a look");
    (look.get(name).map(str::to_owned), notes.into_words())
}

fn is_gone(style: &str, element: &str) -> bool {
    let style = format!("<style>{}</style>", style.replace('>', "&gt;"));
    set(&style, element, "display")
        .0
        .as_deref()
        .map(str::to_lowercase)
        == Some("none".into())
}

#[test]
fn the_cascade_decides() {
    for (style, element, gone) in [
        ("", "<p id='e' display='none'/>", true),
        ("", "<p id='e' display=' none '/>", true),
        ("", "<p id='e' style='fill:red;display: none'/>", true),
        ("", "<p id='e' style='DISPLAY:None;/*x*/ fill:red'/>", true),
        (
            "",
            "<p id='e' style='/*x*/display:none!important;display:inline'/>",
            true,
        ),
        ("#e{display:none}", "<p id='e'/>", true),
        (".x{display:none}", "<p id='e' class='x y'/>", true),
        ("p{display:none}", "<p id='e'/>", true),
        ("g > p{display:none}", "<p id='e'/>", true),
        (".b p{display:none}", "<p id='e'/>", true),
        ("g{display:none}", "<p id='e'/>", false),
        ("q, p{display:none}", "<p id='e'/>", true),
        ("#e{display:inline} p{display:none}", "<p id='e'/>", false),
        ("p{display:inline} p{display:none}", "<p id='e'/>", true),
        (
            "p{display:none}",
            "<p id='e' style='display:inline'/>",
            false,
        ),
        (
            "p{display:none !important}",
            "<p id='e' style='display:inline'/>",
            true,
        ),
        ("p{display:inline}", "<p id='e' display='none'/>", false),
        ("@media print{p{display:none}} q{}", "<p id='e'/>", false),
        ("@media screen{p{display:none}} q{}", "<p id='e'/>", true),
        ("@import 'x'; /* } */ p{display:none}", "<p id='e'/>", true),
        ("p:first-child{display:none}", "<q/><p id='e'/>", false),
        ("p:nth-child(2){display:none}", "<q/><p id='e'/>", true),
        ("p:not(.x){display:none}", "<p id='e'/>", true),
        ("p:not(.x){display:none}", "<p id='e' class='x'/>", false),
        ("q + p{display:none}", "<q/><p id='e'/>", true),
    ] {
        assert_eq!(is_gone(style, element), gone, "{style} {element}");
    }
}

#[test]
fn style_sheets_that_do_not_count_are_noted() {
    let p = "<p id='e'/>";
    for (style, value, note) in [
        ("<style media='print'>p{fill:none}</style>", None, None),
        (
            "<style media='screen'>p{fill:none}</style>",
            Some("none"),
            None,
        ),
        (
            "<style media='(color)'>p{fill:none}</style>",
            None,
            Some("1 style rule skipped: \"media=\"(color)\"\" is not applied"),
        ),
        (
            "<style type='text/less'>p{fill:none}</style>",
            None,
            Some("1 <style> element skipped: the type \"text/less\" is not text/css"),
        ),
        (
            "<style type='text/CSS'>p{fill:none}</style>",
            Some("none"),
            None,
        ),
        (
            "<style>p:has(q){fill:none} p:has(q){font-family:x}</style>",
            None,
            Some("1 style rule skipped: the selector \"p:has(q)\" can't be read"),
        ),
        (
            "<style>@supports (fill: red) {p{fill:none}}</style>",
            None,
            Some("1 style rule skipped: \"@supports (fill: red)\" is not applied"),
        ),
        ("<style>@font-face{fill:none}</style>", None, None),
    ] {
        let (found, notes) = set(style, p, "fill");
        assert_eq!(found.as_deref(), value, "{style}");
        assert_eq!(notes.first().map(String::as_str), note, "{style}");
    }
    let (_, notes) = set("<style>@import 'x.css';</style>", p, "fill");
    assert!(notes[0].contains("in other files"), "{notes:?}");
}

#[test]
fn hostile_selectors_end() {
    let depth = 200;
    let text = format!(
        "<svg><style>{} x{{display:none}}</style>{}<x/>{}</svg>",
        "g ".repeat(12).replacen('g', "nowhere", 1),
        "<g>".repeat(depth),
        "</g>".repeat(depth)
    );
    let document = Document::parse(&text).expect("XML");
    let sheet = Sheet::of(&document, &mut Notes::default());
    let x = document
        .descendants()
        .find(|n| n.has_tag_name("x"))
        .expect("x");
    let error = sheet.look(x).expect_err("endless");
    assert!(
        error.to_string().contains("steps to apply the style sheet"),
        "{error}"
    );
    let siblings = format!(
        "<svg><style>{}x{{display:none}}</style>{}</svg>",
        "x + ".repeat(100_000),
        "<x/>".repeat(100_002)
    );
    let document = Document::parse(&siblings).expect("XML");
    let mut notes = Notes::default();
    let sheet = Sheet::of(&document, &mut notes);
    let last = document.root_element().last_element_child().expect("x");
    assert_eq!(sheet.look(last).expect("a look").get("display"), None);
    assert!(notes.into_words()[0].contains("can't be read"));
}
