//! The motifs' paths as seen from the folder of the result, so that its plan can be used again.

use std::fs;
use std::path::{Component, Path, PathBuf};

use quiltpath_core::plan::PlanSpec;
use quiltpath_core::worksheet::Worksheet;
use quiltpath_core::worksheet::files::DRAWINGS;

use crate::failure::Failure;
use crate::files::label;
use crate::source::Source;

/// The plan with motif paths that start from the folder at `place`, which is absolute.
///
/// Drawings that the folder brings along, because one file had them with the plan, stay in it;
/// `quilt` has them under their names there.
pub(super) fn seen_from(
    place: &Path,
    source: &Source,
    quilt: &Worksheet,
) -> Result<PlanSpec, Failure> {
    if source.quilt.is_some() {
        return Ok(quilt.plan_in_folder());
    }
    let mut spec = source.spec.clone();
    let own = place.join(DRAWINGS);
    let inside = quilt.plan_in_folder();
    for (name, inside) in spec.drawings_mut().zip(inside.drawings()) {
        let path = source.path(name);
        let found = fs::canonicalize(&path)
            .map_err(|error| Failure::file(&path, "can't be found", &error))?;
        if found.starts_with(&own) {
            name.clone_from(inside);
            continue;
        }
        if found.starts_with(place) {
            return Err(Failure::File(format!(
                "{}: lies in the folder that is to be replaced; copy it elsewhere first",
                label(&path)
            )));
        }
        *name = relative(place, &found).ok_or_else(|| {
            Failure::File(format!(
                "{}: its path is not plain text, so the plan can't name it; rename the folder",
                label(&path)
            ))
        })?;
    }
    Ok(spec)
}

/// The way from a folder to a file, both absolute; the absolute path when they share nothing.
fn relative(folder: &Path, file: &Path) -> Option<String> {
    let shared = folder
        .components()
        .zip(file.components())
        .take_while(|(one, other)| one == other)
        .count();
    let names = |path: &Path| {
        let names = path
            .components()
            .filter(|part| matches!(part, Component::Normal(_)));
        names.count()
    };
    let own = folder.components().count() - shared;
    if names(folder) == own {
        return file.to_str().map(str::to_owned);
    }
    let mut way: PathBuf = std::iter::repeat_n("..", own).collect();
    way.extend(file.components().skip(shared));
    // Plans are to be read on every system, and all of them take slashes.
    way.to_str()
        .map(|way| way.replace(std::path::MAIN_SEPARATOR, "/"))
}

#[cfg(test)]
#[cfg(unix)]
mod tests {
    use super::*;

    #[test]
    fn the_way_leads_from_the_folder_to_the_file() {
        for (folder, file, way) in [
            ("/a/out", "/a/b.svg", "../b.svg"),
            ("/a/out", "/a/m/b.svg", "../m/b.svg"),
            ("/a/x/out", "/a/b.svg", "../../b.svg"),
            ("/a/out", "/b/c.svg", "/b/c.svg"),
            ("/out", "/b.svg", "/b.svg"),
        ] {
            let found = relative(Path::new(folder), Path::new(file));
            assert_eq!(found.as_deref(), Some(way));
        }
    }
}
