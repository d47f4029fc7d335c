//! The picture of a solved plan: quilt, borders, bands, every piece in its place and its measures,
//! as SVG.

use std::ops::RangeInclusive;

use maud::{Markup, PreEscaped, Render, html};

use super::again::gone_over;
use super::canvas::{Canvas, kind_of};
use super::look;
use super::measures::{self, measures, words_of};
use super::numbers::numbers;
use super::signs::{self, fraction, thread_ends, threads};
use super::svg_write::xml_text;
use crate::error::Error;
use crate::frame::{BobbinChanges, bobbin_changes};
use crate::geom::{Bounds, Point, Vector};
use crate::io::words::{self, counted};
use crate::motif::End;
use crate::plan::{
    CornerMade, Finding, FindingKind, Piece, PieceKind, Severity, Solved, Stitching, check_whole,
};

/// The longer side of the quilt is so many letters high.
const LETTERS: f64 = 46.0;

/// The width of the picture in pixels.
const WIDE: f64 = 960.0;

/// The title's letters are so much larger.
const TITLE: f64 = 1.75;

/// From row to row of the title, in its letters.
const TITLE_ROW: f64 = 1.3;

/// The most rows that a title takes.
const TITLE_ROWS: usize = 4;

/// From row to row below the quilt, in letters.
const ROW: f64 = 1.9;

/// How wide a letter is where fonts are wide, in its height: nobody knows which font there will be.
const LETTER: f64 = 0.6;

/// Writes the picture of a solved plan as a self-contained SVG, 960 px wide.
///
/// Pieces are `<path>` elements with their name as `id` and a `<title>`; a legend stands below.
/// With the stitching pieces are numbered in its order, and threads start and end where its runs
/// do; without it pieces are numbered as listed, and each path is a thread.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::io::{json::read_plan, picture::write_picture};
/// use quiltpath_core::plan::solve;
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let svg = write_picture(&solve(&plan, wave)?, None)?;
/// assert!(svg.contains(r#"id="border-side-top""#));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A plan error when the solved plan or its stitching refers to a border, a piece or a run that is
/// not there, as none does that [`crate::plan::solve()`] returns.
///
/// # Complexity
///
/// O(points).
pub fn write_picture(solved: &Solved, stitching: Option<&Stitching>) -> Result<String, Error> {
    check_whole(solved, stitching)?;
    let canvas = Canvas::of(solved, LETTERS);
    let em = canvas.em;
    let Bounds { min, max } = canvas.bounds;
    let margin = measures::room(solved) * em;
    let row = canvas.bounds.width() + 2.0 * (margin - em);
    let title = solved.title.as_deref().map(xml_text);
    let heading = title.as_deref().map_or_else(Vec::new, |title| {
        set_in_rows(title, (row / (em * TITLE * LETTER)) as usize)
    });
    let head =
        TITLE * em * (TITLE_ROW * heading.len() as f64 + if title.is_some() { 0.6 } else { 0.0 });
    let threads = threads(solved, stitching);
    let bobbins = stitching.map(|stitching| bobbin_changes(solved, stitching));
    let bobbins = bobbins.transpose()?.unwrap_or_default();
    let below = Legend::of(solved, stitching, &bobbins, row / em);
    let [x, y] = [min.x - margin, min.y - margin - head].map(|mm| canvas.grid(mm));
    let w = canvas.grid(canvas.bounds.width() + 2.0 * margin);
    let h = canvas.grid(max.y + margin + below.rows() * ROW * em) - y;
    let left = min.x - margin + em;
    let [width, height] =
        [canvas.bounds.width(), canvas.bounds.height()].map(|mm| solved.unit.readable(mm));
    let picture = html! {
        svg xmlns="http://www.w3.org/2000/svg" width="960" viewBox=(format!("{x} {y} {w} {h}")) role="img" {
            title { (title.as_deref().unwrap_or("Quilt plan")) }
            desc { "A quilt of " (width) " by " (height) " with its borders and the line to be stitched on them." }
            style { (PreEscaped(style(&canvas, w))) }
            rect class="back" x=(x) y=(y) width=(w) height=(h) {}
            @for (words, at) in heading.iter().zip(0..) {
                text class="head" x=(canvas.grid(left))
                    y=(y + canvas.grid(TITLE * em * (1.6 + TITLE_ROW * f64::from(at)))) { (words) }
            }
            (canvas.cloth(solved))
            (measures(&canvas, solved))
            @for piece in &solved.pieces {
                path class={ "line " (piece.kind.name()) } id=(piece.name) d=(canvas.line(piece.motif().points())) {
                    title { (piece.name) ": " (kind_of(&piece.kind)) }
                }
            }
            @for (piece, link) in links_within(solved) {
                @let points = &piece.motif().points()[link];
                (within(canvas.line(points)))
            }
            @if goes_over(solved) {
                @for piece in &solved.pieces {
                    @for stretch in gone_over(piece.motif().points()) {
                        @let points = &piece.motif().points()[stretch];
                        (twice(canvas.line(points)))
                    }
                }
            }
            (signs::stitched(&canvas, solved))
            (signs::piece_numbers(&canvas, solved, &numbers(solved, stitching), &threads))
            @for (line, closed) in &threads { (thread_ends(&canvas, line, *closed)) }
            (signs::bobbin_changes(&canvas, &bobbins))
            @for finding in &solved.findings { (mark(&canvas, solved, finding)) }
            (below.draw(&canvas, Point::new(left, max.y + margin)))
        }
    };
    let mut out = picture.into_string();
    out.push('\n');
    Ok(out)
}

