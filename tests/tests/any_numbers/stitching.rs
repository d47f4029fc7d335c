//! Stitches, thread, checks, and the order on a frame.

use quiltpath_core::check::{
    DensityLimit, Limits, Lines, LoopLimit, RunLimit, check_lines, close, density, loops, twice,
};
use quiltpath_core::geom::Point;
use quiltpath_core::order::{
    Atom, AtomEnd, Loading, Loadings, OrderOptions, Placed, Roll, Throat, divide, order,
};
use quiltpath_core::stitch::estimate::{
    MachineLimits, ThreadOptions, lockstitch_thread, stitching_time, thread_need,
};
use quiltpath_core::stitch::job::{JobOptions, stitch_lines};
use quiltpath_core::stitch::resample::{StitchOptions, resample};
use quiltpath_core::stitch::tie_off::{TieOffOptions, tie_off};
use quiltpath_core::units::Unit;

use crate::panics::{COUNTS, Panics, told};
use crate::samples::{bounds, points, wave};

#[test]
fn stitching() {
    let mut panics = Panics::default();
    let motif = wave();
    let line = motif.line();
    panics.two("stitches", |a, b| {
        let usual = StitchOptions::default();
        for options in [
            StitchOptions::new(a),
            usual.with_minimum(a).with_chord_error(b),
            usual.with_cusp_degrees(a),
            StitchOptions::new(a).with_minimum(b),
        ] {
            told(resample(line, &options));
            told(stitch_lines(
                [&motif],
                &JobOptions::new(Unit::Mm).with_stitch(options),
            ));
        }
        told(StitchOptions::per_inch(a, Unit::Cm));
        let usual = MachineLimits::default();
        for limits in [
            usual.with_top_speed(a).with_acceleration(b),
            usual.with_corner_deviation(a),
            usual.with_seconds_per_start(a).with_seconds_per_cut(b),
            usual.with_seconds_per_tie_off(a),
        ] {
            told(stitching_time(&[line], &limits));
        }
        told(stitching_time(
            &[points(&[(a, b), (b, a), (0.0, 0.0)])],
            &usual,
        ));
        told(lockstitch_thread(a, b, 1.0));
        told(lockstitch_thread(1.0, a, b));
        let usual = ThreadOptions::default();
        for options in [
            usual.with_thickness(a).with_tail(b),
            usual.with_waste(a),
            usual.with_spool(Some(a)).with_bobbin(Some(b)),
        ] {
            told(thread_need(1000.0, 100, 1, &options));
            told(thread_need(a, 100, 1, &options));
        }
        told(tie_off(line, &TieOffOptions::new(3, a)));
    });
    panics.count("counts", |n| {
        told(tie_off(line, &TieOffOptions::new(n, 0.5)));
        for m in COUNTS {
            told(thread_need(
                1000.0,
                n,
                m,
                &ThreadOptions::default().with_spool(Some(1e-3)),
            ));
        }
    });
    panics.two("checks", |a, b| {
        let lines = [points(&[(0.0, 0.0), (20.0, 0.0), (a, b), (0.0, 0.1)])];
        told(check_lines(&lines, &Limits::default()));
        told(Lines::new(&[line], a));
        let lines = Lines::new(&[line], 0.05).expect("lines");
        let run = RunLimit::new(a, b);
        told(close(&lines, &run, &RunLimit::TWICE_MM));
        told(close(&lines, &RunLimit::CLOSE_MM, &run));
        told(twice(&lines, &run));
        told(density(&lines, &DensityLimit::new(a, b)));
        told(loops(&lines, &LoopLimit::new(a, b)));
        told(Lines::new(
            &[points(&[(a, b), (0.0, 0.0), (1e9, 1e9)])],
            0.05,
        ))
        .inspect(|lines| {
            told(close(lines, &RunLimit::CLOSE_MM, &RunLimit::TWICE_MM));
            told(twice(lines, &RunLimit::TWICE_MM));
            told(density(lines, &DensityLimit::default()));
            told(loops(lines, &LoopLimit::default()));
        });
    });
    panics.none();
}

#[test]
fn orders() {
    let mut panics = Panics::default();
    let (motif, ends) = (wave(), [2, 4]);
    panics.two("order", |a, b| {
        let usual = Atom::new(
            Point::new(0.0, 0.0),
            Point::new(0.0, 50.0),
            bounds(10.0, 50.0),
        );
        let mut odd = bounds(10.0, 50.0);
        (odd.min.y, odd.max.y) = (a, b);
        let atoms = [
            usual,
            Atom::new(Point::new(a, b), Point::new(b, a), odd).in_either_loading(),
            Atom::new(Point::new(a, 0.0), Point::new(0.0, b), bounds(10.0, 90.0))
                .with_loading(Loading::Turned),
        ];
        let joins = [[AtomEnd::End(0), AtomEnd::Start(1)]];
        for options in [
            OrderOptions::new(60.0, bounds(100.0, 100.0)),
            OrderOptions::new(a, bounds(b, 100.0)),
        ] {
            told(order(&atoms, &joins, &options));
            told(order(&[usual, usual], &joins, &options));
        }
        let roll = told(Roll::new(a, b));
        for throat in [
            Throat::new(a),
            Throat::new(a).with_roll(roll),
            Throat::new(60.0).with_reserve(b).with_roll(roll),
        ] {
            let _ = throat.reach(b);
            for quilt in [bounds(100.0, 100.0), bounds(b, 100.0), odd] {
                let options = OrderOptions::new(throat, quilt);
                let placed = Placed::new(&motif).with_ends(&ends);
                told(divide(&[placed], &options, Loadings::Twice));
                told(order(&[usual, usual], &joins, &options));
            }
        }
    });
    panics.count("counts", |n| {
        let usual = Atom::new(
            Point::new(0.0, 0.0),
            Point::new(0.0, 50.0),
            bounds(10.0, 50.0),
        );
        let options = OrderOptions::new(60.0, bounds(100.0, 100.0)).with_more_passes(n);
        let atoms = [usual, usual];
        told(order(
            &atoms,
            &[[AtomEnd::End(n), AtomEnd::Start(1)]],
            &options,
        ));
        if let Some(mut ordered) = told(order(&atoms, &[], &options)) {
            for loaded in &mut ordered.loadings {
                (loaded.cuts, loaded.cuts_with_more) = (1, [n, 3]);
            }
            let _ = (ordered.cuts_with_more(), ordered.passes(), ordered.travel());
        }
        let narrow = OrderOptions::new(8.0, bounds(100.0, 100.0));
        let odd = [n, n.wrapping_add(1)];
        for ends in [&odd[..1], &odd[..], &[][..]] {
            let placed = Placed::new(&motif).with_ends(ends);
            for placed in [
                placed,
                placed.with_loading_of(n),
                placed.with_loading_of_either([n, 0]),
            ] {
                if let Some(mut divided) = told(divide(&[placed], &narrow, Loadings::Twice)) {
                    told(divided.join(n, 0));
                    told(divided.join(0, n));
                    let ordered =
                        order(&divided.atoms, &divided.joins, &options).expect("an order");
                    for run in ordered
                        .loadings
                        .iter()
                        .flat_map(|l| &l.passes)
                        .flat_map(|p| &p.runs)
                    {
                        for stretch in &mut divided.stretches {
                            (stretch.from.point, stretch.to.point) = (n, n);
                        }
                        let mut steps = run.steps.clone();
                        divided.line(&[placed], &steps);
                        steps[0].atom = n;
                        divided.line(&[placed], &steps);
                        divided.line(&[], &run.steps);
                    }
                }
            }
        }
    });
    panics.none();
}
