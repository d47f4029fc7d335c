//! The worksheet: one HTML file with everything in it, put together by esbuild.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::run::run;

/// Makes the page, and says where it is.
///
/// # Errors
///
/// What fails on the way, in words.
pub(crate) fn make(web: &Path, package: &Path, out: &Path) -> Result<PathBuf, String> {
    let folder = web.join("page");
    let npm = |args: &[&str]| {
        let mut command = Command::new("npm");
        command.args(args).current_dir(&folder);
        command
            .env("QUILTPATH_PACKAGE", package)
            .env("QUILTPATH_OUT", out);
        run(&mut command)
    };
    let (lock, there) = (
        folder.join("package-lock.json"),
        folder.join("node_modules/.package-lock.json"),
    );
    let changed = |path: &Path| {
        std::fs::metadata(path)
            .and_then(|found| found.modified())
            .ok()
    };
    if changed(&there) < changed(&lock) {
        npm(&["ci", "--no-audit", "--no-fund"])?;
    }
    npm(&["run", "--silent", "build"])?;
    Ok(out.join("quiltpath.html"))
}
