//! Where travel stops to be the least: a bound beyond 14 runs, or beyond the steps of a table.

use super::*;

fn at(n: usize) -> f64 {
    (n * 7919 % 1009) as f64 / 10.0
}

/// Scattered runs: single lines, or rings of so many atoms, which open at any of them.
fn scattered(runs: usize, atoms: usize) -> (Vec<Run>, Vec<[Point; 2]>) {
    let place = |run: usize, k: usize| {
        let n = 2 * (run * (atoms + 1) + k) + 1;
        p(at(n), at(n + 1))
    };
    let closed = atoms > 1;
    let to = |k: usize| if closed { (k + 1) % atoms } else { k + 1 };
    let ends = (0..runs)
        .flat_map(|run| (0..atoms).map(move |k| [place(run, k), place(run, to(k))]))
        .collect();
    let step = |atom| RunStep {
        atom,
        reversed: false,
    };
    let run = |run: usize| Run {
        steps: (run * atoms..(run + 1) * atoms).map(step).collect(),
        closed,
    };
    ((0..runs).map(run).collect(), ends)
}

fn is_exact(runs: usize, atoms: usize) -> bool {
    let (runs, ends) = scattered(runs, atoms);
    let travel = order_runs(&mut [runs], &[0.0], |atom| ends[atom]);
    match travel.exactness {
        Exactness::Exact => true,
        Exactness::Bound { lower, ratio } => {
            assert!(0.0 < lower && lower < travel.length);
            assert!((lower * ratio - travel.length).abs() < 1e-9);
            false
        }
    }
}

#[test]
fn fourteen_runs_in_a_pass_are_exact_and_fifteen_have_a_bound() {
    assert!(is_exact(14, 1));
    assert!(!is_exact(15, 1));
}

/// Eight rings with n ways each: 8 · 7 · n² pairs and 8 n places for each of 2^8 sets. At 34 that
/// is 65,008 a set, at 35 it is 68,880, and 2^24 / 2^8 is 65,536.
#[test]
fn the_table_of_a_pass_takes_two_to_the_24_steps() {
    let is_small = |atoms| {
        let (runs, ends) = scattered(8, atoms);
        Openings::of(&runs, |atom| ends[atom]).is_small()
    };
    assert!(is_small(34));
    assert!(!is_small(35));
    assert!(!is_exact(8, 35));
}

proptest! {
    /// The bound over passes is never above the least, and it counts the ways between passes.
    #[test]
    fn the_bound_is_no_more_than_the_least(job in jobs(6)) {
        let openings: Vec<Openings> = job.passes.iter().zip(&job.tops).map(|(runs, &top)| {
            Openings::of(runs, |atom| job.ends[atom].map(|point| p(point.x, point.y - top)))
        }).collect();
        let least = order_runs(&mut job.passes.clone(), &job.tops, |atom| job.ends[atom]).length;
        let length = 2.0 * least + 1.0;
        let Exactness::Bound { lower, ratio } = bounded(length, &openings) else {
            panic!("twice the least is not the least");
        };
        prop_assert!(lower <= least + 1e-9 && (ratio * lower - length).abs() < 1e-9 || lower == 0.0);
        let single = job.passes.iter().all(|runs| runs.len() == 1 && !runs[0].closed);
        if single && job.passes.len() < 3 {
            prop_assert!((lower - least).abs() < 1e-9);
        }
    }
}
