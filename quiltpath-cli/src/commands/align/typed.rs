//! Readings as they are given, and the marks that they are of.

use std::path::Path;

use quiltpath_core::frame::MarkReading;
use quiltpath_core::geom::Point;
use quiltpath_core::io::json::read_readings;
use quiltpath_core::io::readings::TypedReading;
use quiltpath_core::plan::Side;
use quiltpath_core::units::{Length, Unit};

use crate::args::positive_in_unit;
use crate::failure::Failure;
use crate::files::{label, read};
use crate::laying::marks;
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

/// Readings with the marks that they are of, on the machine as the plan counts: y down.
pub(super) fn known(
    folder: &PlanFolder,
    pass: usize,
    typed: &[TypedReading],
    unit: Unit,
) -> Result<Vec<MarkReading>, Failure> {
    let marks = marks(folder, pass)?;
    let up = folder.source.spec.machine_axes().y_up;
    let number = (pass + 1).to_string();
    let reading = |typed: &TypedReading| {
        let wanted = typed.mark.trim();
        let bare = wanted.strip_prefix(number.as_str()).unwrap_or(wanted);
        let found = marks.iter().find(|(letter, name, _)| {
            let letter = letter.as_deref().unwrap_or_default();
            letter.eq_ignore_ascii_case(bare) || name.eq_ignore_ascii_case(wanted)
        });
        let Some((_, name, mark)) = found else {
            return Err(Failure::Usage(format!(
                "pass {number} has no mark \"{wanted}\"; its marks are {}",
                listed(folder, pass)?
            )));
        };
        let [x, y] = typed.in_mm(unit);
        let read = Point::new(x, if up { -y } else { y });
        Ok(MarkReading::new(name.clone(), *mark, read))
    };
    typed.iter().map(reading).collect()
}

/// The letters and names of the marks of a pass, for messages.
pub(super) fn listed(folder: &PlanFolder, pass: usize) -> Result<String, Failure> {
    let marks = marks(folder, pass)?;
    let named = marks
        .iter()
        .filter_map(|(letter, name, _)| Some(format!("{} ({name})", letter.as_ref()?)));
    Ok(named.collect::<Vec<_>>().join(", "))
}

/// Readings with the letter of the mark, or its name where it has none.
pub(super) fn lettered(
    folder: &PlanFolder,
    pass: usize,
    readings: &[MarkReading],
) -> Result<Vec<(String, MarkReading)>, Failure> {
    let marks = marks(folder, pass)?;
    let letter = |reading: &MarkReading| {
        let own = marks.iter().find(|(_, name, _)| *name == reading.name);
        let letter = own.and_then(|(letter, _, _)| letter.clone());
        letter.unwrap_or_else(|| "-".to_owned())
    };
    Ok(readings
        .iter()
        .map(|one| (letter(one), one.clone()))
        .collect())
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
