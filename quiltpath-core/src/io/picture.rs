//! The picture of a solved plan: quilt, borders, bands and every piece in its place, as SVG.
//!
//! Lines are drawn on a grid of a six-thousandth of the quilt, finer than any screen shows, so
//! the picture stays small; the exact lines are in the piece files. Colours are from a published
//! palette for colour-blind readers (Okabe and Ito, 2008) and differ in lightness too; from
//! memory.

use std::fmt::Write;

use super::html::safe;
use super::numbers::numbers;
use super::ticks::Portions;
use crate::geom::{Bounds, Point, Vector};
use crate::plan::findings::counted;
use crate::plan::{OutlineBand, PieceKind, Severity, SideDetail, Solved, Stitching};
use crate::units::nearest;

const CORNER: &str = "#0072b2";
const SIDE: &str = "#1a1a1a";
const LINK: &str = "#d55e00";
const START: &str = "#009e73";

/// Writes the picture of a solved plan as a self-contained SVG, 960 px wide.
///
/// Pieces are `<path>` elements with their name as `id` and a `<title>`; a legend stands below. With
/// the stitching pieces are numbered in its order, without it as listed.
///
/// # Complexity
///
/// O(points).
#[must_use]
pub fn write_picture(solved: &Solved, stitching: Option<&Stitching>) -> String {
    let mut picture = Picture::of(solved, 55.0);
    picture.head(solved);
    picture.cloth(solved);
    for piece in &solved.pieces {
        let title = format!("{}: {}", piece.name, kind_of(&piece.kind));
        let class = piece.kind.name();
        picture.line(class, &piece.name, &title, piece.motif.points());
    }
    picture.numbers(solved, &numbers(solved, stitching));
    for path in &solved.paths {
        let start = path.motif.start();
        picture.arrow(start.point, start.direction);
    }
    for finding in &solved.findings {
        if let (Some(at), Severity::Warning | Severity::Error) = (finding.at, finding.severity) {
            picture.mark(at, &finding.message);
        }
    }
    picture.legend(solved);
    picture.out.push_str("</svg>\n");
    picture.out
}

/// A picture in the making; `sheet.html` is made of the same parts.
pub(super) struct Picture {
    pub(super) out: String,
    pub(super) bounds: Bounds,
    grid: f64,
    /// The height of letters, in millimetres.
    pub(super) em: f64,
}

impl Picture {
    /// An empty picture whose longer side is so many letters high.
    pub(super) fn of(solved: &Solved, letters: f64) -> Self {
        let bounds = solved.bounds();
        let size = bounds.width().max(bounds.height());
        Self {
            out: String::new(),
            bounds,
            grid: size / 6000.0,
            em: size / letters,
        }
    }

    /// Text that always succeeds: writing to a string can't fail.
    pub(super) fn put(&mut self, text: std::fmt::Arguments<'_>) {
        let _ = self.out.write_fmt(text);
    }

    /// Millimetres in steps of the grid.
    pub(super) fn grid(&self, value: f64) -> i64 {
        nearest(value / self.grid) as i64
    }

