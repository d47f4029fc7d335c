//! SVG out, by way of the library's writer: a point list as a drawing at true size.

use quiltpath_core::Error;
use quiltpath_core::io::json::PointList;
use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
use quiltpath_core::io::svg_write::WriteOptions;

/// The paths of a list as an SVG drawing; `smooth_mm` fits curves that stay this close.
pub(crate) fn to_svg(
    list: &PointList,
    smooth_mm: Option<f64>,
    title: Option<&str>,
) -> Result<String, Error> {
    let options = LineOptions {
        svg: WriteOptions {
            smooth: smooth_mm.map(|mm| mm / list.unit.in_mm()),
            title,
            ..WriteOptions::default()
        },
        ..LineOptions::default()
    };
    write_lines(list, LineFormat::Svg, &options)
}
