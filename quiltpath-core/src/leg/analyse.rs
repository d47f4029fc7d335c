//! Reads a drawing as an L: which corner is the elbow, how deep the legs are, how sure that is.
//!
//! Method: for each corner of the box, take the empty rectangle there as the empty inner corner
//! of an L whose elbow lies diagonally across; score it by its share of the box and by how near
//! the line's ends lie to the open ends of the legs; rank. When the drawing isn't square, do the
//! same after each of the turns that its outline suggests, and keep the best turn.
//!
//! Guarantee: for a drawing that is square, the depths are those of the greatest empty rectangle,
//! up to rounding. Failure cases: no corner is empty, or the ends lie elsewhere: refused with
//! what to do. Near misses carry doubts.

use super::doubt::LegDoubt;
use super::doubts::{doubts, ports_elsewhere};
use super::given::LegGiven;
use super::reading::{MIN_SHARE, Reading, View};
use super::shape::LegShape;
use super::turns::best_turn;
use crate::error::{Error, LegFault};
use crate::geom::BoxCorner;
use crate::motif::Motif;

/// All the readings of a corner motif as an L, the most likely one first.
///
/// The likelihood is the empty corner's share of the box, times how near each end of the line
/// lies to its leg's open end. A drawing that isn't square is read after the turn that suits it
/// best; all readings returned are of the same turn.
///
/// ```
/// use quiltpath_core::{geom::{BoxCorner, Point}, leg::analyse_legs, motif::Motif};
///
/// let zigzag = [(9.0, 1.0), (7.0, 0.0), (5.0, 2.0), (3.0, 0.0), (0.0, 2.0), (2.0, 4.0), (0.0, 6.0), (1.0, 8.0)];
/// let points = zigzag.iter().map(|&(x, y)| Point::new(x, y)).collect();
/// let shapes = analyse_legs(&Motif::from_points("zigzag", points)?)?;
/// assert_eq!(shapes[0].elbow, BoxCorner::TopLeft);
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
    ranked(&best_turn(motif, None), &LegGiven::default())
}

/// The best reading of a corner motif as an L that agrees with what is known about it.
///
/// What is given wins over what is measured, and takes the doubt with it: with an elbow given,
/// rivals no longer matter, and ends that lie elsewhere are a doubt rather than an error; with a
/// depth given, its measure no longer matters. With the elbow and both depths given, any drawing
/// whose box has an area is accepted.
///
/// ```
/// use quiltpath_core::{geom::{BoxCorner, Point}, leg::{LegGiven, choose_leg}, motif::Motif};
///
/// let zigzag = [(9.0, 1.0), (7.0, 0.0), (5.0, 2.0), (3.0, 0.0), (0.0, 2.0), (2.0, 4.0), (0.0, 6.0), (1.0, 8.0)];
/// let points = zigzag.iter().map(|&(x, y)| Point::new(x, y)).collect();
/// let given = LegGiven::default().with_depth_vertical(2.5);
/// let shape = choose_leg(&Motif::from_points("zigzag", points)?, &given)?;
/// assert_eq!((shape.elbow, shape.depth_vertical), (BoxCorner::TopLeft, 2.5));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`analyse_legs`]; a leg error when a given depth is not above 0 and below the drawing's
/// extent; a geometry error when the given turn is not finite.
///
/// # Complexity
///
/// As [`analyse_legs`]; one turn alone when it is given.
pub fn choose_leg(motif: &Motif, given: &LegGiven) -> Result<LegShape, Error> {
    let view = match given.turn_degrees {
        Some(value) if !value.is_finite() => {
            return Err(Error::bad_number(
                "the turn of the drawing",
                value,
                "an angle in degrees",
            ));
        }
        Some(degrees) => View::of(motif.points(), degrees),
        None => best_turn(motif, given.elbow),
    };
    Ok(ranked(&view, given)?.swap_remove(0))
}

