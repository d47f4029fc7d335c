//! `schema`, `completions` and `man`: what is made from the command itself.

use std::io;
use std::path::PathBuf;

use clap::{Args, Command};
use clap_complete::Shell;
use clap_mangen::Man;
use quiltpath_core::io::json::plan_schema;

use crate::failure::Failure;
use crate::files::{check_free, print, ready_folder, save};

/// Print completions for a shell
#[derive(Args)]
#[command(after_help = "Example: quiltpath completions bash > quiltpath.bash")]
pub(crate) struct CompletionsArgs {
    #[arg(value_name = "SHELL")]
    shell: Shell,
}

/// Print the manual page, or write all of them to a folder
#[derive(Args)]
#[command(after_help = "Example: quiltpath man --out /usr/local/share/man/man1")]
pub(crate) struct ManArgs {
    /// Folder to write a page for each command to
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Replace existing pages
    #[arg(long, requires = "out")]
    force: bool,
}

pub(crate) fn schema() -> Result<(), Failure> {
    print(plan_schema().as_bytes())
}

/// Prints completions of this command line.
pub(crate) fn completions(args: CompletionsArgs, mut command: Command) -> Result<(), Failure> {
    let mut text = Vec::new();
    clap_complete::generate(args.shell, &mut command, "quiltpath", &mut text);
    print(&text)
}

/// Prints the manual page of this command line, or writes those of all its subcommands.
pub(crate) fn man(args: ManArgs, mut command: Command) -> Result<(), Failure> {
    command.build();
    let Some(folder) = args.out else {
        return print(&page(command)?);
    };
    let commands = command.get_subcommands().cloned().collect::<Vec<_>>();
    let mut pages = Vec::new();
    for command in std::iter::once(command).chain(commands) {
        let name = command.get_display_name().unwrap_or(command.get_name());
        let path = folder.join(format!("{name}.1"));
        if folder.exists() {
            check_free(&path, args.force)?;
        }
        pages.push((path, page(command)?));
    }
    ready_folder(&folder)?;
    pages
        .iter()
        .try_for_each(|(path, page)| save(path, args.force, page))
}

fn page(command: Command) -> Result<Vec<u8>, Failure> {
    let mut page = Vec::new();
    match Man::new(command).render(&mut page) {
        Ok(()) => Ok(page),
        Err(error) => Err(Failure::File(unwritable(&error))),
    }
}

fn unwritable(error: &io::Error) -> String {
    format!("the manual page can't be made: {error}")
}
