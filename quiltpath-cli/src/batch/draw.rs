//! Commands that turn drawings into lines: one drawing, a folder of them, or JSON Lines.

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use quiltpath_core::io::drawing::LineDrawing;
use quiltpath_core::io::json::PointList;
use quiltpath_core::io::lines::LineFormat;

use super::each::{Many, each};
use super::pool::Sink;
use super::records::{Input, Lines, Record, is_folder};
use crate::args::Ways;
use crate::failure::Failure;
use crate::files::{check_free, label, ready_folder, save, stem};
use crate::hint::Asker;
use crate::output::{Destination, Target};

/// Turns each drawing into lines and writes them.
///
/// Beside a drawing the job gets its place where it is one of many, to name it in messages.
pub(crate) fn draw(
    asker: Asker,
    path: &Path,
    ways: Ways,
    job: impl Fn(LineDrawing, Option<&str>) -> Result<PointList, Failure> + Sync,
) -> Result<(), Failure> {
    let Ways {
        threads,
        reading: options,
        writing,
    } = ways;
    let destination = match is_folder(path) {
        true => writing.check_many(options.unit)?,
        false => Destination::File(writing.check(options.unit)?),
    };
    let lines = match &destination {
        Destination::File(target) if target.format() == LineFormat::JsonLines => Lines::Asked,
        _ => Lines::No,
    };
    let input = Input::open(path, lines)?;
    let one = |record: &Record, place: Option<&str>| {
        let drawing = record.open(&options)?;
        let unit = drawing.unit();
        let made = job(drawing, place).map_err(|failure| failure.measured_in(unit));
        made.map_err(|failure| record.locate(failure))
    };
    match destination {
        Destination::File(target) => match input {
            Input::One(record) => target.write(&one(&record, None)?),
            many => to_lines(many, &target, (threads, asker), one),
        },
        Destination::Folder(target) => to_folder(input, &target, (threads, asker), one),
    }
}

/// All records to one file or stream of JSON Lines.
fn to_lines(
    input: Input,
    target: &Target,
    (threads, asker): (usize, Asker),
    one: impl Fn(&Record, Option<&str>) -> Result<PointList, Failure> + Sync,
) -> Result<(), Failure> {
    let (records, count) = input.records();
    let many = Many {
        records,
        count,
        data_on_stdout: target.is_stdout(),
        asker,
    };
    let job = |record: &Record| {
        let mut list = one(record, Some(&record.place()))?;
        // Without a name nobody would know which record a line comes from.
        list.name_all(&record.name());
        Ok(target.text(&list)?)
    };
    let mut draft = target.draft()?;
    let tally = each(many, threads, job, &mut draft)?;
    // Where nothing was good, nothing is left behind.
    if tally.good > 0 || tally.bad == 0 {
        draft.finish()?;
    }
    tally.result()
}

/// Each file of a folder to a file in another one.
fn to_folder(
    input: Input,
    target: &Target,
    (threads, asker): (usize, Asker),
    one: impl Fn(&Record, Option<&str>) -> Result<PointList, Failure> + Sync,
) -> Result<(), Failure> {
    let folder = target.path();
    let place = |file: &str| folder.join(format!("{file}.{}", target.format().name()));
    if let Input::Folder(files) = &input {
        check_apart(files, place)?;
    }
    ready_folder(folder)?;
    let (records, count) = input.records();
    let many = Many {
        records,
        count,
        data_on_stdout: false,
        asker,
    };
    let job = |record: &Record| {
        let out = place(&record.name());
        check_free(&out, target.force())?;
        let list = one(record, Some(&record.place()))?;
        save(&out, target.force(), target.text(&list)?.as_bytes())
    };
    each(many, threads, job, &mut Written)?.result()
}

/// Refuses files that would be written to one place.
fn check_apart(files: &[PathBuf], place: impl Fn(&str) -> PathBuf) -> Result<(), Failure> {
    let mut taken: HashMap<String, &Path> = HashMap::new();
    for file in files {
        let name = stem(file);
        if let Some(other) = taken.insert(name.clone(), file) {
            return Err(Failure::File(format!(
                "{} and {} would both be written to {}; rename one",
                label(other),
                label(file),
                label(&place(&name))
            )));
        }
    }
    Ok(())
}

/// Files are written by the workers.
struct Written;

impl Sink<()> for Written {
    fn take(&mut self, (): ()) -> Result<(), Failure> {
        Ok(())
    }
}
