//! Seams and edges that are not straight: stations along the sides of a border.
//!
//! Problem: a border that was stretched while it was sewn on waves; its band is to follow the
//! cloth. Method: at each station the edge and the seam are a distance off the straight line
//! between the side's corners. The band of a side is a smooth curve through its stations, between
//! the lines on which the corners end; corners lie where the border is taken as straight.
//! Guarantee: edge and seam meet the stations; the band keeps the gaps along the ruling of each; it
//! leaves and meets its corners within a hair of their direction, since a further station on the
//! straight band stands just outside either end. Failure: stations off their side or twice in one
//! place, gaps that leave no band at a station, a band that folds. Stations within the reach of a
//! corner are skipped, and counted. A station where a side ends is the side's width there; but a
//! corner that the side joins on to ends as if the border were straight, so there it is skipped
//! unless it says the same.

use super::meet::closed;
use super::outline::{OutlineBand, SideWidths};
use super::place::Side;
use crate::error::{Error, PlanFault};
use crate::geom::Point;
use crate::plan::ask::{BorderSpec, SideNameSpec};
use crate::units::Unit;
use crate::warp::{BandMap, SplineBand, inset_stations, subdivide};

/// How far outside a side's ends the straight band is held, as a share of the way to the next
/// station: small, so that the curve's slope at the end is that of the corner.
const HELD: f64 = 0.02;

/// A station that is no farther from a side's end is at it: 1/8 in, about what a tape measure on
/// soft cloth leaves open; our own choice.
const AT_END_MM: f64 = 25.4 / 8.0;

/// The most points of a line between two stations.
const MAX_LINE_POINTS: usize = 10_000;

/// One station: distances from the straight line between the corners, inwards.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Station {
    at: f64,
    edge: f64,
    seam: f64,
}

/// The stations of a border, side by side, in the order of travel.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct Waves {
    sides: Vec<Vec<Station>>,
}

impl Waves {
    /// So many straight sides.
    pub(super) fn none(sides: usize) -> Self {
        Self {
            sides: vec![Vec::new(); sides],
        }
    }
}

/// Reads the stations of a border.
pub(in crate::plan) fn read(
    border: &BorderSpec,
    unit: Unit,
    band: &OutlineBand,
    widths: &[SideWidths],
) -> Result<Waves, Error> {
    let mut sides = vec![Vec::new(); band.sides()];
    for (index, spec) in border.stations.iter().enumerate() {
        let station = || {
            let side = side(&spec.side, band.sides()).map_err(|e| e.in_element("side"))?;
            let length = band.edge.side_length(side);
            let at = spec.at.mm(unit);
            // A word that is no number, and a place off the side, are one fault.
            if !(at > 0.0 && at < length) {
                return Err(Error::from(PlanFault::StationOffSide { at, length }).in_element("at"));
            }
            let edge = spec.edge.as_ref().map_or(0.0, |edge| edge.mm(unit));
            let seam = match &spec.seam {
                Some(seam) => seam.mm(unit),
                None => widths[side].width,
            };
            Ok((side, Station { at, edge, seam }))
        };
        let (side, station) = station().map_err(|e| e.in_element(format!("stations[{index}]")))?;
        sides[side].push(station);
    }
    for stations in &mut sides {
        stations.sort_by(|a, b| a.at.total_cmp(&b.at));
        if let Some(pair) = stations.windows(2).find(|pair| pair[0].at == pair[1].at) {
            let at = pair[0].at;
            return Err(Error::from(PlanFault::StationTwiceAt { at }).in_element("stations"));
        }
    }
    Ok(Waves { sides })
}

fn side(name: &SideNameSpec, count: usize) -> Result<usize, Error> {
    let found = match name {
        SideNameSpec::Number(number) => Some(number.wrapping_sub(1)).filter(|side| *side < count),
        SideNameSpec::Name(name) => Side::all(count)
            .find(|side| side.name() == name)
            .map(Side::index),
    };
    found.ok_or_else(|| {
        let given = match name {
            SideNameSpec::Number(number) => number.to_string(),
            SideNameSpec::Name(name) => format!("\"{name}\""),
        };
        PlanFault::NoSuchSide { given, count }.into()
    })
}

impl Waves {
    /// True when a side has stations.
    pub(in crate::plan) fn any(&self, side: Side) -> bool {
        self.sides
            .get(side.index())
            .is_some_and(|stations| !stations.is_empty())
    }

    /// The pairs of (seam, edge) points of a side's stations.
    fn pairs(&self, band: &OutlineBand, side: Side) -> Vec<[Point; 2]> {
        let start = band.edge.corners()[side.index()];
        let along = band.edge.direction(side.index());
        let inwards = -band.outwards(side.index());
        let pair = |station: &Station| {
            let foot = start + along * station.at;
            [station.seam, station.edge].map(|by| foot + inwards * by)
        };
        let stations = self.sides.get(side.index()).into_iter().flatten();
        stations.map(pair).collect()
    }

