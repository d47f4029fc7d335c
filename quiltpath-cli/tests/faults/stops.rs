//! Runs that are killed or stopped at any moment.
//!
//! What the README promises: each file is the old or the new one, and so is a plan's folder as a
//! whole, at any time (on Linux). A stop that can be caught leaves no temporary behind; SIGKILL may
//! leave hidden ones, which later runs pass over.

use std::collections::BTreeMap;
use std::fs;
use std::os::unix::process::ExitStatusExt;
use std::path::PathBuf;
use std::process::{Child, Stdio};
use std::thread;
use std::time::{Duration, Instant, SystemTime};

use rustix::process::{Pid, Signal, kill_process};

use crate::common::Bench;
use crate::files;

type Files = BTreeMap<PathBuf, Vec<u8>>;

/// A command in two forms that write different things to the same place.
struct Job {
    args: [&'static str; 2],
    out: &'static str,
    /// All files change together.
    as_one: bool,
}

const PLAN: Job = Job {
    args: [
        "plan --quilt 30x40in --border 6in --side border.svg --style open --seam-gap 1/2in --out out --force",
        "plan --quilt 30x40in --border 6in --side border.svg --style open --seam-gap 1/4in --out out --force",
    ],
    out: "out",
    as_one: true,
};

const FILE: Job = Job {
    args: [
        "convert border.svg --unit mm --out a.json --force",
        "convert border.svg --unit in --out a.json --force",
    ],
    out: "a.json",
    as_one: true,
};

const PAGE: Job = Job {
    args: [
        "template corner.svg --paper a4 --out a.html --force",
        "template corner.svg --paper letter --out a.html --force",
    ],
    out: "a.html",
    as_one: true,
};

const STITCHES: Job = Job {
    args: [
        "stitch border.svg --spi 10 --out a.svg --force",
        "stitch border.svg --spi 11 --out a.svg --force",
    ],
    out: "a.svg",
    as_one: true,
};

const FOLDER: Job = Job {
    args: [
        "convert many --unit mm --out done --format json --force",
        "convert many --unit in --out done --format json --force",
    ],
    out: "done",
    as_one: false,
};

const LINES: Job = Job {
    args: [
        "convert many --unit mm --out many.jsonl --force",
        "convert many --unit in --out many.jsonl --force",
    ],
    out: "many.jsonl",
    as_one: true,
};

/// xorshift64: moments that differ from run to run, and the same again for the same seed.
struct Random(u64);

impl Random {
    /// From the clock, or from QUILTPATH_SEED to see a failure again.
    fn seeded(name: &str) -> Self {
        let clock = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH);
        let given = std::env::var("QUILTPATH_SEED")
            .ok()
            .and_then(|seed| seed.parse().ok());
        let seed = given.unwrap_or_else(|| clock.map_or(1, |d| d.as_nanos() as u64)) | 1;
        println!("{name}: QUILTPATH_SEED={seed}");
        Self(seed)
    }

    /// A number from 0 to 1.
    fn next(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A part of a run's time: half of them in its last quarter, where things are renamed.
    fn moment(&mut self) -> f64 {
        match self.next() < 0.5 {
            true => self.next() * 1.1,
            false => 0.75 + self.next() * 0.3,
        }
    }
}

impl Job {
    fn start(&self, bench: &Bench, form: usize) -> Child {
        let args: Vec<&str> = self.args[form].split(' ').collect();
        let mut command = bench.stoppable(&args);
        command
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        command.spawn().expect("started")
    }

    /// Runs whole once in each form: what each writes, and how long it takes.
    fn whole(&self, bench: &Bench) -> ([Files; 2], Duration) {
        let run = |form| {
            let start = Instant::now();
            let status = self.start(bench, form).wait().expect("ended");
            assert!(status.success(), "{}", self.args[form]);
            (files(&bench.path(self.out)), start.elapsed())
        };
        let ((first, took), (second, again)) = (run(0), run(1));
        assert!(
            first != second && first.len() == second.len(),
            "{}",
            self.out
        );
        ([first, second], took.min(again))
    }

