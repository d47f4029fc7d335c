//! Passes and thread cuts held against an integer program, solved once by `program.py` beside this.
//!
//! The 40 quilts in `quilts.json` are invented: one to three nested borders, some with corners
//! joined to rings, up to 130 atoms.

use quiltpath_core::geom::{Bounds, Point};
use quiltpath_core::order::{Atom, AtomEnd, OrderOptions, Ordered, order};
use serde_json::Value;

fn number(value: &Value) -> usize {
    usize::try_from(value.as_u64().expect("a number")).expect("a count")
}

/// A quilt put in order, with its lengths multiplied.
fn ordered(quilt: &Value, unit: f64, more: usize) -> Ordered {
    let long = |value: &Value| unit * value.as_f64().expect("a length");
    let list = |key: &str| quilt[key].as_array().expect("a list");
    let atoms: Vec<Atom> = list("atoms")
        .iter()
        .enumerate()
        .map(|(k, span)| {
            let [start, end] = [0, 1].map(|at| Point::new(k as f64, long(&span[at])));
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
    let joins: Vec<[AtomEnd; 2]> = list("joins")
        .iter()
        .map(|join| {
            [
                AtomEnd::End(number(&join[0])),
                AtomEnd::Start(number(&join[1])),
            ]
        })
        .collect();
    let quilt_box = Bounds {
        min: Point::new(0.0, 0.0),
        max: Point::new(100.0 * unit, 100.0 * unit),
    };
    let options = OrderOptions::new(long(&quilt["throat"]), quilt_box).with_more_passes(more);
    order(&atoms, &joins, &options).expect("ordered")
}

#[test]
fn no_integer_program_finds_fewer_passes_or_cuts() {
    let quilts: Vec<Value> =
        serde_json::from_str(include_str!("quilts.json")).expect("a list of quilts");
    assert_eq!(quilts.len(), 40);
    for (at, quilt) in quilts.iter().enumerate() {
        let passes = number(&quilt["passes"]);
        let cuts = [0, 1, 2].map(|more| number(&quilt["cuts"][more]));
        // Inches, millimetres, and a unit in which nothing is a round number.
        for unit in [1.0, 25.4, 0.37] {
            let found = ordered(quilt, unit, 0);
            assert_eq!(
                (found.passes(), found.cuts()),
                (passes, cuts[0]),
                "quilt {at}"
            );
            assert_eq!(found.least_cuts(), cuts[0], "quilt {at}");
            assert_eq!(found.cuts_with_more(), [cuts[1], cuts[2]], "quilt {at}");
            for (more, cuts) in cuts.into_iter().enumerate() {
                assert_eq!(ordered(quilt, unit, more).cuts(), cuts, "quilt {at}");
            }
        }
    }
}
