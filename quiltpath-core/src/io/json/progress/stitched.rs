//! What is stitched, as the file of a quilt's progress has it.

use serde::{Deserialize, Serialize};

use super::numbers::{from_1, malformed, points, raw};
use crate::error::Error;
use crate::geom::{MAX_COORDINATE, Vector};
use crate::io::json::points::RawPoint;
use crate::motif::Motif;
use crate::plan::spec::CornerStyle;
use crate::plan::{
    CornerPlace, FieldPlace, PartPlace, PieceLine, Side, SideWidths, StitchedBorder, StitchedPart,
};

/// A border that has begun.
#[derive(Serialize, Deserialize)]
pub(super) struct BorderFile {
    border: String,
    seam: Vec<RawPoint>,
    widths: Vec<WidthsFile>,
    parts: Vec<PartFile>,
}

#[derive(Serialize, Deserialize)]
struct WidthsFile {
    width: f64,
    seam_gap: f64,
    edge_gap: f64,
}

/// A piece that has begun: a corner with its style, a side, or a link with the end of its side.
#[derive(Serialize, Deserialize, Default)]
struct PartFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    corner: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    style: Option<CornerStyle>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    line: Option<usize>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    side: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    meets: Option<[bool; 2]>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    link: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    at: Option<LinkAt>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    ring: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    place: Option<String>,
    /// For people: from where to where it is stitched, counted in repeats.
    #[serde(default, skip_serializing_if = "Vec::is_empty", skip_deserializing)]
    in_repeats: Vec<[f64; 2]>,
    stretches: Vec<[f64; 2]>,
    ends: Vec<usize>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    links: Vec<usize>,
    directions: [RawPoint; 2],
    points: Vec<RawPoint>,
}

/// The end of its side that a link lies at.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum LinkAt {
    Start,
    End,
}

impl BorderFile {
    pub(super) fn of(border: &StitchedBorder) -> Self {
        Self {
            border: border.name.clone(),
            seam: raw(&border.seam),
            widths: (border.widths.iter())
                .map(|side| WidthsFile {
                    width: side.width,
                    seam_gap: side.seam_gap,
                    edge_gap: side.edge_gap,
                })
                .collect(),
            parts: border.parts.iter().map(PartFile::of).collect(),
        }
    }

    pub(super) fn border(self) -> Result<StitchedBorder, Error> {
        let count = self.seam.len();
        if !(3..=12).contains(&count) {
            return Err(malformed(
                "a seam has 3 to 12 corners; give the corners as they were written",
            )
            .in_element("seam"));
        }
        if self.widths.len() != count {
            return Err(malformed(
                "there are more or fewer widths than sides; give one for each corner of the seam",
            )
            .in_element("widths"));
        }
        let mut widths = Vec::with_capacity(count);
        for (index, side) in self.widths.into_iter().enumerate() {
            let [width, seam_gap, edge_gap] = [side.width, side.seam_gap, side.edge_gap];
            // A side without a border has no width, and the field of blocks has none anywhere.
            let deep = width == 0.0 || width - seam_gap - edge_gap > 0.0;
            let fits = [width, seam_gap, edge_gap]
                .into_iter()
                .all(|length| length.abs() <= MAX_COORDINATE);
            if !(deep && fits) {
                return Err(malformed(
                    "the gaps leave no band; give a width above the two gaps together",
                )
                .in_element(format!("widths[{index}]")));
            }
            widths.push(SideWidths {
                width,
                seam_gap,
                edge_gap,
            });
        }
        let mut parts: Vec<StitchedPart> = Vec::with_capacity(self.parts.len());
        for (index, part) in self.parts.into_iter().enumerate() {
            let in_part = |e: Error| e.in_element(format!("parts[{index}]"));
            let part = part.part(count).map_err(in_part)?;
            if parts.iter().any(|other| other.place.is(&part.place)) {
                return Err(in_part(malformed(
                    "this piece is there twice; give each piece once, with all its stretches",
                )));
            }
            parts.push(part);
        }
        Ok(StitchedBorder {
            name: self.border,
            seam: points(self.seam),
            widths,
            parts,
        })
    }
}

