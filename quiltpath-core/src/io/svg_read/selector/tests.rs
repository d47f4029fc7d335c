use super::{Budget, Selector};
use roxmltree::Node;

/// The ids of the elements that match, in order.
fn matched(selector: &str) -> String {
    let text = "<svg><g id='a' class='x y' label='one two'><p id='b'/><q id='c' class='x'/>\
                <p id='d' lang='de-AT'/><p id='e' class='sm:z'/></g><q id='f'/></svg>";
    let document = roxmltree::Document::parse(text).expect("XML");
    let selector = Selector::parse(selector).unwrap_or_else(|| panic!("{selector}"));
    let nodes = document.descendants().filter(Node::is_element);
    let found = nodes.filter(|node| selector.matches(*node, &Budget::default()));
    found.filter_map(|node| node.attribute("id")).collect()
}

#[test]
fn selectors_match_as_the_standard_says() {
    for (selector, ids) in [
        ("*", "abcdef"),
        ("p", "bde"),
        ("p#b", "b"),
        (".x", "ac"),
        ("q.x", "c"),
        ("g p", "bde"),
        ("svg>q", "f"),
        ("p + q", "c"),
        ("q ~ p", "de"),
        ("[label]", "a"),
        ("[label~=two]", "a"),
        ("[lang|='de']", "d"),
        ("[id^=a]", "a"),
        ("[label$='two']", "a"),
        ("[label*=' ']", "a"),
        ("p:not(.x, #d)", "be"),
        ("g > :not(p)", "c"),
        (":not(g) > q", "f"),
        (":is(#b, q)", "bcf"),
        (":where(#b)", "b"),
        ("p:first-child", "b"),
        ("p:last-child", "e"),
        (":nth-child(2)", "cf"),
        ("g > :nth-child(odd)", "bd"),
        ("g > :nth-child(2n)", "ce"),
        ("g > :nth-child(-n + 2)", "bc"),
        ("p:nth-of-type(2)", "d"),
        ("p:nth-last-child(1)", "e"),
        ("g:hover", ""),
        ("p::before", ""),
        (r".sm\:z", "e"),
        (r"#\65 ", "e"),
        ("q:empty", "cf"),
    ] {
        assert_eq!(matched(selector), ids, "{selector}");
    }
}

#[test]
fn what_cannot_be_read_is_no_selector() {
    for text in [
        "",
        ">",
        "p >",
        "svg|p",
        "p:nth-child(x)",
        "p:nth-child(-9223372036854775808)",
        "p:nth-child(-9223372036854775808n)",
        ":has(p)",
        "p:not(",
        "[a='b",
        "p!",
        "..a",
        ":lang(de)",
        "[a=b i]",
    ] {
        assert_eq!(Selector::parse(text), None, "{text}");
    }
    assert_eq!(Selector::parse(&"x + ".repeat(100_000)), None);
}

#[test]
fn strength_counts_ids_classes_and_types() {
    for (text, strength) in [
        ("*", [0, 0, 0]),
        ("g p", [0, 0, 2]),
        ("#a.b[c]:first-child", [1, 3, 0]),
        ("p:not(#a, q)", [1, 0, 1]),
        (":where(#a)", [0, 0, 0]),
    ] {
        assert_eq!(
            Selector::parse(text).expect(text).strength,
            strength,
            "{text}"
        );
    }
}
