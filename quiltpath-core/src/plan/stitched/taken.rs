//! Stitching taken down run by run, and taken back.

use super::part::{PartPlace, Stitched, StitchedBorder, StitchedPart};
use super::stretches::{common, with, without};
use crate::error::{Error, PlanFault, StitchFault, StitchedFault};
use crate::geom::Point;
use crate::geom::measure::point_at;
use crate::plan::lay::layout::Layout;
use crate::plan::piece::{PieceKind, PieceLine};
use crate::plan::solved::Solved;
use crate::plan::stitch::{PlannedRun, RunPart};

/// Lengths and places that differ by less, in millimetres, are the same.
const SAME_MM: f64 = 1e-6;

impl Stitched {
    /// What is stitched of a plan that was solved round it, where it lies in that plan.
    ///
    /// # Errors
    ///
    /// A stitched error when the stretches of a piece are none of it.
    pub fn of(solved: &Solved) -> Result<Self, Error> {
        let mut stitched = Self::default();
        for (number, piece) in solved.pieces.iter().enumerate() {
            if piece.has_begun() {
                let line = piece.line().clone();
                stitched.take(solved, number, line, &piece.stitched)?;
            }
        }
        Ok(stitched)
    }

    /// Takes down a run of a plan as stitched.
    ///
    /// # Errors
    ///
    /// A stitched error that names the piece when a stretch of it is stitched already or it was
    /// begun along another line, or the border when it was begun elsewhere; a plan error when the
    /// run is of another plan. Nothing is then taken down.
    ///
    /// # Complexity
    ///
    /// O(points of what is stitched and of the run's pieces).
    pub fn add(&mut self, solved: &Solved, run: &PlannedRun) -> Result<(), Error> {
        self.add_between(solved, run, [0.0, f64::INFINITY])
    }

    /// Takes down the stretch of a run between two lengths along its line, in millimetres; what
    /// lies beyond its end is none.
    ///
    /// # Errors
    ///
    /// As [`Stitched::add`].
    pub fn add_between(
        &mut self,
        solved: &Solved,
        run: &PlannedRun,
        between: [f64; 2],
    ) -> Result<(), Error> {
        let mut taken = self.clone();
        for (piece, stretch) in stretches(solved, run, between)? {
            let line = solved.pieces[piece].line().clone();
            taken.take(solved, piece, line, &[stretch])?;
        }
        *self = taken;
        Ok(())
    }

    /// Takes down stretches of a piece that was stitched along a line of its own, such as one that
    /// was fitted at the frame: the whole line in the plan's coordinates, with the places where its
    /// repeats end, and from where to where it is stitched, as shares of its length.
    ///
    /// A plan that is solved round it keeps that line and its number of repeats.
    ///
    /// # Errors
    ///
    /// As [`Stitched::add`]; a plan error when there is no piece of that number; a stitch error
    /// when the repeats don't end at rising points of the line, the last at its end.
    pub fn add_line(
        &mut self,
        solved: &Solved,
        piece: usize,
        line: PieceLine,
        between: &[[f64; 2]],
    ) -> Result<(), Error> {
        check_piece(solved, piece)?;
        let last = line.motif.points().len() - 1;
        let rising = line.ends.windows(2).all(|pair| pair[0] < pair[1]);
        if !(rising && line.ends.first() != Some(&0) && line.ends.last() == Some(&last)) {
            return Err(StitchFault::EndsAstray { last }.into());
        }
        let mut taken = self.clone();
        taken.take(solved, piece, line, between)?;
        *self = taken;
        Ok(())
    }

