use super::*;
use kurbo::{ParamCurve, Point, Shape};

/// A file with these groups in its header, as blocks and as entities.
fn file(header: &str, blocks: &str, entities: &str) -> String {
    let groups = |text: &str| -> String {
        let words = text
            .split('|')
            .map(str::trim)
            .filter(|part| !part.is_empty());
        words
            .map(|pair| {
                let (code, value) = pair.split_once(' ').unwrap_or((pair, ""));
                format!("{code}\n{value}\n")
            })
            .collect()
    };
    [
        groups("0 SECTION|2 HEADER"),
        groups(header),
        groups("0 ENDSEC|0 SECTION|2 BLOCKS"),
        groups(blocks),
        groups("0 ENDSEC|0 SECTION|2 ENTITIES"),
        groups(entities),
        groups("0 ENDSEC|0 EOF"),
    ]
    .concat()
}

const MM: &str = "9 $INSUNITS|70 4";
const LINE: &str = "0 LINE|8 0|10 0|20 0|11 1|21 0";

fn read(text: &str) -> DxfDrawing {
    read_dxf(text.as_bytes(), None).unwrap_or_else(|e| panic!("{text}: {e}"))
}

fn drawn(entities: &str) -> DxfDrawing {
    read(&file(MM, "", entities))
}

/// The path of the only entity, as SVG writes paths.
fn path(entities: &str) -> String {
    let drawing = drawn(entities);
    assert_eq!(drawing.paths.len(), 1, "{entities}");
    assert_eq!(drawing.notes, [""; 0], "{entities}");
    drawing.paths[0].path.to_svg()
}

fn refused(text: &str) -> String {
    read_dxf(text.as_bytes(), None).expect_err(text).to_string()
}

fn ends(path: &BezPath) -> [Point; 2] {
    let mut segments = path.segments();
    let first = segments.next().expect("a segment");
    let last = segments.last().unwrap_or(first);
    [first.start(), last.end()]
}

fn near(a: Point, x: f64, y: f64) {
    assert!(a.distance(Point::new(x, y)) < 1e-9, "{a} is not {x}, {y}");
}

#[test]
fn lines_are_turned_over_so_that_up_is_up() {
    let drawing = drawn("0 LINE|8 leaf|10 1|20 2|11 3|21 5|0 LINE|10 0|20 0|11 1|21 0");
    assert_eq!(drawing.paths[0].path.to_svg(), "M1,-2 L3,-5");
    assert_eq!(drawing.paths[1].path.to_svg(), "M0,0 L1,0");
    let of = |at: usize| {
        (
            drawing.paths[at].id.as_str(),
            drawing.paths[at].layer.as_str(),
        )
    };
    assert_eq!([of(0), of(1)], [("line 1", "leaf"), ("line 2", "0")]);
    assert!(drawing.notes.is_empty());
    let text = file(MM, "", LINE);
    let row = text.lines().position(|row| row == "LINE").expect("a line") + 1;
    assert_eq!(read(&text).paths[0].position.row as usize, row);
}

#[test]
fn units_of_the_header_give_the_size() {
    let wide = |header: &str, unit| {
        let text = file(header, "", LINE);
        let drawing = read_dxf(text.as_bytes(), unit).expect(header);
        let width = drawing.bounds().expect("drawn").width();
        (width, drawing.unit, drawing.unit_assumed, drawing.notes)
    };
    assert_eq!(
        wide("9 $INSUNITS|70 1", None),
        (25.4, Unit::In, false, vec![])
    );
    // The file's own unit goes before the one given.
    assert_eq!(
        wide("9 $INSUNITS|70 5", Some(Unit::In)),
        (10.0, Unit::Cm, false, vec![])
    );
    assert_eq!(
        wide("9 $INSUNITS|70 0", Some(Unit::Ft)),
        (304.8, Unit::Ft, false, vec![])
    );
    let (width, unit, assumed, notes) = wide("", None);
    assert_eq!((width, unit, assumed), (1.0, Unit::Mm, true));
    assert_eq!(
        notes,
        [
            "the file names no unit ($INSUNITS): 1 is taken as 1 mm, which makes what is drawn 0.03937 in x 0 in (1 mm x 0 mm); give the unit if it is another"
        ]
    );
    let (width, unit, assumed, _) = wide("9 $MEASUREMENT|70 0|9 $INSUNITS|70 0", None);
    assert_eq!((width, unit, assumed), (25.4, Unit::In, true));
    let (_, _, _, notes) = wide("9 $INSUNITS|70 19", None);
    assert!(
        notes[0].starts_with("the unit 19 that the file names"),
        "{notes:?}"
    );
}

