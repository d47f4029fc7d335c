//! The drawings of borders: of their corners and of their sides.

use super::known::{How, Known, MotifRequest, options};
use super::purpose::Purpose;
use crate::chain::Repeat;
use crate::error::{Error, PlanFault};
use crate::leg::is_clear_l;
use crate::motif::Motif;
use crate::plan::ask::{BorderSpec, SideSpec, given_ends};
use crate::plan::asked::{BorderAsked, CornerAsked};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::lay::place::Side;
use crate::plan::middle::Middle;
use crate::plan::repeats::Repeats;
use crate::plan::tolerances::Tolerances;
use crate::strokes::{Drawing, Gaps, JoinedLines, OneLineOptions};
use crate::units::Unit;

/// The drawings of one border.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Drawings {
    /// The lines of the corner motif: one, or several of a block; none where the style has none.
    pub(in crate::plan) corner: Vec<Motif>,
    pub(in crate::plan) repeats: Repeats,
}

impl Drawings {
    /// What there is to report of repeats that are drawn from right to left.
    pub(in crate::plan) fn backwards(&self, border: usize) -> impl Iterator<Item = Finding> {
        let backwards = self
            .repeats
            .designs()
            .iter()
            .filter(|repeat| repeat.is_backwards());
        backwards.map(move |repeat| {
            let drawing = repeat.name().to_owned();
            Finding::note(FindingKind::Backwards { drawing }).on_border(border)
        })
    }
}

/// What the keys of a border's corners say of that.
fn corner_how(border: &BorderSpec, asked: &BorderAsked) -> How {
    let corner = &border.corner;
    (corner.strokes.gaps(corner.link_gaps), asked.line_ends[0])
}

/// What those of its sides say.
fn side_how(border: &BorderSpec, asked: &BorderAsked) -> How {
    let side = &border.side;
    (side.strokes.gaps(side.link_gaps), asked.line_ends[1])
}

/// The line of a border's repeat for a band of this depth, or as large as it is drawn, and how many
/// times as large it becomes.
pub(in crate::plan) fn side_lines(
    border: &BorderSpec,
    (asked, tolerances): (&BorderAsked, Tolerances),
    depth: Option<f64>,
    drawing: &Drawing,
) -> Result<(f64, JoinedLines), Error> {
    let how = side_how(border, asked);
    let (factor, ends) = Purpose::Repeat.sized(drawing, depth);
    let lines = drawing.lines(&options(tolerances, factor, ends, how))?;
    Ok((factor, lines))
}

/// The lines of a border's corner drawing, likewise.
pub(in crate::plan) fn corner_lines(
    border: &BorderSpec,
    (asked, tolerances): (&BorderAsked, Tolerances),
    depth: Option<f64>,
    drawing: &Drawing,
) -> Result<(f64, JoinedLines), Error> {
    let how = corner_how(border, asked);
    let purpose = Purpose::corner(&asked.corner);
    let (factor, ends) = purpose.sized(drawing, depth);
    let options = options(tolerances, factor, ends, how);
    let lines = drawing.lines(&options.with_cut(purpose.cut().map(|cut| cut / factor)))?;
    Ok((factor, lines))
}

/// How a drawing becomes the line of a repeat for bands of this depth.
pub(in crate::plan) fn repeat_options(
    drawing: &Drawing,
    depth: f64,
    tolerances: Tolerances,
) -> OneLineOptions {
    let (factor, ends) = Purpose::Repeat.of(drawing, depth);
    options(tolerances, factor, ends, (Gaps::OneLine, [None, None]))
}

/// Refuses a repeat for the corner with an L for the side.
fn check_swapped(asked: &CornerAsked, corner: &Motif, side: &Motif) -> Result<(), Error> {
    // From left to right, or back, along most of its box.
    let runs_on = |motif: &Motif| {
        let along = (motif.end().point.x - motif.start().point.x).abs();
        along > 0.75 * motif.bounds().width()
    };
    let is_l = matches!(asked, CornerAsked::Leg { .. } | CornerAsked::Trimmed { .. });
    match is_l && runs_on(corner) && !is_clear_l(corner) && is_clear_l(side) {
        true => Err(PlanFault::Swapped {
            corner: corner.name().to_owned(),
            side: side.name().to_owned(),
        }
        .into()),
        false => Ok(()),
    }
}

