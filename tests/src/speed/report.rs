//! Contests and their tables: who is timed, in which order, and what is said of it.
//!
//! Contestants take turns, so that a busy machine slows them alike; the middle time of each counts.
//! Differences under 20 % are ties.

use std::fmt::Write;
use std::hint::black_box;
use std::time::{Duration, Instant};

use super::asked::Asked;
use super::works::Run;

/// Differences under this share are ties.
const TIE: f64 = 0.2;

/// A contest is over when it has taken this long, if everyone has had [`LEAST_RUNS`].
const LONG_ENOUGH: Duration = Duration::from_secs(12);

const LEAST_RUNS: usize = 3;

/// A run of fewer seconds than this is run once more right before it, not timed.
const SHORT: f64 = 0.02;

/// What ours has to reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Target {
    /// At most so many times what the peer of this name takes.
    TimesPeer(f64, &'static str),
    /// At most so many times what the fastest peer takes.
    TimesBest(f64),
    /// At most so many milliseconds.
    Milliseconds(f64),
}

/// One row of the table: ours and the peers at the same work.
pub struct Contest {
    /// The work.
    pub name: &'static str,
    /// What is aimed at.
    pub target: Target,
    /// Ours.
    pub ours: Run,
    /// The peers by name.
    pub peers: Vec<(&'static str, Run)>,
}

/// The middle times of a contest, in seconds.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    name: &'static str,
    target: Target,
    runs: usize,
    ours: f64,
    peers: Vec<(&'static str, f64)>,
}

impl Contest {
    /// Everyone in turn, as often as asked; the first round warms up and does not count.
    #[must_use]
    pub fn hold(mut self, asked: &Asked) -> Outcome {
        let contestants = 1 + self.peers.len();
        let mut times = vec![Vec::new(); contestants];
        let begun = Instant::now();
        for round in 0..=asked.runs {
            if round > LEAST_RUNS && begun.elapsed() > LONG_ENOUGH {
                break;
            }
            for turn in 0..contestants {
                // Forth and back, so that nobody always comes after the same one.
                let turn = if round % 2 == 0 {
                    turn
                } else {
                    contestants - 1 - turn
                };
                let whose = (round + turn) % contestants;
                let run = match whose {
                    0 => &mut self.ours,
                    peer => &mut self.peers[peer - 1].1,
                };
                // What the others left in the caches would be most of the time of a short run.
                if times[whose].last().is_some_and(|last| *last < SHORT) {
                    time(run);
                }
                let seconds = time(run);
                if round > 0 {
                    times[whose].push(seconds);
                }
            }
        }
        let runs = times[0].len();
        let mut middles = times.into_iter().map(median);
        let ours = middles.next().expect("ours is there");
        Outcome {
            name: self.name,
            target: self.target,
            runs,
            ours,
            peers: self.peers.iter().map(|p| p.0).zip(middles).collect(),
        }
    }
}

impl Outcome {
    /// The head of the table of outcomes.
    pub const HEAD: &str = "\
| work | ours ms | against | its ms | ratio | target | | runs | others, ms |
| --- | ---: | --- | ---: | ---: | --- | --- | ---: | --- |";

    /// The row of the table.
    ///
    /// # Panics
    ///
    /// When the target names a peer that isn't in the contest.
    #[must_use]
    pub fn row(&self) -> String {
        let best = || self.peers.iter().min_by(|a, b| a.1.total_cmp(&b.1));
        let named = |name| self.peers.iter().find(|peer| peer.0 == name);
        let (against, share, target) = match self.target {
            Target::TimesPeer(times, name) => {
                let peer = named(name).expect("the target's peer");
                (
                    Some(peer),
                    self.ours / peer.1 / times,
                    format!("≤ {times} x"),
                )
            }
            Target::TimesBest(times) => {
                let peer = best().expect("a peer");
                (
                    Some(peer),
                    self.ours / peer.1 / times,
                    format!("≤ {times} x"),
                )
            }
            Target::Milliseconds(limit) => (None, self.ours * 1e3 / limit, format!("≤ {limit} ms")),
        };
        let mut row = format!("| {} | {} |", self.name, milliseconds(self.ours));
        match against {
            Some((name, seconds)) => write!(
                row,
                " {name} | {} | {} |",
                milliseconds(*seconds),
                digits(self.ours / seconds)
            ),
            None => write!(row, " | | |"),
        }
        .expect("a string takes everything");
        let others: Vec<String> = (self.peers.iter())
            .filter(|peer| Some(peer.0) != against.map(|peer| peer.0))
            .map(|(name, seconds)| format!("{name} {}", milliseconds(*seconds)))
            .collect();
        write!(
            row,
            " {target} | {} | {} | {} |",
            verdict(share),
            self.runs,
            others.join(", ")
        )
        .expect("a string takes everything");
        row
    }
}

/// What is said of a time that is this share of what the target allows.
fn verdict(share: f64) -> &'static str {
    if share <= 1.0 {
        "met"
    } else if share <= 1.0 + TIE {
        "tie"
    } else {
        "**missed**"
    }
}

/// The seconds of one run, without dropping what it made.
fn time(run: &mut Run) -> f64 {
    let begun = Instant::now();
    let made = black_box(run());
    let seconds = begun.elapsed().as_secs_f64();
    drop(made);
    seconds
}

/// The middle time of some runs, after one that doesn't count.
#[must_use]
pub fn middle(run: &mut Run, runs: usize) -> f64 {
    time(run);
    let mut times = Vec::new();
    let begun = Instant::now();
    while times.len() < runs && (times.len() < LEAST_RUNS || begun.elapsed() < LONG_ENOUGH) {
        times.push(time(run));
    }
    median(times)
}

