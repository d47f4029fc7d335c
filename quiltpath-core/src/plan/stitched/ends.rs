//! The ends of what is stitched: where the next run joins on, by names that hold.

use super::part::{PartPlace, Stitched, StitchedPart};
use crate::geom::{Point, Vector, unit_vector};
use crate::strokes::DEFAULT_JOIN_MM;

/// A place in a repeat that is nearer to its end than this share of it is at its end.
const AT_END: f64 = 1e-6;

/// Whether a stitched stretch starts or ends at a place, in the order of the piece's line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LineEnd {
    /// What is stitched starts there.
    Start,
    /// It ends there.
    End,
}

/// An end of what is stitched that nothing stitched joins on to yet.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct StitchedEnd {
    /// The name of the border.
    pub border: String,
    /// The piece.
    pub place: PartPlace,
    /// Whether what is stitched starts or ends there.
    pub end: LineEnd,
    /// Of a side, the stitched repeat whose start or end it is, counted from 1.
    pub repeat: Option<usize>,
    /// The share of that repeat, or of the line of another piece, that lies before the place, where
    /// it is inside a motif.
    pub within: Option<f64>,
    /// Where it is on the quilt, in millimetres.
    pub point: Point,
    /// The unit vector of travel along the line there.
    pub direction: Vector,
}

impl Stitched {
    /// The open ends of what is stitched, in the order of its borders and parts.
    ///
    /// Ends of two stretches that lie in one place, up to 0.1 mm, are a line that goes on, and
    /// none.
    ///
    /// # Complexity
    ///
    /// O(points), and the square of the number of ends.
    #[must_use]
    pub fn ends(&self) -> Vec<StitchedEnd> {
        let mut ends = Vec::new();
        for border in &self.borders {
            for part in &border.parts {
                let own = part
                    .stretches
                    .iter()
                    .flat_map(|&[from, to]| [(LineEnd::Start, from), (LineEnd::End, to)]);
                ends.extend(own.map(|(end, share)| stitched_end(&border.name, part, end, share)));
            }
        }
        let mut open = vec![true; ends.len()];
        for one in 0..ends.len() {
            let met = |&other: &usize| {
                open[other] && (ends[one].point - ends[other].point).norm() <= DEFAULT_JOIN_MM
            };
            if let (true, Some(other)) = (open[one], (one + 1..ends.len()).find(met)) {
                (open[one], open[other]) = (false, false);
            }
        }
        let mut open = open.into_iter();
        ends.retain(|_| open.next().unwrap_or(false));
        ends
    }
}

fn stitched_end(border: &str, part: &StitchedPart, end: LineEnd, share: f64) -> StitchedEnd {
    let points = part.line.motif.points();
    let length = part.line.motif.length();
    let at = share * length;
    let mut reached = vec![0.0];
    for pair in points.windows(2) {
        reached.push(reached[reached.len() - 1] + (pair[1] - pair[0]).norm());
    }
    let last = points.len() - 1;
    let segment = match end {
        // Of two segments that meet there, the one that is stitched.
        LineEnd::Start => reached.partition_point(|&reach| reach <= at + AT_END),
        LineEnd::End => reached.partition_point(|&reach| reach < at - AT_END),
    }
    .clamp(1, last)
        - 1;
    let step = points[segment + 1] - points[segment];
    let point = match (share == 0.0, share == 1.0) {
        (true, _) => points[0],
        (_, true) => points[last],
        _ => {
            let along = (at - reached[segment]) / step.norm();
            points[segment] + step * along.clamp(0.0, 1.0)
        }
    };
    let stops = part.line.ends.iter().map(|&stop| reached[stop.min(last)]);
    let stops: Vec<f64> = std::iter::once(0.0).chain(stops).collect();
    let repeats = stops.len() - 1;
    let close = AT_END * length / repeats as f64;
    let inside = match end {
        LineEnd::Start => stops.partition_point(|&stop| stop <= at + close),
        LineEnd::End => stops.partition_point(|&stop| stop < at - close),
    }
    .clamp(1, repeats);
    let [from, to] = [stops[inside - 1], stops[inside]];
    let here = (at - from) / (to - from);
    let whole = match end {
        LineEnd::Start => (at - from).abs() <= close,
        LineEnd::End => (to - at).abs() <= close,
    };
    StitchedEnd {
        border: border.to_owned(),
        place: part.place,
        end,
        repeat: matches!(part.place, PartPlace::Side { .. }).then_some(inside),
        within: (!whole).then_some(here),
        point,
        direction: unit_vector(step),
    }
}