#[test]
fn arcs_turn_left_from_their_start_to_their_end() {
    /// A millionth of the radius, all the way round.
    const OFF: f64 = 5e-6 * std::f64::consts::TAU;
    let arc = &drawn("0 ARC|10 10|20 20|40 5|50 350|51 80").paths[0].path;
    let at = |degrees: f64| {
        let angle = degrees.to_radians();
        (10.0 + 5.0 * angle.cos(), -(20.0 + 5.0 * angle.sin()))
    };
    let [start, end] = ends(arc);
    near(start, at(350.0).0, at(350.0).1);
    near(end, at(80.0).0, at(80.0).1);
    // Elementary: the length of an arc is its angle times its radius.
    let length = arc.perimeter(1e-9);
    assert!((length - 5.0 * 90f64.to_radians()).abs() < OFF, "{length}");

    let circle = &drawn("0 CIRCLE|10 10|20 20|40 5").paths[0].path;
    assert!(circle.to_svg().starts_with("M15,-20 ") && circle.to_svg().ends_with('Z'));
    assert!((circle.perimeter(1e-9) - 10.0 * std::f64::consts::PI).abs() < OFF);
    let whole = &drawn("0 ARC|10 10|20 20|40 5|50 90|51 450").paths[0].path;
    assert!((whole.perimeter(1e-9) - 10.0 * std::f64::consts::PI).abs() < OFF);
    let bad = refused(&file(MM, "", "0 ARC|10 10|20 20|40 -5"));
    assert!(
        bad.contains("group 40 of ARC is \"-5\"; give a radius above 0"),
        "{bad}"
    );
}

#[test]
fn ellipses_go_by_their_parameters() {
    let quarter = "0 ELLIPSE|10 1|20 2|11 0|21 8|40 0.5|41 0|42 1.570796326794896619";
    let path = &drawn(quarter).paths[0].path;
    let [start, end] = ends(path);
    near(start, 1.0, -10.0);
    near(end, -3.0, -2.0);
    let mirrored = format!("{quarter}|210 0|220 0|230 -1");
    let [start, end] = ends(&drawn(&mirrored).paths[0].path);
    near(start, 1.0, -10.0);
    near(end, 5.0, -2.0);
    let whole = &drawn("0 ELLIPSE|10 1|20 2|11 0|21 8|40 0.5").paths[0].path;
    assert!(whole.to_svg().ends_with('Z'));
}

#[test]
fn polylines_of_both_kinds_are_the_same() {
    let light = "0 LWPOLYLINE|90 3|70 1|10 0|20 0|42 1|10 2|20 0|10 2|20 3";
    let heavy = "0 POLYLINE|66 1|70 1|10 0|20 0|30 0|0 VERTEX|10 0|20 0|42 1|0 VERTEX|10 2|20 0|\
                 0 VERTEX|10 2|20 3|0 SEQEND|8 0";
    assert_eq!(path(light), path(heavy));
    assert!(path(light).starts_with("M0,0 C") && path(light).ends_with("L2,-3 Z"));
    // Half a turn to the left, y up, from (0, 0) to (2, 0) goes below the line.
    let bounds = drawn(light).bounds().expect("drawn");
    assert!((bounds.max.y - 1.0).abs() < 1e-6, "{bounds:?}");
    // The frame of a fitted curve is not drawn, the points of the curve are.
    let fitted = "0 POLYLINE|66 1|70 4|0 VERTEX|10 0|20 9|70 16|0 VERTEX|10 0|20 0|70 8|\
                  0 VERTEX|10 1|20 1|70 8|0 SEQEND";
    assert_eq!(path(fitted), "M0,0 L1,-1");
    let mesh = format!("0 POLYLINE|70 64|0 VERTEX|70 128|71 1|0 SEQEND|{LINE}");
    let notes = drawn(&mesh).notes;
    assert!(notes[0].contains("1 POLYLINE mesh;"), "{notes:?}");
    for (entity, missing) in [
        ("0 LWPOLYLINE|90 0", "LWPOLYLINE has no group 10"),
        ("0 LWPOLYLINE|10 1|10 2|20 3", "LWPOLYLINE has no group 20"),
        ("0 LWPOLYLINE|10 1", "LWPOLYLINE has no group 20"),
        (
            "0 POLYLINE|0 VERTEX|20 1|0 SEQEND",
            "VERTEX has no group 10",
        ),
    ] {
        let error = refused(&file(MM, "", entity));
        assert!(error.contains(missing), "{error}");
    }
}

