//! JSON point lists: one path, several paths, a bare list, or one path a line (JSON Lines).
//!
//! Numbers are written in their shortest form that reads back to the same bits.

use serde::de::{Error as _, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::fault;
use super::kind::{self, Kind};
use crate::error::{DataFault, Error};
use crate::geom::polyline::check_points;
use crate::geom::{MAX_COORDINATE, Point};
use crate::motif::Motif;
use crate::units::Unit;

/// What a point list's file should hold.
const A_LIST: &str = "a JSON point list such as {\"unit\":\"in\",\"points\":[[0,0],[1,0.5]]}";

/// The paths of a JSON point list, in the unit that the list is written in.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PointList {
    /// The unit of the coordinates.
    pub unit: Unit,
    /// The paths, at least one.
    pub paths: Vec<PointPath>,
}

impl PointList {
    /// These paths, whose coordinates are in this unit.
    #[must_use]
    pub fn new(unit: Unit, paths: Vec<PointPath>) -> Self {
        Self { unit, paths }
    }

    /// Lines in millimetres, each with its name, as a list in this unit.
    #[must_use]
    pub fn of_mm<'a>(unit: Unit, lines: impl IntoIterator<Item = (&'a Motif, &'a str)>) -> Self {
        let paths = lines.into_iter().map(|(line, name)| {
            let points = Unit::Mm.change_points(line.points().to_vec(), unit);
            PointPath::new(points).with_name(name)
        });
        Self::new(unit, paths.collect())
    }

    /// Gives paths without a name this one, with their number where there are several.
    ///
    /// ```
    /// use quiltpath_core::{io::json::read_points, units::Unit};
    ///
    /// let mut list = read_points(b"[[0,0],[1,0.5]]", Some(Unit::In))?;
    /// list.name_all("line-17");
    /// assert_eq!(list.paths[0].name.as_deref(), Some("line-17"));
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    pub fn name_all(&mut self, name: &str) {
        let several = self.paths.len() > 1;
        for (path, number) in self.paths.iter_mut().zip(1..) {
            path.name.get_or_insert_with(|| match several {
                true => format!("{name}-{number}"),
                false => name.to_owned(),
            });
        }
    }
}

/// One path of a JSON point list.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PointPath {
    /// The name, when it has one.
    pub name: Option<String>,
    /// The points in the order of travel, x to the right, y down.
    pub points: Vec<Point>,
}

impl PointPath {
    /// A path through these points, without a name.
    #[must_use]
    pub fn new(points: Vec<Point>) -> Self {
        Self { name: None, points }
    }

    /// The same path under this name.
    #[must_use]
    pub fn with_name(mut self, name: impl Into<String>) -> Self {
        self.name = Some(name.into());
        self
    }

    /// The path as a motif, under its own name or this one.
    ///
    /// # Errors
    ///
    /// A geometry error as in [`crate::geom::Polyline::new`], with the name of the path.
    pub fn motif(&self, name: &str) -> Result<Motif, Error> {
        let name = self.name.as_deref().unwrap_or(name);
        Motif::from_points(name, self.points.clone()).map_err(|e| e.in_element(name))
    }
}

