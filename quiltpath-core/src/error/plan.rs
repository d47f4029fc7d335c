//! Plans that can't be carried out.

use std::fmt;

use super::words::plural;
use crate::units::Unit;

/// What keeps a plan from being carried out; lengths in millimetres.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum PlanFault {
    /// The plan has no border.
    NoBorders,
    /// A length is not above 0.
    NotPositive {
        /// What the length is, such as `the border's width`.
        what: String,
        /// The length.
        given: f64,
    },
    /// A length is below 0.
    Negative {
        /// What the length is, such as `the seam gap`.
        what: String,
        /// The length.
        given: f64,
    },
    /// A border leaves nothing of the quilt.
    BorderTooWide {
        /// The width of the border.
        width: f64,
        /// What is left for it from the edge to the middle of the quilt.
        left: f64,
    },
    /// The gaps leave no band.
    GapsTooWide {
        /// The seam gap and the edge gap together.
        gaps: f64,
        /// The width of the border.
        width: f64,
    },
    /// The band may be shallower by all of its depth.
    SlackTooWide {
        /// By how much it may be shallower.
        slack: f64,
        /// Its depth.
        depth: f64,
    },
    /// Corners leave no room for a side.
    CornersOverlap {
        /// The side, such as `top side`.
        side: String,
        /// How much of the side the corners take.
        corners: f64,
        /// The length of the side.
        room: f64,
    },
    /// Values by the names of four sides, for a quilt that has another number of sides.
    NamedSides {
        /// How many sides the quilt has.
        count: usize,
    },
    /// There are more or fewer values than sides.
    ValuesForSides {
        /// How many values there are.
        found: usize,
        /// How many sides there are.
        count: usize,
    },
    /// A side of a border has no width.
    SideWithoutWidth {
        /// The side, such as `top side`.
        side: String,
    },
    /// A side is named that is not there.
    NoSuchSide {
        /// The name or number.
        given: String,
        /// How many sides there are.
        count: usize,
    },
    /// The measures given fix no outline.
    NoOutline {
        /// The names of what is given, such as `width` or `falling`.
        given: Vec<&'static str>,
    },
    /// A diagonal makes a quilt lean by more than one that is meant to be square.
    DiagonalUnlikely {
        /// The diagonal, such as `the falling diagonal`.
        what: &'static str,
        /// How long it is given.
        given: f64,
        /// From how long to how long it may be on a quilt near square with these sides.
        between: [f64; 2],
    },
    /// One measure is far off what the other five agree on.
    MeasureOff {
        /// The measure, such as `the top side`.
        what: &'static str,
        /// How long it is given.
        given: f64,
        /// How long it is by the others.
        implied: f64,
    },
    /// Measures are far from agreeing, and none of them stands out.
    MeasuresApart {
        /// The measure that the nearest quilt is farthest off.
        what: &'static str,
        /// How long it is given.
        given: f64,
        /// How long it is on that quilt.
        found: f64,
    },
    /// A station lies off its side.
    StationOffSide {
        /// Where it lies, from the start of the side.
        at: f64,
        /// The length of the side.
        length: f64,
    },
    /// Two stations of one side lie at the same place.
    StationTwiceAt {
        /// Where they lie, from the start of the side.
        at: f64,
    },
    /// The band of a side folds over itself.
    BandFolds {
        /// The side, such as `top side`.
        side: String,
    },
    /// The bands before and after a corner that is made from the repeat have different depths.
    UnequalDepths {
        /// The corner, such as `top left corner`.
        corner: String,
        /// The depth of the band before it.
        before: f64,
        /// The depth of the band after it.
        after: f64,
    },
    /// Borders that are to share one depth can't.
    NoSharedDepth {
        /// The depths of their bands.
        depths: Vec<f64>,
        /// By how much more the deepest would have to be shallower.
        missing: f64,
    },
    /// Lines that may be this close can't be distinguished from lines stitched twice.
    ClosestTooSmall {
        /// How close lines may be.
        closest: f64,
        /// It has to be above this.
        least: f64,
    },
    /// Something needs an even number of sides.
    OddSides {
        /// What needs it.
        what: &'static str,
        /// How many sides there are.
        count: usize,
    },
    /// Strokes are to stay apart where the border joins on to them.
    Apart,
    /// A drawing that was cut to an L stays apart.
    TrimmedApart {
        /// How many separate lines there are.
        paths: usize,
    },
    /// Two borders have one name.
    SameName {
        /// The name.
        name: String,
    },
    /// A corner style needs a drawing and has none.
    DrawingMissing {
        /// The corner style.
        style: &'static str,
    },
    /// A style of corners is made from the repeat of the sides, and they have none.
    NoRepeat {
        /// The corner style.
        style: &'static str,
    },
    /// A style of corners is made from the repeat, and the sides beside one have different ones.
    MixedRepeats {
        /// The corner style.
        style: &'static str,
        /// The names of two of the drawings.
        names: [String; 2],
    },
    /// Corners have a design, but no two sides that meet are stitched.
    CornerNowhere {
        /// The corner style.
        style: &'static str,
    },
    /// A corner that is named lies beside a side that stays plain, while others are stitched.
    CornerBesidePlain {
        /// The corner.
        corner: String,
    },
    /// Corners are named by their places where there aren't four.
    NamedCorners {
        /// How many there are.
        count: usize,
    },
    /// There is no corner of this number.
    NoSuchCorner {
        /// The number that is given.
        number: usize,
        /// How many there are.
        count: usize,
    },
    /// A corner is named twice.
    CornerTwice,
    /// Something in the middle of a side leaves its repeats no room.
    MiddleTooLong {
        /// The side.
        side: String,
        /// The length of what lies in the middle.
        middle: f64,
        /// The least length of the repeats beside it, as drawn.
        repeats: f64,
        /// The length of the side between its corners.
        span: f64,
    },
    /// A side with something in its middle is to have an odd number of repeats.
    MiddleOdd {
        /// The number, where one is given.
        repeats: Option<usize>,
    },
    /// Something is given for the middle of a side that stays plain.
    MiddleOfPlain {
        /// The side.
        side: String,
    },
    /// A centre or a spacer is given for what has no middle.
    MiddleNowhere {
        /// What that is, such as `sashes`.
        what: &'static str,
    },
    /// No border has anything to stitch.
    NothingToStitch,
    /// Keys of a border's sides are given, but no drawing for any.
    SidesWithoutMotif,
    /// The drawing of a corner runs on like a border repeat, and that of the side is an L.
    Swapped {
        /// The name of the corner's drawing.
        corner: String,
        /// The name of the side's drawing.
        side: String,
    },
    /// Something takes from a throat that is not given.
    NoThroat {
        /// The name of what takes from it, such as `roll`.
        field: &'static str,
    },
    /// A corner style has no use for something that is given.
    NotUsed {
        /// The name of what is given.
        field: &'static str,
        /// The corner style.
        style: &'static str,
    },
    /// Of two choices that exclude each other both are given.
    BothGiven {
        /// Their names.
        fields: [&'static str; 2],
    },
    /// A start or an end of a line is given beside something by which it has none of its own.
    EndsOfOneLine {
        /// The name of the end, `start` or `end`.
        key: &'static str,
        /// The name of what it doesn't go with, such as `strokes`.
        other: &'static str,
    },
    /// A text that has room for one line has several.
    SeveralLines {
        /// How many it has.
        lines: usize,
    },
    /// A text is too long to be printed.
    TextTooLong {
        /// How many characters it has.
        given: usize,
        /// How many it may have.
        most: usize,
    },
    /// There are too few plans to compare, or too many for a page.
    PlansToCompare {
        /// How many there are.
        given: usize,
        /// How many there may be at most.
        most: usize,
    },
    /// A solved plan, or its stitching, refers to something that it doesn't have.
    NotThere {
        /// What it refers to, such as `border` or `piece`.
        what: &'static str,
        /// Its number, from 0.
        number: usize,
        /// How many there are.
        count: usize,
    },
    /// A round border has corners.
    RoundCorner,
    /// A round border has a drawing for some of its sides.
    RoundSides,
    /// A round border has stations.
    RoundStations,
    /// A round border is not equally wide everywhere.
    RoundWidths,
    /// A border lies within a seam that is no longer round.
    RoundSeam,
    /// Blocks lie within a round edge or seam.
    RoundBlocks,
    /// A round cloth has its corners rounded.
    RoundTwice,
    /// An edge with sharp corners is cut in scallops.
    ScallopsSharp,
    /// The repeats of a border along scallops are no whole number for each.
    ScallopRepeats {
        /// How many repeats are asked for.
        repeats: usize,
        /// How many scallops there are.
        count: usize,
    },
    /// There is no row or no column of blocks.
    NoBlocks {
        /// `rows` or `columns`.
        key: &'static str,
    },
    /// There are more places in the field of blocks than a plan may have.
    TooManyBlocks {
        /// How many.
        count: usize,
        /// The most.
        limit: usize,
    },
    /// The blocks take more room than the borders leave.
    BlocksTooLarge {
        /// Their width and height together, with sashes.
        size: [f64; 2],
        /// The width and height that the borders leave, where that has four sides.
        left: Option<[f64; 2]>,
        /// How far a corner lies outside.
        by: f64,
    },
    /// The size of the blocks can't be found from a room that hasn't four sides.
    NoBlockSize,
    /// A list of sizes of blocks has another length than there are rows or columns.
    ListLength {
        /// `heights` or `widths`.
        key: &'static str,
        /// How many there are.
        found: usize,
        /// How many there should be.
        count: usize,
    },
    /// Sashes are as wide as blocks, or wider.
    SashesTooWide {
        /// The width of a sash.
        sash: f64,
        /// The least side of a block.
        block: f64,
    },
    /// Something goes with another setting of the blocks only.
    ForSetting {
        /// The name of what is given.
        key: &'static str,
        /// The setting that it goes with.
        setting: &'static str,
    },
    /// The line of a cornerstone can't be cut.
    CornerstoneCut,
    /// Blocks are asked for, but no drawing for any place.
    PlainBlocks,
    /// What is kept free within the seams leaves nothing of a place.
    NothingLeft {
        /// The place, such as `block r3 c2`.
        place: String,
        /// How much is kept free, at most.
        gap: f64,
    },
    /// A motif can't be read at all.
    MotifUnreadable {
        /// Its name in the plan.
        name: String,
        /// Why it can't be read.
        reason: String,
    },
}

