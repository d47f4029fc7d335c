//! The commands that write, each with what it writes to.

use std::fs;
use std::path::Path;

use crate::common::Bench;

/// A command line, in which `@` is the folder to write to, and what it writes there.
pub(crate) struct Writer {
    pub(crate) line: &'static str,
    pub(crate) out: &'static str,
}

pub(crate) const WRITERS: [Writer; 13] = [
    Writer {
        line: "convert border.svg --out @/a.json --force",
        out: "a.json",
    },
    Writer {
        line: "transform border.svg --op reverse --out @/a.svg --force",
        out: "a.svg",
    },
    Writer {
        line: "fit border.svg --span 50in --depth 5in --out @/a.dxf --force",
        out: "a.dxf",
    },
    Writer {
        line: "corner border.svg --style bent --depth 5in --out @/a.gcode --force",
        out: "a.gcode",
    },
    Writer {
        line: "trim corner.svg --to l --width 9in --height 9in --leg-depth 4in --out @/a.json --force",
        out: "a.json",
    },
    Writer {
        line: "stitch border.svg --out @/a.svg --force",
        out: "a.svg",
    },
    Writer {
        line: "stitch border.svg --report @/a.json --force",
        out: "a.json",
    },
    Writer {
        line: "template corner.svg --out @/a.html --force",
        out: "a.html",
    },
    Writer {
        line: "compare plan.json other.json --out @/a.html --force",
        out: "a.html",
    },
    Writer {
        line: "plan plan.json --out @/out --force",
        out: "out",
    },
    Writer {
        line: "convert many --out @/many --format json --force",
        out: "many",
    },
    Writer {
        line: "convert many --out @/many.jsonl --force",
        out: "many.jsonl",
    },
    Writer {
        line: "man --out @ --force",
        out: "quiltpath.1",
    },
];

/// A bench with the demo and a folder of drawings.
pub(crate) fn bench() -> Bench {
    let bench = Bench::new().with_demo();
    fs::copy(bench.path("plan.json"), bench.path("other.json")).expect("copied");
    let many = bench.path("many");
    fs::create_dir(&many).expect("a folder");
    for name in ["a.svg", "b.svg", "c.svg"] {
        fs::copy(bench.path("border.svg"), many.join(name)).expect("copied");
    }
    bench
}

impl Writer {
    pub(crate) fn args(&self, folder: &str) -> Vec<String> {
        let word = |word: &str| match word.strip_prefix('@') {
            Some(rest) => format!("{folder}{rest}"),
            None => word.to_owned(),
        };
        self.line.split(' ').map(word).collect()
    }

    /// Puts an older result there: of another drawing, so that it differs, or at least other words.
    pub(crate) fn write_old(&self, bench: &Bench, folder: &Path) {
        let old = folder.join(self.out);
        let name = folder.to_str().expect("UTF-8");
        match self.out {
            "out" => {
                let flags =
                    "plan --quilt 30x40in --border 6in --side border.svg --style open --out";
                let old = old.to_str().expect("UTF-8");
                let args: Vec<&str> = flags.split(' ').chain([old]).collect();
                bench.run(&args).ok();
            }
            "many" => {
                fs::create_dir(&old).expect("a folder");
                for file in ["a.json", "b.json", "c.json"] {
                    fs::write(old.join(file), format!("old {file} in {name}")).expect("written");
                }
            }
            _ => fs::write(&old, format!("old {} in {name}", self.out)).expect("written"),
        }
    }
}
