//! An error with its place, the unit of its lengths and its cause.

use std::error::Error as Cause;
use std::fmt;
use std::sync::Arc;

use super::geometry::GeometryFault;
use super::kind::ErrorKind;
use super::plan::PlanFault;
use super::words::Lengths;
use crate::units::Unit;

/// What went wrong in a call of this library, with the place where it did.
///
/// Displayed as one line, `file:row:column: element: what is wrong and what would be accepted`,
/// leaving out the parts that are not known. Two errors are equal when they are of one kind, with
/// the same data, at the same place.
///
/// ```
/// use quiltpath_core::error::{DataFault, ErrorKind};
/// use quiltpath_core::io::json::read_points;
///
/// let error = read_points(b"{\"points\":[[0,0],[1,0]]}", None).unwrap_err().in_file("leaf.json");
/// assert!(matches!(error.kind(), ErrorKind::Data(DataFault::NoUnit)));
/// assert!(error.is_data());
/// assert!(error.to_string().starts_with("leaf.json: the point list names no unit"));
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Error(Box<Inner>);

#[derive(Debug, Clone)]
struct Inner {
    kind: ErrorKind,
    file: Option<String>,
    position: Option<Position>,
    element: Option<String>,
    lengths: Lengths,
    cause: Option<Arc<dyn Cause + Send + Sync>>,
}

impl PartialEq for Inner {
    fn eq(&self, other: &Self) -> bool {
        let key = |of: &Self| (of.position, of.lengths);
        self.kind == other.kind
            && self.file == other.file
            && self.element == other.element
            && key(self) == key(other)
    }
}

/// A place in a text: both numbers count from 1, columns in characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Position {
    /// The row, from 1.
    pub row: u32,
    /// The column, from 1.
    pub column: u32,
}

impl Error {
    fn new(kind: ErrorKind) -> Self {
        Self(Box::new(Inner {
            kind,
            file: None,
            position: None,
            element: None,
            lengths: Lengths::Bare,
            cause: None,
        }))
    }

    /// The error for a number that is out of its range.
    pub(crate) fn bad_number(what: &'static str, value: f64, accepted: &'static str) -> Self {
        GeometryFault::BadNumber {
            what,
            value,
            accepted,
        }
        .into()
    }

    /// The error for a motif that a plan names and that the caller's loader can't read at all.
    ///
    /// What gives the solver its motifs returns it for a file that is missing or can't be opened.
    #[must_use]
    pub fn motif_unreadable(name: impl Into<String>, reason: impl Into<String>) -> Self {
        PlanFault::MotifUnreadable {
            name: name.into(),
            reason: reason.into(),
        }
        .into()
    }

    /// The same error, known to come from the file of this name; a name given earlier stays.
    #[must_use]
    pub fn in_file(mut self, name: impl Into<String>) -> Self {
        self.0.file.get_or_insert_with(|| name.into());
        self
    }

    /// The same error at this row and column; a position given earlier stays.
    #[must_use]
    pub fn at(mut self, row: u32, column: u32) -> Self {
        self.0.position.get_or_insert(Position { row, column });
        self
    }

    /// The same error, for a text that stands this many rows below the top of its file.
    ///
    /// ```
    /// use quiltpath_core::io::json::read_point_line;
    ///
    /// let error = read_point_line("{\"unit\":\"in\"", None).unwrap_err().below(16);
    /// assert_eq!(error.position().map(|place| place.row), Some(17));
    /// ```
    #[must_use]
    pub fn below(mut self, rows: u32) -> Self {
        if let Some(place) = &mut self.0.position {
            place.row = place.row.saturating_add(rows);
        }
        self
    }

    /// The same error in this element (an id, a key path or an index); inner elements stay last.
    #[must_use]
    pub fn in_element(mut self, element: impl Into<String>) -> Self {
        let outer = element.into();
        self.0.element = Some(match self.0.element.take() {
            Some(inner) => format!("{outer}: {inner}"),
            None => outer,
        });
        self
    }

    /// The same error with the lengths of its message in this unit; a unit given earlier stays.
    ///
    /// For errors whose lengths are millimetres, as all are that come from a plan. Without it plans
    /// and paper show millimetres, all else bare numbers.
    ///
    /// ```
    /// use quiltpath_core::geom::BoxCorner;
    /// use quiltpath_core::leg::l_region;
    /// use quiltpath_core::units::Unit;
    ///
    /// let error = l_region(BoxCorner::TopLeft, 254.0, 254.0, 508.0).unwrap_err();
    /// assert!(error.in_unit(Unit::In).to_string().starts_with("a leg depth of 20 in does"));
    /// ```
    #[must_use]
    pub fn in_unit(self, unit: Unit) -> Self {
        self.lengths(Lengths::Millimetres(unit))
    }

