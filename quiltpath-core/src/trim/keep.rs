//! The drawn order: directions as drawn, or the best of both for each piece.
//!
//! Method: a dynamic program along the pieces. Each may be travelled in a few ways (forward,
//! back, or out and back where stitching over is allowed), and what it costs to go on depends on
//! where it leaves off alone. Between two nodes a link goes the shorter way; an end inside the
//! region can only be left by a thread cut. Thread cuts count first, length second.
//!
//! Guarantee: exact for the drawn order, checked against brute force. Failure cases: none.

use super::boundary::Boundary;
use super::walk::{Plan, Step};

/// Which directions a piece may be travelled in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Directions {
    Drawn,
    Free,
}

/// Thread cuts, then length: compared in this order.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
struct Cost {
    cuts: usize,
    length: f64,
}

impl Cost {
    const NONE: Self = Self {
        cuts: 0,
        length: 0.0,
    };

    fn plus(self, other: Self) -> Self {
        Self {
            cuts: self.cuts + other.cuts,
            length: self.length + other.length,
        }
    }
}

/// A way to travel a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Travel {
    Forward,
    Back,
    ForwardAndBack,
    BackAndForward,
}

impl Travel {
    fn all(directions: Directions, restitch: bool) -> &'static [Self] {
        use Travel::{Back, BackAndForward, Forward, ForwardAndBack};
        match (directions, restitch) {
            (Directions::Drawn, false) => &[Forward],
            (Directions::Drawn, true) => &[Forward, ForwardAndBack, BackAndForward],
            (Directions::Free, false) => &[Forward, Back],
            (Directions::Free, true) => &[Forward, Back, ForwardAndBack, BackAndForward],
        }
    }

    /// Whether each run along the piece goes back.
    fn runs(self) -> &'static [bool] {
        match self {
            Self::Forward => &[false],
            Self::Back => &[true],
            Self::ForwardAndBack => &[false, true],
            Self::BackAndForward => &[true, false],
        }
    }

    /// The vertices where the piece is entered and left.
    fn ends(self, ends: [usize; 2]) -> (usize, usize) {
        match self {
            Self::Forward => (ends[0], ends[1]),
            Self::Back => (ends[1], ends[0]),
            Self::ForwardAndBack => (ends[0], ends[0]),
            Self::BackAndForward => (ends[1], ends[1]),
        }
    }
}

/// The best route in the drawn order.
pub(super) fn in_order(ring: &Boundary, directions: Directions, restitch: bool) -> Plan {
    let travels = Travel::all(directions, restitch);
    let mut costs = vec![Cost::NONE; travels.len()];
    // For each piece and each way to travel it: the best way to travel the piece before.
    let mut best_before: Vec<Vec<usize>> = Vec::with_capacity(ring.edges.len());
    for (index, edge) in ring.edges.iter().enumerate() {
        let reach = |travel: Travel| {
            let (entry, _) = travel.ends(edge.ends);
            let (before, cost) = match index.checked_sub(1) {
                None => (
                    0,
                    ring.start
                        .map_or(Cost::NONE, |start| go(ring, start, entry)),
                ),
                Some(previous) => least(travels.iter().zip(&costs).map(|(earlier, cost)| {
                    let (_, exit) = earlier.ends(ring.edges[previous].ends);
                    cost.plus(go(ring, exit, entry))
                })),
            };
            let again = (travel.runs().len() - 1) as f64 * edge.length;
            let length = cost.length + again;
            (before, Cost { length, ..cost })
        };
        let (before, reached): (Vec<_>, Vec<_>) = travels.iter().map(|&t| reach(t)).unzip();
        best_before.push(before);
        costs = reached;
    }
    let last = ring.edges[ring.edges.len() - 1];
    let (mut chosen, total) = least(travels.iter().zip(&costs).map(|(travel, cost)| {
        let (_, exit) = travel.ends(last.ends);
        cost.plus(ring.end.map_or(Cost::NONE, |end| go(ring, exit, end)))
    }));
    let mut chain = Vec::with_capacity(best_before.len());
    for before in best_before.iter().rev() {
        chain.push(travels[chosen]);
        chosen = before[chosen];
    }
    chain.reverse();
    Plan {
        steps: steps(ring, &chain),
        lower: total.length,
    }
}

/// What it costs to go on from one vertex to another.
fn go(ring: &Boundary, from: usize, to: usize) -> Cost {
    if from == to {
        Cost::NONE
    } else if ring.is_node(from) && ring.is_node(to) {
        Cost {
            cuts: 0,
            length: ring.link_length(from, to, ring.shorter_way(from, to)),
        }
    } else {
        Cost {
            cuts: 1,
            length: 0.0,
        }
    }
}

fn least(costs: impl Iterator<Item = Cost>) -> (usize, Cost) {
    let worst = Cost {
        cuts: usize::MAX,
        length: f64::INFINITY,
    };
    costs.enumerate().fold(
        (0, worst),
        |best, (index, cost)| {
            if cost < best.1 { (index, cost) } else { best }
        },
    )
}

fn steps(ring: &Boundary, chain: &[Travel]) -> Vec<Step> {
    let mut steps = Vec::with_capacity(2 * chain.len() + 1);
    let mut at = ring.start;
    let go_to = |steps: &mut Vec<Step>, at: Option<usize>, to: usize| match at {
        Some(from) if from == to => {}
        Some(from) if ring.is_node(from) && ring.is_node(to) => {
            let way = ring.shorter_way(from, to);
            steps.push(Step::Link { from, to, way });
        }
        Some(_) => steps.push(Step::Cut),
        None => {}
    };
    for (index, travel) in chain.iter().enumerate() {
        let (entry, exit) = travel.ends(ring.edges[index].ends);
        go_to(&mut steps, at, entry);
        steps.extend(
            travel
                .runs()
                .iter()
                .map(|&reversed| Step::Piece { index, reversed }),
        );
        at = Some(exit);
    }
    if let Some(end) = ring.end {
        go_to(&mut steps, at, end);
    }
    steps
}