#[test]
fn splines_are_drawn_by_their_control_points() {
    let cubic = "0 SPLINE|70 8|71 3|72 8|73 4|40 0|40 0|40 0|40 0|40 1|40 1|40 1|40 1|\
                 10 0|20 0|30 0|10 1|20 2|30 0|10 3|20 2|30 0|10 4|20 0|30 0";
    assert_eq!(path(cubic), "M0,0 C1,-2 3,-2 4,0");
    let bad = refused(&file(MM, "", &cubic.replacen("40 0|", "", 1)));
    assert!(
        bad.contains("this SPLINE can't be drawn: it has 7 knots"),
        "{bad}"
    );
    let fit = format!("0 SPLINE|71 3|74 2|11 0|21 0|11 1|21 1|{LINE}");
    let notes = drawn(&fit).notes;
    assert!(
        notes[0].starts_with("1 SPLINE given by fit points alone skipped"),
        "{notes:?}"
    );
}

#[test]
fn planes_are_seen_from_above() {
    // The extrusion (0, 0, -1) mirrors x, and turns the arc round.
    let arc = drawn("0 ARC|10 10|20 0|30 4|40 5|50 0|51 90|210 0|220 0|230 -1");
    let [start, end] = ends(&arc.paths[0].path);
    near(start, -15.0, 0.0);
    near(end, -10.0, -5.0);
    assert_eq!(
        arc.notes,
        ["1 entity with a height above the page, z, which is dropped"]
    );
    let tilted = drawn("0 CIRCLE|10 0|20 0|40 5|210 0|220 -3|230 4");
    let bounds = tilted.bounds().expect("drawn");
    assert!((bounds.width() - 10.0).abs() < 1e-4 && (bounds.height() - 8.0).abs() < 1e-4);
    assert_eq!(
        tilted.notes,
        ["1 entity tilted out of the page: drawn as seen from above"]
    );
}

#[test]
fn blocks_are_inserted_with_their_base_scale_turn_and_place() {
    let blocks = "0 BLOCK|2 Leaf|10 1|20 1|0 LINE|8 0|10 1|20 1|11 3|21 1|0 ENDBLK";
    let insert = "0 INSERT|8 vine|2 LEAF|10 10|20 20|41 2|42 3|50 90";
    let drawing = read(&file(MM, blocks, insert));
    let [start, end] = ends(&drawing.paths[0].path);
    near(start, 10.0, -20.0);
    // 2 long, times 2, turned by 90 degrees to the left.
    near(end, 10.0, -24.0);
    assert_eq!(drawing.paths[0].layer, "vine");

    // Rows and columns turn with the block and keep their spacing.
    let many = format!("{insert}|70 3|71 2|44 5|45 7");
    let drawing = read(&file(MM, blocks, &many));
    let starts: Vec<_> = drawing
        .paths
        .iter()
        .map(|drawn| ends(&drawn.path)[0])
        .collect();
    assert_eq!(starts.len(), 6);
    near(starts[2], 10.0, -30.0);
    near(starts[3], 3.0, -20.0);

    let mirrored = format!("{insert}|210 0|220 0|230 -1");
    let [start, end] = ends(&read(&file(MM, blocks, &mirrored)).paths[0].path);
    near(start, -10.0, -20.0);
    near(end, -10.0, -24.0);
}

#[test]
fn blocks_may_hold_blocks_but_not_themselves() {
    let nested = "0 BLOCK|2 A|0 LINE|10 0|20 0|11 1|21 0|0 ENDBLK|\
                  0 BLOCK|2 B|0 INSERT|2 A|10 1|20 0|0 INSERT|2 A|10 2|20 0|0 ENDBLK";
    let drawing = read(&file(MM, nested, "0 INSERT|2 b|10 10|20 0|41 2"));
    let starts: Vec<_> = drawing
        .paths
        .iter()
        .map(|drawn| ends(&drawn.path)[0].x)
        .collect();
    assert_eq!(starts, [12.0, 14.0]);
    let cycle =
        "0 BLOCK|2 A|0 INSERT|2 B|10 0|20 0|0 ENDBLK|0 BLOCK|2 B|0 INSERT|2 A|10 0|20 0|0 ENDBLK";
    let error = refused(&file(MM, cycle, "0 INSERT|2 A|10 0|20 0"));
    assert!(
        error.contains("the block \"A\" is inserted in itself"),
        "{error}"
    );
    let missing = read(&file(MM, "", &format!("{LINE}|0 INSERT|2 gone|10 0|20 0")));
    assert_eq!(
        missing.notes,
        ["1 inserted block skipped: the block \"gone\" is not in this file"]
    );
    let flat = read(&file(
        MM,
        nested,
        &format!("{LINE}|0 INSERT|2 A|10 0|20 0|41 0"),
    ));
    assert_eq!(
        flat.notes,
        ["1 inserted block skipped: the scale leaves no area"]
    );
}

