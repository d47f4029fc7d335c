//! A length that no order of the runs of a pass goes below.
//!
//! Problem: as in `travel`, within one pass, whose first and last ends are free. Method: jumps
//! connect the runs to a tree, and each end of an open run has one jump, a closed run two, where a
//! free end counts as a jump of no length to nowhere. Prices on ends change the length of every
//! order by the same amount, so the least tree with priced jumps and the two cheapest free ends,
//! less all prices, is a bound for any prices; they rise at ends with too many jumps and fall at
//! ends with too few (M. Held and R. M. Karp, "The traveling-salesman problem and minimum spanning
//! trees", 1970 and 1971; steps as by B. T. Polyak, 1969; from memory). Guarantee: a lower bound,
//! and no worse than the tree without prices. Failure: none; it need not reach the least.

use super::nearby::tree;
use super::openings::Openings;
use crate::geom::Point;

/// The most ports that prices are sought for: 512. Beyond that the tree has none.
const PORTS: usize = 512;

/// How many jumps are looked at in search of prices: 2^24.
const LOOKS: usize = 1 << 24;

/// The most rounds of prices: 400.
const ROUNDS: usize = 400;

/// What jumps lead to: an end of an open run, or a closed run.
struct Port {
    run: usize,
    /// The number of jumps that it has.
    jumps: f64,
    at: Vec<Point>,
}

/// No order of the runs travels less than this within the pass; `length` is what one does.
///
/// # Complexity
///
/// O(openings² + [`LOOKS`]).
pub(super) fn least_within(openings: &Openings, length: f64) -> f64 {
    let plain = tree(openings);
    let ports = ports(openings);
    if openings.runs() < 3 || ports.len() > PORTS {
        return plain;
    }
    let away: Vec<Vec<f64>> = ports
        .iter()
        .map(|from| ports.iter().map(|to| between(from, to)).collect())
        .collect();
    let mut prices = vec![0.0; ports.len()];
    let (mut best, mut pace, mut failed) = (plain, 1.0, 0);
    for _ in 0..ROUNDS.min(LOOKS / ports.len().pow(2)) {
        let (bound, surplus) = priced(&ports, &away, &prices, openings.runs());
        // Sums of prices and lengths are off by rounding.
        let bound = bound - 1e-12 * (bound.abs() + prices.iter().map(|p| p.abs()).sum::<f64>());
        if bound > best {
            (best, failed) = (bound, 0);
        } else {
            failed += 1;
            if failed == 8 {
                (pace, failed) = (pace / 2.0, 0);
            }
        }
        let square: f64 = surplus.iter().map(|s| s * s).sum();
        let step = pace * (length - bound).max(0.0) / square;
        if square == 0.0 || step == 0.0 {
            break;
        }
        for (price, surplus) in prices.iter_mut().zip(surplus) {
            *price += step * surplus;
        }
    }
    best
}

fn ports(openings: &Openings) -> Vec<Port> {
    let mut ports = Vec::new();
    for run in 0..openings.runs() {
        let own = &openings.all[openings.of_run(run)];
        let open = own.len() == 2 && own[0].at == own[1].at;
        if open {
            ports.extend([own[0].entry, own[0].exit].map(|at| Port {
                run,
                jumps: 1.0,
                at: vec![at],
            }));
        } else {
            let at = own.iter().flat_map(|own| [own.entry, own.exit]);
            let (jumps, at) = (2.0, at.collect());
            ports.push(Port { run, jumps, at });
        }
    }
    ports
}

fn between(from: &Port, to: &Port) -> f64 {
    let ways = from
        .at
        .iter()
        .flat_map(|a| to.at.iter().map(move |b| (b - a).norm_squared()));
    ways.fold(f64::INFINITY, f64::min).sqrt()
}

/// The bound with these prices, and by how much each port has more jumps than it should.
fn priced(ports: &[Port], away: &[Vec<f64>], prices: &[f64], runs: usize) -> (f64, Vec<f64>) {
    let mut surplus: Vec<f64> = ports.iter().map(|port| -port.jumps).collect();
    let mut length: f64 = (ports.iter().zip(prices))
        .map(|(port, price)| -port.jumps * price)
        .sum();
    // The nearest port of the tree for each run, and how far away it is.
    let mut nearest = vec![(f64::INFINITY, 0, 0); runs];
    let mut within = vec![false; runs];
    let mut run = 0;
    for _ in 1..runs {
        within[run] = true;
        for from in (0..ports.len()).filter(|&from| ports[from].run == run) {
            for (to, port) in ports.iter().enumerate() {
                let way = away[from][to] + prices[from] + prices[to];
                if !within[port.run] && way < nearest[port.run].0 {
                    nearest[port.run] = (way, from, to);
                }
            }
        }
        let left = (0..runs).filter(|&run| !within[run]);
        let next = left.min_by(|&a, &b| nearest[a].0.total_cmp(&nearest[b].0));
        run = next.unwrap_or(0);
        let (way, from, to) = nearest[run];
        length += way;
        surplus[from] += 1.0;
        surplus[to] += 1.0;
    }
    let mut free: Vec<usize> = (0..ports.len()).collect();
    // A closed run may have both.
    free.extend((0..ports.len()).filter(|&port| ports[port].jumps > 1.0));
    free.sort_by(|&a, &b| prices[a].total_cmp(&prices[b]));
    for &port in free.iter().take(2) {
        length += prices[port];
        surplus[port] += 1.0;
    }
    (length, surplus)
}
