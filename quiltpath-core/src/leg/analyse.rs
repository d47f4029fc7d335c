//! Reads a drawing as an L: which corner is the elbow, how deep the legs are, how sure that is.
//!
//! Method: for each corner of the box, take the empty rectangle there as the empty inner corner
//! of an L whose elbow lies diagonally across; score it by its share of the box and by how near
//! the line's ends lie to the open ends of the legs; rank. When the drawing isn't square, do the
//! same after each of the turns that its outline suggests, and keep the best turn.
//!
//! Guarantee: for a drawing that is square, the depths are those of the greatest empty rectangle,
//! up to rounding. Failure cases: no corner is empty, or the ends lie elsewhere: refused with
//! what to do. Near misses carry notes.

use super::empty_corner::{EmptyCorner, empty_corner};
use super::turns::Hull;
use super::{Elbow, LegName, LegSaid, LegShape};
use crate::error::{Error, GeometryFault, LegFault};
use crate::geom::{Bounds, Point};
use crate::motif::Motif;
use crate::transform::Transform;

/// The least share of the box that an empty corner must have: legs up to 4/5 of the box deep.
pub const MIN_SHARE: f64 = 0.04;

/// Another elbow is a rival when its score reaches the best one's divided by this.
pub const RIVAL_RATIO: f64 = 2.0;

/// How much the whole leg may be deeper than its outer half, as a part of the depth.
pub const DEPTH_DISAGREEMENT: f64 = 0.05;

/// How far an end may lie from its leg's open end, as a part of the leg's free length.
pub const PORT_NEAR: f64 = 0.1;

/// How many times better than the square reading a turned one must score to be preferred, when
/// the hull gives no evidence for it.
pub const CLEARLY_BETTER: f64 = 1.05;

/// A turn for which the hull gives evidence is taken when it scores this part of the best.
const FLUSH_SLACK: f64 = 0.8;

/// All the readings of a corner motif as an L, the most likely one first.
///
/// The likelihood is the empty corner's share of the box, times how near each end of the line
/// lies to its leg's open end. A drawing that isn't square is read after the turn that suits it
/// best; all readings returned are of the same turn.
///
/// ```
/// use quiltpath_core::{geom::Point, leg::{Elbow, analyse_legs}, motif::Motif};
///
/// let zigzag = [(9.0, 1.0), (7.0, 0.0), (5.0, 2.0), (3.0, 0.0), (0.0, 2.0), (2.0, 4.0), (0.0, 6.0), (1.0, 8.0)];
/// let points = zigzag.iter().map(|&(x, y)| Point::new(x, y)).collect();
/// let shapes = analyse_legs(&Motif::from_points("zigzag", points)?)?;
/// assert_eq!(shapes[0].elbow, Elbow::TopLeft);
/// assert_eq!((shapes[0].depth_horizontal, shapes[0].depth_vertical), (2.0, 2.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A leg error when no corner of the box is empty enough, or when the line doesn't run from one
/// leg's open end to the other's in any reading.
///
/// # Complexity
///
/// O(n log n) for each turn tried: one for a square drawing, up to 15 otherwise.
pub fn analyse_legs(motif: &Motif) -> Result<Vec<LegShape>, Error> {
    ranked(&best_turn(motif, None), &LegSaid::default())
}

/// The best reading of a corner motif as an L that agrees with what the user says.
///
/// What is said wins over what is measured, and takes the doubt with it: with an elbow said,
/// rivals no longer matter and ends that lie elsewhere are noted rather than refused; with a
/// depth said, its measure no longer matters. With the elbow and both depths said, any drawing
/// whose box has an area is accepted.
///
/// # Errors
///
/// As [`analyse_legs`]; a leg error when a depth said is not above 0 and below the drawing's
/// extent; a geometry error when the turn said is not finite.
///
/// # Complexity
///
/// As [`analyse_legs`]; one turn alone when it is said.
pub fn choose_leg(motif: &Motif, said: &LegSaid) -> Result<LegShape, Error> {
    let view = match said.turn_degrees {
        Some(value) if !value.is_finite() => {
            return Err(GeometryFault::BadNumber {
                what: "the turn of the drawing",
                value,
                accepted: "an angle in degrees",
            }
            .into());
        }
        Some(degrees) => View::of(motif.points(), degrees),
        None => best_turn(motif, said.elbow),
    };
    Ok(ranked(&view, said)?.swap_remove(0))
}

/// A drawing after a turn: its box and ends, and the empty rectangle across from each elbow.
struct View {
    degrees: f64,
    bounds: Bounds,
    start: Point,
    end: Point,
    corners: [EmptyCorner; 4],
    /// True when nothing but the score speaks for this turn.
    by_outline: bool,
}

