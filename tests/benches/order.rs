//! How long it takes to put a whole quilt in order for a frame; the target for 3 rings is under 1
//! ms.

use divan::{Bencher, black_box};
use quiltpath_core::geom::{Bounds, Point};
use quiltpath_core::order::{Atom, AtomEnd, OrderOptions, order};

fn main() {
    divan::main();
}

/// Nested rings of a quilt of 80 by 90 in, each of this many atoms a side.
fn rings(count: usize, side: usize) -> (Vec<Atom>, Vec<[AtomEnd; 2]>) {
    let (mut atoms, mut joins) = (Vec::new(), Vec::new());
    for ring in 0..count {
        let inset = 6.0 * ring as f64 + 3.0;
        let corners = [
            (inset, inset),
            (80.0 - inset, inset),
            (80.0 - inset, 90.0 - inset),
            (inset, 90.0 - inset),
        ];
        let first = atoms.len();
        for k in 0..4 * side {
            let corner = |k: usize| corners[k % 4];
            let place = |k: usize| {
                let share = (k % side) as f64 / side as f64;
                let (from, to) = (corner(k / side), corner(k / side + 1));
                Point::new(
                    from.0 + (to.0 - from.0) * share,
                    from.1 + (to.1 - from.1) * share,
                )
            };
            let (start, end) = (place(k), place(k + 1));
            let bounds = Bounds {
                min: start.inf(&end),
                max: start.sup(&end),
            };
            atoms.push(Atom::new(start, end, bounds));
            let next = first + (k + 1) % (4 * side);
            joins.push([AtomEnd::End(first + k), AtomEnd::Start(next)]);
        }
    }
    (atoms, joins)
}

/// Throats of 18 in, and of all of the quilt, which leaves closed rings with many openings.
#[divan::bench(args = [(3, 14, 18.0), (3, 14, 95.0), (6, 100, 18.0), (6, 100, 95.0)])]
fn nested_rings(bencher: Bencher, (count, side, throat): (usize, usize, f64)) {
    let (atoms, joins) = rings(count, side);
    let quilt = Bounds {
        min: Point::new(0.0, 0.0),
        max: Point::new(80.0, 90.0),
    };
    let options = OrderOptions::new(throat, quilt);
    bencher.bench_local(|| order(black_box(&atoms), &joins, &options));
}
