//! The files that are written of a solved plan, by name and text: numbers, picture, sheet, the plan
//! itself, and lines in any format.

use std::borrow::Cow;
use std::sync::Arc;

use crate::error::Error;
use crate::frame::{NeedleUp, Progress, check_pass, check_piece, pass_window};
use crate::geom::{Bounds, Point};
use crate::io::gcode::{GcodeOptions, Needle};
use crate::io::json::result::{PlanResult, write_result};
use crate::io::json::{PointList, write_plan, write_progress};
use crate::io::lines::{LineFormat, LineOptions, write_lines};
use crate::io::picture::write_picture;
use crate::io::sheet::write_sheet;
use crate::io::svg_write::WriteOptions;
use crate::motif::Motif;
use crate::order::Loading;
use crate::plan::{Origin, PlanSpec, PlannedPass, Solved, Stitched, Stitching, mark_letter};
use crate::transform::Transform;
use crate::units::Unit;

/// The numbers of a plan's answer.
pub const RESULT: &str = "result.json";

/// The picture.
pub const PICTURE: &str = "quilt.svg";

/// The sheet.
pub const SHEET: &str = "sheet.html";

/// The plan.
pub const PLAN: &str = "plan.json";

/// How far the quilt is.
pub const PROGRESS: &str = "progress.json";

/// What the plan was solved round.
pub const STITCHED: &str = "stitched.json";

/// The folder of the drawings that the plan names, where it brings them along.
pub const DRAWINGS: &str = "drawings";

/// The folder of needle-up checks, and the name of their lines.
pub(super) const NEEDLE_UP: &str = "needle-up";

/// What makes the bytes of a file.
type Make<'a> = Box<dyn Fn() -> Result<Vec<u8>, Error> + Send + Sync + 'a>;

/// A file of a plan: its name in the folder, with slashes, and what it holds.
pub struct PlanFile<'a> {
    name: String,
    make: Make<'a>,
}

impl<'a> PlanFile<'a> {
    /// A file whose text is made when it is asked for.
    pub fn new(
        name: impl Into<String>,
        text: impl Fn() -> Result<String, Error> + Send + Sync + 'a,
    ) -> Self {
        Self {
            name: name.into(),
            make: Box::new(move || text().map(String::into_bytes)),
        }
    }

    /// A file that holds these bytes.
    pub fn of_bytes(name: impl Into<String>, bytes: &'a [u8]) -> Self {
        Self {
            name: name.into(),
            make: Box::new(move || Ok(bytes.to_vec())),
        }
    }

    /// Its name in the folder of the plan, folders before it with slashes.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What it holds, made anew.
    ///
    /// # Errors
    ///
    /// As what writes it: [`write_result`], [`write_sheet`], [`write_picture`], [`write_lines`].
    pub fn bytes(&self) -> Result<Vec<u8>, Error> {
        (self.make)()
    }
}

/// The files of a solved plan: the numbers, the picture, the sheet, the plan, every piece, every
/// path, and every pass where the quilt is advanced or turned, with a needle-up check of each pass
/// and piece; lines as SVG and JSON, and in these formats besides.
///
/// Those that take the longest come first. `plan` is written as it is, so that it names its
/// drawings as seen from the folder.
///
/// # Errors
///
/// Where the zero of files lies as the plan asks, a plan error when there is no such place.
pub fn plan_files<'a>(
    plan: &'a PlanSpec,
    (solved, stitching): (&'a Solved, &'a Stitching),
    formats: &[LineFormat],
) -> Result<Vec<PlanFile<'a>>, Error> {
    let mut all = vec![LineFormat::Svg, LineFormat::Json];
    for &format in formats {
        if !all.contains(&format) {
            all.push(format);
        }
    }
    let machine = plan.machine.as_ref();
    let origin = machine.and_then(|machine| machine.origin.as_ref());
    let mut files = vec![
        PlanFile::new(RESULT, || {
            write_result(&PlanResult::new(solved, Some(stitching))?)
        }),
        PlanFile::new(SHEET, || write_sheet(solved, stitching)),
        PlanFile::new(PICTURE, || write_picture(solved, Some(stitching))),
        PlanFile::new(PLAN, || Ok(write_plan(plan))),
    ];
    for lines in lines(solved, stitching, origin)? {
        let lines = Arc::new(lines);
        for &format in &all {
            let name = format!("{}.{}", lines.file, format.name());
            let lines = Arc::clone(&lines);
            files.push(PlanFile::new(name, move || lines.text(solved.unit, format)));
        }
    }
    Ok(files)
}

/// The files that say what a plan was solved round and how far the quilt is since.
pub fn progress_files<'a>(
    before: Option<&'a Progress>,
    progress: Option<&'a Progress>,
) -> Vec<PlanFile<'a>> {
    let both = [(STITCHED, before), (PROGRESS, progress)];
    let files = both.into_iter().filter_map(|(name, of)| Some((name, of?)));
    files
        .map(|(name, of)| PlanFile::new(name, || write_progress(of)))
        .collect()
}

/// How far a quilt is by a new plan that was solved round what is stitched: it lies where it lies
/// now. Readings, stops and bobbins are told by passes and lengths of the plan before, so they stay
/// with that.
///
/// # Errors
///
/// As [`Stitched::of`].
pub fn progress_anew(solved: &Solved, stitching: &Stitching) -> Result<Progress, Error> {
    let mut progress = Progress::of(solved, stitching);
    progress.stitched = Stitched::of(solved)?;
    Ok(progress)
}

/// The lines of each file, those of many points first.
fn lines<'a>(
    solved: &'a Solved,
    stitching: &'a Stitching,
    origin: Option<&Origin>,
) -> Result<Vec<Lines<'a>>, Error> {
    let mut drawings = Vec::new();
    for (path, number) in solved.paths.iter().zip(1..) {
        let border = solved.layouts[path.border].file_name();
        drawings.push(Lines {
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
            let stitched = Lines {
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
        let stitched = Lines {
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

/// A needle-up check as lines, in a folder of their own so that none is stitched by mistake.
fn needle_up<'a>(check: &NeedleUp, name: &str, title: &str) -> Result<Lines<'a>, Error> {
    Ok(Lines {
        file: format!("{NEEDLE_UP}/{name}"),
        title: format!("{title}: check with the needle up"),
        lines: vec![(Cow::Owned(check.path(NEEDLE_UP)?), NEEDLE_UP.to_owned())],
        page: None,
        needle: Needle::Up,
    })
}

/// Lines in millimetres that go into one file of each format.
struct Lines<'a> {
    /// The name of the file without its end.
    file: String,
    title: String,
    lines: Vec<(Cow<'a, Motif>, String)>,
    /// The page of the drawing, where it is more than a margin round the lines.
    page: Option<Bounds>,
    needle: Needle,
}

impl Lines<'_> {
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

    fn text(&self, unit: Unit, format: LineFormat) -> Result<String, Error> {
        let named = self
            .lines
            .iter()
            .map(|(motif, name)| (motif.as_ref(), name.as_str()));
        let list = PointList::of_mm(unit, named);
        let page = self.page.map(|Bounds { min, max }| Bounds {
            min: min / unit.in_mm(),
            max: max / unit.in_mm(),
        });
        let svg = WriteOptions::default()
            .with_title(Some(&self.title))
            .with_page(page);
        let gcode = GcodeOptions::default().with_needle(self.needle);
        let options = LineOptions::default().with_svg(svg).with_gcode(gcode);
        write_lines(&list, format, &options)
    }
}
