//! A plan with the place that its motifs are read from.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use quiltpath_core::Error;
use quiltpath_core::frame::Progress;
use quiltpath_core::io::drawing::ReadOptions;
use quiltpath_core::io::json::{QuiltFile, is_quilt, read_plan, read_quilt};
use quiltpath_core::plan::{MotifRequest, PlanSpec, Ranker, Solved, Stitching, stitch_plan};
use quiltpath_core::strokes::Drawing;
use quiltpath_core::units::Unit;
use quiltpath_core::worksheet::{Round, gather, missing, solve_round};

use crate::drawing;
use crate::failure::{Failure, reason};
use crate::files::{folder_of, label, read, read_file};

/// A plan with the folder that its motifs' paths start from.
pub(crate) struct Source {
    pub(crate) spec: PlanSpec,
    pub(crate) folder: PathBuf,
    /// The plan's file, when it has one.
    pub(crate) file: Option<String>,
    /// The quilt that the plan is of, where one file has it with its drawings.
    pub(crate) quilt: Option<QuiltFile>,
    /// The drawings as they were read, each once: one may be a pipe.
    read: RefCell<BTreeMap<String, Vec<u8>>>,
}

impl Source {
    /// The plan in this file, or from stdin; with its drawings where they are in it.
    pub(crate) fn open(path: &Path) -> Result<Self, Failure> {
        let bytes = read(path)?;
        let (spec, quilt) = match is_quilt(&bytes) {
            true => read_quilt(&bytes).map(|quilt| (quilt.plan.clone(), Some(quilt))),
            false => read_plan(&bytes).map(|spec| (spec, None)),
        }
        .map_err(|e| Failure::Plan(e.in_file(label(path))))?;
        Ok(Self {
            spec,
            folder: folder_of(path).to_owned(),
            file: Some(label(path)),
            quilt,
            read: RefCell::default(),
        })
    }

    /// A plan that has no file; its drawings' paths start here.
    pub(crate) fn made(spec: PlanSpec) -> Self {
        Self {
            spec,
            folder: PathBuf::from("."),
            file: None,
            quilt: None,
            read: RefCell::default(),
        }
    }

    /// The plan solved by what is known of its quilt.
    pub(crate) fn solve(
        &self,
        known: (Option<Progress>, Option<Progress>),
    ) -> Result<Round, Failure> {
        let load = |request: &MotifRequest| self.drawing(request);
        solve_round(&self.spec, known, load).map_err(|e| self.failure(e))
    }

    /// The plan with its drawings, in one.
    pub(crate) fn gathered(&self) -> Result<QuiltFile, Failure> {
        match &self.quilt {
            Some(quilt) => {
                let mut quilt = quilt.clone();
                quilt.plan.clone_from(&self.spec);
                Ok(quilt)
            }
            None => gather(&self.spec, |name| self.bytes(name)).map_err(|e| self.failure(e)),
        }
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
        let path = match &self.quilt {
            Some(_) => PathBuf::from(&request.name),
            None => self.path(&request.name),
        };
        let bytes = self.bytes(&request.name)?;
        let layers = match self.file {
            Some(_) => "\"layers\" beside the motif in the plan",
            None => drawing::LAYER,
        };
        let drawing = drawing::parse(&path, &bytes, &options, layers);
        let strokes = drawing.and_then(|drawing| drawing.strokes(Unit::Mm));
        let strokes = strokes.map_err(|e| e.in_file(label(&path)))?;
        Ok(strokes.with_file(label(&path)))
    }

    /// The drawing of this name as bytes: out of the quilt's one file, or out of its own.
    fn bytes(&self, name: &str) -> Result<Vec<u8>, Error> {
        if let Some(quilt) = &self.quilt {
            let found = quilt.drawings.get(name).cloned();
            return found.ok_or_else(|| missing(name, &quilt.drawings));
        }
        if let Some(known) = self.read.borrow().get(name) {
            return Ok(known.clone());
        }
        let path = self.path(name);
        let bytes = read_file(&path).map_err(|error| {
            let reason = format!("{}: {}", label(&path), reason(&error));
            Error::motif_unreadable(name, reason)
        })?;
        let mut read = self.read.borrow_mut();
        read.insert(name.to_owned(), bytes.clone());
        Ok(bytes)
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
