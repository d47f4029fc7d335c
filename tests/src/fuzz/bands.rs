//! Bands out of true: ruled and smooth maps, stations, repeats chained along them.

use quiltpath_core::chain::{
    Across, Alternate, ChainOptions, Ends, Repeat, Terminal, chain_repeats,
};
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::motif::Motif;
use quiltpath_core::warp::{BandMap, RuledBand, SplineBand, Strip, inset_stations};

use super::dice::{Dice, finite, told};

/// Stations across a band of about 300 by 40.
fn stations(dice: &mut Dice<'_>) -> Vec<[Point; 2]> {
    let count = 2 + dice.below(5);
    (0..count)
        .map(|index| {
            let at = 300.0 * index as f64 / (count - 1) as f64;
            let mut point = |y: f64| {
                let (dx, dy) = (dice.mostly(-9.0, 9.0), dice.mostly(-9.0, 9.0));
                Point::new(at + dx, y + dy)
            };
            [point(40.0), point(0.0)]
        })
        .collect()
}

pub(super) fn bands(data: &[u8]) {
    let mut dice = Dice::new(data);
    let mut pairs = stations(&mut dice);
    if dice.once_in(3) {
        match inset_stations(&pairs, dice.mostly(0.0, 9.0), dice.mostly(0.0, 9.0)) {
            Ok(inset) => pairs = inset,
            Err(error) => return told(&error),
        }
    }
    // A band of kilometres takes its millions of points by right.
    if pairs
        .iter()
        .flatten()
        .any(|point| point.coords.amax() > 1e4)
    {
        return;
    }
    let repeat = dice
        .line(12, [60.0, 20.0])
        .map(|line| Repeat::new(&Motif::new("m", line)));
    let repeat = match repeat {
        Some(Ok(repeat)) => Some(repeat),
        Some(Err(error)) => return told(&error),
        None => None,
    };
    match dice.below(3) {
        0 => {
            let (along, across) = (
                Vector::new(1.0, 0.0),
                Vector::new(0.0, -dice.mostly(1.0, 40.0)),
            );
            match Strip::new(pairs[0][0], along, across) {
                Ok(band) => chained(&mut dice, &band, repeat.as_ref(), 300.0),
                Err(error) => told(&error),
            }
        }
        1 => match RuledBand::new(&pairs) {
            Ok(band) => {
                mapped(&mut dice, &band, band.length(), band.no_fold());
                chained(&mut dice, &band, repeat.as_ref(), band.length());
            }
            Err(error) => told(&error),
        },
        _ => match SplineBand::new(&pairs) {
            Ok(band) => {
                mapped(&mut dice, &band, band.length(), band.no_fold());
                chained(&mut dice, &band, repeat.as_ref(), band.length());
            }
            Err(error) => told(&error),
        },
    }
}

/// Places and finds again.
fn mapped<B: BandMap>(dice: &mut Dice<'_>, band: &B, length: f64, no_fold: bool) {
    assert!(length > 0.0 && length.is_finite(), "{length}");
    assert!(band.depth() > 0.0 && band.depth().is_finite());
    for _ in 0..4 {
        let (s, t) = (dice.between(0.0, length), dice.between(0.0, 1.0));
        let point = band.place(s, t);
        finite(&[point]);
        assert!(band.depth_at(s).is_finite());
        let step = band.place_vector_at(s, t, 1.0, 0.5);
        assert!(step.norm().is_finite());
        let found = band.locate(point);
        if let Some((s, t)) = found {
            let off = (band.place(s, t) - point).norm();
            assert!(off <= 1e-6 * (1.0 + length + point.coords.norm()), "{off}");
        }
        assert!(
            found.is_some() || !no_fold,
            "{point} of the band is not found"
        );
    }
    if let Some((s, t)) = band.locate(Point::new(dice.number(), dice.number())) {
        assert!(s.is_finite() && t.is_finite());
    }
}

fn chained<B: BandMap>(dice: &mut Dice<'_>, band: &B, repeat: Option<&Repeat>, length: f64) {
    let Some(repeat) = repeat else {
        return;
    };
    let terminals = [(0.0, 10.0), (length - 10.0, length)].map(|(from, to)| {
        let along = dice.mostly(from, to);
        let across = match dice.below(4) {
            0 => Across::At(dice.mostly(0.0, 1.0)),
            1 => Across::Near(dice.mostly(0.0, 1.0)),
            _ => Across::Drawn,
        };
        Terminal::new(along).with_across(across)
    });
    let alternate = dice.pick(&[
        Alternate::None,
        Alternate::LeftRight,
        Alternate::TopBottom,
        Alternate::Centred,
        Alternate::CentredFirst,
    ]);
    let options = ChainOptions::new(dice.below(30))
        .with_alternate(alternate)
        .with_ends(dice.pick(&[Ends::Level, Ends::Link]))
        .with_join_tolerance(dice.mostly(0.01, 1.0))
        .with_flattening(dice.mostly(0.01, 1.0));
    // A fine flattening takes its points by right.
    let size = terminals
        .iter()
        .map(|end| end.along.abs())
        .fold(length, f64::max);
    if options.flattening > 0.0 && size / options.flattening > 1e6 {
        return;
    }
    match chain_repeats(repeat, band, terminals, &options) {
        Ok(chain) => {
            finite(chain.motif.points());
            let last = chain.motif.points().len();
            assert!(chain.ends.iter().all(|&end| end < last), "{:?}", chain.ends);
            assert!(chain.ends.is_sorted(), "{:?}", chain.ends);
            for (terminal, reached) in terminals.iter().zip(chain.across) {
                if let Across::At(wanted) = terminal.across {
                    assert_eq!(reached, wanted);
                }
            }
        }
        Err(error) => told(&error),
    }
}
