//! A solved plan as `result.json`: all numbers, in the unit that the plan asked for.
//!
//! Lengths are rounded to 1e-9 of the unit; angles are in degrees, x points to the right, y
//! **down** and positive angles turn clockwise as seen. Keys keep their meaning; new ones may come
//! with any version, so a reader passes over keys that it doesn't know.

mod findings;
mod frame;
mod made;
mod passes;
mod paths;
mod pieces;
mod quilt;
mod totals;

use serde::{Deserialize, Serialize};

use super::fault;
use super::finite::to_text;
use super::kind::{self, Kind};
use crate::error::Error;
#[cfg(feature = "svg")]
use crate::geom::Point;
use crate::io::numbers::{Limits, numbers};
#[cfg(feature = "svg")]
use crate::io::template::{ClothLine, ClothLineKind};
use crate::plan::{Solved, Stitching, check_whole};
use crate::units::Unit;

pub use findings::Finding;
pub use frame::{BobbinChange, CheckStop, CheckedThere, RunsOut};
pub use made::Made;
pub use passes::{Part, Pass, PassMark, Run};
pub use paths::{Join, Path};
pub use pieces::{Choice, Ease, Piece};
pub use quilt::{Band, Measure, Measured, Quilt, Spot};
pub use totals::{StitchingTotals, Totals};

/// What a result's file should hold.
const A_RESULT: &str = "a result such as {\"unit\":\"in\",\"quilt\":{…},\"pieces\":[…]}";

/// A solved plan in numbers, as `result.json` has it.
///
/// Lengths are in `unit`, places count from the quilt's top left raw edge corner unless the plan
/// gives corner points; x to the right, y down.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[non_exhaustive]
pub struct PlanResult {
    /// The title, when the plan has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// Who the quilt is for, when the plan says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub customer: Option<String>,
    /// What is to be kept in mind, in lines, when the plan says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub notes: Option<String>,
    /// The unit of all lengths.
    #[serde(with = "unit_symbol")]
    pub unit: Unit,
    /// The quilt.
    pub quilt: Quilt,
    /// The borders from the outermost to the innermost.
    pub bands: Vec<Band>,
    /// The places in the field of blocks; left out where there is none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub blocks: Vec<Spot>,
    /// The pieces as the plan lists them.
    pub pieces: Vec<Piece>,
    /// Where pieces follow each other.
    pub joins: Vec<Join>,
    /// The lines that are stitched without a thread cut, were all of the quilt within reach.
    pub paths: Vec<Path>,
    /// The passes on the frame, where the plan's stitching is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub passes: Option<Vec<Pass>>,
    /// Where bobbins are to be changed, where the plan's stitching is known; 999 at the most.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bobbin_changes: Option<Vec<BobbinChange>>,
    /// How many changes there are beyond those listed.
    #[serde(default, skip_serializing_if = "is_none_more")]
    pub more_bobbin_changes: usize,
    /// What there is to report, the most severe first.
    pub findings: Vec<Finding>,
    /// Lengths and counts of the whole.
    pub totals: Totals,
}

impl PlanResult {
    /// The numbers of a solved plan; with its stitching, passes and totals of stitches, time and
    /// thread are in them.
    ///
    /// # Errors
    ///
    /// A plan error when the solved plan or its stitching refers to a border, a piece or a run that
    /// is not there, as none does that [`crate::plan::solve()`] returns.
    ///
    /// # Complexity
    ///
    /// O(points).
    pub fn new(solved: &Solved, stitching: Option<&Stitching>) -> Result<Self, Error> {
        check_whole(solved, stitching)?;
        let unit = solved.unit;
        let limits: Vec<Limits> = solved.layouts.iter().map(Limits::of).collect();
        let numbered = solved.pieces.iter().zip(numbers(solved, stitching));
        let found = solved.findings.iter();
        let found = found.chain(stitching.iter().flat_map(|stitching| &stitching.findings));
        let changes = stitching.map(|stitching| BobbinChange::all(solved, stitching));
        let (bobbin_changes, more_bobbin_changes) = match changes.transpose()? {
            Some((changes, more)) => (Some(changes), more),
            None => (None, 0),
        };
        Ok(Self {
            title: solved.title.clone(),
            customer: solved.customer.clone(),
            notes: solved.notes.clone(),
            unit,
            quilt: Quilt::of(&solved.quilt, unit),
            bands: (solved.borders().iter().map(|layout| Band::of(layout, unit))).collect(),
            blocks: (solved.field().iter().flat_map(|field| &field.spots))
                .map(|spot| Spot::of(spot, unit))
                .collect(),
            pieces: numbered
                .map(|(piece, number)| {
                    let border = &solved.layouts[piece.border].name;
                    let lie = limits[piece.border].lie(piece);
                    Piece::of(piece, number, border, &lie, unit)
                })
                .collect(),
            joins: (solved.joins.iter().map(|join| Join::of(join, solved))).collect(),
            paths: (solved.paths.iter().map(|path| Path::of(path, solved))).collect(),
            passes: stitching
                .map(|stitching| Pass::all(solved, stitching))
                .transpose()?,
            bobbin_changes,
            more_bobbin_changes,
            findings: found.map(|finding| Finding::of(finding, solved)).collect(),
            totals: Totals::of(solved, stitching),
        })
    }
}

