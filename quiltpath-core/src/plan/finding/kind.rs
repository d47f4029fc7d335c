//! The kinds of findings with their numbers: lengths in millimetres, stretches as factors, angles
//! in degrees.

use crate::fit::{Alternative, EaseReport};
use crate::leg::LegDoubt;
use crate::plan::lay::place::CornerPlace;
use crate::plan::way::{Way, WayCost};
use crate::strokes::OneLineReport;

/// What a finding is, with its numbers: lengths in millimetres, stretches as factors, angles in
/// degrees.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum FindingKind {
    /// Lines of a drawing that don't meet are linked by straight lines, as the plan asks.
    ///
    /// A note.
    DrawingLinked {
        /// The name of the drawing in the plan.
        drawing: String,
        /// The number of links.
        links: usize,
        /// Their length together.
        length: f64,
    },
    /// A drawing of several strokes is made one line, with as little as possible stitched twice.
    ///
    /// A note.
    OneLine {
        /// The name of the drawing in the plan.
        drawing: String,
        /// What it took, in one copy on the cloth.
        report: OneLineReport,
    },
    /// A repeat is drawn from right to left, so it is travelled backwards.
    ///
    /// A note.
    Backwards {
        /// The name of the drawing.
        drawing: String,
    },
    /// No quilt has all the sides and diagonals that were measured; the nearest one is taken.
    ///
    /// A warning; a note where none is off by more than 1/4 in.
    MeasuresDisagree {
        /// By how much measures are taken longer or shorter than given, at most.
        by: f64,
        /// The measure without which the others make a quilt much nearer to square, where one
        /// stands out: `what`, as `given` and as `implied` by the others.
        odd: Option<OddMeasure>,
    },
    /// No diagonal was measured, so the quilt is taken as near to square as its four sides allow.
    ///
    /// A note.
    NoDiagonal {
        /// The falling and the rising diagonal of that quilt.
        diagonals: [f64; 2],
        /// A change of a diagonal: 1/2 in.
        change: f64,
        /// How far a corner moves, at most, with that change.
        moves: f64,
    },
    /// The bands of all borders are made equally deep, as the plan asks.
    ///
    /// A note.
    DepthShared {
        /// The depth.
        depth: f64,
        /// The worst stretch, as a factor of 1 or more, either way.
        worst: f64,
    },
    /// The drawings of a border lie in another way than drawn, which joins best, as the plan asks.
    ///
    /// A note.
    BestWay {
        /// The way.
        way: Way,
        /// What the drawings come to as the plan has them, and in that way.
        costs: [WayCost; 2],
    },
    /// The drawings of a border would have fewer links if they lay in another way.
    ///
    /// A note.
    BetterWay {
        /// The way.
        way: Way,
        /// What the drawings come to as they lie, and in that way.
        costs: [WayCost; 2],
    },
    /// A band is made shallower within its slack, so that repeats need less stretch.
    ///
    /// A note.
    DepthChosen {
        /// The depth.
        depth: f64,
        /// How much deeper the gaps would let it be.
        given_up: f64,
        /// The worst stretch, as a factor of 1 or more, either way.
        worst: f64,
        /// The same at the full depth.
        worst_at_full: f64,
    },
    /// Repeats are stretched by more than the plan allows, 10 % by default.
    ///
    /// A warning.
    Stretch {
        /// The number of repeats.
        repeats: usize,
        /// Their stretch.
        stretch: f64,
        /// How far from 1 a stretch may be.
        limit: f64,
        /// The number of repeats on the other side of the choice, and their stretch.
        instead: Option<(usize, f64)>,
    },
    /// What would bring the stretch of a border within the limit.
    ///
    /// A note.
    WaysOut {
        /// How far from 1 a stretch may be.
        limit: f64,
        /// Each way by itself is enough.
        ways: Vec<Alternative>,
    },
    /// It is not clear which parts of a corner drawing are its legs.
    ///
    /// A warning.
    LegUnclear {
        /// The name of the drawing.
        drawing: String,
        /// What is doubtful.
        doubt: LegDoubt,
    },
    /// A corner drawing has legs that are not equally deep, so it is stretched one way.
    ///
    /// A warning.
    CornerUneven {
        /// The name of the drawing.
        drawing: String,
        /// By how much it is stretched.
        unevenness: f64,
    },
    /// A corner drawing is cut to an L and joined again with links.
    ///
    /// A note.
    Trimmed {
        /// The name of the drawing.
        drawing: String,
        /// The number of links.
        links: usize,
        /// The length of the links and of what is stitched over.
        added: f64,
        /// That length divided by the length of the drawing's own line.
        share: f64,
    },
    /// A corner drawing is slanted into a corner, which makes a leg longer for its depth.
    ///
    /// A note.
    CornerSlanted {
        /// The interior angle.
        degrees: f64,
        /// The depth of the bands before and after the corner.
        depths: [f64; 2],
        /// The length of that leg for its depth, divided by the drawn one.
        longer: f64,
    },
    /// An outline has an odd number of corners, so mirrored corners can't alternate all round: two
    /// neighbours are alike.
    ///
    /// A note.
    CornersAlike {
        /// The number of corners.
        corners: usize,
        /// The last corner and the first, which are alike.
        alike: [CornerPlace; 2],
    },
    /// The line turns by more than 10 degrees where a repeat is cut on the diagonal.
    ///
    /// A warning.
    MitreKink {
        /// The turn.
        degrees: f64,
    },
    /// The turn at a mitre is smoothed over less of the line than the plan asks for, since more
    /// would lead out of the band.
    ///
    /// A note.
    MitreNotSmoothed {
        /// The length asked for, either side of the diagonal.
        asked: f64,
        /// The length that it is smoothed over; 0 where nothing fits.
        smoothed: f64,
    },
    /// The repeat meets the diagonal several times, wherever it is cut.
    ///
    /// A note.
    MitreLoops {
        /// How many times.
        crossings: usize,
        /// Whether what lies beyond the first crossing is linked along the diagonal, rather
        /// than dropped.
        linked: bool,
        /// The length of the links, or of what is dropped.
        length: f64,
    },
    /// Two corners leave room for the border but run past each other.
    ///
    /// A warning.
    CornersClose {
        /// By how much.
        past: f64,
    },
    /// Stations lie where a corner lies, which is taken as straight, so they are skipped.
    ///
    /// A note.
    StationsInCorner {
        /// How many.
        stations: usize,
    },
    /// Ends at different heights are brought together by shearing repeats.
    ///
    /// A note.
    Levelled {
        /// The greatest shift of an end across the band.
        by: f64,
    },
    /// Repeats that end at another height than they start are linked by straight lines.
    ///
    /// A note.
    RepeatsLinked {
        /// The number of links.
        links: usize,
    },
    /// The stems of an eased repeat can't take all of its stretch, so loops take the rest.
    ///
    /// A note.
    EaseLimited {
        /// What easing comes to.
        report: EaseReport,
    },
    /// The line turns by more than 20 degrees where one repeat ends and the next starts.
    ///
    /// A note; a warning beyond 60 degrees.
    RepeatKink {
        /// The turn.
        degrees: f64,
    },
    /// The line turns by more than 10 degrees where a repeat meets its mirror image.
    ///
    /// A note; a warning beyond 60 degrees.
    MirrorKink {
        /// The turn.
        degrees: f64,
    },
    /// A repeat and a corner meet the band at different heights, so a straight link is stitched
    /// between them.
    ///
    /// A warning.
    Linked {
        /// The length of the link.
        length: f64,
    },
    /// What of a border is stitched is kept as it lies.
    ///
    /// A note.
    Kept {
        /// How many corners have begun.
        corners: usize,
        /// How many sides have begun.
        sides: usize,
        /// The length that is stitched.
        length: f64,
    },
    /// What is stitched of the blocks stays as it is.
    ///
    /// A note.
    BlocksKept {
        /// How many pieces have begun.
        pieces: usize,
        /// The length that is stitched.
        length: f64,
    },
    /// A side that has begun keeps its number of repeats, though the plan asks for another.
    ///
    /// A warning.
    NumberKept {
        /// The number that it keeps.
        repeats: usize,
        /// The number that the plan asks for.
        asked: usize,
    },
    /// What is left of a side that has begun is stretched beyond the limit.
    ///
    /// A warning.
    RestStretched {
        /// How many repeats are left there.
        repeats: usize,
        /// Their stretch.
        stretch: f64,
        /// The limit, as a fraction either way.
        limit: f64,
    },
    /// A corner that is not begun is drawn to the end of a stitched side.
    ///
    /// A note.
    CornerDrawnOut {
        /// By how much its end is moved.
        by: f64,
    },
    /// By the measures, two ends that are both stitched lie apart.
    ///
    /// A warning.
    StitchedApart {
        /// How far apart.
        gap: f64,
    },
    /// A line runs over the raw edge.
    ///
    /// An error.
    OffTheQuilt {
        /// By how much, at most.
        by: f64,
    },
    /// A line runs over a seam: the border's inner one, or the one to the border outside it.
    ///
    /// An error.
    OverSeam {
        /// By how much, at most.
        by: f64,
        /// Whether it is the seam to the border outside.
        outer: bool,
    },
    /// A line leaves the band that may be stitched, but stays on the border.
    ///
    /// An error.
    OutsideBand {
        /// By how much, at most.
        by: f64,
    },
    /// A line runs where the binding's seam allowance of 1/4 in covers the quilt.
    ///
    /// An error; a warning where the plan asks for a smaller edge gap.
    UnderBinding {
        /// By how much, at most.
        by: f64,
        /// How much the binding covers.
        covered: f64,
    },
    /// Lines run closer than 1/16 in, or what the plan allows, over 3/4 in or more, so that thread
    /// builds up.
    ///
    /// A warning.
    LinesClose {
        /// How near they come.
        nearest: f64,
        /// Over what length.
        length: f64,
        /// How near is too near.
        closest: f64,
        /// Over what length it counts.
        over: f64,
        /// The number of the other piece, from 0, where two are too close to each other.
        other: Option<usize>,
    },
    /// A part of the line is stitched over a second time.
    ///
    /// A note.
    StitchedTwice {
        /// Its length.
        length: f64,
    },
    /// There is more line in a square of one inch than 16 in, or what the plan allows.
    ///
    /// A warning.
    Dense {
        /// The length of line in the fullest square.
        length: f64,
        /// The side of the square.
        square: f64,
        /// How much is too much.
        densest: f64,
    },
    /// A loop is smaller than two stitches, so it is stitched as a knot.
    ///
    /// A warning.
    SmallLoop {
        /// The length of the smallest.
        length: f64,
        /// The least length of a loop: two stitches.
        least: f64,
    },
    /// Lines are so thick in places that they were not all compared.
    ///
    /// A warning.
    Crowded {
        /// The number of such spots.
        spots: usize,
    },
    /// There are more places of one kind than are listed, none of them worse.
    ///
    /// As severe as that kind.
    Unlisted {
        /// The code of the kind.
        code: &'static str,
        /// How many more.
        places: usize,
    },
    /// Points of a line are left out or cut short, since a stitch there would be too short.
    ///
    /// A note.
    ShortStitches {
        /// The number of places.
        count: usize,
        /// Whether they are sharp points that are left out, rather than places cut short.
        sharp: bool,
        /// By how much, at most.
        by: f64,
    },
    /// One piece ends farther from where the next starts than the join tolerance.
    ///
    /// An error.
    JoinOpen {
        /// The number of the next piece, from 0.
        next: usize,
        /// The gap.
        gap: f64,
        /// The join tolerance.
        tolerance: f64,
    },
    /// The line turns by more than 20 degrees where one piece ends and the next starts.
    ///
    /// A note; a warning beyond 60 degrees.
    JoinKink {
        /// The number of the next piece, from 0.
        next: usize,
        /// The turn.
        degrees: f64,
        /// The turn from which on it is reported.
        limit: f64,
    },
    /// No pass takes a corner or a repeat as a whole, so it is cut inside.
    ///
    /// An error.
    TooDeep {
        /// The height of a pass, of the lowest that the piece lies in.
        throat: f64,
        /// Of a side, its number of repeats.
        repeats: Option<usize>,
    },
    /// A line of a block, a sash, a cornerstone or a triangle leaves what may be stitched of it.
    ///
    /// A warning; an error where it passes the seam.
    OutsidePlace {
        /// By how much, at most.
        by: f64,
        /// Whether it passes the seam, beyond what is kept free next to that.
        over_seam: bool,
    },
    /// The design of the blocks is cut to the triangles at the edge and joined again.
    ///
    /// A note.
    TrianglesCut {
        /// The length of the links and of what is stitched over, in all triangles together.
        added: f64,
    },
    /// One or two more passes than are planned save thread cuts.
    ///
    /// A note.
    FewerCuts {
        /// The number of passes.
        passes: usize,
        /// The number of thread cuts.
        cuts: usize,
        /// How many more passes.
        more: usize,
        /// The number of thread cuts with these.
        cuts_then: usize,
    },
}