    /// The edge and the seam as closed lines.
    pub(in crate::plan) fn edge_and_seam(
        &self,
        band: &OutlineBand,
        flattening: f64,
    ) -> Result<[Vec<Point>; 2], Error> {
        let mut lines = [Vec::new(), Vec::new()];
        for side in Side::all(band.sides()) {
            let (at, after) = (side.index(), band.edge.after(side.index()));
            let pairs = self.pairs(band, side);
            for ((sides, polygon), which) in
                lines.iter_mut().zip([&band.edge, &band.seam]).zip([1, 0])
            {
                let (first, last) = (polygon.corners()[at], polygon.corners()[after]);
                let along = polygon.direction(at);
                let room = (last - first).dot(&along);
                // At a corner of the line itself a station has nothing to say: the corner is there.
                let between = AT_END_MM..room - AT_END_MM;
                let measured: Vec<Point> = pairs
                    .iter()
                    .map(|pair| pair[which])
                    .filter(|point| between.contains(&(point - first).dot(&along)))
                    .collect();
                if measured.is_empty() {
                    sides.push(vec![first, last]);
                    continue;
                }
                let mut line = vec![first];
                // A line is the middle of a band whose rulings are all alike.
                let ruling = band.outwards(at);
                let points = [first].into_iter().chain(measured).chain([last]);
                let pairs: Vec<[Point; 2]> = points
                    .map(|point| [point - ruling, point + ruling])
                    .collect();
                let curve = SplineBand::new(&pairs)
                    .map_err(|e| e.in_element(side.to_string()).in_element("stations"))?;
                trace(&curve, [0.0, curve.length()], 0.5, flattening, &mut line)?;
                line.push(last);
                sides.push(line);
            }
        }
        Ok(lines.map(closed))
    }

    /// The band of a side between two lines across it, and where on it the side starts and ends;
    /// `None` where no station lies between them. Also the number of stations skipped. The ends are
    /// given as (inner, outer) points, and whether a corner joins on at each.
    pub(in crate::plan) fn between(
        &self,
        band: &OutlineBand,
        side: Side,
        widths: &SideWidths,
        (mut ends, joined): ([[Point; 2]; 2], [bool; 2]),
    ) -> Result<(Option<Waved>, usize), Error> {
        let strip = band.strip(side.index());
        let along = |point: Point| strip.locate(point).0;
        let from = ends[0].map(along).into_iter().fold(f64::MIN, f64::max);
        let to = ends[1].map(along).into_iter().fold(f64::MAX, f64::min);
        let mut pairs: Vec<[Point; 2]> = Vec::new();
        let mut passed_over = 0;
        let mut ends_measured = false;
        for pair in self.pairs(band, side) {
            let at = along(pair[0]);
            let end = [from, to]
                .iter()
                .position(|end| (at - end).abs() <= AT_END_MM);
            match end {
                Some(end) => {
                    let measured = inset_stations(&[pair], widths.seam_gap, widths.edge_gap)?[0];
                    // How much farther out than the straight line each line is.
                    let out = [0, 1]
                        .map(|line| (strip.locate(measured[line]).1 - line as f64) * strip.depth());
                    if !joined[end] {
                        let outwards = band.outwards(side.index());
                        for (point, by) in ends[end].iter_mut().zip(out) {
                            *point += outwards * by;
                        }
                        ends_measured = true;
                    } else if out.iter().any(|by| by.abs() > AT_END_MM) {
                        passed_over += 1;
                    }
                }
                None if (from..=to).contains(&at) => pairs.push(pair),
                None => passed_over += 1,
            }
        }
        if pairs.is_empty() && !ends_measured {
            return Ok((None, passed_over));
        }
        let inner = inset_stations(&pairs, widths.seam_gap, widths.edge_gap)?;
        let first = inner.first().copied().unwrap_or(ends[1]);
        let last = inner.last().copied().unwrap_or(ends[0]);
        // Just outside either end the band is still the corner's.
        let held = |end: [Point; 2], next: [Point; 2], outwards: f64| {
            let step = (along(next[0]) - along(end[0])).abs() * HELD;
            end.map(|point| point + strip.along() * (outwards * step))
        };
        let mut stations = vec![held(ends[0], first, -1.0), ends[0]];
        stations.extend(&inner);
        stations.extend([ends[1], held(ends[1], last, 1.0)]);
        let curve = SplineBand::new(&stations)?;
        if !curve.no_fold() {
            let side = side.to_string();
            return Err(PlanFault::BandFolds { side }.into());
        }
        let places = curve.along();
        let along = [places[1], places[places.len() - 2]];
        Ok((Some(Waved { curve, along }), passed_over))
    }
}

/// The smooth band of a side, and where on it the side starts and ends.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct Waved {
    pub(in crate::plan) curve: SplineBand,
    pub(in crate::plan) along: [f64; 2],
}

impl Waved {
    /// The outer and the inner line of the band from the side's start to its end.
    pub(in crate::plan) fn lines(&self, flattening: f64) -> Result<[Vec<Point>; 2], Error> {
        let mut lines = [Vec::new(), Vec::new()];
        for (line, t) in lines.iter_mut().zip([1.0, 0.0]) {
            line.push(self.curve.place(self.along[0], t));
            trace(&self.curve, self.along, t, flattening, line)?;
            line.push(self.curve.place(self.along[1], t));
        }
        Ok(lines)
    }
}

/// Adds the points of a line of the band strictly between two places.
fn trace(
    curve: &SplineBand,
    [from, to]: [f64; 2],
    t: f64,
    tolerance: f64,
    line: &mut Vec<Point>,
) -> Result<(), Error> {
    let between = curve
        .along()
        .iter()
        .copied()
        .filter(|at| *at > from && *at < to);
    let mut start = from;
    for (index, end) in between.chain([to]).enumerate() {
        if index > 0 {
            line.push(curve.place(start, t));
        }
        let see = |s, t| line.push(curve.place(s, t));
        subdivide(curve, (start, t), (end, t), tolerance, MAX_LINE_POINTS, see).map_err(
            |count| {
                Error::from(crate::error::FitFault::TooManyPoints {
                    count,
                    limit: MAX_LINE_POINTS,
                })
            },
        )?;
        start = end;
    }
    Ok(())
}
