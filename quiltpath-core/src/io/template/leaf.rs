//! The sheets of a template: the tile with its seams and marks under a line of words.

use maud::{Markup, html};

use super::ink::{Mm, WORD, ends, line, mark, name, row_name, way};
use super::piece::Piece;
use super::tiling::{Grid, HEAD, OVERLAP_MM, Tile};
use crate::geom::measure::length;
use crate::geom::region::Region;
use crate::geom::{Bounds, Point, Polyline, Vector};
use crate::io::html::shortened;
use crate::trim::inside;

/// The box at the top right that the small overview fits into, in millimetres.
const SMALL: [f64; 2] = [40.0, 9.0];

/// All sheets, each a figure with one drawing at true size.
pub(super) fn all(piece: &Piece<'_>, grid: &Grid, tiles: &[Tile]) -> Markup {
    let small = Small::of(grid);
    let leaf = |at: usize| Leaf {
        piece,
        grid,
        tiles,
        tile: &tiles[at],
        at,
    };
    html! {
        @if small.shown { (small.define(tiles)) }
        @for at in 0..tiles.len() { (leaf(at).figure(&small)) }
    }
}

struct Leaf<'a> {
    piece: &'a Piece<'a>,
    grid: &'a Grid,
    tiles: &'a [Tile],
    tile: &'a Tile,
    at: usize,
}

impl Leaf<'_> {
    fn figure(&self, small: &Small) -> Markup {
        let (row, column) = (self.tile.row, self.tile.column);
        let own = name(row, column);
        let bounds = self.grid.tile(row, column);
        let (width, height) = (Mm(bounds.width()), Mm(bounds.height()));
        let whole = Mm(bounds.height() + HEAD);
        let place = format!("row {}, column {}", row_name(row), column + 1);
        html! {
            figure {
                figcaption.leaf-name { "Sheet " (own) ": " (place) }
                svg.leaf role="img" aria-label={ "Sheet " (own) " of the piece" }
                    width={ (width) "mm" } height={ (whole) "mm" } viewBox={ "0 0 " (width) " " (whole) } {
                    text.big y="7" { (own) }
                    text.text x="26" y="3.2" {
                        (shortened(self.piece.name, 28)) ", " (self.piece.readable_size())
                    }
                    text.text x="26" y="7.4" {
                        "sheet " (self.at + 1) " of " (self.tiles.len()) ": " (place) "; print at 100 %"
                    }
                    @if small.shown { (small.show(self.tile, bounds.width())) }
                    svg y=(HEAD) width=(width) height=(height)
                        viewBox={ (Mm(bounds.min.x)) " " (Mm(bounds.min.y)) " " (width) " " (height) } {
                        (self.drawing(bounds))
                    }
                }
            }
        }
    }

    fn drawing(&self, bounds: Bounds) -> Markup {
        let parts = || self.tile.parts.iter().map(|(_, part)| part.points());
        let longest = parts().max_by(|a, b| length(a).total_cmp(&length(b)));
        html! {
            (self.outline())
            (self.cloth())
            (self.seams(bounds))
            @for part in parts() { (line("line", part)) }
            @if let Some(arrow) = longest.and_then(way) { (arrow) }
            (ends(self.piece, bounds))
        }
    }

    /// What runs beside the piece on the cloth, each stretch with its name where there is room.
    fn cloth(&self) -> Markup {
        // Names keep out of the strips of the seams, where other words stand.
        let cell = self.grid.cell(self.tile.row, self.tile.column);
        let within = |around: Bounds| {
            let ends = self.piece.ends.iter().flatten();
            let off = |at: Point| (around.min - at).sup(&(at - around.max)).max();
            let mut ends = ends.map(|end| off(end.point));
            (around.min - cell.min).min() > 0.0
                && (cell.max - around.max).min() > 0.0
                && ends.all(|off| off > MARK_ROOM)
        };
        let is_clear = |around: Bounds| within(around) && self.is_clear(around);
        let parts = self.tile.cloth.iter();
        let parts = parts.map(|(index, part)| (self.piece.cloth[*index].0, part));
        html! {
            @for (kind, part) in parts {
                (line(kind.class(), part.points()))
                @if let Some((place, turn)) = named(kind.words(), part.points(), is_clear) {
                    (words("word small middle", kind.words(), place, turn))
                }
            }
        }
    }

    /// Whether nothing that is drawn on this sheet comes into a box.
    fn is_clear(&self, around: Bounds) -> bool {
        let room = Vector::repeat(1.0);
        let (min, max) = (around.min - room, around.max + room);
        let Ok(region) = Region::rectangle(Bounds { min, max }) else {
            return false;
        };
        let size = self.piece.size;
        let corners = [
            (0.0, 0.0),
            (size.x, 0.0),
            (size.x, size.y),
            (0.0, size.y),
            (0.0, 0.0),
        ];
        let outline = Polyline::new(corners.map(|(x, y)| Point::new(x, y)).to_vec());
        let drawn = self.tile.parts.iter().chain(&self.tile.cloth);
        let mut drawn = drawn.map(|(_, part)| part).chain(outline.as_ref().ok());
        drawn.all(|part| inside(part, &region, 0.0).is_ok_and(|found| found.pieces.is_empty()))
    }

    /// The piece's bounds, with the middle of each side.
    fn outline(&self) -> Markup {
        const TICK: f64 = 4.0;
        let size = self.piece.size;
        let (w, h) = (Mm(size.x), Mm(size.y));
        let middle = size / 2.0;
        let (x, y) = (Mm(middle.x), Mm(middle.y));
        html! {
            path.bounds d={ "M0,0H" (w) "V" (h) "H0Z" } {}
            path.fine d={
                @for edge in [0.0, size.y] { "M" (x) "," (Mm(edge - TICK)) "v" (2.0 * TICK) }
                @for edge in [0.0, size.x] { "M" (Mm(edge - TICK)) "," (y) "h" (2.0 * TICK) }
            } {}
        }
    }

    /// The seams to the sheets around: cut on the right and below, laid on from the left and above.
    fn seams(&self, bounds: Bounds) -> Markup {
        let (row, column) = (self.tile.row, self.tile.column);
        let cell = self.grid.cell(row, column);
        let sides = [
            (column > 0).then(|| (row, column - 1, Seam::left(cell.min.x, bounds))),
            (row > 0).then(|| (row - 1, column, Seam::above(cell.min.y, bounds))),
            Some((row, column + 1, Seam::right(cell.max.x, bounds))),
            Some((row + 1, column, Seam::below(cell.max.y, bounds))),
        ];
        let there = |row, column| {
            let key = |tile: &Tile| (tile.row, tile.column);
            self.tiles.binary_search_by_key(&(row, column), key).is_ok()
        };
        html! {
            @for (row, column, seam) in sides.into_iter().flatten() {
                @if there(row, column) { (seam.marked(&name(row, column), |around| self.is_clear(around))) }
            }
        }
    }
}

