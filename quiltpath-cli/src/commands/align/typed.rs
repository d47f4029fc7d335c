//! Readings as they are given, and the marks that they are of.

use std::path::Path;

use quiltpath_core::Error;
use quiltpath_core::error::{AlignFault, ErrorKind};
use quiltpath_core::io::json::read_readings;
use quiltpath_core::io::readings::TypedReading;
use quiltpath_core::plan::Side;
use quiltpath_core::units::{Length, Unit};

use crate::args::positive_in_unit;
use crate::failure::Failure;
use crate::files::{label, read};
use crate::plan_folder::PlanFolder;

/// The readings of the options and of a file, and the unit asked for.
pub(super) fn all(
    options: &[TypedReading],
    file: Option<&Path>,
    pass: usize,
    unit: Option<Unit>,
) -> Result<(Vec<TypedReading>, Option<Unit>), Failure> {
    let mut all = options.to_vec();
    if let Some(path) = file {
        let file = read_readings(&read(path)?);
        let file = file.map_err(|error| Failure::Data(error.in_file(label(path))))?;
        if let Some(other) = file.pass.filter(|other| *other != pass) {
            return Err(Failure::Usage(format!(
                "{}: holds readings of pass {other}, and --pass is {pass}",
                label(path)
            )));
        }
        all.extend(file.readings);
    }
    Ok((all, unit))
}

/// A mark that the pass doesn't have is bad usage.
pub(super) fn named(pass: usize, error: Error) -> Failure {
    match error.kind() {
        ErrorKind::Align(AlignFault::NoSuchMark { .. }) => {
            Failure::Usage(format!("pass {pass}: {error}"))
        }
        _ => Failure::Data(error),
    }
}

/// A taped length as typed: the side, with its border where there are several, and the length in
/// millimetres.
pub(super) fn tape(folder: &PlanFolder, text: &str) -> Result<(usize, Side, f64), Failure> {
    let solved = &folder.solved;
    let sides: Vec<Side> = Side::all(solved.quilt.outline.sides()).collect();
    let fault = || {
        let names: Vec<&str> = sides.iter().map(|side| side.name()).collect();
        Failure::Usage(format!(
            "--tape \"{text}\": give a side ({}) and a length, for example \"left 61 1/4 in\"; of several borders their name first",
            names.join(", ")
        ))
    };
    let text = text.trim();
    let named = solved.layouts.iter().position(|layout| {
        text.strip_prefix(layout.name.as_str())
            .is_some_and(|rest| rest.starts_with(' '))
    });
    let rest = match named {
        Some(border) => text[solved.layouts[border].name.len()..].trim_start(),
        None if solved.layouts.len() == 1 => text,
        None => return Err(fault()),
    };
    let (side, length) = rest.split_once(' ').ok_or_else(fault)?;
    let side = sides
        .iter()
        .find(|own| own.name() == side)
        .ok_or_else(fault)?;
    let length: Length = length.parse().map_err(|_| fault())?;
    let mm = positive_in_unit(&length, Some(solved.unit), Unit::Mm, "--tape")?;
    Ok((named.unwrap_or(0), *side, mm))
}
