//! The private kinds of fault behind the public error, each with the words that a user reads.

use std::fmt;

/// Defines a fault enum and its message, so that each kind stands beside its words.
macro_rules! faults {
    ($(#[$meta:meta])* $name:ident { $($variant:ident $({ $($field:ident : $ty:ty),* $(,)? })? => ($($message:tt)*)),* $(,)? }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, PartialEq)]
        pub(crate) enum $name {
            $($variant $({ $($field: $ty),* })?),*
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                match self {
                    $(Self::$variant $({ $($field),* })? => write!(f, $($message)*)),*
                }
            }
        }
    };
}

/// A box as width, height, least x and least y in words.
fn size_and_place([width, height, x, y]: &[f64; 4]) -> String {
    format!("{width} x {height} at ({x}, {y})")
}

fn plural(count: usize) -> &'static str {
    if count == 1 { "" } else { "s" }
}

faults! {
    /// Points, lines and transforms that are no geometry.
    GeometryFault {
        TooFewPoints { found: usize } => (
            "{found} point{} is no line; give at least 2 different points",
            plural(*found)
        ),
        NoLength => ("all points are the same, so the line has no length; give at least 2 different points"),
        NotFinite { index: usize, value: f64 } => (
            "point {index} has the coordinate {value}; coordinates must be finite numbers"
        ),
        TooLarge { index: usize, value: f64, limit: f64 } => (
            "point {index} has the coordinate {value:e}; coordinates may go from -{limit:e} to {limit:e}"
        ),
        TooFine { limit: usize } => (
            "the curves would become more than {limit} points; give a larger tolerance of flattening, or check the unit of the drawing"
        ),
        Flat => ("the transform flattens the drawing to a line or a point; give factors other than 0"),
        NoSize { axis: &'static str } => (
            "the drawing has no {axis}, so it can't be fitted to one; give only the other size"
        ),
        NoTarget => ("no size to fit to is given; give a width, a height or both"),
        BadNumber { what: &'static str, value: f64, accepted: &'static str } => (
            "{what} is {value}; give {accepted}"
        ),
        RadiusTooSmall { radius: f64, least: f64 } => (
            "the radius of the bend is {radius}, so the band would fold; give a radius above {least}"
        ),
        RadiusTooLarge { radius: f64, most: f64 } => (
            "the radius of the bend is {radius}, too large to leave any depth at the inner corner; give a radius below {most}"
        ),
        RegionNotSimple { first: usize, second: usize } => (
            "the sides {first} and {second} of the region touch or cross, counted from 0; give a polygon whose sides meet only at its corners, one after the other"
        ),
        InsetTooLarge { inset: f64, limit: f64 } => (
            "an inset of {inset} does not fit into the region; give an inset below {limit:.6}"
        ),
        OutsideRegion { drawing: [f64; 4], region: [f64; 4] } => (
            "the drawing ({}) lies entirely outside the region ({}); move or scale the drawing so that they overlap",
            size_and_place(drawing), size_and_place(region)
        ),
        OnlySlivers { slivers: usize, tolerance: f64 } => (
            "only {slivers} sliver{} shorter than {tolerance} of the drawing lie{} inside the region; move the drawing further in or give a smaller sliver tolerance",
            plural(*slivers), if *slivers == 1 { "s" } else { "" }
        ),
        NoPieces => ("there is no piece to join; give at least one"),
        PieceAstray { index: usize, position: f64 } => (
            "piece {index} does not end on the boundary at the position {position} that it gives; give the distance along the boundary from its first corner"
        ),
        RegionTooFew { found: usize } => (
            "{found} corner{} make no region; give at least 3 corners that are not in one line",
            plural(*found)
        ),
        NoTriangle { first: String, second: String, third: String, accepted: String } => (
            "{first}, {second} and {third} form no triangle; {accepted}"
        ),
        Dented { corner: String, diagonal: &'static str } => (
            "the quilt would be dented in at its {corner} corner; give a longer {}, or measure the sides again",
            diagonal.trim_start_matches("the ")
        ),
        PolygonSides { found: usize } => (
            "{found} corner{} make no polygon that a border runs round; give 3 to 12 corners",
            plural(*found)
        ),
        CornerTwice => ("two corners that follow each other are the same; give each corner once"),
        CornerNotConvex { corner: String } => (
            "{corner} does not turn clockwise; give the corners of a polygon without dents, clockwise as seen"
        ),
        CornerAngle { corner: String, degrees: f64 } => (
            "{corner} has {degrees:.1} degrees; give a polygon with corners of 30 to 170 degrees"
        ),
        WidthCount { found: usize, count: usize } => (
            "{found} width{} for {count} sides; give one for each side",
            plural(*found)
        ),
        InsetTooWide { side: String, taken: f64, length: f64, percent: f64 } => (
            "the widths take {taken} of the {length} of {side}, so nothing is left inside it; give widths below {percent:.0} % of these"
        ),
        StationCount { found: usize, limit: usize } => (
            "{found} station{} make no band; give 2 to {limit} pairs of points",
            plural(*found)
        ),
        StationWithoutDepth => ("both points are the same, so the band has no depth; give one on each line"),
        StationTwice => ("this station lies where the one before it does; give each place once"),
        GapsTakeWidth { gaps: f64, width: f64 } => (
            "the gaps take {gaps} together, but the border is only {width} wide here; give smaller gaps"
        ),
        StationsTurn => (
            "the band turns too sharply from this station to the next for a smooth curve; measure more stations, or join them by straight lines"
        ),
        CrossLineAlong => ("the line that a side ends on runs along it; give one that crosses the band"),
        CrossLinesMeet => (
            "the lines that a side starts and ends on leave nothing between them; give a longer side or shorter corners"
        ),
        UnequalDepths { entering: f64, leaving: f64 } => (
            "the band is {entering} deep before the corner and {leaving} after it, so the repeat can't be cut or bent to turn it; give both sides the same depth, or draw a corner"
        ),
    }
}