fn median(mut times: Vec<f64>) -> f64 {
    times.sort_by(f64::total_cmp);
    let half = times.len() / 2;
    if times.len().is_multiple_of(2) {
        (times[half - 1] + times[half]) / 2.0
    } else {
        times[half]
    }
}

/// The exponent k of time = c·size^k that fits best in the logarithms: least squares.
///
/// 1 is linear; n log n shows as 1.05 to 1.15 at these sizes. `None` with fewer than two sizes.
#[must_use]
pub fn growth(times: &[(usize, f64)]) -> Option<f64> {
    let logs: Vec<(f64, f64)> = (times.iter())
        .map(|&(size, seconds)| ((size as f64).ln(), seconds.ln()))
        .collect();
    let count = logs.len() as f64;
    let mean_x = logs.iter().map(|p| p.0).sum::<f64>() / count;
    let mean_y = logs.iter().map(|p| p.1).sum::<f64>() / count;
    let across: f64 = logs.iter().map(|p| (p.0 - mean_x).powi(2)).sum();
    let along: f64 = logs.iter().map(|p| (p.0 - mean_x) * (p.1 - mean_y)).sum();
    (across > 0.0).then(|| along / across)
}

/// Seconds as milliseconds, three digits that count.
#[must_use]
pub fn milliseconds(seconds: f64) -> String {
    digits(seconds * 1e3)
}

/// A number above 0 with three digits that count.
#[must_use]
pub fn digits(value: f64) -> String {
    let before = value.abs().log10().floor() as i64 + 1;
    let after = usize::try_from(3 - before).unwrap_or(0).min(9);
    format!("{value:.after$}")
}

/// The machine in one line: its processor, cores, how busy it was, and the compiler.
#[must_use]
pub fn machine() -> String {
    let read = |place: &str| std::fs::read_to_string(place).unwrap_or_default();
    let cpu = read("/proc/cpuinfo");
    let cpu = (cpu.lines().find(|line| line.starts_with("model name")))
        .and_then(|line| line.split(": ").nth(1))
        .unwrap_or("unknown processor");
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let load = read("/proc/loadavg");
    let load = load.split(' ').next().filter(|load| !load.is_empty());
    let rustc = std::process::Command::new("rustc").arg("-V").output();
    let rustc = rustc.map_or_else(
        |_| "rustc".to_owned(),
        |said| String::from_utf8_lossy(&said.stdout).trim().to_owned(),
    );
    format!(
        "{cpu}, {cores} cores, load {} at the start, {}, {rustc}",
        load.unwrap_or("unknown"),
        std::env::consts::OS
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_of_an_even_and_an_odd_number_of_times() {
        assert_eq!(median(vec![3.0, 1.0, 2.0]), 2.0);
        assert_eq!(median(vec![4.0, 1.0, 2.0, 3.0]), 2.5);
    }

    #[test]
    fn growth_is_the_exponent_of_a_power() {
        let times = |power: f64| -> Vec<(usize, f64)> {
            let sizes = [10usize, 100, 1000];
            sizes.map(|n| (n, 3e-9 * (n as f64).powf(power))).to_vec()
        };
        for power in [0.0, 1.0, 1.5, 2.0] {
            let found = growth(&times(power)).expect("three sizes");
            assert!((found - power).abs() < 1e-12, "{found}");
        }
        assert_eq!(growth(&times(1.0)[..1]), None);
    }

    #[test]
    fn numbers_have_three_digits_that_count() {
        let written = [0.01234, 0.5, 1.0, 12.345, 370.4, 4050.2].map(digits);
        let expected = ["0.0123", "0.500", "1.00", "12.3", "370", "4050"];
        assert_eq!(written, expected);
    }

    #[test]
    fn a_row_tells_the_ratio_to_the_peer_of_the_target() {
        let outcome = |target| Outcome {
            name: "work",
            target,
            runs: 15,
            ours: 0.002,
            peers: vec![("slow", 0.04), ("fast", 0.01)],
        };
        for (target, expected) in [
            (
                Target::TimesBest(0.25),
                "| work | 2.00 | fast | 10.0 | 0.200 | ≤ 0.25 x | met | 15 | slow 40.0 |",
            ),
            (
                Target::TimesPeer(0.045, "slow"),
                "| work | 2.00 | slow | 40.0 | 0.0500 | ≤ 0.045 x | tie | 15 | fast 10.0 |",
            ),
            (
                Target::Milliseconds(1.5),
                "| work | 2.00 | | | | ≤ 1.5 ms | **missed** | 15 | slow 40.0, fast 10.0 |",
            ),
        ] {
            assert_eq!(outcome(target).row(), expected);
        }
    }

    #[test]
    fn everyone_runs_as_often_as_asked() {
        use std::cell::Cell;
        use std::rc::Rc;

        let asked = Asked::read(["--runs", "4"].map(String::from)).expect("arguments");
        let counts: [Rc<Cell<usize>>; 2] = Default::default();
        let counted = |count: &Rc<Cell<usize>>| {
            let count = Rc::clone(count);
            super::super::works::run(move || count.set(count.get() + 1))
        };
        let outcome = Contest {
            name: "count",
            target: Target::TimesBest(1.0),
            ours: counted(&counts[0]),
            peers: vec![("peer", counted(&counts[1]))],
        }
        .hold(&asked);
        assert_eq!(outcome.runs, 4);
        // One to warm up, four that count, and one before each of these but the first.
        assert_eq!([counts[0].get(), counts[1].get()], [8, 8]);
    }
}
