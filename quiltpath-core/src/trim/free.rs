//! Any order: what ends the path, which ends inside take part in a thread cut, and the result.
//!
//! Method: an end inside the region is reached by its own piece alone. It ends the path, is
//! stitched back over, or takes part in a thread cut: two share one, a single one is joined to the
//! node where that is best. Each way to do that is a case with up to two places left to search for
//! (`search`); what a case adds is the postman's (`postman`); where stitching over is allowed,
//! pieces are stitched over one by one as long as that helps (`restitch`), and what is then not
//! known to be the least is left to the engine that makes one line of strokes (`engine`), up to 150
//! pieces.
//!
//! Guarantee: no more thread cuts than needed; exact as far as the search is, else with a lower
//! bound. Failure cases: none. More than two ends inside without stitching over, which no drawing
//! of one line has, are paired as they come, without a bound.

use super::boundary::Boundary;
use super::engine;
use super::restitch;
use super::search::{Best, Case, End, Search};
use super::walk::{Multigraph, Plan, Step, reversed};

/// The best route in any order.
pub(super) fn any_order(ring: &Boundary, restitch: bool) -> Plan {
    let isolated: Vec<usize> = (0..ring.edges.len())
        .filter(|&edge| ring.is_isolated(edge))
        .collect();
    let mut plan = if isolated.len() == ring.edges.len() {
        // Nothing ends on the boundary, so prescribed ends can't be reached.
        let ends = ring.start.into_iter().chain(ring.end);
        Plan {
            steps: ends.map(|_| Step::Cut).collect(),
            lower: 0.0,
        }
    } else {
        reachable(ring, restitch)
    };
    for index in isolated {
        if plan.steps.last().is_some_and(|&step| step != Step::Cut) {
            plan.steps.push(Step::Cut);
        }
        let reversed = false;
        plan.steps.push(Step::Piece { index, reversed });
    }
    plan
}

/// The best route over the pieces that end on the boundary.
fn reachable(ring: &Boundary, restitch: bool) -> Plan {
    let dead_ends = dead_ends(ring);
    let stitched_back: &[(usize, usize)] = if restitch { &dead_ends } else { &[] };
    let cut_off: Vec<usize> = match restitch {
        true => Vec::new(),
        false => dead_ends.iter().map(|&(end, _)| end).collect(),
    };
    let mut search = Search::new(ring, cases(ring, &cut_off), stitched_back);
    let mut doubled = vec![false; ring.edges.len()];
    for &(_, piece) in stitched_back {
        doubled[piece] = true;
    }
    search.search(&doubled);
    let lower = if restitch {
        restitch::improve(&mut search)
    } else if cut_off.len() > 2 {
        0.0
    } else {
        search.untried()
    };
    let best = search.into_best();
    let plan = Plan {
        lower: lower.min(best.length),
        steps: steps(ring, &best),
    };
    // What the ring leaves open the engine decides, where it can.
    let is_open = restitch && plan.lower < best.length;
    match is_open.then(|| engine::any_order(ring)).flatten() {
        Some((other, length)) if length < best.length => Plan {
            lower: other.lower.max(plan.lower),
            ..other
        },
        Some((other, _)) => Plan {
            lower: other.lower.max(plan.lower).min(best.length),
            ..plan
        },
        None => plan,
    }
}

/// Ends inside the region that are odd, each with the shortest piece that ends there.
fn dead_ends(ring: &Boundary) -> Vec<(usize, usize)> {
    let mut found: Vec<(usize, Option<usize>)> = vec![(0, None); ring.vertices];
    for (index, edge) in ring.edges.iter().enumerate() {
        if ring.is_isolated(index) {
            continue;
        }
        for &end in edge.ends.iter().filter(|&&end| !ring.is_node(end)) {
            let (degree, shortest) = &mut found[end];
            *degree += 1;
            if shortest.is_none_or(|other| edge.length < ring.edges[other].length) {
                *shortest = Some(index);
            }
        }
    }
    let odd = |(vertex, &(degree, piece)): (usize, &(usize, Option<usize>))| {
        piece
            .filter(|_| degree % 2 == 1)
            .map(|piece| (vertex, piece))
    };
    found.iter().enumerate().filter_map(odd).collect()
}

/// The ways to end the path when these ends inside have to end it or take part in a cut.
fn cases(ring: &Boundary, cut_off: &[usize]) -> Vec<Case> {
    use End::{At, Searched};
    let mut ends: Vec<End> = [ring.start, ring.end]
        .into_iter()
        .flatten()
        .map(At)
        .collect();
    if let (&[start], &[one, two]) = (ends.as_slice(), cut_off) {
        let (one, two) = (At(one), At(two));
        let case = |end, cut| Case {
            searched: 1,
            ends: [start, end],
            cuts: vec![cut],
        };
        return vec![
            case(one, [two, Searched(0)]),
            case(two, [one, Searched(0)]),
            case(Searched(0), [one, two]),
        ];
    }
    let mut inside = cut_off.iter().map(|&end| At(end));
    ends.extend(inside.by_ref().take(2 - ends.len()));
    let mut searched = 0;
    while ends.len() < 2 {
        ends.push(Searched(searched));
        searched += 1;
    }
    let mut cuts = Vec::new();
    while let Some(one) = inside.next() {
        let two = inside.next().unwrap_or_else(|| {
            searched += 1;
            Searched(0)
        });
        cuts.push([one, two]);
    }
    vec![Case {
        searched,
        ends: [ends[0], ends[1]],
        cuts,
    }]
}

fn steps(ring: &Boundary, best: &Best) -> Vec<Step> {
    let mut graph = Multigraph::new(ring);
    for &arc in &best.tree {
        graph.arc(arc);
        graph.arc(arc);
    }
    (0..ring.arcs.len())
        .filter(|&arc| best.chosen[arc])
        .for_each(|arc| graph.arc(arc));
    best.joins.iter().for_each(|&join| graph.jump(join));
    for piece in (0..ring.edges.len()).filter(|&piece| !ring.is_isolated(piece)) {
        graph.piece(piece);
        if best.doubled[piece] {
            graph.piece(piece);
        }
    }
    let steps = graph.walk(best.start);
    // The only prescribed end comes first in a case, whichever it is.
    if ring.start.is_none() && ring.end.is_some() {
        reversed(steps)
    } else {
        steps
    }
}
