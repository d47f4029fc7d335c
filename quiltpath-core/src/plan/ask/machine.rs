//! What a plan tells of the machine and its frame.

use super::length::LengthSpec;
use super::origin::Origin;
use super::roll::RollSpec;
use super::unit::UnitSpec;

/// What the machine and its frame can do.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct MachineSpec {
    /// The unit that the machine itself shows, for readings; numbers in the plan stay in the plan's
    /// unit, which is the default here, too.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub unit: Option<UnitSpec>,
    /// Which way the machine's own y grows; down by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub y: YSpec,
    /// The throat: how much of the quilt, from top to bottom, can be stitched before it is
    /// advanced; all of it by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub throat: Option<LengthSpec>,
    /// How much of the throat is kept free at its upper edge, and as much at its lower one; 0 by
    /// default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub reserve: Option<LengthSpec>,
    /// What the stitched part of the quilt is wound on, in the throat: passes get shallower as the
    /// roll grows; no roll by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub roll: Option<RollSpec>,
    /// Where the zero of the files of passes lies, and of pieces where they have such a place:
    /// `window`, the upper left corner of the window; `start`, that of the first line; `mark:B`, a
    /// mark of the pass; `corner:top_left` and so on, of the box round the lines. By default passes
    /// have that of the window, or laid ones the machine's own, and pieces that of the quilt.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub origin: Option<Origin>,
    /// Take the quilt off, turn it by 90 degrees clockwise and load it again, to stitch what runs
    /// down it; false by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "std::ops::Not::not")
    )]
    pub turned: bool,
    /// How many more passes than the fewest there may be where that saves thread cuts, up to 2; 0
    /// by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub more_passes: Option<usize>,
    /// The greatest speed along a line, as the length in one second; 75 mm by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub top_speed: Option<LengthSpec>,
    /// The greatest change of speed: by how much the length in one second may change in a second;
    /// 250 mm by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub acceleration: Option<LengthSpec>,
    /// Seconds for the start of a line: moving there, drawing up the thread; 20 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub seconds_per_start: Option<f64>,
    /// Seconds for cutting the thread at the end of a line; 10 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub seconds_per_cut: Option<f64>,
    /// Seconds for advancing the quilt to the next pass; 120 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub seconds_per_advance: Option<f64>,
    /// Seconds for one reading: moving the needle to a mark and taking down what the machine shows;
    /// 15 by default, our own guess.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub seconds_per_reading: Option<f64>,
    /// Seconds for loading the quilt on the frame, each time that it is loaded; 600 by default, our
    /// own guess.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub seconds_per_loading: Option<f64>,
}

/// Which way the machine's y grows, for one who stands before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum YSpec {
    /// Down: towards the lower edge of the window.
    #[default]
    Down,
    /// Up: towards the upper edge of the window.
    Up,
}

impl MachineSpec {
    /// The same machine with [`unit`](Self::unit).
    #[must_use]
    pub fn with_unit(mut self, unit: UnitSpec) -> Self {
        self.unit = Some(unit);
        self
    }

    /// The same machine with [`y`](Self::y).
    #[must_use]
    pub fn with_y(mut self, y: YSpec) -> Self {
        self.y = y;
        self
    }

    /// The same machine with [`throat`](Self::throat).
    #[must_use]
    pub fn with_throat(mut self, throat: impl Into<LengthSpec>) -> Self {
        self.throat = Some(throat.into());
        self
    }

    /// The same machine with [`reserve`](Self::reserve).
    #[must_use]
    pub fn with_reserve(mut self, reserve: impl Into<LengthSpec>) -> Self {
        self.reserve = Some(reserve.into());
        self
    }

    /// The same machine with [`roll`](Self::roll).
    #[must_use]
    pub fn with_roll(mut self, roll: RollSpec) -> Self {
        self.roll = Some(roll);
        self
    }

    /// The same machine with [`origin`](Self::origin).
    #[must_use]
    pub fn with_origin(mut self, origin: Origin) -> Self {
        self.origin = Some(origin);
        self
    }

    /// The same machine with [`turned`](Self::turned).
    #[must_use]
    pub fn with_turned(mut self, turned: bool) -> Self {
        self.turned = turned;
        self
    }

    /// The same machine with [`more_passes`](Self::more_passes).
    #[must_use]
    pub fn with_more_passes(mut self, more_passes: usize) -> Self {
        self.more_passes = Some(more_passes);
        self
    }

    /// The same machine with [`top_speed`](Self::top_speed).
    #[must_use]
    pub fn with_top_speed(mut self, top_speed: impl Into<LengthSpec>) -> Self {
        self.top_speed = Some(top_speed.into());
        self
    }

    /// The same machine with [`acceleration`](Self::acceleration).
    #[must_use]
    pub fn with_acceleration(mut self, acceleration: impl Into<LengthSpec>) -> Self {
        self.acceleration = Some(acceleration.into());
        self
    }

    /// The same machine with [`seconds_per_start`](Self::seconds_per_start).
    #[must_use]
    pub fn with_seconds_per_start(mut self, seconds_per_start: f64) -> Self {
        self.seconds_per_start = Some(seconds_per_start);
        self
    }

    /// The same machine with [`seconds_per_cut`](Self::seconds_per_cut).
    #[must_use]
    pub fn with_seconds_per_cut(mut self, seconds_per_cut: f64) -> Self {
        self.seconds_per_cut = Some(seconds_per_cut);
        self
    }

    /// The same machine with [`seconds_per_advance`](Self::seconds_per_advance).
    #[must_use]
    pub fn with_seconds_per_advance(mut self, seconds_per_advance: f64) -> Self {
        self.seconds_per_advance = Some(seconds_per_advance);
        self
    }

    /// The same machine with [`seconds_per_reading`](Self::seconds_per_reading).
    #[must_use]
    pub fn with_seconds_per_reading(mut self, seconds_per_reading: f64) -> Self {
        self.seconds_per_reading = Some(seconds_per_reading);
        self
    }

    /// The same machine with [`seconds_per_loading`](Self::seconds_per_loading).
    #[must_use]
    pub fn with_seconds_per_loading(mut self, seconds_per_loading: f64) -> Self {
        self.seconds_per_loading = Some(seconds_per_loading);
        self
    }
}
