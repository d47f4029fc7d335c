//! A picture of a drawing to its strokes: the street of all steps.
//!
//! Each step is a file of its own: ink, parts, marks, thickness, filled shapes, thinning, net,
//! guides, spurs, crossings, centre lines, gaps. Here they are put one after the other, what is no
//! drawing is refused, and pixels become millimetres.

use super::blank::Blank;
use super::blobs::Blobs;
use super::bridge::bridged;
use super::centre::Inked;
use super::clean::{drop_edges, drop_specks, pen, refuse_what_is_no_drawing, too_dark};
use super::crossings::without_bridges;
use super::fills::hollow;
use super::grey::Grey;
use super::guides::without_guides;
use super::ink::{Mask, Paper, ink};
use super::marks;
use super::meet::{Thick, settled};
use super::net::Net;
use super::options::{
    DoubtKind, Fills, Scan, ScanDoubt, ScanOptions, ScanReport, ScanSize, Traced,
};
use super::pixels::net;
use super::spurs::without_spurs;
use super::thickness::{distances, thickness};
use super::thin::thin;
use super::view::View;
use crate::error::{Error, ScanFault};
use crate::geom::{Bounds, Point, Polyline};
use crate::strokes::{Drawing, Stroke};

/// The least width of a pen, in pixels: what noise leaves is thinner.
const LEAST_PEN: f64 = 1.3;

/// Reads the drawing in a picture.
///
/// `name` becomes the name of the drawing. Where the drawing paper's four marks are in the picture,
/// it may be turned any way and seen at a slant; without them it has to be square on, as from a
/// scanner, and the options have to give the width.
///
/// ```
/// use quiltpath_core::raster::{Grey, ScanOptions, scan};
///
/// // A level line, 4 pixels wide, on white.
/// let pixel = |at: usize| if (48..52).contains(&(at / 200)) && (20..180).contains(&(at % 200)) { 20 } else { 250 };
/// let picture = Grey::new(200, 100, (0..20_000).map(pixel).collect())?;
/// let scan = scan("stem", &picture, &ScanOptions::default().with_width_mm(80.0)?)?;
/// assert_eq!(scan.drawing.strokes.len(), 1);
/// assert!((scan.report.pen_mm - 2.0).abs() < 0.3);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A scan error when nothing is drawn, when the picture is no drawing of lines (dark, crowded,
/// writing), when its marks are missing or unreadable and no width is given, or when a shape is
/// filled and that is refused. A geometry error when an option is out of its range, or a width is
/// given for a drawing that has none, such as one upright line.
///
/// # Complexity
///
/// O(pixels) time; 4 bytes a pixel besides the picture, and 16 for each run of ink in a row.
pub fn scan(name: &str, grey: &Grey, options: &ScanOptions) -> Result<Scan, Error> {
    options.check()?;
    let paper = Paper::of(grey);
    if paper.brightest() < 48 {
        return Err(too_dark(1.0));
    }
    let mut mask = ink(grey, &paper);
    let blobs = Blobs::of(&mask)?;
    let mut marks = 0;
    let sheet = match marks::find(grey, &paper, &mask, &blobs) {
        Ok(sheet) => Some(sheet),
        Err(ScanFault::NoMarks) if options.width_mm.or(options.pixel_mm).is_some() => None,
        Err(fault) if options.width_mm.is_some() => {
            marks = fault.marks();
            None
        }
        Err(fault) if blobs.blobs.iter().any(|blob| blob.diagonal() > 32.0) => {
            return Err(fault.into());
        }
        Err(_) => {
            let specks = blobs.blobs.len();
            return Err(ScanFault::NoLine { specks }.into());
        }
    };
    let mut left = vec![true; blobs.blobs.len()];
    let mut outside = 0;
    if let Some(sheet) = &sheet {
        let inside = drawing_area(&sheet.blank);
        let mut within = vec![false; left.len()];
        blobs.each_run_end(|blob, place| {
            within[blob] |= holds(inside, sheet.to_paper.map(place));
        });
        sheet.marks.iter().for_each(|&mark| within[mark] = false);
        left.clone_from(&within);
        blobs.erase(&mut mask, |blob| !within[blob]);
        outside = left.iter().filter(|left| !**left).count() - sheet.marks.len();
    }
    let inked = inked_pixels(&mask);
    let far = distances(&mask, &inked);
    let pen = pen(&mask, &blobs, &left, &far).unwrap_or(1.0);
    let edges = drop_edges(&mut mask, &blobs, &mut left, &far, pen);
    let specks = drop_specks(&mut mask, &blobs, &mut left, pen);
    refuse_what_is_no_drawing(&mask, &blobs, &left, specks, pen, edges > 0)?;
    let mut inked = inked_pixels(&mask);
    let shapes = hollow(&mut mask, &far, &inked, pen)?;
    if let (Fills::Refuse, Some(&(at, _))) = (options.fills, shapes.first()) {
        let count = shapes.len();
        return Err(ScanFault::Filled { count, at }.into());
    }
    let far = match shapes.is_empty() {
        true => far,
        false => {
            inked = inked_pixels(&mask);
            distances(&mask, &inked)
        }
    };
    let area = inked.len() as f64;
    let line = thin(&mut mask);
    let ridge = Ridge {
        far: &far,
        width: mask.width,
    };
    let net = net(&mask, &line)?;
    let dots = net.around().iter().filter(|ends| ends.is_empty()).count();
    let length: f64 = (0..net.edges.len()).map(|at| net.length(at)).sum();
    // Ink is about as much as its line is long times the pen; a drawing of dots has no length.
    let pen = if length > 4.0 * pen {
        (area / length).clamp(0.6 * pen, 1.6 * pen)
    } else {
        pen
    };
    if length > 4.0 * pen && pen < LEAST_PEN {
        let (pixels, least) = (pen, LEAST_PEN);
        return Err(ScanFault::TooThin { pixels, least }.into());
    }
    let inked = Inked {
        grey,
        paper: &paper,
        pen,
    };
    let (net, guides_mm) = match &sheet {
        Some(sheet) => without_guides(&net, &inked, &sheet.blank, &sheet.to_paper),
        None => (net, 0.0),
    };
    let (net, spurs) = without_spurs(net, 1.5 * pen);
    let (net, crossings) = without_bridges(&net, pen);
    if net.edges.is_empty() {
        return Err(ScanFault::NoLine {
            specks: specks + dots,
        }
        .into());
    }
    let close = shared(&net, &ridge, pen);
    let net = settled(&net, &inked, &ridge);
    let view = View::of(&net, sheet.as_ref(), options)?;
    let limit = options.bridge_mm.map_or(4.0 * pen, |mm| mm / view.pixel_mm) + pen;
    let (net, gaps) = bridged(&net, pen, limit);
    let lines = lines(&net, 0.3 * pen);
    let mut doubts: Vec<(DoubtKind, Point)> =
        close.into_iter().map(|at| (DoubtKind::Close, at)).collect();
    doubts.extend(gaps.unsure.iter().map(|&at| (DoubtKind::UnsureBridge, at)));
    let middle = |[from, to]: &[Point; 2]| nalgebra::center(from, to);
    doubts.extend(
        gaps.open
            .iter()
            .map(|gap| (DoubtKind::OpenGap, middle(gap))),
    );
    let mut strokes = Vec::with_capacity(lines.len());
    for (at, line) in lines.iter().enumerate() {
        let points = line.iter().map(|&point| view.map(point)).collect();
        let line = Polyline::new(points)?;
        strokes.push(Stroke::from_line(format!("line {}", at + 1), line));
    }
    let report = ScanReport {
        blank: sheet.as_ref().map(|sheet| sheet.blank),
        size: match (options.width_mm, &sheet) {
            (Some(_), _) => ScanSize::Given,
            (None, Some(_)) => ScanSize::Marks,
            (None, None) => ScanSize::Pixels,
        },
        marks,
        pixels: [grey.width(), grey.height()],
        pixel_mm: view.pixel_mm,
        pen_mm: pen * view.pixel_mm,
        specks: specks + dots,
        edges,
        outside,
        filled: shapes.len(),
        guides_mm,
        spurs,
        crossings,
        bridged: gaps
            .filled
            .iter()
            .map(|gap| gap.map(|at| view.map(at)))
            .collect(),
        doubts: doubts
            .iter()
            .map(|&(kind, at)| ScanDoubt {
                kind,
                at: view.map(at),
            })
            .collect(),
    };
    let traced = Traced {
        lines,
        bridged: gaps.filled,
        doubts: doubts.into_iter().map(|(_, at)| at).collect(),
    };
    Ok(Scan {
        drawing: Drawing::new(name, strokes),
        report,
        traced,
    })
}

