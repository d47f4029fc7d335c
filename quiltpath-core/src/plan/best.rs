//! The best way for the drawings of a border to lie.
//!
//! Problem: a repeat can lie in four ways on its band, an L in two in its corner; corners can be
//! mirrored or turned, and every second repeat mirrored. Which way joins best is seen when it is
//! tried. Method: each way that the plan leaves open is solved, one border after another from the
//! outermost, and rated in steps that can be felt: the number of links, the most that an end is
//! levelled in sixteenths of an inch, the sharpest turn where lines meet in steps of 5 degrees, the
//! worst stretch in percent. Guarantee: no way of those tried is better in that order, so the one
//! taken is never worse than as drawn; of ways that are as good the first is taken, and as drawn is
//! the first. Failure: a way that can't be solved is none; where none can, the error is that of the
//! way as drawn. Which copies are mirrored about the middle of a side isn't tried, since that takes
//! other numbers of repeats.

use super::ask::{BorderSpec, CornerLie, CornerStyle, OrientationSpec, PlanSpec, SideLie};
use super::finding::{Finding, FindingKind};
use super::piece::{CornerMade, Piece, PieceKind};
use super::solved::Solved;
use super::way::{BestWay, Way, WayCost};
use crate::chain::{Alternate, Ends};
use crate::corner::Arrangement;
use crate::error::Error;

/// What a border of a solved plan comes to.
#[must_use]
pub fn way_cost(solved: &Solved, border: usize) -> WayCost {
    let mut cost = WayCost::default();
    for piece in solved.pieces.iter().filter(|piece| piece.border == border) {
        match &piece.kind {
            PieceKind::Link(_) => cost.links += 1,
            PieceKind::Side(side) => {
                let turn = side.kink_degrees;
                cost.add((side.links, side.levelled, turn), side.fit.chosen.stretch);
            }
            PieceKind::Ring(ring) => {
                let turn = ring.kink_degrees;
                cost.add((ring.links, ring.levelled, turn), ring.fit.chosen.stretch);
            }
            PieceKind::Corner(corner) => {
                if let CornerMade::Mitred { kink_degrees, .. } = corner.made {
                    cost.kink_degrees = cost.kink_degrees.max(kink_degrees);
                }
            }
            PieceKind::Field(_) => {}
        }
    }
    let own = |piece: usize| solved.pieces[piece].border == border;
    let linked = |piece: usize| matches!(solved.pieces[piece].kind, PieceKind::Link(_));
    // Where a link begins or ends, a turn is no more than the link itself.
    let joins = solved.joins.iter().filter(|join| own(join.from));
    let joins = joins.filter(|join| !linked(join.from) && !linked(join.to));
    cost.kink_degrees = joins.fold(cost.kink_degrees, |worst, join| {
        worst.max(join.kink_degrees)
    });
    cost
}

/// A border with more points is not tried in other ways unless it is asked for.
const MOST_POINTS: usize = 20_000;

/// Has a border in this way.
pub(in crate::plan) fn apply_way(way: Way, border: &mut BorderSpec) {
    border.orientation = OrientationSpec::AsDrawn;
    border.side.lie = way.side;
    border.side.alternate = way.alternate;
    if is_drawn(border) {
        border.corner.lie = way.corner;
        border.corner.arrangement = Some(way.arrangement);
    }
}

/// Whether a border has a corner drawing that its sides join on to.
fn is_drawn(border: &BorderSpec) -> bool {
    border.corner.style == CornerStyle::Leg
}

/// The ways of a border that its plan leaves open, as the plan has it first; the mirroring of
/// single repeats and the arrangement only where `all` is wanted.
pub(in crate::plan) fn ways(border: &BorderSpec, all: bool) -> Vec<Way> {
    let own = Way::of(border);
    let drawn = is_drawn(border);
    let sides: &[SideLie] = match (own.side, border.side.motif.is_some()) {
        (SideLie::AsIs, true) => &SideLie::ALL,
        _ => &[own.side],
    };
    let corners: &[CornerLie] = match (own.corner, drawn) {
        (CornerLie::AsIs, true) => &CornerLie::ALL,
        _ => &[own.corner],
    };
    let arrangements: &[Arrangement] = match (border.corner.arrangement, drawn && all) {
        (None, true) => &[Arrangement::Mirrored, Arrangement::Turned],
        _ => &[own.arrangement],
    };
    let alternates: &[Alternate] = match (own.alternate, border.side.motif.is_some() && all) {
        (Alternate::None, true) => &[Alternate::None, Alternate::LeftRight, Alternate::TopBottom],
        _ => &[own.alternate],
    };
    let mut ways = Vec::new();
    for &alternate in alternates {
        for &arrangement in arrangements {
            for &corner in corners {
                ways.extend(sides.iter().map(|&side| Way {
                    side,
                    corner,
                    arrangement,
                    alternate,
                }));
            }
        }
    }
    ways
}

