//! The folder of a solved plan: made whole beside its place, then swapped in.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use quiltpath_core::io::json::read_quilt;
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::worksheet::QUILT_ENDING;
use tempfile::TempDir;

use super::making::{Temporary, unless_stopped};
use super::names::{folder_of, label};
use super::place::{make_parents, unmade};
use crate::failure::Failure;

/// Files of ours at the top of a plan's folder.
const TOP: [&str; 6] = [
    "plan.json",
    "progress.json",
    "quilt.svg",
    "result.json",
    "sheet.html",
    "stitched.json",
];

/// Folders of ours, which hold numbered drawings.
const NUMBERED: [&str; 5] = ["needle-up", "passes", "paths", "pieces", "rest"];

/// The folder of ours that holds laid passes, and files of each beside its lines.
const LAID: &str = "laid";
const LAID_FILES: [&str; 3] = ["laid.json", "picture.svg", "sheet.html"];

/// The folder of ours that holds the drawings which one file had with the plan.
const BROUGHT: &str = "drawings";

/// A folder in the making. Dropped without [`Folder::swap_in`], it is gone without a trace.
pub(crate) struct Folder {
    /// The name that the user gave.
    path: PathBuf,
    /// The place itself: absolute, links followed.
    place: PathBuf,
    /// Whether it is that of a laid pass.
    laid: bool,
    draft: Temporary<TempDir>,
}

impl Folder {
    /// Checks the place and starts a draft beside it.
    pub(crate) fn start(path: &Path, force: bool) -> Result<Self, Failure> {
        Self::begin(path, force, false)
    }

    /// Starts the folder of a laid pass, which takes the place of an earlier one.
    pub(crate) fn start_laid(path: &Path) -> Result<Self, Failure> {
        Self::begin(path, true, true)
    }

    fn begin(path: &Path, force: bool, laid: bool) -> Result<Self, Failure> {
        let place = place(path)?;
        check(path, &place, force, laid)?;
        let mut builder = tempfile::Builder::new();
        builder.prefix(".quiltpath-");
        #[cfg(unix)]
        builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o777));
        let draft = Temporary::make(|| builder.tempdir_in(folder_of(&place)), TempDir::path)
            .map_err(|error| Failure::file(path, "can't be made", &error))?;
        Ok(Self {
            path: path.to_owned(),
            place,
            laid,
            draft,
        })
    }

    /// Where the folder will be: absolute, links followed.
    pub(crate) fn place(&self) -> &Path {
        &self.place
    }

    /// Writes one file of the folder, given by its name in it.
    pub(crate) fn add(&self, name: &str, bytes: &[u8]) -> Result<(), Failure> {
        let path = self.draft.what.path().join(name);
        let make = || make_folder(folder_of(&path)).and_then(|()| fs::File::create(&path));
        let written = unless_stopped(make).and_then(|mut file| {
            file.write_all(bytes)?;
            file.sync_all()
        });
        written.map_err(|error| Failure::file(&self.path.join(name), "can't be written", &error))
    }

    /// Gives the folder its name; one that is there already is removed only after that.
    ///
    /// On Linux the two change places in one step, so that there is a whole folder at any time. A
    /// system, or a file system, that can't do that has none for a moment between two renames.
    pub(crate) fn swap_in(self, force: bool) -> Result<(), Failure> {
        let failed = |error: io::Error| Failure::file(&self.path, "can't be written", &error);
        // What happened to the place since the start counts too.
        check(&self.path, &self.place, force, self.laid)?;
        let draft = self.draft.what.path();
        if fs::symlink_metadata(&self.place).is_err() {
            unless_stopped(|| fs::rename(draft, &self.place)).map_err(failed)?;
        } else if unless_stopped(|| exchange(draft, &self.place)) {
            // The old folder lies where the draft was, and goes as a draft does.
            return Ok(());
        } else {
            let mut builder = tempfile::Builder::new();
            builder.prefix(".quiltpath-old-");
            let old = builder.tempdir_in(folder_of(&self.place)).map_err(failed)?;
            let aside = old.path().join("folder");
            let both = || {
                fs::rename(&self.place, &aside)?;
                let renamed = fs::rename(draft, &self.place);
                // The old folder goes back; if even that fails it must not be removed.
                Ok((
                    renamed.is_err() && fs::rename(&aside, &self.place).is_err(),
                    renamed,
                ))
            };
            let (stranded, renamed) = unless_stopped(both).map_err(failed)?;
            if stranded {
                let _ = old.keep();
            }
            renamed.map_err(failed)?;
        }
        // The draft has its own name now, so there is nothing left to clean up.
        let Temporary { what, entry } = self.draft;
        let _ = what.keep();
        drop(entry);
        Ok(())
    }
}

