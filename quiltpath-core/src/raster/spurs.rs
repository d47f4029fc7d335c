//! Short side lines that thinning leaves at bumps of the ink.
//!
//! Problem: a bump at the edge of a line makes a short line from its middle; a real one is longer.
//! Method: lines with a free end and shorter than the limit go, the shortest first, as long as two
//! others meet where they start; what then passes through is one line, and it is looked at again.
//! Guarantee: no line vanishes whole, and nothing longer than the limit goes.
//! Failure: real twigs shorter than the limit, which is 1.5 pens, go as well; they are counted.

use super::net::Net;

/// The net without spurs of up to this length, and how many there were.
pub(super) fn without_spurs(net: Net, limit: f64) -> (Net, usize) {
    let mut net = net;
    let mut all = 0;
    loop {
        let around = net.around();
        let mut degree: Vec<usize> = around.iter().map(Vec::len).collect();
        let free = |at: usize| {
            let [from, to] = net.edges[at].ends;
            match (degree[from], degree[to]) {
                (1, 3..) => Some(to),
                (3.., 1) => Some(from),
                _ => None,
            }
        };
        let mut spurs: Vec<(f64, usize, usize)> = (0..net.edges.len())
            .filter_map(|at| Some((net.length(at), at, free(at)?)))
            .filter(|spur| spur.0 <= limit)
            .collect();
        spurs.sort_by(|one, other| one.0.total_cmp(&other.0));
        let mut gone = vec![false; net.edges.len()];
        for (_, at, fork) in spurs {
            if degree[fork] >= 3 {
                degree[fork] -= 1;
                gone[at] = true;
                all += 1;
            }
        }
        if !gone.contains(&true) {
            return (net, all);
        }
        net = net.without(&gone);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::raster::net::Edge;

    #[test]
    fn a_comb_loses_its_teeth_and_a_star_keeps_a_line() {
        let mut comb = Net::default();
        for at in 0..12 {
            let x = 10.0 * f64::from(at);
            comb.nodes.extend([Point::new(x, 0.0), Point::new(x, 3.0)]);
        }
        let edge = |ends| Edge {
            ends,
            points: Vec::new(),
        };
        comb.edges = (1..11).map(|at| edge([2 * at, 2 * at + 1])).collect();
        comb.edges
            .extend((1..12).map(|at| edge([2 * at - 2, 2 * at])));
        let (line, spurs) = without_spurs(comb.clone(), 3.5);
        assert_eq!((line.edges.len(), spurs), (1, 10));
        assert_eq!(line.length(0), 110.0);
        assert_eq!(without_spurs(comb.clone(), 2.5), (comb, 0));
        let star = Net {
            nodes: [[0.0, 0.0], [1.0, 0.0], [0.0, 1.5], [-2.0, 0.0]]
                .map(|[x, y]| Point::new(x, y))
                .to_vec(),
            edges: (1..4).map(|tip| edge([0, tip])).collect(),
        };
        let (line, spurs) = without_spurs(star, 9.0);
        assert_eq!((line.edges.len(), spurs, line.length(0)), (1, 1, 3.5));
    }
}
