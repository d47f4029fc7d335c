//! Which option helps with an error: the core's own messages name none.
//!
//! Errors of plan files are another matter: what helps with them is a key, not an option.

use quiltpath_core::error::{
    CheckFault, DataFault, DrawingFault, ErrorKind, FitFault, GeometryFault, LegFault, LengthFault,
    MotifFault, PaperFault, PlanFault, ScanFault, StitchFault,
};

/// The command that an error came up in, with what of its arguments decides which options it takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Asker {
    Plan,
    Measure,
    Convert,
    Transform,
    Fit,
    Corner,
    Trim {
        /// The shape is a polygon from a file, which lies where it is drawn.
        polygon: bool,
    },
    Stitch,
    Rank {
        /// A plan has the lengths and tolerances.
        plan: bool,
    },
    Template,
    Scan,
    /// Works on the folder of a plan.
    Frame,
    /// Reads no drawing.
    Other,
}

use Asker::{
    Convert, Corner, Fit, Measure, Other, Plan, Rank, Scan, Stitch, Template, Transform, Trim,
};

/// The option of the command that helps with this error, as a phrase to put after the message;
/// `None` where no option changes the outcome.
pub(crate) fn hint(asker: Asker, kind: &ErrorKind) -> Option<&'static str> {
    match kind {
        ErrorKind::Geometry(fault) => geometry(asker, fault),
        ErrorKind::Length(fault) => length(asker, fault),
        ErrorKind::Data(fault) => data(asker, fault),
        ErrorKind::Motif(fault) => motif(asker, fault),
        ErrorKind::Leg(fault) => leg(asker, fault),
        ErrorKind::Fit(fault) => fit(asker, fault),
        ErrorKind::Stitch(fault) => stitch(asker, fault),
        ErrorKind::Check(fault) => check(asker, fault),
        ErrorKind::Plan(fault) => plan(asker, fault),
        ErrorKind::Drawing(DrawingFault::NoLayer { .. }) if asker == Plan => Some(
            "--layer chooses in --side and in --corner; in a plan file each motif has \"layers\" of its own",
        ),
        // All papers take about as much, and a drawing has to be mended where it was drawn.
        ErrorKind::Paper(PaperFault::TooManySheets { .. }) | ErrorKind::Drawing(_) => None,
        ErrorKind::Paper(PaperFault::BlankTooLarge { .. }) => Some("--depth and --length set it"),
        ErrorKind::Scan(fault) => scan(asker, fault),
        _ => None,
    }
}

/// True where the options of reading apply.
fn reads(asker: Asker) -> bool {
    !matches!(asker, Rank { plan: true } | Scan | Other)
}

fn scan(asker: Asker, fault: &ScanFault) -> Option<&'static str> {
    match (fault, asker) {
        (ScanFault::NoMarks | ScanFault::MarksMissing { .. } | ScanFault::CodeUnreadable, Scan) => {
            Some("--width gives it")
        }
        (ScanFault::Filled { .. }, Scan) => Some("--fills outline asks for it"),
        (ScanFault::MarksMissing { .. } | ScanFault::CodeUnreadable, _) => {
            Some("quiltpath scan --width does that")
        }
        (ScanFault::BadBlank { .. }, Template) => Some("--depth, --length and --height set it"),
        _ => None,
    }
}