#[test]
fn runaway_inserts_are_refused() {
    let block = |at: usize| {
        let inside = format!("0 INSERT|2 B{}|10 0|20 0|", at + 1).repeat(10);
        format!("0 BLOCK|2 B{at}|{inside}0 ENDBLK|")
    };
    let doubled: String = (0..30).map(block).collect();
    let error = refused(&file(
        MM,
        &format!("{doubled}0 BLOCK|2 B30|0 ENDBLK"),
        "0 INSERT|2 B0|10 0|20 0",
    ));
    assert!(error.contains("more than 5000000 entities"), "{error}");
    let chain: String = (0..100)
        .map(|at| format!("0 BLOCK|2 B{at}|0 INSERT|2 B{}|10 0|20 0|0 ENDBLK|", at + 1))
        .collect();
    let error = refused(&file(
        MM,
        &format!("{chain}0 BLOCK|2 B100|0 ENDBLK"),
        "0 INSERT|2 B0|10 0|20 0",
    ));
    assert!(error.contains("more than 64 deep"), "{error}");
    for (columns, rows) in [(32767, 32767), (1, i64::MAX), (i64::MAX, 1)] {
        let insert = format!("0 INSERT|2 A|10 0|20 0|70 {columns}|71 {rows}");
        let error = refused(&file(MM, "0 BLOCK|2 A|0 ENDBLK", &insert));
        assert!(error.contains("more than 5000000 entities"), "{error}");
    }
}

#[test]
fn layers_choose_and_hide() {
    let tables = "0 ENDSEC|0 SECTION|2 TABLES|0 TABLE|2 LAYER|\
                  0 LAYER|2 guides|70 0|62 7|0 LAYER|2 off|70 0|62 -7|0 LAYER|2 cold|70 1|62 7|0 ENDTAB";
    let on = |layer: &str| LINE.replace("8 0", &format!("8 {layer}"));
    let blocks = format!("0 BLOCK|2 A|{}|{LINE}|0 ENDBLK", on("guides"));
    let entities = [
        on("guides"),
        on("quilting"),
        on("off"),
        on("cold"),
        "0 INSERT|8 quilting|2 A|10 0|20 5".to_owned(),
        "0 INSERT|8 off|2 A|10 0|20 6".to_owned(),
        "0 INSERT|8 cold|2 A|10 0|20 7".to_owned(),
        "0 TEXT|8 quilting|1 hello".to_owned(),
    ]
    .join("|");
    let text = file(&format!("{MM}|{tables}"), &blocks, &entities);
    let names = |layers: &[&str]| {
        let layers: Vec<_> = layers.iter().map(ToString::to_string).collect();
        let drawing = read_dxf_layers(text.as_bytes(), None, &layers);
        let drawing = drawing.unwrap_or_else(|e| panic!("{layers:?}: {e}"));
        let paths: Vec<_> = drawing
            .paths
            .iter()
            .map(|drawn| drawn.layer.clone())
            .collect();
        (paths, drawing.notes)
    };
    let (paths, notes) = names(&[]);
    assert_eq!(
        paths,
        ["guides", "quilting", "guides", "quilting", "guides"]
    );
    assert_eq!(
        notes,
        [
            "skipped, since they are no lines: 1 TEXT; to stitch them, explode them or trace them in the drawing program",
            "4 entities skipped on layers that are off or frozen, such as \"off\"",
        ]
    );
    let (paths, notes) = names(&["QUILTING"]);
    assert_eq!(paths, ["quilting", "quilting"]);
    assert_eq!(notes.len(), 1);
    assert_eq!(names(&["guides", "quilting"]).0.len(), 5);
    let none = read_dxf_layers(text.as_bytes(), None, &["vine".to_owned()]);
    assert_eq!(
        none.expect_err("unknown").to_string(),
        "no layer is called \"vine\"; there are \"0\", \"guides\", \"off\", \"cold\", \"quilting\""
    );
    let off = read_dxf_layers(text.as_bytes(), None, &["off".to_owned()]);
    let off = off.expect_err("hidden").to_string();
    assert!(
        off.starts_with("nothing is drawn that can be stitched: 2 entities skipped on layers"),
        "{off}"
    );
}

