//! The kinds of findings by name: a few words each, as a list of findings is headed.

use crate::plan::FindingKind;

/// What kind of finding it is, in a few words.
///
/// ```
/// use quiltpath_core::io::words::finding_title;
/// use quiltpath_core::plan::FindingKind;
///
/// let twice = FindingKind::StitchedTwice { length: 12.0 };
/// assert_eq!(finding_title(&twice), "Stitched twice");
/// ```
#[must_use]
pub fn finding_title(kind: &FindingKind) -> &'static str {
    match kind {
        FindingKind::DrawingLinked { .. } => "Gaps linked",
        FindingKind::OneLine { .. } => "Strokes made one line",
        FindingKind::Backwards { .. } => "Drawn backwards",
        FindingKind::MeasuresDisagree { .. } => "Measures disagree",
        FindingKind::NoDiagonal { .. } => "No diagonal measured",
        FindingKind::DepthShared { .. } => "One depth for all bands",
        FindingKind::BestWay { .. } => "Best way to lie",
        FindingKind::BetterWay { .. } => "A way with fewer links",
        FindingKind::DepthChosen { .. } => "Depth chosen",
        FindingKind::Stretch { .. } => "Longer or shorter than drawn",
        FindingKind::WaysOut { .. } => "Ways to less stretch",
        FindingKind::LegUnclear { .. } => "Legs in doubt",
        FindingKind::CornerUneven { .. } => "Legs not equally deep",
        FindingKind::Trimmed { .. } => "Cut to an L",
        FindingKind::CornerSlanted { .. } => "Slanted corner",
        FindingKind::CornersAlike { .. } => "Two corners alike",
        FindingKind::MitreKink { .. } => "Turn at the diagonal",
        FindingKind::MitreNotSmoothed { .. } => "Turn rounded less",
        FindingKind::MitreLoops { .. } => "Loops at the diagonal",
        FindingKind::CornersClose { .. } => "Corners run past each other",
        FindingKind::StationsInCorner { .. } => "Stations in a corner",
        FindingKind::Levelled { .. } => "Ends levelled",
        FindingKind::RepeatsLinked { .. } => "Repeats linked",
        FindingKind::EaseLimited { .. } => "Stems can't take it all",
        FindingKind::RepeatKink { .. } => "Turn between repeats",
        FindingKind::MirrorKink { .. } => "Turn at the mirror image",
        FindingKind::Linked { .. } => "Corner and side don't meet",
        FindingKind::Kept { .. } => "Kept as stitched",
        FindingKind::BlocksKept { .. } => "Kept as stitched",
        FindingKind::NumberKept { .. } => "Number kept",
        FindingKind::RestStretched { .. } => "The rest is stretched",
        FindingKind::CornerDrawnOut { .. } => "Corner drawn out",
        FindingKind::StitchedApart { .. } => "Stitched ends apart",
        FindingKind::OffTheQuilt { .. } => "Over the raw edge",
        FindingKind::OverSeam { .. } => "Over the seam",
        FindingKind::OutsideBand { .. } => "Outside the band",
        FindingKind::UnderBinding { .. } => "Under the binding",
        FindingKind::LinesClose { .. } => "Lines too close",
        FindingKind::StitchedTwice { .. } => "Stitched twice",
        FindingKind::Dense { .. } => "Dense",
        FindingKind::SmallLoop { .. } => "Small loops",
        FindingKind::Crowded { .. } => "Too thick to compare",
        FindingKind::Unlisted { .. } => "More of the same",
        FindingKind::ShortStitches { .. } => "Short stitches left out",
        FindingKind::JoinOpen { .. } => "Join open",
        FindingKind::JoinKink { .. } => "Turn where pieces meet",
        FindingKind::TooDeep { .. } => "Deeper than the throat",
        FindingKind::OutsidePlace { .. } => "Outside its place",
        FindingKind::TrianglesCut { .. } => "Cut to triangles",
        FindingKind::FewerCuts { .. } => "Fewer thread cuts",
    }
}