impl PartFile {
    fn of(part: &StitchedPart) -> Self {
        let motif = &part.line.motif;
        let vector = |direction: Vector| RawPoint(direction.into());
        let lines = Self {
            in_repeats: part.in_repeats(),
            stretches: part.stretches.clone(),
            ends: part.line.ends.clone(),
            links: motif.links().to_vec(),
            directions: [motif.start(), motif.end()].map(|end| vector(end.direction)),
            points: raw(motif.points()),
            ..Self::default()
        };
        match part.place {
            PartPlace::Corner { place, style, line } => Self {
                corner: Some(place.name().to_owned()),
                style: Some(style),
                line: Some(line + 1),
                in_repeats: Vec::new(),
                ..lines
            },
            PartPlace::Side { side, meets } => Self {
                side: Some(side.name().to_owned()),
                meets: Some(meets),
                ..lines
            },
            PartPlace::Ring => Self {
                ring: true,
                ..lines
            },
            PartPlace::Field { place, line } => Self {
                place: Some(place.to_string()),
                line: Some(line + 1),
                ..lines
            },
            PartPlace::Link { side, last } => Self {
                link: Some(side.name().to_owned()),
                at: Some(if last { LinkAt::End } else { LinkAt::Start }),
                in_repeats: Vec::new(),
                ..lines
            },
        }
    }

    /// The part of a border that has so many sides.
    fn part(self, count: usize) -> Result<StitchedPart, Error> {
        let place = self.place(count)?;
        let given = self.points.len();
        let motif = Motif::from_points("stitched", points(self.points))
            .map_err(|e| e.in_element("points"))?;
        let last = motif.points().len() - 1;
        if last + 1 != given {
            return Err(malformed(
                "a point equals the one before it; give the points as they were written",
            )
            .in_element("points"));
        }
        let rising = self.ends.windows(2).all(|pair| pair[0] < pair[1]);
        if !(rising && self.ends.first() != Some(&0) && self.ends.last() == Some(&last)) {
            return Err(malformed(
                "repeats end at rising indices of the points, the last at the last point",
            )
            .in_element("ends"));
        }
        let mut reached = 0.0;
        for (index, &[from, to]) in self.stretches.iter().enumerate() {
            if !(reached <= from && from < to && to <= 1.0) {
                return Err(malformed(
                    "stretches are shares from 0 to 1 of the length, rising and apart from each other",
                )
                .in_element(format!("stretches[{index}]")));
            }
            reached = to;
        }
        let directions = self.directions.map(|direction| direction.0.coords);
        if directions
            .iter()
            .any(|direction| (direction.norm() - 1.0).abs() > 1e-9)
        {
            return Err(malformed(
                "a direction is not 1 long; give the directions as they were written",
            )
            .in_element("directions"));
        }
        let motif = motif
            .with_unit_directions(directions)
            .with_links(self.links);
        let mut part = StitchedPart::new(place, PieceLine::new(motif, self.ends));
        part.stretches = self.stretches;
        Ok(part)
    }

    fn place(&self, count: usize) -> Result<PartPlace, Error> {
        let side = |name: &str, key: &str| {
            let found = Side::all(count).find(|side| side.name() == name);
            found.ok_or_else(|| malformed(NO_SIDE).in_element(key))
        };
        if let (Some(name), None, None, None) = (&self.place, &self.corner, &self.side, &self.link)
        {
            let place = FieldPlace::named(name);
            let place = place.ok_or_else(|| malformed(NO_PLACE).in_element("place"))?;
            let line = from_1(self.line.unwrap_or(1)).map_err(|e| e.in_element("line"))?;
            return Ok(PartPlace::Field { place, line });
        }
        match (&self.corner, &self.side, &self.link) {
            (None, None, None) if self.ring => Ok(PartPlace::Ring),
            (Some(name), None, None) => {
                let found = CornerPlace::all(count).find(|place| place.name() == name);
                let place = found.ok_or_else(|| malformed(NO_CORNER).in_element("corner"))?;
                let style = self
                    .style
                    .ok_or_else(|| malformed("a corner needs its \"style\", such as \"leg\""))?;
                let line = from_1(self.line.unwrap_or(1)).map_err(|e| e.in_element("line"))?;
                Ok(PartPlace::Corner { place, style, line })
            }
            (None, Some(name), None) => Ok(PartPlace::Side {
                side: side(name, "side")?,
                meets: self.meets.unwrap_or([true; 2]),
            }),
            (None, None, Some(name)) => Ok(PartPlace::Link {
                side: side(name, "link")?,
                last: matches!(self.at, Some(LinkAt::End)),
            }),
            _ => Err(malformed(
                "a part is one of a corner, a side, a link and a place; give one of these keys",
            )),
        }
    }
}

const NO_PLACE: &str =
    "there is no such place among blocks; give the name as it was written, such as block r3 c2";
const NO_SIDE: &str =
    "there is no such side; give top, right, bottom or left, or the number of a side from 1";
const NO_CORNER: &str =
    "there is no such corner; give top_left and so on, or the number of a corner from 1";
