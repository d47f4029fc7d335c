//! DXF in, held against ezdxf (PyPI, 1.4.5): each entity of two files, as many lines, as long, in
//! the same box, from the same start to the same end. `references/dxf.py` made files and numbers.

use std::collections::BTreeMap;
use std::path::Path;

use kurbo::{BezPath, ParamCurve, Point, Shape};
use quiltpath_core::geom::Bounds;
use quiltpath_core::geom::curve_bounds::curve_bounds;
use quiltpath_core::io::NamedLine;
use quiltpath_core::io::dxf::write_dxf;
use quiltpath_core::io::dxf_read::{DxfPath, read_dxf};
use quiltpath_core::units::Unit;
use serde_json::Value;

/// Of the size of an entity: cubics are a millionth of a radius off, or of a spline's size.
const OFF: f64 = 2e-6;

fn numbers(value: &Value) -> Vec<f64> {
    let list = value.as_array().expect("a list");
    list.iter()
        .map(|number| number.as_f64().expect("a number"))
        .collect()
}

fn ends(path: &BezPath) -> [Point; 2] {
    let mut segments = path.segments();
    let first = segments.next().expect("a segment");
    [first.start(), segments.last().unwrap_or(first).end()]
}

fn bounds(paths: &[&DxfPath]) -> Bounds {
    let boxes = paths.iter().filter_map(|drawn| curve_bounds(&drawn.path));
    boxes.reduce(|one, other| one.union(&other)).expect("drawn")
}

#[test]
fn entities_are_drawn_as_ezdxf_draws_them() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("references");
    let text = std::fs::read_to_string(folder.join("dxf.json")).expect("numbers");
    let references: Value = serde_json::from_str(&text).expect("JSON");
    let mut compared = 0;
    for (name, layers) in references.as_object().expect("files") {
        let bytes = std::fs::read(folder.join("dxf").join(name)).expect("a drawing");
        // Release 12 has no unit.
        let drawing = read_dxf(&bytes, Some(Unit::Mm)).expect(name);
        assert!(drawing.notes.is_empty(), "{:?}", drawing.notes);
        let unit = if name == "r12.dxf" {
            Unit::Mm
        } else {
            Unit::In
        };
        assert_eq!(drawing.unit, unit);
        let mut found: BTreeMap<&str, Vec<&DxfPath>> = BTreeMap::new();
        for drawn in &drawing.paths {
            found.entry(&drawn.layer).or_default().push(drawn);
        }
        let layers = layers.as_object().expect("layers");
        assert_eq!(found.len(), layers.len());
        for (layer, wanted) in layers {
            let paths = &found[layer.as_str()];
            let near = |a: f64, b: f64, size: f64, what: &str| {
                let off = (a / unit.in_mm() - b).abs();
                assert!(off <= OFF * size, "{name} {layer}: {what} {a} {b}");
            };
            assert_eq!(
                paths.len() as u64,
                wanted["lines"].as_u64().expect("a number")
            );
            let length = wanted["length"].as_f64().expect("a number");
            let ours = paths.iter().map(|drawn| drawn.path.perimeter(1e-7));
            near(ours.sum(), length, length, "length");
            let ours = bounds(paths);
            let wanted_box = numbers(&wanted["box"]);
            let ours = [ours.min.x, -ours.max.y, ours.max.x, -ours.min.y];
            for (a, b) in ours.into_iter().zip(wanted_box) {
                near(a, b, length, "box");
            }
            if let Some(wanted) = wanted["ends"].as_array() {
                for (ours, wanted) in ends(&paths[0].path).iter().zip(wanted) {
                    let wanted = numbers(wanted);
                    near(ours.x, wanted[0], 1.0, "x");
                    near(-ours.y, wanted[1], 1.0, "y");
                }
            }
            compared += 1;
        }
    }
    assert!(compared > 25, "{compared}");
}

#[test]
fn what_is_written_comes_back() {
    use quiltpath_core::geom::Point;
    let leaf = [
        Point::new(0.5, -1.25),
        Point::new(3.0, 4.0),
        Point::new(-7.125, 0.0),
    ];
    let stem = [Point::new(0.0, 0.0), Point::new(0.0, 100.0)];
    for &unit in Unit::ALL {
        let mut dxf = String::new();
        let lines = [NamedLine::new("leaf", &leaf), NamedLine::new("stem", &stem)];
        write_dxf(&mut dxf, unit, &lines).expect("written");
        let drawing = read_dxf(dxf.as_bytes(), None).expect("read");
        assert!(drawing.notes.is_empty() && drawing.unit.is_metric() == unit.is_metric());
        for (line, drawn) in lines.iter().zip(&drawing.paths) {
            assert_eq!(drawn.layer, line.name);
            let points: Vec<_> = drawn
                .path
                .elements()
                .iter()
                .filter_map(|el| el.end_point())
                .collect();
            assert_eq!(points.len(), line.points.len());
            for (point, wanted) in points.iter().zip(line.points) {
                let wanted = wanted * unit.in_mm();
                let off = point.distance((wanted.x, wanted.y).into());
                assert!(off < 25.4e-4, "{point} {wanted}");
            }
        }
    }
}
