//! The legend below the picture: each sign with its name, then what there is in all.

use maud::{Markup, html};

use super::title::LETTER;
use crate::frame::BobbinChanges;
use crate::geom::{Point, Vector};
use crate::io::canvas::Canvas;
use crate::io::measures::words_of;
use crate::io::over::{goes_over, links_within, twice};
use crate::io::signs::{self, fraction, threads};
use crate::io::svg_write::xml_text;
use crate::io::words::{self, counted};
use crate::motif::End;
use crate::plan::{Piece, Severity, Solved, Stitching};

/// From row to row, in letters.
pub(super) const ROW: f64 = 1.9;

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
pub(super) struct Legend {
    /// The signs, each with its row, its place in letters from the left and its name.
    signs: Vec<(usize, f64, Sample, &'static str)>,
    lines: Vec<String>,
}

impl Legend {
    pub(super) fn of(
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
        let triangles = has("side_triangle") || has("corner_triangle");
        let all = [
            (has("corner"), Sample::Wave("corner"), "corner"),
            (has("side"), Sample::Wave("side"), "side"),
            (has("ring"), Sample::Wave("ring"), "border"),
            (has("block"), Sample::Wave("block"), "block"),
            (has("sash"), Sample::Wave("sash"), "sash"),
            (
                has("cornerstone"),
                Sample::Wave("cornerstone"),
                "cornerstone",
            ),
            (triangles, Sample::Wave("side_triangle"), "triangle"),
            (
                has("link")
                    || solved
                        .pieces
                        .iter()
                        .any(|piece| links_within(piece.motif()).next().is_some()),
                Sample::Straight("link"),
                "link",
            ),
            (goes_over(solved), Sample::Twice, "stitched twice"),
            (begun, Sample::Straight("dim"), "stitched already"),
            (true, Sample::Straight("seam"), "edge and seam"),
            (
                !solved.borders().is_empty(),
                Sample::Straight("band"),
                "limits of the band",
            ),
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

    pub(super) fn rows(&self) -> f64 {
        let signs = self.signs.last().map_or(0, |(row, ..)| row + 1);
        (signs + self.lines.len()) as f64 + 0.4
    }

    pub(super) fn draw(&self, canvas: &Canvas, from: Point) -> Markup {
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
