//! Solves a plan: places the corners, fits the repeats between them, joins all to paths.
//!
//! Each border is solved by itself. Corners are sized by their legs and placed; the span of a
//! side is the way from the end of one corner to the start of the next, so joins close by
//! construction. What the quilter should know is reported as findings, never mended in silence.

use std::collections::HashMap;

use super::bounds;
use super::findings::{self, Finding, Severity, counted};
use super::layout::{Layout, layouts};
use super::order::{Path, paths};
use super::pieces::{Join, Piece};
use super::quilt::Quilt;
use super::ring::{Solver, Work};
use super::share::Sharing;
use super::spec::{BorderSpec, CornerSpec, LengthSpec, PlanSpec, called};
use crate::chain::Repeat;
use crate::error::Error;
use crate::geom::flatten::DEFAULT_TOLERANCE_MM;
use crate::geom::{Bounds, Gap};
use crate::motif::{DEFAULT_JOIN_MM, Gaps, Joined, Motif};
use crate::units::Unit;

/// The stretch, in percent either way, beyond which a side is reported: our own default.
pub const DEFAULT_MAX_STRETCH_PERCENT: f64 = 10.0;

/// A motif that a plan names, as the solver asks its caller for it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct MotifRequest {
    /// The name as it stands in the plan, usually a path relative to the plan's file.
    pub name: String,
    /// What to do about lines that don't meet.
    pub gaps: Gaps,
}

/// How drawings are to be read for a plan, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerances {
    /// How far a curve may lie from its chords.
    pub flattening: f64,
    /// How close ends are that meet.
    pub join: f64,
}

/// A solved plan. All lengths in millimetres, the origin at the quilt's top left raw edge corner
/// unless the plan gives corner points.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// The title, when the plan has one.
    pub title: Option<String>,
    /// The unit that the plan asked to be answered in.
    pub unit: Unit,
    /// The outline of the quilt.
    pub quilt: Quilt,
    /// The borders from the outermost to the innermost.
    pub layouts: Vec<Layout>,
    /// The pieces in the order of stitching.
    pub pieces: Vec<Piece>,
    /// Where pieces follow each other.
    pub joins: Vec<Join>,
    /// The lines that are stitched without a thread cut.
    pub paths: Vec<Path>,
    /// What there is to say, the most severe first.
    pub findings: Vec<Finding>,
    /// The stretch, as a fraction either way, beyond which a side is reported.
    pub max_stretch: f64,
    /// How close ends are that meet.
    pub join_tolerance: f64,
}

impl Solved {
    /// The smallest box, sides along the axes, that holds the quilt with its waves.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        let edges = self.layouts.iter().flat_map(|layout| &layout.lines.edge);
        edges.fold(self.quilt.bounds(), |bounds, point| Bounds {
            min: bounds.min.inf(point),
            max: bounds.max.sup(point),
        })
    }

    /// The length of all pieces together.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.pieces.iter().map(|piece| piece.motif.length()).sum()
    }

    /// How many times the thread is cut: once for each path, since each has a start and an end.
    #[must_use]
    pub fn thread_cuts(&self) -> usize {
        self.paths.len()
    }

    /// The greatest severity among the findings, when there are any.
    #[must_use]
    pub fn worst(&self) -> Option<Severity> {
        self.findings.iter().map(|finding| finding.severity).max()
    }
}

impl PlanSpec {
    /// The tolerances that the plan asks for, or the defaults.
    ///
    /// # Errors
    ///
    /// A plan error when one is not above 0.
    pub fn tolerances(&self) -> Result<Tolerances, Error> {
        let read = |length: &Option<LengthSpec>, key: &str, default| match length {
            Some(length) => length
                .positive_mm(self.unit.into(), &called(key))
                .map_err(|e| e.in_element(key)),
            None => Ok(default),
        };
        Ok(Tolerances {
            flattening: read(&self.flattening, "flattening", DEFAULT_TOLERANCE_MM)?,
            join: read(&self.join_tolerance, "join_tolerance", DEFAULT_JOIN_MM)?,
        })
    }
}