fn style(canvas: &Canvas, width: i64) -> String {
    let em = canvas.grid(canvas.em);
    let large = canvas.grid(TITLE * canvas.em);
    let signs = look::plain(width as f64 / WIDE);
    format!(
        "\n.back{{fill:#fdfbf5}}\n{signs}text{{font-size:{em}px}}.head{{font-size:{large}px}}\n"
    )
}

/// Words in rows of at most so many characters; what goes beyond the last row is cut off there.
fn set_in_rows(words: &str, wide: usize) -> Vec<String> {
    let wide = wide.max(1);
    let mut rows: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let letters: Vec<char> = word.chars().collect();
        // A word that is wider than a row is broken.
        for part in letters.chunks(wide) {
            let part: String = part.iter().collect();
            let long = part.chars().count();
            match rows
                .last_mut()
                .filter(|row| row.chars().count() + 1 + long <= wide)
            {
                Some(row) => *row = format!("{row} {part}"),
                None => rows.push(part),
            }
        }
    }
    if rows.len() > TITLE_ROWS {
        rows.truncate(TITLE_ROWS);
        if let Some(last) = rows.last_mut() {
            *last = last.chars().take(wide - 1).chain(['…']).collect();
        }
    }
    rows
}

/// Whether any line is stitched for the second time.
fn goes_over(solved: &Solved) -> bool {
    let corner = |piece: &Piece| match &piece.kind {
        PieceKind::Corner(corner) => matches!(
            corner.made,
            CornerMade::Trimmed { restitched_length, .. } if restitched_length > 0.0
        ),
        _ => false,
    };
    let found = |finding: &Finding| match &finding.kind {
        FindingKind::OneLine { report, .. } => report.retraced > 0.0,
        kind => matches!(kind, FindingKind::StitchedTwice { .. }),
    };
    solved.findings.iter().any(found) || solved.pieces.iter().any(corner)
}

