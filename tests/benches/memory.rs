//! The most memory that our works hold at once, for each point of the work.
//!
//! `cargo bench -p quiltpath-tests --bench memory`, or after the times with
//! `--bench speed --bench memory`; options as there. Every byte is counted that a work takes while
//! it runs, its result too, its input not. A program of its own, since counting slows the times.
#![allow(clippy::print_stdout, clippy::print_stderr)]

use std::process::ExitCode;

use peak_alloc::PeakAlloc;
use quiltpath_tests::speed::asked::Asked;
use quiltpath_tests::speed::report::digits;
use quiltpath_tests::speed::works::{Run, WORKS};

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

fn main() -> ExitCode {
    let asked = match Asked::read(std::env::args().skip(1)) {
        Ok(asked) => asked,
        Err(reason) => {
            eprintln!("{reason}");
            return ExitCode::from(2);
        }
    };
    println!(
        "\nBytes at the peak for each of the size, input not counted; the aim is 64 a point.\n"
    );
    println!("| work | size and bytes each |\n| --- | --- |");
    for work in WORKS.iter().filter(|work| asked.wants(work.name)) {
        let mut shown = Vec::new();
        for size in work.sizes(&asked) {
            let (size, mut run) = (work.make)(size);
            let bytes = peak(&mut run) as f64 / size as f64;
            let bytes = if bytes == 0.0 {
                "0".to_owned()
            } else {
                digits(bytes)
            };
            shown.push(format!("{size}: {bytes}"));
        }
        println!("| {} ({}) | {} |", work.name, work.counts, shown.join(", "));
    }
    ExitCode::SUCCESS
}

/// The bytes at the peak of a run, beyond those held before it.
fn peak(run: &mut Run) -> usize {
    let before = MEMORY.current_usage();
    MEMORY.reset_peak_usage();
    let made = run();
    let peak = MEMORY.peak_usage();
    drop(made);
    peak.saturating_sub(before)
}