/// The readings of one view that agree with what is given, best first, with their doubts.
fn ranked(view: &View, given: &LegGiven) -> Result<Vec<LegShape>, Error> {
    let (width, height) = (view.bounds.width(), view.bounds.height());
    if width == 0.0 || height == 0.0 {
        return Err(LegFault::NoEmptyCorner.into());
    }
    for (depth, limit) in [
        (given.depth_horizontal, height),
        (given.depth_vertical, width),
    ] {
        if let Some(depth) = depth.filter(|depth| !(*depth > 0.0 && *depth < limit)) {
            return Err(LegFault::TooDeep { depth, limit }.into());
        }
    }
    let depths_given = given.depth_horizontal.is_some() && given.depth_vertical.is_some();
    let mut readings: Vec<Reading> = BoxCorner::ALL
        .into_iter()
        .filter(|elbow| given.elbow.is_none_or(|given| given == *elbow))
        .map(|elbow| Reading::of(view, elbow, given))
        .filter(|reading| {
            reading.shape.share >= MIN_SHARE || (given.elbow.is_some() && depths_given)
        })
        .collect();
    readings.sort_by(|a, b| {
        let by_share = b.shape.share.total_cmp(&a.shape.share);
        b.score().total_cmp(&a.score()).then(by_share)
    });
    let Some(first) = readings.first() else {
        return Err(LegFault::NoEmptyCorner.into());
    };
    if given.elbow.is_none() && first.nearness == 0.0 {
        return Err(ports_elsewhere(first).into());
    }
    readings.retain(|reading| reading.nearness > 0.0 || given.elbow.is_some());
    let doubts: Vec<Vec<LegDoubt>> = (0..readings.len())
        .map(|index| doubts(&readings, index, view, given))
        .collect();
    Ok(readings
        .into_iter()
        .zip(doubts)
        .map(|(reading, doubts)| LegShape {
            doubts,
            ..reading.shape
        })
        .collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::leg::name::LegName;
    use crate::transform::{Mirror, Transform};
    use proptest::prelude::*;

    /// A random wavy L with its elbow top left, and what is true of it.
    #[derive(Debug, Clone)]
    struct TrueL {
        points: Vec<Point>,
        width: f64,
        height: f64,
        depth_horizontal: f64,
        depth_vertical: f64,
    }

    impl TrueL {
        fn motif(&self) -> Motif {
            Motif::from_points("l", self.points.clone()).expect("a line")
        }
    }

    /// The crests of one leg from its open end inwards, as (distance along, 0 or 1 across).
    fn crests(jitter: &[f64], free: f64) -> Vec<(f64, f64)> {
        let waves = jitter.len() as f64;
        let crest = |(index, shift): (usize, &f64)| {
            let inner = free * (index as f64 + 0.4 + shift) / waves;
            let outer = free * (index as f64 + 0.9) / waves;
            [(inner, 1.0), (outer, 0.0)]
        };
        jitter.iter().enumerate().flat_map(crest).collect()
    }

    /// A smooth wave through the keys: half a cosine from each crest to the next.
    fn wave(keys: &[(f64, f64)]) -> Vec<(f64, f64)> {
        let mut line = vec![keys[0]];
        for pair in keys.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            for step in 1..8 {
                let t = f64::from(step) / 8.0;
                let rise = (1.0 - (std::f64::consts::PI * t).cos()) / 2.0;
                line.push((
                    from.0 + (to.0 - from.0) * t,
                    from.1 + (to.1 - from.1) * rise,
                ));
            }
            line.push(to);
        }
        line
    }

    fn true_l() -> impl Strategy<Value = TrueL> {
        let jitter = || prop::collection::vec(-0.25..0.25f64, 4..9);
        (
            prop::array::uniform2(5.0..20.0f64),
            prop::array::uniform2(0.1..0.35f64),
            prop::array::uniform2(0.1..0.9f64),
            jitter(),
            jitter(),
        )
            .prop_map(|([width, height], depths, ports, first, second)| {
                let (h, v) = (depths[0] * height, depths[1] * width);
                let leg = |jitter: &[f64], port: f64, free: f64| {
                    let mut keys = vec![(0.0, port)];
                    keys.extend(crests(jitter, free));
                    wave(&keys)
                };
                let along = leg(&first, ports[0], width - v);
                let down = leg(&second, ports[1], height - h);
                let mut points: Vec<Point> = along
                    .iter()
                    .map(|&(x, y)| Point::new(width - x, y * h))
                    .collect();
                points.push(Point::new(0.3 * v, 0.3 * h));
                points.extend(
                    down.iter()
                        .rev()
                        .map(|&(y, x)| Point::new(x * v, height - y)),
                );
                TrueL {
                    points,
                    width,
                    height,
                    depth_horizontal: h,
                    depth_vertical: v,
                }
            })
    }

    /// One of the eight symmetries of the square.
    fn symmetry(turns: u8, mirrored: bool) -> Transform {
        let turn = Transform::rotate_degrees(90.0 * f64::from(turns));
        if mirrored {
            Transform::mirror(Mirror::LeftRight).then(turn)
        } else {
            turn
        }
    }

    fn near(first: f64, second: f64, relative: f64) -> bool {
        (first - second).abs() <= relative * (1.0 + first.abs())
    }

    fn best(motif: &Motif) -> Result<LegShape, TestCaseError> {
        analyse_legs(motif)
            .map(|mut shapes| shapes.swap_remove(0))
            .map_err(|error| TestCaseError::fail(error.to_string()))
    }

    proptest! {
        #[test]
        fn a_square_l_is_read_as_drawn(l in true_l()) {
            let shape = best(&l.motif())?;
            prop_assert_eq!(shape.elbow, BoxCorner::TopLeft);
            prop_assert_eq!(shape.turn_degrees, 0.0);
            prop_assert!(near(shape.depth_horizontal, l.depth_horizontal, 1e-12));
            prop_assert!(near(shape.depth_vertical, l.depth_vertical, 1e-12));
            prop_assert!(near(shape.outer_depth_horizontal, l.depth_horizontal, 1e-12));
            prop_assert!(near(shape.outer_depth_vertical, l.depth_vertical, 1e-12));
            prop_assert_eq!(shape.starts_on, LegName::Horizontal);
            prop_assert_eq!((shape.start_distance, shape.end_distance), (0.0, 0.0));
            prop_assert!(!shape.runs_clockwise());
            prop_assert!(shape.is_clear(), "{:?}", shape.doubts);
        }

        #[test]
        fn the_reading_follows_symmetries_scale_and_moves(
            l in true_l(), turns in 0..4u8, mirrored: bool, scale in 0.01..100.0f64,
            x in -1e3..1e3f64, y in -1e3..1e3f64,
        ) {
            let map = symmetry(turns, mirrored)
                .then(Transform::scale(scale, scale))
                .then(Transform::translate(x, y));
            let shape = best(&l.motif())?;
            let image = best(&l.motif().transformed(&map).expect("image"))?;
            let elbow = map.apply(shape.elbow.of(shape.bounds));
            prop_assert!((image.elbow.of(image.bounds) - elbow).norm() <= 1e-9);
            prop_assert_eq!(image.turn_degrees, 0.0);
            let swaps = turns % 2 == 1;
            let depths = if swaps {
                (image.depth_vertical, image.depth_horizontal)
            } else {
                (image.depth_horizontal, image.depth_vertical)
            };
            prop_assert!(near(depths.0, scale * shape.depth_horizontal, 1e-9));
            prop_assert!(near(depths.1, scale * shape.depth_vertical, 1e-9));
            prop_assert_eq!(image.starts_on == shape.starts_on, !swaps);
            prop_assert_eq!(image.runs_clockwise() == shape.runs_clockwise(), !mirrored);
            prop_assert!(near(image.share, shape.share, 1e-9));
        }

        #[test]
        fn reversing_flips_the_start_alone(l in true_l()) {
            let shape = best(&l.motif())?;
            let back = best(&l.motif().reversed())?;
            prop_assert_eq!(back.starts_on, shape.starts_on.other());
            let expected = LegShape {
                starts_on: back.starts_on,
                start_distance: shape.end_distance,
                end_distance: shape.start_distance,
                ..shape
            };
            prop_assert_eq!(back, expected);
        }

        #[test]
        fn more_points_on_the_line_change_nothing(l in true_l(), parts in 2..5usize) {
            let mut points = vec![l.points[0]];
            for pair in l.points.windows(2) {
                for part in 1..parts {
                    points.push(pair[0] + (pair[1] - pair[0]) * (part as f64 / parts as f64));
                }
                points.push(pair[1]);
            }
            let shape = best(&l.motif())?;
            let fine = best(&Motif::from_points("fine", points).expect("a line"))?;
            prop_assert_eq!(fine.elbow, shape.elbow);
            prop_assert!(near(fine.depth_horizontal, shape.depth_horizontal, 1e-12));
            prop_assert!(near(fine.depth_vertical, shape.depth_vertical, 1e-12));
        }

        #[test]
        fn a_turned_l_is_laid_square(l in true_l(), degrees in -180.0..180.0f64, mirrored: bool) {
            let map = symmetry(0, mirrored)
                .then(Transform::rotate_degrees(degrees))
                .then(Transform::translate(3.0, -70.0));
            let motif = l.motif().transformed(&map).expect("image");
            let shape = best(&motif)?;
            let (horizontal, vertical) = shape.standard_depths();
            let expected = if mirrored {
                (l.depth_vertical, l.depth_horizontal)
            } else {
                (l.depth_horizontal, l.depth_vertical)
            };
            prop_assert!((horizontal / expected.0 - 1.0).abs() <= 1e-3, "{:?} {:?}", shape, expected);
            prop_assert!((vertical / expected.1 - 1.0).abs() <= 1e-3, "{:?} {:?}", shape, expected);
            let rigid = shape.to_standard();
            prop_assert!((rigid.determinant() - 1.0).abs() < 1e-12);
            prop_assert!(rigid.apply(map.apply(Point::origin())).coords.norm() < 1e-3 * l.width.max(l.height));
            let standard = motif.transformed(&rigid).expect("image");
            prop_assert!(standard.bounds().min.coords.norm() < 1e-9);
            prop_assert_eq!(shape.runs_clockwise(), mirrored);
            let left = standard.bounds().max - standard.start().point;
            prop_assert_eq!(left.y < left.x, mirrored);
        }

        #[test]
        fn a_leaf_in_the_empty_corner_is_noticed(l in true_l(), reach in 0.1..0.35f64) {
            // Legs of one depth, of which the leaf makes one deeper.
            let taller = l.depth_vertical / l.depth_horizontal;
            let mut l = TrueL {
                points: l.points.iter().map(|p| Point::new(p.x, p.y * taller)).collect(),
                height: l.height * taller,
                depth_horizontal: l.depth_vertical,
                ..l
            };
            let elbow = l.points.iter().position(|p| p.x < l.depth_vertical && p.y < l.depth_horizontal);
            let (w, h) = (l.width - l.depth_vertical, l.height - l.depth_horizontal);
            let tip = Point::new(l.depth_vertical + reach * w, l.depth_horizontal + reach * h);
            let base = elbow.expect("an elbow");
            l.points.splice(base + 1..base + 1, [tip, l.points[base]]);
            let shape = best(&l.motif())?;
            prop_assert!(near(shape.outer_depth_horizontal, l.depth_horizontal, 1e-12));
            prop_assert!(near(shape.outer_depth_vertical, l.depth_vertical, 1e-12));
            prop_assert!(shape.doubts.iter().any(|doubt| matches!(doubt, LegDoubt::ShallowerOutside { .. })), "{:?}", shape);
        }

        #[test]
        fn whatever_is_drawn_is_read_or_refused(points in prop::collection::vec((-4..5i32, -4..5i32), 2..30)) {
            let points = points.iter().map(|&(x, y)| Point::new(f64::from(x), f64::from(y))).collect();
            let Ok(motif) = Motif::from_points("m", points) else { return Ok(()) };
            match analyse_legs(&motif) {
                Ok(shapes) => {
                    prop_assert!(!shapes.is_empty());
                    for shape in shapes {
                        prop_assert!(shape.share >= MIN_SHARE && shape.share <= 1.0);
                        prop_assert!(shape.depth_horizontal >= 0.0 && shape.depth_vertical >= 0.0);
                    }
                }
                Err(error) => prop_assert!(error.is_leg()),
            }
        }
    }
}
