//! Subpaths to one open path: which pieces meet end to end, in which order and direction.
//!
//! Problem: one path, or as few as can be, that use every piece of a drawing once.
//! Method: the walks of `trails`; along them pieces are turned and put one after the other, and
//! where two meet the later one gives way.
//! Guarantee: the number of separate lines left is the least possible (see `trails`).
//! Failure: more than one line left; then every gap is named, or linked straight on request, or
//! each line is given by itself.

use super::ends::LineEnds;
use super::engine::{AddedKind, AddedStretch, Made, MadeLine, OneLineReport, one_line};
use super::options::Gaps;
use super::subpath::Subpath;
use super::trails::trails;
use crate::error::{Error, GeometryFault, MotifFault};
use crate::geom::flatten::FlatPath;
use crate::geom::lines::Lines;
use crate::geom::{Bounds, Gap, Point, Vector};
use crate::graph::Step;
use crate::motif::Motif;

/// So many strokes are made one line at the most; it bounds time and memory.
const MAX_STROKES: usize = 200_000;

/// A closed line is as large as this many join tolerances at least to be gone over again.
const LEAST_SIZE: f64 = 20.0;

/// A drawing joined to one open path.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Joined {
    /// The motif.
    pub motif: Motif,
    /// The straight links that were added, in the order of travel.
    pub links: Vec<Gap>,
    /// How many pieces are travelled against the direction of drawing.
    pub reversed: usize,
    /// The stretches that are links or are stitched for the second time, in the order of travel.
    pub added: Vec<AddedStretch>,
    /// What it took to make one line.
    pub report: OneLineReport,
}

/// A drawing as one line, or as several that are stitched with a thread cut between them.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct JoinedLines {
    /// The lines in the order of stitching, at least one; each knows its links.
    pub motifs: Vec<Motif>,
    /// What it took to make them.
    pub report: OneLineReport,
}

impl AsRef<[Point]> for Joined {
    fn as_ref(&self) -> &[Point] {
        self.motif.points()
    }
}

impl From<Joined> for Motif {
    fn from(joined: Joined) -> Self {
        joined.motif
    }
}

impl From<Joined> for JoinedLines {
    fn from(joined: Joined) -> Self {
        Self {
            motifs: vec![joined.motif],
            report: joined.report,
        }
    }
}

/// Lines that were so from the start.
impl FromIterator<Motif> for JoinedLines {
    fn from_iter<I: IntoIterator<Item = Motif>>(lines: I) -> Self {
        Self {
            motifs: lines.into_iter().collect(),
            report: OneLineReport::default(),
        }
    }
}

/// A line that was one from the start.
impl From<Motif> for Joined {
    fn from(motif: Motif) -> Self {
        Self {
            motif,
            links: Vec::new(),
            reversed: 0,
            added: Vec::new(),
            report: OneLineReport::default(),
        }
    }
}

/// Joins subpaths that meet end to end to one open path, reversing pieces where needed.
///
/// Ends within `tolerance` (in the unit of the points) meet; there the later piece gives way.
/// A closed drawing opens at its own start point.
///
/// # Errors
///
/// A motif error when there is no subpath, or when pieces are left apart and `gaps` refuses
/// that: it lists each gap with ids, place and size. A geometry error as in
/// [`crate::geom::Polyline::new`], and for a subpath without points.
///
/// # Complexity
///
/// O(points + pieces log pieces) expected, when few ends lie within the tolerance of each other;
/// O(pieces²) at worst.
pub(super) fn join(
    name: &str,
    mut subpaths: Vec<Subpath>,
    tolerance: f64,
    (gaps, ends): (Gaps, LineEnds),
) -> Result<Joined, Error> {
    let (steps, links) = match lined_up(&mut subpaths, tolerance, (gaps, ends))? {
        LinedUp::Whole(flat) => return Ok(Motif::from_flat(name, flat)?.into()),
        LinedUp::Walked => {
            let mut made = walked(&subpaths, tolerance, ends, None)?;
            let MadeLine { points, added } = made.lines.swap_remove(0);
            return Ok(Joined {
                motif: with_links(name, points, &added)?,
                links: made.links,
                reversed: made.reversed,
                added,
                report: made.report,
            });
        }
        LinedUp::Follow(steps, links) => (steps, links),
    };
    if !links.is_empty() && gaps != Gaps::Link {
        return Err(MotifFault::Apart {
            pieces: links.len() + 1,
            gaps: links,
        }
        .into());
    }
    let reversed = steps.iter().filter(|step| step.reversed).count();
    let motif = concatenate(name, &mut subpaths, &steps, tolerance)?;
    Ok(Joined {
        motif,
        links,
        reversed,
        added: Vec::new(),
        report: OneLineReport::default(),
    })
}

