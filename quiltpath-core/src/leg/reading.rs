//! One elbow's reading of a drawing after one turn: depths, ends and score.
//!
//! Method: what the empty rectangle leaves of the box are the legs; the line is taken to start on
//! the leg that lets both ends lie nearer to the open ends.

use super::empty_corner::{EmptyCorner, empty_corner};
use super::given::LegGiven;
use super::name::LegName;
use super::shape::LegShape;
use crate::geom::{Bounds, BoxCorner, Point};
use crate::transform::Transform;

/// The least share of the box that an empty corner must have: legs up to 4/5 of the box deep.
pub(super) const MIN_SHARE: f64 = 0.04;

/// Another elbow is a rival when its score reaches the best one's divided by this.
pub(super) const RIVAL_RATIO: f64 = 2.0;

/// A drawing after a turn: its box and ends, and the empty rectangle across from each elbow.
pub(super) struct View {
    pub(super) degrees: f64,
    pub(super) bounds: Bounds,
    pub(super) start: Point,
    pub(super) end: Point,
    pub(super) corners: [EmptyCorner; 4],
    /// The turn that may be the right one instead, and the depths of both legs after it.
    pub(super) other: Option<(f64, [f64; 2])>,
}

impl View {
    pub(super) fn of(points: &[Point], degrees: f64) -> Self {
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
            corners: BoxCorner::ALL
                .map(|elbow| empty_corner(&[points], elbow.opposite().of(bounds))),
            other: None,
        }
    }

    /// The readings of the elbows that are allowed, the likeliest first; at least one.
    pub(super) fn readings(&self, elbow: Option<BoxCorner>) -> Vec<Reading> {
        let mut readings: Vec<Reading> = BoxCorner::ALL
            .into_iter()
            .filter(|each| elbow.is_none_or(|elbow| elbow == *each))
            .map(|each| Reading::of(self, each, &LegGiven::default()))
            .collect();
        readings.sort_by(|a, b| b.score().total_cmp(&a.score()));
        readings
    }
}

/// One elbow's reading, with how near the ends are: 1 at the open ends, 0 beyond the legs.
pub(super) struct Reading {
    pub(super) shape: LegShape,
    pub(super) nearness: f64,
    /// The free lengths of the legs that the start and the end belong to.
    pub(super) free: [f64; 2],
}

impl Reading {
    pub(super) fn of(view: &View, elbow: BoxCorner, given: &LegGiven) -> Self {
        let bounds = view.bounds;
        let (width, height) = (bounds.width(), bounds.height());
        let corner = view.corners[elbow as usize];
        let depth_horizontal = given.depth_horizontal.unwrap_or(height - corner.height);
        let depth_vertical = given.depth_vertical.unwrap_or(width - corner.width);
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
                doubts: Vec::new(),
            },
        }
    }

    /// The likelihood of this reading: the empty corner's share of the box, times the nearness.
    pub(super) fn score(&self) -> f64 {
        self.shape.share * self.nearness
    }
}
