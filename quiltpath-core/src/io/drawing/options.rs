//! How a drawing becomes lines: unit, tolerances, gaps and layers.

use crate::geom::flatten::DEFAULT_TOLERANCE_MM;
use crate::strokes::{DEFAULT_JOIN_MM, Gaps, LineEnds};
use crate::units::Unit;

/// How a drawing becomes lines.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct ReadOptions {
    /// The unit of a point list or a DXF that names none, and the unit to answer in. Where it is
    /// `None`, a list has to name one, a DXF is taken as
    /// [`LineDrawing::notes`](super::LineDrawing::notes) says, and the answer is in the drawing's
    /// own.
    pub unit: Option<Unit>,
    /// How far from a curve its points may stray, in millimetres, above 0; where it is `None`, as
    /// [`OneLineOptions::flattening`](crate::strokes::OneLineOptions::flattening) has it.
    pub flattening_mm: Option<f64>,
    /// How near two ends have to be to meet, in millimetres, above 0; where it is `None`, as
    /// [`OneLineOptions::join`](crate::strokes::OneLineOptions::join) has it.
    pub join_mm: Option<f64>,
    /// What happens to lines that don't meet where one line is asked for.
    pub gaps: Gaps,
    /// Where the one line starts and ends that strokes become, in the unit to answer in.
    pub ends: LineEnds,
    /// How much line a thread cut counts for, in millimetres, where several lines are asked for, as
    /// [`OneLineOptions::cut`](crate::strokes::OneLineOptions::cut) has it.
    pub cut_mm: Option<f64>,
    /// The layers that are read, of an SVG drawing as in
    /// [`read_svg_layers`](crate::io::svg_read::read_svg_layers), of a DXF as in
    /// [`read_dxf_layers`](crate::io::dxf_read::read_dxf_layers); all where there are none. Point
    /// lists have no layers.
    pub layers: Vec<String>,
}

impl ReadOptions {
    /// The same options with this unit, or with the drawing's own.
    #[must_use]
    pub fn with_unit(mut self, unit: Option<Unit>) -> Self {
        self.unit = unit;
        self
    }

    /// The same options with another distance of points from curves, in millimetres.
    #[must_use]
    pub fn with_flattening_mm(mut self, flattening_mm: f64) -> Self {
        self.flattening_mm = Some(flattening_mm);
        self
    }

    /// The same options with another distance of ends that meet, in millimetres.
    #[must_use]
    pub fn with_join_mm(mut self, join_mm: f64) -> Self {
        self.join_mm = Some(join_mm);
        self
    }

    /// The same options with another way with lines that don't meet.
    #[must_use]
    pub fn with_gaps(mut self, gaps: Gaps) -> Self {
        self.gaps = gaps;
        self
    }

    /// The same options, a thread cut counting for this much line, in millimetres.
    #[must_use]
    pub fn with_cut_mm(mut self, cut_mm: impl Into<Option<f64>>) -> Self {
        self.cut_mm = cut_mm.into();
        self
    }

    /// The same options with these ends of the one line that strokes become.
    #[must_use]
    pub fn with_ends(mut self, ends: LineEnds) -> Self {
        self.ends = ends;
        self
    }

    /// The same options for these layers alone.
    #[must_use]
    pub fn with_layers(mut self, layers: impl IntoIterator<Item = impl Into<String>>) -> Self {
        self.layers = layers.into_iter().map(Into::into).collect();
        self
    }

    /// How far points may stray from a curve on the cloth, and how near ends are there that meet,
    /// in this unit: 0.01 mm and 0.1 mm where they are not given.
    #[must_use]
    pub fn on_cloth(&self, unit: Unit) -> [f64; 2] {
        let flattening = self.flattening_mm.unwrap_or(DEFAULT_TOLERANCE_MM);
        let join = self.join_mm.unwrap_or(DEFAULT_JOIN_MM);
        [flattening, join].map(|mm| mm / unit.in_mm())
    }

    /// The same options for a drawing that becomes this many times as large on the cloth, where the
    /// tolerances hold.
    ///
    /// A factor that is not above 0 changes nothing.
    #[must_use]
    pub fn enlarged(mut self, factor: f64) -> Self {
        if factor > 0.0 && factor.is_finite() {
            let [flattening, join] = self.on_cloth(Unit::Mm).map(|mm| mm / factor);
            self.flattening_mm = Some(flattening);
            self.join_mm = Some(join);
        }
        self
    }
}
