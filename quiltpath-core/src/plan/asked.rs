//! What a plan asks for, in numbers: its keys read and checked before anything is solved.
//!
//! Lengths in millimetres. Where the borders lie is read beside it, in `lay`.

mod side;

use super::ask::{
    BorderSpec, CornerLie, CornerSpec, CornerStyle, LengthSpec, PlanSpec, ThroughSpec, TrimSpec,
    check_keys, check_texts, corners_at, given_ends,
};
use super::lay::place::{CornerPlace, Side};
use super::tolerances::Tolerances;
use crate::corner::{Arrangement, BendRadius, ExtraLoops};
use crate::error::{Error, PlanFault};
use crate::geom::BoxCorner;
use crate::leg::LegGiven;
use crate::strokes::EndPlace;
use crate::trim::JoinOrder;
use crate::units::Unit;

pub(in crate::plan) use side::{SideAsked, side_asked};

/// The stretch, in percent either way, beyond which a side is reported: our own default.
const MAX_STRETCH_PERCENT: f64 = 10.0;

/// How much line a thread cut counts for within a block: 4 in, our own choice.
pub(in crate::plan) const THREAD_CUT_MM: f64 = 101.6;

/// The numbers of a plan.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Asked {
    pub(in crate::plan) tolerances: Tolerances,
    /// How far from 1 a stretch may be before it is reported.
    pub(in crate::plan) max_stretch: f64,
    /// Whether all bands are made equally deep.
    pub(in crate::plan) shared_depth: bool,
    pub(in crate::plan) borders: Vec<BorderAsked>,
}

/// The numbers of one border.
#[derive(Debug, Clone)]
pub(in crate::plan) struct BorderAsked {
    /// From the outermost, from 0.
    pub(in crate::plan) index: usize,
    pub(in crate::plan) corner: CornerAsked,
    /// Kept free between a side's end and the corner square; the seam gap where it is `None`.
    pub(in crate::plan) corner_gap: Option<f64>,
    /// By how much the band may be shallower.
    pub(in crate::plan) slack: f64,
    pub(in crate::plan) side: SideAsked,
    /// Which sides are stitched.
    pub(in crate::plan) sides: Vec<bool>,
    /// Whether the drawing of the corners is mirrored in all of them.
    pub(in crate::plan) mirrored: bool,
    /// Which corners have a design of their own.
    pub(in crate::plan) corners: Vec<bool>,
    /// Where the lines of the drawings start and end, where that is given: of the corners, of the
    /// sides.
    pub(in crate::plan) line_ends: [[Option<EndPlace>; 2]; 2],
}

/// What happens at the corners of a border.
#[derive(Debug, Clone)]
pub(in crate::plan) enum CornerAsked {
    Leg {
        arrangement: Arrangement,
        given: LegGiven,
    },
    Trimmed {
        arrangement: Arrangement,
        cut: CutAsked,
    },
    Block {
        arrangement: Arrangement,
        on_point: bool,
        /// How much line a thread cut counts for.
        cut: f64,
    },
    Mitred {
        legs: usize,
        smooth: f64,
        extra: ExtraLoops,
    },
    Bent {
        legs: usize,
        radius: BendRadius,
    },
    /// Two sides run through: the first and the third, or else the others.
    Butted {
        first_runs: bool,
    },
    Open,
}

/// The L that a drawing is cut to; sizes that are `None` are the drawing's.
#[derive(Debug, Clone)]
pub(in crate::plan) struct CutAsked {
    pub(in crate::plan) leg_depth: f64,
    pub(in crate::plan) width: Option<f64>,
    pub(in crate::plan) height: Option<f64>,
    pub(in crate::plan) inset: f64,
    pub(in crate::plan) elbow: BoxCorner,
    pub(in crate::plan) order: JoinOrder,
}

impl BorderAsked {
    /// Whether a corner has a design of its own.
    pub(in crate::plan) fn has_corner(&self, place: CornerPlace) -> bool {
        self.corners.get(place.index()).copied().unwrap_or(false)
    }

    /// Whether a side is stitched.
    pub(in crate::plan) fn has_side(&self, side: usize) -> bool {
        self.sides.get(side).copied().unwrap_or(false)
    }
}

