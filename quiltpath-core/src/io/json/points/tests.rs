use super::*;
use proptest::prelude::*;

fn refused(text: &str) -> String {
    read_points(text.as_bytes(), None)
        .expect_err(text)
        .to_string()
}

#[test]
fn all_three_forms_are_read() {
    let one = read_points(
        br#"{"unit":"cm","name":"leaf","points":[[0,0],[1,2]]}"#,
        None,
    );
    assert_eq!(one.expect("one").paths[0].name.as_deref(), Some("leaf"));
    let several =
        br#"{"unit":"mm","paths":[{"name":"a","points":[[0,0],[1,2]]},{"points":[[3,4],[5,6]]}]}"#;
    assert_eq!(read_points(several, None).expect("two").paths.len(), 2);
    let bare = read_points(b"[[0,0],[1,2.5]]", Some(Unit::In)).expect("bare");
    assert_eq!((bare.unit, bare.paths[0].points[1].y), (Unit::In, 2.5));
}

#[test]
fn what_is_no_point_list_is_refused_at_its_place() {
    for (text, message) in [
        ("", "the file is empty; give a JSON point list"),
        ("  \n", "the file is empty"),
        ("{\"unit\":\"in\"}", "no path in the file"),
        ("[[0,0],[1,1]]", "names no unit"),
        ("{\"points\":[[0,0],[1,1]]}", "names no unit"),
        (
            "{\"unit\":\"furlong\",\"points\":[[0,0],[1,1]]}",
            "unit: \"furlong\" has the unknown unit",
        ),
        (
            "{\"unit\":\"in\",\"pionts\":[]}",
            "did you mean \"points\"?",
        ),
        (
            "{\"unit\":\"in\",\"points\":[[0,0],[NaN,1]]}",
            "NaN is not a JSON number; write a finite number",
        ),
        (
            "{\"unit\":\"in\",\"points\":[[0,0],[1e308,1]]}",
            "1:36: points[1]: the coordinate 1e308 is too large",
        ),
        (
            "{\"unit\":\"in\",\"points\":[[0,0],[1e999,1]]}",
            "number out of range; coordinates may go",
        ),
        (
            "{\"unit\":\"in\",\"points\":[[0,0],[1]]}",
            "give a point [x, y], not a list of 1",
        ),
        (
            "{\"unit\":\"in\",\"points\":[[0,0],[1,2,3]]}",
            "give a point [x, y], not a list of 3",
        ),
        (
            "{\"unit\":\"in\",\n\"points\":[[0,0],",
            "the text ends too soon",
        ),
        ("[[0,0],[1,1]] x", "something follows the end; remove it"),
    ] {
        let error = refused(text);
        assert!(error.contains(message), "{text}: {error}");
    }
    assert!(
        read_points(b"\xff\xfe", None)
            .expect_err("bytes")
            .to_string()
            .contains("UTF-8")
    );
    let error = read_points(br#"{"unit":"in","points":[[1,1],[1,1]]}"#, None)
        .expect("read")
        .paths[0]
        .motif("dot");
    assert!(
        error
            .expect_err("dot")
            .to_string()
            .starts_with("dot: all points are the same")
    );
}

#[test]
fn what_could_not_be_read_again_is_not_written() {
    let path = |x: f64| PointPath::new(vec![Point::new(1.0, 2.0), Point::new(x, 0.5)]);
    let list = |paths| PointList::new(Unit::In, paths);
    for (x, message) in [
        (f64::NAN, "point 1 has the coordinate NaN"),
        (f64::NEG_INFINITY, "point 1 has the coordinate -inf"),
        (2e9, "point 1 has the coordinate 2e9"),
    ] {
        let named = path(x).with_name("leaf");
        let error = write_point_line(Unit::In, &named).expect_err(message);
        assert!(
            error.to_string().starts_with(&format!("leaf: {message}")),
            "{error}"
        );
        let error = write_points(&list(vec![path(0.0), path(x)])).expect_err(message);
        assert!(
            error.to_string().starts_with(&format!("path 2: {message}")),
            "{error}"
        );
    }
    let none = write_points(&list(Vec::new())).expect_err("no path");
    assert!(none.is_data(), "{none}");
}

proptest! {
    #[test]
    fn out_in_out_is_the_same_to_the_byte(
        paths in prop::collection::vec((prop::option::of("[a-zé\"\\\\ ]{0,8}"), prop::collection::vec((-1e9..1e9f64, prop::num::f64::NORMAL), 1..9)), 1..4),
        unit in prop::sample::select(Unit::ALL.to_vec()),
    ) {
        let paths = paths.into_iter().map(|(name, points)| PointPath {
            name,
            points: points.into_iter().map(|(x, y)| Point::new(x, y % 1e9)).collect(),
        }).collect();
        let list = PointList { unit, paths };
        let text = write_points(&list).expect("finite points");
        let back = read_points(text.as_bytes(), None).expect("own output");
        prop_assert_eq!(&back, &list);
        prop_assert_eq!(write_points(&back), Ok(text));
    }

    #[test]
    fn no_bytes_make_it_panic(bytes in prop::collection::vec(any::<u8>(), 0..60), text in "[\\[\\]{}\",:0-9a-z.eN -]{0,60}") {
        let _ = read_points(&bytes, None);
        let _ = read_points(text.as_bytes(), Some(Unit::Mm));
    }
}
