//! Printed guides of the drawing paper that came out dark enough to be taken for lines.
//!
//! Problem: pale blue is no ink in most pictures, but a hard copy or a strong scan makes it one.
//! Method: a line goes when all of it lies on a guide, whose place is known from the marks, and it
//! is paler than half of what the pen drew. Colour is not asked: a pen may be blue. Guarantee: what
//! leaves the guide by more than a pen's width stays, and so does what is dark. Failure: a faint
//! line drawn along a guide is lost; its length is reported.

use super::blank::Blank;
use super::centre::Inked;
use super::homography::Homography;
use super::net::Net;
use crate::geom::Point;
use crate::geom::measure::distance_to_segment;

/// How far from its place a guide may be printed and seen, in millimetres.
const NEAR_MM: f64 = 0.6;

/// As dark as guides come out in a strong scan, in shares of the paper.
const PALE: f64 = 0.3;

/// The net without guides, and how long those were in millimetres.
pub(super) fn without_guides(
    net: &Net,
    inked: &Inked<'_>,
    blank: &Blank,
    to_paper: &Homography,
) -> (Net, f64) {
    let guides = segments(blank);
    let dark: Vec<(f64, f64)> = (0..net.edges.len())
        .map(|at| (darkness(net, inked, at), net.length(at)))
        .collect();
    let pen = usual(&dark);
    let mut taken = 0.0;
    let gone: Vec<bool> = (0..net.edges.len())
        .map(|at| {
            let pale = dark[at].0 < (0.5 * pen).max(PALE);
            let mut places = net.points_from((at, 0)).map(|point| to_paper.map(point));
            let on_guide = pale
                && places.all(|place| {
                    guides
                        .iter()
                        .any(|&[from, to]| distance_to_segment(place, from, to) < NEAR_MM)
                });
            if on_guide {
                let mut last: Option<Point> = None;
                for place in net.points_from((at, 0)).map(|point| to_paper.map(point)) {
                    taken += last.map_or(0.0, |last| (place - last).norm());
                    last = Some(place);
                }
            }
            on_guide
        })
        .collect();
    match gone.contains(&true) {
        true => (net.without(&gone), taken),
        false => (net.clone(), 0.0),
    }
}

/// All printed lines of the band.
fn segments(blank: &Blank) -> Vec<[Point; 2]> {
    let outline = blank.outline();
    let closed = outline.iter().zip(outline.iter().cycle().skip(1));
    let way = blank.way();
    let along = way.iter().zip(&way[1..]);
    closed.chain(along).map(|(from, to)| [*from, *to]).collect()
}

/// How dark an edge is in the middle.
fn darkness(net: &Net, inked: &Inked<'_>, at: usize) -> f64 {
    let edge = &net.edges[at];
    let step = (edge.points.len() / 40).max(1);
    let places: Vec<Point> = edge.points.iter().copied().step_by(step).collect();
    let sum: f64 = places
        .iter()
        .map(|&place| inked.dark(place, inked.light(place)))
        .sum();
    sum / places.len().max(1) as f64
}

/// What the darker half of the line is at least, by length.
fn usual(dark: &[(f64, f64)]) -> f64 {
    let mut sorted = dark.to_vec();
    sorted.sort_by(|one, other| other.0.total_cmp(&one.0));
    let all: f64 = sorted.iter().map(|edge| edge.1).sum();
    let mut sum = 0.0;
    let found = sorted.iter().find(|edge| {
        sum += edge.1;
        sum >= 0.5 * all
    });
    found.map_or(0.0, |edge| edge.0)
}
