//! A drawing of a border as a page shows it: its picture with start and end, legs, what is stitched
//! twice, and what there is to say of it.
//!
//! The picture is as drawn, but turned where its legs lie aslant, and stitched in the direction in
//! which the plan takes it. A repeat has the one that follows it beside it, pale.

use maud::{Markup, Render, html};
use serde::Serialize;

use super::ends::EndsView;
use super::length::LengthSaid;
use crate::error::Error;
use crate::geom::{Bounds, BoxCorner, Point, Vector};
use crate::io::again::gone_over;
use crate::io::canvas::{Canvas, Line};
use crate::io::over::{links_within, twice, within};
use crate::io::signs;
use crate::io::words::{leg_depths, leg_ends, made_one_line, repeat_ends};
use crate::motif::Motif;
use crate::plan::spec::CornerStyle;
use crate::plan::{DrawnFor, DrawnLines, DrawnShape, PlanSpec, drawn_lines};
use crate::strokes::{DEFAULT_JOIN_MM, Drawing};
use crate::transform::{Mirror, Transform};
use crate::units::Unit;

/// The longer side of the picture is so many letters high.
const LETTERS: f64 = 22.0;

/// How many pixels wide the picture is where a pixel is told.
const WIDE: f64 = 272.0;

/// Room round the drawing, in letters.
const MARGIN: f64 = 1.4;

/// A drawing of a border.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct DrawingView {
    /// What it is for.
    pub role: DrawnFor,
    /// The number of the border, from 0.
    pub border: usize,
    /// The width of the drawing.
    pub width: LengthSaid,
    /// The height of the drawing.
    pub height: LengthSaid,
    /// The length of its lines.
    pub length: LengthSaid,
    /// How many times as large it becomes on the cloth, about.
    pub factor: f64,
    /// Whether it is stitched against the direction of drawing.
    pub backwards: bool,
    /// Where it starts and ends; of a repeat `left` and `right`, and `as given` where the plan
    /// says.
    pub ends: [String; 2],
    /// The places of both, where a plan may choose them.
    pub places: Option<EndsView>,
    /// How its ends meet those of the next repeat.
    pub meets: Option<String>,
    /// Whether a repeat ends as high as it starts.
    pub level: bool,
    /// How deep its legs are, and how sure that is.
    pub legs: Option<String>,
    /// Whether there is a doubt about its legs.
    pub doubtful: bool,
    /// What it took to make one line.
    pub one_line: String,
    /// How many lines it becomes.
    pub lines: usize,
    /// The `viewBox` of its picture.
    pub view: [i64; 4],
    /// How large a pixel is where the picture is 272 px wide, for `--px` in the styles of signs.
    pub pixel: f64,
    /// Its picture: SVG elements.
    pub markup: String,
    /// The drawing in little.
    pub little: LittleDrawing,
}

/// A drawing in little, its box from the origin, the longer side 100; an L has its elbow there.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct LittleDrawing {
    /// The width.
    pub width: f64,
    /// The height.
    pub height: f64,
    /// Its lines as SVG path data.
    pub path: String,
}

