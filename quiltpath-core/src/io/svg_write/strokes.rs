//! The strokes of a drawing as path data, curves and all.

use kurbo::{BezPath, PathEl};

use super::data::Data;
use crate::geom::Point;

/// The data of each subpath, with spaces between; nothing for a path without a segment.
pub(super) fn curves(path: &BezPath) -> String {
    let mut out = String::new();
    let point = |at: kurbo::Point| Point::new(at.x, at.y);
    let mut elements = path.elements().iter().peekable();
    while let Some(element) = elements.next() {
        let PathEl::MoveTo(start) = *element else {
            continue;
        };
        let drawn = |next: &&PathEl| !matches!(next, PathEl::MoveTo(_));
        if elements.peek().is_none_or(|next| !drawn(next)) {
            continue;
        }
        if !out.is_empty() {
            out.push(' ');
        }
        let mut data = Data::start(&mut out, point(start));
        let mut at = start;
        while let Some(element) = elements.next_if(|next| drawn(next)) {
            match *element {
                PathEl::LineTo(to) => {
                    data.line(point(to));
                    at = to;
                }
                PathEl::QuadTo(by, to) => {
                    let [one, two] = [at, to].map(|end| end.lerp(by, 2.0 / 3.0));
                    data.curve([one, two, to].map(point));
                    at = to;
                }
                PathEl::CurveTo(one, two, to) => {
                    data.curve([one, two, to].map(point));
                    at = to;
                }
                PathEl::ClosePath => {
                    data.line(point(start));
                    at = start;
                }
                PathEl::MoveTo(_) => {}
            }
        }
        data.finish();
    }
    out
}
