//! The summary of a solved plan, for people.

use std::path::Path;

use crate::words::{counted, percent};
use quiltpath_core::frame::bobbin_changes;
use quiltpath_core::geom::Point;
use quiltpath_core::io::words;
use quiltpath_core::order::Loading;
use quiltpath_core::plan::{
    CornerDetail, CornerPlace, Finding, Layout, Piece, PieceKind, PlanSpec, RingDetail, Side,
    SideDetail, Solved, Stitching,
};

use crate::message::{finding, heading, line, note};

/// The most kinds of findings that the summary shows.
const MOST_GROUPS: usize = 10;

/// No frame is known that reaches farther in one pass: 30 in, from memory.
const LARGEST_THROAT_MM: f64 = 762.0;

/// Prints what was planned and what there is to look at.
pub(super) fn print(spec: &PlanSpec, solved: &Solved, stitching: &Stitching) {
    if let Some(title) = &solved.title {
        heading(title);
    }
    if let Some(customer) = &solved.customer {
        line(format_args!("for {customer}"));
    }
    quilt(solved);
    for (index, layout) in solved.layouts.iter().enumerate() {
        match layout.is_field() {
            true => field(solved, layout),
            false => border(solved, index, layout),
        }
    }
    let cuts = stitching.runs.len();
    let bound = match stitching.least_cuts {
        least if least == cuts => "the fewest in so few passes".to_owned(),
        least => format!("at least {least} in so few passes"),
    };
    line(format_args!(
        "in all {} of line, {}, {} ({bound})",
        solved.unit.readable_line(solved.length()),
        counted(solved.pieces.len(), "piece"),
        counted(cuts, "thread cut")
    ));
    let done = solved.stitched_length();
    if done > 0.0 {
        let line_of = |mm: f64| solved.unit.readable_line(mm);
        line(format_args!(
            "stitched already {}, left {}",
            line_of(done),
            line_of(solved.length() - done)
        ));
    }
    stitched(solved, stitching);
    bobbins(solved, stitching);
    assumed_reach(spec, solved);
    findings(solved, stitching);
}

/// That one pass is an assumption, where no throat is given and no frame takes the quilt at once.
fn assumed_reach(spec: &PlanSpec, solved: &Solved) {
    let throat = spec
        .machine
        .as_ref()
        .and_then(|machine| machine.throat.as_ref());
    let height = solved.quilt.bounds().height();
    if throat.is_none() && height > LARGEST_THROAT_MM {
        note(format_args!(
            "the one pass assumes a frame that reaches {} down; give the throat by --throat, or by \"machine\": {{\"throat\": …}} in the plan",
            solved.unit.readable(height)
        ));
    }
}

/// What there is to look at: alike findings in one line, the most severe first.
fn findings(solved: &Solved, stitching: &Stitching) {
    let mut groups: Vec<(&Finding, usize)> = Vec::new();
    for found in stitching.all_findings(solved) {
        let alike = |(first, _): &&mut (&Finding, usize)| {
            first.code() == found.code() && first.severity == found.severity
        };
        match groups.iter_mut().find(alike) {
            Some((_, count)) => *count += 1,
            None => groups.push((found, 1)),
        }
    }
    groups.sort_by_key(|(found, _)| std::cmp::Reverse(found.severity));
    for &(found, count) in groups.iter().take(MOST_GROUPS) {
        let place = found
            .place()
            .map_or_else(String::new, |at| format!(" (at {})", point(solved, at)));
        let more = match count {
            1 => String::new(),
            count => format!("; {} more like it", count - 1),
        };
        finding(
            found.severity,
            found.code(),
            format_args!("{}{place}{more}", words::finding(found, solved)),
        );
    }
    let left = groups.iter().skip(MOST_GROUPS).map(|(_, count)| count);
    let left: usize = left.sum();
    if left > 0 {
        line(format_args!(
            "and {} of other kinds, in result.json and on the sheet",
            counted(left, "finding")
        ));
    }
    if groups.iter().any(|(_, count)| *count > 1) {
        line("every finding, with its place, is in result.json and on the sheet");
    }
}

fn quilt(solved: &Solved) {
    let readable = |mm: f64| solved.unit.readable(mm);
    let bounds = solved.quilt.bounds();
    let (width, height) = (readable(bounds.width()), readable(bounds.height()));
    let outline = &solved.quilt.outline;
    match &solved.quilt.measured {
        None if outline.sides() == 4 => line(format_args!("quilt {width} x {height}")),
        None => line(format_args!(
            "quilt of {} sides, {width} x {height} overall",
            outline.sides()
        )),
        Some(measured) => {
            let angles: Vec<String> = (0..outline.sides())
                .map(|corner| format!("{:.2}", outline.angle_degrees(corner)))
                .collect();
            line(format_args!(
                "quilt as measured, {width} x {height} overall, its corners {} degrees",
                angles.join(", ")
            ));
            let most = measured.moves.into_iter().fold(0.0, f64::max);
            if most.is_finite() {
                line(format_args!(
                    "  {} on a diagonal moves a corner by up to {}",
                    readable(measured.change),
                    readable(most)
                ));
            }
        }
    }
}