/// One seam of a sheet, in the piece's millimetres.
struct Seam {
    from: Point,
    to: Point,
    /// True when this sheet is cut here and lies on the other one.
    cut: bool,
    /// The base of the words, in the middle of the strip outside the seam, and their turn.
    words: Point,
    turn: i32,
}

/// Names keep so far from the ends of lines, which have marks and words, in millimetres.
const MARK_ROOM: f64 = 10.0;

/// Round marks are no larger than this across, in millimetres.
const MARK: f64 = 4.0;

/// From a seam to the base of words in the outer half of the strip.
const WORDS: f64 = OVERLAP_MM / 4.0 + 1.0;

impl Seam {
    fn left(x: f64, tile: Bounds) -> Self {
        Self::upright(x, tile, false, x - OVERLAP_MM / 2.0 + WORDS)
    }

    fn right(x: f64, tile: Bounds) -> Self {
        Self::upright(x, tile, true, x + WORDS)
    }

    fn upright(x: f64, tile: Bounds, cut: bool, base: f64) -> Self {
        Self {
            from: Point::new(x, tile.min.y),
            to: Point::new(x, tile.max.y),
            cut,
            words: Point::new(base, tile.centre().y),
            turn: -90,
        }
    }

    fn above(y: f64, tile: Bounds) -> Self {
        Self::level(y, tile, false, y - OVERLAP_MM / 2.0 + WORDS)
    }

    fn below(y: f64, tile: Bounds) -> Self {
        Self::level(y, tile, true, y + WORDS)
    }

    fn level(y: f64, tile: Bounds, cut: bool, base: f64) -> Self {
        Self {
            from: Point::new(tile.min.x, y),
            to: Point::new(tile.max.x, y),
            cut,
            words: Point::new(tile.centre().x, base),
            turn: 0,
        }
    }

    /// The place for these words where the box round them is clear, the nearest to the middle of
    /// the seam; none when there is none.
    fn clear(&self, words: &str, is_clear: impl Fn(Bounds) -> bool) -> Option<Point> {
        const STEP: f64 = 4.0;
        let long = long(words);
        let along = (self.to - self.from).normalize();
        let reach = (self.to - self.from).norm() / 2.0 - long / 2.0;
        let steps = (reach / STEP).max(0.0) as i32;
        let places = (0..=steps).flat_map(|step| [f64::from(step), f64::from(-step)]);
        let mut places = places.map(|step| self.words + along * (step * STEP));
        places.find(|&place| {
            let mark_in = |share: f64| {
                let mark = self.from + (self.to - self.from) * share;
                (mark - place).dot(&along).abs() < long / 2.0 + MARK
            };
            !mark_in(0.25) && !mark_in(0.75) && is_clear(around(long, place, self.turn))
        })
    }

