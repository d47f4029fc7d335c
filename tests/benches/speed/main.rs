//! Ours and the peers at each work that has a target, in one table; then how our times
//! grow with the size of the work.
//!
//! `cargo bench -p quiltpath-tests --bench speed --bench memory`; after `--` the options are
//! `--runs N` (15), `--only WORD` for the rows with that word, and `--large` for ten million
//! points. With `--features clipper2` one peer more, which takes a C++ compiler.
#![allow(clippy::print_stdout, clippy::print_stderr)]

mod contests;
mod peers;

use quiltpath_tests::speed::asked::Asked;
use quiltpath_tests::speed::report::{Outcome, growth, machine, middle, milliseconds};
use quiltpath_tests::speed::works::WORKS;
use std::process::ExitCode;

fn main() -> ExitCode {
    let asked = match Asked::read(std::env::args().skip(1)) {
        Ok(asked) => asked,
        Err(reason) => {
            eprintln!("{reason}");
            return ExitCode::from(2);
        }
    };
    println!("{}\n\n{}", machine(), Outcome::HEAD);
    for (name, make) in contests::CONTESTS {
        if asked.wants(name) {
            println!("{}", make(name).hold(&asked).row());
        }
    }
    println!("\nOurs at growing sizes, and the exponent of the growth: 1 is linear.\n");
    println!("| work | size and ms | growth |\n| --- | --- | ---: |");
    for work in WORKS.iter().filter(|work| asked.wants(work.name)) {
        let mut times = Vec::new();
        for size in work.sizes(&asked) {
            let (size, mut run) = (work.make)(size);
            times.push((size, middle(&mut run, asked.runs.min(7))));
        }
        let shown: Vec<String> = (times.iter())
            .map(|&(size, seconds)| format!("{size}: {}", milliseconds(seconds)))
            .collect();
        println!(
            "| {} ({}) | {} | {:.2} |",
            work.name,
            work.counts,
            shown.join(", "),
            growth(&times).unwrap_or(f64::NAN)
        );
    }
    ExitCode::SUCCESS
}
