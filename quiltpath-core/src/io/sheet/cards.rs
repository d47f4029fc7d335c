//! The pieces on the sheet: for each a small picture, its numbers and a box to tick.

use super::passes::covered;
use super::{Page, ends, number, way};
use crate::geom::{Bounds, Point};
use crate::io::html::{quoted, safe};
use crate::io::numbers::{Lie, Limits, in_unit, length_in_unit};
use crate::io::picture::{Picture, kind_of};
use crate::motif::End;
use crate::plan::findings::{counted, percent};
use crate::plan::{CornerDetail, CornerMade, Piece, PieceKind, SideDetail};

/// The frame of a small picture, in CSS pixels.
const FRAME: [f64; 2] = [260.0, 150.0];

/// White round a small picture, for its marks, in CSS pixels.
const MARGIN: f64 = 12.0;

/// The keys of a line's two ends.
const ENDS: [&str; 2] = ["start", "end"];

impl Page<'_> {
    pub(super) fn cards(&mut self) {
        self.out.push_str(
            "<section aria-labelledby=\"the.pieces\">\n<h2 id=\"the.pieces\">Pieces</h2>\n\
             <p>In the order of stitching; the files in the folder <code>pieces</code> have the same \
             numbers. The ring with the arrow is the start, the square is the end.</p>\n<ol class=\"cards\">\n",
        );
        let limits: Vec<Limits> = self.solved.layouts.iter().map(Limits::of).collect();
        let solved = self.solved;
        let runs = self.runs_by_piece();
        let scale = Picture::of(solved, 1.0);
        for index in self.in_order() {
            let lie = limits[solved.pieces[index].border].lie(&solved.pieces[index]);
            self.card(index, &lie, &runs[index], &scale);
        }
        self.out.push_str("</ol>\n</section>\n");
    }

    /// Of each piece, where it is stitched.
    fn runs_by_piece(&self) -> Vec<Vec<String>> {
        let mut found = vec![Vec::new(); self.solved.pieces.len()];
        for (run, index) in self.stitching.runs.iter().zip(1..) {
            for part in &run.parts {
                let ends = self.solved.pieces[part.piece].ends.len();
                found[part.piece].push(format!(
                    "<a href=\"#run.{index}\">run {index}</a> of pass {}{}{}",
                    run.pass + 1,
                    covered(part, ends),
                    if part.reversed {
                        ", against the direction of its file"
                    } else {
                        ""
                    },
                ));
            }
        }
        found
    }

    fn card(&mut self, index: usize, lie: &Lie, runs: &[String], scale: &Picture) {
        let piece = &self.solved.pieces[index];
        let (number_of, reversed) = (self.numbers[index], self.reversed(index));
        let name = safe(&piece.name);
        let label = quoted(&format!("{number_of}, {}, is stitched", piece.name));
        self.put(format_args!(
            "<li class=\"card\" id=\"piece.{number_of}\" data-piece=\"{number_of}\">\n<div class=\"top\">\
             <h3><span class=\"no\">{number_of}</span> <a href=\"#at.{number_of}\">{name}</a></h3>\
             <label class=\"tick\"><input type=\"checkbox\" aria-label=\"{label}\"> done</label></div>\n"
        ));
        self.thumb(number_of, piece, reversed, scale);
        let key = |rest: &str| format!("pieces.{index}.{rest}");
        let mut rows: Vec<(&str, String)> = Vec::new();
        match &piece.kind {
            PieceKind::Corner(corner) => self.corner(&key, corner, &mut rows),
            PieceKind::Side(side) => self.side(&key, side, &mut rows),
            PieceKind::Link(_) => rows.push(("What", "a straight link".to_owned())),
        }
        let edge = match piece.border {
            0 => "raw edge",
            _ => "outer seam",
        };
        rows.push(("Size", self.size(&key("size"), lie.size)));
        let line = length_in_unit(&piece.motif, self.unit());
        let words = self.unit().readable(line * self.unit().in_mm());
        rows.push(("Line", number(&key("length"), line, &words)));
        let [start, end] = ends(&piece.motif, reversed);
        // Keys are those of the piece's line, which may be stitched from its end.
        let (first, last) = if reversed { (1, 0) } else { (0, 1) };
        rows.push(("Start", self.end(&key(ENDS[first]), &start)));
        rows.push((
            "Start lies",
            format!(
                "{}, {}",
                self.off(
                    &key(&format!("{}_from_seam", ENDS[first])),
                    lie.from_seam[first],
                    "seam"
                ),
                self.off(
                    &key(&format!("{}_from_edge", ENDS[first])),
                    lie.from_edge[first],
                    edge
                )
            ),
        ));
        rows.push(("End", self.end(&key(ENDS[last]), &end)));
        rows.push(("Stitched in", runs.join("; ")));
        self.out.push_str("<dl class=\"facts\">\n");
        for (what, value) in rows {
            self.put(format_args!("<div><dt>{what}</dt><dd>{value}</dd></div>\n"));
        }
        self.out.push_str("</dl>\n</li>\n");
    }

    /// A place and the direction of travel there.
    fn end(&self, key: &str, end: &End) -> String {
        let place = self.place(key, end.point);
        format!("{place}; runs {}", way(end.direction))
    }

    /// How far from a line, on which side of it.
    fn off(&self, key: &str, mm: f64, line: &str) -> String {
        let side = if mm < 0.0 { "beyond" } else { "from" };
        let words = self.unit().readable(mm.abs());
        let value = number(key, in_unit(mm, self.unit()), &words);
        format!("{value} {side} the {line}")
    }

    fn side(
        &self,
        key: &dyn Fn(&str) -> String,
        side: &SideDetail,
        rows: &mut Vec<(&str, String)>,
    ) {
        let chosen = side.fit.chosen;
        rows.push((
            "Repeats",
            format!(
                "{} of {}, in {}",
                number(&key("repeats"), chosen.repeats, &chosen.repeats.to_string()),
                self.length(&key("advance"), side.pitch),
                self.length(&key("span"), side.span)
            ),
        ));
        rows.push((
            "Stretch",
            number(&key("stretch"), chosen.stretch, &percent(chosen.stretch)),
        ));
        rows.push((
            "Scale",
            format!("{}, along and across", factors(key, side.scale)),
        ));
    }

    fn corner(
        &self,
        key: &dyn Fn(&str) -> String,
        corner: &CornerDetail,
        rows: &mut Vec<(&str, String)>,
    ) {
        let angle = corner.angle_degrees;
        let square = (angle - 90.0).abs() < 0.005;
        let what = match &corner.made {
            CornerMade::Drawn => "as drawn".to_owned(),
            CornerMade::Trimmed { links, .. } => {
                format!("cut to an L, {}", counted(*links, "link"))
            }
            CornerMade::Block { turn_degrees } => {
                format!("a block, turned by {turn_degrees:.0} degrees")
            }
            CornerMade::Mitred { .. } => "the repeat, mitred".to_owned(),
            CornerMade::Bent { repeats, .. } => {
                format!("{} on an arc", counted(*repeats, "repeat"))
            }
        };
        rows.push(("Corner", what));
        if !square {
            let words = format!("{angle:.2} degrees");
            rows.push(("Angle", number(&key("angle_degrees"), angle, &words)));
        }
        rows.push(("Scale", factors(key, corner.scale)));
    }

    /// The piece by itself, as it lies on the quilt, with its start and its end.
    fn thumb(&mut self, number_of: usize, piece: &Piece, reversed: bool, scale: &Picture) {
        let grid = |mm: f64| scale.grid(mm) as f64;
        let bounds = Bounds::of_nonempty(piece.motif.points());
        let [w, h] = [bounds.width(), bounds.height()].map(grid);
        // How many steps of the grid a pixel is; small links stay small.
        let room = FRAME.map(|side| side - 2.0 * MARGIN);
        let pixel = (w / room[0]).max(h / room[1]).max(1.0);
        let margin = MARGIN * pixel;
        let [x, y] = [bounds.min.x, bounds.min.y].map(grid);
        let (wide, high) = (w + 2.0 * margin, h + 2.0 * margin);
        let [start, end] = ends(&piece.motif, reversed);
        let label = quoted(&format!("{}: {}", piece.name, kind_of(&piece.kind)));
        self.put(format_args!(
            "<svg class=\"thumb\" role=\"img\" aria-label=\"{label}\" viewBox=\"{:.0} {:.0} {wide:.0} {high:.0}\" \
             width=\"{:.0}\" height=\"{:.0}\" style=\"--px:{pixel:.2}px\">\n<use href=\"#line.{number_of}\"/>\n",
            x - margin,
            y - margin,
            wide / pixel,
            high / pixel,
        ));
        let at = |point: Point| (grid(point.x), grid(point.y));
        let (sx, sy) = at(start.point);
        let (ex, ey) = at(end.point);
        let d = start.direction * (9.0 * pixel);
        let (tip, left, right) = (
            (sx + 1.2 * d.x, sy + 1.2 * d.y),
            (sx + 0.4 * (d.x - d.y), sy + 0.4 * (d.y + d.x)),
            (sx + 0.4 * (d.x + d.y), sy + 0.4 * (d.y - d.x)),
        );
        self.put(format_args!(
            "<rect class=\"last\" x=\"{:.0}\" y=\"{:.0}\" width=\"{:.0}\" height=\"{:.0}\"/>\
             <circle class=\"first\" cx=\"{sx}\" cy=\"{sy}\" r=\"{:.0}\"/>\
             <path class=\"way\" d=\"M{:.0} {:.0}L{:.0} {:.0} {:.0} {:.0}Z\"/>\n</svg>\n",
            ex - 4.0 * pixel,
            ey - 4.0 * pixel,
            8.0 * pixel,
            8.0 * pixel,
            4.0 * pixel,
            tip.0,
            tip.1,
            left.0,
            left.1,
            right.0,
            right.1,
        ));
    }
}

/// Two factors in percent.
fn factors(key: &dyn Fn(&str) -> String, scale: [f64; 2]) -> String {
    let [first, second] = [0, 1].map(|at| {
        let words = format!("{:.1} %", scale[at] * 100.0);
        number(&key(&format!("scale.{at}")), scale[at], &words)
    });
    format!("{first} x {second}")
}