faults! {
    /// Lengths that can't be read.
    LengthFault {
        Empty => ("the length is empty; write a number and a unit, for example 4 1/2 in or 114 mm"),
        NotANumber { text: String } => (
            "\"{text}\" is no length; write for example 4.5, 4 1/2 in, 4½\", 11.4cm or 114 mm"
        ),
        ZeroDivision { text: String } => ("\"{text}\" divides by 0; write a fraction such as 1/2"),
        UnknownUnit { text: String, unit: String } => (
            "\"{text}\" has the unknown unit \"{unit}\"; use in, \", ft, yd, mm, cm or m"
        ),
        UnitMissing { text: String } => (
            "{text} has no unit; write {text} in or {text} mm, or name the unit of all bare numbers once"
        ),
        OutOfRange { text: String, accepted: &'static str } => (
            "\"{text}\" is out of range; give {accepted}"
        ),
    }
}

faults! {
    /// SVG drawings that can't be read.
    #[cfg_attr(not(feature = "svg"), allow(dead_code))]
    DrawingFault {
        Empty => ("the file is empty; give an SVG drawing with at least one path"),
        NotText => ("the file is not UTF-8 text; save the drawing as plain (uncompressed) SVG"),
        Compressed => ("the file is gzip-compressed (.svgz); save the drawing as plain (uncompressed) SVG"),
        Utf16 => ("the file is UTF-16 text; save the drawing as UTF-8, which is what SVG programs write by default"),
        NotXml { reason: String } => ("not a readable SVG: {reason}; save the drawing again as plain SVG"),
        NotSvg { root: String } => (
            "the outermost element is <{root}>; an SVG drawing starts with <svg xmlns=\"http://www.w3.org/2000/svg\">"
        ),
        BadAttribute { element: String, attribute: String, value: String, reason: String } => (
            "{attribute}=\"{value}\" of <{element}>: {reason}"
        ),
        NothingDrawn => (
            "nothing is drawn; give a drawing with at least one path, line, polyline, polygon, rect, circle or ellipse"
        ),
        MarkupInEntity => (
            "an entity holds elements or refers to another entity; save the drawing as plain SVG without entities"
        ),
        EntityText { limit: usize } => (
            "the entities would unfold to more than {limit} bytes; save the drawing as plain SVG without entities"
        ),
        TooFar { value: f64, limit: f64 } => (
            "a point lies at {value:.2e} mm; coordinates may go from -{limit:e} mm to {limit:e} mm, so check the numbers, the transforms and the viewBox"
        ),
        TooDeep { limit: usize } => (
            "elements are nested more than {limit} deep; ungroup the drawing and save it again"
        ),
        TooMany { what: &'static str, limit: usize } => (
            "more than {limit} {what}; split the drawing into several files"
        ),
        UseCycle { id: String } => (
            "<use> of \"{id}\" leads back to itself; remove the circular reference"
        ),
    }
}

