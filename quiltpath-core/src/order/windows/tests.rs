//! Passes and cuts held against all windows anywhere and all ways to share atoms among them.

use crate::geom::{Bounds, Point};
use crate::graph::fewest_trails;
use crate::order::{Atom, AtomEnd, OrderOptions, Ordered, order};
use proptest::prelude::*;

/// Atoms from top to bottom, in quarters of a unit, as edges between places, and a throat.
#[derive(Debug, Clone)]
struct Quilt {
    spans: Vec<[i32; 2]>,
    edges: Vec<[usize; 2]>,
    throat: i32,
}

/// How many places an edge may lead between.
const PLACES: usize = 20;

impl Quilt {
    /// The fewest runs with 1, 2 and so on up to `most` windows; none where these don't reach all.
    ///
    /// Any set of atoms is stitched in one window that lies anywhere if that reaches them all, in
    /// as many runs as their graph takes; every way to share all atoms among sets is tried.
    fn tried(&self, most: usize) -> Vec<Option<usize>> {
        let sets = 1usize << self.edges.len();
        let of = |set: usize| (0..self.edges.len()).filter(move |&atom| set >> atom & 1 == 1);
        let runs: Vec<Option<usize>> = (0..sets)
            .map(|set| {
                let least = of(set).map(|atom| self.spans[atom][0]).min();
                let most = of(set).map(|atom| self.spans[atom][1]).max();
                let deep = most.zip(least).map_or(0, |(most, least)| most - least);
                let edges: Vec<[usize; 2]> = of(set).map(|atom| self.edges[atom]).collect();
                (deep <= self.throat).then(|| fewest_trails(&edges, PLACES).len())
            })
            .collect();
        let mut least: Vec<Option<usize>> = vec![None; sets];
        least[0] = Some(0);
        let mut found = Vec::new();
        for _ in 0..most {
            let before = least.clone();
            for (set, least) in least.iter_mut().enumerate() {
                // All parts of the set.
                let mut part = set;
                while part > 0 {
                    if let (Some(runs), Some(rest)) = (runs[part], before[set & !part]) {
                        *least = Some(least.map_or(runs + rest, |least| least.min(runs + rest)));
                    }
                    part = (part - 1) & set;
                }
            }
            found.push(least[sets - 1]);
        }
        found
    }

    /// The same quilt put in order, in a unit of this many quarters.
    fn ordered(&self, unit: f64, more: usize) -> Ordered {
        let length = |quarters: i32| f64::from(quarters) / unit;
        let atoms: Vec<Atom> = self
            .spans
            .iter()
            .enumerate()
            .map(|(k, span)| {
                let [start, end] = span.map(|y| Point::new(k as f64, length(y)));
                Atom::new(
                    start,
                    end,
                    Bounds {
                        min: start,
                        max: end,
                    },
                )
            })
            .collect();
        // The first end at a place is joined to all others there.
        let mut first = [None; PLACES];
        let mut joins = Vec::new();
        for (atom, edge) in self.edges.iter().enumerate() {
            let ends = [AtomEnd::Start(atom), AtomEnd::End(atom)];
            for (end, &place) in ends.into_iter().zip(edge) {
                match first[place] {
                    Some(first) => joins.push([first, end]),
                    None => first[place] = Some(end),
                }
            }
        }
        let quilt = Bounds {
            min: Point::new(0.0, 0.0),
            max: Point::new(40.0, length(400)),
        };
        let options = OrderOptions::new(length(self.throat), quilt).with_more_passes(more);
        order(&atoms, &joins, &options).expect("ordered")
    }

    /// Holds the passes and cuts against all that there are.
    fn hold(&self) {
        let tried = self.tried(self.edges.len() + 2);
        let passes = tried
            .iter()
            .position(Option::is_some)
            .expect("a window each")
            + 1;
        let cuts = tried[passes - 1].expect("a number of runs");
        // Inches, millimetres, and a unit in which nothing is a round number.
        for unit in [4.0, 4.0 / 25.4, 4.0 * 3.1] {
            let ordered = self.ordered(unit, 0);
            assert_eq!(
                (ordered.passes(), ordered.cuts()),
                (passes, cuts),
                "{self:?}"
            );
            assert_eq!(ordered.least_cuts(), cuts, "{self:?}");
            let one = tried[passes].expect("no fewer are needed").min(cuts);
            let two = tried[passes + 1].expect("no fewer are needed").min(one);
            let more = [one, two];
            assert_eq!(ordered.cuts_with_more(), more, "{self:?}");
            for (extra, cuts) in more.into_iter().enumerate() {
                let with = self.ordered(unit, extra + 1);
                assert_eq!((with.cuts(), with.least_cuts()), (cuts, cuts));
                assert!(with.passes() <= passes + extra + 1);
            }
            let mut times = vec![0; self.edges.len()];
            for pass in &ordered.loadings[0].passes {
                for step in pass.runs.iter().flat_map(|run| &run.steps) {
                    times[step.atom] += 1;
                    let span = self.spans[step.atom].map(|y| f64::from(y) / unit - pass.top);
                    let far = f64::from(self.throat) / unit;
                    assert!(span[0] >= -1e-9 && span[1] <= far + 2e-9 * far);
                }
            }
            assert!(times.iter().all(|&times| times == 1));
        }
    }
}