impl fmt::Display for PlanFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Unit::Mm)
    }
}

/// The name of a field as words.
fn words(field: &str) -> String {
    field.replace('_', " ")
}

impl PlanFault {
    /// The message with lengths in this unit.
    #[allow(clippy::too_many_lines)]
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, unit: Unit) -> fmt::Result {
        let readable = |mm: &f64| unit.readable(*mm);
        let precise = |mm: &f64| unit.precise(*mm);
        match self {
            Self::NoBorders => write!(f, "the plan has no border; give at least one"),
            Self::NotPositive { what, given } => {
                write!(f, "{what} is {}; give a length above 0", precise(given))
            }
            Self::Negative { what, given } => {
                write!(f, "{what} is {}; give 0 or more", precise(given))
            }
            Self::BorderTooWide { width, left } => write!(
                f,
                "the border is {} wide, but only {} is left from the edge to the middle of the quilt; give a narrower border",
                readable(width),
                readable(left)
            ),
            Self::GapsTooWide { gaps, width } => write!(
                f,
                "the seam gap and the edge gap take {} together, but the border is only {} wide; give smaller gaps or a wider border",
                readable(gaps),
                readable(width)
            ),
            Self::SlackTooWide { slack, depth } => write!(
                f,
                "the slack is {}, but the band is only {} deep; give less than that",
                readable(slack),
                readable(depth)
            ),
            Self::CornersOverlap {
                side,
                corners,
                room,
            } => write!(
                f,
                "the corners take {} of the {side}, but it is only {} long; give a shorter corner motif or a narrower border",
                readable(corners),
                readable(room)
            ),
            Self::NamedSides { count } => write!(
                f,
                "the names top, right, bottom and left are for quilts of 4 sides, but this one has {count}; give a list of {count} values, the first side first"
            ),
            Self::ValuesForSides { found, count } => write!(
                f,
                "{found} value{} for {count} sides; give one for each side, the first side first",
                plural(*found)
            ),
            Self::SideWithoutWidth { side } => {
                write!(
                    f,
                    "the {side} has no width; give one width for all sides, or a length for each of them"
                )
            }
            Self::NoSuchSide { given, count } => {
                let names = if *count == 4 {
                    "top, right, bottom, left, or "
                } else {
                    ""
                };
                write!(f, "there is no side {given}; give {names}1 to {count}")
            }
            Self::NoOutline { given } => {
                match given.as_slice() {
                    [] => write!(f, "no measures are given")?,
                    given => write!(f, "{} alone can't fix an outline", given.join(", "))?,
                }
                write!(
                    f,
                    "; give the width and the height, or all four sides, best with the falling or the rising diagonal or both, or the corners"
                )
            }
            Self::DiagonalUnlikely {
                what,
                given,
                between: [least, most],
            } => write!(
                f,
                "{what} is {} long, but on a quilt near square with these four sides it is from {} to {}; measure it and the sides again, or, where the quilt is meant to lean, give both diagonals",
                readable(given),
                readable(least),
                readable(most)
            ),
            Self::MeasureOff {
                what,
                given,
                implied,
            } => write!(
                f,
                "{what} is given as {}, but the other sides and diagonals agree on {}; measure it again, and the others where it stays",
                readable(given),
                readable(implied)
            ),
            Self::MeasuresApart { what, given, found } => write!(
                f,
                "no quilt has all these sides and diagonals: {what} would be {} instead of {} on the nearest one, and no single measure stands out as wrong; measure them all again",
                readable(found),
                readable(given)
            ),
            Self::StationOffSide { at, length } => write!(
                f,
                "the station lies at {}, but the side is {} long; give a place between its ends",
                precise(at),
                readable(length)
            ),
            Self::StationTwiceAt { at } => write!(
                f,
                "two stations of one side lie at {}; give each its own place",
                readable(at)
            ),
            Self::BandFolds { side } => write!(
                f,
                "the band of the {side} folds over itself; check its stations, or give more room between the corners"
            ),
            Self::UnequalDepths {
                corner,
                before,
                after,
            } => write!(
                f,
                "the bands before and after the {corner} are {} and {} deep, but a corner made from the repeat needs one depth; give these sides one width, or use another corner style",
                readable(before),
                readable(after)
            ),
            Self::NoSharedDepth { depths, missing } => {
                let depths: Vec<String> = depths.iter().map(readable).collect();
                write!(
                    f,
                    "the bands of the borders are {} deep and can't be brought to one depth; give {} more slack to the deepest, or fitting widths",
                    depths.join(", "),
                    readable(missing)
                )
            }
            Self::ClosestTooSmall { closest, least } => write!(
                f,
                "lines closer than {} can't be distinguished from lines stitched twice; give more than {}",
                precise(closest),
                precise(least)
            ),
            Self::OddSides { what, count } => write!(
                f,
                "{what} needs an even number of sides, but this quilt has {count}; leave it out"
            ),
            Self::Apart => write!(
                f,
                "strokes that stay apart have ends that nothing joins on to, so only corner blocks can have them; give one_line or as_drawn"
            ),
            Self::TrimmedApart { paths } => write!(
                f,
                "the drawing cut to an L stays {paths} separate lines; give a drawing whose line crosses the L's edge, or another leg depth"
            ),
            Self::SameName { name } => write!(
                f,
                "two borders are named \"{name}\"; give each border its own name"
            ),
            Self::DrawingMissing { style } => write!(
                f,
                "the corner style {style} needs a drawing of the corner; give one"
            ),
            Self::NoRepeat { style } => write!(
                f,
                "{style} corners are made from the repeat of the sides, and these have none; give the sides a drawing, or another style"
            ),
            Self::MixedRepeats {
                style,
                names: [one, other],
            } => write!(
                f,
                "{style} corners are made from one repeat, and their sides have {one} and {other}; give them the same drawing, or the corners another style"
            ),
            Self::CornerNowhere { style } => write!(
                f,
                "{style} corners have nowhere to go: no two sides that meet have a drawing; give another side one, or leave the corners out"
            ),
            Self::CornerBesidePlain { corner } => write!(
                f,
                "the {corner} lies beside a side that stays plain; leave it out, or give that side a drawing"
            ),
            Self::NamedCorners { count } => write!(
                f,
                "top_left and the like name the corners of four sides, and this quilt has {count} corners; give their numbers, from 1 to {count}"
            ),
            Self::NoSuchCorner { number, count } => write!(
                f,
                "there is no corner {number}; give a number from 1 to {count}"
            ),
            Self::CornerTwice => write!(f, "this corner is named twice; name it once"),
            Self::MiddleTooLong {
                side,
                middle,
                repeats,
                span,
            } => write!(
                f,
                "the {side} is {} long between its corners, and {} in its middle leave too little for two groups of repeats, {} together as drawn; give a shorter spacer or another centre, or leave them out on this side",
                readable(span),
                readable(middle),
                readable(repeats)
            ),
            Self::MiddleOdd { repeats } => {
                write!(
                    f,
                    "a side with a centre or a spacer has as many repeats before it as after it, "
                )?;
                match repeats {
                    Some(repeats) => write!(
                        f,
                        "not {repeats} in all; give {} or {}",
                        (repeats - 1).max(2),
                        repeats + 1
                    ),
                    None => write!(f, "so no odd number; leave the parity out"),
                }
            }
            Self::MiddleOfPlain { side } => write!(
                f,
                "the {side} has no repeats; give it a drawing, or nothing in its middle"
            ),
            Self::MiddleNowhere { what } => write!(
                f,
                "{what} can't have a centre or a spacer: it lies in the middle of the side of a border; leave it out"
            ),
            Self::NothingToStitch => write!(
                f,
                "no border has a drawing; give one for the sides, or for the corners"
            ),
            Self::SidesWithoutMotif => write!(
                f,
                "the sides have no drawing; give one, or leave the sides out, so that they stay plain"
            ),
            Self::Swapped { corner, side } => write!(
                f,
                "{corner}, given for the corner, runs from end to end like a border repeat, and {side}, given for the side, is an L; are the two swapped?"
            ),
            Self::NoThroat { field } => write!(
                f,
                "the {field} takes from the machine's throat, and that is not given; give its height, too"
            ),
            Self::NotUsed { field, style } => write!(
                f,
                "the corner style {style} has no use for the {}; leave it out",
                words(field)
            ),
            Self::BothGiven { fields } => {
                let [one, other] = fields.map(words);
                write!(
                    f,
                    "{one} and {other} are both given, but one of them is enough; leave one out"
                )
            }
            Self::EndsOfOneLine { key, other } => write!(
                f,
                "{key} and {} are both given, but a line has a {key} of one's choice only where strokes become one line, uncut; leave one out",
                words(other)
            ),
            Self::RoundCorner => write!(
                f,
                "a border that runs round has no corners; leave the corner out"
            ),
            Self::RoundSides => write!(
                f,
                "a border that runs round has no sides of its own; give one drawing for all of it"
            ),
            Self::RoundStations => write!(
                f,
                "a border that runs round has no straight line to measure from; leave the stations out"
            ),
            Self::RoundWidths => write!(
                f,
                "a border that runs round is equally wide everywhere; give one width"
            ),
            Self::RoundSeam => write!(
                f,
                "the seam outside this border is too tight to be round; make the borders outside it narrower, or leave it out"
            ),
            Self::RoundBlocks => write!(
                f,
                "blocks need straight seams round them, and what the borders leave is round; leave the blocks out"
            ),
            Self::RoundTwice => write!(
                f,
                "a circle or an ellipse has no corners to round; leave the rounding out"
            ),
            Self::ScallopsSharp => write!(
                f,
                "scallops go along a round edge; make the quilt a circle or an ellipse, or give its corners a rounding"
            ),
            Self::ScallopRepeats { repeats, count } => write!(
                f,
                "{repeats} repeats are no whole number for each of {count} scallops; give {} or another multiple of {count}",
                repeats.div_ceil(*count).max(1) * count
            ),
            Self::NoBlocks { key } => write!(f, "there are no {key} of blocks; give 1 or more"),
            Self::TooManyBlocks { count, limit } => write!(
                f,
                "the blocks make some {count} places with their sashes and triangles; {limit} is the most"
            ),
            Self::BlocksTooLarge { size, left, by } => {
                let sized = |[width, height]: &[f64; 2]| {
                    format!("{} by {}", precise(width), precise(height))
                };
                match left {
                    Some(left) => write!(
                        f,
                        "the blocks take {}, and the borders leave {}, so that a corner lies {} outside; give smaller blocks or sashes, or leave the size out",
                        sized(size),
                        sized(left),
                        readable(by)
                    ),
                    None => write!(
                        f,
                        "the blocks take {}, and a corner of that lies {} outside of what the borders leave; give smaller blocks or sashes",
                        sized(size),
                        readable(by)
                    ),
                }
            }
            Self::NoBlockSize => write!(
                f,
                "what the borders leave has not four sides, so the blocks need a size; give it"
            ),
            Self::ListLength { key, found, count } => write!(
                f,
                "the list of {key} has {found} for {count} {}; give one for each",
                if *key == "heights" { "rows" } else { "columns" }
            ),
            Self::SashesTooWide { sash, block } => write!(
                f,
                "the sashes, {} wide, are not narrower than the blocks, {}; give narrower ones",
                readable(sash),
                readable(block)
            ),
            Self::ForSetting { key, setting } => write!(
                f,
                "{} go with the setting {setting} only; leave them out, or change the setting",
                words(key)
            ),
            Self::CornerstoneCut => write!(
                f,
                "a cornerstone is one line, so the thread is never cut in it; leave the price of a cut out"
            ),
            Self::PlainBlocks => write!(
                f,
                "the blocks have no drawing; give one for blocks, sashes, cornerstones or triangles, or leave the blocks out"
            ),
            Self::NothingLeft { place, gap } => write!(
                f,
                "the gaps, {} at most, leave nothing of {place}; make them smaller",
                readable(gap)
            ),
            Self::SeveralLines { lines } => write!(
                f,
                "this is {lines} lines; give one line, and the rest as notes"
            ),
            Self::TextTooLong { given, most } => {
                write!(f, "this has {given} characters; give at most {most}")
            }
            Self::PlansToCompare { given, most } => write!(
                f,
                "{given} plan{} to compare; give 2 to {most}",
                plural(*given)
            ),
            Self::NotThere {
                what,
                number,
                count,
            } => write!(
                f,
                "the solved plan refers to the {what} of number {number}, counted from 0, but has {count}; give it, and its stitching, as they were solved"
            ),
            Self::MotifUnreadable { name, reason } => {
                write!(f, "the motif \"{name}\" can't be read: {reason}")
            }
        }
    }
}
