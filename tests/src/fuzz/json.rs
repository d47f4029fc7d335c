//! Everything that is read from JSON, and back.

use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::json::{
    PointList, read_plan, read_point_lines, read_points, write_plan, write_point_line, write_points,
};
use quiltpath_core::units::Unit;

use super::dice::{finite, told};

/// The first byte says which reader.
pub(super) fn json(data: &[u8]) {
    let Some((&which, data)) = data.split_first() else {
        return;
    };
    match which % 5 {
        0 => points(data, None),
        1 => points(data, Some(Unit::In)),
        2 => lines(data),
        3 => plan(data),
        _ => drawing(data),
    }
}

fn checked(list: &PointList) {
    for path in &list.paths {
        finite(&path.points);
        match path.motif("m") {
            Ok(motif) => finite(motif.points()),
            Err(error) => told(&error),
        }
    }
}

fn points(data: &[u8], unit: Option<Unit>) {
    match read_points(data, unit) {
        Err(error) => told(&error),
        Ok(list) => {
            checked(&list);
            let text = write_points(&list).expect("points that were read");
            let back = read_points(text.as_bytes(), None).expect("own output");
            assert_eq!(back, list);
            assert_eq!(write_points(&back), Ok(text));
        }
    }
}

fn lines(data: &[u8]) {
    match read_point_lines(data, Some(Unit::Mm)) {
        Err(error) => told(&error),
        Ok(list) => {
            checked(&list);
            let line = |path| write_point_line(list.unit, path).expect("points that were read");
            let text: String = list.paths.iter().map(line).collect();
            let back = read_point_lines(text.as_bytes(), None).expect("own output");
            assert_eq!(back, list);
        }
    }
}

fn plan(data: &[u8]) {
    match read_plan(data) {
        Err(error) => told(&error),
        Ok(plan) => {
            let text = write_plan(&plan);
            let back = read_plan(text.as_bytes()).expect("own output");
            assert_eq!(back, plan, "{text}");
            assert_eq!(write_plan(&back), text);
        }
    }
}

fn drawing(data: &[u8]) {
    let options = ReadOptions::default()
        .with_unit(Some(Unit::Cm))
        .with_gaps(quiltpath_core::strokes::Gaps::Link);
    for name in ["a.json", "a.jsonl"] {
        match LineDrawing::read(name, data, &options) {
            Err(error) => told(&error),
            Ok(drawing) => {
                let _ = drawing.clone().motifs(&options);
                let _ = drawing.clone().joined(&options);
                let _ = drawing.motif(Unit::Mm, &options);
            }
        }
    }
}
