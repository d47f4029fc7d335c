//! The kinds of error, each with its data.

use std::fmt::{self, Display};

use super::align::AlignFault;
use super::data::DataFault;
use super::drawing::DrawingFault;
use super::dxf::DxfFault;
use super::fit::FitFault;
use super::geometry::GeometryFault;
use super::length::LengthFault;
use super::motif::{LegFault, MotifFault};
use super::plan::PlanFault;
use super::resume::ResumeFault;
use super::scan::ScanFault;
use super::stitch::{CheckFault, PaperFault, StitchFault};
use super::stitched::StitchedFault;
use super::words::Lengths;
use crate::units::Unit;

/// What went wrong, by the area that it went wrong in, with its data.
///
/// Displayed without a place; lengths of plans and paper in millimetres, others bare.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum ErrorKind {
    /// Points, lines, regions, quilts and transforms that are no geometry, and any other number out
    /// of its range.
    Geometry(GeometryFault),
    /// A length that can't be read.
    Length(LengthFault),
    /// An SVG or DXF drawing that can't be read.
    Drawing(DrawingFault),
    /// JSON that can't be read.
    Data(DataFault),
    /// A drawing that is not one open path.
    Motif(MotifFault),
    /// A corner motif whose legs can't be found.
    Leg(LegFault),
    /// A span that no whole number of repeats can fill.
    Fit(FitFault),
    /// A path that can't be stitched as asked.
    Stitch(StitchFault),
    /// Stitched lines, or outlines, that can't be checked as asked.
    Check(CheckFault),
    /// A plan that can't be carried out.
    Plan(PlanFault),
    /// A piece that the paper asked for can't take.
    Paper(PaperFault),
    /// A picture of a drawing that can't be read as lines.
    Scan(ScanFault),
    /// Readings of marks that no map can be made of.
    Align(AlignFault),
    /// What is stitched already, and a plan that it can't be brought together with.
    Stitched(StitchedFault),
    /// A run that can't be taken up again as asked.
    Resume(ResumeFault),
}

macro_rules! from_fault {
    ($($variant:ident($fault:ty)),* $(,)?) => {$(
        impl From<$fault> for ErrorKind {
            fn from(fault: $fault) -> Self {
                Self::$variant(fault)
            }
        }
    )*};
}

from_fault!(
    Geometry(GeometryFault),
    Length(LengthFault),
    Drawing(DrawingFault),
    Data(DataFault),
    Motif(MotifFault),
    Leg(LegFault),
    Fit(FitFault),
    Stitch(StitchFault),
    Check(CheckFault),
    Plan(PlanFault),
    Paper(PaperFault),
    Scan(ScanFault),
    Align(AlignFault),
    Stitched(StitchedFault),
    Resume(ResumeFault),
);

impl From<DxfFault> for ErrorKind {
    fn from(fault: DxfFault) -> Self {
        Self::Drawing(DrawingFault::Dxf(fault))
    }
}

impl Display for ErrorKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Lengths::Bare)
    }
}

impl ErrorKind {
    /// The message with lengths shown like this; those of plans and paper are always millimetres.
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, lengths: Lengths) -> fmt::Result {
        let unit = lengths.unit_or(Unit::Mm);
        match self {
            Self::Geometry(fault) => fault.write(f, lengths),
            Self::Length(fault) => fault.fmt(f),
            Self::Drawing(fault) => fault.fmt(f),
            Self::Data(fault) => fault.fmt(f),
            Self::Motif(fault) => fault.write(f, lengths),
            Self::Leg(fault) => fault.write(f, lengths),
            Self::Fit(fault) => fault.write(f, lengths),
            Self::Stitch(fault) => fault.write(f, lengths),
            Self::Check(fault) => fault.write(f, lengths),
            Self::Plan(fault) => fault.write(f, unit),
            Self::Paper(fault) => fault.write(f, unit),
            Self::Scan(fault) => fault.fmt(f),
            Self::Align(fault) => fault.write(f, lengths),
            Self::Stitched(fault) => fault.write(f, unit),
            Self::Resume(fault) => fault.write(f, lengths),
        }
    }
}
