//! The picture of the quilt on the sheet, with what it takes to look at it closely.

use super::{Page, ends};
use crate::geom::{Point, Vector};
use crate::io::html::{quoted, safe};
use crate::io::picture::{Picture, kind_of, number_place};
use crate::motif::Motif;
use crate::plan::{Finding, PieceKind, Severity};

/// Letters along the longer side: large enough to read on a phone, small enough for most borders.
const LETTERS: f64 = 36.0;

/// The outline of a piece to point at is made of no more points than this.
const AREA_POINTS: usize = 400;

const CONTROLS: &str = "\
<div class=\"controls\" hidden>
<div class=\"group\" role=\"group\" aria-label=\"Zoom\">
<button type=\"button\" data-zoom=\"in\">Zoom in</button>
<button type=\"button\" data-zoom=\"out\">Zoom out</button>
<button type=\"button\" data-zoom=\"whole\">Whole quilt</button>
</div>
<div class=\"group\" role=\"group\" aria-label=\"Order of stitching\">
<button type=\"button\" data-play>Play</button>
<label>Speed <select data-speed>
<option value=\".5\">half</option><option value=\"1\" selected>1</option>
<option value=\"2\">2</option><option value=\"5\">5</option></select></label>
<label class=\"long\">Order <input type=\"range\" data-order min=\"0\" max=\"1000\" step=\"1\" value=\"1000\"></label>
</div>
</div>
";

const HELP: &str = "\
<details class=\"help\" hidden><summary>How to move about</summary>
<p>Drag to move the picture when it is larger than its frame; turn the wheel or \
pinch to zoom. With the picture in focus: arrow keys move it, + and - zoom, 0 shows the whole quilt, \
the space bar plays and stops. Tab leads from piece to piece.</p>
</details>
";

impl Page<'_> {
    pub(super) fn figure(&mut self) {
        self.out.push_str(
            "<section aria-labelledby=\"the.quilt\">\n<h2 id=\"the.quilt\">The quilt</h2>\n",
        );
        self.out.push_str(CONTROLS);
        self.out.push_str("<figure class=\"quilt\">\n");
        let picture = self.picture();
        self.out.push_str(&picture);
        self.out
            .push_str("<p class=\"readout\" aria-hidden=\"true\" hidden></p>\n<figcaption>\n");
        self.legend();
        self.out.push_str(HELP);
        self.out.push_str("</figcaption>\n</figure>\n</section>\n");
    }

    fn picture(&self) -> String {
        let solved = self.solved;
        let mut picture = Picture::of(solved, LETTERS);
        let margin = 0.8 * picture.em;
        let bounds = picture.bounds;
        let [x, y] = [bounds.min.x - margin, bounds.min.y - margin].map(|v| picture.grid(v));
        let [w, h] = [bounds.width(), bounds.height()].map(|v| picture.grid(v + 2.0 * margin));
        let letter = picture.grid(picture.em);
        picture.put(format_args!(
            "<svg class=\"view\" viewBox=\"{x} {y} {w} {h}\" width=\"{w}\" height=\"{h}\" style=\"--em:{letter}px\" \
             role=\"group\" tabindex=\"0\" aria-label=\"Picture of the quilt with its pieces\">\n<g class=\"drawing\">\n"
        ));
        picture.cloth(solved);
        let mut order = self.in_order();
        // Where areas overlap, as at nested corners, the inner border's lies on top.
        order.sort_by_key(|&piece| solved.pieces[piece].border);
        for &index in &order {
            let (piece, number) = (&solved.pieces[index], self.numbers[index]);
            let label = quoted(&format!("{number}, {}", piece.name));
            picture.put(format_args!(
                "<a id=\"at.{number}\" class=\"piece\" href=\"#piece.{number}\" data-piece=\"{number}\" aria-label=\"{label}\">\n"
            ));
            area(&mut picture, piece.motif.points());
            let kind = piece.kind.name();
            picture.line(
                &format!("line {kind}"),
                &format!("line.{number}"),
                &format!("{number}, {}: {}", piece.name, kind_of(&piece.kind)),
                piece.motif.points(),
            );
            picture.out.push_str("</a>\n");
        }
        picture
            .out
            .push_str("<g class=\"playing\" aria-hidden=\"true\"></g>\n<g aria-hidden=\"true\">\n");
        for &index in &order {
            let [start, _] = ends(&solved.pieces[index].motif, self.reversed(index));
            arrow(&mut picture, "way", start.point, start.direction, 0.8);
        }
        for run in &self.stitching.runs {
            thread_ends(&mut picture, &run.motif);
        }
        for (piece, number) in solved.pieces.iter().zip(&self.numbers) {
            let at = match &piece.kind {
                PieceKind::Link(_) => beside(&piece.motif, picture.em),
                kind => number_place(&solved.layouts[piece.border].band, kind, picture.em),
            };
            let (x, y) = (picture.grid(at.x), picture.grid(at.y));
            picture.put(format_args!(
                "<text class=\"number\" x=\"{x}\" y=\"{y}\">{number}</text>\n"
            ));
        }
        picture.out.push_str("</g>\n");
        for (finding, number) in self.all_findings().zip(1..) {
            mark(&mut picture, finding, number);
        }
        picture.out.push_str("</g>\n</svg>\n");
        picture.out
    }

    fn legend(&mut self) {
        let has = |wanted: &str| {
            let mut pieces = self.solved.pieces.iter();
            pieces.any(|piece| piece.kind.name() == wanted)
        };
        let rows = [
            ("line corner", "M1 6h26", "corner", has("corner")),
            ("line side", "M1 6h26", "side", has("side")),
            ("line link", "M1 6h26", "link", has("link")),
            ("band", "M1 6h26", "limits of the band", true),
            ("seam", "M1 6h26", "edge and seam", true),
            (
                "way",
                "M8 1l12 5l-12 5z",
                "start of a piece, and which way",
                true,
            ),
            ("first", "M14 1a5 5 0 1 0 .01 0z", "start of a thread", true),
            ("last", "M9 1h10v10h-10z", "end of a thread", true),
            (
                "mark",
                "M14 1l6 10h-12z",
                "place of a finding",
                self.all_findings().any(is_marked),
            ),
        ];
        let shown = rows.into_iter().filter(|row| row.3);
        let shown: Vec<_> = shown.map(|(class, data, words, _)| {
            format!("<li><svg class=\"key\" viewBox=\"0 0 28 12\" width=\"28\" height=\"12\" aria-hidden=\"true\"><path class=\"{class}\" d=\"{data}\"/></svg> {words}</li>\n")
        }).collect();
        self.out.push_str("<ul class=\"legend\">\n");
        self.out.push_str(&shown.concat());
        self.out.push_str("</ul>\n");
    }
}

