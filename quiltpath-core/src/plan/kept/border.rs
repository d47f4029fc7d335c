//! A border that has begun, what of it is stitched carried to where it lies now.

use super::motion::Motion;
use super::side::{KeptSide, is_stitched_at};
use crate::error::{Error, StitchedFault};
use crate::geom::{ConvexPolygon, Point, Vector};
use crate::motif::Motif;
use crate::plan::ask::CornerStyle;
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::{CornerPlace, Side};
use crate::plan::stitched::{PartPlace, StitchedBorder, StitchedPart};

/// A line that is kept where it is, with the stretches of it that are stitched.
#[derive(Debug, Clone)]
pub(in crate::plan) struct KeptLine {
    pub(in crate::plan) motif: Motif,
    /// Shares of its length.
    pub(in crate::plan) stretches: Vec<[f64; 2]>,
}

impl KeptLine {
    /// Whether its start, or its end, is stitched.
    pub(in crate::plan) fn is_stitched_at(&self, last: bool) -> bool {
        is_stitched_at(&self.stretches, last)
    }
}

/// What is kept of a border.
#[derive(Debug, Clone)]
pub(in crate::plan) struct KeptBorder {
    /// The lines of each corner; none of one that has not begun.
    corners: Vec<Vec<KeptLine>>,
    sides: Vec<Option<KeptSide>>,
    /// The links before and after each side that are stitched.
    links: Vec<[Option<KeptLine>; 2]>,
}

impl KeptBorder {
    /// Carries what is stitched of a border to where the border lies.
    ///
    /// `style` is that of its corners.
    ///
    /// # Complexity
    ///
    /// O(points of what has begun).
    pub(super) fn new(
        border: &StitchedBorder,
        layout: &Layout,
        style: CornerStyle,
    ) -> Result<Self, Error> {
        let seam = &layout.band.seam;
        let count = seam.sides();
        let old = ConvexPolygon::new(border.seam.clone()).map_err(|e| e.in_element("seam"))?;
        let corners: Vec<Motion> = (0..count).map(|at| of_corner(&old, seam, at)).collect();
        let mut kept = Self {
            corners: vec![Vec::new(); count],
            sides: vec![None; count],
            links: vec![[None, None]; count],
        };
        for place in CornerPlace::all(count) {
            kept.corners[place.index()] = corner(border, place, style, &corners[place.index()])?;
        }
        for side in Side::all(count) {
            let at = side.index();
            let ends = [at, seam.after(at)];
            let stitched = |part: &&StitchedPart| !part.stretches.is_empty();
            let place = PartPlace::Side {
                side,
                meets: [true; 2],
            };
            if let Some(part) = border.part(&place).filter(stitched) {
                let meets = match part.place {
                    PartPlace::Side { meets, .. } => meets,
                    _ => [false; 2],
                };
                // Ends that stand by themselves go with the seam of their side.
                let own = |corner: usize| {
                    let points = [old.corner(corner), seam.corner(corner)];
                    Motion::new(points, [old.direction(at), seam.direction(at)])
                };
                let ways = [0, 1].map(|end| match style.joins() {
                    true => (corners[ends[end]], own(ends[end])),
                    false => (own(ends[end]), own(ends[end])),
                });
                let held = ends.map(|corner| !kept.corners[corner].is_empty());
                kept.sides[at] = Some(KeptSide::new(part, meets, ways, held)?);
            }
            for (end, last) in [(0, false), (1, true)] {
                let part = border.part(&PartPlace::Link { side, last });
                kept.links[at][end] = part
                    .filter(stitched)
                    .map(|part| line(part, &corners[ends[end]]))
                    .transpose()?;
            }
        }
        Ok(kept)
    }

    /// The lines of a corner that has begun; none of another.
    pub(in crate::plan) fn corner(&self, at: usize) -> &[KeptLine] {
        self.corners.get(at).map_or(&[], Vec::as_slice)
    }

    /// Whether corners are tied to what is stitched: one has begun, or a side does that meets one.
    pub(in crate::plan) fn ties_corners(&self) -> bool {
        let met = |side: &KeptSide| {
            [false, true]
                .into_iter()
                .any(|last| side.met(last) && side.kept_end(last).is_some())
        };
        self.corners.iter().any(|lines| !lines.is_empty()) || self.sides.iter().flatten().any(met)
    }

    /// What is kept of a side that has begun.
    pub(in crate::plan) fn side(&self, at: usize) -> Option<&KeptSide> {
        self.sides.get(at)?.as_ref()
    }

    /// The link at the start or at the end of a side, where it is stitched.
    pub(in crate::plan) fn link(&self, at: usize, last: bool) -> Option<&KeptLine> {
        self.links.get(at)?[usize::from(last)].as_ref()
    }
}

/// The motion of a corner of the seam with its bisector.
fn of_corner(old: &ConvexPolygon, new: &ConvexPolygon, corner: usize) -> Motion {
    let bisector = |seam: &ConvexPolygon| -> Vector {
        let sides = [seam.before(corner), corner].map(|side| seam.direction(side));
        (sides[1] - sides[0]).normalize()
    };
    let point = |seam: &ConvexPolygon| -> Point { seam.corner(corner) };
    Motion::new([point(old), point(new)], [bisector(old), bisector(new)])
}

fn line(part: &StitchedPart, motion: &Motion) -> Result<KeptLine, Error> {
    Ok(KeptLine {
        motif: motion.motif(&part.line.motif)?,
        stretches: part.stretches.clone(),
    })
}

/// The lines of a corner that has begun.
fn corner(
    border: &StitchedBorder,
    place: CornerPlace,
    asked: CornerStyle,
    motion: &Motion,
) -> Result<Vec<KeptLine>, Error> {
    let mut lines = Vec::new();
    for number in 0.. {
        let wanted = PartPlace::Corner {
            place,
            style: asked,
            line: number,
        };
        let Some(part) = border.part(&wanted) else {
            break;
        };
        match part.place {
            PartPlace::Corner { style, .. } if style != asked => {
                return Err(StitchedFault::OtherCorner {
                    border: border.name.clone(),
                    stitched: style.name(),
                    asked: asked.name(),
                }
                .into());
            }
            _ => lines.push(line(part, motion)?),
        }
    }
    let begun = lines.iter().any(|line| !line.stretches.is_empty());
    Ok(if begun { lines } else { Vec::new() })
}
