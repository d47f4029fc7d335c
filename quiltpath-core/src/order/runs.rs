//! The runs of one pass: its atoms in the fewest continuous lines.
//!
//! Problem and method: the atoms of a pass are edges of a multigraph, drawn with the fewest strokes
//! as in `graph`. Guarantee: as few runs as there can be; each goes the way that more of its atoms
//! were drawn in, and a closed one starts with its earliest atom. Failure: none.

use super::ordered::{Run, RunStep};
use crate::graph::{Step, fewest_trails};

/// The runs of these atoms, in the order of their earliest atoms.
///
/// `ends` are the vertices at the start and the end of each atom; `number` is scratch room with a
/// place for each vertex.
///
/// # Complexity
///
/// O(n log n) for n atoms of the pass.
pub(super) fn runs(atoms: &[usize], ends: &[[usize; 2]], number: &mut [usize]) -> Vec<Run> {
    let vertices = atoms.iter().flat_map(|&atom| ends[atom]);
    for vertex in vertices.clone() {
        number[vertex] = usize::MAX;
    }
    let mut count = 0;
    for vertex in vertices {
        if number[vertex] == usize::MAX {
            number[vertex] = count;
            count += 1;
        }
    }
    let edges: Vec<[usize; 2]> = atoms
        .iter()
        .map(|&atom| ends[atom].map(|vertex| number[vertex]))
        .collect();
    fewest_trails(&edges, count)
        .into_iter()
        .map(|trail| run(trail, &edges, atoms))
        .collect()
}

fn run(mut trail: Vec<Step>, edges: &[[usize; 2]], atoms: &[usize]) -> Run {
    let from = |step: &Step| edges[step.index][usize::from(step.reversed)];
    let to = |step: &Step| edges[step.index][usize::from(!step.reversed)];
    let closed = from(&trail[0]) == to(&trail[trail.len() - 1]);
    let earliest = trail.iter().min_by_key(|step| step.index).copied();
    let against = trail.iter().filter(|step| step.reversed).count();
    let earliest_against = earliest.is_some_and(|step| step.reversed);
    if 2 * against + usize::from(earliest_against) > trail.len() {
        trail.reverse();
        for step in &mut trail {
            step.reversed = !step.reversed;
        }
    }
    if closed {
        let at = trail
            .iter()
            .position(|step| Some(step.index) == earliest.map(|e| e.index));
        trail.rotate_left(at.unwrap_or(0));
    }
    let steps = trail.into_iter().map(|step| RunStep {
        atom: atoms[step.index],
        reversed: step.reversed,
    });
    Run {
        steps: steps.collect(),
        closed,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steps(run: &Run) -> Vec<(usize, bool)> {
        run.steps
            .iter()
            .map(|step| (step.atom, step.reversed))
            .collect()
    }

    #[test]
    fn a_run_goes_the_way_that_most_of_it_was_drawn_in() {
        // A chain of three atoms, the middle one drawn against the others.
        let ends = [[3, 4], [5, 4], [5, 6]];
        let found = runs(&[0, 1, 2], &ends, &mut [0; 7]);
        assert_eq!(found.len(), 1);
        assert_eq!(steps(&found[0]), [(0, false), (1, true), (2, false)]);
        assert!(!found[0].closed);
        // Without its first atom, as many one way as the other: the earliest decides.
        let found = runs(&[1, 2], &ends, &mut [0; 7]);
        assert_eq!(steps(&found[0]), [(2, true), (1, false)]);
        let found = runs(&[0, 2], &ends, &mut [0; 7]);
        assert_eq!(
            (steps(&found[0]), steps(&found[1])),
            (vec![(0, false)], vec![(2, false)])
        );
    }

    #[test]
    fn a_closed_run_starts_with_its_earliest_atom() {
        let ends = [[2, 1], [2, 3], [3, 4], [4, 1], [5, 5]];
        let found = runs(&[0, 1, 2, 3, 4], &ends, &mut [0; 6]);
        assert_eq!(found.len(), 2);
        assert_eq!(
            steps(&found[0]),
            [(0, true), (1, false), (2, false), (3, false)]
        );
        assert!(found[0].closed && found[1].closed);
    }
}