/// Makes a folder unless it is there; what holds it must not come back when somebody removed it.
fn make_folder(path: &Path) -> io::Result<()> {
    match fs::create_dir(path) {
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Ok(()),
        done => done,
    }
}

/// Lets two folders change places in one step; false where that can't be done.
#[cfg(target_os = "linux")]
fn exchange(one: &Path, other: &Path) -> bool {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE).is_ok()
}

#[cfg(not(target_os = "linux"))]
fn exchange(_: &Path, _: &Path) -> bool {
    false
}

/// The absolute place of a folder that need not exist yet.
fn place(path: &Path) -> Result<PathBuf, Failure> {
    let failed = |error: io::Error| Failure::file(path, "can't be written", &error);
    if let Ok(place) = fs::canonicalize(path) {
        return Ok(place);
    }
    let Some(name) = path.file_name() else {
        return Err(failed(io::ErrorKind::NotFound.into()));
    };
    make_parents(path).map_err(|error| unmade(path, "can't be made", &error))?;
    let found = fs::canonicalize(folder_of(path)).and_then(|found| match found.is_dir() {
        true => Ok(found),
        false => Err(io::ErrorKind::NotADirectory.into()),
    });
    let found = found.map_err(|error| unmade(path, "can't be made", &error))?;
    Ok(found.join(name))
}

/// Refuses a place that is taken by anything that is not ours to replace.
fn check(path: &Path, place: &Path, force: bool, laid: bool) -> Result<(), Failure> {
    let refuse = |what: &str| Err(Failure::File(format!("{}: {what}", label(path))));
    let Ok(found) = fs::metadata(place) else {
        return Ok(());
    };
    if !found.is_dir() {
        return refuse("is a file; name a folder");
    }
    if std::env::current_dir().is_ok_and(|current| current.starts_with(place)) {
        return refuse("is the folder that you are in, so it can't be replaced; name another one");
    }
    let failed = |error: io::Error| Failure::file(path, "can't be read", &error);
    let entries = fs::read_dir(place).and_then(Iterator::collect::<Result<Vec<_>, _>>);
    let entries = entries.map_err(failed)?;
    if entries.is_empty() {
        return Ok(());
    }
    if !force {
        return refuse("exists already; give --force to replace it, or another name");
    }
    let foreign = match laid {
        true => foreign_laid(place),
        false => foreign(place),
    };
    if let Some(foreign) = foreign.map_err(failed)? {
        return refuse(&format!(
            "holds a file that quiltpath didn't write, {foreign}, so it isn't replaced; move that file or name another folder"
        ));
    }
    if !laid && !place.join("result.json").is_file() {
        return refuse("has no result.json, so it isn't the folder of a plan; name another one");
    }
    Ok(())
}

