//! A pass solved: the ways that it may end, and how each comes about.

use crate::geom::Point;

/// What came before a place in a table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Before {
    /// One of the ways that the pass before ended; meaningless for the first pass.
    Finish(usize),
    /// Another place in the table.
    Place(usize),
}

/// One way that a pass may end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Finish {
    pub(super) at: Point,
    /// The travel up to here from the start of the loading.
    pub(super) travel: f64,
    pub(super) place: usize,
}

/// A pass solved: the ways that it may end and how each comes about.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Solved {
    pub(super) finishes: Vec<Finish>,
    /// The opening stitched at each place of the table, and what came before.
    pub(super) table: Vec<(usize, Before)>,
    pub(super) exact: bool,
}

impl Solved {
    /// The openings in order up to a place, and the finish of the pass before that they start from.
    pub(super) fn trace(&self, mut place: usize) -> (Vec<usize>, usize) {
        let mut order = Vec::new();
        loop {
            let (opening, before) = self.table[place];
            order.push(opening);
            match before {
                Before::Place(earlier) => place = earlier,
                Before::Finish(finish) => {
                    order.reverse();
                    return (order, finish);
                }
            }
        }
    }
}

/// The travel from the ways that the pass before ended, the least of all, and which one that is.
pub(super) fn from_before(before: &[Finish], entry: Point) -> (f64, Before) {
    let reach = |finish: &Finish| finish.travel + (entry - finish.at).norm();
    let ways = before.iter().map(reach).enumerate();
    let (finish, travel) = ways.min_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or((0, 0.0));
    (travel, Before::Finish(finish))
}
