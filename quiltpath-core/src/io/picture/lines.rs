//! The lines of all pieces, as every picture of a plan draws them.

use maud::{Markup, html};

use crate::io::again::gone_over;
use crate::io::canvas::{Canvas, kind_of};
use crate::io::over::{goes_over, links_within, twice, within};
use crate::io::signs;
use crate::plan::{Piece, Solved};

/// The lines by keys, in the order of drawing: pieces, links within them, what is stitched twice,
/// what is stitched already. Pieces have their names as ids where they are `named`; on a page with
/// several plans those would come twice.
pub(super) fn lines(canvas: &Canvas, solved: &Solved, named: bool) -> Vec<(String, Markup)> {
    let all = |what: &str, draw: &dyn Fn(&Piece) -> Markup| {
        let pieces = solved.pieces.iter();
        let drawn = pieces.map(|piece| (format!("{what} {}", piece.name), draw(piece)));
        drawn.collect::<Vec<_>>()
    };
    let mut lines = all("piece", &|piece| line_of(canvas, piece, named));
    lines.extend(all("link", &|piece| {
        html! {
            @for link in links_within(piece.motif()) {
                (within(canvas.line(&piece.motif().points()[link])))
            }
        }
    }));
    if goes_over(solved) {
        lines.extend(all("twice", &|piece| {
            html! {
                @for stretch in gone_over(piece.motif().points()) {
                    (twice(canvas.line(&piece.motif().points()[stretch])))
                }
            }
        }));
    }
    lines.extend(all("stitched", &|piece| signs::stitched(canvas, piece)));
    lines
}

/// The line of a piece with its name.
fn line_of(canvas: &Canvas, piece: &Piece, named: bool) -> Markup {
    html! {
        path class={ "line " (piece.kind.name()) } id=[named.then_some(&piece.name)]
            d=(canvas.line(piece.motif().points())) {
            title { (piece.name) ": " (kind_of(&piece.kind)) }
        }
    }
}
