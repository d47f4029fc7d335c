//! Repeats: numbers, ease, corners made of them.

use quiltpath_core::chain::{Alternate, ChainOptions, Ends, Repeat, Terminal, chain_repeats};
use quiltpath_core::corner::{
    BendOptions, BendRadius, CornerSite, MitreOptions, bent_corner, mitred_corner,
};
use quiltpath_core::fit::{
    Count, DepthGroup, DepthRange, Ease, EaseLimits, Parity, RingSide, Stiffness, StretchLimit,
    alternatives, fit_ring, fit_rings, fit_span,
};
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::warp::Strip;

use crate::panics::{COUNTS, Panics, told};
use crate::samples::wave;

#[test]
fn repeats() {
    let mut panics = Panics::default();
    let repeat = Repeat::new(&wave()).expect("a repeat");
    let patterns = [
        Alternate::None,
        Alternate::LeftRight,
        Alternate::TopBottom,
        Alternate::Centred,
        Alternate::CentredFirst,
    ];
    panics.count("copies", |n| {
        let strip = Strip::level(10.0).expect("a strip");
        for pattern in patterns {
            for m in COUNTS {
                pattern.of_copy(n, m);
                told(pattern.count(Count::default().with_fixed(n).with_every(m)));
            }
            repeat.chain_offsets(pattern, n);
            let ends = [Terminal::new(0.0), Terminal::new(40.0)];
            let few = n.min(3);
            for n in [few, if n > 100_000 { n } else { 0 }] {
                let options = ChainOptions::new(n).with_alternate(pattern);
                told(chain_repeats(&repeat, &strip, ends, &options));
            }
        }
        for parity in [Parity::Any, Parity::Even, Parity::Odd] {
            for m in COUNTS {
                let count = Count::default().with_every(m).with_parity(parity);
                for count in [count, count.with_fixed(n)] {
                    for span in [1.0, 30.0, 1e9] {
                        told(fit_span(span, 6.0, &count));
                    }
                    let side = RingSide::new(100.0, -1.0, 2.0).with_count(count);
                    let sides = vec![
                        side.with_tie(n).with_ring(m),
                        side.with_tie(n).with_legs(u8::MAX),
                    ];
                    rings(&DepthGroup::new(DepthRange::new(4.0, 6.0), sides), 0.05);
                }
            }
        }
        told(bent_corner(
            &repeat,
            10.0,
            90.0,
            &BendOptions::default().with_legs(n),
        ));
        told(mitred_corner(
            &repeat,
            10.0,
            90.0,
            &MitreOptions::default().with_legs(n),
        ));
        told(mitred_corner(
            &repeat,
            10.0,
            90.0,
            &MitreOptions::default().with_cut(n),
        ));
    });
    panics.two("spans", |a, b| {
        told(fit_span(a, b, &Count::default()));
        repeat.pitch(a);
        let moderate = |x: f64| !(x.abs() > 1e9 && x.is_finite());
        for depth in [
            DepthRange::new(a, b),
            DepthRange::fixed(5.0),
            DepthRange::new(4.0, 6.0).with_preferred(a),
        ] {
            for side in [
                RingSide::new(a, b, 2.0),
                RingSide::new(100.0, b, 2.0 + a),
                RingSide::new(100.0, -1.0, 2.0).with_deeper(a),
                RingSide::between_corners(a, b, 2.0),
            ] {
                if moderate(a) && moderate(b) {
                    rings(&DepthGroup::new(depth, vec![side, side]), a);
                }
            }
        }
    });
    panics.two("ease", |a, b| {
        let list = [(0.0, 0.5), (0.3, 0.0), (a, b), (0.7, 1.0), (1.0, 0.5)];
        told(Stiffness::of(&list, 1.0)).inspect(|found| {
            found.loops();
        });
        let list = [(0.0, 0.5), (0.3, 0.0), (0.7, 1.0), (1.0, 0.5)];
        told(Stiffness::of(&list, a));
        let stiffness = Stiffness::of(&list, 2.0).expect("a stiffness");
        for (stretch, limits) in [
            (a, EaseLimits::default()),
            (1.1, EaseLimits::new(a, b)),
            (b, EaseLimits::new(0.5, a)),
        ] {
            if let Some(ease) = told(Ease::new(&stiffness, stretch, &limits)) {
                ease.apply(a);
                ease.slope(b);
                ease.local_stretch(a);
                ease.report().roundness();
                repeat.eased(&ease, a);
            }
        }
    });
    panics.two("corners from repeats", |a, b| {
        told(bent_corner(&repeat, a, b, &BendOptions::default()));
        told(mitred_corner(&repeat, a, b, &MitreOptions::default()));
        let bend = BendOptions::default();
        for bend in [
            bend.with_radius(BendRadius::Given(a)),
            bend.with_radius(BendRadius::LengthChange(a)),
            bend.with_join_tolerance(a).with_ends(Ends::Link),
            bend.with_flattening(a),
        ] {
            told(bent_corner(&repeat, 10.0, 90.0, &bend));
        }
        let mitre = MitreOptions::default();
        for mitre in [
            mitre.with_smooth(a),
            mitre.with_join_tolerance(b).with_ends(Ends::Link),
            mitre.with_flattening(a),
        ] {
            told(mitred_corner(&repeat, 10.0, 90.0, &mitre));
        }
        told(CornerSite::new(
            Point::new(a, b),
            Vector::new(b, a),
            Vector::new(1.0, a),
            [a, b],
        ));
    });
    panics.none();
}

fn rings(group: &DepthGroup, limit: f64) {
    let fit = told(fit_ring(group));
    told(fit_rings(std::slice::from_ref(group)));
    if let Some(mut fit) = fit {
        told(alternatives(group, &fit, StretchLimit::either_way(limit)));
        told(alternatives(
            group,
            &fit,
            StretchLimit::new(limit, 1.0 + limit),
        ));
        fit.sides.pop();
        told(alternatives(group, &fit, StretchLimit::either_way(limit)));
        fit.sides.clear();
        fit.depth = f64::NAN;
        told(alternatives(group, &fit, StretchLimit::either_way(limit)));
    }
}
