//! Draws the demo motifs anew into `fixtures/`, or into the folder given as argument.

use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let fixtures = || Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures");
    let folder = env::args_os().nth(1).map_or_else(fixtures, PathBuf::from);
    for (name, text) in quiltpath_tests::draw::files() {
        let file = folder.join(name);
        if let Some(parent) = file.parent() {
            fs::create_dir_all(parent)?;
        }
        fs::write(file, text)?;
    }
    Ok(())
}
