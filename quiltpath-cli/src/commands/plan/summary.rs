//! The summary of a solved plan, for people.

use std::path::Path;

use quiltpath_core::geom::Point;
use quiltpath_core::plan::findings::{counted, percent};
use quiltpath_core::plan::{CornerDetail, Frame, Piece, PieceKind, SideDetail, Solved};

use crate::message::{finding, heading, line};

/// Tells what was planned and what there is to look at.
pub(super) fn tell(solved: &Solved) {
    let readable = |mm: f64| solved.unit.readable(mm);
    let [width, height] = solved.quilt.map(readable);
    if let Some(title) = &solved.title {
        heading(title);
    }
    line(format_args!("quilt {width} x {height}"));
    for (index, frame) in solved.frames.iter().enumerate() {
        border(solved, index, frame);
    }
    let cuts = solved.thread_cuts();
    line(format_args!(
        "in all {} of line, {}, {}",
        readable(solved.length()),
        counted(solved.pieces.len(), "piece"),
        counted(cuts, "thread cut")
    ));
    for found in &solved.findings {
        let place = found
            .at
            .map_or_else(String::new, |at| format!(" (at {})", point(solved, at)));
        finding(
            found.severity,
            found.code,
            format_args!("{}{place}", found.message),
        );
    }
}

/// Names the picture to look at.
pub(super) fn open(picture: &Path) {
    line(format_args!("open {}", picture.display()));
}

fn border(solved: &Solved, index: usize, frame: &Frame) {
    let depth = solved.unit.readable(frame.depth());
    heading(format_args!("{}: band {depth} deep", frame.name));
    for piece in solved.pieces.iter().filter(|piece| piece.border == index) {
        match &piece.kind {
            PieceKind::Side(detail) => side(solved, detail),
            PieceKind::Corner(detail) => corner(solved, piece, detail),
            PieceKind::Link(side) => {
                let length = solved.unit.readable(piece.motif.length());
                line(format_args!("  {:<12} link of {length}", side.name()));
            }
        }
    }
}

fn side(solved: &Solved, detail: &SideDetail) {
    let chosen = detail.fit.chosen;
    line(format_args!(
        "  {:<12} {} of {}, stretched by {}",
        detail.side.name(),
        counted(chosen.repeats, "repeat"),
        solved.unit.readable(detail.advance),
        percent(chosen.stretch)
    ));
}

fn corner(solved: &Solved, piece: &Piece, detail: &CornerDetail) {
    let [x, y] = detail
        .scale
        .map(|factor| format!("{:.1} %", factor * 100.0));
    let scale = if x == y { x } else { format!("{x} x {y}") };
    line(format_args!(
        "  {:<12} scaled to {scale}, from {} to {}",
        detail.position.name().replace('_', " "),
        point(solved, piece.motif.start().point),
        point(solved, piece.motif.end().point)
    ));
}

fn point(solved: &Solved, at: Point) -> String {
    let [x, y] = [at.x, at.y].map(|mm| solved.unit.readable(mm));
    format!("{x}, {y}")
}
