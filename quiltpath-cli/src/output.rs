//! Drawings out: in any format of the library, to a file or to stdout.

use std::path::{Path, PathBuf};

use quiltpath_core::io::gcode::GcodeOptions;
use quiltpath_core::io::json::PointList;
use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
use quiltpath_core::io::svg_write::WriteOptions;

use crate::failure::Failure;
use crate::files::{check_free, is_stream, print, save};

/// What only some formats can show; lengths in millimetres.
#[derive(Debug, Default)]
pub(crate) struct Style {
    /// Curves that stay this close.
    pub(crate) smooth_mm: Option<f64>,
    /// How far to move in a minute.
    pub(crate) feed_mm: Option<f64>,
    /// SVG: dots of this diameter at the points, on a thin line.
    pub(crate) dots_mm: Option<f64>,
}

/// Where a drawing goes, and how.
#[derive(Debug)]
pub(crate) struct Target {
    path: PathBuf,
    format: LineFormat,
    force: bool,
    style: Style,
}

impl Target {
    /// Checks that the place is free; without a format the end of the file's name tells it.
    pub(crate) fn new(
        path: PathBuf,
        format: Option<LineFormat>,
        force: bool,
        style: Style,
    ) -> Result<Self, Failure> {
        let Some(format) = format.or_else(|| format_of(&path)) else {
            return Err(Failure::Usage(if is_stream(&path) {
                format!("--out -: say what to write by --format {}", or(""))
            } else {
                format!(
                    "--out {}: end the name in {}, or say what to write by --format",
                    path.display(),
                    or(".")
                )
            }));
        };
        if style.smooth_mm.is_some() && format != LineFormat::Svg {
            return Err(Failure::Usage(
                "--smooth: only SVG has curves; write SVG or leave it out".to_owned(),
            ));
        }
        if style.feed_mm.is_some() && format != LineFormat::Gcode {
            return Err(Failure::Usage(
                "--feed: only G-code has a feed; write G-code or leave it out".to_owned(),
            ));
        }
        if !is_stream(&path) {
            check_free(&path, force)?;
        }
        Ok(Self {
            path,
            format,
            force,
            style,
        })
    }

    /// Writes these paths.
    pub(crate) fn write(&self, list: &PointList) -> Result<(), Failure> {
        let in_unit = |mm: Option<f64>| mm.map(|mm| mm / list.unit.in_mm());
        let options = LineOptions {
            svg: WriteOptions {
                smooth: in_unit(self.style.smooth_mm),
                dots: in_unit(self.style.dots_mm),
                // A third of the dots: both are seen.
                stroke_width: in_unit(self.style.dots_mm).map(|width| width / 3.0),
                ..WriteOptions::default()
            },
            gcode: GcodeOptions {
                feed: in_unit(self.style.feed_mm),
                ..GcodeOptions::default()
            },
        };
        let text = write_lines(list, self.format, &options)?;
        if is_stream(&self.path) {
            print(text.as_bytes())
        } else {
            save(&self.path, self.force, text.as_bytes())
        }
    }
}

fn format_of(path: &Path) -> Option<LineFormat> {
    LineFormat::of_ending(path.extension()?.to_str()?)
}

/// The names of all formats as words to choose from, each after this.
fn or(before: &str) -> String {
    let names = LineFormat::ALL.map(|format| format!("{before}{}", format.name()));
    let [first @ .., last] = &names;
    format!("{} or {last}", first.join(", "))
}
