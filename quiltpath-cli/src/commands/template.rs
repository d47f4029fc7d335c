//! `template`: a piece at true size on paper, tiled over as many sheets as it takes, or paper to
//! draw on.

mod blank;
mod cloth;

use std::path::PathBuf;

use crate::words::counted;
use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::io::paper::Paper;
use quiltpath_core::io::template::write_template_on_cloth;

use self::blank::BlankArgs;
use self::cloth::beside;
use crate::args::{PAPERS, Reading, choice, usual_paper};
use crate::drawing;
use crate::failure::Failure;
use crate::files::{check_free, check_page_name, label, save};
use crate::message;

/// Make a page that prints a piece at true size, or paper to draw on
#[derive(Args)]
#[command(
    override_usage = "quiltpath template [OPTIONS] --out <FILE> <PIECE>\n       quiltpath template [OPTIONS] --blank <KIND> --depth <LENGTH> --out <FILE>",
    after_help = "\
Print the page from a browser at 100 %, not fitted to the paper. A piece of a
plan's folder is drawn with the raw edge and the seams beside it. What is drawn
on paper made with --blank is read by scan.

Example: quiltpath template corner.svg --paper a4 --out corner.html
         quiltpath template --blank repeat --depth \"5 in\" --out sheet.html"
)]
pub(crate) struct TemplateArgs {
    /// Piece to print (SVG, DXF, JSON, PNG, JPEG), - for stdin
    #[arg(value_name = "PIECE", required_unless_present = "blank")]
    piece: Option<PathBuf>,
    #[command(flatten)]
    blank: BlankArgs,
    /// letter or a4 [default: letter for inches, otherwise a4]
    #[arg(long, value_name = "PAPER", hide_possible_values = true, value_parser = choice(PAPERS))]
    paper: Option<Paper>,
    /// Result of the plan that it is a piece of [default: result.json beside pieces/]
    #[arg(long, value_name = "FILE")]
    result: Option<PathBuf>,
    #[command(flatten)]
    reading: Reading,
    /// HTML file to write, - for stdout
    #[arg(long, value_name = "FILE", help_heading = "Writing")]
    out: PathBuf,
    /// Replace an existing file
    #[arg(long, help_heading = "Writing")]
    force: bool,
}

pub(crate) fn run(args: TemplateArgs) -> Result<(), Failure> {
    let options = args.reading.check_lines()?;
    check_page_name(&args.out, "template")?;
    check_free(&args.out, args.force)?;
    let Some(piece) = &args.piece else {
        let page = args.blank.page(options.unit, args.paper)?;
        return save(&args.out, args.force, page.as_bytes());
    };
    let drawing = drawing::open(piece, &options)?;
    let (unit, name) = (drawing.unit(), drawing.name().to_owned());
    let paper = args.paper.unwrap_or(usual_paper(unit));
    let mut page = String::new();
    let lines = drawing.joined(&options).map(|lines| {
        drawing::report_strokes(None, &lines.report, unit);
        lines.motifs
    });
    let in_piece = |e: Error| Failure::from(e.measured_in(unit).in_file(label(piece)));
    let lines = lines.map_err(in_piece)?;
    let cloth = beside(piece, args.result.as_deref(), &lines, unit)?;
    let made = write_template_on_cloth(&mut page, unit, &name, &lines, &cloth, paper);
    let template = made.map_err(in_piece)?;
    let lines = lines.len();
    message::heading(format_args!(
        "{} of {} paper, {} by {}, and one to read first",
        counted(template.sheets, "sheet"),
        paper.name(),
        counted(template.rows, "row"),
        counted(template.columns, "column"),
    ));
    if lines > 1 {
        message::note(format_args!(
            "{lines} separate lines, each with its own start and end"
        ));
    }
    save(&args.out, args.force, page.as_bytes())
}
