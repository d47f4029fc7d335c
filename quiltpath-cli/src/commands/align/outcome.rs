//! The files of a laid pass, in a folder of their own.

use std::path::PathBuf;

use quiltpath_core::frame::{Clearance, LaidFinding, Laying, MarkReading};
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::plan::Origin;
use quiltpath_core::worksheet::{LAID_PICTURE, laid_files, laid_folder};

use crate::failure::Failure;
use crate::files::Folder;
use crate::plan_folder::PlanFolder;

/// Writes the folder of a laid pass, and says where its picture is.
pub(super) fn write(
    folder: &PlanFolder,
    laid: (&Laying, &[(String, MarkReading)]),
    judged: (&[LaidFinding], &[Clearance]),
    (origin, formats): (Option<&Origin>, &[LineFormat]),
) -> Result<PathBuf, Failure> {
    let place = folder.path.join(laid_folder(laid.0.laid.pass));
    let out = Folder::start_laid(&place)?;
    let formats = folder.formats(formats);
    let files = laid_files(&folder.at_frame(), laid, judged, origin, &formats)?;
    for file in &files {
        out.add(file.name(), &file.bytes()?)?;
    }
    out.swap_in(true)?;
    Ok(place.join(LAID_PICTURE))
}
