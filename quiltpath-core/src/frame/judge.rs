//! A laid pass judged: its readings, its stretch, and its lines against seam and edge as touched.
//!
//! Problem: the map of a pass smooths its readings, so a seam may lie elsewhere than the map has
//! it, by as much as it was read elsewhere. Method: by a second map, which meets every reading, the
//! place of the cloth that comes to lie under each point of a laid line is found (Newton's method
//! from the planned place, a few steps), and its distance to the seam and the edge of its border is
//! measured on the plan, where those lines are known. Guarantee: next to a mark the distance is the
//! one that was touched; away from marks it is as good as the readings. Failure: with one or two
//! readings both maps are the same, and nothing is told beyond the plan.

use super::lay::{LaidPass, planned_pass};
use crate::align::{ClothMap, ReadingDoubt, Trend};
use crate::error::Error;
use crate::geom::Point;
use crate::geom::region::Region;
use crate::plan::{BINDING_MM, Severity, Side, Solved, Stitching};

/// What nobody sees on the cloth is no finding: a line may pass an outline by up to 0.1 mm.
const LEAST_MM: f64 = 0.1;

/// Local stretch beyond this, as a share either way, is reported: 3 %, our own choice.
const STRAIN: f64 = 0.03;

/// A pass that is turned by more than this many degrees was read wrongly, or loaded another way.
const TURN_DEGREES: f64 = 5.0;

/// Something to report of a laid pass.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct LaidFinding {
    /// What it is.
    pub kind: LaidFindingKind,
    /// How much it matters.
    pub severity: Severity,
}

/// What there is to report of a laid pass; lengths in millimetres, places on the machine.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum LaidFindingKind {
    /// A reading is likely to be a mistake.
    Reading(ReadingDoubt),
    /// The readings tell no turn and no stretch.
    OneReading,
    /// The readings tell no stretch and no bow across the line that they lie on.
    OnALine,
    /// The readings are the mirror image of the marks.
    Mirrored,
    /// The pass lies turned by much.
    Turned {
        /// By so many degrees, positive clockwise.
        degrees: f64,
    },
    /// The cloth is stretched, or pressed together, by more than 3 % somewhere.
    Strained {
        /// The least and the greatest stretch.
        stretch: [f64; 2],
    },
    /// A side is stretched beyond the plan's limit as it lies, and can't have another number of
    /// repeats: it has begun, or the number was given.
    SideStretched {
        /// The number of the border.
        border: usize,
        /// The side.
        side: Side,
        /// Its stretch as it lies.
        stretch: f64,
        /// The limit, as a share either way.
        limit: f64,
    },
    /// A line crosses a seam as touched.
    OverSeam {
        /// The number of the border.
        border: usize,
        /// By how much.
        by: f64,
        /// Where.
        at: Point,
    },
    /// A line leaves the quilt as touched.
    OffQuilt {
        /// By how much.
        by: f64,
        /// Where.
        at: Point,
    },
    /// A line comes under the binding as touched.
    UnderBinding {
        /// By how much.
        by: f64,
        /// Where.
        at: Point,
    },
    /// The lines as laid are higher than the window.
    TooHigh {
        /// How high they are.
        height: f64,
        /// How high the window is.
        window: f64,
    },
}

impl LaidFindingKind {
    /// What it is, in one word that stays the same.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::Reading(_) => "reading",
            Self::OneReading => "one_reading",
            Self::OnALine => "on_a_line",
            Self::Mirrored => "mirrored",
            Self::Turned { .. } => "turned",
            Self::Strained { .. } => "strained",
            Self::SideStretched { .. } => "side_stretched",
            Self::OverSeam { .. } => "over_seam",
            Self::OffQuilt { .. } => "off_quilt",
            Self::UnderBinding { .. } => "under_binding",
            Self::TooHigh { .. } => "too_high",
        }
    }
}

/// How near the lines of a border come to its seam and its edge as touched, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Clearance {
    /// The number of the border.
    pub border: usize,
    /// The least distance to the inner seam, below 0 beyond it.
    pub seam: f64,
    /// Where that is, on the machine.
    pub seam_at: Point,
    /// The least distance to the raw edge, or to the seam to the border outside; below 0 beyond it.
    pub edge: f64,
    /// Where that is, on the machine.
    pub edge_at: Point,
}