/// The first file that is none of a plan's folder.
fn foreign(place: &Path) -> io::Result<Option<String>> {
    for entry in fs::read_dir(place)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let kind = entry.file_type()?;
        if kind.is_dir() && NUMBERED.contains(&name.as_str()) {
            for inner in fs::read_dir(entry.path())? {
                let inner = inner?;
                let drawing = inner.file_name().to_string_lossy().into_owned();
                if !inner.file_type()?.is_file() || !is_numbered(&drawing) {
                    return Ok(Some(format!("{name}/{drawing}")));
                }
            }
        } else if kind.is_dir() && name == LAID {
            for inner in fs::read_dir(entry.path())? {
                let inner = inner?;
                let pass = inner.file_name().to_string_lossy().into_owned();
                let number = pass.len() >= 2 && pass.bytes().all(|byte| byte.is_ascii_digit());
                let within = match number && inner.file_type()?.is_dir() {
                    true => foreign_laid(&inner.path())?,
                    false => Some(String::new()),
                };
                if let Some(within) = within {
                    return Ok(Some(format!("{name}/{pass}/{within}")));
                }
            }
        } else if kind.is_dir() && name == BROUGHT {
            if let Some(drawing) = foreign_drawing(place, &entry.path())? {
                return Ok(Some(format!("{name}/{drawing}")));
            }
        } else if !kind.is_file() || !(TOP.contains(&name.as_str()) || is_quilt_file(&name)) {
            return Ok(Some(name));
        }
    }
    Ok(None)
}

/// The first drawing that the quilt's one file in the folder at `place` doesn't have just so: it
/// would be lost.
fn foreign_drawing(place: &Path, drawings: &Path) -> io::Result<Option<String>> {
    let quilt = quilt_file_in(place).and_then(|file| read_quilt(&fs::read(file).ok()?).ok());
    let known = quilt.map(|quilt| quilt.drawings).unwrap_or_default();
    for entry in fs::read_dir(drawings)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let own = match known.get(&name) {
            Some(bytes) if entry.file_type()?.is_file() => fs::read(entry.path())? == *bytes,
            _ => false,
        };
        if !own {
            return Ok(Some(name));
        }
    }
    Ok(None)
}

/// True for the name of a quilt's one file.
fn is_quilt_file(name: &str) -> bool {
    name.ends_with(QUILT_ENDING)
}

/// The one file of a quilt in a folder, where there is just one.
pub(crate) fn quilt_file_in(folder: &Path) -> Option<PathBuf> {
    let entries = fs::read_dir(folder).ok()?.flatten();
    let mut files = entries.map(|entry| entry.path()).filter(|path| {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        path.is_file() && is_quilt_file(&name)
    });
    files.next().filter(|_| files.next().is_none())
}

/// The first file that is none of a laid pass.
fn foreign_laid(place: &Path) -> io::Result<Option<String>> {
    for entry in fs::read_dir(place)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let ending = name
            .strip_prefix("lines.")
            .or(name.strip_prefix("needle-up."));
        let line = ending.is_some_and(|ending| LineFormat::of_ending(ending).is_some());
        if !entry.file_type()?.is_file() || !(line || LAID_FILES.contains(&name.as_str())) {
            return Ok(Some(name));
        }
    }
    Ok(None)
}

/// True for names such as `01-border-side-top.svg`.
fn is_numbered(name: &str) -> bool {
    let stem = name
        .rsplit_once('.')
        .filter(|(_, ending)| LineFormat::of_ending(ending).is_some())
        .map(|(stem, _)| stem);
    let number = stem
        .and_then(|stem| stem.split_once('-'))
        .map(|parts| parts.0);
    number.is_some_and(|n| n.len() >= 2 && n.bytes().all(|byte| byte.is_ascii_digit()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn our_own_names_differ_from_others() {
        assert!(is_numbered("01-border-side-top.svg"));
        assert!(is_numbered("123-a.json"));
        for name in [
            "notes.txt",
            "1-a.svg",
            "01.svg",
            "ab-c.svg",
            "01-a.txt",
            "-a.svg",
        ] {
            assert!(!is_numbered(name), "{name}");
        }
    }
}
