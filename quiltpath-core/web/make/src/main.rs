//! Makes the worksheet page and the JavaScript package, `target/web`: one command, `cargo run -p
//! quiltpath-web-make`.
//!
//! The module is built for wasm32 ([`compiler`] says by what), its JavaScript and types are written
//! by wasm-bindgen as a library ([`package`]), and the page is put together by esbuild, with the
//! module inside ([`page`]). Needed besides Rust: node and npm.
#![allow(
    clippy::print_stderr,
    reason = "this is a command, and says what it does"
)]

mod compiler;
mod package;
mod page;
mod run;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

fn main() -> ExitCode {
    match make() {
        Ok(page) => {
            eprintln!("made {}", page.display());
            ExitCode::SUCCESS
        }
        Err(reason) => {
            eprintln!("error: {reason}");
            ExitCode::FAILURE
        }
    }
}

fn make() -> Result<PathBuf, String> {
    let web = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let root = web.join("../..");
    let root = root
        .canonicalize()
        .map_err(|e| format!("{}: {e}", root.display()))?;
    let web = root.join("quiltpath-core/web");
    let target =
        std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root.join("target"), PathBuf::from);
    let out = target.join("web");
    let module = compiler::build(&root, &target)?;
    let package = package::make(&web, &module, &out.join("package"))?;
    page::make(&web, &package, &out)
}