/// As [`join`], but with several lines where the options let what is apart stay apart, or the
/// thread be cut at this price.
pub(super) fn join_lines(
    name: &str,
    mut subpaths: Vec<Subpath>,
    tolerance: f64,
    (gaps, ends, cut): (Gaps, LineEnds, Option<f64>),
) -> Result<JoinedLines, Error> {
    if gaps == Gaps::Apart {
        let motifs = join_meeting(name, subpaths, tolerance)?;
        let report = OneLineReport::default();
        return Ok(JoinedLines { motifs, report });
    }
    if cut.is_some()
        && let LinedUp::Walked = lined_up(&mut subpaths.clone(), tolerance, (gaps, ends))?
    {
        let made = walked(&subpaths, tolerance, ends, cut)?;
        let several = made.lines.len() > 1;
        let lines = made.lines.into_iter().zip(1..).map(|(line, number)| {
            let name = match several {
                true => format!("{name} {number}"),
                false => name.to_owned(),
            };
            with_links(&name, line.points, &line.added)
        });
        return Ok(JoinedLines {
            motifs: lines.collect::<Result<_, Error>>()?,
            report: made.report,
        });
    }
    join(name, std::mem::take(&mut subpaths), tolerance, (gaps, ends)).map(JoinedLines::from)
}

/// How subpaths become one line.
enum LinedUp {
    /// A single one, as it is.
    Whole(FlatPath),
    /// One after the other, with these gaps.
    Follow(Vec<Step>, Vec<Gap>),
    /// In any order along what is drawn, parts of it stitched twice.
    Walked,
}

/// A line that is drawn as one stays so where its ends are those that are wanted, turned where it
/// has them the other way round.
fn lined_up(
    subpaths: &mut Vec<Subpath>,
    tolerance: f64,
    how: (Gaps, LineEnds),
) -> Result<LinedUp, Error> {
    check(subpaths)?;
    if let [one] = subpaths.as_slice() {
        let (from, to) = one.ends(false);
        return Ok(match turned(subpaths, tolerance, how, [from, to])? {
            Some(false) => LinedUp::Whole(subpaths.remove(0).flat),
            Some(true) => {
                let turned = Step {
                    index: 0,
                    reversed: true,
                };
                LinedUp::Follow(vec![turned], Vec::new())
            }
            None => LinedUp::Walked,
        });
    }
    let trails = trails(subpaths, tolerance);
    let (mut steps, links) = line_up(subpaths, trails);
    if how.0 == Gaps::OneLine && !links.is_empty() {
        return Ok(LinedUp::Walked);
    }
    let ends_of = |step: &Step| subpaths[step.index].ends(step.reversed);
    let (from, to) = (ends_of(&steps[0]).0, ends_of(&steps[steps.len() - 1]).1);
    Ok(match turned(subpaths, tolerance, how, [from, to])? {
        Some(turn) => {
            if turn {
                steps.reverse();
                steps
                    .iter_mut()
                    .for_each(|step| step.reversed = !step.reversed);
            }
            LinedUp::Follow(steps, links)
        }
        None => LinedUp::Walked,
    })
}

/// Whether a line that is drawn as one, from end to end, is turned to have the ends that are
/// wanted; none where it hasn't those.
fn turned(
    subpaths: &[Subpath],
    tolerance: f64,
    (gaps, ends): (Gaps, LineEnds),
    [from, to]: [Point; 2],
) -> Result<Option<bool>, Error> {
    // A closed line has no ends at two places: a part of it has to be gone over again. One of no
    // size stays as it is; what it is for refuses it with its reason.
    let closed = || (to - from).norm() <= tolerance && extent(subpaths) > LEAST_SIZE * tolerance;
    Ok(match ends {
        _ if gaps != Gaps::OneLine => Some(false),
        _ if ends.is_at_gates() && closed() => None,
        LineEnds::Given { .. } => {
            let points = subpaths.iter().map(|each| each.flat.points.as_slice());
            let lines = Lines::new(&points.collect::<Vec<&[Point]>>(), 0.0)?;
            ends.drawn(&lines, [from, to], tolerance)
        }
        LineEnds::Free | LineEnds::Across | LineEnds::Legs(_) => Some(false),
    })
}

/// The diagonal of the box of all subpaths.
fn extent(subpaths: &[Subpath]) -> f64 {
    let boxes = subpaths
        .iter()
        .map(|each| Bounds::of_nonempty(&each.flat.points));
    let bounds = boxes.reduce(|one, other| one.union(&other));
    bounds.map_or(0.0, |bounds| bounds.size().norm())
}