fn stitched(solved: &Solved, stitching: &Stitching) {
    let job = &stitching.job;
    let thread = |mm: f64| solved.unit.readable_thread(mm);
    let wind = job.thread.bobbins.map_or_else(String::new, |bobbins| {
        format!(", {} to wind", counted(bobbins as usize, "bobbin"))
    });
    let rolled = match stitching.rolled {
        0.0 => String::new(),
        rolled => format!(" with {} of rolling", solved.unit.readable(rolled)),
    };
    line(format_args!(
        "{}{rolled}, {} stitches, about {:.0} minutes",
        passes(stitching),
        job.count(),
        stitching.minutes()
    ));
    let minutes = words::minutes_for(&stitching.time).into_iter();
    let minutes = minutes.map(|part| format!("{} {}", part.readable(), part.work));
    line(format_args!(
        "  of these minutes {}",
        minutes.collect::<Vec<_>>().join(", ")
    ));
    line(format_args!(
        "thread: needle {}, bobbin {}{wind}",
        thread(job.thread.thread.needle),
        thread(job.thread.thread.bobbin)
    ));
}

/// How often the bobbin is changed, and where first.
fn bobbins(solved: &Solved, stitching: &Stitching) {
    // A stitching that came with this plan has all that it refers to.
    let changes = bobbin_changes(solved, stitching).unwrap_or_default();
    if let Some(said) = words::bobbins(&changes, solved, stitching) {
        line(said);
    }
}

/// How many passes there are, by loading where there are two.
fn passes(stitching: &Stitching) -> String {
    let count = |loading: Loading| {
        let passes = stitching.passes.iter();
        passes.filter(|pass| pass.loading == loading).count()
    };
    let words = |count: usize| match count {
        1 => "1 pass".to_owned(),
        count => format!("{count} passes"),
    };
    match (count(Loading::Upright), count(Loading::Turned)) {
        (upright, 0) => words(upright),
        (upright, turned) => format!("{} upright and {} turned", words(upright), words(turned)),
    }
}

/// Names the sheet to print and the picture to look at.
pub(super) fn open(sheet: &Path, picture: &Path) {
    line(format_args!(
        "open {} (to print) or {}",
        sheet.display(),
        picture.display()
    ));
}

fn border(solved: &Solved, index: usize, layout: &Layout) {
    let mut depths: Vec<String> = layout
        .depths()
        .into_iter()
        .zip(&layout.widths)
        .filter(|(_, side)| side.width > 0.0)
        .map(|(depth, _)| solved.unit.readable(depth))
        .collect();
    depths.dedup();
    let depths = depths.join(", ");
    heading(format_args!("{}: band {depths} deep", layout.name));
    for piece in solved.pieces.iter().filter(|piece| piece.border == index) {
        match &piece.kind {
            PieceKind::Side(detail) => side(solved, detail),
            PieceKind::Corner(detail) => corner(solved, piece, detail),
            PieceKind::Ring(detail) => ring(solved, detail),
            PieceKind::Link(side) => {
                let length = solved.unit.readable(piece.length());
                line(format_args!("  {:<12} link of {length}", side_label(*side)));
            }
            _ => {}
        }
    }
}

/// The places of the field of blocks, those that are alike together.
fn field(solved: &Solved, layout: &Layout) {
    heading(format_args!("{}:", layout.name));
    let mut groups: Vec<(String, usize)> = Vec::new();
    for piece in &solved.pieces {
        let PieceKind::Field(detail) = &piece.kind else {
            continue;
        };
        let kind = detail.place.kind.name().replace('_', " ");
        let words = match &detail.sash {
            Some(sash) => format!(
                "{kind:<16} {} of {}, stretched by {}",
                counted(sash.fit.chosen.repeats, "repeat"),
                solved.unit.readable(sash.pitch),
                percent(sash.fit.chosen.stretch)
            ),
            None => format!(
                "{kind:<16} {} of line",
                solved.unit.readable(piece.length())
            ),
        };
        match groups.iter_mut().find(|(known, _)| *known == words) {
            Some((_, count)) => *count += 1,
            None => groups.push((words, 1)),
        }
    }
    for (words, count) in groups {
        line(format_args!("  {count:>5} x {words}"));
    }
}

fn ring(solved: &Solved, detail: &RingDetail) {
    let chosen = detail.fit.chosen;
    let scallops = match detail.scallops {
        0 => String::new(),
        scallops => format!(", {} to each scallop", chosen.repeats / scallops),
    };
    line(format_args!(
        "  {:<12} {} of {}, stretched by {}{scallops}",
        "all round",
        counted(chosen.repeats, "repeat"),
        solved.unit.readable(detail.pitch),
        percent(chosen.stretch)
    ));
}

fn side(solved: &Solved, detail: &SideDetail) {
    let chosen = detail.fit.chosen;
    let eased = detail.ease.and_then(|ease| ease.loops).map(percent);
    let eased = eased.map_or_else(String::new, |loops| format!(", its loops by {loops}"));
    line(format_args!(
        "  {:<12} {} of {}, stretched by {}{eased}",
        side_label(detail.side),
        counted(chosen.repeats, "repeat"),
        solved.unit.readable(detail.pitch),
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
        corner_label(detail.position),
        point(solved, piece.start().point),
        point(solved, piece.end().point)
    ));
}

/// The name of a side on a page, or its number with the word.
fn side_label(side: Side) -> String {
    match side.count() {
        4 => side.name().to_owned(),
        _ => side.to_string(),
    }
}

fn corner_label(corner: CornerPlace) -> String {
    let label = corner.to_string();
    match label.strip_suffix(" corner") {
        Some(place) => place.to_owned(),
        None => label,
    }
}

fn point(solved: &Solved, at: Point) -> String {
    let [x, y] = [at.x, at.y].map(|mm| solved.unit.readable(mm));
    format!("{x}, {y}")
}
