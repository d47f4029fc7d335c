//! What lies in the middle of a side, as a plan says it.

use super::by_side::BySide;
use super::end::EndSpec;
use super::strokes::StrokesSpec;

/// The motif in the middle of a side.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CentreSpec {
    /// The file of the drawing, SVG, DXF or JSON, relative to the plan's file; drawn as a repeat
    /// is, from left to right with the outside of the quilt up. One for all sides, or one for each.
    pub motif: BySide<String>,
    /// The layers of the drawing that are read: ids or labels of its groups; all by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Vec::is_empty")
    )]
    pub layers: Vec<String>,
    /// What becomes of a drawing of several strokes; one_line by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub strokes: StrokesSpec,
    /// Where the one line of the drawing starts: a word, or how far to the right and how far down
    /// in the drawing at its true size; at its left edge by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub start: Option<EndSpec>,
    /// Where the one line of the drawing ends, as `start` says where it starts; at its right edge
    /// by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub end: Option<EndSpec>,
}

impl CentreSpec {
    /// This motif, everything else left to its default.
    #[must_use]
    pub fn new(motif: impl Into<BySide<String>>) -> Self {
        Self {
            motif: motif.into(),
            layers: Vec::new(),
            strokes: StrokesSpec::default(),
            start: None,
            end: None,
        }
    }

    /// The same motif with [`layers`](Self::layers).
    #[must_use]
    pub fn with_layers(mut self, layers: impl IntoIterator<Item = impl Into<String>>) -> Self {
        self.layers = layers.into_iter().map(Into::into).collect();
        self
    }

    /// The same motif with [`strokes`](Self::strokes).
    #[must_use]
    pub fn with_strokes(mut self, strokes: StrokesSpec) -> Self {
        self.strokes = strokes;
        self
    }

    /// The same motif with [`start`](Self::start).
    #[must_use]
    pub fn with_start(mut self, start: EndSpec) -> Self {
        self.start = Some(start);
        self
    }

    /// The same motif with [`end`](Self::end).
    #[must_use]
    pub fn with_end(mut self, end: EndSpec) -> Self {
        self.end = Some(end);
        self
    }
}