    /// Takes back what was taken down of a run; what is not stitched stays so.
    ///
    /// # Errors
    ///
    /// As [`Stitched::add`], but that what is not stitched is no error.
    pub fn remove(&mut self, solved: &Solved, run: &PlannedRun) -> Result<(), Error> {
        let mut left = self.clone();
        for (piece, stretch) in stretches(solved, run, [0.0, f64::INFINITY])? {
            let of = &solved.pieces[piece];
            let layout = &solved.layouts[of.border];
            let place = PartPlace::of(solved, piece);
            let Some(border) = left.borders.iter_mut().find(|b| b.name == layout.name) else {
                continue;
            };
            check_there(border, layout)?;
            let Some(part) = border.parts.iter_mut().find(|part| part.place.is(&place)) else {
                continue;
            };
            check_line(part, of.line(), &of.name)?;
            let same = SAME_MM / part.line.motif.length();
            part.stretches = without(&part.stretches, stretch, same);
        }
        for border in &mut left.borders {
            let begun: Vec<PartPlace> = (border.parts.iter())
                .filter(|part| !part.stretches.is_empty())
                .map(|part| part.place)
                .collect();
            border.parts.retain(|part| {
                let goes_with = |other: &PartPlace| belongs(&part.place, other);
                begun.iter().any(goes_with)
            });
        }
        left.borders.retain(StitchedBorder::has_begun);
        *self = left;
        Ok(())
    }

    /// Whether all of a run is stitched.
    ///
    /// # Errors
    ///
    /// A plan error when the run is of another plan.
    pub fn has(&self, solved: &Solved, run: &PlannedRun) -> Result<bool, Error> {
        let stretches = stretches(solved, run, [0.0, f64::INFINITY])?;
        let stitched = |&(piece, stretch): &(usize, [f64; 2])| {
            self.part(solved, piece).is_some_and(|part| {
                let same = SAME_MM / part.line.motif.length();
                let mut open = vec![stretch];
                for &stitched in &part.stretches {
                    open = without(&open, stitched, same);
                }
                open.is_empty()
            })
        };
        Ok(stretches.iter().all(stitched))
    }

    fn take(
        &mut self,
        solved: &Solved,
        number: usize,
        line: PieceLine,
        between: &[[f64; 2]],
    ) -> Result<(), Error> {
        let piece = &solved.pieces[number];
        let layout = solved
            .layouts
            .get(piece.border)
            .ok_or(PlanFault::NotThere {
                what: "border",
                number: piece.border,
                count: solved.layouts.len(),
            })?;
        let at = match self.borders.iter().position(|b| b.name == layout.name) {
            Some(at) => at,
            None => {
                self.borders.push(StitchedBorder::new(layout));
                self.borders.len() - 1
            }
        };
        let border = &mut self.borders[at];
        check_there(border, layout)?;
        for (place, sibling) in siblings(solved, number) {
            if border.part(&place).is_none() {
                border.parts.push(StitchedPart::new(place, sibling));
            }
        }
        let place = PartPlace::of(solved, number);
        let known = border.parts.iter_mut().find(|part| part.place.is(&place));
        let part = match known {
            Some(part) if part.stretches.is_empty() => {
                part.line = line;
                part
            }
            Some(part) => {
                check_line(part, &line, &piece.name)?;
                part
            }
            None => {
                border.parts.push(StitchedPart::new(place, line));
                let last = border.parts.len() - 1;
                &mut border.parts[last]
            }
        };
        let same = SAME_MM / part.line.motif.length();
        let name = || piece.name.clone();
        for &stretch in between {
            let [from, to] = stretch;
            if !(from < to && from >= -same && to <= 1.0 + same) {
                let between = stretch;
                let piece = name();
                return Err(StitchedFault::NoStretch { piece, between }.into());
            }
            if let Some(between) = common(&part.stretches, stretch, same) {
                let piece = name();
                return Err(StitchedFault::Twice { piece, between }.into());
            }
            part.stretches = with(&part.stretches, stretch, same);
        }
        Ok(())
    }
}

/// Whether a part is kept for the sake of another: itself, or a line of the same corner.
fn belongs(part: &PartPlace, begun: &PartPlace) -> bool {
    match (part, begun) {
        (PartPlace::Corner { place, .. }, PartPlace::Corner { place: there, .. }) => place == there,
        _ => part.is(begun),
    }
}