#[test]
fn what_is_passed_over_is_counted() {
    let entities = [
        LINE,
        "0 LINE|60 1|10 0|20 0|11 1|21 0",
        "0 LINE|67 1|10 0|20 0|11 1|21 0",
        "0 LINE|10 0|20 0|11 0|21 0",
        "0 LINE|10 0|20 0|30 4|11 1|21 0|6 DASHED",
        "0 LWPOLYLINE|43 0.5|10 0|20 0|10 1|20 1",
        "0 LWPOLYLINE|10 0|20 0",
        "0 INSERT|2 A|10 0|20 0|66 1|0 ATTRIB|1 name|0 SEQEND",
        "0 HATCH|10 0|20 0",
        "0 TEXT|10 0|20 0",
        "0 TEXT|10 0|20 0",
    ];
    let drawing = read(&file(MM, "0 BLOCK|2 A|0 ENDBLK", &entities.join("|")));
    assert_eq!(drawing.paths.len(), 3);
    assert_eq!(
        drawing.notes,
        [
            "skipped, since they are no lines: 1 ATTRIB, 1 HATCH, 2 TEXT; to stitch them, explode them or trace them in the drawing program",
            "1 entity skipped that the drawing hides",
            "1 entity skipped in paper space; only model space is drawn",
            "2 lines without length skipped",
            "1 entity with a height above the page, z, which is dropped",
            "1 line with dashes: drawn as whole lines",
            "1 line with a width: drawn along the middle",
        ]
    );
    assert!(refused(&file(MM, "", "")).starts_with("nothing is drawn; give a drawing with"));
    let texts = refused(&file(MM, "", "0 TEXT|1 hello"));
    assert!(
        texts.contains("that can be stitched: skipped, since they are no lines: 1 TEXT"),
        "{texts}"
    );
}

#[test]
fn numbers_beyond_all_bounds_are_refused() {
    for (entity, part) in [
        ("0 LINE|10 1e308|20 0|11 0|21 0", "a point lies at 1.00e308"),
        (
            "0 LINE|10 nan|20 0|11 0|21 0",
            "group 10 of LINE is \"nan\"",
        ),
        ("0 ARC|10 0|20 0|40 1e308|50 0|51 9", "a point lies at"),
        (
            "0 CIRCLE|10 0|20 0|40 1e300|210 1e308|220 1e308|230 1",
            "a point lies at",
        ),
        (
            "0 LWPOLYLINE|10 0|20 0|42 1e308|10 9|20 0",
            "a point lies at",
        ),
        (
            "0 LWPOLYLINE|38 1e308|210 1|10 0|20 0|10 9|20 0",
            "a point lies at",
        ),
        (
            "0 ELLIPSE|10 0|20 0|11 1e308|21 1e308|40 1e308",
            "a point lies at",
        ),
        ("0 LINE|10 0|20 0|11 1|21", "group 21 of LINE is \"\""),
    ] {
        let error = refused(&file(MM, "", entity));
        assert!(error.contains(part), "{entity}: {error}");
        let row: usize = error
            .split(':')
            .next()
            .and_then(|row| row.parse().ok())
            .expect("a row");
        assert!(row > 10, "{error}");
    }
    let blocks = format!("0 BLOCK|2 A|{LINE}|0 ENDBLK");
    for insert in ["41 1e300|42 1e300", "41 1e10", "70 5|44 1e308"] {
        let error = refused(&file(
            MM,
            &blocks,
            &format!("0 INSERT|2 A|10 9|20 9|{insert}"),
        ));
        assert!(error.contains("a point lies at"), "{insert}: {error}");
    }
    // In metres the same numbers are beyond, in millimetres they are not.
    let far = "0 LINE|10 0|20 0|11 1e8|21 0";
    assert!(read_dxf(file("9 $INSUNITS|70 6", "", far).as_bytes(), None).is_err());
    assert_eq!(drawn(far).paths.len(), 1);
}

#[test]
fn parts_in_another_order_or_without_their_ends_are_read() {
    let text = "0\nSECTION\n2\nENTITIES\n0\nINSERT\n2\nA\n10\n0\n20\n0\n0\nSECTION\n2\nBLOCKS\n\
                0\nBLOCK\n2\nA\n0\nLINE\n10\n0\n20\n0\n11\n1\n21\n0\n0\nENDSEC\n0\nEOF\nrubbish";
    assert_eq!(read(text).paths[0].path.to_svg(), "M0,0 L1,0");
}