    fn marked(&self, other: &str, is_clear: impl Fn(Bounds) -> bool) -> Markup {
        let (class, text) = if self.cut {
            ("fine cut", format!("cut here, lay on {other}"))
        } else {
            ("fine", format!("lay {other} up to this line"))
        };
        let place = self.clear(&text, is_clear);
        html! {
            (line(class, &[self.from, self.to]))
            @for share in [0.25, 0.75] { (mark(self.from + (self.to - self.from) * share)) }
            @if let Some(place) = place { (words("word small middle", &text, place, self.turn)) }
        }
    }
}

/// About how long words are, with some room.
fn long(words: &str) -> f64 {
    WORD[1] * words.chars().count() as f64 + 2.0
}

/// The box of words of this length with the middle of their base here, level or read from the
/// right.
fn around(long: f64, place: Point, turn: i32) -> Bounds {
    // Letters stand on their base, which lies to the right of words that are read from there.
    let (along, up) = match turn {
        0 => (Vector::x(), -Vector::y()),
        _ => (Vector::y(), -Vector::x()),
    };
    let (a, b) = (place - along * (long / 2.0), place + along * (long / 2.0));
    Bounds::of_nonempty(&[a, b, a + up * WORD[0], b + up * WORD[0]])
}

fn words(class: &str, words: &str, place: Point, turn: i32) -> Markup {
    html! {
        text class=(class) transform={
            "translate(" (Mm(place.x)) " " (Mm(place.y)) ") rotate(" (turn) ")"
        } { (words) }
    }
}

/// Where the name of a stretch of the cloth stands beside it, and its turn: the clear place nearest
/// to the middle of its longest straight part, on either hand; none where there is none.
fn named(name: &str, points: &[Point], is_clear: impl Fn(Bounds) -> bool) -> Option<(Point, i32)> {
    const STEP: f64 = 4.0;
    // From the line to the near side of the letters.
    const OFF: f64 = 2.2;
    let sides = points.windows(2).map(|pair| (pair[0], pair[1] - pair[0]));
    let (from, side) = sides.max_by(|a, b| a.1.norm().total_cmp(&b.1.norm()))?;
    let level = side.x.abs() >= side.y.abs();
    let (turn, up) = match level {
        true => (0, -Vector::y()),
        false => (-90, -Vector::x()),
    };
    let (size, long) = (side.norm(), long(name));
    let steps = ((size - long) / 2.0 / STEP).floor().max(0.0) as i32;
    // A side that leans comes nearer to the words at one of their ends.
    let lean = side.x.abs().min(side.y.abs()) / side.norm() * long / 2.0;
    let offs = [OFF + lean, -(OFF + lean + WORD[0])];
    let places = (0..=steps).flat_map(|step| [step, -step]).flat_map(|step| {
        let at = from + side * (0.5 + f64::from(step) * STEP / size);
        offs.map(|off| at + up * off)
    });
    let mut places = places.filter(|place| is_clear(around(long, *place, turn)));
    places.next().map(|place| (place, turn))
}

/// The small overview on each sheet: all sheets as boxes, this one filled.
struct Small {
    /// The size of a box.
    step: [f64; 2],
    width: f64,
    shown: bool,
}

impl Small {
    fn of(grid: &Grid) -> Self {
        let [columns, rows] = [grid.columns, grid.rows].map(|count| count as f64);
        let (w, h) = (grid.tile.x, grid.tile.y);
        let scale = (SMALL[0] / (columns * w)).min(SMALL[1] / (rows * h));
        Self {
            step: [w * scale, h * scale],
            width: columns * w * scale,
            shown: grid.rows * grid.columns > 1,
        }
    }

    /// The boxes of all sheets, once for all of them.
    fn define(&self, tiles: &[Tile]) -> Markup {
        let [w, h] = self.step;
        let corner = |tile: &Tile| [Mm(w * tile.column as f64), Mm(h * tile.row as f64)];
        // Drawn nowhere by itself; what is not displayed could not be used.
        html! {
            svg width="0" height="0" style="position:absolute" aria-hidden="true" {
                defs {
                    path.fine id="all" d={
                        @for [x, y] in tiles.iter().map(corner) {
                            "M" (x) "," (y) "h" (Mm(w)) "v" (Mm(h)) "h-" (Mm(w)) "Z"
                        }
                    } {}
                }
            }
        }
    }

    fn show(&self, tile: &Tile, right: f64) -> Markup {
        let [w, h] = self.step;
        let left = right - self.width - 0.2;
        html! {
            use href="#all" x=(Mm(left)) y=".2" {}
            rect.here x=(Mm(left + w * tile.column as f64)) y=(Mm(0.2 + h * tile.row as f64))
                width=(Mm(w)) height=(Mm(h)) {}
        }
    }
}