/// What there is to report of a laid pass, the most severe first, and how near its lines come to
/// seam and edge as touched.
///
/// # Errors
///
/// A geometry error when a line of a border crosses itself, as none of a solved plan does.
///
/// # Complexity
///
/// O(points times corners of the borders' lines).
pub fn judge(
    solved: &Solved,
    stitching: &Stitching,
    laid: &LaidPass,
) -> Result<(Vec<LaidFinding>, Vec<Clearance>), Error> {
    let mut found = Vec::new();
    let mut add = |severity, kind| found.push(LaidFinding { kind, severity });
    let warning = Severity::Warning;
    if let Some(doubt) = &laid.aligned.doubt {
        add(warning, LaidFindingKind::Reading(doubt.clone()));
    }
    match laid.aligned.map.trend() {
        Trend::Shift => add(warning, LaidFindingKind::OneReading),
        Trend::Line => add(Severity::Note, LaidFindingKind::OnALine),
        _ => {}
    }
    let strain = &laid.strain;
    if strain.mirrored {
        add(warning, LaidFindingKind::Mirrored);
    } else if strain.turn_degrees.abs() > TURN_DEGREES {
        let degrees = strain.turn_degrees;
        add(warning, LaidFindingKind::Turned { degrees });
    }
    let stretch = strain.extremes;
    if stretch.iter().any(|stretch| (stretch - 1.0).abs() > STRAIN) {
        add(warning, LaidFindingKind::Strained { stretch });
    }
    if let Some(pass) = stitching.throat.and(stitching.passes.get(laid.pass)) {
        let window = pass.reach;
        let ys = laid
            .runs
            .iter()
            .flat_map(|run| run.motif.points())
            .map(|point| point.y);
        let [low, high] = ys.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], y| {
            [low.min(y), high.max(y)]
        });
        let height = high - low;
        if height > window + LEAST_MM {
            add(warning, LaidFindingKind::TooHigh { height, window });
        }
    }
    let near = clearances(solved, stitching, laid)?;
    for one in &near {
        let (border, error) = (one.border, Severity::Error);
        if one.seam < -LEAST_MM {
            let (by, at) = (-one.seam, one.seam_at);
            add(error, LaidFindingKind::OverSeam { border, by, at });
        }
        let (by, at) = (-one.edge, one.edge_at);
        match border {
            0 if by > LEAST_MM => add(error, LaidFindingKind::OffQuilt { by, at }),
            0 if by + BINDING_MM > LEAST_MM => {
                let by = by + BINDING_MM;
                add(error, LaidFindingKind::UnderBinding { by, at });
            }
            _ if border > 0 && by > LEAST_MM => {
                let border = border - 1;
                add(error, LaidFindingKind::OverSeam { border, by, at });
            }
            _ => {}
        }
    }
    found.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    Ok((found, near))
}

/// How near the runs come to the lines of their borders as touched, by border.
fn clearances(
    solved: &Solved,
    stitching: &Stitching,
    laid: &LaidPass,
) -> Result<Vec<Clearance>, Error> {
    let mut all: Vec<Clearance> = Vec::new();
    let pass = planned_pass(stitching, laid.pass)?;
    let back = pass.to_machine.inverse()?;
    for (border, layout) in solved.layouts.iter().enumerate() {
        let own = laid.runs.iter().filter(|run| {
            let parts = &run.planned.parts;
            parts
                .iter()
                .any(|part| solved.pieces[part.piece].border == border)
        });
        let mut near: Option<Clearance> = None;
        let (seam, edge) = (
            Region::new(layout.lines.seam.clone())?,
            Region::new(layout.lines.edge.clone())?,
        );
        for &at in own.flat_map(|run| run.motif.points()) {
            let Some(place) = under(&laid.touched, at, &laid.aligned.map) else {
                continue;
            };
            let place = back.apply(place);
            let signed = |region: &Region| {
                let distance = region.distance_to_boundary(place);
                if region.contains(place) {
                    distance
                } else {
                    -distance
                }
            };
            let from_edge = signed(&edge);
            // Blocks lie within their outline, with no seam on the inside.
            let from_seam = match layout.is_field() {
                true => from_edge,
                false => -signed(&seam),
            };
            let near = near.get_or_insert(Clearance {
                border,
                seam: from_seam,
                seam_at: at,
                edge: from_edge,
                edge_at: at,
            });
            if from_seam < near.seam {
                (near.seam, near.seam_at) = (from_seam, at);
            }
            if from_edge < near.edge {
                (near.edge, near.edge_at) = (from_edge, at);
            }
        }
        all.extend(near);
    }
    Ok(all)
}

/// The place of the plan that a map takes to a point of the machine; the other map is close to it
/// and gives the first guess.
fn under(map: &ClothMap, at: Point, close: &ClothMap) -> Option<Point> {
    let guess = |map: &ClothMap, from: Point| {
        let off = map.map(from) - at;
        map.change(from).try_inverse().map(|back| from - back * off)
    };
    // Both maps are nearly affine, so the first steps come from anywhere.
    let mut place = at;
    for _ in 0..4 {
        place = guess(close, place)?;
    }
    for _ in 0..4 {
        place = guess(map, place)?;
    }
    ((map.map(place) - at).norm() < 1e-3).then_some(place)
}
