//! How atoms hang together: parts that no join connects, and the strands that they are made of.

use super::trail::{NONE, Trail, trails};
use crate::graph::{root, unite};

/// Atoms that joins connect.
#[derive(Debug, Clone, PartialEq, Default)]
pub(in crate::order) struct Part {
    /// The atoms from one end, or place where three or more ends meet, to the next.
    pub(in crate::order) strands: Vec<Trail>,
    /// The ends that meet at each place where three or more do; none in a chain or a ring.
    pub(in crate::order) branches: Vec<Vec<usize>>,
}

/// Atoms as edges between the places where their ends are joined.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::order) struct Net<'a> {
    pub(super) ends: &'a [[usize; 2]],
    /// The parts, in the order of their earliest strands.
    pub(in crate::order) parts: Vec<Part>,
    /// The number of the part of each atom.
    pub(super) part_of: Vec<usize>,
    /// The end that each end goes on at, where exactly two meet.
    pub(super) mates: Vec<usize>,
}

impl<'a> Net<'a> {
    /// `ends` are the vertices at the start and the end of each atom, numbered below `vertices`.
    pub(in crate::order) fn of(ends: &'a [[usize; 2]], vertices: usize) -> Self {
        let mut around: Vec<Vec<usize>> = vec![Vec::new(); vertices];
        let mut hanging: Vec<usize> = (0..vertices).collect();
        for (atom, pair) in ends.iter().enumerate() {
            around[pair[0]].push(2 * atom);
            around[pair[1]].push(2 * atom + 1);
            unite(&mut hanging, *pair);
        }
        let mut mates = vec![NONE; 2 * ends.len()];
        for around in &around {
            if let [a, b] = *around.as_slice() {
                (mates[a], mates[b]) = (b, a);
            }
        }
        let mut number = vec![NONE; vertices];
        let mut parts: Vec<Part> = Vec::new();
        let mut part_of = vec![0; ends.len()];
        for strand in trails(&mates) {
            let number = &mut number[root(&mut hanging, ends[strand.atoms[0]][0])];
            if *number == NONE {
                *number = parts.len();
                parts.push(Part::default());
            }
            for &atom in &strand.atoms {
                part_of[atom] = *number;
            }
            parts[*number].strands.push(strand);
        }
        for (at, around) in around.into_iter().enumerate() {
            if around.len() > 2 {
                let part = number[root(&mut hanging, at)];
                parts[part].branches.push(around);
            }
        }
        Self {
            ends,
            parts,
            part_of,
            mates,
        }
    }

    /// The most joins that can be passed where three or more ends meet.
    pub(in crate::order) fn joined(&self) -> usize {
        let branches = self.parts.iter().flat_map(|part| &part.branches);
        branches.map(|ends| ends.len() / 2).sum()
    }
}
