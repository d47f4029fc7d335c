//! What the writer of SVG writes, and what it refuses.

use super::*;
use crate::io::svg_read::read_svg;
use kurbo::PathEl;
use proptest::prelude::*;

fn written(unit: Unit, paths: &[SvgPath<'_>], options: &WriteOptions<'_>) -> String {
    let mut out = String::new();
    write_svg(&mut out, unit, paths, options).expect("written");
    out
}

#[test]
fn ids_are_safe_and_unique_and_titles_escaped() {
    let points = [Point::new(0.0, 0.0), Point::new(1.0, 1.0)];
    let path = |id, title| SvgPath {
        id,
        title,
        points: &points,
    };
    let paths = [
        path("a b\"", Some("<b> & \u{1}")),
        path("a b<", None),
        path("", None),
        path("1", None),
    ];
    let options = WriteOptions {
        title: Some("T<"),
        description: Some("D&"),
        ..WriteOptions::default()
    };
    let svg = written(Unit::Mm, &paths, &options);
    let drawing = read_svg(svg.as_bytes()).expect("read");
    let ids: Vec<&str> = drawing.paths.iter().map(|p| p.id.as_str()).collect();
    assert_eq!(ids, ["a-b-", "a-b--2", "path", "_1"]);
    assert_eq!(drawing.paths[0].title.as_deref(), Some("<b> & \u{FFFD}"));
    assert!(svg.contains("<title>T&lt;</title>\n<desc>D&amp;</desc>"));
}

#[test]
fn widths_beyond_any_drawing_are_refused() {
    let points = [Point::new(0.0, 0.0), Point::new(1.0, 1.0)];
    let path = SvgPath {
        id: "a",
        title: None,
        points: &points,
    };
    for width in [1e10, 1e300, f64::INFINITY, f64::NAN, 0.0] {
        let options = WriteOptions {
            stroke_width: Some(width),
            ..WriteOptions::default()
        };
        let mut out = String::new();
        let error = write_svg(&mut out, Unit::Yd, &[path], &options).expect_err("refused");
        assert!(
            error.to_string().contains("above 0 and up to 1e9"),
            "{error}"
        );
        assert!(out.is_empty());
    }
}

#[test]
fn dots_mark_the_points_and_are_not_read_back_as_lines() {
    let points = [
        Point::new(0.0, 0.0),
        Point::new(1.0, 1.0),
        Point::new(2.0, 0.0),
    ];
    let path = SvgPath {
        id: "dot",
        title: None,
        points: &points,
    };
    let options = WriteOptions {
        dots: Some(0.08),
        ..WriteOptions::default()
    };
    let svg = written(Unit::Ft, &[path], &options);
    assert!(svg.contains("<circle r=\"0.48\"/>"), "{svg}");
    assert_eq!(svg.matches("url(#dot)").count(), 3);
    assert_eq!(svg.matches("id=\"dot\"").count(), 1);
    let drawing = read_svg(svg.as_bytes()).expect("read");
    assert_eq!(drawing.paths.len(), 1);
    assert_eq!(drawing.paths[0].path.elements().len(), 3);
    assert_eq!(drawing.paths[0].id, "dot-2");
    assert!(drawing.notes.is_empty());
    assert!(!written(Unit::Mm, &[path], &WriteOptions::default()).contains("marker"));
}

#[test]
fn what_is_no_line_is_refused_and_nothing_written() {
    let points = [Point::new(0.0, f64::NAN), Point::new(1.0, 1.0)];
    let path = SvgPath {
        id: "leaf",
        title: None,
        points: &points,
    };
    let mut out = String::from("before");
    let plain = WriteOptions::default();
    let error = write_svg(&mut out, Unit::Mm, &[path], &plain).expect_err("NaN");
    assert!(error.to_string().starts_with("leaf: point 0"), "{error}");
    assert!(write_svg(&mut out, Unit::Mm, &[], &plain).is_err());
    let wrong = WriteOptions {
        smooth: Some(0.0),
        ..plain
    };
    assert!(write_svg(&mut out, Unit::Mm, &[path], &wrong).is_err());
    let wrong = WriteOptions {
        dots: Some(f64::NAN),
        ..plain
    };
    assert!(write_svg(&mut out, Unit::Mm, &[path], &wrong).is_err());
    assert_eq!(out, "before");
}

proptest! {
    #[test]
    fn reading_back_moves_no_point(
        points in prop::collection::vec((-900.0..900.0f64, -900.0..900.0f64), 2..60),
        unit in prop::sample::select(Unit::ALL.to_vec()),
    ) {
        let points: Vec<Point> = points.into_iter().map(|(x, y)| Point::new(x, y)).collect();
        let path = SvgPath { id: "p", title: None, points: &points };
        let svg = written(unit, &[path], &WriteOptions::default());
        let drawing = read_svg(svg.as_bytes()).expect("read");
        let metric = matches!(unit, Unit::Mm | Unit::Cm | Unit::M);
        let file_unit = if metric { Unit::Mm } else { Unit::In };
        prop_assert_eq!(drawing.unit, file_unit);
        let elements = drawing.paths[0].path.elements();
        prop_assert_eq!(elements.len(), points.len());
        for (element, point) in elements.iter().zip(&points) {
            let (PathEl::MoveTo(at) | PathEl::LineTo(at)) = element else {
                panic!("only lines")
            };
            let off = Point::new(at.x, at.y) - point * unit.in_mm();
            prop_assert!(off.amax() <= 1e-4 * file_unit.in_mm(), "{off}");
        }
    }
}

#[test]
fn a_page_that_is_given_keeps_its_zero_and_holds_all_lines() {
    let points = [Point::new(1.0, 2.0), Point::new(3.0, 4.0)];
    let path = [SvgPath::new("a", &points)];
    let page = |min: (f64, f64), max: (f64, f64)| {
        let page = Bounds {
            min: Point::new(min.0, min.1),
            max: Point::new(max.0, max.1),
        };
        WriteOptions::default().with_page(Some(page))
    };
    for (options, wanted) in [
        (
            page((0.0, 0.0), (10.0, 8.0)),
            "width=\"120in\" height=\"96in\" viewBox=\"0 0 120 96\"",
        ),
        (
            page((0.0, 0.0), (2.0, 8.0)),
            "width=\"36in\" height=\"96in\" viewBox=\"0 0 36 96\"",
        ),
        (
            page((-1.0, 0.5), (4.0, 4.5)),
            "width=\"60in\" height=\"48in\" viewBox=\"-12 6 60 48\"",
        ),
    ] {
        let svg = written(Unit::Ft, &path, &options);
        assert!(svg.contains(wanted), "{svg}");
    }
    for options in [
        page((0.0, 0.0), (0.0, 8.0)),
        page((0.0, f64::NAN), (1.0, 8.0)),
        page((-1e10, 0.0), (-1e10 + 10.0, 8.0)),
    ] {
        let mut out = String::new();
        write_svg(&mut out, Unit::Mm, &path, &options).expect_err("no page");
        assert!(out.is_empty());
    }
}