fn geometry(asker: Asker, fault: &GeometryFault) -> Option<&'static str> {
    match (fault, asker) {
        (GeometryFault::TooFine { .. }, _) if reads(asker) => {
            Some("--flattening sets that tolerance")
        }
        (GeometryFault::BadNumber { what, .. }, _) => number(asker, what),
        (GeometryFault::NoSize { axis: "width" }, Transform) => {
            Some("--op \"fit height HEIGHT\" gives the height alone")
        }
        (GeometryFault::NoSize { .. }, Transform) => {
            Some("--op \"fit width WIDTH\" gives the width alone")
        }
        (GeometryFault::RadiusTooSmall { .. } | GeometryFault::RadiusTooLarge { .. }, Corner) => {
            Some("--radius sets it; without it, one that works is chosen")
        }
        (GeometryFault::InsetTooLarge { .. }, Trim { .. }) => Some("--inset sets it"),
        (
            GeometryFault::OutsideRegion { .. } | GeometryFault::OnlySlivers { .. },
            Trim { polygon: false },
        ) => Some("--at moves the region"),
        (GeometryFault::InsetTooWide { .. }, Plan) => Some("--border sets the width"),
        (GeometryFault::GapsTakeWidth { .. }, Plan) => {
            Some("--seam-gap and --edge-gap set the gaps")
        }
        (
            GeometryFault::TooFine { .. }
            | GeometryFault::NoSize { .. }
            | GeometryFault::RadiusTooSmall { .. }
            | GeometryFault::RadiusTooLarge { .. }
            | GeometryFault::InsetTooLarge { .. }
            | GeometryFault::OutsideRegion { .. }
            | GeometryFault::OnlySlivers { .. }
            | GeometryFault::InsetTooWide { .. }
            | GeometryFault::GapsTakeWidth { .. }
            | GeometryFault::TooFewPoints { .. }
            | GeometryFault::NoLength
            | GeometryFault::NotFinite { .. }
            | GeometryFault::TooLarge { .. }
            | GeometryFault::Flat
            | GeometryFault::NoTarget
            | GeometryFault::RegionNotSimple { .. }
            | GeometryFault::RegionTooFew { .. }
            | GeometryFault::NoPieces
            | GeometryFault::PieceAstray { .. }
            | GeometryFault::NoTriangle { .. }
            | GeometryFault::SidesDontClose { .. }
            | GeometryFault::Dented { .. }
            | GeometryFault::PolygonSides { .. }
            | GeometryFault::CornerTwice
            | GeometryFault::CornerNotConvex { .. }
            | GeometryFault::CornerAngle { .. }
            | GeometryFault::WidthCount { .. }
            | GeometryFault::StationCount { .. }
            | GeometryFault::StationWithoutDepth
            | GeometryFault::StationTwice
            | GeometryFault::StationsTurn
            | GeometryFault::CrossLineAlong
            | GeometryFault::CrossLinesMeet
            | GeometryFault::OtherCorner { .. }
            | GeometryFault::UnequalDepths { .. },
            _,
        ) => None,
        _ => None,
    }
}

/// The option that a number out of its range comes from, by what the core calls the number.
fn number(asker: Asker, what: &str) -> Option<&'static str> {
    match (asker, what) {
        (Corner, "the corner's angle") => Some("--angle sets it"),
        (Corner, "the number of repeats on a leg") => Some("--legs sets it"),
        (Corner, "the number of repeats that the diagonal crosses") => {
            Some("--style bent bends the repeat and cuts none")
        }
        (Corner, "the length to smooth over") => Some("--smooth-turn sets it"),
        (Corner | Fit, "the depth of the band") => Some("--depth sets it"),
        (Fit, "the stretch") => Some("--span and --depth set it"),
        (Trim { .. }, "the longest link") => Some("--max-link sets it"),
        (Trim { .. }, "the inset") => Some("--inset sets it"),
        (Stitch, "the number of stitches per inch") => Some("--spi sets it"),
        (Stitch, "the target stitch") => Some("--spi or --stitch sets it"),
        (Stitch, "the minimum stitch") => Some("--minimum sets it"),
        (Stitch, "the chord error") => Some("--chord-error sets it"),
        (Stitch, "the turn of a cusp") => Some("--cusp sets it"),
        (Stitch, "the number of stitches of a tie-off" | "the length of a tie-off stitch") => {
            Some("--tie-off sets it")
        }
        (Stitch, "the top speed") => Some("--speed sets it"),
        (Stitch, "the acceleration") => Some("--acceleration sets it"),
        (Stitch, "the corner deviation") => Some("--corner sets it"),
        (
            Stitch,
            "the number of seconds for a start"
            | "the number of seconds for a tie-off"
            | "the number of seconds for a cut",
        ) => Some("--seconds sets it"),
        (Stitch, "the thickness of the layers") => Some("--thickness sets it"),
        (Stitch, "the tail") => Some("--tail sets it"),
        (Stitch, "the share of waste") => Some("--waste sets it"),
        (Stitch, "the length on a spool") => Some("--spool sets it"),
        (Stitch, "the length on a bobbin") => Some("--bobbin sets it"),
        (Plan, "the width of a border's side") => Some("--border sets it"),
        (_, "the flattening tolerance") if reads(asker) => Some("--flattening sets it"),
        (_, "the join tolerance") if reads(asker) => Some("--join sets it"),
        (Convert | Transform | Fit | Corner | Trim { .. }, "the tolerance of smooth curves") => {
            Some("--smooth sets it")
        }
        (Convert | Transform | Fit | Corner | Trim { .. }, "the feed") => Some("--feed sets it"),
        _ => None,
    }
}

