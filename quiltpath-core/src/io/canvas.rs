//! What the picture and the placement sheet draw alike: the quilt, its borders, pieces as paths.
//!
//! Lines are drawn on a grid of a six-thousandth of the quilt, finer than any screen shows, so
//! the drawings stay small; the exact lines are in the piece files.

use maud::{Markup, Render, html};

use super::ticks::Portions;
use crate::geom::{Bounds, Point};
use crate::io::words::counted;
use crate::plan::{Layout, PieceKind, SideDetail, Solved};
use crate::units::nearest;

/// The grid that a solved plan is drawn on.
pub(super) struct Canvas {
    pub(super) bounds: Bounds,
    /// The grid's step, in millimetres.
    pub(super) step: f64,
    /// The height of letters, in millimetres.
    pub(super) em: f64,
    /// How high the figures of fractions are at most, in letters.
    pub(super) figure: f64,
}

/// How high the figures of fractions are where no style says more, in letters.
const FIGURE: f64 = 0.68;

impl Canvas {
    /// A grid for a plan whose longer side is so many letters high.
    pub(super) fn of(solved: &Solved, letters: f64) -> Self {
        Self::over(solved.bounds(), letters)
    }

    /// A grid for what lies in a box whose longer side is so many letters high.
    pub(super) fn over(bounds: Bounds, letters: f64) -> Self {
        let size = bounds.width().max(bounds.height());
        Self {
            bounds,
            step: size / 6000.0,
            em: size / letters,
            figure: FIGURE,
        }
    }

    /// Millimetres in steps of the grid.
    pub(super) fn grid(&self, mm: f64) -> i64 {
        nearest(mm / self.step) as i64
    }

    /// A closed line.
    pub(super) fn outline(&self, class: &str, corners: &[Point]) -> Markup {
        let mut data = String::new();
        for (index, corner) in corners.iter().enumerate() {
            let command = if index == 0 { 'M' } else { 'L' };
            let (x, y) = (self.grid(corner.x), self.grid(corner.y));
            data += &format!("{command}{x} {y}");
        }
        html! { path class=(class) d={ (data) "Z" } {} }
    }

    /// A straight line from point to point.
    pub(super) fn segment(&self, class: &str, from: Point, to: Point) -> Markup {
        let [a, b, c, d] = [from.x, from.y, to.x, to.y].map(|mm| self.grid(mm));
        html! { path class=(class) d=(format!("M{a} {b}L{c} {d}")) {} }
    }

    /// The borders with their cloth, seams and bands.
    pub(super) fn cloth(&self, solved: &Solved) -> Markup {
        html! {
            @if solved.borders().is_empty() {
                (self.outline("cloth", solved.quilt.outline.corners()))
                (self.outline("seam", solved.quilt.outline.corners()))
            }
            @for layout in solved.borders() {
                (self.outline("border", &layout.lines.edge))
                (self.outline("cloth", &layout.lines.seam))
            }
            @for spot in solved.field().iter().flat_map(|field| &field.spots) {
                (self.outline("seam", &spot.corners))
            }
            @for layout in solved.borders() {
                (self.outline("seam", &layout.lines.edge))
                (self.outline("seam", &layout.lines.seam))
                (self.outline("band", &layout.lines.outer))
                (self.outline("band", &layout.lines.inner))
            }
        }
    }

