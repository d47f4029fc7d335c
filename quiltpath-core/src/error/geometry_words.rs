//! The messages of points, lines, regions, quilts and transforms that are no geometry.

use std::fmt;

use super::geometry::GeometryFault;
use super::words::{Lengths, plural};
use crate::geom::Bounds;
use crate::units::rounded;

impl fmt::Display for GeometryFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Lengths::Bare)
    }
}

/// A box as width, height, least x and least y in words.
fn size_and_place(bounds: &Bounds, lengths: Lengths) -> String {
    let [width, height] = [bounds.width(), bounds.height()].map(|size| lengths.show(size));
    let [x, y] = [bounds.min.x, bounds.min.y].map(|place| lengths.show(place));
    format!("{width} x {height} at ({x}, {y})")
}

impl GeometryFault {
    /// The message with lengths shown like this.
    ///
    /// Coordinates and the measures of a quilt stay bare: they are as the caller wrote them.
    #[allow(clippy::too_many_lines)]
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, lengths: Lengths) -> fmt::Result {
        let length = |value: &f64| lengths.show(*value);
        match self {
            Self::TooFewPoints { found } => write!(
                f,
                "{found} point{} can't make a line; give at least 2 different points",
                plural(*found)
            ),
            Self::NoLength => write!(
                f,
                "all points are the same, so the line has no length; give at least 2 different points"
            ),
            Self::NotFinite { index, value } => write!(
                f,
                "point {index} has the coordinate {value}; coordinates must be finite numbers"
            ),
            Self::TooLarge {
                index,
                value,
                limit,
            } => write!(
                f,
                "point {index} has the coordinate {}; coordinates may go from -{limit:e} to {limit:e}",
                rounded(*value)
            ),
            Self::TooFine { limit } => write!(
                f,
                "the curves would become more than {limit} points; give a larger tolerance of flattening, or check the unit of the drawing"
            ),
            Self::Flat => write!(
                f,
                "the transform flattens the drawing to a line or a point; give factors other than 0"
            ),
            Self::NoSize { axis } => write!(
                f,
                "the drawing has no {axis}, so it can't be fitted to one; give only the other size"
            ),
            Self::NoTarget => write!(
                f,
                "no size to fit to is given; give a width, a height or both"
            ),
            Self::BadNumber {
                what,
                value,
                accepted,
            } => write!(f, "{what} is {}; give {accepted}", rounded(*value)),
            Self::RadiusTooSmall { radius, least } => write!(
                f,
                "the radius of the bend is {}, so the band would fold; give a radius above {}",
                length(radius),
                length(least)
            ),
            Self::RadiusTooLarge { radius, most } => write!(
                f,
                "the radius of the bend is {}, too large to leave any depth at the inner corner; give a radius below {}",
                length(radius),
                length(most)
            ),
            Self::RegionNotSimple { first, second } => write!(
                f,
                "the sides {first} and {second} of the region touch or cross, counted from 0; give a polygon whose sides meet only at its corners, one after the other"
            ),
            Self::RegionTooFew { found } => write!(
                f,
                "{found} corner{} can't make a region; give at least 3 corners that are not in one line",
                plural(*found)
            ),
            Self::InsetTooLarge { inset, limit } => write!(
                f,
                "an inset of {} does not fit into the region; give an inset below {}",
                length(inset),
                length(limit)
            ),
            Self::OutsideRegion { drawing, region } => write!(
                f,
                "the drawing ({}) lies entirely outside the region ({}); move or scale the drawing so that they overlap",
                size_and_place(drawing, lengths),
                size_and_place(region, lengths)
            ),
            Self::OnlySlivers { slivers, tolerance } => write!(
                f,
                "only {slivers} sliver{} shorter than {} of the drawing lie{} inside the region; move the drawing further in or give a smaller sliver tolerance",
                plural(*slivers),
                length(tolerance),
                if *slivers == 1 { "s" } else { "" }
            ),
            Self::NoPieces => write!(f, "there is no piece to join; give at least one"),
            Self::PieceAstray { index, position } => write!(
                f,
                "piece {index} does not end on the boundary at the position {} that it gives; give the distance along the boundary from its first corner",
                length(position)
            ),
            Self::NoTriangle { measures, between } => {
                let [first, second, diagonal] = measures
                    .each_ref()
                    .map(|measure| format!("the {} ({})", measure.name, length(&measure.length)));
                write!(
                    f,
                    "{first}, {second} and {diagonal} don't form a triangle; "
                )?;
                match between {
                    Some([least, most]) => write!(
                        f,
                        "give a {} above {} and below {}",
                        measures[2].name,
                        length(least),
                        length(most)
                    ),
                    None => write!(
                        f,
                        "no diagonal fits these four sides, so measure the sides again"
                    ),
                }
            }
            Self::SidesDontClose { longest, others } => write!(
                f,
                "one side is {} long, but the other three together are only {} long; measure the sides again",
                length(longest),
                length(others)
            ),
            Self::Dented { corner, diagonal } => write!(
                f,
                "the quilt would be dented in at its {corner} corner; give a longer {diagonal}, or measure the sides again"
            ),
            Self::PolygonSides { found } => write!(
                f,
                "{found} corner{} can't make a polygon for a border to run round; give 3 to 12 corners",
                plural(*found)
            ),
            Self::RoundingTooLarge { radius, most } => write!(
                f,
                "corners rounded to {} leave nothing of a side; {} is the most",
                length(radius),
                length(most)
            ),
            Self::RoundTooTight { distance, least } => write!(
                f,
                "the curve bends to a radius of {}, so a line {} inside it would fold; give a narrower border or a larger radius",
                length(least),
                length(distance)
            ),
            Self::ScallopCount { count, between } => write!(
                f,
                "an edge can't be cut in {count} scallops; give {} to {}",
                between[0], between[1]
            ),
            Self::ScallopsFew {
                count,
                length: round,
            } => write!(
                f,
                "{count} scallops on an edge of {} are too long to follow it; give more scallops, or corners rounded more",
                length(round)
            ),
            Self::ScallopsDeep { depth, most } => write!(
                f,
                "scallops {} deep are too steep for their length; {} is the most for so many",
                length(depth),
                length(most)
            ),
            Self::ScallopsLeaveNothing { by } => write!(
                f,
                "the scallops leave nothing of the band at the cusps; give a border more than {} wider, or scallops that are less deep",
                length(by)
            ),
            Self::CornerTwice => write!(
                f,
                "two corners that follow each other are the same; give each corner once"
            ),
            Self::CornerNotConvex { corner } => write!(
                f,
                "{corner} does not turn clockwise; give the corners of a polygon without dents, clockwise as seen"
            ),
            Self::CornerAngle { corner, degrees } => write!(
                f,
                "{corner} has {degrees:.1} degrees; give a polygon with corners of 30 to 170 degrees"
            ),
            Self::WidthCount { found, count } => write!(
                f,
                "{found} width{} for {count} sides; give one for each side",
                plural(*found)
            ),
            Self::InsetTooWide {
                side,
                taken,
                length: long,
                percent,
            } => write!(
                f,
                "the widths take {} of the {} of {side}, so nothing is left inside it; give widths below {percent:.0} % of these",
                length(taken),
                length(long)
            ),
            Self::StationCount { found, limit } => write!(
                f,
                "{found} station{} can't make a band; give 2 to {limit} pairs of points",
                plural(*found)
            ),
            Self::StationWithoutDepth => write!(
                f,
                "both points are the same, so the band has no depth; give one on each line"
            ),
            Self::StationTwice => write!(
                f,
                "this station lies where the one before it does; give each place once"
            ),
            Self::GapsTakeWidth { gaps, width } => write!(
                f,
                "the gaps take {} together, but the border is only {} wide here; give smaller gaps",
                length(gaps),
                length(width)
            ),
            Self::StationsTurn => write!(
                f,
                "the band turns too sharply from this station to the next for a smooth curve; measure more stations, or join them by straight lines"
            ),
            Self::CrossLineAlong => write!(
                f,
                "the line that a side ends on runs along it; give one that crosses the band"
            ),
            Self::CrossLinesMeet => write!(
                f,
                "the lines that a side starts and ends on leave nothing between them; give a longer side or shorter corners"
            ),
            Self::OtherCorner { degrees, depths } => {
                let [made, there] = degrees.map(rounded);
                write!(
                    f,
                    "the corner is made for {made} degrees and a band {} deep, but is to lie at {there} degrees in one {} deep; make one for that place",
                    length(&depths[0]),
                    length(&depths[1])
                )
            }
            Self::UnequalDepths { entering, leaving } => write!(
                f,
                "the band is {} deep before the corner and {} after it, so the repeat can't be cut or bent to turn it; give both sides the same depth, or draw a corner",
                length(entering),
                length(leaving)
            ),
        }
    }
}
