//! The package for npm: the module, its JavaScript and its types.

use std::path::{Path, PathBuf};
use std::process::Command;

use wasm_bindgen_cli_support::Bindgen;

use crate::run::{copy, folder, printed, run};

/// Writes the package into a folder, and gives that.
///
/// # Errors
///
/// What fails on the way, in words.
pub(crate) fn make(web: &Path, module: &Path, out: &Path) -> Result<PathBuf, String> {
    if out.exists() {
        std::fs::remove_dir_all(out).map_err(|e| format!("{}: {e}", out.display()))?;
    }
    folder(out)?;
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(module)
        .out_name("quiltpath")
        .typescript(true)
        .remove_name_section(true)
        .remove_producers_section(true);
    let bindgen = bindgen.web(true).map_err(|error| error.to_string())?;
    bindgen
        .generate(out)
        .map_err(|error| format!("{error:#}"))?;
    smaller(&out.join("quiltpath_bg.wasm"))?;
    let text = std::fs::read_to_string(web.join("package.json")).map_err(|e| e.to_string())?;
    let text = text.replace("\"0.0.0\"", &format!("\"{}\"", env!("CARGO_PKG_VERSION")));
    std::fs::write(out.join("package.json"), text).map_err(|e| e.to_string())?;
    copy(&web.join("README.md"), &out.join("README.md"))?;
    for licence in ["LICENSE-APACHE", "LICENSE-MIT"] {
        copy(&web.join("..").join(licence), &out.join(licence))?;
    }
    Ok(out.to_owned())
}

/// Makes the module smaller and faster, where `wasm-opt` of Debian's `binaryen` is installed and
/// new enough to read it.
fn smaller(module: &Path) -> Result<(), String> {
    if printed(Command::new("wasm-opt").arg("--version")).is_none() {
        return Ok(());
    }
    let made = module.with_extension("smaller");
    let flags = ["-O3", "--all-features", "--strip-debug"];
    let mut command = Command::new("wasm-opt");
    match run(command.args(flags).arg(module).arg("-o").arg(&made)) {
        Ok(()) => std::fs::rename(&made, module).map_err(|e| e.to_string()),
        Err(reason) => {
            eprintln!("{reason}: the module stays as it is");
            Ok(())
        }
    }
}