    /// Stops runs of alternate forms at random moments, and holds what they leave.
    fn stop(&self, signal: Signal, times: u32) {
        let bench = Bench::new().with_demo();
        let many = bench.path("many");
        fs::create_dir(&many).expect("a folder");
        for at in 0..6 {
            fs::copy(bench.path("border.svg"), many.join(format!("{at}.svg"))).expect("copied");
        }
        let (whole, mut took) = self.whole(&bench);
        let names = bench.names(".");
        let mut random = Random::seeded(self.out);
        let (mut now, mut stopped) = (1, 0);
        for _ in 0..times {
            let next = 1 - now;
            let mut child = self.start(&bench, next);
            thread::sleep(took.mul_f64(random.moment()));
            let id = Pid::from_child(&child);
            // One that has ended is not waited for yet, so its id is still its own.
            kill_process(id, signal).expect("sent");
            let status = child.wait().expect("ended");
            match status.signal() {
                Some(by) => {
                    assert_eq!(by, signal.as_raw(), "{status}");
                    stopped += 1;
                    took = took.mul_f64(1.1);
                }
                // Runs were slower while they were measured, on a machine that was busy then.
                None => {
                    assert_eq!(status.code(), Some(0), "{status}");
                    took = took.mul_f64(0.9);
                }
            }
            let found = files(&bench.path(self.out));
            if self.as_one {
                if found == whole[next] {
                    now = next;
                } else {
                    assert!(found == whole[now], "{}: neither old nor new", self.out);
                    assert!(status.code().is_none(), "{}: done, but not there", self.out);
                }
            } else {
                assert!(found.keys().eq(whole[0].keys()) || signal == Signal::KILL);
                for (name, bytes) in &found {
                    let hidden = name.to_string_lossy().starts_with(".quiltpath-");
                    let good = whole.iter().any(|all| all.get(name) == Some(bytes));
                    assert!(
                        good || hidden && signal == Signal::KILL,
                        "{name:?} is a mix"
                    );
                }
                now = next;
            }
            if signal != Signal::KILL {
                assert_eq!(bench.names("."), names, "{}: left behind", self.out);
            }
        }
        println!("{}: {stopped} of {times} stopped in the middle", self.out);
        assert!(
            stopped > 0,
            "{}: nothing was stopped in the middle",
            self.out
        );
        // The next run is as if nothing had been, whatever was left behind.
        let hidden = |name: &String| name.starts_with(".quiltpath-");
        let left: Vec<String> = bench
            .names(".")
            .into_iter()
            .filter(|name| !hidden(name))
            .collect();
        assert_eq!(left, names);
        let done = self.start(&bench, 1 - now).wait().expect("ended");
        assert!(done.success());
        let mut found = files(&bench.path(self.out));
        found.retain(|name, _| !name.to_string_lossy().starts_with(".quiltpath-"));
        assert!(found == whole[1 - now]);
    }
}

// 200 kills in all.

#[test]
fn a_killed_plan_leaves_one_whole_folder() {
    PLAN.stop(Signal::KILL, 80);
}

#[test]
fn killed_commands_leave_whole_files() {
    FILE.stop(Signal::KILL, 30);
    PAGE.stop(Signal::KILL, 25);
    STITCHES.stop(Signal::KILL, 25);
}

#[test]
fn killed_batches_leave_whole_files() {
    FOLDER.stop(Signal::KILL, 20);
    LINES.stop(Signal::KILL, 20);
}

// 102 stops that are caught.

#[test]
fn a_stopped_plan_leaves_no_temporaries() {
    PLAN.stop(Signal::INT, 25);
    PLAN.stop(Signal::TERM, 20);
    PLAN.stop(Signal::HUP, 5);
}

#[test]
fn stopped_commands_leave_no_temporaries() {
    FILE.stop(Signal::INT, 10);
    PAGE.stop(Signal::TERM, 10);
    STITCHES.stop(Signal::INT, 8);
    FOLDER.stop(Signal::INT, 8);
    FOLDER.stop(Signal::TERM, 8);
    LINES.stop(Signal::INT, 8);
}

/// A stop while the command waits for input, so that the moment is sure to be in the middle.
#[test]
fn a_stop_in_the_middle_of_a_stream_leaves_no_temporaries() {
    for signal in [Signal::INT, Signal::TERM, Signal::HUP] {
        let bench = Bench::new().with("a.jsonl", "old");
        let args = ["convert", "-", "--out", "a.jsonl", "--force"];
        let mut command = bench.stoppable(&args);
        command.stdin(Stdio::piped()).stderr(Stdio::null());
        let mut child = command.spawn().expect("started");
        let mut stdin = child.stdin.take().expect("piped");
        let line = b"{\"unit\":\"in\",\"points\":[[0,0],[1,1]]}\n";
        std::io::Write::write_all(&mut stdin, line).expect("written");
        let start = Instant::now();
        while bench.names(".").len() < 2 {
            assert!(start.elapsed() < Duration::from_secs(20), "no draft came");
            thread::sleep(Duration::from_millis(2));
        }
        kill_process(Pid::from_child(&child), signal).expect("sent");
        let status = child.wait().expect("ended");
        assert_eq!(status.signal(), Some(signal.as_raw()), "{status}");
        assert_eq!(bench.names("."), ["a.jsonl"]);
        assert_eq!(bench.read("a.jsonl"), "old");
    }
}