    fn head(&mut self, solved: &Solved) {
        let Bounds { min, .. } = self.bounds;
        let (width, height) = (self.bounds.width(), self.bounds.height());
        let margin = 1.5 * self.em;
        let [x, y] = [self.grid(min.x - margin), self.grid(min.y - margin)];
        let w = self.grid(width + 2.0 * margin);
        let h = self.grid(height + 2.0 * margin + 3.5 * self.em);
        let thread = self.grid(self.em / 18.0).max(1);
        let title = safe(solved.title.as_deref().unwrap_or("Quilt plan"));
        let unit = solved.unit;
        self.put(format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"960\" viewBox=\"{x} {y} {w} {h}\" role=\"img\">\n\
             <title>{title}</title>\n\
             <desc>A quilt of {} by {} with its borders and the line to be stitched on them.</desc>\n\
             <style>\n\
             .back{{fill:#fff}}.cloth{{fill:#f4efe6}}.border{{fill:#e6dcc8}}.seam{{fill:none;stroke:#8a7a5c;stroke-width:{seam}}}\n\
             .band{{fill:none;stroke:#8a7a5c;stroke-width:{seam};stroke-dasharray:{d} {d}}}\n\
             .corner,.side,.link{{fill:none;stroke-width:{line};stroke-linejoin:round;stroke-linecap:round}}\n\
             .corner{{stroke:{CORNER}}}.side{{stroke:{SIDE}}}.link{{stroke:{LINK}}}\n\
             .start{{fill:{START}}}.mark{{fill:none;stroke:{LINK};stroke-width:{line}}}\n\
             text{{font-family:sans-serif;font-size:{em}px;fill:#1a1a1a}}.number{{text-anchor:middle;dominant-baseline:central}}\n\
             </style>\n\
             <rect class=\"back\" x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\"/>\n",
            unit.readable(width),
            unit.readable(height),
            seam = thread * 4 / 3,
            d = thread * 6,
            line = thread,
            em = self.grid(self.em),
        ));
    }

    /// A closed line.
    pub(super) fn outline(&mut self, class: &str, corners: &[Point]) {
        self.put(format_args!("<path class=\"{class}\" d=\""));
        for (index, corner) in corners.iter().enumerate() {
            let command = if index == 0 { 'M' } else { 'L' };
            let (x, y) = (self.grid(corner.x), self.grid(corner.y));
            self.put(format_args!("{command}{x} {y}"));
        }
        self.out.push_str("Z\"/>\n");
    }

    pub(super) fn cloth(&mut self, solved: &Solved) {
        for layout in &solved.layouts {
            self.outline("border", &layout.lines.edge);
            self.outline("cloth", &layout.lines.seam);
        }
        for layout in &solved.layouts {
            self.outline("seam", &layout.lines.edge);
            self.outline("seam", &layout.lines.seam);
            self.outline("band", &layout.lines.outer);
            self.outline("band", &layout.lines.inner);
        }
    }

    /// A piece.
    pub(super) fn line(&mut self, class: &str, id: &str, title: &str, points: &[Point]) {
        // Names of pieces are fit for files, so for attributes as well.
        let title = safe(title);
        self.put(format_args!("<path class=\"{class}\" id=\"{id}\" d=\""));
        let grid = self.grid;
        let mut steps = points
            .iter()
            .map(|point| [point.x, point.y].map(|value| nearest(value / grid) as i64));
        let mut from = steps.next().unwrap_or_default();
        let mut data = Portions::new(&mut self.out);
        let mut pair = |command: char, [x, y]: [i64; 2]| {
            data.put(command);
            data.whole(x);
            data.put(' ');
            data.whole(y);
        };
        pair('M', from);
        let mut command = 'l';
        for to in steps {
            if to != from {
                pair(command, [to[0] - from[0], to[1] - from[1]]);
                (from, command) = (to, ' ');
            }
        }
        if command == 'l' {
            pair(command, [0, 0]);
        }
        drop(data);
        self.put(format_args!("\"><title>{title}</title></path>\n"));
    }

    /// The number of each piece, in stitching order, just inside its border.
    fn numbers(&mut self, solved: &Solved, numbers: &[usize]) {
        for (piece, number) in solved.pieces.iter().zip(numbers) {
            if matches!(piece.kind, PieceKind::Link(_)) {
                continue;
            }
            let at = number_place(&solved.layouts[piece.border].band, &piece.kind, self.em);
            let (x, y) = (self.grid(at.x), self.grid(at.y));
            self.put(format_args!(
                "<text class=\"number\" x=\"{x}\" y=\"{y}\">{number}</text>\n"
            ));
        }
    }

    /// A filled arrow head from this point in this direction.
    fn arrow(&mut self, from: Point, direction: Vector) {
        let (ahead, aside) = (
            direction * self.em,
            Vector::new(-direction.y, direction.x) * (self.em * 0.4),
        );
        let corners =
            [from + ahead, from + aside, from - aside].map(|p| (self.grid(p.x), self.grid(p.y)));
        let [(a, b), (c, d), (e, f)] = corners;
        self.put(format_args!(
            "<path class=\"start\" d=\"M{a} {b}L{c} {d} {e} {f}Z\"><title>start</title></path>\n"
        ));
    }

    fn mark(&mut self, at: Point, message: &str) {
        let (x, y, r) = (self.grid(at.x), self.grid(at.y), self.grid(self.em));
        let message = safe(message);
        self.put(format_args!(
            "<circle class=\"mark\" cx=\"{x}\" cy=\"{y}\" r=\"{r}\"><title>{message}</title></circle>\n"
        ));
    }

    fn legend(&mut self, solved: &Solved) {
        let (left_edge, top) = (self.bounds.min.x, self.bounds.max.y + 2.6 * self.em);
        let has_link = solved
            .pieces
            .iter()
            .any(|piece| matches!(piece.kind, PieceKind::Link(_)));
        let has_corner = solved
            .pieces
            .iter()
            .any(|piece| matches!(piece.kind, PieceKind::Corner(_)));
        let mut left = left_edge;
        let rows = [
            ("corner", "corner", has_corner),
            ("side", "side", true),
            ("link", "link", has_link),
            ("band", "limits of the band", true),
            ("seam", "edge and seam", true),
        ];
        for (class, label, shown) in rows {
            if shown {
                let (x, y, long) = (self.grid(left), self.grid(top), self.grid(2.0 * self.em));
                let text = x + self.grid(2.4 * self.em);
                let base = self.grid(top + 0.35 * self.em);
                self.put(format_args!(
                    "<path class=\"{class}\" d=\"M{x} {y}h{long}\"/><text x=\"{text}\" y=\"{base}\">{label}</text>\n"
                ));
                left += self.em * (3.6 + 0.55 * label.len() as f64);
            }
        }
        self.arrow(Point::new(left, top), Vector::new(1.0, 0.0));
        let (x, y) = (
            self.grid(left + 1.4 * self.em),
            self.grid(top + 0.35 * self.em),
        );
        self.put(format_args!("<text x=\"{x}\" y=\"{y}\">start</text>\n"));
        let line = format!(
            "{}, {}, {} of line",
            counted(solved.pieces.len(), "piece"),
            counted(solved.thread_cuts(), "thread cut"),
            solved.unit.readable(solved.length())
        );
        let (x, y) = (self.grid(left_edge), self.grid(top + 1.9 * self.em));
        let line = safe(&line);
        self.put(format_args!("<text x=\"{x}\" y=\"{y}\">{line}</text>\n"));
    }
}

/// What a piece is, in short.
pub(super) fn kind_of(kind: &PieceKind) -> String {
    match kind {
        PieceKind::Side(side) => counted(side.fit.chosen.repeats, "repeat"),
        PieceKind::Corner(_) | PieceKind::Link(_) => kind.name().to_owned(),
    }
}

/// Where the number of a corner or a side stands: inside the seam, next to the piece.
pub(super) fn number_place(band: &OutlineBand, kind: &PieceKind, em: f64) -> Point {
    let seam = &band.seam;
    match kind {
        PieceKind::Corner(corner) => {
            let at = corner.position.index();
            let inwards = seam.direction(at) - seam.direction(seam.before(at));
            seam.corners()[at] + inwards * em
        }
        PieceKind::Side(SideDetail { side, .. }) | PieceKind::Link(side) => {
            let at = side.index();
            let along = seam.direction(at);
            let middle = nalgebra::center(&seam.corners()[at], &seam.corners()[seam.after(at)]);
            middle + Vector::new(-along.y, along.x) * em
        }
    }
}
