//! What a page shows of a solved plan: the picture in parts, what there is to look at, and what may
//! be chosen, as data that goes out as JSON.
//!
//! All of it is the picture's, the words' and the plan's own: a page that draws it need know
//! nothing of quilts. Lengths are in the unit of the plan, each beside the words that people read.

mod borders;
mod drawing;
mod ends;
mod found;
mod length;
mod passes;
mod pins;
mod sides;

use serde::Serialize;

pub use borders::BorderView;
pub use drawing::{DrawingView, LittleDrawing, view_drawing};
pub use ends::{EndView, EndsView};
pub use found::{Found, FoundKind, FoundLine, WayOut};
pub use length::LengthSaid;
pub use passes::{BobbinView, MarkView, PassView, RunView, pass_views};
pub use sides::{ChoiceView, SideGroup, SideView};

use super::json::result::Totals;
use super::json::to_text;
use super::picture::{PicturePart, PictureParts, picture_parts};
use crate::error::Error;
use crate::plan::{PlanSpec, Solved, Stitching, border_rooms, side_choices};
use crate::units::Unit;

/// What a page shows of a solved plan.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct View {
    /// The unit of all lengths.
    #[serde(serialize_with = "symbol")]
    pub unit: Unit,
    /// The picture without its title, legend and marks, which a page has of its own.
    pub picture: PictureParts,
    /// What there is to look at before stitching, by kind.
    pub look: Vec<FoundKind>,
    /// What is good to know, by kind.
    pub know: Vec<FoundKind>,
    /// Each side with the numbers of repeats that it may have.
    pub sides: Vec<SideView>,
    /// The sides, opposite ones together where they are alike.
    pub groups: Vec<SideGroup>,
    /// Each border with the room for its band.
    pub borders: Vec<BorderView>,
    /// Lengths and counts of the whole.
    pub totals: Totals,
    /// The length of needle thread and of bobbin thread as people read them, where the stitching is
    /// known.
    pub thread: Option<[String; 2]>,
}

fn symbol<S: serde::Serializer>(unit: &Unit, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(unit.symbol())
}

/// What a page shows of a plan that was solved, and of its stitching where that is known; letters
/// of the picture are so high that the longer side of the quilt is `letters` of them, 46 in
/// [`write_picture`](super::picture::write_picture()).
///
/// The parts of the picture are those of [`picture_parts`] without `back`, `title`, `marks` and
/// `legend`, and with a `pin N` for each kind of finding that has a place, where N is its number.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::io::{json::read_plan, view::{view, write_view}};
/// use quiltpath_core::plan::solve;
///
/// # let wave = |_: &_| {
/// #     let wave = [(20.0, 5.0), (15.0, 10.0), (5.0, 0.0), (0.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let seen = view(&plan, &solve(&plan, wave)?, None, 46.0)?;
/// assert_eq!(seen.know[0].title, "Drawn backwards");
/// assert_eq!(seen.groups[0].title, "Top and bottom");
/// assert_eq!(seen.sides[0].choices.len(), 5);
/// assert!(write_view(&seen)?.starts_with(r#"{"unit":"in","picture":{"view":["#));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`write_picture`](super::picture::write_picture()); as [`solve()`](crate::plan::solve()) for
/// keys of another plan than the one that was solved.
///
/// # Complexity
///
/// O(points).
pub fn view(
    plan: &PlanSpec,
    solved: &Solved,
    stitching: Option<&Stitching>,
    letters: f64,
) -> Result<View, Error> {
    let mut picture = picture_parts(solved, stitching, letters)?;
    picture.parts.retain(|part: &PicturePart| {
        !matches!(part.key.as_str(), "back" | "title" | "marks" | "legend")
    });
    let sides = side_choices(plan, solved)?;
    let rooms = border_rooms(plan, solved)?;
    let found = Found::of(solved, stitching, &sides, &rooms);
    let pins = pins::pins(solved, [&found.look, &found.know], letters);
    picture.parts.extend(pins);
    let unit = solved.unit;
    let views: Vec<SideView> = (sides.iter())
        .map(|side| SideView::of(side, solved))
        .collect();
    Ok(View {
        unit,
        picture,
        groups: SideGroup::all(&sides, solved),
        sides: views,
        borders: rooms
            .iter()
            .map(|room| BorderView::of(room, solved))
            .collect(),
        look: found.look,
        know: found.know,
        totals: Totals::of(solved, stitching),
        thread: stitching.map(|stitching| {
            let need = &stitching.job.thread.thread;
            [need.needle, need.bobbin].map(|mm| unit.readable_thread(mm))
        }),
    })
}

/// Writes a view as one JSON object and a line end.
///
/// # Errors
///
/// A geometry error with the key path of a number that is not finite, which JSON can't hold.
pub fn write_view(view: &View) -> Result<String, Error> {
    to_text(view)
}
