//! Where the zero of a file lies.

use std::fmt;
use std::str::FromStr;

use crate::error::{AlignFault, Error};
use crate::geom::{Bounds, BoxCorner, Point};
use crate::motif::Motif;
use crate::transform::Transform;

/// Where the zero of a pass's or a piece's file lies.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Origin {
    /// The upper left corner of the window, as the plan has it.
    Window,
    /// The start of the first line.
    Start,
    /// A mark, by its letter, such as `B`.
    Mark(String),
    /// A corner of the box round the lines.
    Corner(BoxCorner),
}

impl fmt::Display for Origin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Window => f.write_str("window"),
            Self::Start => f.write_str("start"),
            Self::Mark(letter) => write!(f, "mark:{letter}"),
            Self::Corner(corner) => write!(f, "corner:{}", corner.name()),
        }
    }
}

impl FromStr for Origin {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let corner = |name: &str| {
            BoxCorner::ALL
                .into_iter()
                .find(|corner| corner.name() == name)
        };
        let origin = match text.trim().split_once(':') {
            None if text.trim() == "window" => Some(Self::Window),
            None if text.trim() == "start" => Some(Self::Start),
            Some(("mark", letter)) if !letter.trim().is_empty() => {
                Some(Self::Mark(letter.trim().to_uppercase()))
            }
            Some(("corner", name)) => corner(name.trim()).map(Self::Corner),
            _ => None,
        };
        origin.ok_or_else(|| {
            AlignFault::NoOrigin {
                text: text.to_owned(),
            }
            .into()
        })
    }
}

impl Origin {
    /// The move that brings the zero to where it is asked for, of lines with a window's corner and
    /// marks in the same coordinates, each mark with its letter.
    ///
    /// # Errors
    ///
    /// An align error for the letter of a mark that isn't there, and for the window of lines that
    /// have none.
    pub fn shift<'a>(
        &self,
        lines: impl IntoIterator<Item = &'a Motif>,
        window: Option<Point>,
        marks: &[(String, Point)],
    ) -> Result<Transform, Error> {
        let mut lines = lines.into_iter().peekable();
        let start = lines.peek().map(|line| line.start().point);
        let zero = match self {
            Self::Window => window,
            Self::Start => start,
            Self::Mark(letter) => {
                let found = marks.iter().find(|(own, _)| own == letter);
                let fault = || {
                    let marks = marks.iter().map(|(own, _)| own.clone()).collect();
                    Error::from(AlignFault::NoSuchMark {
                        mark: letter.clone(),
                        marks,
                    })
                };
                Some(found.ok_or_else(fault)?.1)
            }
            Self::Corner(corner) => {
                let boxes = lines.map(Motif::bounds);
                boxes
                    .reduce(|all, next| all.union(&next))
                    .map(|all: Bounds| corner.of(all))
            }
        };
        let zero = zero.ok_or(AlignFault::NoWindow)?;
        Ok(Transform::translate(-zero.x, -zero.y))
    }
}

#[cfg(feature = "json")]
impl serde::Serialize for Origin {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

#[cfg(feature = "json")]
impl<'de> serde::Deserialize<'de> for Origin {
    fn deserialize<D: serde::Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        let text = String::deserialize(reader)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Origin {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Origin".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "description": "window, start, mark: and a letter, or corner: and top_left, top_right, bottom_right or bottom_left.",
            "type": "string",
            "examples": ["window", "start", "mark:B", "corner:top_left"]
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_zero_lies_where_it_is_asked_for() {
        let line = |points: &[(f64, f64)]| {
            let points = points.iter().map(|&(x, y)| Point::new(x, y));
            Motif::from_points("line", points.collect()).expect("a line")
        };
        let lines = [
            line(&[(4.0, 9.0), (8.0, 2.0)]),
            line(&[(1.0, 5.0), (2.0, 5.0)]),
        ];
        let marks = [
            ("A".to_owned(), Point::new(7.0, 7.0)),
            ("B".to_owned(), Point::new(3.0, 6.0)),
        ];
        for (text, zero) in [
            ("window", (0.5, 0.5)),
            ("start", (4.0, 9.0)),
            ("mark:b", (3.0, 6.0)),
            ("corner:top_left", (1.0, 2.0)),
            ("corner:bottom_right", (8.0, 9.0)),
        ] {
            let origin: Origin = text.parse().expect(text);
            assert_eq!(origin.to_string().to_lowercase(), text);
            let window = Some(Point::new(0.5, 0.5));
            let shift = origin.shift(&lines, window, &marks).expect(text);
            let zero = shift.apply(Point::new(zero.0, zero.1));
            assert_eq!(zero, Point::origin(), "{text}");
        }
        for text in ["", "middle", "mark:", "corner:left", "window:1"] {
            let error = text.parse::<Origin>().expect_err(text).to_string();
            assert!(error.contains("window, start, mark:"), "{error}");
        }
        let none = Origin::Mark("Z".to_owned()).shift(&lines, None, &marks);
        assert!(none.expect_err("no mark").to_string().contains("A, B"));
        assert!(
            Origin::Window
                .shift(&lines, None, &marks)
                .expect_err("no window")
                .is_align()
        );
    }
}
