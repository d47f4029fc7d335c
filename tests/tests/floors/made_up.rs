//! The rules on made-up trees: what they have to find is found, and nothing else.

use std::collections::BTreeMap;

use crate::paths::{Edges, edges};
use crate::rules::{from_parents, on_circles, upwards, without_floor};
use crate::tree::Tree;

fn read(files: &[(&str, &str)]) -> Edges {
    let sources: BTreeMap<_, _> = files
        .iter()
        .map(|(file, text)| ((*file).to_owned(), (*text).to_owned()))
        .collect();
    edges(&Tree::new(&sources, "lib.rs"))
}

fn imported(edges: &Edges, file: &str) -> Vec<String> {
    edges[file].iter().cloned().collect()
}

#[test]
fn a_circle_of_two_and_of_three_is_found() {
    let two = read(&[
        ("lib.rs", "mod a; mod b; mod c;"),
        ("a.rs", "use crate::b::B; pub struct A(B);"),
        ("b.rs", "use super::a::A; pub struct B(Box<A>);"),
        ("c.rs", "use crate::{a::A, b::B}; pub struct C(A, B);"),
    ]);
    let found = on_circles(&two);
    assert_eq!(found.keys().collect::<Vec<_>>(), ["a.rs", "b.rs"]);
    assert_eq!(found["a.rs"], "a.rs -> b.rs -> a.rs");
    let three = read(&[
        ("lib.rs", "mod a; mod b; mod c;"),
        ("a.rs", "pub fn a() { crate::b::b() }"),
        ("b.rs", "pub fn b() { super::c::c() }"),
        ("c.rs", "pub fn c() { println!(\"{}\", crate::a::a()) }"),
    ]);
    assert_eq!(on_circles(&three).len(), 3);
}

#[test]
fn what_is_passed_on_is_no_import_and_is_followed_to_its_file() {
    let edges = read(&[
        ("lib.rs", "pub mod geom; pub use geom::Line;"),
        (
            "geom.rs",
            "mod point; mod line; pub use line::Line; pub use self::point::{self as places, Point};",
        ),
        ("geom/point.rs", "pub struct Point;"),
        (
            "geom/line.rs",
            "use super::Point; use crate::geom::places; pub struct Line(Point, places::Point);",
        ),
    ]);
    assert!(imported(&edges, "geom.rs").is_empty() && imported(&edges, "lib.rs").is_empty());
    assert_eq!(imported(&edges, "geom/line.rs"), ["geom/point.rs"]);
    assert!(on_circles(&edges).is_empty() && from_parents(&edges).is_empty());
}

#[test]
fn what_is_passed_on_and_used_is_an_import() {
    let edges = read(&[
        ("lib.rs", "mod a;"),
        ("a.rs", "mod b; pub use b::{B, b}; pub struct A(B);"),
        (
            "a/b.rs",
            "use super::A; pub struct B(Option<Box<A>>); pub fn b() {}",
        ),
    ]);
    assert_eq!(imported(&edges, "a.rs"), ["a/b.rs"]);
    assert_eq!(on_circles(&edges).len(), 2);
    let called = read(&[
        ("lib.rs", "mod a;"),
        ("a.rs", "mod b; pub use b::b; pub fn a() { b() }"),
        ("a/b.rs", "pub fn b() {}"),
    ]);
    assert_eq!(imported(&called, "a.rs"), ["a/b.rs"]);
}

#[test]
fn a_child_that_imports_its_parent_is_found() {
    let edges = read(&[
        ("lib.rs", "mod a; pub const WIDE: f64 = 1.0;"),
        ("a.rs", "mod b; pub struct A;"),
        ("a/b.rs", "mod c; use super::A; fn b(_: A) {}"),
        (
            "a/b/c.rs",
            "fn c(_: super::super::A) -> f64 { crate::WIDE }",
        ),
    ]);
    assert_eq!(
        from_parents(&edges).into_iter().collect::<Vec<_>>(),
        [
            "a/b.rs imports a.rs",
            "a/b/c.rs imports a.rs",
            "a/b/c.rs imports lib.rs"
        ]
    );
    assert!(on_circles(&edges).is_empty());
}

#[test]
fn tests_may_import_anything() {
    let edges = read(&[
        ("lib.rs", "mod a; mod b;"),
        (
            "a.rs",
            "pub struct A; #[cfg(test)] mod tests { use crate::b::B; }",
        ),
        (
            "b.rs",
            "use crate::a::A; pub struct B(A); #[cfg(test)] use crate::nothing;",
        ),
    ]);
    assert!(imported(&edges, "a.rs").is_empty());
    assert!(on_circles(&edges).is_empty());
}

#[test]
fn modules_by_name_inline_ones_and_what_macros_make_are_followed() {
    let edges = read(&[
        ("lib.rs", "mod a; mod b; mod c;"),
        (
            "a.rs",
            "mod low; mod high { use super::low::Low; fn high(_: Low) {} }",
        ),
        ("a/low.rs", "pub struct Low;"),
        (
            "b.rs",
            "use crate::c; use std::fmt; fn b(_: c::C) -> fmt::Result { c::make() }",
        ),
        ("c.rs", "make! { pub struct C; } pub fn make() {}"),
    ]);
    assert_eq!(imported(&edges, "a.rs"), ["a/low.rs"]);
    assert_eq!(imported(&edges, "b.rs"), ["c.rs"]);
}

#[test]
fn floors_hold_for_all_below_a_path() {
    let edges = read(&[
        ("lib.rs", "mod low; mod high;"),
        ("low.rs", "mod in_low;"),
        ("low/in_low.rs", "use crate::high::High; fn low(_: High) {}"),
        (
            "high.rs",
            "use std::collections::BTreeMap; pub struct High(BTreeMap<u8, u8>);",
        ),
    ]);
    let found = upwards(&edges, &[("lib", 9), ("low", 0), ("high", 1)]);
    assert_eq!(
        found.into_iter().collect::<Vec<_>>(),
        ["low/in_low.rs imports high.rs"]
    );
    assert_eq!(
        without_floor(&edges, &[("lib", 9), ("low", 0)]),
        ["high.rs"]
    );
}
