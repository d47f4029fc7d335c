//! The files of a solved plan, written side by side: their text takes longer than the disk.

use quiltpath_core::Error;
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::plan::{Solved, Stitching};
use quiltpath_core::worksheet::files::PlanFile;
use rayon::iter::{IntoParallelRefIterator, ParallelIterator};

use crate::failure::Failure;
use crate::files::Folder;

/// Writes all files, on all cores; of several failures, that of the first file is returned.
pub(super) fn write(folder: &Folder, files: &[PlanFile<'_>]) -> Result<(), Failure> {
    let write = |file: &PlanFile<'_>| folder.add(file.name(), &file.bytes()?);
    let failed = files.par_iter().find_map_first(|file| write(file).err());
    failed.map_or(Ok(()), Err)
}

/// The text of `result.json`.
pub(super) fn result(solved: &Solved, stitching: &Stitching) -> Result<String, Error> {
    write_result(&PlanResult::new(solved, Some(stitching))?)
}
