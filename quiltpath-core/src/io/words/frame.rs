//! What is said of needle-up checks and of bobbins.

use crate::frame::{BobbinChange, BobbinChanges, ChangeAt, LimitKind, Reach, There};
use crate::plan::{Side, Solved, Stitching};

/// What lies at a stop of a needle-up check, such as "nearest to the seam of the top side, 1/4 in".
#[must_use]
pub fn check_stop(there: &There, solved: &Solved) -> String {
    match there {
        There::Start => "start of the line".to_owned(),
        There::End => "end of the line".to_owned(),
        There::Near {
            kind,
            border,
            side,
            distance,
        } => format!(
            "nearest to the {} of the {}: {}",
            line_name(*kind, *border),
            of_border(*border, *side, solved),
            solved.unit.readable(*distance)
        ),
        There::Reach(reach) => {
            let way = match reach {
                Reach::Left => "to the left",
                Reach::Right => "to the right",
                Reach::Top => "up",
                Reach::Bottom => "down",
            };
            format!("as far {way} as the line reaches")
        }
        There::Limit { kind, border, side } => format!(
            "on the {} of the {}",
            line_name(*kind, *border),
            of_border(*border, *side, solved)
        ),
    }
}

fn line_name(kind: LimitKind, border: usize) -> &'static str {
    match kind {
        LimitKind::Seam => "seam",
        LimitKind::Edge if border == 0 => "raw edge",
        LimitKind::Edge => "outer seam",
        LimitKind::Inner => "inner limit",
        LimitKind::Outer => "outer limit",
    }
}

/// A side, with its border where there are several.
fn of_border(border: usize, side: Side, solved: &Solved) -> String {
    match solved.layouts.get(border) {
        Some(layout) if solved.layouts.len() > 1 => format!("{side} of {}", layout.name),
        _ => side.to_string(),
    }
}

/// Why a bobbin is changed where it is.
#[must_use]
pub fn change_at(why: ChangeAt) -> &'static str {
    match why {
        ChangeAt::RunStart => "before the run",
        ChangeAt::Join => "where two pieces join",
        ChangeAt::Cusp => "at a sharp turn",
        ChangeAt::Crossing => "where the line crosses itself",
        ChangeAt::Line => "in the open line, at the last stitch before the reserve",
    }
}

/// Where a bobbin is changed, such as "pass 2, before run 4" or "pass 1, run 1 after 61 yd of line,
/// at a sharp turn".
#[must_use]
pub fn bobbin_change(change: &BobbinChange, solved: &Solved, stitching: &Stitching) -> String {
    let run = change.place.run;
    let pass = stitching.runs.get(run).map_or(0, |run| run.pass) + 1;
    match change.why {
        ChangeAt::RunStart => format!("pass {pass}, before run {}", run + 1),
        why => format!(
            "pass {pass}, run {} after {} of line, {}",
            run + 1,
            solved.unit.readable_line(change.place.length),
            change_at(why)
        ),
    }
}

/// How often bobbins are changed, and where first, in one line; none where they never are.
#[must_use]
pub fn bobbins(changes: &BobbinChanges, solved: &Solved, stitching: &Stitching) -> Option<String> {
    let first = changes.changes.first()?;
    let first = bobbin_change(first, solved, stitching);
    Some(match changes.count() {
        1 => format!("change the bobbin once: in {first}"),
        count => format!("change the bobbin {count} times, first in {first}"),
    })
}

/// Where the bobbin is changed next, of the changes that are still to come, in one line; none where
/// there are none.
#[must_use]
pub fn next_bobbin(
    to_come: &BobbinChanges,
    solved: &Solved,
    stitching: &Stitching,
) -> Option<String> {
    let next = bobbin_change(to_come.changes.first()?, solved, stitching);
    Some(match to_come.count() - 1 {
        0 => next,
        more => format!("{next}; {more} more after that"),
    })
}

#[cfg(all(test, feature = "json"))]
mod tests {
    use super::*;
    use crate::frame::{MOST_STOPS, bobbin_changes, check_pass};
    use crate::geom::Point;
    use crate::io::json::read_plan;
    use crate::motif::Motif;
    use crate::plan::{solve, stitch_plan};

    #[test]
    fn stops_and_changes_are_told_in_plain_words() {
        let plan = br#"{"unit": "in", "quilt": {"width": 40, "height": 60},
            "borders": [{"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}],
            "thread": {"bobbin": "3 m"}}"#;
        let plan = read_plan(plan).expect("a plan");
        let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];
        let wave = wave.map(|(x, y)| Point::new(x, y)).to_vec();
        let motif = |_: &_| Ok(Motif::from_points("wave", wave.clone())?.into());
        let solved = solve(&plan, motif).expect("solved");
        let stitching = stitch_plan(&plan, &solved).expect("stitched");
        let check = check_pass(&solved, &stitching, 0).expect("a check");
        let words: Vec<String> = check
            .stops
            .iter()
            .flat_map(|stop| stop.there.iter().map(|there| check_stop(there, &solved)))
            .collect();
        assert!(check.stops.len() <= MOST_STOPS);
        for wanted in [
            "start of the line",
            "end of the line",
            "as far to the left as the line reaches",
        ] {
            assert!(words.iter().any(|words| words == wanted), "{words:?}");
        }
        let near = words
            .iter()
            .find(|words| words.starts_with("nearest to the seam of the "));
        assert!(near.expect("a seam").ends_with("side: 1/4 in"), "{words:?}");
        let edge = words
            .iter()
            .find(|words| words.starts_with("nearest to the raw edge of the "));
        assert!(
            edge.expect("an edge").ends_with("side: 1/2 in"),
            "{words:?}"
        );
        let changes = bobbin_changes(&solved, &stitching).expect("changes");
        let next = next_bobbin(&changes, &solved, &stitching).expect("some");
        let more = changes.count() - 1;
        assert_eq!(
            next,
            format!(
                "{}; {more} more after that",
                bobbin_change(&changes.changes[0], &solved, &stitching)
            )
        );
        let none = BobbinChanges::default();
        assert_eq!(next_bobbin(&none, &solved, &stitching), None);
        let said = bobbins(&changes, &solved, &stitching).expect("some");
        assert!(
            said.starts_with("change the bobbin ") && said.contains("first in pass 1, "),
            "{said}"
        );
        assert_eq!(
            bobbins(&BobbinChanges::default(), &solved, &stitching),
            None
        );
    }
}
