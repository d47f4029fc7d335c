//! Drawing paper, drawn on and photographed: turned, tilted, shaded, packed.

use image::GrayImage;
use quiltpath_core::geom::{Bounds, Point};
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::paper::Paper;
use quiltpath_core::io::picture_read::read_picture;
use quiltpath_core::io::template::write_blank;
use quiltpath_core::leg::{LegGiven, rough_legs};
use quiltpath_core::raster::{Blank, BlankKind, Scan, ScanOptions, scan};
use quiltpath_core::strokes::{LineEnds, OneLineOptions};
use quiltpath_core::units::Unit;

use crate::picture::{grey, jpeg, look, noisy, render, shaded, warped};
use crate::truth::{DRAWINGS, held_against, points};

/// Path data, in millimetres from the band's top left, on a sheet of paper as its printer draws it.
pub(crate) fn sheet(blank: &Blank, paper: Paper, data: &str, pen: f64, dpi: f64) -> GrayImage {
    let mut page = String::new();
    write_blank(&mut page, Unit::Mm, blank, paper).expect("a page");
    let svg = page.split_once("<svg").expect("a drawing").1;
    let svg = svg.split_once("</svg>").expect("its end").0;
    // The band begins 8 mm right of the ring's middle and 8 mm below it.
    let drawn = format!(
        "<svg{svg}<g transform='translate(8 8)'><path d='{data}' fill='none' stroke='#223' \
         stroke-width='{pen}' stroke-linecap='round' stroke-linejoin='round'/></g></svg>"
    );
    render(&drawn, dpi)
}

/// The sheet as a camera half a metre away sees it, tilted by this about a line of this direction
/// and turned by a third angle, all in degrees.
pub(crate) fn photo(
    sheet: &GrayImage,
    dpi: f64,
    [tilt, about, turn]: [f64; 3],
    around: f64,
) -> GrayImage {
    const AWAY_MM: f64 = 500.0;
    let [tilt, about, turn] = [tilt, about, turn].map(f64::to_radians);
    let axis = nalgebra::Unit::new_normalize(nalgebra::Vector3::new(about.cos(), about.sin(), 0.0));
    let lies = nalgebra::Rotation3::from_axis_angle(&axis, tilt)
        * nalgebra::Rotation3::from_axis_angle(&nalgebra::Vector3::z_axis(), turn);
    let [right, down, out] = [
        nalgebra::Vector3::x(),
        nalgebra::Vector3::y(),
        nalgebra::Vector3::z(),
    ]
    .map(|to| lies * to);
    let centre = nalgebra::Vector3::new(0.0, 0.0, AWAY_MM);
    let focal = AWAY_MM * dpi / 25.4;
    let (wide, high) = (f64::from(sheet.width()), f64::from(sheet.height()));
    let side = (1.25 * wide.hypot(high)) as u32;
    let back = |pixel: Point| {
        let from = (pixel - Point::new(0.5, 0.5) * f64::from(side)) / focal;
        let ray = nalgebra::Vector3::new(from.x, from.y, 1.0);
        let place = ray * (centre.dot(&out) / ray.dot(&out)) - centre;
        let mm = nalgebra::Vector2::new(place.dot(&right), place.dot(&down));
        Point::new(wide / 2.0, high / 2.0) + mm * (dpi / 25.4)
    };
    warped(sheet, [side, side], back, around)
}

fn read(name: &str, picture: &GrayImage) -> Scan {
    let picture = read_picture(&jpeg(picture, 60)).expect("a picture");
    let found = scan(name, &picture, &ScanOptions::default());
    let found = found.unwrap_or_else(|error| panic!("{name}: {error}"));
    look(name, &picture, &found);
    found
}