impl FindingKind {
    /// The code: one word that stays the same.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::DrawingLinked { .. } => "drawing_linked",
            Self::OneLine { .. } => "one_line",
            Self::Backwards { .. } => "backwards",
            Self::MeasuresDisagree { .. } => "measures_disagree",
            Self::NoDiagonal { .. } => "no_diagonal",
            Self::DepthShared { .. } => "depth_shared",
            Self::BestWay { .. } => "best_way",
            Self::BetterWay { .. } => "better_way",
            Self::DepthChosen { .. } => "depth_chosen",
            Self::Stretch { .. } => "stretch",
            Self::WaysOut { .. } => "ways_out",
            Self::LegUnclear { .. } => "leg_unclear",
            Self::CornerUneven { .. } => "corner_uneven",
            Self::Trimmed { .. } => "trimmed",
            Self::CornerSlanted { .. } => "corner_slanted",
            Self::CornersAlike { .. } => "corners_alike",
            Self::MitreKink { .. } => "mitre_kink",
            Self::MitreNotSmoothed { .. } => "mitre_not_smoothed",
            Self::MitreLoops { .. } => "mitre_loops",
            Self::CornersClose { .. } => "corners_close",
            Self::StationsInCorner { .. } => "stations_in_corner",
            Self::Levelled { .. } => "levelled",
            Self::RepeatsLinked { .. } => "repeats_linked",
            Self::EaseLimited { .. } => "ease_limited",
            Self::RepeatKink { .. } => "repeat_kink",
            Self::MirrorKink { .. } => "mirror_kink",
            Self::Linked { .. } => "linked",
            Self::Kept { .. } => "kept",
            Self::BlocksKept { .. } => "blocks_kept",
            Self::NumberKept { .. } => "number_kept",
            Self::RestStretched { .. } => "rest_stretched",
            Self::CornerDrawnOut { .. } => "corner_drawn_out",
            Self::StitchedApart { .. } => "stitched_apart",
            Self::OffTheQuilt { .. } => "off_the_quilt",
            Self::OverSeam { .. } => "over_seam",
            Self::OutsideBand { .. } => "outside_band",
            Self::UnderBinding { .. } => "under_binding",
            Self::LinesClose { .. } => "lines_close",
            Self::StitchedTwice { .. } => "stitched_twice",
            Self::Dense { .. } => "dense",
            Self::SmallLoop { .. } => "small_loop",
            Self::Crowded { .. } => "crowded",
            Self::Unlisted { .. } => "unlisted",
            Self::ShortStitches { .. } => "short_stitches",
            Self::JoinOpen { .. } => "join_open",
            Self::JoinKink { .. } => "join_kink",
            Self::TooDeep { .. } => "too_deep",
            Self::OutsidePlace { .. } => "outside_place",
            Self::TrianglesCut { .. } => "triangles_cut",
            Self::FewerCuts { .. } => "fewer_cuts",
        }
    }
}

/// A measure of a quilt that stands out among all: its lengths in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct OddMeasure {
    /// What was measured: a side or a diagonal.
    pub what: &'static str,
    /// What was given.
    pub given: f64,
    /// What the other measures make it.
    pub implied: f64,
}
