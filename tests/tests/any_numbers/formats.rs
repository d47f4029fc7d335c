//! Lines in every format, with points that are none.

use quiltpath_core::io::NamedLine;
use quiltpath_core::io::dxf::write_dxf;
use quiltpath_core::io::gcode::{GcodeOptions, write_gcode};
use quiltpath_core::io::json::{
    PointList, PointPath, read_point_line, read_points, write_point_line, write_points,
};
use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
use quiltpath_core::io::paper::Paper;
use quiltpath_core::io::svg_write::WriteOptions;
use quiltpath_core::io::template::write_template;
use quiltpath_core::motif::Motif;
use quiltpath_core::units::Unit;

use crate::panics::{Panics, told};
use crate::samples::{bounds, points};

#[test]
fn formats() {
    let mut panics = Panics::default();
    panics.two("lines", |a, b| {
        for list in [
            points(&[(0.0, 0.0), (a, b), (5.0, b)]),
            points(&[(a, b)]),
            Vec::new(),
        ] {
            let paths = vec![PointPath::new(list.clone()), PointPath::new(Vec::new())];
            let list_of = PointList::new(Unit::In, paths);
            let usual = WriteOptions::default();
            let mut page = bounds(a, b);
            page.min.x = b;
            for svg in [
                usual,
                usual.with_smooth(Some(a)),
                usual.with_stroke_width(Some(a)).with_dots(Some(b)),
                usual.with_page(Some(page)),
            ] {
                let options = LineOptions::default()
                    .with_svg(svg)
                    .with_gcode(GcodeOptions::default().with_feed(Some(a)));
                for format in LineFormat::ALL {
                    told(write_lines(&list_of, *format, &options));
                }
            }
            told(write_points(&list_of));
            told(write_point_line(Unit::Mm, &list_of.paths[0]));
            let named = [NamedLine::new("a", &list)];
            told(write_dxf(&mut String::new(), Unit::In, &named));
            told(write_gcode(
                &mut String::new(),
                Unit::In,
                &named,
                &GcodeOptions::default(),
            ));
        }
        let motif = Motif::from_points("a", points(&[(0.0, 0.0), (a, b)]));
        if let Some(motif) = told(motif) {
            for paper in [Paper::Letter, Paper::A4] {
                told(write_template(
                    &mut String::new(),
                    Unit::Mm,
                    "a",
                    std::slice::from_ref(&motif),
                    paper,
                ));
            }
        }
        let text = format!("[[{a:e},{b:e}],[1e999,-1e-999],[0,18446744073709551616]]");
        told(read_points(text.as_bytes(), Some(Unit::Yd)));
        told(read_point_line(&text, Some(Unit::Yd)));
    });
    panics.none();
}