/// All lines of the corner that a piece belongs to, itself among them.
fn siblings(solved: &Solved, number: usize) -> Vec<(PartPlace, PieceLine)> {
    let piece = &solved.pieces[number];
    let PieceKind::Corner(detail) = &piece.kind else {
        return Vec::new();
    };
    let all = solved.pieces.iter().enumerate();
    let same = all.filter(|(_, other)| match &other.kind {
        PieceKind::Corner(there) => {
            other.border == piece.border && there.position == detail.position
        }
        _ => false,
    });
    same.map(|(at, other)| (PartPlace::of(solved, at), other.line().clone()))
        .collect()
}

/// Refuses a border that lies elsewhere than it did.
fn check_there(border: &StitchedBorder, layout: &Layout) -> Result<(), Error> {
    let seam = layout.band.seam.corners();
    let near = |one: f64, other: f64| (one - other).abs() <= SAME_MM;
    let same = border.seam.len() == seam.len()
        && border.widths.len() == layout.widths.len()
        && (border.seam.iter().zip(seam)).all(|(one, other)| (one - other).norm() <= SAME_MM)
        && border
            .widths
            .iter()
            .zip(&layout.widths)
            .all(|(one, other)| {
                near(one.width, other.width)
                    && near(one.seam_gap, other.seam_gap)
                    && near(one.edge_gap, other.edge_gap)
            });
    match same {
        true => Ok(()),
        false => Err(StitchedFault::OtherPlace {
            border: border.name.clone(),
        }
        .into()),
    }
}

/// Refuses a line that is another than the one that was begun.
fn check_line(part: &StitchedPart, line: &PieceLine, piece: &str) -> Result<(), Error> {
    let [old, new] = [&part.line, line].map(|line| line.motif.points());
    let near = |(one, other): (&Point, &Point)| (one - other).norm() <= SAME_MM;
    match old.len() == new.len() && old.iter().zip(new).all(near) && part.line.ends == line.ends {
        true => Ok(()),
        false => Err(StitchedFault::OtherLine {
            piece: piece.to_owned(),
        }
        .into()),
    }
}

fn check_piece(solved: &Solved, number: usize) -> Result<(), Error> {
    let count = solved.pieces.len();
    match number < count {
        true => Ok(()),
        false => Err(PlanFault::NotThere {
            what: "piece",
            number,
            count,
        }
        .into()),
    }
}

/// The stretches of pieces that a run goes through between two lengths along its line.
fn stretches(
    solved: &Solved,
    run: &PlannedRun,
    [from, to]: [f64; 2],
) -> Result<Vec<(usize, [f64; 2])>, Error> {
    let mut found = Vec::with_capacity(run.parts.len());
    let mut reached = 0.0;
    let mut last: Option<Point> = None;
    for part in &run.parts {
        check_piece(solved, part.piece)?;
        let motif = &solved.pieces[part.piece].motif();
        let length = motif.length();
        let [start, end] = ends(motif.points(), length, part);
        reached += last.map_or(0.0, |last| (start - last).norm());
        last = Some(end);
        let here = length * (part.between[1] - part.between[0]);
        let [first, second] = [from, to].map(|at| (at - reached).clamp(0.0, here));
        reached += here;
        if second - first > SAME_MM {
            let [low, high] = part.between;
            let [first, second] = [first / length, second / length];
            // What is whole is taken whole, to the bit.
            let whole = second - first >= (high - low) * (1.0 - 1e-12);
            found.push((
                part.piece,
                match (whole, part.reversed) {
                    (true, _) => [low, high],
                    (false, false) => [low + first, low + second],
                    (false, true) => [high - second, high - first],
                },
            ));
        }
    }
    Ok(found)
}

/// Where a part of a run starts and ends on the cloth.
fn ends(points: &[Point], length: f64, part: &RunPart) -> [Point; 2] {
    let at = |share: f64| point_at(points, share * length).unwrap_or(points[0]);
    let [from, to] = part.between.map(at);
    match part.reversed {
        true => [to, from],
        false => [from, to],
    }
}