impl CornerAsked {
    /// Whether the sides join on to the corners.
    pub(in crate::plan) fn joins(&self) -> bool {
        !matches!(self, Self::Block { .. } | Self::Butted { .. } | Self::Open)
    }

    /// Whether there is something to stitch in a corner.
    pub(in crate::plan) fn is_stitched(&self) -> bool {
        !matches!(self, Self::Butted { .. } | Self::Open)
    }

    /// Whether the corners come out differently for another repeat.
    pub(in crate::plan) fn depend_on_repeat(&self) -> bool {
        matches!(
            self,
            Self::Mitred { .. } | Self::Bent { .. } | Self::Trimmed { .. }
        )
    }
}

/// Reads the numbers of a plan for a quilt of so many sides.
///
/// # Errors
///
/// A plan error with the key at fault.
pub(in crate::plan) fn asked(spec: &PlanSpec, sides: usize) -> Result<Asked, Error> {
    check_texts(spec)?;
    let percent = spec.max_stretch_percent.unwrap_or(MAX_STRETCH_PERCENT);
    if !(percent > 0.0 && percent.is_finite()) {
        return Err(Error::bad_number(
            "the greatest stretch",
            percent,
            "a percentage above 0, for example 10",
        )
        .in_element("max_stretch_percent"));
    }
    let unit = Unit::from(spec.unit);
    let borders = spec.borders.iter().enumerate().map(|(index, border)| {
        border_asked(index, border, unit, sides, percent / 100.0)
            .map_err(|e| e.in_element(format!("borders[{index}]")))
    });
    let borders: Vec<BorderAsked> = borders.collect::<Result<_, Error>>()?;
    let stitched =
        |border: &BorderAsked| border.sides.contains(&true) || border.corner.is_stitched();
    if !borders.is_empty() && spec.blocks.is_none() && !borders.iter().any(stitched) {
        return Err(Error::from(PlanFault::NothingToStitch).in_element("borders"));
    }
    Ok(Asked {
        tolerances: spec.tolerances()?,
        max_stretch: percent / 100.0,
        shared_depth: spec.shared_depth,
        borders,
    })
}

fn border_asked(
    index: usize,
    border: &BorderSpec,
    unit: Unit,
    sides: usize,
    max_stretch: f64,
) -> Result<BorderAsked, Error> {
    let in_corner = |e: Error| e.in_element("corner");
    let gap = |given: &Option<LengthSpec>, key: &str, what: &str| match given {
        Some(length) => Some(length.gap_mm(unit, what).map_err(|e| e.in_element(key))).transpose(),
        None => Ok(None),
    };
    let mitred = border.corner.style == CornerStyle::Mitred;
    let side = side_asked(&border.side, mitred, (sides, unit), max_stretch)?;
    let stitched: Vec<bool> = Side::all(sides)
        .map(|side| border.side.motif(side).is_some())
        .collect();
    let plain = !stitched.contains(&true);
    let before = |at: usize| (at + sides - 1) % sides;
    let room = (0..sides).map(|at| plain || (stitched[at] && stitched[before(at)]));
    let room: Vec<bool> = room.collect();
    let corner = corner_asked(&border.corner, unit, sides).map_err(in_corner)?;
    let named = corners_at(&border.corner.at, sides).map_err(in_corner)?;
    let corners: Vec<bool> = named
        .iter()
        .zip(&room)
        .map(|(named, room)| *named && *room)
        .collect();
    let without = CornerPlace::all(sides).zip(&named).zip(&room);
    let without = without.filter(|((_, named), room)| **named && !**room);
    if let (Some(((corner, _), _)), false) = (without.clone().next(), border.corner.at.is_empty()) {
        let corner = corner.to_string();
        let fault = Error::from(PlanFault::CornerBesidePlain { corner });
        return Err(in_corner(fault.in_element("at")));
    }
    if corner.is_stitched() && !corners.contains(&true) {
        let style = border.corner.style.name();
        return Err(in_corner(PlanFault::CornerNowhere { style }.into()));
    }
    let (of_corner, of_side) = (&border.corner, &border.side);
    let in_side = |e: Error| e.in_element("side");
    Ok(BorderAsked {
        index,
        side,
        mirrored: border.corner.lie == CornerLie::Mirrored,
        corners,
        sides: stitched,
        corner,
        corner_gap: gap(&border.corner.gap, "gap", "the corner's gap").map_err(in_corner)?,
        slack: gap(&border.slack, "slack", "the slack")?.unwrap_or(0.0),
        line_ends: [
            given_ends(of_corner.start.as_ref(), of_corner.end.as_ref(), unit)
                .map_err(in_corner)?,
            given_ends(of_side.start.as_ref(), of_side.end.as_ref(), unit).map_err(in_side)?,
        ],
    })
}

