//! Bands, and repeats chained along them.

use quiltpath_core::chain::{Across, ChainOptions, Ends, Repeat, Terminal, chain_repeats};
use quiltpath_core::corner::CornerSite;
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::warp::{BandMap, CrossLine, RuledBand, SplineBand, Strip, inset_stations};

use crate::panics::{Panics, told};
use crate::samples::{ell, wave};

#[test]
fn bands() {
    let mut panics = Panics::default();
    panics.two("stations", |a, b| {
        let pairs = [
            [Point::new(0.0, 10.0), Point::new(0.0, 0.0)],
            [Point::new(a, 10.0), Point::new(b, 0.0)],
            [Point::new(40.0, 10.0), Point::new(40.0, 0.0)],
        ];
        if let Some(band) = told(RuledBand::new(&pairs)) {
            used(&band, a, b);
            band.no_fold();
        }
        if let Some(band) = told(SplineBand::new(&pairs)) {
            used(&band, a, b);
            band.no_fold();
        }
        told(inset_stations(&pairs, 1.0, 1.0));
        told(inset_stations(&pairs, a, b));
    });
    panics.two("bands as usual", |a, b| {
        let pairs = [0.0, 20.0, 45.0].map(|x| [Point::new(x, 10.0), Point::new(x + 1.0, 0.0)]);
        used(&RuledBand::new(&pairs).expect("a band"), a, b);
        used(&SplineBand::new(&pairs).expect("a band"), a, b);
        let strip = Strip::level(10.0).expect("a strip");
        used(&strip, a, b);
        let cross = |x: f64| {
            let mut line = CornerSite::new(
                Point::new(0.0, 0.0),
                Vector::new(0.0, -1.0),
                Vector::new(1.0, 0.0),
                [10.0; 2],
            )
            .expect("a site")
            .cross_lines(&ell())[0];
            line.through = Point::new(x, a);
            line.direction = Vector::new(a, b);
            line
        };
        let lines: [CrossLine; 2] = [cross(b), cross(20.0)];
        told(lines[0].ends(&strip));
        told(RuledBand::between(&strip, lines));
        told(Strip::level(a));
        told(Strip::new(
            Point::new(a, b),
            Vector::new(1.0, 0.0),
            Vector::new(b, a),
        ));
    });
    panics.none();
}

fn used<B: BandMap>(band: &B, a: f64, b: f64) {
    band.depth();
    band.depth_at(a);
    band.place(a, b);
    band.place_vector_at(a, b, b, a);
    band.locate(Point::new(a, b));
    band.steps((a, b), (b, a), 0.01);
    band.steps((0.0, 0.0), (10.0, 1.0), a);
    let repeat = Repeat::new(&wave()).expect("a repeat");
    let terminals = [Terminal::new(a), Terminal::new(b)];
    told(chain_repeats(
        &repeat,
        band,
        terminals,
        &ChainOptions::new(2),
    ));
    let terminals = [Terminal::new(0.0), Terminal::new(40.0)];
    let across = [Across::At(a), Across::Near(b)];
    let placed = [0, 1].map(|end| terminals[end].with_across(across[end]));
    for ends in [Ends::Level, Ends::Link] {
        let options = ChainOptions::new(2).with_ends(ends);
        told(chain_repeats(&repeat, band, placed, &options));
        told(chain_repeats(
            &repeat,
            band,
            terminals,
            &options.with_join_tolerance(a),
        ));
        told(chain_repeats(
            &repeat,
            band,
            terminals,
            &options.with_flattening(a),
        ));
    }
}
