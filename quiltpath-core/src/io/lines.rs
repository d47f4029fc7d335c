//! Lines out in any format: which formats there are, and one call that writes each of them.

use super::NamedLine;
use super::dxf::write_dxf;
use super::gcode::{GcodeOptions, write_gcode};
use super::json::{PointList, PointPath, write_point_line, write_points};
use super::svg_write::{SvgPath, WriteOptions, write_svg};
use crate::error::Error;

/// A format that lines can be written in.
///
/// ```
/// use quiltpath_core::io::lines::LineFormat;
///
/// assert_eq!(LineFormat::of_ending("NC"), Some(LineFormat::Gcode));
/// assert_eq!(LineFormat::Gcode.name(), "gcode");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum LineFormat {
    /// A drawing at true size, one path for each line.
    Svg,
    /// One JSON point list.
    Json,
    /// JSON Lines: a point list a line, one for each line.
    JsonLines,
    /// ASCII DXF, release 12, one polyline for each line.
    Dxf,
    /// Plain moves as in ISO 6983.
    Gcode,
}

impl LineFormat {
    /// All formats, in the order in which messages list them.
    pub const ALL: &'static [Self] = &[
        Self::Svg,
        Self::Json,
        Self::JsonLines,
        Self::Dxf,
        Self::Gcode,
    ];

    /// The short name, which is also how the names of its files end.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.endings()[0]
    }

    /// How the names of its files may end, without the dot, the usual one first.
    #[must_use]
    pub const fn endings(self) -> &'static [&'static str] {
        match self {
            Self::Svg => &["svg"],
            Self::Json => &["json"],
            Self::JsonLines => &["jsonl", "ndjson"],
            Self::Dxf => &["dxf"],
            Self::Gcode => &["gcode", "nc"],
        }
    }

    /// The format of files whose names end so, in capitals or small letters, without the dot.
    #[must_use]
    pub fn of_ending(ending: &str) -> Option<Self> {
        let fits = |known: &&str| known.eq_ignore_ascii_case(ending);
        let mut all = Self::ALL.iter().copied();
        all.find(|format| format.endings().iter().any(fits))
    }
}

/// How to write lines; lengths in their unit. What a format has no use for is skipped.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct LineOptions<'a> {
    /// How an SVG drawing is written.
    pub svg: WriteOptions<'a>,
    /// How moves are written.
    pub gcode: GcodeOptions,
}

impl<'a> LineOptions<'a> {
    /// The same options with these for SVG drawings.
    #[must_use]
    pub fn with_svg(mut self, svg: WriteOptions<'a>) -> Self {
        self.svg = svg;
        self
    }

    /// The same options with these for moves.
    #[must_use]
    pub fn with_gcode(mut self, gcode: GcodeOptions) -> Self {
        self.gcode = gcode;
        self
    }
}

/// Writes these lines in a format.
///
/// A line without a name gets its number as one, `path-1`, where the format needs a name. Numbers
/// go out as they are in JSON, and in steps of 1e-4 of the file's unit elsewhere.
///
/// ```
/// use quiltpath_core::io::json::{PointList, PointPath};
/// use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
/// use quiltpath_core::{geom::Point, units::Unit};
///
/// let points = vec![Point::new(0.0, 0.0), Point::new(4.5, 0.25)];
/// let list = PointList::new(Unit::In, vec![PointPath::new(points).with_name("leaf")]);
/// for format in LineFormat::ALL {
///     let text = write_lines(&list, *format, &LineOptions::default())?;
///     assert!(text.contains("leaf") && text.contains("4.5"));
/// }
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`write_points`], [`write_svg`], [`write_dxf`] and [`write_gcode`].
///
/// # Complexity
///
/// O(points); O(points log points) for smooth SVG.
pub fn write_lines(
    list: &PointList,
    format: LineFormat,
    options: &LineOptions<'_>,
) -> Result<String, Error> {
    let unit = list.unit;
    let mut text = String::new();
    match format {
        LineFormat::Json => text = write_points(list)?,
        LineFormat::JsonLines => {
            for path in &list.paths {
                text += &write_point_line(unit, path)?;
            }
        }
        LineFormat::Svg => {
            let names = names(&list.paths);
            let paths: Vec<SvgPath<'_>> = named(&list.paths, &names)
                .map(|line| SvgPath {
                    id: line.name,
                    title: None,
                    points: line.points,
                })
                .collect();
            write_svg(&mut text, unit, &paths, &options.svg)?;
        }
        LineFormat::Dxf | LineFormat::Gcode => {
            let names = names(&list.paths);
            let lines: Vec<NamedLine<'_>> = named(&list.paths, &names).collect();
            match format {
                LineFormat::Dxf => write_dxf(&mut text, unit, &lines)?,
                _ => write_gcode(&mut text, unit, &lines, &options.gcode)?,
            }
        }
    }
    Ok(text)
}

