//! A plan with the place that its motifs are read from.

use std::path::{Path, PathBuf};

use quiltpath_core::Error;
use quiltpath_core::io::drawing::ReadOptions;
use quiltpath_core::io::json::read_plan;
use quiltpath_core::plan::{
    MotifRequest, PlanSpec, Ranker, Solved, Stitched, Stitching, solve_around, stitch_plan,
};
use quiltpath_core::strokes::Drawing;
use quiltpath_core::units::Unit;

use crate::drawing;
use crate::failure::{Failure, reason};
use crate::files::{folder_of, label, read, read_file};

/// A plan with the folder that its motifs' paths start from.
pub(crate) struct Source {
    pub(crate) spec: PlanSpec,
    pub(crate) folder: PathBuf,
    /// The plan's file, when it has one.
    pub(crate) file: Option<String>,
}

impl Source {
    /// The plan in this file, or from stdin.
    pub(crate) fn open(path: &Path) -> Result<Self, Failure> {
        let spec = read_plan(&read(path)?).map_err(|e| Failure::Plan(e.in_file(label(path))))?;
        Ok(Self {
            spec,
            folder: folder_of(path).to_owned(),
            file: Some(label(path)),
        })
    }

    /// The plan solved round what is stitched, which may be nothing.
    pub(crate) fn solve(&self, stitched: &Stitched) -> Result<Solved, Failure> {
        let load = |request: &MotifRequest| self.drawing(request);
        solve_around(&self.spec, stitched, load).map_err(|e| self.failure(e))
    }

    /// The solved plan brought to the machine.
    pub(crate) fn stitch(&self, solved: &Solved) -> Result<Stitching, Failure> {
        stitch_plan(&self.spec, solved).map_err(|e| self.failure(e))
    }

    /// The plan made ready to try repeats on.
    pub(crate) fn ranker(&self) -> Result<Ranker, Failure> {
        let load = |request: &MotifRequest| self.drawing(request);
        Ranker::new(&self.spec, load).map_err(|e| self.failure(e))
    }

    /// An error of the plan; options made it where it has no file.
    fn failure(&self, error: Error) -> Failure {
        match &self.file {
            Some(file) => Failure::Plan(error.in_file(file.clone())),
            None => error.into(),
        }
    }

    /// The drawing that the plan names.
    pub(crate) fn drawing(&self, request: &MotifRequest) -> Result<Drawing, Error> {
        let options = ReadOptions::default()
            .with_unit(Some(self.spec.unit.into()))
            .with_layers(&request.layers);
        let path = self.path(&request.name);
        let bytes = read_file(&path).map_err(|error| {
            let reason = format!("{}: {}", label(&path), reason(&error));
            Error::motif_unreadable(&request.name, reason)
        })?;
        let layers = match self.file {
            Some(_) => "\"layers\" beside the motif in the plan",
            None => drawing::LAYER,
        };
        let drawing = drawing::parse(&path, &bytes, &options, layers);
        let strokes = drawing.and_then(|drawing| drawing.strokes(Unit::Mm));
        let strokes = strokes.map_err(|e| e.in_file(label(&path)))?;
        Ok(strokes.with_file(label(&path)))
    }

    /// Where the motif of this name lies.
    pub(crate) fn path(&self, name: &str) -> PathBuf {
        if self.folder == Path::new(".") {
            PathBuf::from(name)
        } else {
            self.folder.join(name)
        }
    }
}
