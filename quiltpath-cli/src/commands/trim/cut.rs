//! The shape that a drawing is cut to, in its place on the drawing.

use std::path::{Path, PathBuf};
use std::str::FromStr;

use clap::Args;
use quiltpath_core::geom::region::Region;
use quiltpath_core::geom::{Bounds, BoxCorner, Point, Vector};
use quiltpath_core::io::drawing::ReadOptions;
use quiltpath_core::leg::{l_region, leg_end, rectangle, triangle_half};
use quiltpath_core::motif::Motif;
use quiltpath_core::trim::Terminals;
use quiltpath_core::units::{Length, Unit};

use crate::args::{ELBOWS, Place, choice, number, positive_in_unit};
use crate::drawing;
use crate::failure::Failure;
use crate::files::label;

/// The options that say what to cut to.
#[derive(Args)]
pub(super) struct ShapeArgs {
    /// l, rectangle, triangle, or a file with a polygon
    #[arg(long, value_name = "SHAPE")]
    to: Shape,
    /// Width of the shape [default: the drawing's]
    #[arg(long, value_name = "LENGTH")]
    width: Option<Length>,
    /// Height of the shape [default: the drawing's]
    #[arg(long, value_name = "LENGTH")]
    height: Option<Length>,
    /// l: depth of its legs
    #[arg(long, value_name = "LENGTH")]
    leg_depth: Option<Length>,
    /// Corner where the legs meet [default: top-left]
    #[arg(long, value_name = "CORNER", hide_possible_values = true, value_parser = choice(ELBOWS))]
    elbow: Option<BoxCorner>,
    /// Top left of the shape [default: elbows match]
    #[arg(long, value_name = "X, Y")]
    at: Option<Place>,
    /// l: where to start and end, 0 (inner) to 1 (outer) [default: 0.5]
    #[arg(long, value_name = "SHARE", value_parser = number)]
    across: Option<f64>,
    /// Ends where least is added [default unless l]
    #[arg(long, conflicts_with = "across")]
    free_ends: bool,
}

/// What a drawing is cut to.
#[derive(Debug, Clone, PartialEq)]
enum Shape {
    L,
    Rectangle,
    Triangle,
    Polygon(PathBuf),
}

impl FromStr for Shape {
    type Err = String;

    fn from_str(word: &str) -> Result<Self, String> {
        match word {
            "l" | "L" => Ok(Self::L),
            "rectangle" => Ok(Self::Rectangle),
            "triangle" => Ok(Self::Triangle),
            path if Path::new(path).is_file() => Ok(Self::Polygon(path.into())),
            _ => Err(format!(
                "\"{word}\" is neither a shape nor a file; give l, rectangle, triangle, or the name of a file with a polygon"
            )),
        }
    }
}

impl ShapeArgs {
    /// True for a shape from a file.
    pub(super) fn is_polygon(&self) -> bool {
        matches!(self.to, Shape::Polygon(_))
    }

    /// Refuses options that the shape has no use for, and asks for those it needs.
    pub(super) fn check_use(&self) -> Result<(), Failure> {
        let is_l = self.to == Shape::L;
        let is_polygon = self.is_polygon();
        if is_l && self.leg_depth.is_none() {
            let needed = "--to l: give the depth of its legs with --leg-depth";
            return Err(Failure::Usage(needed.to_owned()));
        }
        let given = [
            ("--leg-depth", self.leg_depth.is_some() && !is_l),
            ("--across", self.across.is_some() && !is_l),
            ("--width", self.width.is_some() && is_polygon),
            ("--height", self.height.is_some() && is_polygon),
            ("--elbow", self.elbow.is_some() && is_polygon),
            ("--at", self.at.is_some() && is_polygon),
        ];
        match given.iter().find(|(_, wrong)| *wrong) {
            Some((option, _)) => Err(Failure::Usage(format!(
                "{option}: this shape doesn't use it; leave it out"
            ))),
            None => Ok(()),
        }
    }
}

/// The region in its place, and where the path has to start and end on its boundary.
pub(super) struct Cut {
    pub(super) region: Region,
    pub(super) terminals: Terminals,
}

impl Cut {
    pub(super) fn new(
        args: &ShapeArgs,
        motif: &Motif,
        unit: Unit,
        reading: &ReadOptions,
    ) -> Result<Self, Failure> {
        if let Shape::Polygon(path) = &args.to {
            let polygon = drawing::open(path, reading)?.motif(unit, reading);
            let region = polygon.and_then(|joined| Region::new(joined.motif.points().to_vec()));
            return Ok(Self {
                region: region.map_err(|e| e.in_file(label(path)))?,
                terminals: Terminals::default(),
            });
        }
        let bounds = motif.bounds();
        let size = |typed: &Option<Length>, option: &str, own: f64| match typed {
            Some(typed) => positive_in_unit(typed, reading.unit, unit, option),
            None => Ok(own),
        };
        let width = size(&args.width, "--width", bounds.width())?;
        let height = size(&args.height, "--height", bounds.height())?;
        let elbow = args.elbow.unwrap_or(BoxCorner::TopLeft);
        let (region, terminals) = match (&args.to, &args.leg_depth) {
            (Shape::L, Some(depth)) => {
                let depth = positive_in_unit(depth, reading.unit, unit, "--leg-depth")?;
                let across = args.across.unwrap_or(0.5);
                if !(0.0..=1.0).contains(&across) {
                    let message = format!("--across: {across} is out of range; give 0 to 1");
                    return Err(Failure::Usage(message));
                }
                let region = l_region(elbow, width, height, depth)?;
                let end = |leg| leg_end(elbow, width, height, depth, leg, across);
                let legs = elbow.legs_clockwise();
                let terminals = Terminals::default()
                    .with_start(end(legs[0])?)
                    .with_end(end(legs[1])?);
                (region, terminals)
            }
            (Shape::Triangle, _) => (triangle_half(elbow, width, height)?, Terminals::default()),
            _ => (rectangle(width, height)?, Terminals::default()),
        };
        let own = Bounds {
            min: Point::origin(),
            max: Point::new(width, height),
        };
        let shift: Vector = match &args.at {
            Some(place) => place.in_unit(reading.unit, unit, "--at")?.coords,
            None => elbow.of(bounds) - elbow.of(own),
        };
        Ok(Self {
            region: region.map(|corner| corner + shift)?,
            terminals: if args.free_ends {
                Terminals::default()
            } else {
                terminals
            },
        })
    }
}
