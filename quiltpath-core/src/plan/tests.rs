//! Plans solved on simple motifs of our own, held against hand arithmetic and properties.

mod anew;
mod around;
mod best;
mod choice;
mod line_ends;
mod marks;
mod middle;
mod names;
mod part;
mod planted;
mod refused;
mod round;
mod scallops;
mod short;
mod styles;
mod work;

use super::spec::*;
use super::*;
use crate::chain::Ends;
use crate::corner::Arrangement;
use crate::error::Error;
use crate::fit::Parity;
use crate::geom::{Point, Vector};
use crate::motif::Motif;
use crate::units::Unit;

const INCH: f64 = 25.4;
const SIDES: [Side; 4] = [Side::TOP, Side::RIGHT, Side::BOTTOM, Side::LEFT];

fn inches(value: f64) -> LengthSpec {
    LengthSpec::with(value, Unit::In)
}

fn motif(points: &[(f64, f64)]) -> Motif {
    let points = points
        .iter()
        .map(|&(x, y)| Point::new(x, y) * INCH)
        .collect();
    Motif::from_points("m", points).expect("a motif")
}

/// A repeat 4 in long and 2 in high that starts and ends at this share of its height.
pub(crate) fn wave(across: f64) -> Motif {
    let level = 2.0 * (1.0 - across);
    motif(&[
        (0.0, level),
        (1.0, 0.0),
        (2.0, 1.0),
        (3.0, 2.0),
        (4.0, level),
    ])
}

/// An L with legs 2 in deep and 5 in long whose ends lie at these shares of the depth.
pub(crate) fn corner(start: f64, end: f64) -> Motif {
    motif(&[
        (2.0 * (1.0 - start), 5.0),
        (2.0, 4.6),
        (0.0, 4.0),
        (2.0, 3.0),
        (0.0, 1.0),
        (1.0, 0.0),
        (3.0, 2.0),
        (4.0, 0.0),
        (4.6, 2.0),
        (5.0, 2.0 * (1.0 - end)),
    ])
}

fn spec(style: CornerStyle) -> PlanSpec {
    let leg = style == CornerStyle::Leg;
    let quilt = QuiltSpec::rectangle(inches(60.0), inches(80.0));
    PlanSpec::new(UnitSpec::In, quilt).with_borders([border(style, leg)])
}

fn border(style: CornerStyle, leg: bool) -> BorderSpec {
    let mut corner = CornerSpec::new(style);
    corner.motif = leg.then(|| "corner".to_owned());
    BorderSpec::new(6.0, corner, SideSpec::new("side"))
}

fn solve_with(spec: &PlanSpec, corner: &Motif, side: &Motif) -> Result<Solved, Error> {
    solve(spec, |request| {
        let motif = if request.name == "corner" {
            corner
        } else {
            side
        };
        Ok(motif.clone().into())
    })
}

fn refused(spec: &PlanSpec) -> String {
    solve_with(spec, &corner(0.5, 0.5), &wave(0.5))
        .expect_err("refused")
        .to_string()
}

fn codes(solved: &Solved) -> Vec<&str> {
    solved
        .findings
        .iter()
        .map(|finding| finding.code())
        .collect()
}

fn side_of(solved: &Solved, side: Side) -> (&Piece, &SideDetail) {
    solved
        .pieces
        .iter()
        .find_map(|piece| match &piece.kind {
            PieceKind::Side(detail) if detail.side == side => Some((piece, detail)),
            _ => None,
        })
        .expect("the side")
}