#[cfg(feature = "svg")]
impl PlanResult {
    /// The edge and the seams of a piece's border, for
    /// [`write_template_on_cloth`](crate::io::template::write_template_on_cloth), in the result's
    /// unit.
    ///
    /// None for a piece of another result, and in results that were written before they had these
    /// lines.
    #[must_use]
    pub fn cloth_lines(&self, piece: &Piece) -> Vec<ClothLine> {
        if let Some(spot) = self
            .blocks
            .iter()
            .find(|spot| Some(&spot.place) == piece.place.as_ref())
        {
            let corners = spot
                .corners
                .iter()
                .map(|&[x, y]| Point::new(x, y))
                .collect();
            let kind = ClothLineKind::InnerSeam;
            return vec![ClothLine { kind, corners }];
        }
        let mut bands = self.bands.iter().enumerate();
        let Some((at, band)) = bands.find(|(_, band)| band.border == piece.border) else {
            return Vec::new();
        };
        let outer = match at {
            0 => ClothLineKind::RawEdge,
            _ => ClothLineKind::OuterSeam,
        };
        let line = |kind, corners: &[[f64; 2]]| ClothLine {
            kind,
            corners: corners.iter().map(|&[x, y]| Point::new(x, y)).collect(),
        };
        let lines = [
            line(outer, &band.edge),
            line(ClothLineKind::InnerSeam, &band.seam),
        ];
        let there = |line: &ClothLine| line.corners.len() > 2;
        lines.into_iter().filter(there).collect()
    }
}

/// Writes a result as one JSON object and a line end.
///
/// ```
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::io::json::result::{PlanResult, read_result, write_result};
/// use quiltpath_core::{geom::Point, motif::Motif, plan::solve};
///
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let solved = solve(&plan, |_| {
///     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];
///     let points = wave.map(|(x, y)| Point::new(x, y)).to_vec();
///     Ok(Motif::from_points("wave", points)?.into())
/// })?;
/// let text = write_result(&PlanResult::new(&solved, None)?)?;
/// let result = read_result(text.as_bytes())?;
/// assert_eq!(result.pieces[0].name, "border-side-top");
/// assert_eq!(write_result(&result)?, text);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error with the key path of a number that is not finite, which JSON can't hold.
///
/// # Complexity
///
/// O(points).
pub fn write_result(result: &PlanResult) -> Result<String, Error> {
    to_text(result)
}

/// Reads what [`write_result`] writes; written again it is the same to the byte.
///
/// Keys that are not known are skipped, so results of later versions are read, too.
///
/// # Errors
///
/// A data error with row, column and key path: no JSON, a key missing, a value of the wrong kind.
///
/// # Complexity
///
/// O(bytes).
pub fn read_result(bytes: &[u8]) -> Result<PlanResult, Error> {
    let text = fault::utf8(bytes, A_RESULT)?;
    fault::from_str(text).map_err(|error| kind::instead(text, Kind::Result).unwrap_or(error))
}

/// Whether no changes are left out of the list.
fn is_none_more(more: &usize) -> bool {
    *more == 0
}

/// A unit by its symbol.
mod unit_symbol {
    use serde::{Deserialize, Deserializer, Serializer, de::Error as _};

    use crate::units::Unit;

    pub(super) fn serialize<S: Serializer>(unit: &Unit, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(unit.symbol())
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(reader: D) -> Result<Unit, D::Error> {
        let symbol = String::deserialize(reader)?;
        symbol.parse().map_err(D::Error::custom)
    }
}
