//! The files of a solved plan, written side by side: their text takes longer than the disk.

use std::borrow::Cow;

use quiltpath_core::Error;
use quiltpath_core::frame::{NeedleUp, Progress, check_pass, check_piece, pass_window};
use quiltpath_core::geom::{Bounds, Point};
use quiltpath_core::io::gcode::{GcodeOptions, Needle};
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::io::json::{write_plan, write_progress};
use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
use quiltpath_core::io::picture::write_picture;
use quiltpath_core::io::sheet::write_sheet;
use quiltpath_core::io::svg_write::WriteOptions;
use quiltpath_core::motif::Motif;
use quiltpath_core::order::Loading;
use quiltpath_core::plan::{
    Origin, PlanSpec, PlannedPass, Solved, Stitched, Stitching, mark_letter,
};
use quiltpath_core::transform::Transform;
use quiltpath_core::units::Unit;
use rayon::iter::{IntoParallelRefIterator, ParallelIterator};

use crate::failure::Failure;
use crate::files::Folder;
use crate::output::named_lines;
use crate::plan_folder::{PROGRESS, STITCHED};

/// The name of the picture.
pub(super) const PICTURE: &str = "quilt.svg";

/// The name of the sheet.
pub(super) const SHEET: &str = "sheet.html";

/// The folder of needle-up checks, and the name of their lines.
const NEEDLE_UP: &str = "needle-up";

/// Writes the numbers, the picture, the sheet, the plan, every piece, every path, and every pass
/// where the quilt is advanced or turned, with a needle-up check of each pass and piece; lines as
/// SVG and JSON, and in these formats besides.
pub(super) fn write(
    folder: &Folder,
    spec: &PlanSpec,
    (solved, stitching): (&Solved, &Stitching),
    formats: &[LineFormat],
) -> Result<(), Failure> {
    let mut all = vec![LineFormat::Svg, LineFormat::Json];
    for &format in formats {
        if !all.contains(&format) {
            all.push(format);
        }
    }
    let machine = spec.machine.as_ref();
    let origin = machine.and_then(|machine| machine.origin.as_ref());
    let drawings = drawings(solved, stitching, origin)?;
    // The longest first, so that the threads end at about the same time.
    let mut works: Vec<Work<'_>> = vec![
        Box::new(|| folder.add("result.json", &result(solved, stitching)?)),
        Box::new(|| folder.add(SHEET, &write_sheet(solved, stitching)?)),
        Box::new(|| folder.add(PICTURE, &write_picture(solved, Some(stitching))?)),
        Box::new(|| folder.add("plan.json", &write_plan(spec))),
    ];
    for drawing in &drawings {
        for &format in &all {
            works.push(Box::new(move || drawing.write(folder, solved.unit, format)));
        }
    }
    side_by_side(&works)
}

/// Writes what the plan was solved round, as it was given, and how far the quilt is by the new
/// plan: what is stitched, where it lies now. Readings, stops and bobbins are told by passes and
/// lengths of the plan before, so they stay with that.
pub(super) fn write_progress_of(
    folder: &Folder,
    (solved, stitching): (&Solved, &Stitching),
    before: &Progress,
) -> Result<(), Failure> {
    let mut progress = Progress::of(solved, stitching);
    progress.stitched = Stitched::of(solved)?;
    folder.add(STITCHED, &write_progress(before)?)?;
    folder.add(PROGRESS, &write_progress(&progress)?)
}

/// The text of `result.json`.
pub(super) fn result(solved: &Solved, stitching: &Stitching) -> Result<String, Error> {
    write_result(&PlanResult::new(solved, Some(stitching))?)
}

