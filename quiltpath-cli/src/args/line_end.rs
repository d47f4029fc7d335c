//! Where a line is to start or end, as it is typed.

use std::str::FromStr;

use quiltpath_core::strokes::EndPlace;
use quiltpath_core::units::Unit;

use super::lengths::Place;
use crate::failure::Failure;

/// A place of a drawing, or the outermost one on a side.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum LineEnd {
    Outermost(EndPlace),
    At(Place),
}

impl FromStr for LineEnd {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        Ok(match text {
            "left" => Self::Outermost(EndPlace::Left),
            "right" => Self::Outermost(EndPlace::Right),
            "top" => Self::Outermost(EndPlace::Top),
            "bottom" => Self::Outermost(EndPlace::Bottom),
            text if text.contains(',') => Self::At(text.parse()?),
            text => {
                return Err(format!(
                    "\"{text}\" is no place; give left, right, top or bottom, or for example 1, 2 1/2 in"
                ));
            }
        })
    }
}

impl LineEnd {
    /// The place, lengths in this unit; bare numbers are in the unit `bare`.
    pub(crate) fn place(
        &self,
        bare: Option<Unit>,
        unit: Unit,
        option: &str,
    ) -> Result<EndPlace, Failure> {
        Ok(match self {
            Self::Outermost(place) => *place,
            Self::At(place) => EndPlace::At(place.in_unit(bare, unit, option)?),
        })
    }
}
