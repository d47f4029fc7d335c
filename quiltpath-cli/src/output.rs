//! Drawings out: as SVG, JSON or JSON Lines, to a file or to stdout.

use std::path::{Path, PathBuf};

use quiltpath_core::io::json::{PointList, PointPath, write_point_line, write_points};

use crate::failure::Failure;
use crate::files::{check_free, is_stream, print, save};
use crate::svg::to_svg;

/// The kinds of drawing that can be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Svg,
    Json,
    JsonLines,
}

impl Kind {
    /// The kind that the end of a file's name stands for.
    fn of(path: &Path) -> Option<Self> {
        let end = path.extension()?.to_str()?.to_ascii_lowercase();
        match end.as_str() {
            "svg" => Some(Self::Svg),
            "json" => Some(Self::Json),
            "jsonl" | "ndjson" => Some(Self::JsonLines),
            _ => None,
        }
    }
}

/// Where a drawing goes.
#[derive(Debug)]
pub(crate) struct Target {
    path: PathBuf,
    kind: Kind,
    force: bool,
    smooth_mm: Option<f64>,
}

impl Target {
    pub(crate) fn new(
        path: PathBuf,
        kind: Option<Kind>,
        force: bool,
        smooth_mm: Option<f64>,
    ) -> Result<Self, Failure> {
        let Some(kind) = kind.or_else(|| Kind::of(&path)) else {
            return Err(Failure::Usage(if is_stream(&path) {
                "--out -: say what to write by --format svg, json or jsonl".to_owned()
            } else {
                format!(
                    "--out {}: end the name in .svg, .json or .jsonl, or say what to write by --format",
                    path.display()
                )
            }));
        };
        if smooth_mm.is_some() && kind != Kind::Svg {
            return Err(Failure::Usage(
                "--smooth: only SVG has curves; write SVG or leave it out".to_owned(),
            ));
        }
        if !is_stream(&path) {
            check_free(&path, force)?;
        }
        Ok(Self {
            path,
            kind,
            force,
            smooth_mm,
        })
    }

    /// Writes these paths.
    pub(crate) fn write(&self, list: &PointList) -> Result<(), Failure> {
        let text = match self.kind {
            Kind::Svg => to_svg(list, self.smooth_mm, None)?,
            Kind::Json => write_points(list),
            Kind::JsonLines => list
                .paths
                .iter()
                .map(|path: &PointPath| write_point_line(list.unit, path))
                .collect(),
        };
        if is_stream(&self.path) {
            print(text.as_bytes())
        } else {
            save(&self.path, self.force, text.as_bytes())
        }
    }
}