/// Solves a plan; `load` gives the motifs, in millimetres, that the plan names.
///
/// Each motif is asked for once.
///
/// ```
/// use quiltpath_core::geom::Point;
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::motif::{Joined, Motif};
/// use quiltpath_core::plan::solve;
///
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let solved = solve(&plan, |asked| {
///     assert_eq!(asked.name, "wave");
///     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];
///     let points = wave.map(|(x, y)| Point::new(x, y)).to_vec();
///     let motif = Motif::from_points("wave", points)?;
///     Ok(Joined { motif, links: Vec::new(), reversed: 0 })
/// })?;
/// assert_eq!(solved.pieces[0].name, "border-side-top");
/// assert_eq!(solved.thread_cuts(), 4);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// The loader's errors as they are; a plan error with the key at fault when a length, a border
/// or a gap can't be, or corners overlap; a leg error when a corner drawing is no L; a fit error
/// when a repeat can't be chained.
///
/// # Complexity
///
/// O(points of the motifs and of the result).
pub fn solve(
    spec: &PlanSpec,
    mut load: impl FnMut(&MotifRequest) -> Result<Joined, Error>,
) -> Result<Solved, Error> {
    let unit = Unit::from(spec.unit);
    solve_in(unit, spec, &mut load).map_err(|e| e.in_unit(unit))
}

fn solve_in(
    unit: Unit,
    spec: &PlanSpec,
    load: &mut dyn FnMut(&MotifRequest) -> Result<Joined, Error>,
) -> Result<Solved, Error> {
    let percent = spec
        .max_stretch_percent
        .unwrap_or(DEFAULT_MAX_STRETCH_PERCENT);
    if !(percent > 0.0 && percent.is_finite()) {
        return Err(Error::bad_number(
            "the greatest stretch",
            percent,
            "a percentage above 0, for example 10",
        )
        .in_element("max_stretch_percent"));
    }
    let tolerances = spec.tolerances()?;
    let quilt = Quilt::of(spec)?;
    let laid_out = layouts(spec, &quilt)?;
    let mut solver = Solver::new(unit, tolerances);
    let mut loader = Loader::new(load, unit);
    let drawings = spec
        .borders
        .iter()
        .enumerate()
        .map(|(index, border)| {
            Drawings::load(&mut loader, border, quilt.outline.sides())
                .map_err(|e| e.in_element(format!("borders[{index}]")))
        })
        .collect::<Result<Vec<_>, Error>>()?;
    let works: Vec<Work<'_>> = (spec.borders.iter().zip(&laid_out).enumerate())
        .map(|(index, (border, layout))| Work {
            index,
            border,
            layout,
            chosen: None,
        })
        .collect();
    let mut shared = if spec.shared_depth == Some(true) {
        let sharing: Vec<Sharing<'_>> = works
            .iter()
            .zip(&drawings)
            .map(|(work, drawings)| drawings.sharing(work))
            .collect();
        solver.choose_shared(&sharing)?
    } else {
        Vec::new()
    }
    .into_iter();
    let layouts = works
        .iter()
        .zip(&drawings)
        .map(|(work, drawings)| {
            solver
                .border(work, drawings, shared.next(), percent / 100.0)
                .map_err(|e| e.in_element(format!("borders[{}]", work.index)))
        })
        .collect::<Result<Vec<_>, Error>>()?;
    let mut findings = loader.findings;
    findings.extend(findings::disagreeing(&quilt, unit));
    let (pieces, joins) = solver.finish(&mut findings);
    findings.extend(findings::stretched(&pieces, percent / 100.0));
    findings.extend(bounds::outside(
        &pieces,
        &layouts,
        unit,
        tolerances.flattening,
    )?);
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    Ok(Solved {
        title: spec.title.clone(),
        unit,
        quilt,
        paths: paths(&pieces, &joins, tolerances.join)?,
        layouts,
        pieces,
        joins,
        findings,
        max_stretch: percent / 100.0,
        join_tolerance: tolerances.join,
    })
}

/// The drawings of one border, made ready.
pub(super) struct Drawings {
    pub(super) corner: Option<Motif>,
    pub(super) repeat: Repeat,
}

impl Drawings {
    fn load(loader: &mut Loader<'_>, border: &BorderSpec, sides: usize) -> Result<Self, Error> {
        border.side.check(sides).map_err(|e| e.in_element("side"))?;
        let corner = loader.corner(&border.corner)?;
        let side = &border.side;
        let motif = loader
            .get(&side.motif, side.link_gaps)
            .map_err(|e| e.in_element("side.motif"))?;
        let repeat =
            Repeat::new(&motif).map_err(|e| e.in_element(motif.name()).in_element("side.motif"))?;
        Ok(Self { corner, repeat })
    }

    fn sharing<'a>(&'a self, work: &Work<'a>) -> Sharing<'a> {
        Sharing {
            work: *work,
            corner: self.corner.as_ref(),
            repeat: &self.repeat,
        }
    }
}

/// Asks the caller for each motif once, and notes what was linked in it.
pub(super) struct Loader<'a> {
    load: &'a mut dyn FnMut(&MotifRequest) -> Result<Joined, Error>,
    unit: Unit,
    motifs: HashMap<MotifRequest, Motif>,
    findings: Vec<Finding>,
}

impl<'a> Loader<'a> {
    pub(super) fn new(
        load: &'a mut dyn FnMut(&MotifRequest) -> Result<Joined, Error>,
        unit: Unit,
    ) -> Self {
        Self {
            load,
            unit,
            motifs: HashMap::new(),
            findings: Vec::new(),
        }
    }

    /// The drawing of a corner whose keys are in order, where its style has one.
    pub(super) fn corner(&mut self, corner: &CornerSpec) -> Result<Option<Motif>, Error> {
        corner.check_keys().map_err(|e| e.in_element("corner"))?;
        corner
            .motif
            .as_ref()
            .map(|name| self.get(name, corner.link_gaps))
            .transpose()
            .map_err(|e| e.in_element("corner.motif"))
    }

    fn get(&mut self, name: &str, link: Option<bool>) -> Result<Motif, Error> {
        let request = MotifRequest {
            name: name.to_owned(),
            gaps: match link {
                Some(true) => Gaps::Link,
                _ => Gaps::Refuse,
            },
        };
        if let Some(motif) = self.motifs.get(&request) {
            return Ok(motif.clone());
        }
        let joined = (self.load)(&request)?;
        if !joined.links.is_empty() {
            let total: f64 = joined.links.iter().map(Gap::size).sum();
            self.findings.push(Finding::note(
                "drawing_linked",
                None,
                format!(
                    "{name}: {} of the drawing linked by straight lines of {} in all",
                    counted(joined.links.len(), "gap"),
                    self.unit.readable(total)
                ),
            ));
        }
        self.motifs.insert(request, joined.motif.clone());
        Ok(joined.motif)
    }
}
