//! Points, lines, regions, quilts and transforms that can't be used.

use crate::geom::Bounds;

/// What is wrong with points, lines, regions, quilts or transforms, or with another number out of
/// its range.
///
/// Lengths are in the unit of the call, which is millimetres inside a plan.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum GeometryFault {
    /// Fewer than two points where a line is wanted.
    TooFewPoints {
        /// How many points there are.
        found: usize,
    },
    /// All points of a line are the same.
    NoLength,
    /// A coordinate is NaN or infinite.
    NotFinite {
        /// The number of the point, from 0.
        index: usize,
        /// The coordinate.
        value: f64,
    },
    /// A coordinate is too large.
    TooLarge {
        /// The number of the point, from 0.
        index: usize,
        /// The coordinate.
        value: f64,
        /// The largest magnitude that is accepted.
        limit: f64,
    },
    /// Curves would become too many points.
    TooFine {
        /// The largest number of points.
        limit: usize,
    },
    /// A transform flattens everything to a line or a point.
    Flat,
    /// A drawing without width or height is to be fitted to one.
    NoSize {
        /// `width` or `height`.
        axis: &'static str,
    },
    /// A drawing is to be fitted to no size at all.
    NoTarget,
    /// A number is out of its range.
    BadNumber {
        /// What the number is, such as `the corner's angle`.
        what: &'static str,
        /// The number.
        value: f64,
        /// What is accepted, such as `45 to 150 degrees`.
        accepted: &'static str,
    },
    /// The band of a bend would fold.
    RadiusTooSmall {
        /// The radius of the bend's middle line.
        radius: f64,
        /// It has to be above this.
        least: f64,
    },
    /// A bend leaves no depth at the inner corner.
    RadiusTooLarge {
        /// The radius of the bend's middle line.
        radius: f64,
        /// It has to be below this.
        most: f64,
    },
    /// Two sides of a region touch or cross.
    RegionNotSimple {
        /// The number of one side, from 0.
        first: usize,
        /// The number of the other side.
        second: usize,
    },
    /// A region has fewer than three corners that are not in one line.
    RegionTooFew {
        /// How many it has.
        found: usize,
    },
    /// An inset leaves nothing of a region.
    InsetTooLarge {
        /// The inset.
        inset: f64,
        /// It has to be below this.
        limit: f64,
    },
    /// A drawing lies entirely outside its region.
    OutsideRegion {
        /// The box of the drawing.
        drawing: Bounds,
        /// The box of the region.
        region: Bounds,
    },
    /// Only slivers of a drawing lie inside its region.
    OnlySlivers {
        /// How many slivers.
        slivers: usize,
        /// They are shorter than this.
        tolerance: f64,
    },
    /// There is no piece to join.
    NoPieces,
    /// A piece does not end on the boundary where it claims to.
    PieceAstray {
        /// The number of the piece, from 0.
        index: usize,
        /// The position that it gives: the distance along the boundary from its first corner.
        position: f64,
    },
    /// Two sides and a diagonal of a quilt form no triangle.
    NoTriangle {
        /// The two sides, then the diagonal.
        measures: [Measure; 3],
        /// The diagonal has to be above the first and below the second; `None` when no diagonal
        /// fits the four sides.
        between: Option<[f64; 2]>,
    },
    /// One side of a quilt is as long as the other three together.
    SidesDontClose {
        /// The longest side.
        longest: f64,
        /// The other three together.
        others: f64,
    },
    /// A quilt would be dented in at a corner.
    Dented {
        /// The corner, such as `bottom right`.
        corner: String,
        /// The diagonal that is too short, such as `falling diagonal`.
        diagonal: &'static str,
    },
    /// A polygon has too few or too many corners for a border.
    PolygonSides {
        /// How many corners it has.
        found: usize,
    },
    /// Corners are rounded so much that a side is too short for them.
    RoundingTooLarge {
        /// The radius.
        radius: f64,
        /// The largest that fits.
        most: f64,
    },
    /// A curve would fold so far inside a round one.
    RoundTooTight {
        /// How far inside.
        distance: f64,
        /// The least radius of curvature of the round one.
        least: f64,
    },
    /// An edge can't be cut in so many scallops.
    ScallopCount {
        /// How many.
        count: usize,
        /// The fewest and the most.
        between: [usize; 2],
    },
    /// Scallops are so long that they can't follow the edge.
    ScallopsFew {
        /// How many.
        count: usize,
        /// The length of the edge.
        length: f64,
    },
    /// Scallops are too deep for their length.
    ScallopsDeep {
        /// How deep.
        depth: f64,
        /// The most for so many on this edge.
        most: f64,
    },
    /// A border with a scalloped edge has no depth at the cusps.
    ScallopsLeaveNothing {
        /// How much deeper it has to be there, at least.
        by: f64,
    },
    /// Two corners that follow each other are the same.
    CornerTwice,
    /// A corner of a polygon is dented in, or the polygon runs counterclockwise.
    CornerNotConvex {
        /// The corner, such as `the top left corner` or `corner 5`.
        corner: String,
    },
    /// A corner of a polygon is too sharp or too blunt for a border.
    CornerAngle {
        /// The corner, such as `the top left corner` or `corner 5`.
        corner: String,
        /// Its interior angle in degrees.
        degrees: f64,
    },
    /// There are more or fewer widths than sides.
    WidthCount {
        /// How many widths there are.
        found: usize,
        /// How many sides there are.
        count: usize,
    },
    /// Widths leave nothing of a side.
    InsetTooWide {
        /// The side, such as `the top side` or `side 5`.
        side: String,
        /// How much of the side the widths take.
        taken: f64,
        /// The length of the side.
        length: f64,
        /// Widths fit below this share of the given ones, in percent.
        percent: f64,
    },
    /// There are too few or too many stations for a band.
    StationCount {
        /// How many pairs of points there are.
        found: usize,
        /// The largest number that is accepted.
        limit: usize,
    },
    /// Both points of a station are the same.
    StationWithoutDepth,
    /// A station lies where the one before it does.
    StationTwice,
    /// Gaps leave nothing of a border's width.
    GapsTakeWidth {
        /// The gaps together.
        gaps: f64,
        /// The width of the border where they are.
        width: f64,
    },
    /// A band turns too sharply between two stations for a smooth curve.
    StationsTurn,
    /// The line that a side ends on runs along it.
    CrossLineAlong,
    /// The lines that a side starts and ends on leave nothing between them.
    CrossLinesMeet,
    /// A corner that was made for one place is to lie at another.
    OtherCorner {
        /// The interior angle that the corner is made for, then that of the place.
        degrees: [f64; 2],
        /// The depth of the band that the corner is made for, then that of the place.
        depths: [f64; 2],
    },
    /// The bands before and after a corner have different depths.
    UnequalDepths {
        /// The depth of the band that enters the corner.
        entering: f64,
        /// The depth of the band that leaves it.
        leaving: f64,
    },
}

/// A measure of a quilt with its name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// Its name, such as `top side` or `falling diagonal`.
    pub name: &'static str,
    /// Its length, in the unit of the measures.
    pub length: f64,
}