/// The links within pieces: each by its first and its last point.
fn links_within(solved: &Solved) -> impl Iterator<Item = (&Piece, RangeInclusive<usize>)> {
    let of_piece = |piece: &'_ Piece| {
        let links = piece.motif().links();
        // A link on a curved band is several segments, one after the other.
        let links = links.chunk_by(|one, next| one + 1 == *next);
        let range = |link: &[usize]| link[0]..=link[link.len() - 1] + 1;
        links.map(range).collect::<Vec<_>>()
    };
    let pieces = solved.pieces.iter();
    pieces.flat_map(move |piece| of_piece(piece).into_iter().map(move |link| (piece, link)))
}

/// A link within a piece, drawn over its line.
fn within(data: impl Render) -> Markup {
    let mut drawn = String::new();
    data.render_to(&mut drawn);
    html! {
        path class="under" d=(drawn) {}
        path class="line link" d=(drawn) {}
    }
}

/// A line that is stitched twice, as two lines.
fn twice(data: impl Render) -> Markup {
    let mut drawn = String::new();
    data.render_to(&mut drawn);
    html! {
        path class="again" d=(drawn) {}
        path class="between" d=(drawn) {}
    }
}

/// A triangle at the place of a warning or an error.
fn mark(canvas: &Canvas, solved: &Solved, finding: &Finding) -> Markup {
    let at = finding
        .place()
        .filter(|_| finding.severity > Severity::Note);
    html! {
        @if let Some(at) = at {
            g {
                (signs::triangle(canvas, at))
                title { (xml_text(&words::finding(finding, solved))) }
            }
        }
    }
}

