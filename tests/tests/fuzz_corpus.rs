//! The committed corpus of the fuzzer, run through the bodies of its targets: what was found once
//! stays mended.

use std::path::Path;

use quiltpath_tests::fuzz::{TARGETS, run};

#[test]
fn every_file_of_the_corpus_keeps_the_promises() {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus");
    let mut files = 0;
    for (target, _) in TARGETS {
        let folder = corpus.join(target);
        let entries = std::fs::read_dir(&folder).unwrap_or_else(|e| panic!("{folder:?}: {e}"));
        for entry in entries {
            let path = entry.expect("an entry").path();
            let data = std::fs::read(&path).expect("a file");
            let kept = std::panic::catch_unwind(|| run(target, &data));
            assert!(kept.is_ok(), "{} breaks a promise", path.display());
            files += 1;
        }
    }
    assert!(files > 100, "{files} files");
}

#[test]
fn no_bytes_and_any_bytes_are_fine() {
    for (_, body) in TARGETS {
        body(&[]);
        for byte in 0..=255 {
            body(&[byte]);
            body(&[byte; 64]);
        }
    }
}

#[test]
fn the_targets_of_cargo_fuzz_are_those_of_the_library() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz");
    let manifest = std::fs::read_to_string(folder.join("Cargo.toml")).expect("a manifest");
    for (target, _) in TARGETS {
        assert!(
            manifest.contains(&format!("\nname = \"{target}\"\n")),
            "{target}"
        );
        let file = folder.join(format!("fuzz_targets/{target}.rs"));
        let code = std::fs::read_to_string(file).expect("a target");
        assert!(code.contains(&format!("run(\"{target}\", data)")), "{code}");
    }
}