fn length(asker: Asker, fault: &LengthFault) -> Option<&'static str> {
    match fault {
        LengthFault::UnitMissing { .. } if reads(asker) => Some("--unit names it"),
        LengthFault::UnitMissing { .. }
        | LengthFault::Empty
        | LengthFault::NotANumber { .. }
        | LengthFault::ZeroDivision { .. }
        | LengthFault::UnknownUnit { .. }
        | LengthFault::OutOfRange { .. } => None,
        _ => None,
    }
}

fn data(asker: Asker, fault: &DataFault) -> Option<&'static str> {
    match fault {
        DataFault::NoUnit if reads(asker) => Some("--unit does that"),
        DataFault::NoUnit
        | DataFault::Empty { .. }
        | DataFault::NotText
        | DataFault::Utf16
        | DataFault::Syntax { .. }
        | DataFault::UnknownKey { .. }
        | DataFault::UnknownValue { .. }
        | DataFault::NoPath => None,
        _ => None,
    }
}

fn motif(asker: Asker, fault: &MotifFault) -> Option<&'static str> {
    match (fault, asker) {
        (MotifFault::Apart { .. }, Rank { plan: true }) => Some("--strokes one-line does that"),
        (
            MotifFault::Apart { .. },
            Plan | Measure | Convert | Transform | Fit | Corner | Trim { .. } | Rank { .. },
        ) => Some("--strokes one-line does that, and --join sets how close ends are that meet"),
        (MotifFault::AllShort { .. }, Rank { plan: true }) => None,
        (MotifFault::AllShort { .. }, _) => Some("--join is that distance"),
        (MotifFault::TooManyStrokes { .. }, _) => Some("--layer reads one alone"),
        // Each line may be stitched, or printed, by itself.
        (MotifFault::Apart { .. }, Stitch | Template | Other) | (MotifFault::Nothing, _) => None,
        _ => None,
    }
}

fn leg(asker: Asker, fault: &LegFault) -> Option<&'static str> {
    match (fault, asker) {
        (LegFault::NoEmptyCorner | LegFault::PortsElsewhere { .. }, Plan) => Some(
            "with --style block any drawing is a corner, and with --style mitred or bent the repeat makes one",
        ),
        (LegFault::NoEmptyCorner | LegFault::PortsElsewhere { .. }, Transform) => {
            Some("--op \"start at X, Y\" and --op \"end at X, Y\" need no elbow")
        }
        (LegFault::TooDeep { .. }, Trim { .. }) => {
            Some("--leg-depth sets it, --width and --height the size")
        }
        (
            LegFault::NoEmptyCorner | LegFault::PortsElsewhere { .. } | LegFault::TooDeep { .. },
            _,
        ) => None,
        _ => None,
    }
}

fn fit(asker: Asker, fault: &FitFault) -> Option<&'static str> {
    match (fault, asker) {
        (FitFault::SpanNotPositive { .. }, Fit | Rank { plan: false }) => Some("--span sets it"),
        (FitFault::NoRepeats, Fit) => Some("--repeats sets it"),
        (FitFault::NumberTooLarge { .. }, Fit) => Some("--repeats, --every and --parity set it"),
        (FitFault::NumberTooLarge { .. }, Plan) => Some("--every and --alternate set it"),
        (FitFault::EveryOutOfRange { .. }, Fit | Plan) => Some("--every sets it"),
        (FitFault::OddMultiple { .. }, Fit) => {
            Some("--every and --parity exclude each other; leave one out")
        }
        (FitFault::CentredOdd { .. }, Fit) => {
            Some("--repeats sets it; without --alternate centred it may be odd")
        }
        (FitFault::CentredParity, Fit) => {
            Some("--parity sets it; without --alternate centred it may be odd")
        }
        (FitFault::TooMany { .. }, Fit | Rank { plan: false }) => {
            Some("--span sets the length, and a larger --depth makes repeats longer")
        }
        (FitFault::TooMany { .. }, Plan) => {
            Some("--quilt sets the size, and a larger --border makes repeats longer")
        }
        (FitFault::TooMany { .. }, Corner) => {
            Some("--radius sets the size, and a larger --depth makes repeats longer")
        }
        (FitFault::TooManyInAll { .. } | FitFault::TooManyPoints { .. }, _) if reads(asker) => {
            Some("--flattening sets how closely curves are followed")
        }
        (
            FitFault::SpanNotPositive { .. }
            | FitFault::NoRepeats
            | FitFault::NumberTooLarge { .. }
            | FitFault::EveryOutOfRange { .. }
            | FitFault::OddMultiple { .. }
            | FitFault::CentredOdd { .. }
            | FitFault::CentredParity
            | FitFault::TooMany { .. }
            | FitFault::TooManyInAll { .. }
            | FitFault::TooManyPoints { .. }
            | FitFault::RepeatHasNoPitch
            | FitFault::RepeatHasNoHeight
            | FitFault::NumbersDiffer { .. }
            | FitFault::ParitiesDiffer
            | FitFault::NoSides
            | FitFault::DepthRange { .. }
            | FitFault::SideHasNoLength { .. }
            | FitFault::LimitNotAroundOne { .. }
            | FitFault::OtherGroup,
            _,
        ) => None,
        _ => None,
    }
}