fn names(paths: &[PointPath]) -> Vec<String> {
    let numbered = paths.iter().zip(1..).map(|(path, number)| {
        let name = path.name.clone();
        name.unwrap_or_else(|| format!("path-{number}"))
    });
    numbered.collect()
}

fn named<'a>(paths: &'a [PointPath], names: &'a [String]) -> impl Iterator<Item = NamedLine<'a>> {
    paths.iter().zip(names).map(|(path, name)| NamedLine {
        name,
        points: &path.points,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::units::Unit;

    fn list(names: &[Option<&str>]) -> PointList {
        let paths = names.iter().zip(0..).map(|(name, number)| PointPath {
            name: name.map(str::to_owned),
            points: vec![Point::new(0.0, f64::from(number)), Point::new(1.0, 2.0)],
        });
        PointList {
            unit: Unit::Mm,
            paths: paths.collect(),
        }
    }

    fn written(list: &PointList, format: LineFormat) -> String {
        write_lines(list, format, &LineOptions::default()).expect("written")
    }

    #[test]
    fn each_ending_stands_for_one_format() {
        let all = LineFormat::ALL;
        for &format in all {
            for ending in format.endings() {
                assert_eq!(LineFormat::of_ending(ending), Some(format));
                let capitals = ending.to_ascii_uppercase();
                assert_eq!(LineFormat::of_ending(&capitals), Some(format));
            }
        }
        let endings = all.iter().flat_map(|format| format.endings());
        let mut endings: Vec<_> = endings.collect();
        endings.sort();
        endings.dedup();
        assert_eq!(endings.len(), 7);
        for none in ["", "dx", "txt", ".svg"] {
            assert_eq!(LineFormat::of_ending(none), None);
        }
    }

    #[test]
    fn a_line_without_a_name_gets_its_number_where_one_is_needed() {
        let list = list(&[Some("leaf"), None]);
        assert!(written(&list, LineFormat::Svg).contains("id=\"path-2\""));
        assert!(written(&list, LineFormat::Dxf).contains("\n8\npath-2\n"));
        assert!(written(&list, LineFormat::Gcode).contains("(path-2)\n"));
        let lines = written(&list, LineFormat::JsonLines);
        let lines: Vec<&str> = lines.lines().collect();
        assert!(lines[0].contains("\"leaf\"") && !lines[1].contains("name"));
        assert!(!written(&list, LineFormat::Json).contains("path-2"));
    }

    #[test]
    fn options_reach_the_format_that_has_them() {
        let list = list(&[Some("leaf")]);
        let options = LineOptions::default()
            .with_svg(WriteOptions::default().with_title(Some("a leaf")))
            .with_gcode(GcodeOptions::default().with_feed(Some(1500.0)));
        for &format in LineFormat::ALL {
            let text = write_lines(&list, format, &options).expect("written");
            assert_eq!(text.contains("a leaf"), format == LineFormat::Svg);
            assert_eq!(text.contains("F1500"), format == LineFormat::Gcode);
        }
    }

    #[test]
    fn what_can_not_be_written_is_refused_by_its_name() {
        let mut list = list(&[Some("leaf")]);
        list.paths[0].points.truncate(1);
        for format in [LineFormat::Svg, LineFormat::Dxf, LineFormat::Gcode] {
            let error = write_lines(&list, format, &LineOptions::default()).expect_err("no line");
            assert!(
                error
                    .to_string()
                    .starts_with("leaf: 1 point can't make a line")
            );
        }
    }
}