faults! {
    /// JSON that can't be read.
    #[cfg_attr(not(feature = "json"), allow(dead_code))]
    DataFault {
        Empty { accepted: &'static str } => ("the file is empty; give {accepted}"),
        NotText => ("the file is not UTF-8 text; save it as UTF-8 JSON"),
        Utf16 => ("the file is UTF-16 text; save it as UTF-8 JSON"),
        Syntax { reason: String } => ("{reason}"),
        UnknownKey { key: String, nearest: Option<String>, accepted: String } => (
            "unknown key \"{key}\"{}; accepted here: {accepted}",
            did_you_mean(nearest.as_deref())
        ),
        UnknownValue { value: String, nearest: Option<String>, accepted: String } => (
            "unknown value \"{value}\"{}; accepted here: {accepted}",
            did_you_mean(nearest.as_deref())
        ),
        NoUnit => (
            "the point list names no unit; write {{\"unit\":\"in\",\"points\":[…]}} or name the unit when reading it"
        ),
        NoPath => ("no path in the file; give at least one list of points"),
    }
}

fn did_you_mean(nearest: Option<&str>) -> String {
    nearest.map_or_else(String::new, |name| format!("; did you mean \"{name}\"?"))
}

faults! {
    /// Drawings that are not one open path.
    MotifFault {
        Nothing => ("the drawing has no path; give a drawing with at least one line"),
        Apart { gaps: String, pieces: usize } => (
            "the drawing is {pieces} separate lines: {gaps}; draw them so that they meet, or link them with straight lines by --link (in a plan: \"link_gaps\": true)"
        ),
    }
}

faults! {
    /// Corner motifs whose legs can't be found.
    LegFault {
        NoEmptyCorner => (
            "no empty inner corner found, so this is no L; give an L-shaped drawing, or say its elbow and leg depth outright"
        ),
        PortsElsewhere { reason: String } => (
            "the line does not run from one leg's open end to the other's: {reason}; give an L that starts and ends at its open ends, or say its elbow and leg depth outright"
        ),
        TooDeep { depth: f64, limit: f64 } => (
            "a leg depth of {depth} does not fit into a drawing of {limit}; give a leg depth above 0 and below {limit}"
        ),
    }
}

faults! {
    /// Spans that no whole number of repeats can fill.
    FitFault {
        SpanNotPositive { span: f64 } => ("the span is {span}; give a span above 0"),
        RepeatHasNoPitch => (
            "the repeat starts and ends at the same distance along, so it can't be chained; draw it from left to right"
        ),
        RepeatHasNoHeight => (
            "the repeat is a straight line along the border, so it has no height to size by; give a drawing with height"
        ),
        NoWholeNumber { asked: String } => (
            "no number of repeats is allowed by {asked}; give a multiple of 1, 2, 3 …"
        ),
        CentredOdd { repeats: usize } => (
            "repeats centred on a side take an even number, not {repeats}; give {}",
            if *repeats < 2 { "2".to_owned() } else { format!("{} or {}", repeats - 1, repeats.saturating_add(1)) }
        ),
        CentredParity => (
            "repeats centred on a side take an even number, not an odd one; leave the parity out, or give even"
        ),
        TooMany { count: f64, limit: usize } => (
            "the span would take {count:.0} repeats; up to {limit} are accepted, so check the units of the motif and the span"
        ),
        NoSides => ("the ring has no side; give at least one side to fill"),
        DepthRange { min: f64, preferred: f64, max: f64 } => (
            "the depth may go from {min} to {max} and is best at {preferred}; give a least depth above 0, a greatest one not below it, and one between them"
        ),
        SideHasNoLength { fixed: f64, per_depth: f64 } => (
            "the span is {fixed} and {per_depth} for each unit of depth; give finite numbers, the first above 0"
        ),
        LimitNotAroundOne { least: f64, most: f64 } => (
            "the stretch may go from {least} to {most}; give a least stretch above 0 and up to 1, and a greatest one of 1 or more"
        ),
        OtherGroup => (
            "the fit is not one of this group: it has another number of sides, or a side without repeats; give the fit that was made of it"
        ),
        TooManyInAll { count: f64, limit: usize } => (
            "the sides would have {count:.0} points in all; up to {limit} are accepted, so check the units of the motif and the quilt, or use a coarser flattening"
        ),
        TooManyPoints { count: f64, limit: usize } => (
            "the chained path would have {count:.0} points; up to {limit} are accepted, so use a coarser flattening or fewer repeats"
        ),
    }
}

faults! {
    /// Paths that can't be stitched.
    StitchFault {
        TooMany { count: f64, limit: usize } => (
            "the path would take {count:.0} stitches; up to {limit} are accepted, so check the units of the path and of the stitch"
        ),
        TooManyAtoms { limit: usize } => (
            "the stitching falls into more than {limit} parts; up to that many are accepted, so check the unit of the throat, or put it in order in parts"
        ),
        NoSuchAtom { atom: usize, count: usize } => (
            "atom {atom} is joined, but there are only {count}; give the numbers of atoms, counted from 0"
        ),
        NoSuchPiece { piece: usize, count: usize } => (
            "piece {piece} is named, but there are only {count}; give the numbers of pieces, counted from 0"
        ),
        EndsAstray { last: usize } => (
            "the copies do not end on the line one after the other; give rising indices of its points, from 1 to {last}"
        ),
    }
}

faults! {
    /// Stitched lines that can't be checked.
    CheckFault {
        TooManyPoints { found: usize, limit: usize } => (
            "the lines have {found} points; up to {limit} are accepted, so check them in parts"
        ),
        TooFar { squares: f64, limit: usize } => (
            "the lines would pass through {squares:.0} squares; up to {limit} are accepted, so check the units of the lines and the side of the squares"
        ),
        NotNested { outer: String, inner: String, by: f64 } => (
            "{inner} reaches {by:.4} beyond {outer}; give outlines that lie within each other"
        ),
    }
}

faults! {
    /// Plans that can't be carried out.
    PlanFault {
        NoBorders => ("the plan has no border; give at least one under \"borders\""),
        NotPositive { what: String, given: String } => ("{what} is {given}; give a length above 0"),
        Negative { what: String, given: String } => ("{what} is {given}; give 0 or more"),
        BorderTooWide { width: String, left: String } => (
            "the border is {width} wide, but only {left} is left from the edge to the middle of the quilt; give a narrower border"
        ),
        GapsTooWide { gaps: String, width: String } => (
            "the seam gap and the edge gap take {gaps} together, but the border is only {width} wide; give smaller gaps or a wider border"
        ),
        SlackTooWide { slack: String, depth: String } => (
            "the slack is {slack}, but the band is only {depth} deep; give less than that"
        ),
        CornersOverlap { side: String, corners: String, room: String } => (
            "the corners take {corners} of the {side}, but it is only {room} long; give a shorter corner motif or a narrower border"
        ),
        NamedSides { count: usize } => (
            "the names top, right, bottom and left are for quilts of 4 sides, but this one has {count}; give a list of {count} values, the first side first"
        ),
        ValuesForSides { found: usize, count: usize } => (
            "{found} value{} for {count} sides; give one for each side, the first side first",
            plural(*found)
        ),
        SideWithoutWidth { side: String } => ("the {side} has no width; give a width for every side"),
        NoSuchSide { given: String, accepted: String } => ("there is no side {given}; give {accepted}"),
        OutlineKeys { given: String } => (
            "{given} give no outline; give \"width\" and \"height\", or \"top\", \"right\", \"bottom\" and \"left\" with \"falling\" or \"rising\" or both, or \"corners\""
        ),
        StationOffSide { at: String, length: String } => (
            "the station lies at {at}, but the side is {length} long; give a place between its ends"
        ),
        StationTwiceAt { at: String } => ("two stations of one side lie at {at}; give each its own place"),
        BandFolds { side: String } => (
            "the band of the {side} folds over itself; check its stations, or give more room between the corners"
        ),
        UnequalDepths { corner: String, before: String, after: String } => (
            "the bands before and after the {corner} are {before} and {after} deep, but a corner made from the repeat needs one depth; give these sides one width, or use another corner style"
        ),
        NoSharedDepth { depths: String, missing: String } => (
            "the bands of the borders are {depths} deep and can't be brought to one depth; give {missing} more \"slack\" to the deepest, or fitting widths"
        ),
        ClosestTooSmall { closest: String, least: String } => (
            "lines closer than {closest} can't be told from those stitched twice; give more than {least}"
        ),
        OddSides { what: &'static str, count: usize } => (
            "{what} needs an even number of sides, but this quilt has {count}; leave it out"
        ),
        TrimmedApart { paths: usize } => (
            "the drawing cut to an L stays {paths} separate lines; give a drawing whose line crosses the L's edge, or another leg depth"
        ),
        SameName { name: String } => ("two borders are named \"{name}\"; give each border its own name"),
        Missing { what: String, why: String } => ("{what} is missing; {why}"),
        NotUsed { what: String, why: String } => ("{what} is not used: {why}; remove it"),
        MotifUnreadable { name: String, reason: String } => (
            "the motif \"{name}\" can't be read: {reason}"
        ),
    }
}

faults! {
    /// Pieces that paper can't take.
    #[cfg_attr(not(feature = "svg"), allow(dead_code))]
    PaperFault {
        TooManySheets { size: String, sheets: f64, paper: &'static str, limit: usize, accepted: String } => (
            "a piece of {size} takes {sheets:.0} sheets of {paper} paper; up to {limit} are accepted, so give a piece of up to {accepted}: check its unit, or cut or scale it"
        ),
    }
}
