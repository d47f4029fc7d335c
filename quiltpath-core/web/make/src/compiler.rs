//! What compiles for wasm32: rustup's own compiler where it has the target or can get it, and
//! otherwise Debian's packages, unpacked into a folder of their own.

use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::run::{folder, printed, run};

const TARGET: &str = "wasm32-unknown-unknown";

/// Debian's compiler for wasm32, its standard library and its sources; these conflict with other
/// compilers, so they are unpacked and not installed. LLVM is what that compiler needs.
const PACKAGES: [&str; 4] = [
    "rustc-web",
    "libstd-rust-web-dev",
    "rust-web-src",
    "libllvm22",
];

/// Builds the module, and says where it is.
///
/// # Errors
///
/// What fails on the way, in words.
pub(crate) fn build(root: &Path, target: &Path) -> Result<PathBuf, String> {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command
        .current_dir(root)
        .args(["build", "--package", "quiltpath-web"]);
    command.args(["--target", TARGET, "--profile", "web", "--locked"]);
    // Flags for the machine's own programs don't hold for the module.
    command.env_remove("RUSTFLAGS");
    if !has_target() {
        debian(target, &mut command)?;
    }
    run(&mut command)?;
    Ok(target.join(TARGET).join("web/quiltpath_web.wasm"))
}

/// Whether rustup has the target, now or after it was asked for it.
fn has_target() -> bool {
    let listed = printed(Command::new("rustup").args(["target", "list", "--installed"]));
    let there = listed.is_some_and(|all| all.lines().any(|name| name == TARGET));
    there || run(Command::new("rustup").args(["target", "add", TARGET])).is_ok()
}

/// Has a build use Debian's compiler, got as packages by name; the standard library is built with
/// it, since its own is for another linker.
fn debian(target: &Path, command: &mut Command) -> Result<(), String> {
    let place = target.join("debian-wasm");
    let root = place.join("root");
    let rustc = place.join("rustc");
    if !rustc.exists() {
        folder(&root)?;
        run(Command::new("apt-get")
            .args(["download", "-q"])
            .args(names()?)
            .current_dir(&place))?;
        for package in std::fs::read_dir(&place)
            .map_err(|e| e.to_string())?
            .flatten()
        {
            if package.path().extension().is_some_and(|end| end == "deb") {
                run(Command::new("dpkg")
                    .arg("-x")
                    .arg(package.path())
                    .arg(&root))?;
            }
        }
        let library = root.join("usr/lib");
        let text = format!(
            "#!/bin/sh\nLD_LIBRARY_PATH={0}/x86_64-linux-gnu:{0}/llvm-22/lib exec {1}/usr/bin/rustc \"$@\"\n",
            library.display(),
            root.display()
        );
        std::fs::write(&rustc, text).map_err(|e| e.to_string())?;
        let executable = std::fs::Permissions::from_mode(0o755);
        std::fs::set_permissions(&rustc, executable).map_err(|e| e.to_string())?;
    }
    let linker = linker().ok_or("no rust-lld beside the compiler: install rustup's toolchain")?;
    command
        .env("RUSTC", rustc)
        .env("RUSTC_BOOTSTRAP", "1")
        .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", linker)
        .args(["-Z", "build-std=std,panic_abort"]);
    Ok(())
}

/// The packages, with the version of the standard library that the compiler asks for.
fn names() -> Result<Vec<String>, String> {
    run(Command::new("apt-get").args(["update", "-q"]))?;
    let depends = printed(Command::new("apt-cache").args(["depends", "rustc-web"]));
    let depends = depends.ok_or("Debian has no package rustc-web here")?;
    let words = depends.split_whitespace();
    let of_compiler = words.filter(|word| word.starts_with("libstd-rust-web"));
    let mut names: Vec<String> = of_compiler.map(str::to_owned).collect();
    names.extend(PACKAGES.map(str::to_owned));
    names.sort();
    names.dedup();
    Ok(names)
}

/// The linker that comes with the compiler of this machine.
fn linker() -> Option<PathBuf> {
    let root = printed(Command::new("rustc").args(["--print", "sysroot"]))?;
    let host = printed(Command::new("rustc").arg("-vV"))?;
    let host = host.lines().find_map(|line| line.strip_prefix("host: "))?;
    let found = Path::new(root.trim()).join(format!("lib/rustlib/{host}/bin/rust-lld"));
    found.exists().then_some(found)
}
