//! The four marks of drawing paper, and its code, in a picture.
//!
//! Problem: which dark shapes are the marks, and which of them is which, at any size, turn and
//! slant. Method: a shape's area against the spread of its ink, area² / determinant of the spread,
//! is the same however a flat shape is stretched or turned: 144 for squares and all they become, π²
//! · 16 for discs, and less for rings, by their hole. The three squares of about the ring's size
//! that make a four-sided shape with it, and whose code can be read along its far side, are the
//! marks. Guarantee: a code that is read has passed its check. O(shapes + squares³), squares being
//! 12 at most. Failure: marks that something touches are no squares any more; then how many were
//! found is said.

use super::blank::{Blank, CELLS, MARK_MM, RING_MM, cell_middle, cell_share};
use super::blobs::{Blob, Blobs};
use super::grey::Grey;
use super::homography::Homography;
use super::ink::{Mask, Paper};
use crate::error::ScanFault;
use crate::geom::{Point, Vector};

/// Drawing paper that was found.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    pub(super) blank: Blank,
    /// From millimetres of the paper to pixels.
    pub(super) to_picture: Homography,
    pub(super) to_paper: Homography,
    /// The shapes that are its marks, from the ring clockwise.
    pub(super) marks: [usize; 4],
}

/// The marks with the code, or what of them there is.
pub(super) fn find(
    grey: &Grey,
    paper: &Paper,
    mask: &Mask,
    blobs: &Blobs,
) -> Result<Found, ScanFault> {
    let mut rings: Vec<usize> = Vec::new();
    let mut squares: Vec<usize> = Vec::new();
    for (at, blob) in blobs.blobs.iter().enumerate() {
        match shape(blob, mask) {
            Some(Shape::Ring) => rings.push(at),
            Some(Shape::Square) => squares.push(at),
            None => {}
        }
    }
    let area = |at: &usize| blobs.blobs[*at].area;
    rings.sort_by(|one, other| area(other).total_cmp(&area(one)));
    squares.sort_by(|one, other| area(other).total_cmp(&area(one)));
    rings.truncate(6);
    let mut missing = ScanFault::NoMarks;
    for &ring in &rings {
        let [outer, inner] = RING_MM;
        let share =
            std::f64::consts::FRAC_PI_4 * (outer * outer - inner * inner) / (MARK_MM * MARK_MM);
        let usual = area(&ring) / share;
        let alike = |at: &usize| (0.35..2.8).contains(&(area(at) / usual));
        let mut near: Vec<usize> = squares.iter().copied().filter(alike).collect();
        let unlike = |at: &usize| (area(at) / usual).ln().abs();
        near.sort_by(|one, other| unlike(one).total_cmp(&unlike(other)));
        near.truncate(12);
        if let Some(found) = with_ring(grey, paper, blobs, ring, &near, &mut missing) {
            return Ok(found);
        }
        if near.len() == 2 && missing == ScanFault::NoMarks {
            missing = ScanFault::MarksMissing {
                found: 3,
                ring: true,
            };
        }
    }
    // Letters are small rings.
    let large = |at: &usize| {
        squares
            .first()
            .is_some_and(|square| area(at) > 0.1 * area(square))
    };
    if !rings.iter().any(large) && squares.len() >= 3 {
        let alike = squares[..3]
            .iter()
            .all(|at| area(at) > 0.4 * area(&squares[0]));
        if alike && area(&squares[0]) > 400.0 {
            missing = ScanFault::MarksMissing {
                found: 3,
                ring: false,
            };
        }
    }
    Err(missing)
}

/// The paper that this ring and three of these squares belong to.
fn with_ring(
    grey: &Grey,
    paper: &Paper,
    blobs: &Blobs,
    ring: usize,
    squares: &[usize],
    missing: &mut ScanFault,
) -> Option<Found> {
    let place = |at: usize| Point::from(blobs.blobs[at].centre);
    for (one, &a) in squares.iter().enumerate() {
        for (two, &b) in squares.iter().enumerate().skip(one + 1) {
            for &c in &squares[two + 1..] {
                let marks = [ring, a, b, c];
                let Some(marks) = clockwise(marks, place) else {
                    continue;
                };
                let places = marks.map(place);
                let unit =
                    [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]].map(|[x, y]| Point::new(x, y));
                let Some(shares) = Homography::of(unit, places) else {
                    continue;
                };
                let Some(blank) = Blank::of_code(&cells(grey, paper, &shares)) else {
                    *missing = ScanFault::CodeUnreadable;
                    continue;
                };
                let to_picture = Homography::of(blank.marks(), places)?;
                let to_paper = to_picture.inverse()?;
                return Some(Found {
                    blank,
                    to_picture,
                    to_paper,
                    marks,
                });
            }
        }
    }
    None
}

/// The marks from the first one clockwise, when they are the corners of a convex shape.
fn clockwise(marks: [usize; 4], place: impl Fn(usize) -> Point) -> Option<[usize; 4]> {
    let places = marks.map(&place);
    let middle = places
        .iter()
        .fold(Vector::zeros(), |sum, place| sum + place.coords / 4.0);
    let angle = |at: usize| {
        let from = place(at).coords - middle;
        from.y.atan2(from.x)
    };
    let mut order = marks;
    order.sort_by(|&one, &other| angle(one).total_cmp(&angle(other)));
    let first = order.iter().position(|&at| at == marks[0])?;
    order.rotate_left(first);
    let corners = order.map(&place);
    let convex = (0..4).all(|at| {
        let [a, b, c] = [0, 1, 2].map(|by| corners[(at + by) % 4]);
        let (one, two) = (b - a, c - b);
        one.perp(&two) > 0.2 * one.norm() * two.norm()
    });
    convex.then_some(order)
}

/// Which cells of the code are black.
fn cells(grey: &Grey, paper: &Paper, shares: &Homography) -> [bool; CELLS] {
    std::array::from_fn(|cell| {
        let mut dark = 0.0;
        for by in [-0.2, 0.0, 0.2] {
            let place = shares.map(Point::new(cell_middle(cell) + by * cell_share(), 1.0));
            let clamp = |at: f64, count: usize| at.clamp(0.0, (count - 1) as f64) as usize;
            let light = paper.at(clamp(place.x, grey.width()), clamp(place.y, grey.height()));
            dark += 1.0 - grey.at(place.x, place.y) / f64::from(light.max(1));
        }
        dark / 3.0 > 0.45
    })
}

enum Shape {
    Ring,
    Square,
}

/// Which mark a shape could be.
fn shape(blob: &Blob, mask: &Mask) -> Option<Shape> {
    const LEAST_AREA: f64 = 120.0;
    let [width, height] = blob.size();
    if blob.area < LEAST_AREA || width > 3.0 * height || height > 3.0 * width {
        return None;
    }
    let [x, y, both] = blob.spread;
    let spread = x * y - both * both;
    let full = blob.area * blob.area / (144.0 * spread);
    // A thin long shape may be as full, but then it spreads far in one direction.
    let (sum, difference) = (x + y, (x - y).hypot(2.0 * both));
    if spread <= 0.0 || (sum + difference) > 9.0 * (sum - difference) {
        return None;
    }
    let [column, row] = blob.centre.map(|at| at as usize);
    let inked = mask.cells[row * mask.width + column] != 0;
    match inked {
        true if (0.93..1.06).contains(&full) => Some(Shape::Square),
        false if (0.15..0.65).contains(&full) => Some(Shape::Ring),
        _ => None,
    }
}
