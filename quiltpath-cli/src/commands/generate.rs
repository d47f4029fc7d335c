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

/// Prints the help of a command, or of all.
pub(crate) fn help(name: Option<&str>, mut all: Command) -> Result<(), Failure> {
    all.build();
    let Some(name) = name else {
        return print(all.render_help().to_string().as_bytes());
    };
    match all.find_subcommand_mut(name) {
        Some(command) => print(command.render_help().to_string().as_bytes()),
        None => {
            let names = all.get_subcommands().map(Command::get_name);
            let names: Vec<&str> = names.collect();
            Err(Failure::Usage(format!(
                "help: there is no command \"{name}\"; the commands are {}",
                names.join(", ")
            )))
        }
    }
}

/// Prints completions of this command line.
pub(crate) fn completions(args: CompletionsArgs, mut command: Command) -> Result<(), Failure> {
    let mut text = Vec::new();
    clap_complete::generate(args.shell, &mut command, "quiltpath", &mut text);
    print(&text)
}

/// Prints the manual page of this command line, or writes those of all its subcommands.
pub(crate) fn man(args: ManArgs, command: Command) -> Result<(), Failure> {
    // Commands that are seldom needed have no line in the help, but one here.
    let shown = |command: Command| command.hide(false);
    let mut command = command.mut_subcommands(shown);
    command.build();
    let Some(folder) = args.out else {
        return print(&page(command)?);
    };
    let commands = command.get_subcommands().cloned().collect::<Vec<_>>();
    let mut pages = Vec::new();
    for command in std::iter::once(command).chain(commands) {
        let name = command.get_display_name().unwrap_or(command.get_name());
        let path = folder.join(format!("{name}.1"));
        if folder.is_dir() {
            check_free(&path, args.force)?;
        }
        pages.push((path, page(command)?));
    }
    ready_folder(&folder)?;
    pages
        .iter()
        .try_for_each(|(path, page)| save(path, args.force, page))
}

/// A manual page: what the command line holds, then exit codes, files and examples.
fn page(command: Command) -> Result<Vec<u8>, Failure> {
    let after = command.get_after_help().map(ToString::to_string);
    let (notes, examples) = divided(&after.unwrap_or_default());
    let is_plan = command.get_name() == "plan";
    let page = Man::new(command.after_help(notes));
    let mut text = Vec::new();
    page.render(&mut text)
        .map_err(|error| Failure::File(unwritable(&error)))?;
    let mut section = |title: &str, body: &str| {
        text.extend(format!(".SH \"{title}\"\n.nf\n").bytes());
        for line in body.lines() {
            // A dot at the start of a line would be a request, a backslash begins an escape.
            let line = line.replace('\\', "\\e").replace('-', "\\-");
            text.extend(format!("\\&{line}\n").bytes());
        }
        text.extend(b".fi\n");
    };
    section("EXIT STATUS", EXIT_STATUS);
    section("FILES", if is_plan { PLAN_FILES } else { FILES });
    section("EXAMPLES", &examples);
    Ok(text)
}

/// What stands below the options, and the examples at its end.
fn divided(after: &str) -> (String, String) {
    match after.split_once("Example: ") {
        Some((notes, examples)) => {
            let lines = examples.lines().map(str::trim_start);
            let lines = lines.map(|line| match line.starts_with("quiltpath") {
                true => line.to_owned(),
                false => format!("    {line}"),
            });
            let lines: Vec<String> = lines.collect();
            (notes.trim_end().to_owned(), lines.join("\n"))
        }
        None => (after.to_owned(), String::new()),
    }
}

const EXIT_STATUS: &str = "\
0   done
1   bad data, or a file that can't be read or written
2   bad usage
3   planned, with findings at or above --fail-on";

const FILES: &str = "\
Drawings are SVG, DXF, JSON point lists or JSON Lines; - is stdin or stdout.
A file is written whole or not at all; one that exists needs --force.";

const PLAN_FILES: &str = "\
PLAN.json      the plan; quiltpath schema prints what it may hold
DIR/sheet.html     the placement sheet, to print
DIR/quilt.svg      the picture
DIR/result.json    all numbers
DIR/plan.json      the plan as it was used
DIR/pieces/        each piece as SVG and JSON
DIR/paths/         each line that is stitched without a cut
DIR/passes/        the lines of each pass on the frame";

fn unwritable(error: &io::Error) -> String {
    format!("the manual page can't be made: {error}")
}
