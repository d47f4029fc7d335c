//! Drawings out: in any format of the library, to a file or to stdout.

use std::path::{Path, PathBuf};

use quiltpath_core::Error;
use quiltpath_core::io::gcode::GcodeOptions;
use quiltpath_core::io::json::{PointList, PointPath};
use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
use quiltpath_core::io::svg_write::WriteOptions;
use quiltpath_core::motif::Motif;
use quiltpath_core::units::Unit;

use crate::failure::Failure;
use crate::files::{Draft, check_free, is_stream, label};

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

/// Where many drawings go.
#[derive(Debug)]
pub(crate) enum Destination {
    /// All to one file, or to stdout.
    File(Target),
    /// Each to a file of its own.
    Folder(Target),
}

impl Destination {
    /// A folder, or one place for JSON Lines.
    pub(crate) fn new(
        path: PathBuf,
        format: Option<LineFormat>,
        force: bool,
        style: Style,
    ) -> Result<Self, Failure> {
        let named = format_of(&path).filter(|_| !path.is_dir());
        let lines = Some(LineFormat::JsonLines);
        if is_stream(&path) || named == lines {
            return match format.or(named) == lines {
                true => Ok(Self::File(Target::new(path, format, force, style)?)),
                false => Err(Failure::Usage(format!(
                    "--out {}: for many drawings name a folder, or write JSON Lines with --format jsonl",
                    path.display()
                ))),
            };
        }
        let Some(format) = format else {
            return Err(Failure::Usage(format!(
                "--out {}: for many drawings name a folder, and what to write there with --format {}",
                path.display(),
                or("")
            )));
        };
        style.check(format)?;
        if path.exists() && !path.is_dir() {
            return Err(Failure::File(format!(
                "{}: is a file; name a folder",
                label(&path)
            )));
        }
        Ok(Self::Folder(Target {
            path,
            format,
            force,
            style,
        }))
    }
}

impl Style {
    fn check(&self, format: LineFormat) -> Result<(), Failure> {
        if self.smooth_mm.is_some() && format != LineFormat::Svg {
            return Err(Failure::Usage(
                "--smooth: only SVG has curves; write SVG or leave it out".to_owned(),
            ));
        }
        if self.feed_mm.is_some() && format != LineFormat::Gcode {
            return Err(Failure::Usage(
                "--feed: only G-code has a feed; write G-code or leave it out".to_owned(),
            ));
        }
        Ok(())
    }
}

impl Target {
    /// Checks that the place is free; without a format the end of the file's name decides.
    pub(crate) fn new(
        path: PathBuf,
        format: Option<LineFormat>,
        force: bool,
        style: Style,
    ) -> Result<Self, Failure> {
        let Some(format) = format.or_else(|| format_of(&path)) else {
            return Err(Failure::Usage(if is_stream(&path) {
                format!("--out -: give --format {}", or(""))
            } else {
                format!(
                    "--out {}: end the name in {}, or give --format",
                    path.display(),
                    or(".")
                )
            }));
        };
        style.check(format)?;
        check_free(&path, force)?;
        Ok(Self {
            path,
            format,
            force,
            style,
        })
    }

    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    pub(crate) fn format(&self) -> LineFormat {
        self.format
    }

    /// True when files that exist are replaced.
    pub(crate) fn force(&self) -> bool {
        self.force
    }

    pub(crate) fn is_stdout(&self) -> bool {
        is_stream(&self.path)
    }

    /// A start, to be written to bit by bit.
    pub(crate) fn draft(&self) -> Result<Draft, Failure> {
        Draft::start(&self.path, self.force)
    }

    /// Writes these paths.
    pub(crate) fn write(&self, list: &PointList) -> Result<(), Failure> {
        let text = self.text(list)?;
        let mut draft = self.draft()?;
        draft.write(text.as_bytes())?;
        draft.finish()
    }

    /// These paths in the format.
    pub(crate) fn text(&self, list: &PointList) -> Result<String, Error> {
        let in_unit = |mm: Option<f64>| mm.map(|mm| mm / list.unit.in_mm());
        let dots = in_unit(self.style.dots_mm);
        let svg = WriteOptions::default()
            .with_smooth(in_unit(self.style.smooth_mm))
            .with_dots(dots)
            // A third of the dots: both are seen.
            .with_stroke_width(dots.map(|width| width / 3.0));
        let gcode = GcodeOptions::default().with_feed(in_unit(self.style.feed_mm));
        let options = LineOptions::default().with_svg(svg).with_gcode(gcode);
        write_lines(list, self.format, &options)
    }
}

fn format_of(path: &Path) -> Option<LineFormat> {
    LineFormat::of_ending(path.extension()?.to_str()?)
}

/// The names of all formats as words to choose from, each after this.
fn or(before: &str) -> String {
    let name = |format: &LineFormat| format!("{before}{}", format.name());
    let mut names: Vec<String> = LineFormat::ALL.iter().map(name).collect();
    let last = names.pop().unwrap_or_default();
    format!("{} or {last}", names.join(", "))
}

/// Motifs as a point list in their unit.
pub(crate) fn point_list(unit: Unit, motifs: &[Motif]) -> PointList {
    PointList::new(unit, motifs.iter().map(PointPath::from).collect())
}