/// Shows a drawing as the border of a plan makes it its own; the drawing is in millimetres.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::io::{json::read_plan, view::view_drawing};
/// use quiltpath_core::plan::DrawnFor;
///
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// let wave = Motif::from_points("wave", wave.to_vec())?.into();
/// let seen = view_drawing(&plan, 0, DrawnFor::Side, &wave)?;
/// assert_eq!(seen.meets.as_deref(), Some("Level: each repeat runs on into the next."));
/// assert_eq!(seen.one_line, "Yes, as drawn. Nothing added.");
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`drawn_lines`].
///
/// # Complexity
///
/// As [`drawn_lines`].
pub fn view_drawing(
    plan: &PlanSpec,
    border: usize,
    role: DrawnFor,
    drawing: &Drawing,
) -> Result<DrawingView, Error> {
    let drawn = drawn_lines(plan, border, role, drawing)?;
    let unit = Unit::from(plan.unit);
    let long = |mm: f64| LengthSaid::of(mm, unit);
    let motifs = &drawn.lines.motifs;
    let upright = match &drawn.shape {
        DrawnShape::Legs(legs) if legs.turn_degrees != 0.0 => {
            let turn = Transform::rotate_degrees(legs.turn_degrees);
            motifs
                .iter()
                .map(|motif| motif.transformed(&turn))
                .collect::<Result<_, Error>>()?
        }
        _ => motifs.clone(),
    };
    let bounds = all_bounds(&upright);
    let (view, step, markup) = picture(plan, border, &drawn, &upright, bounds);
    let on_itself: f64 = motifs.iter().map(on_itself).sum();
    let (ends, meets, level) = match &drawn.shape {
        DrawnShape::Legs(legs) => (leg_ends(legs), None, true),
        DrawnShape::Repeat(repeat) => {
            let offsets = repeat.offsets(None);
            let height = repeat.drawn_depth();
            let said = repeat_ends(offsets, height, DEFAULT_JOIN_MM, unit);
            let level = (offsets[0] - offsets[1]).abs() * height <= DEFAULT_JOIN_MM;
            (["left", "right"].map(str::to_owned), Some(said), level)
        }
        DrawnShape::Cut(_) | DrawnShape::Block => {
            (["as drawn", "as drawn"].map(str::to_owned), None, true)
        }
    };
    let places = EndsView::of(plan, (border, role), drawing, &drawn, step)?;
    let ends = match &places {
        None => ends,
        Some(EndsView { start, end, .. }) => {
            let [of_start, of_end] = ends;
            let said = |given: bool, found: String| match given {
                true => "as given".to_owned(),
                false => found,
            };
            [said(start.given, of_start), said(end.given, of_end)]
        }
    };
    let given = plan
        .borders
        .get(border)
        .is_some_and(|of| of.corner.style == CornerStyle::Leg && of.corner.leg.is_some());
    let legs = match &drawn.shape {
        DrawnShape::Legs(legs) => Some(legs),
        _ => None,
    };
    Ok(DrawingView {
        role,
        border,
        width: long(bounds.width()),
        height: long(bounds.height()),
        length: long(motifs.iter().map(Motif::length).sum()),
        factor: drawn.factor,
        backwards: drawn.backwards,
        ends,
        places,
        meets,
        level,
        legs: legs.map(|legs| leg_depths(legs, given, unit)),
        doubtful: legs.is_some_and(|legs| !legs.is_clear()),
        one_line: made_one_line(&drawn.lines.report, on_itself, unit),
        lines: motifs.len(),
        view,
        pixel: view[2] as f64 / WIDE,
        markup: markup.into_string(),
        little: little(&drawn)?,
    })
}

fn all_bounds(motifs: &[Motif]) -> Bounds {
    let more = motifs[1..].iter();
    more.fold(motifs[0].bounds(), |all, motif| all.union(&motif.bounds()))
}

fn little(drawn: &DrawnLines) -> Result<LittleDrawing, Error> {
    const LONGEST: f64 = 100.0;
    let stand = match &drawn.shape {
        DrawnShape::Legs(legs) => legs.to_standard(),
        _ => Transform::default(),
    };
    let lines = drawn
        .lines
        .motifs
        .iter()
        .map(|motif| motif.transformed(&stand));
    let lines: Vec<Motif> = lines.collect::<Result<_, Error>>()?;
    let bounds = all_bounds(&lines);
    let scale = LONGEST / bounds.width().max(bounds.height());
    let mut path = String::new();
    for line in &lines {
        let points: Vec<Point> = (line.points().iter())
            .map(|&point| Point::from((point - bounds.min) * scale))
            .collect();
        Line::on(1.0, &points).render_to(&mut path);
    }
    Ok(LittleDrawing {
        width: (bounds.width() * scale).round(),
        height: (bounds.height() * scale).round(),
        path,
    })
}

/// The length of what a line goes over again.
fn on_itself(motif: &Motif) -> f64 {
    let points = motif.points();
    let again = gone_over(points).into_iter();
    let long = |stretch: std::ops::RangeInclusive<usize>| {
        let steps = points[stretch].windows(2);
        steps.map(|pair| (pair[1] - pair[0]).norm()).sum::<f64>()
    };
    again.map(long).sum()
}

