//! `transform`: turns, mirrors, sizes and moves a motif, one operation after the other.

mod operation;

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::geom::Point;
use quiltpath_core::leg::{LegGiven, choose_leg};
use quiltpath_core::motif::Motif;
use quiltpath_core::transform::{Proportions, Transform};
use quiltpath_core::units::{Length, Unit};

use self::operation::{Handle, Operation, parse_all};
use crate::args::{InOut, in_unit, positive_in_unit};
use crate::batch::draw;
use crate::drawing::report_strokes;
use crate::failure::Failure;
use crate::hint::Asker;
use crate::message::note;
use crate::output::point_list;

/// Rotate, mirror, resize or move a motif; its start and end follow
#[derive(Args)]
#[command(after_help = "\
Operations, in the order given:
  rotate DEGREES [about X, Y]      mirror left-right | top-bottom
  scale FACTOR [FACTOR]            mirror line X1, Y1, X2, Y2
  fit WIDTH x HEIGHT               fit width WIDTH | fit height HEIGHT
  stretch WIDTH x HEIGHT           move RIGHT, DOWN
  start at X, Y   end at X, Y      elbow at X, Y                    reverse
The middle stays in place (rotate, mirror), or the top left corner (scale, fit,
stretch). A folder needs --format, and a folder for --out.

Example: quiltpath transform leaf.svg --op \"rotate 90\" --op \"fit width 4 in\" \\
         --out turned.svg")]
pub(crate) struct TransformArgs {
    /// Motif (SVG, DXF, JSON, PNG, JPEG) or folder, - for stdin
    #[arg(value_name = "MOTIF")]
    motif: PathBuf,
    /// What to do; repeat it for the next step
    #[arg(long, value_name = "OPERATION", required = true)]
    op: Vec<String>,
    #[command(flatten)]
    in_out: InOut,
}

pub(crate) fn run(args: TransformArgs) -> Result<(), Failure> {
    let ways = args.in_out.check()?;
    let options = ways.reading.clone();
    let operations = parse_all(&args.op).map_err(Failure::Usage)?;
    check_lengths(&operations, &args.op, options.unit)?;

    draw(Asker::Transform, &args.motif, ways, |drawing, place| {
        let unit = drawing.unit();
        let drawn = drawing.motifs(&options)?.into_iter().map(|joined| {
            report_strokes(place, &joined.report, unit);
            joined.motif
        });
        let drawn: Vec<Motif> = drawn.collect();
        let mut motifs = drawn.clone();
        let work = Prepared {
            bare: options.unit,
            unit,
        };
        for motif in &mut motifs {
            for (operation, text) in operations.iter().zip(&args.op) {
                let done = work.apply(operation, motif);
                *motif = done.map_err(|failure| match failure {
                    Failure::Data(e) => e.in_element(format!("\"{text}\"")).into(),
                    other => other,
                })?;
            }
        }
        if operations.len() > 1
            && drawn
                .iter()
                .zip(&motifs)
                .all(|pair| is_same(pair.0, pair.1))
        {
            note("the operations undo each other: every point is where it was");
        }
        Ok(point_list(unit, &motifs))
    })
}

/// Whether a motif is where it was, up to rounding.
fn is_same(before: &Motif, after: &Motif) -> bool {
    let size = before.bounds().size().amax();
    let mut pairs = before.points().iter().zip(after.points());
    pairs.all(|(one, other)| (one - other).amax() <= 1e-9 * size)
}

/// Refuses lengths that can't be used before anything is read.
fn check_lengths(
    operations: &[Operation],
    texts: &[String],
    bare: Option<Unit>,
) -> Result<(), Failure> {
    for ((operation, text), number) in operations.iter().zip(texts).zip(1..) {
        let name = format!("--op {number} \"{text}\"");
        let check = |typed: &Length| in_unit(typed, bare, Unit::Mm, &name).map(drop);
        let positive = |typed: &Length| positive_in_unit(typed, bare, Unit::Mm, &name).map(drop);
        match operation {
            Operation::Rotate { about, .. } => about.iter().flatten().try_for_each(check)?,
            Operation::MirrorLine(points) => points.iter().try_for_each(check)?,
            Operation::Fit { width, height, .. } => {
                width.iter().chain(height).try_for_each(positive)?;
            }
            Operation::Move(point) | Operation::Carry(_, point) => {
                point.iter().try_for_each(check)?;
            }
            Operation::Mirror(_) | Operation::Scale(_) | Operation::Reverse => {}
        }
    }
    Ok(())
}

struct Prepared {
    bare: Option<Unit>,
    unit: Unit,
}

impl Prepared {
    fn apply(&self, operation: &Operation, motif: &Motif) -> Result<Motif, Failure> {
        let bounds = motif.bounds();
        let transform = match operation {
            Operation::Rotate { degrees, about } => {
                let centre = match about {
                    Some(point) => self.point(point)?,
                    None => bounds.centre(),
                };
                Transform::rotate_degrees(*degrees).about(centre)
            }
            Operation::Mirror(mirror) => Transform::mirror(*mirror).about(bounds.centre()),
            Operation::MirrorLine([x1, y1, x2, y2]) => {
                let from = self.point(&[*x1, *y1])?;
                Transform::mirror_line(from, self.point(&[*x2, *y2])?)?
            }
            Operation::Scale([x, y]) => {
                let scale = Transform::scale(*x, *y);
                scale.inverse()?;
                scale.about(bounds.min)
            }
            Operation::Fit {
                width,
                height,
                proportions,
            } => self.fit(motif, [width, height], *proportions)?,
            Operation::Move(by) => {
                let by = self.point(by)?;
                Transform::translate(by.x, by.y)
            }
            Operation::Carry(handle, to) => {
                let from = match handle {
                    Handle::Start => motif.start().point,
                    Handle::End => motif.end().point,
                    Handle::Elbow => elbow(motif)?,
                };
                Transform::carry(from, self.point(to)?)
            }
            Operation::Reverse => return Ok(motif.clone().reversed()),
        };
        Ok(motif.transformed(&transform)?)
    }

    fn fit(
        &self,
        motif: &Motif,
        sizes: [&Option<Length>; 2],
        proportions: Proportions,
    ) -> Result<Transform, Failure> {
        let length = |typed: &Option<Length>| {
            let typed = typed.as_ref();
            typed.map(|typed| self.length(typed)).transpose()
        };
        let (width, height) = (length(sizes[0])?, length(sizes[1])?);
        Ok(Transform::fit(motif.bounds(), width, height, proportions)?)
    }

    fn point(&self, [x, y]: &[Length; 2]) -> Result<Point, Failure> {
        Ok(Point::new(self.length(x)?, self.length(y)?))
    }

    fn length(&self, typed: &Length) -> Result<f64, Failure> {
        in_unit(typed, self.bare, self.unit, "--op")
    }
}

/// The corner of the drawing where its legs meet.
fn elbow(motif: &Motif) -> Result<Point, Error> {
    let leg = choose_leg(motif, &LegGiven::default())?;
    Ok(leg.to_standard().inverse()?.apply(Point::origin()))
}