impl View {
    fn of(points: &[Point], degrees: f64) -> Self {
        if degrees == 0.0 {
            return Self::of_turned(points, 0.0);
        }
        let mut turned = points.to_vec();
        Transform::rotate_degrees(degrees).apply_all(&mut turned);
        Self::of_turned(&turned, degrees)
    }

    fn of_turned(points: &[Point], degrees: f64) -> Self {
        let bounds = Bounds::of_nonempty(points);
        Self {
            degrees,
            bounds,
            start: points[0],
            end: points[points.len() - 1],
            corners: Elbow::ALL.map(|elbow| empty_corner(points, elbow.opposite().of(bounds))),
            by_outline: false,
        }
    }

    /// The best score over the elbows that are allowed.
    fn score(&self, elbow: Option<Elbow>) -> f64 {
        let readings = Elbow::ALL.map(|each| Reading::of(self, each, &LegSaid::default()));
        readings
            .iter()
            .filter(|reading| elbow.is_none_or(|elbow| elbow == reading.shape.elbow))
            .map(|reading| match elbow {
                Some(_) => reading.shape.share,
                None => reading.score(),
            })
            .fold(0.0, f64::max)
    }
}

/// The view of the turn under which the drawing is most likely an L.
fn best_turn(motif: &Motif, elbow: Option<Elbow>) -> View {
    let points = motif.points();
    let hull = Hull::of(points);
    let square = View::of(points, 0.0);
    let square_score = square.score(elbow);
    if hull.is_flush(0.0, square.bounds) && square_score >= MIN_SHARE {
        return square;
    }
    let scored: Vec<(f64, bool, View)> = hull
        .turns(motif)
        .into_iter()
        .map(|degrees| {
            let view = View::of(points, degrees);
            let flush = hull.is_flush(degrees, view.bounds);
            (view.score(elbow), flush, view)
        })
        .collect();
    let best_score = scored
        .iter()
        .map(|each| each.0)
        .fold(square_score, f64::max);
    let best = |flush_alone: bool| {
        scored
            .iter()
            .filter(move |each| each.1 || !flush_alone)
            .map(|each| each.0)
            .fold(0.0, f64::max)
    };
    let (flush, any) = (best(true), best(false));
    let (wanted, flush_alone) = if flush > 0.0 && flush >= FLUSH_SLACK * best_score {
        (flush, true)
    } else if any > CLEARLY_BETTER * square_score {
        (any, false)
    } else {
        return square;
    };
    scored
        .into_iter()
        .find(|each| each.0 == wanted && (each.1 || !flush_alone))
        .map_or(square, |(_, flush, view)| View {
            by_outline: !flush,
            ..view
        })
}

/// One elbow's reading, with how near the ends are: 1 at the open ends, 0 beyond the legs.
struct Reading {
    shape: LegShape,
    nearness: f64,
    /// The free lengths of the legs that the start and the end belong to.
    free: [f64; 2],
}

impl Reading {
    fn of(view: &View, elbow: Elbow, said: &LegSaid) -> Self {
        let bounds = view.bounds;
        let (width, height) = (bounds.width(), bounds.height());
        let corner = view.corners[elbow as usize];
        let depth_horizontal = said.depth_horizontal.unwrap_or(height - corner.height);
        let depth_vertical = said.depth_vertical.unwrap_or(width - corner.width);
        let area = width * height;
        let share = if area > 0.0 {
            corner.width * corner.height / area
        } else {
            0.0
        };

        let open = elbow.opposite().of(bounds);
        let along = |point: Point, leg: LegName| match leg {
            LegName::Horizontal => (point.x - open.x).abs(),
            LegName::Vertical => (point.y - open.y).abs(),
        };
        let free = |leg: LegName| match leg {
            LegName::Horizontal => width - depth_vertical,
            LegName::Vertical => height - depth_horizontal,
        };
        let nearness = |point: Point, leg: LegName| {
            if free(leg) > 0.0 {
                (1.0 - along(point, leg) / free(leg)).max(0.0)
            } else {
                0.0
            }
        };
        let both = |leg: LegName| nearness(view.start, leg) * nearness(view.end, leg.other());
        let (on_horizontal, on_vertical) = (both(LegName::Horizontal), both(LegName::Vertical));
        let starts_on = if on_horizontal >= on_vertical {
            LegName::Horizontal
        } else {
            LegName::Vertical
        };
        Self {
            nearness: on_horizontal.max(on_vertical),
            free: [free(starts_on), free(starts_on.other())],
            shape: LegShape {
                elbow,
                turn_degrees: view.degrees,
                bounds,
                depth_horizontal,
                depth_vertical,
                outer_depth_horizontal: height - corner.outer_height,
                outer_depth_vertical: width - corner.outer_width,
                starts_on,
                start_distance: along(view.start, starts_on),
                end_distance: along(view.end, starts_on.other()),
                share,
                notes: Vec::new(),
            },
        }
    }