/// Subpaths that don't follow one another as lines with as little as possible stitched twice.
fn walked(
    subpaths: &[Subpath],
    tolerance: f64,
    ends: LineEnds,
    cut: Option<f64>,
) -> Result<Made, Error> {
    if subpaths.len() > MAX_STROKES {
        return Err(MotifFault::TooManyStrokes {
            count: subpaths.len(),
            limit: MAX_STROKES,
        }
        .into());
    }
    let strokes: Vec<(&str, &[Point])> = subpaths
        .iter()
        .map(|subpath| (&*subpath.id, subpath.flat.points.as_slice()))
        .collect();
    one_line(&strokes, tolerance, ends, cut)
}

/// A motif that knows which of its segments are links.
fn with_links(name: &str, points: Vec<Point>, added: &[AddedStretch]) -> Result<Motif, Error> {
    let links = added.iter().filter(|added| added.kind == AddedKind::Link);
    let links = links.map(|added| added.first).collect();
    Ok(Motif::from_points(name, points)?.with_links(links))
}

/// Joins subpaths that meet end to end, to the fewest lines, in the order of their earliest pieces.
///
/// As [`join`], but what is apart stays apart. A single line has the given name, each of several
/// the id of the piece that it starts with.
///
/// # Errors
///
/// A motif error when there is no subpath; a geometry error as in
/// [`crate::geom::Polyline::new`], and for a subpath without points.
///
/// # Complexity
///
/// O(points + pieces log pieces) expected, when few ends lie within the tolerance of each other;
/// O(pieces²) at worst.
pub(super) fn join_meeting(
    name: &str,
    mut subpaths: Vec<Subpath>,
    tolerance: f64,
) -> Result<Vec<Motif>, Error> {
    check(&subpaths)?;
    let trails = trails(&subpaths, tolerance);
    let several = trails.len() > 1;
    let lines = trails.iter().map(|steps| {
        let id = match steps.first() {
            Some(first) if several => subpaths[first.index].id.to_string(),
            _ => name.to_owned(),
        };
        concatenate(&id, &mut subpaths, steps, tolerance)
    });
    lines.collect()
}

/// Refuses a drawing without subpaths, and a subpath without points.
fn check(subpaths: &[Subpath]) -> Result<(), Error> {
    if subpaths.is_empty() {
        return Err(MotifFault::Nothing.into());
    }
    match subpaths.iter().find(|each| each.flat.points.is_empty()) {
        Some(empty) => {
            let fault = GeometryFault::TooFewPoints { found: 0 };
            Err(Error::from(fault).in_element(&*empty.id))
        }
        None => Ok(()),
    }
}

/// Puts the walks one after the other, each turned so that its nearer end comes first.
fn line_up(subpaths: &[Subpath], trails: Vec<Vec<Step>>) -> (Vec<Step>, Vec<Gap>) {
    let mut steps: Vec<Step> = Vec::with_capacity(subpaths.len());
    let mut links = Vec::new();
    for mut trail in trails {
        let Some(&last) = steps.last() else {
            steps = trail;
            continue;
        };
        let tail = subpaths[last.index].ends(last.reversed).1;
        let head = |step: &Step| subpaths[step.index].ends(step.reversed).0;
        let foot = |step: &Step| subpaths[step.index].ends(step.reversed).1;
        if (foot(&trail[trail.len() - 1]) - tail).norm() < (head(&trail[0]) - tail).norm() {
            trail.reverse();
            for step in &mut trail {
                step.reversed = !step.reversed;
            }
        }
        links.push(Gap {
            from_id: subpaths[last.index].id.to_string(),
            from: tail,
            to_id: subpaths[trail[0].index].id.to_string(),
            to: head(&trail[0]),
        });
        steps.extend(trail);
    }
    (steps, links)
}

fn concatenate(
    name: &str,
    subpaths: &mut [Subpath],
    steps: &[Step],
    tolerance: f64,
) -> Result<Motif, Error> {
    let pieces = steps.iter().map(|step| &subpaths[step.index]);
    let total = pieces.map(|s| s.flat.points.len()).sum();
    let mut points: Vec<Point> = Vec::with_capacity(total);
    let mut directions = [Vector::zeros(); 2];
    let mut links = Vec::new();
    for (at, step) in steps.iter().enumerate() {
        let flat = &mut subpaths[step.index].flat;
        let mut piece = std::mem::take(&mut flat.points);
        let mut turned = [flat.start_direction, flat.end_direction];
        if step.reversed {
            piece.reverse();
            turned = [-turned[1], -turned[0]];
        }
        let meets = points
            .last()
            .is_some_and(|tail| (tail - piece[0]).norm() <= tolerance);
        if !meets && !points.is_empty() {
            links.push(points.len() - 1);
        }
        points.extend(&piece[usize::from(meets)..]);
        if at == 0 {
            directions[0] = turned[0];
        }
        directions[1] = turned[1];
    }
    let motif = Motif::from_points(name, points)?.with_directions(directions);
    Ok(motif.with_links(links))
}

#[cfg(test)]
mod tests;