#[test]
fn a_photo_of_the_paper_has_its_true_size() {
    let blank = Blank::new(BlankKind::Repeat, 80.0, 130.0).expect("a blank");
    let scroll = &DRAWINGS[0];
    assert_eq!(scroll.size, [130.0, 80.0]);
    let truth = scroll.points();
    let all = std::env::var("QUILTPATH_SCANS").is_ok_and(|value| value == "all");
    let views = [
        [20.0, 30.0, 0.0],
        [12.0, 100.0, 184.0],
        [20.0, 200.0, 95.0],
        [5.0, 300.0, 271.0],
        [20.0, 90.0, 40.0],
        [20.0, 0.0, 10.0],
    ];
    for (at, view) in views.into_iter().enumerate() {
        if at > 2 && !all {
            break;
        }
        let (dpi, pen) = [(200.0, 0.6), (300.0, 0.4), (200.0, 1.2)][at % 3];
        let name = format!("photo-{at}");
        let picture = photo(
            &sheet(&blank, Paper::A4, scroll.data, pen, dpi),
            dpi,
            view,
            170.0,
        );
        let found = read(&name, &noisy(&shaded(&picture), 5.0));
        assert_eq!(found.report.blank, Some(blank), "{name}");
        let off = held_against(&found.drawing, &truth, pen);
        println!("{name}: {off:?}");
        assert!(
            off.most <= 0.15 && off.worst <= 0.6 && off.missed <= 0.6,
            "{name}: {off:?}"
        );
        let size = |bounds: Option<Bounds>| bounds.expect("lines").size();
        let [is, should] = [size(found.drawing.bounds()), size(bounds_of(&truth))];
        for axis in [0, 1] {
            let ratio = is[axis] / should[axis];
            assert!((ratio - 1.0).abs() < 0.003, "{name}: {ratio}");
        }
    }
}

fn bounds_of(points: &[Point]) -> Option<Bounds> {
    let line = quiltpath_core::geom::Polyline::new(points.to_vec());
    Some(line.expect("a line").bounds())
}

#[test]
fn the_demo_corner_drawn_on_paper_becomes_one_line() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../fixtures/demo/corner.svg");
    let svg = std::fs::read(path).expect("the demo corner");
    let options = ReadOptions::default();
    let drawing = LineDrawing::read("corner.svg", &svg, &options).expect("a drawing");
    let line = drawing.motif(Unit::Mm, &options).expect("one line").motif;
    let bounds = line.bounds();
    let factor = 150.0 / bounds.width().max(bounds.height());
    let place = |point: &Point| {
        let at = (point - bounds.min) * factor;
        format!("{} {}", at.x, at.y)
    };
    let data: Vec<String> = line.points().iter().map(place).collect();
    let data = format!("M{}", data.join("L"));
    let blank = Blank::new(BlankKind::Corner, 70.0, 150.0).expect("a blank");
    let found = read(
        "corner",
        &noisy(&sheet(&blank, Paper::A4, &data, 0.6, 200.0), 4.0),
    );
    assert_eq!(found.report.blank, Some(blank));
    let off = held_against(&found.drawing, &points(&data), 0.6);
    println!("corner: {off:?}");
    assert!(
        off.most <= 0.15 && off.worst <= 0.6 && off.missed <= 0.6,
        "{off:?}"
    );
    let legs = rough_legs(&found.drawing, &LegGiven::default()).expect("an L");
    let ends = OneLineOptions::default().with_ends(LineEnds::Legs(legs));
    let lines = found.drawing.lines(&ends).expect("one line");
    let report = lines.report;
    println!("{report:?}");
    assert_eq!((lines.motifs.len(), report.links), (1, 0));
    assert!(report.retraced_share() <= 0.03, "{report:?}");
}

/// The paper upside down is the same drawing: the ring tells where its top is.
#[test]
fn upside_down_is_no_matter() {
    let blank = Blank::new(BlankKind::Repeat, 60.0, 120.0).expect("a blank");
    let picture = sheet(
        &blank,
        Paper::A4,
        "M0 30 C 30 0 60 60 120 30 M 20 10 V 18",
        0.7,
        200.0,
    );
    let way = scan("up", &grey(&picture), &ScanOptions::default()).expect("a drawing");
    let turned = grey(&image::imageops::rotate180(&picture));
    let other = scan("down", &turned, &ScanOptions::default()).expect("a drawing");
    let [one, two] = [way, other].map(|found| found.drawing.bounds().expect("lines"));
    assert!((one.min - two.min).norm() < 0.1 && (one.max - two.max).norm() < 0.1);
    assert!((one.min.y - 10.0).abs() < 0.2, "{one:?}");
}