    /// The line of a piece, as path data.
    pub(super) fn line<'a>(&self, points: &'a [Point]) -> Line<'a> {
        let step = self.step;
        Line { step, points }
    }

    /// A place in the middle of a box, or aside from it where a thread starts or ends there.
    fn clear_of(&self, bounds: Bounds, taken: &[Point]) -> Point {
        const CLEAR: f64 = 1.6;
        let (centre, half) = (bounds.centre(), bounds.size() / 2.0);
        let shares = [
            (0.0, 0.0),
            (0.0, -0.45),
            (0.0, 0.45),
            (-0.45, 0.0),
            (0.45, 0.0),
        ];
        let mut places = shares
            .iter()
            .map(|&(x, y)| Point::new(centre.x + x * half.x, centre.y + y * half.y));
        let clear = |place: &Point| {
            let mut apart = taken.iter().map(|other| (other - place).norm());
            apart.all(|apart| apart > CLEAR * self.em)
        };
        places.find(clear).unwrap_or(centre)
    }

    /// A place in the middle of a round band, at the lower right of it.
    fn clear_of_ring(&self, layout: &Layout, taken: &[Point]) -> Point {
        let lines = [&layout.lines.outer, &layout.lines.inner];
        // The same share of both lines lies across the band.
        let at = |share: f64| {
            let ends = lines.map(|line| line[(line.len() as f64 * share) as usize % line.len()]);
            nalgebra::center(&ends[0], &ends[1])
        };
        let clear = |place: &Point| {
            let mut apart = taken.iter().map(|other| (other - place).norm());
            apart.all(|apart| apart > 1.6 * self.em)
        };
        let places = [0.1, 0.15, 0.2, 0.3].map(at);
        let found = places.iter().find(|place| clear(place));
        *found.unwrap_or(&places[0])
    }

    /// Where the number of a corner or a side of a border stands: in the middle of its own band,
    /// those of the borders inside moved along it, so that they keep apart where bands are narrow.
    /// A side's moves on where something else has its place.
    pub(super) fn number_place(
        &self,
        layout: &Layout,
        kind: &PieceKind,
        border: usize,
        taken: &[Point],
    ) -> Point {
        const STEP: f64 = 1.6;
        const CLEAR: f64 = 1.5;
        if let PieceKind::Field(detail) = kind {
            return self.clear_of(Bounds::of_nonempty(&detail.seams), taken);
        }
        let band = &layout.band;
        let aside = STEP * self.em * border as f64;
        let middle_of = |at: usize| {
            let lines = [&band.outer, &band.inner];
            let [outer, inner] = lines.map(|line| line.corners()[at]);
            nalgebra::center(&outer, &inner)
        };
        let (at, shares) = match kind {
            PieceKind::Corner(corner) => (corner.position.index(), &[0.0][..]),
            PieceKind::Side(SideDetail { side, .. }) | PieceKind::Link(side) => (
                side.index(),
                &[0.5, 0.46, 0.54, 0.42, 0.58, 0.36, 0.64, 0.3][..],
            ),
            PieceKind::Ring(_) => return self.clear_of_ring(layout, taken),
            PieceKind::Field(_) => (0, &[0.0][..]),
        };
        let (from, to) = (middle_of(at), middle_of(band.outer.after(at)));
        let places = shares
            .iter()
            .map(|share| from + (to - from) * *share + band.outer.direction(at) * aside);
        let room = |place: &Point| {
            let apart = taken.iter().map(|other| (other - place).norm());
            apart.fold(f64::INFINITY, f64::min)
        };
        let clear = places.clone().find(|place| room(place) > CLEAR * self.em);
        let widest = || places.max_by(|a, b| room(a).total_cmp(&room(b)));
        clear.or_else(widest).unwrap_or(from)
    }
}

/// An open line on a grid, in steps from point to point.
pub(super) struct Line<'a> {
    step: f64,
    points: &'a [Point],
}

impl<'a> Line<'a> {
    /// A line on a grid of this step.
    #[cfg(feature = "json")]
    pub(super) fn on(step: f64, points: &'a [Point]) -> Self {
        Self { step, points }
    }
}

impl Render for Line<'_> {
    fn render_to(&self, out: &mut String) {
        let on_grid = |value: f64| nearest(value / self.step) as i64;
        let mut steps = self
            .points
            .iter()
            .map(|point| [point.x, point.y].map(on_grid));
        let mut from = steps.next().unwrap_or_default();
        let mut data = Portions::new(out);
        let mut pair = |command: char, [x, y]: [i64; 2]| {
            data.put(command);
            data.whole(x);
            data.put(' ');
            data.whole(y);
        };
        pair('M', from);
        let mut command = 'l';
        for to in steps {
            if to != from {
                pair(
                    command,
                    [0, 1].map(|axis| to[axis].saturating_sub(from[axis])),
                );
                (from, command) = (to, ' ');
            }
        }
        if command == 'l' {
            pair(command, [0, 0]);
        }
    }
}

/// What a piece is, in short.
pub(super) fn kind_of(kind: &PieceKind) -> String {
    match kind {
        PieceKind::Side(side) => counted(side.fit.chosen.repeats, "repeat"),
        PieceKind::Ring(ring) => counted(ring.fit.chosen.repeats, "repeat"),
        PieceKind::Field(detail) => match detail.sash {
            Some(sash) => counted(sash.fit.chosen.repeats, "repeat"),
            None => detail.place.kind.name().replace('_', " "),
        },
        PieceKind::Corner(_) | PieceKind::Link(_) => kind.name().to_owned(),
    }
}