/// What a sample in the legend shows.
#[derive(Clone, Copy)]
enum Sample {
    /// A stitched line of this class, as a wave.
    Wave(&'static str),
    /// A straight line of this class.
    Straight(&'static str),
    /// A line that is stitched twice.
    Twice,
    Ring,
    Square,
    Both,
    Way,
    Bobbin,
    Triangle,
    /// A number on its plate.
    Number,
    Dimension,
}

/// The rows below the quilt: each sign with its name, then what there is in all.
struct Legend {
    /// The signs, each with its row, its place in letters from the left and its name.
    signs: Vec<(usize, f64, Sample, &'static str)>,
    lines: Vec<String>,
}

impl Legend {
    fn of(
        solved: &Solved,
        stitching: Option<&Stitching>,
        bobbins: &BobbinChanges,
        wide: f64,
    ) -> Self {
        let has = |wanted: &str| {
            let mut pieces = solved.pieces.iter();
            pieces.any(|piece| piece.kind.name() == wanted)
        };
        let threads = threads(solved, stitching);
        let closed = threads.iter().any(|(_, closed)| *closed);
        let open = threads.iter().any(|(_, closed)| !closed);
        let marked = solved
            .findings
            .iter()
            .any(|found| found.place().is_some() && found.severity > Severity::Note);
        let begun = solved.pieces.iter().any(Piece::has_begun);
        let number = match stitching {
            Some(_) => "piece, in the order of stitching",
            None => "piece",
        };
        let all = [
            (has("corner"), Sample::Wave("corner"), "corner"),
            (has("side"), Sample::Wave("side"), "side"),
            (
                has("link") || links_within(solved).next().is_some(),
                Sample::Straight("link"),
                "link",
            ),
            (goes_over(solved), Sample::Twice, "stitched twice"),
            (begun, Sample::Straight("dim"), "stitched already"),
            (true, Sample::Straight("seam"), "edge and seam"),
            (true, Sample::Straight("band"), "limits of the band"),
            (open, Sample::Ring, "start of a thread"),
            (open, Sample::Square, "end of a thread"),
            (closed, Sample::Both, "start and end of a thread"),
            (true, Sample::Way, "which way"),
            (
                !bobbins.changes.is_empty(),
                Sample::Bobbin,
                "change the bobbin",
            ),
            (true, Sample::Number, number),
            (true, Sample::Dimension, "measure"),
            (marked, Sample::Triangle, "look before you stitch"),
        ];
        let (mut row, mut at) = (0, 0.0);
        let mut signs = Vec::new();
        for (_, sample, name) in all.into_iter().filter(|(shown, _, _)| *shown) {
            let long = 3.6 + LETTER * name.len() as f64;
            if at > 0.0 && at + long > wide {
                (row, at) = (row + 1, 0.0);
            }
            signs.push((row, at, sample, name));
            at += long;
        }
        let cuts = stitching.map_or(solved.thread_cuts(), |stitching| stitching.runs.len());
        let mut lines = vec![format!(
            "{}, {}, {} of line",
            counted(solved.pieces.len(), "piece"),
            counted(cuts, "thread cut"),
            words::line_both(solved.unit, solved.length()),
        )];
        if begun {
            let stitched = solved.stitched_length();
            lines.push(format!(
                "{} stitched already, {} left",
                words::line_both(solved.unit, stitched),
                words::line_both(solved.unit, solved.length() - stitched),
            ));
        }
        for layout in &solved.layouts {
            lines.push(format!(
                "{}: {}",
                layout.name,
                words_of(solved, layout, 0).join(", ")
            ));
        }
        Self { signs, lines }
    }

    fn rows(&self) -> f64 {
        let signs = self.signs.last().map_or(0, |(row, ..)| row + 1);
        (signs + self.lines.len()) as f64 + 0.4
    }

    fn draw(&self, canvas: &Canvas, from: Point) -> Markup {
        let em = canvas.em;
        let first = self.signs.last().map_or(0, |(row, ..)| row + 1);
        let grid = |mm: f64| canvas.grid(mm);
        let base = |row: usize| from.y + em * (0.6 + ROW * row as f64);
        html! {
            @for (row, at, sample, name) in &self.signs {
                @let left = Point::new(from.x + at * em, base(*row));
                (sample.draw(canvas, left))
                text x=(grid(left.x + 2.5 * em)) y=(grid(left.y + 0.34 * em)) { (name) }
            }
            @for (row, line) in self.lines.iter().enumerate() {
                text x=(grid(from.x)) y=(grid(base(first + row) + 0.34 * em)) { (fraction(&xml_text(line))) }
            }
        }
    }
}

impl Sample {
    fn draw(self, canvas: &Canvas, left: Point) -> Markup {
        let em = canvas.em;
        let grid = |mm: f64| canvas.grid(mm);
        let right = left + Vector::new(2.0 * em, 0.0);
        let middle = nalgebra::center(&left, &right);
        html! {
            @match self {
                Self::Wave(class) => {
                    path class={ "line " (class) } d={
                        "M" (grid(left.x)) " " (grid(left.y)) "q" (grid(0.5 * em)) " " (grid(-0.9 * em)) " "
                        (grid(em)) " 0t" (grid(em)) " 0"
                    } {}
                }
                Self::Straight(class) => (canvas.segment(class, left, right)),
                Self::Twice => (twice(canvas.line(&[left, right]))),
                Self::Ring => (signs::ring(canvas, middle, 0.36 * em)),
                Self::Square => (signs::square(canvas, middle, 0.32 * em)),
                Self::Both => { (signs::square(canvas, middle, 0.55 * em)) (signs::ring(canvas, middle, 0.3 * em)) }
                Self::Way => {
                    @let ahead = End { point: left, direction: Vector::new(1.0, 0.0) };
                    (signs::arrow(canvas, &ahead, 0.5, 0.9))
                }
                Self::Bobbin => (signs::diamond(canvas, middle, 0.5 * em)),
                Self::Triangle => (signs::triangle(canvas, middle)),
                Self::Number => text.number x=(grid(middle.x)) y=(grid(middle.y + 0.34 * em)) { "1" },
                Self::Dimension => {
                    @let inset = Vector::new(0.35 * em, 0.0);
                    (signs::dimension(canvas, [left + inset, right - inset], Vector::zeros(), &[]))
                }
            }
        }
    }
}

#[cfg(test)]
mod tests;
