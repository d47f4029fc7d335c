//! A pass of a folder laid to the cloth, by readings that its progress holds.

use quiltpath_core::frame::{
    Laying, MarkRead, MarkReading, PassRead, lay_and_refit, readable_marks,
};
use quiltpath_core::io::words;
use quiltpath_core::plan::{Mark, PlannedRun, Solved, mark_letter};

use crate::failure::Failure;
use crate::plan_folder::PlanFolder;

/// The marks of a pass that may be read: each with its letter, where it has one, and its lasting
/// name.
pub(crate) fn marks(
    folder: &PlanFolder,
    pass: usize,
) -> Result<Vec<(Option<String>, String, Mark)>, Failure> {
    let chosen = folder.stitching.passes[pass].marks.len();
    let all = readable_marks(&folder.solved, &folder.stitching, pass)?;
    let named = all.into_iter().enumerate().map(|(at, mark)| {
        let letter = (at < chosen).then(|| mark_letter(at));
        (letter, words::mark(&mark, &folder.solved), mark)
    });
    Ok(named.collect())
}

/// The readings of a pass that its progress holds.
pub(crate) fn readings(folder: &PlanFolder, pass: usize) -> Result<Vec<MarkReading>, Failure> {
    let read = folder.progress.passes.iter().find(|read| read.pass == pass);
    let Some(read) = read else {
        return Ok(Vec::new());
    };
    let marks = marks(folder, pass)?;
    let known = read.readings.iter().map(|one| {
        let own = marks.iter().find(|(_, name, _)| *name == one.mark);
        let mark = match own {
            Some((_, _, mark)) => *mark,
            // What isn't a mark of the pass was taped.
            None => Mark::taped(one.planned),
        };
        MarkReading::new(one.mark.clone(), mark, one.read)
    });
    Ok(known.collect())
}

/// A pass laid by these readings.
pub(crate) fn lay(
    folder: &PlanFolder,
    pass: usize,
    readings: &[MarkReading],
) -> Result<Laying, Failure> {
    let plan = (&folder.solved, &folder.stitching);
    let load = |asked: &_| folder.source.drawing(asked);
    lay_and_refit(&folder.source.spec, plan, pass, readings, load)
        .map_err(|error| Failure::Data(error.in_unit(folder.solved.unit)))
}

/// The runs of a pass as they lie on the quilt, and the plan that they are of: as laid, where the
/// progress holds readings of the pass, or as planned.
pub(crate) fn laid_again(
    folder: &PlanFolder,
    pass: usize,
) -> Result<(Solved, Vec<PlannedRun>), Failure> {
    let readings = readings(folder, pass)?;
    if readings.is_empty() {
        let runs = folder.stitching.passes[pass].runs.clone();
        return Ok((folder.solved.clone(), folder.stitching.runs[runs].to_vec()));
    }
    let laying = lay(folder, pass, &readings)?;
    let runs = laying.laid.runs.into_iter().map(|run| run.planned);
    Ok((laying.solved, runs.collect()))
}

/// Puts the readings of a pass in place of those that the progress holds of it.
pub(crate) fn keep(folder: &mut PlanFolder, pass: usize, readings: &[MarkReading]) {
    let read = readings
        .iter()
        .map(|one| MarkRead::new(one.name.clone(), one.mark.point, one.read));
    let read = PassRead::new(pass, read.collect());
    let passes = &mut folder.progress.passes;
    passes.retain(|other| other.pass != pass);
    passes.push(read);
    passes.sort_by_key(|read| read.pass);
}
