//! A picture of a drawing to its strokes: the street of all steps.
//!
//! Each step is a file of its own: ink, parts, marks, thickness, filled shapes, thinning, net,
//! guides, spurs, crossings, centre lines, gaps. Here they are put one after the other, what is no
//! drawing is refused, and pixels become millimetres.

use super::blank::Blank;
use super::blobs::Blobs;
use super::bridge::bridged;
use super::centre::Inked;
use super::crossings::without_bridges;
use super::fills::hollow;
use super::grey::Grey;
use super::guides::without_guides;
use super::ink::{Mask, Paper, ink};
use super::marks;
use super::meet::{Thick, settled};
use super::net::Net;
use super::options::{DoubtKind, Fills, Scan, ScanDoubt, ScanOptions, ScanReport, Traced};
use super::pixels::net;
use super::spurs::without_spurs;
use super::thickness::{distances, is_ridge, middle_thickness, thickness};
use super::thin::thin;
use crate::error::{Error, ScanFault};
use crate::geom::{Bounds, Point, Polyline};
use crate::strokes::{Drawing, Stroke};

/// More than this share of a picture is dark in no drawing of lines, filled leaves and all.
const DARKEST: f64 = 0.25;

/// Reads the drawing in a picture.
///
/// The picture may be turned any way and seen at a slant where the drawing paper's four marks are
/// in it; without them it is taken as it is, and the options give the width.
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
/// filled and that is refused.
///
/// # Complexity
///
/// O(pixels) time; 4 bytes a pixel besides the picture, and 16 for each run of ink in a row.
pub fn scan(name: &str, grey: &Grey, options: &ScanOptions) -> Result<Scan, Error> {
    let paper = Paper::of(grey);
    if paper.brightest() < 48 {
        return Err(too_dark(1.0));
    }
    let mut mask = ink(grey, &paper);
    let blobs = Blobs::of(&mask)?;
    let sheet = match marks::find(grey, &paper, &mask, &blobs) {
        Ok(sheet) => Some(sheet),
        Err(_) if options.width_mm.is_some() => None,
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

fn too_dark(share: f64) -> Error {
    let limit = DARKEST;
    ScanFault::TooDark { share, limit }.into()
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

/// The width of the pen in pixels, from the parts that are large enough to be lines.
fn pen(mask: &Mask, blobs: &Blobs, left: &[bool], far: &[u8]) -> Option<f64> {
    let parts = || blobs.blobs.iter().zip(left).filter(|(_, left)| **left);
    let free = |blob: &super::blobs::Blob| !blob.touches_edge(mask);
    let largest = parts()
        .filter(|(blob, _)| free(blob))
        .map(|(blob, _)| blob.diagonal());
    let largest = largest.fold(0.0, f64::max);
    let counts = |blob: usize| {
        let part = &blobs.blobs[blob];
        left[blob] && (largest == 0.0 || (free(part) && part.diagonal() >= 0.1 * largest))
    };
    let mut ridges = Vec::new();
    blobs.each_pixel(mask.width, |blob, at| {
        if counts(blob) && mask.cells[at] != 0 && is_ridge(far, mask.width, at) {
            ridges.push(far[at]);
        }
    });
    middle_thickness(ridges.into_iter())
}

/// Takes out dark shapes that reach the picture's edge and are far thicker than the pen: what lies
/// about the paper. Gives how many there were.
fn drop_edges(mask: &mut Mask, blobs: &Blobs, left: &mut [bool], far: &[u8], pen: f64) -> usize {
    let mut thickest = vec![0; blobs.blobs.len()];
    blobs.each_pixel(mask.width, |blob, at| {
        thickest[blob] = far[at].max(thickest[blob])
    });
    let mut edges = 0;
    let gone: Vec<bool> = blobs
        .blobs
        .iter()
        .zip(&thickest)
        .zip(left.iter_mut())
        .map(|((blob, &far), left)| {
            let gone = *left && blob.touches_edge(mask) && thickness(far) > 4.0 * pen.max(2.0);
            *left &= !gone;
            edges += usize::from(gone);
            gone
        })
        .collect();
    if edges > 0 {
        blobs.erase(mask, |blob| gone[blob]);
    }
    edges
}

/// Takes out what is no larger than a dot of the pen; gives how many there were.
fn drop_specks(mask: &mut Mask, blobs: &Blobs, left: &mut [bool], pen: f64) -> usize {
    let mut specks = 0;
    let gone: Vec<bool> = blobs
        .blobs
        .iter()
        .zip(left.iter_mut())
        .map(|(blob, left)| {
            let small =
                blob.area < (1.5 * pen * pen).max(5.0) && blob.diagonal() < (3.0 * pen).max(4.5);
            let gone = *left && small;
            *left &= !gone;
            specks += usize::from(gone);
            gone
        })
        .collect();
    if specks > 0 {
        blobs.erase(mask, |blob| gone[blob]);
    }
    specks
}

fn refuse_what_is_no_drawing(
    mask: &Mask,
    blobs: &Blobs,
    left: &[bool],
    specks: usize,
    pen: f64,
    edges: bool,
) -> Result<(), Error> {
    let parts: Vec<_> = blobs
        .blobs
        .iter()
        .zip(left)
        .filter(|(_, left)| **left)
        .map(|(blob, _)| blob)
        .collect();
    let area: f64 = parts.iter().map(|blob| blob.area).sum();
    let share = area / mask.cells.len() as f64;
    if share > DARKEST {
        return Err(too_dark(share));
    }
    if parts.is_empty() {
        return Err(match edges {
            true => too_dark(1.0),
            false => ScanFault::NoLine { specks }.into(),
        });
    }
    let mut sizes: Vec<f64> = parts.iter().map(|blob| blob.diagonal()).collect();
    sizes.sort_by(f64::total_cmp);
    let (middle, largest) = (sizes[sizes.len() / 2], sizes[sizes.len() - 1]);
    if sizes.len() >= 150 && middle < 15.0 * pen && largest < 60.0 * pen {
        return Err(ScanFault::LooksLikeText { signs: sizes.len() }.into());
    }
    Ok(())
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

/// From pixels to the millimetres of the drawing.
struct View<'a> {
    sheet: Option<&'a marks::Found>,
    /// Where the drawing begins, in pixels, or on the paper in millimetres.
    origin: Point,
    scale: f64,
    pixel_mm: f64,
}

impl<'a> View<'a> {
    fn of(
        net: &Net,
        sheet: Option<&'a marks::Found>,
        options: &ScanOptions,
    ) -> Result<Self, Error> {
        let place = |point: Point| sheet.map_or(point, |sheet| sheet.to_paper.map(point));
        let all = net
            .edges
            .iter()
            .flat_map(|edge| &edge.points)
            .chain(&net.nodes);
        let places: Vec<Point> = all.map(|&point| place(point)).collect();
        let bounds = Bounds::of_nonempty(&places);
        let scale = match (options.width_mm, sheet) {
            (Some(width), _) if bounds.width() > 0.0 => width / bounds.width(),
            (None, Some(_)) => 1.0,
            _ => return Err(crate::error::GeometryFault::NoSize { axis: "width" }.into()),
        };
        let origin = match (options.width_mm, sheet) {
            (None, Some(sheet)) => sheet.blank.drawing_box().min,
            _ => bounds.min,
        };
        let pixel = match sheet {
            Some(sheet) => {
                let middle = sheet.to_picture.map(bounds.centre());
                let beside =
                    [middle, middle + crate::geom::Vector::x()].map(|at| sheet.to_paper.map(at));
                (beside[1] - beside[0]).norm()
            }
            None => 1.0,
        };
        Ok(Self {
            sheet,
            origin,
            scale,
            pixel_mm: pixel * scale,
        })
    }

    fn map(&self, point: Point) -> Point {
        let place = self.sheet.map_or(point, |sheet| sheet.to_paper.map(point));
        Point::from((place - self.origin) * self.scale)
    }
}