    fn score(&self) -> f64 {
        self.shape.share * self.nearness
    }

    fn ports(&self) -> String {
        let shape = &self.shape;
        format!(
            "it starts {} from the open end of the {} leg and ends {} from that of the {} leg",
            short(shape.start_distance),
            shape.starts_on,
            short(shape.end_distance),
            shape.starts_on.other(),
        )
    }
}

/// The readings of one view that agree with what is said, best first, with their notes.
fn ranked(view: &View, said: &LegSaid) -> Result<Vec<LegShape>, Error> {
    let (width, height) = (view.bounds.width(), view.bounds.height());
    if width == 0.0 || height == 0.0 {
        return Err(LegFault::NoEmptyCorner.into());
    }
    for (depth, limit) in [
        (said.depth_horizontal, height),
        (said.depth_vertical, width),
    ] {
        if let Some(depth) = depth.filter(|depth| !(*depth > 0.0 && *depth < limit)) {
            return Err(LegFault::TooDeep { depth, limit }.into());
        }
    }
    let depths_said = said.depth_horizontal.is_some() && said.depth_vertical.is_some();
    let mut readings: Vec<Reading> = Elbow::ALL
        .into_iter()
        .filter(|elbow| said.elbow.is_none_or(|said| said == *elbow))
        .map(|elbow| Reading::of(view, elbow, said))
        .filter(|reading| reading.shape.share >= MIN_SHARE || (said.elbow.is_some() && depths_said))
        .collect();
    readings.sort_by(|a, b| {
        let by_share = b.shape.share.total_cmp(&a.shape.share);
        b.score().total_cmp(&a.score()).then(by_share)
    });
    let Some(first) = readings.first() else {
        return Err(LegFault::NoEmptyCorner.into());
    };
    if said.elbow.is_none() && first.nearness == 0.0 {
        let reason = first.ports();
        return Err(LegFault::PortsElsewhere { reason }.into());
    }
    readings.retain(|reading| reading.nearness > 0.0 || said.elbow.is_some());
    let notes: Vec<Vec<String>> = (0..readings.len())
        .map(|index| notes(&readings, index, view, said))
        .collect();
    Ok(readings
        .into_iter()
        .zip(notes)
        .map(|(reading, notes)| LegShape {
            notes,
            ..reading.shape
        })
        .collect())
}

/// What is doubtful about one of the readings.
fn notes(readings: &[Reading], index: usize, view: &View, said: &LegSaid) -> Vec<String> {
    let reading = &readings[index];
    let shape = &reading.shape;
    let mut notes = Vec::new();
    if view.by_outline {
        notes.push(format!(
            "the drawing seems turned; a turn of {} degrees was judged from its outline alone",
            short(view.degrees)
        ));
    }
    for (place, other) in readings.iter().enumerate() {
        if place != index && other.score() * RIVAL_RATIO >= reading.score() {
            notes.push(format!(
                "the elbow may be {} rather than {}: the empty corner across from it takes {} of the drawing's box, against {} here",
                other.shape.elbow,
                shape.elbow,
                percent(other.shape.share),
                percent(shape.share),
            ));
        }
    }
    let depths = [
        (
            LegName::Horizontal,
            shape.depth_horizontal,
            shape.outer_depth_horizontal,
            said.depth_horizontal,
        ),
        (
            LegName::Vertical,
            shape.depth_vertical,
            shape.outer_depth_vertical,
            said.depth_vertical,
        ),
    ];
    for (leg, whole, outer, said) in depths {
        if said.is_none() && whole - outer > DEPTH_DISAGREEMENT * whole {
            notes.push(format!(
                "the {leg} leg is {} deep as a whole but {} on its outer half, so something near the elbow reaches into the empty corner",
                short(whole),
                short(outer),
            ));
        }
    }
    let far = |distance: f64, free: f64| distance > PORT_NEAR * free;
    if far(shape.start_distance, reading.free[0]) || far(shape.end_distance, reading.free[1]) {
        notes.push(format!(
            "the line does not run from open end to open end: {}",
            reading.ports()
        ));
    }
    notes
}

/// A number for people: four significant digits.
fn short(value: f64) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    let places = (3.0 - value.abs().log10().floor()).clamp(0.0, 9.0) as usize;
    let text = format!("{value:.places$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}
