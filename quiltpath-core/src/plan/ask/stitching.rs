//! What a plan asks for of stitches and the thread, and what its checks allow.

use super::length::LengthSpec;

/// How the lines are stitched.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct StitchingSpec {
    /// Stitches per inch; 10 by default. Common practice is 10 to 12.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub stitches_per_inch: Option<f64>,
    /// The shortest stitch; a quarter of an inch divided by the stitches per inch by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub minimum: Option<LengthSpec>,
    /// How far the line may lie from the stitch that stands for it; a tenth of an inch divided by
    /// the stitches per inch by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub chord_error: Option<LengthSpec>,
    /// The number of tiny stitches that secure the thread at either end of a line; 4 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub tie_off: Option<usize>,
}

impl StitchingSpec {
    /// The same stitching with [`stitches_per_inch`](Self::stitches_per_inch).
    #[must_use]
    pub fn with_stitches_per_inch(mut self, stitches_per_inch: f64) -> Self {
        self.stitches_per_inch = Some(stitches_per_inch);
        self
    }

    /// The same stitching with [`minimum`](Self::minimum).
    #[must_use]
    pub fn with_minimum(mut self, minimum: impl Into<LengthSpec>) -> Self {
        self.minimum = Some(minimum.into());
        self
    }

    /// The same stitching with [`chord_error`](Self::chord_error).
    #[must_use]
    pub fn with_chord_error(mut self, chord_error: impl Into<LengthSpec>) -> Self {
        self.chord_error = Some(chord_error.into());
        self
    }

    /// The same stitching with [`tie_off`](Self::tie_off).
    #[must_use]
    pub fn with_tie_off(mut self, tie_off: usize) -> Self {
        self.tie_off = Some(tie_off);
        self
    }
}

/// The thread, and the layers that it goes through.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ThreadSpec {
    /// The thickness of the layers; 2 mm by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub thickness: Option<LengthSpec>,
    /// How much of the needle thread, and of the bobbin thread, is left over at each start and each
    /// end; 100 mm by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub tail: Option<LengthSpec>,
    /// How much more thread is wasted (threading, breaks, tests), in percent; 10 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub waste_percent: Option<f64>,
    /// The length of thread on one spool; not known by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub spool: Option<LengthSpec>,
    /// The length of thread on one bobbin; 100 m by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub bobbin: Option<LengthSpec>,
    /// How much of a bobbin is left on it when it is changed, in percent, up to 40; 5 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub reserve_percent: Option<f64>,
}

impl ThreadSpec {
    /// The same thread with [`thickness`](Self::thickness).
    #[must_use]
    pub fn with_thickness(mut self, thickness: impl Into<LengthSpec>) -> Self {
        self.thickness = Some(thickness.into());
        self
    }

    /// The same thread with [`tail`](Self::tail).
    #[must_use]
    pub fn with_tail(mut self, tail: impl Into<LengthSpec>) -> Self {
        self.tail = Some(tail.into());
        self
    }

    /// The same thread with [`waste_percent`](Self::waste_percent).
    #[must_use]
    pub fn with_waste_percent(mut self, waste_percent: f64) -> Self {
        self.waste_percent = Some(waste_percent);
        self
    }

    /// The same thread with [`spool`](Self::spool).
    #[must_use]
    pub fn with_spool(mut self, spool: impl Into<LengthSpec>) -> Self {
        self.spool = Some(spool.into());
        self
    }

    /// The same thread with [`bobbin`](Self::bobbin).
    #[must_use]
    pub fn with_bobbin(mut self, bobbin: impl Into<LengthSpec>) -> Self {
        self.bobbin = Some(bobbin.into());
        self
    }

    /// The same thread with [`reserve_percent`](Self::reserve_percent).
    #[must_use]
    pub fn with_reserve_percent(mut self, reserve_percent: f64) -> Self {
        self.reserve_percent = Some(reserve_percent);
        self
    }
}

/// How close and how dense lines may be before the checks report them.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ChecksSpec {
    /// Lines that run closer than this side by side, over 3/4 in or more, are reported; 1/16 in by
    /// default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub closest: Option<LengthSpec>,
    /// More line than this in a square of one inch is reported; 16 in by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub densest: Option<LengthSpec>,
}

impl ChecksSpec {
    /// The same checks with [`closest`](Self::closest).
    #[must_use]
    pub fn with_closest(mut self, closest: impl Into<LengthSpec>) -> Self {
        self.closest = Some(closest.into());
        self
    }

    /// The same checks with [`densest`](Self::densest).
    #[must_use]
    pub fn with_densest(mut self, densest: impl Into<LengthSpec>) -> Self {
        self.densest = Some(densest.into());
        self
    }
}
