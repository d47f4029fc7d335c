//! The lasting names of marks.

use crate::plan::{
    AlongLine, CornerPlace, LineEndMark, Mark, MarkKind, MarkLine, MarkedPiece, Side, Solved,
};

/// How near to a whole number of repeats an end is at one of them.
const AT_REPEAT: f64 = 1e-6;

/// The lasting name of a mark, such as "seam corner bottom left" or "end of border side left,
/// repeat 4": the same in each pass and after the plan is solved anew.
#[must_use]
pub fn mark(mark: &Mark, solved: &Solved) -> String {
    match mark.kind {
        MarkKind::Corner { line, corner } => {
            format!("{} corner {}", line_name(line, solved), corner_name(corner))
        }
        MarkKind::Along { line, side, at } => {
            let line = format!("{} {}", line_name(line, solved), side.name());
            match at {
                AlongLine::Middle => format!("{line}, middle"),
                AlongLine::From(distance) => {
                    let from = CornerPlace::all(side.count()).nth(side.index());
                    let from = from.map_or_else(String::new, corner_name);
                    let distance = solved.unit.readable(distance);
                    format!("{line}, {distance} from corner {from}")
                }
            }
        }
        MarkKind::Cusp { number } => format!("cusp {} of the scallops", number + 1),
        MarkKind::LineEnd(end) => line_end(end, solved),
        MarkKind::Taped => "taped place".to_owned(),
    }
}

fn line_name(line: MarkLine, solved: &Solved) -> String {
    match line {
        MarkLine::Seam(border) => match solved.layouts.get(border) {
            Some(layout) if solved.layouts.len() > 1 => format!("{} seam", layout.name),
            _ => "seam".to_owned(),
        },
        MarkLine::RawEdge => "raw".to_owned(),
    }
}

/// The name of a corner in words: `top left`, or its number.
fn corner_name(corner: CornerPlace) -> String {
    corner.name().replace('_', " ")
}

fn line_end(end: LineEndMark, solved: &Solved) -> String {
    let border = solved.layouts.get(end.border);
    let border = border.map_or("border", |layout| layout.name.as_str());
    let side = |side: Side| side.name();
    let piece = match end.piece {
        MarkedPiece::Corner(corner) => format!("corner {}", corner_name(corner)),
        MarkedPiece::Side(of) => format!("side {}", side(of)),
        MarkedPiece::Link(of) => format!("link at side {}", side(of)),
        MarkedPiece::Ring => "ring".to_owned(),
        MarkedPiece::Field(place) => place.to_string(),
    };
    let whole = end.of as f64;
    if end.at <= AT_REPEAT {
        return format!("start of {border} {piece}");
    }
    if end.at >= whole - AT_REPEAT {
        return format!("end of {border} {piece}");
    }
    let nearest = end.at.round();
    match (end.at - nearest).abs() <= AT_REPEAT {
        true => format!("end of {border} {piece}, repeat {nearest}"),
        false if end.of > 1 => format!("stop in {border} {piece}, {:.3} repeats along", end.at),
        false => format!("stop in {border} {piece}, {:.2} % along", 100.0 * end.at),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::motif::Motif;
    use crate::plan::spec::{BorderSpec, CornerSpec, CornerStyle, QuiltSpec, SideSpec, UnitSpec};
    use crate::plan::{PlanSpec, solve};

    #[test]
    fn names_last_and_differ() {
        let border = BorderSpec::new(6.0, CornerSpec::new(CornerStyle::Open), SideSpec::new("a"));
        let plan =
            PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(40.0, 60.0)).with_borders([border]);
        let points = [(0.0, 5.0), (5.0, 0.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
        let solved = solve(&plan, |_| {
            Ok(Motif::from_points("a", points.to_vec())?.into())
        });
        let solved = solved.expect("solved");
        let corner = CornerPlace::all(4).nth(3).expect("a corner");
        let side = Side::LEFT;
        let line = MarkLine::Seam(0);
        let end = |piece, at, of| {
            let border = 0;
            MarkKind::LineEnd(LineEndMark {
                border,
                piece,
                at,
                of,
                stitched: true,
            })
        };
        for (kind, name) in [
            (MarkKind::Corner { line, corner }, "seam corner bottom left"),
            (
                MarkKind::Corner {
                    line: MarkLine::RawEdge,
                    corner,
                },
                "raw corner bottom left",
            ),
            (
                MarkKind::Along {
                    line,
                    side,
                    at: AlongLine::Middle,
                },
                "seam left, middle",
            ),
            (
                MarkKind::Along {
                    line,
                    side,
                    at: AlongLine::From(406.4),
                },
                "seam left, 16 in from corner bottom left",
            ),
            (
                end(MarkedPiece::Side(side), 4.0, 9),
                "end of border side left, repeat 4",
            ),
            (
                end(MarkedPiece::Side(side), 9.0, 9),
                "end of border side left",
            ),
            (
                end(MarkedPiece::Side(side), 0.0, 9),
                "start of border side left",
            ),
            (
                end(MarkedPiece::Side(side), 2.25, 9),
                "stop in border side left, 2.250 repeats along",
            ),
            (
                end(MarkedPiece::Corner(corner), 1.0, 1),
                "end of border corner bottom left",
            ),
            (
                end(MarkedPiece::Link(side), 0.5, 1),
                "stop in border link at side left, 50.00 % along",
            ),
        ] {
            assert_eq!(
                mark(
                    &Mark {
                        kind,
                        point: Point::origin()
                    },
                    &solved
                ),
                name
            );
        }
    }
}