/// A plan with the best way of each border that asks for it, and what there is to note of that;
/// `solve` solves one, without its blocks.
pub(in crate::plan) fn in_best_ways(
    spec: &PlanSpec,
    mut solve: impl FnMut(&PlanSpec) -> Result<Solved, Error>,
) -> Result<(PlanSpec, Vec<Finding>), Error> {
    let mut spec = spec.clone();
    let mut findings = Vec::new();
    for at in 0..spec.borders.len() {
        if spec.borders[at].orientation != OrientationSpec::Best {
            continue;
        }
        let found = best(&spec, at, true, &mut solve)?;
        if found.way != found.drawn {
            let kind = FindingKind::BestWay {
                way: found.way,
                costs: found.costs,
            };
            findings.push(Finding::note(kind).on_border(at));
        }
        apply_way(found.way, &mut spec.borders[at]);
    }
    Ok((spec, findings))
}

/// What there is to say of borders that would have fewer links if their drawings lay another way,
/// but of those that `asked` has the best way found for: looked for where links are stitched that
/// the plan doesn't ask for, nothing is yet stitched on the cloth, and there are so few points that
/// it takes no longer than a blink.
pub(in crate::plan) fn better_ways(
    asked: &PlanSpec,
    spec: &PlanSpec,
    solved: &Solved,
    mut solve: impl FnMut(&PlanSpec) -> Result<Solved, Error>,
) -> Result<Vec<Finding>, Error> {
    let mut findings = Vec::new();
    for at in 0..spec.borders.len() {
        if asked.borders[at].orientation == OrientationSpec::Best {
            continue;
        }
        let begun = |piece: &Piece| piece.border == at && piece.has_begun();
        let own = solved.pieces.iter().filter(|piece| piece.border == at);
        let points: usize = own.map(|piece| piece.motif().points().len()).sum();
        let left = points > MOST_POINTS || spec.borders[at].side.ends == Ends::Link;
        if left || way_cost(solved, at).links == 0 || solved.pieces.iter().any(begun) {
            continue;
        }
        let found = best(spec, at, false, &mut solve)?;
        let [drawn, better] = found.costs;
        if better.links < drawn.links {
            let kind = FindingKind::BetterWay {
                way: found.way,
                costs: found.costs,
            };
            findings.push(Finding::note(kind).on_border(at));
        }
    }
    Ok(findings)
}

/// Tries the ways of one border; `all` as in [`ways`].
pub(in crate::plan) fn best(
    spec: &PlanSpec,
    at: usize,
    all: bool,
    solve: &mut impl FnMut(&PlanSpec) -> Result<Solved, Error>,
) -> Result<BestWay, Error> {
    let mut trial = spec.clone();
    trial.blocks = None;
    for border in &mut trial.borders {
        border.orientation = OrientationSpec::AsDrawn;
    }
    let mut rated = |way: Way| {
        apply_way(way, &mut trial.borders[at]);
        solve(&trial).map(|solved| way_cost(&solved, at))
    };
    let drawn = Way::of(&spec.borders[at]);
    let first = rated(drawn);
    let mut best = first.as_ref().ok().map(|cost| (*cost, drawn));
    for way in ways(&spec.borders[at], all).into_iter().skip(1) {
        let Ok(cost) = rated(way) else { continue };
        if best.is_none_or(|(least, _)| cost.steps() < least.steps()) {
            best = Some((cost, way));
        }
    }
    let (cost, way) = match best {
        Some(best) => best,
        // None can be solved, so neither can this one.
        None => (first.clone()?, drawn),
    };
    Ok(BestWay {
        drawn,
        way,
        costs: [first.unwrap_or(cost), cost],
    })
}