/// The drawings of one border, for a band of this depth.
pub(super) fn of_border(
    known: &mut Known<'_, '_>,
    border: &BorderSpec,
    (asked, unit): (&BorderAsked, Unit),
    depth: f64,
) -> Result<Drawings, Error> {
    let corner = corner(known, border, asked, depth)?;
    let side = &border.side;
    let how = side_how(border, asked);
    let sides = Side::all(asked.sides.len());
    let repeats = by_side(
        known,
        (side, "side.motif"),
        sides,
        (how, depth),
        |line| match corner.as_slice() {
            [corner] => check_swapped(&asked.corner, corner, line),
            _ => Ok(()),
        },
    )?;
    let repeats = repeats.with_middles(middles(known, border, (asked, unit), depth)?);
    Ok(Drawings { corner, repeats })
}

/// What lies in the middle of each side, for a band of this depth.
pub(super) fn middles(
    known: &mut Known<'_, '_>,
    border: &BorderSpec,
    (asked, unit): (&BorderAsked, Unit),
    depth: f64,
) -> Result<Vec<Option<Middle>>, Error> {
    let spec = border.side.centre.as_ref();
    let in_centre = |e: Error| e.in_element("side.centre");
    let how = match spec {
        Some(spec) => {
            let ends = given_ends(spec.start.as_ref(), spec.end.as_ref(), unit);
            (spec.strokes.gaps(false), ends.map_err(in_centre)?)
        }
        None => (Gaps::OneLine, [None, None]),
    };
    let sides = Side::all(asked.sides.len()).zip(&asked.side.spacers);
    let middles = sides.map(|(side, spacer)| {
        let Some(spacer) = *spacer else {
            return Ok(None);
        };
        let named = spec.and_then(|spec| Some((spec, spec.motif.get(side)?)));
        let centre = named.map(|(spec, name)| {
            let request = MotifRequest {
                name: name.clone(),
                layers: spec.layers.clone(),
            };
            let lines = known.lines(request, how, Purpose::Repeat, depth);
            let line = &lines.map_err(|e| e.in_element("motif"))?[0];
            Repeat::new(line).map_err(|e| e.in_element(line.name()))
        });
        let centre = centre.transpose().map_err(in_centre)?;
        Ok(Some(Middle { centre, spacer }))
    });
    middles.collect()
}

/// The repeats of these sides for a band of this depth, each design once; `check` may refuse one.
/// What is wrong with a drawing is located by the key of its name.
pub(super) fn by_side(
    known: &mut Known<'_, '_>,
    (spec, key): (&SideSpec, &str),
    sides: impl Iterator<Item = Side>,
    (how, depth): (How, f64),
    check: impl Fn(&Motif) -> Result<(), Error>,
) -> Result<Repeats, Error> {
    let mut names: Vec<&str> = Vec::new();
    let (mut designs, mut of) = (Vec::new(), Vec::new());
    for side in sides {
        let Some(name) = spec.motif(side) else {
            of.push(None);
            continue;
        };
        let same = names.iter().position(|other| *other == name);
        of.push(Some(same.unwrap_or(names.len())));
        if same.is_some() {
            continue;
        }
        let request = MotifRequest {
            name: name.to_owned(),
            layers: spec.layers.clone(),
        };
        let in_motif = |e: Error| e.in_element(key);
        let lines = known.lines(request, how, Purpose::Repeat, depth);
        let line = &lines.map_err(in_motif)?[0];
        check(line)?;
        let line = &spec.lie.of(line).map_err(in_motif)?;
        designs.push(Repeat::new(line).map_err(|e| in_motif(e.in_element(line.name())))?);
        names.push(name);
    }
    Ok(Repeats::new(designs, of))
}

/// The lines of a border's corner drawing, where its style has one.
pub(super) fn corner(
    known: &mut Known<'_, '_>,
    border: &BorderSpec,
    asked: &BorderAsked,
    depth: f64,
) -> Result<Vec<Motif>, Error> {
    let corner = &border.corner;
    let Some(name) = &corner.motif else {
        return Ok(Vec::new());
    };
    let purpose = Purpose::corner(&asked.corner);
    let how = corner_how(border, asked);
    let request = MotifRequest {
        name: name.clone(),
        layers: corner.layers.clone(),
    };
    let lines = known.lines(request, how, purpose, depth);
    let lines = lines.map_err(|e| e.in_element("corner.motif"))?;
    Ok(lines.to_vec())
}