impl From<&Motif> for PointPath {
    /// The points of a motif under its name.
    fn from(motif: &Motif) -> Self {
        Self::new(motif.points().to_vec()).with_name(motif.name())
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawList {
    unit: Option<String>,
    name: Option<String>,
    points: Option<Vec<RawPoint>>,
    paths: Option<Vec<RawPath>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawPath {
    name: Option<String>,
    points: Vec<RawPoint>,
}

#[derive(Clone, Copy, Default)]
pub(super) struct RawPoint(pub(super) Point);

impl Serialize for RawPoint {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        [self.0.x, self.0.y].serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for RawPoint {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Pair;

        impl<'de> Visitor<'de> for Pair {
            type Value = RawPoint;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a point [x, y]")
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut numbers: A) -> Result<RawPoint, A::Error> {
                let mut next = |at: usize| {
                    let value: f64 = numbers
                        .next_element()?
                        .ok_or_else(|| A::Error::invalid_length(at, &self))?;
                    if value.abs() > MAX_COORDINATE {
                        return Err(A::Error::custom(format!(
                            "the coordinate {value:e} is too large; coordinates may go from -1e9 to 1e9"
                        )));
                    }
                    Ok(value)
                };
                let point = Point::new(next(0)?, next(1)?);
                match numbers.next_element::<f64>()? {
                    None => Ok(RawPoint(point)),
                    Some(_) => Err(A::Error::invalid_length(3, &self)),
                }
            }
        }

        deserializer.deserialize_seq(Pair)
    }
}

fn points(raw: Vec<RawPoint>) -> Vec<Point> {
    raw.into_iter().map(|point| point.0).collect()
}

/// Reads a JSON point list: `{"unit":"in","points":[[0,0],[1,0.5]]}`, several paths under
/// `"paths"`, or a bare `[[x,y],…]`.
///
/// `bare_unit` is the unit of a list that names none.
///
/// ```
/// use quiltpath_core::{io::json::read_points, units::Unit};
///
/// let list = read_points(br#"{"unit":"in","points":[[0,0],[1,0.5]]}"#, None)?;
/// assert_eq!(list.unit, Unit::In);
/// assert_eq!(list.paths[0].points.len(), 2);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A data error with row, column and key path: no JSON, an unknown key, a point that is no pair
/// of numbers within ±1e9, no path; a length error when no unit is named or it is unknown.
///
/// # Complexity
///
/// O(bytes).
pub fn read_points(bytes: &[u8], bare_unit: Option<Unit>) -> Result<PointList, Error> {
    let text = fault::utf8(bytes, A_LIST)?;
    if text.trim_start().starts_with('[') {
        let paths = vec![PointPath {
            name: None,
            points: points(fault::from_str(text)?),
        }];
        let unit = bare_unit.ok_or(DataFault::NoUnit)?;
        return Ok(PointList { unit, paths });
    }
    read_object(text, bare_unit)
}

/// Reads one line of JSON Lines: an object with `unit`, `points` and perhaps `name`, or a bare
/// list.
///
/// ```
/// use quiltpath_core::{io::json::read_point_line, units::Unit};
///
/// let list = read_point_line(r#"{"unit": "in", "name": "leaf", "points": [[0, 0], [1, 2]]}"#, None)?;
/// assert_eq!((list.unit, list.paths[0].name.as_deref()), (Unit::In, Some("leaf")));
/// assert_eq!(read_point_line("[[0, 0], [1, 2]]", Some(Unit::Mm))?.paths[0].points.len(), 2);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`read_points`]; rows count within the line.
pub fn read_point_line(line: &str, bare_unit: Option<Unit>) -> Result<PointList, Error> {
    read_points(line.as_bytes(), bare_unit)
}

fn read_object(text: &str, bare_unit: Option<Unit>) -> Result<PointList, Error> {
    let raw: RawList =
        fault::from_str(text).map_err(|error| kind::instead(text, Kind::Lines).unwrap_or(error))?;
    let unit = match raw.unit {
        Some(symbol) => symbol.parse().map_err(|e: Error| e.in_element("unit"))?,
        None => bare_unit.ok_or(DataFault::NoUnit)?,
    };
    let mut paths = Vec::new();
    if let Some(list) = raw.points {
        paths.push(PointPath {
            name: raw.name,
            points: points(list),
        });
    }
    paths.extend(raw.paths.into_iter().flatten().map(|path| PointPath {
        name: path.name,
        points: points(path.points),
    }));
    if paths.is_empty() {
        return Err(DataFault::NoPath.into());
    }
    Ok(PointList { unit, paths })
}

#[derive(Serialize)]
struct OnePath<'a> {
    unit: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<&'a str>,
    points: Pairs<'a>,
}

#[derive(Serialize)]
struct SeveralPaths<'a> {
    unit: &'a str,
    paths: Vec<NamedPath<'a>>,
}

#[derive(Serialize)]
struct NamedPath<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<&'a str>,
    points: Pairs<'a>,
}

/// Points as pairs of numbers.
struct Pairs<'a>(&'a [Point]);

impl Serialize for Pairs<'_> {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.iter().map(|point| [point.x, point.y]))
    }
}

/// Writes a point list as JSON, one object and a line end: one path plainly, more as `"paths"`.
///
/// ```
/// use quiltpath_core::io::json::{read_points, write_points};
///
/// let text = "{\"unit\":\"mm\",\"points\":[[0.0,0.1],[25.0,12.5]]}\n";
/// assert_eq!(write_points(&read_points(text.as_bytes(), None)?)?, text);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A data error when there is no path; a geometry error that names the path and the point whose
/// coordinate is not finite or beyond [`MAX_COORDINATE`]: what is written can be read.
///
/// # Complexity
///
/// O(points).
pub fn write_points(list: &PointList) -> Result<String, Error> {
    let unit = list.unit.symbol();
    for (path, number) in list.paths.iter().zip(1..) {
        check(path, number)?;
    }
    match list.paths.as_slice() {
        [] => Err(DataFault::NoPath.into()),
        [path] => Ok(to_text(&one_path(unit, path))),
        paths => Ok(to_text(&SeveralPaths {
            unit,
            paths: paths
                .iter()
                .map(|path| NamedPath {
                    name: path.name.as_deref(),
                    points: Pairs(&path.points),
                })
                .collect(),
        })),
    }
}

/// Writes one path as one line of JSON Lines.
///
/// # Errors
///
/// As [`write_points`].
pub fn write_point_line(unit: Unit, path: &PointPath) -> Result<String, Error> {
    check(path, 1)?;
    Ok(to_text(&one_path(unit.symbol(), path)))
}

fn check(path: &PointPath, number: usize) -> Result<(), Error> {
    check_points(&path.points).map_err(|error| match &path.name {
        Some(name) => error.in_element(name),
        None => error.in_element(format!("path {number}")),
    })
}

fn one_path<'a>(unit: &'a str, path: &'a PointPath) -> OnePath<'a> {
    OnePath {
        unit,
        name: path.name.as_deref(),
        points: Pairs(&path.points),
    }
}

/// Compact JSON and a line end.
fn to_text(value: &impl Serialize) -> String {
    // Plain structs with string keys can't fail to serialise into memory.
    let mut text = serde_json::to_string(value).unwrap_or_default();
    text.push('\n');
    text
}

#[cfg(test)]
mod tests;
