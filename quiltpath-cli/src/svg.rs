//! SVG out, by way of the library's writer: a point list as a drawing at true size.

use quiltpath_core::Error;
use quiltpath_core::io::json::PointList;
use quiltpath_core::io::svg_write::{SvgPath, WriteOptions, write_svg};

/// The paths of a list as an SVG drawing; `smooth_mm` fits curves that stay this close.
pub(crate) fn to_svg(
    list: &PointList,
    smooth_mm: Option<f64>,
    title: Option<&str>,
) -> Result<String, Error> {
    let names = list.paths.iter().zip(1..).map(|(path, number)| {
        let name = path.name.clone();
        name.unwrap_or_else(|| format!("path-{number}"))
    });
    let names: Vec<String> = names.collect();
    let paths = list.paths.iter().zip(&names).map(|(path, id)| SvgPath {
        id,
        title: None,
        points: &path.points,
    });
    let options = WriteOptions {
        smooth: smooth_mm.map(|mm| mm / list.unit.in_mm()),
        title,
        ..WriteOptions::default()
    };
    let mut text = String::new();
    write_svg(&mut text, list.unit, &paths.collect::<Vec<_>>(), &options)?;
    Ok(text)
}
