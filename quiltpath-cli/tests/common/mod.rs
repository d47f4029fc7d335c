//! Runs the command in a folder of its own and keeps what it printed.
#![allow(dead_code, reason = "each test file uses its own part of this")]

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// What one run of the command printed and left.
#[derive(Debug)]
pub(crate) struct Run {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Run {
    /// Done, without an error.
    pub(crate) fn ok(self) -> Self {
        assert_eq!(self.code, 0, "{self:?}");
        assert!(!self.err.contains("error"), "{self:?}");
        self
    }

    /// Failed with this exit code, all of these words on stderr and nothing on stdout.
    pub(crate) fn failed(&self, code: i32, words: &[&str]) {
        assert_eq!(self.code, code, "{self:?}");
        assert!(self.out.is_empty(), "{self:?}");
        assert!(!self.err.contains("panicked"), "{self:?}");
        for word in words {
            assert!(self.err.contains(word), "no {word:?} in {}", self.err);
        }
    }
}

/// A folder to run in, removed afterwards.
pub(crate) struct Bench {
    folder: tempfile::TempDir,
}

impl Bench {
    pub(crate) fn new() -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        Self { folder }
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Puts a file into the folder.
    pub(crate) fn with(self, name: &str, text: impl AsRef<[u8]>) -> Self {
        fs::write(self.path(name), text).expect("written");
        self
    }

    /// Puts the demo's motifs and plan into the folder.
    pub(crate) fn with_demo(self) -> Self {
        for name in ["border.svg", "corner.svg", "plan.json"] {
            fs::copy(demo(name), self.path(name)).expect("copied");
        }
        self
    }

    pub(crate) fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
    }

    pub(crate) fn json(&self, name: &str) -> serde_json::Value {
        serde_json::from_str(&self.read(name)).expect("JSON")
    }

    /// The names in the folder, hidden ones too, sorted.
    pub(crate) fn names(&self, folder: &str) -> Vec<String> {
        let entries = fs::read_dir(self.path(folder)).expect("a folder");
        let name = |entry: std::io::Result<fs::DirEntry>| entry.expect("an entry").file_name();
        let mut names: Vec<String> = entries
            .map(|entry| name(entry).to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    pub(crate) fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_quiltpath"));
        command.args(args).current_dir(self.folder.path());
        for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE"] {
            command.env_remove(name);
        }
        command
    }

    /// As [`Bench::command`], for a run that is to be stopped: signals that whoever started the
    /// tests has ignored, as `nohup` does, are as they usually are again.
    pub(crate) fn stoppable(&self, args: &[&str]) -> Command {
        let plain = self.command(args);
        if !cfg!(target_os = "linux") {
            return plain;
        }
        let mut command = Command::new("env");
        command.arg("--default-signal").arg(plain.get_program());
        command.args(args).current_dir(self.folder.path());
        for (name, _) in plain.get_envs() {
            command.env_remove(name);
        }
        command
    }

    pub(crate) fn run(&self, args: &[&str]) -> Run {
        self.run_with(args, "")
    }

    /// Runs with this on stdin.
    pub(crate) fn run_with(&self, args: &[&str], input: impl AsRef<[u8]> + Send) -> Run {
        let mut child = self
            .command(args)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("started");
        let mut stdin = child.stdin.take().expect("stdin");
        // A command may write before it has read all; one that fails early need not read at all.
        let output = std::thread::scope(|scope| {
            scope.spawn(move || {
                let _ = stdin.write_all(input.as_ref());
            });
            child.wait_with_output().expect("ended")
        });
        Run {
            code: output.status.code().expect("an exit code"),
            out: String::from_utf8(output.stdout).expect("UTF-8"),
            err: String::from_utf8(output.stderr).expect("UTF-8"),
        }
    }
}

/// A file of the demo.
pub(crate) fn demo(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../fixtures/demo")
        .join(name)
}

/// The points of a JSON point list with one path.
pub(crate) fn points(list: &serde_json::Value) -> Vec<[f64; 2]> {
    serde_json::from_value(list["points"].clone()).expect("points")
}

/// A small SVG drawing of these elements, 10 by 10 cm in millimetres.
pub(crate) fn svg(elements: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"100mm\" height=\"100mm\" viewBox=\"0 0 100 100\">{elements}</svg>"
    )
}