/// Its `viewBox`, the step of its grid in millimetres, and the elements.
fn picture(
    plan: &PlanSpec,
    border: usize,
    drawn: &DrawnLines,
    lines: &[Motif],
    bounds: Bounds,
) -> ([i64; 4], f64, Markup) {
    let next = match &drawn.shape {
        DrawnShape::Repeat(_) => next_repeat(plan, border, &lines[0]),
        _ => None,
    };
    let whole = next
        .as_ref()
        .map_or(bounds, |next| bounds.union(&next.bounds()));
    let canvas = Canvas::over(whole, LETTERS);
    let margin = Vector::new(1.0, 1.0) * (MARGIN * canvas.em);
    let [from, to] = [whole.min - margin, whole.max + margin];
    let [x, y] = [from.x, from.y].map(|mm| canvas.grid(mm));
    let view = [x, y, canvas.grid(to.x) - x, canvas.grid(to.y) - y];
    let class = match &drawn.shape {
        DrawnShape::Repeat(_) => "line side",
        _ => "line corner",
    };
    let markup = html! {
        @match &drawn.shape {
            DrawnShape::Legs(legs) => {
                (canvas.outline("band", &l_in(legs.bounds, legs.elbow, [legs.depth_vertical, legs.depth_horizontal])))
            }
            DrawnShape::Cut(depth) => (canvas.outline("band", &l_in(bounds, elbow_of_cut(plan, border), [*depth; 2]))),
            DrawnShape::Repeat(_) => {
                @for y in [bounds.min.y, bounds.max.y] {
                    (canvas.segment("band", Point::new(whole.min.x, y), Point::new(whole.max.x, y)))
                }
            }
            DrawnShape::Block => (canvas.outline("band", &box_of(bounds))),
        }
        @if let Some(next) = &next { g.pale { path class=(class) d=(canvas.line(next.points())) {} } }
        @for line in lines { path class=(class) d=(canvas.line(line.points())) {} }
        @for line in lines {
            @for stretch in gone_over(line.points()) { (twice(canvas.line(&line.points()[stretch]))) }
            @for link in links_within(line) { (within(canvas.line(&line.points()[link]))) }
        }
        @for line in lines {
            @let closed = (line.start().point - line.end().point).norm() <= DEFAULT_JOIN_MM;
            (signs::thread_ends(&canvas, line, closed))
        }
    };
    (view, canvas.step, markup)
}

/// The corners of an L in a box, from its elbow: its upright leg is so wide, its level leg so high.
fn l_in(bounds: Bounds, at: BoxCorner, [wide, high]: [f64; 2]) -> [Point; 6] {
    let elbow = at.of(bounds);
    let across = at.opposite().of(bounds);
    let [along_x, along_y] = [across.x - elbow.x, across.y - elbow.y].map(f64::signum);
    let inner = Point::new(elbow.x + along_x * wide, elbow.y + along_y * high);
    [
        elbow,
        Point::new(across.x, elbow.y),
        Point::new(across.x, inner.y),
        inner,
        Point::new(inner.x, across.y),
        Point::new(elbow.x, across.y),
    ]
}

/// Where the legs meet of the L that a border's drawing is cut to.
fn elbow_of_cut(plan: &PlanSpec, border: usize) -> BoxCorner {
    let of = plan.borders.get(border);
    let cut = of.and_then(|of| of.corner.trim.as_ref());
    cut.and_then(|cut| cut.elbow).unwrap_or(BoxCorner::TopLeft)
}

fn box_of(bounds: Bounds) -> [Point; 4] {
    BoxCorner::ALL.map(|corner| corner.of(bounds))
}

/// The repeat after this one, as the plan mirrors it.
fn next_repeat(plan: &PlanSpec, border: usize, line: &Motif) -> Option<Motif> {
    let alternate = plan.borders.get(border)?.side.alternate;
    let (start, end) = (line.start().point, line.end().point);
    let Bounds { min, max } = line.bounds();
    let beside = match alternate.of_copy(1, 2) {
        None => Transform::translate(end.x - start.x, 0.0),
        Some(mirror) => {
            // What is mirrored left to right begins with what was its end.
            let by = match mirror {
                Mirror::LeftRight => Transform::translate(2.0 * end.x, 0.0),
                Mirror::TopBottom => Transform::translate(end.x - start.x, min.y + max.y),
            };
            Transform::mirror(mirror).then(by)
        }
    };
    line.transformed(&beside).ok()
}