fn stitch(asker: Asker, fault: &StitchFault) -> Option<&'static str> {
    match (fault, asker) {
        (StitchFault::TooMany { .. }, Stitch) => Some("--spi or --stitch sets their length"),
        (
            StitchFault::TooMany { .. }
            | StitchFault::TooManyAtoms { .. }
            | StitchFault::NoSuchAtom { .. }
            | StitchFault::NoSuchPiece { .. }
            | StitchFault::EndsAstray { .. }
            | StitchFault::RollTooThick { .. }
            | StitchFault::NothingLeft { .. },
            _,
        ) => None,
        _ => None,
    }
}

fn check(asker: Asker, fault: &CheckFault) -> Option<&'static str> {
    match (fault, asker) {
        (CheckFault::TooManyPoints { .. }, Plan) => {
            Some("--flattening sets how closely curves are followed")
        }
        (
            CheckFault::TooManyPoints { .. }
            | CheckFault::TooFar { .. }
            | CheckFault::NotNested { .. },
            _,
        ) => None,
        _ => None,
    }
}

/// Options stand for one border of a rectangle, so most of what plans get wrong they can't.
fn plan(asker: Asker, fault: &PlanFault) -> Option<&'static str> {
    match (fault, asker) {
        (PlanFault::BorderTooWide { .. }, Plan) => Some("--border sets the width"),
        (PlanFault::GapsTooWide { .. }, Plan) => {
            Some("--seam-gap, --edge-gap and --border set them")
        }
        (PlanFault::CornersOverlap { .. }, Plan) => {
            Some("--border sets the width, --corner and --style the corners")
        }
        (PlanFault::DrawingMissing { .. }, Plan) => {
            Some("--corner names it; with --style mitred or bent the repeat makes one")
        }
        (PlanFault::NoThroat { .. }, Plan) => Some("--throat gives that height"),
        (PlanFault::Swapped { .. }, Plan) => Some("--corner names the L, --side the repeat"),
        (PlanFault::MotifUnreadable { .. }, Plan) => {
            Some("--side and --corner name the motifs' files")
        }
        (
            PlanFault::BorderTooWide { .. }
            | PlanFault::GapsTooWide { .. }
            | PlanFault::CornersOverlap { .. }
            | PlanFault::DrawingMissing { .. }
            | PlanFault::NoThroat { .. }
            | PlanFault::Swapped { .. }
            | PlanFault::MotifUnreadable { .. }
            | PlanFault::NoBorders
            | PlanFault::NotPositive { .. }
            | PlanFault::Negative { .. }
            | PlanFault::SlackTooWide { .. }
            | PlanFault::NamedSides { .. }
            | PlanFault::ValuesForSides { .. }
            | PlanFault::SideWithoutWidth { .. }
            | PlanFault::NoSuchSide { .. }
            | PlanFault::NoOutline { .. }
            | PlanFault::DiagonalUnlikely { .. }
            | PlanFault::MeasureOff { .. }
            | PlanFault::MeasuresApart { .. }
            | PlanFault::StationOffSide { .. }
            | PlanFault::StationTwiceAt { .. }
            | PlanFault::BandFolds { .. }
            | PlanFault::UnequalDepths { .. }
            | PlanFault::NoSharedDepth { .. }
            | PlanFault::ClosestTooSmall { .. }
            | PlanFault::OddSides { .. }
            | PlanFault::TrimmedApart { .. }
            | PlanFault::SameName { .. }
            | PlanFault::NotUsed { .. }
            | PlanFault::BothGiven { .. }
            | PlanFault::EndsOfOneLine { .. }
            | PlanFault::SeveralLines { .. }
            | PlanFault::TextTooLong { .. }
            | PlanFault::PlansToCompare { .. }
            | PlanFault::NotThere { .. },
            _,
        ) => None,
        _ => None,
    }
}

#[cfg(test)]
mod tests;