/// The box that ink of a drawing on this sheet may lie in: its band and a little more.
fn drawing_area(blank: &Blank) -> Bounds {
    const MORE_MM: f64 = 4.5;
    let area = blank.drawing_box();
    let more = crate::geom::Vector::repeat(MORE_MM);
    Bounds {
        min: area.min - more,
        max: area.max + more,
    }
}

fn holds(area: Bounds, place: Point) -> bool {
    let (min, max) = (area.min, area.max);
    (min.x..=max.x).contains(&place.x) && (min.y..=max.y).contains(&place.y)
}

fn inked_pixels(mask: &Mask) -> Vec<u32> {
    let ink = mask
        .cells
        .iter()
        .enumerate()
        .filter(|(_, cell)| **cell != 0);
    ink.map(|(at, _)| at as u32).collect()
}

/// The thickness of the ink at pixels.
struct Ridge<'a> {
    far: &'a [u8],
    width: usize,
}

impl Thick for Ridge<'_> {
    fn thick(&self, at: Point) -> f64 {
        let at = at.y as usize * self.width + at.x as usize;
        self.far.get(at).map_or(0.0, |&far| thickness(far))
    }
}

/// The middles of edges between forks whose ink is thicker than one line: two are in it.
fn shared(net: &Net, ridge: &Ridge<'_>, pen: f64) -> Vec<Point> {
    let around = net.around();
    let forks = |ends: [usize; 2]| ends.iter().all(|&end| around[end].len() > 2);
    let edges = net
        .edges
        .iter()
        .filter(|edge| forks(edge.ends) && !edge.points.is_empty());
    let thick = |points: &[Point]| {
        let sum: f64 = points.iter().map(|&point| ridge.thick(point)).sum();
        sum / points.len() as f64
    };
    let shared = edges.filter(|edge| thick(&edge.points) > 1.3 * pen + 0.5);
    shared
        .map(|edge| edge.points[edge.points.len() / 2])
        .collect()
}

/// All strokes with their ends, points no nearer to each other than `step` in between.
fn lines(net: &Net, step: f64) -> Vec<Vec<Point>> {
    let line = |at: usize| {
        let mut line: Vec<Point> = Vec::new();
        let mut all = net.points_from((at, 0)).peekable();
        while let Some(point) = all.next() {
            let far = line.last().is_none_or(|last| (point - last).norm() >= step);
            let end = all.peek().is_none();
            if end && line.len() > 1 && !far {
                line.pop();
            }
            if far || end {
                line.push(point);
            }
        }
        line
    };
    let lines = (0..net.edges.len()).map(line);
    lines
        .filter(|line| line.iter().any(|point| *point != line[0]))
        .collect()
}
