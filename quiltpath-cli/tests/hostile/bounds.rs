//! Runs of the command that may take only so much memory and time.

use std::fs;
use std::io::Read;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use crate::common::{Bench, Run};

/// What a run may take.
pub(crate) struct Bounds {
    /// Mebibytes in memory at the peak.
    pub(crate) memory: u64,
    /// Seconds by the clock. Generous: it is there to end what hangs, on a busy machine too.
    pub(crate) seconds: u64,
}

/// Address space beyond the memory in use, in mebibytes: stacks and arenas of threads, and
/// buffers that have grown to twice what they hold.
const RESERVE: u64 = 512;

impl Bounds {
    pub(crate) const SMALL: Self = Self {
        memory: 64,
        seconds: 20,
    };

    /// Runs the command. The system refuses it more address space, and ends it with a signal then,
    /// which is no exit code.
    pub(crate) fn run(&self, bench: &Bench, args: &[&str]) -> Run {
        self.run_from(bench, args, Stdio::null())
    }

    pub(crate) fn run_from(&self, bench: &Bench, args: &[&str], stdin: impl Into<Stdio>) -> Run {
        let plain = bench.command(args);
        let mut command = Command::new("sh");
        command
            .args(["-c", "ulimit -v \"$0\" && exec \"$@\""])
            .arg(((self.memory * 2 + RESERVE) << 10).to_string())
            .arg(plain.get_program())
            .args(plain.get_args())
            .current_dir(bench.path("."))
            .env("NO_COLOR", "1")
            .stdin(stdin)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        let start = Instant::now();
        let mut child = command.spawn().expect("started");
        let (mut out, mut err) = (child.stdout.take(), child.stderr.take());
        let out = thread::spawn(move || all(out.as_mut().expect("piped")));
        let err = thread::spawn(move || all(err.as_mut().expect("piped")));
        let mut peak = 0;
        let status = loop {
            peak = peak.max(peak_kib(child.id()));
            if let Some(status) = child.try_wait().expect("a child") {
                break status;
            }
            if start.elapsed() > Duration::from_secs(self.seconds) {
                let _ = child.kill();
                let _ = child.wait();
                panic!("{args:?} takes longer than {} s", self.seconds);
            }
            thread::sleep(Duration::from_millis(2));
        };
        let (took, peak) = (start.elapsed(), peak >> 10);
        let (out, err) = (out.join().expect("read"), err.join().expect("read"));
        println!("{took:.2?} {peak} MiB {args:.100?}");
        assert!(peak <= self.memory, "{args:?} takes {peak} MiB: {err}");
        let code = status.code();
        Run {
            code: code.unwrap_or_else(|| panic!("{args:?} ended by {status}: {err}")),
            out,
            err,
        }
    }
}

fn all(pipe: &mut impl Read) -> String {
    let mut bytes = Vec::new();
    pipe.read_to_end(&mut bytes).expect("read");
    String::from_utf8_lossy(&bytes).into_owned()
}

/// The most that the process has had in memory so far, from proc(5); 0 once it has ended.
fn peak_kib(id: u32) -> u64 {
    let status = fs::read_to_string(format!("/proc/{id}/status")).unwrap_or_default();
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let number = peak.and_then(|rest| rest.trim().strip_suffix(" kB"));
    number.and_then(|n| n.trim().parse().ok()).unwrap_or(0)
}
