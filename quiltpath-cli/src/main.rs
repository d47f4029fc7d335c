//! The command `quiltpath`: borders and corners that meet, planned, fitted and converted.
#![forbid(unsafe_code)]

mod args;
mod batch;
mod cli;
mod commands;
mod drawing;
mod failure;
mod files;
mod hint;
mod message;
mod output;
mod plan_folder;
mod source;
mod words;

use std::io::Write;
use std::process::ExitCode;

fn main() -> ExitCode {
    let cli = match cli::Cli::read() {
        Ok(cli) => cli,
        Err(error) => return usage(&error),
    };
    let asker = cli.command.asker();
    match cli.command.run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            failure.report(asker);
            failure.exit_code()
        }
    }
}

/// Shows help, the version or what is wrong with the arguments.
fn usage(error: &clap::Error) -> ExitCode {
    let printed = match error.use_stderr() {
        // As all other errors, it begins with the name of the command.
        true => {
            let text = format!("quiltpath: {}", error.render().ansi());
            anstream::stderr().write_all(text.as_bytes())
        }
        false => error.print(),
    };
    match printed {
        Err(fault) if fault.kind() != std::io::ErrorKind::BrokenPipe => ExitCode::FAILURE,
        _ if error.use_stderr() => ExitCode::from(failure::USAGE),
        _ => ExitCode::SUCCESS,
    }
}