/// What answers to the pointer and lights up: the hull of some of a piece's points.
fn area(picture: &mut Picture, points: &[Point]) {
    let step = points.len().div_ceil(AREA_POINTS);
    let some = points.iter().step_by(step).chain(points.last());
    let hull = hull(some.copied().collect());
    picture.outline("area", &hull);
}

/// The convex hull, by Andrew's monotone chain (1979; from memory).
fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let mut hull: Vec<Point> = Vec::new();
    let mut half = |points: &mut dyn Iterator<Item = Point>| {
        let first = hull.len();
        for point in points {
            while let [.., a, b] = hull[first..] {
                if (b - a).perp(&(point - b)) > 0.0 {
                    break;
                }
                hull.pop();
            }
            hull.push(point);
        }
        hull.pop();
    };
    half(&mut points.iter().copied());
    half(&mut points.iter().rev().copied());
    hull
}

/// A filled arrow head of so many letters from this point on.
fn arrow(picture: &mut Picture, class: &str, from: Point, direction: Vector, letters: f64) {
    let ahead = direction * (letters * picture.em);
    let aside = Vector::new(-ahead.y, ahead.x) * 0.4;
    picture.outline(class, &[from + ahead, from + aside, from - aside]);
}

/// A ring where the thread starts and a square where it ends.
fn thread_ends(picture: &mut Picture, line: &Motif) {
    let [start, end] = [line.start().point, line.end().point];
    let (x, y, r) = (
        picture.grid(start.x),
        picture.grid(start.y),
        picture.grid(0.4 * picture.em),
    );
    picture.put(format_args!(
        "<circle class=\"first\" cx=\"{x}\" cy=\"{y}\" r=\"{r}\"/>\n"
    ));
    let half = 0.3 * picture.em;
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    let corners = corners.map(|(x, y)| end + Vector::new(x, y) * half);
    picture.outline("last", &corners);
}

/// Where the number of a link stands: beside its middle.
fn beside(line: &Motif, em: f64) -> Point {
    let [start, end] = [line.start(), line.end()];
    let aside = Vector::new(-start.direction.y, start.direction.x) * (0.8 * em);
    nalgebra::center(&start.point, &end.point) + aside
}

/// True for what has to be looked at and has a place.
fn is_marked(finding: &Finding) -> bool {
    finding.at.is_some() && finding.severity > Severity::Note
}

/// A triangle where a warning or an error has its place, with its number.
fn mark(picture: &mut Picture, finding: &Finding, number: usize) {
    let Some(at) = finding.at.filter(|_| is_marked(finding)) else {
        return;
    };
    let em = picture.em;
    let label = quoted(&format!("F{number}, {}", finding.severity.name()));
    picture.put(format_args!(
        "<a class=\"found\" id=\"mark.{number}\" href=\"#finding.{number}\" aria-label=\"{label}\">"
    ));
    let corners = [(0.0, -0.75), (0.75, 0.55), (-0.75, 0.55)];
    let corners = corners.map(|(x, y)| at + Vector::new(x, y) * em);
    picture.outline("mark", &corners);
    let (x, y) = (picture.grid(at.x + em), picture.grid(at.y));
    let message = safe(&finding.message);
    picture.put(format_args!(
        "<text x=\"{x}\" y=\"{y}\">F{number}</text><title>{message}</title></a>\n"
    ));
}