fn corner_asked(spec: &CornerSpec, unit: Unit, sides: usize) -> Result<CornerAsked, Error> {
    check_keys(spec)?;
    let arrangement = spec.arrangement.unwrap_or_default();
    let legs = spec.legs.unwrap_or(0);
    Ok(match (spec.style, &spec.trim) {
        (CornerStyle::Leg, Some(trim)) => CornerAsked::Trimmed {
            arrangement,
            cut: cut_asked(trim, unit)?,
        },
        (CornerStyle::Leg, None) => CornerAsked::Leg {
            arrangement,
            given: leg_given(spec, unit)?,
        },
        (CornerStyle::Block, _) => CornerAsked::Block {
            arrangement,
            on_point: spec.on_point,
            cut: positive(&spec.cut, unit, "cut", "the price of a thread cut")?
                .unwrap_or(THREAD_CUT_MM),
        },
        (CornerStyle::Mitred, _) => CornerAsked::Mitred {
            legs,
            smooth: match &spec.smooth {
                Some(length) => length
                    .gap_mm(unit, "the length to smooth over")
                    .map_err(|e| e.in_element("smooth"))?,
                None => 0.0,
            },
            extra: spec.extra.unwrap_or(ExtraLoops::Link),
        },
        (CornerStyle::Bent, _) => {
            let percent = spec.length_change_percent;
            let by_change = percent.map_or(BendRadius::default(), |percent| {
                BendRadius::LengthChange(percent / 100.0)
            });
            let radius = positive(&spec.radius, unit, "radius", "the radius of the bend")?;
            CornerAsked::Bent {
                legs,
                radius: radius.map_or(by_change, BendRadius::Given),
            }
        }
        (CornerStyle::Butted, _) if sides % 2 == 1 => {
            let (what, count) = ("the corner style butted", sides);
            return Err(PlanFault::OddSides { what, count }.into());
        }
        (CornerStyle::Butted, _) => CornerAsked::Butted {
            first_runs: spec.through.unwrap_or_default() == ThroughSpec::TopBottom,
        },
        (CornerStyle::Open, _) => CornerAsked::Open,
    })
}

fn leg_given(spec: &CornerSpec, unit: Unit) -> Result<LegGiven, Error> {
    let Some(leg) = &spec.leg else {
        return Ok(LegGiven::default());
    };
    let depth = |length, key, what| positive(length, unit, key, what);
    Ok(LegGiven {
        elbow: leg.elbow,
        depth_horizontal: depth(
            &leg.horizontal_depth,
            "leg.horizontal_depth",
            "the horizontal leg's depth",
        )?,
        depth_vertical: depth(
            &leg.vertical_depth,
            "leg.vertical_depth",
            "the vertical leg's depth",
        )?,
        turn_degrees: leg.turn_degrees,
    })
}

fn cut_asked(trim: &TrimSpec, unit: Unit) -> Result<CutAsked, Error> {
    let given = |length, key, what| positive(length, unit, key, what);
    Ok(CutAsked {
        leg_depth: trim
            .leg_depth
            .positive_mm(unit, "the legs' depth")
            .map_err(|e| e.in_element("trim.leg_depth"))?,
        width: given(&trim.width, "trim.width", "the L's width")?,
        height: given(&trim.height, "trim.height", "the L's height")?,
        inset: given(&trim.inset, "trim.inset", "the links' inset")?.unwrap_or(0.0),
        elbow: trim.elbow.unwrap_or(BoxCorner::TopLeft),
        order: trim.order.unwrap_or_default(),
    })
}

/// The length of a key, in millimetres, when it is given.
fn positive(
    length: &Option<LengthSpec>,
    unit: Unit,
    key: &str,
    what: &str,
) -> Result<Option<f64>, Error> {
    let length = length.as_ref().map(|length| {
        length
            .positive_mm(unit, what)
            .map_err(|e| e.in_element(key))
    });
    length.transpose()
}