    /// The same error, known to have lengths of this unit, which its message then shows; a unit
    /// given earlier stays.
    ///
    /// For calls of geometry, which has no unit, with lengths that aren't millimetres. Lengths of
    /// plans and paper are millimetres in any case.
    ///
    /// ```
    /// use quiltpath_core::geom::BoxCorner;
    /// use quiltpath_core::leg::l_region;
    /// use quiltpath_core::units::Unit;
    ///
    /// let error = l_region(BoxCorner::TopLeft, 13.0, 13.0, 45.0).unwrap_err();
    /// assert!(error.to_string().starts_with("a leg depth of 45 does"));
    /// assert!(error.measured_in(Unit::In).to_string().starts_with("a leg depth of 45 in does"));
    /// ```
    #[must_use]
    pub fn measured_in(self, unit: Unit) -> Self {
        self.lengths(Lengths::Of(unit))
    }

    fn lengths(mut self, lengths: Lengths) -> Self {
        if self.0.lengths == Lengths::Bare {
            self.0.lengths = lengths;
        }
        self
    }

    /// The same error with the error of another library, or of the system, that led to it; a cause
    /// given earlier stays. [`source`](Cause::source) gives it back.
    #[must_use]
    pub fn caused_by(mut self, cause: impl Into<Box<dyn Cause + Send + Sync>>) -> Self {
        self.0.cause.get_or_insert_with(|| cause.into().into());
        self
    }

    /// What went wrong, with its data.
    #[must_use]
    pub fn kind(&self) -> &ErrorKind {
        &self.0.kind
    }

    /// The file that the fault is in, when known.
    #[must_use]
    pub fn file(&self) -> Option<&str> {
        self.0.file.as_deref()
    }

    /// The row and column of the fault, when known.
    #[must_use]
    pub fn position(&self) -> Option<Position> {
        self.0.position
    }

    /// The element that the fault is in (an id, a key path or an index), when known.
    #[must_use]
    pub fn element(&self) -> Option<&str> {
        self.0.element.as_deref()
    }

    /// True for points, lines, regions, quilts and transforms that can't be used (too few points,
    /// not finite, no length), and for any other number out of its range.
    #[must_use]
    pub fn is_geometry(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Geometry(_))
    }

    /// True for a length that can't be read: no number, no unit, an unknown unit.
    #[must_use]
    pub fn is_length(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Length(_))
    }

    /// True for an SVG or DXF drawing that can't be read.
    #[must_use]
    pub fn is_drawing(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Drawing(_))
    }

    /// True for JSON that can't be read.
    #[must_use]
    pub fn is_data(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Data(_))
    }

    /// True for a drawing that is not one open path.
    #[must_use]
    pub fn is_motif(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Motif(_))
    }

    /// True for a corner motif whose legs can't be found.
    #[must_use]
    pub fn is_leg(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Leg(_))
    }

    /// True for a span that no whole number of repeats can fill.
    #[must_use]
    pub fn is_fit(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Fit(_))
    }

    /// True for a path that can't be stitched as asked.
    #[must_use]
    pub fn is_stitch(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Stitch(_))
    }

    /// True for stitched lines, or outlines, that can't be checked as asked.
    #[must_use]
    pub fn is_check(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Check(_))
    }

    /// True for a plan that can't be carried out.
    #[must_use]
    pub fn is_plan(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Plan(_))
    }

    /// True for a piece that the paper asked for can't take.
    #[must_use]
    pub fn is_paper(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Paper(_))
    }

    /// True for a picture of a drawing that can't be read as lines.
    #[must_use]
    pub fn is_scan(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Scan(_))
    }

    /// True for readings of marks that no map can be made of.
    #[must_use]
    pub fn is_align(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Align(_))
    }

    /// True for what is stitched already where it can't be brought together with a plan.
    #[must_use]
    pub fn is_stitched(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Stitched(_))
    }

    /// True for a run that can't be taken up again as asked.
    #[must_use]
    pub fn is_resume(&self) -> bool {
        matches!(self.0.kind, ErrorKind::Resume(_))
    }
}

/// Refuses a number that is not above 0 or not finite.
pub(crate) fn positive(
    what: &'static str,
    value: f64,
    accepted: &'static str,
) -> Result<(), Error> {
    if value > 0.0 && value.is_finite() {
        return Ok(());
    }
    Err(Error::bad_number(what, value, accepted))
}

/// Refuses a number that is below 0 or not finite.
pub(crate) fn not_negative(
    what: &'static str,
    value: f64,
    accepted: &'static str,
) -> Result<(), Error> {
    if value >= 0.0 && value.is_finite() {
        return Ok(());
    }
    Err(Error::bad_number(what, value, accepted))
}

impl<K: Into<ErrorKind>> From<K> for Error {
    fn from(fault: K) -> Self {
        Self::new(fault.into())
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(file) = &self.0.file {
            write!(f, "{file}:")?;
        }
        if let Some(Position { row, column }) = self.0.position {
            write!(f, "{row}:{column}:")?;
        }
        if self.0.file.is_some() || self.0.position.is_some() {
            write!(f, " ")?;
        }
        if let Some(element) = &self.0.element {
            write!(f, "{element}: ")?;
        }
        self.0.kind.write(f, self.0.lengths)
    }
}

impl Cause for Error {
    fn source(&self) -> Option<&(dyn Cause + 'static)> {
        let cause = self.0.cause.as_deref()?;
        Some(cause)
    }
}