/// Up to three lines, each a chain or a ring that goes up and down the quilt as it likes.
fn lines(most: usize) -> impl Strategy<Value = Quilt> {
    let line = (
        prop::collection::vec((-8i32..=12, 0i32..=10), 1..=most),
        any::<bool>(),
        0i32..40,
    );
    (prop::collection::vec(line, 1..=3), 10i32..24).prop_map(move |(lines, throat)| {
        let (mut spans, mut edges) = (Vec::new(), Vec::new());
        let mut place = 0;
        for (steps, closed, start) in lines {
            let steps = &steps[..steps.len().min((most + 1).saturating_sub(spans.len()))];
            let mut y = start;
            for (k, (step, depth)) in steps.iter().enumerate() {
                let next = if closed && k + 1 == steps.len() {
                    place - k
                } else {
                    place + 1
                };
                edges.push([place, next]);
                // It starts where the one before ends, and hangs down or up from there.
                let end = y + step;
                let top = y.min(end).max(y.max(end) - 10);
                spans.push([top, (top + depth).max(y.max(end)).min(top + 10)]);
                y = end;
                place += 1;
            }
            place += 1;
        }
        Quilt {
            spans,
            edges,
            throat,
        }
    })
}

/// A ring as a border is: along the top, down, along the bottom and up again.
fn borders() -> impl Strategy<Value = Quilt> {
    let rows = (1usize..=4, 1usize..=4, 2i32..=9, 2i32..=9);
    (rows, 2i32..=9, 9i32..26, -3i32..=3).prop_map(
        |((left, right, a, b), corner, throat, lower)| {
            let height = (left as i32 * a).max(right as i32 * b);
            let side = |from: i32, rows: usize, pitch: i32| {
                (0..rows as i32).map(move |k| [from + k * pitch, from + (k + 1) * pitch])
            };
            let mut spans = vec![[0, corner]];
            spans.extend(side(corner, right, b));
            spans.push([corner + height, 2 * corner + height]);
            let mut up: Vec<[i32; 2]> = side(corner + lower.max(1 - corner), left, a).collect();
            up.reverse();
            spans.extend(up);
            let count = spans.len();
            let edges = (0..count).map(|k| [k, (k + 1) % count]).collect();
            Quilt {
                spans,
                edges,
                throat,
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(400)))]

    #[test]
    fn no_windows_take_fewer_passes_or_cuts_on_lines(quilt in lines(7)) {
        quilt.hold();
    }

    #[test]
    fn nor_on_borders(quilt in borders()) {
        quilt.hold();
    }

    /// Three or more ends meet in many places.
    #[test]
    fn nor_where_many_ends_meet(
        atoms in prop::collection::vec(((0i32..40, 0i32..=10), prop::array::uniform2(0usize..5)), 1..8),
        throat in 10i32..24,
    ) {
        let spans = atoms.iter().map(|&((top, deep), _)| [top, top + deep]).collect();
        let edges = atoms.iter().map(|&(_, edge)| edge).collect();
        let quilt = Quilt { spans, edges, throat };
        let tried = quilt.tried(quilt.edges.len());
        let passes = tried.iter().position(Option::is_some).expect("a window each") + 1;
        let cuts = tried[passes - 1].expect("a number of runs");
        let ordered = quilt.ordered(4.0, 0);
        prop_assert_eq!((ordered.passes(), ordered.cuts()), (passes, cuts));
        prop_assert_eq!(ordered.least_cuts(), cuts);
        for (more, found) in ordered.cuts_with_more().into_iter().enumerate() {
            let least = tried.get(passes + more).copied().flatten().unwrap_or(0);
            prop_assert!(least <= found && found <= cuts);
        }
    }
}

/// Chains that start anywhere and go up and down at random. But for a few of them there are too
/// many choices for the work that is done, so what is reported as least is a bound, no more than
/// what is found.
#[test]
fn many_chains_end_with_a_bound() {
    let mut seed = 3u64;
    let mut chance = |below: u64| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        (seed >> 33) % below
    };
    for (chains, atoms, exact) in [(40, 6, true), (300, 33, false), (1, 9_999, false)] {
        let (mut all, mut joins) = (Vec::new(), Vec::new());
        for _ in 0..chains {
            let mut y = chance(900) as f64;
            for k in 0..atoms {
                let next = (y + chance(61) as f64 - 30.0).clamp(0.0, 900.0) + 0.01 * k as f64;
                let [start, end] = [y, next].map(|y| Point::new(0.0, y));
                let (min, max) = if y < next { (start, end) } else { (end, start) };
                if k > 0 {
                    joins.push([AtomEnd::End(all.len() - 1), AtomEnd::Start(all.len())]);
                }
                all.push(Atom::new(start, end, Bounds { min, max }));
                y = next;
            }
        }
        let quilt = Bounds {
            min: Point::new(0.0, 0.0),
            max: Point::new(1.0, 1000.0),
        };
        let ordered = order(&all, &joins, &OrderOptions::new(140.0, quilt)).expect("ordered");
        assert!(ordered.least_cuts() <= ordered.cuts() && ordered.least_cuts() >= chains);
        assert_eq!(ordered.least_cuts() == ordered.cuts(), exact);
        let cuts_with_more = ordered.cuts_with_more();
        assert!(cuts_with_more[1] <= cuts_with_more[0] && cuts_with_more[0] <= ordered.cuts());
        let stitched: usize = ordered.loadings[0]
            .passes
            .iter()
            .flat_map(|pass| &pass.runs)
            .map(|run| run.steps.len())
            .sum();
        assert_eq!(stitched, all.len());
    }
}
