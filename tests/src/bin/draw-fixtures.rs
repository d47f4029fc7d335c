//! Draws the demo motifs and the picture of easing anew into `fixtures/`, or into the folder given
//! as argument.

use quiltpath_tests::draw;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let fixtures = || Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures");
    let folder = env::args_os().nth(1).map_or_else(fixtures, PathBuf::from);
    let pictures = draw::pictures().map_err(io::Error::other)?;
    for (name, text) in draw::files().into_iter().chain(pictures) {
        let file = folder.join(name);
        if let Some(parent) = file.parent() {
            fs::create_dir_all(parent)?;
        }
        fs::write(file, text)?;
    }
    Ok(())
}
