//! How many points a chain may have.

use super::*;
use crate::error::ErrorKind;

/// The number of points that a chain is refused for, and the limit named.
fn refused(error: &Error) -> Option<(f64, usize)> {
    match error.kind() {
        ErrorKind::Fit(FitFault::TooManyPoints { count, limit }) => Some((*count, *limit)),
        _ => None,
    }
}

/// A copy of three points counts four, with a link before it.
#[test]
fn a_chain_of_more_than_ten_million_points_is_refused() {
    let hill = repeat(&[(0.0, 0.5), (0.5, 0.0), (1.0, 0.5)]);
    // What is within the limit gets as far as its ends, of which one is refused.
    let chain = |repeats| {
        let ends = [at(0.0, Some(2.0)), at(100.0, None)];
        let options = options(repeats, Alternate::None, Ends::Level);
        chain_repeats(&hill, &strip(), ends, &options).expect_err("refused")
    };
    assert_eq!(refused(&chain(2_500_000)), None);
    let beyond = refused(&chain(2_500_001));
    assert_eq!(beyond, Some((10_000_004.0, 10_000_000)));
    assert!(refused(&chain(usize::MAX)).is_some_and(|(count, _)| count >= usize::MAX as f64));
}

#[test]
fn a_stretch_of_band_without_room_is_refused() {
    let hill = repeat(&[(0.0, 0.5), (0.5, 0.0), (1.0, 0.5)]);
    for room in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let ends = [at(20.0, None), at(20.0 + room, None)];
        let options = options(1, Alternate::None, Ends::Level);
        let error = chain_repeats(&hill, &strip(), ends, &options).expect_err("refused");
        let ErrorKind::Fit(FitFault::SpanNotPositive { span }) = error.kind() else {
            panic!("{error}");
        };
        assert!(*span == room || span.is_nan() && room.is_nan());
    }
}

/// Lines that are divided on the way, up to the limit that all of the path has together.
#[test]
fn a_flattening_that_is_too_fine_is_refused() {
    let station = |x: f64, inner: f64| [Point::new(x, inner), Point::new(x, 0.0)];
    let band = RuledBand::new(&[station(0.0, 5.0), station(100.0, 9.0)]).expect("a band");
    let hill = repeat(&[(0.0, 0.5), (0.5, 0.0), (1.0, 0.5)]);
    let chain = |flattening| {
        let ends = [at(0.0, None), at(100.0, None)];
        let options = options(2, Alternate::None, Ends::Level).with_flattening(flattening);
        chain_repeats(&hill, &band, ends, &options)
    };
    assert!(chain(1e-6).expect("a chain").motif.points().len() < 10_000);
    for flattening in [1e-15, 1e-300] {
        let error = chain(flattening).expect_err("too fine");
        let (count, limit) = refused(&error).expect("its points");
        assert!(count > 1e7 && limit == 10_000_000, "{error}");
    }
}