/// The drawings of lines, those of many points first.
fn drawings<'a>(
    solved: &'a Solved,
    stitching: &'a Stitching,
    origin: Option<&Origin>,
) -> Result<Vec<Drawing<'a>>, Failure> {
    let mut drawings = Vec::new();
    for (path, number) in solved.paths.iter().zip(1..) {
        let border = solved.layouts[path.border].file_name();
        drawings.push(Drawing {
            file: format!("paths/{number:02}-{border}"),
            title: border.clone(),
            lines: vec![(Cow::Borrowed(&path.motif), border)],
            page: None,
            needle: Needle::Stitching,
        });
    }
    let turned = |pass: &PlannedPass| pass.loading == Loading::Turned;
    if stitching.throat.is_some() || stitching.passes.iter().any(turned) {
        for (pass, number) in stitching.passes.iter().zip(1..) {
            let loading = pass.loading.name();
            let mut lines: Vec<(Cow<'_, Motif>, String)> = Vec::new();
            for index in pass.runs.clone() {
                let run = &stitching.runs[index];
                let border = solved.pieces[run.parts[0].piece].border;
                let name = format!("{}-{}", index + 1, solved.layouts[border].file_name());
                lines.push((Cow::Owned(run.motif.transformed(&pass.to_machine)?), name));
            }
            let marks = pass.marks.iter().enumerate();
            let marks =
                marks.map(|(at, mark)| (mark_letter(at), pass.to_machine.apply(mark.point)));
            let shift = match origin {
                Some(origin) => origin
                    .shift(
                        lines.iter().map(|(motif, _)| motif.as_ref()),
                        Some(Point::origin()),
                        &marks.collect::<Vec<_>>(),
                    )
                    .map_err(|error| error.in_element(format!("machine.origin, pass {number}")))?,
                None => Transform::identity(),
            };
            let page = Some(pass_window(solved, stitching, pass));
            let stitched = Drawing {
                file: format!("passes/{number:02}-{loading}"),
                title: format!("pass {number}, the quilt {loading}"),
                lines,
                page,
                needle: Needle::Stitching,
            };
            drawings.push(stitched.moved(&shift)?);
            let check = check_pass(solved, stitching, number - 1)?;
            let mut check = needle_up(
                &check,
                &format!("{number:02}-pass-{loading}"),
                &format!("pass {number}, the quilt {loading}"),
            )?;
            check.page = page;
            drawings.push(check.moved(&shift)?);
        }
    }
    let shift = |piece: usize| match origin {
        // A piece has no window, and marks are those of passes.
        Some(origin @ (Origin::Start | Origin::Corner(_))) => {
            origin.shift([&solved.pieces[piece].lines()[0].motif], None, &[])
        }
        _ => Ok(Transform::identity()),
    };
    for (piece, number) in stitching.piece_numbers(solved).into_iter().enumerate() {
        let shift = shift(piece)?;
        let piece = &solved.pieces[piece];
        let stitched = Drawing {
            file: format!("pieces/{number:02}-{}", piece.name),
            title: piece.name.clone(),
            lines: vec![(Cow::Borrowed(&piece.lines()[0].motif), piece.name.clone())],
            page: None,
            needle: Needle::Stitching,
        };
        drawings.push(stitched.moved(&shift)?);
    }
    for (piece, number) in stitching.piece_numbers(solved).into_iter().enumerate() {
        let name = &solved.pieces[piece].name;
        let check = check_piece(solved, piece)?;
        let check = needle_up(&check, &format!("{number:02}-piece-{name}"), name)?;
        drawings.push(check.moved(&shift(piece)?)?);
    }
    Ok(drawings)
}

/// A needle-up check as a drawing, in a folder of their own so that none is stitched by mistake.
fn needle_up<'a>(check: &NeedleUp, name: &str, title: &str) -> Result<Drawing<'a>, Error> {
    Ok(Drawing {
        file: format!("{NEEDLE_UP}/{name}"),
        title: format!("{title}: check with the needle up"),
        lines: vec![(Cow::Owned(check.path(NEEDLE_UP)?), NEEDLE_UP.to_owned())],
        page: None,
        needle: Needle::Up,
    })
}

/// Lines in millimetres that go into one file of each format.
struct Drawing<'a> {
    /// The name of the file without its end.
    file: String,
    title: String,
    lines: Vec<(Cow<'a, Motif>, String)>,
    /// The page of the drawing, where it is more than a margin round the lines.
    page: Option<Bounds>,
    needle: Needle,
}

impl Drawing<'_> {
    /// The same drawing with its zero elsewhere.
    fn moved(mut self, shift: &Transform) -> Result<Self, Error> {
        if *shift != Transform::identity() {
            for (motif, _) in &mut self.lines {
                *motif = Cow::Owned(motif.transformed(shift)?);
            }
            self.page = self.page.map(|Bounds { min, max }| Bounds {
                min: shift.apply(min),
                max: shift.apply(max),
            });
        }
        Ok(self)
    }

    fn write(&self, folder: &Folder, unit: Unit, format: LineFormat) -> Result<(), Failure> {
        let named = self
            .lines
            .iter()
            .map(|(motif, name)| (motif.as_ref(), name.as_str()));
        let list = named_lines(unit, named);
        let page = self.page.map(|Bounds { min, max }| Bounds {
            min: min / unit.in_mm(),
            max: max / unit.in_mm(),
        });
        let svg = WriteOptions::default()
            .with_title(Some(&self.title))
            .with_page(page);
        let gcode = GcodeOptions::default().with_needle(self.needle);
        let options = LineOptions::default().with_svg(svg).with_gcode(gcode);
        let text = write_lines(&list, format, &options)?;
        folder.add(&format!("{}.{}", self.file, format.name()), &text)
    }
}

type Work<'a> = Box<dyn Fn() -> Result<(), Failure> + Sync + 'a>;

/// Does all works, on all cores; of several failures, the first work's is returned.
fn side_by_side(works: &[Work<'_>]) -> Result<(), Failure> {
    let failed = works.par_iter().find_map_first(|work| work().err());
    failed.map_or(Ok(()), Err)
}
