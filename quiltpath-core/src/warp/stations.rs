//! Stations: pairs of points measured along a seam and the edge across from it.

use crate::error::{Error, GeometryFault};
use crate::geom::polyline::check_coordinate;
use crate::geom::{Point, Vector};

/// The most stations of one band.
pub(super) const MAX_STATIONS: usize = 100_000;

/// A point of the middle line and the ruling there, from the inner line to the outer one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Station {
    pub(super) middle: Point,
    pub(super) ruling: Vector,
}

impl Station {
    pub(super) fn inner(&self) -> Point {
        self.middle - self.ruling * 0.5
    }

    pub(super) fn outer(&self) -> Point {
        self.middle + self.ruling * 0.5
    }
}

/// Checks pairs of (inner, outer) points in the order of travel.
pub(super) fn stations(pairs: &[[Point; 2]]) -> Result<Vec<Station>, Error> {
    let found = pairs.len();
    if !(2..=MAX_STATIONS).contains(&found) {
        let limit = MAX_STATIONS;
        return Err(GeometryFault::StationCount { found, limit }.into());
    }
    checked(pairs)
}

fn checked(pairs: &[[Point; 2]]) -> Result<Vec<Station>, Error> {
    let mut stations: Vec<Station> = Vec::with_capacity(pairs.len());
    for (index, [inner, outer]) in pairs.iter().enumerate() {
        for value in inner.iter().chain(outer.iter()).copied() {
            check_coordinate(index, value).map_err(|error| at(index, error))?;
        }
        let station = Station {
            middle: nalgebra::center(inner, outer),
            ruling: outer - inner,
        };
        if station.ruling.norm() == 0.0 {
            return Err(at(index, GeometryFault::StationWithoutDepth));
        }
        if stations.last().is_some_and(|s| s.middle == station.middle) {
            return Err(at(index, GeometryFault::StationTwice));
        }
        stations.push(station);
    }
    Ok(stations)
}

fn at(index: usize, error: impl Into<Error>) -> Error {
    error.into().in_element(format!("stations[{index}]"))
}

/// Stations of the band that may be stitched, from stations on the border's seam and edge.
///
/// Each pair of (seam, edge) points is moved together along the line between them: the inner one by
/// `seam_gap`, the outer one by `edge_gap`. Pairs are to be measured square across the border; on a
/// line that slants, the gaps are as much narrower as the line is longer than the border's depth.
///
/// ```
/// use quiltpath_core::{geom::Point, warp::inset_stations};
///
/// let stations = [[Point::new(0.0, 6.0), Point::new(0.0, 0.0)], [Point::new(9.0, 7.0), Point::new(9.0, 0.0)]];
/// let band = inset_stations(&stations, 0.25, 0.5)?;
/// assert_eq!(band[1], [Point::new(9.0, 6.75), Point::new(9.0, 0.5)]);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error that names the station where the gaps leave no band, or whose coordinates are
/// not finite.
///
/// # Complexity
///
/// O(n).
pub fn inset_stations(
    pairs: &[[Point; 2]],
    seam_gap: f64,
    edge_gap: f64,
) -> Result<Vec<[Point; 2]>, Error> {
    for (what, value) in [("the seam gap", seam_gap), ("the edge gap", edge_gap)] {
        if !(value >= 0.0 && value.is_finite()) {
            let accepted = "a length of 0 or more";
            return Err(Error::bad_number(what, value, accepted));
        }
    }
    let inset = |(index, station): (usize, Station)| {
        let width = station.ruling.norm();
        let gaps = seam_gap + edge_gap;
        if gaps >= width {
            return Err(at(index, GeometryFault::GapsTakeWidth { gaps, width }));
        }
        let unit = station.ruling / width;
        Ok([
            station.inner() + unit * seam_gap,
            station.outer() - unit * edge_gap,
        ])
    };
    checked(pairs)?.into_iter().enumerate().map(inset).collect()
}
